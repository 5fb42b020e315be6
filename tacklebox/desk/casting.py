"""A cast: what it pulls on the line that bears it, and how its distance is found again."""

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.judgements import Judgement
    from tacklebox.trade.sources import Source

TRAVEL, STICKS, KNOT, MATERIAL = "3 m", "12 ft", "half blood", "nylon"  # what is usual


@dataclass(frozen=True)
class CastJudged:
    """Whether the line stands the cast, and how the distance is found again.

    ``handle_turns`` is None where nobody told how much line a turn wins.
    """

    judgement: "Judgement"
    wraps: float
    sticks: str  # how far apart they stand
    handle_turns: float | None
    line_per_turn: str

    @property
    def wraps_in_words(self) -> str:
        """To the half wrap, which is as near as line is led round a stick."""
        halves = round(2 * self.wraps)
        return f"{halves // 2 or ''}{'½' if halves % 2 else ''}" or "0"


def judge_cast(
    desk: Desk,
    line: str,
    mass: str,
    distance: str,
    *,
    load: str = "",
    knot: str = KNOT,
    material: str = MATERIAL,
    rod_tip_travel: str = TRAVEL,
    sticks: str = STICKS,
    line_per_turn: str = "",
) -> CastJudged:
    """What a cast pulls on a main line: its breaking strain, or words that name it in the box.

    ``mass`` is the empty feeder's or the bomb's, ``load`` what the feeder is filled with. Raises
    AskedWronglyError for what is not understood or lies outside its range.
    """
    from tacklebox.trade.casting import handle_turns, judge_casting, wraps
    from tacklebox.trade.quantities import read_length_mm, read_mass_g

    away_m = in_field("distance", read_length_mm, distance) / 1000
    empty_g = in_field("mass", read_mass_g, mass)
    holds_kg, source = _main_line(desk, line, knot, material)
    judgement = judge_casting(
        holds_kg,
        empty_g,
        load_g(load),
        away_m,
        in_field("rod_tip_travel", read_length_mm, rod_tip_travel) / 1000,
        line_source=source,
        said=("" if load_g(load) else mass.strip(), distance.strip()),
    )
    turn_cm = in_field("line_per_turn", read_length_mm, line_per_turn) / 10 if line_per_turn else 0
    return CastJudged(
        judgement,
        wraps(away_m, in_field("sticks", read_length_mm, sticks) / 1000),
        sticks,
        handle_turns(away_m, turn_cm) if line_per_turn else None,
        line_per_turn,
    )


def load_g(said: str) -> float:
    """What a feeder is filled with, in g; nothing where nothing is said."""
    from tacklebox.trade.quantities import read_mass_g

    return 0.0 if said.strip() in ("", "0") else in_field("load", read_mass_g, said)


def _main_line(desk: Desk, line: str, knot: str, material: str) -> "tuple[float, Source]":
    """What the main line holds after its knot: of a strain that was said, or of an item."""
    from tacklebox.trade.knots import keeps, knot_named
    from tacklebox.trade.line import material_named
    from tacklebox.trade.quantities import read_strain_kg
    from tacklebox.trade.sources import PRINTED

    tied = in_field("knot", knot_named, knot)
    kind = in_field("material", material_named, material).name
    try:
        return read_strain_kg(line) * keeps(tied, kind), PRINTED
    except AskedWronglyError:
        if re.fullmatch(r"[\d.,/\s]+[a-zA-Z]+", line.strip()):
            raise AskedWronglyError(
                f'"{line}" is no strain of a line.',
                field="line",
                right='Write it like "2.5 kg", or name an item of the box.',
            ) from None
    from tacklebox.stock.finding import find
    from tacklebox.stock.measured import holds_after

    with desk.box.reading() as session:
        held = in_field("line", lambda text: holds_after(session, find(session, text), tied), line)
    return held.mean, held.source
