"""Every rule of a venue on what a plan takes there."""

from collections.abc import Mapping

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.before.plan import MOST, Plan
from tacklebox.matches.before.ready_rigs import tied_from
from tacklebox.matches.before.rulings import About, Rule, Ruling, Verdict
from tacklebox.matches.before.venue_rules import judge_rig
from tacklebox.matches.files.venue import Venue
from tacklebox.rigs.fitting import Serving, fit, fit_from_wallet, inventory_for, unfitted
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.rigs.wallet import PART, ask_of
from tacklebox.stock.care.box import Box
from tacklebox.stock.inventory import Inventory


def judge_plan(box: Box, venue: Venue, plan: Plan) -> list[list[Ruling]]:
    """Every rule on every rig of the plan, want by want, by the items that it is tied from.

    Ready rigs are judged by what they were tied from, and by what their recipe asks where nobody knows that.
    """
    with box.reading() as session:
        uses_of = tied_from(session, [code for want in plan.wants for code in want.ready])
        named = {item for use in uses_of.values() for item in use.values()}
        named |= {
            item for want in plan.wants for alike in want.alike for item in alike.use.values()
        }
        inventory = inventory_for(session, [want.resolved for want in plan.wants], named)
    # What it is tied from is known; how much of it is left does not matter to a rule.
    inventory.reserved = {s.id: -MOST for items in inventory.by_kind.values() for s in items}
    judged = []
    for want in plan.wants:
        uses: list[Mapping[str, int]] = [uses_of[code] for code in want.ready if uses_of.get(code)]
        uses += [alike.use for alike in want.alike]
        rulings: dict[Ruling, None] = {}
        for stocked, count in want.from_wallet:
            served = Serving(Need(PART, ask_of(want.resolved), 1), count, stocked, ())
            fitted = fit_from_wallet(want.resolved, inventory, count, served)
            rulings |= dict.fromkeys(judge_rig(venue, fitted))
        if any(not uses_of.get(code) for code in want.ready):
            rulings |= dict.fromkeys(judge_rig(venue, unfitted(want.resolved)))
        for use in uses or ([] if want.has else [{}]):
            rulings |= dict.fromkeys(_judge_made(venue, want.resolved, inventory, use))
        judged.append(list(rulings))
    return judged


def _judge_made(
    venue: Venue, resolved: Resolved, inventory: Inventory, use: Mapping[str, int]
) -> list[Ruling]:
    try:
        return judge_rig(venue, fit(resolved, inventory.copy(), 1, use))
    except AskedWronglyError:
        says = "it was tied by a recipe that has been changed since"
        rule = Rule(About.EVERY_RULE, "every rule")
        return [Ruling(rule, Verdict.CHECK_YOURSELF, resolved.recipe.stem, says)]
