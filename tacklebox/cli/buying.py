"""What is said alike of what is bought: what it is for, what the law says of it, what else is ready."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tacklebox.cli.output import say_folded

if TYPE_CHECKING:
    from tacklebox.desk.shopping import ShoppingList
    from tacklebox.desk.stock import Lead


def say_what_for(found: "ShoppingList") -> None:
    """Print it under the list, one purchase a line."""
    for one in found.to_buy:
        if one.what_for:
            say_folded(f"{one.item}: {one.what_for}.")
    for one in found.to_buy:
        if one.caution:
            say_folded(f"CAUTION: {one.item}: {one.caution}")
    if found.supply:
        say_folded(f"CAUTION: {found.supply}")


def say_lead(lead: "Lead | None", supply: str) -> None:
    """Say what the law says of an item that is lead which may not weight a line, and of selling that."""
    if lead:
        say_folded(f"CAUTION: {lead.says}.")
        say_folded(f"CAUTION: {supply}")


def say_ready_otherwise(called: str, codes: Sequence[str]) -> None:
    """Say which ready rigs of a recipe do not count, for they were tied with other choices."""
    if codes:
        say_folded(
            f"Ready, but tied with other choices, so not counted, {called}: {', '.join(codes)}. "
            "`tacklebox rigs list` says how."
        )
