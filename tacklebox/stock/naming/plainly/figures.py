"""Figures of the thing: "half an ounce", "the top two", "16/.12", "3 in (76 mm)"."""

import re

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, SPOKEN
from tacklebox.trade.quantities import read_length_mm, read_mass_g
from tacklebox.trade.shot import read_mark

SAID_TWICE_WITHIN = 0.07  # of a figure in one unit and its round number in another
_PART_OF = r"(half|quarter|three[\s-]quarters?)"
_AND_MORE = r"(?:\d+\s*ft\s*(?=\d+\s*in)|\d+\s*lbs?\s*(?=\d+\s*oz))?"
_SIZED_IN = rf"{_AND_MORE}(?:\d+\s+\d/\d{{1,2}}|\d/\d{{1,2}}|\d*\.?\d+)\s*"
_IN_UNITS = r"(?:lbs?|kg|gms?|grams?|g|oz|mm|cm|m|in|inch|inches|ft|yds?|yards?|\")(?![a-z])"


def part_of_an_ounce(found: re.Match[str]) -> str:
    return f"{ {'h': '1/2', 'q': '1/4', 't': '3/4'}[found[1][0].lower()] } oz"


def said_in_two_units(found: re.Match[str]) -> str:
    """ "28g/1oz" or "3 in (76 mm)" is one figure in both units: the second is a note."""
    first, second = found["first"].strip(), found["second"].strip()
    for reads in (read_mass_g, read_length_mm):
        try:
            one, other = reads(first), reads(second)
        except AskedWronglyError:
            continue
        if one and other and abs(other / one - 1) < SAID_TWICE_WITHIN:
            before = found.string[: found.start()]
            inside = before.count("(") > before.count(")")
            strain = second.lower().endswith(("lb", "lbs", "kg"))
            return first if inside or strain else f"{first} (note: {second})"
    return found.group()


def strain_said_twice(found: re.Match[str]) -> str:
    """ "1.7kg / 3lb 12oz" is one strain in both units: the second is a note."""
    pounds = int(found[2]) + int(found[3]) / 16
    alike = abs(pounds * 0.4536 / float(found[1]) - 1) < SAID_TWICE_WITHIN
    return f"{found[1]} kg (note: {found[2]} lb {found[3]} oz)" if alike else found.group()


def pounds_and_ounces(found: re.Match[str]) -> str:
    """ "0.09 (one pound fourteen)" is a strain: 1 lb 14 oz."""
    pounds, ounces = count_of(found["pounds"]), count_of(found["ounces"])
    said = f"{pounds} lb {ounces} oz" if 0 < ounces < 16 else ""
    return f"{found['before']} {said}" if said else found.group()


def takes_both(found: re.Match[str]) -> str:
    """ "Crystal waggler 2 swan + 2AAA" takes both: 4.8 g."""
    one, other = (
        (int(found[many]), "SSG" if found[mark].lower() == "swan" else found[mark].upper())
        for many, mark in (("many", "mark"), ("more", "other"))
    )
    if found["mark"].lower() == found["other"].lower():  # no float is marked so: they are two
        return (
            f"{found['before']}{found['many']}{found['mark']} and {found['more']}{found['other']}"
        )
    grams = sum(many * read_mark(mark).mass_g for many, mark in (one, other))
    said = " + ".join(f"{many}{mark}" for many, mark in (one, other))
    return f"{found['before']}{grams:.4g} g (note: {said})"


def in_hundredths(found: re.Match[str]) -> str:
    """ "twelve hundredths" is 0.12."""
    return f"0.{count_of(found[1]):02d}"


def ounces_and_drams(found: re.Match[str]) -> str:
    """ "1oz 8dr" is an ounce and a half: 16 drams are an ounce."""
    quarters = int(found[2]) // 4
    return f"{found[1]} {'1/2' if quarters == 2 else f'{quarters}/4'} oz"


