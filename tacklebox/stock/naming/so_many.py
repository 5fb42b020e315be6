"""How many there are, said in a clause of its own: ", got four", "call it 35", "5 of the 30 gram ones"; and
what is said of some of them alone, which is no number of what there is: "couple are a bit bent".

A number that stands alone between commas may be a size; this is left to ``counting``.
"""

import re

from tacklebox.stock.naming.turns import MANY, PACKETS, saying

_AT = r"(?:^|[,;:]\s*|\s-\s*|(?<=[a-z])\s+(?=(?:got|did|found|have|had|call|there'?s|i'?ve)\b))"
_GOT = (
    r"(?:(?:and|so|i|i'?ve|we'?ve|ive|we)\s+)*\b(?:got|did|have|had|bought|tied|made|counted|call\s+it|say|that'?s|there'?s|there\s+are)"
    r"(?:\s+(?:about|roughly|around|maybe|up|me|only|just))*\s+"
)
_THOUGHT = r"(?:i\s+)?thought\b[^,;]*?\bbut\s+(?:there'?s|there\s+are|it'?s)\s+(?:only\s+)?"
_IN_ALL = r"(?:\s+(?:of\s+(?:them|em|these|those)|in\s+(?:all|total)|all\s+told|altogether|total))"
_PLACE = r"(?P<place>\s+(?:in|on)\s+(?:the|a|my|this)(?:\s+[a-z]+){1,3})?"
_ENDS = r"(?=\s*(?:[,;]|$|\bbut\b|\band\b|\bat\s+£))"
_N = rf"(?P<many>{MANY})(?!\s+and\s+a\s+half\b)"
_SO_MANY = [
    saying(pattern)
    for pattern in (
        rf"{_AT}(?:{_GOT}|{_THOUGHT}){_N}{_IN_ALL}?{_PLACE}{_ENDS}",
        # "8 made up", "two the same"
        rf"{_AT}(?:about\s+)?{_N}\s+(?:(?:ready\s+)?(?:made|tied|whipped)(?:\s+up\b|(?=\s+(?:last|on|[a-z]+day)\b))|(?:of\s+)?the\s+same\b)",
        # "5 of the 30 gram ones", "2 off the shelf", "three on winders", "ten in the tray"
        rf"[,;]\s*{_N}\s+(?:of\s+(?:the|these|those|my)\s+(?=\d[^,]*\s(?:ones?|uns)\b)|(?=(?:off|from)\s+(?:the|a)\s+[a-z])"
        r"|(?=(?:on\s+winders|on\s+(?:the|an?|my|this)\s+(?!(?:\d|reel|spool|top))[a-z]+(?:\s+[a-z]+)?"
        rf"|in\s+(?:the|a|my)\s+(?:tube|tray|drawer|wallet|case)){_ENDS}))",
        rf"[,;]\s*{_N}{_IN_ALL}{_PLACE}{_ENDS}",
        rf"{_AT}found\s+{_N}(?P<place>\s+(?:in|on|at|under|behind)\s+(?!(?:a|the|each)?\s*{PACKETS}\b)[^,;\d]+)",
        rf"\s(?:about|roughly|around|approx\.?|say)\s+{_N}(?=\s+loose\b)",
    )
]
_HAD_PACKETS = saying(  # "pk of 2, had 2 pks"
    rf"(?<=[,;])\s*(?:{_GOT})(?={MANY}\s*{PACKETS}\b)"
)
_FROM_WHERE = saying(
    r"(?<=of them )(?:on\s+winders|(?:off|from|on|in)\s+(?:the|a)(?:\s+[a-z]+)+)\s*(?=[,;]|$|\d|£)"
)
_HURT = (
    r"\b(?:bent|chipped|cracked|broke|broken|blunt|rusty|rusted|split|gone|damaged|tatty|worn|faded|scratched|dodgy"
    r"|chewed|nibbled|knackered|crushed|wonky|frayed|perished|tangled|repaired|mended|repainted|squashed|loose|missing\s+(?:the|its|a)"
    r"|(?:a\s+few|one|two|some)\s+short|(?:nearly|almost|half|about)\s+(?:empty|gone|done|full|used|out))\b"
)
_SOME_ARE = saying(
    rf"[,;(]?\s*\b(?:(?:but|and|though|although)\s+)?(?P<aside>(?:(?:a\s+)?couple|(?:a\s+)?few|some|one|two|three|four|[1-5])(?:\s+of\s+(?:them|em|which))?"
    rf"(?:'s\s+|(?<=\s[oe][fm])\s+|(?<=them)\s+|s?\s+(?:with|is|are|has|have|had|got|a\s+bit|bit|slightly)\b)[^,;()]*?{_HURT}[^,;()]*)\)?"
)
_SOME_HURT = saying(
    rf"(?<=left)\s+(?P<aside>(?:one|two|some|1|2)\s+{_HURT}[^,;()]*)$"
)  # "4 left one cracked"
_ENOUGH = saying(  # "enough for a couple of top kits" is no number of what there is
    r"[,;]?\s*\b(?P<aside>(?:enough|plenty)\s+for\s+(?:about\s+)?(?:a\s+(?:few|couple)|\d+|[a-z]+)\b[^,;()]*)"
)
_FULL = saying(  # "a full packet", "nearly a new spool", "1 and a bit spools"
    r"\b(?:(?P<nearly>nearly|almost|virtually|not\s+quite)\s+(?P<a>an?\s+)?(?P<full>full|new|whole)|full|(?<=\d\s)(?P<bit>and\s+a\s+bit))"
    rf"\s+(?={PACKETS}\b)"
)


