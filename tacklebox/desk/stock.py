"""Tackle in stock: what an angler does with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from tacklebox.desk.answers import Amount, amount_of, as_set, on_hand, packet
from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, CannotBeDoneError, FaultsOfFields, nearest_word

if TYPE_CHECKING:
    from sqlmodel import Session

    from tacklebox.stock.finding import Listed
    from tacklebox.stock.tables import Action, Item

MOST_PACKS = 10_000
TAKEN_FOR = ("lost", "thrown out", "tied")


@dataclass(frozen=True)
class ItemRow:
    """An item as it stands in a list."""

    number: int
    kind: str
    name: str
    words: str  # its figures in one line
    place: str
    on_hand: Amount
    minimum: Amount
    short: bool  # less is there than the minimum, or it is low or out
    packet: Amount
    packet_price_cents: int | None
    level: str  # plenty, low or out of what is not counted, "" of what is
    retired: bool = False


@dataclass(frozen=True)
class Lead:
    """Lead in stock that may not weight a line."""

    number: int
    name: str
    outcome: str
    says: str


@dataclass(frozen=True)
class StockList:
    """What is in stock, and the lead among it that may not weight a line."""

    items: tuple[ItemRow, ...]
    forbidden_lead: tuple[Lead, ...]


@dataclass(frozen=True)
class ShortItems:
    """What is short, of how many items in stock, and the lead among it that may not weight a line."""

    items: tuple[ItemRow, ...]
    of: int
    forbidden_lead: tuple[Lead, ...]


@dataclass(frozen=True)
class ItemShown:
    """One item with the figures of its kind, how much of it is on which reels and top kits, and whether
    it is lead that may not weight a line; ``supply`` is what the law says of selling that, "" of all else.
    """

    item: ItemRow
    figures: Mapping[str, Any]
    packet_price: str  # "" where none is known
    loaded: tuple[str, ...] = ()  # "120 m on feeder reel"
    forbidden_lead: Lead | None = None
    supply: str = ""


@dataclass(frozen=True)
class MovementRow:
    """One movement of an item, and what was there after it."""

    on: date
    why: str
    change: Amount
    then: Amount
    reason: str


@dataclass(frozen=True)
class ItemHistory:
    """Every movement of one item, oldest first."""

    item: int
    name: str
    movements: tuple[MovementRow, ...]


@dataclass(frozen=True)
class Moved:
    """An item after its amount was changed."""

    item: int
    name: str
    on_hand: Amount
    short: bool


@dataclass(frozen=True)
class Bought(Moved):
    """An item after more of it was bought, and whether it is lead that may not weight a line; ``supply`` is
    what the law says of selling that, "" of all else."""

    forbidden_lead: Lead | None
    supply: str


def listed(
    desk: Desk,
    words: str = "",
    *,
    kind: str = "",
    where: Sequence[str] = (),
    place: str = "",
    retired: bool = False,
) -> StockList:
    """What is in stock: all of it, or what the words, the kind with its figures and the place leave; or
    what is ``retired``.

    ``where`` narrows a kind by its figures, like "diameter 0.12 to 0.16 mm".
    """
    from tacklebox.stock.finding import list_items, looked_for
    from tacklebox.stock.lead import lead_in_stock

    if where and not kind:
        raise AskedWronglyError(
            "figures are of a kind.", field="where", right="Say the kind too: line, for example."
        )
    items: Sequence[Item | Listed]
    if kind:
        from tacklebox.stock.asks import read_filters
        from tacklebox.stock.inventory import Inventory

        ask = in_field("kind", lambda said: read_filters(said, list(where)), kind)
        with desk.box.reading() as session:
            stock = Inventory.read(session, [ask.kind]).by_kind[ask.kind]
            lead = lead_in_stock(session)
        items = [one.item for one in ask.among(stock)]
    else:
        with desk.box.reading() as session:
            items = list_items(session, retired=retired)
            lead = lead_in_stock(session)
    if place:
        items = [item for item in items if item.place.casefold() == place.strip().casefold()]
    if words:
        with desk.box.reading() as session:
            items = looked_for(session, items, words)
    shown = tuple(item_row(item) for item in items)
    numbers = {row.number for row in shown}
    forbidden = tuple(
        Lead(*_named(item), judged.outcome, judged.says)
        for item, judged in lead
        if item.id in numbers
    )
    return StockList(shown, forbidden)


def short(desk: Desk) -> ShortItems:
    """What there is less of than is wanted."""
    from sqlmodel import func, select

    from tacklebox.stock.finding import list_items
    from tacklebox.stock.lead import lead_among
    from tacklebox.stock.tables import IN_USE, Item

    with desk.box.reading() as session:
        items = list_items(session, short=True)
        all_items = session.exec(select(func.count()).select_from(Item).where(IN_USE)).one()
        judged = lead_among(session, [item.id or 0 for item in items])
    lead = tuple(
        Lead(item.id, item.name, judged[item.id].outcome, judged[item.id].says)
        for item in items
        if item.id in judged
    )
    return ShortItems(tuple(item_row(item) for item in items), all_items, lead)


def places(desk: Desk) -> tuple[str, ...]:
    """Where tackle lies, each place once, by name."""
    from tacklebox.stock.finding import list_items

    with desk.box.reading() as session:
        return tuple(sorted({item.place for item in list_items(session) if item.place}))


def show(desk: Desk, item: str) -> ItemShown:
    """One item, by its number or words that name it, with its figures."""
    from tacklebox.stock.amounts import write_price
    from tacklebox.stock.reels import list_reels
    from tacklebox.stock.tables import FIGURES

    with desk.box.reading() as session:
        found = find_item(session, item)
        row = session.get(FIGURES[found.kind], found.id)
        reels = [one.reel for one in list_reels(session) if one.reel.item_id == found.id]
        lead = lead_of(session, *_named(found))
    figures = row.model_dump(mode="json", exclude={"item_id"}) if row else {}
    price = found.pack_price_cents
    loaded = tuple(f"{as_set(found, one.loaded_mm)} on {one.name}" for one in reels)
    said = "" if price is None else write_price(price)
    return ItemShown(item_row(found), figures, said, loaded, lead, lead_supply() if lead else "")


def history(desk: Desk, item: str) -> ItemHistory:
    """Every movement of one item, oldest first, with what was there after each."""
    from tacklebox.stock.ledger import levels_after, movements_of

    with desk.box.reading() as session:
        found = find_item(session, item)
        movements = movements_of(session, found)
        levels = levels_after(session, found, movements)
    rows, total = [], 0
    for one, level in zip(movements, levels, strict=True):
        total += one.amount
        change, then = amount_of(found, one.amount), amount_of(found, total)
        if level:
            then = Amount(0, "level", level)
        rows.append(MovementRow(one.on, one.why, change, then, one.reason))
    return ItemHistory(*_named(found), tuple(rows))


def buy(desk: Desk, item: str, *, packs: int | str = 1, price: str = "", on: str = "") -> Bought:
    """Add packets bought of an item, its number or words that name it; ``price`` is a packet's.

    ``packs`` may be said in words: "2", "two packets".

    Raises AskedWronglyError for an item that is not known, packets, a price or a day that cannot be.
    """
    from tacklebox.stock.amounts import read_packets, read_price_cents
    from tacklebox.stock.tables import Why

    number, cents, faults = 0, None, FaultsOfFields("this was not bought.")
    with faults.of("packs"):
        number = packs if isinstance(packs, int) else read_packets(packs)
        if not 1 <= number <= MOST_PACKS:
            raise no_packets(number, 1)
    with faults.of("price"):
        cents = read_price_cents(price) if price else None
    faults.refuse()

    def bought(session: "Session", action: "Action", found: "Item") -> None:
        from tacklebox.stock.ledger import move, set_level
        from tacklebox.stock.levels import Level

        if cents is not None:
            found.pack_price_cents = cents
            session.add(found)
        if found.level:
            set_level(session, action, found, Level.PLENTY, Why.BOUGHT)
        else:
            move(session, action, found, number * found.pack_size, Why.BOUGHT)

    now = _change(desk, item, "buy", on, bought)
    with desk.box.reading() as session:
        lead = lead_of(session, now.item, now.name)
    return Bought(now.item, now.name, now.on_hand, now.short, lead, lead_supply() if lead else "")


def count(desk: Desk, item: str, counted: str, *, on: str = "") -> Moved:
    """Put right what is on hand, as counted: "23", "85 m"; what had a level is counted from here on."""
    from tacklebox.stock.amounts import read_amount
    from tacklebox.stock.ledger import count_anew

    def put_right(session: "Session", action: "Action", found: "Item") -> None:
        now = in_field("amount", lambda said: read_amount(said, found.measured), counted)
        count_anew(session, action, found, now)

    return _change(desk, item, "count", on, put_right)


def level(desk: Desk, item: str, said: str, *, not_counted: bool = False, on: str = "") -> Moved:
    """Say of what is not counted that there is plenty of it, that it is low, or out.

    With ``not_counted`` an item is counted no longer from here on. Raises AskedWronglyError for another
    word, for an item that is counted, and for line, elastic and hooklengths, which always are.
    """
    from tacklebox.stock.ledger import refuse_counted, set_level
    from tacklebox.stock.levels import read_level

    wanted = in_field("level", read_level, said)

    def set_to(session: "Session", action: "Action", found: "Item") -> None:
        if not not_counted:
            in_field("item", refuse_counted, found)
        set_level(session, action, found, wanted)

    return _change(desk, item, "level", on, set_to)


def take(
    desk: Desk, item: str, how_much: str, *, why: str = "lost", reason: str = "", on: str = ""
) -> Moved:
    """Take something out of stock: "lost", "thrown out", or "tied" by hand."""
    if why not in TAKEN_FOR:
        raise AskedWronglyError(
            f'"{why}" is no reason here.', field="why", right=nearest_word(why, TAKEN_FOR)
        )
    return _move_by(desk, item, how_much, -1, why, reason, on)


def give(desk: Desk, item: str, how_much: str, *, reason: str = "", on: str = "") -> Moved:
    """Give something back to stock."""
    return _move_by(desk, item, how_much, 1, "given back", reason, on)


def correct(desk: Desk, item: str, change: str, *, reason: str, on: str = "") -> Moved:
    """Mend a mistake by a movement of its own, up or down: "+2", "-10 m"."""
    sign, rest = change.strip()[:1], change.strip()[1:]
    if sign not in ("+", "-", "−") or not rest:
        raise AskedWronglyError(
            f'"{change}" is no change.', field="change", right='Write it like "+2" or "-10 m".'
        )
    return _move_by(desk, item, rest, 1 if sign == "+" else -1, "corrected", reason, on)


def _move_by(
    desk: Desk, item: str, how_much: str, sign: int, why: str, reason: str, on: str
) -> Moved:
    from tacklebox.stock.amounts import read_amount
    from tacklebox.stock.ledger import move, refuse_uncounted
    from tacklebox.stock.tables import Why

    def move_by(session: "Session", action: "Action", found: "Item") -> None:
        change = in_field("amount", lambda said: read_amount(said, found.measured), how_much)
        in_field("item", refuse_uncounted, found)
        if change == 0:
            raise AskedWronglyError(
                "the amount is nothing.", field="amount", right="Write how much."
            )
        try:
            move(session, action, found, sign * change, Why(why), reason)
        except CannotBeDoneError as error:
            raise error.in_field("amount") from None

    return _change(desk, item, {"corrected": "correct"}.get(why, why), on, move_by)


def edit(
    desk: Desk,
    item: str,
    *,
    name: str | None = None,
    place: str | None = None,
    pack: str | None = None,
    price: str | None = None,
    minimum: str | None = None,
    maker: str | None = None,
    was: Mapping[str, str] | None = None,
    on: str = "",
) -> Moved:
    """Change an item's name, place, packet, price or minimum, or a line's maker; what is None stays.

    ``was`` is what some of them were when they were shown. Raises AskedWronglyError where one of those is
    another by now.
    """
    from tacklebox.stock.entering import edit_item

    def edited(session: "Session", _action: "Action", found: "Item") -> None:
        _refuse_changed(session, found, was or {})
        edit_item(
            session,
            found,
            name=name,
            place=place,
            pack=pack,
            price=price,
            minimum=minimum,
            maker=maker,
        )

    return _change(desk, item, "edit", on, edited)


def _refuse_changed(session: "Session", item: "Item", was: Mapping[str, str]) -> None:
    """Raises AskedWronglyError where something is no longer as it was shown."""
    from tacklebox.stock.amounts import write_price
    from tacklebox.stock.tables import FIGURES

    row, price = item_row(item), item.pack_price_cents
    now = {
        "name": item.name,
        "place": item.place,
        "pack": str(row.packet),
        "price": "" if price is None else write_price(price),
        "minimum": str(row.minimum) if row.minimum.value else "",
        "maker": getattr(session.get(FIGURES[item.kind], item.id), "maker", ""),
    }
    faults = FaultsOfFields("it was changed elsewhere since this was shown.")
    for field, words in was.items():
        with faults.of(field):
            if now[field] != words:
                raise AskedWronglyError(
                    f'it was changed elsewhere since this was shown: it is "{now[field]}" now.',
                    right="Nothing was written over. Say again what it should be.",
                )
    faults.refuse()


def _change(desk: Desk, item: str, what: str, on: str, change: "Any") -> Moved:
    """One action on one item, in a transaction of its own."""
    from tacklebox.stock.ledger import begin, refuse_retired

    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = find_item(session, item)
        in_field("item", refuse_retired, found)
        change(session, begin(session, what, day), found)
    return moved(found)


def lead_of(session: "Session", number: int, name: str) -> Lead | None:
    """The judgement on an item that is lead which may not weight a line, else None."""
    return next(iter(leads_among(session, {number: name})), None)


def leads_among(session: "Session", names: "Mapping[int, str]") -> tuple[Lead, ...]:
    """The items among these, by their numbers, that are lead which may not weight a line."""
    from tacklebox.stock.lead import lead_among

    found = lead_among(session, names)
    return tuple(Lead(one, names[one], said.outcome, said.says) for one, said in found.items())


def lead_supply() -> str:
    """Which lead may not be sold, and which law says so."""
    from tacklebox.trade.law import lead_trade

    caution = lead_trade()
    return f"{caution.says.removesuffix('.')} ({caution.source.citation})."


def moved(item: "Item") -> Moved:
    """An item as it is after its amount was changed."""
    from tacklebox.stock.levels import is_short

    return Moved(*_named(item), on_hand(item), is_short(item))


def find_item(session: "Session", said: str) -> "Item":
    """The one item that is meant by its number or by words; a fault names the field."""
    from tacklebox.stock.finding import find

    return in_field("item", lambda text: find(session, text), said)


def item_row(item: "Item | Listed") -> ItemRow:
    """An item as it stands in a list."""
    from tacklebox.stock.levels import is_short, least

    assert item.id is not None
    return ItemRow(
        item.id,
        item.kind,
        item.name,
        item.words,
        item.place,
        on_hand(item),
        as_set(item, least(item)),
        is_short(item),
        packet(item),
        item.pack_price_cents,
        item.level,
        item.retired,
    )


def _named(item: "Item") -> tuple[int, str]:
    assert item.id is not None
    return item.id, item.name


def no_packets(packs: int, least: int) -> AskedWronglyError:
    """The fault of a number of packets that nobody buys."""
    return AskedWronglyError(
        f"{packs} packets cannot be bought.", field="packs", right=f"From {least} to {MOST_PACKS}."
    )
