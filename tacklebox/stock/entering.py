"""Items entered, and what is kept beside their figures changed."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError, FaultsOfFields
from tacklebox.signs import tidy
from tacklebox.stock.amounts import (
    packet_as_said,
    read_amount,
    read_price_cents,
    show_amount,
    write_price,
)
from tacklebox.stock.finding import write_packet
from tacklebox.stock.ledger import move, refuse_level, set_level, write_movement
from tacklebox.stock.levels import Level, says_hardly_any
from tacklebox.stock.naming.rows import as_row, of_row
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import (
    IN_USE,
    MEASURED_KINDS,
    Action,
    Figures,
    Item,
    Kind,
    Line,
    Why,
)
from tacklebox.trade import quantities as q

if TYPE_CHECKING:
    from tacklebox.stock.naming.described import Described


MAKER_LETTERS = 60
IN_A_TUB = 100  # shot, where they are counted and nobody says what a tub holds


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
    said = figures.strain_said
    unit = "lb" if "lb" in said or "oz" in said else "kg"
    meant = likely_meanings(material, diameter, strain, unit)[:3]
    meanings = " or ".join(one.words for one in meant)
    breaks_at = said if unit == "lb" else f"{strain:.3g} kg"
    raise AskedWronglyError(
        f"{material.name} of {q.write_diameter(diameter)} that breaks at {breaks_at} would bear "
        f"{stress_mpa(diameter, strain):,.0f} MPa; such line bears {material.low_mpa:.0f} to "
        f"{material.most_mpa:.0f} MPa (from memory).",
        right=f"Did you mean {meanings}?" if meanings else "Look at the packet again.",
        see="stock.as_printed",
    )


def make_item(session: Session, action: Action, new: NewItem, *, as_printed: bool = False) -> Item:
    """A new item of which nothing is there yet. Raises AskedWronglyError; see ``NewItem``.

    One whose adding was undone, and that is just the same, is in stock again under its number.
    """
    described = new.described
    figures, words = as_row(described), write(described)
    if not as_printed:
        question_line(figures)
    with _in_field("name" if new.name else ""):
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
    item.pack_price_cents = price_of(new)
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
    elif new.packs is None and described.left:
        move(session, action, item, round(float(described.left.value)), Why.COUNTED, "first count")
    else:
        packs = described.packs if new.packs is None else new.packs
        move(session, action, item, (1 if packs is None else packs) * item.pack_size, Why.BOUGHT)
    return item


def put_more(session: Session, action: Action, item: Item, new: NewItem) -> None:
    """More of an item that is there: its first wording stays, what else was said is taken over."""
    edit_item(session, item, place=new.place or None, minimum=new.minimum or None)
    if (price := price_of(new)) is not None:
        item.pack_price_cents = price
        session.add(item)
    if item.level:
        set_level(session, action, item, Level(level_of(new) or Level.PLENTY), Why.BOUGHT)
        return
    described = new.described
    if new.amount:
        more = read_amount(new.amount, item.measured)
    elif new.packs is None and described.count is not None:
        more = described.count
    elif new.packs is None and described.left:
        more = round(float(described.left.value))
    else:
        packs = described.packs if new.packs is None else new.packs
        more = (1 if packs is None else packs) * item.pack_size
    move(session, action, item, more, Why.BOUGHT)


def counted_by_tubs(described: "Described") -> "Described":
    """Shot that is counted, with what a tub of it usually holds where nobody says that."""
    from tacklebox.stock.naming.described import assumed
    from tacklebox.stock.naming.usual import CHOICE

    if described.kind != Kind.WEIGHT or described.pack or not described.count:
        return described
    return replace(described, pack=assumed(IN_A_TUB, str(IN_A_TUB), CHOICE))


def refuse_two_sayings(new: NewItem) -> None:
    """Refuse what the words say one way and what is given beside them another way: how much there is,
    what a packet holds, what it costs.

    Raises AskedWronglyError with both.
    """
    described, measured = new.described, new.described.measured
    said = None if not described.pack or described.pack.because else described.pack_size
    _refuse_two(
        "pack", said, new.pack_size, "a packet holds {}", lambda n: show_amount(n, measured)
    )
    _refuse_two("price", described.price_cents, new.pack_price_cents, "it costs {}", write_price)
    named, given = _so_much_named(new), _so_much_given(new)
    field = "amount" if new.amount else "packs"
    _refuse_two(field, named, given, "there is {} of it", lambda n: show_amount(n, measured))


def _so_much_named(new: NewItem) -> int | None:
    described = new.described
    if described.count is not None:
        return described.count
    if described.left:
        return round(float(described.left.value))
    return None if described.packs is None else described.packs * _holds(new)


def _so_much_given(new: NewItem) -> int | None:
    if new.amount:
        return read_amount(new.amount, new.described.measured)
    return None if new.packs is None else new.packs * _holds(new)


def _holds(new: NewItem) -> int:
    return new.pack_size or new.described.pack_size or 0


def _refuse_two(
    field: str, named: int | None, given: int | None, says: str, show: Callable[[int], str]
) -> None:
    if named is None or given is None or named == given:
        return
    raise AskedWronglyError(
        f"the words say {says.format(show(named))}, and {show(given)} is given beside them.",
        field=field,
        right="Say it once.",
    )


def price_of(new: NewItem) -> int | None:
    """What a packet costs: as given apart from the words, else as said in them."""
    said = new.pack_price_cents
    return new.described.price_cents if said is None else said


def _withdrawn(session: Session, name: str, words: str) -> Item | None:
    """The item of that name and those figures whose adding was undone."""
    query = select(Item).where(Item.name == name, Item.words == words, col(Item.withdrawn))
    return session.exec(query.order_by(col(Item.id).desc())).first()


def level_of(new: NewItem) -> str:
    """The level of a new item: as said; of shot of which no number is said, for that is a tub, plenty, or low
    where its note says that it is nearly gone."""
    described = new.described
    if new.level or described.kind != Kind.WEIGHT:
        return new.level
    numbers = (new.pack_size, described.pack_size, described.count, new.amount or None)
    if any(number is not None for number in numbers):
        return ""
    return Level.LOW if says_hardly_any(described.note) else Level.PLENTY


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
    """Change what is kept beside an item's figures, or a line's maker; what is None stays as it is.

    A price or a minimum of no words is taken away. Raises what is wrong with any of it, all together.
    """
    faults = FaultsOfFields(f"{item.name} cannot be changed so.")
    with faults.of("name"):
        if name is not None:
            item.name = free_name(session, tidy(name) or item.words, item.id)
    if place is not None:
        item.place = tidy(place)
    with faults.of("pack"):
        if pack is not None and pack.strip() != write_packet(item):
            item.pack_size = _packet_size(pack, item.measured)
            item.pack_said = packet_as_said(pack, item.measured)
    with faults.of("price"):
        if price is not None:
            item.pack_price_cents = read_price_cents(price) if price.strip() else None
    with faults.of("minimum"):
        if minimum is not None:
            item.minimum = read_amount(minimum, item.measured) if minimum.strip() else 0
    with faults.of("maker"):
        if maker is not None:
            _note_maker(session, item, tidy(maker))
    faults.refuse()
    session.add(item)
    session.flush()


def _packet_size(said: str, measured: bool) -> int:
    size = read_amount(said, measured)
    if size < 1:
        raise AskedWronglyError("a packet holds at least one.")
    return size


@contextmanager
def _in_field(name: str) -> Iterator[None]:
    """A fault within it names the field."""
    try:
        yield
    except AskedWronglyError as error:
        raise error.in_field(name) from None


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
