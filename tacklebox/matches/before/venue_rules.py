"""A venue's rules against the rigs that are to be fished.

What is known of a part is the figures of the item that serves it. Where none does, or the part
is on the reel and the box does not know that reel, its recipe's own ask is judged: it passes when
all that it lets in would pass.
"""

import operator
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import chain
from typing import Any

from tacklebox.matches.before.day_rules import groundbait_rule
from tacklebox.matches.before.rulings import About, InBox, Rule, Ruling, Verdict
from tacklebox.matches.files.venue import Rules, Venue
from tacklebox.rigs.checking.check import judge_weights
from tacklebox.rigs.fitting import Fit, Serving, unfitted
from tacklebox.rigs.recipes.resolved import Resolved, Segment
from tacklebox.stock.asks import ASKABLE
from tacklebox.stock.inventory import Stocked
from tacklebox.stock.naming.kin import general
from tacklebox.stock.tables import Kind
from tacklebox.trade.hooks import write_hook_order
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.quantities import Range
from tacklebox.trade.units_first import show_both_strains, show_length

THE_VENUE = "the venue"  # as it is called where it asks for something
ROUNDED = 0.99  # a packet that says "1.8 kg" may say "4 lb" too, which is 1.81 kg
# The rules as they are called.
_BARBS = Rule(About.BARBS, "barbless hooks")
_BRAID = Rule(About.BRAID, "no braid as main line")
_RUNNING = Rule(About.FREE_RUNNING, "feeders run free")


def asked_there(resolved: Resolved, rules: Rules | None) -> Resolved:
    """The recipe as it is checked for a water, which may ask that weights come free."""
    if rules is None or not rules.feeders_run_free:
        return resolved
    return replace(resolved, free_running_by=THE_VENUE)


def judge_rig(venue: Venue, fit: Fit) -> list[Ruling]:
    """Every rule of the venue on one fitted rig, its hooklength included, or on one hooklength.

    A rule that it has no part for is allowed and says so.
    """
    judged = []
    for rule, rulings in _judges(venue.rules, fit):
        found = list(rulings)
        judged += found or [Ruling(rule, Verdict.ALLOWED, says="nothing in it is of that kind")]
    return judged


@dataclass(frozen=True)
class _Limit:
    """What a rule asks of one figure of a kind of item: of all in the rig, or of its main line."""

    rule: Rule
    kind: Kind
    key: str
    passes: Callable[[Any], bool]
    right: str
    main_line: bool = False

    @property
    def column(self) -> str:
        return ASKABLE[self.kind][self.key].column

    def bars(self, figures: Any) -> bool:
        """Whether the figure is known, and fails by more than its packet may be rounded."""
        value = getattr(figures, self.column)
        if value in (None, "") or self.passes(value):
            return False
        return not (self.key == "strain" and self.passes(value / ROUNDED))


def _limits(rules: Rules) -> Iterator[_Limit]:
    order, least = rules.hook_order, rules.least_main_line_kg
    if order is not None:
        right = f"{write_hook_order(order)} or smaller, by the packet"
        yield _Limit(_hook_rule(rules), Kind.HOOK, "size", lambda v: float(v) <= order, right)
    if rules.barbless:
        yield _Limit(_BARBS, Kind.HOOK, "barb", lambda v: v == "barbless", "a barbless hook")
    if rules.no_braid_main_line:
        left = [m for m in ("nylon", "fluorocarbon") if m not in rules.forbidden_materials]
        right = " or ".join(left)
        yield _Limit(_BRAID, Kind.LINE, "material", lambda v: v != "braid", right, True)
    if least is not None:
        rule, right = _main_line_rule(rules), f"{rules.least_main_line} or more"
        strong = partial(operator.le, least * (1 - 1e-6))
        yield _Limit(rule, Kind.LINE, "strain", strong, right, True)
    methods, rule = rules.forbidden_methods, _methods_rule(rules)
    for kind, judged in (
        (Kind.FLOAT, {"waggler", "stick"} & {b.split(" ")[0] for b in methods}),
        (Kind.FEEDER, any(b.endswith(" feeder") or b == "bomb" for b in methods)),
    ):
        if judged:
            yield _Limit(rule, kind, "shape", partial(_no_shape_of, methods), "another kind")
    banned, rule = rules.forbidden_materials, _materials_rule(rules)
    in_line = {"nylon", "fluorocarbon", "braid"} & banned
    for kind, those in ((Kind.LINE, in_line), (Kind.WEIGHT, banned - in_line)):
        if those:
            yield _Limit(rule, kind, "material", lambda v: v not in banned, "another material")


def _no_shape_of(banned: frozenset[str], shape: str) -> bool:
    names = {shape, shape.split(" ")[0], general(shape)}
    return not {*names, *(f"{name} feeder" for name in names)} & banned


