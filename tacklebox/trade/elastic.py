"""Pole elastic: which goes with which rig line, hooklength and hook.

What counts is its pull when it is stretched, which grades do not tell: they run from 1 (softest)
upwards and differ between makers. Where the angler measured the pull it is set against the
hooklength; else a guide by grade serves, published up to 10 and from memory above.
"""

import math
from dataclasses import dataclass, replace

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.hooks import read_hook_order, read_hook_range
from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.limits import within
from tacklebox.trade.pictured import OnBands, UsualBand
from tacklebox.trade.quantities import KG_PER_LB, STRAIN_LIMIT_KG, Range, write_diameter
from tacklebox.trade.sources import (
    ELASTIC_GUIDE,
    MEASURED,
    MEMORY,
    OUR_CHOICE,
    PRINTED,
    Source,
)
from tacklebox.trade.units_first import show_strain

LENGTHS = (3, 4)  # how far it is stretched when its pull is measured, in its own lengths
SOUND_PULL = 0.5  # of what the hooklength's weakest knot holds (our choice)


@dataclass(frozen=True, slots=True)
class ElasticRow:
    """One row of the guide: grades, and what goes with them; None where it says nothing.

    Diameters in mm, strains in kg, hooks in hook order (see ``read_hook_order``).
    """

    grades: Range
    hooks: Range
    rig_line_mm: Range | None = None
    rig_line_kg: Range | None = None
    hooklength_mm: Range | None = None
    hooklength_kg: Range | None = None
    source: Source = ELASTIC_GUIDE


def _lb(low: float, high: float) -> Range:
    return Range(low * KG_PER_LB, high * KG_PER_LB)


GUIDE: tuple[ElasticRow, ...] = (
    ElasticRow(
        Range(1, 2),
        read_hook_range("24 to 22"),
        rig_line_kg=_lb(0, 1.5),
        hooklength_kg=_lb(0, 10 / 16),
    ),
    ElasticRow(
        Range(3, 4),
        read_hook_range("22 to 20"),
        rig_line_mm=Range(0.10, 0.12),
        rig_line_kg=_lb(1.5, 3),
        hooklength_mm=Range(0.08, 0.10),
        hooklength_kg=_lb(1, 2),
    ),
    ElasticRow(
        Range(5, 6),
        read_hook_range("20 to 16"),
        rig_line_mm=Range(0.13, 0.15),
        rig_line_kg=_lb(2.5, 3.5),
        hooklength_mm=Range(0.12, 0.14),
    ),
    ElasticRow(
        Range(8, 10),
        read_hook_range("18 to 14"),
        rig_line_mm=Range(0.14, 0.16),
        rig_line_kg=_lb(3, 5),
    ),
    # The guide ends at 10; for carp on heavier grades, from memory.
    ElasticRow(
        Range(12, 20),
        read_hook_range("16 to 8"),
        rig_line_mm=Range(0.17, 0.26),
        rig_line_kg=_lb(5, 12),
        hooklength_mm=Range(0.15, 0.24),
        source=MEMORY,
    ),
)


GUIDE_BEGINS, GUIDE_ENDS = GUIDE[0].grades.low, GUIDE[-1].grades.high


def guide_for(grade: float) -> ElasticRow:
    """The guide's row for a grade; between two rows, both of them taken together.

    Range: 1–20. Raises AskedWronglyError beyond the guide's ends. Source: Match Anglers Matches,
    elastic ratings, up to grade 10; above that from memory.

    >>> guide_for(5).rig_line_mm, guide_for(7).rig_line_mm
    (Range(low=0.13, high=0.15), Range(low=0.13, high=0.16))
    """
    if not GUIDE_BEGINS <= grade <= GUIDE_ENDS:
        raise AskedWronglyError(
            f"the guide runs from grade {GUIDE_BEGINS:g} to {GUIDE_ENDS:g}; it says nothing of "
            f"{grade:g}.",
            right="Measure its pull at three to four times its length.",
        )
    for row in GUIDE:
        if row.grades.contains(grade):
            return row
    a = next(row for row in reversed(GUIDE) if row.grades.high < grade)
    b = next(row for row in GUIDE if row.grades.low > grade)
    return ElasticRow(
        Range(a.grades.low, b.grades.high),
        _both(a.hooks, b.hooks),
        _spanning(a.rig_line_mm, b.rig_line_mm),
        _spanning(a.rig_line_kg, b.rig_line_kg),
        _spanning(a.hooklength_mm, b.hooklength_mm),
        _spanning(a.hooklength_kg, b.hooklength_kg),
        b.source,
    )


