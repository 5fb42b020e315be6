"""Papers: the sheets and tapes that labels come on, described by measure alone."""

import re
from collections.abc import Mapping
from functools import cached_property
from pathlib import Path
from typing import Annotated, Any, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from tacklebox.datafiles import DataFiles, parse_toml
from tacklebox.errors import AskedWronglyError, BenchError
from tacklebox.trade.limits import write_rounded
from tacklebox.trade.quantities import read_length_mm

SLACK_MM = 0.005  # the sums are made of rounded figures
SMALLEST_LABEL_MM = (20.0, 8.0)  # room for a code and a name in the smallest type
LARGEST_PAGE_MM = 2000.0
MEASURED_LINE_MM = 20.0  # the test page's lines, from the page's edges
MEASURED_RULER_MM = 100.0  # and its rulers
MOST_ASTRAY_MM = 6.0


def _mm(value: Any) -> Any:
    """Text like "38.1 mm" as millimetres; a margin may be nothing."""
    if isinstance(value, float):
        return value
    if not isinstance(value, str):
        raise ValueError(f'{value!r} should be text in quotes with its unit, like "38.1 mm"')
    if value.split() in (["0"], ["0", "mm"], ["0mm"]):
        return 0.0
    try:
        return read_length_mm(value)
    except AskedWronglyError as error:
        raise ValueError(str(error)) from None


Millimetres = Annotated[float, BeforeValidator(_mm), Field(ge=0, le=LARGEST_PAGE_MM)]


