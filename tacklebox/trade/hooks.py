"""Hooks: sizes and their order, shank ends, barbs, and the line each size goes with."""

import re

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.knots import Knot
from tacklebox.trade.pictured import OnBands, ShankEnd, UsualBand
from tacklebox.trade.quantities import Range, write_diameter
from tacklebox.trade.sources import COMMON, PRINTED, Basis, Source

SHANK_ENDS = ("spade", "eyed")
FOR_SPADES = ("spade knot",)  # knots that hold on a spade (common practice)
BARBS = ("barbless", "micro-barbed", "barbed")
HOOK_LINE_SOURCE = Source(Basis.COMMON, "usual pairs, partly from memory")

# Hook size: usual hooklength diameters in mm (common practice, partly from memory).
LINE_FOR_SIZE: dict[int, Range] = {
    24: Range(0.06, 0.08),
    22: Range(0.07, 0.10),
    20: Range(0.08, 0.11),
    18: Range(0.09, 0.13),
    16: Range(0.11, 0.15),
    14: Range(0.13, 0.18),
    12: Range(0.15, 0.20),
    10: Range(0.17, 0.22),
    8: Range(0.20, 0.26),
}

# The thickest that is usual for carp, a size or two up (common practice).
CARP_UP_TO_MM: dict[int, float] = {18: 0.14, 16: 0.17, 14: 0.19}
CARP = "carp"  # what a recipe is for, where thicker line is usual


def read_hook_order(text: str) -> float:
    """A hook size as a number that grows with the hook: size 20 is −20, 1 is −1, 1/0 is 1.

    Sizes run 26…1, then 1/0 and up to 12/0. They are not standardised between makers:
    the number on the packet counts. Raises AskedWronglyError for anything else.

    >>> read_hook_order("18"), read_hook_order("size 20"), read_hook_order("2/0")
    (-18.0, -20.0, 2.0)
    """
    plain = re.sub(r"^(size|no\.?|#)\s*", "", text.strip().lower())
    if re.fullmatch(r"\d{1,2}/0", plain) and 1 <= int(plain[:-2]) <= 12:
        return float(plain[:-2])
    if re.fullmatch(r"\d{1,2}s?", plain) and 1 <= int(plain.rstrip("s")) <= 26:
        return -float(plain.rstrip("s"))
    raise AskedWronglyError(
        f'"{text}" is no hook size.', right="Sizes run from 26 (smallest) to 1, then 1/0 to 12/0."
    )


def write_hook_order(order: float) -> str:
    """The size that an order stands for; ``read_hook_order`` reads it back.

    >>> write_hook_order(-18.0), write_hook_order(2.0)
    ('18', '2/0')
    """
    return f"{-order:.0f}" if order < 0 else f"{order:.0f}/0"


def read_hook_range(text: str) -> Range:
    """A range of hook sizes, in either order: "18", "20 to 16", "at least 16".

    "At least 16" means 16 or bigger. The range is in hook order (bigger hook, bigger
    number). Raises AskedWronglyError.

    >>> read_hook_range("18 to 20")
    Range(low=-20.0, high=-18.0)
    """
    plain = text.strip()
    lower = plain.lower()
    if lower.startswith("at least "):
        return Range(read_hook_order(plain[9:]), float("inf"))
    if lower.startswith("at most "):
        return Range(float("-inf"), read_hook_order(plain[8:]))
    ends = [read_hook_order(end) for end in re.split(r"\s*(?:\bto\b|–|-)\s*", plain)]
    return Range(min(ends), max(ends))


def line_for_hook(size: str, fish: str = "") -> Range | None:
    """Usual hooklength diameters (mm) for a hook size; odd sizes between two even ones.

    For carp the upper end is that of ``CARP_UP_TO_MM``, or of the next even size up. None outside
    sizes 24–8. Source: common practice, partly from memory.

    >>> line_for_hook("20"), line_for_hook("16", "carp")
    (Range(low=0.08, high=0.11), Range(low=0.11, high=0.17))
    """
    order = read_hook_order(size)
    number = int(-order)
    if number in LINE_FOR_SIZE:
        band = LINE_FOR_SIZE[number]
        return Range(band.low, _carp_up_to(number)) if fish == CARP else band
    bigger, smaller = LINE_FOR_SIZE.get(number - 1), LINE_FOR_SIZE.get(number + 1)
    if bigger is None or smaller is None:
        return None
    return Range(smaller.low, _carp_up_to(number - 1) if fish == CARP else bigger.high)


