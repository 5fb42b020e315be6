"""``tacklebox check`` and ``tie``, and ``tacklebox rigs`` for what has been tied."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import (
    PLAIN,
    Json,
    LookFrom,
    On,
    Set,
    SoundFrom,
    Use,
    Water,
    Why,
    at,
    box_of,
    celsius,
    day,
    desk_of,
    limits,
    pairs,
    resolved_recipe,
    shelf_of,
    uses,
)
from tacklebox.cli.output import (
    judgement_as_json,
    say,
    say_folded,
    show_answer,
    show_json,
    show_judgement,
    show_table,
)
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.rigs import Gone
    from tacklebox.rigs.checking.cast import Cast
    from tacklebox.rigs.checking.check import Checked
    from tacklebox.rigs.fitting import Fit

app = typer.Typer(help="Tied rigs: list, show, strip, mark lost.", no_args_is_help=True, **PLAIN)

Recipe = Annotated[str, typer.Argument(metavar="RECIPE", help="A recipe's name.")]
Count = Annotated[int, typer.Option("--count", "-n", help="How many.")]
Codes = Annotated[list[str], typer.Argument(metavar="CODE...", help="Codes from labels.")]


def check(
    context: typer.Context,
    recipe: Recipe,
    count: Count = 1,
    chosen: Set = None,
    use: Use = None,
    why: Why = False,
    water: Water = "10",
    distance: Annotated[
        str | None, typer.Option(help='Judge a cast that far too, like "40 m".')
    ] = None,
    load: Annotated[str, typer.Option(help='What the feeder is filled with, like "25 g".')] = "0",
    sound_from: SoundFrom = "90",
    look_from: LookFrom = "50",
    as_json: Json = False,
) -> None:
    """Fit a recipe to stock and say whether it holds together; nothing is tied."""
    from tacklebox.rigs.tying.tie import fit_and_check
    from tacklebox.stock.lead import lead_in_stock

    wanted = limits(sound_from, look_from)
    box = box_of(context)
    resolved = resolved_recipe(shelf_of(box), recipe, pairs(chosen, "--set"))
    checked = fit_and_check(
        box,
        resolved,
        count,
        uses(use),
        wanted,
        water_c=celsius(water),
        cast=_cast(distance, load),
    )
    with box.reading() as session:
        lead = [item for item, _ in lead_in_stock(session)]
    if as_json:
        told_lead = [{"item": i.id, "name": i.name} for i in lead]
        show_json({**_checked_as_json(checked), "forbidden_lead_in_stock": told_lead})
        return
    told = ", ".join(f"{k} {v}" for k, v in resolved.chosen.items())
    say(f"{resolved.recipe.name}: {count} wanted{', ' + told if told else ''}")
    _show_fit(checked.fit)
    say()
    _show_judgements(checked, why)
    if lead:
        names = ", ".join(f"{i.id} {i.name}" for i in lead)
        say_folded(f"Lead that may not weight a line is in the box: {names}. See `tacklebox law`.")


def _cast(distance: str | None, load: str) -> "Cast | None":
    from tacklebox.rigs.checking.cast import Cast
    from tacklebox.trade.quantities import read_length_mm, read_mass_g

    load_g = 0.0 if load.strip() == "0" else at("--load", read_mass_g, load)
    if distance is None:
        if load_g:
            raise AskedWronglyError("--load needs --distance.", right="Say how far it is cast.")
        return None
    return Cast(at("--distance", read_length_mm, distance) / 1000, load_g)


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
        show_judgement(judgement, why)
    if why:
        _show_breaks(checked.fit)
    say(
        f"Outcome: {checked.outcome}"
        + (f"; {len(checked.fit.gaps)} missing" if checked.fit.gaps else "")
    )


def _show_breaks(fit: "Fit") -> None:
    """For each pull, every joint in order of strength with its chance of going first."""
    from tacklebox.rigs.checking.breaks import all_breaks
    from tacklebox.trade.breaks_first import write_chance
    from tacklebox.trade.quantities import write_strain_kg

    for told in all_breaks(fit):
        say()
        rows = [
            (
                write_strain_kg(round(b.joint.mean_kg, 2)),
                write_chance(b.chance),
                b.joint.name,
                ", ".join(b.tows) or "-",
                ", ".join(b.lost) or "-",
            )
            for b in told.breaks
        ]
        say_folded(f"{told.pull[0].upper()}{told.pull[1:]}, weakest first:")
        for holds, chance, name, tows, lost in rows:
            say_folded(f"{holds:>8}  {chance:>11} goes first: {name}", "  ")
            say_folded(f"lost: {lost}; a fish tows: {tows}", "      ")
    say()


def _breaks_as_json(fit: "Fit") -> list[dict[str, Any]]:
    from tacklebox.rigs.checking.breaks import all_breaks

    return [
        {
            "pull": told.pull,
            "breaks": [
                {
                    "joint": b.joint.name,
                    "mean_kg": b.joint.mean_kg,
                    "spread_kg": b.joint.whole_spread_kg,
                    "chance_first": b.chance,
                    "lost": list(b.lost),
                    "tows": list(b.tows),
                    "says": b.says,
                }
                for b in told.breaks
            ],
        }
        for told in all_breaks(fit)
    ]


def _checked_as_json(checked: "Checked") -> dict[str, Any]:
    fits = [("rig", checked.fit)]
    if checked.fit.hooklength:
        fits.append(("hooklength", checked.fit.hooklength))
    return {
        "recipe": checked.fit.resolved.recipe.stem,
        "count": checked.fit.count,
        "chosen": dict(checked.fit.resolved.chosen),
        "outcome": checked.outcome,
        "judgements": [judgement_as_json(j) for j in checked.judgements],
        "breaks": _breaks_as_json(checked.fit),
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
    sound_from: SoundFrom = "90",
    look_from: LookFrom = "50",
    on: On = "",
    as_json: Json = False,
) -> None:
    """Tie from stock: rigs get codes, and the count of stock stays true."""
    from tacklebox.rigs.tying import tie as tying
    from tacklebox.stock.ledger import write_amount
    from tacklebox.trade.law import caution_for

    wanted = limits(sound_from, look_from)
    box = box_of(context)
    resolved = resolved_recipe(shelf_of(box), recipe, pairs(chosen, "--set"))
    done = tying.tie(box, resolved, count, day(on), use=uses(use), because=because, limits=wanted)
    if as_json:
        left = [
            {"item": i.id, "name": i.name, "on_hand": i.on_hand, "low": i.on_hand < i.minimum}
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
            write_amount(i.on_hand, i.measured) + (" low" if i.on_hand < i.minimum else ""),
        )
        for i in done.left
    ]
    if rows:
        show_table(["no.", "used", "left"], rows)
    caution = caution_for(resolved.recipe.method)
    say_folded(f"CAUTION: {caution.about}: {caution.says}")


@app.command("list")
def list_(
    context: typer.Context,
    every: Annotated[bool, typer.Option("--all", help="Also stripped and lost.")] = False,
    as_json: Json = False,
) -> None:
    """List tied rigs and hooklengths that are ready."""
    from tacklebox.desk import rigs

    tied = rigs.listed(desk_of(context), every=every)
    if as_json:
        show_answer(tied)
        return
    if not tied:
        say("No rig is tied.")
        return
    rows = []
    for one in tied:
        size = f"{one.made.name}, {one.made.size}" if one.made.size else one.made.name
        label = "labelled" if one.labelled_on else "no label"
        rows.append((one.code, size, one.state, str(one.tied_on), label))
    show_table(["code", "rig", "state", "tied", "label"], rows)


@app.command()
def show(
    context: typer.Context,
    code: Annotated[str, typer.Argument(metavar="CODE", help="The code on its label.")],
    as_json: Json = False,
) -> None:
    """Show a tied rig by the code on its label."""
    from tacklebox.desk import rigs

    tied = rigs.show(desk_of(context), code)
    if as_json:
        show_answer(tied)
        return
    made = tied.made
    rows = [
        ("rig", made.name),
        ("for", made.purpose),
        ("carries", made.carries),
        ("rig line", made.rig_line),
        ("hooklength", made.hooklength),
        ("hook", made.hook),
        ("shot", made.shot),
        ("set for", made.set_for),
        ("length", tied.length),
        ("tied", f"{tied.tied_on}, {tied.state}"),
        ("checks", made.outcome),
        ("tied all the same", tied.tied_because),
    ]
    show_table([tied.code, ""], [row for row in rows if row[1]])


@app.command()
def strip(context: typer.Context, codes: Codes, on: On = "") -> None:
    """Strip rigs: float, feeder and winder go back to stock."""
    from tacklebox.desk import rigs

    _show_gone(rigs.strip(desk_of(context), codes, on=on))


@app.command()
def lost(context: typer.Context, codes: Codes, on: On = "") -> None:
    """Mark rigs as lost: the winder goes back to stock, the rest counts as lost on that day."""
    from tacklebox.desk import rigs

    _show_gone(rigs.lose(desk_of(context), codes, on=on))


def _show_gone(rigs: "Sequence[Gone]") -> None:
    for one in rigs:
        names = ", ".join(item.name for item in one.back) or "nothing"
        say_folded(f"{one.code} is {one.state}; back in stock: {names}.")
