"""The record of a day at the water: a line for each tap, as the page for the water writes them.

A record may come back cut off, edited by hand, or with a clock that was wrong. What can be read is
kept; each line that cannot be is a fault of its own, to be put right or left out. Times are the
phone's own.
"""

import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import datetime
from enum import StrEnum
from functools import lru_cache
from typing import Any

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.fish import NETS, species_named
from tacklebox.trade.quantities import read_weighed_g

FIRST_LINE = "TACKLEBOX RECORD"
VERSION = 1
MOST_LINES, MOST_LETTERS = 5000, 1000
YEARS = range(1970, 2200)  # a clock whose battery was out begins anew there
HEAVIEST_G = 50_000.0
DAY_KEYS = (
    "peg", "section", "draw", "wind", "depth", "water", "bait", "weighed", "place", "points",
)  # fmt: skip
# What of a rig is something else from now on, as the rest of it is
CHANGE_KEYS = ("depth", "shot", "float", "feeder")
CARRIED = ("float", "feeder")
AS_IT_IS = "as it is"  # a line that is doubted stands as it stands
_FIRST = re.compile(rf"{FIRST_LINE} (\d{{1,6}})", re.ASCII)
_TIME = "%Y-%m-%d %H:%M:%S"


class Did(StrEnum):
    """What a tap says."""

    FISH = "fish"
    LOST = "lost"
    WORN_OUT = "worn out"
    RIG = "rig"  # is fished from now on
    CHANGE = "change"
    NOTE = "note"
    CAST = "cast"
    FEED = "feed"
    NET = "net"  # a new one, of silvers or carp
    DAY = "day"


@dataclass(frozen=True)
class Tap:
    """One tap: its number, when, what it says. ``weighs_g`` in g, None where nobody said.

    ``rig`` is a code, ``item`` the number of hooklengths, or of the float or feeder that was put on, ``net``
    "silvers 1"; ``says`` is a change, a note, or what is said of the day or of a rig's depth, shot, float or
    feeder, by its word in ``about``. ``since_open`` is which opening of the page, and the seconds since.
    """

    number: int
    at: datetime
    did: Did
    species: str = ""
    weighs_g: float | None = None
    rig: str = ""
    item: int = 0
    net: str = ""
    about: str = ""
    says: str = ""
    since_open: str = ""
    line: int = field(default=0, compare=False)  # of the text that it was read from


@dataclass(frozen=True)
class DoubtfulLine:
    """A line that cannot be taken as it stands: its number in the text, the line, what is wrong."""

    line: int
    text: str
    what: str
    right: str = ""


@dataclass(frozen=True)
class Record:
    """What a record says. ``key`` names box, match, day; ``is_whole`` is False without its end; ``missing``
    are numbers of taps that stand nowhere in it."""

    key: str
    match: str
    taps: tuple[Tap, ...]
    rigs: tuple[str, ...] = ()  # that went along, by their codes
    faults: tuple[DoubtfulLine, ...] = ()
    is_whole: bool = True
    missing: tuple[int, ...] = ()


def record_key(box: str, match: str, day: str) -> str:
    """What names a record: the box, the match and its day."""
    return f"{box}/{match}/{day}"


def read_record(text: str, put_right: Mapping[int, str] | None = None) -> Record:
    """A record from its text; ``put_right`` has other words for lines by number, "" leaves one out, "as it
    is" keeps it.

    Raises AskedWronglyError for text that is no record, one without its first lines, of a newer
    version, and one of more than MOST_LINES lines.
    """
    lines = [_plain(line) for line in text.lstrip("\ufeff").splitlines()]
    if len(lines) > MOST_LINES:
        raise AskedWronglyError(
            f"{len(lines)} lines are more than the {MOST_LINES} of a record.",
            field="record",
            right="Give the record of one match.",
        )
    start = _first_line(lines)
    reading = _Reading()
    for number, line in enumerate(lines[start:], start + 1):
        reading.see(line)
        said = (put_right or {}).get(number, AS_IT_IS)
        said = line if said.strip() == AS_IT_IS else said
        if said.strip():
            reading.take(number, line, _plain(said))
    if not (reading.key and reading.match):
        raise AskedWronglyError(
            "its first lines are missing: nobody can tell which match it is of.",
            field="record",
            right="Copy it whole, from its first line on.",
        )
    return reading.record()


def _plain(line: str) -> str:
    """One blank between words, nothing that is not seen, and no mark of a message that was answered."""
    return "".join(sign for sign in " ".join(line.split()) if sign.isprintable()).lstrip("> ")


