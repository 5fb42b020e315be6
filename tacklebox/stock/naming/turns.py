"""Turns of speech that other patterns are built from: so many, in what, that it is left or put right.

None of them has a named group.
"""

import re

from tacklebox.stock.naming.numbers import HOW_MANY, ONES, TENS


def saying(pattern: str) -> re.Pattern[str]:
    """What an angler may say, in small or in big letters."""
    return re.compile(pattern, re.IGNORECASE)


_ONES = "|".join(sorted(ONES, key=len, reverse=True))
_SPOKEN = rf"(?:(?:{'|'.join(TENS)})(?:[\s-](?:{_ONES}))?|{_ONES})"
SPOKEN = rf"{_SPOKEN}(?:es|s)?"
_DOZENS = rf"(?:half\s+)?(?:an?\s+)?(?:{'|'.join(HOW_MANY)})"
# So many pieces: no size, no mark, no part of a figure.
MANY = rf"(?<![\w./×-])(?<!size\s)(?<!no\s)(?<!x\s)(?:\d{{1,3}}|{SPOKEN}|{_DOZENS})(?![\w/×-]|\.\d)"
ABOUT = (
    r"(?:\b(?:about|roughly|approx\.?|around|some|maybe|mebbe|perhaps|probably|only|just|nearly|almost"
    r"|so|call\s+it|say)\s+)*"
)
# Any number that says how many there are, and a small one.
NUMBER = rf"(?:\d{{1,4}}|half\s+an?\s+dozen|{_SPOKEN}|{'|'.join(HOW_MANY)}|an?)"
FEW = rf"(?:\d{{1,2}}|{'|'.join(list(ONES)[1:13])})"
LENGTH = r"\d+(?:\.\d+)?\s*(?:m|mtrs?|metres?|yds?|yards?|ft|feet)"
PACKET = r"(?:packet|pack|pkt|pk|card|bag|box|tub|spool|reel)"
PACKETS = r"(?:(?:packet|pack|pkt|pk|card|bag|tub|spool|reel)s?|boxe?s?)"
OF_THEM = r"\s+of\s+(?:them|em|it|these|those)"
LEFT = r"(?:left|remaining)"
GONE = (
    r"(?:(?:gone|used|lost|missing|snapped|out|broken?|cracked|binned|chucked)"
    r"(?:\s+and\s+(?:binned|chucked|thrown)(?:\s+(?:out|away))?)?)"
)
ENDS = r"(?=\s*(?:[,;.]|$))"
# What says that a figure or a word just before was wrong.
PUTS_RIGHT = (
    r"(?:(?:oh\s+|ah\s+)?(?:(?:i'?m\s+)?sorry|oops|whoops|(?:what\s+)?i\s+me(?:an|ant)|meant(?:\s+to\s+(?:say|put))?"
    r"|(?<!i\s)make\s+(?:that|it)(?:\s+an?)?|(?:no\s+)?it\s+(?:is|was)\s+actually|actually|correction"
    r"|(?:scrub|scrap|scratch|strike|forget)\s+that|(?:hang|hold)\s+on|wait|(?:i\s+)?tell\s+a\s+lie|my\s+(?:mistake|error)"
    r"|(?:it\s+)?(?:should|shld|shud)\s+(?:be|read|say|have\s+(?:been|said))|or\s+rather|rather(?!\s+than)"
    r"|(?:beg\s+)?pardon|nope|nah|er+m?(?=[\s,.])|typo|changed\s+my\s+mind))"
)