def _both(a: Range, b: Range) -> Range:
    return Range(min(a.low, b.low), max(a.high, b.high))


def _spanning(a: Range | None, b: Range | None) -> Range | None:
    # Where one row is silent, the other alone says nothing about a grade between them.
    return None if a is None or b is None else _both(a, b)


def judge_elastic(
    grade: float,
    *,
    rig_line_mm: float | None = None,
    rig_line_kg: float | None = None,
    hooklength_mm: float | None = None,
    hooklength_kg: float | None = None,
    hook: str | None = None,
) -> Judgement:
    """Whether a grade of elastic goes with the rig line, hooklength and hook it works on.

    Line is compared by diameter where the guide gives one, else by strain. Outside the
    guide's bands: doubtful, with the reason, for grades differ between makers. A grade beyond
    the guide's ends fails: nothing speaks for it until its pull is measured (our choice). Grade
    above 0, diameters in mm, strains in kg, hook size as printed. Raises AskedWronglyError for a
    grade or figure that makes no sense. Source: see ``guide_for``.

    >>> judge_elastic(5, rig_line_mm=0.14, hooklength_mm=0.12, hook="18").outcome.value
    'sound'
    >>> judge_elastic(10, rig_line_mm=0.10, hook="22").outcome.value
    'doubtful'
    >>> judge_elastic(25, rig_line_mm=0.22, hook="10").outcome.value
    'fails'
    """
    facts: tuple[Fact, ...] = (Fact("elastic's grade", grade, "", PRINTED),)
    about, formula = "elastic", "each figure within the guide's band for the grade"
    if not 0 < grade < math.inf:
        raise AskedWronglyError(
            f"there is no elastic of grade {grade:g}.", right="Grades run from 1 (softest) upwards."
        )
    if not GUIDE_BEGINS <= grade <= GUIDE_ENDS:
        says = (
            f"nothing says whether elastic {grade:g} goes with this rig: the guide runs from "
            f"{GUIDE_BEGINS:g} to {GUIDE_ENDS:g}"
        )
        return replace(_remarked(says, formula, facts), outcome=Outcome.FAILS)
    row = guide_for(grade)
    remarks, compared = [], 0
    bands: list[UsualBand] = []
    for what, mm, kg, band_mm, band_kg in (
        ("rig line", rig_line_mm, rig_line_kg, row.rig_line_mm, row.rig_line_kg),
        ("hooklength", hooklength_mm, hooklength_kg, row.hooklength_mm, row.hooklength_kg),
    ):
        for figure in (mm, kg):
            if figure is not None:
                within(figure, 0, STRAIN_LIMIT_KG, above=True, where=what)
        by_mm = mm is not None and band_mm is not None
        have, band, unit = (mm, band_mm, "mm") if by_mm else (kg, band_kg, "kg")
        if have is None or band is None:
            continue
        compared += 1
        facts += (Fact(what, have, unit, PRINTED), *_band_facts(what, band, unit, row.source))
        remarks += _remark(what, have, band, by_mm=by_mm)
        bands += [UsualBand(what, band.low, band.high, value=have)] if by_mm else []
    if hook is not None:
        compared += 1
        order = read_hook_order(hook)
        smallest, biggest = f"{-row.hooks.low:g}", f"{-row.hooks.high:g}"
        facts += (
            Fact("hook size", hook, "", PRINTED),
            Fact("hooks that go with it", f"{smallest} to {biggest}", "", row.source),
        )
        if not row.hooks.contains(order):
            small = "smaller" if order < row.hooks.low else "bigger"
            remarks.append(f"a size {hook} hook is {small} than the usual {smallest} to {biggest}")
    says = f"elastic {grade:g}" + (" (its band is from memory)" if row.source is MEMORY else "")
    if not compared:
        return _remarked(f"{says}: nothing on the rig that the guide knows", formula, facts)
    pictured = OnBands("", None, "mm", tuple(bands)) if bands else None
    if not remarks:
        says += " goes with the rig by the guide"
        sound = Judgement(about, Outcome.SOUND, says, formula, facts, Check.ELASTIC, dull=True)
        return replace(sound, pictured=pictured)
    return replace(_remarked(f"{says}: " + "; ".join(remarks), formula, facts), pictured=pictured)