def write_record(record: Record) -> str:
    """The record as text that ``read_record`` reads again; what was taken back or left out is gone."""
    last = max((tap.number for tap in record.taps), default=0)
    head = [f"{FIRST_LINE} {VERSION}", f"record | {record.key}", f"match | {record.match}"]
    head += [f"rigs | {' '.join(record.rigs)}"] if record.rigs else []
    return "\n".join([*head, *map(write_line, record.taps), f"end | {last}", ""])


def write_line(tap: Tap) -> str:
    """A tap as a line of the record."""
    parts = [str(tap.number), tap.at.strftime(_TIME), tap.did.value]
    for word, (name, _) in _READERS.items():
        value = getattr(tap, name)
        if value and word not in ("to", "says"):
            parts.append(f"{word} {value:.1f} g" if name == "weighs_g" else f"{word} {value}")
    if tap.says:
        parts.append(f"{tap.about or 'says'} {tap.says}")
    return " | ".join(parts)


@dataclass(frozen=True)
class KeptTaps:
    """The taps of a kept record as they are added up: fish of one species, weight, rig and net once, with
    when each came, as it is written (the tap's own number and time are none), and all else one by one."""

    fish: tuple[tuple[Tap, Sequence[str]], ...]
    others: tuple[Tap, ...]


def read_kept(text: str) -> KeptTaps:
    """The taps of a record as ``write_record`` wrote it, many times as quick: nothing in it is doubted, and
    fish that are alike are read once.

    Raises ValueError for a line that it did not write.
    """
    came: dict[str, list[str]] = defaultdict(list)
    others = []
    for line in text.split("\n"):
        if line[:1].isdecimal():
            number, at, said = line.split(" | ", 2)
            if said[:4] == _FISH:
                came[said.partition(_OPEN)[0]].append(at)
            else:
                others.append(_kept_tap(number, at, said))
    return KeptTaps(tuple((_fish(said), at) for said, at in came.items()), tuple(others))


_FISH = Did.FISH.value
_OPEN = " | open "  # what comes after it adds nothing up


@lru_cache(maxsize=2000)  # season by season they are much the same
def _fish(said: str) -> Tap:
    return _kept_tap("0", "2000-01-01", said)


def _kept_tap(number: str, at: str, words: str) -> Tap:
    did, *parts = words.split(" | ")
    more: dict[str, Any] = {}
    for part in parts:
        word, _, said = part.partition(" ")
        if word == "weighs":
            more["weighs_g"] = float(said[:-2])
        elif word == "item":
            more["item"] = int(said)
        elif word in _READERS:
            more[_READERS[word][0]] = said
        else:
            more["about"], more["says"] = word, said
    return Tap(int(number), datetime.fromisoformat(at), _DID[did], **more)


_DID = {did.value: did for did in Did}


def _first_line(lines: list[str]) -> int:
    for at, line in enumerate(lines):
        found = _FIRST.search(line)
        if found and int(found[1]) > VERSION:
            raise AskedWronglyError(
                f"this record is of version {found[1]}, from a newer Tacklebox.",
                field="record",
                right="Update Tacklebox here first.",
            )
        if found:
            return at + 1
    raise AskedWronglyError(
        f'this is no record of a day at the water: none of its lines is "{FIRST_LINE} {VERSION}".',
        field="record",
        right="Copy all that the page for the water shows as its record.",
    )


