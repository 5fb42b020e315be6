"""Care of the box: looked through, undone, copied, put back, written out and read in."""

from collections.abc import Callable, Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Amount, amount_of, on_hand
from tacklebox.desk.asking import past_day
from tacklebox.desk.opening import Desk
from tacklebox.errors import CannotBeDoneError

if TYPE_CHECKING:
    import sqlite3

    from tacklebox.stock.care.restoring import Newer
    from tacklebox.stock.care.undo import Turned


@dataclass(frozen=True)
class FaultFound:
    """One thing that is wrong in the box: where it lies, and what it is."""

    where: str
    what: str


@dataclass(frozen=True)
class Audited:
    """How much of the box was looked through, and what is wrong in it."""

    in_order: bool
    items: int
    movements: int
    rigs: int
    faults: tuple[FaultFound, ...]


@dataclass(frozen=True)
class ItemChange:
    """An item by how much it changed, and what is there now."""

    item: int
    name: str
    change: Amount
    on_hand: Amount


@dataclass(frozen=True)
class RigTurned:
    """A rig whose state was turned back, and whether its label was printed."""

    code: str
    state: str
    labelled: bool


@dataclass(frozen=True)
class CellTurned:
    """What else became as it was: of an item its name, place, packet, price or minimum, or that it is in
    stock at all (``withdrawn``); of a rig (by its code) that it has a label; of a paper its next place; of a
    reel its name or what is on it. ``of``: the sort of thing, "item", "tied", "reel"."""

    item: int | None
    of: str
    name: str
    what: str
    was: str | int | float | None
    became: str | int | float | None


@dataclass(frozen=True)
class Undone:
    """The action that was undone or done again: what it was, of which day, and what that changed.

    ``readings`` is how many readings no longer count, or count again.
    """

    action: int
    what: str
    on: date
    done_again: bool
    changes: tuple[ItemChange, ...]
    rigs: tuple[RigTurned, ...]
    cells: tuple[CellTurned, ...]
    readings: int
    labels_to_throw_out: tuple[str, ...]


@dataclass(frozen=True)
class LastDone:
    """A thing that was done in the box."""

    action: int
    what: str
    on: date
    item: str = ""  # that alone was moved by it


@dataclass(frozen=True)
class UndoRedo:
    """What an undo and a redo would turn, and the stamp of the state that says so."""

    undo: LastDone | None
    redo: LastDone | None
    stamp: str


@dataclass(frozen=True)
class Copied:
    """Where a copy lies, its size, and the kinds of own files that are not in it.

    ``not_saved`` is what of a damaged box could not be saved, or is still wrong.
    """

    copy: Path
    bytes: int
    left_out: tuple[str, ...]
    not_saved: tuple[FaultFound, ...] = ()


@dataclass(frozen=True)
class Restored:
    """The copy that was put back, and where the box lies as it was."""

    copy: Path
    set_aside: Path | None


@dataclass(frozen=True)
class Exported:
    """The folder and the files that an export wrote; ``not_saved`` as of a copy."""

    folder: Path
    files: tuple[Path, ...]
    not_saved: tuple[FaultFound, ...] = ()


@dataclass(frozen=True)
class ReadIn:
    """The box that an export was read into, and how many rows of each table."""

    box: Path
    rows: Mapping[str, int]


def audit(desk: Desk) -> Audited:
    """Look through the whole box, and say that it is in order or what is wrong where."""
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.audit import audit as look_through

    found = look_through(desk.box.database, Snapshot.from_json)
    faults = tuple(FaultFound(fault.where, fault.what) for fault in found.faults)
    return Audited(not faults, found.items, found.movements, found.rigs, faults)


def damage_behind(desk: Desk) -> CannotBeDoneError | None:
    """The damage that made a question fail as nothing foresaw; None where the box is in order, so that the
    fault is the program's own."""
    from tacklebox.stock.care.schema import damaged

    try:
        faults = audit(desk).faults
    except CannotBeDoneError as error:
        return error
    if not faults:
        return None
    first = "; ".join(f"{fault.where}: {fault.what}" for fault in faults[:3])
    more = f"; and {len(faults) - 3} more" if len(faults) > 3 else ""
    return damaged(f"the box is damaged: {first}{more}.", desk.box.folder)


def last_done(desk: Desk) -> LastDone | None:
    """The last thing that was done in the box and is not undone; None where there is none."""
    return history(desk).undo


def history(desk: Desk) -> UndoRedo:
    """What undo and redo would do now."""
    from tacklebox.stock.care.undo import item_moved_by, read_history

    with desk.box.reading() as session:
        found = read_history(session)
        undo, redo = (
            LastDone(one.id or 0, one.what, one.on, item_moved_by(session, one)) if one else None
            for one in (found.undo, found.redo)
        )
    return UndoRedo(undo, redo, found.stamp)


def undo(
    desk: Desk, *, expected: int | None = None, stamp: str | None = None, on: str = ""
) -> Undone:
    """Undo the latest action that is not undone, as a whole.

    ``expected`` is the action that is meant, and ``stamp`` the state that it was seen in. Raises
    CannotBeDoneError when there is none, or when another came since.
    """
    from tacklebox.stock.care.undo import undo_last

    day = past_day(desk, on)
    return _undone(undo_last(desk.box, day, expected=expected, stamp=stamp))


