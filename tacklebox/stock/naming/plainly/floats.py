"""What is said of a float's stem and of the load inside it, put as its other figures are."""

from tacklebox.stock.naming.plainly.rules import Rules, rules

_STEM = r"(?:carbon|wire|glass|fibre|cane|alloy|steel|bamboo)"

RULES: Rules = rules(
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