@dataclass
class _Reading:
    """What was read so far."""

    key: str = ""
    match: str = ""
    rigs: tuple[str, ...] = ()
    taps: dict[int, Tap] = field(default_factory=dict)
    taken_back: set[int] = field(default_factory=set)
    faults: list[DoubtfulLine] = field(default_factory=list)
    ends_at: int | None = None
    seen: set[int] = field(default_factory=set)  # also of lines that are left out, or in doubt

    def see(self, line: str) -> None:
        """Note the number of a tap, whatever becomes of its line."""
        begins = line.partition("|")[0].strip()
        if begins.isascii() and begins.isdecimal() and len(begins) < 7:
            self.seen.add(int(begins))

    def take(self, number: int, line: str, said: str) -> None:
        try:
            if len(said) > MOST_LETTERS:
                raise AskedWronglyError(
                    f"the line is longer than {MOST_LETTERS} letters.",
                    right="Say it in fewer words.",
                )
            self._take(number, [part.strip() for part in said.split("|")])
        except AskedWronglyError as error:
            self.faults.append(DoubtfulLine(number, line[:MOST_LETTERS], error.what, error.right))

    def _take(self, line: int, parts: list[str]) -> None:
        first, rest = parts[0], parts[1:]
        if _FIRST.search(first):  # it was pasted twice
            return
        if first in ("record", "match") and rest:
            name = "key" if first == "record" else first
            if getattr(self, name) not in ("", rest[0]):
                raise AskedWronglyError(
                    "a record of another match begins here.", right="Give the record of one match."
                )
            setattr(self, name, rest[0])
        elif first == "day" and rest and not rest[1:]:
            return
        elif first == "rigs" and rest:
            self.rigs = tuple(rest[0].split())
        elif first == "taken back" and rest:
            self.taken_back |= {_whole(word) for word in rest[0].split(",")}
        elif first == "end" and rest:
            self.ends_at = _whole(rest[0])
        else:
            tap = replace(_tap(_whole(first), rest), line=line)
            before = self.taps.setdefault(tap.number, tap)
            if before != tap:
                raise AskedWronglyError(
                    f"tap {tap.number} is there twice, and the two differ.",
                    right="Leave out the one that is wrong.",
                )

    def record(self) -> Record:
        every = [self.taps[n] for n in sorted(self.taps.keys() - self.taken_back)]
        last = max(self.taps.keys() | self.taken_back, default=0)
        known = self.seen | self.taken_back
        is_whole = self.ends_at == last or (self.ends_at in known and self.ends_at > last)
        missing = tuple(n for n in range(1, min(last, MOST_LINES) + 1) if n not in known)
        return Record(
            self.key, self.match, tuple(every), self.rigs, tuple(self.faults), is_whole, missing
        )


def _whole(word: str) -> int:
    digits = word.strip()
    if not (digits.isascii() and digits.isdecimal() and len(digits) < 7):
        raise AskedWronglyError(
            f'"{digits[:60]}" is no number of a tap.',
            right="A line begins like: 12 | 2026-11-29 10:42:07 | fish.",
        )
    return int(digits)


def _tap(number: int, parts: list[str]) -> Tap:
    """A line's parts after its number: when, what, and more of it, each begun by its word."""
    if len(parts) < 2:
        raise AskedWronglyError(
            "the line is cut off.", right="It goes on like: 2026-11-29 10:42:07 | fish."
        )
    at = _time(parts[0])
    try:
        did = Did(parts[1])
    except ValueError:
        raise AskedWronglyError(
            f'"{parts[1]}" is nothing that is tapped.', right=f"There are {', '.join(Did)}."
        ) from None
    more = dict(_more(did, parts[2:]))
    if did in (Did.LOST, Did.WORN_OUT) and not (more.get("rig") or more.get("item")):
        raise AskedWronglyError(f"it does not say what was {did}.", right="Like: rig A01T.")
    return Tap(number, at, did, **more)  # type: ignore[arg-type]


def _time(words: str) -> datetime:
    with suppress(ValueError):
        at = datetime.strptime(words, _TIME)
        if at.year in YEARS:
            return at
    raise AskedWronglyError(
        f'"{words[:60]}" is no time.', right="Write it like 2026-11-29 10:42:07."
    )


def _more(did: Did, parts: list[str]) -> Iterator[tuple[str, object]]:
    for part in parts:
        word, _, said = part.partition(" ")
        said = said.strip()
        if word == "is":  # what an item is, for who reads the record
            continue
        about = DAY_KEYS if did is Did.DAY else CHANGE_KEYS if did is Did.CHANGE else ()
        if word in about and said:
            yield "about", word
            yield "says", said
        elif word in _READERS and (did is not Did.DAY or word == "open"):
            yield _READERS[word][0], _READERS[word][1](said)
        elif part:
            raise AskedWronglyError(
                f'"{part[:60]}" says nothing of a {did}.',
                right=f"There are {', '.join(DAY_KEYS if did is Did.DAY else _READERS)}.",
            )


def _weight(said: str) -> float:
    weight_g = round(read_weighed_g(said), 1)  # as it is kept
    if not 0 < weight_g <= HEAVIEST_G:
        raise AskedWronglyError(
            f"{said} is no weight of a fish.", right="Write it like 2 lb 4 oz, or 250 g."
        )
    return weight_g


def _net(said: str) -> str:
    kind, _, number = said.partition(" ")
    if kind not in NETS:
        raise AskedWronglyError(
            f'"{said[:60]}" is no net.', right=f"There are {' and '.join(NETS)}, like: silvers 1."
        )
    return f"{kind} {_whole(number or '1')}"


_READERS: dict[str, tuple[str, Callable[[str], object]]] = {
    "species": ("species", species_named),
    "weighs": ("weighs_g", _weight),
    "rig": ("rig", str),
    "item": ("item", _whole),
    "net": ("net", _net),
    "to": ("says", str),
    "says": ("says", str),
    "open": ("since_open", str),
}