_FOR_ELASTIC = saying(  # what a connector or bung fits is no size of its own
    r"(?:\(?\b(?:for|to\s+suit|to\s+fit|fits|suits)\s+|\()(?:size\s+|no\.?\s*)?\d{1,2}(?:\s*(?:-|to)\s*\d{1,2})?\s+(?:hollow\s+|solid\s+)?(?:elastic|lastic|lacky)\b\)?"
)
_FITTED = saying(r"\b(?:connect[oe]rs?|bungs?|bush(?:es)?|beads?)\b")


def with_so_many(text: str) -> str:
    """The words with what is a number of pieces said as such, and what is said of some as a note.

    >>> with_so_many("size 16 spades, call it 35"), with_so_many("dibbers 0.1 g, got four but one's bent")
    ('size 16 spades, 35 of them', "dibbers 0.1 g, four of them (note: one's bent)")
    >>> with_so_many("cages, 5 of the 30 gram ones"), with_so_many("15 g, 2 off the bargain bin")
    ('cages, 5 of them 30 gram ones', '15 g, 2 of them (note: off the bargain bin)')
    """
    if _FITTED.search(text):
        text = _FOR_ELASTIC.sub(lambda found: f"(note: {found.group().strip('() ')})", text)
    aside = _SOME_ARE.search(text) or _SOME_HURT.search(text) or _ENOUGH.search(text)
    if aside and re.search(r"\w", text[: aside.start()]):
        text = f"{text[: aside.start()]}{text[aside.end() :]}"
    for one in _SO_MANY:
        if (found := one.search(text)) and re.search(r"\w", text[: found.start("many")]):
            before, after = text[: found.start()].rstrip(" ,"), text[found.end() :].lstrip()
            place = f"(note: {found['place'].strip()}) " if found.groupdict().get("place") else ""
            text = f"{before}, {found['many']} of them {place}{after}"
            break
    text = _FROM_WHERE.sub(lambda found: f"(note: {found.group().strip()}) ", text)
    text = _HAD_PACKETS.sub(" ", text)
    said = f" (note: {aside['aside'].strip()})" if aside else ""
    if full := _FULL.search(text):
        text = f"{text[: full.start()]}{full['a'] or ''}{text[full.end() :]}"
        nearly = full["bit"] or (f"{full['nearly']} {full['full']}" if full["nearly"] else "")
        said += f" (note: {nearly})" if nearly else ""
    return f"{re.sub(r' +,', ',', text).strip(' ,')}{said}"
