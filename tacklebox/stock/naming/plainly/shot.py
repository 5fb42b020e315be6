"""Shot of several sizes, each with its own number: "4 AAA 6 BB 10 no 4", "BB 40, AAA 25", "AAA x 3 pots"."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW

_SIZE = r"(?:aaa|ab|bb|ssg|swan|no\.?\s*\d{1,2})"
_COUNTED = rf"(?:{FEW}|a\s+dozen)\s*x?\s*{_SIZE}s?"
_SIZED = rf"{_SIZE}s?\s*(?:x\s*\d{{1,2}}(?:\s*(?:pots?|tubs?))?|\d{{1,2}}(?!\s*(?:pot|tub)))"
_AND = r"[\s,]+(?:and\s+|&\s+|\+\s*)?"


def counted(found: re.Match[str]) -> str:
    """ "4 AAA 6 BB 10 no 4" as so many of each."""
    lots = re.findall(rf"({FEW}|a\s+dozen)\s*x?\s*({_SIZE})", found.group(), re.IGNORECASE)
    return " and ".join(f"{count_of(many)} x {size} shot" for many, size in lots)


def sized(found: re.Match[str]) -> str:
    """ "BB 40, AAA 25" and "AAA x 3 pots, BB x 2 pots" as so many of each."""
    lots = re.findall(rf"({_SIZE})s?\s*(?:x\s*)?(\d{{1,2}})", found["lots"], re.IGNORECASE)
    of_it = " tubs of" if re.search(r"pot|tub", found["lots"], re.IGNORECASE) else " x"
    more = re.sub(r"\bpot$", "tub", found.group()[len(found["lots"]) :])
    return " and ".join(f"{many}{of_it} {size} shot" for size, many in lots) + more


def every_dust(found: re.Match[str]) -> str:
    """ "Dust shot set 8 to 13" with every size of it."""
    sizes = range(int(found[1]), int(found[2]) + 1)
    return (
        f"dust shot {', '.join(f'no {size}' for size in sizes)}"
        if len(sizes) > 1
        else found.group()
    )


def for_a_float(found: re.Match[str]) -> str:
    """ "Thirty AB for bulking the loafers" as shot, and no float."""
    many = count_of(found["many"] or found["more"] or "") if found["many"] or found["more"] else 0
    return f"{f'{many} x ' if many else ''}{found['size']} shot (note: {found['what']})"


RULES: Rules = rules(
    (r"\bdust(?:\s+shot)?(?:\s+set)?\s+(\d{1,2})\s+to\s+(\d{1,2})$", every_dust),
    (
        r"^(?=.*\b(?:shot|dust)\b)(?!.*\b(?:disp\w*|swivels?)\b)(.*?)[,\s]*\b(?:\d|four|six|eight)[\s-]*way$",
        r"\1 dispenser",
    ),
    (r"^((?:old|soft|tin\s+of|some)\s+)?lead\s+([1-9]|1[0-3])s\b", r"\1lead shot no \2"),
    (
        r"^((?:old|soft|tin\s+of|some)\s+)?lead\s+(one|three|four|six|eight|nine|ten)e?s\b",
        lambda found: f"{found[1] or ''}lead shot no {count_of(found[2])}",
    ),
    (
        r"^(?:an?\s+|one\s+|1\s+)?(?:full\s+)?tub\s+(?:of\s+)?(no\.?\s*\d+|bb|aaa|ssg)\s+(?:shot\s+)?(?:and|&|\+)\s+(?:an?\s+)?(?:half|part|1/2)\s+(?:an?\s+)?tub\s+(?:of\s+)?(no\.?\s*\d+|bb|aaa|ssg)$",
        r"1 tub of \1 shot and 1 tub of \2 shot",
    ),
    (
        r"^(?=.*\bno\.?\s*[1-6]'?s\b)((?:no\.?\s*\d{1,2}'?s?)(?:\s*(?:,|\+|&|and)\s*(?:no\.?\s*\d{1,2}'?s?))+)(?=\s*(?:,|$))",
        r"\1 shot",
    ),
    (rf"^({_SIZE})s?(?:,\s*|\s+and\s+|\s*&\s*)({_SIZE})s?\s+shot$", r"\1 shot and \2 shot"),
    (
        rf"^(?:(?P<many>{FEW}|\d{{2,3}}|twenty|thirty|forty|fifty)\s+)?(?P<size>aaa|ab|bb|ssg|swan)s?\s+"
        r"(?P<what>for\s+(?:bulking\s+)?(?:the\s+|my\s+|big\s+)*(?:wagglers?|sliders?|loafers?|avons?|floats?|sticks?|rigs?))"
        r"(?:,\s*(?P<more>\d{1,3}))?$",
        for_a_float,
    ),
    (rf"^{_COUNTED}(?:{_AND}{_COUNTED}){{1,4}}$", counted),
    (
        rf"^(?P<lots>{_SIZED}(?:{_AND}{_SIZED}){{1,4}})(?:,\s*(?:all\s+loose|(?:\d+p|£\d+(?:\.\d\d)?)\s+(?:each|a\s+\w+)))?$",
        sized,
    ),
)
