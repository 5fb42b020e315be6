"""From a recipe and what was chosen to figures: lengths, distances from the hook, needs.

Nothing here looks at stock. Every fault is told with the recipe's key and what would be right.
"""

import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from math import inf

from tacklebox.errors import AskedWronglyError, ManyFaultsError, nearest_word
from tacklebox.rigs.recipes.choices import HOOKLENGTH, FileFaults, RecipeFigures, choose, same_size
from tacklebox.rigs.recipes.file import AlongPart, ChainPart, Recipe, ShotGroup, WrittenBranch
from tacklebox.rigs.recipes.plumbed import plumb
from tacklebox.rigs.recipes.resolved import Branch, Need, OnLine, PlacedShot, Resolved, Segment
from tacklebox.stock.asks import read_ask
from tacklebox.stock.tables import Kind
from tacklebox.trade.hanging import DEPTH_NOT_SAID, read_fished
from tacklebox.trade.knots import LOOP_MM, knot_named
from tacklebox.trade.passing import Bore
from tacklebox.trade.quantities import write_length
from tacklebox.trade.shot import read_pattern

# What an angler slides over a float's stem or quill and the line (common practice).
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
    chain = _chain(parts, figures, faults, "part")
    branches = tuple(
        _branch(branch, number, hook, figures, faults)
        for number, branch in enumerate(recipe.branch)
    )
    chain = _measure_up(chain, _lowest_mm(recipe, hook, chain, branches, figures, below_mm or 0.0))
    whole = not faults.found  # with a part missing, places on the line mean nothing
    along = _along(recipe.along, chain, figures, faults, hook) if whole else ()
    _check_names(recipe, chain, along, hook, faults)
    top_mm = max((s.high_mm for s in chain if not s.need.in_place), default=0.0) if whole else inf
    float_at = next((a.at_mm for a in along if a.kind is Kind.FLOAT), None if whole else inf)
    shot = _place_shot(recipe, chosen, figures, float_at, top_mm, faults)
    fished = DEPTH_NOT_SAID
    with faults.at("fished"):
        if recipe.fished is not None:
            fished = read_fished(chosen.get(recipe.fished, recipe.fished))
        fished = plumbed.fished or fished
        if fished is not DEPTH_NOT_SAID and float_at is not None and fished.over_mm >= float_at:
            raise AskedWronglyError(
                f"{fished}, nothing would hang from a float {write_length(float_at)} above the "
                "hook.",
                right="Say less, or set the float deeper.",
            )
    winder = None
    with faults.at("winder"):
        if recipe.winder is not None:
            winder = Need("winder", figures.ask("winder", recipe.winder), 1)
    if faults.found:
        raise ManyFaultsError(f"{recipe.stem}.toml: this recipe cannot be used.", faults.found)
    shot_needs = _shot_needs(shot, recipe.shot)
    return Resolved(
        recipe,
        chosen,
        chain,
        along,
        branches,
        shot,
        shot_needs,
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
    with faults.at("part"):
        if not found and not on_lines:
            raise AskedWronglyError(
                "there is no hook.", right='The last part must be is = "hook" or is = "hooklength".'
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
            raise AskedWronglyError(
                "no hooklength recipe is named.", right='Add hooklengths = ["NAME", …].'
            )
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
    parts: Sequence[ChainPart], figures: RecipeFigures, faults: FileFaults, key: str
) -> tuple[Segment, ...]:
    chain = []
    for index, part in enumerate(parts, 1):
        with faults.at(f"{key} {index} ({part.name})"):
            chain.append(_segment(part, figures))
    return tuple(chain)


def _segment(part: ChainPart, figures: RecipeFigures) -> Segment:
    ask = figures.ask(part.is_, part.asks)
    knots = [knot_named(k) if k else None for k in (part.top, part.bottom)]
    if ask.kind not in (Kind.LINE, Kind.ELASTIC):
        for key in ("length", "top", "bottom", "loop"):
            if getattr(part, key) is not None:
                raise AskedWronglyError(
                    f"a {ask.kind} has no {key} of its own.", right="Leave it out."
                )
        return Segment(part.name, ask.kind, Need(part.name, ask, 1, part.in_place))
    length = figures.length_mm(part.length) if part.length else 0.0
    if ask.kind is Kind.LINE:
        if not part.in_place and not length:
            raise AskedWronglyError("its length is missing.", right='Add length = "40 cm".')
        if not knots[1] or not (part.in_place or knots[0]):
            end = "bottom" if not knots[1] else "top"
            raise AskedWronglyError(
                f"nothing says what it is tied with at the {end}.",
                right=f'Add {end} = "half blood".',
            )
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
    chain = _chain(parts, figures, faults, f"branch {number + 1} ({branch.name}) part")
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
        with faults.at(f"along {index} ({part.name})"):
            line = lines.get(part.on)
            if line is None:
                raise AskedWronglyError(
                    f'it is on "{part.on}", which is no line of this recipe.',
                    right=nearest_word(part.on, list(lines) or ["(no line)"]),
                )
            at = from_mm + figures.length_mm(part.at) if part.at else line.low_mm
            if not line.low_mm - 0.5 <= at <= line.high_mm + 0.5 and not line.need.in_place:
                raise AskedWronglyError(
                    f"{write_length(at)} above the hook is not on {part.on}.",
                    right=f"It runs from {write_length(line.low_mm)} to {write_length(line.high_mm)}.",
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
    found = re.fullmatch(r"\s*(\d{1,2})\s+(.+)", text)
    names = re.split(r"\s+or\s+", found.group(2).strip().lower()) if found else []
    sorts = [name.removesuffix("s") for name in names]
    if not found or not 1 <= int(found.group(1)) <= 50 or not set(sorts) <= HOLD_FLOATS:
        raise AskedWronglyError(
            f'"{text}" holds no float.', right='Write it like "3 silicone tubes".'
        ).at("held_by")
    ask = read_ask(Kind.PART, {"sort": " or ".join(sorts)})
    return Need(sorts[0], ask, int(found.group(1)), in_place=True)


def _bore_mm(part: AlongPart, figures: RecipeFigures) -> float | None:
    if part.bore is None:
        return None
    try:
        bore_mm = figures.length_mm(part.bore)
    except AskedWronglyError as error:
        raise error.at("bore") from None
    return Bore(part.name, mm=bore_mm).mm


def _check_names(
    recipe: Recipe,
    chain: Sequence[Segment],
    along: Sequence[OnLine],
    hook: _PlaceOfHook,
    faults: FileFaults,
) -> None:
    """Every part has a name of its own, and every branch hangs from a part that is not its own."""
    in_branches = [p.name for branch in recipe.branch for p in branch.part]
    seen: set[str] = set()
    for name in [*(p.name for p in recipe.part), *(a.name for a in recipe.along), *in_branches]:
        if name in seen:
            faults.found.append(f'two parts are called "{name}". Give each a name of its own.')
        seen.add(name)
    bearers = {s.name for s in chain} | {a.name for a in along}
    for index, branch in enumerate(recipe.branch, 1):
        own = {p.name for p in branch.part}
        earlier = {p.name for other in recipe.branch[: index - 1] for p in other.part}
        if branch.hangs_from in own:
            faults.found.append(f"branch {index} ({branch.name}): it hangs from itself.")
        elif branch.hangs_from not in bearers | earlier and not faults.found:
            faults.found.append(
                f'branch {index} ({branch.name}): it hangs from "{branch.hangs_from}", which is no part. '
                + nearest_word(branch.hangs_from, sorted(bearers | earlier))
            )
        elif hook.branch == index - 1 and branch.hangs_from not in bearers and not faults.found:
            faults.found.append(
                f"branch {index} ({branch.name}): the hook hangs from a branch of a branch. Hang it from a "
                "part of the rig itself."
            )


def _place_shot(
    recipe: Recipe,
    chosen: Mapping[str, str],
    figures: RecipeFigures,
    float_at: float | None,
    top_mm: float,
    faults: FileFaults,
) -> tuple[PlacedShot, ...]:
    placed = []
    for index, group in enumerate(recipe.shot, 1):
        with faults.at(f"shot {index} ({group.place})"):
            loads = read_pattern(_pattern_text(group, chosen))
            count = sum(load.count for load in loads)
            positions = _positions(group, count, figures, float_at)
            limit = float_at if float_at is not None else top_mm
            if max(positions) > limit + 0.5:
                raise AskedWronglyError(
                    f"shot at {write_length(max(positions))} from the hook would be past the "
                    f"{'float' if float_at is not None else 'end of the line'}, which is at "
                    f"{write_length(limit)}.",
                    right="Bring it nearer to the hook.",
                )
            placed.append(PlacedShot(group.place, loads, positions))
    return tuple(placed)


def _pattern_text(group: ShotGroup, chosen: Mapping[str, str]) -> str:
    if isinstance(group.of, str):
        return group.of
    for size, pattern in group.of.items():
        if any(same_size(size, value) for value in chosen.values()):
            return pattern
    raise AskedWronglyError(
        f"no pattern is given for what is chosen ({', '.join(chosen.values())}).",
        right="Patterns are given for: " + ", ".join(group.of) + ".",
    )


def _positions(
    group: ShotGroup, count: int, figures: RecipeFigures, float_at: float | None
) -> tuple[float, ...]:
    def needed(key: str, text: str | None) -> float:
        if text is None:
            raise AskedWronglyError(
                f"{key} is missing.", right=f'Add {key} = "20 cm" (from the hook).'
            )
        return figures.length_mm(text)

    if group.place == "at the float":
        if float_at is None:
            raise AskedWronglyError("there is no float.", right="Put the float under [[along]].")
        return (float_at,) * count
    if group.place == "bulk":
        return (needed("at", group.at),) * count
    if group.place == "droppers":
        low = needed("at", group.at)
        step = needed("apart", group.apart) if count > 1 else 0.0
        return tuple(low + step * n for n in range(count - 1, -1, -1))
    low, high = needed("from", group.low), needed("to", group.high)
    if high <= low:
        raise AskedWronglyError("its range runs backwards.", right="from is nearer to the hook.")
    step = (high - low) / (count - 1) if count > 1 else 0.0
    return tuple(high - step * n for n in range(count))


def _shot_needs(placed: Sequence[PlacedShot], groups: Sequence[ShotGroup]) -> tuple[Need, ...]:
    """One need for each size of weight, over all places together."""
    needs: dict[str, Need] = {}
    for one, group in zip(placed, groups, strict=True):
        for load in one.loads:
            name = f"{load.kind} {load.mark}"
            if name in needs:
                needs[name] = replace(needs[name], amount=needs[name].amount + load.count)
                continue
            asks = {"form": load.form, "mass" if load.kind == "olivette" else "mark": load.mark}
            if group.material:
                asks["material"] = group.material
            elif load.mass_g > 0.06:  # lead of this size is outlawed for weighting lines
                asks["material"] = "tin or tungsten"
            needs[name] = Need(name, read_ask(Kind.WEIGHT, asks), load.count)
    return tuple(needs.values())
