"""What was in the bag: a file for each match, as its pack list was ticked, and what came home of it.

A bag moves nothing: stock is what the debrief says was lost. So it is no part of what is undone.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field

from tacklebox.datafiles import DataFiles, StrictModel, parse_toml
from tacklebox.errors import AskedWronglyError
from tacklebox.written_toml import written_key

MOST_LINES = 200
MOST_WORDS = 200  # of a line: it is to be known again
Said = Annotated[str, Field(max_length=400)]
_KEYS = {
    "": ("line",),
    "line": ("key", "heading", "words", "rig", "item", "count", "only_read", "home"),
}
_HEAD = """\
# What was in the bag of this match, as its pack list was ticked; home = "yes" is what came home, "no"
# what did not. Text after # is a note.
"""


class BagLine(StrictModel):
    """One line that was ticked. ``rig`` is a code, ``item`` and ``count`` are hooklengths.

    ``only_read`` is a rule that was looked at, not taken; ``home`` is "" where nobody said.
    """

    key: Said = Field(min_length=1)
    heading: Said = ""
    words: Said = ""
    rig: Said = ""
    item: int = Field(default=0, ge=0)
    count: int = Field(default=0, ge=0)
    only_read: bool = False
    home: Literal["", "yes", "no"] = ""


class BagFile(StrictModel):
    """A whole file."""

    stem: str
    line: tuple[BagLine, ...] = Field(default=(), max_length=MOST_LINES)


@dataclass(frozen=True)
class Bags:
    """The bags of a box, in its folder ``bags``, each by its match's name."""

    folder: Path

    @property
    def files(self) -> DataFiles:
        """The files."""
        return DataFiles("bags", "bag", self.folder)

    def load(self, match: str) -> tuple[BagLine, ...]:
        """What was ticked for that match; nothing where nothing was.

        Raises AskedWronglyError for a file that cannot be read.
        """
        if not self.files.is_named(match):
            return ()
        stem, text = self.files.read(match)
        return parse_toml(BagFile, text, stem, "bag", _KEYS, {}).line

    def write(self, match: str, lines: Iterable[BagLine]) -> None:
        """Write what is in the bag now; raises as ``DataFiles.write_over``."""
        every = tuple({line.key: line for line in lines}.values())
        if len(every) > MOST_LINES:
            raise AskedWronglyError(
                f"{len(every)} lines are more than a bag holds.", right=f"At most {MOST_LINES}."
            )
        self.files.write_over(match, _HEAD + "".join(map(_table, every)))


def _table(line: BagLine) -> str:
    said = {key: value for key, value in line.model_dump().items() if value}
    return "\n[[line]]\n" + "".join(written_key(key, value).text for key, value in said.items())
