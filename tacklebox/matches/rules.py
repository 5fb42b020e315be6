"""A venue's rules against what is to be fished: allowed, not allowed, or read it yourself.

What is known of a part is the figures of the item that serves it. Where none does, or the part
is on the reel and the box does not know that reel, its recipe's own ask is judged: it passes when
all that it lets in would pass.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from tacklebox.matches.venue import NetRules, Rules, Venue
from tacklebox.rigs.fit import Fit, Serving
from tacklebox.stock.asks import ASKABLE
from tacklebox.stock.inventory import Stocked
from tacklebox.stock.tables import Kind
from tacklebox.trade.hooks import write_hook_order
from tacklebox.trade.keepnet import BYELAW, Keepnet, judge_keepnet
from tacklebox.trade.law import DEFERS, FISHERY_BYELAWS, in_close_season
from tacklebox.trade.quantities import Range, write_length, write_strain

ROUNDED = 0.99  # a packet that says "1.8 kg" may say "4 lb" too, which is 1.81 kg
# The rules as they are called.
_HOOKS, _BARBS, _BRAID = "largest hook {}", "barbless hooks", "no braid as main line"
_MAIN, _RUNNING = "main line at least {}", "feeders run free"
_SHORT, _LONG = "hooklength at least {}", "hooklength at most {}"
_GROUNDBAIT = "groundbait at most {}"


class Verdict(StrEnum):
    """The three answers, mildest first."""

    ALLOWED = "allowed"
    READ_IT = "read this one yourself"
    NOT_ALLOWED = "not allowed"


@dataclass(frozen=True)
class Ruling:
    """One rule's answer: the rule, the part it is about ("" for the day), what would pass."""

    rule: str
    verdict: Verdict
    part: str = ""
    says: str = ""
    would_pass: str = ""


def worst_verdict(rulings: list[Ruling]) -> Verdict:
    """The answer of all rulings together is that of the worst one."""
    order = list(Verdict)
    return max((r.verdict for r in rulings), key=order.index, default=Verdict.ALLOWED)


def judge_rig(venue: Venue, fit: Fit) -> list[Ruling]:
    """Every rule of the venue on one fitted rig, its hooklength included, or on one hooklength.

    A rule that it has no part for is allowed and says so.
    """
    judged = []
    for rule, rulings in _judges(venue.rules, fit):
        found = list(rulings)
        judged += found or [Ruling(rule, Verdict.ALLOWED, says="nothing in it is of that kind")]
    return judged


def judge_day(venue: Venue, on: date | None, groundbait_g: float | None = None) -> list[Ruling]:
    """What is judged once for a day at the venue: close season, groundbait, keepnet, plain words."""
    rulings = [_season(venue, on)] if on else []
    limit = venue.rules.groundbait_limit_g
    if limit is not None:
        rule = _GROUNDBAIT.format(venue.rules.groundbait_limit)
        if groundbait_g is None:
            rulings.append(Ruling(rule, Verdict.READ_IT, says="weigh it before it is mixed"))
        else:
            over = groundbait_g > limit
            verdict = Verdict.NOT_ALLOWED if over else Verdict.ALLOWED
            leave = f"leave {_kg(groundbait_g - limit)} at home" if over else ""
            rulings.append(Ruling(rule, verdict, "groundbait", _kg(groundbait_g), leave))
    in_words = (*venue.keepnet.words, *venue.read)
    return rulings + [Ruling(words, Verdict.READ_IT) for words in in_words]


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
        by = by_venue if rule.by_venue else BYELAW.source.citation
        judged.append(_net_ruling(f"{rule.asks} ({by})", rule.passes, rule.has, rule.asks))
    if asks.nets:
        right = f"at most {asks.nets} at a time"
        passes, has = (None, "") if nets is None else (nets <= asks.nets, f"{nets} keepnets")
        judged.append(_net_ruling(f"{right} ({by_venue})", passes, has, right))
    if asks.fish_per_net:
        most = f"keepnet at most {asks.fish_per_net} of fish in each ({by_venue})"
        judged.append(Ruling(most, Verdict.READ_IT, says="change nets before it is full"))
    return judged


def _net_ruling(rule: str, passes: bool | None, has: str, right: str) -> Ruling:
    rule = f"keepnet {rule}"
    if passes is None:
        return Ruling(rule, Verdict.READ_IT, says="not told: measure it, or look")
    if passes:
        return Ruling(rule, Verdict.ALLOWED, says=has)
    return Ruling(rule, Verdict.NOT_ALLOWED, says=has, would_pass=right)


