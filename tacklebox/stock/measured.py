"""The angler's own measurements: kept by item, and weighed against what is printed.

Readings are written once. One that was misread is taken back by a row of its own.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.ledger import undone_actions
from tacklebox.stock.tables import (
    FIGURES,
    Figures,
    Float,
    Item,
    Kind,
    Line,
    Measurement,
    Weight,
)
from tacklebox.trade.floats import read_capacity
from tacklebox.trade.knots import BY_NAME, KNOT_SPREAD, PLAIN_SPREAD, Knot, keeps
from tacklebox.trade.pulls import (
    Estimate,
    Pull,
    capacity_from_bucket,
    knot_from_pulls,
    knotted_from_pulls,
    own_mass_from_weighings,
    shot_from_weighings,
    strain_from_pulls,
    stretch_from_readings,
)
from tacklebox.trade.shot import read_mark
from tacklebox.trade.sources import MEASURED, PRINTED

if TYPE_CHECKING:
    from tacklebox.trade.settling.sizes import FallingBait, Timing


PULL, WEIGHING, BUCKET, STRETCH = "pull", "weighing", "bucket", "stretch"

SINKING, HOOKS, FLOATS = "sinking", "hooks", "floats"

TAKEN_BACK = "taken back"

_MEASURED_OF = {
    PULL: Kind.LINE,
    WEIGHING: Kind.WEIGHT,
    BUCKET: Kind.FLOAT,
    STRETCH: Kind.ELASTIC,
}
_WEIGHED = (Kind.WEIGHT, Kind.HOOK, Kind.FLOAT)
_WHAT_IT_IS = {
    PULL: "a pull test is of line on a spool",
    WEIGHING: "shot, olivettes, hooks and floats are what is weighed",
    BUCKET: "floats are what is tried in a bucket",
    STRETCH: "elastic is what is stretched",
}


@dataclass(frozen=True)
class Measured:
    """Every reading that stands, by item, and what the angler's own knots keep.

    ``knots`` holds, by knot and line material, the share that his knot keeps.
    """

    pulls: Mapping[int, tuple[Pull, ...]] = field(default_factory=dict)
    weighings: Mapping[int, tuple[tuple[int, float], ...]] = field(default_factory=dict)
    buckets: Mapping[int, tuple[float, ...]] = field(default_factory=dict)
    knots: Mapping[tuple[str, str], Estimate] = field(default_factory=dict)
    stretches: Mapping[int, tuple[float, ...]] = field(default_factory=dict)
    sinkings: "Mapping[str, tuple[Timing, ...]]" = field(default_factory=dict)

    def strain(self, item_id: int, line: Line) -> Estimate | None:
        """What plain line holds, in kg; None where nothing is printed and nothing was pulled.

        Without a pull it is what is printed, with the spread that prints have.
        """
        pulls = _telling(self.pulls.get(item_id, ()))
        if not pulls and line.breaks_at_kg is None:
            return None
        return _strain(line.breaks_at_kg, tuple(pulls), line.material)

    def pulled(self, item_id: int, line: Line, knot: Knot) -> Estimate | None:
        """What the angler's own knot holds in this line, in kg, with the uncertainty of that,
        from pulls of it on this very line; None where there are none."""
        pulls = self.pulls.get(item_id, ())
        own = [p.breaks_at_kg for p in pulls if p.knot == knot]
        others = _telling([p for p in pulls if p.knot != knot])
        if not own or not (others or line.breaks_at_kg is not None):
            return None
        alone = strain_from_pulls(line.breaks_at_kg, others, line.material)
        return knotted_from_pulls(knot, line.material, own, alone)

    def kept(self, line: Line, knot: Knot) -> Estimate | None:
        """The share of a line of that material that the angler's own knot keeps, from his pulls
        on any of them; None where there are none."""
        return self.knots.get((knot.name, line.material))

    def knotted(self, item_id: int, line: Line, knot: Knot) -> Estimate | None:
        """What the angler's own knot holds in this line, in kg, with the uncertainty of that;
        None where he pulled no such knot.

        From pulls on this very line if there are any, else from what the knot kept on others.
        """
        own = self.pulled(item_id, line, knot)
        if own is not None:
            return own
        share, plain = self.kept(line, knot), self.strain(item_id, line)
        if share is None or plain is None:
            return None
        mean = plain.mean * share.mean
        spread = mean * ((plain.spread / plain.mean) ** 2 + (share.spread / share.mean) ** 2) ** 0.5
        return Estimate(mean, spread, share.readings, MEASURED)

    def shot(self, item_id: int, weight: Weight) -> Estimate | None:
        """Mass of one weight, in g; None where it is unmarked."""
        if weight.mass_g is None:
            return None
        source = PRINTED if weight.form == "olivette" else read_mark(weight.mark).source
        readings = self.weighings.get(item_id, ())
        return shot_from_weighings(weight.mass_g, readings, source=source)

    def own_mass(self, item_id: int) -> Estimate | None:
        """Mass of one hook or float, in g; None where nobody weighed it."""
        readings = self.weighings.get(item_id, ())
        return own_mass_from_weighings(readings) if readings else None

    def bait(self, name: str) -> "FallingBait | None":
        """A bait as he timed it himself; None where he did not."""
        from tacklebox.trade.settling.sizes import bait_from_timings, plain_bait

        timings = self.sinkings.get(plain_bait(name), ())
        return bait_from_timings(name, timings) if timings else None

    def stretch(self, item_id: int) -> Estimate | None:
        """What an elastic pulls at three to four times its length, in kg; None where nobody
        measured it."""
        readings = self.stretches.get(item_id, ())
        return stretch_from_readings(readings) if readings else None

    def capacity(self, item_id: int, figures: Float) -> Estimate | None:
        """What a float carries, in g of shot; None where it is unmarked and nobody tried it in a bucket."""
        buckets = self.buckets.get(item_id, ())
        if figures.capacity_g is None:
            return capacity_from_bucket(None, buckets) if buckets else None
        source = read_capacity(figures.mark).source
        return capacity_from_bucket(figures.capacity_g, buckets, source=source)


@lru_cache(maxsize=1024)  # a plan asks for the same line again and again
def _strain(printed_kg: float | None, pulls: tuple[Pull, ...], material: str) -> Estimate:
    return strain_from_pulls(printed_kg, pulls, material)


def _telling(pulls: Sequence[Pull]) -> Sequence[Pull]:
    """The pulls that tell of a line's strain: plain ones; only without those, knotted ones,
    for a low knotted pull may as well be the knot's doing."""
    return [pull for pull in pulls if pull.knot is None] or pulls


