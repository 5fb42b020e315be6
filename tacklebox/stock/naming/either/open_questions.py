"""What may be meant, too, where something is asked already: so many of it, or an assorted lot."""

import re
from collections.abc import Iterator
from dataclasses import replace

from tacklebox.stock.naming.asides import has_number
from tacklebox.stock.naming.asking import MOST_READINGS
from tacklebox.stock.naming.described import (
    FIGURES_OF,
    Described,
    Question,
    assumed,
    goes_by,
    mass,
    pieces,
    word,
)
from tacklebox.stock.naming.either.amounts import kept_in
from tacklebox.stock.naming.either.left_over import others_of_its_sort, packets_of_so_many
from tacklebox.stock.naming.either.numbers import HOOK_SIZES, the_other_way
from tacklebox.stock.naming.either.other_counts import other_counts, spelt_counts
from tacklebox.stock.naming.either.said import bare, is_untold
from tacklebox.stock.naming.either.terse import so_many_spools
from tacklebox.stock.naming.hooks import usual_lines
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.own import is_own, own_thing
from tacklebox.stock.naming.several import says_of_each
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import MANY, PACKETS, saying
from tacklebox.stock.naming.usual import CHOICE, NYLON, usual_pack
from tacklebox.stock.naming.words import WORDS
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import MEASURED_KINDS, UNMARKED, Kind

_ANY_FIGURE = r"\d\s+\d/\d|\d/\d|\d*\.?\d+"
FEWEST_LISTED = 3  # figures that were said of several things
MOST_FLOATS = 12  # that a bare number behind a comma may be
_MIXED = saying(
    r"\b(?:all\s+sorts|assorted|asst\.?|asstd|assort(?:ment)?|mixe?d|mix|various|set\s+of|set|job\s+lot|\d+\s+sizes|selection|odd|odds|no\s+lead|unweighted|no\s+weight)\b"
    r"|\d\s*mm\b|\d\s*(?:g|oz)?\s*(?:to|-|–)\s*\d"
)
USUAL_HOOK = "18"  # of hooklengths that are counted and have none said
GRAMS = range(5, 61)  # of a lead
_TWO_NUMBERS = saying(r"^(?:[a-z]+\s+){0,2}(\d{1,2})\s+(?:[a-z]+\s+)?(\d{1,2})(?:\s+[a-z]+)?$")
_SPOOL_OF = saying(r"(?:an?\s+)?spool\s+of\s+(\d{1,2})s?")
_TWO_SIZES = saying(r"(\d{1,2})s\s*(?:and|&|,|\+)\s*(\d{1,2})s")
_SIZED = saying(r"\bsize\b|\d\s*(?:lb|mm|to)\b|\.\d")
_STRAIN = saying(r"\d+(?:\.\d+)?\s*lbs?")
_HOOKS = saying(r"\bhair\s+hooks?\b|\bhooks\b.*\bfor\s+hair\b")
_OWN_WORDS = saying(r"\btraces?\b|\blink\s+led?gers?\b")
_SAYS_WHICH = ("mass", "mark", "material")  # and what is assumed
_OF_SEVERAL = saying(
    r"\bdispenser\b|\beach\b(?!\s*$)|\bof\s+each\b|\b(?:packet|pkt|pack|tub|spool|card)\s+each\b"
)
_SIZES_ALONE = saying(r"(\d{1,2})s?[\s,]+(\d{1,2})s")
_THING_AND_NUMBER = saying(r"[a-z]+(?:\s+[a-z]+)?\s+(\d{1,2})")
_PAIR = ("one", "other")
_A_PAIR = saying(r"\b(?:pair|pr)$")
_PACKETS_AND_HELD = saying(
    r"\b(?P<packs>[2-9])\s*(?:pkts?|packets?|packs?|pks?)\b.*?(?<![\w.])\(?(?P<held>5|6|8|10|12|15|20|25)s\)?$"
)
_JOINED = saying(r"\b(?:and|plus|with|w/|same|ditto|too|also)(?!\w)|[&+]")
_SORTED = saying(
    r"\b(?:mixe?d|assorted|asst\.?|asstd|various|all\s+sorts|(?:different|mixed)\s+sizes)\b"
)
_SIZED_KINDS = (Kind.HOOK, Kind.HOOKLENGTH, Kind.PART, Kind.ELASTIC)
_MANY_LOOSE = saying(
    rf"[,\s]*\b(?:about\s+)?(?P<many>{MANY})\s+(?:loose|of\s+(?:them|'?em)(?:\s+loose)?)\b|[,\s]*\babout\s+(?P<about>{MANY})$"
)
_HOW_MUCH_OF_IT = saying(
    rf"[,\s]*\b(?:(?:about|approx\.?)\s+)?(?:{MANY}|an?)\s+(?:{PACKETS}(?:\s+of\b)?|doz(?:en)?|loose|of\s+(?:them|'?em))\b"
    rf"|[,\s]*\babout\s+{MANY}$|[,\s]*£\d+(?:\.\d\d)?(?:\s+(?:each|ea|the\s+lot))?"
)
_AND_ONE_MORE = saying(
    r"(?:\band|&|\+|\bplus)\s+(?:an?\s+|the\s+|some\s+)?(?P<other>[a-z][a-z\s-]{2,30}?)\s*(?=£|$|,)"
)
_JOINS = saying(r"^(?:\+|and|plus)\s+(?:an?\s+|the\s+|some\s+)?")
_NOTED_NUMBER = saying(rf"\b(?P<many>{MANY})\s+(?:of\s+(?:them|'?em|these)|loose|left)\b")
_BIG = r"(?:extra\s+small|small|medium|large|micro|mini|sml?|med|lge|lrg)"
_TWO_BIG = saying(rf"\b{_BIG}\s*(?:and|&|\+)\s*{_BIG}\b")
_TWO_OF_OUNCES = saying(r"(?<=[a-z])\s+([13])\s+([248])\s?oz\b")
_TWO_MASSES = saying(r"\d\s*(?P<unit>g|oz),\s*\d[\d./]*\s*(?P=unit)\b")
_SO_MANY_FLOATS = saying(
    r"(?:[a-z]\s+|,\s*|^)(?P<many>[2-9]|[12]\d|30|two|three|four|five|six)(?=$|\s+[a-z]|\s*[,(])"
)


