"""A thing and a list of its weights, each with a number or a size of its own: "cages 3x20g 2x30g", "open
enders, 3 large 40g, 2 med 30g", "3 cage feeders 1oz + 2 at 1.5oz", said as so many of each."""

import re
from collections.abc import Iterator

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, SPOKEN, saying

_SIZE = r"(?:extra\s+small|large|medium|small|mini|lge|lrg|lg|med|sml|sm|big)"
_MASS = r"(?:\d+\s+\d/\d+|\d/\d+|\d*\.?\d+)\s*(?:oz|ounces?|g(?:m|r|rams?)?)\b"
_THING = (
    r"(?:feeders?|fdrs?|enders?|cages?|bombs?|leads?|methods?|hybrids?|bullets?|olivettes?|ollies)"
)
_HEAD = saying(
    rf"^(?:(?P<first>{FEW})\s+)?(?P<what>(?:[a-z][a-z-]*\s+){{0,3}}{_THING}(?:\s+(?:elasticated|in\s?line|plastic|type))?)\b(?!\s+{_THING}\b)[\s,:;-]*(?=.*\d)"
)
_ITEM = saying(
    rf"(?:(?P<many>{FEW})(?:\s*(?:x|×|at|@)\s*|\s+of\s+|\s+(?!\d/\d)))?(?:(?P<size>{_SIZE})\s+)?(?:of\s+)?"
    rf"(?P<mass>{_MASS})(?:\s+(?P<sized>{_SIZE})\b(?:\s+(?P<last>[1-9])(?=\s*(?:,|&|$)))?)?(?:\s*[x×]\s*(?P<times>\d{{1,2}})\b|\s*\((?P<so>\d{{1,2}})\))?"
)
_OF_EACH = saying(rf"[\s,]+(?:[-–]\s+)?(?P<many>{FEW})\s+(?:of\s+)?each$")
_SIZE_IN_BRACKETS = saying(rf"\s*\((?P<size>{_SIZE})\)")
_SOME = r"(?:[2-9]|two|three|four|five|six|seven|eight|nine|ten)"
_PLURAL = (
    r"(?:hooks|hook\s?lengths|feeders|bombs|leads|bullets|floats|wagglers|sticks|dibbers|swivels|links|beads"
    r"|bands|stops|olivettes|winders|connectors|bushes|bungs|plummets|sleeves)"
)
SMALLEST_NUMBER = 8  # of a hook, a swivel or an elastic in a list; fewer are how many
_MOULD = saying(r"[\s,]*(?:and|\+|&)\s+(?:the|an?|1)\s+mould$")
_SIZED_THINGS = (
    r"(?:styls?(?:\s+leads?|\s+weights?)?|shot|hooks|swivels|bush(?:es)?|bands|beads|links|elastics?"
    r"|stops|bungs|connectors)"
)
_NAMED = rf"(?:[a-z-]+\s+){{0,3}}{_PLURAL[:-1]}|rubbers|crimps|needles?|clips|rings|discs)"
_SOME_OR_PACKET = rf"(?:{FEW}|an?\s+packet|(?:1\s*|one\s+)?(?:pkt|packet|pack))"
_ONE_PACKET = saying(r"\b(?:assorted|assortment|mixed|with\s+all|all\s+(?:3|three|in\s+one))\b")
_NEW = r"(?P<new>\d+\s+\d/\d|\d/\d|\d*\.?\d+)\s*(?P<unit>mm|cm|m|in|g|oz|lb|kg)?"
_SHOT_MARK = r"(?:nos?\.?\s*)?(?:\d{1,2}s|(?:aaa|ab|bb|ssg)s)"
_SHOT_AND = r"(?:\s*,\s*(?:(?:and|&)\s+)?|\s*&\s*|\s+and\s+)"
_PRICED = saying(r"\s*£\d+(?:\.\d\d)?")
_ANY_FIGURE = saying(rf"(?<![\w./£]){_NEW}(?![\w./])")
_BETWEEN = saying(r"\s*(?:,\s*(?:and|plus)\b|,|&|\+|;|/|\band\b|\bplus\b)?\s*")


