"""The places of a fitted recipe that can break, with what is known of each.

What is printed stands until the angler has pulled the line himself; then his pulls, and
his own knots, are what count.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tacklebox.rigs.fitting import Fit, Serving
from tacklebox.rigs.recipes.resolved import Branch, Resolved, Segment
from tacklebox.stock.measured import Measured
from tacklebox.stock.tables import Figures, Kind, Line, Part
from tacklebox.trade.judgement import Fact
from tacklebox.trade.knots import KNOT_SPREAD, Knot
from tacklebox.trade.pulls import Estimate
from tacklebox.trade.quantities import Range
from tacklebox.trade.sources import MEASURED, MEMORY
from tacklebox.trade.strength import Joint, line_joint, print_errors, rated_joint
from tacklebox.trade.towing import RUNS


@dataclass(frozen=True)
class Bond:
    """One segment on the way from rod to hook with the item that serves it, the fit that it is
    of, and whether it belongs to the hooklength.

    ``at_hook``: the hook is tied to its lower end. ``is_on_line``: it is what bears the hook's
    branch on a line. ``is_loaded_below``: a pull at the hook loads its lower end too.
    """

    segment: Segment
    serving: Serving
    in_hooklength: bool
    fit: Fit
    at_hook: bool = False
    is_on_line: bool = False
    is_loaded_below: bool = True

    @property
    def measured(self) -> Measured:
        """What the angler measured himself."""
        return self.fit.measured

    @property
    def is_bought(self) -> bool:
        """Whether it is of a hooklength from a packet: what is printed there holds, knots and all."""
        return self.fit.is_bought

    @property
    def line_mm(self) -> float | None:
        """The diameter of a line: of what serves it, else the most that is asked for."""
        if self.line is not None:
            return self.line.diameter_mm
        wishes = {key: wish for key, _, wish in self.segment.need.ask.wanted}
        wish = wishes.get("diameter")
        return wish.high if isinstance(wish, Range) and wish.high < math.inf else None

    @property
    def figures(self) -> Figures | None:
        """The figures of what serves it."""
        return self.serving.item.figures if self.serving.item else None

    @property
    def line(self) -> Line | None:
        """The line that serves it, or None."""
        return self.figures if isinstance(self.figures, Line) else None

    @property
    def is_known(self) -> bool:
        """Whether the strength of a line is known; what is no line needs none."""
        if self.segment.kind is not Kind.LINE:
            return True
        return self._plain() is not None

    def _plain(self) -> Estimate | None:
        """What plain line holds, in kg, with the uncertainty of it."""
        if self.line is None or self.serving.item is None:
            return None
        return self.measured.strain(self.serving.item.measured_as.id or 0, self.line)

    def top(self) -> Joint | None:
        """The knot at the upper end of a line."""
        knot = self.segment.top
        if knot is None or self.is_bought:
            return None
        called = "its loop" if knot.use == "loop" else f"its {knot.name}"
        return self._joint(knot, "top of", self.in_hooklength, called)

    def plain(self) -> Joint | None:
        """A line between its knots, or a small part that has a rating."""
        part = self.figures
        if isinstance(part, Part) and part.breaks_at_kg is not None:
            return rated_joint(self.segment.name, part.breaks_at_kg, self.in_hooklength)
        return self._joint(None, "", self.in_hooklength, "its line")

    def bottom(self, gives_first: bool | None = None) -> Joint | None:
        """The knot at the lower end of a line; ``gives_first`` counts it to the hooklength."""
        knot = self.segment.bottom
        inside = self.in_hooklength if gives_first is None else gives_first
        if knot is None or self.is_bought or not self.is_loaded_below:
            return None
        called = "its hook knot" if self.at_hook else f"its lower {knot.name}"
        return self._joint(knot, "bottom of", inside, called)

    def _joint(self, knot: Knot | None, where: str, inside: bool, called: str) -> Joint | None:
        called = called if self.in_hooklength else ""
        line, plain = self.line, self._plain()
        if line is None or plain is None or self.serving.item is None:
            return None
        name = self.segment.name
        if knot:
            name = f"{knot.name} at the {where} the {name}"
        its = self.serving.item.measured_as
        spool = f"{its.id} {its.name}"
        own = self.measured.pulled(its.id or 0, line, knot) if knot else None
        if own is not None:
            facts: tuple[Fact, ...] = (
                Fact(f"{name}: holds", own.mean, "kg", MEASURED),
                Fact(f"{name}: spread", 100 * KNOT_SPREAD, "%", MEMORY),
                Fact(f"{name}: uncertainty of the mean", own.spread, "kg", MEASURED),
            )
            spread = math.hypot(KNOT_SPREAD * own.mean, own.spread)
            return Joint(name, own.mean, spread, inside, facts, called=called)
        share = plain.spread / plain.mean
        kept = self.measured.kept(line, knot) if knot else None
        if kept is not None:
            facts = (
                Fact(f"{name}: line's strain", plain.mean, "kg", plain.source),
                Fact(f"{name}: keeps", 100 * kept.mean, "%", MEASURED),
                Fact(f"{name}: spread", 100 * KNOT_SPREAD, "%", MEMORY),
                Fact(f"{name}: uncertainty of what it keeps", 100 * kept.spread, "%", MEASURED),
                Fact(f"{name}: spread of the spool's strain", 100 * share, "%", MEMORY),
            )
            mean = plain.mean * kept.mean
            spread = math.hypot(KNOT_SPREAD * mean, plain.mean * kept.spread)
            share, makers, shared = print_errors(name, share, line.maker, plain.source)
            facts = (*facts, *shared)
            return Joint(
                *(name, mean, spread, inside, facts, spool, share, line.maker, makers, called)
            )
        return line_joint(
            name,
            line.material,
            plain.mean,
            knot,
            inside,
            spool=spool,
            spool_share=share,
            strain_source=plain.source,
            maker=line.maker,
            called=called,
        )


def bonds_of(fit: Fit) -> tuple[Bond, ...]:
    """All that a pull at the hook loads, from rod to hook: of the chain as far as the hook's branch
    hangs, that branch, and the hooklength's own."""
    below = bonds_of(fit.hooklength) if fit.hooklength else ()
    resolved = fit.resolved
    branch = resolved.hook_branch
    if branch is None:
        alone = resolved.recipe.makes == "hooklength"
        return (*chain_of(fit, resolved.chain, in_hooklength=alone), *below)
    return (*_bearing(fit, branch), *chain_of(fit, branch.chain), *below)