def with_more(text: str, made: Question) -> Question:
    """The question, with what else may be meant."""
    made = spelt_counts(text, others_of_its_sort(text, made))
    more = [one for rule in (*_RULES, other_counts) for one in rule(text, made)]
    more = [one for at, one in enumerate(more) if one not in (*made.readings, *more[:at])]
    own = [one for one in more if is_own(one)]
    more = [one for one in more if one not in own[1:]]
    made = _one_at_a_time(text, made)
    if not more:
        return _lots_first(text, made)
    return _lots_first(
        text, replace(made, readings=(*made.readings[: MOST_READINGS - len(more)], *more))
    )


def _one_at_a_time(text: str, made: Question) -> Question:
    """What is said of each of several sizes is asked as several things, and not which of them it is."""
    of_sizes = made.about in ("mark", "size", "diameter", "mass") and len(made.readings) > 1
    sorts = {one.words_of(made.about) for one in made.readings}
    unlike = len(sorts) == len(made.readings) > 1
    if made.about == "sort" and len(sorts) > 1 and not unlike and says_of_each(text):
        plain = [one for one in made.readings if "size" not in one.figures]
        made = replace(made, readings=tuple(plain)) if len(plain) == len(sorts) else made
        unlike = len(plain) == len(sorts)
    joined = _JOINED.search(text) or says_of_each(text)
    sized = made.about == "size" and _TWO_BIG.search(text) and not _SORTED.search(text)
    both = (made.about in ("sort", "grade", "diameter") or sized) and unlike and joined
    each = of_sizes and (_OF_SEVERAL.search(text) or _all_said(text, made))
    if not (each or both) or made.answer_like:
        return made
    asks = f'"{text}" names several things: one at a time.'
    return replace(made, about="several", asks=asks)


