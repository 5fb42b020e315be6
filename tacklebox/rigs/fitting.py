"""Fitting: which stock serves each part of a recipe, best first, and what is missing.

Best is nearest to the middle of what is asked, then what is open already, then the oldest. Two small rests of
one size are never joined to serve one part.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.rigs import wallet
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.stock.asked import asked_words
from tacklebox.stock.asks import Ask
from tacklebox.stock.finding import write_gap
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.measured import Measured
from tacklebox.stock.naming.kin import general
from tacklebox.stock.reels import names_in_words
from tacklebox.stock.tables import Figures, Kind, Line
from tacklebox.trade.line import BY_WORD, in_band
from tacklebox.trade.quantities import Range


@dataclass(frozen=True)
class Serving:
    """What serves one need: the chosen item, the other candidates, or why there is none.

    ``known`` is the nearest item that would do but is short; it is what to buy. ``only_on`` names the reels
    that alone have what would do; it is not cut for rigs.
    """

    need: Need
    amount: int  # for all rigs together
    item: Stocked | None
    others: tuple[Stocked, ...]
    gap: str = ""
    known: Stocked | None = None
    only_on: tuple[str, ...] = ()


@dataclass(frozen=True)
class Fit:
    """A resolved recipe with stock for ``count`` of it, the fit of its hooklength, and what
    the angler measured himself.

    ``in_wallet`` serves a hooklength as a whole: its parts are then what that is tied of. ``is_bought``: it
    came in a packet, and holds what is printed there."""

    resolved: Resolved
    count: int
    servings: tuple[Serving, ...]
    hooklength: "Fit | None" = None
    measured: Measured = field(default_factory=Measured)
    in_wallet: Serving | None = None
    is_bought: bool = False

    @property
    def gaps(self) -> tuple[Serving, ...]:
        """What is missing for tying; the hooklength is tied apart and not counted here."""
        return tuple(s for s in self.servings if s.gap and not s.need.in_place)

    def serving(self, part: str) -> Serving:
        """What serves the part of that name."""
        return next(s for s in self.servings if s.need.part == part)


def inventory_for(
    session: Session, recipes: Iterable[Resolved], named: Collection[int] = ()
) -> Inventory:
    """What of stock may serve the recipes, their hooklengths with them, and the items ``named``."""
    asks = dict.fromkeys(ask for resolved in recipes for ask in _asks_of(resolved))
    return Inventory.read_for(session, asks, named)


def _asks_of(resolved: Resolved) -> Iterator[Ask]:
    yield from (need.ask for need in resolved.needs)
    if resolved.hooklength is not None:
        yield from _asks_of(resolved.hooklength)
    if resolved.recipe.makes == "hooklength":
        yield wallet.ask_of(resolved)


def fit(
    resolved: Resolved,
    inventory: Inventory,
    count: int = 1,
    use: Mapping[str, int] | None = None,
    *,
    hooklengths: int = 0,
) -> Fit:
    """Match every need with stock for so many rigs; speaks for what it takes in ``inventory``.

    Candidates are ranked: closest to the middle of the ask, then packets already open, then
    oldest; line on a reel serves only what is there already. What cannot be met is a named
    gap, never an exception. ``use`` names an item for a part; ``hooklengths`` is how many of
    those are looked at, else one for each rig. Raises AskedWronglyError when there is no such part or
    the item does not meet the ask.
    """
    chosen = dict(use or {})
    servings = tuple(_serve(n, inventory, count, chosen.pop(n.part, None)) for n in resolved.needs)
    below = None
    if resolved.hooklength is not None:
        # Its stock is only looked at: hooklengths are tied and counted apart.
        own = {wallet.PART, *(n.part for n in resolved.hooklength.needs)}
        taken = {part: chosen.pop(part) for part in list(chosen) if part in own}
        below = _fit_hooklength(resolved.hooklength, inventory.copy(), hooklengths or count, taken)
    if chosen:
        part = next(iter(chosen))
        raise AskedWronglyError(
            f'there is no part "{part}" in the recipe {resolved.recipe.name}.',
            field=f"use.{part}",
            right=nearest_word(part, [n.part for n in resolved.needs]),
        )
    return Fit(resolved, count, servings, below, inventory.measured)


def _fit_hooklength(
    hooklength: Resolved, inventory: Inventory, count: int, use: Mapping[str, int]
) -> Fit:
    """The hooklength of so many rigs: from the wallet where that has enough, else from hook and line."""
    chosen = dict(use)
    named = chosen.pop(wallet.PART, None)
    if not chosen:
        serving = wallet_serving(hooklength, inventory, count, named)
        if serving.item or named is not None:
            return fit_from_wallet(hooklength, inventory, count, serving)
    return fit(hooklength, inventory, count, chosen)


def wallet_serving(
    hooklength: Resolved, inventory: Inventory, count: int, wanted_id: int | None = None
) -> Serving:
    """What of the wallet serves so many of a hooklength recipe, or what is missing."""
    return _serve(Need(wallet.PART, wallet.ask_of(hooklength), 1), inventory, count, wanted_id)


def fit_from_wallet(
    hooklength: Resolved, inventory: Inventory, count: int, serving: Serving
) -> Fit:
    """A hooklength recipe served by hooklengths of the wallet: its parts are what those are tied of."""
    stocked = serving.item
    as_part = {}
    if stocked:
        as_part = {
            Kind.HOOK: wallet.as_hook(stocked),
            Kind.LINE: wallet.as_line(stocked, inventory),
        }
    servings = tuple(
        Serving(need, 0, as_part.get(need.ask.kind), (), "" if stocked else serving.gap)
        for need in hooklength.needs
    )
    is_bought = stocked is not None and stocked.id not in inventory.spools
    return Fit(hooklength, count, servings, None, inventory.measured, serving, is_bought)


def unfitted(resolved: Resolved) -> Fit:
    """A recipe with nothing fitted to it: what can be said of it whatever it is tied from."""
    servings = tuple(Serving(need, 0, None, ()) for need in resolved.needs)
    below = unfitted(resolved.hooklength) if resolved.hooklength else None
    return Fit(resolved, 1, servings, below)


def _serve(need: Need, inventory: Inventory, count: int, wanted_id: int | None) -> Serving:
    amount = 0 if need.in_place else need.amount * count
    stock = inventory.by_kind.get(need.ask.kind, [])
    fitting = inventory.ranked(need.ask, in_place=need.in_place)
    if wanted_id is not None:
        fitting = _only(need, fitting, stock, wanted_id)
    enough = [
        s for s in fitting if inventory.left(s) >= max(amount, 1) or (need.in_place and s.reels)
    ]
    if enough:
        inventory.reserve(enough[0], amount)
        return Serving(need, amount, enough[0], tuple(enough[1:]))
    if not need.in_place and not any(inventory.left(s) > 0 for s in fitting):
        on_reels = [s for s in inventory.ranked(need.ask, in_place=True) if s.on_reel]
        if on_reels:
            return _only_on(need, amount, on_reels)
    if not fitting:
        return Serving(need, amount, None, (), _nothing_is(need, stock))
    known = max(fitting, key=inventory.left)
    gap = write_gap(known.item, inventory.left(known), max(amount, 1))
    return Serving(need, amount, None, (), gap, fitting[0])


def _nothing_is(need: Need, stock: Sequence[Stocked]) -> str:
    """Why nothing serves a part: what is there may only lack the figure that is asked."""
    near = [
        (s, keys)
        for s in stock
        if not s.item.retired and (keys := need.ask.unnoted(s.figures)) and _may_be(need, s.figures)
    ]
    if not near:
        return f"nothing in the box is: {asked_words(need.ask)}"
    nearest, keys = min(near, key=lambda found: len(found[1]))
    return f"{nearest.item.name}, whose {' and '.join(keys)} nobody noted; asked: {asked_words(need.ask)}"


def _may_be(need: Need, figures: Figures) -> bool:
    """Whether a line of unknown diameter could be as thick as is asked, by its strain."""
    if not isinstance(figures, Line) or figures.diameter_mm or not figures.breaks_at_kg:
        return True
    material, kg = BY_WORD.get(general(figures.material)), figures.breaks_at_kg
    asked = next((wish for key, _, wish in need.ask.wanted if key == "diameter"), None)
    ends = (asked.low, asked.high) if isinstance(asked, Range) else ()
    return not (material and ends) or any(end > 0 and in_band(material, end, kg) for end in ends)


def _only_on(need: Need, amount: int, on_reels: Sequence[Stocked]) -> Serving:
    """A part for which only a reel has what would do."""
    names = tuple(dict.fromkeys(name for s in on_reels for name in s.reels or (s.item.place,)))
    what = on_reels[0].item.name
    gap = f"{what}, on {names_in_words(names)}; what is on a reel is not cut for rigs"
    return Serving(need, amount, None, (), gap, on_reels[0], names)


def _only(
    need: Need, fitting: list[Stocked], stock: list[Stocked], wanted_id: int
) -> list[Stocked]:
    wanted = [s for s in fitting if s.id == wanted_id]
    if not wanted:
        named = next((s.item.name for s in stock if s.id == wanted_id), f"item {wanted_id}")
        raise AskedWronglyError(
            f"{named} is not what {need.part} asks for: {asked_words(need.ask)}.",
            field=f"use.{need.part}",
            right="Would do: "
            + ("; ".join(f"{s.id} {s.item.name}" for s in fitting[:4]) or "nothing in stock")
            + ".",
        )
    return wanted