def each_of_a_list(found: re.Match[str]) -> str:
    """The list as so many of each; as it was where more is said than that.

    >>> say = lambda text: each_of_a_list(re.match(".*", text))
    >>> say("cages 3x20g 2x30g"), say("cages 20g, 30g"), say("bombs 1 1/2 oz and 2 oz")
    ('3 x cages 20g and 2 x cages 30g', 'cages 20g, 30g', 'bombs 1 1/2 oz and 2 oz')
    """
    head = _HEAD.match(found.group())
    of_each = _OF_EACH.search(found.group())
    text, with_mould = _MOULD.subn("", _OF_EACH.sub("", found.group()))
    text = _SIZE_IN_BRACKETS.sub(r" \g<size>", text)
    items = list(_items(text, head.end())) if head else []
    if head is None or len(items) < 2 or not items[-1]:
        return found.group()
    each = [item for item in items if item]
    counts = [_many(item) for item in each]
    if head["first"] and not counts[0]:
        counts[0] = count_of(head["first"])
    elif head["first"] and sum(counts) != count_of(head["first"]):
        return found.group()
    sizes = [(item["size"] or item["sized"] or "").lower() for item in each]
    if not all(counts) and (any(counts) or not all(sizes)):
        return found.group()
    what = head["what"]
    others = re.sub(rf"\b{_SIZE}\s+", "", what, flags=re.IGNORECASE) if any(sizes) else what
    if of_each and not any(counts) and not head["first"]:
        counts = [count_of(of_each["many"])] * len(each)
    elif of_each and count_of(of_each["many"]) != 1:
        return found.group()
    said = zip(counts, [what, *[others] * (len(each) - 1)], sizes, each, strict=True)
    listed = [
        " ".join(filter(None, (f"{many or 1} x {of}", size, item["mass"])))
        for many, of, size, item in said
    ]
    return " and ".join([*listed, *(["1 x method mould"] if with_mould else [])])


def _items(text: str, start: int) -> Iterator[re.Match[str] | None]:
    """What the list holds; None at its end where it holds more."""
    at = start
    while item := _ITEM.match(text, at):
        yield item
        between = _BETWEEN.match(text, item.end())
        at = between.end() if between else item.end()
        if at == len(text):
            return
    yield None


def _many(item: re.Match[str]) -> int:
    said = item["many"] or item["times"] or item["so"] or item["last"]
    return count_of(said) if said else 0


def each_of_a_size(found: re.Match[str]) -> str:
    """ "Window feeders 40g, one large one medium" as so many of each."""
    each = re.findall(rf"({FEW})\s+({_SIZE})", found["each"], re.IGNORECASE)
    return " and ".join(
        f"{count_of(many)} x {found['what']} {size} {found['mass']}" for many, size in each
    )


def two_things(found: re.Match[str]) -> str:
    """ "3 18 barbless hooks and 2 1/2oz bombs" as so many of each."""
    one, other = found["one"], found["other"]
    if not re.search(rf"\b{_PLURAL}\b", one, re.IGNORECASE):
        return found.group()
    return f"{_times(found['many'], one)}, and {_times(found['more'], other)}"


def _times(many: str, thing: str) -> str:
    """So many of it, the number where none of its figures stands beside."""
    behind = thing[:1].isdigit() or thing.lower().startswith("size")
    return f"{thing} x{count_of(many)}" if behind else f"{count_of(many)} x {thing}"


def each_number(found: re.Match[str]) -> str:
    """ "Hooks 16 x2, 18 x1" and "hooks, 2 x 16, 1 x 18" as so many of each size."""
    pairs = [sorted(map(int, one)) for one in re.findall(r"(\d+)\s*x\s*(\d+)", found["each"])]
    if any(many >= SMALLEST_NUMBER or size < SMALLEST_NUMBER for many, size in pairs):
        return found.group()
    return " and ".join(f"{found['what']} size {size} x{many}" for many, size in pairs)


def each_by_its_end(found: re.Match[str]) -> str:
    """ "Feeder links 10 + beads 4mm 20" as so many of each."""
    return f"{found['many']} x {found['one']} and {found['more']} x {found['other']}"


def each_of_so_many(found: re.Match[str]) -> str:
    """ "50 hooklengths 10 cm: 30 are 18 to .11, 20 are 20 to .09" as so many of each."""
    one, more = count_of(found["one"]), count_of(found["more"])
    if found["all"] and count_of(found["all"]) != one + more:
        return found.group()
    what = found["what"].strip(" ,:-")
    return f"{one} x {what} {found['of']} and {more} x {what} {found['other']}"


