"""``tacklebox audit``, ``undo``, ``copy``, ``restore``, ``export``, ``import``: care of the box."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, On, box_of, day
from tacklebox.cli.output import say, say_folded, show_json, show_table

if TYPE_CHECKING:
    from tacklebox.stock.care.audit import Audit
    from tacklebox.stock.care.copies import Newer


def audit(context: typer.Context, as_json: Json = False) -> None:
    """Prove that the whole box is in order, or say what is wrong where."""
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.audit import audit as go_through

    box = box_of(context)
    found = go_through(box.database, Snapshot.from_json)
    if as_json:
        show_json(_audit_as_json(found))
    elif not found.faults:
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
    if found.faults:
        raise typer.Exit(1)


def _audit_as_json(found: "Audit") -> dict[str, object]:
    return {
        "in_order": not found.faults,
        "items": found.items,
        "movements": found.movements,
        "rigs": found.rigs,
        "faults": [{"where": f.where, "what": f.what} for f in found.faults],
    }


def undo(context: typer.Context, on: On = "", as_json: Json = False) -> None:
    """Undo the last action as a whole; undo again, and it is done again."""
    from tacklebox.stock.care.undo import UNTIED, undo_last
    from tacklebox.stock.ledger import write_amount

    undone = undo_last(box_of(context), day(on))
    if as_json:
        show_json(
            {
                "undone": undone.action.what,
                "on": str(undone.action.on),
                "done_again": undone.again,
                "changes": [
                    {"item": i.id, "name": i.name, "change": by, "on_hand": i.on_hand}
                    for i, by in undone.changes
                ],
                "rigs": [{"code": r.code, "state": r.state} for r in undone.rigs],
            }
        )
        return
    again = " It is done again." if undone.again else ""
    say_folded(f"Undone: {undone.action.what}, of {undone.action.on}.{again}")
    rows = [
        (
            str(item.id),
            item.name,
            ("+" if by > 0 else "") + write_amount(by, item.measured),
            write_amount(item.on_hand, item.measured),
        )
        for item, by in undone.changes
    ]
    if rows:
        show_table(["no.", "item", "change", "on hand"], rows)
    for state in dict.fromkeys(rig.state for rig in undone.rigs):
        codes = ", ".join(rig.code for rig in undone.rigs if rig.state == state)
        say_folded(f"Now {state}: {codes}.")
    printed = [rig.code for rig in undone.rigs if rig.state == UNTIED and rig.labelled_on]
    if printed:
        say_folded(f"Labels were printed for {', '.join(printed)}: throw them out.")
    say("`tacklebox undo` once more takes this back.")


def copy(
    context: typer.Context,
    to: Annotated[Path, typer.Argument(metavar="FILE", help="The file to write.")],
    as_json: Json = False,
) -> None:
    """Copy the box's stock and rigs to one file, whole even while others write."""
    from tacklebox.stock.care.copies import copy_database
    from tacklebox.stock.care.export import KINDS

    box = box_of(context)
    copy_database(box.database, to)
    if as_json:
        show_json({"copy": str(to), "bytes": to.stat().st_size})
        return
    say(f"Copied to {to}")
    own = [kind for kind in KINDS if any((box.folder / kind).glob("*.toml"))]
    if own:
        say_folded(f"Your own {' and '.join(own)} are files beside it; `export` takes them along.")


def restore(
    context: typer.Context,
    copy: Annotated[Path, typer.Argument(metavar="FILE", help="A copy of a box.")],
    yes: Annotated[
        bool, typer.Option("--yes", help="Also over a box that holds what the copy does not.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Put a copy back in the place of the box; the box itself is set aside."""
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.box import default_folder
    from tacklebox.stock.care.copies import restore as put_back

    named: Path | None = context.obj
    folder = (named or default_folder()).expanduser()

    def agree(newer: "Newer") -> bool:
        if yes or as_json or not sys.stdin.isatty():
            return yes
        say_folded(f"The box holds what the copy does not: {newer}.")
        return typer.confirm("Put the copy back all the same?")

    aside = put_back(folder, copy, agree, Snapshot.from_json)
    if as_json:
        show_json({"restored": str(copy), "set_aside": str(aside) if aside else None})
        return
    say(f"Put back {copy}")
    if aside:
        say(f"The box as it was: {aside}")


def export(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="An empty or new folder.")],
    as_json: Json = False,
) -> None:
    """Write the whole box as plain files: CSV, and TOML for recipes, papers, venues, matches."""
    from tacklebox.stock.care.export import export_box

    files = export_box(box_of(context), folder)
    if as_json:
        show_json([str(file) for file in files])
        return
    say(f"Wrote {len(files)} files to {folder}")


def import_(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="What export wrote.")],
    as_json: Json = False,
) -> None:
    """Read an export into an empty box; all of it, or nothing."""
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.export import import_box

    box = box_of(context)
    rows = import_box(box, folder, Snapshot.from_json)
    if as_json:
        show_json(rows)
        return
    say_folded(
        f"Read {rows['item']} items, {rows['movement']} movements and {rows['tied']} rigs and "
        f"hooklengths into {box.folder}."
    )
