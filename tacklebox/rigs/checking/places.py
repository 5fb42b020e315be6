"""Whether the floats of a recipe keep their place: locked, or meant to slide and stopped."""

from collections.abc import Iterator

from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import OnLine, Resolved
from tacklebox.stock.naming.kin import general
from tacklebox.stock.tables import Kind
from tacklebox.trade.judgement import Judgement
from tacklebox.trade.locking import BESIDE_MM, judge_locked, judge_slider


def judge_places(fit: Fit) -> Iterator[Judgement]:
    """Each float that is fixed by its bottom end, and each that slides; what is fixed top and
    bottom keeps its place by itself."""
    resolved = fit.resolved
    for thing in resolved.along:
        if thing.kind is not Kind.FLOAT:
            continue
        above, below = _stops(resolved, thing)
        if thing.held == "one point":
            yield judge_locked(
                thing.name,
                above=any(mm <= BESIDE_MM for mm in above),
                below=any(mm <= BESIDE_MM for mm in below),
            )
        elif thing.held in ("slides", "runs free"):
            yield judge_slider(
                thing.name,
                stopped=bool(above),
                parked_at_mm=thing.at_mm - min(below) if below else None,
                hooklength_mm=resolved.hooklength.length_mm if resolved.hooklength else 0.0,
            )


def _stops(resolved: Resolved, float_: OnLine) -> tuple[list[float], list[float]]:
    """How far from a float the shot and stops on its line are, above it and below."""
    above: list[float] = []
    below: list[float] = []
    order = [thing.name for thing in resolved.along]
    for thing in resolved.along:
        if thing.need.ask.kind is not Kind.PART or not _is_stop(thing) or thing.on != float_.on:
            continue
        off = thing.at_mm - float_.at_mm
        earlier = order.index(thing.name) < order.index(float_.name)  # the file runs from the rod
        (above if off > 0 or (off == 0 and earlier) else below).append(abs(off))
    for group in resolved.shot:
        at_float = [mm for mm in group.positions_mm if mm == float_.at_mm]
        # Of shot at the float half go above it and half below.
        above += [0.0] * (len(at_float) // 2)
        below += [0.0] * (len(at_float) - len(at_float) // 2)
        above += [mm - float_.at_mm for mm in group.positions_mm if mm > float_.at_mm]
        below += [float_.at_mm - mm for mm in group.positions_mm if mm < float_.at_mm]
    return above, below


def _is_stop(thing: OnLine) -> bool:
    wishes = {key: wish for key, _, wish in thing.need.ask.wanted}
    sort = wishes.get("sort", frozenset())
    return isinstance(sort, frozenset) and {general(one) for one in sort} == {"stop"}