def _all_said(text: str, made: Question) -> bool:
    """Whether three or more figures were said, each for a thing of its own: ".1 .2 .4 olivettes"."""
    figures = {
        re.sub(r"\s+[a-z].*", "", words)
        for one in made.readings
        if (words := one.words_of(made.about))
    }
    numbers = {number.lstrip("0") for number in re.findall(_ANY_FIGURE, text)}
    fewest = 2 if made.about == "mass" and _TWO_MASSES.search(text) else FEWEST_LISTED
    return len(figures) >= fewest and {one.lstrip("0") for one in figures} <= numbers


def _so_many(text: str, made: Question) -> Iterator[Described]:
    """ "Feeders 11" may be eleven of them."""
    for one in made.readings[:1] if made.about in ("shape", "mass") else ():
        said, _, unit = one.words_of("mass").partition(" ")
        in_figures = re.search(rf"{bare(said)}(?!\s*(?:g|oz|\d))", text, re.IGNORECASE)
        if one.kind is Kind.FEEDER and said.isdecimal() and is_untold(one) and in_figures and unit:
            unmarked = replace(one, figures={**one.figures, "mass": word(UNMARKED)})
            yield _so_many_of_it(text, unmarked, int(said))


def _so_many_of_it(text: str, one: Described, many: int) -> Described:
    """So many of it, for what was paid for all, unless each is priced."""
    cents = one.price_cents
    shared = cents and not re.search(r"\b(?:each|ea|apiece)\b", text)
    return replace(one, count=many, price_cents=round(cents / many) if cents and shared else cents)


def _so_many_tubs(_: str, made: Question) -> Iterator[Described]:
    """ "4 no 4s" may be four tubs."""
    for one in made.readings if made.about == "kind" else ():
        if one.kind is Kind.WEIGHT and one.words_of("form") == "shot" and one.count:
            yield replace(one, count=None, packs=one.count)


def _so_many_floats(text: str, made: Question) -> Iterator[Described]:
    """ "Clear loaded wag, 4" may be four of them."""
    found = _SO_MANY_FLOATS.search(text)
    unmarked = any(one.count and one.words_of("mark") == UNMARKED for one in made.readings)
    for one in made.readings[:1] if found and made.about == "mark" and not unmarked else ():
        if found and one.kind is Kind.FLOAT and is_untold(one):
            figures = {**one.figures, "mark": word(UNMARKED)}
            yield _so_many_of_it(text, replace(one, figures=figures), count_of(found["many"]))


def _so_many_packets(text: str, made: Question) -> Iterator[Described]:
    """ "3 x 10 round bend hooks size 14" may be three packets of ten."""
    for one in made.readings if made.about in ("pack", "count") else ():
        if not one.count or not one.pack or one.pack.because:
            continue
        first = re.match(rf"{one.count}\s+[a-z].*{one.pack.words}$", text, re.IGNORECASE)
        if first or re.search(rf"\b{one.count}\s*[x×]\s*{one.pack.words}\b", text):
            yield replace(one, packs=one.count, count=None)


def _few_packets(text: str, made: Question) -> Iterator[Described]:
    """ "Hair rigs x 2" may be two packets."""
    found = re.search(r"\bx\s*([2-5])$", text, re.IGNORECASE)
    kinds = [one for one in made.readings if one.kind in (Kind.HOOK, Kind.WEIGHT)]
    several = {"size": made.readings[:1], "diameter": made.readings[:1], "kind": kinds}
    for one in several.get(made.about, ()) if found else ():
        if found and one.pack and not one.pack.because and one.pack.words == found.group(1):
            yield replace(one, packs=int(found.group(1)), pack=usual_of(one))


def _tied_as_well(_: str, made: Question) -> Iterator[Described]:
    """ "18s" may be hooks that are tied to line."""
    for one in made.readings if made.about == "kind" else ():
        if one.kind is Kind.HOOK and one.figures.keys() == {"size"} and not one.note:
            fitting = (pair for pair in usual_lines() if pair["size"] == one.figures["size"])
            for pair in fitting:
                yield replace(one, kind=Kind.HOOKLENGTH, figures={**pair, "material": NYLON})


def _so_many_priced(text: str, made: Question) -> Iterator[Described]:
    """ "Hooks 12, 10 x £2.20" may be ten packets at that."""
    for one in made.readings[:1] if made.about == "price" else ():
        if one.kind is Kind.HOOK and one.count and re.search(rf"\b{one.count}\s*[x×]\s*£", text):
            yield replace(one, packs=one.count, count=None)


