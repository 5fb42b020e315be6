"""Line-clip distances of a match: how to find each again, in wraps and turns."""

from collections.abc import Callable

from pydantic import BaseModel, ConfigDict, Field, field_validator

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.casting import handle_turns, wraps
from tacklebox.trade.quantities import read_length_mm


class Clip(BaseModel):
    """A table ``[[clip]]`` of a match file: a distance, the sticks' spacing, a turn's retrieve."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)

    distance: str = Field(min_length=1, max_length=40)
    sticks: str = Field(default="12 ft", min_length=1, max_length=40)
    turn: str | None = Field(default=None, min_length=1, max_length=40)
    what: str = Field(default="", max_length=80)  # "feeder rod", "the island"

    @field_validator("distance")
    @classmethod
    def _can_be_cast(cls, value: str) -> str:
        return _within(value, lambda mm: wraps(mm / 1000))

    @field_validator("sticks")
    @classmethod
    def _are_sticks(cls, value: str) -> str:
        return _within(value, lambda mm: wraps(10, mm / 1000))

    @field_validator("turn")
    @classmethod
    def _is_a_retrieve(cls, value: str | None) -> str | None:
        return value if value is None else _within(value, lambda mm: handle_turns(10, mm / 10))

    @property
    def round_sticks(self) -> float:
        """Wraps of line round two sticks: distance / spacing."""
        return wraps(read_length_mm(self.distance) / 1000, read_length_mm(self.sticks) / 1000)

    @property
    def of_the_handle(self) -> float | None:
        """Turns of the reel's handle: distance / retrieve; None where no retrieve is told."""
        if self.turn is None:
            return None
        return handle_turns(read_length_mm(self.distance) / 1000, read_length_mm(self.turn) / 10)

    @property
    def heading(self) -> str:
        """The distance, and what it is: "22 m, feeder rod:"."""
        return f"{self.distance}{', ' if self.what else ''}{self.what}:"

    @property
    def words(self) -> str:
        """How to find it again, in a line."""
        turns = self.of_the_handle
        by_handle = f"; {turns:.0f} turns of the handle, {self.turn} each" if turns else ""
        return f"{self.round_sticks:.1f} wraps, sticks {self.sticks} apart{by_handle}"


CLIP_KEYS = tuple(Clip.model_fields)


def _within(text: str, check: Callable[[float], float]) -> str:
    try:
        check(read_length_mm(text))
    except AskedWronglyError as error:
        raise ValueError(str(error)) from None
    return text
