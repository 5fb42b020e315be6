"""What was described, as a row of its kind's table, and a row as what it describes."""

from collections.abc import Mapping
from typing import Any

from tacklebox.stock.naming.described import FIGURES_OF, Described, Figure, word
from tacklebox.stock.naming.parts import grade_ends
from tacklebox.stock.tables import FIGURES, UNMARKED, Figures, Float, Kind, Weight
from tacklebox.trade import quantities as q
from tacklebox.trade.floats import read_capacity
from tacklebox.trade.hooks import read_hook_order
from tacklebox.trade.shot import read_mark

# Figures with a unit: the column in SI, the column with the words, how it is written where nobody said it.
_LINE = {
    "diameter": ("diameter_mm", "diameter_said", q.write_diameter),
    "strain": ("breaks_at_kg", "strain_said", q.write_strain_as_printed),
}
MEASURED: Mapping[str, Mapping[str, tuple[str, str, Any]]] = {
    Kind.LINE: _LINE,
    Kind.HOOKLENGTH: {**_LINE, "length": ("length_mm", "length_said", q.write_length)},
    Kind.FLOAT: {
        "tip diameter": ("tip_diameter_mm", "tip_diameter_said", q.write_length),
        "tip length": ("tip_length_mm", "tip_length_said", q.write_length),
    },
    Kind.FEEDER: {
        "mass": ("mass_g", "mass_said", q.write_mass),
        "volume": ("volume_ml", "volume_said", q.write_volume),
    },
    Kind.PART: {"strain": ("breaks_at_kg", "strain_said", q.write_strain_as_printed)},
    Kind.WINDER: {
        "length": ("length_mm", "length_said", q.write_length),
        "width": ("width_mm", "width_said", q.write_length),
    },
}


def as_row(described: Described) -> Figures:
    """The figures as a new row of their kind's table; what was assumed has no words."""
    kind = described.kind
    row: dict[str, Any] = {}
    for key, figure in described.figures.items():
        if key in MEASURED.get(kind, {}):
            column, said, _ = MEASURED[kind][key]
            value = None if figure.words == UNMARKED else figure.value
            row |= {column: value, said: "" if figure.because else figure.words}
        else:
            row[key] = figure.value
    if kind in (Kind.HOOK, Kind.HOOKLENGTH):
        row["size_order"] = None if row["size"] == UNMARKED else read_hook_order(row["size"])
    elif kind == Kind.FLOAT:
        carries = described.figures.get("carries")
        row.pop("carries", None)
        row["carries_said"] = carries.words if carries else ""
        row["capacity_g"] = carries.value if carries else _capacity_g(row["mark"])
    elif kind == Kind.WEIGHT:
        row.pop("mass", None)
        row |= _weight(described)
    elif kind == Kind.ELASTIC:
        row["grade"], row["grade_to"] = grade_ends(described.figures["grade"])
    return FIGURES[kind](**{column: _in_15_digits(value) for column, value in row.items()})


def _capacity_g(mark: str) -> float | None:
    return None if mark == UNMARKED else read_capacity(mark).mass_g


def _in_15_digits(value: Any) -> Any:
    """As many digits as a spreadsheet keeps, so that an export saved by one gives the same figure."""
    return float(f"{value:.15g}") if isinstance(value, float) else value


def _weight(described: Described) -> dict[str, Any]:
    """An olivette goes by its mass, shot and styls by a mark that has one, where they are marked."""
    mass = described.figures.get("mass") or described.figures["mark"]
    if mass.words == UNMARKED:
        return {"mark": UNMARKED, "mass_g": None}
    if "mass" in described.figures:
        return {"mark": mass.words, "mass_g": mass.value}
    form, mark = (str(described.figures[key].value) for key in ("form", "mark"))
    shot = read_mark(mark if form == "shot" else f"{form} {mark}")
    return {"mark": shot.mark, "mass_g": shot.mass_g}


def of_row(row: Figures, note: str = "") -> Described:
    """What a row describes, its figures as they were said, else in their usual units."""
    kind = row.of_kind
    figures: dict[str, Figure] = {}
    for key in FIGURES_OF[kind]:
        if key in MEASURED.get(kind, {}):
            column, said, write = MEASURED[kind][key]
            value = getattr(row, column)
            if value is not None:
                figures[key] = Figure(value, getattr(row, said) or write(value))
            elif getattr(row, said) == UNMARKED:
                figures[key] = word(UNMARKED)
        elif text := str(getattr(row, key, "") or ""):
            figures[key] = word(text)
    if isinstance(row, Float) and row.capacity_g is not None and row.carries_said:
        figures["carries"] = Figure(row.capacity_g, row.carries_said)
    if isinstance(row, Weight):
        if row.form == "olivette":
            del figures["mark"]
            figures["mass"] = word(UNMARKED) if row.mass_g is None else Figure(row.mass_g, row.mark)
        else:
            figures["mark"] = word(row.mark.removeprefix(f"{row.form} "))
    if kind == Kind.ELASTIC:
        soft, hard = row.grade, row.grade_to  # type: ignore[attr-defined]
        figures["grade"] = word(f"{soft:g}–{hard:g}" if hard else f"{soft:g}")
    return Described(kind, figures, note=note)
