"""Hooklengths of the wallet that would do for what is wanted, and those that its water does not allow."""

from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.matches.before.rulings import Rule
from tacklebox.matches.before.venue_rules import barred_by, turned_away
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs import wallet
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.tables import Kind


@dataclass(frozen=True)
class InWallet:
    """What of the wallet would do for a want, the nearest to its ask first, and what stays at home with the
    venue's rule."""

    would_do: tuple[Stocked, ...] = ()
    not_allowed: tuple[tuple[Stocked, Rule], ...] = ()


NONE_HELD = InWallet()


def in_wallet(
    inventory: Inventory, wants: Sequence[Resolved], rules: Rules | None = None
) -> list[InWallet]:
    """For each want the hooklengths that would do for it, whether or not another want takes them."""
    return [
        _held(inventory, resolved, rules) if resolved.recipe.makes == "hooklength" else NONE_HELD
        for resolved in wants
    ]


def _held(inventory: Inventory, resolved: Resolved, rules: Rules | None) -> InWallet:
    every = inventory.ranked(wallet.ask_of(resolved), in_place=False)
    ruled = [
        (s, rules and _rule_against(rules, resolved, s, inventory))
        for s in every
        if inventory.left(s) > 0
    ]
    return InWallet(
        tuple(s for s, rule in ruled if not rule), tuple((s, rule) for s, rule in ruled if rule)
    )


def _rule_against(
    rules: Rules, resolved: Resolved, stocked: Stocked, inventory: Inventory
) -> Rule | None:
    if ruling := turned_away(rules, resolved):
        return ruling.rule
    for kind, part in (
        (Kind.HOOK, wallet.as_hook(stocked)),
        (Kind.LINE, wallet.as_line(stocked, inventory)),
    ):
        if rule := barred_by(rules, kind, part.figures, main_line=False):
            return rule
    return None
