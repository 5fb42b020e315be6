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
from tacklebox.errors import AskedWronglyError, CannotBeDoneError

if TYPE_CHECKING:
    from tacklebox.rigs.tying.snapshot import Snapshot as Snapshot
    from tacklebox.rigs.tying.tied import Departed
    from tacklebox.stock.made import Tied


@dataclass(frozen=True)
class TiedRig:
    """A tied rig: what it is was kept when it was tied.

    ``tied_because`` is why it was tied although a check failed; ``falls`` says how it falls. Of one that
    was in the tray before the box knew it (``made.in_tray_before``) ``tied_on`` is None where nobody
    knows the day. Of one whose snapshot is damaged (``made.unreadable``) no more than this is known.
    """

    code: str
    state: str
    tied_on: date | None
    labelled_on: date | None
    tied_because: str
    length: str
    falls: str
    made: "Snapshot"


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

    return tuple(
        _tied_rig(one) for one in tied_with(desk.box, state=None if every else State.READY)
    )


def show(desk: Desk, code: str) -> TiedRig:
    """A rig by the code on its label, as typed. Raises AskedWronglyError, offering near codes."""
    from tacklebox.rigs.tying.tied import find_snapshot

    tied, _ = in_field("code", lambda typed: find_snapshot(desk.box, typed), code)
    return _tied_rig(tied)


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
    from tacklebox.printing.drawing.rig import drawing_svg, glance_svg

    made = show(desk, code).made
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


def _tied_rig(tied: "Tied") -> TiedRig:
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
    )


def _falls(made: "Snapshot") -> str:
    """When it has settled and that nobody compared it with water; "" where no fall was kept."""
    if made.fall is None:
        return ""
    if not made.fall.tight:
        return made.fall.says
    from tacklebox.trade.settling.outcome import UNPROVEN

    return f"{made.fall.says} ({UNPROVEN})"
