"""A debrief as rows of a table: as it is answered, and as it stands."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from tacklebox.cli.output import show_table

if TYPE_CHECKING:
    from tacklebox.desk.debriefs import DebriefAnswers, DebriefShown


def answers_shown(shown: "DebriefShown") -> "Sequence[tuple[str, str]]":
    """What a debrief says, as rows of a table."""
    return [
        ("back", " ".join(shown.back)),
        ("lost", " ".join(shown.lost)),
        ("worn out", " ".join(shown.worn_out)),
        ("did well", " ".join(shown.did_well)),
        ("tackle lost", ", ".join(f"{one.amount} × {one.name}" for one in shown.tackle_lost)),
        *_row_of_worn_out(f"{one.amount} × {one.name}" for one in shown.hooklengths_worn_out),
        ("weighed in", shown.weight),
        ("peg", shown.peg),
        *_rows_said(shown.section, shown.place, shown.points, shown.water_c),
        ("notes", shown.notes),
    ]


def answers_said(said: "DebriefAnswers") -> "Sequence[tuple[str, str]]":
    """What is answered, as rows of a table, before it is written."""
    from tacklebox.desk.debrief_words import weighed

    tackle = [f"{amount} × {name}" for name, amount in said.tackle_lost.items()]
    worn_out = (f"{amount} × {name}" for name, amount in said.worn_out_tackle.items())
    return [
        ("back", " ".join(said.back)),
        ("lost", " ".join(said.lost)),
        ("worn out", " ".join(said.worn_out)),
        ("did well", " ".join(said.did_well)),
        ("tackle lost", ", ".join(tackle)),
        *_row_of_worn_out(worn_out),
        ("weighed in", weighed(said.weight or "")),
        ("peg", said.peg or ""),
        *_rows_said(said.section, said.place, said.points, said.water),
        ("notes", said.notes or ""),
    ]


def _rows_said(*said: str | float | None) -> Sequence[tuple[str, str]]:
    """Section, place, points and the water's temperature, where they are said."""
    names = ("section", "place", "points", "water")
    words = (f"{one:g}" if isinstance(one, int | float) else one for one in said)
    return [(name, one) for name, one in zip(names, words, strict=True) if one]


def _row_of_worn_out(hooklengths: Iterable[str]) -> Sequence[tuple[str, str]]:
    words = ", ".join(hooklengths)
    return [("hooklengths worn out", words)] if words else []


def show_answers(rows: "Sequence[tuple[str, str]]") -> None:
    """Print the whole of a debrief."""
    show_table(["the whole of it", ""], [(what, words or "-") for what, words in rows])
