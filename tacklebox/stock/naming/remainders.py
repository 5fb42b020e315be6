"""What is there of an opened spool or packet: "half a spool of", "about 40 m left of".

The spool or packet holds what it usually does; what is left of it is what there is.
"""

import re
from dataclasses import dataclass, replace

from tacklebox.stock.naming.described import Described, Question, length
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.tables import MEASURED_KINDS

_SHARES = {
    **{"three quarters": 3 / 4, "3/4": 3 / 4, "¾": 3 / 4, "two thirds": 2 / 3, "2/3": 2 / 3},
    **{"half": 1 / 2, "1/2": 1 / 2, "½": 1 / 2, "third": 1 / 3, "1/3": 1 / 3},
    **{"quarter": 1 / 4, "1/4": 1 / 4, "¼": 1 / 4},
}
_WHOLES = {"a": 1, "one": 1, "two": 2, "three": 3, "1": 1, "2": 2, "3": 3}
_ABOUT = r"(?:\b(?:about|roughly|approx\.?|around|some|maybe)\s+)?"
_PART = rf"(?P<part>{'|'.join(_SHARES)})"
_PACKET = r"(?:spool|reel|packet|pack|pkt|card|bag)"
_OF = r"(?:\s+(?:left\s+)?of\b|\s+left\b)?"
_HOW_MUCH = [
    re.compile(pattern, re.IGNORECASE)
    for pattern in (
        rf"{_ABOUT}(?<![\w.])(?P<said>\d+(?:\.\d+)?\s*(?:m|mtrs?|metres?|yds?|yards?|ft|feet))\s*"
        r"(?:left|remaining)\b(?:\s+of\b|\s+on(?:\s+(?:it|the\s+spool))?\b)?",
        rf"{_ABOUT}\b(?P<whole>{'|'.join(_WHOLES)})(?:\s+and\s+(?:an?\s+)?|\s*(?=[½¼⅓¾])|(?<=\d)\s+(?=\d/)){_PART}\s+{_PACKET}s?\b{_OF}",
        rf"{_ABOUT}(?:\b(?:a|one)\s+)?(?<![\w./]){_PART}\s*-?\s*(?:of\s+)?(?:an?\s+)?(?:used\s+)?{_PACKET}\b{_OF}",
        rf"{_ABOUT}(?<![\w./]){_PART}\s+(?P<gone>gone|used)\b",
        rf"{_ABOUT}(?<![\w./]){_PART}\s+left\b",
    )
]


@dataclass(frozen=True, slots=True)
class Remainder:
    """What is there: a length as said, or a share of a spool or packet."""

    said: str = ""
    share: float = 0.0


def without_remainder(text: str) -> tuple[str, Remainder | None]:
    """The words without what is left of it, and that.

    >>> without_remainder("half a spool of 0.09 1.7lb")
    ('0.09 1.7lb', Remainder(said='', share=0.5))
    >>> without_remainder("nylon 0.16, 40m left"), without_remainder("1/2 oz bomb")
    (('nylon 0.16,', Remainder(said='40m', share=0.0)), ('1/2 oz bomb', None))
    """
    found = next((found for one in _HOW_MUCH if (found := one.search(text))), None)
    if found is None:
        return text, None
    rest = " ".join(f"{text[: found.start()]} {text[found.end() :]}".split())
    groups = {
        key: " ".join((said or "").lower().split()) for key, said in found.groupdict().items()
    }
    if "said" in groups:
        return rest, Remainder(groups["said"])
    share = _SHARES[groups["part"]] + _WHOLES.get(groups.get("whole", ""), 0)
    return rest, Remainder(share=1 - share if groups.get("gone") else share)


def with_remainder(made: Described | Question, left: Remainder) -> Described | Question | None:
    """With what is left of it, of each reading; None where that cannot be said of it."""
    if isinstance(made, Question):
        every = (with_remainder(one, left) for one in made.readings)
        readings = tuple(one for one in every if isinstance(one, Described))
        spools = tuple(one for one in readings if one.kind in MEASURED_KINDS)
        if made.about == "kind" and len(spools) == 1:  # "a quarter spool of 3 lb"
            return spools[0]
        return replace(made, readings=readings) if readings else None
    if made.pack is None or made.count or (made.packs or 1) > 1:
        return None
    if made.kind in MEASURED_KINDS:
        metres = f"{float(made.pack.value) * left.share / 1000:.1f}".removesuffix(".0")
        return replace(made, packs=None, left=length(as_said(left.said or f"{metres} m")))
    pieces = round(float(made.pack.value) * left.share)
    return replace(made, packs=None, count=pieces) if pieces else None