def each_bore(found: re.Match[str]) -> str:
    """ "Silicone tube 0.5 / 0.8 / 1mm" as a list; of one assorted packet the bores are a note."""
    bores = re.findall(r"\d?\.?\d+", found["bores"])
    rest = re.sub(r"\bea\b", "each", found["rest"].strip(), flags=re.IGNORECASE)
    if _ONE_PACKET.search(rest) and not re.search(r"\dx?\s*x?\s*\d+\s*(?:cm|m)\b", rest):
        rest = re.sub(
            r"\b(?:assorted|assortment|with\s+all\s+\w+)\b[\s,]*", "", rest, flags=re.IGNORECASE
        )
        return f"{found['what']} assorted (note: {', '.join(bores)} mm) {rest}".strip()
    *first, last = (f"{bore} mm" for bore in bores)
    return f"{found['what']} {', '.join(first)} and {last} {rest}".strip()


def so_many_of_it(found: re.Match[str]) -> str:
    """ "Open enders 3 x 40g" as three of them."""
    return f"{count_of(found['many'])} x {found['what']} {found['mass']}{found['rest']}"


def joined_by_and(found: re.Match[str]) -> str:
    """ "Styls 8 + 9 + 10" with "and" between."""
    return re.sub(r"\s*\+\s*", " and ", found.group())


def in_their_order(found: re.Match[str]) -> str:
    """ "Crimps & connectors, ten and four" as ten of the one and four of the other."""
    each = ((found["many"], found["one"]), (found["more"], found["other"]))
    return " and ".join(
        f"1 packet of {of}" if re.search("p(?:ac)?k", many, re.IGNORECASE) else _times(many, of)
        for many, of in each
    )


def feeders_and_mould(found: re.Match[str]) -> str:
    """ "Method feeder & mould set 15g 25g" as one of each, and the mould."""
    every = re.findall(r"\d+", found["listed"])
    return " and ".join([*(f"1 x {found['what']} {mass}g" for mass in every), "1 x method mould"])


def with_spare_weights(found: re.Match[str]) -> str:
    """ "Maggot feeder 10g + spare weights 20g 30g" as the feeder and leads of these weights."""
    every = re.findall(r"\d+\s*g", found["listed"], re.IGNORECASE)
    return " and ".join([f"1 x {found['what']}", *(f"1 x lead {mass} spare" for mass in every)])


def one_of_each_listed(found: re.Match[str]) -> str:
    """ "Plummets, 2, 20 and 30 gram" as one of each, where there are two of them."""
    masses = re.findall(r"\d*\.?\d+(?:/\d+)?", found["listed"])
    if len(masses) != count_of(found["many"]):
        return found.group()
    return " and ".join(f"1 x {found['what']} {mass}{found['unit']}" for mass in masses)


def same_again(found: re.Match[str]) -> str:
    """ "Bands 5mm pack of 100, 4mm same" as both in full; as it was without a figure of that form."""
    head, new = found["head"], found["new"]
    unit = (found["unit"] or ("oz" if "/" in new else "")).lower()
    price = _PRICED.search(head)
    head = _PRICED.sub(" ", head).rstrip(" ,") if price else head
    alike = [
        figure
        for figure in _ANY_FIGURE.finditer(head)
        if (figure["unit"] or "").lower() == unit
        and (unit or ("." in figure["new"]) == ("." in new))
        and figure["new"] != new
    ]
    if not alike:
        return found.group()
    figure = alike[0] if unit else min(alike, key=lambda one: abs(float(one["new"]) - float(new)))
    said = f"{new}{figure.group()[len(figure['new']) :]}"
    again = f"{head[: figure.start()]}{said}{head[figure.end() :]}"
    return f"{head} and {again}{f', {price.group().strip()} each' if price else ''}"


def with_times(found: re.Match[str]) -> str:
    """ "3oz, 2, plus 4oz, 1" as so many of each."""
    return f"{found['one']} x {found['many']} and {found['other']} x {found['more']}"


