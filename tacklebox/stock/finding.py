"""Items found again: by number, name or words, and listed with what is on hand."""

import re
from collections.abc import Sequence
from datetime import date
from typing import NamedTuple, Protocol, TypeVar

from sqlmodel import Session, and_, col, or_, select

from tacklebox.errors import AskedWronglyError, SeveralFitError
from tacklebox.stock.amounts import show_amount
from tacklebox.stock.levels import TO_BUY, Level
from tacklebox.stock.tables import (
    IN_USE,
    MEASURED_KINDS,
    RETIRED,
    Item,
)

MOST_OFFERED = 6
# What has a figure in it that may be written otherwise.
_WRITTEN_OTHERWISE = re.compile(
    r"[./,½¼¾⅓⅔⅛⅜⅝]\d|[½¼¾⅓⅔⅛⅜⅝]|half|quarter|third|eighth|sixteenth|point|lb|ft"
)


def write_packet(item: "Item | Listed") -> str:
    """What a packet of it holds, as it was said: "10", "100 yd"."""
    return item.pack_said or show_amount(item.pack_size, item.measured)


def write_gap(item: "Item | Listed", left: int, needed: int) -> str:
    """What there is of an item, and what is needed: "hook 20: 2 left, 4 needed"."""
    if item.level == Level.OUT:
        return f"{item.name}: {Level.OUT}"
    has, takes = (show_amount(max(a, 0), item.measured, item.pack_said) for a in (left, needed))
    return f"{item.name}: {has} left, {takes} needed"


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
    def id(self) -> int | None: ...
    @property
    def name(self) -> str: ...
    @property
    def words(self) -> str: ...
    @property
    def place(self) -> str: ...
    @property
    def kind(self) -> str: ...


Worded = TypeVar("Worded", bound=_Worded)


def list_items(
    session: Session, kind: str | None = None, *, retired: bool = False, short: bool = False
) -> list[Listed]:
    """All items in use, or those of a kind, in the order they were added; or the ``retired`` ones.

    ``short``: only those of which there is less than the angler wants to have.
    """
    query = select(*(getattr(Item, column) for column in Listed._fields)).order_by(col(Item.id))
    query = query.where(RETIRED if retired else IN_USE)
    if short:  # as ``levels.is_short`` says it
        counted, level = col(Item.level) == "", col(Item.level).in_(TO_BUY)
        query = query.where(or_(and_(counted, Item.on_hand < Item.minimum), level))
    if kind:
        query = query.where(Item.kind == kind)
    return [Listed._make(row) for row in session.exec(query)]


def load(session: Session, kind: str | None = None) -> list[Item]:
    """As ``list_items``, as items that can be changed."""
    query = select(Item).where(IN_USE).order_by(col(Item.id))
    return list(session.exec(query.where(Item.kind == kind) if kind else query))


def search(items: Sequence[Worded], text: str) -> list[Worded]:
    """The items in whose name, figures or place every word occurs, or a figure that is equal to it."""
    words = [word for word in text.lower().replace("×", "x").split() if word]
    is_equal = None
    if _WRITTEN_OTHERWISE.search(text):
        from tacklebox.stock.equal_figures import with_figures_of

        is_equal = with_figures_of(text)
    found = []
    for item in items:
        searched = f"{item.name} {item.words} {item.place} {item.kind}".lower().replace("×", "x")
        if all(word in searched or _one_of(word) in searched for word in words) or (
            is_equal and is_equal(searched)
        ):
            found.append(item)
    return found


def looked_for(session: Session, items: Sequence[Worded], said: str) -> list[Worded]:
    """The items that are meant by words as an angler says them: "have i any big cage feeders", "pelet wag".

    As they stand, else without what is said round them, else by what they mean, else by those that name
    a thing.
    """
    if found := search(items, said):
        return found
    from tacklebox.stock.naming.looking import plainly, ways_to_say
    from tacklebox.stock.same_items import items_meant

    plain = plainly(said)
    if found := search(items, plain):
        return found
    meant = items_meant(session, plain)
    if found := [item for item in items if item.id in meant]:
        return found
    return next((found for words in ways_to_say(plain) if (found := search(items, words))), [])


def _letters(text: str) -> str:
    """Without spaces and signs: "1oz" is in "part 'quiver tip 1 oz'"."""
    return "".join(letter for letter in text.lower() if letter.isalnum())


def _one_of(word: str) -> str:
    """Of a plural its word: "quiver tips" finds a quiver tip."""
    return word.removesuffix("s") if len(word) > 3 else word


def find(session: Session, said: str) -> Item:
    """The one item that is meant by its number or by words.

    Raises AskedWronglyError when none or several fit.
    """
    plain = said.strip().removeprefix("#")
    if not plain:
        raise AskedWronglyError("no item is named.", right="Say its number, or words of its name.")
    if plain.isdecimal() and plain.isascii() and len(plain) < 12:
        item = session.get(Item, int(plain))
        if item is None:
            raise AskedWronglyError(f"there is no item {plain}.", see="stock.listed")
        if item.withdrawn:
            raise AskedWronglyError(
                f"there is no item {plain} any more: what put {item.name} in was undone.",
                see="stock.listed",
            )
        return item
    items = list_items(session)
    exact = [item for item in items if said.strip() in (item.name, item.words)]
    found = exact if len(exact) == 1 else _by_words(session, items, said)
    if len(found) == 1:
        return session.get_one(Item, found[0].id)
    if not found:
        raise AskedWronglyError(f'nothing in stock is called "{said}".', see="stock.listed")
    raise several_fit(said, f"{len(found)} items", [(item.id, item.name) for item in found])


def several_fit(
    said: str, what: str, found: Sequence[tuple[int | None, str]], also: str = ""
) -> SeveralFitError:
    """That words fit several things: the first of them by number, to be chosen from.

    ``also`` is what would tell them apart as well as a number.
    """
    some = found[:MOST_OFFERED]
    names = "; ".join(f"{number} {name}" for number, name in some)
    more = f"; and {len(found) - len(some)} more" if len(found) > len(some) else ""
    return SeveralFitError(
        f'"{said.strip()}" fits {what}.',
        said.strip(),
        [(str(number), name) for number, name in some],
        right=f"Say which by its number{also}: {names}{more}.",
    )


def _by_words(session: Session, items: Sequence[Listed], said: str) -> list[Listed]:
    """By words as said, else by what they describe ("hooks size 18", "1 kg nylon" for 2.2 lb)."""
    from tacklebox.stock.same_items import items_meant

    phrase = " ".join(said.lower().split())
    found = [i for i in items if phrase in i.name.lower() or phrase in i.words.lower()]
    if len(found) == 1:  # "winder 18 cm" is not the winder of 13 cm by 18 mm
        return found
    found = search(items, said) or [i for i in items if _letters(said) in _letters(i.words)]
    if found:
        return found
    meant = items_meant(session, said)
    return [item for item in items if item.id in meant]