def _bearing(fit: Fit, branch: Branch) -> tuple[Bond, ...]:
    """The chain down to what bears the hook's branch, and that itself where it is on a line; what
    runs comes up against the lower end of its line, and loads it."""
    thing = next((a for a in fit.resolved.along if a.name == branch.hangs_from), None)
    last = thing.on if thing else branch.hangs_from
    names = [segment.name for segment in fit.resolved.chain]
    above = chain_of(fit, fit.resolved.chain[: names.index(last) + 1])
    if thing is None:
        return above
    loaded = replace(above[-1], is_loaded_below=thing.held in RUNS)
    bearer = Segment(thing.name, thing.kind, thing.need)
    ring = Bond(bearer, fit.serving(thing.name), False, fit, is_on_line=True)
    return (*above[:-1], loaded, ring)


def tail_of(resolved: Resolved) -> tuple[Segment, ...]:
    """What of the chain is below the line or part that bears the hook's branch."""
    branch = resolved.hook_branch
    if branch is None:
        return ()
    thing = next((a for a in resolved.along if a.name == branch.hangs_from), None)
    names = [segment.name for segment in resolved.chain]
    return resolved.chain[names.index(thing.on if thing else branch.hangs_from) + 1 :]


def chain_of(
    fit: Fit, chain: Sequence[Segment], *, in_hooklength: bool = False
) -> tuple[Bond, ...]:
    """The segments of one chain, each with what serves it."""
    bonds = [Bond(s, fit.serving(s.name), in_hooklength, fit) for s in chain]
    for place, segment in enumerate(chain[1:]):
        if segment.kind is Kind.HOOK:
            bonds[place] = replace(bonds[place], at_hook=True)
    return tuple(bonds)


@dataclass(frozen=True)
class Joints:
    """The joints of one bond: at its top, in it, and at its bottom."""

    bond: Bond
    top: Joint | None
    plain: Joint | None
    bottom: Joint | None

    @property
    def known(self) -> tuple[Joint, ...]:
        """Those that are there and of which a strength is known."""
        return tuple(joint for joint in (self.top, self.plain, self.bottom) if joint)


def joints_by_bond(bonds: Sequence[Bond]) -> tuple[Joints, ...]:
    """The joints of a chain, from rod to hook, by bond.

    Without a hooklength, the knot at the hook is what should give first.
    """
    alone = not any(bond.in_hooklength for bond in bonds)
    return tuple(
        Joints(
            bond,
            bond.top(),
            bond.plain(),
            bond.bottom(bond.in_hooklength or (alone and bond.at_hook)),
        )
        for bond in bonds
    )


def joints_of(bonds: Sequence[Bond]) -> tuple[Joint, ...]:
    """Every joint of a chain whose strength is known, from rod to hook."""
    return tuple(joint for joints in joints_by_bond(bonds) for joint in joints.known)
