"""``tacklebox shot``, ``cast`` and ``law``: what the trade knows, asked directly."""

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import (
    PLAIN,
    Json,
    Water,
    Why,
    at,
    box_of,
    celsius,
    resolved_recipe,
    shelf_of,
)
from tacklebox.cli.output import (
    judgement_as_json,
    say,
    say_folded,
    show_json,
    show_judgement,
    show_table,
)
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.trade.balance import Tip
    from tacklebox.trade.pattern import Pattern, Replacement, Shape
    from tacklebox.trade.sources import Source
    from tacklebox.trade.supply import Supply

shot_app = typer.Typer(
    help="Which shot balances a float, and what replaces shot that is gone.",
    no_args_is_help=True,
    **PLAIN,
)

TipOption = Annotated[
    str | None, typer.Option("--tip", help='The float\'s tip, like "3 mm × 60 mm".')
]
FromStock = Annotated[bool, typer.Option("--from-stock", help="Only shot that is in the box.")]
HowMany = Annotated[int, typer.Option("--show-best", min=1, max=10, help="How many to offer.")]
Material = Annotated[str, typer.Option(help="What the shot is or was of: tin, tungsten or lead.")]


def _tip(text: str) -> "Tip":
    from tacklebox.trade.balance import Tip
    from tacklebox.trade.quantities import read_length_mm

    sizes = text.lower().replace("×", "x").split("x")
    if len(sizes) != 2:
        raise AskedWronglyError(
            f'"{text}" is no size of a tip.',
            where="--tip",
            right='Write its diameter and its length, like "3 mm × 60 mm".',
        )
    try:
        return Tip(read_length_mm(sizes[0]), read_length_mm(sizes[1]))
    except AskedWronglyError as error:
        raise error.at("--tip") from None


def _supply(context: typer.Context, from_stock: bool, material: str) -> "Sequence[Supply]":
    from tacklebox.stock.shot_supply import shot_in_stock
    from tacklebox.trade.shot import weight_material
    from tacklebox.trade.supply import every_size

    if not from_stock:
        return every_size(weight_material(material).name)
    with box_of(context).reading() as session:
        return shot_in_stock(session)


def _is_pole(mark: str) -> bool:
    return "×" in mark or mark.endswith(" g")


def _shape(context: typer.Context, name: str | None, capacity: str) -> "tuple[Shape, str]":
    """The shape of a recipe's own shotting, for the float's size where it offers that; else the
    usual one. Wagglers are marked in shot, pole floats like 4×14 or in grams (common
    practice)."""
    from tacklebox.rigs.checking.shotting import groups_of
    from tacklebox.trade.pattern import Shape

    if name is None and _is_pole(capacity):
        pole = Shape(0, 0, lock_least=0, bulk_least=1, bulk_most_g=0.20)
        return pole, "a pole float's, none of it at the float"
    if name is None:
        return Shape(bulk_most_g=0.20), "a waggler's, half to three quarters of it at the float"
    shelf = shelf_of(box_of(context))
    options = {
        option.replace(" ", "").lower(): {key: option}
        for key, choice in shelf.load(name).choose.items()
        for option in choice.any_of
    }
    wish = options.get(capacity.replace(" ", "").lower().replace("x", "×"), {})
    groups = groups_of(resolved_recipe(shelf, name, wish))
    if not groups:
        raise AskedWronglyError(
            f"{name} has no shot to take a shape from.",
            where="--like",
            right="Name a recipe of a float rig.",
        )
    return Shape.like(groups), f"that of {name}"


