"""From a recipe and what was chosen to figures: lengths, distances from the hook, needs.

Nothing here looks at stock. Every fault is told with the recipe's key and what would be right.
"""

import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from math import inf

from tacklebox.errors import AskedWronglyError, ManyFaultsError, nearest_word
from tacklebox.rigs.recipes.choices import (
    HOOKLENGTH,
    FileFaults,
    RecipeFigures,
    choose,
    in_key,
)
from tacklebox.rigs.recipes.file import AlongPart, ChainPart, Recipe, WrittenBranch
from tacklebox.rigs.recipes.placing_shot import place_shot, shot_needs
from tacklebox.rigs.recipes.plumbed import plumb
from tacklebox.rigs.recipes.resolved import Branch, Need, OnLine, Resolved, Segment
from tacklebox.rigs.recipes.weak_links import check_weak_links
from tacklebox.stock.asks import read_ask
from tacklebox.stock.tables import Kind
from tacklebox.trade.hanging import DEPTH_NOT_SAID, read_fished
from tacklebox.trade.knots import LOOP_MM, knot_named
from tacklebox.trade.passing import Bore
from tacklebox.trade.units_first import show_length

# What an angler slides over a float's stem or quill and the line (common practice).
HOLDING_IN_SHORT = {"silicone": "silicone tube", "rubber": "float rubber"}
HOLD_FLOATS = frozenset({"silicone tube", "float rubber"})


def resolve(
    recipe: Recipe, wishes: Mapping[str, str] | None = None, hooklength: Resolved | None = None
) -> Resolved:
    """The recipe with its choices made and every length worked out from the hook upwards.

    ``hooklength`` is the resolved hooklength that goes with a rig. Raises AskedWronglyError for a
    choice that is not offered, ManyFaultsError for what is wrong in the recipe itself.
    """
    others, plumbed = plumb(recipe, wishes or {})
    chosen = choose(recipe, others)
    below_mm = hooklength.length_mm if hooklength else None
    faults, figures = FileFaults(), RecipeFigures(chosen, below_mm)
    hook = _place_of_hook(recipe, hooklength, faults)
    parts = recipe.part[:-1] if hook.takes_hooklength and hook.branch is None else recipe.part
    chain = _chain(parts, figures, faults, "part", "part")
    branches = tuple(
        _branch(branch, number, hook, figures, faults)
        for number, branch in enumerate(recipe.branch)
    )
    chain = _measure_up(chain, _lowest_mm(recipe, hook, chain, branches, figures, below_mm or 0.0))
    whole = not faults.found  # with a part missing, places on the line mean nothing
    along = _along(recipe.along, chain, figures, faults, hook) if whole else ()
    _check_names(recipe, chain, along, hook, faults)
    check_weak_links(chain, along, branches, faults)
    top_mm = max((s.high_mm for s in chain if not s.need.in_place), default=0.0) if whole else inf
    float_at = next((a.at_mm for a in along if a.kind is Kind.FLOAT), None if whole else inf)
    shot = place_shot(recipe, chosen, figures, float_at, top_mm, faults)
    fished = DEPTH_NOT_SAID
    with faults.at("fished", "fished"):
        if recipe.fished is not None:
            fished = read_fished(chosen.get(recipe.fished, recipe.fished))
        fished = plumbed.fished or fished
        if fished is not DEPTH_NOT_SAID and float_at is not None and fished.over_mm >= float_at:
            raise AskedWronglyError(
                f"{fished}, nothing would hang from a float {show_length(float_at)} above the "
                "hook.",
                right="Say less, or set the float deeper.",
            )
    winder = None
    with faults.at("winder", "winder"):
        if recipe.winder is not None:
            winder = Need("winder", figures.ask("winder", recipe.winder), 1)
    if faults.found:
        raise ManyFaultsError(f"{recipe.stem}.toml: this recipe cannot be used.", faults.found)
    return Resolved(
        recipe,
        chosen,
        chain,
        along,
        branches,
        shot,
        shot_needs(shot, recipe.shot),
        winder,
        hooklength,
        fished,
        plumbed,
    )


@dataclass(frozen=True)
class _PlaceOfHook:
    """Where the hook is: at the end of the chain, or of the branch of that number; and whether a
    hooklength goes there."""

    takes_hooklength: bool = False
    branch: int | None = None


