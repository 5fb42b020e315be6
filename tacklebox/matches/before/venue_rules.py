"""A venue's rules against what is to be fished: allowed, not allowed, or read it yourself.

What is known of a part is the figures of the item that serves it. Where none does, or the part
is on the reel and the box does not know that reel, its recipe's own ask is judged: it passes when
all that it lets in would pass.
"""

import operator
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from functools import partial
from itertools import chain
from typing import Any, TypeVar

from tacklebox.matches.dividing.candidates import Loose
from tacklebox.matches.files.venue import NetRules, Rules, Venue
from tacklebox.rigs.checking.check import judge_weights
from tacklebox.rigs.fitting import Fit, Serving, unfitted
from tacklebox.rigs.recipes.resolved import Resolved, Segment
from tacklebox.stock.asks import ASKABLE
from tacklebox.stock.inventory import Stocked
from tacklebox.stock.tables import Kind
from tacklebox.trade.hooks import write_hook_order
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.keepnet import Keepnet, judge_keepnet
from tacklebox.trade.law import DEFERS, Season, byelaws_of, season_at
from tacklebox.trade.quantities import Range, write_length, write_strain

ROUNDED = 0.99  # a packet that says "1.8 kg" may say "4 lb" too, which is 1.81 kg
# The rules as they are called.
_HOOKS, _BARBS, _BRAID = "largest hook {}", "barbless hooks", "no braid as main line"
_MAIN, _RUNNING = "main line at least {}", "feeders run free"
_SHORT, _LONG = "hooklength at least {}", "hooklength at most {}"
_GROUNDBAIT = "groundbait at most {}"


_Any = TypeVar("_Any", Loose, Stocked)


class Verdict(StrEnum):
    """The three answers, mildest first."""

    ALLOWED = "allowed"
    READ_IT = "read this one yourself"
    NOT_ALLOWED = "not allowed"


class About(StrEnum):
    """What a rule is about; what is decided on, whatever its words are."""

    HOOKS = "hooks"
    BARBS = "barbs"
    BRAID = "braid"
    MAIN_LINE = "main line"
    FREE_RUNNING = "free running"
    HOOKLENGTH = "hooklength"
    METHODS = "methods"
    MATERIALS = "materials"
    GROUNDBAIT = "groundbait"
    SEASON = "close season"
    KEEPNET = "keepnet"
    IN_WORDS = "in words"
    EVERY_RULE = "every rule"


@dataclass(frozen=True)
class Ruling:
    """One rule's answer: the rule, the part it is about ("" for the day), what would pass, and
    what the rule is about."""

    rule: str
    verdict: Verdict
    part: str = ""
    says: str = ""
    would_pass: str = ""
    key: About | None = None


def worst_verdict(rulings: list[Ruling]) -> Verdict:
    """The answer of all rulings together is that of the worst one."""
    order = list(Verdict)
    return max((r.verdict for r in rulings), key=order.index, default=Verdict.ALLOWED)


def judge_rig(venue: Venue, fit: Fit) -> list[Ruling]:
    """Every rule of the venue on one fitted rig, its hooklength included, or on one hooklength.

    A rule that it has no part for is allowed and says so.
    """
    judged = []
    for about, rule, rulings in _judges(venue.rules, fit):
        found = list(rulings)
        found = found or [Ruling(rule, Verdict.ALLOWED, says="nothing in it is of that kind")]
        judged += [replace(ruling, key=about) for ruling in found]
    return judged


def judge_day(venue: Venue, on: date | None, groundbait_g: float | None = None) -> list[Ruling]:
    """What is judged once for a day at the venue: close season, groundbait, keepnet, plain words."""
    rulings = [_season(venue, on)] if on else []
    groundbait = judge_groundbait(venue, groundbait_g)
    rulings += [groundbait] if groundbait else []
    in_words = (*venue.keepnet.words(venue.under), *venue.read)
    return rulings + [Ruling(words, Verdict.READ_IT, key=About.IN_WORDS) for words in in_words]


