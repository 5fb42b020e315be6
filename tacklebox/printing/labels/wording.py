"""What a label says of a rig, in order of importance."""

import re
from dataclasses import dataclass
from datetime import date

from tacklebox.errors import AskedWronglyError
from tacklebox.printing.fonts import ELLIPSIS
from tacklebox.rigs.tying.snapshot import Mark, Snapshot
from tacklebox.trade.quantities import read_length_mm

_ONLY_WITH_ROOM = ("date", "name", "purpose", "float or feeder in full")
ROUNDED_MM = 10.0  # a depth that was worked out, at most
MOST_NAME = 60  # letters of a rig's name
_CARRIED = ("float", "feeder", "bomb")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_AFTER_FIGURE = re.compile(r"(\d)\s*(mm|cm|m|in|ft|g|kg|oz|lb|ml)\b")


@dataclass(frozen=True, slots=True)
class Field:
    """One thing that a label says: what it is about, its heading, and it in three lengths.

    ``only_with_room``: it stands there where there is room, and is not missed elsewhere.
    """

    about: str
    heading: str
    full: str
    short: str
    least: str
    only_with_room: bool = False

    @property
    def least_heading(self) -> str:
        """Its heading where room is short: a day needs none."""
        return "" if self.about == "date" else self.heading


def carried_mark(snapshot: Snapshot) -> Mark | None:
    """The float, feeder or bomb that the rig is known by."""
    return next((m for m in snapshot.marks if m.what in _CARRIED), None)


def kind_words(snapshot: Snapshot) -> str:
    """What stands beside the size: "waggler insert", "cage feeder"; a hooklength's length."""
    if snapshot.kind == "hooklength":
        return snapshot.size if snapshot.looked_for else "hooklength"
    mark = carried_mark(snapshot)
    if mark is None:
        return ""
    if mark.what == "float":
        return mark.kind if "waggler" in mark.kind else f"{mark.kind} float".strip()
    return mark.kind if mark.kind == mark.what else f"{mark.kind} {mark.what}".strip()


def fields(snapshot: Snapshot) -> tuple[Field, ...]:
    """What a label says besides code, size and kind, most important first.

    A hooklength's length is its size, so it is not said again as what it was set for.
    """
    is_rig = snapshot.kind == "rig"
    below = spaced(snapshot.hooklength)
    if not is_rig:
        below = below.removeprefix(f"{spaced(snapshot.size)} ")
    others = {name: length for name, length in snapshot.lengths.items() if name != "depth"}
    depth = snapshot.lengths.get("depth", "")
    set_for = ", ".join(filter(None, (depth, *(f"{n} {length}" for n, length in others.items()))))
    if at_the_water := plumbed_words(snapshot):
        set_for = f"{set_for} ({at_the_water})"
    unknown_day = "before, or bought" if snapshot.in_tray_before else ""
    said = (
        ("set for", "Depth" if depth else "Set for", spaced(set_for) if is_rig else ""),
        ("line", "Line", spaced(snapshot.rig_line)),
        ("hooklength", "Hooklength" if is_rig else "Line", below),
        ("count", "Count", str(snapshot.count) if snapshot.looked_for else ""),
        ("hook", "Hook", snapshot.hook),
        ("elastic", "Elastic", snapshot.elastic.removeprefix("elastic ")),
        ("shot", "Shot", spaced(snapshot.shot)),
        ("date", "Tied", day_words(snapshot.tied_on) or unknown_day),
        ("name", "Rig" if is_rig else "", _cut(snapshot.name)),
        ("purpose", "For", snapshot.purpose),
        ("float or feeder in full", "Carries", snapshot.carries if _says_more(snapshot) else ""),
    )
    return tuple(_field(about, heading, text) for about, heading, text in said if text)


def plumbed_words(snapshot: Snapshot) -> str:
    """The depth of the water and how much over it the rig is fished, "" where nobody said either."""
    over = snapshot.over.replace(" over depth", " over")  # "4 ft, 1 in over", as anglers write it
    said_already = snapshot.plumbed == snapshot.lengths.get("depth", "")
    plumbed = "" if said_already else snapshot.plumbed
    if plumbed and not over:
        plumbed = f"plumbed {plumbed}"
    return ", ".join(filter(None, (plumbed, over)))


def depth_in_short(snapshot: Snapshot) -> str:
    """The depth as the water's and so much over it, where it comes to that, else "": "6 ft + 2 in over"."""
    over = snapshot.over.removesuffix(" over depth")
    if not snapshot.plumbed or over == snapshot.over or list(snapshot.lengths) != ["depth"]:
        return ""
    said = (snapshot.plumbed, over, snapshot.lengths["depth"])
    try:
        deep_mm, over_mm, depth_mm = map(read_length_mm, said)
    except AskedWronglyError:
        return ""
    told = abs(deep_mm + over_mm - depth_mm) < ROUNDED_MM
    return f"{spaced(snapshot.plumbed)} + {spaced(over)} over" if told else ""


def _field(about: str, heading: str, full: str) -> Field:
    short = _shorter(full)
    least = short
    if about == "hook":
        least = re.sub(r" (spade|eyed)\b", "", short)
    elif about == "shot":
        least = short.replace(" at float", "").replace(" at ", " ").replace(" + ", "+")
    elif about == "date":
        least = re.sub(r" 20(\d\d)$", r" \1", short)
    return Field(about, heading, full, short, least, about in _ONLY_WITH_ROOM)


def _cut(name: str) -> str:
    return name if len(name) <= MOST_NAME else name[: MOST_NAME - 1].rstrip() + ELLIPSIS


def spaced(text: str) -> str:
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