def _season(venue: Venue, on: date) -> Ruling:
    rule = "close season, England and Wales"
    if not in_close_season(on):
        return Ruling(rule, Verdict.ALLOWED, says=f"{on} is outside 15 March to 15 June")
    if venue.water == "river":
        says = f"{on} lies in 15 March to 15 June ({FISHERY_BYELAWS.citation}); {DEFERS}"
        return Ruling(rule, Verdict.NOT_ALLOWED, "the day", says, "from 16 June")
    says = f"most {venue.water}s are open on {on} unless their owner closes them; {DEFERS}"
    return Ruling(rule, Verdict.READ_IT, "the day", says)


def _judges(rules: Rules, fit: Fit) -> Iterator[tuple[str, Iterator[Ruling]]]:
    if rules.hook_order is not None:
        yield _HOOKS.format(rules.largest_hook), _hooks(rules, fit)
    if rules.barbless:
        yield _BARBS, _barbs(fit)
    if rules.no_braid_main_line:
        yield _BRAID, _braid(fit)
    if rules.least_main_line_kg is not None:
        yield _MAIN.format(rules.least_main_line), _main_strain(rules, fit)
    if rules.feeders_run_free:
        yield _RUNNING, _running(fit)
    if rules.least_hooklength_mm or rules.greatest_hooklength_mm is not None:
        yield "hooklength", _lengths(rules, fit)
    if rules.methods_banned:
        yield _none_of(rules.methods_banned), _methods(rules, fit)
    if rules.materials_banned:
        yield _none_of(rules.materials_banned), _materials(rules, fit)


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


def _every(fit: Fit, *kinds: Kind) -> Iterator[Serving]:
    """The servings of those kinds, the hooklength's too."""
    for one in (fit, fit.hooklength):
        yield from (s for s in (one.servings if one else ()) if s.need.ask.kind in kinds)


def _known(serving: Serving) -> Stocked | None:
    """The item that will be fished; on the reel only where the box knows that reel."""
    item = serving.item
    return item if item and (item.item.on_reel or not serving.need.there) else None


def _judge(
    rule: str, serving: Serving, key: str, passes: Callable[[float | str], bool], right: str
) -> Ruling:
    """One figure of one part against one rule."""
    part, column = serving.need.part, ASKABLE[serving.need.ask.kind][key].column
    item = _known(serving)
    if item:
        value = getattr(item.figures, column)
        if value in (None, ""):
            says = f"{item.item.name} does not say its {key}"
            return Ruling(rule, Verdict.READ_IT, part, says, right)
        if passes(value):
            return Ruling(rule, Verdict.ALLOWED, part, item.item.name)
        return Ruling(
            rule,
            Verdict.NOT_ALLOWED,
            part,
            item.item.name,
            right + _better(serving, column, passes),
        )
    asked = next(((text, wish) for k, text, wish in serving.need.ask.wanted if k == key), None)
    if asked is None:
        says = f"the recipe asks for no {key}" + (
            ", nor is the reel in the box" if serving.need.there else ""
        )
        return Ruling(rule, Verdict.READ_IT, part, says, right)
    text, wish = asked
    ends = [wish.low, min(wish.high, 1e9)] if isinstance(wish, Range) else sorted(wish)
    good = [passes(end) for end in ends]
    says = f"the recipe asks for {key} {text}"
    if all(good):
        return Ruling(rule, Verdict.ALLOWED, part, says)
    return Ruling(rule, Verdict.READ_IT if any(good) else Verdict.NOT_ALLOWED, part, says, right)


def _better(serving: Serving, column: str, passes: Callable[[float | str], bool]) -> str:
    """Another item in the box that would do for the part and pass."""
    for other in serving.others:
        value = getattr(other.figures, column)
        if value not in (None, "") and passes(value):
            return f'; in the box: --use "{serving.need.part}={other.id}", {other.item.name}'
    return ""


def _hooks(rules: Rules, fit: Fit) -> Iterator[Ruling]:
    order = rules.hook_order
    assert order is not None
    size = write_hook_order(order)
    for serving in _every(fit, Kind.HOOK):
        yield _judge(
            _HOOKS.format(rules.largest_hook),
            serving,
            "size",
            lambda v: float(v) <= order,
            f"{size} or smaller, by the packet",
        )


