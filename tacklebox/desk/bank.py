"""At the water: the page that is taken along, and the record that comes home from it.

The page is made for what is ready now; make it after the rigs are tied.
"""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tacklebox.desk.asking import in_field
from tacklebox.desk.debriefs import DebriefAnswers
from tacklebox.desk.matches import matches_of
from tacklebox.desk.opening import Desk
from tacklebox.desk.plans import prepare
from tacklebox.desk.venues import venues_of
from tacklebox.desk.water_clock import CLOCKS as CLOCKS
from tacklebox.desk.water_clock import ClockAsked, clocked
from tacklebox.desk.water_tackle import as_known
from tacklebox.errors import AskedWronglyError, ManyFaultsError

if TYPE_CHECKING:
    from tacklebox.matches.files.match import Match
    from tacklebox.matches.water.record import DoubtfulLine as DoubtfulLine
    from tacklebox.matches.water.record import Record, Tap
    from tacklebox.matches.water.sheet import WaterSheet
    from tacklebox.matches.water.tally import Heap, Tally
    from tacklebox.outputs import Target

MOST_BYTES = 2 * 10**6
MOST_NAMED = 5


@dataclass(frozen=True)
class WaterPage:
    """The page that was written: how large, and what stands on it."""

    match: str
    size: int  # bytes
    rigs: int
    hooklengths: int
    still_to_tie: int


def page(desk: Desk, match: str, to: "Target", *, overwrite: bool = False) -> WaterPage:
    """Write the page for the water of a match that is still to come.

    Raises AskedWronglyError as ``plans.plan``, and for a file that is there already;
    CannotBeDoneError where it cannot be written.
    """
    from tacklebox.outputs import WATER_PAGE, Output, try_outputs
    from tacklebox.printing.water.page import write_water_page

    try_outputs([Output(to, WATER_PAGE, overwrite, "to")])
    sheet, still_to_tie = _sheet(desk, match)
    size = write_water_page(sheet, to, overwrite=overwrite)
    hooklengths = sum(one.count for one in sheet.hooklengths)
    return WaterPage(sheet.match, size, len(sheet.rigs), hooklengths, still_to_tie)


@dataclass(frozen=True)
class WaterCard:
    """The card that was written; ``left_out`` is what found no room, ``unknown`` what the font has not."""

    match: str
    left_out: tuple[str, ...]
    unknown: str
    still_to_tie: int


def card(desk: Desk, match: str, to: "Target", *, overwrite: bool = False) -> WaterCard:
    """Write the card for the pocket. Raises as ``page``."""
    from tacklebox.outputs import PDF, Output, try_outputs
    from tacklebox.printing.water.card import print_card

    try_outputs([Output(to, PDF, overwrite, "to")])
    sheet, still_to_tie = _sheet(desk, match)
    printed = print_card(sheet, to, overwrite=overwrite)
    return WaterCard(sheet.match, printed.left_out, printed.unknown, still_to_tie)


def _sheet(desk: Desk, match: str) -> "tuple[WaterSheet, int]":
    from tacklebox.matches.water.sheet import make_sheet

    prepared = prepare(desk, match)
    sheet = make_sheet(desk.box, prepared.match, prepared.venue, prepared.plan)
    return sheet, sum(want.tie for want in prepared.plan.wants)


@dataclass(frozen=True)
class Caught:
    """So many fish of a net, a species or on a rig, how many were weighed, and what those weigh."""

    name: str
    fish: int
    weighed: int
    weighs_g: float
    weighs: str  # in words


@dataclass(frozen=True)
class RecordRead:
    """A record as it fills the debrief's form. ``text`` is what is kept of it.

    ``faults`` are lines that cannot be taken as they stand; ``clock`` asks about a clock that seems
    wrong, ``clock_choices`` are by how much it may be put, ``clock_breaks`` where it was put on the way;
    ``remarks`` are what is told and needs no answer.
    """

    match: str
    answers: DebriefAnswers
    nets: tuple[Caught, ...]
    species: tuple[Caught, ...]
    rigs: tuple[Caught, ...]
    faults: "tuple[DoubtfulLine, ...]"
    clock: str
    clock_choices: tuple[str, ...]
    remarks: tuple[str, ...]
    text: str
    changes: tuple[str, ...] = ()  # what was changed, each with its time, in words
    clock_breaks: tuple[ClockAsked, ...] = ()

    @property
    def is_unsure(self) -> bool:
        """Whether anything of it is to be asked."""
        return bool(self.faults or self.clock or self.clock_breaks)


