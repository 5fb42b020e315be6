"""What parts one thing said from another, put as a comma: "..", " - peacock", "wire stem. 4 of"."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import MANY, saying
from tacklebox.stock.naming.words import COLOURS

_WEIGHS = re.compile(r"\d+\s+\d/\d\s*oz|\d/\d\s*oz|\d+(?:\.\d+)?\s*(?:g|oz)\b", re.IGNORECASE)
_SORT_OF = (
    *(("cork", "cork bottomed"), ("clip", "clip on"), ("big", "large"), ("large", "large")),
    *(("small", "small"), ("little", "small"), ("medium", "medium")),
)
_EACH = saying(
    r"^(?:(?P<many>\d|an?|one|two|three)\s+(?:x\s+)?(?!\s*(?:g|oz)\b|/|\d/))?(?P<what>.*)$"
)


_BETWEEN = saying(
    r"\s*(?:,\s*and\b|,|&|\+|\band\b)\s*|\s+(?=(?:one|1|an?)\s+(?:big|small|little|large|clip|cork))"
)
_JOINED = saying(
    r"&|\+|\band\b|\b(?:one|1|an?)\b.*\b(?:one|1|an?|[2-9])\s|\b[2-9]\s.*\b(?:one|1|an?)\s"
)


def each_plummet(found: re.Match[str]) -> str:
    """ "Plummets, 1 cork based 20 g, 1 clip on" as so many of each."""
    total = found["total"]
    listed = re.sub(r"^[\s:,-]+", "", found["each"])
    if first := re.match(r"(?:x\s*)?([2-9]|two|three)\s*[,:-]+\s*", listed):
        total, listed = total or first.group(1), listed[first.end() :]
    pieces = [_plummet(one) for one in _BETWEEN.split(listed)]
    each_times = len(re.findall(r"\bx\s*\d", listed)) == len(pieces)
    weighed = pieces[-1] if pieces and pieces[-1] and not pieces[-1][1] else None
    alike = (
        weighed is not None and len(pieces) > 2 and not any(one and one[2] for one in pieces[:-1])
    )
    pieces = pieces[:-1] if alike else pieces
    if len(pieces) == 1 and pieces[0] and pieces[0][0] > 1 and pieces[0][1]:
        pieces, total = [pieces[0]], ""
    elif len(pieces) < 2 or None in pieces or not (_JOINED.search(listed) or each_times):
        return found.group()
    each = [one for one in pieces if one is not None]
    if total and sum(many for many, _, _ in each) != count_of(total):
        return found.group()
    mass = weighed[2] if alike and weighed else ""
    return " and ".join(
        " ".join(filter(None, (f"{many} x plummet", of or mass, sort))) for many, sort, of in each
    )


def _plummet(said: str) -> tuple[int, str, str] | None:
    """How many, of which sort, of which mass; None where more is said."""
    times = re.search(r"\s*x\s*([1-9])$", said.strip(), re.IGNORECASE)
    said = said.strip()[: times.start()] if times else said.strip()
    said = re.sub(r"^((?:an?|one|\d)\s+)?([1-5]\d)$", r"\1\2g", said)
    found = _EACH.match(said)
    if found is None:
        return None
    mass = _WEIGHS.search(found["what"])
    rest = _WEIGHS.sub(" ", found["what"]).lower()
    sorts = [sort for word, sort in _SORT_OF if re.search(rf"\b{word}", rest)]
    rest = re.sub(
        r"\b(?:cork|clip|big|large|small|little|medium)\b|[\s-]*(?:bottom|base)(?:e?d|s)?|\bon\b|\bones?\b|\btype\b|\bof\b|\bwith\b|\ban?\b|\bboth\b|\beach\b|[\s-]",
        "",
        rest,
    )
    if rest or not (mass or sorts):
        return None
    counted = found["many"] or (times and times.group(1))
    many = count_of(counted) if counted else 1
    return many, " ".join(sorts), mass.group() if mass else ""


def one_bush_and_bung(found: re.Match[str]) -> str:
    """ "PTFE bush and a bung" as one of each."""
    one = "1 x " if re.search(r"\bbush\b", found[1], re.IGNORECASE) else ""
    return f"{one}{found[1]} and 1 x {found[2]}"


def winders_and_tray(found: re.Match[str]) -> str:
    """ "18cm winders, 12 + tray £8.50" as so many of them and a tray."""
    many = f", {found[2]} of them" if found[2] else ""
    return f"{found[1]}{many} and 1 x winder {found[3]} {found[4] or ''}".rstrip()


RULES: Rules = rules(
    (r"\b(lead|bomb|feeder)\s+([1-3])\s*(?:&|and)\s*(\d/\d)\s*oz\b", r"\1 \2 \3 oz"),
    (r"^(.*\b(semi|part)[\s-]?loaded\b.*)$(?<!\))", r"\1 (note: \2 loaded)"),
    (r"\bgroundbait\s+bomb\s+feeder(s?)\b(.*)$", r"bullet feeder\1\2 (note: groundbait)"),
    (
        r"^(.*\bwinders\b.*?)(?:,\s*(\d+))?,?\s*\+\s*(?:(?:an?|1|one)\s+)?(tray|box)\b[^£+]*((?:£|\+).*)?$",
        winders_and_tray,
    ),
    (r"\bsil(?:li|)cone\b|\bsillicon\b", "silicone"),
    (
        r"\b(feeders?\b.*?)\s+(with\s+(?:an?\s+)?(?:(?!spare)[a-z]+\s+){0,3}leads?)\b",
        r"\1 (note: \2)",
    ),
    (r"^(\d?\.\d\d)\s+to\s+(\d?\.\d\d)\s+lines?$", r"\1 and \2 line"),
    (r"[,\s]*\b(for\s+peg\s+\d{1,3})$", r" (note: \1)"),
    (r"[,\s]*\b(for\s+(?:2|two|both)\s+rods)\b", r" (note: \1)"),
    (r"\bpaste\s+float(s?)\b(.*)$", r"pole float\1\2 (note: paste)"),
    (r"\bedge\s+float(s?)\b(.*)$", r"pole float\1\2 (note: edge)"),
    (r"\bloafer(s?)(?:\s+floats?)?\b(.*)$", r"chubber\1\2 (note: loafer)"),
    (
        r"\bsplasher(?:\s+(?:waggler|float))?(s?)\b(?!.*\beach\b)(.*)$",
        r"pellet waggler\1\2 (note: splasher)",
    ),
    (r"\b(porcupine|goose|crow)\s*(quills?)\b(.*)$", r"\2\3 (note: \1)"),
    (r"\blatex\s+((?:bait|pellet)\s+bands?)\b", r"\1 latex"),
    (r"\brubber\s+((?:float\s+)?stops?)\b", r"\1 rubber"),
    (
        r"\b((?:qui?c?k|push)[\s-]?stops?\b[^+]*?)(?<!\bx)(?<!pk)(?<!pkt)(?<!ack)(?<!of),?\s+(?:(?:abt|about|bout)\s+)?([1-5]\d)[\s,]*(?=(?:\+|&|and|plus)\s*(?:the\s+|an?\s+|1\s+)?(?:baiting\s+)?needle$)",
        r"\1, \2 of them ",
    ),
    (
        r"\b(bush(?:es)?)\s+internal\s+(\d\.?\d*)(?:\s*mm)?\s+(?:and|&|\+)\s+external\s+(\d\.?\d*)(?:\s*mm)?",
        r"\1 internal \2 mm and \1 external \3 mm",
    ),
    (r"\bclips\s+for\s+leads\b", "lead clips"),
    (
        r"^(.*\bto\s+\d*\.\d+\b.*?)\s+(on\s+(?:an?\s+)?\d+\s*(?:cm|in)\s+winders?)\b",
        r"\1 (note: \2)",
    ),
    (r"\bquik\s?stop(s?)\b", r"quickstop\1"),
    (r"\bsnap\s+links?\s*\+\s*swivel(s?)\b", r"snap link swivel\1"),
    (r"\b((?:stick|pole|waggler)\s+float)\s+shot\b", r"shot (note: \1)"),
    (r"^(.*\btrebles?\b.*?)[,\s]+(semi[\s-]barb(?:less|ed))\b", r"\1 (note: \2)"),
    (
        r"^(method\s+mould(?:\s+(?:small|medium|large))?)\s*(?:\+|&|and|with)\s*(\d|two|three)\s+feeders\b",
        r"\1 and \2 x method feeders",
    ),
    (
        r"\b(silicone?\s+(?:tube|tubing))\s+(\d*\.?\d+\s*mm)[\s,/]+(\d+\s*m)\s+(?:and|&|\+)\s+(\d*\.?\d+\s*mm)[\s,/]+(\d+\s*m)$",
        r"\1 \2 \3 and \1 \4 \5",
    ),
    (
        r"\b((?:ptfe\s+)?bush(?:es)?\b[^,]*?),?\s+(?:and|&|\+|plus)\s+(?:an?|one|1)\s+((?:puller\s+|pole\s+)?bung),?\s+([2-9]|two|three)\s+of\s+each\b",
        r"\3 x \1 and \3 x \2",
    ),
    (
        r"\b(\d{1,2})\s?lb\s+(\d{1,2})\s+(?=(?:bottom|nylon|mono|line|hook\s?length\s+line)\b)",
        r"\1 lb \2 oz ",
    ),
    (
        r"^((?:(?:barbless|barbed|spade|eyed)\s+)*)(?:size\s+)?(\d{1,2})s?\s+to\s+nylon\b",
        r"hooks to nylon \1\2",
    ),
    (r"(£\d+\.\d\d)\s+(?=(?:pkt|packet|pack)\b)(?!\w+\s+(?:of\b|\d{1,3}(?:,|$)))", r"\1 a "),
    (
        r"(?<!the )(?<!\ba )(?<!my )\b(?:little|small|big|large)\s+(tubs?|box(?:es)?|bags?|tins?)$",
        r"\1",
    ),
    (r"\basst'd\b", "assorted"),
    (r"\b((?:curved|beaked|straight|needle|offset|long|short)\s+point)\s+(?=\d)", r"\1, "),
    (r"\b(styll?s?)\s+(\d{1,2})\s+(box|tub)$", r"\1 no \2, 1 \3"),
    (
        r"\b(x\s*\d{1,2}),?\s+((?:one|1|two|2)\s+[a-z]+\s+(?:missing|gone|bent|broken|cracked|loose|off))$",
        r"\1 (note: \2)",
    ),
    (
        r"\b((?:mono|nylon|line|braid|fluoro\w*)\b.*?)[,\s]+(for\s+the\s+(?:waggler|float|stick|avon|bolo)(?:\s+(?:rod|reel))?)\b",
        r"\1 (note: \2)",
    ),
    (r"\b(?:mag|maggot)\s+aligner\s+(hook\s?lengths?|hooks|rigs)\b", r"\1 (note: maggot aligner)"),
    (r"\bconn?ect(?:er|or|ar)(s?)\b", r"connector\1"),
    (r"\bmicro(?=(?:swivels?|beads?|barbed)\b)", "micro "),
    (
        r"(?:,\s*|\s*\()((?:tobacco|baccy|biscuit|sweet|freezer|kit|rig|float)\s+(?:tin|box|bag|tub)\s+\d{1,2})\)?$",
        r" (note: \1)",
    ),
    (r",\s*((?:drawer|shelf)\s+(?:no\.?\s*)?(?:\d|one|two|three|four|five))$", r" (note: \1)"),
    (r"\bballast(?:ed)?\s+(?=wag)", "loaded "),
    (r"\bspare\s+top\s+two\b(?!\s*kits?\b)", "spare top kit"),
    (r"\btwin\s+(?=dispenser\b)", ""),
    (r"\bhome[\s-]+tied\b", "tied"),
    (r"\bsz\.?\s+(?=(?:x?[sml]|xl)\b)", "size "),
    (r"\bbaker'?s\s+dozen\b", "13 of them"),
    (r"(?<!bread )(?<!foam )\broll(s?)\b(?=\s*(?:,|of\b|$|£|\d))", r"spool\1"),
    (
        r"\b(dispenser)[,\s]+(?:inc(?:l|luding)?\.?|containing|has)\s+(?=(?:ssg|aaa|bb|swan|no\b|\d))",
        r"\1 ",
    ),
    (r"\s+x\s+(?=(?:lots|loads|plenty)\b)", ", "),
    (
        r"^(.*?\b(?:ssg|aaa|bb|no\.?\s*\d+)\b.*?)\s+in\s+(?:an?|the|my)\s+((?:\w+[\s-]way\s+)?dispenser)\b",
        r"\2, \1",
    ),
    (r"\b(?:never|not)\s+(?:been\s+)?opened\b(?:\s+yet\b)?", "unopened"),
    (rf"^(?:cast|moulded|poured)\s+(?={MANY})", ""),
    (r"\bhalf\s+(?:an?\s+)?gram(?=\s*(?:,|and\b|&))", "0.5g"),
    (r"\bass?(?:or)?te?d\.?\s+sizes?\b", "assorted"),
    (
        r"^((?:\d+\s+)?(?:qui?c?k|push|hair)[\s-]?stops?\b(?:(?!\bx\s*\d)[^+])*?)[\s,]*(?:\+|\b(?:plus|and)\b|&)\s*(?:the\s+|an?\s+|1\s+)?(?:baiting\s+)?needle$",
        r"\1, and 1 x baiting needle",
    ),
    (r"\bplumm?[ei]t(s?)\b", r"plummet\1"),
    (r"^(?:(?P<total>[2-9]|two|three)\s+)?plummets?\b(?P<each>.+)$", each_plummet),
    (r"\b(plummets?\b.*?)[,\s]*\bclip(?:[\s-]on)?\b", r"\1 clip on"),
    (
        rf"[,\s]+({MANY}\s+(?:different\s+)?(?:sizes|colours|bores|diameters|patterns))\b",
        r" (note: \1)",
    ),
    (r"\bx\s*(\d{1,2})\s+(?=(?:a\s+)?bit\s+[a-z])", r"x \1, "),
    (r"\b(?:non[\s-]?toxic|lead[\s-]free)\s+(?=(?:rig\s+|tungsten\s+)?putty\b)", ""),
    (r"(?<=stem)\b(.*?)[,\s]+((?:lignum|cane|balsa)\s+top)\b\??", r"\1 (note: \2)"),
    (rf"\b(styls?\b.*?\b{MANY})\s+tube(s?)\b", r"\1 tub\2"),
    (r"(?<=\d)lb(\d{1,2})\b(?!\s*(?:oz|x\b|m\b|pk))", r"lb \1 oz"),
    (r"[,\s]*\b(clear\s+(?:tip|top)s?)\b", r" (note: \1)"),
    (r"\s*\((loaded\s+on[^()]*)\)", r", \1"),
    (r"(?<=\d)(\s*)grms?\b", r"\1gram"),
    (r"\bpckts?\b", "pkts"),
    (r"\bs/shanks?\b", "short shank"),
    (r"\bswanshots?\b", "swan shot"),
    (r"(?<![\w./])(?<!/ )(\d{1,2}\.\d)\s*/\s*(0?\.\d{2,3})(?![\d/])", r"\1lb \2"),
    (r"\bporky(?=\s+quills?\b)", "porcupine"),
    (r"\bcocks\s+(?:with|by|on)\b", "takes"),
    (r"\bc/w\s+(?:an?\s+)?(link|swivel|snap|clip)s?\s*(?=,)", r"(note: with \1) "),
    (r"\bc/w\s+(?:an?\s+)?(link|swivel|snap|clip)s?\b", r"with \1, "),
    (rf",\s*the\s+({'|'.join(COLOURS)})\s+(?:ones?|stuff)\b", r", \1"),
    (r"\bhalf[\s-]+loaded\b", "semi loaded"),
    (r"\b(booms?\b[^,]*?)\s*\b(anti[\s-]tangle)\b(?!\s+sleeve)", r"\1 (note: \2)"),
    (rf"\btrans(?:lucent)?\s+(?=(?:{'|'.join(COLOURS)})\b)", "clear "),
    (
        r"\b(swim\s?feeders?|open\s+end(?:er)?|block\s?end(?:er)?)\b(.*?\d\s*(?:g|gm|oz)\b),?\s*(?:with\s+)?(?:an?\s+)?(strap|strip|side)\s+lead\b",
        r"\1\2 (note: \3 lead)",
    ),
    (r"\bw\.\s*(?=(?:snap|link|clip|swivel|band|quick|mould)\w*\b)|\bwi['’]\s", "with "),
    (
        r"\b((?:flat\s?bed\s+|flat\s+)?method|hybrid|flat\s?bed)(\s+feeder)?\s*(?:\+|&|and|with|w/)\s*(?:an?\s+)?mould[,\s]+(\d+\s*g(?:m|ram)?s?)\b",
        r"\1\2 \3 + mould",
    ),
    (
        r"\bbanjo\b(?!\s+(?:hooks?|hks?|rigs?)\b)(?:\s+(?:feeder|fdr)(s?))?(?P<rest>.*)$",
        r"flat method feeder\1\g<rest> (note: banjo)",
    ),
    (
        r"\b((?:ptfe\s+)?bush(?:es)?\b[^,]*?),?\s+(?:and|&|\+|plus)\s+(?:an?|one|1)\s+((?:puller\s+|pole\s+)?bung)$",
        one_bush_and_bung,
    ),
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
    (rf"(?<=[a-z])\s+o\s+(?=each\b|{MANY})", " of "),
    (r"\s+and\s+(?=they'?re\s+(?:for|from)\b)", ", "),
    (r"\s*\|\s*", ", "),
    (r"(?:(?<=x \d)|(?<=x\d))\.\s+(?=£?\d)", ", "),
    (rf"\s+[-–]\s+(?=\d+\s*(?:of\s+each|cm|in)\b|{MANY}\s+of\s+each\b)", ", "),
)
