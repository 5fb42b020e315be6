"""Shot and olivettes of a recipe: which they are with what is chosen, where each sits, what they need."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.recipes.choices import FileFaults, RecipeFigures, in_key, same_size
from tacklebox.rigs.recipes.file import Recipe, ShotGroup
from tacklebox.rigs.recipes.resolved import Need, PlacedShot
from tacklebox.stock.asks import read_ask
from tacklebox.stock.tables import Kind
from tacklebox.trade.shot import read_pattern
from tacklebox.trade.units_first import show_length


def place_shot(
    recipe: Recipe,
    chosen: Mapping[str, str],
    figures: RecipeFigures,
    float_at: float | None,
    top_mm: float,
    faults: FileFaults,
) -> tuple[PlacedShot, ...]:
    """Each group with its weights and how far each is from the hook."""
    placed = []
    for index, group in enumerate(recipe.shot, 1):
        with faults.at(f"shot {index} ({group.place})", f"shot {index}"):
            with in_key("of"):
                loads = read_pattern(_pattern_text(group, chosen))
            count = sum(load.count for load in loads)
            positions = _positions(group, count, figures, float_at)
            limit = float_at if float_at is not None else top_mm
            if max(positions) > limit + 0.5:
                raise AskedWronglyError(
                    f"shot at {show_length(max(positions))} from the hook would be past the "
                    f"{'float' if float_at is not None else 'end of the line'}, which is at "
                    f"{show_length(limit)}.",
                    right="Bring it nearer to the hook.",
                    field="to" if group.place == "spread" else "at",
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
            raise AskedWronglyError(f"{key} is missing.", right='Say how far: "20 cm".', field=key)
        with in_key(key):
            return figures.length_mm(text)

    if group.place == "at the float":
        if float_at is None:
            raise AskedWronglyError(
                "there is no float.", right="Put one along the line.", field="place"
            )
        return (float_at,) * count
    if group.place == "bulk":
        return (needed("at", group.at),) * count
    if group.place == "droppers":
        low = needed("at", group.at)
        step = needed("apart", group.apart) if count > 1 else 0.0
        return tuple(low + step * n for n in range(count - 1, -1, -1))
    low, high = needed("from", group.low), needed("to", group.high)
    if high <= low:
        raise AskedWronglyError(
            "its range runs backwards.", right="from is nearer to the hook.", field="from"
        )
    step = (high - low) / (count - 1) if count > 1 else 0.0
    return tuple(high - step * n for n in range(count))


def shot_needs(placed: Sequence[PlacedShot], groups: Sequence[ShotGroup]) -> tuple[Need, ...]:
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