def redo(
    desk: Desk, *, expected: int | None = None, stamp: str | None = None, on: str = ""
) -> Undone:
    """Do again what was undone last; see ``undo``. Raises CannotBeDoneError once something new was done."""
    from tacklebox.stock.care.undo import redo_last

    day = past_day(desk, on)
    return _undone(redo_last(desk.box, day, expected=expected, stamp=stamp))


def _undone(undone: "Turned") -> Undone:
    from tacklebox.stock.tables import State

    changes = tuple(
        ItemChange(
            item.id or 0,
            item.name,
            amount_of(item, by),
            on_hand(item),
        )
        for item, by in undone.changes
        if by or item.level
    )
    rigs = tuple(RigTurned(r.code, r.state, r.labelled_on is not None) for r in undone.rigs)
    cells = tuple(
        CellTurned(
            edit.item.id if edit.item else None,
            edit.table,
            edit.name,
            edit.column,
            edit.was,
            edit.became,
        )
        for edit in undone.edits
    )
    useless = [r.code for r in rigs if r.state == State.UNTIED and r.labelled]
    labelled = [edit.rig or edit.batch for edit in undone.edits if edit.column == "labelled_on"]
    useless += [made.code for made in labelled if made and made.labelled_on is None]
    return Undone(
        undone.action.id or 0,
        undone.action.what,
        undone.action.on,
        undone.again,
        changes,
        rigs,
        cells,
        undone.readings,
        tuple(useless),
    )


def copy(desk: Desk, to: Path, *, rescue: bool = False) -> Copied:
    """Copy the box's stock and rigs to one new file, whole even while others write.

    A damaged box is refused with CannotBeDoneError, lest its copies be; with ``rescue`` what can be saved of
    it is copied, and what cannot is told.
    """
    from tacklebox.boxfolder import KINDS
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.audit import audit as look_through
    from tacklebox.stock.care.audit import refuse_damaged
    from tacklebox.stock.care.copies import copy_database

    folder = _folder_of(desk)
    not_saved: tuple[FaultFound, ...] = ()

    def verify(half: Path) -> None:
        found = look_through(half, Snapshot.from_json)
        refuse_damaged(found, folder, "it was not copied")

    if rescue:
        not_saved = _rescue(desk, to)
    else:
        copy_database(desk.box.database, to, desk.notice, verify)
    own = tuple(kind for kind in KINDS if any((folder / kind).glob("*.toml")))
    return Copied(to, to.stat().st_size, own, not_saved)


def _folder_of(desk: Desk) -> Path:
    """The box's folder, though the box be not fit to open."""
    from tacklebox.boxfolder import at_home
    from tacklebox.stock.care.box import default_folder

    return at_home(desk.folder or default_folder(), "box")


def _rescue(desk: Desk, to: Path) -> tuple[FaultFound, ...]:
    from tacklebox.boxfolder import DATABASE_NAME
    from tacklebox.rigs.tying.snapshot import Snapshot, stand_in
    from tacklebox.stock.care.rescue import Snapshots, rescue

    snapshots = Snapshots(Snapshot.from_json, lambda *made: stand_in(*made).to_json())
    left_out = rescue(_folder_of(desk) / DATABASE_NAME, to, snapshots, desk.notice)
    return tuple(FaultFound(one.where, one.what) for one in left_out)


def restore(desk: Desk, copy: Path, agree: Callable[["Newer"], bool]) -> Restored:
    """Put a copy back in the place of the box, which is set aside; the box need not be fit to open.

    ``agree`` is asked when the box holds what the copy does not. Raises CannotBeDoneError where it says no or
    the copy is not in order.
    """
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.restoring import restore as put_back

    aside = put_back(_folder_of(desk), copy, agree, Snapshot.from_json, desk.notice)
    desk.close()
    return Restored(copy, aside)


def export(desk: Desk, folder: Path, *, rescue: bool = False) -> Exported:
    """Write the whole box as plain files: CSV, and TOML for recipes, papers, venues, matches, bags.

    A damaged box is refused and ``rescue`` saves what can be saved, as for a copy.
    """
    import tempfile

    from tacklebox.boxfolder import DATABASE_NAME
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.audit import audit_view, refuse_damaged
    from tacklebox.stock.care.export import export_box

    own = _folder_of(desk)
    if rescue:
        with tempfile.TemporaryDirectory() as saved:
            not_saved = _rescue(desk, Path(saved) / DATABASE_NAME)
            with closing(Desk(Path(saved)).box) as box:
                return Exported(folder, tuple(export_box(box, folder, own)), not_saved)

    def verify(view: "sqlite3.Connection") -> None:
        refuse_damaged(audit_view(view, Snapshot.from_json), own, "it was not written out")

    return Exported(folder, tuple(export_box(desk.box, folder, verify=verify)))


def read_in(desk: Desk, folder: Path) -> ReadIn:
    """Read an export into an empty box: all of it, or nothing."""
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.reading_in import import_box

    rows = import_box(desk.box, folder, Snapshot.from_json, desk.notice)
    return ReadIn(desk.box.folder, rows)
