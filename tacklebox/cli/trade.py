"""``tacklebox shot``, ``cast`` and ``law``: what the trade knows, asked directly."""

from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import (
    PLAIN,
    Json,
    Water,
    Why,
    desk_of,
    number_up_to,
)
from tacklebox.cli.output import (
    say,
    say_folded,
    show_answer,
    show_judgement,
    show_table,
)

if TYPE_CHECKING:
    from tacklebox.desk.shot import Balance

shot_app = typer.Typer(
    help="Which shot balances a float, and what replaces shot that is gone.",
    no_args_is_help=True,
    **PLAIN,
)

TipOption = Annotated[str, typer.Option("--tip", help='The float\'s tip, like "3 mm × 60 mm".')]
AnySize = Annotated[bool, typer.Option("--any-size", help="Shot of every size, in the box or not.")]
HowMany = Annotated[
    int, typer.Option("--show-best", help="How many to offer, to 10.", **number_up_to(10))
]
Material = Annotated[str, typer.Option(help="What the shot is or was of: tin, tungsten or lead.")]


@shot_app.command()
def balance(
    context: typer.Context,
    capacity: Annotated[
        list[str], typer.Argument(metavar="CAPACITY", help='The float\'s: "5BB", "0.75 g", "4×14".')
    ],
    tip: TipOption = "",
    inside: Annotated[
        str, typer.Option(help='What of it is inside a loaded float, like "2 g".')
    ] = "",
    show: Annotated[str, typer.Option("--show", help="How much of the tip is to show.")] = "3 mm",
    fished: Annotated[
        str,
        typer.Option(help='How deep: "off bottom", "dead depth", "over 2 in".'),
    ] = "",
    like: Annotated[
        str, typer.Option("--like", help="Keep the shape of this recipe's shotting.")
    ] = "",
    any_size: AnySize = False,
    material: Material = "tin",
    water: Water = "",
    best: HowMany = 3,
    as_json: Json = False,
) -> None:
    """The best patterns of shot for a float, from the shot in the box, nearest to the tip you want
    to show."""
    from tacklebox.desk.shot import balance_float

    found = balance_float(
        desk_of(context),
        " ".join(capacity),
        tip=tip,
        inside=inside,
        show=show,
        fished=fished,
        like=like,
        any_size=any_size,
        material=material,
        water=water,
        show_best=best,
    )
    if as_json:
        show_answer(found)
    else:
        _show_balance(found)


def _show_balance(found: "Balance") -> None:
    loaded = f", {found.inside_g:g} g more inside" if found.inside_g else ""
    tip = f"{found.tip_diameter_mm:g} mm × {found.tip_length_mm:g} mm"
    left = f" ({' and '.join(found.left_out)} left out)" if found.left_out else ""
    said = ", a usual one (give yours with --tip)" if found.tip_is_usual else ""
    say_folded(
        f"{found.mark}: {round(found.shot_g, 3):g} g of shot{loaded}, give or take "
        f"{found.give_g:.1g} g until it was tried in a bucket ({found.source}); tip {tip}{said}; "
        f"{found.shows_mm:g} mm to show; {found.fished}, what hangs beside the shot pulls "
        f"{found.hangs_mg:.0f} mg{left}; shape: {found.shape}."
    )
    for number, pattern in enumerate(found.patterns, 1):
        say_folded(f"{number}. {pattern.words}", "")
        proven = "" if pattern.proven else ", not proven the best"
        say_folded(
            f"{pattern.shot} shot, {_off(pattern.error_mg, pattern.error_tip_mm)}{proven}; shows "
            + ", ".join(f"{s.what} {_shown(s.shows_mm)}" for s in pattern.stages[1:]),
            "   ",
        )
    say_folded(
        f"The water's skin may hold the tip {found.skin_mm:.0f} mm higher or lower, the same for all "
        f"of them. If it stands {found.trims_mm:.0f} mm high, add a {found.to_trim} under the float."
    )


def _shown(tip_mm: float) -> str:
    under = tip_mm <= -0.5
    return f"{abs(tip_mm):.0f} mm{' under' if under else ''}"


def _off(error_mg: float, error_mm: float | None) -> str:
    if abs(error_mg) < 0.5:
        return "exact"
    found = f"{abs(error_mg):.0f} mg too {'heavy' if error_mg > 0 else 'light'}"
    if error_mm is not None:
        much = f"{abs(error_mm):.0f} mm" if abs(error_mm) >= 1 else "under 1 mm"
        found += f" ({much} {'more' if error_mm > 0 else 'less'} tip)"
    return found


@shot_app.command()
def replace(
    context: typer.Context,
    missing: Annotated[list[str], typer.Argument(metavar="SHOT", help='What is gone: "2 AAA".')],
    tip: TipOption = "",
    any_size: AnySize = False,
    material: Material = "tin",
    water: Water = "",
    best: HowMany = 3,
    as_json: Json = False,
) -> None:
    """What stands in for shot that is gone, from the shot in the box, nearest first."""
    from tacklebox.desk.shot import replace_shot

    found = replace_shot(
        desk_of(context),
        " ".join(missing),
        tip=tip,
        any_size=any_size,
        material=material,
        water=water,
        show_best=best,
    )
    if as_json:
        show_answer(found)
        return
    say(f"Instead of {found.instead_of} of {found.material}:")
    rows = []
    for one in found.stand_ins:
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
    load: Annotated[str, typer.Option("--load", help="What the feeder is filled with.")] = "",
    knot: Annotated[str, typer.Option("--knot", help="The main line's knot.")] = "half blood",
    material: Annotated[
        str, typer.Option(help="The main line's material, when it is no item.")
    ] = "nylon",
    rod_tip_travel: Annotated[
        str, typer.Option("--rod-tip-travel", help="How far the tip goes while it pulls.")
    ] = "3 m",
    sticks: Annotated[str, typer.Option("--sticks", help="Distance sticks apart.")] = "12 ft",
    line_per_turn: Annotated[
        str,
        typer.Option("--line-per-turn", help='Line won by a turn of the handle, like "80 cm".'),
    ] = "",
    why: Why = False,
    as_json: Json = False,
) -> None:
    """Say what a cast pulls on the main line, and how to find the distance again."""
    from tacklebox.desk.casting import judge_cast

    judged = judge_cast(
        desk_of(context),
        line,
        mass,
        distance,
        load=load,
        knot=knot,
        material=material,
        rod_tip_travel=rod_tip_travel,
        sticks=sticks,
        line_per_turn=line_per_turn,
    )
    if as_json:
        show_answer(judged)
        return
    show_judgement(judged.judgement, why)
    say(f"To find it again: {judged.wraps_in_words} wraps round sticks {judged.sticks} apart")
    if judged.handle_turns is not None:
        say(
            f"or {judged.handle_turns:.0f} turns of the handle at {judged.line_per_turn} a turn, "
            "then the line clip."
        )
    say_folded("Look for overhead power lines before you cast: see `tacklebox law`.")


def law(context: typer.Context, as_json: Json = False) -> None:
    """Name lead in the box that may not weight a line, and the cautions every angler is owed."""
    from tacklebox.desk.law import law as law_of

    found = law_of(desk_of(context))
    if as_json:
        show_answer(found)
        return
    if not found.lead:
        say("No lead of a forbidden size is in the box.")
    for lead in found.lead:
        item = lead.item
        say_folded(
            f"Item {item.number}, {item.name}, {item.on_hand} on hand: {lead.judgement.says}."
        )
    say()
    for caution in found.cautions:
        say_folded(f"{caution.about}: {caution.says} ({caution.source})")
    say_folded(found.comes_first)
