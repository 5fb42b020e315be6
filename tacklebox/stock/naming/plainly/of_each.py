"""Lists and what there is of each: "5,10,15g", "25g x 2, 35 x 1", "4x10 to 4x16", "two a piece"."""

import re

from tacklebox.stock.naming.dispensers import SHOT
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, MANY, PACKETS, saying
from tacklebox.stock.naming.words import COLOURS

MOST_MARKS = 6  # of a set of floats
_TIMES = r"\d+\s*[x×]\s*\d+"
_SIZED = r"(?:large|medium|small|lge|med|sml)"
_GRAMS = r"\d+\s*g(?:m|rams?)?"
_SIZED_GRAMS = rf"(?:{_SIZED}\s+{_GRAMS}|{_GRAMS}\s+{_SIZED})"
_COLOURED = "|".join(map(re.escape, COLOURS))


def with_spaces(found: re.Match[str]) -> str:
    return found.group().replace(",", ", ")


def every_length(found: re.Match[str]) -> str:
    """ "4x10 to 4x16" as the four of them."""
    first, last = int(found[2]), int(found[3])
    if not 0 < last - first <= 2 * MOST_MARKS or (last - first) % 2:
        return found.group()
    return ", ".join(f"{found[1]}x{length}" for length in range(first, last + 1, 2))


def each_its_own(found: re.Match[str]) -> str:
    """ "15g 25g, 3/2 respectively" as "15g x3, 25g x2"."""
    figures, many = re.findall(r"\d+\s*g", found["listed"], re.IGNORECASE), found["many"].split("/")
    if len(figures) != len(many):
        return found.group()
    return ", ".join(f"{one} x{times}" for one, times in zip(figures, many, strict=True))


def every_mark(found: re.Match[str]) -> str:
    """ "4 no 4 to 6 no 4" as 4, 5 and 6 of them."""
    first, last = int(found[1]), int(found[3])
    if not 0 < last - first <= MOST_MARKS:
        return found.group()
    of_a_set = _SET_OF.search(found.string)
    apart, rest = divmod(last - first, max(count_of(of_a_set[1]) - 1, 1)) if of_a_set else (1, 0)
    step = apart if apart and not rest else 1  # "set of 4, 4 no 4 to 10 no 4"
    return ", ".join(f"{many} no {found[2]}" for many in range(first, last + 1, step))


def numbers_in_full(found: re.Match[str]) -> str:
    """ "nos 11,12,13" as the three of them."""
    every = [f"no {number}" for number in re.findall(r"\d+", found.group())]
    return f"{', '.join(every[:-1])} and {every[-1]},"


def with_commas(found: re.Match[str]) -> str:
    """ "1g 1.5g 2g" with commas."""
    return re.sub(r"(?<=g)\s+", ", ", found.group(), flags=re.IGNORECASE)


def so_many_grams(found: re.Match[str]) -> str:
    """ "40 gram two and one 50 gram" as so many of each."""
    return f"{found[1]}g x {count_of(found[2])} and {found[4]}g x {count_of(found[3])}"


def some_grams(found: re.Match[str]) -> str:
    """ "one 15 one 30g", "three at 60g and a couple at 45g" as so many of each."""
    return f"{found[2]}g x {count_of(found[1])} and {found[4]}g x {count_of(found[3])}"


def in_one_unit(found: re.Match[str]) -> str:
    """ "1oz, 1 1/2, 2oz" with the unit of the others behind the one that has none."""
    units = {unit.lower() for unit in re.findall(r"oz|lb", found.group(), re.IGNORECASE)}
    if len(units) != 1:
        return found.group()
    parts = re.split(
        r"(\s*(?:,|and\b|&|/(?!\d{1,2}(?!\d))|(?<=oz)/|(?<=lb)/)\s*)",
        found.group(),
        flags=re.IGNORECASE,
    )
    unit, last = units.pop(), len(parts) - 1
    if not any(re.fullmatch(r"(?:\d+\s+)?\d/\d{1,2}", one.strip()) for one in parts[::2]):
        return found.group()
    for at, one in enumerate(parts):
        counts = at == last and one.strip().isdecimal() and "," in parts[at - 1]
        if at % 2 == 0 and not one.strip().lower().endswith(unit) and not counts:
            parts[at] = f"{one.rstrip()} {unit}"
    return "".join(parts)


