"""What was tied, kept with the rig: an edited recipe never changes an old rig's label."""

import json
import math
import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass, field, fields
from functools import lru_cache
from typing import Any, Protocol

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.checks import CHECK, as_checked_json
from tacklebox.trade.quantities import read_length_mm


@dataclass(frozen=True, slots=True)
class Mark:
    """One thing on the line, with its distance from the hook.

    ``what`` is one of: float, shot, olivette, feeder, bomb, swivel, snap link, bead, stop,
    adaptor, connector, loop, knot, elastic, hook. ``kind`` tells it apart within that ("waggler insert",
    "cage", a shot mark). ``side_mm`` is how far it hangs off the line on a side branch (0:
    it is on the line itself). ``held`` is "" or how it is on the line: "runs free",
    "in line", "one point", "two points".
    """

    what: str
    kind: str
    words: str
    from_hook_mm: float
    mass_g: float = 0.0
    side_mm: float = 0.0
    held: str = ""


@dataclass(frozen=True, slots=True)
class KeptFall:
    """How a tied rig falls, as computed when it was tied; ``says`` is the bank's one sentence, ``notes`` what
    was computed otherwise than asked.

    ``settled_by_s`` None: ``says`` why not. Depths are below the float's own end, ``aside`` is from
    where the float was cast, all in mm. ``rig`` is the rig as it ends, from the float down, each place
    with the shot there, in g; ``tight`` and ``slack`` are the bait's tracks, each place with its second.
    All three are empty where nothing was computed.
    """

    says: str
    settled_by_s: int | None = None
    bait: str = ""
    fished: str = ""
    water_c: float = 0.0
    deep_mm: float = 0.0
    has_bed: bool = False
    rig: tuple[tuple[int, int, float], ...] = ()  # aside, deep, g
    tight: tuple[tuple[float, int, int], ...] = ()  # s, aside, deep
    slack: tuple[tuple[float, int, int], ...] = ()
    notes: tuple[str, ...] = ()


# A length and its name, as they stood only in words in boxes of schema 1 to 5.
_ONCE_SET_FOR = re.compile(r"([^\d, ]+) ([^,]+)")
# How long a hooklength is stood only in words, before rigs could be changed.
_ONCE_LONG = re.compile(r"\d[\d./]* ?(?:mm|cm|m|in|ft)\b")
# What outcomes were called in boxes of schema 1 and 2.
_ONCE_CALLED = {"look again": "doubtful", "will not do": "fails"}


class UnreadableError(ValueError):
    """What is kept of a rig or batch is no snapshot; why not."""


@dataclass(frozen=True, slots=True)
class Snapshot:
    """A tied rig or hooklength in words, and the things on it from rod to hook.

    Empty strings stand for what the rig does not have. ``size`` is what is looked for
    first: the float's or feeder's size on a rig, the length on a hooklength. Lengths in mm.
    ``marks`` run from the rod to the hook. ``fall`` None: of hooklengths, and of what was tied before
    falls were kept. ``count`` is how many hooklengths of a batch it is of, ``looked_for`` what anglers look
    for them by: hook and line.
    """

    code: str
    recipe: str  # the recipe's file name without ending
    name: str
    kind: str  # "rig" or "hooklength"
    method: str  # "float", "feeder" or "pole"
    purpose: str
    tied_on: str  # ISO date, "" where nobody knows
    size: str  # "5BB", "30 g"; a hooklength's length
    carries: str  # "waggler insert 5BB", "feeder cage 30 g"
    rig_line: str  # "nylon 0.14 mm 1.81 kg"
    hooklength: str  # "30 cm nylon 0.10 mm 1.2 kg"
    hook: str  # "20 spade barbless"
    shot: str  # "2 AAA at the float, bulk 4 No 8 60 cm, …"
    set_for: str  # the lengths in words: "depth 1.5 m"
    outcome: str  # "sound", "doubtful", "fails", "" of what was not checked
    length_mm: float  # from the top of what was tied to the hook (or the end loop)
    marks: tuple[Mark, ...] = field(default=())
    elastic: str = ""  # "elastic 4"; "" in snapshots of once, as the next two are nothing
    winder_length_mm: float = 0.0  # of the winder that it is wound on
    winder_width_mm: float = 0.0
    plumbed: str = ""  # "1.45 m", as it was said
    over: str = ""  # how it is fished there: "2 in over depth", "at dead depth"
    in_tray_before: bool = False  # it was tied before the box knew it, or bought
    # What was chosen, by its name: the lengths of a rig, and the sizes, which older ones do not have.
    lengths: Mapping[str, str] = field(default_factory=dict)
    sizes: Mapping[str, str] = field(default_factory=dict)
    fall: KeptFall | None = None
    count: int = 1
    looked_for: str = ""  # of a hooklength: "18 · 0.10"
    hooklength_mm: float = 0.0  # how long its hooklength is, 0 where nobody knows
    made_from: str = ""  # the code of the rig that it was before it was changed
    changed: str = ""  # what was changed then, in words
    changed_otherwise: bool = False  # also by what only those words say
    unreadable: bool = (
        False  # it stands in for one that was damaged: no more than the code is known
    )

    def to_json(self) -> str:
        """The snapshot as JSON with a check, for keeping in the box; who ever changes it there makes that
        anew."""
        kept = asdict(self)
        if not self.unreadable:
            del kept["unreadable"]
        return as_checked_json(kept)

    @classmethod
    def from_json(cls, text: str) -> "Snapshot":
        """The snapshot that ``to_json`` wrote; whether each sign is as it was, the audit tells. Raises
        UnreadableError for what it did not write."""
        return _read(text)