def read_record(
    desk: Desk,
    match: str,
    text: str,
    *,
    put_right: Mapping[int, str] | None = None,
    clock: str = "",
    clock_at: Mapping[int, str] | None = None,
) -> RecordRead:
    """What a record says for the debrief of a match; nothing is written.

    ``put_right`` has other words for its lines by their number, "" leaves one out, "as it is" keeps it;
    ``clock`` is "as it is" or by how many hours the phone's clock is to be put, as ``clock_choices`` has it,
    ``clock_at`` the same for each of ``clock_breaks`` by its line.
    Raises AskedWronglyError for text that is no record, for one of another match, day or box, for
    one that a debrief has taken already, and for a clock that is none of the choices.
    """
    from tacklebox.desk.bag import rigs_in_bag
    from tacklebox.matches.after.debriefed import debriefed
    from tacklebox.matches.water.record import read_record as read
    from tacklebox.matches.water.record import record_key, write_record
    from tacklebox.matches.water.tally import tally

    own = in_field("match", matches_of(desk).load, match)
    record = read(text, put_right)
    box, _, rest = record.key.partition("/")
    if box != desk.mark:
        raise AskedWronglyError(
            "this record is of another box.", field="record", right="Open the box it was made from."
        )
    if record.key != record_key(box, own.stem, own.date):
        raise AskedWronglyError(
            f"this record is of {rest.replace('/', ', ')}, not of {own.stem}, {own.date}.",
            field="record",
            right=f"Debrief {record.match} with it.",
        )
    record, remarks = as_known(desk, record)
    found = clocked(record, own, clock, clock_at or {}, put_right or {})
    record = found.record
    in_bag = rigs_in_bag(desk, own.stem)
    kept, first = write_record(record), debriefed(desk.box, own.stem)
    if first and first.debrief.record == kept:
        raise AskedWronglyError(
            "the debrief has this record already; nothing was changed.",
            field="record",
            right="Nothing is left to be done with it.",
        )
    added = tally(record.taps, _net_of(desk, own))
    if record.missing:
        numbers = ", ".join(map(str, record.missing[:MOST_NAMED]))
        more = (
            f" and {len(record.missing) - MOST_NAMED} more" if record.missing[MOST_NAMED:] else ""
        )
        remarks = (
            f"Lines are missing in it: what tap {numbers}{more} said nobody knows.",
            *remarks,
        )
    if first and (gone := _not_in(first.debrief.record, kept)):
        remarks = (
            f"The debrief has another record: {gone} of its taps {'is' if gone == 1 else 'are'} not in this "
            "one, which takes its place.",
            *remarks,
        )
    if not record.is_whole:
        remarks = ("It is cut off: what stands before that is kept.", *remarks)
    return RecordRead(
        own.stem,
        _answers(desk, record, added, kept, in_bag),
        _caught(added.nets),
        _caught(added.species),
        _caught(added.rigs),
        record.faults,
        found.asks,
        found.choices,
        remarks,
        kept,
        tuple(
            f"{tap.at:%H:%M} {tap.rig}: {f'{tap.about} {tap.says}'.strip()}"
            for tap in added.changes
            if tap.says
        ),
        found.breaks,
    )


def _not_in(before: str, now: str) -> int:
    """How many taps of the record that the debrief has are not in the one that comes now."""
    lines = set(now.splitlines())
    return sum(
        line not in lines and line.partition(" ")[0].isdecimal() for line in before.splitlines()
    )


def record_text(file: Path) -> str:
    """The text of a record's file.

    Raises AskedWronglyError for what is no plain file, is too large or no text.
    """
    from tacklebox.inputs import read_file

    return text_of(read_file(file, MOST_BYTES), str(file))


def text_of(sent: bytes, where: str = "") -> str:
    """The text of a record as it was sent. Raises AskedWronglyError for what is too large or no text."""
    right = "Name the file that the page saved."
    if len(sent) > MOST_BYTES:
        raise AskedWronglyError("this is too large.", field="record", where=where, right=right)
    try:
        return sent.decode()
    except UnicodeDecodeError:
        raise AskedWronglyError(
            "this is no text.", field="record", where=where, right=right
        ) from None


def refuse_doubts(found: RecordRead) -> None:
    """Raises what is to be asked of a record, line by line, where nobody can answer."""
    faults = [
        AskedWronglyError(f'{fault.what} It says "{fault.text}".', where=f"line {fault.line}",
                          right=fault.right)
        for fault in found.faults
    ]  # fmt: skip
    faults += [
        AskedWronglyError(asked.words, where=f"line {asked.line}",
                          right=f"Say {', '.join(asked.choices)}, at a terminal or on the page.")
        for asked in found.clock_breaks
    ]  # fmt: skip
    if found.clock:
        choices = " or ".join(found.clock_choices)
        faults.append(AskedWronglyError(found.clock, field="clock", right=f"Say {choices}."))
    if len(faults) == 1:
        raise faults[0]
    if faults:
        raise ManyFaultsError("The record cannot be taken as it stands; nothing was saved.", faults)


