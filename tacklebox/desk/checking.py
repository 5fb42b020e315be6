"""Whether a recipe, as stock serves it now, holds together; nothing is tied."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Amount, NamedItem, amount
from tacklebox.desk.asking import (
    celsius,
    count_of,
    in_field,
    items_to_use,
    resolved_recipe,
)
from tacklebox.desk.casting import load_g
from tacklebox.desk.opening import Desk
from tacklebox.desk.settings import chances_of
from tacklebox.desk.shot import TipSeen
from tacklebox.desk.venues import asked_at
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.judgements import Judgement, Outcome
    from tacklebox.desk.settling import Settles
    from tacklebox.rigs.checking.breaks import Breaks
    from tacklebox.rigs.checking.cast import Cast
    from tacklebox.rigs.checking.check import Checked
    from tacklebox.rigs.fitting import Fit, Serving


@dataclass(frozen=True)
class PartServed:
    """A part of a recipe and what serves it; ``missing`` says why nothing does.

    ``takes`` is for all rigs together, None of what is not taken: ``already`` says where that is, "on
    the reel", "in the pole", "at hand" or "in the wallet", and ``reels`` name the reels or top kits
    that it is on. Where nothing serves it, ``only_on`` name the reels that alone have what would do.
    """

    part: str
    asks: str
    item: NamedItem | None
    place: str
    takes: Amount | None
    already: str
    others: tuple[NamedItem, ...]
    missing: str
    reels: tuple[str, ...] = ()
    only_on: tuple[str, ...] = ()


@dataclass(frozen=True)
class Fitted:
    """A recipe with its choices, and what serves its parts."""

    recipe: str
    name: str
    makes: str
    chosen: Mapping[str, str]
    parts: tuple[PartServed, ...]


@dataclass(frozen=True)
class BreakShown:
    """One joint under a pull: what it holds, how likely it goes first, and what that leaves."""

    joint: str
    maker: str  # whose print its strain is, "" where not noted
    holds_kg: float
    holds: str
    spread_kg: float
    give_or_take: str
    chance_first: float
    chance: str
    lost: tuple[str, ...]
    tows: tuple[str, ...]
    says: str
    left_with: str  # what a fish is left with: "the hook and a short length"
    in_hooklength: bool


@dataclass(frozen=True)
class UnderPull:
    """Every joint under one pull, the weakest first."""

    what: str  # "pull at the hook", "snag at the feeder"
    breaks: tuple[BreakShown, ...]


@dataclass(frozen=True)
class TipSits:
    """A float's tip and what shows of it at each stage; by ``skin_mm`` the water's skin usually holds
    it higher or lower."""

    name: str
    diameter_mm: float
    length_mm: float
    stages: tuple[TipSeen, ...]
    skin_mm: float


@dataclass(frozen=True)
class RigChecked:
    """What the checks say of so many rigs as stock serves them, and on what figures.

    ``hooklength`` is tied separately, so its parts are only looked at. ``lead`` in the box may not
    weight a line, whether or not this rig would take it. ``falls``: how it falls, where that was asked.
    """

    rig: Fitted
    count: int
    hooklength: Fitted | None
    outcome: "Outcome"
    missing: int  # parts
    judgements: "tuple[Judgement, ...]"
    pulls: tuple[UnderPull, ...]
    lead: tuple[NamedItem, ...]
    floats: tuple[TipSits, ...] = ()  # those whose tip is known
    falls: "Settles | None" = None


def check(
    desk: Desk,
    recipe: str,
    choices: Mapping[str, str],
    *,
    count: int = 1,
    use: Mapping[str, str] | None = None,
    water: str = "",
    distance: str = "",
    load: str = "",
    sound_from: str = "",
    doubtful_from: str = "",
    settle: bool = False,
    venue: str = "",
) -> RigChecked:
    """Fit a recipe to stock and check it; with a ``distance``, that cast too; with ``settle`` how it falls.

    A ``venue`` may ask that weights come free.
    ``use`` names an item for a part, ``load`` is what the feeder is filled with; ``sound_from`` and
    ``doubtful_from`` are chances in percent. Raises AskedWronglyError for what is not known or is
    outside its range.
    """
    from tacklebox.rigs.tying.tie import MOST_AT_ONCE, fit_and_check

    limits = chances_of(desk, sound_from, doubtful_from)
    resolved = asked_at(desk, resolved_recipe(desk.recipes, recipe, choices), venue)
    checked = fit_and_check(
        desk.box,
        resolved,
        count_of(count, MOST_AT_ONCE),
        items_to_use(desk, use or {}),
        limits,
        water_c=celsius(water),
        cast=_cast(distance, load),
    )
    answer = answer_of(desk, checked, celsius(water))
    return replace(answer, falls=_falls(desk, answer, use or {}, water)) if settle else answer


def _falls(desk: Desk, answer: RigChecked, use: Mapping[str, str], water: str) -> "Settles":
    from tacklebox.desk.settling import FallQuestion, Fishing, settle

    rig = answer.rig
    return settle(desk, FallQuestion(rig.recipe, rig.chosen, use, Fishing(water=water)))


def _cast(distance: str, load: str) -> "Cast | None":
    from tacklebox.rigs.checking.cast import Cast
    from tacklebox.trade.quantities import read_length_mm

    in_feeder_g = load_g(load)
    if distance:
        return Cast(in_field("distance", read_length_mm, distance) / 1000, in_feeder_g)
    if in_feeder_g:
        raise AskedWronglyError(
            "a load is only cast with a distance.", field="load", right="Say how far it is cast."
        )
    return None


def answer_of(desk: Desk, checked: "Checked", water_c: float | None = None) -> RigChecked:
    """What was checked, as it is answered; with the lead that is in the box."""
    from tacklebox.rigs.checking.breaks import all_breaks
    from tacklebox.rigs.checking.shotting import floats_sit
    from tacklebox.stock.lead import lead_in_stock
    from tacklebox.trade.water import USUAL_C

    with desk.box.reading() as session:
        lead = tuple(NamedItem(i.id or 0, i.name) for i, _ in lead_in_stock(session))
    fit = checked.fit
    return RigChecked(
        _fitted(fit),
        fit.count,
        _fitted(fit.hooklength) if fit.hooklength else None,
        checked.outcome,
        len(fit.gaps),
        checked.judgements,
        tuple(_pull(breaks) for breaks in all_breaks(fit)),
        lead,
        tuple(
            TipSits(
                one.name,
                one.tip.diameter_mm,
                one.tip.length_mm,
                tuple(TipSeen(s.what, s.shows_mm, s.says) for s in one.stages),
                one.skin_mm,
            )
            for one in floats_sit(fit, USUAL_C if water_c is None else water_c)
        ),
    )


def _fitted(fit: "Fit") -> Fitted:
    recipe = fit.resolved.recipe
    return Fitted(
        recipe.stem, recipe.name, recipe.makes, dict(fit.resolved.chosen), tuple(_parts(fit))
    )


def _parts(fit: "Fit") -> "Iterator[PartServed]":
    from tacklebox.stock.asked import asked_words

    for serving in [fit.in_wallet] if fit.in_wallet else fit.servings:
        item = serving.item.item if serving.item else None
        yield PartServed(
            serving.need.part,
            asked_words(serving.need.ask),
            NamedItem(item.id or 0, item.name) if item else None,
            item.place if item else "",
            _takes(fit, serving),
            _already(fit, serving),
            tuple(NamedItem(other.id, other.item.name) for other in serving.others),
            "" if serving.need.in_place else serving.gap,
            serving.item.reels if serving.item and serving.need.in_place else (),
            serving.only_on,
        )


def _takes(fit: "Fit", serving: "Serving") -> Amount | None:
    from tacklebox.stock.amounts import show_cut

    if serving.item is None or not serving.amount or fit.in_wallet:
        return None
    taken = amount(serving.amount, serving.item.item.measured)
    return replace(taken, words=show_cut(taken.value)) if taken.unit == "mm" else taken


def _already(fit: "Fit", serving: "Serving") -> str:
    from tacklebox.stock.tables import Kind

    if fit.in_wallet:
        return "in the wallet"
    if not serving.need.in_place:
        return ""
    if serving.need.ask.kind is Kind.LINE:
        return "on the reel"
    holds_float = any(thing.held_by is serving.need for thing in fit.resolved.along)
    return "at hand" if holds_float else "in the pole"


def _together(names: tuple[str, ...]) -> tuple[str, ...]:
    """Each name once, with how often it comes where it comes more than once."""
    often = Counter(names)
    return tuple(f"{name} ({n} times)" if n > 1 else name for name, n in often.items())


def _pull(breaks: "Breaks") -> UnderPull:
    from tacklebox.trade.breaks_first import write_chance
    from tacklebox.trade.units_first import METRIC, show_spread, show_strain

    return UnderPull(
        breaks.pull,
        tuple(
            BreakShown(
                one.joint.name,
                one.joint.maker,
                one.joint.mean_kg,
                show_strain(one.joint.mean_kg, METRIC),
                one.joint.whole_spread_kg,
                show_spread(one.joint.whole_spread_kg),
                one.chance,
                write_chance(one.chance),
                _together(one.lost),
                one.tows,
                one.says,
                str(one.key),
                one.joint.in_hooklength,
            )
            for one in breaks.breaks
        ),
    )
