"""How many there are and how many packets: "3 cards", "10 pcs", "half a bulk spool", "40 m gone off it"."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly import sums
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import FEW, MANY, PACKET, PACKETS, SPOKEN
from tacklebox.stock.naming.words import COLOURS

_COLOURED = "|".join(map(re.escape, COLOURS))
_HOLDER = r"(?:ring|wire|string|stem|strip|card|stalk)"


def grams_of_each(found: re.Match[str]) -> str:
    """ "Olivettes 0.5 0.75 1g 1.5g" as a list."""
    said = found.group()[: -len(found.group(2))]
    return said + ", ".join(f"{one}g" for one in re.findall(r"\d*\.?\d+", found.group(2)))


def so_many_twice(found: re.Match[str]) -> str:
    """ "Six (6)" is six of them."""
    alike = count_of(found[1]) == int(found[2])
    return f", {found[2]} of them" if alike else found.group()


RULES: Rules = rules(
    (r"(?<![\d.])0?\.5\s+(?:of\s+an?\s+)?spool\b", "half a spool"),
    (
        r"^(?:about\s+)?half\s+an?\s+spool\s+of\s+(?P<what>(?:(?!\d\s*m\b)[^,])*?),?\s+about\s+(?P<left>\d+)\s*m\s+left$",
        sums.half_of_a_spool,
    ),
    (
        rf"^(?P<what>(?!\d).*?[a-z\d])[,\s]+(?:(?:one|an?|1)\s+)?(?:full\s+)?{PACKET}\s*(?:of\s*)?(?P<held>\d)\s*"
        rf"(?:,|\+|&|and|plus)\s*(?P<more>half\s+an?\s+dozen|an?\s+doz(?:en)?|{FEW})\s+loose(?:\s+(?:ones?|uns?))?$",
        sums.few_with_the_loose,
    ),
    (
        r"\b(?:twin|double)[\s-]*(?:pk|pkt|pack|packet)s?\b(?!.*\b(?:in|per)\s+(?:each|pack|an?)\b)",
        "pack of 2",
    ),
    (
        r"\btriple[\s-]*(?:pk|pkt|pack|packet)s?\b(?!.*\b(?:in|per)\s+(?:each|pack|an?)\b)",
        "pack of 3",
    ),
    (r"\b(pkts|packets|packs)\s*\((\d{1,2})s?\)", r"\1 of \2"),
    (r"\b(card|packet|pkt)\s+of\s+(\d{1,2})\s+strings\b", r"1 \1 (note: strings: \2)"),
    (r"\brefills,\s*(\d|two|three|four)\s+of\s+each\b", r"\1 tubs of each"),
    (r"(?<![\d.])(\d{1,3})\s+in\s+an?\s+(?:pk|pkt)\b", r"pack of \1,"),
    (r"\b([1-9])\s+(pkts|packets|packs|pks)\s*x\s*(\d{1,2})\b", r"\1 \2 of \3"),
    (rf"(?:\s-\s*|,\s*|\s)({SPOKEN})\s*\((\d{{1,3}})\)$", so_many_twice),
    (
        r"\b((?:bullets|bombs|leads|feeders)\b.*?)(?<!\b\d)(?<!\bone)(?<!\ba)[\s,]+(?:pkt|packet|pack|pk)\s+(\d{1,2})(?=\s*(?:,|$))",
        r"\1, pack of \2",
    ),
    (
        rf"^(?=.*\bstops?\b)(.*?)\b({MANY})\s+(?:strings?|sheets?|threads?|looms?)\b(?!\s+of\b)(?:\s+on\s+(?:an?\s+)?wires?)?",
        r"\1\2 packets",
    ),
    (r"\((\d{1,2})\s+in\)", r", pack of \1"),
    (
        rf"\b({PACKETS}),\s*(\d{{1,2}})\s+a\s+(?:go|time|piece)\b(?!.*£)",
        r"\1 of \2",
    ),
    (r"\b([2-5])\s*pk\s*(?=@|at\b)", r"\1 packets "),
    (r"\b(\d{1,2})\s*(?:pcs?|pieces),?\s+(\d)\s+(?:packs|pkts|packets|pks)\b", r"\2 packets of \1"),
    (r",\s*([2-9])\s+(with\s+different\s+[a-z]+)$", r", \1 of them (note: \2)"),
    (
        r"^([2-9])\s*x\s*(aaa|bb|ab|ssg|swan)\s+(?:and|&|\+)\s+an?\s+(aaa|bb|ab|ssg|swan)$",
        r"\1 x \2 shot and 1 x \3 shot",
    ),
    (r"\b(\d{1,3}\s+in)\s+ea\b", r"\1 each"),
    (
        rf"\b(\d{{1,2}})\s+in\s+(?:an?\s+)?{PACKET}\s+(?=\d+\s*(?:inch|in|cm|m|s)\b)",
        r"pack of \1, ",
    ),
    (
        rf",\s*({MANY})\s+of\s+(?:'?em|them)\s+((?:tied|made|bought|left)\b[^,\d]*)$",
        r", \1 of them (note: \2)",
    ),
    (
        r"\bx\s?(\d)[\s,]+((?:one|1)\s+(?:with|without|has|is|has\s+got)\b[^,\d]*)$",
        r", \1 of them (note: \2)",
    ),
    (rf",\s*({MANY})\s+-\s+(?=£)", r", \1 of them, "),
    (
        rf",\s*(?P<more>{MANY})\s+(?P<note>empty)\s*(?:\+|&|\band\b|,)\s*(?P<good>{MANY})\s+(?:got|have|with)\s+rigs(?:\s+on)?$",
        sums.empty_and_rigged,
    ),
    (r",\s*(?:one|an?)\s+hundred(?=\s*(?:,|$))", ", 100 of them"),
    (r"(?<=\d[x×]\d)\s+pair$|(?<=\d[x×]\d\d)\s+pair$", ", 2 of them"),
    (r"(?<!bought)[,\s]+(\d|two|three|four|five|six)\s+lots$", r", \1 packets"),
    (r"(?<=[a-z])\s+x\s?([1-9])\s+(\d/\d)\s*oz\b", r" \2 oz x\1"),
    (
        r"\b((?:bullets|bombs|leads|feeders|floats|wagglers|sticks|dibbers|swivels|beads|stops)\b[^\d]*?)"
        r"(?<! x)[\s,]+(\d{1,2})\s+(assorted|mixed|asst|various)\b(?!\s+\d)",
        r"\1 \3, \2 of them",
    ),
    (
        rf"\b(?:one|an?|1)\s+({PACKET}|pot)\s+each[,\s]+(?:[2-9]|two|three|four)\s+for\s+(£\d+(?:\.\d\d)?)",
        r"one \1 of each, \2 the lot",
    ),
    (r"\b(stops\b[^,]*),\s*([2-9])\s+loops$", r"\1, \2 cards"),
    (rf"\s*\bx\s?([2-9])\s+({PACKETS}\s+of\s+\d)", r", \1 \2"),
    (rf"\b([1-9])\s+1/2\s+(?={PACKETS}\b)", r"\1 and a half "),
    (r"\b(\d+\s*(?:m|metres?|yds?|yards?))\s+used$", r"used \1"),
    (
        r"\((?:an?\s+)?(couple|pair|two|three|four|\d)\s+of\s+((?:old|new|spare)?\s*ones[^)]*)\)",
        r", \1 of them (note: \2)",
    ),
    (rf"\b({PACKETS})\s*\((strips?\s+of\s+\d+)\)", r"\1 (note: \2)"),
    (r"^([2-9])\s+feeders\s+(\d[05])\s+(\d[05])$", r"feeders \2g and \3g, \1 of each"),
    (
        rf"^(?P<packs>{MANY})\s+(?:(?:unopened|sealed|full)\s+)?{PACKETS}\s+of\s+(?P<held>{MANY})\s+(?P<what>[a-z][^,;]*\d[^,;]*?),?\s+(?:and|plus|&)\s+(?P<loose>{MANY})\s+loose(?:\s+ones)?$",
        sums.packets_and_loose,
    ),
    (r"^(\d)\s+(packets|packs|pkts|pks)\s+(?=\d\s?x\s?\d\d)", r"\1 \2 of "),
    (rf"\b{PACKET}\s+of\s+({MANY})\s*x\s*([2-9])$", r"\2 packets of \1"),
    (r"\b(\d|one|two|three|four)\s+frames?\b", r"\1 cards"),
    (rf"\b({PACKET})\s*&\s*an?\s+half\b", r"\1 and a half"),
    (
        r"\b(winders\b[^,]*?)\s+x\s?(\d+)\s+(in\s+(?:an?|the|my)\s+(?:tray|box|tin|drawer))\b",
        r"\1, \2 of them (note: \3)",
    ),
    (
        rf"\b(winders\b.*\b(?:box|tray|bag|pack)\s+of\s+\d+)[,\s-]+({MANY}\s+empty)$",
        r"\1 (note: \2)",
    ),
    (
        r"(?<=[)g])\s+([2-9])\s+in\s+(?:the\s+|a\s+|my\s+)?(tin|box|tray|drawer)$",
        r", \1 of them (note: in \2)",
    ),
    (
        rf"(\d*\.?\d+\s*mm)\s*(?:\+|&|and)\s*(\d*\.?\d+\s*mm)[,\s]+(1|one|2|two)\s+({PACKET})s?\s+(?:ea|each)$",
        r"\1 and \2, \3 \4 of each",
    ),
    (r"[,\s]+([2-9])\s+(flying|running|sliding)\s+ones$", r", \1 of them (note: \2)"),
    (
        r"^(?!.*\bx\b)((?:[a-z]+\s+){0,2}(?:bullets?|bombs?|leads?|feeders?)\b.*?\d\s*(?:g|oz)),?\s+(?:1\s+|one\s+|an?\s+)?(packet|pkt|pack)$",
        r"1 \2 of \1",
    ),
    (r"\bs\.\s?(\d{1,2})\b", r"size \1"),
    (r"\b(hooks)\s+(\d{1,2}),\s*(\d{1,2}),\s*(\d{1,2})(?=\s+[a-z])", r"\1 \2, \3 and \4"),
    (r"^(\d)\s+feeders?[,:]?\s+(\d[05])/(\d[05])/(\d[05])g?$", r"feeders \2g, \3g and \4g"),
    (r"^((?:no\.?|number)\s*\d{1,2})s?\s+soft$", r"\1 shot soft"),
    (r"\b(refills|tubs|boxes|bags|pots|packets|pkts|packs)\s*x\s*(\d{1,2})\b(?!\s*x)", r", \2 \1"),
    (r"\b(\d{1,2})\s?(?:pk|pkt|pack)\s*x\s*(\d)\b", r"\2 packets of \1"),
    (r"\b(?:pkts|packets|packs)\s+(\d)\s*x\s*(5|6|8|10|12|15|20|25)\b", r"\1 packets of \2"),
    (r"(?<=\d),\s+(two|three|four|five|six|seven|eight|nine|ten|twelve|twenty)$", r", \1 of them"),
    (
        r"\b((?:floats?|dibbers?|wagglers?|sticks?|feeders?|bombs?|leads?|hooks|swivels|beads|bands|stops)\b[^()]*?)\s*\((\d{1,2})\)\s*,?\s+(?=[a-z(])",
        r"\1, \2 of them, ",
    ),
    (
        r"\b((?:olivettes?|ollies)\b.*?)\s*x\s*(\d{1,2})\s*,?\s*(\d+p|£\d+(?:\.\d\d)?)\s*(each|ea)$",
        r"\1, \2 of them, \3 \4",
    ),
    (r"\bS\s*[,/\s]\s*M\s*(?:[,/\s]|and|&)\s*L\b", "small, medium and large"),
    (r"\bto\s+(?:suit|fit)\s+(?=(?:no\.?\s*)?\d+(?:\s*(?:-|to)\s*\d+)?\s+elastic)", "for "),
    (
        r"\b(1[02468]|2[0246])\s*(?:-|to)\s*(1[02468]|2[0246])s?\s+(?=(?:barbless|barbed|spades?|eyed)\b)(?!.*\bto\b)",
        r"hooks \1 to \2 ",
    ),
    (
        r"\b(olivettes?|ollies)\s+(?:(?:in\s?line|tungsten)\s+)?(?=(?:\d*\.?\d+\s*g?\s+)*\d*\.\d+\s+)((?:\d*\.?\d+\s*g?\s+){2,}\d*\.?\d+\s*g)\b",
        grams_of_each,
    ),
    (r"^([^,]*?)\s*\bx\s*1\s+(box|tub|bag|packet|pack|pkt|pk|tin)$", r"\1, 1 \2"),
    (
        r"^([2-9])\s+([a-z]+)\s+(\d+\s*g|\d/\d\s*oz)\s+(?:and|&|\+)\s+(?:an?|one|1)\s+([a-z]+)\s+(?:of\s+)?the\s+same$",
        r"\1 x \2 \3 and 1 x \4 \3",
    ),
    (
        rf"\b([2-9])\s*x\s*{PACKET}s?\s+(?:of\s+)?(\d{{1,3}})(?![\d.]|\s*(?:g|mm|m|cm)\b)",
        r"\1 packets of \2",
    ),
    (
        rf"(?<=\b(?:pkt|ack)),?\s+(?:have|got|i'?ve|with)\s+({FEW})\s+full(?:\s+(?:ones|uns))?$",
        r", \1 packets",
    ),
    (
        r"\b((?:shot|aaa|ab|bb|ssg|swan)\b.*?)\s([2-9])\s*x\s*(\d{1,3}\s*g)$",
        r"\1, \2 tubs (note: \3)",
    ),
    (r"[,\s]+on\s+wires?,?\s+([2-9])\s*x\s*(\d{1,2})$", r", \1 cards of \2"),
    (r"\bwhat(?:'s|\s+is)\s+left\s+of\b", "some left of"),
    (r",\s*a\s+few$", ", a few left"),
    (rf"\b(?:refill\s+)?(tubs|bags|pots|packs|packets|pkts),\s*({FEW})$", r", \2 \1"),
    (
        r"\b(beads?|stops?|swivels?|links?|connectors?|bands?)[,\s]+((?:small|medium|large|lrg|lge|sml|med)[,\s]+)?([2-9])\s*x\s*(6|8|10|12|15|20)$",
        r"\1 \2, \3 packets of \4",
    ),
    (r"\bw\.\s+(?=[a-z])", "with "),
    (
        rf"\b(?:asst|assorted|mixed|various)\s+sizes?,?\s+(?=(?:\d|an?|one|two|three)\s+{PACKETS}\b)",
        "assorted, ",
    ),
    (r"(?<=\dg)\s+([1-9]\d?\.\d\d)\s+x\s*(\d)$", r" £\1 each x \2"),
    (r"(£\d+(?:\.\d\d)?\s*(?:each|ea))[,\s]+(\d)\s+off$", r"\1 x \2"),
    (
        rf"\b(swivels?),\s*(\d{{2}}),\s*(?=(?:\d+|{SPOKEN})\s+(?:in|to|per)\s+(?:an?\s+|the\s+)?{PACKET}\b)",
        r"\1 size \2, ",
    ),
    (
        rf"\b(?P<packets>{MANY})\s+(?P<kind>(?:refill\s+)?{PACKETS})\b(?P<what>[^()]*),\s*(?P<note>[^,()]*?)\s+so\s+(?:call\s+it|say|that'?s)\s+(?P<many>{MANY})$",
        sums.so_many_packets,
    ),
    (
        rf"\b(?:(?:one|an?|1)\s+)?(?:full\s+)?(?P<kind>{PACKET})\s+of\s+(?P<held>{MANY})\s*(?:,|and|plus|&|\+)\s*(?P<more>half\s+an?\s+dozen|{MANY})\s+(?:loose|odd|spare|singles?)\b(?:\s+(?:ones|uns))?",
        sums.full_and_loose,
    ),
    (
        rf",\s*(?:an?\s+)?({PACKET})\s+and\s+an?\s+half(?=\s*(?:,(?!\s*should\b)|$))",
        r", one and a half \1s",
    ),
    (
        rf"\b({MANY})\s+(\d+\s*g)\s+((?:refill\s+)?(?:bags|tubs|pots))\b(?=.*\b(?:shot|ssg|aaa|bb)\b)",
        r"\1 \3 (note: \2)",
    ),
    (
        rf"\b(hook\s?lengths?)\s+(\d{{2}})\s*[x,]\s*({FEW}\s+{PACKETS}\s+of\s+{FEW})\b",
        r"\1 size \2, \3",
    ),
    (rf"\b({MANY})\s+left\s+(after\s+[^,]*)", r"\1 left (note: \2)"),
    (
        rf"\b({MANY})\s+(?:lengths|bits|pieces)(?:\s+left)?,?\s+(?:about\s+)?(\d+(?:\.\d+)?\s*(?:m|metres?))\s+each\b",
        r"\1 packets, \2",
    ),
    (
        rf"^({FEW})\s+((?:[a-z]+\s+){{0,3}}(?:sticks|wagglers|floats|wags|avons|dibbers)),\s*(?=\d\s*(?:no\.?\s*\d|bb|aaa|ssg|swan|x\s*\d))",
        r"\1 x \2 ",
    ),
    (rf"\b({MANY})\s+and\s+a\s+bit\s+({PACKETS})\b", r"\1 \2 (note: and a bit)"),
    (rf"\b({MANY})\s+full\s+(?:'?uns|ones)\b(?<=uns|nes)", r"\1 packets"),
    (rf"\b({MANY})\s+of\s+the\s+({MANY})\s+(gone|used|left)\b", r"pack of \2, \1 \3"),
    (
        rf",\s*(?:about\s+)?((?:\d+|{SPOKEN})\s*(?:m|metres?|yds?|yards?))\s+(?:gone\s+|used\s+)?off\s+(?:of\s+)?it\b",
        r", used \1",
    ),
    (
        rf"\b({MANY})\s+(?:lengths|bits|pieces)\s+of\s+(?:about\s+)?(\d+(?:\.\d+)?\s*(?:m|metres?|ft|feet|foot|yds?|yards?)\b)",
        r"\1 packets, \2",
    ),
    (r"(?<=,)\s*(\d{1,3})\s+it\s+says\b", r" pack of \1"),
    (rf"(?<!but )\b({MANY})\s+still\s+(?:there|in\s+(?:it|there))\b", r"\1 left"),
    (
        rf"\b({MANY})\s+(?:unopened|sealed)\s+({PACKETS})\s+of\s+({MANY})\b",
        r"\1 \2 of \3, unopened",
    ),
    (
        rf"\b({MANY})\s+{PACKETS}[,\s]+(\d{{1,3}})\s+(?:hooks\s+|pieces\s+|of\s+them\s+)?(?:altogether|in\s+all|all\s+told)\b",
        sums.so_many_in_all,
    ),
    (rf"\b({MANY}\s+{PACKETS})\s+and\s+a\s+bit\b", r"\1 (note: and a bit)"),
    (
        r"\b(feeders|floats|wagglers|bombs|leads)\s+([2-9])\s+(?=(?:large|small|medium|lge|sml|med)\b)",
        r"\1, \2 of them, ",
    ),
    (
        rf"(?<=[a-z])(?<!\bso)(?<!say)(?<!ty)\s+({MANY})\s+(?:in\s+all|all\s+told|altogether|in\s+total)\b",
        r", \1 of them",
    ),
    (
        r"(?<=[a-z])[,\s]+([2-9])\s+(?:packets|packs|pkts?|pks?)\s+(10|12|15|20|25|50|100)(?=\s*(?:,|$))",
        r", \1 packets of \2",
    ),
    (rf"\b(?:an?\s+)?({PACKET})\s+and\s+an?\s+half(?=\s+left\b)", r"one and a half \1s"),
    (rf"\bput\s+{MANY}\s+down\s+but\s+i\s+meant?\s+({MANY})\b", r"\1 of them"),
    (rf",\s*({MANY}\s+(?:got|have|with)\s+rigs\s+on)\b", r" (note: \1)"),
    (
        r"(?P<long>\d+)\s*(?:m|metres?)(?:\s+(?:pack|spool))?[,\s]+(?P<note>cut\s+(?P<off>\d+)\s*m(?:etres?)?\s+off\b[^,]*)",
        sums.cut_off,
    ),
    (rf"\b({MANY})\s+threaders?\s+with\s+({MANY})\s+on(?:\s+each)?", r"\1 packets of \2"),
    (
        rf"\b((?:swivel|link|hook)s?),\s*(\d{{1,2}}),\s*(?=(?:\d+|{SPOKEN})\s*{PACKETS}\b)",
        r"\1 size \2, ",
    ),
    (
        r"(?<=\d)\s+x\s*(5|6|8|10|12|15|20|25|50|100)\s+(?:pack|pkt|pk|packet)$",
        r", pack of \1",
    ),
    (rf",\s*({MANY})\s+({_COLOURED})\s+ones?$", r", \2, \1 of them"),
    (r"^made\s+up\s+(?=(?:an?\s+)?(?:dozen|half|\d|ten|six|eight)\b)", "tied "),
    (
        r"\bgot\s+(?:2|two|3|three)\s+(?:as|cos|because|since)\s+(?:it|they|that)\s+(?:was|were)\s+(2|two|3|three)\s+(?=for\b)",
        r"\1 ",
    ),
    (r"\b(?:an?\s+)?couple\s+(?:of\s+)?dozen\b", "24"),
    (r"\b(stops\b.*?\b\d+)\s+(?:ladders?|sticks?|wires?)\b(?!\s+of\b)", r"\1 strips"),
    (
        r"\b(?:one\s+|1\s*|an?\s+)(bag|packet|pkt|pack|pk|box|tub)[,\s]+(\d{1,3})\s*(?:pcs?|pieces)\b",
        r"1 \1 of \2",
    ),
    (
        rf",\s*(?P<more>{MANY})\s+(?P<note>with\s+the\s+[^,\d]+),\s*(?P<good>{MANY})\s+good\s+(?:uns|ones)\b",
        sums.all_of_them,
    ),
    (rf"\b({MANY})\s+(?:tins|pots)\b", r"\1 tubs"),
    (
        r"(?<!styl )\b(feeders|cages|methods|bombs|leads)\s+([2-9])(?=\s*(?:\(|,|$))(?!\s*,\s*\d)",
        r"\1, \2 of them",
    ),
    (r"(?<![\d.])(\d{1,3})\s+nr\b\.?(?=\s*(?:,|$))", r"\1 of them"),
    (
        r"\b(?:pack|packet|pkt)\s+and\s+an?\s+half,?\s+(?:should|ought\s+to|must)\s+be\s+(\d{1,3})\b",
        r"\1 of them",
    ),
    (r"\bhalf\s+an?\s+(?:pack|packet|pkt)\s+of\s+(.*?),\s*(\d{1,3}\s+left)\b", r"\1, \2"),
    (rf"\b(so\s+{MANY})\s+(?:empty|spare|unused|bare)\b", r"\1"),
    (
        rf"\b(?P<one>{MANY})\s+(?:rigged(?:\s+up)?|made\s+up|on\s+winders?)\s+and\s+(?P<other>{MANY})\s+"
        r"(?:bare|spare|loose|unused|not)\b",
        sums.some_rigged,
    ),
    (
        rf",\s*got\s+(?=(?:{FEW})\s+(?:{_COLOURED})\s+(?:and\s+)?{FEW}\s+(?:{_COLOURED}))",
        ", ",
    ),
    (
        rf"(?<![\d.])(\d{{1,3}})\s?nos?\.?(?=\s+(?:{'|'.join(map(re.escape, COLOURS))})\b)",
        r", \1 of them,",
    ),
    (
        r"^(\d)\s?x\s?([5-9]|1[0-2])\s+(?=(?:[a-z]+\s+){0,2}(?:hair\s+rigs|hook\s?l[a-z]*s|hooks\s+to\s+nylon|snoods|traces|bottoms)\b)",
        r"\1 packets of \2 ",
    ),
    (rf",\s*({MANY})\s+on\s+(?:the|an?)\s+(?:[a-z]+\s+){{0,2}}card,", r", \1 to a card,"),
    (
        rf"\b(quills?|wagglers?|floats?|sticks?)\s+({SPOKEN})\s+in\s+(?=(?:an?|the|my)\s)",
        r"\1, \2 of them, in ",
    ),
    (
        r"\b(?:was|were)\s+(\d+\s*(?:m|yds?))[,\s]+(?:but\s+)?(?:i\s+reckon|i'?d\s+say|about|maybe|probably|only)\s+(?:about\s+)?(\d+)\s*(m|yds?)?\s+left(?:\s+on(?:\s+it)?)?",
        sums.so_much_left,
    ),
    (
        r"\b(?:about\s+)?half\s+(?:an?\s+spool\s+)?left,?\s+(?:so\s+)?(?:call\s+it|say)\s+(?P<left>\d+)\s*(?P<unit>m|yds?)\b(?:\s+left\b)?",
        sums.half_of_so_long,
    ),
    (r"\b(when\s+new),?\s+(?:so\s+)?(?:call\s+it|say)\s+(\d+)\s*m?(?:\s+left)?$", sums.when_new),
    (
        r"(?<=,)(\s*was\s+\d+\s*(?:m|yds?|yards|metres)),?\s+(?:so\s+)?(?:call\s+it|say)\s+(\d+)\s*m?(?:\s+left)?$",
        sums.when_new,
    ),
    (
        rf"[,\s]+((?:must|should|might)\s+be\s+{MANY}(?:\s+odd)?\b[^;\d]*?)[,\s]+so[,\s]+(?:call\s+it|say)\s+({MANY})$",
        r" (note: \1), \2 of them",
    ),
    (
        rf",\s*(?:i\s+)?(thought\s+i\s+had\s+{MANY})[,\s]+but[^\d;]*?({MANY})$",
        r" (note: \1), \2 of them",
    ),
    (rf",\s*({MANY})\s+(on\s+winders(?:[\s,]+(?:ready\s+)?rigged)?)$", r", \1 of them (note: \2)"),
    (rf"(?<!\w)({MANY})\s+winders?$(?<=winders)", sums.winders_of_elastic),
    (rf"\b({MANY})\s+(?:to|on)\s+(?:an?|each)\s+loop\b", r"pack of \1"),
    (r"\bhalf\s+an?\s+bulk\s+spool\s+of\b", "half a spool of bulk"),
    (
        r"(?<=[\s,])(?P<long>\d+\s*(?:cm|in|inch)),\s*(?P<many>six|eight|ten|[68]|10)\s+in(?=\s*(?:,|$))",
        r"\g<long>, pack of \g<many>",
    ),
    (rf"(?:\s+-\s*|,\s*)({MANY})\s+loose$", r", loose, \1 of them"),
    (rf"(,\s*{MANY}\s+of)$", r"\1 them"),
    (rf"\b({MANY})\s+odd\s+in(?:\s+(?:there|it|here))?$", r"\1 of them"),
    (
        r"\b(\d{1,2})s\s+(pkt|pk|packet|pack),\s*(\d|two|three|four)\s+for\b",
        r"\3 packets of \1, \3 for",
    ),
    (
        rf"\b({MANY}\s+{PACKETS})\s+(?:of\s+)?(?=[^,]*\b\d{{1,2}}s,\s*tens\b)([^,]*),\s*tens\b",
        r"\1 of 10 \2",
    ),
    (
        rf"\bbought\s+({MANY})\s+({PACKETS})[,\s]+(?:and\s+)?(?:got\s+)?(?:1|one|an?)\s+free\b",
        sums.one_free,
    ),
    (
        r"\bgot\s+(\d|two|three|four)(?:\s+(?:last\s+\w+|yesterday|before))?\s+(?:and|plus)"
        r"\s+another\s+(\d|two|three|four)\b(?:\s+(?:today|since))?",
        sums.so_many_more,
    ),
    (r"\beach\s+time(?:\s+per\s+[a-z]+)?\b", "each"),
    (r"\b(gone|used|lost|missing|taken)\s+out\s+of\s+(?:it|them|there)\b", r"\1"),
    (rf"\b(less\s+{MANY})\s+(already\s+[^,\d]*)$", r"\1 (note: \2)"),
    (r"^(?:got\s+)?(?:an?\s+)?pair\s+of\s+(?P<what>[^,]*?)\s+spools\b", r"2 spools of \g<what>"),
    (
        rf",\s*(?P<many>{MANY})\s+of\s+(?:'?em|them)\s+(?P<note>with\s+(?:the|an?)\s+[^,\d]*)$",
        r", \g<many> of them (note: \g<note>)",
    ),
    (r"^(\d)\s*x\s*(10|20|25|50|100)\s+(?=size\b|#|no\.?\s*\d)", r"\1 packets of \2 "),
    (r"^(\d)\s?(?:pks?|pkts?)\s+(?!of\b)(?=[a-z])", r"\1 packets of "),
    (r"\btwin\s+pack\b(?=.*\b\d+\s+in\s+each\b)", "2 packets"),
    (
        rf",?\s*\b(?P<note>plus\s+the\s+[^,]*?)[,\s]+so\s+(?P<many>{MANY})\s+(?:altogether|in\s+all|all\s+told)$",
        r", \g<many> of them (note: \g<note>)",
    ),
    (
        rf",?\s*\b(?P<good>{MANY})\s+(?:good|sound|ok)\s+(?:uns|ones)\s+and\s+(?P<more>{MANY})\s+(?P<note>with\s+[^,]*)$",
        sums.all_of_them,
    ),
    (rf"^(.*\b{PACKET}s?\s*(?:of\s+)?\d+\b.*?),?\s*\((\d{{1,3}})\)$", r"\1, \2"),
    (r"\bboxs\b", "boxes"),
    (r"\btimes\s+(?=\d)", "x "),
    (r"\b(25|50|\d{3})\s+box\s+(\d{1,2})$", r"\2 boxes of \1"),
    (r"\b(tubs?)\s+(\d\.\d\d)\s+(\d{1,2})$", r"\1 £\2, \3 of them"),
    (r"^(?:the\s+|an?\s+)?big\s+(?=spool\b)", ""),
    (r"\b(\d)\s+no\.?\s+(\d{2,4}\s*(?:m|yds?)\b)", r"\1 x \2"),
    (
        rf"\b({FEW})\s+(?:to|on|per)\s+(?:a|an|each|the)\s+{_HOLDER}s?[,\s]+(?P<many>{MANY})\s+{_HOLDER}s?\b",
        r"\g<many> packets of \1",
    ),
    (rf"\b({FEW})\s+(?:to|per)\s+(?:a|an|each|the)\s+{_HOLDER}\b", r"pack of \1"),
    (r"[,:]\s*(2|3|4)s$", r", pack of \1"),
    (
        r"^(?:an?\s+)?(?:opened\s+|open\s+)?(?:pack|packet|pkt)\s+of\s+(\d{1,2})s?\b(.*?),?\s+(\d{1,2})\s+left\s+out\s+of\s+(\d{1,2})$",
        r"size \1\2, part used, \3 left out of \4",
    ),
    (
        r"^(?:an?\s+)?(?P<held>pkt|packet|pack)\s+and\s+a\s+half\s+of\s+(?P<what>.*),\s*(?P<many>\d{1,3})\s+(?:all\s+told|in\s+all|altogether)$",
        r"\g<what>, \g<many> of them (note: \g<held> and a half)",
    ),
    (r"\bi'?d\s+say\s+(?=\d)", "about "),
    (r"\b(\d{1,3})\s+odd\b(?!\s+\w+s\b)", r"\1"),
)