def _barbs(fit: Fit) -> Iterator[Ruling]:
    for serving in _every(fit, Kind.HOOK):
        yield _judge(_BARBS, serving, "barb", lambda v: v == "barbless", "a barbless hook")


def _main_line(fit: Fit) -> Serving | None:
    """The uppermost line of a rig; a hooklength alone has none."""
    if fit.resolved.recipe.makes != "rig":
        return None
    line = next((s for s in fit.resolved.chain if s.kind is Kind.LINE), None)
    return fit.serving(line.need.part) if line else None


def _braid(fit: Fit) -> Iterator[Ruling]:
    serving = _main_line(fit)
    if serving:
        right = "nylon or fluorocarbon"
        yield _judge(_BRAID, serving, "material", lambda v: v != "gel-spun", right)


def _main_strain(rules: Rules, fit: Fit) -> Iterator[Ruling]:
    serving, least = _main_line(fit), rules.least_main_line_kg or 0.0
    if serving is None:
        return
    ruling = _judge(
        _MAIN.format(rules.least_main_line),
        serving,
        "strain",
        lambda v: float(v) >= least * (1 - 1e-6),
        f"{rules.least_main_line} or more",
    )
    item = _known(serving)
    has = float(getattr(item.figures, "breaks_at_kg", None) or 0.0) if item else 0.0
    if ruling.verdict is Verdict.NOT_ALLOWED and has >= ROUNDED * least:
        see = f"{write_strain(has)}: see whether its packet says {rules.least_main_line}"
        ruling = replace(ruling, verdict=Verdict.READ_IT, says=f"{ruling.says}, {see}")
    yield ruling


def _running(fit: Fit) -> Iterator[Ruling]:
    rule, right = _RUNNING, "a feeder that runs on the line, or hangs from a link that does"
    held = {a.name: a.held for a in fit.resolved.along}
    hanging = [(s.name, "fixed") for s in fit.resolved.chain if s.kind is Kind.FEEDER]
    hanging += [(a.name, a.held) for a in fit.resolved.along if a.kind is Kind.FEEDER]
    for side in fit.resolved.sides:
        how = held.get(side.hangs_from, "fixed")
        hanging += [(s.name, how) for s in side.chain if s.kind is Kind.FEEDER]
    for name, how in hanging:
        if how == "runs free":
            yield Ruling(rule, Verdict.ALLOWED, name, "it runs free")
        elif how == "in line":
            says = "the line runs through it: most count that as running, some do not"
            yield Ruling(rule, Verdict.READ_IT, name, says, right)
        else:
            yield Ruling(rule, Verdict.NOT_ALLOWED, name, "it hangs from a fixed point", right)


def _lengths(rules: Rules, fit: Fit) -> Iterator[Ruling]:
    own = fit.resolved if fit.resolved.recipe.makes == "hooklength" else fit.resolved.hooklength
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


def _methods(rules: Rules, fit: Fit) -> Iterator[Ruling]:
    rule, banned = _none_of(rules.methods_banned), rules.forbidden_methods
    recipe = fit.resolved.recipe
    if recipe.makes == "rig":
        bad = recipe.method in banned
        verdict = Verdict.NOT_ALLOWED if bad else Verdict.ALLOWED
        yield Ruling(
            rule,
            verdict,
            recipe.stem,
            f"it is for the {recipe.method}",
            "another method" if bad else "",
        )

    def passes(shape: float | str) -> bool:
        word = str(shape)
        return not {word, word.split(" ")[0], f"{word} feeder"} & banned

    floats = {"waggler", "stick"} & {b.split(" ")[0] for b in banned}
    shapes = any(b.endswith(" feeder") or b == "bomb" for b in banned)
    kinds = [k for k, judged in ((Kind.FLOAT, floats), (Kind.FEEDER, shapes)) if judged]
    for serving in _every(fit, *kinds):
        yield _judge(rule, serving, "shape", passes, "another kind")


def _materials(rules: Rules, fit: Fit) -> Iterator[Ruling]:
    rule, banned = _none_of(rules.materials_banned), rules.forbidden_materials
    in_line = {"nylon", "fluorocarbon", "gel-spun"} & banned
    kinds = [k for k, judged in ((Kind.LINE, in_line), (Kind.WEIGHT, banned - in_line)) if judged]
    for serving in _every(fit, *kinds):
        yield _judge(rule, serving, "material", lambda v: v not in banned, "another material")
