"""Roundabout ways of saying a thing, put plainly before anything is read: "a pound the pair" as "£1 the
pair", "5,10,15g" as a list, "purple I think" as purple.

Each rule says again what was said, in words that the rest of this room reads; none adds a figure, and what
was said twice is said once.
"""

import re
from collections.abc import Callable

from tacklebox.stock.naming.dispensers import SHOT, dispenser_in_full
from tacklebox.stock.naming.said_again import (
    each_its_own,
    every_length,
    every_mark,
    in_pounds,
    in_pounds_and_a_half,
    in_pounds_and_pence,
    paid_instead_of,
    part_of_an_ounce,
    said_in_two_units,
    strain_said_twice,
    with_commas,
    with_spaces,
)
from tacklebox.stock.naming.tokens import VULGAR as SIGNS
from tacklebox.stock.naming.turns import FEW, LENGTH, MANY, PACKET, PACKETS, SPOKEN, saying
from tacklebox.stock.naming.words import COLOURS

_FEW = rf"(?:an?|{FEW}|fifteen|twenty)"
_POUNDS = rf"(?P<pounds>{_FEW})"
_FOR_WHAT = (
    r"(?=(?:the|a|for\s+the|per)\s+(?:pair|lot|two|three|four|packet|pack|pkt|pk|spool|box|bag|tub)\b"
    r"|each\b|apiece\b|ea\b)"
)
_MARK = r"(?:\d*\s*(?:bb|aaa|ab|ssg|swan|no\.?\s*\d+|g)|\d+(?:\.\d+)?$)"