def _so_many_tied(text: str, made: Question) -> Iterator[Described]:
    """ "Spare hooklengths 16" may be sixteen of them."""
    for one in made.readings[:1] if made.about == "diameter" else ():
        size = one.words_of("size")
        tied = one.kind is Kind.HOOKLENGTH and size.isdecimal() and is_untold(one)
        if tied and re.search(bare(size), text):
            figures = {**one.figures, "size": word(USUAL_HOOK)}
            yield replace(one, figures=figures, count=int(size))


def _of_two_numbers(text: str, made: Question) -> Iterator[Described]:
    """ "Hooks 16 20" and "bombs 10 15" may be so many of the other."""
    found = _TWO_NUMBERS.search(text)
    for one in made.readings[:1] if found else ():
        key = {Kind.HOOK: "size", Kind.FEEDER: "mass"}.get(one.kind)
        usual = HOOK_SIZES if key == "size" else GRAMS
        if found is None or key is None or not all(int(n) in usual for n in found.groups()):
            continue
        for many, of in (found.groups(), reversed(found.groups())):
            figure = word(of) if key == "size" else mass(f"{of} g")
            figures = {**one.figures, key: figure}
            yield replace(one, figures=figures, pack=usual_of(one), packs=None, count=int(many))


def _elastics(text: str, made: Question) -> Iterator[Described]:
    """ "4s and 6s" may be elastics, a "spool of 12" one."""
    found = _TWO_SIZES.fullmatch(text) if made.about == "several" else _SPOOL_OF.fullmatch(text)
    for grade in found.groups() if found else ():
        yield Described(Kind.ELASTIC, {"grade": word(grade)}, usual_pack(Kind.ELASTIC, {}))


def _other_lines(text: str, made: Question) -> Iterator[Described]:
    """ "6lb" may be fluorocarbon, braid, or line for hooklengths."""
    for one in made.readings[:1] if _STRAIN.fullmatch(text) else ():
        if one.kind is not Kind.LINE:
            continue
        yield replace(one, note="hooklength line", pack=usual_pack(one.kind, {}, "hooklength line"))
        for material in ("fluorocarbon", "braid"):
            other = replace(one, figures={**one.figures, "material": word(material)})
            yield replace(other, pack=usual_of(other))


def _loose_hooks(text: str, made: Question) -> Iterator[Described]:
    """ "Hair hooks 12 eyed, 3 pkts of 10" may be loose, for hair rigs."""
    for one in made.readings[:1] if made.about == "diameter" and _HOOKS.search(text) else ():
        if one.kind is Kind.HOOKLENGTH and "size" in one.figures:
            figures = {key: f for key, f in one.figures.items() if key in FIGURES_OF[Kind.HOOK]}
            note = ", ".join(filter(None, (one.note, "hair rigging")))
            yield replace(one, kind=Kind.HOOK, figures=figures, note=note)


def _of_both_sizes(text: str, made: Question) -> Iterator[Described]:
    """ "12 16s" may be hooks of both sizes."""
    found = _SIZES_ALONE.fullmatch(text) if made.about == "kind" else None
    hooks = [one for one in made.readings if one.kind is Kind.HOOK]
    for size in found.groups() if found and hooks else ():
        if int(size) in HOOK_SIZES:
            figures = {**hooks[0].figures, "size": word(size)}
            yield replace(hooks[0], figures=figures, count=None, packs=None)


def _so_heavy(text: str, made: Question) -> Iterator[Described]:
    """ "Bombs 4" may weigh as much."""
    found = _THING_AND_NUMBER.fullmatch(text) if made.about == "mass" else None
    for one in made.readings[:1] if found else ():
        if found and one.kind is Kind.FEEDER and one.count == int(found[1]):
            units = [
                unit for unit, many in (("oz", range(1, 7)), ("g", GRAMS)) if one.count in many
            ]
            for unit in units:
                yield replace(
                    one, figures={**one.figures, "mass": mass(f"{found[1]} {unit}")}, count=None
                )