def _place_of_hook(recipe: Recipe, hooklength: Resolved | None, faults: FileFaults) -> _PlaceOfHook:
    """One hook, or one place for a hooklength, at the end of the chain or of a branch."""
    chains = [(None, recipe.part), *((n, branch.part) for n, branch in enumerate(recipe.branch))]
    found = [
        (branch, number == len(parts) - 1, kind)
        for branch, parts in chains
        for number, part in enumerate(parts)
        if (kind := part.is_.strip().lower()) in ("hook", HOOKLENGTH)
    ]
    on_lines = [a.name for a in recipe.along if a.is_.strip().lower() in ("hook", HOOKLENGTH)]
    with faults.at("part", "part"):
        if not found and not on_lines:
            raise AskedWronglyError(
                "there is no hook.",
                right="The last part is the hook, or the place of the hooklength.",
            )
        if len(found) + len(on_lines) > 1:
            both = [kind for _, _, kind in found] == [HOOKLENGTH, HOOKLENGTH]
            what = "the hooklength is in two places" if both else "there is more than one hook"
            raise AskedWronglyError(
                f"{what}.",
                right="One hook, as the last part of the rig or of a branch, is allowed.",
            )
        if on_lines:
            raise AskedWronglyError(
                f"{on_lines[0]} is no thing on a line.",
                right="Give it as the last part of a branch.",
            )
        branch, is_last, kind = found[0]
        if not is_last:
            raise AskedWronglyError("the hook is not the last part.", right="Put it at the end.")
        takes = kind == HOOKLENGTH
        if takes and recipe.makes == HOOKLENGTH:
            raise AskedWronglyError("a hooklength cannot take a hooklength.", right="Give a hook.")
        if takes and not recipe.hooklengths:
            says = "no hooklength recipe is named. Name one that goes with it."
            faults.add(says, "hooklengths", "hooklengths")
            return _PlaceOfHook(takes, branch)
        if takes and hooklength is None:
            raise AskedWronglyError("it needs a hooklength to be worked out with.")
        return _PlaceOfHook(takes, branch)
    return _PlaceOfHook()


def _lowest_mm(
    recipe: Recipe,
    hook: _PlaceOfHook,
    chain: Sequence[Segment],
    branches: Sequence[Branch],
    figures: RecipeFigures,
    below_mm: float,
) -> float:
    """How far from the hook the lower end of the chain is: with the hook on a branch, as far below
    the branch as that hangs above it, or as much nearer to the hook."""
    if hook.branch is None:
        return below_mm
    branch = branches[hook.branch]
    length = below_mm + sum(segment.length_mm for segment in branch.chain)
    bearer = next((a for a in recipe.along if a.name == branch.hangs_from), None)
    measured = _measure_up(chain, 0.0)
    name = bearer.on if bearer else branch.hangs_from
    up = next((segment.low_mm for segment in measured if segment.name == name), 0.0)
    if bearer is not None and bearer.at is not None:
        with suppress(AskedWronglyError):  # it is told where the thing itself is placed
            up = figures.length_mm(bearer.at)
    return length - up


def _chain(
    parts: Sequence[ChainPart], figures: RecipeFigures, faults: FileFaults, words: str, key: str
) -> tuple[Segment, ...]:
    chain = []
    for index, part in enumerate(parts, 1):
        with faults.at(f"{words} {index} ({part.name})", f"{key} {index}"):
            chain.append(_segment(part, figures))
    return tuple(chain)


def _segment(part: ChainPart, figures: RecipeFigures) -> Segment:
    ask = figures.ask(part.is_, part.asks)
    knots = []
    for end in ("top", "bottom"):
        with in_key(end):
            named = getattr(part, end)
            knots.append(knot_named(named) if named else None)
    if ask.kind not in (Kind.LINE, Kind.ELASTIC):
        for key in ("length", "top", "bottom", "loop"):
            if getattr(part, key) is not None:
                raise AskedWronglyError(
                    f"a {ask.kind} has no {key} of its own.", right="Leave it out.", field=key
                )
        return Segment(part.name, ask.kind, Need(part.name, ask, 1, part.in_place))
    with in_key("length"):
        length = figures.length_mm(part.length) if part.length else 0.0
    if ask.kind is Kind.LINE:
        if not part.in_place and not length:
            raise AskedWronglyError(
                "its length is missing.", right='Say how long: "40 cm".', field="length"
            )
        if not knots[1] or not (part.in_place or knots[0]):
            end = "bottom" if not knots[1] else "top"
            raise AskedWronglyError(
                f"nothing says what it is tied with at the {end}.",
                right='Name a knot, like "half blood".',
                field=end,
            )
    with in_key("loop"):
        loop = figures.length_mm(part.loop) if part.loop else LOOP_MM
    segment = Segment(
        part.name,
        ask.kind,
        Need(part.name, ask, 0, part.in_place),
        length,
        knots[0],
        knots[1],
        loop,
    )
    return replace(segment, need=replace(segment.need, amount=round(segment.cut_mm)))


def _measure_up(chain: Sequence[Segment], start_mm: float) -> tuple[Segment, ...]:
    measured, low = [], start_mm
    for segment in reversed(chain):
        measured.append(replace(segment, low_mm=low))
        low += segment.length_mm
    return tuple(reversed(measured))


def _branch(
    branch: WrittenBranch,
    number: int,
    hook: _PlaceOfHook,
    figures: RecipeFigures,
    faults: FileFaults,
) -> Branch:
    bears_hook = hook.branch == number
    parts = branch.part[:-1] if bears_hook and hook.takes_hooklength else branch.part
    words, key = f"branch {number + 1} ({branch.name}) part", f"branch {number + 1}.part"
    chain = _chain(parts, figures, faults, words, key)
    return Branch(branch.name, branch.hangs_from, chain, bears_hook, branch.weak_link)


