"""What is said beside the thing and is no figure of it: where it is, what it is for, how long it was used."""

from tacklebox.stock.naming.plainly.rules import Rules, rules

_WHERE = (
    r"(?:canal|river|pond|lake|feeder|carp|match|commercial|winter|summer|pole|waggler|float|top|side|bottom"
    r"|big|small|old|blue|red|green|black|grey|orange|yellow|clear|white)"
)

RULES: Rules = rules(
    (
        r"^(?!.*\bdead\s*weights?\s+for\b)(?=.*\b(?:leads?|bombs?|clip\s+on)\b)(.*?)[\s,]*\b(for\s+(?:the\s+|my\s+)?(?:[a-z]+\s+)?(?:feeders?|blockends?|cages?))\b",
        r"\1 (note: \2)",
    ),
    (
        r"\binterchangeable\s+weights?(\s+for\s+(?:the\s+|my\s+)?feeders?)?\b",
        r"leads (note: interchangeable\1)",
    ),
    (
        r"^(?!.*\bline\b)(.*[a-z\d)].*?),?\s+(for\s+(?:the\s+|my\s+)?(?:poles|pole\s+floats?|top\s+kits?))(?=\s*(?:[,;(]|$|\d|one\b|two\b))",
        r"\1 (note: \2)",
    ),
    (
        r",?\s*\b(for\s+(?:the\s+|my\s+)(?:feeder|float|waggler|pole|match)\s+(?:reel|rod))\s+(?=point\b|nought\b|oh\b|\d)",
        r" (note: \1) ",
    ),
    (r"\b((?:pear\s+)?(?:leads?|bombs?))\s+(on\s+(?:an?\s+)?swivels?)\b", r"\1 (note: \2)"),
    (
        r"^(?=.*\b(?:silicone?|tub(?:e|ing))\b)(.*?)[,\s]+(\d+\s*(?:ft|feet|foot|m|cm|in|inch(?:es)?)\s+or\s+so)\b",
        r"\1 (note: \2)",
    ),
    (r"(\d\s*(?:m|mtrs?|metres?|yds?|yards?))\s+or\s+so\b", r"\1"),
    (
        r"[,\s]+(dregs|(?:a\s+)?pinch\s+of\s+each|bits?\s+of\s+each|(?:just\s+)?dregs\s+left)$",
        r" (note: \1)",
    ),
    (
        r"^(?=.*\bdispenser\b)(.*?)[,\s]+((?:the\s+)?(?:bb|aaa|ssg|ab|no\.?\s*\d+)s?\s+(?:side|slot|part|bit|compartment|section)\s+(?:is\s+)?(?:empty|gone|missing)(?:,\s*(?:the\s+)?(?:others?|rest)\s+[a-z]+)?)$",
        r"\1 (note: \2)",
    ),
    (
        r"(\bloaded\b.*?\d\s*(?:ssg|swan|aaa|bb|ab))\s*,?\s+(needs?\s+(?:another\s+)?\d\s*(?:ssg|swan|aaa|bb|ab|no\.?\s*\d+))$",
        r"\1 (note: \2)",
    ),
    (r"\b(?:leger|ledger)\s+links?,?\s+(?:with\s+)?(swan\s+shots?)\b", r"ledger links (note: \1)"),
    (
        r"^((?:run\s+rings|beads|swivels|links|stops|clips)\s+\d{1,2}),\s*((?:1|one)\s+(?:with|w/?)\s+[^,\d]+)$",
        r"\1 of them (note: \2)",
    ),
    (r"\bquick[\s-]?stop\s+(needles?)\b", r"baiting \1 (note: quickstop)"),
    (
        r"^(spike|spear|bayonet)\s+(?:method\s+)?rigs(?=\s+(?:x?\s?\d+\s+size|\d\ds)\b)",
        r"\1 hooklengths",
    ),
    (
        r"\b(for\s+[a-z]+\s*(?:&|and)\s*(?:meat|pellets?|corn|bread|paste|worms?|maggots?|casters?))(?=\s*(?:,|$))",
        r"(note: \1)",
    ),
    (
        r"\b(peacock|waggler\b.*?\d\s*(?:bb|aaa|ssg|ab))\s+(\d{1,2}\s?in)\b(?=\s+[a-z])",
        r"\1 (note: \2)",
    ),
    (
        r"^quick[\s-]change\s+methods?(?:\s+feeders?)?\b(?!\s+(?:beads?|hook|h/l|swivels?))",
        "method feeder (note: quick change)",
    ),
    (
        r"\b(silicone(?:\s+(?:tube|tubing|sleeve)s?)?)\s+(\d?\.?\d+\s*(?:mm)?\s*(?:-|–|to)\s*\d?\.?\d+\s*mm),?\s+(asst\w*|assorted|mixed|various)\b",
        r"\1 \3 (note: \2)",
    ),
    (
        r",\s*((?:one|1|two|2)\s+(?:is\s+|are\s+|of\s+them\s+)?(?:chipped|faded|rubbed|squashed|repaired|mended|dented))(?=\s*(?:,|$))",
        r" (note: \1)",
    ),
    (r"\b(traces?\b.*?)[\s,]+(\d)\s+(with\s+trebles?)\b", r"\1, \2 of them (note: \3)"),
    (
        r"\b(method\s+feeders?)\s+(?:and|&|\+)\s+mould\s+(?:set|kit|pack)s?\b(?!.*\d\s*g\s+\d)",
        r"\1 (note: with mould)",
    ),
    (r"\b(booms?)\s+(with\s+(?:an?\s+)?snap\s+links?)\b", r"\1 (note: \2)"),
    (r"\b(?:feeders?|fdrs?)\s+dead\s+cows?\b", "dead cow leads (note: for feeders)"),
    (
        r"[\s,–-]+((?:\d|two|three|four|five)\s+(?:different\s+)?sizes\s+in\s+(?:one|an?|each|the)\s+(?:pkt|packet|pack))\b",
        r" (note: \1)",
    ),
    (
        r"\((for\s+(?:the\s+|my\s+|an?\s+)?\d+(?:\.\d+)?\s*(?:m|ft|foot)\s+[a-z\s]+)\)",
        r"(note: \1)",
    ),
    (
        r"\b(shots?)\s+(for\s+(?:the\s+|an?\s+|my\s+)?(?:link\s+)?(?:leger|ledger)s?(?:\s+links?)?)$",
        r"\1 (note: \2)",
    ),
    (
        r"^(?=.*\b(?:fl[uo]+ro\w*|mono|nylon)\b)(?!.*\b(?:size|sz|eyed|spade|tied|barbless|barbed|hair|ft|feet|inch|cm)\b)(?!.*\b\d{1,2}s?\s+to\b)(?!.*\bhooks?\b(?!\s*links?))(.*?)\bhook\s?links?\b(?!\s+(?:line|mono|nylon|material|stuff|spools?))",
        r"\1hooklength line",
    ),
    (r",\s*((?:float|rod|dry)\s+(?:tube|box|bag|tin))(?=\s*(?:,|$))", r" (note: \1)"),
    (
        r"\b(swivels?)\s+(?:with|w/)\s+(?:an?\s+)?(snap\s+links?|snaps?|clips?)\b",
        r"\1 (note: with \2)",
    ),
    (
        r"\b(silicone\b[a-z\s]*?)\s+(assorted|asst\w*|mixed)\s+(\d?\.?\d+\s*(?:mm)?\s*(?:-|–|to)\s*\d?\.?\d+\s*mm)\b",
        r"\1 \2 (note: \3)",
    ),
    (r"^no\s+lead\s+(cages?\b.*)$", r"\1 (note: no lead)"),
    (r"^(?:an?\s+)?bit\s+of\s+(silicone\b[^,]*)$", r"\1 (note: bit)"),
    (r",\s*((?:about\s+)?\d+\s+with\s+(?:rust|damage|bends))$", r" (note: \1)"),
    (r"^[^.]{3,30}(?:\.{2,}|…)\s*no,\s+(?=[a-z])", ""),
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
