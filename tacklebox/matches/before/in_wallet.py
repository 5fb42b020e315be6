"""Hooklengths of the wallet that would do for what is wanted, those that its water does not allow, and those
that can be bought ready-made."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from tacklebox.matches.before.purchases import is_sold
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
    venue's rule; ``for_sale`` are those that would do, whether or not there are any, and that he buys."""

    would_do: tuple[Stocked, ...] = ()
    not_allowed: tuple[tuple[Stocked, Rule], ...] = ()
    for_sale: tuple[Stocked, ...] = ()


NONE_HELD = InWallet()


def in_wallet(
    inventory: Inventory,
    wants: Sequence[Resolved],
    rules: Rules | None = None,
    tied_at_home: Collection[int] = (),
) -> list[InWallet]:
    """For each want the hooklengths that would do for it, whether or not another want takes them. What was
    ever ``tied_at_home`` is for sale only where it has a price."""
    return [
        _held(inventory, resolved, rules, tied_at_home)
        if resolved.recipe.makes == "hooklength"
        else NONE_HELD
        for resolved in wants
    ]


def _held(
    inventory: Inventory,
    resolved: Resolved,
    rules: Rules | None,
    tied_at_home: Collection[int],
) -> InWallet:
    every = inventory.ranked(wallet.ask_of(resolved), in_place=False)
    ruled = [(s, rules and _rule_against(rules, resolved, s, inventory)) for s in every]
    there = [(s, rule) for s, rule in ruled if inventory.left(s) > 0]
    return InWallet(
        tuple(s for s, rule in there if not rule),
        tuple((s, rule) for s, rule in there if rule),
        tuple(s for s, rule in ruled if not rule and is_sold(s.item, tied_at_home)),
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
