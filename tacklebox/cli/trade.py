"""``tacklebox shot``, ``cast`` and ``law``: what the trade knows, asked directly."""

import re
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import (
    PLAIN,
    Json,
    Water,
    Why,
    at,
    box_of,
    celsius,
    desk_of,
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
    from tacklebox.desk.shot import Balance
    from tacklebox.trade.sources import Source

shot_app = typer.Typer(
    help="Which shot balances a float, and what replaces shot that is gone.",
    no_args_is_help=True,
    **PLAIN,
)

TipOption = Annotated[
    str | None, typer.Option("--tip", help='The float\'s tip, like "3 mm × 60 mm".')
]
AnySize = Annotated[bool, typer.Option("--any-size", help="Shot of every size, in the box or not.")]
HowMany = Annotated[int, typer.Option("--show-best", min=1, max=10, help="How many to offer.")]
Material = Annotated[str, typer.Option(help="What the shot is or was of: tin, tungsten or lead.")]


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
    fished: Annotated[
        str | None,
        typer.Option(help='How deep: "off bottom", "dead depth", "over 2 in".'),
    ] = None,
    like: Annotated[
        str | None, typer.Option("--like", help="Keep the shape of this recipe's shotting.")
    ] = None,
    any_size: AnySize = False,
    material: Material = "tin",
    water: Water = "10",
    best: HowMany = 3,
    as_json: Json = False,
) -> None:
    """The best patterns of shot for a float, from the shot in the box, nearest to the tip you want
    to show."""
    from tacklebox.desk import as_json as in_json
    from tacklebox.desk.shot import balance_float

    told = balance_float(
        desk_of(context),
        " ".join(capacity),
        tip=tip or "",
        inside=inside or "",
        show=show,
        fished=fished or "",
        like=like or "",
        any_size=any_size,
        material=material,
        water=celsius(water),
        show_best=best,
    )
    if as_json:
        show_json(in_json(told))
    else:
        _show_balance(told)


def _show_balance(told: "Balance") -> None:
    loaded = f", {told.inside_g:g} g more inside" if told.inside_g else ""
    tip = f"{told.tip_diameter_mm:g} mm × {told.tip_length_mm:g} mm"
    left = f" ({' and '.join(told.left_out)} left out)" if told.left_out else ""
    said = ", a usual one (give yours with --tip)" if told.tip_is_usual else ""
    say_folded(
        f"{told.mark}: {round(told.shot_g, 3):g} g of shot{loaded} ({told.source}); tip {tip}{said}; "
        f"{told.shows_mm:g} mm to show; {told.fished}, what hangs beside the shot pulls "
        f"{told.hangs_mg:.0f} mg{left}; shape: {told.shape}."
    )
    for number, pattern in enumerate(told.patterns, 1):
        say_folded(f"{number}. {pattern.words}", "")
        proven = "" if pattern.proven else ", not proven the best"
        say_folded(
            f"{pattern.shot} shot, {_off(pattern.error_mg, pattern.error_tip_mm)}{proven}; shows "
            + ", ".join(f"{s.what} {s.shows_mm:.0f} mm" for s in pattern.stages[1:]),
            "   ",
        )
    say_folded(
        f"The water's skin may hold the tip {told.skin_mm:.0f} mm higher or lower, the same for all "
        f"of them. If it stands {told.trims_mm:.0f} mm high, add a {told.to_trim} under the float."
    )


def _off(error_mg: float, error_mm: float | None) -> str:
    if abs(error_mg) < 0.05:
        return "exact"
    told = f"{abs(error_mg):.1f} mg too {'heavy' if error_mg > 0 else 'light'}"
    if error_mm is not None:
        told += f" ({abs(error_mm):.1f} mm {'more' if error_mm > 0 else 'less'} tip)"
    return told


@shot_app.command()
def replace(
    context: typer.Context,
    gone: Annotated[list[str], typer.Argument(metavar="SHOT", help='What is gone: "2 AAA".')],
    tip: TipOption = None,
    any_size: AnySize = False,
    material: Material = "tin",
    water: Water = "10",
    best: HowMany = 3,
    as_json: Json = False,
) -> None:
    """What stands in for shot that is gone, from the shot in the box, nearest first."""
    from tacklebox.desk import as_json as in_json
    from tacklebox.desk.shot import replace_shot

    told = replace_shot(
        desk_of(context),
        " ".join(gone),
        tip=tip or "",
        any_size=any_size,
        material=material,
        water=celsius(water),
        show_best=best,
    )
    if as_json:
        show_json(in_json(told))
        return
    say(f"Instead of {told.gone} of {told.material}:")
    rows = []
    for one in told.stand_ins:
        of = " and ".join(sorted({weights.material for weights in one.shot}))
        proven = "" if one.proven else ", not proven the nearest"
        rows.append((f"{one.words} ({of})", _off(one.error_mg, one.error_tip_mm) + proven))
    show_table(["shot", "off by"], rows, flexible=0)


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
