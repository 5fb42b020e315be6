"""The angler's own measurements: kept by item, and weighed against what is printed.

Readings are written once. One that was misread is taken back by a row of its own.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import TYPE_CHECKING

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.ledger import begin, undone_actions
from tacklebox.stock.naming.tokens import tokenise
from tacklebox.stock.tables import (
    FIGURES,
    Figures,
    Float,
    Hook,
    Item,
    Kind,
    Line,
    Measurement,
    Weight,
)
from tacklebox.trade.floats import read_capacity
from tacklebox.trade.knots import BY_NAME, KNOT_SPREAD, PLAIN_SPREAD, Knot, keeps, knot_named
from tacklebox.trade.limits import within
from tacklebox.trade.pulls import (
    Estimate,
    Pull,
    capacity_from_bucket,
    hook_from_weighings,
    knot_from_pulls,
    knotted_from_pulls,
    shot_from_weighings,
    strain_from_pulls,
    stretch_from_readings,
)
from tacklebox.trade.quantities import KG_PER_LB, read_strain_kg, write_mass, write_strain
from tacklebox.trade.shot import read_mark
from tacklebox.trade.sources import MEASURED, PRINTED

if TYPE_CHECKING:
    from tacklebox.trade.settling.sizes import FallingBait, Timing

PULL, WEIGHING, BUCKET, STRETCH = "pull", "weighing", "bucket", "stretch"
SINKING, HOOKS = "sinking", "hooks"
TAKEN_BACK = "taken back"
MOST_TOGETHER = 500
# A reading further off than this is a slip rather than a surprise (from memory).
FURTHEST = {PULL: 2.0, WEIGHING: 1.5, BUCKET: 2.0, HOOKS: 2.0, SINKING: 3.0}
_MEASURED_OF = {
    PULL: Kind.LINE,
    WEIGHING: Kind.WEIGHT,
    BUCKET: Kind.FLOAT,
    STRETCH: Kind.ELASTIC,
}
_WHAT_IT_IS = {
    PULL: "a pull test is of line on a spool",
    WEIGHING: "shot, olivettes and hooks are what is weighed",
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
        return strain_from_pulls(line.breaks_at_kg, pulls, line.material)

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

    def shot(self, item_id: int, weight: Weight) -> Estimate:
        """Mass of one weight, in g."""
        source = PRINTED if weight.form == "olivette" else read_mark(weight.mark).source
        readings = self.weighings.get(item_id, ())
        return shot_from_weighings(weight.mass_g, readings, source=source)

    def hook(self, item_id: int) -> Estimate | None:
        """Mass of one hook, in g; None where nobody weighed it."""
        readings = self.weighings.get(item_id, ())
        return hook_from_weighings(readings) if readings else None

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

    def capacity(self, item_id: int, figures: Float) -> Estimate:
        """What a float carries, in g of shot."""
        source = read_capacity(figures.mark).source
        return capacity_from_bucket(
            figures.capacity_g, self.buckets.get(item_id, ()), source=source
        )


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


def _figures_of(session: Session, item: Item, what: str) -> Figures:
    if item.kind != _MEASURED_OF[what] and not (what == WEIGHING and item.kind == Kind.HOOK):
        raise AskedWronglyError(
            f"{item.name} is a {item.kind}; {_WHAT_IT_IS[what]}.",
            right=f"Name a {_MEASURED_OF[what]}.",
            see=f"stock.of_kind {_MEASURED_OF[what]}",
        )
    figures = session.get(FIGURES[item.kind], item.id)
    assert figures is not None
    return figures


def refuse_a_slip(what: str, read: float, expected: float, words: str, meant: str) -> None:
    """Refuse a reading too far from what is expected to be anything but a slip."""
    furthest = FURTHEST[what]
    if expected / furthest <= read <= expected * furthest:
        return
    raise AskedWronglyError(
        f"{words} is too far off to be believed.",
        right=meant + "Read it again.",
        see="measure.as_read",
    )


def read_pulls(text: str) -> list[float]:
    """The readings of a pull test, in kg: "2.6lb 2.5lb 2.7lb", "1.7, 1.75 and 1.8 kg".

    A number without a unit has that of the next one that has. Raises AskedWronglyError for anything else,
    and where no unit is said.
    """
    said: list[str] = []
    unit = ""
    for token in reversed(tokenise(text)):
        if token.text in (",", ";", "and", "/"):
            continue
        if token.kind != "number" or not (token.unit or unit):
            read_strain_kg(text)  # says what is wrong with it
            raise AskedWronglyError(
                f'"{token.said}" is no strain.', right='Write it like "1.9 kg".'
            )
        unit = token.unit or unit
        said.insert(0, token.said if token.unit else f"{token.text} {unit}")
    return [read_strain_kg(one) for one in said] or [read_strain_kg(text)]


def record_pull(
    session: Session, item: Item, pulled_kg: float, knot: str, on: date, *, as_read: bool = False
) -> Measurement:
    """Keep a pull test on a line, in kg; ``knot`` is its name, "" for plain line.

    Raises AskedWronglyError for an item that is no line, a knot not known here, and, unless
    ``as_read``, a reading less than half or more than twice of what is expected.
    """
    line = _figures_of(session, item, PULL)
    assert isinstance(line, Line)
    tied = knot_named(knot) if knot else None
    strain_from_pulls(line.breaks_at_kg, [Pull(pulled_kg, tied)], line.material)  # checks the range
    if line.breaks_at_kg is not None and not as_read:
        expected = line.breaks_at_kg * (keeps(tied, line.material) if tied else 1)
        meant = ""
        for factor, unit in ((KG_PER_LB, "lb"), (1 / KG_PER_LB, "kg")):
            if abs(pulled_kg * factor / expected - 1) < 0.25 and pulled_kg != expected:
                meant = f"Was it in {unit}? "
        words = f"{write_strain(pulled_kg)} on line that should hold {write_strain(expected)}"
        refuse_a_slip(
            PULL, pulled_kg, expected, words + (f" with a {tied.name}" if tied else ""), meant
        )
    return keep_reading(
        session,
        f"pull test of {item.name}",
        Measurement(
            item_id=item.id or 0,
            what=PULL,
            breaks_at_kg=pulled_kg,
            knot=tied.name if tied else "",
            on=on,
        ),
    )


def record_weighing(
    session: Session, item: Item, total_g: float, count: int, on: date, *, as_read: bool = False
) -> Measurement:
    """Keep a weighing of so many weights or hooks together, in g.

    Raises AskedWronglyError for an item that is neither, a count outside 1–500, and, unless
    ``as_read``, a mass less than two thirds or more than one and a half of what is expected; of hooks
    less than half or more than twice.
    """
    figures = _figures_of(session, item, WEIGHING)
    within(
        count,
        1,
        MOST_TOGETHER,
        "a number weighed together",
        field="count",
        hint="About twenty is good.",
    )
    if isinstance(figures, Hook):
        one_g, what = _hook_g(figures, total_g / count), HOOKS
    else:
        assert isinstance(figures, Weight)
        shot_from_weighings(figures.mass_g, [(count, total_g)])  # checks the range
        unknown = figures.form != "olivette" and read_mark(figures.mark).must_be_weighed
        one_g, what = None if unknown else figures.mass_g, WEIGHING
    if not as_read and one_g is not None:
        expected = count * one_g
        words = (
            f"{write_mass(total_g)} for {count} × {item.name}, nominally {write_mass(expected)},"
        )
        meant = ""
        if abs(total_g / one_g - round(total_g / one_g)) < 0.1:
            near = round(total_g / one_g)
            meant = f"That would be about {near} of them: is the count right? " if near >= 1 else ""
        refuse_a_slip(what, total_g, expected, words, meant)
    row = Measurement(item_id=item.id or 0, what=WEIGHING, mass_g=total_g, count=count, on=on)
    return keep_reading(session, f"weighing of {item.name}", row)


def _hook_g(hook: Hook, weighed_g: float) -> float | None:
    """What one is from memory, in g; None beyond the sizes that are known. Checks the weighing's range."""
    from tacklebox.trade.settling.sizes import hook_of_size, hook_weighed

    hook_weighed(hook.size, 1000 * weighed_g)
    try:
        return hook_of_size(hook.size).mass_mg / 1000
    except AskedWronglyError:
        return None


