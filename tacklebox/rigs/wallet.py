"""Hooklengths of the wallet in the place of a hooklength recipe: what it asks of them, and what they are as
hook and line, so that a rig is checked with their figures."""

from collections.abc import Iterable

from tacklebox.rigs.recipes.resolved import Need, Resolved, Segment
from tacklebox.stock.asks import Ask, Wanted
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.naming.hooks import FIXINGS, OF_THE_HOOK
from tacklebox.stock.tables import Hook, Hooklength, Kind, Line
from tacklebox.trade.quantities import Range, write_length

# So much longer or shorter is the same length, as 6 in is 15 cm (our choice).
LENGTH_SLACK = 0.02
PART = "hooklength"  # what one is called as a part of a rig
# How the bait is held, by the small part that holds it.
HELD_BY = {"hair stop": "hair", "bait band": "band"} | {
    same: same for same in ("push stop", "bait spike")
}


def ask_of(hooklength: Resolved) -> Ask:
    """What a hooklength recipe with its choices made asks of the wallet.

    That is what it asks of its hook and its line, its length, and how the bait is held. What a packet of
    hooks to nylon does not say meets no wish; of the line's colour none says anything.
    """
    hook, line = hook_of(hooklength), line_of(hooklength)
    wanted: list[tuple[str, str, Wanted]] = list(hook.need.ask.wanted) if hook else []
    of_line = line.need.ask.wanted if line else ()
    wanted += [wish for wish in of_line if wish[0] != "colour"]
    length = hooklength.length_mm
    slack = LENGTH_SLACK * length
    wanted.append(("length", write_length(length), Range(length - slack, length + slack)))
    held = bait_words(sort for need in hooklength.needs for sort in _sorts(need))
    both = ", ".join(word for word in ("hair", held) if word)
    with_hair = line is not None and line.bottom is not None and line.bottom.name == "knotless knot"
    wanted.append(("bait", held or "none", frozenset({held, both} if with_hair else {held})))
    return Ask(Kind.HOOKLENGTH, tuple(wanted))


def hook_of(hooklength: Resolved) -> Segment | None:
    """The part that is its hook."""
    return next((s for s in hooklength.chain if s.kind is Kind.HOOK), None)


def line_of(hooklength: Resolved) -> Segment | None:
    """The line that is tied to its hook."""
    lines = [s for s in hooklength.chain if s.kind is Kind.LINE]
    return lines[-1] if lines else None


def bait_words(sorts: Iterable[str]) -> str:
    """How the bait is held, by the small parts that are on it: "band", "hair, push stop"."""
    held = {HELD_BY[sort] for sort in sorts if sort in HELD_BY}
    return ", ".join(fixing for fixing in FIXINGS if fixing in held)


def _sorts(need: Need) -> Iterable[str]:
    """The sorts of small part that would do."""
    if need.ask.kind is Kind.PART:
        for key, _, wish in need.ask.wanted:
            if key == "sort" and isinstance(wish, frozenset):
                yield from wish


def as_hook(stocked: Stocked) -> Stocked:
    """The hook of a hooklength."""
    figures = _figures(stocked)
    own = {key: getattr(figures, key) for key in OF_THE_HOOK}
    return Stocked(stocked.item, Hook(size=figures.size, size_order=figures.size_order, **own))


def as_line(stocked: Stocked, inventory: Inventory) -> Stocked:
    """The line of a hooklength: of the spool that it was tied from, where that is known."""
    figures, spool = _figures(stocked), inventory.spools.get(stocked.id)
    if spool is not None:
        return Stocked(stocked.item, spool.figures, spool=spool.item)
    keys = ("material", "diameter_mm", "diameter_said", "breaks_at_kg", "strain_said")
    return Stocked(stocked.item, Line(**{key: getattr(figures, key) for key in keys}))


def _figures(stocked: Stocked) -> Hooklength:
    assert isinstance(stocked.figures, Hooklength)
    return stocked.figures
