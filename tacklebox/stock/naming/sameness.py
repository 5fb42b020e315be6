"""Whether two descriptions are of one thing: SI decides, and another unit may hide the same figure."""

import re
from enum import Enum

from tacklebox.stock.naming.described import Described, Figure
from tacklebox.stock.naming.everyday import JOINING

EQUAL = 1e-6  # of the figure
# Figures in two units may mean one packet up to here, if rounding alone can part them (our choice).
MOST_APART = 0.03


class Same(Enum):
    """How sure it is that two things are one."""

    NO = "no"
    PERHAPS = (
        "perhaps"  # by figures in two units, one rounded from the other, or but for what is told
    )
    YES = "yes"


def same(one: Described, other: Described) -> Same:
    """Whether both describe one thing; what is assumed counts like what was said."""
    if one.kind != other.kind or one.figures.keys() != other.figures.keys():
        return Same.NO
    if one.note == other.note:
        found = Same.YES
    elif _without_talk(one.note) == _without_talk(other.note):
        found = Same.PERHAPS
    else:
        return Same.NO
    for key, figure in one.figures.items():
        alike = _alike(figure, other.figures[key])
        if alike is Same.NO:
            return Same.NO
        if alike is Same.PERHAPS:
            found = Same.PERHAPS
    return found


def _without_talk(note: str) -> list[str]:
    """What a note says of the thing, without what is told of it: "for the far shelf" makes it no other."""
    return [part for part in note.split(", ") if part and not JOINING & set(part.lower().split())]


def _alike(one: Figure, other: Figure) -> Same:
    if isinstance(one.value, str) or isinstance(other.value, str):
        return Same.YES if _folded(one) == _folded(other) else Same.NO
    apart = abs(one.value - other.value)
    most = max(one.value, other.value)
    if apart <= EQUAL * most:
        return Same.YES
    if _unit(one) != _unit(other) and apart <= min(
        _rounding(one) + _rounding(other), MOST_APART * most
    ):
        return Same.PERHAPS
    return Same.NO


def _folded(figure: Figure) -> str:
    return str(figure.value).casefold()


def _unit(figure: Figure) -> str:
    return figure.words.split()[-1]


def _rounding(figure: Figure) -> float:
    """Half of the last place that is said, in the figure's own measure; a fraction is exact."""
    numbers = re.findall(r"\d+(?:\.\d+)?(?:/\d+)?", figure.words)
    if not numbers or "/" in figure.words or not isinstance(figure.value, float):
        return 0.0
    decimals = len(numbers[-1].partition(".")[2])
    number = float(numbers[-1])
    return figure.value / number * 0.5 * 10.0**-decimals if len(numbers) == 1 and number else 0.0


def fits(asked: Described, item: Described) -> bool:
    """Whether an item is among what the words may mean: all that was said of it is so, to rounding.

    What was assumed, and what is not said, leaves it open.
    """
    if asked.kind != item.kind:
        return False
    for key, figure in asked.figures.items():
        if figure.because:
            continue
        known = item.figures.get(key)
        if known is None or _alike(figure, known) is Same.NO:
            return False
    return True
