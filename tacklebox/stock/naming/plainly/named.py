"""What anglers call things and slips of the pen, put as the rest of this room reads them: "arf ounce",
"gripper feeder", "hk line", "quick change bomb"."""

import re

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import MANY
from tacklebox.stock.naming.words import COLOURS

_GOES_FOR = "line|mono|nylon|braid|fluoro\\w*|rubbers?|sleeves?|beads?|swivels?|stops?|olivettes?"


def at_its_thin_end(found: re.Match[str]) -> str:
    """ "Tapered leader 8-15lb" by its thin end, which gives first; both ends as a note."""
    ends = [found["one"], found["other"]]
    unit = found["unit"] or ("mm" if all("." in end for end in ends) else "")
    thin, thick = sorted(ends, key=float)
    if thin == thick or not unit:
        return found.group()
    return f"{found['before']}{thin} {unit} (note: {thin} to {thick} {unit})"


RULES: Rules = rules(
    (
        r"\bclip[\s-]*on\s+(?:leads?|weights?)\s+for\s+(?:the\s+|my\s+)?(?:(?:cage|method)\s+)?(?:cages?|feeders?|methods?)\b",
        "leads clip on (note: for feeders)",
    ),
    (r"\b(?:f/c|f\.c\.)(?=\s)", "fluorocarbon"),
    (r"\b(leads?),\s*(?=swivel(?:\s*,|\s+\d|$))", r"\1 "),
    (r"\b(\d{1,2})\s+x\s+(size\s+\d{1,2})\b(?=\s+(?:to|on)\b)", r"\2, \1 of them,"),
    (r"\bhook\s+(?=(?:braid|mono|nylon|fluoro\w*)\b)", "hooklength "),
    (r"^hooks\s+to\s+be\s+tied\b", "hooks"),
    (r"\b(hooks?)\s+to\s+gut\b(.*)$", r"\1 to nylon\2 (note: gut)"),
    (r"\bchub\s+(?:flt|float)s?\b", "chubber"),
    (r"\bpole\s+el(?:as|ast)?\b\.?", "pole elastic"),
    (r"\bstr8\b", "straight"),
    (r"^([a-z]{2,3}-\d{2,4})\s+(?=\d|[a-z])(.*)$", r"\2 (note: \1)"),
    (r"\bbarbless\s+(whisker(?:\s+barb)?)s?\b(.*)$", r"barbless\2 (note: \1)"),
    (r"\bstick\s+shot\s+(?=no\.?\s*[1-6]\b)(.*)$", r"shot \1 (note: stick)"),
    (r"\bbombs?\s*(?:&|and|/)\s*feeder\s+(links?)\b(?!\s+stems)(.*)$", r"feeder \1\2 (note: bomb)"),
    (r"\bhollow\s+(?=(?:clear|plastic)\b)(?!.*\btip)(.*)$", r"\1 (note: hollow)"),
    (r"\b(clear|plastic)\s+hollow\b(?!\s+(?:tip|bristle))(?!.*\btip)(.*)$", r"\1\2 (note: hollow)"),
    (r"\bsty+ll+s\b", "styls"),
    (r"^(styls?),\s*(?=\d)", r"\1 "),
    (
        r"[,\s]+((?:made|tied|bought|turned)\b[^,]*\b(?:19[5-9]\d|20[0-2]\d)|(?:made|tied|bought|turned)\s+['’]\d\d)$",
        r" (note: \1)",
    ),
    (r"\btorpedo\s+(?:weights|leads)\s+(?=\d?\.\d+\s*g\b)(.*)$", r"olivettes \1 (note: torpedo)"),
    (r"\bled?ger\s+bullets?\b(.*?)\s*\bdrilled\b", r"drilled bullets\1"),
    (
        r"\bfeeder\s+links?,\s*(\d{1,2})\s+swivels?\b(.*)$",
        r"feeder links size \1\2 (note: with swivel)",
    ),
    (r"(?<![\d/])(\d/\d\s*oz)\s*\+\s*(\d\s+\d/\d\s*oz|\d(?:/\d)?\s*oz)\b", r"\1 and \2"),
    (
        r"\bspare\s+weights?\s+for\s+(?:[a-z]+\s+)?feeders?\b(.*)$",
        r"leads clip on\1 (note: for feeders)",
    ),
    (
        r"^(1\d|2[0-6])/(1\d|2[0-6])\s+(?=(?:[a-z]+\s+)*(?:spades?|hooks|barbless|eyed)\b)(?!.*\bto\b)",
        r"\1 and \2 ",
    ),
    (
        r"^(\d*\.?\d+)\s*g\s*\+\s*(\d*\.?\d+)\s*g\s+(?=(?:[a-z]+\s+)*(?:ollies|olivettes|bombs|leads|feeders)\b)",
        r"\1g and \2g ",
    ),
    (
        r"\b(bush(?:es)?)\s+internal\s+(\d\.?\d*)(?:\s*mm)?\s+(?:and|&|\+)\s+(?:one\s+|an?\s+|1\s+)?external[,\s]+(\d\.?\d*)\s*mm(?:\s+bore)?$",
        r"\1 internal \2 mm and 1 x \1 external \3 mm",
    ),
    (
        r"\b(?:ptfe\s+)?(bush(?:es)?)\s+(\d\.?\d*)(?:\s*mm)?\s+(internal|external)\s+(?:and|&|\+)\s+(\d\.?\d*)(?:\s*mm)?\s+(internal|external)(?:[,\s]+(?:one|1)\s+(?:of\s+)?each)?$",
        r"1 x \1 \3 \2 mm and 1 x \1 \5 \4 mm",
    ),
    (r"\b(in[\s-]?line)\s+pears?\b(?!\s+leads?)(?=.*\d\s*(?:oz|g)\b)", r"\1 pear lead"),
    (r"\bnon[\s-]?toxic\s+heavy\s+(?=putty\b)", "heavy "),
    (r"\brun\s+ring\s+beads?\b", "feeder beads"),
    (
        r"\b((?:wagglers?|floats?)\b.*?)\s+(with\s+(?:an?\s+)?adapt[oe]rs?)(?=\s*(?:,|$))",
        r"\1 (note: \2)",
    ),
    (
        r"\b(box(?:es)?\b.*?)[,\s]+(\d+\s+(?:pins?|slots?|compartments?))\b(.*)$",
        r"\1\3 (note: \2)",
    ),
    (r"^(.*\bloaded\b.*?)(\d+\s*g)\b(.*?)[,\s]+\+\s*(\d\s?(?:bb|aaa|ab|ssg))$", r"\1\2+\4\3"),
    (r"\bfdrs?\b", "feeder"),
    (
        r"^back[\s-]*shots?\s+(?=no\.?\s*\d|aaa|bb|ab|ssg)(?!.*\dg)(.*)$",
        r"shot \1 (note: behind the float)",
    ),
    (r"\bflts\b", "floats"),
    (r"\bassortd\b", "assorted"),
    (r"\btriple\s+a(?:'?s)?\b", "AAA"),
    (r"\bdouble\s+b(?:'?s)?\b", "BB"),
    (r"\bdouble\s+s\s*g(?:'?s)?\b", "SSG"),
    (
        r"^((?:.*\s)?)hollow\s+(?=(?:bolo|avon|waggler|float|pole\s+float)\b)(.*)$",
        r"\1\2 (note: hollow)",
    ),
    (
        rf"^(?P<what>.*\b(?:{_GOES_FOR})\b.*?)[\s,]+(?P<note>for\s+(?:the\s+|an?\s+|my\s+)?(?:(?:straight|in[\s-]?line)\s+)leads?)(?=\s*(?:,|$))",
        r"\g<what> (note: \g<note>)",
    ),
    (r"^(0?\.\d\d)\s+(for\s+the\s+(?:pole|feeder|waggler|stick))$", r"\1 (note: \2)"),
    (
        r"[\s,]+(?:with\s+)?((?:no|without)\s+(?:the\s+|an?\s+)?(?:needle|mould|threader))(?=\s*(?:,|$))",
        r" (note: \1)",
    ),
    (rf"[\s,]+({MANY}\s+coats?\s+(?:of\s+)?[a-z]+)\b", r" (note: \1)"),
    (r"[\s,]+(nearly\s+new)\b", r" (note: \1)"),
    (r"\bown\s+make(?=\s*x\s*\d)", "home made"),
    (
        r"\b(?:(?:clip[\s-]on|spare)\s+)?feeder\s+(?:dead[\s-]+)?weights?\b(?:\s+(?:spare|clip[\s-]on))?(?!\s*(?:strap|\d*\s*holes?))(.*)$",
        r"leads clip on\1 (note: for feeders)",
    ),
    (r"^bottoms?\s+(nylon|mono|fluoro\w*)\b(?!.*\bto\b)", r"\1 hooklength line"),
    (r"\bjigger(s?)(?:\s+floats?)?\b(.*)$", r"pole float\1\2 (note: jigger)"),
    (r"[,\s]+(never\s+(?:been\s+)?used)$", r" (note: \1)"),
    (r"\brefil(s?)\b", r"refill\1"),
    (r"\((\d{1,2})\s?lb\s+(\d{1,2})\)", r"\1 lb \2 oz"),
    (r"^((?:drawer|box|tray|shelf|tin)\s+\w{1,3}):\s*(.+)$", r"\2 (note: \1)"),
    (r"\bsnap\s+links?\s+(?:and|&|with)\s+swivel(s?)\b", r"snap link swivel\1"),
    (r"^(swivels),\s*(\d{1,2}),\s*(barrel|rolling|crane)$", r"\3 \1 \2"),
    (r"\b(shot\b[^,]*?)\s*[,–-]\s*(?:(?:proper|old|real)\s+)?lead\s+ones\b", r"\1 lead"),
    (
        r"\b((?:half|\d/\d|\d+)\s*-?\s*(?:oz|ounce|g)\s+)(bombs?),\s*(swivel)\b(?!['’]|\s+(?:top|type))(.*)$",
        r"\1\2\4 (note: \3)",
    ),
    (r",\s*(bead\s+type)(?=\s*,)", r" (note: \1)"),
    (r"\b(bungs?\b[^,]*),\s*(top\s+kits?)(?=\s*(?:,|$))", r"\1 (note: \2)"),
    (
        r"^((?:olivettes?|ollies|shot|bombs?|leads?)\b.*\d.*?)\s+(for\s+(?:the\s+|my\s+)?(?:bolo|stick|pole|waggler|flat)\s+floats?)$",
        r"\1 (note: \2)",
    ),
    # slips that stand before a figure, where the rest would be taken apart
    (r"\boll?iv+ett?e?(s?)\b", r"olivette\1"),
    (r"\boll?i['’]?s\b", "olivettes"),
    (r"\bpack(?:it|t|ett)(s?)\b", r"packet\1"),
    (r"\bpelet(s?)\b", r"pellet\1"),
    (r"(?<!\w)(?:'?arf|'alf)\b", "half"),
    (r"\b(?:an?\s+)?ounce\s+(?:and|an|&|n)\s+an?\s+half\b", "1 1/2 oz"),
    (r"\bset\s+of\s+(\d)\s+in\s+(?:an?\s+|the\s+)?tube\b", r"set of \1"),
    (
        r"(?<!micro )(?<!micro-)(?<!whisker )(?<!semi )\bbarbed\b(?=.*\b(?:whisker|micro[\s-]?barb))",
        "",
    ),
    (r"\bcarbon\s+(maggot|caster)s?\b(?!\s+hooks)", r"\1 hooks (note: carbon)"),
    (r"\b(for\s+(?:an?\s+|the\s+|my\s+)?\d(?:\.\d)?\s*mm\s+top\s+kits?\b[^,]*)", r"(note: \1)"),
    (
        r"^([^,]*\b(?:swivels|beads|links|stops|bands|clips)\b.*?)\s*[,-]\s*((?:[a-z]+\s+){1,2}rigs?)(?=\s*(?:,|$))",
        r"\1 (note: \2)",
    ),
    (r"\btrace\s+line\b", "hooklength line"),
    (rf"\bthick\s+({'|'.join(COLOURS)})\s+(bristle|tip|top)s?\b", r"thick \2 \1"),
    (r"\bthick\s+top\b", "thick tip"),
    (
        r"\b(hooks?\s+to\s+nylon|htn|hook\s?l[a-z]*|hooklinks?)\s+(\d\d)s?\s*/\s*(\d+(?:\.\d+)?\s*lb)\b",
        r"\1 \2 to \3",
    ),
    (r"(?<![\d.])(\d)\.((?:1/2|1/4|3/4)\s*oz)\b", r"\1 \2"),
    (
        r"\b(?:stop\s+knot\s+gum|feeder\s+elastic\s*/\s*power\s?gum)\b(.*)$",
        r"power gum\1",
    ),
    (r"\bshot,?\s+(\w+)[\s-]way\b(?!\s+dispenser)", r"shot dispenser \1 way"),
    (
        r"\bmag(?:got)?\s+aligner\s+type\s+(?=\d\ds?\s+to\b)",
        "maggot aligner hooklengths ",
    ),
    (
        r"(?<!clip on )(?<!clip-on )\bdead[\s-]*weights\s+for\s+(?:the\s+|my\s+)?"
        r"(?:block\s?ends?|feeders)\b(.*)$",
        r"leads clip on\1 (note: for feeders)",
    ),
    (
        r"^((?:ptfe\s+)?bush(?:es)?)\s+(internal\s+\d[^+&,]*?)\s*(?:\+|&|and)\s*(?:1\s+|one\s+|an?\s+)?(external\s+\d(?!.*\beach\b).*)$",
        r"1 x \1 \2 and 1 x \1 \3",
    ),
    (r"\bsoft\s+lead\s+(\d{1,2})'?s\b", r"shot no \1 lead soft"),
    # shot goes by numbers to 13: "12's lead" is no weight of 12 g
    (r"^((?:\d+\s*x?\s+)?)(1[0-3]|[1-9])'?s\s+lead(?:\s+ones)?$", r"\1shot no \2 lead"),
    (r"^lead\s+(1[0-3]|[1-9])'?s$", r"shot no \1 lead"),
    (r"\bquick[\s-]change\s+(bombs?|leads?)\b(.*)$", r"\1\2 (note: quick change)"),
    (r"\s+(for\s+(?:chucking|casting|long\s+chucks?|distance\s+casting))$", r" (note: \1)"),
    (
        r"\b(connectors?\b[^,\d]*),\s*(?:for\s+)?(?:sizes?|no\.?s?)\s+(\d{1,2}\s*(?:-|to)\s*\d{1,2}\s+elastics?)\b",
        r"\1 (note: for \2)",
    ),
    (
        r"^(?P<before>(?=.*\btaper).*?)(?<![\w.])(?P<one>\d*\.?\d+)\s*(?:lb|mm)?\s*(?:-|–|/|>|\bto)\s*"
        r"(?P<other>\d*\.?\d+)(?![\d.])\s*(?P<unit>lb|mm)?s?(?![a-z])",
        at_its_thin_end,
    ),
    (
        r"(\btraces?\b[^,]*),?\s+(?:with\s+)?(two|three|[23])\s+(?:x\s+)?trebles\s+(?=size\s+\d)",
        r"\1 (note: \2 trebles) treble ",
    ),
    (r"\bgripper\s+feeder(s?)\b(.*)$", r"feeder\1\2 (note: gripper)"),
    (
        r"\bgripper\s+(?=block[\s-]?end|open[\s-]?end|cage|maggot|swim)(.*)$",
        r"\1 (note: gripper)",
    ),
    (r"\bgripper\s+(?:line\s+)?(stops?)\b(.*)$", r"line \1\2 (note: gripper)"),
    (r"\bsnap\s+links?\b(.*?)\s+on\s+(?:an?\s+)?swivels?\b", r"snap link swivels\1"),
    (r"^(.*?)\bbullet\s+cage(?:\s+feeder)?(s?)\b", r"(note: bullet) \1cage feeder\2"),
    (r"\ball\s+sorts\b", "assorted"),
    (rf"(?<=\d)(\s*(?:oz|g))\s+an\s+(?={MANY}\s+\d)", r"\1 and "),
    (
        r"\bclip[\s-]on\s+(?:dead\s+)?weights?(?P<use>\s+for\s+(?:the\s+)?feeders)\b(?P<rest>.*)$",
        r"leads clip on\g<rest> (note:\g<use>)",
    ),
    (r"\bclip[\s-]on\s+(?:dead\s+)?weight(s?)\b(.*)$", r"clip on lead\1\2"),
    (r"\btied\s+(?=\d\ds\b)(?!.*\b(?:to|on)\s+\d?\.?\d)", "tied hooklengths "),
    (r"\b(\d+\s*lb)\s+((?:[248]\s*oz|1/4\s*lb))\s+((?:bulk\s+)?spool)\b", r"\1 \3 (note: \2)"),
    (r"\b(?:hk|h/?l)\s+line\b", "hooklength line"),
    (r"\bb\.\s?s\.\s+(?=\d)", ""),
    (r"\bback\s+shot\b", "back lead"),
    (
        r"\b((?:flat|pole|bolo)(?:\s+float)?s?\b[^,+]*?\d\s*g)\s*\+\s*(?=\d*\.?\d+\s*g\b)",
        r"\1 and ",
    ),
    (
        r"(?<=\d)(\s*(?:ft|cm|in|m))\s+(?=(?:two|three|four|five|six|seven|eight|nine|ten)\s+left\b)",
        r"\1, ",
    ),
    (r"\(((?:box|drawer|tray|tin|shelf)\s+[a-z]\d{1,2})\)", r"(note: \1)"),
    (r",\s*((?:box|drawer|tray|tin|shelf)\s+[a-z]\d{1,2})$", r" (note: \1)"),
    (r"^(\d\s*(?:swans?|aaa|bb|ssg|ab))[,\s]+(?=(?:soft|non[\s-]?toxic|tin|lead)\b)", r"\1 shot "),
    (rf",\s*({MANY})(?=;)", r", \1 of them"),
    (r"\bhook\s+line\b", "hooklength line"),
    (r"\b(tail\s+rubbers?)\s*(?:and|&|\+)\s*clips?\b", r"\1 and lead clips"),
    (r"\b(puller\s+)(bungs?)\s*(?:and|&|\+)\s*(beads?)\b", r"\1\2 and \1\3"),
    (
        r"\b(bungs?\b[^,+&]*?)\s*(?:\+|&|\band\b)\s*(?:an?\s+|1\s+)?(?:bung\s+)?puller$",
        r"\1 and 1 x bung extractor",
    ),
    (
        r"\bmicro\s+((?:pellet|bait)\s+bands?)\b(?=.*\b(?:small|medium|large)\b)(.*)$",
        r"\1\2 (note: micro)",
    ),
    (r"\bhair\s*\+\s*(?=bait\s+(?:spike|band)|band\b|quick|push)", "hair "),
    (
        r"\b(?:stick|pole|waggler|avon)\s+float\s+(rubber|cap|band)(s?)\b(.*)$",
        r"float \1\2\3",
    ),
    (r"\bconn(s?)\b\.?(?=[\s,]|$)", r"connector\1"),
    (r"\b(connectors?)[,\s]+(\d{1,2}\s*[-–]\s*\d{1,2}\s+hollow)\b", r"\1 (note: for \2)"),
    (r"\b((?:box|tray|wallet|tin|case)\b[^,]*)[,\s]+(holds\s+\d+)\b", r"\1 (note: \2)"),
    (r"(?<![\d.#])(?:(?<=\s)|^)(\d{1,2}(?:\.\d)?)\s?#(?=\s|,|$)", r"\1 lb"),
    (r"\bbulk\s+shot\s+(?=.*\b(?:olivettes?|ollies))", "bulk "),
    (
        r"[,\s]*\b(for\s+(?:the\s+|my\s+|an?\s+)?\dx\d\d(?:s|\s+floats?)?)(?=\s*(?:,|$))",
        r" (note: \1)",
    ),
    (
        r"\b(?:quick[\s-]change\s+(feeder\s+links?)|(feeder\s+links?)\s+quick[\s-]change)\b(.*)$",
        r"\1\2\3 (note: quick change)",
    ),
    (
        r"\bbomb\s*/\s*feeder\s+link(s?)(?:\s+stems?)?\b(.*)$",
        r"feeder link\1\2 (note: bomb/feeder stems)",
    ),
    (
        r"^(?P<what>(?:[a-z]+\s+){0,2}(?:bush(?:es)?|swivels|hooks|bands|beads|links))\s+(?P<first>[^;]*\d[^;]*);\s*(?P<other>(?:internal|external|size|no\.?|small|medium|large|\d)[^;]*)$",
        r"\g<what> \g<first>; \g<what> \g<other>",
    ),
    (
        r"\b(?P<tied>(?:tied|made)\b.*?|(?<!\w))\brigs\b(?=[^/]*\b\d\ds?\s+(?:[a-z]+\s+)*to\s+\d)(?=.*\b(?:knotless|hair|band|spike|quick\s?stop)\b)(?!.*(?:\bmain\b|\dx\d\d|float))",
        r"\g<tied>hooklengths",
    ),
    (
        r"^(\d\d\s?[-–]\s?0?\.\d+\b[^,]*?)\s+(on\s+(?:an?\s+)?winders?)\b",
        r"\1 (note: \2)",
    ),
)
