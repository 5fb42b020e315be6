"""Several figures where a thing has one: "18s and 20s to 0.10", "insert 3BB or 4BB" name two things.

How many there are of each is said of each: "two packs of each", "40g x2 and 50g x1", "10 yellow / 10 blue".
"""

import re
from collections.abc import Sequence

from tacklebox.stock.naming.numbers import ONES, count_of, spoken_number
from tacklebox.stock.naming.said_figures import figures_in
from tacklebox.stock.naming.turns import FEW, PACKETS, saying
from tacklebox.stock.naming.words import COLOURS

_UNIT = r"(?:mm|cm|m|kg|g|gms?|gr|grm|grams?|lbs?|oz|in|inch|ft|bb|aaa|ab|ssg|s)\b"
_NUMBER = r"(?>\d*\.\d+|\d+\s+\d{1,2}/\d{1,2}|\d+(?:/\d+)?)"
_FIGURE = (
    r"(?:(?<![\w.])\d{1,2}\s*(?:[x×]\s*)?no\.?\s*\d{1,2}"  # "4 no 4" of a stick
    r"|\b(?:aaa|ssg|bb|ab)\b"
    rf"|(?:(?:nos?|size|number)\.?\s*|\#)?{_NUMBER}(?:\s*[x×]\s*\d+)?(?:\s*{_UNIT})?)"
)
_JOINED = (
    r"\s*(?:,?\s*\b(?:and|or)\b|&|\+\s*(?=0?\.\d|\d/\d|\d+(?:\.\d+)?\s*mm\b|aaa|ssg|bb|ab|\d{1,2}s\b|no\.?\s*\d))\s*"
    r"(?:(?:one|two|an?\s+[a-z]+)\s+of\s+|an?\s+(?=\d\s*no|\d+(?:bb|aaa|ssg|g)\b))?"
)
_LISTED = r"(?:\s*(?:,|\b(?:and|or)\b|&)\s*|\s+|/(?=\d\s*[x×]))"


def _chain(joint: str, listed: str = r"\s*,\s*") -> re.Pattern[str]:
    return saying(
        rf"(?<![\w./×x-])(?>{_FIGURE})(?>{listed}{_FIGURE})*(?>{joint}{_FIGURE})+(?![\w/×-]|\.\d)"
    )


