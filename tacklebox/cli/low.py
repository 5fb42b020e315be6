"""``tacklebox low``: what runs low, how far stock reaches, what to buy."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, Set, box_of, pairs, resolved_recipe
from tacklebox.cli.forecasts import forecasts_as_json, show_forecasts
from tacklebox.cli.output import say, say_folded, say_unprintable, show_json, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.before.low import Outlook, Want
    from tacklebox.stock.care.box import Box

MOST_WANTED = 500


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
    from tacklebox.matches.before.low import look_ahead

    box = box_of(context)
    wants = _wants(box, wanted or [], pairs(chosen, "--set"))
    outlook = look_ahead(box, wants)
    if csv is not None or to is not None:
        _write_shopping(outlook, csv, to, replace=replace)
    if as_json:
        show_json(_as_json(outlook))
        return
    _show_low(outlook)
    if wants:
        _show_reach(outlook)
    _show_purchases(outlook)
    show_forecasts(outlook.forecasts)


def _write_shopping(
    outlook: "Outlook", csv: Path | None, to: Path | None, *, replace: bool
) -> None:
    from tacklebox.matches.before.shopping import Shopping

    what_for = {p.item.id or 0: p.because for p in outlook.purchases}
    if to is not None:
        from tacklebox.printing.pages.shopping_page import print_shopping

        printed = print_shopping(
            outlook.purchases, to, what_for=what_for, unknown=outlook.unknown, overwrite=replace
        )
        typer.echo(f"Wrote {to}", err=True)
        say_unprintable(printed.unknown, err=True)
    if csv is not None:
        from tacklebox.cli.match_pack import write_csv

        write_csv(csv, Shopping(outlook.purchases, what_for, outlook.unknown), replace=replace)
        typer.echo(f"Wrote {csv}", err=True)
    if not outlook.purchases and not outlook.unknown:
        typer.echo("Nothing is to be bought: there are only heads in it.", err=True)


def _wants(box: "Box", wanted: list[str], chosen: dict[str, str]) -> "list[Want]":
    from tacklebox.matches.before.low import Want

    if not wanted:
        return []
    from tacklebox.matches.before.recipes_read_once import ReadOnce

    shelf = ReadOnce(box.recipes)
    wants = []
    for name, text in pairs(wanted, "RECIPE=COUNT").items():
        if not text.isdecimal() or not 1 <= int(text) <= MOST_WANTED:
            raise AskedWronglyError(
                f'"{text}" is no count for {name}.',
                right=f"A whole number from 1 to {MOST_WANTED}.",
            )
        recipe = shelf.load(name)
        below = [shelf.load(h) for h in recipe.hooklengths]
        known = {*recipe.choose, "hooklength", *(k for h in below for k in h.choose)}
        own = {k: v for k, v in chosen.items() if k in known}
        wants.append(Want(resolved_recipe(shelf, name, own), int(text)))
    return wants


def _show_low(outlook: "Outlook") -> None:
    from tacklebox.stock.ledger import write_amount

    if not outlook.below_keep:
        say("Nothing is below what you keep.")
        return
    say("Below what you keep:")
    rows = [
        (
            str(i.id),
            i.name,
            write_amount(i.on_hand, i.measured),
            write_amount(i.keep_at_least, i.measured),
            i.place,
        )
        for i in outlook.below_keep
    ]
    show_table(["no.", "item", "on hand", "keep", "place"], rows)


def _show_reach(outlook: "Outlook") -> None:
    say()
    rows = []
    for reach in outlook.reaches:
        stops = "; ".join(f"{g.need.part}: {g.gap}" for g in reach.stopped_by)
        stem = reach.want.resolved.recipe.stem
        rows.append((stem, f"{reach.can_tie} of {reach.want.count}", stops or "all can be tied"))
    show_table(["wanted", "can be tied", "because"], rows, flexible=2)
    if outlook.runs_out_first:
        say(f"Runs out first: {outlook.runs_out_first.name}")


def _show_purchases(outlook: "Outlook") -> None:
    from tacklebox.matches.before.low import unpriced, write_total
    from tacklebox.stock.ledger import write_amount, write_price

    for ask in outlook.unknown:
        say_folded(f"No item in the box will do for {ask}.")
    if not outlook.purchases:
        return
    say()
    say("To buy, in whole packets:")
    rows = []
    for p in outlook.purchases:
        packet = write_amount(p.item.pack_size, p.item.measured)
        cost = write_price(p.cost_cents) if p.cost_cents is not None else "not known"
        short = write_amount(p.short, p.item.measured)
        packs = f"{p.packs} × {packet}"
        rows.append((str(p.item.id), p.item.name, short, packs, cost, p.because))
    total, lacking = write_total(outlook.purchases), unpriced(outlook.purchases)
    if not lacking:
        rows.append(("", "together", "", "", total, ""))
    show_table(["no.", "item", "short of", "packets", "price", "what for"], rows)
    if lacking:
        say(f"Together {total}.")


def _as_json(outlook: "Outlook") -> dict[str, object]:
    from tacklebox.desk import as_json
    from tacklebox.desk.stock import item_row
    from tacklebox.matches.before.low import unpriced

    first = outlook.runs_out_first
    return {
        "below_keep": [as_json(item_row(item)) for item in outlook.below_keep],
        "wanted": [
            {
                "recipe": reach.want.resolved.recipe.stem,
                "wanted": reach.want.count,
                "can_tie": reach.can_tie,
                "stopped_by": [{"part": g.need.part, "gap": g.gap} for g in reach.stopped_by],
            }
            for reach in outlook.reaches
        ],
        "runs_out_first": first.name if first else None,
        "to_buy": [
            {
                "item": p.item.id,
                "name": p.item.name,
                "short": p.short,
                "to_keep": p.to_keep,
                "packs": p.packs,
                "cost_cents": p.cost_cents,
            }
            for p in outlook.purchases
        ],
        "total_cents": outlook.total_cents,
        "prices_not_known": unpriced(outlook.purchases),
        "no_item_for": list(outlook.unknown),
        "on_the_day": forecasts_as_json(outlook.forecasts),
    }
