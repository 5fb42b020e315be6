"""Line past its age: at what age it is renewed, as the angler sets it, and what is older."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from tacklebox.desk.answers import NamedItem
from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, nearest_word

if TYPE_CHECKING:
    from tacklebox.stock.line_age import AgeLimit, PastAge


@dataclass(frozen=True)
class RenewedAt:
    """At what age something is renewed, in words, and who says so; both "" where there is no limit."""

    what: str  # "hooklength line", "line on a reel", "elastic in a top kit"
    age: str
    source: str


@dataclass(frozen=True)
class OldLine:
    """Line or elastic past its age: on a ``reel``, or the oldest on its spool; and the limit."""

    item: NamedItem
    reel: str
    since: date
    age: str
    limit: RenewedAt


def limits(desk: Desk) -> tuple[RenewedAt, ...]:
    """At what age hooklength line, line on reels and elastic in top kits are renewed."""
    from tacklebox.stock.line_age import age_limits

    with desk.box.reading() as session:
        return tuple(_renewed(limit) for limit in age_limits(session).values())


def set_limits(desk: Desk, ages: Mapping[str, str], *, on: str = "") -> None:
    """Set at what ages things are renewed: "a season", "18 months", "never"; "" for the usual.

    Raises AskedWronglyError for what has no age here and for an age that is none, naming the thing.
    """
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.line_age import Aged, set_age_limit

    for what in ages:
        if what not in list(Aged):
            raise AskedWronglyError(
                f'"{what}" has no age here.', field="what", right=nearest_word(what, list(Aged))
            )
    if not ages:
        return
    day = past_day(desk, on)
    with desk.box.writing() as session:
        begin(session, f"set the age of {', '.join(ages)}", day)
        for what, age in ages.items():
            in_field(f"age.{what}", partial(set_age_limit, session, Aged(what)), age)


def old_lines(desk: Desk) -> tuple[OldLine, ...]:
    """What is past its age today."""
    from tacklebox.stock.line_age import past_age

    with desk.box.reading() as session:
        return tuple(old_line(one) for one in past_age(session, desk.today()))


def old_line(one: "PastAge") -> OldLine:
    """One answer in the desk's words."""
    from tacklebox.trade.ageing import write_months

    item = NamedItem(one.item.id or 0, one.item.name)
    return OldLine(item, one.reel, one.since, write_months(one.months), _renewed(one.limit))


def _renewed(limit: "AgeLimit") -> RenewedAt:
    source = limit.source
    return RenewedAt(
        limit.what.value, limit.words, source.citation or str(source) if source else ""
    )
