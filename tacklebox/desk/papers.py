"""Papers that labels come on: what there is, and how a printer is put right for one."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Fault
from tacklebox.desk.asking import in_field
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, FaultsOfFields

if TYPE_CHECKING:
    from tacklebox.outputs import Target


@dataclass(frozen=True)
class PaperRow:
    """A paper in a list; ``next_free`` is the first free place of its part-used sheet."""

    paper: str
    name: str
    places: int
    next_free: int


@dataclass(frozen=True)
class PaperList:
    """All papers by name, and what is wrong with those that cannot be read."""

    papers: tuple[PaperRow, ...]
    faults: tuple[Fault, ...]


@dataclass(frozen=True)
class TestPage:
    """A test page that was printed for a paper."""

    paper: str


@dataclass(frozen=True)
class PutRight:
    """The file of the box in which a paper keeps what was measured."""

    paper: str
    file: Path


def listed(desk: Desk) -> PaperList:
    """All papers; the angler's own win over shipped ones of the same name."""
    from tacklebox.printing.labels.papers import list_papers
    from tacklebox.rigs.tying.tied import next_free_place

    found, faults = list_papers(desk.box.labels)
    return PaperList(
        tuple(PaperRow(p.stem, p.name, p.places, next_free_place(desk.box, p.stem)) for p in found),
        tuple(Fault.of(error) for error in faults),
    )


def print_test_page(desk: Desk, paper: str, to: "Target", *, replace: bool = False) -> TestPage:
    """Print rulers and corner marks, to find out where the printer prints.

    Raises AskedWronglyError for a paper that is not there or too small, and as ``write_aside``.
    """
    from tacklebox.printing.labels.papers import load_paper
    from tacklebox.printing.labels.printer_page import print_test_page

    found = in_field("paper", lambda name: load_paper(name, desk.box.labels), paper)
    print_test_page(found, to, overwrite=replace)
    return TestPage(found.stem)


def keep_measured(
    desk: Desk, paper: str, *, left: str = "", top: str = "", across: str = "", down: str = ""
) -> PutRight:
    """Keep what was measured on the test page, in the box's own copy of the paper; what is not said
    came out as it was meant.

    Raises AskedWronglyError for a measure that cannot be, CannotBeDoneError where it cannot be
    written.
    """
    from tacklebox.printing.labels.papers import astray, keep_measured
    from tacklebox.trade.quantities import read_length_mm

    said = {"left": left, "top": top, "across": across, "down": down}
    faults, measures = FaultsOfFields("this cannot have been measured."), {}
    for key, words in said.items():
        with faults.of(key):
            if words.strip():
                measures[key] = read_length_mm(words)
                if says := astray(key, measures[key]):
                    raise AskedWronglyError(f"{says}.")
    faults.refuse()
    file = in_field("paper", lambda name: keep_measured(name, desk.box.labels, measures), paper)
    return PutRight(file.stem, file)
