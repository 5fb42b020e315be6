"""The ways of saying how many there are of a thing, and for how much, before and behind its name.

Each group is an amount: ``packs`` packets that hold ``held``, ``times`` or ``count`` pieces, ``some`` that
are left, ``spare`` or loose ones (``more``) besides; ``each`` and ``all`` are what one and all of them cost.
"""

from tacklebox.stock.naming.numbers import HOW_MANY, ONES, TENS
from tacklebox.stock.naming.turns import saying

SPOKEN = "|".join(sorted([*ONES, *TENS], key=len, reverse=True))
_DOZENS = rf"(?:(?:half(?:\s+an?)?|an?|\d|two|three|four)\s+)?(?:{'|'.join(HOW_MANY)})"
NUMBER = rf"(?:\d{{1,3}}|{SPOKEN}|{_DOZENS})"
_NEW = r"(?:(?:big|bulk|full|new|opened|unopened|sealed)\s+)?"
_ONE_PACKET = rf"(?:{_NEW}(?:packet|pack|pkt|pk|card|bag|box|tub|pot|strip))"
_PACKETS = rf"(?:{_NEW}(?:packets|packs|pkts|pks|cards|bags|boxes|tubs|pots|strips|sets))"
ANY_PACKET = rf"(?:{_PACKETS}|{_ONE_PACKET})"
_MONEY = rf"(?:£\s?\d{{1,3}}(?:\.\d\d)?|\d{{1,3}}\.\d\d|\d{{1,2}}p|(?:{NUMBER}|a)\s+quid)"
_EACH = rf"(?:each|ea|apiece|(?:per|an?|the)\s+(?:(?P<by_packet>{_ONE_PACKET})|one|go))"
_ALL = (
    r"(?:(?:for\s+)?(?:the\s+)?(?:lot|set)|for\s+(?:them\s+)?all"
    rf"|all\s+(?:of\s+them|{NUMBER})|altogether|in\s+all|all\s+in|total)"
)
# What a whole lot cost.
OF_ALL = saying(
    rf"[\s,]+(?:for\s+)?(?P<money>£\s?\d{{1,3}}(?:\.\d\d)?|\d{{1,3}}\.\d\d|\d{{1,2}}p)"
    rf"(?:\s+(?:{_ALL}|all|the\s+{_ONE_PACKET}))?$"
)
# What each of a lot cost.
OF_EACH = saying(
    r"[\s,]+(?:at\s+|@\s*)?(?P<money>£\s?\d{1,3}(?:\.\d\d)?|\d{1,3}\.\d\d|\d{1,2}p)\s+(?:each|ea|apiece)$"
)
_JOINED = r"(?:\+|&|plus|and|with)"
_NO_PRODUCT = r"(?:(?<!\d\s)(?<!\d)|(?<=\d\d\s)|(?<=size\s\d\s)|(?<=sz\s\d\s))"  # "2 x 16"
_NO_FIGURE = r"(?<!size\s)(?<!sz\s)(?<!no\s)(?<!no\.\s)"

