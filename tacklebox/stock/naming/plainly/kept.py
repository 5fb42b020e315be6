"""What is said beside the thing and kept word for word as a note: where it lies, what was lost of it, how
large its body is."""

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, LENGTH, MANY, PACKET, PACKETS

RULES: Rules = rules(
    (r"(\d\s*g)\s*\(\s*([\d.]+\s*)(?:gr|grains?)\s*\)", r"\1 (note: \2grains)"),
    (
        r"\b(winders\b.*?)[,\s]+((?:with\s+)?rigs\s+on\s+(?:half|some|most|all|two|three|\d+)(?:\s+of\s+(?:them|'?em))?)\b",
        r"\1 (note: \2)",
    ),
    (r"\b(side\s+pull(?:er|a))\s+(bush(?:es)?)\b(?!\s*(?:kit|set))", r"\2 (note: \1)"),
    (
        r",?\s*\b((?:gone\s+)?yellowed|discoloured|(?:(?:a\s+)?bit\s+|colour\s+)?faded)(?=\s*(?:,|$))",
        r" (note: \1)",
    ),
    (r",?\s*\b(no\s+rigs(?:\s+on(?:\s+(?:them|'?em|any))?)?)(?=\s*(?:[,;(]|$))", r" (note: \1)"),
    (r"\b(cages?\b[^,]*?|cage\s+feeders?\b.*?)\s*\b(square)\b(?!\s+leads?)", r"\1 (note: \2)"),
    (r"\b(bands?\b.*?)\s*\b(for\s+\d+\s*mm\s+pellets?)\b", r"\1 (note: \2)"),
    (
        r"[,\s]*\b(for\s+(?:the\s+|a\s+)?(?:big|small|little|large|wide|fast|slow|deep|shallow|long|short)\s+[a-z]+)\b"
        r"(?=\s*(?:[,;.(]|$))",
        r" (note: \1)",
    ),
    (
        r"[,\s]+(loaded|insert|peacock|lignum|cane|balsa|barbless|barbed|eyed|spade|sinking|floating|hollow|solid|inline)\s?(\?+)(?=\s|[,;.(]|$)",
        r" (note: \1\2)",
    ),
    (r",?\s*\b(old\s+stock(?:\s+(?:out|from)[^,\d]*[a-z])?)(?=\s*(?:,|$|\d))", r" (note: \1) "),
    (r",?\s*\b(non[\s-]reflective)\b", r" (note: \1)"),
    (
        r",?\s*\b(for\s+(?:the|my|me)\s+no\.?\s*\d+\s+(?:kits?|elastics?|top\s+kits?))\b",
        r" (note: \1)",
    ),
    (
        r",\s*((?:first|second|third|last|other)\s+one(?:'?s|\s+is)\s+half\s+(?:gone|empty|used))\b",
        r" (note: \1)",
    ),
    (
        rf"\b(?P<what>winders\b.*?),\s*(?P<note>(?:got|have|has)\s+(?:[a-z]+\s+)?rigs\s+on\s+{MANY}\s+of\s+(?:them|'?em))\b",
        r"\g<what> (note: \g<note>)",
    ),
    (
        r",\s*((?:one|1)\s+(?:unopened|sealed|unused|brand\s+new)[,\s]+(?:and\s+)?(?:the\s+)?(?:other|one)\b[^\d]*)$",
        r" (note: \1)",
    ),
    (r"\b(\d{1,3}\s+(?:ssg|aaa|bb))s?,?\s+loose(?=\s*(?:,|$))", r"\1 shot (note: loose)"),
    (
        rf",?\s*\b((?:(?:paid|bought|got)\s+)?(?:about\s+|abt\s+)?(?:{FEW}|an?|few)\s+(?:yrs?|years?|months?|seasons?|weeks?)\s+(?:ago|back|old))\b",
        r" (note: \1)",
    ),
    (r"[\s,(]*\b(worth\s+(?:about\s+)?£\d+(?:\.\d\d)?(?:\s+new)?)\b\)?", r" (note: \1)"),
    (r",?\s*\b(for\s+(?:the\s+)?(?:first|last)\s+\d+\s+(?:casts|minutes|mins))\b", r" (note: \1)"),
    (
        r"^(?!.*\brigs?\b)(?P<said>[^,]*\b(?:to|on)\s+0?\.\d+[^,]*?)\s+(?P<note>on\s+(?:an?\s+|the\s+)?winders?)\b",
        r"\g<said> (note: \g<note>)",
    ),
    (
        r"\b((?:feeder|ledger|leger)\s+links?)\s+(?:with|w/?\.?)\s+(?:an?\s+)?((?:buffer\s+|rubber\s+)?beads?)\b",
        r"\1 (note: with \2)",
    ),
    (
        r",?\s*\b((?:without|no|not)\s+(?:an?\s+|the\s+|any\s+)?(?:inserts?|snaps?|swivels?|hollow|solid|sinking|floating"
        r"|loaded|loading|moulds?|beads?|bands?|hairs?|links?|caps?|discs?|flights?))\b(?!\s+(?!x\b)[a-z])",
        r" (note: \1)",
    ),
    (r"\b(feeders?\b.*?)\s+(with\s+(?:an?\s+)?spare\s+leads?)\b", r"\1 (note: \2)"),
    (r"\bsquare\s+pears?\b(?!\s+leads?)", "pear lead (note: square)"),
    (r"\brocket\s+feeder(s?)\b", r"bullet feeder\1 (note: rocket)"),
    (r"\(?\b(top\s+kit\s+(?:no\.?\s*)?\d)\b\)?", r"(note: \1)"),
    (
        r"\bsquare\s+(bombs?|(?:pear\s+)?leads?|pears?|cage(?:\s+feeders?)?|feeders?)\b(.*)$",
        r"\1\2 (note: square)",
    ),
    (
        r"\b((?:quick|qk|q|push|hair)[\s-]?stops?\b[^+]*?)\s*(?:\+|\b(?:plus|with|and)\b|&)\s*(?:the\s+|an?\s+)?((?:baiting\s+)?needle)\b",
        r"\1 (note: with \2)",
    ),
    (
        r"\b(?P<what>winders\b.*?),\s*(?P<note>(?:some|most|all|about\s+half|half|a\s+few)\s+(?:of\s+(?:them|em)\s+)?"
        r"(?:are\s+)?(?:got|have|with|loaded\s+with|wound\s+with)\s+rigs(?:\s+on)?)",
        r"\g<what> (note: \g<note>)",
    ),
    (r",?\s*\b(tail\s+clip)\b", r" (note: \1)"),
    (r"(?<!for )\b(snap\s+tackle)\b", r"wire trace (note: \1)"),
    (
        r",\s*((?:\d|an?|one|two|three|four)\s+(?:reels?|spools?)\s+filled\s+(?:off|from)\s+it[^,\d]*)$",
        r" (note: \1)",
    ),
    (r",?\s*\b((?:about\s+)?(?:\d|two|three)\s+parts\s+full)\b", r" (note: \1)"),
    (
        r",?\s*\b((?:about\s+)?(?:1/2|1/3|1/4|half|an?\s+(?:half|third|quarter))\s+of\s+an?\s+\d+\s*g\s+(?:box|tub|pot)\s+left)\b",
        r" (note: \1)",
    ),
    (r",?\s*\b(ex\s+(?:the\s+)?(?:[a-z]+\s+){0,2}(?:tray|box|drawer|bag|tin))$", r" (note: \1)"),
    (
        r",\s*(all\s+lengths\s+(?:from\s+)?\d+\s*(?:to|-)\s*\d+\s*(?:inch(?:es)?|in|cm|\"))",
        r" (note: \1)",
    ),
    (r"\b(hair\b.*?)\b(bait\s+stop)s?\b", r"\1(note: \2)"),
    (r",\s*(one\s+with\s+(?:the|an?)\s+[^,\d]+)$", r" (note: \1)"),
    (
        rf",\s*(?P<note>[a-z][^,\d]*?)\s+so\s+(?:call\s+it|say|about)\s+(?P<long>{LENGTH})\s+left$",
        r", \g<long> left (note: \g<note>)",
    ),
    (
        rf"\b(?P<share>(?:about\s+)?half\s+a\s+spool)\s+of\s+(?P<what>.*?),\s*(?P<spool>{LENGTH})\s+spool\s+so\s+(?:about\s+)?(?P<long>{LENGTH})\s+left$",
        r"\g<what>, \g<spool> spool, \g<long> left",
    ),
    (
        rf"\b(?P<share>(?:about\s+)?half\s+a\s+spool)\s+of\s+(?P<what>[^,]*?)\s+(?P<talk>left\s+over[^,]*),\s*(?:so\s+)?(?:call\s+it|say)\s+(?P<long>{LENGTH})$",
        r"\g<what>, \g<long> left (note: \g<share>, \g<talk>)",
    ),
    (r"\(((?!note:)[^()\d]*\bno\s+[a-z]+[^()\d]*)\)", r"(note: \1)"),
    (r"^(?=.*\bhooks?\b)(.*?)\b(wire\s+\d?\.\d+\s*mm)\b", r"\1(note: \2)"),
    (
        r"(?P<feeder>\bfeeders?\b.*?)\s(\d{2,3})\s*x\s*(\d{2,3}\s*mm)\b",
        r"\g<feeder> (note: \2 x \3)",
    ),
    (
        rf"^(?:i\s+)?(?:made|tied)\s+(?P<many>{MANY})\s+(?P<what>[^,]*?)\s+up\s+(?P<from>from\b[^,]*)",
        r"\g<many> \g<what> (note: made up \g<from>)",
    ),
    (
        rf"^(?:the\s+|my\s+)?(wife|missus|lad|son|grandson|mate|pal)\s+tied\s+me\s+(?P<many>{MANY})\s+(?:more\s+)?",
        r"(note: \1 tied me) \g<many> ",
    ),
    (r",\s*(fits?\s+[^,;()]*\d[^,;()]*)$", r" (note: \1)"),
    (r",\s*(swivel\s+type)\b", r" (note: \1)"),
    (r"[,\s]+(so\s+\d+\s+(?:hooks|in\s+all|altogether))$", r" (note: \1)"),
    (rf"(?<=\d\s)({PACKETS})\s+(so\s+\d+)$", r"\1 (note: \2)"),
    (
        rf"^(?:an?\s+)?bit\s+of\s+(?P<what>.*?)\s+left\s+on\s+the\s+spool,?\s+(?:about\s+)?(?P<long>{LENGTH})",
        r"\g<what>, \g<long> left",
    ),
    (r"(?<=of them),\s*(was\s+\d+,?\s+lost\s+.*)$", r" (note: \1)"),
    (r",\s*(for\s+the\s+hair)\b", r" (note: \1)"),
    (r"[,\s]+((?:cos|because|as)\s+i\s+(?:lost|broke|snapped)\b[^,]*)$", r" (note: \1)"),
    (r",\s*(i\s+lost\b[^,]*\bthat'?s\s+why)$", r" (note: \1)"),
    (r"[,\s]+(an?\s+odd\s+[a-z]+\s+(?:missing|gone|broken)\b[^,]*)$", r", (note: \1)"),
    (
        r"(?P<feeder>\b(?:feeders?|cages?)\b.*?)\s(\d{2,3})\s*x\s*(\d{2,3})(?=\s+\d+\s*g)",
        r"\g<feeder> (note: \2 x \3)",
    ),
    (
        rf"[,\s]+(?P<note>had\s+(?:{MANY})\s+now\s+(?P<many>{MANY})\b.*)$",
        r", \g<many> of them (note: \g<note>)",
    ),
    (r"\s+(plus\s+an?\s+[a-z]+\s+one)$", r" (note: \1)"),
    (
        rf",\s*(?P<note>bit\s+left(?:\s+over)?\b[^,]*),\s*(?:maybe|about|bout|say|roughly)\s+(?P<long>{LENGTH})$",
        r", \g<long> left (note: \g<note>)",
    ),
    (
        r"(\btraces?\b.*?)\b(?:with\s+)?(two|three|[23])\s+(?:x\s+)?(?=(?:size\s+|no\.?\s*)?\d{1,2}\s+trebles?\b)",
        r"\1(note: \2 trebles) ",
    ),
    (
        r"(?<=[a-z\d]),?\s+(no\s+(?:link|clip|swivel|lid|cap|box|label|packet|band|boom|elastic|lead|weight)s?(?:\s+on\s+(?:it|them))?)$",
        r" (note: \1)",
    ),
    (
        r"[,\s]+(?P<note>(?:lost|snapped|broke|binned)\s+[^,\d]*\b(?:peg\s+\d+\s+)?)so\s+(?:i\s+)?(?:got|bought|have|ordered)\s+"
        rf"(?P<many>{MANY})(?:\s+more)?\b",
        r", \g<many> of them (note: \g<note>)",
    ),
    # where it is kept
    (
        r",?\s*\b((?:(?:at|in)\s+the\s+)?bottom\s+of\s+(?:the|my|me)\s+(?:tray|box|bag|drawer|tin|tub)),?",
        r", (note: \1)",
    ),
    (
        rf",\s*(?P<many>{MANY}),\s*((?:box|drawer|tray|shelf|tin)\s+\d\s+(?:on|in|under|of)\b[^,]*)$",
        r", \g<many> of them (note: \2)",
    ),
    (
        r"(?<!,)(?<!\sin)(?<!\sthe)(?<!\smy)\s((?:top|second|third|bottom)\s+(?:tray|drawer|shelf)(?:\s+down)?)$",
        r" (note: \1)",
    ),
    (rf"(?<=[a-z]),\s*(in\s+(?:the|my)\s+(?:[a-z]+\s+){{0,2}}{PACKET})$", r" (note: \1)"),
    (  # of a float's or a feeder's body
        r"^(?=.*(?:float|feeder|cage|waggler|stick|open\s?end|dibber))(.*?)(?<!note: )(?<![\d.])"
        r"(?<!tip )(?<!bristle )"
        r"(?P<body>(?:body\s+)?\d+(?:\.\d+)?\s*(?:mm)?(?:\s*long)?\s*x\s*\d+(?:\.\d+)?\s*mm(?:\s*(?:dia\w*\.?|wide))?)",
        r"\1 (note: \g<body>)",
    ),
    (r"\b((?:fine|medium|strong|heavy)\s+wire)\s*\(?(\d?\.\d+\s*mm)\)?", r"\1 (note: \2)"),
    (r"\(?\b((?:\d|four|six|eight)[\s-]holes?)\b\)?", r"(note: \1)"),
)
