"""What a label says of a rig, in order of importance."""

import re
from dataclasses import dataclass
from datetime import date

from tacklebox.rigs.snapshot import Mark, Snapshot

_CARRIED = ("float", "feeder", "bomb")
_MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
_AFTER_FIGURE = re.compile(r"(\d)\s*(mm|cm|m|in|ft|g|kg|oz|lb|ml)\b")


@dataclass(frozen=True, slots=True)
class Field:
    """One thing that a label says: its heading, and it in full and in short."""

    heading: str
    full: str
    short: str


def carried_mark(snapshot: Snapshot) -> Mark | None:
    """The float, feeder or bomb that the rig is known by."""
    return next((m for m in snapshot.marks if m.what in _CARRIED), None)


def kind_words(snapshot: Snapshot) -> str:
    """What stands beside the size: "waggler insert", "cage feeder", "hooklength"."""
    if snapshot.kind == "hooklength":
        return "hooklength"
    mark = carried_mark(snapshot)
    if mark is None:
        return ""
    if mark.what == "float":
        return mark.kind if "waggler" in mark.kind else f"{mark.kind} float".strip()
    return mark.kind if mark.kind == mark.what else f"{mark.kind} {mark.what}".strip()


def fields(snapshot: Snapshot) -> tuple[Field, ...]:
    """What a label says besides code, name, size and kind, most important first.

    A hooklength's length is its size, so it is not said again as what it was set for.
    """
    is_rig = snapshot.kind == "rig"
    below = _spaced(snapshot.hooklength)
    if not is_rig:
        below = below.removeprefix(f"{_spaced(snapshot.size)} ")
    said = [
        _field("Hooklength" if is_rig else "Line", below),
        _field("Hook", snapshot.hook),
        _field("Line", snapshot.rig_line),
        _field("Set for", snapshot.set_for if is_rig else ""),
        _field("Shot", snapshot.shot),
        _field("Tied", day_words(snapshot.tied_on)),
        _field("For", snapshot.purpose),
        _field("Carries", snapshot.carries if _says_more(snapshot) else ""),
    ]
    return tuple(field for field in said if field.full)


def _field(heading: str, text: str) -> Field:
    full = _spaced(text)
    if heading == "Set for" and full.startswith("depth "):
        heading, full = "Depth", full.removeprefix("depth ")
    return Field(heading, full, _shorter(full))


def _spaced(text: str) -> str:
    return _AFTER_FIGURE.sub(r"\1 \2", text.strip())


def _shorter(text: str) -> str:
    """Nylon need not be said, nor the first unit of a range: "20–35 cm"."""
    text = text.removeprefix("nylon ").replace(" nylon ", " ")
    text = text.replace(" at the float", " at float")
    return re.sub(r"(\d) (cm|mm|m)–(\d+(?:\.\d+)? \2)\b", r"\1–\3", text)


def _says_more(snapshot: Snapshot) -> bool:
    known = f"{kind_words(snapshot)} {snapshot.size}".lower().split()
    return any(word not in known for word in snapshot.carries.lower().split())


def day_words(iso: str) -> str:
    """A day as a person writes it: "5 Mar 2026"."""
    try:
        day = date.fromisoformat(iso)
    except ValueError:
        return iso
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"