_BY_AND, _BY_COMMA = _chain(_JOINED), _chain(_LISTED)
_BY_SPACE = _chain(_JOINED, r"(?:\s*,\s*|\s+)")  # "10 15 and 20 g"
_WORDS = "|".join(f"{word}(?:e?s)?" for word in ONES if word not in ("zero", "one", "six"))
_SPOKEN = saying(rf"\b(?:{_WORDS}|six(?:es)?|twenties)\b")
_SPOKEN_SIZES = saying(
    r"\b(?:eights|tens|twelves|fourteens|sixteens|eighteens|twenties|twenty[\s-]twos)\b"
)
_PACKETS = rf"(?:{PACKETS}|couple|pair|dozen)"
_MANY = rf"(?:{FEW}|an?(?=\s+{_PACKETS}))"
_OF_EACH = saying(
    rf"[,:]?\s*\b(?P<many>{_MANY})?\s*(?P<packets>(?<![a-z]){_PACKETS})?\s*(?:of\s+each\b(?:\s+(?:size|one|sort))?|each\s+of\b"
    r"|(?:(?<=\bone\s)|(?<=\d\s))each\b(?=\s+(?:\d?\.)?\d)"
    r"|(?<=\d\s)(?:each|ea)\s*$|(?(packets)each\s*$|(?(many)(?<=[a-z]\s)each\s*$|(?!))))"
)
# Each figure with its own number: "40g x2 and 50g x1", "2 tubs AAA, 1 tub BB".
_ONE = (
    r"(?:(?:nos?|size|number)\.?\s*\d{1,2}s?|\d*\s?(?:bb|aaa|ab|ssg)|\d+\s*[x×]\s*\d+"
    r"|\d*\.\d+\s*[a-z]{0,2}|(?:\d\s+(?=\d/))?\d+(?:/\d+)?\s*(?:g|grams?|oz|ounces?|lbs?|mm|cm|m|inch|in|s)|\d/\d)(?![a-z\d.])"
)
_NEXT = r"\s*(?:,\s*(?:and\s+)?|\b(?:and|plus)\b|[&+]|(?<!\d)/(?!\d)|(?<=[\w.])\s)\s*"
_TIMES = (
    rf"(?P<figure>{_ONE}(?:\s+[a-z]{{3,}}){{0,2}})\s*[x×]\s*(?P<many>\d{{1,2}})\b"
    rf"(?P<behind>\s+{_PACKETS}\b)?"
)
_SO_MANY = (
    rf"\b(?P<many>{_MANY}|an?)(?P<packets>\s*{_PACKETS}(?:\s+of)?|\s*[x×]|\s+of(?:\s+the)?)?"
    rf"\s+(?P<figure>{_ONE})(?P<behind>\s+{_PACKETS}\b)?"  # "2 no 8 tubs"
)
_PACKETS_OF_A_SIZE = (  # "4pk 16 and 4pk 18"
    rf"\b(?P<many>{_MANY})(?P<packets>\s*{_PACKETS}(?:\s+of)?)\s+(?:size\s+)?(?P<figure>\d{{1,2}})"
    r"(?![\w./]|\s*(?:g|oz|mm|cm|m|in|lb)\b)"
)
_BEHIND = (  # "1/2 oz 5 and 1/4 oz 7"
    r"(?P<figure>(?:\d+(?:\.\d+)?|\d/\d|half|quarter)\s*(?:g|gram|grams|oz|ounce|cm)(?:\s+[a-z]{3,}){0,2}"
    r"|\d{1,2}\s?(?:bb|aaa|ab|ssg))\s+"
    rf"(?P<many>{FEW})(?!\s*(?:g|oz|mm|cm|m|in|lb|gram|grams|ounce|bb|aaa|ab|ssg|no)\b|[\d./])(?P<behind>\s+"
    rf"{_PACKETS}\b)?"
)
_SIZES_IN_WORDS = r"(?:heavy|light|large|lge|lrg|medium|med|small|sml|mini|big)(?:e?s)?"
_OF_COLOUR = (  # "10 yellow / 10 blue", "two smalls and one large"
    rf"(?P<many>{FEW})\s+(?:(?:of\s+(?:the\s+)?(?:same\s+)?)?(?:in|with(?:\s+an?)?)?\s*)?"
    rf"(?P<colour>(?:{'|'.join(COLOURS)})(?=s?\b)|{_SIZES_IN_WORDS}\b)(?:s\b)?(?P<of>\s+(?:tips?|tops?))?(?:\s+ones?)?"
)
_EACH_COLOUR = saying(  # "yellow & red, one of each"
    rf"\b(?P<one>{'|'.join(COLOURS)})\s*(?:and|&|/|,)\s*(?P<other>{'|'.join(COLOURS)})[,\s]+"
    rf"(?P<many>{FEW})\s+(?:of\s+)?each\b"
)
_TOTAL = saying(r"^(?:box|pack|packet|set)\s+of\s+\d{1,2}\s+(?=[a-z])")
_PACKETS_OF = saying(rf"\b{_PACKETS}\s+of\b[^:]*:")  # "5 packets of hooks: 2 of 14s"
_BY_SHOT = saying(r"\b(?:sticks?|floats?|wag(?:gler)?s?|avons?)\b")  # "5 no 4"
_SO_MANY_PACKETS = saying(rf"(?<!\w)(?P<many>{_MANY})\s+(?:(?!of\b)\w+\s+){{0,2}}{_PACKETS}\b")
_LONG_EACH = saying(r"\b\d+\s*(?:m|yds?|metres?)\s+each\b")
_EACH = saying(r"\b(?:each|ea|apiece|per)\b")
_PACKETS_BEHIND = (  # "AAA shot 2 tubs, BB 3 tubs, no 4 one tub"
    rf"(?P<figure>\b(?:aaa|ab|bb|ssg|no\.?\s*\d{{1,2}}))s?(?:\s+shot)?\s+(?P<many>{FEW})(?P<behind>\s+{PACKETS}\b)"
)


def _one_by_one(one: str) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """Several of one sort that follow one another, and one of them."""
    plain = re.sub(r"\?P<\w+>", "?:", one)
    return saying(rf"(?<![\w.]){plain}(?:{_NEXT}{plain})+(?![\w.])"), saying(one)