def judge_groundbait(venue: Venue, mass_g: float | None) -> Ruling | None:
    """So much dry groundbait by the venue's limit, None where it has none; with no mass, it is to be
    weighed."""
    limit = venue.rules.groundbait_limit_g
    if limit is None:
        return None
    key, rule = About.GROUNDBAIT, _GROUNDBAIT.format(venue.rules.groundbait_limit)
    if mass_g is None:
        return Ruling(rule, Verdict.READ_IT, says="weigh it before it is mixed", key=key)
    says = f"{_kg(mass_g)}, weighed dry"
    if mass_g <= limit:
        return Ruling(rule, Verdict.ALLOWED, "groundbait", says, key=key)
    leave = f"leave {_kg(mass_g - limit)} at home"
    return Ruling(rule, Verdict.NOT_ALLOWED, "groundbait", says, leave, key)


def _kg(mass_g: float) -> str:
    """Groundbait is spoken of in kg."""
    return f"{round(mass_g / 1000, 3):g} kg"


def judge_net(venue: Venue | None, net: Keepnet, nets: int | None = None) -> list[Ruling]:
    """Every rule on keepnets, the byelaws' and the venue's; what nobody measured is left to read.

    ``nets`` is how many are to be used at a time, where that is known.
    """
    asks = venue.keepnet if venue else NetRules()
    by_venue = f"rule of {venue.name}" if venue else ""
    judged = []
    for rule in judge_keepnet(net, asks.asked):
        by = by_venue if rule.by_venue else byelaws_of(venue.under if venue else None)
        judged.append(_net_ruling(f"{rule.asks} ({by})", rule.passes, rule.has, rule.asks))
    if asks.nets:
        right = f"at most {asks.nets} at a time"
        passes, has = (None, "") if nets is None else (nets <= asks.nets, f"{nets} keepnets")
        judged.append(_net_ruling(f"{right} ({by_venue})", passes, has, right))
    if asks.fish_per_net:
        most = f"keepnet at most {asks.fish_per_net} of fish in each ({by_venue})"
        judged.append(
            Ruling(most, Verdict.READ_IT, says="change nets before it is full", key=About.KEEPNET)
        )
    return judged


def _net_ruling(rule: str, passes: bool | None, has: str, right: str) -> Ruling:
    rule = f"keepnet {rule}"
    if passes is None:
        return Ruling(
            rule, Verdict.READ_IT, says="not told: measure it, or look", key=About.KEEPNET
        )
    if passes:
        return Ruling(rule, Verdict.ALLOWED, says=has, key=About.KEEPNET)
    return Ruling(rule, Verdict.NOT_ALLOWED, says=has, would_pass=right, key=About.KEEPNET)


def _season(venue: Venue, on: date) -> Ruling:
    rule, by = "close season", byelaws_of(venue.under)
    running = venue.water == "river"
    told = season_at(on, running=running, keeps_it=venue.close_season, country=venue.under)
    if told is Season.OUTSIDE:
        return Ruling(
            rule, Verdict.ALLOWED, says=f"{on} is outside 15 March to 15 June", key=About.SEASON
        )
    if told is Season.CLOSED:
        says = f"{on} lies in 15 March to 15 June ({by}); {DEFERS}"
        return Ruling(rule, Verdict.NOT_ALLOWED, "the day", says, "from 16 June", key=About.SEASON)
    if told is Season.OPEN_BY_VENUE:
        says = f"open on {on}, as the venue's file says; {DEFERS}"
        return Ruling(rule, Verdict.ALLOWED, "the day", says, key=About.SEASON)
    if venue.country == "elsewhere":
        return Ruling(
            rule,
            Verdict.READ_IT,
            "the day",
            f"ask what the law there says; {DEFERS}",
            key=About.SEASON,
        )
    says = (
        f"ask the owner about {on}: the Broads, some SSSIs and some owners keep 15 March to "
        f"15 June on {venue.water}s too ({by}); {DEFERS}"
    )
    return Ruling(rule, Verdict.READ_IT, "the day", says, key=About.SEASON)


