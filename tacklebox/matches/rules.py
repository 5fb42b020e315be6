"""A venue's rules against what is to be fished: allowed, not allowed, or read it yourself.

What is known of a part is the figures of the item that serves it. Where none does, or the part
is on the reel and the box does not know that reel, its recipe's own ask is judged: it passes when
all that it lets in would pass.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tacklebox.matches.venue import Rules, Venue
from tacklebox.rigs.fit import Fit, Serving
from tacklebox.stock.asks import ASKABLE
from tacklebox.stock.inventory import Stocked
from tacklebox.stock.tables import Kind
from tacklebox.trade.hooks import write_hook_order
from tacklebox.trade.keepnet import BYELAW, Keepnet, judge_keepnet, keepnet_words
from tacklebox.trade.law import DEFERS, FISHERY_BYELAWS, in_close_season
from tacklebox.trade.quantities import Range, write_length, write_mass, write_strain_kg


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
        rule = f"groundbait at most {write_mass(limit)}"
        if groundbait_g is None:
            rulings.append(Ruling(rule, Verdict.READ_IT, says="weigh it before it is mixed"))
        else:
            over = groundbait_g > limit
            verdict = Verdict.NOT_ALLOWED if over else Verdict.ALLOWED
            leave = f"leave {write_mass(groundbait_g - limit)} at home" if over else ""
            rulings.append(Ruling(rule, verdict, "groundbait", write_mass(groundbait_g), leave))
    net = keepnet_words(venue.rules.keepnet_length_mm)
    rulings.append(Ruling("keepnet", Verdict.READ_IT, says=net.rstrip(".")))
    return rulings + [Ruling(words, Verdict.READ_IT) for words in venue.read]


def judge_net(venue: Venue | None, net: Keepnet) -> list[Ruling]:
    """Every rule on a keepnet, the byelaws' and the venue's; what nobody measured is left to read."""
    judged = []
    for rule in judge_keepnet(net, venue.rules.keepnet_length_mm if venue else 0.0):
        by = f"rule of {venue.name}" if venue and rule.by_venue else BYELAW.source.citation
        verdict = Verdict.ALLOWED if rule.passes else Verdict.NOT_ALLOWED
        says, right = rule.has, "" if rule.passes else rule.asks
        if rule.passes is None:
            verdict, says, right = Verdict.READ_IT, "not told: measure it, or look", ""
        judged.append(Ruling(f"keepnet {rule.asks} ({by})", verdict, says=says, would_pass=right))
    return judged


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
        yield f"largest hook {rules.largest_hook}", _hooks(rules, fit)
    if rules.barbless:
        yield "barbless hooks", _barbs(fit)
    if rules.no_braid_main_line:
        yield "no braid as main line", _braid(fit)
    if rules.least_main_line_kg is not None:
        yield f"main line at least {rules.least_main_line}", _main_strain(rules, fit)
    if rules.feeders_run_free:
        yield "feeders run free", _running(fit)
    if rules.least_hooklength_mm or rules.greatest_hooklength_mm is not None:
        yield "hooklength", _lengths(rules, fit)
    if rules.methods_banned:
        yield f"no {', '.join(rules.methods_banned)}", _methods(rules, fit)
    if rules.materials_banned:
        yield f"no {', '.join(rules.materials_banned)}", _materials(rules, fit)


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
            f"largest hook {rules.largest_hook}",
            serving,
            "size",
            lambda v: float(v) <= order,
            f"{size} or smaller, by the packet",
        )


def _barbs(fit: Fit) -> Iterator[Ruling]:
    for serving in _every(fit, Kind.HOOK):
        yield _judge(
            "barbless hooks", serving, "barb", lambda v: v == "barbless", "a barbless hook"
        )


def _main_line(fit: Fit) -> Serving | None:
    """The uppermost line of a rig; a hooklength alone has none."""
    if fit.resolved.recipe.makes != "rig":
        return None
    line = next((s for s in fit.resolved.chain if s.kind is Kind.LINE), None)
    return fit.serving(line.need.part) if line else None


def _braid(fit: Fit) -> Iterator[Ruling]:
    serving = _main_line(fit)
    if serving:
        yield _judge(
            "no braid as main line",
            serving,
            "material",
            lambda v: v != "gel-spun",
            "nylon or fluorocarbon",
        )


def _main_strain(rules: Rules, fit: Fit) -> Iterator[Ruling]:
    serving, least = _main_line(fit), rules.least_main_line_kg or 0.0
    if serving:
        yield _judge(
            f"main line at least {rules.least_main_line}",
            serving,
            "strain",
            lambda v: float(v) >= least * (1 - 1e-6),
            f"{write_strain_kg(least)} or more",
        )


def _running(fit: Fit) -> Iterator[Ruling]:
    rule, right = (
        "feeders run free",
        "a feeder that runs on the line, or hangs from a link that does",
    )
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
        right = "" if has >= low - 0.5 else f"{write_length(low)} or longer"
        yield _length(f"hooklength at least {rules.least_hooklength}", part, has, right)
    if high is not None:
        right = "" if has <= high + 0.5 else f"{write_length(high)} or shorter"
        yield _length(f"hooklength at most {rules.greatest_hooklength}", part, has, right)


def _length(rule: str, part: str, length_mm: float, right: str) -> Ruling:
    verdict = Verdict.NOT_ALLOWED if right else Verdict.ALLOWED
    return Ruling(rule, verdict, part, f"it is {write_length(length_mm)} long", right)


def _methods(rules: Rules, fit: Fit) -> Iterator[Ruling]:
    rule, banned = f"no {', '.join(rules.methods_banned)}", rules.forbidden_methods
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
    rule, banned = f"no {', '.join(rules.materials_banned)}", rules.forbidden_materials
    in_line = {"nylon", "fluorocarbon", "gel-spun"} & banned
    kinds = [k for k, judged in ((Kind.LINE, in_line), (Kind.WEIGHT, banned - in_line)) if judged]
    for serving in _every(fit, *kinds):
        yield _judge(rule, serving, "material", lambda v: v not in banned, "another material")
