"""What a phrase says of money: "£3.25 for 8", "3 for a tenner", "@ 2.99 each", "75p"."""

import re
from dataclasses import replace

from tacklebox.stock.naming.described import Described
from tacklebox.stock.tables import MEASURED_KINDS

_NOTES = {"quid": 1, "fiver": 5, "tenner": 10}
_SPOKEN = {"a": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10}
_MONEY = r"""(?:£\s?(?P<pounds>\d{1,4}(?:\.\d{1,2})?)(?![\d.,]*\d)|(?P<pence>\d{1,2})p\b
    |(?P<many>\d{1,3}|a|two|three|four|five|six|eight|ten)\s(?P<note>quid|fiver|tenner)\b
    |(?<=@)\s?(?P<bare>(?!0\.[0-4])\d{1,4}\.\d\d)(?![\d.])|(?P<plain>\d{1,4}\.\d\d)(?=\s*(?:each\b|ea\b|(?:a|per)\s+(?:pack|packet|pkt|spool|tub|box)\b))
    |^(?P<first>\d{1,3}\.\d\d)(?=\s+for\s+(?!\d{1,3}\b(?!\.))))"""
_SAID = re.compile(
    rf"""(?:,\s*)?(?:\b(?P<at>\d{{1,3}})\s*(?=@))?(?:\b(?P<before>\d{{1,3}})\s+for\s+|(?:\b(?:for|at|paid|cost|costs|costing|only|was|rrp|(?P<sum>total(?:\s+of)?))\b|@)\s*)*
    {_MONEY}
    (?P<each>\s*(?:each|ea|apiece|(?:a|per)\s(?:pack|packet|pkt|pk|spool|tub|box|pop|go|one))\b)?
    (?P<lot>\s*(?:for\s+)?(?:the\s+lot|altogether|in\s+all))?
    (?:\s*for\s+(?P<after>\d{{1,3}})\b(?![.]))?(?:\s*for\b)?\s*,?""",
    re.IGNORECASE | re.VERBOSE,
)


def without_price(text: str) -> tuple[str, int | None, bool | None]:
    """The words without their price, the price in pence, and whether it is that of one packet: None where
    nobody says so.

    >>> without_price("hook 18 spade £2.99 each"), without_price("3 for a tenner 4x12 floats")
    (('hook 18 spade', 299, True), ('3 x 4x12 floats', 1000, False))
    >>> without_price("2 packs of hook 18 £3"), without_price("nylon 0.14 4 lb")
    (('2 packs of hook 18', 300, None), ('nylon 0.14 4 lb', None, True))
    """
    found = _SAID.search(text)
    if found is None:
        return text, None, True
    number = found.group("before") or found.group("after")
    singly = found.group("at")  # "2 @ £5.99"
    start, rest = text[: found.start()].strip(), text[found.end() :].strip()
    times = number or singly
    many = f"x {times}" if times and start else f"{times} x" if times else ""
    words = " ".join(part for part in (start, many, rest) if part)
    total = bool(number or found.group("lot") or found.group("sum")) or re.match(
        r"\W*for\b", found.group(), re.IGNORECASE
    )
    each = bool(found.group("each") or singly or "@" in found.group())
    return words, _pence(found), True if each else False if total else None


def _pence(found: re.Match[str]) -> int:
    if (
        pounds := found.group("pounds")
        or found.group("bare")
        or found.group("plain")
        or found.group("first")
    ):
        return round(float(pounds) * 100)
    if pence := found.group("pence"):
        return int(pence)
    many = found.group("many").lower()
    times = int(many) if many.isdecimal() else _SPOKEN[many]
    return 100 * times * _NOTES[found.group("note").lower()]


def with_price(made: Described, pence: int, *, each: bool) -> Described:
    """With what a packet costs: a price for all that is named is parted among the packets."""
    return replace(made, price_cents=pence if each else round(pence / how_many(made)))


def how_many(made: Described) -> int:
    """How many packets are named, or pieces of what comes singly."""
    single = made.pack is None and made.kind not in MEASURED_KINDS
    return made.packs or (made.count if single and made.count else 1)
