"""What each purchase is for, and what the law says of it, as both lists of what to buy say it."""

from typing import TYPE_CHECKING

from tacklebox.cli.output import say_folded

if TYPE_CHECKING:
    from tacklebox.desk.shopping import ShoppingList


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
