"""Whether stock lasts on the day, as a table."""

from typing import TYPE_CHECKING

from tacklebox.cli.output import say, say_folded, show_table

if TYPE_CHECKING:
    from tacklebox.desk.forecasts import OnTheDay


def show_forecasts(found: "OnTheDay") -> None:
    """Print what is left of each item beside the plan, and the chance that it does not last."""
    from tacklebox.desk.forecasts import LEAST_SHOWN

    if not found.likely and not found.unlikely:
        return
    say()
    say("On the day, with the chance that more is lost at the match than is left:")
    if found.likely:
        rows = [
            (
                str(one.item),
                one.name,
                *map(str, (one.on_hand, one.planned, one.left, one.minimum)),
                one.chance,
                str(one.matches or "*"),
            )
            for one in found.likely
        ]
        head = ["no.", "item", "on hand", "planned", "left", "minimum", "runs out", "matches"]
        show_table(head, rows)
    if found.unlikely:
        rest = _items(len(found.unlikely), "other " if found.likely else "")
        say(f"{rest}: under {LEAST_SHOWN:.0%} each.")
    if found.not_planned:
        say(
            f"Not planned, but with a minimum: {_items(len(found.not_planned))}; see `tacklebox low`."
        )
    if found.without_history:
        star = "* " if any(not one.matches for one in found.likely) else ""
        say_folded(
            f"{star}from memory, no match of your own in it yet: `tacklebox match debrief` and "
            "`tacklebox stock take` keep what you lose."
        )


def _items(count: int, which: str = "") -> str:
    return f"{count} {which}item{'' if count == 1 else 's'}"
