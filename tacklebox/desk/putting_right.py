"""An item that was put in wrongly is put right, and one that is done with is retired."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tacklebox.desk.adding import described_by
from tacklebox.desk.asking import past_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import ItemRow, find_item, item_row

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlmodel import Session

    from tacklebox.stock.tables import Action, Item


def reword(
    desk: Desk,
    item: str,
    words: str,
    *,
    answers: Sequence[str] = (),
    anew: bool = False,
    on: str = "",
    as_printed: bool = False,
) -> ItemRow:
    """Say anew what an item is; ``anew`` retires it and puts a new one in its place.

    ``answers`` are those to ``adding.question_of_words``. Raises CannotBeDoneError once something was
    tied from the item, and for another kind of tackle, unless ``anew``.
    """
    described = described_by(words, answers)

    def put_right(session: "Session", action: "Action", found: "Item") -> "Item":
        from tacklebox.stock import putting_right

        if anew:
            return putting_right.put_in_its_place(
                session, action, found, described, as_printed=as_printed
            )
        putting_right.reword(session, found, described, as_printed=as_printed)
        return found

    return _change(desk, item, "reword", on, put_right)


def retire(desk: Desk, item: str, *, on: str = "") -> ItemRow:
    """Hide an item from lists, labels and rigs; its history is kept."""

    def hide(session: "Session", _action: "Action", found: "Item") -> "Item":
        from tacklebox.stock import putting_right

        putting_right.retire(session, found)
        return found

    return _change(desk, item, "retire", on, hide)


def unretire(desk: Desk, item: str, *, on: str = "") -> ItemRow:
    """Put a retired item, by its number, in use again."""

    def show(session: "Session", _action: "Action", found: "Item") -> "Item":
        from tacklebox.stock import putting_right

        putting_right.unretire(session, found)
        return found

    return _change(desk, item, "unretire", on, show)


def _change(
    desk: Desk,
    item: str,
    what: str,
    on: str,
    change: "Callable[[Session, Action, Item], Item]",
) -> ItemRow:
    from tacklebox.stock.ledger import begin

    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = find_item(session, item)
        return item_row(change(session, begin(session, what, day), found))
