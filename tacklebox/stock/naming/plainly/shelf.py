"""What a shelf, a stall or a friend's kit calls things, put as the rest of this room reads them, and what is
said beside them kept as a note: "flat end" hooks, "bottom stuff", "made out of film pots"."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import MANY, NUMBER, SPOKEN
from tacklebox.stock.naming.words import COLOURS

_DIGIT = r"(?:one|two|three|four|five|six|seven|eight|nine|oh|nought)"
_SHORT = {
    "xs": "extra small",
    **dict.fromkeys(("s", "sm"), "small"),
    **dict.fromkeys(("m", "md", "me"), "medium"),
    **dict.fromkeys(("l", "lg"), "large"),
    "xl": "extra large",
}


def in_full(found: re.Match[str]) -> str:
    """ "S & M" as "small and medium"."""
    one = found["small"] or found["mid"]
    return f"{_SHORT[one[:2].lower()]} and {_SHORT[found['other'][:2].lower()]}"


def set_apart(found: re.Match[str]) -> str:
    """ "4,6,8" as "4, 6, 8": three numbers are no decimal."""
    return found.group().replace(",", ", ")


def with_its_mould(found: re.Match[str]) -> str:
    """ "Method feeder 25 g, 2, with mould" as two feeders and a mould."""
    return f"{found['many']} x {found['what'].strip(' ,')} and 1 x method mould"


def in_figures(found: re.Match[str]) -> str:
    """ "Two pound 40 each" as £2.40."""
    return f"£{count_of(found[1])}.{found[2]}"


def in_pence(found: re.Match[str]) -> str:
    """ "Eighty pence" as 80p."""
    return f"{count_of(found[1])}p"


def by_the_dozen(found: re.Match[str]) -> str:
    """ "2 doz, 80p doz" as what all of them cost."""
    dozens = count_of(found["many"])
    return f"{12 * dozens} of them, £{dozens * int(found['pence']) / 100:.2f} the lot"


def loaded_and_more(found: re.Match[str]) -> str:
    """ "Loaded, eight grams plus two" as 8+2 g; as it was where no gram was said."""
    if not re.search(r"g\b|grams?\b", found.group(), re.IGNORECASE):
        return found.group()
    return f"{found['what']}{count_of(found['load'])}+{count_of(found['more'])} g"


RULES: Rules = rules(
    # slips and shop words
    (r"\bb-bless\b", "barbless"),
    (r"\bcard\s+of\s+(\d)\s+strips\b", r"1 card (note: \1 strips)"),
    (r"\b(\d|one|two|three|four|five|six)\s+wallets?\s+of\s+(\d{1,2})\b", r"\1 packets of \2"),
    (r"\b(\d)\s+pkts?\s+(\d{1,2})['’]s\b", r"\1 packets of \2"),
    (r"\bcontrollers?(?:\s+floats?)?\b", "waggler (note: controller)"),
    (r"\bring\s+(swivels?)\b", r"\1 (note: ring)"),
    (r"(?<=\d)\s*(?:i\.?d\.?|bore)\b(?=.*\bbits\b)", " mm"),
    (r"\b(\d)\s*x\s*(\d{1,3})\s*(?:pcs?|pieces)\b", r"\1 packets of \2"),
    (r"^in[\s-]?line\s+flat\s+(?=\d)", "flat inline "),
    (
        r"^(\d+\s*g)\s+(?:in[\s-]?line\s+flats?|flats?\s+in[\s-]?line)\b(?!\s+(?:methods?|feeders?|leads?|bombs?))",
        r"flat inline lead \1",
    ),
    (
        r"^(?P<what>[a-z][a-z\s]*s)\s+(?P<many>[23]|two|three)\s+[-–:]\s*(?=\d)",
        r"\g<many> \g<what>, ",
    ),
    (r"\bpr\s+(?=(?:pkt|pack|packet|bag|box)\b)", "per "),
    (r",\s*([2-9])\s+on$", r", \1 of them"),
    (r"\bfloat\s+bands?\b", "float rubbers"),
    (r"\b(\d)\s+(?:sets|lots)\s+on\s+(?:wires?|loops?|rings?|sticks?)\b", r"\1 strips"),
    (r"\bolives\b", "olivettes"),
    (r"\bthree[\s-]eighths?\b(?!\s*(?:of\s+an?\s+)?(?:oz|ounce))", "3/8 oz"),
    (r"\bflatt(?:y|ies)\b", "flat leads"),
    (
        r"(\d\s*(?:cm|mm))\s*\(\s*(\d+(?:\.\d+|\s+\d/\d)?)\s*(?:in|ins|inch|inches|\")\s*\)",
        r"\1 (note: \2 inch)",
    ),
    (
        r"[,\s]*\btied\s+(\d{1,2})[/.](1[0-2]|0?[1-9])[/.]((?:20)?\d\d)\b",
        r" (note: tied on \1.\2.\3)",
    ),
    (r"\bq/stops?\b", "quickstops"),
    (r"(?<!\w)h/tied\b", "hand tied"),
    (r"(?<!\w)b['’]?worm\b", "bloodworm"),
    (r"\btorpil+e(?:s)?(?:\s+type)?(?:\s+leads?)?\b", "olivette (note: torpille)"),
    (r"\bflo(?:o)?r\s*o\s*carbon\b", "fluorocarbon"),
    (r"\bbrade\b", "braid"),
    (r"\bpulla\b", "puller"),
    (r"\boh\s+hundred\b", "oh, a hundred"),
    (
        r"\boh\s+(eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen)\b",
        r"point \1",
    ),
    (
        r"\b([2-9])\s+(?:strings|strips|loops|wires|cards|sprues|trees|stems)\s*x\s*(\d{1,3})\b",
        r"\1 packets of \2",
    ),
    (r"(?<=bands\b)(.*?)[,\s]+([2-9])\s*x\s*(50|100|200)$", r"\1, \2 packets of \3"),
    (
        r"^(\d\s+\d/\d\s*oz)\s+((?:flat|pear|swivel|coffin|grip\w*|bombs?|leads?|cage|feeders?|\s)+?)\s+(?=(?:pk|pkt|pack|packet)\s+of\b)",
        r"\2 \1 ",
    ),
    (r"\b(?:2nd|second)[\s-]*hand\b|(?<!\w)s/h(?:and)?\b", "secondhand"),
    (
        r"\bstot(?:[sz]|ts)\s+(?:no\.?\s*|size\s+|sz\s+)?([7-9]|1[0-3])(?:'?s)?\b",
        r"no \1 shot (note: stots)",
    ),
    (r"(?<!note: )\bstot(?:[sz]|ts)\b", "shot (note: stots)"),
    (r"^(\d{1,2})s,?\s+soft\s+lead\b", r"no \1 lead shot, soft"),
    (r"\bol(?:l?y|iv)['’]s\b", "olivettes"),
    (r",?\s*\bi['’]?m\s+afraid\b", ""),
    (r"(?<![\d.])(\d)\.(?=(?:1/2|1/4|3/4)\s*(?:oz|lb))", r"\1 "),
    (r"\bmixd\b", "mixed"),
    (r"^(?=.*\d\s*(?:oz|g)\b)(.*?)\bbom(s?)\b", r"\1bomb\2"),
    (r"\bopen\s+ender(s?)\b", r"open end feeder\1"),
    (r"\b(?:grippa|grip)\s+(?=feeders?\b)", "gripper "),
    (r"\bband\s+puller\b(?:\s*/\s*banding\s+tool\b)?", "bander"),
    (r"\blead\s+stops?\s*/\s*(?:led?ger)\s+stops?\b", "ledger stops"),
    (
        r"\b(?:bottom|hook\s?length|hook\s?link)\s+(?:stuff|material)\b(?!\s+line)",
        "hooklength line",
    ),
    (
        r"\b(?:with\s+(?:the\s+|an?\s+)?)?(?:flat|spade)\s+ends?\b(?:\s*,?\s*not\s+(?:the\s+|an?\s+)?eye[ds]?\b)?",
        "spade",
    ),
    (
        r"^(.*?)\bwire\s+stems?\b(?=.*\d\s*(?:x\s*)?no\.?\s*[1-6]\b)(?!.*\b(?:pole|wag|float|stick|bolo|avon))",
        r"\1wire stem stick",
    ),
    (r"(?<=\d)no\.?(?=\d{1,2}\b)", " No "),
    (r"^((?:no\.?\s*)?\d{1,2}s?),\s*soft\b,?(?=.*\b(?:a|per|the)\s+tub\b)", r"\1 soft shot,"),
    (r"\bcut\s+(?:ones|shot)\s+(1[0-3]|[6-9])s?$", r"shot No \1 (note: cut)"),
    (r"^(1[0-3]|[6-9])s,?\s+(?:little\s+)?((?:square\s+)?cut)\s+ones\b", r"shot No \1 (note: \2)"),
    (r"\bdrop\s*-?\s*shot\s+(leads?|weights?|bombs?)\b(.*)$", r"leads\2 (note: drop-shot)"),
    (
        r"\b(?:dead\s+)?weights\s+for\s+(?:the\s+|my\s+)?feeders?\s*,?\s+clip[\s-]on\b(.*)$",
        r"leads clip on\1 (note: for feeders)",
    ),
    (r"\b(?:double|2)\s+swan\s+shot\b|^double\s+swan\b", "SSG shot double"),
    (r"\bwee\b(?!\s+(?:spools?|packets?|tubs?|bags?|box|tin))", "small"),
    (r"\brefill\s+(?=(?:tub|pack|packet|pkt|bag|pot)s?\b)", ""),
    (r"\b(winders?\b[^,]*?)\s+(?<!mm )(wide|narrow)\b(?!\s*\d)", r"\1 (note: \2)"),
    (
        r"^(?P<what>(?:quick|push|hair)[\s-]?stops?)\s*(?:\+|and|&|plus)\s*(?:the\s+|an?\s+)?needle,\s*(?P<many>\d+)$",
        r"\g<what>, \g<many> of them (note: with needle)",
    ),
    (
        r"^(?P<what>[^,\d]*\b(?:beads|bands|stops|swivels|links|hooks|rings|sleeves)\b.*?)\s+"
        rf"(?P<note>for\s+(?:the\s+|my\s+)?[a-z]+(?:\s+[a-z]+)?)\s+(?P<many>{SPOKEN})$",
        r"\g<what>, \g<many> of them (note: \g<note>)",
    ),
    (
        rf"^(?=.*\bloaded\b)(?P<what>.*?)(?<![\d.])\b(?P<load>{SPOKEN}|\d{{1,2}})\s*(?:g|grams?)?\s*(?:\+|plus)\s*"
        rf"(?P<more>{SPOKEN}|\d{{1,2}})(?:\s*(?:g|grams?))?\b(?!\.\d|\s*(?:bb|aaa|ab|ssg|swan|no\b|x|of|off))",
        loaded_and_more,
    ),
    (
        rf"\bpoint\s+({_DIGIT}\s+{_DIGIT})\s+(?={_DIGIT}\s+(?:metres?|foot|feet|ft|inch|inches)\b)",
        r"point \1, ",
    ),
    (r"\bsets?\s+of\s+(olivettes?\b.*?),\s*((?:\d|two|three)\s+of\s+each),\s*(.+)$", r"\1, \3, \2"),
    (
        r"\b(method|pellet|bomb|feeder)\s+rigs\b(?=.*\b(?:bayonet|spike|band(?:ed)?|quick\s?stop))",
        r"\1 hooklengths",
    ),
    # money as it is spoken
    (
        rf"\b({SPOKEN}|\d{{1,2}})\s+pounds?\s+(\d\d)\b(?!\s*(?:lb|mm|m|cm|g))(?=\s*(?:,|$|each\b|a\b|the\b|per\b|for\b))",
        in_figures,
    ),
    (rf"\b({SPOKEN})\s+pence\b", in_pence),
    # sizes that stand together
    (
        r"(?<![\w./£])(?<!\d )(?:(?P<small>xs|s|sml)\s*(?:&|/|\+|\band\b)"
        r"|(?P<mid>m|md|med)\s*(?:&|\+|\band\b))\s*(?P<other>m|md|med|l|lg|lge|xl)(?![\w./])",
        in_full,
    ),
    (
        r"(?<![\w.,])(?:\d{1,2}|aaa|bb|ssg|ab)(?:,(?:no\.?)?(?:\d{1,2}|aaa|bb|ssg|ab)){2,}(?![\w.,])",
        set_apart,
    ),
    (
        r"\b(mixed\b.*?)(?<!\ds )\b(\d{1,2}s)\s+(\d{1,2}s)\s+(?:and\s+|&\s*)?(\d{1,2}s)\b(?!\s+\d)",
        r"\1\2, \3 and \4",
    ),
    (r"(?<!say )(?<!and )(?<!\+ )(?<!& )\b(\d{1,3})\s+odd\b(?=\s*(?:,|$))", r"about \1"),
    (
        r"\bclip[\s-]on\s+(plummets?)(\s+(?:small|medium|large)\b[^\d]*|\s+\d{1,2}(?:,\s+.*)?)$",
        r"\1\2 (note: clip on)",
    ),
    (r"\bsnap\s+links?\s+((?:no\.?|size|sz)\s*\d{1,2})\s*\+\s*swivels?\b", r"snap link swivels \1"),
    (r"\bwire,\s*(?=(?:bristle|cane|hollow|plastic)\s+tip)", "wire stem, "),
    (r"\b(pole\s+rigs?\s+\dx\d\d)\s+to\s+(0?\.\d\d)\b", r"\1, \2 main"),
    (r"^(0?\.\d\d)\s*(?:to|-)\s*(0?\.\d\d)$", r"line \1 and \2"),
    (r"\bhalf\s+an?\s+(1/4\s*lb\s+(?:bulk\s+)?spool)\b", r"half a spool (note: \1)"),
    (
        r"^(?:spare\s+)?float\s+(tips|tops)(?:\s+(spare))?\b(.*)$",
        r"float bristles\3 (note: float \1)",
    ),
    (r"^(float\s+bristles\b.*?)\s*\b(hollow|solid)\b", r"\1 (note: \2)"),
    (r"\b(grayling|perch|pike)\s+bob(?:ber)?(s?)\b(.*)$", r"float\2\3 (note: \1 bob)"),
    (r"^(?:the\s+)?((?:bottom|end)\s+of\s+the\s+spool)\s+of\s+(.*)$", r"\2 (note: \1)"),
    (
        r"\b(?:a\s+)?half(?:\s+an)?(?:\s+(?:ounce|oz))?\s*(?:&|and|\+)\s*three\s+quarter(?:s)?(?:\s+(?:ounce|oz))?\s+(?=bombs?|leads?|feeders?)",
        "1/2 oz and 3/4 oz ",
    ),
    (r"\badd[\s-]on\s+(?=weights?\b)", "clip on "),
    (r"^((?:\d\s+(?:pkts?|packets?)\s+)?)(\d\d)s?\s+to\s+nylon\b", r"\1hooks to nylon size \2"),
    (r"^(\d\d)\s+x[\s-]?strong\b(?=.*\b(?:pkt|packet|pack|pk)\b)", r"size \1 extra strong"),
    (r"\bleft\s+ish\b", "left"),
    (r"\bflat\s+in[\s-]?line\s+(?=\d+\s*g\b)", "flat inline lead "),
    (r"\b(stops\b.*?\d)\s+(?:strands|wires|loops)\s+of\s+(?=\d)", r"\1 packets of "),
    (r"\bdroper(s?)\b", r"dropper\1"),
    # so many
    (
        rf"^({SPOKEN}|\d{{1,2}})\s+(aaa|bb|ssg|swan|ab)s?\s*(?:\band\b|&|\+)\s*({SPOKEN}|\d{{1,2}})\s+(aaa|bb|ssg|swan|ab)s?"
        r"\b(?!.*(?:wag|float|stick|load))",
        r"\1 x \2 shot and \3 x \4 shot",
    ),
    (r"\b(?:approx\.?|about)\s+(\d{1,3})\s+in$", r"\1 in it"),
    (r"^shot\s+(1[0-3]|[1-9])s?,?\s+(?:an?\s+|one\s+|1\s+)?(tub|pot)$", r"1 \2 of no \1 shot"),
    (r"\b(putty\b[^,]*),\s*(?:one|1|an?)\s+(?:tin|tub|pot)$", r"\1, 1 of them"),
    (r"^winder\s+tray\s+with\s+(\d{1,2}\s*x\s.*\bwinders)$", r"1 x winder tray and \1"),
    (r"\bhalf\s+a\s+dozen\s+(?:of\s+)?each\b", "6 of each"),
    (r"(?<!so \d )(?<!so \d\d )\ball\s+told\b", "in all"),
    (r"(?<=[a-z]),\s*(\d{1,2})\s+spares?$", r", \1 of them (note: spare)"),
    (r"\b(bombs?)\s*\+\s*(stems?)\b", r"\1 (note: with \2)"),
    (
        r"(?<=,\s)(?P<many>\d|two|three|four)\s+doz(?:en)?,?\s*(?:@|at)?\s*(?P<pence>\d{1,3})p\s+(?:a\s+|per\s+)?doz(?:en)?\b",
        by_the_dozen,
    ),
    (
        r"\b(method\s+(?:feeder|fdr)s?)\s+set:?\s*(\d)\s+feeders?\s*(?:\+|and|&)\s*(?:an?\s+|1\s+)?mould,\s*(.+)$",
        r"\2 x \1 \3 and 1 x method mould",
    ),
    (
        r"[\s,]*\b(?:about|approx\.?|roughly)\s+(\d{1,3})\s+in\s+((?:an?\s+|the\s+|my\s+)?(?:(?!an?\s|the\s|full\s|new\s)[a-z]+\s+){1,2}(?:tub|pot|tin|box|bag|jar))\b",
        r", about \1 (note: in \2)",
    ),
    (
        r"^(?P<what>.*\bmethod\s+feeders?\b[^+&]*?),\s*(?P<many>\d|two|three|four)\s*,?\s+with\s+(?:an?\s+|the\s+)?mould$",
        with_its_mould,
    ),
    (rf"[\s,(]+({NUMBER})\s+only\)?$", r", \1 of them"),
    (
        r"(?<=[a-z])\s+(\d{1,2})\s+no\.?\s+(?=(?:at\s+|@\s*)?(?:\d{1,3}p\b|£\d))",
        r", \1 of them, ",
    ),
    (
        rf"^(?P<what>.*\bstops\b.*?)[\s,]+(?<!\bx )(?P<many>{MANY})\s+"
        r"(?:(?:wire\s+)?loops?|wires)(?:\s+full)?$",
        r"\g<what>, \g<many> strips",
    ),
    (
        r"^(\d|two|three|four)\s+(aaa|bb|ssg|ab|no\.?\s*\d{1,2}s?)\s+(?:shot\s+)?refills?\b",
        r"\1 packets of \2 shot",
    ),
    (
        rf"^(?P<what>.*\bquills?\b[^\d]*?)\s*,\s*(?P<many>{MANY})(?:,?\s*(?:various|assorted|mixed))?$",
        r"\g<what>, \g<many> of them",
    ),
    (r",\s*just\s+the\s+one\b(?=\s*(?:[,.]|$))", ", one of them"),
    (r"\.{2,}\s*(?:oh\s+)?(?=and\b)", " "),
    (
        r"(£\d+(?:\.\d\d)?)\s+(?:the|a|per)\s+set,?\s*x\s*(\d)$",
        r"x \2, \1 each",
    ),
    (r"\b(elastic\b[^,]*),\s*(?:1|one)\s+(?:reel|spool)\s+(?=\d+\s*m\b)", r"\1, 1 spool of "),
    (r"^(?!.*(?:\bplus\b|\band\b|[&+]))(.*[a-z]),\s*1$", r"\1, 1 of them"),
    (
        r"\b(?:pkt|packet)\s+(\d{1,3})\s*\+\s*(?:an?\s+)?spare\s+(?:pkt|packet)\b",
        r"2 packets of \1",
    ),
    (r"\bkits?,?\s+(?=\d{1,2}\s+sets?\b)", ""),
    # notes
    (r",\s*(box\s+\d),\s*(\d{1,3}\s+left)$", r", \2 (note: \1)"),
    (r"(?<=\d),\s*(card\s+(?:no\.?\s*)?\d{1,3})$", r" (note: \1)"),
    (r"\b(stops\b.*?)[\s,]+(for\s+(?:the\s+)?sliders?)(?=\s*(?:,|$))", r"\1 (note: \2)"),
    (r"(£\d{1,2}(?:\.\d\d)?)\s*/\s*(pkt|packet|pack|pk)\b", r"\1 a \2"),
    (r"^([34]x\d\d)\b(.*?)\bpellet\s+(floats?)\b(.*)$", r"\1\2 pole \3\4 (note: pellet)"),
    (r"\bmag(?:got)?\s+aligners?\s+(?=\d\ds?\s+to\b)", "maggot aligner hooklengths "),
    (rf",\s*((?:tray|drawer|shelf)\s+(?:{SPOKEN}))$", r" (note: \1)"),
    (r"[\s,]+((?:for\s+)?(?:the\s+)?weir\s*pool)(?=\s*(?:,|$))", r" (note: \1)"),
    (
        r"\b(floats?|wagglers?|sticks?),\s*(\d{1,2})\s+((?:ready\s+)?rigged)$",
        r"\1, \2 of them (note: \3)",
    ),
    (r"\(((?!note:)[^()\d]*\brigs?\b[^()\d]*)\)", r"(note: \1)"),
    (
        r"\b(connectors?\b.*?)[\s,]+(for\s+the\s+(?:no\.?\s*)?\d{1,2}(?:\s+and\s+(?:the\s+)?\d{1,2})?)$",
        r"\1 (note: \2)",
    ),
    (
        rf"(?<=\d)[\s,]+((?:{'|'.join(COLOURS)})\s+(?:tub|tin|box|bag|wallet|case))$",
        r" (note: \1)",
    ),
    (
        r"[,;]\s*(\d{1,3}\s+still\s+(?:empty|unused|new|sealed|full)|lot\s+(?:no\.?\s*)?\d{1,4})$",
        r" (note: \1)",
    ),
    (r"\b(winders?\b.*?x\s*\d{1,2})\s+(tray)\b", r"\1 (note: \2)"),
    (r"\b(adapt[oe]rs?),\s*(swivel)(?=\s*,)", r"\1 (note: \2)"),
    (
        r"\b((?:quick|push)\s?stops?\b[^+&]*?)[\s,]+(for\s+(?:the\s+)?hairs?(?:\s+rigs?)?)(?=\s*(?:,|$))",
        r"\1 (note: \2)",
    ),
    (r"\b(loaded\s+to\s+take\s+\d\s*(?:no\.?\s*)?\d{1,2}s?)\b", r"loaded (note: \1)"),
    (
        r"\b((?:feeder|ledger|leger)\s+links?)\s+((?:with|w/?\.?)\s+(?:an?\s+)?swivels?\s+(?:and|&)\s+beads?)\b",
        r"\1 (note: \2)",
    ),
    (r"\b2nd[\s-]*hand\b(.*)$", r"\1 (note: second hand)"),
    (
        rf"\b(?P<of>(?:bombs?|leads?|pears?)\b[^&+()]*\d\s*(?:oz|g)|\d\s*(?:oz|g)\s+(?:[a-z]+\s+)?(?:bombs?|leads?|pears?))"
        rf",?\s+swivel(?=,\s*(?:x\s*\d|{NUMBER}\b))(?!.*(?:\band\b|\bplus\b|[&+]))",
        r"\g<of> (note: swivel)",
    ),
    (
        r"[\s,]*(?<!home)(?<!home\s)(?<!hand\s)\b(made\s+(?:out\s+of|from)\s+(?:an?\s+|the\s+|old\s+)?[a-z]+(?:\s+[a-z]+)?)(?=\s*(?:,|$))",
        r" (note: \1)",
    ),
    (
        r"[\s,]+((?:worn|wore)\s+(?:out\s+)?(?:tip|bristle|ring|eye)|(?:tip|bristle)\s+(?:is\s+)?(?:worn|wore)(?:\s+out)?)(?=\s*(?:,|$))",
        r" (note: \1)",
    ),
    (
        r"[\s,]+(needs\s+(?:an?\s+)?new\s+[a-z]+(?:\s+[a-z]+)?)$",
        r" (note: \1)",
    ),
    (
        r"[\s,]+((?:or\s+so\s+)?(?:rolling|kicking|knocking|lying)\s+(?:about|around)(?:\s+(?:in|on)\s+[^,\d]*)?)$",
        r" (note: \1)",
    ),
    (rf"\b({MANY})\s+or\s+so\b(?=\s*(?:[,(]|$))", r"about \1"),
    (r"^((?:drawer|tray|shelf)\s+\d{1,2})[\s,:-]+(?=[a-z])(.*)$", r"\2 (note: \1)"),
    (
        r"[\s,]*(?<!note: )\b((?:in\s+)?(?:the\s+|my\s+)?(?<!note: )drawer\s+(?:no\.?\s*)?\d{1,2})\b(?!\s*x)",
        r" (note: \1)",
    ),
    (r"(\bx\s*\d{1,3}),\s*(box\s+\d)$", r"\1 (note: \2)"),
    (r"\(((?!note:)[^()]*\d[^()]*\?)\)", r"(note: \1)"),
    (
        r",?\s*\b(for\s+(?:the|my|me)\s+no\.?\s*\d+\s+(?:lack(?:y|ies)|lastics?))\b",
        r" (note: \1)",
    ),
    (
        r"\b(feeders?\b.*?|cages?\b.*?)[\s,]*\b((?:with|w/?\.?)\s+spikes(?:\s+for\s+[a-z]+)?)(?![\w/])",
        r"\1 (note: \2)",
    ),
    (
        r"^(?=.*\b(?:feeder|block[\s-]?end|open[\s-]?end|cage))(.*?)[\s,]+((?:long|short)\s+tail(?:ed|s)?)\b",
        r"\1 (note: \2)",
    ),
    (
        r"^((?:ssg|aaa|bb|ab|swan)(?:\s+shot)?(?:\s+non[\s-]?toxic)?)\s+(\d?\.\d+\s?g)\b(?!.*\b(?:float|wag|olivette|stick|bolo))",
        r"\1 shot (note: \2)",
    ),
    (
        r"^(.*\b(?:wag\w*|float)\b.*?\d\s*(?:swan|ssg|aaa|bb))\s*(\+\s*\d\s*no\.?\s*\d{1,2})s?\b",
        r"\1 (note: \2)",
    ),
    (
        r"\b(silicone?\b[^,]*?\d\s*mm),?\s+(\d+(?:\.\d+)?\s*(?:yds?|yards?|ft|foot)(?:\s+(?:long|length))?)$",
        r"\1 (note: \2)",
    ),
    (
        r"\b(connectors?\b.*?),\s*(?:for\s+)?(\d{1,2}\s*[-–]\s*\d{1,2}\s+elastics?)\b",
        r"\1 (note: for \2)",
    ),
    (r"[\s,]+(bead\s+type)(?=\s*(?:,|$))", r" (note: \1)"),
    (
        r"\b((?:bait\s+)?(?:spikes?|bayonets?|stops?|bands?|needles?)\b.*?)\s*\b(for\s+hair\s+rigs?)\b",
        r"\1 (note: \2)",
    ),
    (r"\b(trebles?\b.*?)\s+(for\s+snap\s+tackles?)$", r"\1 (note: \2)"),
    (r"^bits\s*(?:and|&|n)?\s*bobs\b[\s:,-]*(.*)$", r"\1 (note: bits and bobs)"),
    (
        r"\b(quills?\b.*?)[\s,]+(?<!from )(\d+\s*(?:to|-)\s*\d+\s*(?:in|inch(?:es)?|ins|cm)(?:\s+long)?)"
        r"(?=\s*(?:,|$))",
        r"\1 (note: \2)",
    ),
    (
        r"[\s,]+(for\s+chubb(?:\s+(?:with|on|and)\s+[a-z]+)?)$",
        r" (note: \1)",
    ),
    (r"\bown\s+make\b(?![^()]*\))", "home made"),
    (
        rf"\s+({NUMBER})\s+in\s+(?:(?:an?|the)\s+(?=tin|tray|bucket)|(?=bucket))(tin|tray|bucket)$",
        r", \1 of them (note: in a \2)",
    ),
    (rf"\b({NUMBER})\s+altogether\b", r"\1 in all"),
)
