"""The ledger: amounts change only by movements, and what is on hand is their sum.

The database keeps ``on_hand`` itself (see the triggers in ``stock.care.triggers``) and refuses
anything below zero; the functions here say so in words before it must.
"""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, NamedTuple, Protocol, TypeVar
from unicodedata import category

from sqlalchemy import insert
from sqlmodel import Session, col, or_, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.stock.levels import ALWAYS_COUNTED, Level
from tacklebox.stock.naming.rows import as_row, of_row
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import (
    IN_USE,
    MEASURED_KINDS,
    RETIRED,
    Action,
    Change,
    Figures,
    Item,
    Kind,
    Line,
    Movement,
    Why,
)
from tacklebox.trade import quantities as q

if TYPE_CHECKING:
    from tacklebox.stock.naming.described import Described

MOST_PIECES = 1_000_000
MOST_CENTS = 10_000_000
_PRICE = re.compile(r"(\d{1,9})(?:[.,](\d{1,2}))?", re.ASCII)
MAKER_LETTERS = 60


@dataclass
class NewItem:
    """An item to be added: what it is and what is kept beside the figures."""

    described: "Described"
    name: str = ""
    place: str = ""
    pack_size: int | None = None
    pack_said: str = ""
    pack_price_cents: int | None = None
    minimum: str = ""
    packs: int | None = None
    amount: str = ""
    level: str = ""  # of what is not counted


def read_amount(text: str, measured: bool) -> int:
    """An amount in the item's smallest unit: a length in mm, or a number of pieces.

    Raises AskedWronglyError: a length needs its unit, pieces are whole.

    >>> read_amount("12.5 m", measured=True), read_amount("30", measured=False)
    (12500, 30)
    """
    plain = text.strip()
    if plain == "0":
        return 0
    if measured:
        length_mm = q.read_length_mm(plain)
        if round(length_mm) == 0:
            raise AskedWronglyError(
                f'"{text}" is less than a millimetre.', right="Lengths are kept in millimetres."
            )
        return round(length_mm)
    if not plain.isdecimal() or not plain.isascii() or len(plain) > 7 or int(plain) > MOST_PIECES:
        raise AskedWronglyError(
            f'"{text}" is no number of pieces.', right=f"Write a whole number up to {MOST_PIECES}."
        )
    return int(plain)


def write_amount(amount: int, measured: bool) -> str:
    """An amount as an angler reads it: metres of line, pieces of all else.

    >>> write_amount(12_500, True), write_amount(-3, False)
    ('12.5 m', '-3')
    """
    if not measured:
        return str(amount)
    return f"{amount / 1000:.2f}".rstrip("0").rstrip(".") + " m"


def packet_as_said(text: str, measured: bool) -> str:
    """The words of a spool's length, "" of a number of pieces: "100yds" is "100 yd"."""
    return as_said(text) if measured else ""


def write_packet(item: "Item | Listed") -> str:
    """What a packet of it holds, as it was said: "10", "100 yd"."""
    return item.pack_said or write_amount(item.pack_size, item.measured)


def write_gap(item: "Item | Listed", left: int, needed: int) -> str:
    """What there is of an item, and what is needed: "hook 20: 2 left, 4 needed"."""
    if item.level == Level.OUT:
        return f"{item.name}: {Level.OUT}"
    has, takes = (write_amount(max(a, 0), item.measured) for a in (left, needed))
    return f"{item.name}: {has} left, {takes} needed"


def read_price_cents(text: str) -> int:
    """The price of a pack, in hundredths of the angler's money: "3.49", "3,49", "£3.49".

    What has more than two decimals may be thousands, and is refused.

    >>> read_price_cents("3,49")
    349
    """
    plain = text.strip().strip("£€$ ")
    found = _PRICE.fullmatch(plain)
    if not found:
        raise AskedWronglyError(f'"{text}" is no price.', right='Write it like "3.49".')
    whole, part = found.groups()
    cents = int(whole) * 100 + int((part or "").ljust(2, "0"))
    if cents > MOST_CENTS:
        raise AskedWronglyError(f'"{text}" is no price.', right='Write it like "3.49".')
    return cents


def write_price(cents: int) -> str:
    """A price with two decimals."""
    return f"{cents / 100:.2f}"


