"""What was tied, in words and as things on the line: the snapshot that labels are drawn from."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import TypeVar

from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import Branch, Resolved, Segment
from tacklebox.rigs.tying.snapshot import Mark, Snapshot
from tacklebox.stock.asked import figures_asked
from tacklebox.stock.naming.kin import general
from tacklebox.stock.naming.own import without_own
from tacklebox.stock.naming.rows import of_row
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.notation import write_notation
from tacklebox.stock.tables import (
    Elastic,
    Feeder,
    Figures,
    Float,
    Hook,
    Hooklength,
    Kind,
    Line,
    Part,
    Weight,
    Winder,
)
from tacklebox.trade.units_first import show_length

_F = TypeVar("_F", bound=Figures)


def describe(checked: Checked, code: str, on: date, count: int = 1) -> Snapshot:
    """The snapshot of a rig, or of a batch of ``count`` hooklengths, as fitted and checked."""
    outcome = checked.outcome.value
    return describe_fit(checked.fit, code, on.isoformat(), outcome=outcome, count=count)


def describe_fit(
    fit: Fit,
    code: str,
    tied_on: str,
    *,
    outcome: str = "",
    in_tray_before: bool = False,
    count: int = 1,
) -> Snapshot:
    """The snapshot of a rig, or of a batch of ``count`` hooklengths; a part that no item serves is as the
    recipe asks for it."""
    resolved = fit.resolved
    recipe = resolved.recipe
    below = fit.hooklength or (fit if recipe.makes == "hooklength" else None)
    carried = _carried(fit)
    winder = next(_served(fit, Winder), None)
    line = _line_words(fit) if recipe.makes == "rig" else ""
    lengths = _lengths(resolved) if recipe.makes == "rig" else {}
    size = size_of(carried)
    if recipe.makes == "hooklength":
        size = length_words(resolved)
    return Snapshot(
        code=code,
        recipe=recipe.stem,
        name=recipe.name,
        kind=recipe.makes,
        method=recipe.method,
        purpose=recipe.purpose,
        tied_on=tied_on,
        size=size,
        carries=write_notation(carried) if carried else "",
        rig_line=line,
        hooklength=_hooklength_words(below),
        hook=_hook_words(below or fit),
        shot=", ".join(group.words for group in resolved.shot),
        set_for=", ".join(f"{name} {length}" for name, length in lengths.items()),
        outcome=outcome,
        length_mm=resolved.length_mm,
        marks=tuple(sorted(_marks(fit), key=lambda m: -m.from_hook_mm)),
        elastic=_elastic_words(fit),
        winder_length_mm=winder.length_mm if winder else 0.0,
        winder_width_mm=winder.width_mm if winder else 0.0,
        plumbed=resolved.plumbed.words,
        over=_over(resolved),
        in_tray_before=in_tray_before,
        lengths=lengths,
        sizes={n: resolved.chosen[n] for n, choice in recipe.choose.items() if choice.any_of},
        count=count,
        looked_for=_looked_for(fit) if recipe.makes == "hooklength" else "",
        hooklength_mm=_long(below) if below and recipe.makes == "rig" else 0.0,
    )


def _over(resolved: Resolved) -> str:
    """How it is fished, where that was said when it was tied or the depth was plumbed for it."""
    said = resolved.plumbed
    return str(said.fished or resolved.fished) if said.words or said.fished else ""


def _looked_for(fit: Fit) -> str:
    """What a hooklength is looked for by: its hook, and its line's diameter or strain."""
    hook, line = (
        next((f for s in fit.resolved.chain if isinstance(f := _figures(fit, s.name), kind)), None)
        for kind in (Hook, Line)
    )
    words = of_row(line).words_of if line else (lambda _: "")
    size = hook.size if isinstance(hook, Hook) else ""
    to = words("diameter").removesuffix(" mm") or words("strain")
    return " · ".join(part for part in (size, to) if part)


def length_words(resolved: Resolved) -> str:
    """The length as it was chosen or is in the recipe: "6 in"."""
    lengths = [text for part in resolved.recipe.part if (text := part.length) and not part.in_place]
    if len(lengths) == 1:
        said = resolved.chosen.get(lengths[0], lengths[0])
        if re.fullmatch(r"\d[\d./ ]*\s*[a-z]+", said.strip()):
            return as_said(said)
    return show_length(resolved.length_mm)


def _lengths(resolved: Resolved) -> dict[str, str]:
    """The lengths that were chosen, by name, in the units that they were said in."""
    lengths = [n for n, choice in resolved.recipe.choose.items() if not choice.any_of]
    return {n: as_said(resolved.chosen[n]) for n in lengths}


def _figures(fit: Fit, part: str) -> Figures:
    serving = fit.serving(part)
    return serving.item.figures if serving.item else figures_asked(serving.need.ask)


def _served(fit: Fit, kind: type[_F]) -> Iterator[_F]:
    """The figures of all items of a kind that serve the rig."""
    figures = (serving.item.figures for serving in fit.servings if serving.item)
    return (f for f in figures if isinstance(f, kind))


def _elastic_words(fit: Fit) -> str:
    """The elastic that it hangs on, or the one that it asks for where none is noted."""
    asked = (figures_asked(s.need.ask) for s in fit.servings if not s.item)
    elastics = (f for f in (*_served(fit, Elastic), *asked) if isinstance(f, Elastic))
    return next(map(write_notation, elastics), "")


def _carried(fit: Fit) -> Float | Feeder | None:
    """The float, feeder or bomb that the rig is known by."""
    resolved = fit.resolved
    names = [
        *(a.name for a in resolved.along),
        *(s.name for branch in resolved.branches for s in branch.chain),
        *(s.name for s in resolved.chain),
    ]
    for name in names:
        figures = _figures(fit, name)
        if isinstance(figures, Float | Feeder):
            return figures
    return None