def _carp_up_to(number: int) -> float:
    bigger = LINE_FOR_SIZE.get(number - 2, LINE_FOR_SIZE[number])
    return CARP_UP_TO_MM.get(number, bigger.high)


def judge_hook_and_line(size: str, diameter_mm: float, fish: str = "") -> Judgement:
    """Whether a hooklength's diameter suits the hook: a remark outside the band, no refusal.

    Arguments: hook size as printed, line diameter in mm, "carp" where it is for carp. Source:
    common practice, partly from memory.

    >>> judge_hook_and_line("20", 0.10).outcome.value, judge_hook_and_line("16", 0.17, "carp").says
    ('sound', '0.17 mm on a size 16 hook: 0.11–0.17 mm is usual for carp')
    """
    band = line_for_hook(size, fish)
    facts: tuple[Fact, ...] = (
        Fact("hook size", size, "", PRINTED),
        Fact("hooklength diameter", diameter_mm, "mm", PRINTED),
    )
    about, key = "hook and line", Check.HOOK_AND_LINE
    if band is None:
        says = f"no usual line is known for a hook size {size}; judge it by eye"
        return Judgement(about, Outcome.DOUBTFUL, says, "", facts, key)
    facts += (
        Fact("usual from", band.low, "mm", HOOK_LINE_SOURCE),
        Fact("usual to", band.high, "mm", HOOK_LINE_SOURCE),
    )
    usual = f"{band.low:.2f}–{band.high:.2f} mm is usual" + (" for carp" if fish == CARP else "")
    formula = "diameter within the usual band of the hook size"
    pictured = OnBands("hooklength", diameter_mm, "mm", _bands_near(size, fish))
    if band.contains(diameter_mm):
        says = f"{write_diameter(diameter_mm)} on a size {size} hook: {usual}"
        return Judgement(
            about, Outcome.SOUND, says, formula, facts, key, dull=True, pictured=pictured
        )
    if diameter_mm < band.low:
        says = (
            f"{write_diameter(diameter_mm)} is fine for a size {size} ({usual}): "
            "it may be cut or break on the strike"
        )
    else:
        says = (
            f"{write_diameter(diameter_mm)} is thick for a size {size} ({usual}): "
            "the bait hangs badly and the hook may straighten"
        )
    return Judgement(about, Outcome.DOUBTFUL, says, formula, facts, key, pictured=pictured)


def _bands_near(size: str, fish: str) -> tuple[UsualBand, ...]:
    """What is usual on the hook and on the even sizes next to it, the biggest hook first."""
    number = int(-read_hook_order(size))
    even = [n for n in sorted(LINE_FOR_SIZE) if n != number and abs(n - number) <= 2]
    bands = []
    for one in sorted({*even, number}):
        band = line_for_hook(str(one), fish)
        if band:
            bands.append(UsualBand(f"size {one}", band.low, band.high, own=one == number))
    return tuple(bands)


def judge_hook_knot(knot: Knot, end: str, size: str) -> Judgement | None:
    """Whether a knot can be tied to a hook's shank end: one that goes through an eye needs one.

    ``end`` is "spade" or "eyed". A spade hook is whipped and nothing else; an eyed hook takes any
    knot. None where the end is not known. Source: common practice.

    >>> from tacklebox.trade.knots import knot_named
    >>> judge_hook_knot(knot_named("knotless knot"), "spade", "18").outcome.value
    'fails'
    """
    if end not in SHANK_ENDS:
        return None
    about, key = "hook knot", Check.HOOK_KNOT
    facts = (Fact("shank end", end, "", PRINTED), Fact("knot at the hook", knot.name, "", COMMON))
    pictured = ShankEnd(size, end, knot.name)
    if end == "eyed" or knot.name in FOR_SPADES:
        says = f"a {knot.name} holds on {'an eyed' if end == 'eyed' else 'a spade'} hook"
        return Judgement(about, Outcome.SOUND, says, "", facts, key, dull=True, pictured=pictured)
    return Judgement(
        about,
        Outcome.FAILS,
        f"a {knot.name} needs an eye, and the size {size} hook has a spade end",
        "",
        facts,
        key,
        remedy=f"whip it ({FOR_SPADES[0]}), or take an eyed hook",
        pictured=pictured,
    )
