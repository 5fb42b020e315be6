"""Reels and top kits: which line or elastic is on which, how much, since when.

Loading takes from the spool by a movement, so that the spool and the reel together are what was bought. What
is thrown off a reel is no movement: it left the spool when it was loaded.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from sqlmodel import Session, col, not_, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, nearest_word
from tacklebox.signs import tidy
from tacklebox.stock.amounts import show_amount, show_round
from tacklebox.stock.ledger import move
from tacklebox.stock.tables import Action, Item, Kind, Reel, Why

MOST_LETTERS = 60


class Holder(StrEnum):
    """What line or elastic is loaded on."""

    REEL = "reel"
    TOP_KIT = "top kit"


LOADED_WITH = {Holder.REEL: Kind.LINE, Holder.TOP_KIT: Kind.ELASTIC}


@dataclass(frozen=True)
class ReelLoad:
    """A reel or top kit that is in use, and the item on it; None where it is empty."""

    reel: Reel
    item: Item | None

    @property
    def since(self) -> date | None:
        """The day on which it was loaded."""
        return self.reel.loaded_on


def list_reels(session: Session) -> list[ReelLoad]:
    """All that are in use, reels first, in the order they were added."""
    query = (
        select(Reel, Item)
        .join(Item, col(Item.id) == Reel.item_id, isouter=True)
        .where(not_(col(Reel.withdrawn)), not_(col(Reel.retired)))
        .order_by(col(Reel.what), col(Reel.id))
    )
    return [ReelLoad(reel, item) for reel, item in session.exec(query)]


def holders(session: Session) -> dict[int, tuple[str, ...]]:
    """The names of the reels and top kits that an item is on, by the item's number."""
    found: dict[int, tuple[str, ...]] = {}
    query = (
        select(Reel.item_id, Reel.name)
        .where(col(Reel.item_id).is_not(None), col(Reel.loaded_mm) > 0)
        .where(not_(col(Reel.withdrawn)), not_(col(Reel.retired)))
        .order_by(col(Reel.id))
    )
    for number, name in session.exec(query):
        found[number or 0] = (*found.get(number or 0, ()), name)
    return found


def find_reel(session: Session, said: str) -> Reel:
    """The reel or top kit of that name, whatever its case. Raises AskedWronglyError where there is none."""
    plain = _plain(said)
    every = [loaded.reel for loaded in list_reels(session)]
    named = [reel for reel in every if _plain(reel.name) == plain]
    named = named or [reel for reel in every if plain and plain in _plain(reel.name)]
    if len(named) == 1:
        return named[0]
    names = [reel.name for reel in named or every]
    if named:
        raise AskedWronglyError(
            f'"{said}" may be several.', right=f"Say which: {'; '.join(names)}."
        )
    raise AskedWronglyError(
        f'no reel or top kit is called "{said}".',
        right=nearest_word(said, names) if names else "",
        see="" if names else "reels.add",
    )


def _plain(name: str) -> str:
    """A name as far as it tells reels apart."""
    return tidy(name.replace("-", " ").replace("_", " ")).casefold()


def add_reel(session: Session, name: str, what: Holder) -> Reel:
    """A new reel or top kit with nothing on it. Raises AskedWronglyError for a name that is none or taken."""
    reel = Reel(name=_free_name(session, name), what=what.value)
    session.add(reel)
    session.flush()
    return reel


def rename_reel(session: Session, reel: Reel, name: str) -> None:
    """Give it another name; raises as ``add_reel``."""
    reel.name = _free_name(session, name, reel)
    session.add(reel)
    session.flush()


def _free_name(session: Session, said: str, own: Reel | None = None) -> str:
    name = tidy(said)
    if not name or len(name) > MOST_LETTERS:
        raise AskedWronglyError(
            "it needs a name." if not name else f"the name is {len(name)} letters long.",
            field="called",
            right=f'Write one of up to {MOST_LETTERS} letters, like "feeder reel" or "top kit 3".',
        )
    for other in (loaded.reel for loaded in list_reels(session)):
        if _plain(other.name) == _plain(name) and (own is None or other.id != own.id):
            raise AskedWronglyError(
                f'a {other.what} is called so already: "{other.name}".',
                field="called",
                right="Give this one another name.",
            )
    return name


