"""Stock held in memory while rigs are fitted: items with their figures, and what is reserved.

Only what SQL says may serve is read, by a condition a shade wider than the ask, which decides. What meets an
ask is ranked once for all rigs. Line on a reel serves only what is in place already.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlmodel import Session, col, or_, select

from tacklebox.stock.asks import Ask
from tacklebox.stock.levels import to_hand
from tacklebox.stock.measured import Measured, read_measured
from tacklebox.stock.reels import LOADED_WITH, holders
from tacklebox.stock.tables import FIGURES, IN_USE, Figures, Item, Kind, Weight

# To put more of them to SQL takes longer than reading a kind whole in a box of 2,000 items.
MOST_CONDITIONS = 5


@dataclass(frozen=True)
class Stocked:
    """An item with the figures of its kind, and the reels and top kits that it is loaded on.

    ``spool`` is what the line of a hooklength was tied from: what the angler measured of it counts.
    """

    item: Item
    figures: Figures
    reels: tuple[str, ...] = ()
    spool: Item | None = None
    id: int = field(init=False, compare=False)  # the item's number, which is asked for very often

    def __post_init__(self) -> None:
        assert self.item.id is not None
        object.__setattr__(self, "id", self.item.id)

    @property
    def on_reel(self) -> bool:
        """Whether rigs hang on it: it is loaded, or lies on a reel by its place."""
        return bool(self.reels) or self.item.on_reel

    @property
    def measured_as(self) -> Item:
        """The item of which his measurements tell of this one."""
        return self.spool or self.item


def piece_name(stocked: Stocked) -> str:
    """What an item is called where its pieces are counted: "No 8 shot", not "shot No 8 tin"."""
    item, figures = stocked.item, stocked.figures
    if not isinstance(figures, Weight) or item.name != item.words:
        return item.name
    return f"{figures.mark} shot" if figures.form == "shot" else f"{figures.form} {figures.mark}"


@dataclass
class Inventory:
    """Items by kind, how much of each is reserved by rigs that are planned already, and
    what the angler measured himself.

    ``spools`` tells of hooklengths that were tied at home the spool they are of, None where nobody noted it;
    what is bought in packets is not in it."""

    by_kind: dict[Kind, list[Stocked]]
    reserved: dict[int, int] = field(default_factory=dict)
    measured: Measured = field(default_factory=Measured)
    spools: dict[int, Stocked | None] = field(default_factory=dict)
    _ranked: dict[tuple[Ask, bool], list[Stocked]] = field(default_factory=dict)
    _for_rigs: dict[Kind, list[Stocked]] = field(default_factory=dict)

    @classmethod
    def read(cls, session: Session, kinds: Iterable[Kind] = Kind) -> "Inventory":
        """Read the items of the kinds, in the order they were added."""
        by_kind = {kind: _stocked(session, kind) for kind in kinds}
        return cls(by_kind, measured=read_measured(session), spools=_spools(session, by_kind))

    @classmethod
    def read_for(
        cls, session: Session, asks: Iterable[Ask], named: Collection[int] = ()
    ) -> "Inventory":
        """Read only what may meet one of the asks, and the items of the numbers ``named``; of a kind that
        very many ask for, all of it."""
        by_ask: dict[Kind, list[Ask]] = {}
        for ask in asks:
            by_ask.setdefault(ask.kind, []).append(ask)
        by_kind = {
            kind: _stocked(session, kind, [ask.condition() for ask in those], named)
            if len(those) <= MOST_CONDITIONS
            else _stocked(session, kind)
            for kind, those in by_ask.items()
        }
        return cls(by_kind, measured=read_measured(session), spools=_spools(session, by_kind))

    def ranked(self, ask: Ask, *, in_place: bool) -> list[Stocked]:
        """What meets the ask, the best first: closest to its middle, then packets already open,
        then the oldest. What is on a reel or in a pole is the best for what is ``in_place`` already;
        line whose place is a reel, and what is retired, is for nothing else."""
        if (ask, in_place) not in self._ranked:
            found = self.by_kind.get(ask.kind, []) if in_place else self._of_kind(ask.kind)
            self._ranked[ask, in_place] = sorted(
                rank(ask, found), key=lambda s: in_place and not s.on_reel
            )
        return self._ranked[ask, in_place]

    def _of_kind(self, kind: Kind) -> list[Stocked]:
        """Those that rigs are tied from."""
        if kind not in self._for_rigs:
            every = self.by_kind.get(kind, [])
            self._for_rigs[kind] = [s for s in every if not (s.item.on_reel or s.item.retired)]
        return self._for_rigs[kind]

    def left(self, stocked: Stocked) -> int:
        """What is to hand and not reserved, in the item's smallest unit."""
        return to_hand(stocked.item) - self.reserved.get(stocked.id, 0)

    def reserve(self, stocked: Stocked, amount: int) -> None:
        """Set an amount aside for a planned rig."""
        self.reserved[stocked.id] = self.reserved.get(stocked.id, 0) + amount

    def copy(self) -> "Inventory":
        """The same items, with what is reserved kept apart from here on."""
        return Inventory(
            self.by_kind,
            dict(self.reserved),
            self.measured,
            self.spools,
            self._ranked,
            self._for_rigs,
        )


def rank(ask: Ask, stock: Sequence[Any]) -> list[Any]:
    """What of it meets the ask, the best first: closest to its middle, then packets already open,
    then the oldest. Each has an ``item``, its ``figures`` and its number as ``id``."""
    return sorted(
        ask.among(stock),
        key=lambda one: (
            round(ask.distance(one.figures), 6),
            one.item.on_hand % one.item.pack_size == 0,
            one.id,
        ),
    )


def _spools(session: Session, by_kind: dict[Kind, list[Stocked]]) -> dict[int, Stocked | None]:
    """The spool of each hooklength whose next batch was tied at home."""
    if not by_kind.get(Kind.HOOKLENGTH):
        return {}
    from tacklebox.stock.batches import spools

    return {number: Stocked(*found) if found else None for number, found in spools(session).items()}


def _stocked(
    session: Session, kind: Kind, conditions: Sequence[Any] = (), named: Collection[int] = ()
) -> list[Stocked]:
    table = FIGURES[kind]
    on_reels = holders(session) if kind in LOADED_WITH.values() else {}
    query = (
        select(Item, table)
        .join(table, table.item_id == col(Item.id))  # type: ignore[attr-defined]
        .where(or_(IN_USE, col(Item.id).in_(on_reels)) if on_reels else IN_USE)
        .order_by(col(Item.id))
    )
    if conditions:
        query = query.where(or_(*conditions, col(Item.id).in_(named)))
    return [
        Stocked(item, figures, on_reels.get(item.id or 0, ()))
        for item, figures in session.exec(query)
    ]
