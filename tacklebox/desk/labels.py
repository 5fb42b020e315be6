"""Labels for winders and for drawers: which things get one, on which paper, from which place on."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING, Any

from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.notices import each_second
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, CannotBeDoneError, nearest_word

if TYPE_CHECKING:
    from sqlmodel import Session

    from tacklebox.outputs import Target
    from tacklebox.printing.labels.papers import Paper
    from tacklebox.printing.labels.sheets import Label, Lacks, PrintReport
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.inventory import Stocked

NEXT = "next"  # the place where the sheet was left
DRAWERS = "drawers-60"


class NotNotedError(CannotBeDoneError):
    """The labels are printed, but the box could not note it."""


@dataclass(frozen=True)
class OnPaper:
    """The paper that labels go on; ``start`` is the first place to use, its number or "next".

    Without a ``paper`` each label goes on the one that fits: strips for winders, wallet labels.
    ``skip`` are spoiled places of the first sheet; ``qr``: the words are there as a QR too.
    """

    paper: str = ""
    start: str = "1"
    skip: Sequence[int] = ()
    qr: bool = True
    replace: bool = False


@dataclass(frozen=True)
class StartPlace:
    """A paper that is there, and the place on it to begin at."""

    paper: "Paper"
    start: int


@dataclass(frozen=True)
class Papers:
    """What labels go on: one paper that was named, else for each the one that fits."""

    wanted: OnPaper
    named: StartPlace | None


@dataclass(frozen=True)
class NotOnLabel:
    """What some of the labels do not bear, and why: no room for it, no such letters."""

    codes: tuple[str, ...]
    on_all: bool
    why: str  # "no room", "not in the QR", "no character"
    what: tuple[str, ...]
    words: str


@dataclass(frozen=True)
class SheetsOfPaper:
    """The sheets of one paper; ``next_free`` is the first free place of the last, 1 where it is full."""

    paper: str
    name: str
    labels: int
    sheets: int
    next_free: int


@dataclass(frozen=True)
class LabelsPrinted:
    """What was printed; nothing where every rig has its label already."""

    codes: tuple[str, ...]
    on: tuple[SheetsOfPaper, ...]
    not_on_label: tuple[NotOnLabel, ...]

    @property
    def sheets(self) -> int:
        """How many sheets there are together."""
        return sum(of_paper.sheets for of_paper in self.on)


def owed(desk: Desk) -> tuple[str, ...]:
    """The codes of what was tied with its labels and has none: the printing was broken off."""
    from tacklebox.boxfolder import LABELS_OWED

    if not (desk.box.folder / LABELS_OWED).exists():
        return ()
    from tacklebox.rigs.tying.owed import codes_owed

    return tuple(codes_owed(desk.box))


def print_rigs(
    desk: Desk,
    to: "Target",
    paper: OnPaper,
    codes: Sequence[str] = (),
    *,
    last: bool = False,
    on: str = "",
) -> LabelsPrinted:
    """Print labels of the rigs and batches of hooklengths with these codes, else of the ``last`` tying,
    else of all that are ready and have none yet; and note that they have one.

    Raises AskedWronglyError for a code, a paper, a place or a day that cannot be, and for a file
    that is there already; CannotBeDoneError where it cannot be written.
    """
    day = past_day(desk, on)
    papers = papers_for(desk, paper)
    snapshots = rigs_for_labels(desk, codes, last)
    if not snapshots:
        return LabelsPrinted((), (), ())
    return print_snapshots(desk, snapshots, to, papers, day)


def print_snapshots(
    desk: Desk,
    snapshots: "Sequence[Snapshot]",
    to: "Target",
    papers: Papers,
    day: date,
    *,
    tied_by: int | None = None,
) -> LabelsPrinted:
    """Print labels of these rigs, and note that they have one; raises as ``print_rigs``.

    ``tied_by`` is the action that tied them, where they are labelled with it and undone with it.
    """
    from tacklebox.printing.labels.sheets import print_runs, rig_label, run_of

    with _next_place_held(desk, papers.wanted):
        papers = papers_for(desk, papers.wanted)
        places = sorted_by_paper(desk, snapshots, papers)
        skip = papers.wanted.skip
        reports = print_runs(
            [run_of(those, rig_label, p.paper, p.start, skip) for p, those in places],
            to,
            **_options(desk, papers.wanted, len(snapshots)),
        )
        codes = [snapshot.code for _, those in places for snapshot in those]
        return _noted(desk, codes, codes, [p for p, _ in places], day, reports, tied_by)


@contextmanager
def _next_place_held(desk: Desk, wanted: OnPaper) -> Iterator[None]:
    """From reading the next free place of a sheet to noting what was printed on it, no other takes it."""
    if wanted.start != NEXT:
        yield
        return
    printed = False
    try:
        with desk.box.writing():
            yield
            printed = True
    except CannotBeDoneError as error:
        if printed:
            raise _not_noted(error) from None
        raise


def _not_noted(error: CannotBeDoneError) -> NotNotedError:
    return NotNotedError(f"the labels are printed, but the box could not note it: {error}")


def sorted_by_paper(
    desk: Desk, snapshots: "Sequence[Snapshot]", papers: Papers
) -> "list[tuple[StartPlace, list[Snapshot]]]":
    """The rigs with the paper that they go on, papers by name."""
    from tacklebox.printing.labels.fitting_paper import usual_paper
    from tacklebox.printing.labels.papers import list_papers

    if papers.named:
        return [(papers.named, list(snapshots))]
    known, _ = list_papers(desk.box.labels)
    by_paper: dict[str, list[Snapshot]] = {}
    for snapshot in snapshots:
        by_paper.setdefault(usual_paper(snapshot, known), []).append(snapshot)
    return [
        (start_place(desk, replace(papers.wanted, paper=stem)), those)
        for stem, those in sorted(by_paper.items())
    ]


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

    def label(stocked: "Stocked") -> "Label":
        return drawer_label(stocked.item, stocked.figures)

    with _next_place_held(desk, paper):
        sheet = start_place(desk, replace(paper, paper=paper.paper or DRAWERS))
        chosen = items_for_labels(desk, items, kind, place)
        report = print_each(
            chosen,
            label,
            sheet.paper,
            to,
            start=sheet.start,
            skip=paper.skip,
            **_options(desk, paper, len(chosen)),
        )
        numbers = [f"no. {stocked.id}" for stocked in chosen]
        return _noted(desk, numbers, (), [sheet], desk.today(), [report])


def papers_for(desk: Desk, wanted: OnPaper) -> Papers:
    """What labels are to go on, tried before anything is done; raises as ``start_place``.

    Where no paper is named it is the one that is set for the box.
    """
    from tacklebox.desk.settings import settings

    wanted = replace(wanted, paper=wanted.paper or settings(desk).paper)
    if wanted.paper:
        return Papers(wanted, start_place(desk, wanted))
    counted = wanted.start != NEXT and in_field("start", _place_number, wanted.start) != 1
    if counted or wanted.skip:
        raise AskedWronglyError(
            "places are counted on one paper, and no paper is named.",
            field="start" if counted else "skip",
            right="Name it; without it each label is cut out of a new sheet of plain paper.",
        )
    return Papers(wanted, None)


def start_place(desk: Desk, wanted: OnPaper) -> StartPlace:
    """The paper with the place on it to begin at, as they are to be printed on.

    Raises AskedWronglyError for a paper that is not there, and for a place that is not on it.
    """
    from tacklebox.printing.labels.papers import load_paper
    from tacklebox.printing.labels.sheets import refuse_place
    from tacklebox.rigs.tying.tied import next_free_place

    paper = in_field("paper", lambda name: load_paper(name, desk.box.labels), wanted.paper)
    if wanted.start == NEXT:
        start = next_free_place(desk.box, paper.stem)
    else:
        start = in_field("start", _place_number, wanted.start)
    refuse_place(paper, start, wanted.skip)
    return StartPlace(paper, start)


def _place_number(said: str) -> int:
    if not said.isdecimal() or not said.isascii() or len(said) > 6:
        raise AskedWronglyError(f'"{said}" is no place.', right=f'Give its number, or "{NEXT}".')
    return int(said)


def rigs_for_labels(desk: Desk, codes: Sequence[str], last: bool) -> "list[Snapshot]":
    """What is to be labelled: those with the codes, of the ``last`` tying, or all that have none yet."""
    from tacklebox.rigs.tying.snapshot import read_kept
    from tacklebox.rigs.tying.tied import batches_with, find_each_labelled, tied_with
    from tacklebox.stock.codes import each_code
    from tacklebox.stock.made import Batch, Tied
    from tacklebox.stock.tables import State

    if codes and last:
        raise AskedWronglyError(
            "rigs are named, and those of the last tying are asked for.",
            field="last",
            right="Give one of them.",
        )
    if not codes:
        tied = tied_with(desk.box, state=State.READY, unlabelled=not last, last=last)
        batches = batches_with(desk.box, unlabelled=not last, last=last)
        made: list[Tied | Batch] = [*tied, *batches]
        made.sort(key=lambda one: one.code_number)
        snapshots = [read_kept(one) for one in made]
        unreadable = ", ".join(one.code for one in snapshots if one.unreadable)
        if unreadable:
            desk.notice(
                f"What was tied cannot be read of {unreadable}: no label is printed for it."
            )
        return [one for one in snapshots if not one.unreadable]
    found = []
    typed = list(each_code(codes))
    for one, snapshot in in_field("code", lambda given: find_each_labelled(desk.box, given), typed):
        if isinstance(one, Batch):
            is_ready, what = one.left > 0, f"batch {one.code} is used up"
        else:
            is_ready, what = one.state == State.READY, f"{one.code} is {one.state}"
        if not is_ready:
            raise AskedWronglyError(
                f"{what}; it needs no label.",
                field="code",
                right="Nothing was printed.",
            )
        if snapshot.unreadable:
            raise CannotBeDoneError(
                f"{snapshot.name} of {one.code}, so it gets no label.",
                field="code",
                see="care.audit",
            )
        found.append(snapshot)
    return found


def items_for_labels(desk: Desk, named: Sequence[str], kind: str, place: str) -> "list[Stocked]":
    """The items named, or those of the kind at the place, in the order they were added."""
    from tacklebox.stock.asks import read_filters
    from tacklebox.stock.inventory import Inventory
    from tacklebox.stock.tables import Kind

    if named and (kind or place):
        raise AskedWronglyError(
            "items are named, and a kind or place is given too.",
            field="item",
            right="Give one of them.",
        )
    ask = in_field("kind", lambda said: read_filters(said, []), kind) if kind else None
    with desk.box.reading() as session:
        numbers = [in_field("item", lambda words: _in_use(session, words), n) for n in named]
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


def _in_use(session: "Session", words: str) -> int:
    """The number of the item that is meant. Raises AskedWronglyError for one that is retired."""
    from tacklebox.stock.finding import find
    from tacklebox.stock.ledger import refuse_retired

    item = find(session, words)
    refuse_retired(item)
    return item.id or 0


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


def _options(desk: Desk, wanted: OnPaper, count: int) -> dict[str, Any]:
    """How so many labels are printed."""
    return {
        "qr": wanted.qr,
        "overwrite": wanted.replace,
        "progress": each_second(desk, count, "labels"),
    }


def _noted(
    desk: Desk,
    codes: Sequence[str],
    rigs: Sequence[str],
    places: Sequence[StartPlace],
    day: date,
    reports: "Sequence[PrintReport]",
    tied_by: int | None = None,
) -> LabelsPrinted:
    """Note in the box what was printed; the page is there all the same where that cannot be."""
    from tacklebox.rigs.tying.tied import mark_labelled

    sheets = [
        SheetsOfPaper(of.paper.stem, of.paper.name, r.labels, r.pages, r.next_free)
        for of, r in zip(places, reports, strict=True)
    ]
    try:
        free = {of.paper: of.next_free for of in sheets}
        mark_labelled(desk.box, rigs, day, free, tied_by=tied_by)
    except CannotBeDoneError as error:
        raise _not_noted(error) from None
    return LabelsPrinted(tuple(codes), tuple(sheets), _not_on_label(reports))


def _not_on_label(reports: "Sequence[PrintReport]") -> tuple[NotOnLabel, ...]:
    """What was left off, told once for all labels that share it."""
    labels = sum(report.labels for report in reports)
    codes: dict[tuple[Lacks, str], list[str]] = {}
    for left in (left for report in reports for left in report.left_off):
        codes.setdefault((left.why, left.what), []).append(left.code)
    things: dict[tuple[Lacks, tuple[str, ...]], list[str]] = {}
    for (why, what), those in codes.items():
        things.setdefault((why, tuple(those)), []).append(what)
    return tuple(
        NotOnLabel(
            those,
            len(those) == labels > 1,
            why,
            tuple(what),
            why.words(", ".join(what)),
        )
        for (why, those), what in things.items()
    )