def not_barred(
    rules: Rules, kind: Kind, stock: Sequence[Stocked], *, main_line: bool
) -> list[Stocked]:
    """What the rules let a part be tied from."""
    limits = [
        limit for limit in _limits(rules) if limit.kind is kind and main_line >= limit.main_line
    ]
    return [s for s in stock if not any(limit.bars(s.figures) for limit in limits)]


def barred_by(rules: Rules, kind: Kind, figures: Any, *, main_line: bool) -> Rule | None:
    """The rule that what a part was tied from fails for certain, None where there is none."""
    for limit in _limits(rules):
        if limit.kind is kind and main_line >= limit.main_line and limit.bars(figures):
            return limit.rule
    return None


def turned_away(rules: Rules, resolved: Resolved) -> Ruling | None:
    """The rule that a recipe fails whatever it is tied from, None where there is none."""
    found = (
        ruling
        for _, rulings in _judges_of_recipe(rules, unfitted(resolved))
        for ruling in rulings
        if ruling.verdict is Verdict.NOT_ALLOWED
    )
    return next(found, None)


def is_main_line(resolved: Resolved, part: str) -> bool:
    """Whether the part is the uppermost line of a rig; a hooklength alone has none."""
    line = _main_line(resolved)
    return line is not None and line.need.part == part


def _judges_of_recipe(rules: Rules, fit: Fit) -> Iterator[tuple[Rule, Iterator[Ruling]]]:
    """The rules that are judged by how a rig is made."""
    if rules.feeders_run_free:
        yield _RUNNING, _free_running(fit)
    if rules.least_hooklength_mm or rules.greatest_hooklength_mm is not None:
        yield Rule(About.HOOKLENGTH, "hooklength"), _lengths(rules, fit.resolved)
    if rules.methods_banned:
        rule = _methods_rule(rules)
        yield rule, _method(rule, rules, fit.resolved)


def _judges(rules: Rules, fit: Fit) -> Iterator[tuple[Rule, Iterator[Ruling]]]:
    limits = list(_limits(rules))

    def by(rule: Rule) -> tuple[Rule, Iterator[Ruling]]:
        mine = (limit for limit in limits if limit.rule == rule)
        return rule, (
            _judge(limit, serving, limits) for limit in mine for serving in _under(limit, fit)
        )

    if rules.hook_order is not None:
        yield by(_hook_rule(rules))
    if rules.barbless:
        yield by(_BARBS)
    if rules.no_braid_main_line:
        yield by(_BRAID)
    if rules.least_main_line_kg is not None:
        yield by(_main_line_rule(rules))
    for rule, rulings in _judges_of_recipe(rules, fit):
        yield rule, chain(rulings, by(rule)[1])
    if rules.materials_banned:
        yield by(_materials_rule(rules))


def rule_words(rules: Rules) -> list[str]:
    """The venue's rules that can be judged, each as it is called where it is judged."""
    asked = {
        _hook_rule(rules): rules.largest_hook,
        _BARBS: rules.barbless,
        _BRAID: rules.no_braid_main_line,
        _main_line_rule(rules): rules.least_main_line,
        _RUNNING: rules.feeders_run_free,
        _shortest_rule(rules): rules.least_hooklength,
        _longest_rule(rules): rules.greatest_hooklength,
        _methods_rule(rules): rules.methods_banned,
        _materials_rule(rules): rules.materials_banned,
        groundbait_rule(rules): rules.groundbait_limit,
    }
    return [rule.words for rule, is_asked in asked.items() if is_asked]


def _hook_rule(rules: Rules) -> Rule:
    return Rule(About.HOOK_SIZE, f"largest hook {rules.largest_hook}")


def _main_line_rule(rules: Rules) -> Rule:
    return Rule(About.MAIN_LINE, f"main line at least {rules.least_main_line}")


def _shortest_rule(rules: Rules) -> Rule:
    return Rule(About.HOOKLENGTH, f"hooklength at least {rules.least_hooklength}")


def _longest_rule(rules: Rules) -> Rule:
    return Rule(About.HOOKLENGTH, f"hooklength at most {rules.greatest_hooklength}")


def _methods_rule(rules: Rules) -> Rule:
    return Rule(About.METHODS, f"no {', '.join(rules.methods_banned)}")


def _materials_rule(rules: Rules) -> Rule:
    return Rule(About.MATERIALS, f"no {', '.join(rules.materials_banned)}")


def _under(limit: _Limit, fit: Fit) -> Iterator[Serving]:
    """The servings that the limit is about, the hooklength's too."""
    if limit.main_line:
        line = _main_line(fit.resolved)
        yield from [fit.serving(line.need.part)] if line else []
        return
    for one in (fit, fit.hooklength):
        yield from (s for s in (one.servings if one else ()) if s.need.ask.kind is limit.kind)


