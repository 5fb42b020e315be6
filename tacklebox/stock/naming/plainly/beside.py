"""What is said beside the thing and is no figure of it: where it is, what it is for, how long it was used."""

from tacklebox.stock.naming.plainly.rules import Rules, rules

_WHERE = (
    r"(?:canal|river|pond|lake|feeder|carp|match|commercial|winter|summer|pole|waggler|float|top|side|bottom"
    r"|big|small|old|blue|red|green|black|grey|orange|yellow|clear|white)"
)

RULES: Rules = rules(
    (
        r"[\s,–-]+((?:box|bag|seatbox|side)\s+(?:tray|drawer|tin|shelf|compartment)\s+(?:no\.?\s*)?\d{1,2})$",
        r" (note: \1)",
    ),
    (
        r"\b(nearly\s+(?:empty|gone|out))[,\s]+(?:so\s+)?(?:must|need\s+to|have\s+to)\s+(?:buy|get)\s+(?:some\s+)?more\b",
        r"\1",
    ),
    (r"\b((?:packet|pkt|pack)\s+of\s+\d+),\s*(?:1|one)\s+opened\b", r"\1, opened"),
    (
        r"\b(two|2)\s+spools[,\s]+((?:one|1)\s+half\s+(?:used|gone|empty|full))$",
        r"2 spools (note: \2)",
    ),
    (
        r"\(((?:for|from|off|ex|since|by|kept|was|in\s+(?:an?|the|my|his|her|old)|on\s+(?:an?|the|my|his))\s+[^()\d]*)\)",
        r"(note: \1)",
    ),
    (
        rf"(?<=\d)(?P<unit>\s*(?:g|oz|mm|bb|aaa|ssg|lb))\s+(?P<where>{_WHERE}\s+(?:box|tray|drawer|tin|bag|case))$",
        r"\g<unit> (note: \g<where>)",
    ),
    (r",?\s*\bbottom\s+of\s+(?:the|a)\s+(?:spool|reel|tub|packet)$", ", nearly gone"),
    (
        r"^(?:just\s+)?(?:an?\s+)?(?:little\s+)?bit\s+of\s+(?=.*\b(?:nylon|mono|line|braid|fluoro\w*)\b)(?!.*(?:\bleft\b|\d\s*(?:m|yds?|yards)\b))(.*)$",
        r"\1, bit left",
    ),
    (
        r",?\s*\b(used\s+(?:for\s+)?(?:half\s+)?(?:an?|one|two|three|\d)\s+(?:seasons?|years?|matche?s?|months?|times?))\b",
        r" (note: \1)",
    ),
    (r"^(?=.*\b(?:\w*feeder|cage)s?\b)(.*?)[,\s]+no\s+lead(?=\s+[a-z])", r"\1 (note: no lead)"),
    (r"\b(pack\s+of\s+\d+),?\s+(with\s+(?:an?\s+)?mould)\b", r"\1 (note: \2)"),
)
