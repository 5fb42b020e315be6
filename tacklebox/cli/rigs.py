"""``tacklebox check`` and ``tie``, and ``tacklebox rigs`` for what has been tied."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import (
    PLAIN,
    Json,
    On,
    Set,
    Use,
    box_of,
    day,
    pairs,
    resolved_recipe,
    shelf_of,
    uses,
)
from tacklebox.cli.output import row_as_json, say, say_folded, show_json, show_table

if TYPE_CHECKING:
    from tacklebox.rigs.check import Checked
    from tacklebox.rigs.fit import Fit
    from tacklebox.stock.tables import Tied
    from tacklebox.trade.judgement import Judgement

app = typer.Typer(
    help="Tied rigs: list, show, take apart, mark lost.", no_args_is_help=True, **PLAIN
)

Recipe = Annotated[str, typer.Argument(metavar="RECIPE", help="A recipe's name.")]
Count = Annotated[int, typer.Option("--count", "-n", help="How many.")]
Codes = Annotated[list[str], typer.Argument(metavar="CODE...", help="Codes from labels.")]


def check(
    context: typer.Context,
    recipe: Recipe,
    count: Count = 1,
    chosen: Set = None,
    use: Use = None,
    why: Annotated[bool, typer.Option("--why", help="Show formulas, figures, sources.")] = False,
    as_json: Json = False,
) -> None:
    """Fit a recipe to stock and say whether it holds together; nothing is tied."""
    from tacklebox.rigs.tie import fit_and_check

    box = box_of(context)
    resolved = resolved_recipe(shelf_of(box), recipe, pairs(chosen, "--set"))
    checked = fit_and_check(box, resolved, count, uses(use))
    if as_json:
        show_json(_checked_as_json(checked))
        return
    told = ", ".join(f"{k} {v}" for k, v in resolved.chosen.items())
    say(f"{resolved.recipe.name}: {count} wanted{', ' + told if told else ''}")
    _show_fit(checked.fit)
    say()
    _show_judgements(checked, why)


def _show_fit(fit: "Fit", title: str = "part") -> None:
    from tacklebox.stock.ledger import write_amount

    rows = []
    for serving in fit.servings:
        if serving.item is None:
            rows.append((serving.need.part, f"MISSING: {serving.gap}", ""))
            continue
        item = serving.item.item
        amount = write_amount(serving.amount, item.measured) if serving.amount else "there already"
        also = f" (or {', '.join(str(o.id) for o in serving.others[:3])})" if serving.others else ""
        rows.append((serving.need.part, f"{serving.item.id} {item.name}{also}", amount))
    show_table([title, "from stock", "takes"], rows)
    if fit.hooklength:
        say()
        _show_fit(fit.hooklength, "hooklength, tied apart")


def _show_judgements(checked: "Checked", why: bool) -> None:
    for judgement in checked.judgements:
        memory = " (rests on memory alone)" if judgement.rests_on_memory_alone else ""
        say_folded(f"{judgement.outcome.upper()}: {judgement.about}: {judgement.says}.{memory}")
        if why:
            if judgement.formula:
                say_folded(f"by {judgement.formula}", "    ")
            for fact in judgement.facts:
                say_folded(str(fact), "    ")
    say(
        f"Outcome: {checked.outcome}"
        + (f"; {len(checked.fit.gaps)} missing" if checked.fit.gaps else "")
    )


def _judgement_as_json(judgement: "Judgement") -> dict[str, Any]:
    return {
        "about": judgement.about,
        "outcome": judgement.outcome,
        "says": judgement.says,
        "formula": judgement.formula,
        "figures": [
            {"name": f.name, "value": f.value, "unit": f.unit, "source": str(f.source)}
            for f in judgement.facts
        ],
    }


def _checked_as_json(checked: "Checked") -> dict[str, Any]:
    fits = [("rig", checked.fit)]
    if checked.fit.hooklength:
        fits.append(("hooklength", checked.fit.hooklength))
    return {
        "recipe": checked.fit.resolved.recipe.stem,
        "count": checked.fit.count,
        "chosen": dict(checked.fit.resolved.chosen),
        "outcome": checked.outcome,
        "judgements": [_judgement_as_json(j) for j in checked.judgements],
        "parts": [
            {
                "of": name,
                "part": s.need.part,
                "asks": str(s.need.ask),
                "amount": s.amount,
                "item": s.item.id if s.item else None,
                "name": s.item.item.name if s.item else None,
                "others": [o.id for o in s.others],
                "missing": s.gap,
            }
            for name, fitted in fits
            for s in fitted.servings
        ],
    }


def tie(
    context: typer.Context,
    recipe: Recipe,
    count: Count = 1,
    chosen: Set = None,
    use: Use = None,
    because: Annotated[str, typer.Option(help="Why to go on where a check refuses.")] = "",
    on: On = "",
    as_json: Json = False,
) -> None:
    """Tie from stock: rigs get codes, and the count of stock stays true."""
    from tacklebox.rigs import tie as tying
    from tacklebox.stock.ledger import write_amount

    box = box_of(context)
    resolved = resolved_recipe(shelf_of(box), recipe, pairs(chosen, "--set"))
    done = tying.tie(box, resolved, count, day(on), use=uses(use), because=because)
    if as_json:
        left = [
            {"item": i.id, "name": i.name, "on_hand": i.on_hand, "low": i.on_hand < i.keep_at_least}
            for i in done.left
        ]
        codes = [rig.code for rig in done.rigs]
        show_json({"codes": codes, "left": left, "outcome": done.checked.outcome})
        return
    say(f"Tied {count} × {resolved.recipe.name}: " + ", ".join(rig.code for rig in done.rigs))
    say(f"Outcome of the checks: {done.checked.outcome}")
    for judgement in done.checked.judgements:
        if judgement.outcome != "sound":
            say_folded(f"{judgement.outcome.upper()}: {judgement.about}: {judgement.says}.")
    rows = [
        (
            str(i.id),
            i.name,
            write_amount(i.on_hand, i.measured) + (" low" if i.on_hand < i.keep_at_least else ""),
        )
        for i in done.left
    ]
    if rows:
        show_table(["no.", "used", "left"], rows)


@app.command("list")
def list_(
    context: typer.Context,
    every: Annotated[bool, typer.Option("--all", help="Also taken apart and lost.")] = False,
    as_json: Json = False,
) -> None:
    """List tied rigs and hooklengths that are ready."""
    import json

    from tacklebox.rigs.tie import READY, tied_with

    tied = tied_with(box_of(context), state=None if every else READY)
    if as_json:
        show_json([_tied_as_json(t) for t in tied])
        return
    if not tied:
        say("No rig is tied.")
        return
    rows = []
    for one in tied:
        told = json.loads(one.snapshot)
        label = "labelled" if one.labelled_on else "no label"
        size = f"{told['name']}, {told['size']}" if told["size"] else told["name"]
        rows.append((one.code, size, one.state, str(one.tied_on), label))
    show_table(["code", "rig", "state", "tied", "label"], rows)


def _tied_as_json(tied: "Tied") -> dict[str, Any]:
    import json

    told = row_as_json(tied)
    told["snapshot"] = json.loads(tied.snapshot)
    return told


@app.command()
def show(
    context: typer.Context,
    code: Annotated[str, typer.Argument(metavar="CODE", help="The code on its label.")],
    as_json: Json = False,
) -> None:
    """Show a tied rig by the code on its label."""
    from tacklebox.rigs.tie import find_snapshot
    from tacklebox.trade.quantities import write_length

    tied, snapshot = find_snapshot(box_of(context), code)
    if as_json:
        show_json(_tied_as_json(tied))
        return
    told = [
        ("rig", snapshot.name),
        ("for", snapshot.purpose),
        ("carries", snapshot.carries),
        ("rig line", snapshot.rig_line),
        ("hooklength", snapshot.hooklength),
        ("hook", snapshot.hook),
        ("shot", snapshot.shot),
        ("set for", snapshot.set_for),
        ("length", write_length(snapshot.length_mm) if snapshot.length_mm else ""),
        ("tied", f"{snapshot.tied_on}, {tied.state}"),
        ("checks", snapshot.outcome),
        ("tied all the same", tied.forced_because),
    ]
    show_table([tied.code, ""], [row for row in told if row[1]])


@app.command()
def apart(context: typer.Context, codes: Codes, on: On = "") -> None:
    """Take rigs apart: float, feeder and winder go back to stock."""
    from tacklebox.rigs.tie import take_apart

    for tied, back in take_apart(box_of(context), codes, day(on)):
        names = ", ".join(item.name for item in back) or "nothing"
        say_folded(f"{tied.code} is taken apart; back in stock: {names}.")


@app.command()
def lost(context: typer.Context, codes: Codes, on: On = "") -> None:
    """Mark rigs as lost; what they were tied from stays out of stock."""
    from tacklebox.rigs.tie import mark_lost

    for tied in mark_lost(box_of(context), codes, day(on)):
        say(f"{tied.code} is marked as lost.")
