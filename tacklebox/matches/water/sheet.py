"""What the page for the water and the card say: all of it is known at home, before the day.

Nothing is judged at the water: what the page looks up there was judged here.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from tacklebox.matches.after.season import Outing, read_season
from tacklebox.matches.before.along import CHANGED, SPARES, spares_of, to_change_to
from tacklebox.matches.before.pack import Section, left_of, make_pack_list, of_ready, uses_of
from tacklebox.matches.before.plan import Plan
from tacklebox.matches.files.feed import USUAL, Feed
from tacklebox.matches.files.match import Match
from tacklebox.matches.files.venue import NetRules, Venue
from tacklebox.matches.water.record import record_key
from tacklebox.matches.water.signs import Wants, signs_for
from tacklebox.rigs.tying.changed import carried_by
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.amounts import show_amount
from tacklebox.stock.care.box import Box
from tacklebox.stock.dates import write_day
from tacklebox.stock.inventory import Inventory, Stocked, piece_name
from tacklebox.stock.made import Tied
from tacklebox.stock.tables import Float, Hooklength, Kind
from tacklebox.trade.fish import CARP, NETS, SILVERS
from tacklebox.trade.fish import USUAL as USUAL_FISH
from tacklebox.trade.units_first import show_weighed

NEAR = 0.8  # of a net's limit: from there on it is told (our choice)
MOST_NAMED = 6


@dataclass(frozen=True)
class RigAlong:
    """A ready rig that goes along. ``settled_by_s`` in s, None where no fall was computed; ``carries`` is the
    float or feeder that it was tied with, by its number, 0 where nobody noted it."""

    code: str
    name: str
    method: str
    words: str
    settled_by_s: int | None
    carries: int = 0
    carries_name: str = ""


@dataclass(frozen=True)
class CarriedAlong:
    """Floats, or feeders, of one kind that go along to be put on: "float" or "feeder"."""

    item: int
    name: str
    kind: str


@dataclass(frozen=True)
class HooklengthAlong:
    """Hooklengths of one kind that go along, and how many."""

    item: int
    name: str
    count: int


@dataclass(frozen=True)
class RemedyAlong:
    """What to try, and what of it is along."""

    words: str
    have: tuple[str, ...]
    changes: bool


@dataclass(frozen=True)
class SignAlong:
    """What is seen, and what to try in turn."""

    seen: str
    tries: tuple[RemedyAlong, ...]


@dataclass(frozen=True)
class NetLimit:
    """What a net of each kind may hold by the venue, in g, where there is a rule, and from where on to say
    so; ``words`` by kind, too."""

    words: Mapping[str, str]
    most_g: Mapping[str, float]
    near_g: Mapping[str, float]
    nets: int | None


@dataclass(frozen=True)
class Rhythm:
    """How often he means to cast and to feed, in minutes, None where nothing is fed so."""

    cast_every_min: float | None
    feed_every_min: float | None


@dataclass(frozen=True)
class PegBefore:
    """A peg of this venue, and what was weighed in there before."""

    peg: str
    words: str


@dataclass(frozen=True)
class WaterSheet:
    """Everything that is said at the water. ``record`` names its record by box, match and day."""

    record: str
    match: str
    name: str
    on: str  # ISO
    begins: str
    ends: str
    venue: str
    water: str
    depths: str
    rigs: tuple[RigAlong, ...]
    hooklengths: tuple[HooklengthAlong, ...]
    carried: tuple[CarriedAlong, ...]
    signs: tuple[SignAlong, ...]
    rules: tuple[Section, ...]
    first: tuple[Section, ...]
    net: NetLimit
    rhythm: Rhythm
    pegs: tuple[PegBefore, ...]
    fish: tuple[str, ...]
    net_of: Mapping[str, str]
    nets: tuple[str, ...] = NETS


def make_sheet(box: Box, match: Match, venue: Venue, plan: Plan) -> WaterSheet:
    """What goes along and what is said there, for rigs and hooklengths that are ready now.

    Nothing is written. Raises AskedWronglyError for feed figures out of their range.
    """
    packing = make_pack_list(box, match, venue, plan)
    with box.reading() as session:
        inventory = Inventory.read(session, (*SPARES, *CHANGED, Kind.HOOKLENGTH))
        rigs = list(_rigs(session, plan))
        have = _Along(session, plan, inventory)
    methods = [want.resolved.recipe.method for want in plan.wants]
    return WaterSheet(
        record_key(box.mark().box, match.stem, match.date),
        match.stem,
        match.name,
        match.date,
        match.begins,
        match.ends,
        venue.name,
        venue.water,
        venue.depths or "",
        tuple(rigs),
        tuple(HooklengthAlong(s.id, _short(s), n) for s, n in have.hooklengths),
        tuple(
            CarriedAlong(stocked.id, stocked.item.name, kind)
            for kind in CHANGED
            for stocked, _ in have.by_kind[kind]
        ),
        tuple(
            SignAlong(
                sign.seen,
                tuple(
                    RemedyAlong(one.words, have.for_(one.wants) if one.wants else (), one.changes)
                    for one in sign.tries
                ),
            )
            for sign in signs_for(methods, venue.water)
        ),
        tuple(section for section in packing.sections if section.at_the_water),
        packing.sections[:1],
        _net(venue.keepnet),
        _rhythm(match.feed),
        tuple(_pegs(read_season(box, venue=venue.stem).outings, match.day)),
        USUAL_FISH[venue.water],
        venue.keepnet.net_of,
    )


def _rigs(session: Session, plan: Plan) -> Iterator[RigAlong]:
    codes = [code for want in plan.wants for code in want.ready]
    query = select(Tied).where(col(Tied.code).in_(codes))
    by_code = {tied.code: tied for tied in session.exec(query)}
    for code in codes:
        made = Snapshot.from_json(by_code[code].snapshot)
        carried = carried_by(session, by_code[code])
        words = [made.carries, made.set_for, made.hooklength, made.hook and f"hook {made.hook}"]
        yield RigAlong(
            code,
            made.name,
            made.method,
            ", ".join(word for word in words if word),
            made.fall.settled_by_s if made.fall else None,
            carried.id or 0 if carried else 0,
            carried.name if carried else "",
        )


class _Along:
    """The tackle that goes along, by what a try asks for, the furthest that way first."""

    def __init__(self, session: Session, plan: Plan, inventory: Inventory) -> None:
        left = left_of(inventory, plan)
        used = of_ready(session, plan)[1] | set(uses_of(plan))
        counts: dict[int, tuple[Stocked, int]] = {}
        for want in plan.wants:
            for stocked, count in want.from_wallet:
                before = counts.get(stocked.id, (stocked, 0))[1]
                counts[stocked.id] = stocked, before + count
        self.hooklengths = list(counts.values())
        along = [(s, left.get(s.id, 0)) for s in to_change_to(plan, inventory)]
        spare = [(s, left.get(s.id, 0)) for s in spares_of(inventory, used)]
        self.by_kind = {
            kind: [(s, n) for s, n in (*along, *spare) if s.item.kind == kind and n > 0]
            for kind in (Kind.FLOAT, Kind.FEEDER, Kind.WEIGHT)
        }

    def for_(self, wants: Wants) -> tuple[str, ...]:
        """What is along of that, in words."""
        if wants in _KIND_OF:
            found = [
                f"{piece_name(s)}: {s.item.level or show_amount(n, s.item.measured, s.item.pack_said)}"
                for s, n in self._heaviest_first(_KIND_OF[wants])
            ]
        else:
            found = [f"{count} × {_short(s)}" for s, count in self._hooklengths(wants)]
        return tuple(found[:MOST_NAMED])

    def _heaviest_first(self, kind: Kind) -> Sequence[tuple[Stocked, int]]:
        def mass(one: tuple[Stocked, int]) -> float:
            figures = one[0].figures
            if isinstance(figures, Float):
                return figures.capacity_g or 0.0
            return float(getattr(figures, "mass_g", 0) or 0)

        return sorted(self.by_kind[kind], key=mass, reverse=kind is not Kind.WEIGHT)

    def _hooklengths(self, wants: Wants) -> Sequence[tuple[Stocked, int]]:
        key, backwards = _ORDER[wants]
        known = [
            (getattr(s.figures, key), s, n)
            for s, n in self.hooklengths
            if isinstance(s.figures, Hooklength) and getattr(s.figures, key) is not None
        ]
        ordered = sorted(known, key=lambda one: (one[0], one[1].id), reverse=backwards)
        return [(s, n) for _, s, n in ordered]


_KIND_OF = {Wants.FEEDERS: Kind.FEEDER, Wants.FLOATS: Kind.FLOAT, Wants.SHOT: Kind.WEIGHT}
_ORDER = {
    Wants.LONGER: ("length_mm", True),
    Wants.SHORTER: ("length_mm", False),
    Wants.SMALLER: ("size_order", False),
    Wants.FINER: ("diameter_mm", False),
    Wants.STRONGER: ("diameter_mm", True),
}


def _short(stocked: Stocked) -> str:
    """A kind of hooklength as it is looked for at the water: "20 to 0.08 mm, 15 cm"."""
    figures = stocked.figures
    if stocked.item.name != stocked.item.words or not isinstance(figures, Hooklength):
        return stocked.item.name
    line = figures.diameter_said or figures.strain_said
    to = f"{figures.size} to {line}" if line else stocked.item.name
    held = " ".join(word for word in (figures.barb, figures.bait) if word)
    return ", ".join(word for word in (to, figures.length_said, held) if word)


def _net(rules: NetRules) -> NetLimit:
    most_g = {net: most for net in NETS if (most := rules.most_g(net)) is not None}
    own = {SILVERS: rules.silvers_per_net, CARP: rules.carp_per_net}
    each = any(own.values())
    words = {
        net: f"At most {own[net] or rules.fish_per_net} in a net{f' of {net}' if each else ''}."
        for net in most_g
    }
    return NetLimit(words, most_g, {net: NEAR * most for net, most in most_g.items()}, rules.nets)


def _pegs(every: Sequence[Outing], day: date) -> Iterator[PegBefore]:
    """The pegs that he had there before that day, the latest first."""
    of: dict[str, list[str]] = {}
    for one in reversed(every):
        debrief = one.debrief
        if debrief.peg and debrief.on < day:
            weight = "" if debrief.weight_g is None else show_weighed(debrief.weight_g)
            place = f"place {debrief.place}" if debrief.place else ""
            words = ", ".join(word for word in (weight, place) if word) or "not weighed"
            of.setdefault(debrief.peg, []).append(
                f"{words} on {write_day(debrief.on, with_year=True)}"
            )
    yield from (PegBefore(peg, "; ".join(found[:MOST_NAMED])) for peg, found in of.items())


def _rhythm(feed: Feed | None) -> Rhythm:
    if feed is None:
        return Rhythm(None, None)
    cast, loose = (
        said if (said := getattr(feed, name)) is not None else USUAL[name].value
        for name in ("cast_every", "loose_every")
    )
    return Rhythm(cast if feed.feeder else None, loose if feed.loose else None)