def load_reel(
    session: Session,
    action: Action,
    reel: Reel,
    item: Item,
    amount: int,
    *,
    already: bool = False,
    backing: str = "",
) -> None:
    """Load so much of an item (mm), taken from its spool; the reel must be empty.

    Of what was on it ``already`` nothing is missing from the spool: it is counted first. ``backing`` is what
    lies under it, in the angler's words.
    Raises AskedWronglyError for what does not go on it or is nothing, CannotBeDoneError where it is not
    empty or the spool has less.
    """
    kind = LOADED_WITH[Holder(reel.what)]
    if item.kind != kind:
        raise AskedWronglyError(
            f"{item.name} does not go on a {reel.what}.",
            field="item",
            right=f"Name {kind} for it.",
            see="reels.top_kit" if item.kind == Kind.ELASTIC else "",
        )
    if amount < 1:
        raise AskedWronglyError("the amount is nothing.", field="amount", right="Write how much.")
    if reel.item_id is not None:
        on_it = session.get_one(Item, reel.item_id)
        raise CannotBeDoneError(
            f"{show_round(reel.loaded_mm, True, on_it.pack_said)} of {on_it.name} is on {reel.name} "
            f"since {reel.loaded_on}.",
            field="reel",
            see="reels.instead",
        )
    if already:
        move(session, action, item, amount, Why.COUNTED, f"was on {reel.name} already")
    elif amount > item.on_hand:
        raise CannotBeDoneError(
            f"{show_round(amount, True, item.pack_said)} of {item.name} cannot be loaded: "
            f"{show_amount(item.on_hand, True, item.pack_said)} is in stock.",
            field="amount",
            right="Nothing was changed.",
            see="stock.count",
        )
    move(session, action, item, -amount, Why.LOADED, f"on {reel.name}")
    reel.item_id, reel.loaded_mm, reel.loaded_on = item.id, amount, action.on
    reel.backing = tidy(backing)[:MOST_LETTERS]
    session.add(reel)
    session.flush()


def unload_reel(session: Session, action: Action, reel: Reel, *, back: bool = False) -> Item:
    """Take off what is on it, and hand back its item: thrown out, or wound ``back`` on its spool.

    Raises CannotBeDoneError where it is empty.
    """
    item = _on_it(session, reel)
    if back:
        move(session, action, item, reel.loaded_mm, Why.GIVEN_BACK, f"from {reel.name}")
    reel.item_id, reel.loaded_mm, reel.loaded_on, reel.backing = None, 0, None, ""
    session.add(reel)
    session.flush()
    return item


def shorten_reel(session: Session, reel: Reel, by: int) -> Item:
    """So much (mm) was cut off or lost of what is on it; hands back the item.

    Raises AskedWronglyError for nothing, CannotBeDoneError for all of it or more.
    """
    item = _on_it(session, reel)
    if by < 1:
        raise AskedWronglyError("the amount is nothing.", field="amount", right="Write how much.")
    if by >= reel.loaded_mm:
        raise CannotBeDoneError(
            f"{show_round(by, True, item.pack_said)} cannot be cut off {reel.name}: "
            f"{show_round(reel.loaded_mm, True, item.pack_said)} is on it.",
            field="amount",
            see="reels.unload",
        )
    reel.loaded_mm -= by
    session.add(reel)
    session.flush()
    return item


def retire_reel(session: Session, reel: Reel) -> None:
    """Take it out of use, with what is on it; its history stays."""
    reel.retired = True
    session.add(reel)
    session.flush()


def _on_it(session: Session, reel: Reel) -> Item:
    if reel.item_id is None:
        raise CannotBeDoneError(
            f"nothing is on {reel.name}.", field="reel", right="Nothing was changed."
        )
    return session.get_one(Item, reel.item_id)


def names_in_words(names: Sequence[str]) -> str:
    """Names of reels in a sentence.

    >>> names_in_words(["feeder reel", "bomb reel"])
    'feeder reel or bomb reel'
    """
    return " or ".join(names)
