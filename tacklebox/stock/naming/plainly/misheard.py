"""What a phone hears and a hasty finger leaves out: "to packets", "size ate", "olive its", "012 mm" without
its point, "2 95" without its sign."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import PACKETS, SPOKEN

_GRAMS = r"(?:mm|mil(?:s|limetres?)?|g|gr|gms?|grams?)"
_LETTERS = {"b b": "BB", "a a a": "AAA", "a a": "AAA", "s s g": "SSG", "a b": "AB"}
_TENS = (
    r"(?:(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)"
    r"(?:[\s-](?:one|two|three|four|five|six|seven|eight|nine))?)"
)
_LONG = r"(?:met(?:re|er)s?|m|yards?|yds?)\b"
_FEW = r"(?:[2-9]|two|three|four|five|six|seven|eight|nine)"
_BY = r"(?:ten|twelve|fourteen|sixteen|eighteen|twenty|10|12|14|16|18|20)"
_PENCE = (
    r"(?:(?:ninety|seventy|forty|twenty|eighty|sixty|fifty|thirty)[\s-](?:nine|five)|ten|twenty|thirty|forty|fifty"
    r"|sixty|seventy|eighty|ninety)"
)
_PAID = r"(?:bought\s+for|paid|cost(?:\s+me)?|price)"


def in_one(found: re.Match[str]) -> str:
    """ "B B" as BB."""
    return _LETTERS[" ".join(found.group().lower().split())]


def a_packet_at(found: re.Match[str]) -> str:
    """ "Packet of twenty one pound ninety nine" as twenty at £1.99."""
    pence = count_of(found["pence"].replace("-", " "))
    return f"pack of {count_of(found['held'])}, £{count_of(found['pounds'])}.{pence:02d}"


def in_hundreds(found: re.Match[str]) -> str:
    """ "Hundred and fifty metres" as 150 metres."""
    hundreds, _, more = re.sub(r"\s+", " ", found["many"].lower()).partition(" and ")
    many = count_of(hundreds.removesuffix("hundred").strip() or "one")
    return f", {100 * max(many, 1) + count_of(more)} "


RULES: Rules = rules(
    (
        r"\b(?:floral?|floor[\s-]*(?:o'?|a\s)|flora|fluro|floro|flouro|fluo)[\s-]*carb[oe]n\b",
        "fluorocarbon",
    ),
    (r"\bbrayed\b", "braid"),
    (rf"\b(?:for|four|4)\s+by\s+({_BY})\b", lambda found: f"4x{count_of(found[1])}"),
    (rf"\b(?:three|3)\s+by\s+({_BY})\b", lambda found: f"3x{count_of(found[1])}"),
    (r"\b(margin|pole|canal)?\s*dippers?\b(?=.*\b(?:grams?|g)\b)", r" \1 dibber"),
    (r"\bhare\s+(?=rig)", "hair "),
    (r"\b(snap\s+|link\s+|barrel\s+)(?:civils?|civvels?)\b", r"\1swivels"),
    (r"(?<=shot\s)shop\b|\bshop\s+(?=tub\b)", "shot "),
    (rf"\b(size\s+{SPOKEN})\s+i'?d\b", r"\1 eyed"),
    (rf"\b(size\s+{SPOKEN})\s+to\s+(?=(?:eyed|spade|barbless|barbed)\b)", r"two \1 "),
    (rf"\b(size\s+{SPOKEN})\s+(?=point\b)", r"\1 to "),
    (r"\bto\s+(?=of\s+them\b)", "two "),
    (r"\bbeeds\b", "beads"),
    (r"\bback[\s-]?lead(s?)\b", r"back lead\1"),
    (r"\bplum\s+it\b", "plummet"),
    (r"\bban\s+joe?\b", "banjo"),
    (r"\bleg\s+a\s+stops\b", "leger stops"),
    (rf"\bsighs?\s+(?={SPOKEN}\b|\d)", "size "),
    (
        rf"\s*\b(?P<many>(?:(?:one|two|three|four|five|a)\s+)?hundred\s+and\s+{_TENS})\s+(?={_LONG})",
        in_hundreds,
    ),
    (
        rf"(?<=[a-z]),?\s+({SPOKEN})\s+pounds\s+({_PENCE})$",
        lambda found: f", £{count_of(found[1])}.{count_of(found[2].replace('-', ' ')):02d}",
    ),
    (
        rf"^(.*\b{SPOKEN}\s+pound\b.*?),?\s+({SPOKEN})\s+pounds$",
        lambda found: f"{found[1]}, £{count_of(found[2])}",
    ),
    (
        rf"\b(in\s+(?:the|an?)\s+(?:packet|pack))\s+({SPOKEN})\s+pounds$",
        lambda found: f"{found[1]}, £{count_of(found[2])}",
    ),
    (
        rf"^(?!.*\b(?:line|mono|nylon|fluoro\w*|braid|hook\s?lengths?|leader|tied|rigs?|swivels?|links?|traces?)\b)(.*?[a-z]),?\s+({SPOKEN})\s+pounds(?=$|\s+for\s)",
        lambda found: f"{found[1]}, £{count_of(found[2])}",
    ),
    (r"\ball\s+of\s+its\b(?=.*\bgrams?\b)", "olivettes"),
    (
        r"\b(one|two|three)\s+((?:twenty|thirty)(?:[\s-]five)?|fifty|eighty)\s+(?=met(?:re|er)s?\b|yards?\b)",
        lambda found: f"{100 * count_of(found[1]) + count_of(found[2].replace('-', ' '))} ",
    ),
    (
        rf"\b(?:packet|pack|box|bag)\s+of\s+(?P<held>ten|twenty|thirty|forty|fifty)\s+(?P<pounds>one|two|three|four|five|six|seven|eight|nine)\s+pounds?\s+(?P<pence>{_PENCE})$",
        a_packet_at,
    ),
    (
        rf"\b({_FEW})\s+lengths\s+(?:of\s+)?(?:about\s+)?({_FEW}|\d{{1,2}})\s+(?:m|met(?:re|er)s?)\b(?:\s+each)?",
        lambda found: f"{count_of(found[1])} of {count_of(found[2])} m",
    ),
    (r"\bdackron\b", "dacron"),
    (r"£\s?(\d{1,2})\s(\d\d)(?![\d.])(?!\s*(?:mm|cm|m|g|x|pcs)\b)", r"£\1.\2"),
    (
        rf"\b({_PENCE})\s+p\b(?=\s+(?:each|a|per|the)\b|\s*(?:,|$))",
        lambda found: f"{count_of(found[1].replace('-', ' '))}p",
    ),
    (r"(?<![\d.])([1-9])\s+half\s+(?=oz\b|ounces?\b)", r"\1 1/2 "),
    (
        r"^(?=.*\d)(?!.*\b(?:three\s+)?quarter)(.*?)(?<!\d\sand\s)(?<!\d\sand\sa\s)(?<!one\sand\sa\s)(?<!two\sand\sa\s)(?:(?<=[a-z]\s)|(?<=x2\s)|(?<=x\s2\s))\bhalf\s+(?:an?\s+)?(?:ounces?|oz)\b",
        r"\g<1>1/2 oz",
    ),
    (r"^(?=.*\d)(.*?)\bone\s+(?:ounce|oz)\b(?!\s+and\s+an?\b)", r"\g<1>1 oz"),
    (r"\boliv(?:e|er)\s+(?:its|it's|eights?|ettes?|ets)\b", "olivettes"),
    (
        r"\b(?:still|steel|stile|style)s?\s+(?=weights?\b|leads?\b|size\b|no\.?\s*\d|number\b)",
        "styl ",
    ),
    (r"\b(rubber|glass|soft|quick\s+change)\s+(?:beds|beats)\b", r"\1 beads"),
    (r"\bconn?ecter(s?)\b", r"connector\1"),
    (r"\bquick\s+stocks\b", "quickstops"),
    (r"\b(?:cylinder|cylindrical)\s+pole\s+(?:wieghts?|weights?|leads?)\b", "styls"),
    (rf"(?:^|(?<=,\s))(?:to|too)\s+(?={PACKETS}\b)", "two "),
    (rf"(?:^|(?<=,\s))(?:for|fore)\s+(?={PACKETS}\b)", "four "),
    (r"(?<=[a-z]\s)for\s+(?=(?:grams?|ounces?|ounce|gram|pound|millimetres?|mil)\b)", "four "),
    (r"(?<=\bsize\s)ate\b|\bate\b(?=\s+(?:inch|grams?|pound|packets?|of\b))", "eight"),
    (r"\b(?:b\s+b|a\s+a(?:\s+a)?|s\s+s\s+g|a\s+b)\b(?=s?\b)", in_one),
    (r"(?<![\w.])0(\d)\s*(to|-)\s*(\d)(\d)(?![\w.])", r"0.\1 \2 \3.\4"),
    (
        r"(?<![\w./:£,·-])0(\d\d)(?=\s?mm\b|\s|$)(?!\s?[./:·-]\s?\d)(?!\s+\d{2}\s+\d)",
        r"0.\1",
    ),
    (
        rf"^(?=.*\b(?:floats?|olivettes?|dibbers?|silicone|tub(?:e|ing)|bush(?:es)?)\b)(.*?)(?<![\w./:£,·-])0(\d)(?=\s?{_GRAMS}\b)",
        r"\g<1>0.\2",
    ),
    (r"(?<=[a-z]\s)3\s+quarters?\s+(?=(?:of\s+an\s+)?(?:oz|ounce))", "3/4 "),
    (r"\b([357])\s+eighths?\b", r"\1/8"),
    (
        r"(?<=\d/\d)(?P<before>\s*,?\s+(?:and\s+|&\s+)?)half(?=\s*,?\s+(?:and\s+|&\s+)?\d/\d)",
        r"\g<before>1/2",
    ),
    (
        rf"\b{_PAID}\s+(?:for\s+)?(?:£\s*)?(\d{{1,2}})\s+(\d\d)(?=$|\s+(?:each|for|the)\b)",
        r"£\1.\2",
    ),
    (r"\(\s*(g|grams?|oz|ounces?|mm|cm)\s*\)$", r"\1"),
)
