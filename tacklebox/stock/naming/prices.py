"""What a phrase says of money: "£3.25 for 8", "3 for a tenner", "@ 2.99 each", "75p", "£4 the pair".

"At" a price is each, as on a shop's ticket. A bare figure with pence is money where words say so:
"receipt says 6.49", "3.98 total", "2 x 2.79" last of all.
"""

import re
from dataclasses import dataclass, replace

from tacklebox.stock.naming.described import Described
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.turns import SPOKEN, saying
from tacklebox.stock.tables import MEASURED_KINDS

_NOTES = {"quid": 100, "fiver": 500, "tenner": 1000}
_NOTED = re.compile(r"\(note:[^()]*\)", re.IGNORECASE)
_EACH = (
    r"\s*(?:each|ea|apiece|a\s+piece"
    r"|(?:an?|per|the)\s+(?:pack|packet|pkt|pk|spool|tub|box|bag|pop|go|one|throw))\b"
)
_LOT = (
    r"\s*(?:for\s+)?(?:lot|the\s+(?:lot|set|bundle|(?P<of>pair|two|three|four))|(?:for\s+)(?P<both>both)|altogether|(?:all\s+)?in\s+(?:all|total)"
    r"|all\s+in|all\s+told|total|together)\b"
)
_MONEY = rf"""(?:£\s?(?P<pounds>\d{{1,4}}(?:\.\d{{1,2}})?)(?![\d.,]*\d)|(?P<pence>\d{{1,3}})\s?(?:p|pence)\b
    |(?:(?P<many>\d{{1,3}}|a|{SPOKEN})\s)?\b(?P<note>quid|fiver|tenner)\b(?:\s+(?:and\s+)?(?P<odd>{SPOKEN}|\d\d)\b(?!\s*\w*(?:m|yd|lb)\b))?
    |(?:(?P<worded>a|{SPOKEN})\s+(?:pounds?\s+)?|pound\s+)(?P<oddly>{SPOKEN})(?={_EACH})
    |(?P<pounds_odd>{SPOKEN}|\d{{1,2}})\s+pounds?\s+(?P<odd_pence>(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:[\s-](?:five|nine))?)(?=\s*(?:,|$))
    |(?<=@)\s?(?P<bare>(?!0\.[0-4])\d{{1,4}}\.\d\d)(?![\d.])|(?P<plain>\d{{1,4}}\.\d\d)(?={_EACH}|\s+(?:total|the\s+lot|the\s+(?:pair|two|three|four)|altogether|all\s+in|in\s+total)\b)
    |^(?P<first>\d{{1,3}}\.\d\d)(?=\s+for\s+(?!\d{{1,3}}\b(?!\.))))"""
_BEHIND = rf"""(?P<each>{_EACH})?(?P<lot>{_LOT})?(?:\s*for\s+(?P<after>\d{{1,3}})\b(?![.]))?
    (?:\s*=?\s*(?P<summed>\d{{1,4}}\.\d\d)(?![\d.]|\s*[a-z]))?(?:\s*for(?:\s+(?:it|them))?\b|\s+(?:on\s+the\s+)?receipt\b)?\s*,?"""
_BARE = r"(?P<pounds>(?!0\.[0-4])\d{1,3}\.\d\d)"
_SAID = [
    re.compile(pattern, re.IGNORECASE | re.VERBOSE)
    for pattern in (
        rf"""(?:,\s*)?(?:(?<!size\s)(?<!sz\s)\b(?P<before>\d{{1,3}})\s+for\s+|(?:(?<!of\s)(?<!size\s)(?<!sz\s)(?<!\sno\s)(?<!no\.\s)(?<![-–/])\b(?P<at>\d{{1,3}})\s*(?=@))?
        (?:\b(?:for|(?P<ticket>at)|paid|costs?(?:\s+me)?|costing|set\s+me\s+back|only|was|rrp|price|priced|(?P<sum>total(?:\s+of)?))\b|@)\s*)*{_MONEY}{_BEHIND}""",
        # "receipt says 6.49", "cost me 4.25", "three at 1.99", "10 for 4.50"
        rf"""(?:,\s*)?\b(?:(?:(?:the\s+)?(?:receipt|ticket|till)\s+(?:says?|said)|paid|gave|costs?(?:\s+me)?|priced?(?:\s+at)?|(?P<ticket>at)|(?P<sum>total(?:\s+of)?|came\s+to))
        \s+£?|(?<!size\s)(?<!sz\s)(?P<before>\d{{1,3}})\s+for\s+){_BARE}(?![\d.]|\s*(?:mm|cm|m|g|oz|lb|kg|in)\b){_BEHIND}""",
        # "6.49 on the receipt", "2 x 2.79" behind the rest
        rf"""(?:,\s*)?\b{_BARE}\s+(?:(?:on|off|from)\s+)?(?:the\s+)?(?:receipt|till|ticket)\b{_BEHIND}""",
        rf"""(?<=[a-z\d]\s)(?P<at>\d{{1,2}})\s*[x×]\s*(?P<pounds>[1-9]\d{{0,2}}\.\d\d)(?![\d.x×])(?={_EACH}|\s*$|\s+for\b|\s*,|\s+\d+\.\d\d$){_BEHIND}""",
    )
]
_ALSO = re.compile(
    r"[\s,=]*£\s?(?P<pounds>\d{1,4}(?:\.\d\d)?)(?:\s+(?:the\s+lot|all\s+in|total|altogether))?\s*$"
)
_ENDS_IN_PRICE = saying(
    r"(?P<thing>.*[a-z].*?)\s+(?:£\s?|@\s*£?|at\s+£?)?(?P<price>[1-9]\d?\.\d\d)(?P<each>\s+(?:each|ea))?"
)