@dataclass(frozen=True)
class _Limit:
    """What a rule asks of one figure of a kind of item: of all in the rig, or of its main line."""

    rule: str
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
        rule = _HOOKS.format(rules.largest_hook)
        yield _Limit(rule, Kind.HOOK, "size", lambda v: float(v) <= order, right)
    if rules.barbless:
        yield _Limit(_BARBS, Kind.HOOK, "barb", lambda v: v == "barbless", "a barbless hook")
    if rules.no_braid_main_line:
        left = [m for m in ("nylon", "fluorocarbon") if m not in rules.forbidden_materials]
        right = " or ".join(left)
        yield _Limit(_BRAID, Kind.LINE, "material", lambda v: v != "gel-spun", right, True)
    if least is not None:
        rule, right = _MAIN.format(rules.least_main_line), f"{rules.least_main_line} or more"
        strong = partial(operator.le, least * (1 - 1e-6))
        yield _Limit(rule, Kind.LINE, "strain", strong, right, True)
    methods, rule = rules.forbidden_methods, _none_of(rules.methods_banned)
    for kind, judged in (
        (Kind.FLOAT, {"waggler", "stick"} & {b.split(" ")[0] for b in methods}),
        (Kind.FEEDER, any(b.endswith(" feeder") or b == "bomb" for b in methods)),
    ):
        if judged:
            yield _Limit(rule, kind, "shape", partial(_no_shape_of, methods), "another kind")
    banned, rule = rules.forbidden_materials, _none_of(rules.materials_banned)
    in_line = {"nylon", "fluorocarbon", "gel-spun"} & banned
    for kind, those in ((Kind.LINE, in_line), (Kind.WEIGHT, banned - in_line)):
        if those:
            yield _Limit(rule, kind, "material", lambda v: v not in banned, "another material")


def _no_shape_of(banned: frozenset[str], shape: str) -> bool:
    return not {shape, shape.split(" ")[0], f"{shape} feeder"} & banned


def not_barred(rules: Rules, kind: Kind, stock: Sequence[_Any], *, main_line: bool) -> list[_Any]:
    """What the rules let a part be tied from."""
    limits = [
        limit for limit in _limits(rules) if limit.kind is kind and main_line >= limit.main_line
    ]
    return [s for s in stock if not any(limit.bars(s.figures) for limit in limits)]


def barred_by(rules: Rules, kind: Kind, figures: Any, *, main_line: bool) -> str:
    """The rule that what a part was tied from fails for certain, "" where there is none."""
    for limit in _limits(rules):
        if limit.kind is kind and main_line >= limit.main_line and limit.bars(figures):
            return limit.rule
    return ""


def turned_away(rules: Rules, resolved: Resolved) -> Ruling | None:
    """The rule that a recipe fails whatever it is tied from, None where there is none."""
    found = (
        replace(ruling, key=about)
        for about, _, rulings in _judges_of_recipe(rules, unfitted(resolved))
        for ruling in rulings
        if ruling.verdict is Verdict.NOT_ALLOWED
    )
    return next(found, None)


def is_main_line(resolved: Resolved, part: str) -> bool:
    """Whether the part is the uppermost line of a rig; a hooklength alone has none."""
    line = _main_line(resolved)
    return line is not None and line.need.part == part


_Judged = tuple[About, str, Iterator[Ruling]]


def _judges_of_recipe(rules: Rules, fit: Fit) -> Iterator[_Judged]:
    """The rules that are judged by how a rig is made."""
    if rules.feeders_run_free:
        yield About.FREE_RUNNING, _RUNNING, _free_running(fit)
    if rules.least_hooklength_mm or rules.greatest_hooklength_mm is not None:
        yield About.HOOKLENGTH, "hooklength", _lengths(rules, fit.resolved)
    if rules.methods_banned:
        rule = _none_of(rules.methods_banned)
        yield About.METHODS, rule, _method(rule, rules, fit.resolved)


def _judges(rules: Rules, fit: Fit) -> Iterator[_Judged]:
    limits = list(_limits(rules))

    def by(about: About, rule: str) -> _Judged:
        mine = (limit for limit in limits if limit.rule == rule)
        rulings = (
            _judge(limit, serving, limits) for limit in mine for serving in _under(limit, fit)
        )
        return about, rule, rulings

    if rules.hook_order is not None:
        yield by(About.HOOKS, _HOOKS.format(rules.largest_hook))
    if rules.barbless:
        yield by(About.BARBS, _BARBS)
    if rules.no_braid_main_line:
        yield by(About.BRAID, _BRAID)
    if rules.least_main_line_kg is not None:
        yield by(About.MAIN_LINE, _MAIN.format(rules.least_main_line))
    for about, rule, rulings in _judges_of_recipe(rules, fit):
        yield about, rule, chain(rulings, by(about, rule)[2])
    if rules.materials_banned:
        yield by(About.MATERIALS, _none_of(rules.materials_banned))