def size_of(carried: Float | Feeder | None) -> str:
    """What a rig is looked for by: its float's capacity, its feeder's weight."""
    if isinstance(carried, Float):
        return carried.mark
    return of_row(carried).words_of("mass") if carried else ""


def _line_words(fit: Fit) -> str:
    """The lowest line of the rig itself, or the one on the reel where none is tied."""
    lines = [_figures(fit, s.name) for s in fit.resolved.chain if s.kind is Kind.LINE]
    return next((write_notation(f) for f in reversed(lines) if isinstance(f, Line)), "")


def _hooklength_words(fit: Fit | None) -> str:
    if fit is None:
        return ""
    line = next((_figures(fit, s.name) for s in fit.resolved.chain if s.kind is Kind.LINE), None)
    words = f" {write_notation(line)}" if line else ""
    return f"{_length_of(fit)}{words}"


def _long(fit: Fit) -> float:
    """The length of a hooklength in mm, as ``_length_of`` words it."""
    held = fit.in_wallet.item if fit.in_wallet else None
    own = held.figures if held else None
    return (own.length_mm if isinstance(own, Hooklength) else None) or fit.resolved.length_mm


def _length_of(fit: Fit) -> str:
    """The length of a hooklength in words: of the one in the wallet that serves, else as it is tied."""
    held = fit.in_wallet.item if fit.in_wallet else None
    return (of_row(held.figures).words_of("length") if held else "") or length_words(fit.resolved)


def _hook_words(fit: Fit) -> str:
    resolved = fit.resolved
    for segment in (*resolved.chain, *(s for branch in resolved.branches for s in branch.chain)):
        figures = _figures(fit, segment.name)
        if isinstance(figures, Hook):
            return write_notation(figures).removeprefix("hook ")
    return ""


def _marks(fit: Fit) -> Iterator[Mark]:
    resolved = fit.resolved
    for mark in _own_marks(fit):
        below_mm = resolved.branch_at_mm - mark.from_hook_mm
        if resolved.hook_branch and below_mm > 0.5 and mark.what != "hook":
            # What the hook's branch hangs above is drawn as the branch, and the hook at the end.
            mark = replace(mark, from_hook_mm=resolved.branch_at_mm, side_mm=below_mm)
        yield mark
    branch = resolved.hook_branch
    if branch is not None:
        yield from _branch_marks(fit, branch)
    if fit.hooklength:
        yield from _marks(fit.hooklength)


def _own_marks(fit: Fit) -> Iterator[Mark]:
    """All that is on the chain and hangs from it, but for the hook's branch."""
    resolved = fit.resolved
    for segment in resolved.chain:
        yield from _segment_marks(fit, segment, segment.low_mm)
    for thing in resolved.along:
        yield mark_of(_figures(fit, thing.name), thing.kind, thing.at_mm, held=thing.held)
    for branch in resolved.branches:
        if not branch.bears_hook:
            yield from _marks_beside(fit, branch, _where(resolved, branch.hangs_from))
    for group in resolved.shot:
        positions = iter(group.positions_mm)
        for load in group.loads:
            for _ in range(load.count):
                yield Mark(load.kind, load.mark, group.place, next(positions), load.mass_g)


def _branch_marks(fit: Fit, branch: Branch) -> Iterator[Mark]:
    """The parts of the hook's branch, down to the hook or the hooklength."""
    at_mm = fit.resolved.branch_at_mm
    for segment in branch.chain:
        measured = replace(segment, low_mm=at_mm - segment.length_mm)
        at_mm = measured.low_mm
        yield from _segment_marks(fit, measured, at_mm)


def _segment_marks(fit: Fit, segment: Segment, at_mm: float) -> Iterator[Mark]:
    """A line shows by its loops and knots; anything else by itself."""
    if segment.kind is Kind.LINE:
        for knot, where in ((segment.top, segment.high_mm), (segment.bottom, at_mm)):
            if knot and knot.use in ("loop", "line"):
                yield Mark("loop" if knot.use == "loop" else "knot", knot.name, segment.name, where)
        return
    yield mark_of(_figures(fit, segment.name), segment.kind, at_mm)


def _marks_beside(fit: Fit, branch: Branch, at_mm: float) -> Iterator[Mark]:
    out = 0.0
    for segment in branch.chain:
        out += segment.length_mm
        if segment.kind is not Kind.LINE:
            figures = _figures(fit, segment.name)
            yield mark_of(figures, segment.kind, at_mm, side_mm=max(out, 1.0))


def _where(resolved: Resolved, name: str) -> float:
    for thing in resolved.along:
        if thing.name == name:
            return thing.at_mm
    return next((s.low_mm for s in resolved.chain if s.name == name), 0.0)


def mark_of(
    figures: Figures,
    kind: Kind,
    at_mm: float,
    *,
    held: str = "",
    side_mm: float = 0.0,
) -> Mark:
    """A thing on the line, by the figures of what it is."""
    what, sort, mass = str(kind), "", 0.0
    if isinstance(figures, Float):
        sort = figures.shape
    elif isinstance(figures, Feeder):
        what, sort = ("bomb" if general(figures.shape) == "bomb" else "feeder"), figures.shape
        mass = figures.mass_g or 0.0
    elif isinstance(figures, Part):
        what, sort = general(figures.sort), figures.sort
    elif isinstance(figures, Hook):
        sort = figures.size
    elif isinstance(figures, Weight):
        what, sort, mass = figures.form, figures.mark, figures.mass_g or 0.0
    words = write_notation(figures)
    own_name = without_own(words)[1]  # without the quotes that it is noted in
    return Mark(what, sort, own_name or words, at_mm, mass, side_mm, held)
