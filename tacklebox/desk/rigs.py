"""Tied rigs: what is ready, one by its code, stripped, lost; those that are there; and hooklengths of a
batch by its code."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field, items_to_use, past_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.recipes import ON_SCREEN
from tacklebox.desk.stock import Moved, moved
from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError

if TYPE_CHECKING:
    from tacklebox.matches.files.match import Match
    from tacklebox.rigs.tying.snapshot import Snapshot as Snapshot
    from tacklebox.rigs.tying.tied import Departed
    from tacklebox.stock.made import Tied


@dataclass(frozen=True)
class TiedRig:
    """A tied rig: what it is was kept when it was tied.

    ``tied_because`` is why it was tied although a check failed; ``falls`` says how it falls. Of one that
    was in the tray before the box knew it (``made.in_tray_before``) ``tied_on`` is None where nobody
    knows the day. Of one whose snapshot is damaged (``made.unreadable``) no more than this is known.
    ``changed_into`` is the code of the rig that it became, where it was changed at the water.
    """

    code: str
    state: str
    tied_on: date | None
    labelled_on: date | None
    tied_because: str
    length: str
    falls: str
    made: "Snapshot"
    changed_into: str = ""


@dataclass(frozen=True)
class RigEnded:
    """A rig that is no longer ready, and what of it went back to stock; or so many ``hooklengths`` of a
    batch, and how many it still holds.

    Of one that was ``in_tray_before`` nothing did, since nothing was taken.
    """

    code: str
    state: str
    back: tuple[Moved, ...]
    in_tray_before: bool = False
    hooklengths: int = 0
    left: int = 0


@dataclass(frozen=True)
class RigChanged:
    """A rig that was changed, by its code, and what it is now."""

    was: str
    now: TiedRig


@dataclass(frozen=True)
class RigsAdded:
    """Rigs of one recipe that were there already, by the codes that they got."""

    recipe: str
    name: str
    chosen: Mapping[str, str]
    codes: tuple[str, ...]


def listed(desk: Desk, *, every: bool = False) -> tuple[TiedRig, ...]:
    """What is ready, oldest first; with ``every`` what was stripped and lost too."""
    from tacklebox.rigs.tying.tied import tied_with
    from tacklebox.stock.tables import State

    found = tied_with(desk.box, state=None if every else State.READY)
    became = _became(desk, found)
    return tuple(_tied_rig(one, became.get(one.code, "")) for one in found)


def show(desk: Desk, code: str) -> TiedRig:
    """A rig by the code on its label, as typed. Raises AskedWronglyError, offering near codes."""
    from tacklebox.rigs.tying.tied import find_snapshot

    tied, _ = in_field("code", lambda typed: find_snapshot(desk.box, typed), code)
    return _tied_rig(tied, *_became(desk, [tied]).values())


def _became(desk: Desk, those: "Sequence[Tied]") -> dict[str, str]:
    """What rigs that were changed are now, by their codes."""
    from tacklebox.rigs.tying.changed import changed_into
    from tacklebox.stock.tables import State

    codes = [tied.code for tied in those if tied.state == State.CHANGED]
    return changed_into(desk.box, codes) if codes else {}


def add(
    desk: Desk,
    wanted: Mapping[str, str],
    choices: Mapping[str, str],
    *,
    use: Mapping[str, str] | None = None,
    on: str = "",
) -> tuple[RigsAdded, ...]:
    """Give codes to rigs that are there already, so many of each recipe: nothing is taken from stock.

    ``choices`` go to every recipe that knows them; ``use`` names items that parts were tied from, ``on`` the
    day on which they were tied, where that is known. All of them or none. Raises AskedWronglyError for a
    recipe, count, choice, item or day that cannot be, and for a hooklength.
    """
    from tacklebox.desk.wants import wants_of
    from tacklebox.rigs.tying.in_tray import add_rigs

    tied_on = past_day(desk, on) if on.strip() else None
    if not wanted:
        raise AskedWronglyError("no rig is named.", field="wanted", right="Say which, how many.")
    wants, items = wants_of(desk, wanted, choices), items_to_use(desk, use or {})
    added = []
    with desk.box.writing():
        for want in wants:
            rigs = add_rigs(
                desk.box, want.resolved, want.count, desk.today(), tied_on=tied_on, use=items
            )
            recipe = want.resolved.recipe
            codes = tuple(rig.code for rig in rigs)
            added.append(RigsAdded(recipe.stem, recipe.name, dict(want.resolved.chosen), codes))
    return tuple(added)


def draw(desk: Desk, code: str, *, glance: bool = False) -> str:
    """A tied rig as it was tied, as SVG; at a ``glance`` without words and with large tackle."""
    return drawn(show(desk, code).made, glance=glance)


def drawn(made: "Snapshot", *, glance: bool) -> str:
    """What was tied, as SVG. Raises CannotBeDoneError where it cannot be read."""
    from tacklebox.printing.drawing.rig import drawing_svg, glance_svg

    if made.unreadable:
        raise CannotBeDoneError(f"{made.name}, so {made.code} cannot be drawn.", see="care.audit")
    return glance_svg(made) if glance else drawing_svg(made, *ON_SCREEN)


def strip(desk: Desk, codes: Sequence[str], *, on: str = "") -> tuple[RigEnded, ...]:
    """Strip rigs: floats, feeders and winders go back to stock; all of them or none.

    Of a batch so many hooklengths are named, "A03P=2": they are thrown out. Raises AskedWronglyError for a
    code that is not known, is named twice or is not ready, and for more than a batch holds.
    """
    from tacklebox.rigs.tying.tied import strip_rigs

    day = past_day(desk, on)
    return _ended(in_field("code", lambda typed: strip_rigs(desk.box, typed, day), codes))


def lose(desk: Desk, codes: Sequence[str], *, on: str = "") -> tuple[RigEnded, ...]:
    """Mark rigs as lost: the winders go back to stock; all of them or none. Raises as ``strip``."""
    from tacklebox.rigs.tying.tied import mark_lost

    day = past_day(desk, on)
    return _ended(in_field("code", lambda typed: mark_lost(desk.box, typed, day), codes))


def change(
    desk: Desk,
    code: str,
    *,
    hooklength: str = "",
    depth: str = "",
    shot_now: str = "",
    carries: str = "",
    note: str = "",
    on: str = "",
) -> RigChanged:
    """Write a rig that was changed as what it is now, with a code of its own; the old one is kept.

    ``hooklength`` is one of the wallet that was put on, by its number or words, ``depth`` from float to hook,
    ``shot_now`` all that is on it, ``carries`` another float or feeder, ``note`` what else. Raises
    AskedWronglyError for a rig that is not ready and for what cannot be of it, naming the field;
    CannotBeDoneError for what is put on and not there.
    """
    from tacklebox.rigs.tying.changed import RigChange, change_rig

    said, day = RigChange(hooklength, depth, shot_now, carries, note), past_day(desk, on)
    old, new = in_field("code", lambda typed: change_rig(desk.box, typed, said, day), code)
    return RigChanged(old.code, _tied_rig(new))


def write_changed(desk: Desk, match: "Match", changed: Mapping[str, Mapping[str, str]]) -> None:
    """Write rigs that came back from a match as what they are now, within the debrief's transaction.

    Raises as ``change``, and AskedWronglyError for a rig that is not said to have come back.
    """
    from tacklebox.matches.after.account import Became
    from tacklebox.matches.after.debriefed import read_debrief
    from tacklebox.rigs.tying.changed import RigChange, change_rig
    from tacklebox.stock.codes import read_code

    for typed, said in changed.items():
        change = RigChange(**said)
        if not change.is_one:
            continue
        code = in_field("changed", read_code, typed)
        with desk.box.writing() as session:
            found = read_debrief(session, match.stem)
        if found is None or found.became.get(code) is not Became.BACK:
            raise AskedWronglyError(
                f"{code} was changed, and is not said to have come back.",
                field="changed",
                right="Say that it came back.",
            )
        try:
            change_rig(desk.box, code, change, match.day)
        except BenchError as error:
            raise error.without_field().in_field("changed").at(code) from None


def _ended(those: "Sequence[Departed]") -> tuple[RigEnded, ...]:
    from tacklebox.rigs.tying.snapshot import read_kept
    from tacklebox.stock.made import Batch

    return tuple(
        RigEnded(
            one.made.code,
            one.state.value,
            tuple(map(moved, one.back)),
            read_kept(one.made).in_tray_before,
            one.count if isinstance(one.made, Batch) else 0,
            one.made.left if isinstance(one.made, Batch) else 0,
        )
        for one in those
    )


def _tied_rig(tied: "Tied", changed_into: str = "") -> TiedRig:
    from tacklebox.rigs.tying.snapshot import read_kept
    from tacklebox.trade.units_first import show_length

    made = read_kept(tied)
    return TiedRig(
        tied.code,
        tied.state,
        tied.tied_on if made.tied_on or made.unreadable else None,
        tied.labelled_on,
        tied.forced_because,
        show_length(made.length_mm) if made.length_mm else "",
        _falls(made),
        made,
        changed_into,
    )


def _falls(made: "Snapshot") -> str:
    """When it has settled and that nobody compared it with water; "" where no fall was kept."""
    if made.fall is None:
        return ""
    if not made.fall.tight:
        return made.fall.says
    from tacklebox.trade.settling.outcome import UNPROVEN

    return f"{made.fall.says} ({UNPROVEN})"