def question_line(figures: Figures) -> None:
    """Refuse line figures that no such line can have, offering what was likely meant.

    Raises AskedWronglyError with the stress at the stated strain and the likely meanings.
    """
    if not isinstance(figures, Line) or not figures.breaks_at_kg or not figures.diameter_mm:
        return
    from tacklebox.trade.line import in_band, likely_meanings, material_named, stress_mpa

    material = material_named(figures.material)
    diameter, strain = figures.diameter_mm, figures.breaks_at_kg
    if in_band(material, diameter, strain):
        return
    meanings = " or ".join(m.words for m in likely_meanings(material, diameter, strain)[:3])
    raise AskedWronglyError(
        f"{material.name} of {q.write_diameter(diameter)} that breaks at {strain:.3g} kg would bear "
        f"{stress_mpa(diameter, strain):,.0f} MPa; such line bears {material.low_mpa:.0f} to "
        f"{material.most_mpa:.0f} MPa (from memory).",
        right=f"Did you mean {meanings}?" if meanings else "Look at the packet again.",
        see="stock.as_printed",
    )


def begin(
    session: Session,
    what: str,
    on: date,
    *,
    undoes: int | None = None,
    redoes: int | None = None,
) -> Action:
    """Open an action: every change of one thing that the angler did hangs on it.

    A transaction is one action: what is begun in it again joins the first, so that it can be
    undone as a whole. ``undoes`` or ``redoes`` is the action that it reverses or does again.
    """
    action: Action | None = session.info.get("action")
    if action is None:
        row = Action(
            what=what,
            on=on,
            written_at=datetime.now(UTC),
            undoes=undoes,
            redoes=redoes,
            key=session.info.get("key"),
        )
        # Written at once, ahead of all that waits in the session: the database gives each change the
        # action that came last.
        values = row.model_dump(exclude={"id"})
        with session.no_autoflush:
            number = session.connection().execute(insert(Action).values(values)).lastrowid
            action = session.get_one(Action, number)
        session.info["action"] = action
    elif what not in action.what.split(", "):
        action.what = f"{action.what}, {what}"
        session.add(action)
        session.flush()
    return action


def go_on(session: Session, action_id: int) -> bool:
    """Whether that action is still the last; what is written then belongs to it, too."""
    last = session.exec(select(Action).order_by(col(Action.id).desc()).limit(1)).first()
    if last is None or last.id != action_id:
        return False
    session.info["action"] = last
    return True


def undone_actions(session: Session, since: int = 0) -> frozenset[int]:
    """The actions that are undone and not done again, as far as that was by actions from ``since`` on."""
    return frozenset(n for n, (_, undone) in reversals(session, since).items() if undone)


def reversals(session: Session, since: int = 0) -> dict[int, tuple[int, bool]]:
    """Of each action that was ever reversed, the last that did so, and whether it was an undo."""
    query = select(Action.id, Action.undoes, Action.redoes).where(
        or_(col(Action.undoes).is_not(None), col(Action.redoes).is_not(None)),
        col(Action.id) >= since,
    )
    return {
        undoes or redoes or 0: (number or 0, undoes is not None)
        for number, undoes, redoes in session.exec(query.order_by(col(Action.id)))
    }


def move(
    session: Session, action: Action, item: Item, amount: int, why: Why, reason: str = ""
) -> None:
    """Write one movement, of hooklengths in their batches too, the oldest first; nothing is taken from or
    added to what is not counted.

    Raises CannotBeDoneError when less than nothing would be left.
    """
    if item.level:
        return
    write_movement(session, action, item, amount, why, reason)
    if item.kind == Kind.HOOKLENGTH:
        from tacklebox.stock.batches import settle

        settle(session, item, amount, why, lambda: undone_actions(session))


def set_level(
    session: Session, action: Action, item: Item, level: Level, why: Why = Why.LEVEL
) -> None:
    """Say of an item that there is plenty of it, that it is low or out; it is counted no longer.

    Raises AskedWronglyError for what is always counted.
    """
    refuse_level(item.kind, item.name)
    write_movement(session, action, item, -item.on_hand, why, level.value)
    item.level = level.value
    session.add(item)
    session.flush()