def _remarked(says: str, formula: str, facts: tuple[Fact, ...]) -> Judgement:
    """What the guide makes doubtful, with what would settle it."""
    low, high = LENGTHS
    remedy = f"measure its pull at {low} to {high} times its length, for grades differ"
    return Judgement("elastic", Outcome.DOUBTFUL, says, formula, facts, Check.ELASTIC, remedy)


def judge_elastic_pull(pull_kg: float, weakest_kg: float, weakest: str) -> Judgement:
    """Whether an elastic gives before the hooklength goes, by its own measured pull.

    ``pull_kg`` is its pull at three to four times its length, ``weakest_kg`` what the hooklength's
    weakest knot holds and ``weakest`` that knot's name. Sound up to half of it, doubtful up to all
    of it, else it fails. Both above 0, up to 1000 kg; raises AskedWronglyError outside. The
    half is our choice.

    >>> judge_elastic_pull(0.25, 0.60, "its loop").outcome.value
    'sound'
    >>> judge_elastic_pull(0.45, 0.60, "its loop").outcome.value
    'doubtful'
    """
    for what, kg in (("elastic's pull", pull_kg), (weakest, weakest_kg)):
        within(kg, 0, STRAIN_LIMIT_KG, unit="kg", above=True, where=what)
    low, high = LENGTHS
    says = (
        f"the elastic pulls {show_strain(pull_kg)} at {low} to {high} times its length; the "
        f"hooklength's weakest, {weakest}, holds {show_strain(weakest_kg)}"
    )
    outcome, remedy = Outcome.SOUND, ""
    if pull_kg > weakest_kg:
        outcome = Outcome.FAILS
    elif pull_kg > SOUND_PULL * weakest_kg:
        outcome = Outcome.DOUBTFUL
    if outcome is not Outcome.SOUND:
        remedy = "take a softer elastic or a stronger hooklength"
    facts = (
        Fact("elastic's pull", pull_kg, "kg", MEASURED),
        Fact(f"{weakest} holds", weakest_kg, "kg", MEMORY),
        Fact("sound up to", SOUND_PULL, "of that", OUR_CHOICE),
    )
    formula = "pull ÷ the hooklength's weakest"
    return Judgement("elastic", outcome, says, formula, facts, Check.ELASTIC, remedy, dull=True)


def _band_facts(what: str, band: Range, unit: str, source: Source) -> tuple[Fact, ...]:
    return (
        Fact(f"{what} usual from", band.low, unit, source),
        Fact(f"{what} usual to", band.high, unit, source),
    )


def _remark(what: str, have: float, band: Range, *, by_mm: bool) -> list[str]:
    """What to say of a line outside its band: too weak and the elastic breaks it, too
    strong and the elastic bottoms out first."""
    write = write_diameter if by_mm else show_strain
    if band.contains(have):
        return []
    if have < band.low:
        return [
            f"the {what} of {write(have)} is light for it (from {write(band.low)}): "
            "the line may go before the elastic gives"
        ]
    return [
        f"the {what} of {write(have)} is heavy for it (up to {write(band.high)}): "
        "the elastic may bottom out"
    ]