_PART_OF = r"(half|quarter|three[\s-]quarters?)"
_THINK = r"(?:i|we)\s+(?:think|reckon|guess|believe|suppose)"
_PRINTED_ON = r"(?:\s+on\s+the\s+(?:box|packet|pack|pkt|label|tub|bag))?"
_I_PUT = r"i\s+(?:put|said|wrote|entered|typed|had|did|got)\b"
_TIMES = r"\d+\s*[x×]\s*\d+"
_IN_PACKETS = r"(?:hooks?|hook\s?lengths?|trebles?|connect[oe]rs?|beads?|swivels?|links?|stops)"
_OF_A_HOOK = (
    r"(?:long\s+shank|spades?|eyed|barbless|crystal\s+bend|wide\s+gape|forged|whisker\s+barb)"
)
_SIZED = r"(?:large|medium|small|lge|med|sml)"
_COLOURED = "|".join(map(re.escape, COLOURS))
_SIZED_IN = r"(?:\d+\s+\d/\d{1,2}|\d/\d{1,2}|\d*\.?\d+)\s*"
_IN_UNITS = r"(?:gms?|grams?|g|oz|mm|cm|m|in|inch|inches|ft|yds?|yards?|\")(?![a-z])"
_RULES: list[tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]]] = [
    (saying(pattern), instead)
    for pattern, instead in (
        (r"(?<=\d)'s\b", "s"),
        # what parts one thing said from another: "..", " - peacock", "wire stem. 4 of"
        (r"\s*\.{2,}\s*", ", "),
        (r"\s+[-–—]\s+(?=[a-z])", ", "),
        (
            r"(?:(?<=[a-z]{4})|(?<=\b(?:one|two|six|ten))|(?<=\d[a-z])|(?<=\d[a-z]{2}))(?<!approx)(?<!no)\.\s+(?=\w)",
            ", ",
        ),
        (r"(?<=[a-z])\.\s+(?=\d{1,3}\s+(?:altogether|in\s+all|left|of|total)\b)", ", "),
        (
            r"(?<![\d.-])(\d{1,2})\s*-\s*(\d{1,2})\s*-\s*(\d{1,2})(?![\d.-]|\s*(?:g|oz|mm|cm|m|in|lb)\b)",
            r"\1/\2/\3",
        ),
        (r"\b(\d{1,2})\s*no\.?\s*(\d{1,2})\s+to\s+(\d{1,2})\s*no\.?\s*\2\b", every_mark),
        # a list without spaces is no decimal comma: "5,10,15,20g"
        (r"(?<![\d.])\d{1,2}(?:,\d{1,2}){2,}(?![\d,])", with_spaces),
        # the last of "2 x 25g, 1 x 35" has the unit of the first
        (
            rf"({_TIMES})\s*(g|oz)\b([\s,&+]+(?:and\s+)?{_TIMES})(?![\d.]|\s*(?:g|oz|mm|no)\b)",
            r"\1\2\3\2",
        ),
        # when it was says nothing of the thing
        (
            r"\s+(?:tonight|today|yesterday|last\s+ni(?:ght|te)|this\s+(?:morning|evening|afternoon))(?=\s*(?:,|$|\d))",
            "",
        ),
        # what he is not sure of is said all the same
        (
            rf"[\s,]*\b(?:{_THINK}(?:\s+(?:they|it|that)\s+(?:are|is|was))?|i'?d\s+say|if\s+i\s+remember)\b(?=\s*(?:[,.;]|$))",
            "",
        ),
        (rf"\b{_THINK}\s+(?=(?:it|they|there|that)\b)", ""),
        # money in words: "one and a half quid", "a pound the pair", "six pound instead of nine"
        (
            rf"\b{_POUNDS}\s+and\s+a\s+half\s+(?:quid\b\s*|pounds?\s+{_FOR_WHAT})",
            in_pounds_and_a_half,
        ),
        (rf"\b{_POUNDS}\s+(?:quid|pounds?)\s+{_FOR_WHAT}", in_pounds),
        (
            rf"\b{_POUNDS}\s+(?:quid|pounds?)\s+instead\s+of\s+(?:{_FEW}|£?\d+(?:\.\d\d)?)"
            r"(?:\s+(?:quid|pounds?))?\b",
            in_pounds,
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
        (
            rf"\b(?:one|an?|1)\s+(?:full\s+)?{PACKET}\s+of\s+(?P<held>\d{{1,3}})\s+(?:and|plus|&)\s+(?:one|another)"
            r"\s+with\s+(?:only\s+)?(?P<left>\d{1,3})(?:\s+left)?(?:\s+in(?:\s+it)?)?\b",
            r"1 packet of \g<held> and \g<left> loose",
        ),
        (r"\b(\d{1,3})\s+and\s+an?\s+half\s+(?=m\b|met|yd|yard)", r"\1.5 "),
        (rf"(?<![\d.])([1-9])\.5\s+(?={PACKETS}\b)", r"\1 and a half "),
        # "was 8.99 down to 6.99", "rrp £5 now £4"
        (
            r"\s*\b(?:was|were|rrp|from)\s+£?\d{1,3}(?:\.\d\d)?[\s,]+(?:but\s+)?(?:now|(?:reduced|down|cut)(?:\s+to)?"
            r"|i\s+paid|paid|got\s+(?:it|them)\s+for)\s+£?(?=\d{1,3}(?:\.\d\d)?(?![\d.]|\s*[a-z]*\d))",
            " £",
        ),
        (r"\b(\d{1,2})\s+in\s+tube\b", r"pack of \1"),
        # what it is not: "and not the 14s i put down last week"
        (rf"[\s,]+(?:and\s+)?not\s+(?:the\s+)?\d{{1,2}}s?\s+(?:that\s+)?{_I_PUT}[^,;]*", ""),
        (r"(?<=[,–-])\s+(\d{1,2})\s+at\s+(?=£)", r" \1 of them at "),
        (rf"(?<=[a-z])\s+o\s+(?=each\b|{MANY})", " of "),
        (r"(?<=\d)\s+of\s+'?em\b(?=\s*(?:,|$|\b(?:in|on|from|at)\b))", " of them"),
        (
            rf"(?<!\d )(?<!and a )\b{_PART_OF}(?:\s+(?:of\s+)?an)?[\s-]+(?:oz|ounce)\b",
            part_of_an_ounce,
        ),
        (rf",\s*(?P<many>{MANY})\s+i\s+make\s+it$", r", \g<many> of them"),
        (r"\bcounted\s+(?:em|them|it|up)\b[,\s]*(?=\d)", "counted "),
        (r"\b(?P<held>\d{1,3})\s+in\s+(?:a\s+)?(?:pk|pks|pkt)\b", r"\g<held> in packet"),
        (r"\bin\s+(5|6|8|10|12|15|20|25)s\b", r"pack of \1"),
        (
            rf"(\d+s|{PACKET}\s+of\s+\d+|\d+\s+(?:in|per|to)\s+(?:an?\s+)?{PACKET})\s+[-–]\s+(\d{{1,2}})$",
            r"\1, \2",
        ),
        # at the end: "25 g - 3", "10-off", "no 8 refill tub, two", "15 loose"
        (r"(?<=[a-z\d])\s+[-–]\s+(\d{1,2})(?:\s*off)?$", r", \1 of them"),
        (r"\b(\d{1,3})-off\b", r"\1 off"),
        (rf"(?<=[a-z]),\s+(?P<many>{SPOKEN})(?<!s)$", r", \g<many> of them"),
        (
            rf"(?<=[a-z\d])(?<!\band)(?<!\bplus)[,\s]+(?P<many>{MANY})\s+(?=loose\b)",
            r", \g<many> of them ",
        ),
        (r"(?:(?<=tub)|(?<=tubs)|(?<=refills)|(?<=pots)),?\s+(\d{1,2})$", r", \1 of them"),
        (rf"(?<=[,\s])(?P<many>{MANY})\s+lengths$", r"\g<many> packets"),
        (rf"(?<=[,.\s])(?P<many>{MANY})\s+strings?$", r"\g<many> cards"),
        (
            rf"\b(?P<many>{MANY})\s+(?P<long>\d+\s*(?:m|yds?))\s+(?P<spools>spools?)\s+of\s+each\b",
            r"\g<long>, \g<many> \g<spools> of each",
        ),
        (r"\b(\d{1,3})\s+per$", r"pack of \1"),
        (r"\btwin\s+pack\b", "pack of 2"),
        (r"\bsleeves\s+of\s+(?=\d)", "packets of "),
        (r"\bof\s+either\b", "of each"),
        (r"€\s?(\d+(?:\.\d\d)?)", r"(note: €\1)"),
        (rf"\bx\s+(?=(?:\d+|{SPOKEN})\s+in\s+(?:an?\s+)?{PACKET}\b)", ""),
        (
            r"(?P<feeder>\bfeeders?\b.*?)\s(\d{2,3})\s*x\s*(\d{2,3}\s*mm)\b",
            r"\g<feeder> (note: \2 x \3)",
        ),
        (r"(?<![\d./])(\d{1,2})\s+/\s+(\d{1,2})(?=[^/]*\beach\b)", r"\1 and \2"),
        (
            r"(?P<listed>\d+\s*g(?:[\s,/]+\d+\s*g)+),?\s*(?P<many>\d+(?:/\d+)+)\s+respectively\b",
            each_its_own,
        ),
        (r"\((\d{1,3})\)\s*(?=\d\s*(?:pk|pkt|pack)s?\b)", r"pack of \1, "),
        (rf"\bin\s+an?\s+(?:size\s+)?(?P<size>{SPOKEN}|\d{{1,2}})(?<!s)$", r"size \g<size>"),
        (r"\b(\d)\s*x\s*(\d{2})\s+to\s+\1\s*x\s*(\d{2})\b", every_length),
        (rf",\s*(?P<many>{MANY})\s+bought\b", r", \g<many> of them"),
        (r"\bcount\s+was\s+(?=\d)", "counted "),
        (r"\bbrand\s+new\b", "new"),
        (r"(?<=\d\.\d\d)s\b", ""),  # "20 to 0.10s"
        (r",\s*(?:they|these)?\s*come\s+in\s+pairs\b", ", pack of 2"),
        (rf",\s*got\s+(?P<many>{MANY})\s+(?=(?:{_COLOURED})\b)", r", \g<many> of them, "),
        (
            r"\?\s*no[\s,]+(?:these|they|them|those|this|that|it)(?:\s+[a-z]+){0,2}\s+(?:are|is)\s+",
            "? no ",
        ),
        (r"\b(?:non[\s-]?toxic|lead[\s-]free|tin)\?\s*no[\s,]+lead\b", "lead"),
        (r"\s+and\s+(?=they'?re\s+(?:for|from)\b)", ", "),
        (
            rf"(?P<of>\d.*\b{_IN_PACKETS}\b.*|\b{_IN_PACKETS}\b.*\d.*)\((\d{{1,3}})\)$",
            r"\g<of>pack of \2",
        ),
        (r"\b(?:it\s+)?was\s+in\s+the\s+sale\s+at\s+(?=£)", "in the sale at "),
        (
            rf"(?P<paid>£\d+(?:\.\d\d)?)\s+(?P<note>instead\s+of\s+£?\d+(?:\.\d\d)?)(?:\s+so\s+i\s+got\s+(?P<many>{MANY}))?",
            paid_instead_of,
        ),
        (r"\b(?:(?:an?\s+)?quarter|1/4)[\s-]+(?:of\s+an?\s+)?mile\b", "440 yd"),
        (r"\b(?:(?:an?\s+)?half|1/2)[\s-]+(?:an?\s+)?mile\b", "880 yd"),
        (rf"\b(\d)\s*x\s*({SHOT})\s+(\d)\s*x\s*({SHOT})\b", r"\1 x \2 and \3 x \4"),
        (
            rf"\b{MANY}\s+of\s+(?:these|them|those)[\s,]+no,?\s+(?P<right>\d{{1,2}}|{SPOKEN})(?=\s*(?:,|$))",
            r"\g<right> of them",
        ),
        (rf"\b((?:{FEW})\s+{_SIZED})\s+(?=(?:{FEW})\s+{_SIZED}\b)", r"\1 and "),
        (rf",?\s*\b(\d+\s+{PACKETS}\s+of\s+\d+)\s+({_COLOURED})$", r" \2, \1"),
        (
            rf"^(?:i\s+)?(?:made|tied)\s+(?P<many>{MANY})\s+(?P<what>[^,]*?)\s+up\s+(?P<from>from\b[^,]*)",
            r"\g<many> \g<what> (note: made up \g<from>)",
        ),
        (r",?\s*\bno,?\s+(?:it|they)\s+says?\s+", ", no sorry "),
        (r"\b(?:i'?ve\s+)?(?:just\s+)?counted\s+and\s+there(?:'s|\s+are)\s+", "there are "),
        (r"(?<=\bno\s\d)\s+in\s+it\b", ""),
        (r"\s+in\s+one\s+(?=dispenser|tub|box)", ", one "),
        (r"\b(\d+\s*-\s*\d+)\s+grade\b", r"grade \1"),
        (r"(?<!\d )\bx\s*(\d{1,3})\s+(?:bag|box|packet|pack|pkt|pk)$", r"pack of \1"),
        (r"\b(bombs?\b.*\b\d*(?:oz|g)\b)\s*swivel\b(?!\s+top)", r"swivel \1"),
        (r"\bbarb:\s*(\w+)", r"\1 barb"),
        (r"\beye:\s*no\b", "spade"),
        (rf"\b(size\s+\d{{1,2}}),\s+(?P<many>{SPOKEN})(?<!s)$", r"\1, \g<many> of them"),
        (rf"\b(\d{{1,3}}\s+in\s+(?:an?\s+)?{PACKET})\s+(?=\d{{1,2}}\s+{PACKETS}\b)", r"\1, "),
        (r"(?<![£\d.])(\d+\.\d\d)\s+(pkt|pk|pack|packet)$", r"£\1 a \2"),
        (r"\bup\s+to\s+(?=\d)", "to "),
        (r"\bso\s+call\s+it\s+(\d{1,2})\s+good(?:\s+ones?)?$", r"so call it \1"),
        (rf",\s*(?P<many>{MANY})\s+only\b", r", \g<many> of them"),
        (rf"\b(?P<of>{_OF_A_HOOK}\b.*)\s(\d)\s*x\s*(\d{{2,3}})$", r"\g<of> \2 packets of \3"),
        (r"\s*\|\s*", ", "),
        # counted over and over it is no more
        (
            r"[,\s]*\b(?:i\s+)?(?:counted|checked)(?:\s+(?:em|them|it))?\s+(?:twice|(?:and\s+counted\s+)?again)"
            r"(?:\s+(?:and\s+)?(?:still|it'?s)\s+\d+)?(?=\s*(?:,|$))",
            "",
        ),
        (r"\b(\d{1,2})\s+at\s+(\d{2,4}\s*(?:yds?|yards?|m|mtrs?|metres?)\b)", r"\1 x \2"),
        (
            r"\b(\d*\.?\d+)\s*(g|mm|lb)\b([^\d]*?),\s*sorry\s+(\d*\.\d+)(?=\s*(?:,|$))",
            r"\1\2\3, sorry \4\2",
        ),
        (r"\b(\d{1,2})\s+one\s+met(?:re|er)\s+lengths\b", r"\1 x 1 m"),
        (rf"\b({PACKETS}\s+of\s+\d+)[,\s]+(one\s+opened)$", r"\1, part used (note: \2)"),
        (r"\ba\s+(packet|pack|pkt|box|bag)\s+and\s+a\s+half\b", r"1 and a half \1s"),
        (r"\s+(and\s+a\s+part\s+(?:used\s+)?one)$", r" (note: \1)"),
        (rf"\b({SHOT})\s*-\s*(\d{{1,2}})\b", r"\1 to no \2"),
        (r"\bbodies\b", "body"),
        (
            rf"(£\d+(?:\.\d\d)?\s+(?:a|per)\s+{PACKET})[,\s]+(?:got|bought|had)\s+(?P<many>{MANY})$",
            r"\1, \g<many> packets",
        ),
        (
            rf"^(?:i\s+)?tied\s+(?P<many>{MANY})\s+(?:up\s+)?m[ey]self,",
            r"\g<many> hooklengths tied,",
        ),
        (
            rf"^(?:the\s+|my\s+)?(wife|missus|lad|son|grandson|mate|pal)\s+tied\s+me\s+(?P<many>{MANY})\s+(?:more\s+)?",
            r"(note: \1 tied me) \g<many> ",
        ),
        (r"(?<=\d)\s*ish\b", ""),
        (r",\s*(fits?\s+[^,;()]*\d[^,;()]*)$", r" (note: \1)"),
        (r",\s*(swivel\s+type)\b", r" (note: \1)"),
        (
            r"\b(two|three|four|\d)\s+(\d+)\s*g\s+and\s+(?:an?|one)\s+(\d+)(?:\s*g)?\b",
            r"\1 x \2g and 1 x \3g",
        ),
        (r"(?<![\d/.])(?<!\d[\s,])(?<!\d,\s)(\d/\d)(?=\s*(?:and|&)\s*\d(?:/\d)?\s*oz\b)", r"\1 oz"),
        (r"\bleft\s+(by\s+the\s+counter)\b", r"left (note: \1)"),
        (r"\bor\s+(?:possibly|maybe|perhaps)\b", "or"),
        (r"^(?=.*\bhooks?\b)(.*\d.*[a-z]{4}),\s*(10|15|20|25|50|100)$", r"\1, \2 of them"),
        (r"(\d/\d+)\s+(?:pkt|packet|pack)\s+(?:of\s+)?each$", r"\1, one packet of each"),
        (r"\b(\d\s*(?:aaa|bb|ssg|swan))\s*/\s*(?=\d\s*(?:aaa|bb|ssg|swan))", r"\1, "),
        (r"(\d*\.?\d+\s*g)\s*\+\s*(\d*\.?\d+\s*g)\s*\+\s*(?=\d)", r"\1, \2 and "),
        (r"(?<=[a-z])\s+(?P<many>two|three|four)\s+each$", r", \g<many> of each"),
        (r"\bflattened\b", "flat"),
        (rf",\s*got\s+(?P<many>{MANY})\s+left(?:\s+loose)?\b", r", \g<many> of them"),
        (r"[,\s]+(so\s+\d+\s+(?:hooks|in\s+all|altogether))$", r" (note: \1)"),
        (rf"(?<=\d\s)({PACKETS})\s+(so\s+\d+)$", r"\1 (note: \2)"),
        (
            rf"\b((?:about\s+)?(?:half|a\s+third|a\s+quarter)\s+(?:of\s+)?an?\s+spool\s+left[,\s]+so)\s+(?:say|call\s+it)\s+({LENGTH})\b",
            r"\2 left (note: \1)",
        ),
        (
            r",?\s*wait,?\s+(?:just\s+)?(?:looked|checked)\s+and\s+(?:they|it)\s?(?:'re|'s|are|is)\s+",
            ", no sorry ",
        ),
        (r"(\d*\.\d+)\s+of\s+a\s+gram(?:me)?\b", r"\1 g"),
        (
            rf"^(?:an?\s+)?bit\s+of\s+(?P<what>.*?)\s+left\s+on\s+the\s+spool,?\s+(?:about\s+)?(?P<long>{LENGTH})",
            r"\g<what>, \g<long> left",
        ),
        (
            rf"(£\d+(?:\.\d\d)?)\s+for\s+(\d+)[,\s]+(?:got|bought|had)\s+(?P<many>{MANY})\s+({PACKETS})\b",
            r"\g<many> \4 of \2, \1 a packet",
        ),
        (rf"\bx\s*\d+\s*\(((?:{MANY})\s+{PACKETS}\s+of\s+(?:{MANY}))\)", r", \1"),
        (r"(\bof\s+each),\s*(\d+)s$", r"\1, \2 to a packet"),
        (r"(?<=x\d),?\s*plus\s+(one|two|three|\d)\s+(\d+)\s*(g|gram)\b", r" and \1 x \2 g"),
        (rf"\s*[-–,]\s*(?P<many>{MANY})\s+in\s+hand\b,?", r", \g<many> of them,"),
        (r"\b(less\s+\d+\s+[a-z]+)\s*=\s*(\d+)$", r"\1 so \2"),
        (r"\b(\d\s*(?:bb|aaa|ssg|swan))\s*\+\s*(\d+\s*g)\b", r"\2 + \1"),
        (
            r"(?<![\d.])(\d*\.?\d*[1-9]\d*)\s*kg\s*/\s*(\d+)\s*lbs?\s*(\d+)\s*oz\b",
            strain_said_twice,
        ),
        (r"\b(\d/\d)\s+(bombs?)\s+swivel\b", r"\1 oz swivel \2"),
        (
            rf"(£\d+(?:\.\d\d)?\s*(?:each|ea|(?:an?|per)\s+{PACKET})),\s*(\d{{1,2}})$",
            r"\1, \2 off",
        ),
        (r"(?<=of them),\s*(was\s+\d+,?\s+lost\s+.*)$", r" (note: \1)"),
        (r",\s*(for\s+the\s+hair)\b", r" (note: \1)"),
        (r"\btop\s+2\s+kits?\b", "top kits"),
        (r"[,\s]+((?:cos|because|as)\s+i\s+(?:lost|broke|snapped)\b[^,]*)$", r" (note: \1)"),
        (r",\s*(i\s+lost\b[^,]*\bthat'?s\s+why)$", r" (note: \1)"),
        (r"[,\s]+(an?\s+odd\s+[a-z]+\s+(?:missing|gone|broken)\b[^,]*)$", r", (note: \1)"),
        (
            rf"\b(?P<of>(?:swivels|hooks|floats|wagglers|feeders|bombs|beads|stops|winders|bands|links|connectors)\b.*\d)\s+"
            rf"(?P<pounds>{_FEW})\s+pound\s+(?P<pence>ten|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)$",
            in_pounds_and_pence,
        ),
        (r"(?<![\d.])(?:\d*\.?\d+\s*g\s+){2,}\d*\.?\d+\s*g\b", with_commas),
        (r",\s*(\d|two|three|four|five|six)\s+(?:each|apiece)$", r", \1 of each"),
        (
            r"\b(\d+)\s*(g|oz)\s*x\s*(\d)(\s*[,&+]\s*|\s+and\s+)(\d+)\s*x\s*(\d)\b",
            r"\1\2 x \3\4\5\2 x \6",
        ),
        (r",\s*(five|fifteen)s(?=,|$)", r", pack of \1"),
        (r"(\d+/\d+/\d+)\s+three\s+(packets?|pkts?|packs?)$", r"\1, one packet of each"),
        (
            r"(?P<feeder>\bfeeders?\b.*?)\s(\d{2,3})\s*x\s*(\d{2,3})(?=\s+\d+\s*g)",
            r"\g<feeder> (note: \2 x \3)",
        ),
        (r"\b(\d\.\d)\s+bore\b", r"\1 mm bore"),
        (r"(?<!oz )\b(\d)\s+and\s+(1/2|1/4|3/4)\s*(oz|lb|g)\b", r"\1 \2 \3"),
        (r"^(\d{1,2})\s+(hooks\s+to\s+nylon\b.*)\s(10|8|6)s$", r"size \1 \2 \3 in a packet"),
        (r"(?<=\bto\s)(\d)\s*lb\s+(2|4|6|8|12|14)(?=,)", r"\1lb \2oz"),
        (
            r"\b(was\s+\d+\s*(?:m|yds?|yards?)),?\s+so\s+(?:call\s+it|say)\s+(\d+\s*(?:m|yds?|yards?))$",
            r"\1, \2 left",
        ),
        (r"\b(?:about\s+)?half\s+an?\s+spool\s+left\s+of\s+(?:the\s+)?(?=.*\bleft\b)", ""),
        (r"\b(\d)\s+x\s+(\d+/\d+)\s*oz\s+pack$", r"\2 oz, pack of \1"),
        (r"\b(?:an?\s+)?dozen\s+and\s+a\s+half\b", "18"),
        (r"\bthe\s+top\s+two\b", "the top kits"),
        (
            rf"\b({FEW})\s+(?:at|@)\s+(\d*\.?\d+)\s*g(?:ram)?s?,?\s+(?:and\s+)?({FEW})\s+(?:at|@)\s+(\d*\.?\d+)(?:\s*g(?:ram)?s?)?\b",
            r"\1 x \2g and \3 x \4g",
        ),
        (r"\bor\s+might\s+be\b", "or"),
        (r"\b(\d+)\s*g\s+or\s+is\s+it\s+(\d+)\b", r"\1g or \2g"),
        (r"\b(\d{1,2})s\s+to\s+(aaa|bb|ssg|swan)\b", r"no \1 to \2"),
        (
            rf"[,\s]+(?P<note>had\s+(?:{MANY})\s+now\s+(?P<many>{MANY})\b.*)$",
            r", \g<many> of them (note: \g<note>)",
        ),
        (r"\s+(plus\s+an?\s+[a-z]+\s+one)$", r" (note: \1)"),
        (rf"\b(?:pack\s+of\s+)?(\d+)\s+wires?,?\s+({FEW})\s+on\s+each\b", r"\1 cards of \2"),
        (rf"\b({FEW})\s+on\s+a\s+wire\s+x\s*(\d+)\s+wires\b", r"\2 cards of \1"),
        (r"\b(\d)\s+no\.?\s+(\dx\d\d)\b", r"\1 x \2"),
        (r"(?<=lb)\s+(\d{1,2})s\s+(\d)\s+(?:pkts?|packs?)$", r", \2 packets of \1"),
        (rf"(?<=[a-z])\s+({FEW})\s+(\d{{2,4}}\s*(?:m|yds?))\s+spools$", r", \1 spools \2"),
        (r"\b(\d{1,3})-(?:pack|pk)\b", r"pack of \1"),
        (r"\b(line|mono)\s+([123]\d|0[6-9])s\b", r"\1 0.\2"),
        (r"^(.*\d.*[a-z])\s+(10|15|20|25|50)s\s*x\s*(?=\d)", r"\1 pack of \2 x "),
        (
            rf"\b(boxes|packets|packs|pkts|bags|tubs|cards|stacks)\s+of\s+({MANY}),?\s+({MANY})$",
            r"\3 packets of \2",
        ),
        (r"\bstacks?\s+of\b", "packets of"),
        (rf"\b({FEW})\s+on\s+(?:an?\s+)?wire\b", r"pack of \1"),
        (
            r"^(?!.*(?:\bline\b|mm\b|lb\b))(.*?)\bflu?o(?:ro)?\.?\s+(?=(?:yellow|orange|red|green|pink)\b)",
            r"\1",
        ),
        (r"\bh\s?2\s?n\b", "hooks to nylon"),
        (r"(?<![\d.])(\d)kg(\d)(?![\w.,])", r"\1.\2 kg"),
        (rf"\b([2-9])\s+{PACKETS}\s+(5|6|8|10|12|15|20|25|50|100)$", r"\1 packets of \2"),
        (
            rf"\b\d\s+{PACKETS}\s+(?:of\s+)?(hooks\b.*?)\b(\d)\s+of\s+(\d\d)\s+and\s+(\d)\s+of\s+(\d\d)\b",
            r"\1 \2 packets of \3 and \4 packets of \5",
        ),
        (
            rf"^(?P<gone>(?:used|lost|snapped|binned)\s+(?:{MANY}))[\s,]+so\s+(?:now\s+)?(?P<many>{MANY})\s+left\s+of\s+(?:the|my)\s+(?P<what>.*)$",
            r"\g<what>, \g<many> of them (note: \g<gone>)",
        ),
        (
            rf",\s*(?P<note>bit\s+left(?:\s+over)?\b[^,]*),\s*(?:maybe|about|bout|say|roughly)\s+(?P<long>{LENGTH})$",
            r", \g<long> left (note: \g<note>)",
        ),
        (
            r"(\btraces?\b.*?)\b(two|three|[23])\s+(?=(?:size\s+|no\.?\s*)?\d{1,2}\s+trebles?\b)",
            r"\1(note: \2 trebles) ",
        ),
        (
            r"(\btraces?\b.*?)\b(two|three|[23])\s+trebles?\s+(size\s+\d{1,2})\b",
            r"\1\3 treble (note: \2 trebles)",
        ),
        (r"\b((?:hook|h|hk)\s?-?/?\s?l\w*)\s+box:\s*(\d+)\s+of\s+", r"\2 \1 "),
        (r"(?:(?<=x \d)|(?<=x\d))\.\s+(?=£?\d)", ", "),
        (rf"\b({MANY})\s+(?:strings|stems|stalks|wires)\s+of\s+(?=\d)", r"\1 packets of "),
        (r"\b(one|two|three|four|five|[1-9])\s+&\s+an?\s+half\b", r"\1 and a half"),
        (r"\bx\s?(10|12|15|20|25|50|100)s(?=\s+x\s*\d)", r"pack of \1"),
        (r"\bp/(pk|pkt|pack|packet)\b", r"per \1"),
        (
            r"(?<=[a-z\d]),?\s+(no\s+(?:link|clip|swivel|lid|cap|box|label|packet|band|boom|elastic)s?)$",
            r" (note: \1)",
        ),
        (r"\b(\d)\s+lengths?\s+(?:@|at|of)\s+(?=\d+(?:\.\d+)?\s*m)", r"\1 x "),
        (rf"\b((?:one|1)\s+{PACKET})\s+\((\d+\s*(?:m|yds?))\)", r"\1 of \2"),
        (rf"\b(?:(?:one|1|a)\s+)?{PACKET}\s*=\s*(?=\d)", "pack of "),
        (rf"\b({MANY})\s+(?:to\s+(?:a|the|each)|in\s+(?:a|each))\s+tube\b", r"pack of \1"),
        (r"\b\d\s+off,?\s+(?=one\s+each\b)", ""),
        (r"\b(?:to\s+(?=(?:spade|eyed?)\b)|tied\s+to\s+(?=(?:flu?oro\w*|mono|braid)\b))", ""),
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
        (rf"\((in\s+(?:the|my)\s(?![^()]*\d)[^()]*{PACKET})\)", r"(note: \1)"),
        (rf"(?<=[a-z]),\s*(in\s+(?:the|my)\s+(?:[a-z]+\s+){{0,2}}{PACKET})$", r" (note: \1)"),
        (r"\s+[-–]\s+(?=\d+\s*(?:of\s+each|cm|in)\b)", ", "),
        (r"\bto\s+an?\s+(?=\d\d?\b)", "to "),
        (r"(?<![\d./])([12]\d)\s*/\s*(0?\.\d\d)\b", r"\1 to \2"),
        (
            rf"(?<![\w./])(?P<first>{_SIZED_IN}{_IN_UNITS})\s*(?:[\[(/=,]|or)\s*(?P<second>{_SIZED_IN}{_IN_UNITS})(?:\s*[\])])?",
            said_in_two_units,
        ),
        (  # of a float's or a feeder's body
            r"^(?=.*(?:float|feeder|cage|waggler|stick|open\s?end|dibber))(.*?)(?<!note: )(?<![\d.])"
            r"(?<!tip )(?<!bristle )"
            r"(?P<body>(?:body\s+)?\d+(?:\.\d+)?\s*(?:mm)?(?:\s*long)?\s*x\s*\d+(?:\.\d+)?\s*mm(?:\s*(?:dia\w*\.?|wide))?)",
            r"\1 (note: \g<body>)",
        ),
        (r"\b((?:fine|medium|strong|heavy)\s+wire)\s*\(?(\d?\.\d+\s*mm)\)?", r"\1 (note: \2)"),
        (r"\(?\b((?:\d|four|six|eight)[\s-]holes?)\b\)?", r"(note: \1)"),
        # "two a piece" of several
        (r",\s*(?P<many>one|two|three|four|five|\d)\s+a\s*piece\b", r", \g<many> of each"),
        # "each" shortened, where it is no price
        (
            r"(?<![a-z])(?P<before>of|one|two|three|\d|pkts?|packs?|pks?|tubs?)\s*ea\b(?!\w)",
            r"\g<before> each",
        ),
    )
]
_SIGNS = re.compile(f"[{''.join(SIGNS)}]")
_LOADED = saying(r"\bloaded\b")
_ON_THE_LINE = saying(  # what a loaded float takes besides is no figure of its own
    rf"[,\s]*(?P<note>\b(?:and\s+)?(?:takes|needs|plus)\s+(?:another|a\s+further|an\s+extra)?\s*{_MARK}"
    r"(?:\s+(?:down|on|up)\s+the\s+line|\s+on\s+top|\s+as\s+well)?|\+\s*\d*\s*(?:bb|aaa?|ab|ssg|swan)\b)"
)
_GRAMS = saying(r"\d\s*(?:g|gr|gm|grams?|grammes?)\b")


def plainly(text: str) -> str:
    """The words, put plainly.

    >>> plainly("bombs 5,10,15g"), plainly("maggot feeders, a pound the pair"), plainly("red I think")
    ('bombs 5, 10, 15g', 'maggot feeders, £1 the pair', 'red')
    >>> plainly("bands, says 100 on the box but I make it 96")
    'bands, pack of 100, 96 of them'
    """
    text = _SIGNS.sub(lambda found: f" {SIGNS[found.group()]}", text).strip()
    text = dispenser_in_full(text)
    for said, instead in _RULES:
        text = said.sub(instead, text)
    if _LOADED.search(text) and (found := _ON_THE_LINE.search(text)):
        before = text[: found.start()]
        if _GRAMS.search(before):
            note = " ".join(found["note"].split()).removeprefix("and ")
            text = f"{before} (note: {note}) {text[found.end() :].lstrip()}"
    return " ".join(text.split())