def refuse_level(kind: str, name: str) -> None:
    """Raises AskedWronglyError for a kind that is always counted or measured."""
    if kind in ALWAYS_COUNTED:
        how = "measured" if kind in MEASURED_KINDS else "counted"
        raise AskedWronglyError(f"{name}: {kind} is {how}, it has no level.", see="stock.count")


def refuse_uncounted(item: Item) -> None:
    """Raises AskedWronglyError for an amount of what is not counted."""
    if item.level:
        raise AskedWronglyError(
            f"{item.name} is not counted: it is {item.level}.",
            right="Say plenty, low or out, or count it.",
            see=f"stock.level {item.id}",
        )


def refuse_counted(item: Item) -> None:
    """Raises AskedWronglyError for a level of an item that is counted."""
    if not item.level:
        refuse_level(item.kind, item.name)
        raise AskedWronglyError(
            f"{item.name} is counted: {write_amount(item.on_hand, item.measured)} on hand.",
            see=f"stock.not_counted {item.id}",
        )


def refuse_retired(item: Item) -> None:
    """Raises AskedWronglyError for an item that is retired."""
    if item.retired:
        raise AskedWronglyError(f"{item.name} is retired.", see=f"stock.unretire {item.id}")


def count_anew(session: Session, action: Action, item: Item, counted: int) -> None:
    """Put right what is on hand, as counted; what had a level is counted from here on."""
    item.level = ""
    session.add(item)
    move(session, action, item, counted - item.on_hand, Why.COUNTED)


def write_movement(
    session: Session, action: Action, item: Item, amount: int, why: Why, reason: str = ""
) -> None:
    """Write one movement, whatever the item's level, and nothing of batches. Raises as ``move``."""
    if item.on_hand + amount < 0:
        raise CannotBeDoneError(
            f"only {write_amount(item.on_hand, item.measured)} of {item.name} is in stock; "
            f"{write_amount(-amount, item.measured)} cannot be taken.",
            see="stock.count",
        )
    assert item.id is not None
    assert action.id is not None
    session.add(
        Movement(
            item_id=item.id,
            action_id=action.id,
            amount=amount,
            why=why,
            on=action.on,
            reason=reason,
        )
    )
    session.flush()
    session.refresh(item)


def make_item(session: Session, action: Action, new: NewItem, *, as_printed: bool = False) -> Item:
    """A new item of which nothing is there yet. Raises AskedWronglyError; see ``NewItem``.

    One whose adding was undone, and that is just the same, is in stock again under its number.
    """
    described = new.described
    figures, words = as_row(described), write(described)
    if not as_printed:
        question_line(figures)
    name = free_name(session, tidy(new.name) or words)
    level = level_of(new)
    if level:
        refuse_level(described.kind, words)
    pack_size, pack_said = _packet(new, level)
    item = _withdrawn(session, name, words) or Item(
        kind=described.kind,
        words=words,
        note=described.note,
        name=name,
        pack_size=pack_size,
        added_on=action.on,
    )
    item.withdrawn = False
    item.place = tidy(new.place)
    item.pack_size, item.pack_said = pack_size, pack_said
    item.level = level
    item.pack_price_cents = new.pack_price_cents
    item.minimum = read_amount(new.minimum, item.measured) if new.minimum else 0
    is_new = item.id is None
    session.add(item)
    session.flush()
    if is_new:
        figures.item_id = item.id
        session.add(figures)
        session.flush()
    return item


def add_item(session: Session, action: Action, new: NewItem, *, as_printed: bool = False) -> Item:
    """Add a new item, as ``make_item``, with what there is of it."""
    item, described = make_item(session, action, new, as_printed=as_printed), new.described
    if item.level:
        write_movement(session, action, item, 0, Why.LEVEL, item.level)
    elif new.amount:
        move(
            session,
            action,
            item,
            read_amount(new.amount, item.measured),
            Why.COUNTED,
            "first count",
        )
    elif new.packs is None and described.count is not None:
        move(session, action, item, described.count, Why.COUNTED, "first count")
    else:
        packs = described.packs if new.packs is None else new.packs
        move(session, action, item, (1 if packs is None else packs) * item.pack_size, Why.BOUGHT)
    return item


