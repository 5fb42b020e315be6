"""The places of a fitted recipe that can break, with what is known of each.

What is printed stands until the angler has pulled the line himself; then his pulls, and
his own knots, are what count.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tacklebox.rigs.fitting import Fit, Serving
from tacklebox.rigs.recipes.resolved import Segment
from tacklebox.stock.measured import Measured
from tacklebox.stock.tables import Kind, Line, Part
from tacklebox.trade.judgement import Fact
from tacklebox.trade.knots import KNOT_SPREAD, Knot
from tacklebox.trade.pulls import Estimate
from tacklebox.trade.sources import MEASURED, MEMORY
from tacklebox.trade.strength import Joint, line_joint, rated_joint


@dataclass(frozen=True)
class Bond:
    """One segment of a chain with the item that serves it, and whether it belongs to the
    hooklength. ``at_hook``: the hook is tied to its lower end."""

    segment: Segment
    serving: Serving
    in_hooklength: bool
    measured: Measured
    at_hook: bool = False

    @property
    def line(self) -> Line | None:
        """The line that serves it, or None."""
        figures = self.serving.item.figures if self.serving.item else None
        return figures if isinstance(figures, Line) else None

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
        return self.measured.strain(self.serving.item.id, self.line)

    def top(self) -> Joint | None:
        """The knot at the upper end of a line."""
        knot = self.segment.top
        return self._joint(knot, "top of", self.in_hooklength) if knot else None

    def plain(self) -> Joint | None:
        """A line between its knots, or a small part that has a rating."""
        figures = self.serving.item.figures if self.serving.item else None
        if isinstance(figures, Part) and figures.breaks_at_kg is not None:
            return rated_joint(self.segment.name, figures.breaks_at_kg, self.in_hooklength)
        return self._joint(None, "", self.in_hooklength)

    def bottom(self, gives_first: bool | None = None) -> Joint | None:
        """The knot at the lower end of a line; ``gives_first`` counts it to the hooklength."""
        knot = self.segment.bottom
        inside = self.in_hooklength if gives_first is None else gives_first
        return self._joint(knot, "bottom of", inside) if knot else None

    def _joint(self, knot: Knot | None, where: str, inside: bool) -> Joint | None:
        line, plain = self.line, self._plain()
        if line is None or plain is None or self.serving.item is None:
            return None
        name = self.segment.name
        if knot:
            name = f"{knot.name} at the {where} the {name}"
        spool = f"{self.serving.item.id} {self.serving.item.item.name}"
        own = self.measured.pulled(self.serving.item.id, line, knot) if knot else None
        if own is not None:
            facts: tuple[Fact, ...] = (
                Fact(f"{name}: holds", own.mean, "kg", MEASURED),
                Fact(f"{name}: spread", 100 * KNOT_SPREAD, "%", MEMORY),
                Fact(f"{name}: uncertainty of the mean", own.spread, "kg", MEASURED),
            )
            spread = math.hypot(KNOT_SPREAD * own.mean, own.spread)
            return Joint(name, own.mean, spread, inside, facts)
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
            return Joint(name, mean, spread, inside, facts, spool, share)
        return line_joint(
            name,
            line.material,
            plain.mean,
            knot,
            inside,
            spool=spool,
            spool_share=share,
            strain_source=plain.source,
        )


def bonds_of(fit: Fit) -> tuple[Bond, ...]:
    """The chain from rod to hook, the hooklength's below the rig's own."""
    below = bonds_of(fit.hooklength) if fit.hooklength else ()
    alone = fit.resolved.recipe.makes == "hooklength"
    own = chain_of(fit, fit.resolved.chain, in_hooklength=alone)
    return (*own, *below)


def chain_of(
    fit: Fit, chain: Sequence[Segment], *, in_hooklength: bool = False
) -> tuple[Bond, ...]:
    """The segments of one chain, each with what serves it."""
    bonds = [Bond(s, fit.serving(s.name), in_hooklength, fit.measured) for s in chain]
    for place, segment in enumerate(chain[1:]):
        if segment.kind is Kind.HOOK:
            bonds[place] = replace(bonds[place], at_hook=True)
    return tuple(bonds)


def joints_of(bonds: Sequence[Bond]) -> Iterator[tuple[Bond, Joint, bool]]:
    """Every joint of a chain, from rod to hook, with its bond; True for plain line.

    Without a hooklength, the knot at the hook is what should give first.
    """
    has_hooklength = any(bond.in_hooklength for bond in bonds)
    for bond in bonds:
        first = bond.in_hooklength or (not has_hooklength and bond.at_hook)
        for joint, is_plain in (
            (bond.top(), False),
            (bond.plain(), bond.segment.kind is Kind.LINE),
            (bond.bottom(first), False),
        ):
            if joint is not None:
                yield bond, joint, is_plain
