"""Labels for winders and for drawers: which things get one, on which paper, from which place on."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.notices import each_second
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, CannotBeDoneError, nearest_word

if TYPE_CHECKING:
    from tacklebox.outputs import Target
    from tacklebox.printing.labels.papers import Paper
    from tacklebox.printing.labels.sheets import Label, Lacks, PrintReport
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.inventory import Stocked

NEXT = "next"  # the place where the sheet was left


class NotNotedError(CannotBeDoneError):
    """The labels are printed, but the box could not note it."""


@dataclass(frozen=True)
class OnPaper:
    """The paper that labels go on; ``start`` is the first place to use, its number or "next".

    ``skip`` are spoiled places of the first sheet; ``qr``: the words are there as a QR too.
    """

    paper: str = "a4-65"
    start: str = "1"
    skip: Sequence[int] = ()
    qr: bool = True
    replace: bool = False


@dataclass(frozen=True)
class StartPlace:
    """A paper that is there, and the place on it to begin at."""

    paper: "Paper"
    start: int
    wanted: OnPaper


@dataclass(frozen=True)
class NotOnLabel:
    """What some of the labels do not bear, and why: no room for it, no such letters."""

    codes: tuple[str, ...]
    on_all: bool
    why: str  # "no room", "not in the QR", "no character"
    what: tuple[str, ...]
    words: str


@dataclass(frozen=True)
class LabelsPrinted:
    """What was printed; nothing where every rig has its label already.

    ``next_free`` is the first free place of the last sheet, 1 where that is full.
    """

    paper: str
    codes: tuple[str, ...]
    sheets: int
    next_free: int
    not_on_label: tuple[NotOnLabel, ...]


def print_rigs(
    desk: Desk,
    to: "Target",
    paper: OnPaper,
    codes: Sequence[str] = (),
    *,
    last: bool = False,
    on: str = "",
) -> LabelsPrinted:
    """Print labels of the rigs with these codes, else of the ``last`` tying, else of all that are
    ready and have none yet; and note that they have one.

    Raises AskedWronglyError for a code, a paper, a place or a day that cannot be, and for a file
    that is there already; CannotBeDoneError where it cannot be written.
    """
    day = past_day(desk, on)
    place = start_place(desk, paper)
    snapshots = _snapshots(desk, codes, last)
    if not snapshots:
        return LabelsPrinted(place.paper.stem, (), 0, place.start, ())
    return print_snapshots(desk, snapshots, to, place, day)


def print_snapshots(
    desk: Desk,
    snapshots: "Sequence[Snapshot]",
    to: "Target",
    place: StartPlace,
    day: date,
    *,
    tied_by: int | None = None,
) -> LabelsPrinted:
    """Print labels of these rigs, and note that they have one; raises as ``print_rigs``.

    ``tied_by`` is the action that tied them, where they are labelled with it and undone with it.
    """
    from tacklebox.printing.labels.sheets import print_labels

    report = print_labels(snapshots, place.paper, to, **_options(desk, place, len(snapshots)))
    codes = [snapshot.code for snapshot in snapshots]
    return _noted(desk, codes, codes, place, day, report, tied_by)


def print_items(
    desk: Desk,
    to: "Target",
    paper: OnPaper,
    items: Sequence[str] = (),
    *,
    kind: str = "",
    place: str = "",
) -> LabelsPrinted:
    """Print labels for drawers: of the items that are named, else of all of a kind, at a place.

    Raises as ``print_rigs``, for an item, kind or place that is not known too.
    """
    from tacklebox.printing.labels.drawers import drawer_label
    from tacklebox.printing.labels.sheets import print_each

    sheet = start_place(desk, paper)
    chosen = _chosen_items(desk, items, kind, place)

    def label(stocked: "Stocked") -> "Label":
        return drawer_label(stocked.item, stocked.figures)

    report = print_each(chosen, label, sheet.paper, to, **_options(desk, sheet, len(chosen)))
    numbers = [f"no. {stocked.id}" for stocked in chosen]
    return _noted(desk, numbers, (), sheet, desk.today(), report)


def start_place(desk: Desk, wanted: OnPaper) -> StartPlace:
    """The paper with the place on it to begin at, as they are to be printed on.

    Raises AskedWronglyError for a paper that is not there, and for a place that is not on it.
    """
    from tacklebox.printing.labels.papers import load_paper
    from tacklebox.printing.labels.sheets import refuse_place
    from tacklebox.rigs.tying.tied import next_free_place

    paper = load_paper(wanted.paper, desk.box.labels)
    if wanted.start == NEXT:
        start = next_free_place(desk.box, paper.stem)
    else:
        start = in_field("start", _place_number, wanted.start)
    refuse_place(paper, start, wanted.skip)
    return StartPlace(paper, start, wanted)


def _place_number(said: str) -> int:
    if not said.isdecimal() or not said.isascii() or len(said) > 6:
        raise AskedWronglyError(f'"{said}" is no place.', right=f'Give its number, or "{NEXT}".')
    return int(said)


def _snapshots(desk: Desk, codes: Sequence[str], last: bool) -> "list[Snapshot]":
    from tacklebox.rigs.tying.codes import each_code
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.rigs.tying.tied import find_snapshot, tied_with
    from tacklebox.stock.tables import State

    if codes and last:
        raise AskedWronglyError(
            "rigs are named, and those of the last tying are asked for.",
            field="last",
            right="Give one of them.",
        )
    if not codes:
        tied = tied_with(desk.box, state=State.READY, unlabelled=not last, last=last)
        return [Snapshot.from_json(t.snapshot) for t in tied]
    found = []
    for code in each_code(codes):
        one, snapshot = in_field("code", lambda typed: find_snapshot(desk.box, typed), code)
        if one.state != State.READY:
            raise AskedWronglyError(
                f"{one.code} is {one.state}; it needs no label.",
                field="code",
                right="Nothing was printed.",
            )
        found.append(snapshot)
    return found


def _chosen_items(desk: Desk, named: Sequence[str], kind: str, place: str) -> "list[Stocked]":
    """The items named, or those of the kind at the place, in the order they were added."""
    from tacklebox.stock.asks import read_filters
    from tacklebox.stock.inventory import Inventory
    from tacklebox.stock.ledger import find
    from tacklebox.stock.tables import Kind

    if named and (kind or place):
        raise AskedWronglyError(
            "items are named, and a kind or place is given too.",
            field="item",
            right="Give one of them.",
        )
    ask = in_field("kind", lambda said: read_filters(said, []), kind) if kind else None
    with desk.box.reading() as session:
        numbers = [in_field("item", lambda words: find(session, words), n).id for n in named]
        by_kind = Inventory.read(session, [ask.kind] if ask else list(Kind)).by_kind
    those = ask.among(by_kind[ask.kind]) if ask else [s for of in by_kind.values() for s in of]
    stock = {s.id: s for s in those}
    if named:
        return [stock[number] for number in dict.fromkeys(numbers) if number]
    wanted = place.strip().casefold()
    found = [s for _, s in sorted(stock.items()) if not wanted or s.item.place.casefold() == wanted]
    if not found:
        raise _nothing_found(list(stock.values()), kind, place)
    return found


def _nothing_found(stock: "Sequence[Stocked]", kind: str, place: str) -> AskedWronglyError:
    of_kind = f"of the kind {kind} " if kind else ""
    if not place or not stock:
        return AskedWronglyError(
            f"there is nothing {of_kind}in the box.", field="kind" if kind else "", see="stock.add"
        )
    places = sorted({s.item.place for s in stock if s.item.place})
    return AskedWronglyError(
        f'nothing {of_kind}lies in "{place}".',
        field="place",
        right=nearest_word(place, places) if places else "No item has a place yet.",
    )


def _options(desk: Desk, place: StartPlace, count: int) -> dict[str, Any]:
    """How so many labels are printed there."""
    return {
        "start": place.start,
        "skip": place.wanted.skip,
        "qr": place.wanted.qr,
        "overwrite": place.wanted.replace,
        "progress": each_second(desk, count, "labels"),
    }


def _noted(
    desk: Desk,
    codes: Sequence[str],
    rigs: Sequence[str],
    place: StartPlace,
    day: date,
    report: "PrintReport",
    tied_by: int | None = None,
) -> LabelsPrinted:
    """Note in the box what was printed; the page is there all the same where that cannot be."""
    from tacklebox.rigs.tying.tied import mark_labelled

    try:
        mark_labelled(desk.box, rigs, day, place.paper.stem, report.next_free, tied_by=tied_by)
    except CannotBeDoneError as error:
        raise NotNotedError(
            f"the labels are printed, but the box could not note it: {error}"
        ) from None
    return LabelsPrinted(
        place.paper.stem, tuple(codes), report.pages, report.next_free, _not_on_label(report)
    )


def _not_on_label(report: "PrintReport") -> tuple[NotOnLabel, ...]:
    """What was left off, told once for all labels that share it."""
    codes: dict[tuple[Lacks, str], list[str]] = {}
    for left in report.left_off:
        codes.setdefault((left.why, left.what), []).append(left.code)
    things: dict[tuple[Lacks, tuple[str, ...]], list[str]] = {}
    for (why, what), those in codes.items():
        things.setdefault((why, tuple(those)), []).append(what)
    return tuple(
        NotOnLabel(
            those,
            len(those) == report.labels > 1,
            why,
            tuple(what),
            why.words(", ".join(what)),
        )
        for (why, those), what in things.items()
    )
