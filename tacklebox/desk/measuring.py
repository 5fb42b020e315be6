"""The angler's own measurements: pull tests, weighings, bucket tests, how fast a bait sinks; they count
in every check."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import find_item
from tacklebox.errors import AskedWronglyError, FaultsOfFields

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlmodel import Session

    from tacklebox.stock.measured import Known
    from tacklebox.stock.tables import Item, Measurement


USUALLY_WEIGHED = 20  # together, as a rule
_HOOKS = re.compile(
    r"^(?:(?P<count>\d{1,4}) of (?:size )?)?(?P<hook>.+?) (?P<mass>[\d.,/½¼¾]+ ?[a-z]+)$",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Reading:
    """One reading that is kept."""

    number: int
    on: date
    words: str
    breaks_at_kg: float | None
    mass_g: float | None
    knot: str  # "" for plain line
    count: int
    distance_mm: float | None
    seconds: float | None
    water_c: float | None


@dataclass(frozen=True)
class TakenNow:
    """A figure of an item as every check now takes it, readings and print together."""

    what: str
    unit: str
    mean: float
    spread: float
    readings: int
    source: str


@dataclass(frozen=True)
class Readings:
    """The readings of an item, or of a bait (``item`` None), and what they make of its figures."""

    item: int | None
    name: str
    readings: tuple[Reading, ...]
    now: tuple[TakenNow, ...]


def record_pull(
    desk: Desk, item: str, reading: str, *, knot: str = "", on: str = "", as_read: bool = False
) -> Readings:
    """Record a pull test: at what the line broke on a balance, plain or with a knot; one reading or
    several, all of them or none.

    Raises AskedWronglyError for an item that is no line, and for a reading far from what is printed unless it
    is taken ``as_read``.
    """
    from tacklebox.stock.measuring import read_pulls
    from tacklebox.stock.measuring import record_pull as record
    from tacklebox.trade.knots import knot_named

    pulled: list[float] = []
    faults = FaultsOfFields("this test cannot be recorded.")
    with faults.of("knot"):
        if knot:
            knot_named(knot)
    with faults.of("reading"):
        pulled = read_pulls(reading)
    faults.refuse()
    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = find_item(session, item)
        rows = [
            in_field(
                "reading", lambda kg: record(session, found, kg, knot, day, as_read=as_read), one
            )
            for one in pulled
        ]
        return _answer(session, found, rows)


def item_and_reading(desk: Desk, words: Sequence[str]) -> tuple[str, str]:
    """The item and the readings of a pull test, said in one go: the fewest words that name one item.

    "8 2.6lb 2.5lb" are two readings of item 8, "nylon 0.14 2.6lb" is one of that line. A first word that
    is a number, or several words in one, is the item.
    """
    from tacklebox.stock.measuring import read_pulls

    alone = words[0].removeprefix("#").isdecimal() or " " in words[0]
    with desk.box.reading() as session:
        for end in range(1, len(words) if not alone else 1):
            item, reading = " ".join(words[:end]), " ".join(words[end:])
            try:
                read_pulls(reading)
                find_item(session, item)
            except AskedWronglyError:
                continue
            return item, reading
    return words[0], " ".join(words[1:])


def record_weighing(
    desk: Desk,
    item: str,
    reading: str,
    *,
    count: int | None = None,
    on: str = "",
    as_read: bool = False,
) -> Readings:
    """Record what ``count`` of one shot, hook or float weighed together; None: twenty, or one float."""
    from tacklebox.stock.measuring import record_weighing as record
    from tacklebox.trade.quantities import read_mass_g

    total_g, day = in_field("reading", read_mass_g, reading), past_day(desk, on)

    def weighed(session: "Session", found: "Item") -> "Measurement":
        usual = 1 if found.kind == "float" else USUALLY_WEIGHED
        many = usual if count is None else count
        return record(session, found, total_g, many, day, as_read=as_read)

    return _record(desk, item, weighed)


def record_hooks(desk: Desk, said: str, *, on: str = "", as_read: bool = False) -> Readings:
    """Record what hooks weighed together, in one sentence: "20 of 20 0.2 g" is twenty of size 20.

    Without a number there were twenty. Raises AskedWronglyError for a hook that is not in the box.
    """
    found = _HOOKS.match(" ".join(said.split()))
    if not found:
        raise AskedWronglyError(
            f'"{said}" is no weighing of hooks.',
            field="reading",
            right='Write how many of which size weigh what, like "20 of 20 0.2 g".',
        )
    hook = found["hook"].strip()
    return record_weighing(
        desk,
        hook if hook.lower().startswith(("hook", "#")) else f"hook {hook}",
        found["mass"],
        count=int(found["count"] or USUALLY_WEIGHED),
        on=on,
        as_read=as_read,
    )


def record_sinking(
    desk: Desk, bait: str, reading: str, *, water: str = "", on: str = "", as_read: bool = False
) -> Readings:
    """Record how long a bait took to sink: "1 m in 24 s", in water of 10 °C unless said otherwise."""
    from tacklebox.desk.asking import celsius
    from tacklebox.desk.settling_asked import read_timing
    from tacklebox.stock.bait_timings import record_sinking as record
    from tacklebox.trade.settling.sizes import Timing, plain_bait

    if not plain_bait(bait):
        raise AskedWronglyError("no bait is named.", right='Name it, like "maggot".')
    timing = Timing(*in_field("reading", read_timing, reading), celsius(water))
    day = past_day(desk, on)
    with desk.box.writing() as session:
        row = in_field(
            "reading", lambda one: record(session, bait, one, day, as_read=as_read), timing
        )
        return _of_bait(session, row.bait, [row])


def record_bucket(
    desk: Desk, item: str, reading: str, *, on: str = "", as_read: bool = False
) -> Readings:
    """Record what a float carried in a bucket before it dotted down."""
    from tacklebox.stock.measuring import record_bucket as record
    from tacklebox.trade.quantities import read_mass_g

    carried_g, day = in_field("reading", read_mass_g, reading), past_day(desk, on)
    return _record(desk, item, lambda s, found: record(s, found, carried_g, day, as_read=as_read))


def record_stretch(desk: Desk, item: str, reading: str, *, on: str = "") -> Readings:
    """Record what an elastic pulled on a balance at three to four times its length."""
    from tacklebox.stock.measuring import record_stretch as record
    from tacklebox.trade.quantities import read_mass_g

    pulled_g, day = in_field("reading", read_mass_g, reading), past_day(desk, on)
    return _record(desk, item, lambda s, found: record(s, found, pulled_g, day))


def readings_of(desk: Desk, item: str) -> Readings:
    """All readings of an item, or of a bait by its name, that stand, and what they make of its figures."""
    from tacklebox.stock.measured import standing
    from tacklebox.trade.settling.sizes import BAITS, plain_bait

    with desk.box.reading() as session:
        bait = plain_bait(item)
        timed = standing(session, bait=bait) if bait else []
        if timed or any(one.name == bait for one in BAITS):
            return _of_bait(session, bait, timed)
        found = find_item(session, item)
        rows = standing(session, found)
        return _answer(session, found, rows)


def withdraw(desk: Desk, number: int, *, on: str = "") -> Readings:
    """Withdraw a reading that was misread; it is kept, and counts no longer.

    Raises AskedWronglyError when there is no such reading, or it was withdrawn before.
    """
    from tacklebox.stock.measuring import take_back
    from tacklebox.stock.tables import Item

    if number < 1:
        raise AskedWronglyError(f"there is no reading {number}.", field="number", see="measure.of")
    day = past_day(desk, on)
    with desk.box.writing() as session:
        row = in_field("number", lambda n: take_back(session, n, day), number)
        if row.item_id is None:
            return _of_bait(session, row.bait, [row])
        found = session.get_one(Item, row.item_id)
        return _answer(session, found, [row])


def _record(desk: Desk, item: str, record: "Callable[[Session, Item], Measurement]") -> Readings:
    with desk.box.writing() as session:
        found = find_item(session, item)
        row = in_field("reading", lambda one: record(session, one), found)
        return _answer(session, found, [row])


def _answer(session: "Session", item: "Item", rows: "list[Measurement]") -> Readings:
    from tacklebox.stock.measured import known_of

    assert item.id is not None
    return Readings(
        item.id,
        item.name,
        tuple(_reading(row) for row in rows),
        tuple(_taken(one) for one in known_of(session, item)),
    )


def _of_bait(session: "Session", bait: str, rows: "list[Measurement]") -> Readings:
    from tacklebox.stock.bait_timings import known_of_bait

    now = tuple(_taken(one) for one in known_of_bait(session, bait))
    return Readings(None, bait, tuple(_reading(row) for row in rows), now)


def _reading(row: "Measurement") -> Reading:
    return Reading(
        row.id or 0,
        row.on,
        _words(row),
        row.breaks_at_kg,
        row.mass_g,
        row.knot,
        row.count,
        row.distance_mm,
        row.seconds,
        row.water_c,
    )


def _taken(one: "Known") -> TakenNow:
    from tacklebox.trade.quantities import KG_PER_LB
    from tacklebox.trade.units_first import IMPERIAL, first

    estimate = one.estimate
    unit, share = ("lb", KG_PER_LB) if (one.unit, first()) == ("kg", IMPERIAL) else (one.unit, 1.0)
    return TakenNow(
        one.what,
        unit,
        estimate.mean / share,
        estimate.spread / share,
        estimate.readings,
        str(estimate.source),
    )


def _words(row: "Measurement") -> str:
    from tacklebox.trade.quantities import G_PER_OZ, write_length, write_mass
    from tacklebox.trade.units_first import show_read_strain

    if row.breaks_at_kg is not None:
        words = f"broke at {show_read_strain(row.breaks_at_kg)}"
        return words + (f" with a {row.knot}" if row.knot else ", plain line")
    if row.what == "sinking":
        far = write_length(row.distance_mm or 0.0)
        return f"sank {far} in {row.seconds:g} s, water of {row.water_c:g} °C"
    if row.what == "weighing":
        return f"{row.count} weighed {write_mass(row.mass_g or 0.0)}"
    if row.what == "stretch":
        pulled_g = row.mass_g or 0.0  # read on a balance, whatever it counts in
        return f"pulled {pulled_g:.0f} g ({pulled_g / G_PER_OZ:.2g} oz) at three to four lengths"
    return f"carried {write_mass(row.mass_g or 0.0)} in a bucket"