_COUNTED = [
    _one_by_one(one) for one in (_TIMES, _SO_MANY, _PACKETS_OF_A_SIZE, _PACKETS_BEHIND, _BEHIND)
]
_BY_COLOUR, _COLOURED = _one_by_one(_OF_COLOUR)
_STROKES = saying(  # "16/18/20 eyed", "4BB/5BB inserts"
    r"(?<![\d/×x])(?<!\d\.)(?:\d{1,2}(?:(?:/\d{1,2}){2,}|(?:\s+/\s+\d{1,2}(?!/)){2,})(?:\s*(?P<last>g|oz|mm|lb)\b)?(?![\w./])"
    r"|\d?\.\d+(?:\s*/\s*\d?\.\d+)+(?:\s*(?P<thick>mm|g)\b|(?![\w./]))"
    r"|\d{1,2}(?P<unit>bb|aaa|ab|ssg|g|oz|lb)(?:/\d{1,2}(?P=unit))+\b)"
)
_SIZES = saying(r"\bsizes\s+(?P<first>\d{1,2})\s*(?:to|-)\s*(?P<last>\d{1,2})\b")
_OF = saying(r"\bo'\s*(?=each\b)")
_BY_LETTERS = saying(
    r"\b(?:ssg|swan|aaa|bb)s?[\s,]+(?:and\s+)?(?:aaa|bb|ab)s?[\s,]+(?:and\s+)?(?:no\.?\s*)?\d"
)
_NUMBERED = saying(r"(?:\d{1,2}\s*)?no\.?\s*\d")  # a size of shot, as "BB" is
_PLUS = saying(r"(?<=\d)\s*(?:g|oz)?\s*\+\s*(?=\d+\s*(?:g|oz)\b)")
_PLUS_SIZES = saying(r"(?<=\d)\s+\+\s+(?=\d{1,2}\s+[a-z]{3})")
_OF_ONE_MASS = saying(r"\b(?:plummet|feeder|bomb|cage|lead|method|hybrid)s?\b")
_MARKED = (
    r"(?:\d\s*[x×]\s*\d\d|\d+(?:\.\d+)?\s*(?:g|oz|bb|aaa|ssg)|\d\s*no\.?\s*\d)(?:\s+[a-z]+){1,2}"
)
_WORDED = saying(
    rf"^(?P<head>[a-z][a-z\s]+?)[,:]?\s+(?P<list>{_MARKED}(?:\s*,\s*{_MARKED})+)\s*,\s*(?P<many>{FEW})\s+of\s+each$"
)
_LETTERS = ("bb", "aaa", "ab", "ssg")
_SET_OF = saying(r"^(?:an?\s+)?(?:set|box|pack|packet)\s+of\s+(?P<all>\d{1,2})\s+(?=[a-z])")
_WHOLE_SET = saying(rf"[,\s]*\b(?:an?\s+)?set\s+of\s+(?P<all>{FEW})(?![\w.])")
_SO_MANY_LENGTHS = saying(r"\b(?P<all>[2-9])\s*x\s*(?=\d+\s*(?:cm|m)\b)")  # of three bores
_SO_MANY_IN_ALL = saying(rf"^(?P<all>{FEW})\s+(?=[a-z])(?!(?:no|of|x)\b|{PACKETS}\b)")
_WIDEST = 12  # from the largest hook of a run to the smallest
_FRACTION_AFTER_AND = saying(r"(?<![/\d])\d+\s+and\s+\d+/\d+")


def each_counted(text: str) -> tuple[str, ...]:
    """The phrase with one figure at a time where each has a number of its own; else nothing.

    >>> each_counted("cages 40g x2 and 50g x1")
    ('cages 40g x 2', 'cages 50g x 1')
    >>> each_counted("AAA and BB shot, 2 tubs AAA 1 tub BB, soft")
    ('2 tubs of shot, AAA , soft', '1 tub of shot, BB , soft')
    """
    every = (_each_by(text, chain, one) for chain, one in _COUNTED)
    return max(every, key=len)  # "1/2oz 10 3/4oz 8 1oz 6" is no "10 3/4oz 8 1oz"