def _main_line(resolved: Resolved) -> Segment | None:
    if resolved.recipe.makes != "rig":
        return None
    return next((s for s in resolved.chain if s.kind is Kind.LINE), None)


def _known(serving: Serving) -> Stocked | None:
    """The item that will be fished; on the reel only where the box knows that reel."""
    item = serving.item
    return item if item and (item.on_reel or not serving.need.in_place) else None


def _judge(limit: _Limit, serving: Serving, limits: Sequence[_Limit]) -> Ruling:
    """One figure of one part against one rule."""
    rule, part, right, key = limit.rule, serving.need.part, limit.right, limit.key
    item = _known(serving)
    if item:
        value, name = getattr(item.figures, limit.column), item.item.name
        if value in (None, ""):
            return Ruling(
                rule, Verdict.CHECK_YOURSELF, part, f"{name} does not say its {key}", right
            )
        if limit.passes(value):
            return Ruling(rule, Verdict.ALLOWED, part, name)
        if not limit.bars(item.figures):
            see = (
                f"{show_both_strains(value)}: see whether its packet says {right.split(' or ')[0]}"
            )
            return Ruling(rule, Verdict.CHECK_YOURSELF, part, f"{name}, {see}", right)
        better = _better(serving, limit, limits)
        return Ruling(rule, Verdict.NOT_ALLOWED, part, name, right, better)
    asked = next(((text, wish) for k, text, wish in serving.need.ask.wanted if k == key), None)
    if asked is None:
        says = f"the recipe asks for no {key}" + (
            ", nor is the reel in the box" if serving.need.in_place else ""
        )
        return Ruling(rule, Verdict.CHECK_YOURSELF, part, says, right)
    text, wish = asked
    ends = [wish.low, min(wish.high, 1e9)] if isinstance(wish, Range) else sorted(wish)
    good = [limit.passes(end) for end in ends]
    says = f"the recipe asks for {key} {text}"
    if all(good):
        return Ruling(rule, Verdict.ALLOWED, part, says)
    return Ruling(
        rule, Verdict.CHECK_YOURSELF if any(good) else Verdict.NOT_ALLOWED, part, says, right
    )


def _better(serving: Serving, limit: _Limit, limits: Sequence[_Limit]) -> InBox | None:
    """Another item in the box that would do for the part and pass, by the other rules too."""
    of_kind = [one for one in limits if one.kind is limit.kind and limit.main_line >= one.main_line]
    for other in serving.others:
        value = getattr(other.figures, limit.column)
        passes = value not in (None, "") and limit.passes(value)
        if passes and not any(one.bars(other.figures) for one in of_kind):
            return InBox(other.id, other.item.name)
    return None


_BY_OUTCOME = {
    Outcome.SOUND: Verdict.ALLOWED,
    Outcome.DOUBTFUL: Verdict.CHECK_YOURSELF,
    Outcome.FAILS: Verdict.NOT_ALLOWED,
}


def _free_running(fit: Fit) -> Iterator[Ruling]:
    """What the check says of each weight where a venue asks for weights that run free."""
    asking = replace(fit, resolved=replace(fit.resolved, free_running_by=THE_VENUE))
    for weight, judged in judge_weights(asking):
        verdict = _BY_OUTCOME[judged.outcome]
        yield Ruling(_RUNNING, verdict, weight, judged.says, judged.remedy)


def _lengths(rules: Rules, resolved: Resolved) -> Iterator[Ruling]:
    own = resolved if resolved.recipe.makes == "hooklength" else resolved.hooklength
    if own is None:
        return
    low, high, has = rules.least_hooklength_mm, rules.greatest_hooklength_mm, own.length_mm
    part = own.recipe.stem
    if low:
        right = "" if has >= low - 0.5 else f"{rules.least_hooklength} or longer"
        yield _length(_shortest_rule(rules), part, has, right)
    if high is not None:
        right = "" if has <= high + 0.5 else f"{rules.greatest_hooklength} or shorter"
        yield _length(_longest_rule(rules), part, has, right)


def _length(rule: Rule, part: str, length_mm: float, right: str) -> Ruling:
    verdict = Verdict.NOT_ALLOWED if right else Verdict.ALLOWED
    return Ruling(rule, verdict, part, f"it is {show_length(length_mm)} long", right)


def _method(rule: Rule, rules: Rules, resolved: Resolved) -> Iterator[Ruling]:
    recipe = resolved.recipe
    if recipe.makes == "rig":
        bad = recipe.method in rules.forbidden_methods
        verdict = Verdict.NOT_ALLOWED if bad else Verdict.ALLOWED
        right = "another method" if bad else ""
        yield Ruling(rule, verdict, recipe.stem, f"it is for the {recipe.method}", right)
