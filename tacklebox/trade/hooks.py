"""Hooks: sizes and their order, shank ends, barbs, and the line each size goes with."""

import re

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.quantities import Range
from tacklebox.trade.sources import PRINTED, Basis, Source

SHANK_ENDS = ("spade", "eyed")
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


def line_for_hook(size: str) -> Range | None:
    """Usual hooklength diameters (mm) for a hook size; odd sizes between two even ones.

    None outside sizes 24–8. Source: common practice, partly from memory.

    >>> line_for_hook("20")
    Range(low=0.08, high=0.11)
    """
    order = read_hook_order(size)
    number = int(-order)
    if number in LINE_FOR_SIZE:
        return LINE_FOR_SIZE[number]
    bigger, smaller = LINE_FOR_SIZE.get(number - 1), LINE_FOR_SIZE.get(number + 1)
    if bigger is None or smaller is None:
        return None
    return Range(smaller.low, bigger.high)


def judge_hook_and_line(size: str, diameter_mm: float) -> Judgement:
    """Whether a hooklength's diameter suits the hook: a remark outside the band, no refusal.

    Arguments: hook size as printed, line diameter in mm. Source: common practice, partly
    from memory.

    >>> judge_hook_and_line("20", 0.10).outcome.value
    'sound'
    """
    band = line_for_hook(size)
    facts: tuple[Fact, ...] = (
        Fact("hook size", size, "", PRINTED),
        Fact("hooklength diameter", diameter_mm, "mm", PRINTED),
    )
    about = "hook and line"
    if band is None:
        says = f"no usual line is known for a hook size {size}; judge it by eye"
        return Judgement(about, Outcome.LOOK_AGAIN, says, "", facts)
    facts += (
        Fact("usual from", band.low, "mm", HOOK_LINE_SOURCE),
        Fact("usual to", band.high, "mm", HOOK_LINE_SOURCE),
    )
    usual = f"{band.low:.2f}–{band.high:.2f} mm is usual"
    formula = "diameter within the usual band of the hook size"
    if band.contains(diameter_mm):
        says = f"{diameter_mm:.3g} mm on a size {size} hook: {usual}"
        return Judgement(about, Outcome.SOUND, says, formula, facts)
    if diameter_mm < band.low:
        says = (
            f"{diameter_mm:.3g} mm is fine for a size {size} ({usual}): "
            "it may be cut or break on the strike"
        )
    else:
        says = (
            f"{diameter_mm:.3g} mm is thick for a size {size} ({usual}): "
            "the bait hangs badly and the hook may straighten"
        )
    return Judgement(about, Outcome.LOOK_AGAIN, says, formula, facts)