def _each_by(text: str, chain: re.Pattern[str], one: re.Pattern[str]) -> tuple[str, ...]:
    found = chain.search(text)
    if found is None or _PACKETS_OF.search(text, 0, found.start()):
        return ()
    parts = list(one.finditer(found.group()))
    packets = [_packets_of(part) for part in parts]
    figures = [part["figure"].strip().lower() for part in parts]
    sorts = {said.sort for figure in figures for said in figures_in(figure)[:1]}
    shot = sorts <= {"mark", "number"} and all(packets)  # "BB 3 tubs, no 4 one tub"
    marks = all(
        figure.startswith("no") and not held for figure, held in zip(figures, packets, strict=True)
    )
    if len(set(figures)) < 2 or (len(sorts) != 1 and not shot):
        return ()
    if marks and _BY_SHOT.search(text):
        return ()
    every = "|".join(map(re.escape, figures))
    listed = saying(rf"(?<![\w.])(?:{every})(?:\s*(?:,|and|&|or)\s*(?:{every}))+(?![\w.])")
    head, rest = (listed.sub("", said) for said in (text[: found.start()], text[found.end() :]))
    if packets[0] and not any(packets[1:]):  # "one spool of 0.10 and two of 0.12"
        packets = packets[:1] * len(parts)
    head = _without_their_sum(head.strip(), parts)
    each = zip(parts, packets, strict=True)
    return tuple(_counted(part, held, head, rest.strip()) for part, held in each)


def each_coloured(text: str) -> tuple[str, ...]:
    """The phrase with one colour at a time where each has a number of its own; else nothing.

    >>> each_coloured("winders 18cm 10 yellow / 10 blue")
    ('winders 18cm yellow, 10 of them', 'winders 18cm blue, 10 of them')
    """
    text = _EACH_COLOUR.sub(_one_of_each_colour, text)
    found = _BY_COLOUR.search(text)
    if found is None:
        return ()
    parts = list(_COLOURED.finditer(found.group()))
    head, rest = text[: found.start()].strip(" ,"), text[found.end() :].strip()
    if len({part["colour"].lower() for part in parts}) < 2 or not re.search("[a-z]", head):
        return ()
    head = _TOTAL.sub("", _without_their_sum(head, parts))
    each = (
        f"{_plain_size(p['colour'])}{p['of'] or ''}, {count_of(p['many'])} of them" for p in parts
    )
    return tuple(f"{head} {one} {rest}".strip() for one in each)


def _one_of_each_colour(found: re.Match[str]) -> str:
    return f"{found['many']} {found['one']} and {found['many']} {found['other']}"


def _plain_size(said: str) -> str:
    """ "smalls" as "small"."""
    return said if said.lower() in COLOURS else said.removesuffix("s")


def _without_their_sum(head: str, parts: Sequence[re.Match[str]]) -> str:
    """ "Two pellet wags, one 4 g and one 8 g": the first number is that of all of them."""
    total = sum(count_of(part["many"]) for part in parts)
    if head.endswith((f" x{total}", f" x {total}")):  # "hollow tip x6 3 yellow 3 red"
        return head[: head.rindex(" x")]
    first, _, named = head.partition(" ")
    return named if named and count_of(first) == total else head


def _counted(part: re.Match[str], packets: str, head: str, rest: str) -> str:
    figure, many = part["figure"].strip(), part["many"]
    words = " ".join(said for said in (head, figure) if said)
    if packets:
        return f"{many} {packets} of {words} {rest}".strip()
    if "packets" in part.groupdict():
        return f"{'1' if many.lower() in ('a', 'an') else many} x {words} {rest}".strip()
    return f"{words} x {many} {rest}".strip()


def _packets_of(part: re.Match[str]) -> str:
    """The packets of a part, "" where there are none: "two packs of", "three of the"."""
    groups = part.groupdict()
    said = groups.get("packets") or groups.get("behind") or ""
    return re.sub(r"\s*\bof\b(?:\s+the)?\s*$|\s*[x×]\s*$", "", said.strip(), flags=re.IGNORECASE)


def in_figures(text: str) -> str:
    """The phrase with sizes in figures that are said in words: "one of eighteens" as "one of 18s"."""
    return _SPOKEN_SIZES.sub(lambda said: _in_figures(said.group().lower()), text)


