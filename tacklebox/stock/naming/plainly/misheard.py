"""What a phone hears and a hasty finger leaves out: "to packets", "size ate", "olive its", "012 mm" without
its point, "2 95" without its sign."""

import re

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import PACKETS

_GRAMS = r"(?:mm|mil(?:s|limetres?)?|g|gr|gms?|grams?)"
_LETTERS = {"b b": "BB", "a a a": "AAA", "a a": "AAA", "s s g": "SSG", "a b": "AB"}
_PAID = r"(?:bought\s+for|paid|cost(?:\s+me)?|price)"


def in_one(found: re.Match[str]) -> str:
    """ "B B" as BB."""
    return _LETTERS[" ".join(found.group().lower().split())]


RULES: Rules = rules(
    (r"\b(?:floral?|floor[\s-]*o|flora|fluro|floro|flouro|fluo)[\s-]+carb[oe]n\b", "fluorocarbon"),
    (r"\bbrayed\b", "braid"),
    (
        r"^(?=.*\d)(.*?)\bhalf\s+(?:an?\s+)?(?:ounces?|oz)\b(?=.*\bone\s+(?:ounce|oz)\b)",
        r"\g<1>1/2 oz",
    ),
    (r"^(?=.*\d)(.*?)\bone\s+(?:ounce|oz)\b(?!\s+and\s+an?\b)", r"\g<1>1 oz"),
    (r"\bolive\s+(?:its|it's|eights?|ettes?)\b", "olivettes"),
    (
        r"\b(?:still|steel|stile|style)s?\s+(?=weights?\b|leads?\b|size\b|no\.?\s*\d|number\b)",
        "styl ",
    ),
    (r"\b(rubber|glass|soft|quick\s+change)\s+(?:beds|beats)\b", r"\1 beads"),
    (r"\bconn?ecter(s?)\b", r"connector\1"),
    (r"\bquick\s+stocks\b", "quickstops"),
    (r"\b(?:cylinder|cylindrical)\s+pole\s+(?:wieghts?|weights?|leads?|shot)\b", "styls"),
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
