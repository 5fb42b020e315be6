"""What is there of an opened spool or packet: "half a spool of", "about 40 m left of".

The spool or packet holds what it usually does; what is left of it is what there is.
"""

import re
from dataclasses import replace

from tacklebox.stock.naming.described import Described, Question, length
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.tables import MEASURED_KINDS

_SHARES = {
    **{"three quarters": 0.75, "3/4": 0.75, "¾": 0.75, "two thirds": 2 / 3, "2/3": 2 / 3},
    **{"half": 0.5, "1/2": 0.5, "½": 0.5, "third": 1 / 3, "1/3": 1 / 3},
    **{"quarter": 0.25, "1/4": 0.25, "¼": 0.25},
}
GONE = {
    part: next(p for p, s in _SHARES.items() if s == 1 - share)
    for part, share in _SHARES.items()
    if 1 - share in _SHARES.values()
}
_ABOUT = r"(?:\b(?:about|roughly|approx\.?|around|some|maybe)\s+)?"
_SHARE = re.compile(
    rf"""{_ABOUT}(?:\ba\s+)?(?<![\w.])(?P<part>{"|".join(_SHARES)})\s*-?\s*(?:of\s+)?(?:an?\s+)?
    (?:(?P<gone>gone|used)\b(?!\s*(?:spool|reel|pack))|left\b|(?:used\s+)?(?:spool|reel|packet|pack|pkt|card|bag)(?:\s+(?:left\s+)?of\b|\s+left\b)?)""",
    re.IGNORECASE | re.VERBOSE,
)
_LEFT = re.compile(
    rf"""{_ABOUT}(?<![\w.])(?P<said>\d+(?:\.\d+)?\s*(?:m|mtrs?|metres?|yds?|yards?|ft|feet))\s*
    (?:left|remaining)\b(?:\s+of\b|\s+on(?:\s+(?:it|the\s+spool))?\b)?""",
    re.IGNORECASE | re.VERBOSE,
)


def without_remainder(text: str) -> tuple[str, str]:
    """The words without what is left of it, and that: a length or a share, "" where all is there.

    >>> without_remainder("half a spool of 0.09 1.7lb"), without_remainder("nylon 0.16, 40m left")
    (('0.09 1.7lb', 'half'), ('nylon 0.16,', '40m'))
    >>> without_remainder("1/2 oz bomb")
    ('1/2 oz bomb', '')
    """
    found = _LEFT.search(text) or _SHARE.search(text)
    if found is None:
        return text, ""
    if found.groupdict().get("gone"):
        return _without(text, found), GONE[" ".join(found.group("part").lower().split())]
    said = found.groupdict().get("said") or " ".join(found.group("part").lower().split())
    return _without(text, found), said


def _without(text: str, found: re.Match[str]) -> str:
    return " ".join(f"{text[: found.start()]} {text[found.end() :]}".split())


def with_remainder(made: Described | Question, said: str) -> Described | Question | None:
    """With what is left of it, of each reading; None where that cannot be said of it."""
    if isinstance(made, Question):
        left = (with_remainder(one, said) for one in made.readings)
        readings = tuple(one for one in left if isinstance(one, Described))
        return replace(made, readings=readings) if readings else None
    if made.pack is None or made.count or (made.packs or 1) > 1:
        return None
    if made.kind not in MEASURED_KINDS:
        pieces = round(float(made.pack.value) * _SHARES.get(said, 0))
        return replace(made, count=pieces) if pieces else None
    if said in _SHARES:
        metres = float(made.pack.value) * _SHARES[said] / 1000
        said = f"{metres:.1f}".removesuffix(".0") + " m"
    return replace(made, packs=None, left=length(as_said(said)))