def says_of_each(text: str) -> bool:
    """Whether it is said that there are so many of each."""
    return bool(_OF_EACH.search(text))


def each_worded(text: str) -> tuple[str, ...]:
    """The phrase with one figure and its words at a time, where there are so many of each; else nothing.

    >>> each_worded("pole floats 4x12 diamond, 4x14 slim, 3 of each")
    ('3 x pole floats 4x12 diamond', '3 x pole floats 4x14 slim')
    """
    found = _WORDED.match(text)
    if found is None:
        return ()
    each = (f"{found['head']} {one.strip()}" for one in found["list"].split(","))
    return tuple(f"{found['many']} x {one}" for one in each)


def one_each(text: str, *, listed: bool = False) -> tuple[str, ...]:
    """The phrase with one figure at a time where several are joined by "and" or "or"; else nothing.

    ``listed``: figures that only commas or spaces part are several too.

    >>> one_each("18 & 20 to .10"), one_each("30 and 40g cages"), one_each("1 and 1/2 oz bomb")
    (('18 to .10', '20 to .10'), ('30g cages', '40g cages'), ())
    >>> one_each("three spools of line 0.14, 0.16 and 0.18")[0]
    'one spools of line 0.14'
    >>> one_each("4x14, 4x16 wire pole", listed=True), one_each("nylon 0.14, 4 lb", listed=True)
    (('4x14 wire pole', '4x16 wire pole'), ())
    """
    if in_a_set := _WHOLE_SET.search(text):  # "a set of 5, 4 no 4, 5 no 4, ..."
        without = _each_listed(_WHOLE_SET.sub("", text, count=1).strip(" ,"), listed=listed)
        if len(without) == count_of(in_a_set["all"]):
            return without
    each = _each_listed(text, listed=listed)
    whole = (
        _WHOLE_SET.search(text)
        or _SO_MANY_LENGTHS.search(text)
        or (says_of_each(text) and _SO_MANY_IN_ALL.match(text))
    )
    if len(each) < 3 or not whole or count_of(whole["all"]) != len(each):
        return each
    return tuple(whole.re.sub("", one, count=1).strip(" ,") for one in each)  # "set of three"


def _each_listed(text: str, *, listed: bool) -> tuple[str, ...]:
    if _BY_LETTERS.search(text):  # "SSG AAA BB 4 6 and 8s"
        return ()
    text = _SIZES.sub(_between, _OF.sub("of ", text))
    of_each = _OF_EACH.search(text)
    text = _PLUS.sub(" and ", text) if of_each or _OF_ONE_MASS.search(text) else text
    text = _PLUS_SIZES.sub(" and ", text) if of_each else text
    of_each = _OF_EACH.search(text)
    if of_each and (whole := _SET_OF.match(text)):
        many = count_of(of_each["many"] or of_each["packets"] or "a")
        if many and int(whole["all"]) > many and int(whole["all"]) % many == 0:
            text = text[whole.end() :]  # "set of 8 floats 4x10 4x12 4x14 4x16, two of each"
            of_each = _OF_EACH.search(text)
    text = _OF_EACH.sub(_in_its_place, text).strip(" ,")
    text = _SPOKEN.sub(lambda said: _in_figures(said.group().lower()), text)
    if strokes := _STROKES.search(text):  # "16/18/20 eyed"
        unit = strokes["last"] or strokes["thick"] or ""
        figures = [
            f"{one.strip().removesuffix(unit).strip()}{unit}" for one in strokes.group().split("/")
        ]
        each = tuple(f"{text[: strokes.start()]}{f}{text[strokes.end() :]}" for f in figures)
        return tuple(_so_many(of_each, one) for one in each)
    chains = [(_BY_COMMA, True)] if listed else [(_BY_SPACE, False), (_BY_AND, False)]
    chains += [(_BY_COMMA, True)] if of_each else []
    for chain, by_comma in chains:
        found = chain.search(text)
        if found and (each := _one_of_each(text, found, listed=by_comma)):
            each_one = of_each is not None and (of_each["many"] or "a") in ("a", "one", "1")
            all_of = each_one or not (of_each or _EACH.search(_LONG_EACH.sub("", text)))
            alone = [_of_all(one, len(each)) for one in each] if all_of else each
            return tuple(_so_many(of_each, one) for one in alone)
    return ()