def filled(found: RecordRead, said: DebriefAnswers) -> DebriefAnswers:
    """The form as the record fills it, with what was said besides in its place."""
    own = found.answers
    named = {*said.back, *said.lost, *said.worn_out, *said.not_taken}
    once: dict[str, Any] = {
        name: getattr(said, name)
        for name in ("weight", "peg", "notes", "section", "place", "points", "water")
        if getattr(said, name) is not None
    }
    became: dict[str, Any] = {
        name: (*(code for code in getattr(own, name) if code not in named), *getattr(said, name))
        for name in ("back", "lost", "worn_out")
    }
    return replace(
        own,
        not_taken=said.not_taken,
        did_well=said.did_well,
        changed={**own.changed, **said.changed},
        came_home=said.came_home,
        not_home=said.not_home,
        tackle_lost={**own.tackle_lost, **said.tackle_lost},
        worn_out_tackle={**own.worn_out_tackle, **said.worn_out_tackle},
        **became,
        **once,
    )


def _net_of(desk: Desk, match: "Match") -> Mapping[str, str]:
    """The net of each fish there; as is common where the venue's file cannot be read."""
    from tacklebox.trade.fish import NET_OF

    with suppress(AskedWronglyError):
        return venues_of(desk).load(match.venue).keepnet.net_of
    return NET_OF


def _answers(
    desk: Desk, record: "Record", added: "Tally", kept: str, in_bag: Sequence[str]
) -> DebriefAnswers:
    """What the record answers of the form; what nobody tapped is not answered.

    Where a bag was ticked, a rig that was on the page came back if it was in the bag, or was fished.
    """
    day = dict(added.day)
    gone = {*added.lost, *added.worn_out}
    taken = {*in_bag, *(tap.rig for tap in record.taps)} if in_bag else set(record.rigs)
    back = tuple(code for code in record.rigs if code in taken and code not in gone)
    words = [f"{name} {said}" for name, said in added.day if name in ("draw", "wind", "depth")]
    notes = "\n".join([*words, *added.notes])
    return DebriefAnswers(
        back=back,
        changed=_changed(desk, record, back),
        lost=added.lost,
        worn_out=tuple(code for code in added.worn_out if code not in added.lost),
        tackle_lost={str(item): str(count) for item, count in added.hooklengths_lost},
        worn_out_tackle={str(item): str(count) for item, count in added.hooklengths_worn_out},
        weight=day.get("weighed"),
        peg=day.get("peg"),
        notes=notes or None,
        section=day.get("section"),
        place=day.get("place"),
        points=day.get("points"),
        water=day.get("water"),
        record=kept,
    )


def _changed(desk: Desk, record: "Record", back: Sequence[str]) -> dict[str, dict[str, str]]:
    """What the rigs that came back are now, as far as it was tapped; the last of each counts."""
    from tacklebox.matches.water.record import CARRIED, Did

    found: dict[str, dict[str, str]] = {}
    for tap in record.taps:
        if tap.did is Did.CHANGE and tap.rig in back:
            said = found.setdefault(tap.rig, {})
            if tap.about in CARRIED:
                said["carries"] = _carries(desk, tap)
            elif tap.item:
                said["hooklength"] = str(tap.item)
            elif tap.about:
                said[_SAID_AS[tap.about]] = tap.says
    every = {
        rig: {key: words for key, words in said.items() if words} for rig, said in found.items()
    }
    return {rig: said for rig, said in every.items() if said}


_SAID_AS = {"depth": "depth", "shot": "shot_now"}


def _carries(desk: Desk, tap: "Tap") -> str:
    """The float or feeder that was put on, in words that find it, else by its number; "" for the one that the
    rig was tied with, which is on it again."""
    from tacklebox.rigs.tying.changed import carried_by
    from tacklebox.rigs.tying.tied import find_tied
    from tacklebox.stock.finding import find

    with desk.box.reading() as session:
        own = carried_by(session, find_tied(session, tap.rig))
        with suppress(AskedWronglyError):
            named = find(session, tap.says)
            if tap.item in (0, named.id):
                return "" if own and own.id == named.id else named.name
    return "" if own and own.id == tap.item else str(tap.item or tap.says)


def _caught(heaps: "tuple[Heap, ...]") -> tuple[Caught, ...]:
    from tacklebox.trade.units_first import show_weighed

    return tuple(
        Caught(one.name, one.fish, one.weighed, one.weighs_g, show_weighed(one.weighs_g))
        for one in heaps
    )