@dataclass(frozen=True, slots=True)
class Price:
    """What was paid, in pence: for one, or for all that was bought, or nobody says which (None).

    ``of`` is how many that was for, where the price alone says so: "£4 the pair". ``total`` is what all
    came to, where one price is said and that, too: "3 @ 5.99 17.97"; ``held`` is how many it was for, which
    may be what one packet holds: "8 for 3.99, two packs".
    """

    pence: int
    each: bool | None
    of: int = 0
    total: int = 0
    held: int = 0


def without_price(text: str) -> tuple[str, Price | None]:
    """The words without their price, and that.

    >>> without_price("hook 18 spade £2.99 each"), without_price("nylon 0.14 4 lb")
    (('hook 18 spade', Price(pence=299, each=True, of=0, total=0, held=0)), ('nylon 0.14 4 lb', None))
    >>> without_price("3 for a tenner 4x12 floats")
    ('3 x 4x12 floats', Price(pence=1000, each=False, of=0, total=0, held=3))
    >>> without_price("2 packs of hook 18 £3")
    ('2 packs of hook 18', Price(pence=300, each=None, of=0, total=0, held=0))
    >>> without_price("100 m 3 @ 5.99 17.97")
    ('100 m x 3', Price(pence=599, each=True, of=0, total=1797, held=0))
    >>> without_price("wagglers 4BB £5 the pair")
    ('wagglers 4BB', Price(pence=500, each=False, of=2, total=0, held=0))
    """
    noted = [note.span() for note in _NOTED.finditer(text)]  # what it was worth is no price
    found = next((found for one in _SAID if (found := one.search(text))), None)
    if found is None or any(start < found.start() < end for start, end in noted):
        return text, None
    said = found.groupdict()
    pence = _pence(said)
    before = None if said["each"] else said.get("before")  # "size 14 for £2.75 the packet"
    begins = found.start() if before or not said.get("before") else found.end("before")
    number = before or said["after"]
    singly = said.get("at")  # "2 @ £5.99"
    end, summed = found.end(), round(float(said["summed"] or 0) * 100)
    if summed and not singly:
        end = found.start("summed")  # a figure of its own
    start, rest = text[:begins].strip(" ,"), text[end:].strip()
    times = number or singly
    many = f"x {times}" if times and start else f"{times} x" if times else ""
    joint = ", " if found.group().rstrip().endswith(",") and rest[:1].isalpha() else " "
    words = joint.join(part for part in (start, many, rest) if part)
    total = (
        number
        or said["lot"]
        or said.get("sum")
        or re.match(r"\W*for\b", found.group(), re.IGNORECASE)
    )
    each = said["each"] or singly or "@" in found.group() or said.get("ticket")
    of = 2 if said["both"] else count_of(said["of"] or "")
    if each and not summed and (also := _ALSO.search(words)):  # "£3.25 each, bought 2, £6.50"
        words, summed = _ALSO.sub("", words).strip(" ,"), round(float(also["pounds"]) * 100)
    for_each = False if said["lot"] else True if each else False if total else None
    held = int(before) if before else 0
    return words, Price(pence, for_each, of, summed if each else 0, held)


def each_priced(text: str) -> tuple[str, ...]:
    """The things of a list of which each has its own price; else nothing.

    >>> each_priced("wag 3AAA 1.99, wag 4AAA 2.10"), each_priced("hook 18 £2, 10 in it")
    (('wag 3AAA £1.99', 'wag 4AAA £2.10'), ())
    """
    parts = [part.strip() for part in re.split(r",|;|\s[&+]\s|\band\b", text) if part.strip()]
    priced = [_ENDS_IN_PRICE.fullmatch(part) for part in parts]
    if len(parts) < 2 or not all(priced):
        return ()
    return tuple(f"{one['thing']} £{one['price']}{one['each'] or ''}" for one in priced if one)


def _pence(said: dict[str, str | None]) -> int:
    for key in ("pounds", "bare", "plain", "first"):
        if pounds := said.get(key):
            return round(float(pounds) * 100)
    if pence := said.get("pence"):
        return int(pence)
    if pounds := said.get("pounds_odd"):  # "three pounds twenty"
        return 100 * count_of(pounds) + count_of(str(said["odd_pence"]))
    if odd := said.get("oddly"):  # "two fifty each", "pound fifty each"
        return 100 * count_of(said["worded"] or "a") + count_of(odd)
    note = _NOTES[str(said["note"]).lower()]
    return note * count_of(said["many"] or "a") + count_of(said["odd"] or "")


def with_price(made: Described, pence: int, *, each: bool) -> Described:
    """With what one costs: a price for all that is named is parted among the packets, or pieces."""
    return replace(made, price_cents=pence if each else round(pence / how_many_priced(made)))


def how_many_priced(made: Described) -> int:
    """How many packets are named, or pieces where nobody says what a packet of them holds."""
    loose = made.count if made.pack and made.pack.because and not made.packs else None
    return loose or how_many(made)


def how_many(made: Described) -> int:
    """How many packets are named, or pieces of what comes singly."""
    single = made.pack is None and made.kind not in MEASURED_KINDS
    return made.packs or (made.count if single and made.count else 1)
