"""``tacklebox audit``, ``undo``, ``copy``, ``restore``, ``export``, ``import``: care of the box."""

from typing import TYPE_CHECKING

import typer

from tacklebox.cli.common import Json, On, box_of, day
from tacklebox.cli.output import say, say_folded, show_json, show_table

if TYPE_CHECKING:
    from tacklebox.stock.audit import Audit


def audit(context: typer.Context, as_json: Json = False) -> None:
    """Prove that the whole box is in order, or say what is wrong where."""
    from tacklebox.rigs.snapshot import Snapshot
    from tacklebox.stock.audit import audit as go_through

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
    from tacklebox.stock.ledger import write_amount
    from tacklebox.stock.undo import UNTIED, undo_last

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