def numbered_shot(found: re.Match[str]) -> str:
    """ "No 4s, ABs, 6s" as a list of shot by their numbers and letters."""
    said = [
        one.rstrip("s") for one in re.findall(r"(?:aaa|ab|bb|ssg)s?|\d{1,2}", found["list"].lower())
    ]
    marks = [one.upper() if one.isalpha() else f"no {one}" for one in said]
    *first, last = marks
    rest = re.sub(r"^\s+(in\s.*)$", r" (note: \1)", found["rest"])
    return f"shot {', '.join(first)} and {last}{rest}"


def in_grams(found: re.Match[str]) -> str:
    """ "..., one gram, two gram" in figures."""
    return f"{count_of(found[1])}g"


_LINE_FIGURE = r"(?:\d+(?:\.\d+)?\s*lb|0?\.\d+(?:\s*mm)?)"
_SMALL_PARTS = (
    r"(?:links|lnks|clips|swivels|swvls|beads|stops|rings"
    r"|rubbers|sleeves|connectors|bands|crimps|bungs)"
)
RULES: Rules = rules(
    (
        rf"^(?P<one>(?:[a-z]+\s+){{0,2}}{_SMALL_PARTS})\s+(?P<many>\d{{1,2}})\s*(?:\+|&|,|\band\b)\s*"
        rf"(?P<other>(?:[a-z]+\s+){{0,2}}{_SMALL_PARTS}(?:\s+\d+(?:\.\d+)?\s*mm|\s+(?:small|medium|large))?)\s+(?P<more>\d{{1,2}})$",
        each_by_its_end,
    ),
    (
        rf"^(?:(?P<all>{FEW}|\d{{2,3}})\s+)?(?P<what>[a-z][^:]*?)\s*[:,–-]\s*(?P<one>\d{{1,2}}|{FEW})\s+(?:are|is)\s+(?P<of>\d[^,:]*?)\s*(?:,|,?\s*and)\s*"
        rf"(?P<more>\d{{1,2}}|{FEW})\s+(?:are|is)\s+(?P<other>\d[^,:]*)$",
        each_of_so_many,
    ),
    (
        r"^(?P<many>[1-9])\s*x\s*(?P<held>5|6|8|10|12|15|20|25)\s+(?=(?:[a-z]+\s+)+(?:size|sz)\s*\d)",
        r"\g<many> packets of \g<held> ",
    ),
    (
        rf"^(?P<many>{FEW})\s+spools?\s+(?:of\s+)?(?P<one>{_LINE_FIGURE})\s+(?P<what>mono|nylon|fluoro(?:carbon)?|braid|line)\s*(?:,|and|&|\+)?\s*"
        rf"(?P<more>{FEW})\s+spools?\s+(?:of\s+)?(?P<other>{_LINE_FIGURE})$",
        r"\g<many> spools of \g<one> \g<what> and \g<more> spools of \g<other> \g<what>",
    ),
    (
        rf"^(?P<many>{FEW})\s+(?P<one>{_SIZE})\s+(?:and|&|\+)\s+(?P<more>{FEW})\s+(?P<other>{_SIZE})\s+(?P<what>(?:[a-z]+\s+){{1,3}}\d+\s*(?:g|oz|mm|cm))$",
        r"\g<many> x \g<one> \g<what> and \g<more> x \g<other> \g<what>",
    ),
    (
        r"^(?P<many>\d{1,2})\s+(?P<what>hooks|swivels)\s+(?P<one>\d{1,2})s?\s*(?:and|&|\+|,)\s*(?P<more>\d{1,2})\s+(?P=what)\s+(?P<other>\d{1,2})s?$",
        r"\g<many> x \g<what> size \g<one>, \g<more> x \g<what> size \g<other>",
    ),
    (
        r"^(?P<first>.*£\d[\d.]*),?\s+(?:plus|\+|and)\s+(?:an?\s+|1\s+)?spare\s+(?P<other>[a-z\s]+)$",
        r"\g<first> and 1 x \g<other>",
    ),
    (r"(?<=[+&,]\s)(small|medium|large)\s+one\s+(?=\d)", r"one \1 "),
    (
        rf"^({SPOKEN})\s+((?:[a-z]+\s+){{0,3}}(?:swivels|hooks|links|beads|hooklengths)),\s*(\d\d)s$",
        r"\1 \2 size \3",
    ),
    (
        r"^((?:[a-z]+\s+)*feeders?\b[^+,]*?)\s*\+\s*(?:an?\s+|1\s+|the\s+)?mould,\s*(\d)\s+feeders?\b",
        r"\2 x \1 and 1 x method mould",
    ),
    (
        r"^((?:q|qk|quick|push)[\s-]?stops?\b[^+&]*?),\s*(?:one|1|an?)\s+(?:baiting\s+)?needle\b(?![^,]*\bwith\b)",
        r"\1 and 1 baiting needle",
    ),
    (
        rf"^({_MASS})\s+((?:[a-z]+\s+){{0,2}}{_THING})\s*(?:&|and|\+)\s*({_MASS}),?\s+({FEW})\s+(?:of\s+)?each$",
        r"\2 \1 and \3, \4 of each",
    ),
    (r"(?<=,\s)(one|two|three|four|five)\s+grams?\b", in_grams),
    (
        rf"^(?!.*\b(?:styls?|floats?|wagglers?|sticks?|feeders?)\b)(?:shot\s+)?(?=nos?\b|aaa|ab|bb|ssg)"
        rf"(?P<list>{_SHOT_MARK}(?:{_SHOT_AND}{_SHOT_MARK})+)(?:\s+shot)?(?P<rest>(?:\s*[,(-].*)?|\s+in\s.*)$",
        numbered_shot,
    ),
    (
        rf"^(?P<head>.*\d.*?)\s*(?:,\s*and\b|,|&|\+|\band\b)\s*(?:no\.?\s*)?{_NEW}"
        r"s?\s+(?:the\s+)?(?:same|ditto|too|as\s+well|also)(?:\s+(?:again|price|pack|number|amount))?$",
        same_again,
    ),
    (
        r"^(?P<what>[^£]*\b(?:method|hybrid|flat\s?bed|pellet)\b[^£]*?)[\s,]+(?:with|w/)\s*(?:an?\s+|the\s+|its\s+)?mould$",
        r"\g<what> and 1 x method mould",
    ),
    (
        rf"(?P<one>{_MASS}),?\s+(?P<many>\d)(?:\s*(?:of|off|pcs?|pieces))?\s*(?:,\s*(?:plus|and)?|plus|and|&|\+)\s*"
        rf"(?P<other>{_MASS}),?\s+(?P<more>\d)(?:\s*(?:of|off|pcs?|pieces))?$",
        with_times,
    ),
    (
        rf"^(?P<many>{_SOME})\s+(?P<what>(?!loaded)(?:[a-z]+\s+){{0,2}}(?:wagglers|sliders|floats|dibbers|plummets|{_THING}))[,\s]+"
        r"(?P<listed>\d*\.?\d+(?:/\d+)?(?:\s*(?:,|&|\+|\band\b)\s*\d*\.?\d+(?:/\d+)?)+)\s*(?P<unit>g|oz)(?:ra?ms?)?$",
        one_of_each_listed,
    ),
    (
        r"^(?P<what>(?:flat\s+|hybrid\s+)?method\s+feeder)s?\s*(?:&|\+|\band\b)\s*mould\s+set\s+(?P<listed>\d+\s*g(?:[\s,/&]+\d+\s*g)+)",
        feeders_and_mould,
    ),
    (
        r"^(?P<what>[a-z][^,+]*feeder\b[^,+]*?)\s*(?:\+|\band\b|&)\s*spare\s+(?:weights?|leads?)\s+(?P<listed>\d+\s*g(?:[\s,/&]+(?:and\s+)?\d+\s*g)*)$",
        with_spare_weights,
    ),
    (
        rf"^(?P<one>{_NAMED}(?:\s+{_SIZE})?)(?<!swivels)(?<!hooks)(?<!links)\s+(?P<many>\d{{1,2}})\s*(?:&|\+|\band\b|,)\s*(?P<other>{_NAMED})(?<!swivels)(?<!hooks)(?<!links)\s+(?P<more>\d{{1,2}})$",
        in_their_order,
    ),
    (
        rf"^(?:[a-z]+\s+){{0,3}}{_SIZED_THINGS}\s+(?:(?:sizes?|nos?\.?)\s*)?\d?\.?\d+(?:\s*mm)?(?:\s*\+\s*(?:no\.?\s*)?\d?\.?\d+(?:\s*mm)?)+"
        r"(?=\s*(?:,|$)|\s+(?!x\b|of\b|loose|spare|odd|free|more|left|pack|packet|pkt|tub|box)[a-z])",
        joined_by_and,
    ),
    (rf"\b{_SIZE}\s*\+\s*{_SIZE}\b", joined_by_and),
    (
        rf"^(?P<one>{_NAMED})\s*(?:&|\+|\band\b)\s*(?P<other>{_NAMED})[,:]\s*(?P<many>{_SOME_OR_PACKET})\s*(?:&|\+|\band\b)\s*(?P<more>{_SOME_OR_PACKET})$",
        in_their_order,
    ),
    (
        rf"^(?P<one>{_NAMED})\s*(?:&|\+|\band\b)\s*(?P<other>{_NAMED})(?:[,:]\s*|\s+)(?P<many>(?P<more>{FEW}))\s+(?:of\s+)?each$",
        in_their_order,
    ),
    (
        rf"^(?P<one>{_NAMED})\s*(?:&|\+|\band\b)\s*(?P<other>{_NAMED})[,:]\s*(?:an?\s+|1\s+|one\s+)?(?P<held>(?:packet|pack|pkt)\s+of\s+{FEW})\s+(?:of\s+)?each$",
        r"1 \g<held> \g<one> and 1 \g<held> \g<other>",
    ),
    (
        rf"^(?P<what>(?:[a-z][a-z-]*\s+){{0,3}}(?:plummets|{_THING}))[\s,]+(?P<many>{FEW})\s*[,:]\s*"
        r"(?P<listed>\d*\.?\d+(?:/\d+)?(?:\s*(?:g|oz))?(?:\s*(?:,|&|\+|\band\b)\s*\d*\.?\d+(?:/\d+)?)+)\s*(?P<unit>g|oz)(?:ra?ms?)?$",
        one_of_each_listed,
    ),
    (
        r"\b(?P<what>(?:(?:float|pole)\s+)?silicone?(?:\s+float)?(?:\s+(?:tube|tubing|rubber))?)\s+"
        r"(?P<bores>\d?\.\d+\s*(?:mm)?(?:\s*(?:,|/|-|&|\band\b)?\s*(?:\d?\.\d+\s*(?:mm\b|(?!\s*(?:[x×]|m\b)|\d))|[1-3]\s*(?:mm\b|(?!\s*[x×]|[\s\d]*m|\d))))+)"
        r"(?P<rest>.*)$",
        each_bore,
    ),
    (
        rf"^(?P<many>{_SOME})\s+(?:x\s*)?(?P<one>(?![x×]|of\b)[^,;&+]*?[a-z\d])\s*(?:,\s*(?:and\s+)?|\s+and\s+|&|\+)\s*"
        rf"(?P<more>{_SOME})\s+(?:x\s*)?(?P<other>(?![x×]|of\b)[^,;&+]*?\b{_PLURAL}\b[^,;&+]*)$",
        two_things,
    ),
    (
        r"^(?P<what>(?:[a-z][a-z-]*\s+){0,3}(?:hooks|swivels|links|elastic))[\s,:]*"
        r"(?P<each>\d{1,2}\s*x\s*\d{1,2}(?:[\s,&]+(?:and\s+)?\d{1,2}\s*x\s*\d{1,2})+)$",
        each_number,
    ),
    (
        rf"^(?P<what>(?:[a-z][a-z-]*\s+){{0,3}}{_THING})\s+(?P<mass>{_MASS})[,\s:-]+"
        rf"(?P<each>{FEW}\s+{_SIZE}(?:[\s,&+]*(?:and\s+)?{FEW}\s+{_SIZE})+)$",
        each_of_a_size,
    ),
    (r"^.*\d.*$", each_of_a_list),
    (
        rf"^(?P<what>(?:[a-z][a-z-]*\s+){{0,3}}{_THING})[\s,]+(?P<many>[1-9]|1\d)\s*x\s*(?P<mass>{_MASS})(?P<rest>(?!.*\d\s*x\b|\s*(?:pack|packet|pkt)\b).*)$",
        so_many_of_it,
    ),
)