def one_of_so_many(found: re.Match[str]) -> str:
    """ "3 of, 10g 20g 30g" as one of each."""
    weights = re.findall(r"\d+\s*g", found[2])
    each = len(weights) == count_of(found[1])
    return f" {', '.join(weights)}, one of each" if each else found.group()


def grams_then(found: re.Match[str]) -> str:
    """ "24g, three, plus 2 35g" as so many of each."""
    return f"{found[1]}g x {count_of(found[2])} and {found[4]}g x {count_of(found[3])}"


def every_styl(found: re.Match[str]) -> str:
    """ "styls 7s to 11s" as all five sizes."""
    first, last = sorted((int(found[2]), int(found[3])))
    sizes = [f"no {size}" for size in range(first, last + 1)]
    return f"{found[1]}{', '.join(sizes)}" if 1 < len(sizes) <= MOST_MARKS else found.group()


def of_a_set(found: re.Match[str]) -> str:
    """ "set 10 15 20 30g" as one of each."""
    return f"{', '.join(found['bare'].split())}g, one of each"


def every_mark_of_a_set(found: re.Match[str]) -> str:
    """ "a set of 5, 4 to 8 no 4" as the five of them."""
    first, last = int(found["first"]), int(found["last"])
    of_a_set = _SET_OF.search(found.string)
    if not of_a_set or not 0 < last - first == count_of(of_a_set[1]) - 1:
        return found.group()
    return ", ".join(f"{many} no {found['size']}" for many in range(first, last + 1))


def so_many_at(found: re.Match[str]) -> str:
    """ "2 @ 1/4, 3 @ 1/2, 1 @ 3/4oz" as so many of each."""
    pairs = re.findall(r"(\d+)\s*@\s*([\d./]+)", found.group())
    return ": " + " and ".join(f"{many} x {figure}{found['unit']}" for many, figure in pairs)


def every_number(found: re.Match[str]) -> str:
    """ "4, 5, 6 no 4" of sticks as each of them."""
    if not re.search(r"\bsticks?\b", found.string, re.IGNORECASE):
        return found.group()
    every = re.findall(r"\d+", found["many"])
    return ", ".join(f"{many} no {found['size']}" for many in every)


def each_with_its_unit(found: re.Match[str]) -> str:
    """ "one each of 1lb, 1 1/2 and 2" with the pound behind each."""
    every = re.split(r"\s*(?:,|\band\b|&)\s*", found["more"].strip(" ,"))
    listed = [found["first"], *(one for one in every if one)]
    return f"{found['many']} each of " + " and ".join(f"{one} {found['unit']}" for one in listed)


def listed_masses(found: re.Match[str]) -> str:
    """ "15g / 20g / 30g" as a list."""
    *first, last = re.split(r"\s+/\s+", found.group())
    return f"{', '.join(first)} and {last}"


def listed_decimals(found: re.Match[str]) -> str:
    """ "0.2 - 0.3 - 0.5" as a list."""
    return re.sub(r"\s+[-–]\s+", ", ", found.group())


def one_spool_of_each(found: re.Match[str]) -> str:
    """ "3 spools of mono, 25m, one each 0.10 0.12 0.14" as one spool of each."""
    every = re.findall(r"\d*\.\d+", found["listed"])
    if len(every) != count_of(found["many"]):
        return found.group()
    long = found["long"] or ""
    return f"{found['what']}{long}, {', '.join(every[:-1])} and {every[-1]}, one spool of each"


def so_many_of_marks(found: re.Match[str]) -> str:
    """ "4 off, 2x 3AAA 2x 2SSG" as so many of each."""
    if int(found[1]) != int(found[2]) + int(found[4]):
        return found.group()
    return f" {found[3]} x {found[2]} and {found[5]} x {found[4]}"


