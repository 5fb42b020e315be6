"""The wallet: hooklengths by kind, and the batches that they were tied in."""

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import ItemRow, item_row
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.made import Batch
    from tacklebox.stock.tables import Hooklength, Item


@dataclass(frozen=True)
class BatchRow:
    """Hooklengths that were tied together, and how many of them are left.

    ``recipe`` is "" for those that were there already.
    """

    code: str
    recipe: str
    tied_on: date
    tied: int
    left: int
    labelled_on: date | None


@dataclass(frozen=True)
class HooklengthRow:
    """One kind of hooklength: what it is looked for by, its length and strain, and its batches that hold
    any, the oldest first. ``in_packets`` are of no batch."""

    item: ItemRow
    looked_for: str  # "18 · 0.10"
    length: str  # "" where nobody said it
    strain: str
    batches: tuple[BatchRow, ...]
    in_packets: int


@dataclass(frozen=True)
class BatchShown:
    """One batch by its code: what it is of, what was made, and why although a check failed."""

    batch: BatchRow
    item: ItemRow
    tied_because: str
    made: "Snapshot"


def listed(desk: Desk, *, every: bool = False) -> tuple[HooklengthRow, ...]:
    """The hooklengths in the wallet, by hook and line, then by length; with ``every`` those too of which
    none is left."""
    from tacklebox.stock.batches import batches_of
    from tacklebox.stock.inventory import Inventory
    from tacklebox.stock.tables import Kind

    with desk.box.reading() as session:
        stock = Inventory.read(session, [Kind.HOOKLENGTH]).by_kind[Kind.HOOKLENGTH]
        those = [(s.item, s.figures) for s in stock if every or s.item.on_hand or s.item.minimum]
        batches = batches_of(session, [item.id or 0 for item, _ in those])
    rows = [
        _row(item, figures, [b for b in batches if b.item_id == item.id])  # type: ignore[arg-type]
        for item, figures in sorted(those, key=_in_order)
    ]
    return tuple(rows)


def _in_order(one: "tuple[Item, object]") -> tuple[float, float, float]:
    figures = one[1]
    keys = ("size_order", "diameter_mm", "length_mm")
    first, second, third = (getattr(figures, key) or 0.0 for key in keys)
    return first, second, third


def _row(item: "Item", figures: "Hooklength", batches: "list[Batch]") -> HooklengthRow:
    from tacklebox.stock.naming.rows import of_row

    words = of_row(figures).words_of
    to = words("diameter").removesuffix(" mm") or words("strain")
    return HooklengthRow(
        item_row(item),
        f"{figures.size} · {to}",
        words("length"),
        words("strain"),
        tuple(map(_batch_row, batches)),
        item.on_hand - sum(batch.left for batch in batches),
    )


def _batch_row(batch: "Batch") -> BatchRow:
    return BatchRow(
        batch.code, batch.recipe, batch.tied_on, batch.tied, batch.left, batch.labelled_on
    )


def show(desk: Desk, code: str) -> BatchShown:
    """A batch by the code on its label, as typed. Raises AskedWronglyError, offering near codes."""
    from tacklebox.rigs.tying.batches import find_batch
    from tacklebox.rigs.tying.snapshot import read_kept
    from tacklebox.rigs.tying.tied import find_tied
    from tacklebox.stock.tables import Item

    with desk.box.reading() as session:
        batch = find_batch(session, code)
        if batch is None:
            rig = in_field("code", lambda typed: find_tied(session, typed), code)
            raise AskedWronglyError(
                f"{rig.code} is a rig, no batch of hooklengths.",
                field="code",
                see=f"rigs.show {rig.code}",
            )
        item = session.get_one(Item, batch.item_id)
        made = read_kept(batch)
        return BatchShown(_batch_row(batch), item_row(item), batch.forced_because, made)