def _one_of_each(text: str, made: Question) -> Iterator[Described]:
    """ "3SSG & 4SSG pair" may be one of each."""
    if made.about == "several" and len(made.readings) == len(_PAIR) and _A_PAIR.search(text):
        for one in made.readings:
            if one.count == len(_PAIR):
                yield replace(one, count=1)


def _kept_in(text: str, made: Question) -> Iterator[Described]:
    """ "2 dozen, box 4" may say where they are kept, and not what a packet holds."""
    for one in made.readings:
        if other := kept_in(text, one):
            yield other


def _held_by_each(text: str, made: Question) -> Iterator[Described]:
    """ "Beads med 2 pkt 8s" may be two packets of eight, and "2pk 14 eyed (10s)" of ten."""
    found = _PACKETS_AND_HELD.search(text)
    for one in made.readings if found and made.about in ("size", "count", "pack") else ():
        if found and one.pack and one.pack.words == found["packs"] and one.kind in _SIZED_KINDS:
            kept = {
                key: f
                for key, f in one.figures.items()
                if key != "size" or f.words.split()[0] != found["held"]
            }
            sized = one.kind is not Kind.HOOK or "size" in kept
            if sized and one.count is None:
                yield replace(
                    one, figures=kept, packs=int(found["packs"]), pack=pieces(int(found["held"]))
                )


def _by_its_words(text: str, made: Question) -> Iterator[Described]:
    """A wire trace without a hook, and a link leger, may be kept by his own words."""
    tied = any(one.kind is Kind.HOOKLENGTH for one in made.readings) and not _SIZED.search(text)
    no_figure = (made.about == "shape" and not has_number(text)) or tied
    float_alone = made.readings and made.readings[0].kind is Kind.FLOAT
    mixed_kinds = no_figure and (_MIXED.search(text) or float_alone)
    named = made.answer_like and _OWN_WORDS.search(text)
    own = own_thing(text) if named or mixed_kinds else None
    if own and own not in made.readings:
        yield replace(own, count=own.count or made.readings[0].count)


def _lots_first(text: str, made: Question) -> Question:
    """The question with a mixed tin or tub before its single sizes, where it is said to be mixed."""
    if made.about not in ("size", "mark", "mass", "word", "count") or not _SORTED.search(text):
        return made
    return replace(
        made, readings=tuple(sorted(made.readings, key=lambda one: not _is_of_no_size(one)))
    )


def _is_of_no_size(one: Described) -> bool:
    """Whether it is a mixed tin of hooks or tub of shot: likelier meant than one of its sizes."""
    return one.kind in (Kind.HOOK, Kind.WEIGHT) and one.words_of(goes_by(one)) == UNMARKED


def _said_sizes(text: str, made: Question, key: str) -> str:
    """The sizes that a mixed lot has, as they were said: "14 to 20"."""
    words = [one.words_of(key) for one in made.readings]
    every = [one for one in dict.fromkeys(words) if one]
    said = [one for one in every if re.search(rf"(?<![\w.]){re.escape(one)}(?![\d.])", text)]
    joined = " to " if re.search(r"\d\D{0,3}\s*(?:\bto\b|[-–])\s*\d", text) else " and "
    return joined.join((said[0], said[-1]) if joined == " to " else said) if len(said) > 1 else ""


def _assorted(text: str, made: Question) -> Iterator[Described]:
    """ "Drilled bullets assorted" go by no weight: they may be kept by that name."""
    doubtful = made.about in ("mass", "mark", "size", "word", "count") and _MIXED.search(text)
    for one in made.readings[:1] if doubtful else ():
        key, surely = goes_by(one), one.kind in (Kind.FLOAT, Kind.FEEDER)
        sizes = _said_sizes(text, made, key)
        if key and (surely or sizes or _SORTED.search(text)):
            note = ", ".join(filter(None, (one.note, sizes)))
            yield replace(one, figures={**one.figures, key: word(UNMARKED)}, note=note)
        notes, usual = one.note.split(", ") if one.note else [], WORDS[one.kind].get("note", {})
        kept = {key: figure for key, figure in one.figures.items() if key not in _SAYS_WHICH}
        telling = [note for note in notes if note in usual or re.search(r"\d", note)]
        if not telling and not is_own(one):
            own = own_thing(text)
            yield from [own] if own and one.words_of("form") != "shot" else []
        if not telling or one.kind is not Kind.WEIGHT:
            continue
        bare_one = replace(one, figures=kept, note=", ".join(telling))
        name = re.sub(r"\s*\((?:note:\s*)?([^()]*)\)", r" \1", write(bare_one))
        note = ", ".join(note for note in notes if note not in telling)
        own = replace(one, kind=Kind.PART, figures={"sort": word(name)}, note=note)
        told = own.pack and not own.pack.because
        yield own if told else replace(own, pack=assumed(1, "1", CHOICE))


