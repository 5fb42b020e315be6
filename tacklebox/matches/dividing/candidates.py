"""What in the box would do for each ask, read and ranked once for all rigs that ask the same."""

from collections import namedtuple
from collections.abc import Iterable
from typing import Any, NamedTuple

from sqlmodel import Session, col, or_, select

from tacklebox.stock.asks import ASKABLE, Ask
from tacklebox.stock.finding import Listed
from tacklebox.stock.inventory import rank
from tacklebox.stock.tables import FIGURES, IN_USE, Item, Kind

# So many asks are looked up by SQL; more take longer to prepare than whole kinds take to read.
FEW = 8


class Candidate(NamedTuple):
    """An item's row with the figures that can be asked for."""

    item: Listed
    figures: Any

    @property
    def id(self) -> int:
        """The item's number."""
        return self.item.id


class Candidates:
    """The items of the box by ask, ranked as when a rig is fitted; line on a reel is never cut."""

    def __init__(self, session: Session, asks: Iterable[Ask]) -> None:
        every = list(dict.fromkeys(asks))
        stock = {}
        for kind in dict.fromkeys(ask.kind for ask in every):
            those = [ask for ask in every if ask.kind == kind]
            stock[kind] = _read(session, kind, those if len(every) <= FEW else [])
        self._ranked = {ask: tuple(rank(ask, stock[ask.kind])) for ask in every}

    def of(self, ask: Ask) -> tuple[Candidate, ...]:
        """Those that meet the ask: the nearest to its middle first, then packets that are open,
        then the oldest."""
        return self._ranked[ask]

    @property
    def every(self) -> list[Candidate]:
        """All that meet any of the asks, in the order they were added."""
        found = {
            candidate.id: candidate for ranked in self._ranked.values() for candidate in ranked
        }
        return [candidate for _, candidate in sorted(found.items())]


def _read(session: Session, kind: Kind, asks: list[Ask]) -> list[Candidate]:
    table = FIGURES[kind]
    names = sorted({field.column for field in ASKABLE[kind].values()})
    query = select(
        *(getattr(Item, name) for name in Listed._fields), *(getattr(table, name) for name in names)
    ).join(table, table.item_id == col(Item.id))  # type: ignore[attr-defined]
    query = query.where(IN_USE)
    if asks:
        query = query.where(or_(*(ask.condition() for ask in asks)))
    own = len(Listed._fields)
    row: Any = namedtuple("row", tuple(names))  # type: ignore[misc]
    every = (
        Candidate(Listed._make(values[:own]), row._make(values[own:]))
        for values in session.connection().execute(query).all()
    )
    return [candidate for candidate in every if "reel" not in candidate.item.place.lower().split()]