def read_measured(session: Session) -> Measured:
    """Every reading of the box that was not taken back."""
    pulls: dict[int, list[Pull]] = {}
    weighings: dict[int, list[tuple[int, float]]] = {}
    buckets: dict[int, list[float]] = {}
    stretches: dict[int, list[float]] = {}
    sinkings: dict[str, list[Timing]] = {}
    for one in standing(session):
        if one.what == SINKING:
            sinkings.setdefault(one.bait, []).append(_timing(one))
        elif one.item_id is None:
            continue
        elif one.breaks_at_kg is not None:
            knot = BY_NAME.get(one.knot)
            pulls.setdefault(one.item_id, []).append(Pull(one.breaks_at_kg, knot))
        elif one.what == WEIGHING and one.mass_g is not None:
            weighings.setdefault(one.item_id, []).append((one.count, one.mass_g))
        elif one.what == STRETCH and one.mass_g is not None:
            stretches.setdefault(one.item_id, []).append(one.mass_g / 1000)
        elif one.mass_g is not None:
            buckets.setdefault(one.item_id, []).append(one.mass_g)
    return Measured(
        {item: tuple(those) for item, those in pulls.items()},
        {item: tuple(those) for item, those in weighings.items()},
        {item: tuple(those) for item, those in buckets.items()},
        _own_knots(session, pulls),
        {item: tuple(those) for item, those in stretches.items()},
        {bait: tuple(those) for bait, those in sinkings.items()},
    )


def _timing(row: Measurement) -> "Timing":
    from tacklebox.trade.settling.sizes import Timing

    assert row.distance_mm is not None
    assert row.seconds is not None
    assert row.water_c is not None
    return Timing(row.distance_mm / 1000, row.seconds, row.water_c)


def standing(session: Session, item: Item | None = None, *, bait: str = "") -> list[Measurement]:
    """The readings that were neither taken back nor undone, oldest first; of one item, of a bait or of
    all."""
    query = select(Measurement).order_by(col(Measurement.id))
    if item is not None:
        query = query.where(Measurement.item_id == item.id)
    if bait:
        query = query.where(Measurement.bait == bait)
    undone = undone_actions(session)
    rows = [row for row in session.exec(query) if row.action_id not in undone]
    taken_back = {row.takes_back for row in rows}
    return [row for row in rows if row.what != TAKEN_BACK and row.id not in taken_back]


def figures_of(session: Session, item: Item, what: str) -> Figures:
    """The figures of an item that can be measured so; AskedWronglyError for any other."""
    if item.kind != _MEASURED_OF[what] and not (what == WEIGHING and item.kind in _WEIGHED):
        raise AskedWronglyError(
            f"{item.name} is a {item.kind}; {_WHAT_IT_IS[what]}.",
            right=f"Name a {_MEASURED_OF[what]}.",
            see=f"stock.of_kind {_MEASURED_OF[what]}",
        )
    figures = session.get(FIGURES[item.kind], item.id)
    assert figures is not None
    return figures


