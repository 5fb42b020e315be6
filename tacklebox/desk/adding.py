"""Tackle that is put in: read as it is said, asked about where that is not sure, told what was assumed."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk.answers import amount_of
from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import (
    MOST_PACKS,
    ItemRow,
    Lead,
    item_row,
    lead_of,
    leads_among,
    no_packets,
)
from tacklebox.errors import AskedWronglyError, FaultsOfFields

if TYPE_CHECKING:
    from sqlmodel import Session

    from tacklebox.stock.entering import NewItem
    from tacklebox.stock.naming.described import Described, Question
    from tacklebox.stock.tables import Item

SAME, ANOTHER = "same", "another"  # what answers whether it is an item that is there


@dataclass(frozen=True)
class NewStock:
    """What is said of a new item beside what it is; what is empty is not said."""

    name: str = ""
    place: str = ""
    pack: str = ""
    price: str = ""
    minimum: str = ""
    packs: int | None = None
    amount: str = ""
    level: str = ""


@dataclass(frozen=True)
class Offered:
    """One answer to a question, and what it means."""

    answer: str
    words: str


@dataclass(frozen=True)
class StockQuestion:
    """What must be asked before an item is put in; ``about`` is the figure in doubt, or "kind", "word",
    "number" (which one is meant), "left" (how much of it) or "same".

    One of the ``choices`` is the next answer. ``answer_like`` shows what may be said instead, "" where
    nothing may. ``see`` is the question of the desk that would do, too.
    """

    about: str
    asks: str
    choices: tuple[Offered, ...]
    answer_like: str = ""
    see: str = ""

    @property
    def fault(self) -> AskedWronglyError:
        """The same where nobody can answer."""
        said = [f'"{one.answer}"' for one in self.choices if one.words.startswith(one.answer)]
        right = f"Say {' or '.join(said)}" if said else ""
        if self.answer_like:
            right += f'{", or add" if right else "Add"} it, like "{self.answer_like}"'
        return AskedWronglyError(
            self.asks, right=f"{right}." if right else "", field="words", see=self.see
        )


@dataclass(frozen=True)
class Assumed:
    """A figure that nobody said, how it was taken, and why."""

    figure: str
    words: str
    because: str


@dataclass(frozen=True)
class Added:
    """An item as it is now, what was assumed of it, and whether it is lead that may not weight a line.

    ``more`` is that it was there before.
    """

    item: ItemRow
    forbidden_lead: Lead | None
    assumed: tuple[Assumed, ...] = ()
    more: bool = False


@dataclass(frozen=True)
class AssumedOf:
    """A figure that was assumed of several items, by their numbers."""

    assumed: Assumed
    items: tuple[int, ...]


@dataclass(frozen=True)
class Imported:
    """The items that a file added, what was assumed of them, and those of which there is more now.

    ``rows`` are both, an item for each row of the file; ``forbidden_lead`` are those among them that are
    lead which may not weight a line.
    """

    file: str
    items: tuple[int, ...]
    assumed: tuple[AssumedOf, ...] = ()
    more: tuple[int, ...] = ()
    rows: tuple[int, ...] = ()
    forbidden_lead: tuple[Lead, ...] = ()


def question(
    desk: Desk, words: str, said: NewStock | None = None, answers: Sequence[str] = ()
) -> StockQuestion | None:
    """What must be asked before ``add`` takes these words and ``answers``; None where nothing must.

    Raises AskedWronglyError for words that are not understood, and for an answer that was not offered.
    """
    said = said or NewStock()
    found, left = _understood_with(words, answers, said)
    if isinstance(found, StockQuestion):
        return found
    with desk.box.reading() as session:
        kept = _kept_already(session, found, said, left)
    return kept if isinstance(kept, StockQuestion) else None


def add(
    desk: Desk,
    words: str,
    said: NewStock | None = None,
    *,
    answers: Sequence[str] = (),
    on: str = "",
    as_printed: bool = False,
) -> Added:
    """Put in an item, said in words, with what there is of it; ``answers`` are those to ``question``.

    Raises AskedWronglyError for what must be asked and is not answered, for words that are not
    understood, line that no packet holds (unless it is taken ``as_printed``), and a name that is in
    the box already.
    """
    from tacklebox.stock.entering import add_item, counted_by_tubs, put_more
    from tacklebox.stock.ledger import begin

    said = said or NewStock()
    described, left = _understood_with(words, answers, said)
    if isinstance(described, StockQuestion):
        raise described.fault
    described = counted_by_tubs(described)
    new, day = _new_item(described, said), past_day(desk, on)
    with desk.box.writing() as session:
        kept = _kept_already(session, described, said, left)
        if isinstance(kept, StockQuestion):
            raise kept.fault
        if kept is None:
            item = add_item(session, begin(session, "add", day), new, as_printed=as_printed)
        else:
            item = kept
            put_more(session, begin(session, "buy", day), item, new)
        lead = lead_of(session, item.id or 0, item.name)
    assumed = () if kept else tuple(_assumed(described, said, item))
    return Added(item_row(item), lead, assumed, kept is not None)


def question_of_words(words: str, answers: Sequence[str] = ()) -> StockQuestion | None:
    """What must be asked before the words and ``answers`` name one thing; None where nothing must."""
    found, _ = _understood(words, answers)
    return found if isinstance(found, StockQuestion) else None


def described_by(words: str, answers: Sequence[str] = ()) -> "Described":
    """The thing that the words and the answers name. Raises AskedWronglyError where more must be asked."""
    found, _ = _understood(words, answers)
    if isinstance(found, StockQuestion):
        raise found.fault
    return found


def words_of_figures(kind: str, figures: Sequence[str]) -> str:
    """Figures by name ("size 18", "diameter 0.14 mm") as the words that ``add`` reads."""
    from tacklebox.stock.asks import read_filters
    from tacklebox.stock.notation import words_from_flags

    asks = in_field("kind", lambda said: read_filters(said, list(figures)), kind)
    return words_from_flags(asks.kind, {key: text for key, text, _ in asks.wanted})


def import_csv(desk: Desk, file: Path, *, on: str = "", as_printed: bool = False) -> Imported:
    """Add many items from a CSV file: all of its rows, or none.

    A row that may be what he has already, in another unit, says under "same" whether it is. Raises
    ManyFaultsError with every row that cannot be read, or that must say so.
    """
    from tacklebox.stock.csv_file import import_items

    assumed: dict[Assumed, list[int]] = {}

    def note(item: "Item", new: "NewItem") -> None:
        for one in _assumed(
            new.described, NewStock(pack=str(new.pack_size or ""), level=new.level), item
        ):
            assumed.setdefault(one, []).append(item.id or 0)

    read = import_items(
        desk.box,
        file,
        past_day(desk, on),
        as_printed=as_printed,
        each=note,
        notice=desk.notice,
    )
    rows = {item.id or 0: item.name for item in read.rows}
    with desk.box.reading() as session:
        lead = leads_among(session, rows)
    return Imported(
        file.name,
        tuple(item.id or 0 for item in read.added),
        tuple(AssumedOf(one, tuple(items)) for one, items in assumed.items()),
        tuple(dict.fromkeys(item.id or 0 for item in read.more)),
        tuple(item.id or 0 for item in read.rows),
        lead,
    )


def _understood(
    words: str, answers: Sequence[str]
) -> "tuple[Described | StockQuestion, list[str]]":
    """The item that the words and the answers name, or the next question; and the answers left over."""
    from tacklebox.stock.naming.described import Question
    from tacklebox.stock.naming.reading import read

    left = list(answers)
    found = in_field("words", read, words)
    while isinstance(found, Question):
        if not left:
            return _asked(found), []
        found = _answered(found, left.pop(0))
    return found, left


def _understood_with(
    words: str, answers: Sequence[str], said: NewStock
) -> "tuple[Described | StockQuestion, list[str]]":
    """As ``_understood``. Raises all that is wrong with the words and with what is said beside them."""
    from tacklebox.stock.amounts import read_price_cents
    from tacklebox.stock.levels import read_level
    from tacklebox.stock.naming.described import Described

    found: Described | StockQuestion | None = None
    left: list[str] = []
    faults = FaultsOfFields("this cannot be put in.")
    with faults.of("words"):
        found, left = _understood(words, answers)
    with faults.of("packs"):
        if said.packs is not None and said.amount:
            raise AskedWronglyError(
                "packets and an amount are both given.", right="Give one of them."
            )
        if said.packs is not None and not 0 <= said.packs <= MOST_PACKS:
            raise no_packets(said.packs, 0)
    with faults.of("price"):
        if said.price:
            read_price_cents(said.price)
    with faults.of("level"):
        if said.level:
            read_level(said.level)
    if isinstance(found, Described):
        for field in ("pack", "minimum", "amount"):
            with faults.of(field):
                if text := getattr(said, field):
                    _held(found, text)
    faults.refuse()
    assert found
    return found, left


def _held(described: "Described", text: str) -> int:
    """So much of what is described, in its smallest unit."""
    from tacklebox.stock.amounts import read_amount
    from tacklebox.stock.tables import MEASURED_KINDS

    return read_amount(text, described.kind in MEASURED_KINDS)


def _asked(question: "Question") -> StockQuestion:
    from tacklebox.stock.naming.writing import write_with_pack

    choices = {write_with_pack(reading): reading for reading in question.readings}
    how_much = question.about in ("left", "says")
    return StockQuestion(
        question.about,
        question.asks,
        tuple(
            Offered(words, f"{words}{_all_of_it(reading) if how_much else ''}")
            for words, reading in choices.items()
        ),
        question.answer_like,
        question.see,
    )


def _all_of_it(made: "Described") -> str:
    """What would be counted of it where nobody says how much is left."""
    if made.pack is None or made.count is not None or made.left is not None:
        return ""
    return (
        f": {made.pack.words} of it"
        if made.packs is None
        else f": {made.packs} x {made.pack.words}"
    )


def _answered(question: "Question", answer: str) -> "Described | Question":
    """The reading that was chosen, or the phrase with what was missing in it."""
    from tacklebox.stock.naming.reading import read
    from tacklebox.stock.naming.writing import write_with_pack

    for reading in question.readings:
        if write_with_pack(reading) == answer:
            return reading
    if not question.answer_like:
        raise AskedWronglyError(
            f'"{answer}" was not asked for.', field="words", right="Choose one of what is offered."
        )
    if question.about == "left" and answer.isdecimal():  # "20" of "20 m left"
        answer = question.answer_like.replace(question.answer_like.split()[0], answer, 1)
    return in_field("words", read, f"{question.phrase} {answer}")


def _kept_already(
    session: "Session", described: "Described", said: NewStock, answers: Sequence[str]
) -> "Item | StockQuestion | None":
    """The item that this is more of, a question whether it is, or None for another one.

    What has a name of its own is another one.
    """
    from tacklebox.stock.naming.writing import write
    from tacklebox.stock.same_items import same_items

    if said.name:
        return None
    found = same_items(session, described)
    if not found or ANOTHER in answers[:1]:
        return None
    if SAME in answers[:1]:
        return found[0]
    words, item = write(described), found[0]
    is_named = f"item {item.id}, {item.name}"
    same = Offered(SAME, f"the {item.name} that you have: more of it")
    if item.name == words:
        return StockQuestion(
            "same", f'"{words}" is in the box already: {is_named}.', (same,), see=_see(item)
        )
    another = Offered(ANOTHER, f"another one, {words}")
    asks = f'"{words}" may be what you have already: {is_named}.'
    return StockQuestion("same", asks, (same, another), see=_see(item))


def _see(item: "Item") -> str:
    return f"stock.buy {item.id}"


def _new_item(described: "Described", said: NewStock) -> "NewItem":
    from tacklebox.stock.amounts import packet_as_said, read_price_cents
    from tacklebox.stock.entering import NewItem, refuse_two_sayings
    from tacklebox.stock.levels import read_level
    from tacklebox.stock.tables import MEASURED_KINDS

    new = NewItem(
        described,
        name=said.name,
        place=said.place,
        pack_size=_held(described, said.pack) if said.pack else None,
        pack_said=packet_as_said(said.pack, described.kind in MEASURED_KINDS),
        pack_price_cents=read_price_cents(said.price) if said.price else None,
        minimum=said.minimum,
        packs=said.packs,
        amount=said.amount,
        level=read_level(said.level) if said.level else "",
    )
    refuse_two_sayings(new)
    return new


def _assumed(described: "Described", said: NewStock, item: "Item") -> "list[Assumed]":
    """What goes without saying, and was taken so."""
    from tacklebox.stock.naming.usual import COMMON

    found = []
    for figure, taken in described.assumed.items():
        if figure != "pack":
            words = f"{taken.words} wide" if figure == "width" else taken.words
            found.append(Assumed(figure, words, taken.because))
        elif not said.pack:
            packet = amount_of(item, item.pack_size)
            words = f"a spool of {packet}" if item.measured else f"{packet} in a packet"
            found.append(Assumed(figure, words, taken.because))
    if item.level and not said.level:
        found.append(Assumed("level", f"a tub that is not counted, {item.level}", COMMON))
    return found
