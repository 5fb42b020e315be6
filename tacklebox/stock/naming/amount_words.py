"""How anglers say so many, in what, and that it is left: the pieces from which other patterns are built.

None has a named group; all are for patterns that take no account of small and big letters.
"""

from tacklebox.stock.naming.numbers import HOW_MANY, ONES, TENS

_ONES = "|".join(sorted(ONES, key=len, reverse=True))
SPOKEN = rf"(?:(?:{'|'.join(TENS)})(?:[\s-](?:{_ONES}))?|{_ONES})(?:es|s)?"
_DOZENS = rf"(?:half\s+)?(?:an?\s+)?(?:{'|'.join(HOW_MANY)})"
# So many pieces: no size, no mark, no part of a figure.
MANY = rf"(?<![\w./×-])(?<!size\s)(?<!no\s)(?<!x\s)(?:\d{{1,3}}|{SPOKEN}|{_DOZENS})(?![\w/×-]|\.\d)"
ABOUT = (
    r"(?:\b(?:about|roughly|approx\.?|around|some|maybe|mebbe|perhaps|probably|only|just|nearly|almost"
    r"|so|call\s+it|say)\s+)*"
)
PACKET = r"(?:packet|pack|pkt|pk|card|bag|box|tub|spool|reel)"
PACKETS = r"(?:(?:packet|pack|pkt|pk|card|bag|tub|spool|reel)s?|boxe?s?)"
OF_THEM = r"\s+of\s+(?:them|em|it|these|those)"
LEFT = r"(?:left|remaining)"
ENDS = r"(?=\s*(?:[,;.]|$))"
