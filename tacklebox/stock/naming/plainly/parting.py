"""What parts one thing said from another, put as a comma: "..", " - peacock", "wire stem. 4 of"."""

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import MANY
from tacklebox.stock.naming.words import COLOURS

RULES: Rules = rules(
    (r",\s*((?:drawer|shelf)\s+(?:no\.?\s*)?(?:\d|one|two|three|four|five))$", r" (note: \1)"),
    (r"\bballast(?:ed)?\s+(?=wag)", "loaded "),
    (r"\bspare\s+top\s+two\b(?!\s*kits?\b)", "spare top kit"),
    (r"\btwin\s+(?=dispenser\b)", ""),
    (r"\bhome[\s-]+tied\b", "tied"),
    (rf"\b(styls?\b.*?\b{MANY})\s+tube(s?)\b", r"\1 tub\2"),
    (r"(?<=\d)lb(\d{1,2})\b(?!\s*(?:oz|x\b|m\b|pk))", r"lb \1 oz"),
    (r"[,\s]*\b(clear\s+(?:tip|top)s?)\b", r" (note: \1)"),
    (r"\s*\((loaded\s+on[^()]*)\)", r", \1"),
    (r"(?<=\d)(\s*)grms?\b", r"\1gram"),
    (r"\bpckts?\b", "pkts"),
    (r"\bs/shanks?\b", "short shank"),
    (r"\bl/shanks?\b", "long shank"),
    (r"\bswanshots?\b", "swan shot"),
    (r"(?<![\w./])(\d{1,2}\.\d)\s*/\s*(0?\.\d{2,3})(?![\d/])", r"\1lb \2"),
    (r"\bporky(?=\s+quills?\b)", "porcupine"),
    (r"\bcocks\s+(?:with|by|on)\b", "takes"),
    (r"\bc/w\s+(?:an?\s+)?(link|swivel|snap|clip)s?\s*(?=,)", r"(note: with \1) "),
    (r"\bc/w\s+(?:an?\s+)?(link|swivel|snap|clip)s?\b", r"with \1, "),
    (rf",\s*the\s+({'|'.join(COLOURS)})\s+(?:ones?|stuff)\b", r", \1"),
    (r"\bhalf[\s-]+loaded\b", "semi loaded"),
    (r"\b(booms?\b[^,]*?)\s*\b(anti[\s-]tangle)\b(?!\s+sleeve)", r"\1 (note: \2)"),
    (rf"\btrans(?:lucent)?\s+(?=(?:{'|'.join(COLOURS)})\b)", "clear "),
    (
        r"\b(swim\s?feeders?|open\s+end(?:er)?|block\s?end(?:er)?)\b(.*?\d\s*(?:g|gm|oz)\b),?\s*(?:with\s+)?(?:an?\s+)?strap\s+lead\b",
        r"\1\2 (note: strap lead)",
    ),
    (r"\bw\.\s*(?=(?:snap|link|clip|swivel|band|quick|mould)\w*\b)|\bwi['’]\s", "with "),
    (
        r"\s\+\s*mould(?:\s+set)?\s+(?=(?:large|medium|small|lge|med|sml|mini|\d+\s*g)\b)",
        " with mould, ",
    ),
    (
        r"^(?!.*(?:\d?\.\d|\d\s?(?:lb|kg)|\bline\b))(?P<hook>.*\b(?:eyed|barbless|barbed)\b[^\d]*)\bfor\s+hair\s+rigs\b",
        r"\g<hook>for hair rigging",
    ),
    (r"\bwag+'l?e?r(s?)\b", r"waggler\1"),
    (r"\bmade\s+up\s+(?=bottoms\b|hook\s?l)", "tied "),
    (r"\b(on|to)\s+0(\d)(?![\w.])", r"\1 0.0\2"),
    (r"(?<=\d)(\s*(?:lb|kg))\s+b\.\s?s\b\.?", r"\1 bs"),
    (r"(?<=\d)\s*&\s*(?=(?:1/2|1/4|3/4)\s*(?:bb|aaa|ab|ssg|swan)\b)", " "),
    (r"\b1\s+doz(?:en)?\b\.?\s+(?=loose\b)", "12 "),
    (r"(?<=\d)'s\b", "s"),
    (r"\bbout\b", "about"),
    (r"\bmicrodust\b", "micro dust"),
    (r"\bup\s+to\s+(?=\d)", "to "),
    # what parts one thing said from another: "..", " - peacock", "wire stem. 4 of"
    (r"\s*\.{2,}\s*", ", "),
    (r"\s+[-–—]\s+(?=[a-z])", ", "),
    (
        r"(?:(?<=[a-z]{4})|(?<=\b(?:one|two|six|ten))|(?<=\d[a-z])|(?<=\d[a-z]{2}))(?<!approx)(?<!no)\.\s+(?=\w)",
        ", ",
    ),
    (r"(?<=[a-z])\.\s+(?=\d{1,3}\s+(?:altogether|in\s+all|left|of|total)\b)", ", "),
    (rf"(?<=[a-z])\s+o\s+(?=each\b|{MANY})", " of "),
    (r"\s+and\s+(?=they'?re\s+(?:for|from)\b)", ", "),
    (r"\s*\|\s*", ", "),
    (r"(?:(?<=x \d)|(?<=x\d))\.\s+(?=£?\d)", ", "),
    (r"\s+[-–]\s+(?=\d+\s*(?:of\s+each|cm|in)\b)", ", "),
)
