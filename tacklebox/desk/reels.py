"""Reels and top kits: added, loaded from a spool, cut back, emptied, retired; what is on which."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Amount, NamedItem, as_set
from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import Moved, find_item, moved
from tacklebox.errors import AskedWronglyError, nearest_word

if TYPE_CHECKING:
    from sqlmodel import Session

    from tacklebox.stock.reels import ReelLoad
    from tacklebox.stock.tables import Action, Item, Reel

ALL = ("all", "all of it", "the lot", "everything")  # of what is on the spool
HALF = ("half", "half of it", "half the spool", "half a spool", "half of the spool")
# Alone among other names, these are a part of one: "match reel".
NO_NAME = ("reel", "reels", "top", "kit", "top kit", "rod", "pole", "spool")


@dataclass(frozen=True)
class ReelRow:
    """A reel or a top kit, and what is on it: which item, how much, since when; None where it is empty.

    ``backing`` is what lies under it, where that was said.
    """

    reel: str
    what: str  # "reel" or "top kit"
    item: NamedItem | None
    loaded: Amount | None
    since: date | None
    backing: str


@dataclass(frozen=True)
class OnReel:
    """A reel after something was done to it, and the item that it was done with as it is now."""

    reel: ReelRow
    item: Moved | None


def listed(desk: Desk) -> tuple[ReelRow, ...]:
    """All reels and top kits that are in use, reels first."""
    from tacklebox.stock.reels import list_reels

    with desk.box.reading() as session:
        return tuple(_row(one) for one in list_reels(session))


def add(
    desk: Desk, names: Sequence[str], *, what: str = "reel", on: str = ""
) -> tuple[ReelRow, ...]:
    """Add reels, or top kits, by their names: all of them or none.

    Raises AskedWronglyError for a name that is none or taken, and for what is neither.
    """
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.reels import Holder, ReelLoad, add_reel

    if what not in list(Holder):
        raise AskedWronglyError(
            f'"{what}" is neither a reel nor a top kit.',
            field="what",
            right=nearest_word(what, list(Holder)),
        )
    if not names:
        raise AskedWronglyError("it needs a name.", field="called", right='Like "feeder reel".')
    if len(names) > 1 and any(name.strip().lower() in NO_NAME for name in names):
        one = " ".join(names)
        raise AskedWronglyError(
            f'"{one}" was read as {len(names)} {what}s.',
            field="called",
            right=f'Put a name of several words in quotes: "{one}".',
        )
    kits = [name for name in names if name.strip().lower().startswith(("top kit", "topkit"))]
    if kits and what == Holder.REEL:
        raise AskedWronglyError(
            f'"{kits[0]}" is called a top kit, not a reel.', field="called", see="reels.top_kit"
        )
    day, holder = past_day(desk, on), Holder(what)
    with desk.box.writing() as session:
        begin(session, f"add {', '.join(names)}", day)
        added = [add_reel(session, name, holder) for name in names]
        return tuple(_row(ReelLoad(reel, None)) for reel in added)


def load(
    desk: Desk,
    reel: str,
    item: str,
    how_much: str,
    *,
    already: bool = False,
    instead: bool = False,
    backing: str = "",
    on: str = "",
) -> OnReel:
    """Load so much of an item, taken from its spool: "150 m", or "all" that is on it.

    ``instead``: what is on the reel is thrown out first. ``already``: it was on before, so nothing is
    taken; an item that the box does not know is added by its words. Raises AskedWronglyError for what is
    not known or does not go on it, CannotBeDoneError where the reel is not empty or the spool has less.
    """
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.reels import find_reel, load_reel, unload_reel

    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = in_field("reel", lambda said: find_reel(session, said), reel)
        action = begin(session, f"load {found.name}", day)
        spool = _spool(session, action, item, already=already)
        mm = in_field("amount", lambda said: _mm(said, spool, already=already), how_much)
        if instead and found.item_id is not None:
            unload_reel(session, action, found)
        load_reel(session, action, found, spool, mm, already=already, backing=backing)
        return _answer(found, spool)


def _spool(session: "Session", action: "Action", said: str, *, already: bool) -> "Item":
    """The item that is meant; one that is on a reel already is added where the box does not know it."""
    try:
        return find_item(session, said)
    except AskedWronglyError as error:
        if not already or error.see != "stock.listed" or said.strip().isdecimal():
            raise
    from tacklebox.stock.entering import NewItem, add_item
    from tacklebox.stock.notation import read_notation

    described = in_field("item", read_notation, said)
    return in_field("item", lambda one: add_item(session, action, NewItem(one, packs=0)), described)


def _mm(said: str, spool: "Item", *, already: bool) -> int:
    if said.strip().lower() in ALL and not already:
        return spool.on_hand
    if said.strip().lower() in HALF and not already:
        return spool.on_hand // 2
    return _length_mm(said)


def _length_mm(said: str) -> int:
    from tacklebox.stock.amounts import read_amount

    try:
        return read_amount(said, measured=True)
    except AskedWronglyError as error:
        raise AskedWronglyError(error.what, right='Write it like "20 m".') from None


def unload(desk: Desk, reel: str, *, back: bool = False, on: str = "") -> OnReel:
    """Take off what is on a reel or top kit: thrown out, or wound ``back`` on its spool.

    Raises AskedWronglyError where there is no such reel, CannotBeDoneError where it is empty.
    """
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.reels import unload_reel

    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = _found(session, reel)
        action = begin(session, f"{'unload' if back else 'throw out what is on'} {found.name}", day)
        item = unload_reel(session, action, found, back=back)
        return _answer(found, item)


def shorten(desk: Desk, reel: str, by: str, *, on: str = "") -> OnReel:
    """So much of what is on a reel was cut off or lost: "20 m".

    Raises AskedWronglyError for no length, CannotBeDoneError where less is on it.
    """
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.reels import shorten_reel

    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = _found(session, reel)
        cut = in_field("amount", _length_mm, by)
        begin(session, f"cut back {found.name}", day)
        return _answer(found, shorten_reel(session, found, cut))


def rename(desk: Desk, reel: str, name: str, *, on: str = "") -> OnReel:
    """Give a reel or top kit another name. Raises AskedWronglyError for one that is none or taken."""
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.reels import rename_reel
    from tacklebox.stock.tables import Item

    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = _found(session, reel)
        begin(session, f"rename {found.name}", day)
        rename_reel(session, found, name)
        item = session.get_one(Item, found.item_id) if found.item_id else None
        return _answer(found, item)


def retire(desk: Desk, reel: str, *, on: str = "") -> ReelRow:
    """Take a reel or top kit out of use, with what is on it; it is in no list any more."""
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.reels import ReelLoad, retire_reel
    from tacklebox.stock.tables import Item

    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = _found(session, reel)
        begin(session, f"retire {found.name}", day)
        retire_reel(session, found)
        item = session.get_one(Item, found.item_id) if found.item_id else None
        return _row(ReelLoad(found, item))


def _found(session: "Session", said: str) -> "Reel":
    from tacklebox.stock.reels import find_reel

    return in_field("reel", lambda text: find_reel(session, text), said)


def _answer(reel: "Reel", item: "Item | None") -> OnReel:
    from tacklebox.stock.reels import ReelLoad

    row = _row(ReelLoad(reel, item if reel.item_id else None))
    return OnReel(row, moved(item) if item else None)


def _row(loaded: "ReelLoad") -> ReelRow:
    reel, item = loaded.reel, loaded.item
    return ReelRow(
        reel.name,
        reel.what,
        NamedItem(item.id or 0, item.name) if item else None,
        as_set(item, reel.loaded_mm) if item else None,
        reel.loaded_on,
        reel.backing,
    )