def record_bucket(
    session: Session, item: Item, carried_g: float, on: date, *, as_read: bool = False
) -> Measurement:
    """Keep what a float carried in a bucket before it dotted down, in g of shot.

    Raises AskedWronglyError for an item that is no float and, unless ``as_read``, a mass less
    than half or more than twice of what its mark means.
    """
    figures = _figures_of(session, item, BUCKET)
    assert isinstance(figures, Float)
    capacity_from_bucket(figures.capacity_g, [carried_g])  # checks the range
    if not as_read:
        words = (
            f"{write_mass(carried_g)} in a float marked {figures.mark}, which means "
            f"{write_mass(figures.capacity_g)},"
        )
        refuse_a_slip(BUCKET, carried_g, figures.capacity_g, words, "")
    row = Measurement(item_id=item.id or 0, what=BUCKET, mass_g=carried_g, on=on)
    return keep_reading(session, f"bucket test of {item.name}", row)


def record_stretch(session: Session, item: Item, pulled_g: float, on: date) -> Measurement:
    """Keep what an elastic pulled on a balance at three to four times its length, in g.

    Raises AskedWronglyError for an item that is no elastic, or a pull outside 0–1000 kg.
    """
    _figures_of(session, item, STRETCH)
    stretch_from_readings([pulled_g / 1000])  # checks the range
    row = Measurement(item_id=item.id or 0, what=STRETCH, mass_g=pulled_g, on=on)
    return keep_reading(session, f"pull of {item.name}", row)


def keep_reading(session: Session, what: str, row: Measurement) -> Measurement:
    """Keep a reading by an action of its own, which ``what`` names."""
    row.action_id = begin(session, what, row.on).id
    session.add(row)
    session.flush()
    return row


def take_back(session: Session, number: int, on: date) -> Measurement:
    """Take back a reading that was misread; the row itself stays. Hands back that reading.

    Raises AskedWronglyError when there is no such reading, or it was taken back already.
    """
    row = session.get(Measurement, number)
    if row is None or row.what == TAKEN_BACK:
        raise AskedWronglyError(f"there is no reading {number}.", see="measure.of")
    if not any(one.id == row.id for one in standing(session)):
        raise AskedWronglyError(f"reading {number} is taken back already.")
    keep_reading(
        session,
        f"reading {number} taken back",
        Measurement(item_id=row.item_id, bait=row.bait, what=TAKEN_BACK, takes_back=row.id, on=on),
    )
    return row


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
        return [Known("one weighs", "g", measured.shot(number, figures))]
    if isinstance(figures, Float):
        return [Known("carries", "g", measured.capacity(number, figures))]
    weighed = measured.hook(number) if isinstance(figures, Hook) else None
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
    line = _figures_of(session, item, PULL)
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
