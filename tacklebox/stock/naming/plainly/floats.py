"""What is said of a float's stem and of the load inside it, put as its other figures are."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import SPOKEN


def loaded_grams(found: re.Match[str]) -> str:
    """ "Bodied waggler eight gram plus two" as 8+2 g."""
    return f"{found[1]}{count_of(found[2])}+{count_of(found[3])} g"


_STEM = r"(?:carbon|wire|glass|fibre|cane|alloy|steel|bamboo)"

RULES: Rules = rules(
    (
        rf"^(?=.*\bwagg?l?e?r?s?\b)(.*?)\b(\d+|{SPOKEN})\s*(?:g|grams?)\s+plus\s+(\d|{SPOKEN})\b(?!\s*(?:bb|double|triple|aaa|ssg|swan|no|number|spare|more|g\b|x\b))",
        loaded_grams,
    ),
    (
        r"^(?!.*\b(?:floats?|wagg?l?e?r?s?|avons?|sticks?|antennas?|sliders?)\b)(.*?)\b((?:porcupine|crow|goose|swan|bird|turkey)\s*quills?)\b",
        r"\1\2 float",
    ),
    (
        r"^(?=.*\bquill\b)(.*?float)s?,?\s+(\d+(?:\s+\d/\d)?\s*(?:in|inch|inches|\"|cm)(?:\s+long)?)(?=\s*(?:,|$))",
        r"\1 (note: \2)",
    ),
    (
        rf"[,\s]*\b(\d(?:\.\d+)?\s*mm\s+(?:{_STEM}\s+)?stem)\s+({_STEM})\b",
        r", \2 stem (note: \1)",
    ),
    (rf"[,\s]*\b(\d(?:\.\d+)?\s*mm)\s+({_STEM})\s+stem\b", r", \2 stem (note: \1 stem)"),
    (
        rf"[,\s]*\b((?:{_STEM}\s+)?stem)\s+(\d(?:\.\d+)?\s*mm)\b(?!\s*(?:tip|bristle))",
        r", \1 (note: \2 stem)",
    ),
    (r"[,\s]*\b((?:strong|thick|thin|fine|long|short)\s+stem)(s?)\b", r" (note: \1\2)"),
    (r"(?<=loaded)(?P<what>.*?\d\s*g)\s+ballast\b", r"\g<what>"),
)