def rule_words(rules: Rules) -> list[str]:
    """The venue's rules that can be judged, each as it is called where it is judged."""
    least, most = rules.least_hooklength, rules.greatest_hooklength
    told = {
        _HOOKS.format(rules.largest_hook): rules.largest_hook,
        _BARBS: rules.barbless,
        _BRAID: rules.no_braid_main_line,
        _MAIN.format(rules.least_main_line): rules.least_main_line,
        _RUNNING: rules.feeders_run_free,
        _SHORT.format(least): least,
        _LONG.format(most): most,
        _none_of(rules.methods_banned): rules.methods_banned,
        _none_of(rules.materials_banned): rules.materials_banned,
        _GROUNDBAIT.format(rules.groundbait_limit): rules.groundbait_limit,
    }
    return [words for words, is_asked in told.items() if is_asked]


def _none_of(banned: Sequence[str]) -> str:
    return f"no {', '.join(banned)}"


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
    return item if item and (item.item.on_reel or not serving.need.there) else None


def _judge(limit: _Limit, serving: Serving, limits: Sequence[_Limit]) -> Ruling:
    """One figure of one part against one rule."""
    rule, part, right, key = limit.rule, serving.need.part, limit.right, limit.key
    item = _known(serving)
    if item:
        value, name = getattr(item.figures, limit.column), item.item.name
        if value in (None, ""):
            return Ruling(rule, Verdict.READ_IT, part, f"{name} does not say its {key}", right)
        if limit.passes(value):
            return Ruling(rule, Verdict.ALLOWED, part, name)
        if not limit.bars(item.figures):
            see = f"{write_strain(value)}: see whether its packet says {right.split(' or ')[0]}"
            return Ruling(rule, Verdict.READ_IT, part, f"{name}, {see}", right)
        return Ruling(
            rule, Verdict.NOT_ALLOWED, part, name, right + _better(serving, limit, limits)
        )
    asked = next(((text, wish) for k, text, wish in serving.need.ask.wanted if k == key), None)
    if asked is None:
        says = f"the recipe asks for no {key}" + (
            ", nor is the reel in the box" if serving.need.there else ""
        )
        return Ruling(rule, Verdict.READ_IT, part, says, right)
    text, wish = asked
    ends = [wish.low, min(wish.high, 1e9)] if isinstance(wish, Range) else sorted(wish)
    good = [limit.passes(end) for end in ends]
    says = f"the recipe asks for {key} {text}"
    if all(good):
        return Ruling(rule, Verdict.ALLOWED, part, says)
    return Ruling(rule, Verdict.READ_IT if any(good) else Verdict.NOT_ALLOWED, part, says, right)


def _better(serving: Serving, limit: _Limit, limits: Sequence[_Limit]) -> str:
    """Another item in the box that would do for the part and pass, by the other rules too."""
    of_kind = [one for one in limits if one.kind is limit.kind and limit.main_line >= one.main_line]
    for other in serving.others:
        value = getattr(other.figures, limit.column)
        passes = value not in (None, "") and limit.passes(value)
        if passes and not any(one.bars(other.figures) for one in of_kind):
            return f'; in the box: --use "{serving.need.part}={other.id}", {other.item.name}'
    return ""


_BY_OUTCOME = {
    Outcome.SOUND: Verdict.ALLOWED,
    Outcome.LOOK_AGAIN: Verdict.READ_IT,
    Outcome.WILL_NOT_DO: Verdict.NOT_ALLOWED,
}


def _free_running(fit: Fit) -> Iterator[Ruling]:
    """What the check says of each weight where a venue asks for weights that run free."""
    for weight, judged in judge_weights(fit, free_running_by="the venue"):
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
        yield _length(_SHORT.format(rules.least_hooklength), part, has, right)
    if high is not None:
        right = "" if has <= high + 0.5 else f"{rules.greatest_hooklength} or shorter"
        yield _length(_LONG.format(rules.greatest_hooklength), part, has, right)


def _length(rule: str, part: str, length_mm: float, right: str) -> Ruling:
    verdict = Verdict.NOT_ALLOWED if right else Verdict.ALLOWED
    return Ruling(rule, verdict, part, f"it is {write_length(length_mm)} long", right)


def _method(rule: str, rules: Rules, resolved: Resolved) -> Iterator[Ruling]:
    recipe = resolved.recipe
    if recipe.makes == "rig":
        bad = recipe.method in rules.forbidden_methods
        verdict = Verdict.NOT_ALLOWED if bad else Verdict.ALLOWED
        right = "another method" if bad else ""
        yield Ruling(rule, verdict, recipe.stem, f"it is for the {recipe.method}", right)