def _withdrawn(session: Session, name: str, words: str) -> Item | None:
    """The item of that name and those figures whose adding was undone."""
    query = select(Item).where(Item.name == name, Item.words == words, col(Item.withdrawn))
    return session.exec(query.order_by(col(Item.id).desc())).first()


def level_of(new: NewItem) -> str:
    """The level of a new item: as said; plenty of shot of which no number is said, for that is a tub."""
    described = new.described
    if new.level or described.kind != Kind.WEIGHT:
        return new.level
    numbers = (new.pack_size, described.pack_size, described.count, new.amount or None)
    return Level.PLENTY if all(number is None for number in numbers) else ""


def set_packet(item: Item, described: "Described") -> None:
    """Take over what was said of a packet; what was not said stays."""
    if described.pack and described.pack_size and not described.pack.because:
        item.pack_size = described.pack_size
        item.pack_said = described.pack.words if item.measured else ""


def _packet(new: NewItem, level: str) -> tuple[int, str]:
    """What a packet holds, and in which words; floats, feeders and winders come singly."""
    described = new.described
    if new.pack_size:
        return new.pack_size, new.pack_said
    if described.pack and described.pack_size:
        is_said = described.kind in MEASURED_KINDS and not described.pack.because
        return described.pack_size, described.pack.words if is_said else ""
    if level or described.kind in (Kind.FLOAT, Kind.FEEDER, Kind.WINDER):
        return 1, ""
    raise AskedWronglyError(
        f'"{write(described)}" does not say the number in a pack.', right='Add it, like "pack 150".'
    )


def edit_item(
    session: Session,
    item: Item,
    *,
    name: str | None = None,
    place: str | None = None,
    pack: str | None = None,
    price: str | None = None,
    minimum: str | None = None,
    maker: str | None = None,
) -> None:
    """Change what is kept beside an item's figures, or a line's maker; what is None stays as it is."""
    if name is not None:
        item.name = free_name(session, tidy(name) or item.words, item.id)
    if place is not None:
        item.place = tidy(place)
    if pack is not None and pack.strip() != write_packet(item):
        size = read_amount(pack, item.measured)
        if size < 1:
            raise AskedWronglyError("a packet holds at least one.", field="pack")
        item.pack_size, item.pack_said = size, packet_as_said(pack, item.measured)
    if price is not None:
        item.pack_price_cents = read_price_cents(price)
    if minimum is not None:
        item.minimum = read_amount(minimum, item.measured)
    if maker is not None:
        _note_maker(session, item, tidy(maker))
    session.add(item)
    session.flush()


def _note_maker(session: Session, item: Item, maker: str) -> None:
    """Who made a line; "" takes it away. Its name follows where it is the item's words."""
    line = session.get(Line, item.id)
    if line is None:
        raise AskedWronglyError(
            f"{item.name} is no line: only line has a maker.",
            field="maker",
            right="Put it in its name.",
        )
    if '"' in maker or len(maker) > MAKER_LETTERS:
        raise AskedWronglyError(
            f'"{maker}" is no name of a maker.',
            field="maker",
            right=f"At most {MAKER_LETTERS} letters, without quotes.",
        )
    line.maker = maker
    words = write(of_row(line, item.note))
    if item.name == item.words:
        item.name = free_name(session, words, item.id)
    item.words = words
    session.add(line)


def tidy(text: str) -> str:
    """The text without control characters, which a terminal would obey, and with single spaces."""
    return " ".join("".join(" " if category(c) == "Cc" else c for c in text).split())


def free_name(session: Session, name: str, own_id: int | None = None) -> str:
    """The name, if no other item bears it. Raises AskedWronglyError otherwise."""
    if len(name) > 400:
        raise AskedWronglyError(f"the name is {len(name)} letters long.", right="At most 400.")
    known = session.exec(select(Item).where(Item.name == name, IN_USE)).first()
    if known and known.id != own_id:
        raise AskedWronglyError(
            f'"{name}" is in the box already, as item {known.id}.',
            see=f"stock.buy {known.id}",
        )
    return name


def movements_of(session: Session, item: Item) -> list[Movement]:
    """Every movement of an item, oldest first."""
    query = select(Movement).where(Movement.item_id == item.id)
    return list(session.exec(query.order_by(col(Movement.id))))


