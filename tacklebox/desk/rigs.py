"""Tied rigs and hooklengths: what is ready, one by its code, stripped or lost."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.recipes import ON_SCREEN
from tacklebox.desk.stock import Moved, moved

if TYPE_CHECKING:
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.tables import Item, Tied


@dataclass(frozen=True)
class TiedRig:
    """A tied rig or hooklength: what it is was kept when it was tied.

    ``tied_because`` is why it was tied although a check failed.
    """

    code: str
    state: str
    tied_on: date
    labelled_on: date | None
    tied_because: str
    length: str
    made: "Snapshot"


@dataclass(frozen=True)
class RigEnded:
    """A rig that is no longer ready, and what of it went back to stock."""

    code: str
    state: str
    back: tuple[Moved, ...]


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


def draw(desk: Desk, code: str, *, glance: bool = False) -> str:
    """A tied rig as it was tied, as SVG; at a ``glance`` without words and with large tackle."""
    from tacklebox.printing.drawing.rig import drawing_svg, glance_svg

    made = show(desk, code).made
    return glance_svg(made) if glance else drawing_svg(made, *ON_SCREEN)


def strip(desk: Desk, codes: Sequence[str], *, on: str = "") -> tuple[RigEnded, ...]:
    """Strip rigs: floats, feeders and winders go back to stock; all of them or none.

    Raises AskedWronglyError for a code that is not known, is named twice or is not ready.
    """
    from tacklebox.rigs.tying.tied import strip_rigs

    day = past_day(desk, on)
    return _ended(in_field("code", lambda typed: strip_rigs(desk.box, typed, day), codes))


def lose(desk: Desk, codes: Sequence[str], *, on: str = "") -> tuple[RigEnded, ...]:
    """Mark rigs as lost: the winders go back to stock; all of them or none. Raises as ``strip``."""
    from tacklebox.rigs.tying.tied import mark_lost

    day = past_day(desk, on)
    return _ended(in_field("code", lambda typed: mark_lost(desk.box, typed, day), codes))


def _ended(rigs: "Sequence[tuple[Tied, list[Item]]]") -> tuple[RigEnded, ...]:
    return tuple(
        RigEnded(tied.code, tied.state, tuple(moved(item) for item in back)) for tied, back in rigs
    )


def _tied_rig(tied: "Tied") -> TiedRig:
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.trade.quantities import write_length

    made = Snapshot.from_json(tied.snapshot)
    return TiedRig(
        tied.code,
        tied.state,
        tied.tied_on,
        tied.labelled_on,
        tied.forced_because,
        write_length(made.length_mm) if made.length_mm else "",
        made,
    )
