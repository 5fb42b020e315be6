"""Stock held in memory while rigs are fitted: items with their figures, and what is spoken for."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from sqlmodel import Session, col, select

from tacklebox.stock.measured import Measured, read_measured
from tacklebox.stock.tables import FIGURES, Figures, Item, Kind


@dataclass(frozen=True)
class Stocked:
    """An item with the figures of its kind."""

    item: Item
    figures: Figures

    @property
    def id(self) -> int:
        """The item's number."""
        assert self.item.id is not None
        return self.item.id


@dataclass
class Inventory:
    """Items by kind, how much of each is spoken for by rigs that are planned already, and
    what the angler measured himself."""

    by_kind: dict[Kind, list[Stocked]]
    spoken_for: dict[int, int] = field(default_factory=dict)
    measured: Measured = field(default_factory=Measured)

    @classmethod
    def read(cls, session: Session, kinds: Iterable[Kind] = Kind) -> "Inventory":
        """Read the items of the kinds, in the order they were added."""
        by_kind = {}
        for kind in kinds:
            table = FIGURES[kind]
            query = (
                select(Item, table)
                .join(table, table.item_id == col(Item.id))  # type: ignore[attr-defined]
                .order_by(col(Item.id))
            )
            by_kind[kind] = [Stocked(item, figures) for item, figures in session.exec(query)]
        return cls(by_kind, measured=read_measured(session))

    def left(self, stocked: Stocked) -> int:
        """What is on hand and not spoken for, in the item's smallest unit."""
        return stocked.item.on_hand - self.spoken_for.get(stocked.id, 0)

    def speak_for(self, stocked: Stocked, amount: int) -> None:
        """Set an amount aside for a planned rig."""
        self.spoken_for[stocked.id] = self.spoken_for.get(stocked.id, 0) + amount

    def copy(self) -> "Inventory":
        """The same items, with what is spoken for kept apart from here on."""
        return Inventory(self.by_kind, dict(self.spoken_for), self.measured)