def levels_after(session: Session, item: Item, movements: Sequence[Movement]) -> list[str]:
    """The item's level after each of its movements, "" where it was counted then."""
    query = select(Change).where(
        Change.table_name == "item",
        Change.row_key == str(item.id),
        Change.column_name == "level",
    )
    changes = list(session.exec(query.order_by(col(Change.id))))
    level = json.loads(changes[0].was) if changes else item.level
    levels = []
    for movement in movements:
        while changes and changes[0].action_id <= movement.action_id:
            level = json.loads(changes.pop(0).became)
        levels.append(level)
    return levels


class Listed(NamedTuple):
    """An item's row as it is listed and searched: read in a tenth of an ``Item``'s time, never written."""

    id: int
    kind: str
    words: str
    name: str
    place: str
    pack_size: int
    pack_price_cents: int | None
    minimum: int
    on_hand: int
    last_movement: int
    added_on: date
    level: str
    pack_said: str
    retired: bool

    @property
    def measured(self) -> bool:
        """Whether the amount is a length in mm rather than a number of pieces."""
        return self.kind in MEASURED_KINDS


class _Worded(Protocol):
    """What can be searched for words."""

    @property
    def name(self) -> str: ...
    @property
    def words(self) -> str: ...
    @property
    def place(self) -> str: ...
    @property
    def kind(self) -> str: ...


Worded = TypeVar("Worded", bound=_Worded)


def list_items(session: Session, kind: str | None = None, *, retired: bool = False) -> list[Listed]:
    """All items in use, or those of a kind, in the order they were added; or the ``retired`` ones."""
    query = select(*(getattr(Item, column) for column in Listed._fields)).order_by(col(Item.id))
    query = query.where(RETIRED if retired else IN_USE)
    if kind:
        query = query.where(Item.kind == kind)
    return [Listed._make(row) for row in session.exec(query)]


def load(session: Session, kind: str | None = None) -> list[Item]:
    """As ``list_items``, as items that can be changed."""
    query = select(Item).where(IN_USE).order_by(col(Item.id))
    return list(session.exec(query.where(Item.kind == kind) if kind else query))


def search(items: Sequence[Worded], text: str) -> list[Worded]:
    """The items in whose name, figures or place every word occurs."""
    words = [word for word in text.lower().replace("×", "x").split() if word]
    found = []
    for item in items:
        searched = f"{item.name} {item.words} {item.place} {item.kind}".lower().replace("×", "x")
        if all(word in searched for word in words):
            found.append(item)
    return found


def find(session: Session, said: str) -> Item:
    """The one item that is meant by its number or by words.

    Raises AskedWronglyError when none or several fit.
    """
    plain = said.strip().removeprefix("#")
    if plain.isdecimal() and plain.isascii() and len(plain) < 12:
        item = session.get(Item, int(plain))
        if item is None or item.withdrawn:
            raise AskedWronglyError(f"there is no item {plain}.", see="stock.listed")
        return item
    items = list_items(session)
    exact = [item for item in items if said.strip() in (item.name, item.words)]
    found = exact if len(exact) == 1 else _by_words(session, items, said)
    if len(found) == 1:
        return session.get_one(Item, found[0].id)
    if not found:
        raise AskedWronglyError(f'nothing in stock is called "{said}".', see="stock.listed")
    some = "; ".join(f"{item.id} {item.name}" for item in found[:6])
    raise AskedWronglyError(
        f'"{said}" fits {len(found)} items.', right=f"Say which by its number: {some}."
    )


def _by_words(session: Session, items: Sequence[Listed], said: str) -> list[Listed]:
    """By words as said, else by what they describe ("hooks size 18", "1 kg nylon" for 2.2 lb)."""
    from tacklebox.stock.same_items import items_meant

    phrase = " ".join(said.lower().split())
    found = [i for i in items if phrase in i.name.lower() or phrase in i.words.lower()]
    if len(found) == 1:  # "winder 18 cm" is not the winder of 13 cm by 18 mm
        return found
    found = search(items, said)
    if found:
        return found
    meant = items_meant(session, said)
    return [item for item in items if item.id in meant]
