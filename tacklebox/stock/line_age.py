"""Line and elastic past the age that the angler sets, or that is common practice, where he sets none."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from itertools import groupby

from sqlmodel import Session, and_, col, exists, or_, select

from tacklebox.stock.made import BatchUse, Setting, Tied, TiedUse
from tacklebox.stock.reels import Holder, list_reels
from tacklebox.stock.tables import IN_USE, Item, Kind, Movement
from tacklebox.trade.ageing import (
    HOOKLENGTH_LINE_LASTS,
    HOOKLENGTH_LINE_LASTS_BY,
    months_old,
    read_age_months,
)
from tacklebox.trade.sources import Basis, Source

BY_ANGLER = Source(Basis.GIVEN, "as you set it")


class Aged(StrEnum):
    """What has an age of its own that it is renewed at."""

    HOOKLENGTH_LINE = "hooklength line"
    ON_A_REEL = "line on a reel"
    IN_A_TOP_KIT = "elastic in a top kit"


_HELD_BY = {Holder.REEL: Aged.ON_A_REEL, Holder.TOP_KIT: Aged.IN_A_TOP_KIT}
_USUAL = {Aged.HOOKLENGTH_LINE: (HOOKLENGTH_LINE_LASTS, HOOKLENGTH_LINE_LASTS_BY)}


@dataclass(frozen=True)
class AgeLimit:
    """The age at which something is renewed, in months and as it was said; None where there is no limit."""

    what: Aged
    months: int | None
    words: str
    source: Source | None


@dataclass(frozen=True)
class PastAge:
    """Line or elastic that is older than its limit: on a ``reel``, or the oldest of what is on its spool."""

    item: Item
    reel: str
    since: date
    months: int
    limit: AgeLimit


def age_limits(session: Session) -> dict[Aged, AgeLimit]:
    """The limits that hold: as the angler set them, else common practice."""
    said = {setting.name: setting.said for setting in session.exec(select(Setting))}
    return {what: _limit(what, said.get(_name(what), "")) for what in Aged}


def _name(what: Aged) -> str:
    return f"age of {what}"


def _limit(what: Aged, said: str) -> AgeLimit:
    if said:
        return AgeLimit(what, read_age_months(said), said, BY_ANGLER)
    words, source = _USUAL.get(what, ("", None))
    return AgeLimit(what, read_age_months(words) if words else None, words, source)


def set_age_limit(session: Session, what: Aged, said: str) -> None:
    """Set a limit in the angler's own words; "" is the usual one again. Raises AskedWronglyError."""
    plain = " ".join(said.split())
    if plain:
        read_age_months(plain)
    setting = session.get(Setting, _name(what)) or Setting(name=_name(what))
    setting.said = plain
    session.add(setting)
    session.flush()


def past_age(session: Session, today: date, hooklength_line: Collection[int] = ()) -> list[PastAge]:
    """What is past its age, reels and top kits first, then spools that hooklengths were tied from, and
    those of ``hooklength_line``, by the item's number."""
    limits = age_limits(session)
    found = [
        *_on_reels(session, limits, today),
        *_on_spools(session, limits, today, hooklength_line),
    ]
    return [one for one in found if one.limit.months is not None and one.months >= one.limit.months]


def _on_reels(session: Session, limits: dict[Aged, AgeLimit], today: date) -> Iterator[PastAge]:
    for loaded in list_reels(session):
        if loaded.item and loaded.since:
            limit = limits[_HELD_BY[Holder(loaded.reel.what)]]
            months = months_old(loaded.since, today)
            yield PastAge(loaded.item, loaded.reel.name, loaded.since, months, limit)


def _on_spools(
    session: Session, limits: dict[Aged, AgeLimit], today: date, named: Collection[int]
) -> Iterator[PastAge]:
    """Hooklengths, line that they were tied from and what is named, by the oldest of what is on hand."""
    limit = limits[Aged.HOOKLENGTH_LINE]
    if limit.months is None:
        return
    of_hooklengths = or_(
        exists().where(
            col(TiedUse.item_id) == Item.id,
            col(Tied.id) == TiedUse.tied_id,
            col(Tied.kind) == "hooklength",
        ),
        exists().where(col(BatchUse.item_id) == Item.id),
        col(Item.id).in_(named),
    )
    query = select(Item).where(
        col(Item.on_hand) > 0,
        IN_USE,
        col(Item.added_on) < today,
        or_(Item.kind == Kind.HOOKLENGTH, and_(Item.kind == Kind.LINE, of_hooklengths)),
    )
    for item in session.exec(query.order_by(col(Item.id))).all():
        if months_old(item.added_on, today) < limit.months:
            continue
        since = oldest_on_hand(session, item)
        yield PastAge(item, "", since, months_old(since, today), limit)


def oldest_on_hand(session: Session, item: Item) -> date:
    """The day on which the oldest of what is on hand came, when the oldest goes first."""
    moved = (
        select(Movement.action_id, col(Movement.on), Movement.amount)
        .where(Movement.item_id == item.id)
        .order_by(col(Movement.id).desc())
    )
    since, still = item.added_on, item.on_hand
    with session.connection().execute(moved) as rows:
        for _, of_action in groupby(rows, key=lambda row: row[0]):
            days, amounts = zip(*((on, amount) for _, on, amount in of_action), strict=True)
            if sum(amounts) > 0:
                since, still = max(days), still - sum(amounts)
                if still <= 0:
                    break
    return since