def _mixed_lot(text: str, made: Question) -> Iterator[Described]:
    """ "Hooks 16 to 20 mixed, about 60" are of no one size: they may be kept by his own words."""
    first = made.readings[0] if made.readings else None
    sorted_kind = first is not None and first.kind in _SIZED_KINDS and not is_own(first)
    each = made.about == "several" and re.search(r"\beach\b", text, re.IGNORECASE)
    if first is None or not sorted_kind or not _SORTED.search(text) or each:
        return
    own = own_thing(" ".join(_HOW_MUCH_OF_IT.sub(" ", text).split()).strip(" ,"))
    if own and own.count and first.packs:  # "3 pks 14 to 18 hooks": a size stands first
        own = own_thing(text)
        yield from [own] if own else []
    elif own:
        named = _MANY_LOOSE.search(text)
        count = first.count or (count_of(named["many"] or named["about"]) if named else own.count)
        told = first.pack if first.pack and not first.pack.because else own.pack
        yield replace(own, count=count, packs=first.packs, pack=told, price_cents=first.price_cents)


def _and_another(text: str, made: Question) -> Iterator[Described]:
    """ "Crimps 1.2 mm and pliers": what stands behind "and" and is not known may be a thing of its own."""
    found = _AND_ONE_MORE.search(text) if made.about in ("word", "sort", "several") else None
    other = found["other"].strip() if found else ""
    for one in made.readings[:1] if other else ():
        notes = one.note.split(", ")
        kept = [note for note in notes if _JOINS.sub("", note.lower()) != other.lower()]
        if len(kept) < len(notes) and (own := own_thing(other)):
            yield replace(one, note=", ".join(kept))
            yield own


def _so_many_noted(text: str, made: Question) -> Iterator[Described]:
    """A number that says how many must not be in a note alone: "ten of em tied Sunday"."""
    for one in made.readings[:1]:
        found = _NOTED_NUMBER.search(one.note) if one.count is None and not one.packs else None
        if found and one.kind not in MEASURED_KINDS and re.search(re.escape(found.group()), text):
            yield replace(one, count=count_of(found["many"]))


def _the_other_way(text: str, made: Question) -> Iterator[Described]:
    """ "12 x 16 pellet hooks" may be sixteen of size 12, too."""
    yield from filter(None, (the_other_way(text, one) for one in made.readings[:1]))


def _without_its_slash(text: str, made: Question) -> Iterator[Described]:
    """ "Feeders 3 4 oz" may be of three quarters of an ounce."""
    found = _TWO_OF_OUNCES.search(text)
    for one in made.readings[:1] if found else ():
        if found and one.kind is Kind.FEEDER and one.words_of("mass") == f"{found[2]} oz":
            kept = ", ".join(note for note in one.note.split(", ") if note != found[1])
            figures = {**one.figures, "mass": mass(f"{found[1]}/{found[2]} oz")}
            yield replace(one, figures=figures, count=None, note=kept)


_RULES = (
    *(_the_other_way, _without_its_slash),
    *(so_many_spools, _so_many_tubs, _so_many, _so_many_floats, _so_many_packets, _so_many_tied),
    *(_so_many_priced, _few_packets, _tied_as_well),
    *(_of_both_sizes, _so_heavy, _one_of_each, _kept_in, _held_by_each),
    *(packets_of_so_many, _mixed_lot, _and_another, _so_many_noted),
    *(_of_two_numbers, _elastics, _other_lines, _loose_hooks, _assorted, _by_its_words),
)
