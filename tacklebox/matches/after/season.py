"""What the season says: each match that was debriefed, and what its matches add up to by one thing.

Nothing here says why: a peg's weights and a change's fish are counts, and chance is told beside them.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import StrEnum
from functools import lru_cache

from sqlmodel import Session, col, func, select

from tacklebox.matches.after.home_made import cost_of_batches
from tacklebox.matches.before.losses import valid_debriefs
from tacklebox.matches.water.record import Did, KeptTaps, read_kept
from tacklebox.matches.water.tally import Heap, Tally, tally_kept
from tacklebox.stock.care.box import Box
from tacklebox.stock.made import Debrief, DebriefRig, Tied, TiedUse
from tacklebox.stock.tables import Item, Kind, Movement, State, Why
from tacklebox.trade.chance import MOST_MIN, chance_of_as_many, too_few

KEPT = 500  # records that are added up already
BANDS_C = 5  # water is told in bands so wide (our choice)


class By(StrEnum):
    """What matches are put together by."""

    VENUE = "venue"
    PEG = "peg"
    SECTION = "section"
    METHOD = "method"
    RIG = "rig"
    HOOKLENGTH = "hooklength"
    BAIT = "bait"
    WATER = "water"


@dataclass(frozen=True)
class RigTaken:
    """A rig that was taken to a match: its code, what it is, whether it did well."""

    code: str
    name: str
    method: str
    hooklength: str
    did_well: bool


@dataclass(frozen=True)
class WaterChange:
    """A change at the water: fish and minutes before and after it, and how likely chance alone would bring
    as many after; None where too few came to say."""

    at: datetime
    words: str
    before: int
    before_min: float
    after: int
    after_min: float
    chance: float | None


@dataclass(frozen=True)
class Outing:
    """A match that was fished. ``lost_cents`` is what was lost at today's prices, ``unpriced`` how many items
    of it have none."""

    debrief: Debrief
    rigs: tuple[RigTaken, ...]
    tally: Tally
    changes: tuple[WaterChange, ...]
    lost_cents: int
    unpriced: int


@dataclass(frozen=True)
class AddedUp:
    """What matches of one kind add up to; weights in g, None where none was weighed in."""

    name: str
    matches: int
    weighed: int
    mean_g: float | None
    best_g: float | None
    mean_place: float | None
    points: float
    fish: int
    lost_cents: int
    unpriced: int


@dataclass(frozen=True)
class SeasonRead:
    """Matches that were debriefed, the earliest first, and the years of which there are any, the latest
    first."""

    outings: tuple[Outing, ...]
    years: tuple[int, ...]


def read_season(box: Box, *, year: str = "", venue: str = "") -> SeasonRead:
    """The matches of one year or venue, where that is said."""
    with box.reading() as session:
        every = sorted(valid_debriefs(session), key=lambda d: (d.on, d.id or 0))
        rigs, lost = _rigs(session), _lost(session)
    return SeasonRead(
        tuple(
            _outing(debrief, rigs.get(debrief.id or 0, ()), lost.get(debrief.id or 0, {}))
            for debrief in every
            if year in ("", str(debrief.on.year)) and venue in ("", debrief.venue)
        ),
        tuple(sorted({debrief.on.year for debrief in every}, reverse=True)),
    )


def _rigs(session: Session) -> dict[int, list[RigTaken]]:
    """The rigs of each debrief; the snapshots are read by the database, which is quick at it."""

    def kept(key: str) -> object:
        return func.json_extract(Tied.snapshot, f"$.{key}")

    taken = select(DebriefRig.debrief_id, DebriefRig.tied_id, DebriefRig.did_well)
    every = session.exec(taken.order_by(col(DebriefRig.id))).all()
    query = select(
        Tied.id, Tied.code, kept("name"), kept("method"), kept("hook"), kept("hooklength")
    )  # type: ignore[call-overload]
    known: dict[int, RigTaken] = {}
    for number, code, name, method, hook, hooklength in session.exec(
        query.where(col(Tied.id).in_(select(DebriefRig.tied_id)))
    ):
        words = ", ".join(word for word in (hook and f"hook {hook}", hooklength) if word)
        known[number] = RigTaken(code, name, method, words, did_well=False)
    did_well = {number: replace(rig, did_well=True) for number, rig in known.items()}
    found: dict[int, list[RigTaken]] = {}
    for debrief, tied, well in every:
        found.setdefault(debrief, []).append((did_well if well else known)[tied])
    return found


def _lost(session: Session) -> dict[int, dict[int, int | None]]:
    """What each debrief lost of each item, in cents at the price of today: also what was tied into rigs,
    but no winder. None where it has no price."""
    found: dict[int, dict[int, int]] = {}
    moved = select(Debrief.id, Movement.item_id, Movement.amount).join(
        Movement, col(Movement.action_id) == Debrief.action_id
    )
    tied_in = (
        select(DebriefRig.debrief_id, TiedUse.item_id, TiedUse.amount)
        .join(TiedUse, col(TiedUse.tied_id) == DebriefRig.tied_id)
        .where(DebriefRig.became == State.LOST)
    )
    for number, item, amount in session.exec(moved.where(Movement.why == Why.LOST)):
        of = found.setdefault(number or 0, {})
        of[item] = of.get(item, 0) - amount
    for number, item, amount in session.exec(tied_in):
        of = found.setdefault(number, {})
        of[item] = of.get(item, 0) + amount
    items = {item for of in found.values() for item in of}
    query = select(Item.id, Item.pack_size, Item.pack_price_cents)
    query = query.where(col(Item.id).in_(items), Item.kind != Kind.WINDER)
    known = {number or 0: (size, cents) for number, size, cents in session.exec(query)}
    at_home = cost_of_batches(session, [n for n, (_, cents) in known.items() if cents is None])
    known.update(at_home)
    return {
        number: {item: _cents(amount, *known[item]) for item, amount in of.items() if item in known}
        for number, of in found.items()
    }


def _cents(amount: int, pack_size: int, pack_price_cents: int | None) -> int | None:
    return None if pack_price_cents is None else round(amount * pack_price_cents / pack_size)


def _outing(debrief: Debrief, rigs: Sequence[RigTaken], lost: Mapping[int, int | None]) -> Outing:
    return Outing(
        debrief,
        tuple(rigs),
        *_of_record(debrief.record),
        sum(cents for cents in lost.values() if cents is not None),
        sum(cents is None for cents in lost.values()),
    )


@lru_cache(maxsize=KEPT)
def _of_record(text: str) -> tuple[Tally, tuple[WaterChange, ...]]:
    """What a kept record adds up to; kept, since a record never changes."""
    kept = read_kept(text)
    return tally_kept(kept), changes_of(kept)


def changes_of(kept: KeptTaps) -> tuple[WaterChange, ...]:
    """The changes of a record, each with the fish from the change before to the one after it.

    The first tap and the last begin and end the time; a change with no time before or after it, or with
    more than a day, is left out.
    """
    changed = [tap for tap in kept.others if tap.did in (Did.CHANGE, Did.RIG)]
    if not changed:
        return ()
    changed.sort(key=lambda tap: (tap.at, tap.number))
    fish = sorted(at for _, times in kept.fish for at in times)
    ends = [datetime.fromisoformat(at) for at in (*fish[:1], *fish[-1:])]
    every = (*ends, *(tap.at for tap in kept.others))
    marks = [min(every), *(tap.at for tap in changed), max(every)]
    found = []
    for number, tap in enumerate(changed, 1):
        begin, at, end = marks[number - 1 : number + 2]
        before_min, after_min = (at - begin).total_seconds() / 60, (end - at).total_seconds() / 60
        if not (0 < before_min <= MOST_MIN and 0 < after_min <= MOST_MIN):
            continue
        so_far = bisect_left(fish, str(at))  # as it is written
        before = so_far - bisect_left(fish, str(begin))
        after = bisect_right(fish, str(end)) - so_far
        chance = (
            None
            if too_few(before + after, before_min, after_min)
            else chance_of_as_many(before, after, before_min, after_min)
        )
        words = f"{tap.about} {tap.says}".strip() or f"fishing {tap.rig}"
        found.append(WaterChange(at, words, before, before_min, after, after_min, chance))
    return tuple(found)


_NAMES: dict[By, Callable[[Outing], Sequence[str]]] = {
    By.VENUE: lambda one: [one.debrief.venue],
    By.PEG: lambda one: [f"{one.debrief.venue}, peg {one.debrief.peg}"] if one.debrief.peg else [],
    By.SECTION: lambda one: [one.debrief.section] if one.debrief.section else [],
    By.METHOD: lambda one: [rig.method for rig in one.rigs],
    By.RIG: lambda one: [rig.name for rig in one.rigs],
    By.HOOKLENGTH: lambda one: [rig.hooklength for rig in one.rigs if rig.hooklength],
    By.BAIT: lambda one: [said for about, said in one.tally.day if about == "bait"],
    By.WATER: lambda one: _band(one.debrief.water_c),
}


def _band(water_c: float | None) -> list[str]:
    if water_c is None:
        return []
    low = int(water_c // BANDS_C) * BANDS_C
    return [f"{low} to {low + BANDS_C} °C"]


def grouped(every: Sequence[Outing], by: By) -> list[AddedUp]:
    """What the matches add up to by one thing, the one with most matches first.

    A match counts for each name that it has, as for every method that was taken; fish that were tapped
    for a rig count for that rig, its method and hooklength alone.
    """
    of: dict[str, list[Outing]] = {}
    for one in every:
        for name in dict.fromkeys(_NAMES[by](one)):
            of.setdefault(name, []).append(one)
    groups = [_group(name, found, by) for name, found in of.items()]
    return sorted(groups, key=lambda group: (-group.matches, group.name))


def _group(name: str, found: Sequence[Outing], by: By) -> AddedUp:
    weights = [o.debrief.weight_g for o in found if o.debrief.weight_g is not None]
    places = [o.debrief.place for o in found if o.debrief.place is not None]
    return AddedUp(
        name,
        len(found),
        len(weights),
        sum(weights) / len(weights) if weights else None,
        max(weights, default=None),
        sum(places) / len(places) if places else None,
        sum(o.debrief.points or 0 for o in found),
        sum(_fish(o, name, by) for o in found),
        sum(o.lost_cents for o in found),
        sum(o.unpriced for o in found),
    )


def _fish(outing: Outing, name: str, by: By) -> int:
    if by in (By.METHOD, By.RIG, By.HOOKLENGTH):
        codes = {rig.code for rig in outing.rigs if name in (rig.method, rig.name, rig.hooklength)}
        return _many([heap for heap in outing.tally.rigs if heap.name in codes])
    return _many(outing.tally.rigs)


def _many(heaps: Sequence[Heap]) -> int:
    return sum(heap.fish for heap in heaps)


def at_peg(every: Sequence[Outing], venue: str, peg: str, *, before: date) -> list[Outing]:
    """What was fished at a peg before a day, the latest first."""
    same = peg.strip().casefold()
    return [
        one
        for one in reversed(every)
        if one.debrief.venue == venue
        and one.debrief.peg.strip().casefold() == same
        and one.debrief.on < before
    ]