def _own_knots(
    session: Session, pulls: Mapping[int, list[Pull]]
) -> dict[tuple[str, str], Estimate]:
    """What the angler's knots keep, each line's pulls a measurement after the last.

    A knot pulled on several lines starts, for each, from what the lines before it told.
    """
    found: dict[tuple[str, str], Estimate] = {}
    for item_id, readings in pulls.items():
        line = session.get(Line, item_id)
        plain = [p for p in readings if p.knot is None]
        if line is None or not (plain or line.breaks_at_kg is not None):
            continue
        strain = strain_from_pulls(line.breaks_at_kg, plain, line.material)
        for knot in dict.fromkeys(p.knot for p in readings if p.knot is not None):
            key = (knot.name, line.material)
            own = [p.breaks_at_kg for p in readings if p.knot == knot]
            pulled = knot_from_pulls(knot, line.material, own, strain)
            found[key] = (
                _joined(knot, line.material, found[key], pulled) if key in found else pulled
            )
    return found


def _joined(knot: Knot, material: str, a: Estimate, b: Estimate) -> Estimate:
    """Two posteriors that share one prior, as one: the prior is counted once.

    1/σ² = 1/σa² + 1/σb² − 1/σ₀², and the same for the weighted means.
    """
    prior = knot_from_pulls(knot, material, [], Estimate(1.0, 0.1, 0, PRINTED))
    weights = [(a, 1), (b, 1), (prior, -1)]
    precision = sum(sign * e.spread**-2 for e, sign in weights)
    mean = sum(sign * e.mean * e.spread**-2 for e, sign in weights) / precision
    return Estimate(mean, precision**-0.5, a.readings + b.readings, MEASURED)


@dataclass(frozen=True)
class Known:
    """A figure of an item as now used: what it is, its unit, and the estimate."""

    what: str
    unit: str
    estimate: Estimate


def known_of(session: Session, item: Item) -> list[Known]:
    """What the tool now takes an item's figures for, readings and print together."""
    measured = read_measured(session)
    figures = session.get(FIGURES[item.kind], item.id)
    number = item.id or 0
    if isinstance(figures, Weight):
        one_g = measured.shot(number, figures)
        return [Known("one weighs", "g", one_g)] if one_g else []
    weighed = measured.own_mass(number)
    if isinstance(figures, Float):
        carries = measured.capacity(number, figures)
        both = (("carries", carries), ("one weighs", weighed))
        return [Known(what, "g", estimate) for what, estimate in both if estimate]
    if weighed is not None:
        in_mg = replace(weighed, mean=1000 * weighed.mean, spread=1000 * weighed.spread)
        return [Known("one weighs", "mg", in_mg)]
    stretch = measured.stretch(number)
    if stretch is not None:
        return [Known("at three to four lengths it pulls", "kg", stretch)]
    if not isinstance(figures, Line):
        return []
    known = []
    plain = measured.strain(number, figures)
    if plain is not None:
        known.append(Known("plain line holds", "kg", _as_joint(plain, PLAIN_SPREAD)))
    pulled = measured.pulls.get(number, ())
    for knot in dict.fromkeys(p.knot for p in pulled if p.knot is not None):
        holds = measured.knotted(number, figures, knot)
        if holds is not None:
            known.append(Known(f"with a {knot.name}", "kg", _as_joint(holds, KNOT_SPREAD)))
    return known


def _as_joint(estimate: Estimate, share: float) -> Estimate:
    """The next one to be tied varies too, beside what is not known of the mean."""
    spread = (estimate.spread**2 + (share * estimate.mean) ** 2) ** 0.5
    return replace(estimate, spread=spread)


def holds_after(session: Session, item: Item, knot: Knot) -> Estimate:
    """What a line holds after that knot, in kg, by print and own pulls.

    Raises AskedWronglyError for an item that is no line, or whose strain nobody knows.
    """
    line = figures_of(session, item, PULL)
    assert isinstance(line, Line)
    measured = read_measured(session)
    own = measured.knotted(item.id or 0, line, knot)
    if own is not None:
        return own
    plain = measured.strain(item.id or 0, line)
    if plain is None:
        raise AskedWronglyError(
            f"nobody knows the strain of {item.name}.",
            field="line",
            see="measure.pull",
        )
    kept = keeps(knot, line.material)
    return replace(plain, mean=plain.mean * kept, spread=plain.spread * kept)
