"""The wallet: hooklengths by kind, and the batches that they were tied in; those that are there already."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import ItemRow, item_row
from tacklebox.errors import AskedWronglyError, CannotBeDoneError

if TYPE_CHECKING:
    from sqlmodel import Session

    from tacklebox.desk.adding import StockQuestion
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.made import Batch
    from tacklebox.stock.naming.described import Described
    from tacklebox.stock.tables import Action, Hooklength, Item


@dataclass(frozen=True)
class BatchRow:
    """Hooklengths that were tied together, and how many of them are left.

    ``recipe`` is "" for those that were there already; of them ``tied_on`` is None where nobody knows it.
    """

    code: str
    recipe: str
    tied_on: date | None
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
    """One batch by its code: what it is of, what was made, and why although a check failed; ``untied`` where
    the tying itself was undone."""

    batch: BatchRow
    item: ItemRow
    tied_because: str
    made: "Snapshot"
    untied: bool = False


@dataclass(frozen=True)
class BatchAdded:
    """Hooklengths that were there already, as a batch, and their item as it is now; ``were_counted``: they
    were in stock before, of no batch."""

    batch: BatchRow
    item: ItemRow
    were_counted: bool


def question(desk: Desk, words: str, answers: Sequence[str] = ()) -> "StockQuestion | None":
    """What must be asked before ``add`` takes these words for a hooklength; None where nothing must.

    Raises AskedWronglyError for words that are not understood.
    """
    from tacklebox.desk.adding import question_of_words

    with desk.box.reading() as session:
        if _named(session, words):
            return None
    return question_of_words(words, answers)


def add(
    desk: Desk,
    wanted: Mapping[str, str],
    *,
    answers: Mapping[str, Sequence[str]] | None = None,
    counted: str = "",
    place: str = "",
    on: str = "",
) -> tuple[BatchAdded, ...]:
    """Give codes to hooklengths that are there already, so many of each that is named or said in words: a
    batch each, and nothing is taken from stock. All of them or none. Where no number is said beside the
    words, they say it themselves: "ten 18s to 0.10 at six inches".

    ``answers`` are those to ``question``, by the words. Where stock has some of the kind that are of no
    batch, ``counted`` says whether these are among them: "yes", or "no", for they are more. ``on`` is the
    day on which they were tied, where that is known. Raises AskedWronglyError for what is no hooklength, a
    count or a day that cannot be, and where it is open whether they are counted.
    """
    from tacklebox.stock.ledger import begin

    tied_on = past_day(desk, on) if on.strip() else None
    if counted not in ("", "yes", "no"):
        raise AskedWronglyError(f'"{counted}" is no answer.', field="counted", right="yes or no.")
    if not wanted:
        raise AskedWronglyError(
            "no hooklength is named.", field="hooklengths", right="Say which, how many."
        )
    counts = {words: _count(words, said) for words, said in wanted.items()}
    added = []
    with desk.box.writing() as session:
        meant = {
            words: _meant(session, words, (answers or {}).get(words, ()), count)
            for words, count in counts.items()
        }
        total = sum(count for _, count in meant.values())
        what = f"add {total} hooklength{'' if total == 1 else 's'}"
        action = begin(session, what, desk.today())
        for is_meant, count in meant.values():
            item = _item(session, action, is_meant)
            if place.strip():
                _lies_in(session, item, place)
            added.append(_enter(session, action, item, count, counted, tied_on))
    return tuple(added)


def _count(words: str, said: str) -> int | None:
    """The number that is said beside the words; None where there is none."""
    from tacklebox.rigs.tying.batches import read_count

    if not said.strip():
        return None
    return _not_too_many(words, in_field(f"hooklengths.{words}", read_count, said))


def _not_too_many(words: str, count: int) -> int:
    from tacklebox.rigs.tying.tie import MOST_AT_ONCE

    if count > MOST_AT_ONCE:
        raise AskedWronglyError(
            f"{count} hooklengths cannot be added at once.",
            field=f"hooklengths.{words}",
            right=f"From 1 to {MOST_AT_ONCE}.",
        )
    return count


def _named(session: "Session", words: str) -> "Item | None":
    """The hooklength of that number or name. Raises AskedWronglyError for the number of another item."""
    from sqlmodel import select

    from tacklebox.stock.hooklengths import find_hooklength
    from tacklebox.stock.tables import IN_USE, Item, Kind

    if words.strip().removeprefix("#").isdecimal():
        return find_hooklength(session, words)
    said = Item.name == words.strip(), Item.kind == Kind.HOOKLENGTH
    return session.exec(select(Item).where(IN_USE, *said)).first()


def _meant(
    session: "Session", words: str, answers: Sequence[str], count: int | None
) -> "tuple[Item | Described, int]":
    """What the words mean, and how many, as is said beside them or in them."""
    from tacklebox.desk.adding import described_by
    from tacklebox.stock.tables import Kind

    meant = _named(session, words) or described_by(words, answers)
    if meant.kind != Kind.HOOKLENGTH:
        raise AskedWronglyError(
            f'"{words}" is no hooklength.', field="words", right='Say it like "18 to 0.10 6 in".'
        )
    in_words = getattr(meant, "count", None)
    if in_words is not None and count is not None:
        raise AskedWronglyError(
            f'"{words}" says how many, too.', field="words", right="Say how many once."
        )
    many = count if in_words is None else in_words
    if many is None:
        raise AskedWronglyError(
            "nobody says how many there are.",
            field=f"hooklengths.{words}",
            right='Say it like "18 to 0.10 6 in=12".',
        )
    return meant, _not_too_many(words, many)


def _item(session: "Session", action: "Action", meant: "Item | Described") -> "Item":
    """The item that is meant, a new one where the box has none that is just the same."""
    from tacklebox.rigs.tying.batch_making import item_for
    from tacklebox.stock.ledger import refuse_retired
    from tacklebox.stock.tables import Item

    if isinstance(meant, Item):
        refuse_retired(meant)
        return meant
    return item_for(session, action, meant)


def _enter(
    session: "Session",
    action: "Action",
    item: "Item",
    count: int,
    counted: str,
    tied_on: date | None,
) -> BatchAdded:
    from tacklebox.rigs.tying.batch_entering import enter_batch, of_no_batch

    loose = of_no_batch(session, item)
    if loose and not counted:
        raise AskedWronglyError(
            f"{loose} of {item.name} are in stock already, of no batch.",
            field="counted",
            right="Say whether these are among them.",
            see="hooklengths.counted",
        )
    were_counted = counted == "yes"
    batch = enter_batch(session, action, item, count, tied_on, are_counted=were_counted)
    return BatchAdded(_batch_row(batch), item_row(item), were_counted)


def _lies_in(session: "Session", item: "Item", place: str) -> None:
    from tacklebox.stock.entering import edit_item

    edit_item(session, item, place=place)


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
    from tacklebox.rigs.tying.snapshot import Snapshot

    is_known = batch.recipe or Snapshot.from_json(batch.snapshot).tied_on
    return BatchRow(
        batch.code,
        batch.recipe,
        batch.tied_on if is_known else None,
        batch.tied,
        batch.left,
        batch.labelled_on,
    )


def show(desk: Desk, code: str) -> BatchShown:
    """A batch by the code on its label, as typed. Raises AskedWronglyError, offering near codes."""
    from tacklebox.rigs.tying.batches import find_batch
    from tacklebox.rigs.tying.snapshot import read_kept
    from tacklebox.rigs.tying.tied import find_tied
    from tacklebox.stock.ledger import undone_actions
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
        untied = batch.action_id in undone_actions(session)
        return BatchShown(_batch_row(batch), item_row(item), batch.forced_because, made, untied)


def draw(desk: Desk, code: str, *, glance: bool = False) -> str:
    """Hooklengths of a batch as they were tied, as SVG; at a ``glance`` without words and with large tackle.

    Raises CannotBeDoneError for those that were there already: nobody said how they are tied.
    """
    from tacklebox.desk.rigs import drawn

    made = show(desk, code).made
    if not made.marks:
        raise CannotBeDoneError(f"nobody said how {made.code} is tied, so it cannot be drawn.")
    return drawn(made, glance=glance)
