"""A weak link that a recipe asks to be stronger than the line above it: refused before anything is fitted.

Only where both are asked for by strain, or by diameter in the same material; what stock makes of
wider asks is for the check to judge.
"""

from collections.abc import Callable, Mapping, Sequence

from tacklebox.rigs.recipes.choices import FileFaults
from tacklebox.rigs.recipes.resolved import Branch, OnLine, Segment
from tacklebox.stock.tables import Kind
from tacklebox.trade.quantities import Range, write_diameter
from tacklebox.trade.units_first import show_strain

_WRITE: Mapping[str, Callable[[float], str]] = {"strain": show_strain, "diameter": write_diameter}


def check_weak_links(
    chain: Sequence[Segment],
    along: Sequence[OnLine],
    branches: Sequence[Branch],
    faults: FileFaults,
) -> None:
    """Adds a fault for each weak link that is asked to be no weaker than a line above it."""
    for number, branch in enumerate(branches, 1):
        lines = [segment for segment in branch.chain if segment.kind is Kind.LINE]
        if not branch.weak or not lines:
            continue
        for above in _lines_above(chain, along, branch.hangs_from):
            says = _no_weaker(lines, above)
            if says:
                where = f"branch {number} ({branch.name})"
                says += " Ask for a weaker link, or leave weak_link out."
                faults.add(says, f"branch {number}.weak_link", where)
                break


def _lines_above(
    chain: Sequence[Segment], along: Sequence[OnLine], hangs_from: str
) -> list[Segment]:
    """The lines from the rod to where a branch hangs; all of them where that is a branch's part."""
    bearer = next((thing.on for thing in along if thing.name == hangs_from), hangs_from)
    at = next((n for n, segment in enumerate(chain) if segment.name == bearer), len(chain) - 1)
    return [segment for segment in chain[: at + 1] if segment.kind is Kind.LINE]


def _no_weaker(link: Sequence[Segment], above: Segment) -> str:
    """What is wrong, or nothing. The link is as weak as the weakest line in it."""
    for key, equal_too in (("strain", True), ("diameter", False)):
        least = [_ask(segment, key) for segment in link]
        most = _ask(above, key)
        known = [one for one in least if one is not None]
        if most is None or len(known) < len(link):
            continue
        if key == "diameter" and any(_material(one) != _material(above) for one in link):
            continue
        low = min(one.low for one in known)
        if low > most.high or (equal_too and low == most.high):
            write = _WRITE[key]
            return (
                f"its weak link, at least {write(low)}, is not weaker than the {above.name}, at most "
                f"{write(most.high)}."
            )
    return ""


def _ask(segment: Segment, key: str) -> Range | None:
    wish = next((wish for name, _, wish in segment.need.ask.wanted if name == key), None)
    return wish if isinstance(wish, Range) else None


def _material(segment: Segment) -> object:
    wanted = segment.need.ask.wanted
    return next((wish for name, _, wish in wanted if name == "material"), frozenset({"nylon"}))