@shot_app.command()
def balance(
    context: typer.Context,
    capacity: Annotated[
        list[str], typer.Argument(metavar="CAPACITY", help='The float\'s: "5BB", "0.75 g", "4×14".')
    ],
    tip: TipOption = None,
    inside: Annotated[
        str | None, typer.Option(help='What of it is inside a loaded float, like "2 g".')
    ] = None,
    show: Annotated[str, typer.Option("--show", help="How much of the tip is to show.")] = "3 mm",
    from_stock: FromStock = False,
    like: Annotated[
        str | None, typer.Option("--like", help="Keep the shape of this recipe's shotting.")
    ] = None,
    material: Material = "tin",
    water: Water = "10",
    best: HowMany = 3,
    as_json: Json = False,
) -> None:
    """The best patterns of shot for a float, proven nearest to the tip you want to show."""
    from tacklebox.trade.balance import Tip, stages
    from tacklebox.trade.floats import left_for_shot_g, read_capacity
    from tacklebox.trade.pattern import best_patterns
    from tacklebox.trade.quantities import read_length_mm, read_mass_g, write_mass

    text = " ".join(capacity)
    carries = read_capacity(text)
    inside_g = at("--inside", read_mass_g, inside) if inside else 0.0
    takes_g = at("--inside", lambda _: left_for_shot_g(carries.mass_g, inside_g), "")
    water_c = celsius(water)
    wished_mm = 0.0 if show.strip() == "0" else at("--show", read_length_mm, show)
    usual = Tip(1.5, 25.0) if _is_pole(carries.mark) else Tip(3.0, 60.0)
    watched = _tip(tip) if tip else usual
    shape, shape_words = _shape(context, like, carries.mark)
    patterns = best_patterns(
        takes_g,
        _supply(context, from_stock, material),
        shape,
        tip=watched,
        wished_tip_mm=wished_mm,
        how_many=best,
        temperature_c=water_c,
    )
    sits = [
        stages(takes_g, watched, pattern.groups(), temperature_c=water_c) for pattern in patterns
    ]
    if as_json:
        told = [_pattern_as_json(p) for p in patterns]
        for one, seen in zip(told, sits, strict=True):
            one["stages"] = [{"what": s.what, "shows_mm": s.shows_mm, "says": s.says} for s in seen]
        show_json(
            {
                "capacity_g": carries.mass_g,
                "shot_g": takes_g,
                "source": str(carries.source),
                "patterns": told,
            }
        )
        return
    loaded = f", {write_mass(inside_g)} more inside" if inside_g else ""
    tip_words = f"{watched.diameter_mm:g} mm × {watched.length_mm:g} mm"
    said = "" if tip else ", a usual one (common practice; give yours with --tip)"
    say_folded(
        f"{carries.mark}: {write_mass(takes_g)} of shot{loaded} ({carries.source}); "
        f"tip {tip_words}{said}; {wished_mm:g} mm to show; shape: {shape_words}."
    )
    for number, (pattern, seen) in enumerate(zip(patterns, sits, strict=True), 1):
        say_folded(f"{number}. {pattern}", "")
        say_folded(
            f"{pattern.shot} shot, {_off(pattern.error_mg, pattern.error_tip_mm)}; shows "
            + ", ".join(f"{s.what} {s.shows_mm:.0f} mm ({s.says})" for s in seen[1:]),
            "   ",
        )


def _off(error_mg: float, error_mm: float | None) -> str:
    if abs(error_mg) < 0.5:
        return "exact"
    told = f"{abs(error_mg):.0f} mg too {'heavy' if error_mg > 0 else 'light'}"
    if error_mm is not None:
        told += f" ({abs(error_mm):.1f} mm {'more' if error_mm > 0 else 'less'} tip)"
    return told


def _picked(picked: "Sequence[tuple[Supply, int]]") -> list[dict[str, Any]]:
    return [
        {"mark": s.mark, "material": s.material, "mass_g": s.mass_g, "count": n} for s, n in picked
    ]


def _pattern_as_json(pattern: "Pattern") -> dict[str, Any]:
    return {
        "at_float": _picked(pattern.at_float),
        "bulk": _picked(pattern.bulk),
        "droppers": _picked(pattern.droppers),
        "error_mg": pattern.error_mg,
        "error_tip_mm": pattern.error_tip_mm,
    }


@shot_app.command()
def replace(
    context: typer.Context,
    gone: Annotated[list[str], typer.Argument(metavar="SHOT", help='What is gone: "2 AAA".')],
    tip: TipOption = None,
    from_stock: FromStock = False,
    material: Material = "tin",
    water: Water = "10",
    best: HowMany = 3,
    as_json: Json = False,
) -> None:
    """What stands in for shot that is gone, with the error in mg and in mm of tip."""
    from tacklebox.trade.pattern import replacements
    from tacklebox.trade.shot import read_pattern, write_pattern

    loads = read_pattern(" ".join(gone))
    told = replacements(
        loads,
        _supply(context, from_stock, "tin"),
        material=material,
        tip=_tip(tip) if tip else None,
        how_many=best,
        temperature_c=celsius(water),
    )
    if as_json:
        show_json([_replacement_as_json(one) for one in told])
        return
    say(f"Instead of {write_pattern(loads)} of {material}:")
    rows = [(_of_what(one), _off(one.error_mg, one.error_tip_mm)) for one in told]
    show_table(["shot", "off by"], rows, flexible=0)


def _of_what(one: "Replacement") -> str:
    materials = {supply.material for supply, _ in one.picked}
    return f"{one} ({' and '.join(sorted(materials))})"


def _replacement_as_json(one: "Replacement") -> dict[str, Any]:
    return {
        "shot": _picked(one.picked),
        "error_mg": one.error_mg,
        "error_tip_mm": one.error_tip_mm,
    }