# What is said at the end of a clause; the way that takes most of it is the right one.
AT_THE_END = tuple(
    saying(rf"(?:^|(?<=[\s+]))(?:{pattern})\.?$")
    for pattern in (
        rf"{_NO_FIGURE}(?P<packs>{NUMBER})\s*(?:x\s*)?{_PACKETS}\s+(?:of\s+|x\s*)(?P<held>{NUMBER})s?",
        rf"{_NO_FIGURE}(?P<packs>{NUMBER})\s+{_PACKETS}\s+(?P<held>{NUMBER})s?",
        rf"{_NO_FIGURE}(?P<packs>[1-9])\s*(?:x\s*)?{_ONE_PACKET}\s+(?:of\s+|x\s*)(?P<held>{NUMBER})s?",
        rf"(?P<held>{NUMBER})\s+(?:in|per|to)\s+(?:an?|the|each|every|one|1)?\s*{_ONE_PACKET}(?:\s*x\s*(?P<packs>{NUMBER}))?",
        rf"(?P<held>{NUMBER})\s+(?:in\s+(?:each|it|'?em|them|there)|to\s+each|per)",
        rf"{_NO_FIGURE}(?P<packs>{NUMBER})\s+{_PACKETS}",
        rf"x\s*(?P<packs>{NUMBER})\s*{_PACKETS}(?:\s+of\s+(?P<held>{NUMBER}))?",
        rf"x\s*(?P<packs>[1-4])\s*{_ONE_PACKET}",
        rf"{_NO_FIGURE}(?P<packs>{NUMBER})\s*x\s+{ANY_PACKET}",
        rf"(?<!\d\s){_PACKETS}:?\s*(?:x\s*)?(?P<packs>{NUMBER})",
        rf"{_NO_FIGURE}(?<!half\s)(?P<packs>1|one|an?)\s+{_ONE_PACKET}(?:\s+of\s+(?P<held>{NUMBER}))?",
        rf"{_ONE_PACKET}(?:\s+of\s+|\s*/\s*)(?P<held>{NUMBER})(?:\s*x\s*(?P<packs>\d))?",
        rf"{_NO_FIGURE}(?P<either>{NUMBER})\s*{_NEW}(?:pk|pkt|pack)",
        rf"x\s*(?P<either>{NUMBER})\s*(?:pk|pkt|pack)",
        rf"{_ONE_PACKET}\s+(?P<held>{NUMBER})\s*{_JOINED}\s*(?P<more>{NUMBER})\s+loose(?:\s+ones?)?",
        rf"{_JOINED}\s*(?P<spare>an?|one|{NUMBER})\s+spares?",
        rf"{_JOINED}\s*(?P<more>{NUMBER})\s+loose(?:\s+ones?)?",
        rf"(?:only\s+|just\s+|about\s+)?(?P<some>{NUMBER})\s+(?:left(?:\s+in)?|remaining|loose)",
        r"(?P<count>one)(?<=(?:just|only)\sthe\sone)(?:\s+left)?",
        rf"{_NO_PRODUCT}(?:x\s*|qty\s*:?\s*)(?P<times>{NUMBER})",
        rf"(?P<times>{NUMBER})\s*(?:off|no|pcs?|pieces|(?:of\s+)(?:them|'?em)|of)",
        rf"(?:got|have|bought)\s+(?P<times>{NUMBER})",
        rf"{_NO_FIGURE}(?P<packs>{NUMBER})\s+{ANY_PACKET}\s+(?:mixed|assorted|asst)",
        rf"(?P<times>{NUMBER})\s*(?:approx\.?|or\s+so|ish|roughly)",
        rf"(?:about|approx\.?|approximately|roughly|around)\s+(?P<times>{NUMBER})",
        rf"(?P<count>{_DOZENS}|(?<=-\s)(?:{SPOKEN}))",
        r"(?P<both>both)(?:\s+of\s+them)?",
        # money
        rf"(?<!of\s)(?P<times>{NUMBER})\s*(?:@|at)\s*(?P<each>{_MONEY})(?:\s+{_EACH})?",
        rf"(?<!of\s){_NO_FIGURE}(?P<times>{NUMBER})\s+for\s+(?P<all>{_MONEY})",
        rf"(?P<packs>{NUMBER})\s+{_PACKETS}\s+for\s+(?P<all>{_MONEY})",
        rf"(?:for\s+)?(?P<all>{_MONEY})\s+for\s+(?P<packs>{NUMBER})\s+{_PACKETS}",
        rf"{_ONE_PACKET}\s+(?P<held>{NUMBER})\s*(?:@|at)\s*(?P<each>{_MONEY})",
        rf"(?<!one\s)with\s+(?P<some>{NUMBER})\s+(?:left\s+)?in(?:\s+it)?",
        rf"(?:(?:@|at|paid)\s*)?(?P<each>{_MONEY})\s*{_EACH}",
        rf"(?:@|at)\s*(?P<each>{_MONEY})",
        rf"(?:for\s+)?(?P<all>{_MONEY})\s*(?:for\s+)?(?:all\s+)?(?:the\s+|an?\s+)?(?P<of>pair|couple|both|two|three|four|five|six)(?:\s+of\s+them)?",
        rf"(?:for\s+)?(?P<all>{_MONEY})\s*{_ALL}",
        rf"=\s*(?P<all>{_MONEY})",
        rf"(?P<pair>pair|couple)\s+(?P<all>{_MONEY})",
        rf"(?<!worth\s)(?P<money>£\s?\d{{1,3}}(?:\.\d\d)?|(?:{NUMBER}|a)\s+quid)",
        r"(?P<loose>[1-9]\d?\.\d\d)",
        # what is no amount
        r"(?P<note>(?:about\s+)?half\s+(?:an?\s+)?(?:tub|pot)(?:\s+left)?)",
        rf"(?:(?P<times>{NUMBER})\s+)?(?P<note>(?:(?:in|on)\s+)?(?:the\s+|my\s+)?(?:[a-z]+\s+)?(?:tray|drawer|tin|shelf|wallet)\s+(?:no\.?\s*)?[1-9]\d?)",
        r"(?P<note>(?:[a-z]+\s+)?(?:index|code|ref|page|row|bin|peg|slot)\.?\s+(?:no\.?\s*)?[a-z]{0,3}-?\d{1,4})",
        r"(?P<note>for\s+\d{1,2}\s*mm\s+pellets?)",
        r"(?P<perhaps>(?:in\s+)?box\s+[1-9])",
        rf"(?:(?P<times>{NUMBER})\s+)?(?P<note>(?:(?:since|from|dated|made|bought|tied)\s+)?(?:in\s+)?(?:19[5-9]\d|20[0-2]\d))",
    )
)
AT_THE_START = tuple(
    saying(rf"^(?:{pattern})\s+(?=[a-z\d])")
    for pattern in (
        rf"(?:an?\s+)?(?P<packs>couple|pair)\s+of\s+{_PACKETS}\s+of(?!\s+{NUMBER}\b)",
        rf"(?P<packs>{NUMBER})\s+{_PACKETS}\s+of(?!\s+{NUMBER}\b)",
        rf"(?P<packs>[1-4]|an?|one|two|three|four)\s+{_ONE_PACKET}\s+of(?!\s+{NUMBER}\b)",
        rf"(?P<packs>{NUMBER})\s*(?:x\s*)?{_PACKETS}\s*\((?P<held>{NUMBER})s?\)",
        rf"(?P<packs>{NUMBER})\s*(?:x\s*)?{_PACKETS}(?!\s+of)",
        rf"(?P<times>{NUMBER})\s*(?:x(?!\s*strong)|off)",
        rf"(?:an?\s+)?(?P<pair>pair|couple)\s+of(?!\s+{_PACKETS})",
        rf"(?:about\s+)?(?P<count>{_DOZENS})(?:\s+of)?(?!\s+(?:of\s+)?{_PACKETS})",
        rf"(?:about|roughly|around|approx\.?)\s+(?P<count>{NUMBER})(?=\s+[a-z])",
        rf"(?P<packet>{_ONE_PACKET})(?:\s+of)?(?!\s*(?:of\s+)?\d)",
        rf"{_ONE_PACKET}\s+of\s+(?P<large>\d{{2,3}})",
    )
)