def _of_one_unit(figures: Sequence[str]) -> int:
    """How many of the figures are one list: "0.5, 0.8, 1.0 mm, 30 cm each" are three and another."""
    at = next((at for at, figure in enumerate(figures) if _unit(figure)), len(figures))
    return at + 1 if at > 1 else len(figures)


def _of_all(text: str, sizes: int) -> str:
    """ "Three spools" of three sizes are one of each."""
    said = _SO_MANY_PACKETS.search(text)
    if said is None or _in_figures(said["many"].lower()) != str(sizes):
        return text
    return f"{text[: said.start('many')]}one{text[said.end('many') :]}"


def _in_its_place(of_each: re.Match[str]) -> str:
    """What is of each, as it is said of one, where more follows it: ", two packs"."""
    if _stands_apart(of_each):
        return ""
    many, packets = of_each["many"] or "a", of_each["packets"]
    return f", {many} {packets}" if packets else f", {many} of them"


def _so_many(of_each: re.Match[str] | None, phrase: str) -> str:
    """The phrase with what stood first or last and is of each: "two packs of each"."""
    if of_each is None or not _stands_apart(of_each):
        return phrase
    many, packets = of_each["many"] or "a", of_each["packets"]
    if not packets and many.lower() in ("a", "1", "one"):
        return phrase
    return f"{many} {packets} of {phrase}" if packets else f"{many} x {phrase}"


def _stands_apart(of_each: re.Match[str]) -> bool:
    """Whether it stands first or last, or says no number, so that nothing hangs on its place."""
    one = not of_each["packets"] and (of_each["many"] or "one").lower() in ("1", "one")
    return one or not of_each.start() or not re.search(r"\w", of_each.string[of_each.end() :])


def _one_of_each(text: str, found: re.Match[str], *, listed: bool) -> tuple[str, ...]:
    if _FRACTION_AFTER_AND.search(found.group()):
        return ()
    said = list(re.finditer(_FIGURE, found.group(), re.IGNORECASE))
    said = said[: _of_one_unit([one.group() for one in said])] if listed else said
    figures = [one.group() for one in said]
    parts = all("/" in figure for figure in figures)  # "1/2 oz and 3/4 bombs"
    unit = _unit(figures[-1]) or (_unit(figures[0]) if parts else "")
    bare = len(figures) > 2 and not any(map(_unit, figures[:-1]))  # "20, 30, 40g"
    pointed = bare and unit in ("g", "mm")  # "0.4, 0.6, 1g"
    units = ["" if bare or _unit(f) in _LETTERS else _unit(f) for f in figures]
    forms = {
        (its_unit, "." in f and not (pointed or its_unit), f[:1].isalpha())
        for f, its_unit in zip(figures, units, strict=True)
    }
    if listed and len(forms) > 1:
        return ()  # "no 8 50g" are two figures of one thing
    whole = [f if _unit(f) or not unit or f[:1].isalpha() else f"{f}{unit}" for f in figures]
    lettered = all(f.isalpha() or _unit(f) in _LETTERS or _NUMBERED.match(f) for f in whole)
    if len({_unit(f) for f in whole}) > 1 and not lettered:
        return ()
    start, end = found.start(), found.start() + said[-1].end()
    each = tuple(f"{text[:start]}{figure}{text[end:]}" for figure in dict.fromkeys(whole))
    return each if len(each) > 1 else ()


def _between(sizes: re.Match[str]) -> str:
    """ "Sizes 16 to 20" as 16, 18 and 20."""
    first, last = int(sizes["first"]), int(sizes["last"])
    if first % 2 or last % 2 or not 0 < last - first <= _WIDEST:
        return sizes.group()
    every = [str(size) for size in range(first, last + 1, 2)]
    return f"{', '.join(every[:-1])} and {every[-1]}"


def _in_figures(word: str) -> str:
    """ "eights" as "8s", "ten" as "10"."""
    number, _, plural = spoken_number([word], 0) or (word, 1, False)
    return f"{number}s" if plural else number


def _unit(figure: str) -> str:
    ends = re.search(rf"{_UNIT}$", figure, re.IGNORECASE)
    return ends.group().lower() if ends else ""