def cast(
    context: typer.Context,
    line: Annotated[
        str, typer.Option("--line", help='Main line: its strain like "2.5 kg", or an item.')
    ],
    mass: Annotated[str, typer.Option("--mass", help='Empty feeder or bomb, like "30 g".')],
    distance: Annotated[str, typer.Option("--distance", help='How far, like "40 m".')],
    load: Annotated[str, typer.Option("--load", help="What the feeder is filled with.")] = "0",
    knot: Annotated[str, typer.Option("--knot", help="The main line's knot.")] = "half blood",
    material: Annotated[
        str, typer.Option(help="The main line's material, when it is no item.")
    ] = "nylon",
    sweep: Annotated[str, typer.Option("--sweep", help="Way of the rod end in the cast.")] = "3 m",
    sticks: Annotated[str, typer.Option("--sticks", help="Distance sticks apart.")] = "12 ft",
    turn: Annotated[
        str | None, typer.Option("--turn", help='Line won by a turn of the handle, like "80 cm".')
    ] = None,
    why: Why = False,
    as_json: Json = False,
) -> None:
    """Say what a cast pulls on the main line, and how to find the distance again."""
    from tacklebox.trade.casting import handle_turns, judge_casting, wraps
    from tacklebox.trade.quantities import read_length_mm, read_mass_g

    away_m = at("--distance", read_length_mm, distance) / 1000
    empty_g = at("--mass", read_mass_g, mass)
    load_g = 0.0 if load.strip() == "0" else at("--load", read_mass_g, load)
    holds_kg, source = _main_line(context, line, knot, material)
    judged = judge_casting(
        holds_kg,
        empty_g,
        load_g,
        away_m,
        at("--sweep", read_length_mm, sweep) / 1000,
        line_source=source,
    )
    round_sticks = wraps(away_m, at("--sticks", read_length_mm, sticks) / 1000)
    turns = handle_turns(away_m, at("--turn", read_length_mm, turn) / 10) if turn else None
    if as_json:
        show_json(
            {**judgement_as_json(judged), "wraps": round_sticks, "handle_turns": turns},
        )
        return
    show_judgement(judged, why)
    say(f"To find it again: {round_sticks:.1f} wraps round sticks {sticks} apart")
    if turns is not None:
        say(f"or {turns:.0f} turns of the handle at {turn} a turn, then the line clip.")
    say_folded("Look for overhead power lines before you cast: see `tacklebox law`.")


def _main_line(
    context: typer.Context, line: str, knot: str, material: str
) -> "tuple[float, Source]":
    """What the main line holds after its knot: of a strain that was said, or of an item."""
    from tacklebox.trade.knots import keeps, knot_named
    from tacklebox.trade.line import material_named
    from tacklebox.trade.quantities import read_strain_kg
    from tacklebox.trade.sources import PRINTED

    tied = at("--knot", knot_named, knot)
    kind = at("--material", material_named, material).name
    try:
        return read_strain_kg(line) * keeps(tied, kind), PRINTED
    except AskedWronglyError:
        if re.fullmatch(r"[\d.,/\s]+[a-zA-Z]+", line.strip()):
            raise AskedWronglyError(
                f'"{line}" is no strain of a line.',
                where="--line",
                right='Write it like "2.5 kg", or name an item of the box.',
            ) from None
    from tacklebox.stock.ledger import find
    from tacklebox.stock.measured import holds_after

    with box_of(context).reading() as session:
        held = at("--line", lambda text: holds_after(session, find(session, text), tied), line)
    return held.mean, held.source


def law(context: typer.Context, as_json: Json = False) -> None:
    """Name lead in the box that may not weight a line, and the cautions every angler is owed."""
    from tacklebox.stock.lead import lead_in_stock
    from tacklebox.trade.law import CAUTIONS, DEFERS

    with box_of(context).reading() as session:
        found = lead_in_stock(session)
    if as_json:
        show_json(
            {
                "lead": [
                    {"item": i.id, "name": i.name, "on_hand": i.on_hand, **judgement_as_json(j)}
                    for i, j in found
                ],
                "cautions": [
                    {"about": c.about, "says": c.says, "source": str(c.source)} for c in CAUTIONS
                ],
                "defers": DEFERS,
            }
        )
        return
    if not found:
        say("No lead of a forbidden size is in the box.")
    for item, judged in found:
        say_folded(f"Item {item.id}, {item.name}, {item.on_hand} on hand: {judged.says}.")
    say()
    for caution in CAUTIONS:
        say_folded(f"{caution.about}: {caution.says} ({caution.source})")
    say_folded(f"{DEFERS[0].upper()}{DEFERS[1:]}.")