def _along(
    parts: Sequence[AlongPart],
    chain: Sequence[Segment],
    figures: RecipeFigures,
    faults: FileFaults,
    hook: _PlaceOfHook,
) -> tuple[OnLine, ...]:
    """What is on the lines; a place counts from the hook, with the hook on a branch from the end
    of the line."""
    lines = {s.name: s for s in chain if s.kind is Kind.LINE}
    from_mm = min((s.low_mm for s in chain), default=0.0) if hook.branch is not None else 0.0
    placed = []
    for index, part in enumerate(parts, 1):
        with faults.at(f"along {index} ({part.name})", f"along {index}"):
            line = lines.get(part.on)
            if line is None:
                raise AskedWronglyError(
                    f'it is on "{part.on}", which is no line of this recipe.',
                    right=nearest_word(part.on, list(lines) or ["(no line)"]),
                    field="on",
                )
            with in_key("at"):
                at = from_mm + figures.length_mm(part.at) if part.at else line.low_mm
            if not line.low_mm - 0.5 <= at <= line.high_mm + 0.5 and not line.need.in_place:
                raise AskedWronglyError(
                    f"{show_length(at)} above the hook is not on {part.on}.",
                    right=f"It runs from {show_length(line.low_mm)} to {show_length(line.high_mm)}.",
                    field="at",
                )
            need = Need(part.name, figures.ask(part.is_, part.asks), part.count)
            placed.append(
                OnLine(
                    part.name,
                    need.ask.kind,
                    need,
                    part.on,
                    part.held,
                    at,
                    _bore_mm(part, figures),
                    part.seat is not None,
                    part.tried_by_hand,
                    _held_by(part.held_by) if part.held_by else None,
                )
            )
    return tuple(placed)


def _held_by(text: str) -> Need:
    """What holds a float on its line: "3 silicone tubes", "2 float rubbers or silicone tubes"."""
    found = re.fullmatch(r"\s*(\d{1,2})\s+(?:(?:bits|pieces|lengths) of\s+)?(.+)", text.lower())
    names = re.split(r"\s+or\s+", found.group(2).strip()) if found else []
    sorts = [HOLDING_IN_SHORT.get(name, name) for name in (n.removesuffix("s") for n in names)]
    if not found or not 1 <= int(found.group(1)) <= 50 or not set(sorts) <= HOLD_FLOATS:
        raise AskedWronglyError(
            f'"{text}" holds no float.', right='Write it like "3 silicone tubes".', field="held_by"
        ).at("held_by")
    ask = read_ask(Kind.PART, {"sort": " or ".join(sorts)})
    return Need(sorts[0], ask, int(found.group(1)), in_place=True)


def _bore_mm(part: AlongPart, figures: RecipeFigures) -> float | None:
    if part.bore is None:
        return None
    try:
        bore_mm = figures.length_mm(part.bore)
    except AskedWronglyError as error:
        raise error.at("bore").in_field("bore") from None
    with in_key("bore"):
        return Bore(part.name, mm=bore_mm).mm


def _check_names(
    recipe: Recipe,
    chain: Sequence[Segment],
    along: Sequence[OnLine],
    hook: _PlaceOfHook,
    faults: FileFaults,
) -> None:
    """Every part has a name of its own, and every branch hangs from a part that is not its own."""
    named = [
        *((f"part {n}", part.name) for n, part in enumerate(recipe.part, 1)),
        *((f"along {n}", part.name) for n, part in enumerate(recipe.along, 1)),
        *(
            (f"branch {number}.part {n}", part.name)
            for number, branch in enumerate(recipe.branch, 1)
            for n, part in enumerate(branch.part, 1)
        ),
    ]
    seen: set[str] = set()
    for key, name in named:
        if name in seen:
            says = f'two parts are called "{name}". Give each a name of its own.'
            faults.add(says, f"{key}.name")
        seen.add(name)
    bearers = {s.name for s in chain} | {a.name for a in along}
    for index, branch in enumerate(recipe.branch, 1):
        own, where = {p.name for p in branch.part}, f"branch {index} ({branch.name})"
        key = f"branch {index}.from"
        earlier = {p.name for other in recipe.branch[: index - 1] for p in other.part}
        if branch.hangs_from in own:
            faults.add("it hangs from itself.", key, where)
        elif branch.hangs_from not in bearers | earlier and not faults.found:
            says = f'it hangs from "{branch.hangs_from}", which is no part. '
            says += nearest_word(branch.hangs_from, sorted(bearers | earlier))
            faults.add(says, key, where)
        elif hook.branch == index - 1 and branch.hangs_from not in bearers and not faults.found:
            says = (
                "the hook hangs from a branch of a branch. Hang it from a part of the rig itself."
            )
            faults.add(says, key, where)
