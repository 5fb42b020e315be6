"""Pole elastic: which grade goes with which rig line, hooklength and hook.

Grades run from 1 (softest) upwards and differ between makers. The table is a published
guide up to grade 10, and from memory above; a grade between two of its rows is judged by
both, outside them by eye.
"""

from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.hooks import read_hook_order, read_hook_range
from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.quantities import KG_PER_LB, Range, write_diameter, write_strain
from tacklebox.trade.sources import ELASTIC_GUIDE, MEMORY, PRINTED, Source

SOFTEST, HARDEST = 1, 30


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


def guide_for(grade: float) -> ElasticRow | None:
    """The guide's row for a grade; between two rows, both of them taken together.

    None above grade 20. Range: 1–30. Raises AskedWronglyError outside. Source: Match Anglers
    Matches, elastic ratings, up to grade 10; above that from memory.

    >>> guide_for(5).rig_line_mm
    Range(low=0.13, high=0.15)
    >>> guide_for(7).rig_line_mm, guide_for(21)
    (Range(low=0.13, high=0.16), None)
    """
    if not SOFTEST <= grade <= HARDEST:
        raise AskedWronglyError(
            f"there is no elastic of grade {grade:g}.",
            right=f"Grades run from {SOFTEST} (softest) to about {HARDEST}.",
        )
    for row in GUIDE:
        if row.grades.contains(grade):
            return row
    softer = [row for row in GUIDE if row.grades.high < grade]
    harder = [row for row in GUIDE if row.grades.low > grade]
    if not (softer and harder):
        return None
    a, b = softer[-1], harder[0]
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
    guide: look again, with the reason; never a refusal, for grades differ between makers. Grade 1–30,
    diameters in mm, strains in kg, hook size as printed. Raises AskedWronglyError for a
    grade or figure that makes no sense. Source: see ``guide_for``.

    >>> judge_elastic(5, rig_line_mm=0.14, hooklength_mm=0.12, hook="18").outcome.value
    'sound'
    >>> judge_elastic(10, rig_line_mm=0.10, hook="22").outcome.value
    'look again'
    """
    row = guide_for(grade)
    facts: tuple[Fact, ...] = (Fact("elastic's grade", grade, "", PRINTED),)
    about, formula = "elastic", "each figure within the guide's band for the grade"
    if row is None:
        says = f"the guide knows no grade {grade:g}; grades differ between makers, judge it by eye"
        return Judgement(about, Outcome.LOOK_AGAIN, says, formula, facts)
    remarks, compared = [], 0
    for what, mm, kg, band_mm, band_kg in (
        ("rig line", rig_line_mm, rig_line_kg, row.rig_line_mm, row.rig_line_kg),
        ("hooklength", hooklength_mm, hooklength_kg, row.hooklength_mm, row.hooklength_kg),
    ):
        for figure in (mm, kg):
            if figure is not None and not 0 < figure < 1000:
                raise AskedWronglyError(
                    f"{figure:g} makes no sense.", where=what, right="It lies above 0."
                )
        by_mm = mm is not None and band_mm is not None
        have, band, unit = (mm, band_mm, "mm") if by_mm else (kg, band_kg, "kg")
        if have is None or band is None:
            continue
        compared += 1
        facts += (Fact(what, have, unit, PRINTED), *_band_facts(what, band, unit, row.source))
        remarks += _remark(what, have, band, by_mm=by_mm)
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
        says += ": nothing on the rig that the guide has a figure for; judge it by eye"
        return Judgement(about, Outcome.LOOK_AGAIN, says, formula, facts)
    if not remarks:
        return Judgement(about, Outcome.SOUND, says + " goes with the rig", formula, facts)
    return Judgement(about, Outcome.LOOK_AGAIN, f"{says}: " + "; ".join(remarks), formula, facts)


def _band_facts(what: str, band: Range, unit: str, source: Source) -> tuple[Fact, ...]:
    return (
        Fact(f"{what} usual from", band.low, unit, source),
        Fact(f"{what} usual to", band.high, unit, source),
    )


def _remark(what: str, have: float, band: Range, *, by_mm: bool) -> list[str]:
    """What to say of a line outside its band: too weak and the elastic breaks it, too
    strong and the elastic bottoms out first."""
    write = write_diameter if by_mm else write_strain
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
