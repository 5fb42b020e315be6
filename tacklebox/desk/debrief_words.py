"""What is said in a debrief, read field by field: rigs by their codes, tackle, weights."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tacklebox.desk.answers import Amount, amount_of
from tacklebox.desk.asking import celsius, in_field
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

NONE = "none"  # clears what stands

ALL = "all"


@dataclass(frozen=True)
class RigAsked:
    """A rig that may have been taken; ``only_back`` says why it cannot have been lost or worn out.

    ``in_bag``: it was ticked, so that something is to be said of it. ``rig`` says what it is, where no
    heading does.
    """

    code: str
    only_back: str = ""
    in_bag: bool = False
    rig: str = ""


@dataclass(frozen=True)
class TackleAsked:
    """Tackle that may have been lost beside whole rigs, and how much of it there was."""

    item: int
    name: str
    stock_before: Amount


def weight_words(weight_g: float | None) -> str:
    from tacklebox.trade.units_first import show_weighed

    return "" if weight_g is None else show_weighed(weight_g)


def read_rigs(
    said: str, among: Sequence[RigAsked], became: str, stands: Sequence[str] = ()
) -> tuple[str, ...]:
    """The rigs that are said of those asked for: their codes, "all", or nothing for none.

    ``became`` is the field they are said for; ``stands`` are those that it says already. Raises
    AskedWronglyError for a code that is not among them, offering near ones, and for a rig of which
    that cannot have become.
    """
    asked = {rig.code: rig for rig in among}
    if cleared(said).lower() == ALL:
        codes = list(asked)
    else:
        codes = [_code_among(word, list(asked)) for word in _words(said)]
    for code in codes:
        why = asked[code].only_back
        if why and code not in stands and became in ("lost", "worn_out"):
            raise AskedWronglyError(why, field=became)
    return tuple(dict.fromkeys(codes))


def _words(said: str) -> list[str]:
    from tacklebox.stock.codes import each_code

    return each_code([words]) if (words := cleared(said)) else []


def _code_among(typed: str, codes: Sequence[str]) -> str:
    from tacklebox.stock.codes import near_codes, read_code

    near = near_codes(typed, list(codes))
    right = f"Near it: {', '.join(near)}." if near else f"There are {', '.join(codes)}."
    try:
        code = read_code(typed)
    except AskedWronglyError as error:
        raise AskedWronglyError(error.what, right=right) from None
    if code not in codes:
        raise AskedWronglyError(f"{code} is not among these.", right=right)
    return code


def read_tackle(said: str, asked: TackleAsked) -> str:
    """How much of an item was lost, "" for none.

    Raises AskedWronglyError for no amount of it, and for more than there was.
    """
    words = cleared(said)
    return words if words and _lost(words, asked.stock_before, asked.name) else ""


def _lost(words: str, stock_before: Amount, name: str) -> int:
    from tacklebox.stock.amounts import read_amount

    lost = read_amount(words, stock_before.unit == "mm")
    if lost > stock_before.value:
        raise AskedWronglyError(
            f"{words} of {name} cannot be lost: {stock_before} is in stock.",
            field="tackle_lost",
        )
    return lost


def read_other_tackle(
    desk: Desk, said: Mapping[str, str], besides: Sequence[str]
) -> dict[str, str]:
    """Other tackle that was lost, by the names of its items.

    ``besides`` are names that are answered already. Raises AskedWronglyError for what is not known,
    is named twice, or cannot be lost.
    """
    from tacklebox.stock.finding import find
    from tacklebox.stock.ledger import refuse_uncounted

    found: dict[str, str] = {}
    for words, lost in said.items():
        with desk.box.reading() as session:
            item = in_field("tackle_lost", lambda text: find(session, text), words)
        in_field("tackle_lost", refuse_uncounted, item)
        if item.name in {*besides, *found}:
            raise AskedWronglyError(
                f"{item.name} is answered already.", field="tackle_lost", right="Name it once."
            )
        if _lost(lost, amount_of(item, item.on_hand), item.name):
            found[item.name] = lost
    return found


def read_weight(said: str) -> float | None:
    """What was weighed in, in g; None where nothing is said of it."""
    from tacklebox.trade.quantities import read_weighed_g

    words = cleared(said)
    return in_field("weight", read_weighed_g, words) if words else None


def weighed(said: str) -> str:
    """A weight as it is understood, in kilograms and in pounds and ounces."""
    return weight_words(read_weight(said))


def cleared(said: str) -> str:
    """What is said, without "none"."""
    return "" if said.strip().lower() == NONE else said.strip()


def plain_number(value: float | None) -> str:
    """A number as the form has it, "" for none."""
    return "" if value is None else f"{value:g}"


def read_place(said: str) -> int | None:
    """Where he came: "3", "3rd", "third", "3 of 20"; None where nothing is said of it.

    Raises AskedWronglyError for what is no place.

    >>> read_place("2nd of 24"), read_place("")
    (2, None)
    """
    words = cleared(said).lower()
    if not words:
        return None
    if words in _PLACES:
        return _PLACES.index(words) + 1
    found = _PLACE.fullmatch(words)
    if found and int(found[1]):
        return int(found[1])
    raise AskedWronglyError(
        f'"{said[:60]}" is no place.', field="place", right="Write it like 3, or 3rd of 20."
    )


_PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
_PLACE = re.compile(r"(\d{1,4})(?:st|nd|rd|th)?\.?(?: *(?:of|/|out of) *\d{1,4})?", re.ASCII)


def read_points(said: str) -> float | None:
    """Points, by whatever rule they are given; None where nothing is said of them."""
    from tacklebox.trade.limits import within
    from tacklebox.trade.quantities import read_number

    words = cleared(said).lower().removesuffix("points").removesuffix("point").strip()
    if not words:
        return None
    return within(in_field("points", read_number, words), 0, 10_000, "points", field="points")


def read_water(said: str) -> float | None:
    """The water's temperature in °C; None where nothing is said of it."""
    return celsius(said, "water") if cleared(said) else None