class _PartOfPaper(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Page(_PartOfPaper):
    """The sheet, or the piece of tape, that goes through the printer; in mm."""

    width: Millimetres
    height: Millimetres


class LabelSize(_PartOfPaper):
    """One label in mm: its size, the radius of its corners, and how far below its top it is
    folded (0: not)."""

    width: Millimetres
    height: Millimetres
    corner: Millimetres = 0.0
    fold: Millimetres = 0.0


class Grid(_PartOfPaper):
    """Where the labels are: the first one's left and top edge, and from one to the next, in mm.

    ``across`` and ``down`` may be left out where labels lie edge to edge.
    """

    columns: Annotated[int, Field(ge=1, le=50, strict=True)]
    rows: Annotated[int, Field(ge=1, le=200, strict=True)]
    left: Millimetres = 0.0
    top: Millimetres = 0.0
    across: Millimetres = 0.0
    down: Millimetres = 0.0


def astray(key: str, measured_mm: float) -> str:
    """Why no printer can have been measured so, "" where one can: ``key`` is one of ``Printer``'s."""
    meant_mm = MEASURED_LINE_MM if key in ("left", "top") else MEASURED_RULER_MM
    if abs(measured_mm - meant_mm) <= MOST_ASTRAY_MM:
        return ""
    return (
        f"{key} is {write_rounded(measured_mm)} mm where {meant_mm:g} mm is meant; no printer is so far out. "
        "Measure again, on a page printed at 100 %"
    )


class Printer(_PartOfPaper):
    """What was measured on the test page, in mm: where its lines 20 mm from the left and from the
    top edge lie, and how long its rulers of 100 mm came out."""

    left: Millimetres = MEASURED_LINE_MM
    top: Millimetres = MEASURED_LINE_MM
    across: Millimetres = MEASURED_RULER_MM
    down: Millimetres = MEASURED_RULER_MM

    @model_validator(mode="after")
    def _believable(self) -> Self:
        for key in ("left", "top", "across", "down"):
            if says := astray(key, getattr(self, key)):
                raise ValueError(says)
        return self

    @property
    def scale(self) -> tuple[float, float]:
        """By how much to stretch what is drawn, across and down."""
        return MEASURED_RULER_MM / self.across, MEASURED_RULER_MM / self.down

    @property
    def astray(self) -> tuple[float, float]:
        """How far the page's upper left corner comes out to the right and downwards, in mm."""
        across, down = self.scale
        return self.left - MEASURED_LINE_MM / across, self.top - MEASURED_LINE_MM / down


class Paper(_PartOfPaper):
    """A whole paper file. ``cut``: cutting lines are printed, for plain paper."""

    stem: str
    name: Annotated[str, Field(min_length=1, max_length=400)]
    cut: Annotated[bool, Field(strict=True)] = False
    page: Page
    label: LabelSize
    grid: Grid
    printer: Printer = Printer()

    @model_validator(mode="after")
    def _fits(self) -> Self:
        faults = [
            *_run_faults("width", self.page.width, self.label.width, self.grid.left,
                         self.grid.columns, self.across),
            *_run_faults("height", self.page.height, self.label.height, self.grid.top,
                         self.grid.rows, self.down),
        ]  # fmt: skip
        label = self.label
        if label.width < SMALLEST_LABEL_MM[0] or label.height < SMALLEST_LABEL_MM[1]:
            least = " × ".join(f"{m:g}" for m in SMALLEST_LABEL_MM)
            faults.append(
                f"a label of {label.width:g} × {label.height:g} mm has no room for a code and a "
                f"name in readable type; it is at least {least} mm"
            )
        if 2 * label.corner > min(label.width, label.height) + SLACK_MM:
            faults.append(
                f"2 × {label.corner:g} mm of corner is more than the label's shorter side of "
                f"{min(label.width, label.height):g} mm"
            )
        least_part = SMALLEST_LABEL_MM[1]
        if label.fold and not least_part <= label.fold <= label.height - least_part:
            faults.append(
                f"a fold {label.fold:g} mm below the top does not leave {least_part:g} mm on both "
                f"sides of it on a label {label.height:g} mm high"
            )
        if faults:
            raise ValueError("; ".join(faults))
        return self

    @cached_property
    def across(self) -> float:
        """From one label's left edge to the next one's, in mm."""
        return self.grid.across or self.label.width

    @cached_property
    def down(self) -> float:
        """From one label's top edge to the next one's, in mm."""
        return self.grid.down or self.label.height

    @property
    def places(self) -> int:
        """How many labels a page holds."""
        return self.grid.columns * self.grid.rows

    def corner_of(self, place: int) -> tuple[float, float]:
        """The lower left corner of a place (0: the first), in mm from the page's lower left.

        Places run along the rows, from the top.
        """
        row, column = divmod(place, self.grid.columns)
        x = self.grid.left + column * self.across
        return x, self.page.height - self.grid.top - row * self.down - self.label.height


def _run_faults(
    side: str, page: float, label: float, first: float, count: int, step: float
) -> list[str]:
    """The sums that fail along one side of the page."""
    faults = []
    if count > 1 and step < label - SLACK_MM:
        faults.append(f"labels of {side} {label:g} mm every {step:g} mm lie over one another")
    needed = first + (count - 1) * step + label
    if needed > page + SLACK_MM:
        faults.append(
            f"{first:g} + {count - 1} × {step:g} + {label:g} = {needed:g} mm is more than the "
            f"page's {side} of {page:g} mm"
        )
    return faults


_KEYS = {
    "": ("name", "cut", "page", "label", "grid", "printer"),
    "page": ("width", "height"),
    "label": ("width", "height", "corner", "fold"),
    "grid": ("columns", "rows", "left", "top", "across", "down"),
    "printer": ("left", "top", "across", "down"),
}


def parse_paper(text: str, stem: str) -> Paper:
    """A paper from its TOML text.

    Raises AskedWronglyError naming file and key; a paper that does not fit its page is
    told with the sum that fails.
    """
    return parse_toml(Paper, text, stem, "paper", _KEYS)


def _files(own_folder: Path | None) -> DataFiles:
    return DataFiles("labels", "paper", own_folder)


def load_paper(name: str, own_folder: Path | None = None) -> Paper:
    """The paper of that name: the box's own, else the shipped one."""
    stem, text = _files(own_folder).read(name)
    return parse_paper(text, stem)


def list_papers(own_folder: Path | None = None) -> tuple[list[Paper], list[BenchError]]:
    """All papers that can be read, by name, and why the others cannot."""
    return _files(own_folder).load_each(lambda name: load_paper(name, own_folder))


def keep_measured(name: str, own_folder: Path, measures_mm: Mapping[str, float]) -> Path:
    """Keep what was measured on the test page in the box's own copy of the paper; the file's path.

    The measures are those of ``Printer``; one that is not given came out as it was meant.

    Raises AskedWronglyError for an unknown paper and for measures that cannot be,
    CannotBeDoneError if the file cannot be written.
    """
    stem, text = _files(own_folder).read(name)
    before = re.sub(r"(?ms)^\[printer\].*?(?=^\[|\Z)", "", text).rstrip()
    measures = dict(Printer()) | dict(measures_mm)
    kept = "".join(f'{key} = "{mm:g} mm"\n' for key, mm in measures.items())
    whole = f"{before}\n\n[printer]             # measured on the test page\n{kept}"
    parse_paper(whole, stem)
    return _files(own_folder).write_over(stem, whole)
