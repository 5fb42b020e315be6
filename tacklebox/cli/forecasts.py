"""Whether stock lasts on the day: the table of forecasts, and the same for JSON."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from tacklebox.cli.output import say, say_folded, show_table

if TYPE_CHECKING:
    from tacklebox.matches.before.losses import Forecast

LEAST_SHOWN = 0.01  # chances below it are only counted; --json tells them all


def show_forecasts(forecasts: "Sequence[Forecast]", *, planned_only: bool = False) -> None:
    """Print what is left of each item beside the plan, and the chance that it does not last.

    With ``planned_only`` what is kept, but not planned, is only counted.
    """
    from tacklebox.stock.ledger import write_amount
    from tacklebox.trade.sources import write_risk

    told = [f for f in forecasts if f.planned or not planned_only]
    shown = [f for f in told if f.runs_out >= LEAST_SHOWN]
    if not told:
        return
    rows = []
    for f in shown:
        amounts = (f.item.on_hand, f.planned, f.left, f.item.keep_at_least)
        words = [write_amount(amount, f.item.measured) for amount in amounts]
        chance = "short already" if f.left < 0 else write_risk(f.runs_out)
        on = f"{f.rate.history}" if f.rate.history else "*"
        rows.append((str(f.item.id), f.item.name, *words, chance, on))
    head = ["no.", "item", "on hand", "planned", "left", "keep", "runs out", "matches"]
    say()
    say("On the day, with the chance that more is lost at the match than is left:")
    if rows:
        show_table(head, rows)
    if len(shown) < len(told):
        rest = _items(len(told) - len(shown), "other " if rows else "")
        say(f"{rest}: under {LEAST_SHOWN:.0%} each.")
    if len(told) < len(forecasts):
        say(f"Not planned, but kept: {_items(len(forecasts) - len(told))}; see `tacklebox low`.")
    if any(not f.rate.history for f in told):
        star = "* " if any(not f.rate.history for f in shown) else ""
        say_folded(
            f"{star}modest prior, no history yet: `match debrief` and `stock take` keep what you lose."
        )


def _items(count: int, which: str = "") -> str:
    return f"{count} {which}item{'' if count == 1 else 's'}"


def forecasts_as_json(forecasts: "Sequence[Forecast]") -> list[dict[str, Any]]:
    """Every forecast for JSON, the least likely too."""
    return [
        {
            "item": f.item.id,
            "name": f.item.name,
            "on_hand": f.item.on_hand,
            "planned": f.planned,
            "left": f.left,
            "keep_at_least": f.item.keep_at_least,
            "chance_to_run_out": f.runs_out,
            "lost_at_a_match": f.rate.mean,
            "matches": f.rate.history,
            "rests_on": str(f.rate.basis),
        }
        for f in forecasts
    ]
