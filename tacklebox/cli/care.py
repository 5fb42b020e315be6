"""``tacklebox audit``, ``undo``, ``copy``, ``restore``, ``export``, ``import``: care of the box."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, On, desk_of
from tacklebox.cli.output import say, say_folded, show_answer, show_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tacklebox.desk.care import FaultFound, Undone

Rescue = Annotated[
    bool, typer.Option("--rescue", help="Of a damaged box, what can be saved; the rest is listed.")
]
_CELLS = {
    "name": "its name is",
    "place": "its place is",
    "pack_size": "its packet is",
    "pack_price_cents": "its price is",
    "minimum": "its minimum is",
    "note": "its note is",
    "level": "how much there is is",
    "words": "its figures are",
}
_TURNED = {False: "it was before", True: "it was changed to"}


def audit(context: typer.Context, as_json: Json = False) -> None:
    """Prove that the whole box is in order, or say what is wrong where."""
    from tacklebox.desk import care

    found = care.audit(desk_of(context))
    if as_json:
        show_answer(found)
    elif found.in_order:
        say_folded(
            f"All in order: {found.items} items, {found.movements} movements, "
            f"{found.rigs} tied rigs and hooklengths."
        )
    else:
        say("Not in order:")
        show_table(["where", "what"], [(f.where, f.what) for f in found.faults])
        say_folded(
            "Leave the box as it is, and put back a copy that is in order with `tacklebox restore`."
        )
    if not found.in_order:
        raise typer.Exit(1)


def undo(context: typer.Context, on: On = "", as_json: Json = False) -> None:
    """Undo the last action as a whole; again for the one before."""
    from tacklebox.desk import care

    _show_undone(care.undo(desk_of(context), on=on), as_json)


def redo(context: typer.Context, on: On = "", as_json: Json = False) -> None:
    """Do again what was undone last, until something new is done."""
    from tacklebox.desk import care

    _show_undone(care.redo(desk_of(context), on=on), as_json)


def _show_undone(undone: "Undone", as_json: bool) -> None:
    if as_json:
        show_answer(undone)
        return
    say_folded(f"{'Done again' if undone.done_again else 'Undone'}: {undone.what}, of {undone.on}.")
    rows = [
        (
            str(one.item),
            one.name,
            ("+" if one.change.value > 0 else "") + one.change.words,
            one.on_hand.words,
        )
        for one in undone.changes
    ]
    if rows:
        show_table(["no.", "item", "change", "on hand"], rows)
    for state in dict.fromkeys(rig.state for rig in undone.rigs):
        codes = ", ".join(rig.code for rig in undone.rigs if rig.state == state)
        say_folded(f"Now {state}: {codes}.")
    if undone.labels_to_throw_out:
        codes = ", ".join(undone.labels_to_throw_out)
        say_folded(f"Labels were printed for {codes}: throw them out.")
    for name in dict.fromkeys(cell.name for cell in undone.cells if cell.of == "reel"):
        say_folded(f"{name} is as it was {'then' if undone.done_again else 'before'}.")
    for cell in undone.cells:
        if cell.of == "reel":
            continue
        if cell.what == "withdrawn":
            say_folded(f"{cell.name} is {'no longer' if cell.became else 'again'} in stock.")
        elif cell.what == "retired":
            say_folded(f"{cell.name} is {'retired' if cell.became else 'in use'} again.")
        elif cell.item is not None and cell.what in _CELLS:
            say_folded(f"{cell.name}: {_CELLS[cell.what]} as {_TURNED[undone.done_again]}.")
    say(f"`tacklebox {'undo' if undone.done_again else 'redo'}` takes this back.")


def copy(
    context: typer.Context,
    to: Annotated[
        Path | None,
        typer.Argument(metavar="FILE", help="The file to write; else to the folder set for it."),
    ] = None,
    rescue: Rescue = False,
    as_json: Json = False,
) -> None:
    """Copy the box's stock and rigs to one file, whole even while others write."""
    from tacklebox.desk import care, copies

    desk = desk_of(context)
    copied = (
        copies.copy_there(desk, rescue=rescue) if to is None else care.copy(desk, to, rescue=rescue)
    )
    if as_json:
        show_answer(copied)
        return
    say(f"Copied to {copied.copy}")
    _show_not_saved(copied.not_saved)
    if copied.left_out:
        own = " and ".join(copied.left_out)
        say_folded(f"Your own {own} are files beside it; `export` takes them along.")


def _show_not_saved(faults: "Sequence[FaultFound]") -> None:
    if faults:
        say("What could not be saved, or is still wrong:")
        show_table(["where", "what"], [(one.where, one.what) for one in faults])


def restore(
    context: typer.Context,
    copy: Annotated[Path, typer.Argument(metavar="FILE", help="A copy of a box.")],
    yes: Annotated[
        bool, typer.Option("--yes", help="Also over a box that holds what the copy does not.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Put a copy back in the place of the box; the box itself is set aside."""
    from tacklebox.desk import care

    def agree(newer: object) -> bool:
        if yes or as_json or not sys.stdin.isatty():
            return yes
        say_folded(f"The box holds what the copy does not: {newer}.")
        return typer.confirm("Put the copy back all the same?")

    restored = care.restore(desk_of(context), copy, agree)
    if as_json:
        show_answer(restored)
        return
    say(f"Put back {restored.copy}")
    if restored.set_aside:
        say(f"The box as it was: {restored.set_aside}")


def export(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="An empty or new folder.")],
    rescue: Rescue = False,
    as_json: Json = False,
) -> None:
    """Write the whole box as plain files: CSV, and TOML for recipes, papers, venues, matches, bags."""
    from tacklebox.desk import care

    exported = care.export(desk_of(context), folder, rescue=rescue)
    if as_json:
        show_answer(exported)
        return
    say(f"Wrote {len(exported.files)} files to {exported.folder}")
    _show_not_saved(exported.not_saved)


def import_(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="What export wrote.")],
    as_json: Json = False,
) -> None:
    """Read an export into an empty box; all of it, or nothing."""
    from tacklebox.desk import care

    read = care.read_in(desk_of(context), folder)
    if as_json:
        show_answer(read)
        return
    rows = read.rows
    say_folded(
        f"Read {rows['item']} items, {rows['movement']} movements and {rows['tied']} rigs and "
        f"hooklengths into {read.box}."
    )