@lru_cache(maxsize=1000)  # what was tied never changes, and is read for each page that names it
def _read(text: str) -> Snapshot:
    try:
        raw: dict[str, Any] = json.loads(text)
        raw.pop(CHECK, None)  # older ones have none
        raw["outcome"] = _ONCE_CALLED.get(raw["outcome"], raw["outcome"])
        raw.setdefault("lengths", dict(_ONCE_SET_FOR.findall(raw["set_for"])))
        if "hooklength_mm" not in raw:
            raw["hooklength_mm"] = _once_long(raw["hooklength"])
        marks = tuple(Mark(**mark) for mark in raw.pop("marks"))
        fall = raw.pop("fall", None)
        made = Snapshot(**raw, marks=marks, fall=_read_fall(fall) if fall else None)
    except (ValueError, RecursionError):
        raise UnreadableError("its text is damaged") from None
    except (TypeError, KeyError, AttributeError):
        raise UnreadableError("a part of it is missing, or is none of ours") from None
    for one in (made, *made.marks, *([made.fall] if made.fall else ())):
        _verify(one)
    return made


class KeptMade(Protocol):
    """A rig or a batch as it is kept."""

    @property
    def code(self) -> str: ...
    @property
    def recipe(self) -> str: ...
    @property
    def snapshot(self) -> str: ...


def read_kept(made: KeptMade) -> Snapshot:
    """What was tied; where that was damaged, what stands in for it."""
    try:
        return Snapshot.from_json(made.snapshot)
    except UnreadableError:
        return stand_in(made.code, made.recipe)


def stand_in(code: str, recipe: str) -> Snapshot:
    """Of a rig or batch whose snapshot cannot be read: its code and its recipe.

    >>> stand_in("A01T", "pole-canal-shot").name
    'what was tied cannot be read'
    """
    unknown: dict[str, Any] = dict.fromkeys(
        (
            *("kind", "method", "purpose", "tied_on", "size", "carries", "rig_line", "hooklength"),
            *("hook", "shot", "set_for", "outcome"),
        ),
        "",
    )
    name = "what was tied cannot be read"
    return Snapshot(code=code, recipe=recipe, name=name, length_mm=0.0, unreadable=True, **unknown)


def _once_long(words: str) -> float:
    with suppress(AskedWronglyError):
        found = _ONCE_LONG.match(words)
        return read_length_mm(found[0]) if found else 0.0
    return 0.0


def _read_fall(raw: dict[str, Any]) -> KeptFall:
    rows: dict[str, Any] = {k: tuple(map(tuple, raw.pop(k))) for k in ("rig", "tight", "slack")}
    for name, row in ((name, row) for name, those in rows.items() for row in those):
        if len(row) != 3 or not all(map(_is_number, row)):
            raise TypeError(f"a row of {name} is none")
    return KeptFall(notes=tuple(raw.pop("notes")), **rows, **raw)


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and math.isfinite(value)


def _verify(one: Snapshot | Mark | KeptFall) -> None:
    """Raise UnreadableError where a text or a number is none."""
    for kept in _FIELDS[type(one)]:
        value = getattr(one, kept.name)
        if kept.type is float or kept.type is int:
            fits = _is_number(value)
        elif kept.type is str or kept.type is bool:
            fits = isinstance(value, kept.type)
        elif kept.type == Mapping[str, str]:
            fits = isinstance(value, dict) and all(isinstance(v, str) for v in value.values())
        else:
            continue  # looked at where it is made
        if not fits:
            raise UnreadableError(f"{kept.name} is {value!r:.40}")


_FIELDS = {made: fields(made) for made in (Snapshot, Mark, KeptFall)}
