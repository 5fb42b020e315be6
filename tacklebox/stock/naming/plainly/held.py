"""What a packet holds and how many there are, said last: "25 in tube", "10-off", "says 100 on the box but I
make it 96", "about 30"."""

import re

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, MANY, PACKET, PACKETS, SPOKEN
from tacklebox.stock.naming.words import COLOURS

_PRINTED_ON = r"(?:\s+on\s+the\s+(?:box|packet|pack|pkt|label|tub|bag))?"
_IN_PACKETS = r"(?:hooks?|hook\s?lengths?|trebles?|connect[oe]rs?|beads?|swivels?|links?|stops)"
_OF_A_HOOK = (
    r"(?:long\s+shank|spades?|eyed|barbless|crystal\s+bend|wide\s+gape|forged|whisker\s+barb)"
)
_COLOURED = "|".join(map(re.escape, COLOURS))
_BY_LENGTH = r"(?:line|mono|nylon|braid|fluoro\w*|elastic|lastic|lacky|tube|tubing)"
_ABOUT = r"(?:about|abt|approx\.?|approximately|roughly|around)"


RULES: Rules = rules(
    (r"[,\s]+(\d\s+strips)\s+(unused)\b", r", \1 (note: \2)"),
    (r"\bx\s*([2-9])\s+(?:pkt|packet|pack)$", r", \1 packets"),
    (
        r"^([2-9])\s+((?:ssg|aaa|bb|ab|no\.?\s*\d{1,2}))s?\s+(?:refil+s|dispensers|tubs)$",
        r"\1 tubs of \2 shot",
    ),
    (r"(?<=[a-z]),\s*([1-9]\d{1,2})\s+in$", r", pack of \1"),
    (r"(?<=g),?\s+((?:one|1|an?)\s+set)$", r" (note: \1)"),
    (rf"[,\s]+an?\s+({PACKET})\s+and\s+a\s+bit$", r", 1 \1 (note: and a bit)"),
    (r"[,\s]*\(?(?<!\d)(\d{1,3})\s+counted\)?$", r", \1 of them"),
    (r"\b([2-9])\s*x\s*(\d+\s*g)\s+(tubs|pots|bags)\b", r"\1 \3 (note: \2)"),
    (
        r"^(?!.*(?:\bx\s*\d|\d\s*x\b|\boff\b))(.*[a-z])\s*\+\s*(?:1|an?|one)\s+spare$",
        r"\1, 2 of them (note: one spare)",
    ),
    (r",\s*lost\s+(?:about\s+)?(\d+)\s*m?\s+off\s+(?:of\s+)?it$", r", used \1 m"),
    (
        r"[,\s]+((?:half|some|most)\s+(?:of\s+them\s+)?(?:perished|rusty|rusted|bent))$",
        r" (note: \1)",
    ),
    (r"\s*[+,]\s*([a-z]+\s+not\s+(?:with\s+it|included))$", r" (note: \1)"),
    (
        r"[,\s]+(\d{1,2})\s*(?:pcs?|pieces)[,\s]+(£\d+(?:\.\d\d)?\s*(?:ea|each)\b)",
        r", \1 of them, \2",
    ),
    (r"\s+abouts$", ""),
    (r"\bx\s*(\d{1,2})\s+(?:wires|strips|threads|strings)$", r", \1 cards"),
    (rf",\s*({MANY})\s+(on\s+(?:an?\s+|the\s+)?winder)$", r", \1 of them (note: \2)"),
    (r"(?<=[a-z]\s)(\d+)\s*\+\s*(\d+)\s+([1-9])\s+(?:of\s+)?each$", r"\1 and \2, \3 of each"),
    (r"[,\s]+x\s*(\d{1,2})\s+(?:of\s+)?each$", r", \1 of each"),
    (r"\s*\(([2-9])\)\s*(?=£\d+(?:\.\d\d)?\s*(?:ea|each)\b)", r", \1 of them, "),
    (rf"\b(stops\b.*?),\s*({FEW})\s+tubes?$", r"\1, \2 packets"),
    (r"\b([2-9])\s*x\s*(\d{1,2})\s+hooks$", r"\1 packets of \2"),
    (r"^(?:hook\s?lengths?|h\s?/?ls?|hk\s?l\w*)\s+box:\s*(\d+)\s*x\s+", r"\1 hooklengths "),
    (r"\b((?:hair\s+)?rigs)\s+(\d{1,2})\s*x\s*(\d\d)s$", r"\1 size \3, \2 of them"),
    (r"\b(five|six|eight|ten|twelve|fifteen|twenty)\s+in(?:\s+each)?$", r"pack of \1"),
    (r"(?<=\d)\s+(?:in\s+)?one\s+(?=(?:disp\w*|tub|pot)$)", ", one "),
    (r"[,\s]+(?:just|only)\s+the\s+one$", ", 1 of them"),
    (
        rf"[,\s]+(?:x\s*)?(\d{{1,3}})\s+in\s+(?:1|one)\s+({PACKET})(?=\s*(?:,|$|£))",
        r", 1 \2 of \1",
    ),
    (rf"[,\s]+({FEW})\s+(left\s?overs?)$", r", \1 of them (note: \2)"),
    (r"(?<=[a-z]),\s*([2-9])\s*,\s*and\s+(?=[a-z])", r", \1 of them, and "),
    (
        rf"^(?!.*\b(?:{_BY_LENGTH}|leaders?|shot|aaa|bb|ssg)\b)(.*[a-z]\S*)(?<!used)(?<!lost)(?<!say),?\s+{_ABOUT}\s+(\d{{1,3}})$",
        r"\1, \2 of them",
    ),
    (rf"\b(\d)\s*{PACKET}s?,?\s+(\d{{1,3}})\s+in(?:\s+(?:it|each))?$", r"\1 packets of \2"),
    (
        rf"\bone\s+full\s+({PACKET})\s+and\s+one\s+(part[\s-]*(?:used|full|gone)|half[\s-]*(?:used|full|gone))\b",
        r"2 \1s (note: one \2)",
    ),
    # "says 100 on the box but i make it 96", "a tube of five"
    (
        rf"\b(?:says|said|marked|supposed\s+to\s+be)\s+(?P<held>{MANY}){_PRINTED_ON}[\s,]+but\s+(?:i\s+)?"
        rf"(?:make|made|counted|count|get|got|only\s+got)\s*(?:it|them|that)?\s*(?P<many>{MANY})",
        r"pack of \g<held>, \g<many> of them",
    ),
    (r"\b(?:a\s+)?tube\s+of\s+(?=\d|(?:two|three|four|five|six|eight|ten)\b)", "pack of "),
    # "two lots of 10", "one full pack of 10 and one with 6 left in", "1.5 m", "2 and a half packets"
    (r"(?:(?<=\d)|(?<=two)|(?<=three))\s+lots\s+of\s+(?=\d)", " x "),
    (rf"(?<![\d.])([1-9])\.5\s+(?={PACKETS}\b)", r"\1 and a half "),
    (r"\b(?<!no\.)(?<!no\s)(\d{1,2})\s+in\s+tube\b", r"pack of \1"),
    (r"(?<=\d)\s+of\s+'?em\b(?=\s*(?:,|$|\b(?:in|on|from|at)\b))", " of them"),
    (rf",\s*(?P<many>{MANY})\s+i\s+make\s+it$", r", \g<many> of them"),
    (r"\bcounted\s+(?:em|them|it|up)\b[,\s]*(?=\d)", "counted "),
    (r"\b(?P<held>\d{1,3})\s+in\s+(?:a\s+)?(?:pk|pks|pkt)\b", r"\g<held> in packet"),
    (r"\bin\s+(5|6|8|10|12|15|20|25)s\b", r"pack of \1"),
    (
        rf"(\d+s|{PACKETS}\s*(?:of\s+)?\d+|\d+\s+(?:in|per|to)\s+(?:an?\s+)?{PACKET})\s+[-–]\s+(\d{{1,2}})$",
        r"\1, \2",
    ),
    # at the end: "25 g - 3", "10-off", "no 8 refill tub, two", "15 loose"
    (r"(?<=[a-z\d])\s+[-–]\s+(\d{1,2})(?:\s*off)?$", r", \1 of them"),
    (r"\b(\d{1,3})-off\b", r"\1 off"),
    (rf"(?<=[a-z]),\s+(?P<many>{SPOKEN})(?<!s)$", r", \g<many> of them"),
    (
        rf"(?<=[a-z\d])(?<!\band)(?<!\bplus)[,\s]+(?:(?:about|roughly|around|approx\.?)\s+)?(?P<many>{MANY})\s+(?=loose\b(?!\s+\d+$))",
        r", \g<many> of them ",
    ),
    (r"(?:(?<=tub)|(?<=tubs)|(?<=refills)|(?<=pots)),?\s+(\d{1,2})$", r", \1 of them"),
    (rf"(?<=[,\s])(?P<many>{MANY})\s+lengths(?:\s+left)?$", r"\g<many> packets"),
    (rf"(?<=[,.\s])(?P<many>{MANY})\s+strings?$", r"\g<many> cards"),
    (r"\b(\d{1,3})\s+per$", r"pack of \1"),
    (r"\btwin\s+pack\b", "pack of 2"),
    (r"\bsleeves\s+of\s+(?=\d)", "packets of "),
    (r"\((\d{1,3})\)\s*(?=\d\s*(?:pk|pkt|pack)s?\b)", r"pack of \1, "),
    (rf",\s*(?P<many>{MANY})\s+bought\b", r", \g<many> of them"),
    (r"\bcount\s+was\s+(?=\d)", "counted "),
    (r",\s*(?:they|these)?\s*come\s+in\s+pairs\b", ", pack of 2"),
    (rf",\s*got\s+(?P<many>{MANY})\s+(?:in\s+)?(?=(?:{_COLOURED})\b)", r", \g<many> of them, "),
    (
        rf"(?P<of>\d.*\b{_IN_PACKETS}\b.*|\b{_IN_PACKETS}\b.*\d.*)\((\d{{1,3}})\)$",
        r"\g<of>pack of \2",
    ),
    (r"\b(?:i'?ve\s+)?(?:just\s+)?counted\s+and\s+there(?:'s|\s+are)\s+", "there are "),
    (r"(?<!\d )\bx\s*(\d{1,3})\s+(?:bag|box|packet|pack|pkt|pk)$", r"pack of \1"),
    (rf"\b(\d{{1,3}}\s+in\s+(?:an?\s+)?{PACKET})\s+(?=\d{{1,2}}\s+{PACKETS}\b)", r"\1, "),
    (r"\bso\s+call\s+it\s+(\d{1,2})\s+good(?:\s+ones?)?$", r"so call it \1"),
    (rf",\s*(?P<many>{MANY})\s+only\b", r", \g<many> of them"),
    (
        rf"\b(?P<of>(?:{_OF_A_HOOK}|b/less|hooks)\b.*)\s(\d)\s*x\s*(\d{{2,3}})(?=$|\s*(?:@|£|at\b))",
        r"\g<of> \2 packets of \3",
    ),
    # counted over and over it is no more
    (
        r"[,\s]*\b(?:i\s+)?(?:counted|checked)(?:\s+(?:em|them|it))?\s+(?:twice|(?:and\s+counted\s+)?again)"
        r"(?:\s+(?:and\s+)?(?:still|it'?s)\s+\d+)?(?=\s*(?:,|$))",
        "",
    ),
    (rf"\b({PACKETS}\s+of\s+\d+)[,\s]+(one\s+opened)$", r"\1, part used (note: \2)"),
    (r"(?:\ba\s+|^)(packet|pack|pkt|box|bag)\s+and\s+a\s+half\b", r"1 and a half \1s"),
    (r"^(?=.*\bhooks?\b)(.*\d.*[a-z]{4}),\s*(10|15|20|25|50|100)$", r"\1, \2 of them"),
    (rf",\s*got\s+(?P<many>{MANY})\s+left(?:\s+loose)?\b", r", \g<many> of them"),
    (rf"\bx\s*\d+\s*\(((?:{MANY})\s+{PACKETS}\s+of\s+(?:{MANY}))\)", r", \1"),
    (rf"\s*[-–,]\s*(?P<many>{MANY})\s+in\s+hand\b,?", r", \g<many> of them,"),
    (r"\b(less\s+\d+\s+[a-z]+)\s*=\s*(\d+)$", r"\1 so \2"),
    (r",\s*(five|fifteen)s(?=,|$)", r", pack of \1"),
    (r"^(\d{1,2})\s+(hooks\s+to\s+nylon\b.*)\s(10|8|6)s$", r"size \1 \2 \3 in a packet"),
    (r"\b(\d)\s+x\s+(\d+/\d+)\s*oz\s+pack$", r"\2 oz, pack of \1"),
    (r"\b(?:an?\s+)?dozen\s+and\s+a\s+half\b", "18"),
    (rf"\b({FEW})\s+on\s+a\s+wire\s+x\s*(\d+)\s+wires\b", r"\2 cards of \1"),
    (r"(?<=lb)\s+(\d{1,2})s\s+(\d)\s+(?:pkts?|packs?)$", r", \2 packets of \1"),
    (rf"(?<=[a-z])\s+({FEW})\s+(\d{{2,4}}\s*(?:m|yds?))\s+spools$", r", \1 spools \2"),
    (r"\b(\d{1,3})-(?:pack|pk)\b", r"pack of \1"),
    (r"^(.*\d.*[a-z])\s+(10|15|20|25|50)s\s*x\s*(?=\d)", r"\1 pack of \2 x "),
    (
        rf"\b(boxes|packets|packs|pkts|bags|tubs|cards|stacks)\s+of\s+({MANY})(?<!ty),?\s+({MANY})$",
        r"\3 packets of \2",
    ),
    (rf"\b({FEW})\s+on\s+(?:an?\s+)?wire\b", r"pack of \1"),
    (r"\b((?:hook|h|hk)\s?-?/?\s?l\w*)\s+box:\s*(\d+)\s+of\s+", r"\2 \1 "),
    (
        rf"\b({MANY})\s+(?:strings|stringers|threads|looms|stems|stalks|wires|loops)\s+of\s+({MANY})(?:\s+on\s+(?:the|an?)\s+wires?)?",
        r"\1 packets of \2",
    ),
    (r"\b(one|two|three|four|five|[1-9])\s+&\s+an?\s+half\b", r"\1 and a half"),
    (r"\bx\s?(10|12|15|20|25|50|100)s(?=\s+x\s*\d)", r"pack of \1"),
    (r"\bp/(pk|pkt|pack|packet)\b", r"per \1"),
    (rf"\b(?:(?:one|1|a)\s+)?{PACKET}\s*=\s*(?=\d)", "pack of "),
    (rf"\b({MANY})\s+(?:to\s+(?:a|the|each)|in\s+(?:a|each))\s+tube\b", r"pack of \1"),
)