RULES: Rules = rules(
    (
        r"^(?!.*(?:load|ldd|semi|slid))(?P<before>.*\b(?:wag(?:gler)?|float|stick|avon)\b.*?)(?P<many>\d)\s*(?P<mark>swan|ssg|aaa|bb|ab)\s*\+\s*"
        r"(?P<more>\d)\s*(?P<other>swan|ssg|aaa|bb|ab)\b",
        takes_both,
    ),
    (
        rf"(?P<before>(?<![\d.])0?\.\d\d(?:\s*mm)?\b[^,(£]*?)[\s,(]+(?P<pounds>{FEW})\s+pounds?\s+(?P<ounces>\d{{1,2}}|{SPOKEN})\b\)?"
        r"(?!\s*(?:each|ea|the|for|an?|x|off)\b)",
        pounds_and_ounces,
    ),
    (r"\b(bombs?)\s+(\d/\d)(?:\s*oz)?\s+swivel(?:s|led)?\b(?!\s+top)", r"\1, \2 oz, swivel top"),
    (
        r"\bhook\s?(?:length|link)\s+(mono|nylon|fluoro\w*)\b(?!.*\b(?:to|on)\s+0?\.\d)(?!.*\bsize\b)",
        r"\1 hooklength line",
    ),
    (rf"\b({SPOKEN}|\d{{1,2}})\s+hundredths\b", in_hundredths),
    (r"(?<![\d.])0-(\d{2})(?!\d)", r"0.\1"),
    (r"\b(htn|h2n|hooks?\s+to\s+nylon)\s+(\d{2})s\s+(?=\d+\s*lb)", r"\1 \2 to "),
    (r"(?<=to )(0?\.\d\d)\s+metre\s+long\b", r"\1, 1 metre long"),
    (r"\b(\d+)\s*oz\s+(4|8|12)\s*dr(?:ams?)?\b", ounces_and_drams),
    (r"\btapered\s+(?:down\s+)?to\s+(\d+\s*lb)\b", r"tapered (note: to \1)"),
    (r"(?<=[a-z]),\s+fluoro\s+(?=(?:yellow|orange|pink|green|red)\b)", ", hi vis "),
    (
        r"^(?=.*\b(?:elastic|lastic|lacky|laccy)\b)(.*?)(?<![\d/])([4-9]|1\d|2[0-4])/([4-9]|1\d|2[0-4])(?![\d/])",
        r"\1\2-\3",
    ),
    (
        rf"(?<!\d )(?<!and a )\b{_PART_OF}(?:\s+(?:of\s+)?an)?[\s-]+(?:oz|ounce)\b",
        part_of_an_ounce,
    ),
    (rf"\bin\s+an?\s+(?:size\s+)?(?P<size>{SPOKEN}|\d{{1,2}})(?<!s)$", r"size \g<size>"),
    (r"\bbrand\s+new\b", "new"),
    (r"(?<=\d\.\d\d)s\b", ""),  # "20 to 0.10s"
    (r"\b(?:(?:an?\s+)?quarter|1/4)[\s-]+(?:of\s+an?\s+)?mile\b", "440 yd"),
    (r"\b(?:(?:an?\s+)?half|1/2)[\s-]+(?:an?\s+)?mile\b", "880 yd"),
    (r"\s+in\s+one\s+(?=dispenser|tub|box)", ", one "),
    (r"\b(\d+\s*-\s*\d+)\s+grade\b", r"grade \1"),
    (r"\b(bombs?\b.*\b\d*(?:oz|g)\b)\s*swivel\b(?!\s+top)", r"swivel \1"),
    (r"\bbarb:\s*(\w+)", r"\1 barb"),
    (r"\beye:\s*no\b", "spade"),
    (r"\b(\d{1,2})\s+at\s+(\d{2,4}\s*(?:yds?|yards?|m|mtrs?|metres?)\b)", r"\1 x \2"),
    (r"\bbodies\b", "body"),
    (r"(?<=\d)\s*ish\b", ""),
    (r"(\d*\.\d+)\s+of\s+a\s+gram(?:me)?\b", r"\1 g"),
    (r"\b(\d\s*(?:bb|aaa|ssg|swan))\s*\+\s*(\d+\s*g(?:m|rams?)?)\b", r"\2 + \1"),
    (
        r"(?<![\d.])(\d*\.?\d*[1-9]\d*)\s*kg\s*/\s*(\d+)\s*lbs?\s*(\d+)\s*oz\b",
        strain_said_twice,
    ),
    (r"\b(\d/\d)\s+(bombs?)\s+swivel\b", r"\1 oz swivel \2"),
    (r"\btop\s+2\s+kits?\b", "top kits"),
    (r"(?<!oz )\b(\d)\s+and\s+(1/2|1/4|3/4)\s*(oz|lb|g)\b", r"\1 \2 \3"),
    (r"(?:(?<=\bto\s)|(?<=\bx\s))(\d)\s*lb\s+(2|4|6|8|12|14)(?=,)", r"\1lb \2oz"),
    (r"\bthe\s+top\s+two\b", "the top kits"),
    (r"\b(line|mono)\s+([123]\d|0[6-9])s\b", r"\1 0.\2"),
    (
        r"^(?!.*(?:\bline\b|mm\b|lb\b))(.*?)\bflu?o(?:ro)?\.?\s+(?=(?:yellow|orange|red|green|pink)\b)",
        r"\1",
    ),
    (r"\bh\s?2\s?n\b", "hooks to nylon"),
    (r"(?<![\d.])(\d)kg(\d)(?![\w.,])", r"\1.\2 kg"),
    (r"\b(\d)\s+lengths?\s+(?:(?:@|at|of)\s+)?(?=\d+(?:\.\d+)?\s*(?:m|cm|mm)\b)", r"\1 x "),
    (r"\b(?:to\s+(?=(?:spade|eyed?)\b)|tied\s+to\s+(?=(?:flu?oro\w*|mono|braid)\b))", ""),
    (r"\bto\s+an?\s+(?=\d\d?\b)", "to "),
    (r"(?<![\d./])([12]\d)\s*/\s*(0?\.\d\d)\b", r"\1 to \2"),
    (
        rf"(?<![\w./])(?P<first>{_SIZED_IN}{_IN_UNITS})\s*(?:[\[(/=]|or)\s*(?P<second>{_SIZED_IN}{_IN_UNITS})(?:\s*[\])])?",
        said_in_two_units,
    ),
    (
        rf"(?<![\w./])(?P<first>{_SIZED_IN}(?:oz|g)),\s*(?P<second>{_SIZED_IN}(?:oz|g)\b)",
        said_in_two_units,
    ),
)