def with_commas_between(found: re.Match[str]) -> str:
    """ "2BB 3BB 2AAA" as a list."""
    *first, last = found.group().split()
    return f"{', '.join(first)} and {last}"


def with_an_and(found: re.Match[str]) -> str:
    """ "0.10 0.12 0.14 one of each" as a list that ends."""
    *first, last = re.split(r"[\s,]+", found.group())
    return f"{', '.join(first)} and {last}"


_SET_OF = saying(rf"\bset\s+of\s+({FEW})\b")

_PART = r"(?:\d+\s+\d/\d{1,2}|\d/\d{1,2}|\d+(?:\.\d+)?)"
_NOT_BEHIND = r"(?<![\d.] )(?<!set )"
_SOME = rf"\b({FEW}|(?:an?\s+)?(?:couple|pair))\s+(?:of\s+|at\s+)?"

_BY_SIZE = r"(?:extra\s+small|x-?small|mini|micro|small|sml|medium|med|large|lge|lrg)"


RULES: Rules = rules(
    (rf"\b({FEW}\s+{PACKETS})\s+(?:of\s+)?each\s+size\b", r"\1 of each"),
    (r"\b(\d)\s+no\.?\s+(\d(?:bb|aaa|ssg|ab)\b)", r"\1 x \2"),
    (
        r"(\d/\d)\s*oz\s*x\s*(\d),?\s*(?:and\s+)?(\d/\d)\s*x\s*(\d)\b",
        r"\1oz x \2 and \3oz x \4",
    ),
    (
        r"^(winders)\s+([^,\d]*\d+\s*cm[^,]*?)\s+(\d{1,2})\s+of,\s*([^,\d]*\d+\s*cm[^,]*?)\s+(\d{1,2})\s+of$",
        r"\3 x \1 \2 and \5 x \1 \4",
    ),
    (r"^(\dx\d\d)\s+(\dx\d\d)(?!\s+\dx\d)(?=.*\beach\b)", r"\1 and \2"),
    (
        r"(\d(?:ssg|aaa|bb|ab))\s*\+\s*(\d(?:ssg|aaa|bb|ab)),?\s+((?:one|an?|\d|two|three|four)\s+(?:of\s+)?each)\b",
        r"\1 and \2, \3",
    ),
    (
        rf"^2\s*x\s*([^,\d]*?),\s*({_BY_SIZE})\s*(?:&|and|\+)\s*({_BY_SIZE})$",
        r"1 x \1 \2 and 1 x \1 \3",
    ),
    (
        r"(\d*(?:bb|aaa|ssg)|\d+\s*g)\s+(\d)\s+no\b\.?,?\s*(?:and\s+)?(\d*(?:bb|aaa|ssg)|\d+\s*g)\s+(\d)\s+no\b\.?(?!\s*\d)",
        r"\1 x \2 and \3 x \4",
    ),
    (r"(?:\b\d(?:bb|aaa|ssg|ab)\s+){2,}\d(?:bb|aaa|ssg|ab)\b", with_commas_between),
    (
        rf"^([^,]*\d\s*g\s+[a-z][^,]*?)(?:,|\s+and|\s*&|\s*\+)\s*(\d*\.?\d+\s*g\s+[a-z][^,]*?)(?:\s+-\s+|,\s*)({FEW})\s+(?:of\s+)?each$",
        r"\3 x \1 and \3 x \2",
    ),
    (
        rf"(\d\s*(?:oz|g))\s+({FEW})\s+of\s*,\s*(\d+(?:\s+\d/\d|/\d)?\s*(?:oz|g))\s+({FEW})\s+of$",
        r"\1 x \2 and \3 x \4",
    ),
    (
        r"[\s,]+([2-9])\s+(?:off|of\s+them),\s*([1-9])\s*x\s*(\d*(?:bb|aaa|ssg|g))\s*,?\s*([1-9])\s*x\s*(\d*(?:bb|aaa|ssg|g))$",
        so_many_of_marks,
    ),
    (
        rf"^(?P<many>{FEW})\s+spools?\s+(?:of\s+)?(?P<what>[a-z].*?)[,:\s]+(?:(?:one|1)\s+(?:of\s+)?each(?:\s+of)?[:,\s]+)?"
        r"(?P<listed>0?\.\d+(?:[\s,&/]+(?:and\s+)?0?\.\d+)+)(?P<long>,\s*\d+\s*m)?$",
        one_spool_of_each,
    ),
    (
        r"(\bsticks?\b.*?\b)(\d{1,2})\s*x\s*4\s+(?:up\s+)?(?:to|-)\s+(\d{1,2})\s*x\s*4\b",
        r"\1\2 no 4 to \3 no 4",
    ),
    (
        r"(\d+\s*g)\s+(?:and|&)\s+(\d+\s*g),\s*([2-9])\s*(?:\+|&|and)\s*([2-9])$",
        r"\1 x \3 and \2 x \4",
    ),
    (r"(\d+\s*g)m?\s+plus\s+(?:one|an?|1)\s+(\d+\s*g)m?$", r"\1 and \2, one of each"),
    (r"\b(\d/\d)\s+to\s+(\d/\d)(?=\s+(?:bombs|leads|bullets)\b)", r"\1 to \2 oz"),
    (r"(?<=mm)/(?=\d)", ", "),
    (r"(?<![\d.])\d?\.\d+(?:\s+[-–]\s+\d?\.\d+){2,}(?![\d.])", listed_decimals),
    (
        r"\b(styls?(?:\s+[a-z]+){0,2}\s+)(?:no\.?\s*|sizes?\s+)?(\d{1,2})s?\s*(?:to|-|–)\s*(?:no\.?\s*)?(\d{1,2})s?\b",
        every_styl,
    ),
    (
        rf"\b({_BY_SIZE})\s*(?:\+|&|and|,)\s*({_BY_SIZE})[,\s]+({FEW})\s+(?:of\s+)?each\b",
        r"\3 \1 and \3 \2",
    ),
    (rf"\b(?:an?\s+)?(?:couple|pair)\s+of\s+({PACKETS})\s+(?:of\s+)?each\b", r"2 \1 of each"),
    (
        rf"\b(\d{{1,3}})\s*g\b,?\s*({FEW}),?\s*(?:and|plus|&|\+)\s*({FEW})\s+(?:of\s+)?(\d{{1,3}})\s*(?:gram|gm|gr|g)s?\b",
        grams_then,
    ),
    (r"\b(one|two|three|[1-3]|an?)\s+refills?\s+(?:of\s+)?each\b", r"\1 tub of each"),
    (
        rf"{_NOT_BEHIND}{_SOME}(\d{{1,3}})\s*g?\s*,?\s*(?:and\s+)?{_SOME}(\d{{1,3}})\s*(?:gram|gm|gr|g)s?\b",
        some_grams,
    ),
    (
        r"(\d?\.?\d+\s*(?:g\s*)?(?:to|-)\s*\d?\.?\d+\s*g\b.*?)[,\s]+(\d{1,2}\s+of\s+each)\b",
        r"\1 (note: \2)",
    ),
    (rf"(\d\s*(?:oz|g)?),?\s+({MANY})\s+apiece$", r"\1, \2 of each"),
    (r"\b(\d)by(\d{2})\b", r"\1x\2"),
    (r"\s+x\s?(\d)\s+(?:ea|each)\s+(?=\d)(.+)$", r" \2, \1 of each"),
    (r"\bov(?=\s+each\b)", "of"),
    (rf"\b(\d{{1,2}})\s*\+\s*(\d{{1,2}})(?=,?\s+{MANY}\s+of\s+each\b)", r"\1 and \2"),
    (rf"\(\s*(?!(?:1|one)\b)({MANY})\s+each\s*\)", r", \1 of each"),
    (
        r"\b(\d+)\s*g\s*x\s*(\d)\s+and\s+(?:an?|one)\s+(\d+)\s*g\b",
        r"\1g x \2 and \3g x 1",
    ),
    (
        r"\bhalf\s+(?:an?\s+)?ounce\s+and\s+(?:an?\s+)?three\s+quarters?(?:\s+(?:ounce|oz))?",
        "1/2oz and 3/4oz",
    ),
    (r"\ban\s+ounce\s+and\s+an?\s+half\b", "1 1/2oz"),
    (r"(\bsticks?\b.*?\b)(\d{1,2})\s*x\s*4s\b", r"\1\2 no 4"),
    (
        r"(?<![\w./])0?\.\d{2}(?:[\s,]+0?\.\d{2}){2,}(?![\w./])(?=.*\bof\s+each\b)",
        with_an_and,
    ),
    (rf"\b(?:one|1)\s+({_COLOURED})\s+(?:one|1)\s+({_COLOURED})\b", r"1 \1, 1 \2"),
    (
        r"\b((?:feeder|bomb|lead)s?\b[^,\d]*)(\d+)\s*\+\s*(\d+\s*g),?\s+(?:an?\s+)?(?:pr|pair)\b",
        r"\1\2g and \3, one of each",
    ),
    (r"\b\d+\s*g(?:\s+/\s+\d+\s*g)+\b", listed_masses),
    (
        r"\b(\d/\d)\s*(?:oz\s+)?(bomb|lead|feeder)\s+and\s+an?\s+(\d/\d)(?:\s*oz)?\b",
        r"\2s \1 oz and \3 oz",
    ),
    (r"\bmixed\s+in\s+an?\s+(tub|box|tin),?", r"mixed, (note: in a \1) "),
    (
        rf",\s*({MANY}(?:\s+of)?\s+each),\s*(?!.*(?:box|wallet|drawer|tray|tub)$)([a-z][a-z ]+)$",
        r", \2, \1",
    ),
    (r"(?<=\dx\d\d)\s+-\s+(?=\dx\d)", ", "),
    (
        r":\s*\d+\s*@\s*[\d./]+\s*(?:g|oz)?(?:\s*(?:,|and|&)\s*\d+\s*@\s*[\d./]+\s*(?P<unit>g|oz)?)+(?![\w./])",
        so_many_at,
    ),
    (
        r"(?<!no)(?<!no\.)(?<!no )(?<!no\. )(?P<many>\b\d{1,2}(?:\s*(?:,|&|and)\s*\d{1,2})+)"
        r"\s*no\.?\s*(?P<size>\d{1,2})s?\b",
        every_number,
    ),
    (r"\bset\s+of\s+(\w+):\s*(?=\d)", r"set of \1, "),
    (r"\bset,?\s+(\d)\s+in\s+(?:the\s+|an?\s+)?tube\b", r", set of \1"),
    (rf",\s*(\d*\.?\d+\s*g)\s*[,(]+\s*({MANY})\s+of\s+each\)?$", r" and \1, \2 of each"),
    (
        r"((?:\d\s?x\s?\d{2}[\s,]+(?:and\s+)?){2,})(\d{1,2}\s+(?:of\s+them|in\s+all|total|altogether|all\s+told))$",
        r"\1 (note: \2)",
    ),
    (
        rf"(,\s*{MANY}\s+of\s+each),\s*((?:[a-z]+\s+){{1,3}}(?:box|wallet|drawer|tray|tub))$",
        r"\1 (note: \2)",
    ),
    (
        rf",\s*(?:got\s+)?{MANY}\s+of\s+(?:'?em|them)\s*[-,:]\s*(?=(?:{FEW})\s+(?:{_COLOURED})\s+(?:and\s+)?{FEW}\s+(?:{_COLOURED}))",
        ", ",
    ),
    (r"\bset\s+(?P<bare>(?:\d{1,2}\s+){2,}\d{1,2})\s*g\b", of_a_set),
    (
        r"(?<!no )(?<!no)\b(?P<first>\d{1,2})\s*(?:to|-)\s*(?P<last>\d{1,2})\s*no\.?\s*(?P<size>\d{1,2})\b",
        every_mark_of_a_set,
    ),
    (
        r"\b(\d+)\s*g(?:ram)?s?\s+(one|two|three|four|\d)\s+and\s+(one|two|three|four|\d)\s+(\d+)\s*g(?:ram)?s?\b",
        so_many_grams,
    ),
    (
        r"\bnos\.?\s*\d{1,2}(?:\s*,\s*\d{1,2})+\b(?![\d.]*\s*(?:of|g|mm|cm|m|lb|oz)\b)",
        numbers_in_full,
    ),
    (
        r"(?<![\d.-])(\d{1,2})\s*-\s*(\d{1,2})\s*-\s*(\d{1,2})(?![\d.-]|\s*(?:g|oz|mm|cm|m|in|lb)\b)",
        r"\1/\2/\3",
    ),
    (r"\b(\d{1,2})\s*no\.?\s*(\d{1,2})\s+to\s+(\d{1,2})\s*no\.?\s*\2\b", every_mark),
    # a list without spaces is no decimal comma: "5,10,15,20g"
    # the last of "2 x 25g, 1 x 35" has the unit of the first
    (
        rf"({_TIMES})\s*(g|oz)\b([\s,&+]+(?:and\s+)?{_TIMES})(?![\d.]|\s*(?:g|oz|mm|no)\b)",
        r"\1\2\3\2",
    ),
    (
        rf"\b(?P<many>{MANY})\s+(?P<long>\d+\s*(?:m|yds?))\s+(?P<spools>spools?)\s+of\s+each\b",
        r"\g<long>, \g<many> \g<spools> of each",
    ),
    (r"(?<![\d./])(?<!/\s)(\d{1,2})\s+/\s+(\d{1,2})(?=[^/]*\beach\b)", r"\1 and \2"),
    (
        r"(?P<listed>\d+\s*g(?:[\s,/]+\d+\s*g)+),?\s*(?P<many>\d+(?:/\d+)+)\s+respectively\b",
        each_its_own,
    ),
    (rf"\b(\d)\s*x\s*({SHOT})\s+(\d)\s*x\s*({SHOT})\b", r"\1 x \2 and \3 x \4"),
    (rf"\b((?:{FEW})\s+{_SIZED})\s+(?=(?:{FEW})\s+{_SIZED}\b)", r"\1 and "),
    (rf",?\s*\b(\d+\s+{PACKETS}\s+of\s+\d+)\s+({_COLOURED})$", r" \2, \1"),
    (
        r"\b(two|three|four|\d)\s+(\d+)\s*g\s+and\s+(?:an?|one)\s+(\d+)(?:\s*g)?\b",
        r"\1 x \2g and 1 x \3g",
    ),
    (
        r"\b(\d+(?:\s*\d/\d)?\s*(?:oz|g)),\s*(\d{1,2}),?\s*and\s+(\d+(?:\s*\d/\d)?\s*(?:oz|g)),\s*(\d{1,2})(?=\s*(?:,|$))",
        r"\1 x \2 and \3 x \4",
    ),
    (
        r"\b(\d+\s*(?:oz|g))\s+(\d)\s*pcs?,?\s+(?:and\s+)?(\d+\s*(?:oz|g))\s+(\d)\s*pcs?\b",
        r"\1 x \2 and \3 x \4",
    ),
    (
        rf"\b({FEW})\s+(\d+(?:\s*\d/\d)?\s*oz|\d/\d\s*oz)\s+(bombs|leads|feeders)\s+and\s+an?\s+(\d+(?:\s*\d/\d)?\s*oz|\d/\d\s*oz)(?=\s*(?:,|$))",
        r"\2 \3 x \1 and \4 \3 x 1",
    ),
    (
        r"\b((?:[a-z]+\s)?[a-z]+s)\s*(?:and|&|\+)\s*((?:[a-z]+\s)?[a-z]+s),\s*(two|three|four|[2-9])\s+sets\b",
        r"\1 x \3 and \2 x \3",
    ),
    (
        r"\b(dust(?:\s+shot)?,?\s+)(?:mixed,?\s+|assorted\s+|asst\s+|sizes?\s+)*(\d{1,2})s?\s*(?:to|-)\s*(\d{1,2})s?\b",
        every_styl,
    ),
    (rf"^([2-9])\s+({_SIZED}\s+)?feeders\s+(\d[05])$", r"\1 x \2feeders \3g"),
    (r"^feeders?\s+([2-9])\s+(\d[05])$", r"\1 x feeders \2g"),
    (rf"[,\s]+({FEW})\s*(?:of|off)\b[.,:]?\s+((?:\d+\s*g[\s,]+)+\d+\s*g)$", one_of_so_many),
    (
        rf"\b(bush(?:es)?\b[^,&]*?)\s+and\s+({FEW})\s+(bungs|connectors|beads)(?=\s*(?:,|$))",
        r"\1, 1 off, & \2 \3",
    ),
    (r"\b(feeders?)\s+(\d[05])/(\d[05])(?=\s*(?:g|,|$))(?:\s*g\b)?", r"\1 \2g, \3g"),
    (r"(\d/\d+)\s+(?:pkt|packet|pack)\s+(?:of\s+)?each$", r"\1, one packet of each"),
    (r"\b(\d\s*(?:aaa|bb|ssg|swan))\s*/\s*(?=\d\s*(?:aaa|bb|ssg|swan))", r"\1, "),
    (r"(\d*\.?\d+\s*g)\s*\+\s*(\d*\.?\d+\s*g)\s*\+\s*(?=\d)", r"\1, \2 and "),
    (r"(?<=[a-z])\s+(?P<many>two|three|four)\s+each$", r", \g<many> of each"),
    (r"(\bof\s+each),\s*(\d+)s$", r"\1, \2 to a packet"),
    (r"(?<![\d.])(?:\d*\.?\d+\s*g\s+){2,}\d*\.?\d+\s*g\b", with_commas),
    (r",\s*(\d|two|three|four|five|six)\s+(?:each|apiece)$", r", \1 of each"),
    (r"(?<=\d)(\s*(?:g|oz))\s+(two|three|four|five|six)\s+of\s+each\b", r"\1, \2 of each"),
    (
        r"\b(\d+)\s*(g|oz)\s*x\s*(\d)(\s*[,&+]\s*|\s+and\s+)(\d+)\s*x\s*(\d)\b",
        r"\1\2 x \3\4\5\2 x \6",
    ),
    (r"(\d+/\d+/\d+)\s+three\s+(packets?|pkts?|packs?)$", r"\1, one packet of each"),
    (
        rf"\b({FEW})\s+(?:at|@)\s+(\d+/\d+|\d+)\s*(?:oz|ounce),?\s+(?:and\s+)?({FEW})\s+(?:at|@)\s+(\d+/\d+|\d+)\s*(?:oz|ounce)\b",
        r"\1 x \2oz and \3 x \4oz",
    ),
    (
        rf"\b({FEW})\s+(?:at|@)\s+(\d*\.?\d+)\s*g(?:ram)?s?,?\s+(?:and\s+)?({FEW})\s+(?:at|@)\s+(\d*\.?\d+)(?:\s*g(?:ram)?s?)?\b",
        r"\1 x \2g and \3 x \4g",
    ),
    (r"\b(\d)\s+no\.?\s+(\dx\d\d)\b", r"\1 x \2"),
    (
        rf"\b\d\s+{PACKETS}\s+(?:of\s+)?(hooks\b.*?)\b(\d)\s+of\s+(\d\d)\s+and\s+(\d)\s+of\s+(\d\d)\b",
        r"\1 \2 packets of \3 and \4 packets of \5",
    ),
    (r"\b\d\s+off,?\s+(?=one\s+each\b)", ""),
    # "two a piece" of several
    (r",\s*(?P<many>one|two|three|four|five|\d)\s+a\s*piece\b", r", \g<many> of each"),
    # "each" shortened, where it is no price
    (
        r"(?<![a-z])(?P<before>of|one|two|three|\d|pkts?|packs?|pks?|tubs?)\s*ea\b(?!\w)",
        r"\g<before> each",
    ),
    (
        rf"(?<![\d./]){_PART}(?:\s*(?:oz|lb))?(?:\s*(?:,|and|&|/)\s*{_PART}(?:\s*(?:oz|lb))?)+(?![\d./])",
        in_one_unit,
    ),
)
