"""``tacklebox low``: what runs low, how far stock reaches, what to buy."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.buying import say_ready_otherwise, say_what_for
from tacklebox.cli.common import Json, Set, desk_of, pairs
from tacklebox.cli.forecasts import show_forecasts
from tacklebox.cli.output import say, say_folded, say_unprintable, show_answer, show_table

if TYPE_CHECKING:
    from tacklebox.desk.low import RunsLow
    from tacklebox.desk.shopping import ShoppingList


def low(
    context: typer.Context,
    wanted: Annotated[
        list[str] | None,
        typer.Argument(metavar="RECIPE=COUNT...", help="Rigs wanted, the most important first."),
    ] = None,
    chosen: Set = None,
    csv: Annotated[
        Path | None, typer.Option("--csv", help="Write the shopping list to this CSV.")
    ] = None,
    to: Annotated[Path | None, typer.Option(help="Write the shopping list to this PDF.")] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over an older PDF.")] = False,
    as_json: Json = False,
) -> None:
    """Say what runs low; with rigs wanted, how many can be tied and what to buy."""
    from tacklebox.desk.low import runs_low
    from tacklebox.desk.shopping import ListFiles

    choices = pairs(chosen, "--set")
    counts = pairs(wanted, "RECIPE=COUNT")
    files = ListFiles(pdf=to, csv=csv, replace=replace)
    found = runs_low(desk_of(context), counts, choices, files)
    _say_written(found.shopping, to, csv)
    if as_json:
        show_answer(found)
        return
    _show_short(found)
    if found.wanted:
        _show_reach(found)
    _show_purchases(found.shopping)
    _show_past_age(found)
    show_forecasts(found.on_the_day)


def _say_written(shopping: "ShoppingList", to: Path | None, csv: Path | None) -> None:
    for path in (to, csv):
        if path is not None:
            typer.echo(f"Wrote {path}", err=True)
    if shopping.printed:
        say_unprintable(shopping.printed.unknown, err=True)
    if (to or csv) and not shopping.to_buy and not shopping.no_item_for:
        typer.echo("Nothing is to be bought: there are only heads in it.", err=True)


def _show_short(found: "RunsLow") -> None:
    if not found.short:
        say("Nothing is short of its minimum.")
        return
    counted = any(item.on_hand.counted for item in found.short)
    say("Short of the minimum:" if counted else "Low or out:")
    rows = [
        (
            str(i.number),
            i.name,
            str(i.on_hand),
            str(i.minimum) if i.on_hand.counted else "",
            i.place,
        )
        for i in found.short
    ]
    show_table(["no.", "item", "on hand", "minimum", "place"], rows)


def _show_reach(found: "RunsLow") -> None:
    say()
    rows = []
    for rig in found.wanted:
        stops = "; ".join(": ".join(w for w in (m.part, m.because) if w) for m in rig.stopped_by)
        if rig.buy_ready_made:
            stops += f"; to buy ready-made: {rig.buy_ready_made}"
        to_tie = rig.wanted - rig.ready
        reach = f"{rig.can_tie} of {to_tie}" if to_tie else "-"
        rows.append((rig.recipe, str(rig.wanted), str(rig.ready), reach, stops or "all of it"))
    heads = ["recipe", "wanted", "ready", "can be tied", "because"]
    show_table(heads, rows, flexible=4)
    for rig in found.wanted:
        say_ready_otherwise(rig.recipe, rig.ready_otherwise)
    if not found.proven:
        say_folded("Not proven the most: there are more ways than are looked through.")
    if found.runs_out_first:
        say(f"Runs out first: {found.runs_out_first}")


def _show_past_age(found: "RunsLow") -> None:
    if not found.past_age:
        return
    say()
    say("Past its age:")
    rows = [
        (
            str(one.item.number),
            f"{one.item.name}, on {one.reel}" if one.reel else one.item.name,
            str(one.since),
            one.age,
            f"{one.limit.age} ({one.limit.source})",
        )
        for one in found.past_age
    ]
    show_table(["no.", "line", "since", "age", "renewed at"], rows)


def _show_purchases(shopping: "ShoppingList") -> None:
    for ask in shopping.no_item_for:
        say_folded(f"No item in the box will do for {ask}.")
    if not shopping.to_buy:
        return
    say()
    say("To buy, in whole packets:")
    rows = [
        (str(one.item), one.name, str(one.short), one.packets, one.cost) for one in shopping.to_buy
    ]
    if not shopping.prices_missing:
        rows.append(("", "total", "", "", shopping.total))
    show_table(["no.", "item", "short", "packets", "price"], rows)
    if shopping.prices_missing:
        say(f"Total {shopping.total}.")
    say_what_for(shopping)
