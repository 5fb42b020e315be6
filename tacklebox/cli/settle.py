"""``tacklebox settle``: how a rig falls, when the float should have settled, and when to strike."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, Set, Use, Water, Why, desk_of, pairs
from tacklebox.cli.output import say, say_folded, show_answer, show_table
from tacklebox.desk import units

if TYPE_CHECKING:
    from tacklebox.desk.settling import Band, FallQuestion, Fell, HeldBite, Note, Settles

MOST_TIPS = 12  # rows, so that the table stays on one screen


def settle(
    context: typer.Context,
    recipe: Annotated[str, typer.Argument(metavar="RECIPE", help="A rig's recipe.")],
    chosen: Set = None,
    use: Use = None,
    bait: Annotated[str, typer.Option(help='On the hook; else a maggot. "none": bare.')] = "",
    sinks: Annotated[str, typer.Option(help='Your timing of it: "1 m in 24 s".')] = "",
    hook_mass: Annotated[
        str, typer.Option("--hook-mass", help='Your weighing of the hook: "0.2 g for 20".')
    ] = "",
    float_mass: Annotated[
        str, typer.Option("--float-mass", help='Of the float, without shot: "2.4 g".')
    ] = "",
    fished: Annotated[
        str, typer.Option(help='"off bottom", "dead depth", "over 2 in"; else as the recipe says.')
    ] = "",
    plumbed: Annotated[str, typer.Option(help='Or the depth of the water: "1.6 m".')] = "",
    water: Water = "",
    wind: Annotated[str, typer.Option(help='From float to bait: "4 m/s", "10 mph".')] = "",
    seen: Annotated[str, typer.Option(help="How little of the tip you see move; else 4 mm.")] = "",
    away: Annotated[str, typer.Option(help="Or how far off the float is.")] = "",
    seconds: Annotated[str, typer.Option(help="How long to look at it.")] = "",
    held: Annotated[
        bool, typer.Option("--held", help="A tight line keeps the float in its place.")
    ] = False,
    beside: Annotated[
        list[str] | None,
        typer.Option(
            help='Beside it: "bulk down 10 cm", "strung out", "bait caster", "hooklength 20 cm", '
            '"recipe NAME".'
        ),
    ] = None,
    bite_at: Annotated[
        str, typer.Option("--bite-at", help="A fish holds the bait at this depth.")
    ] = "",
    feeder_in: Annotated[
        str, typer.Option("--feeder-in", help="A feeder rig's fall, in water so deep.")
    ] = "",
    feeder_sinks: Annotated[
        str, typer.Option("--feeder-sinks", help='Counted down: "3 m in 4 s".')
    ] = "",
    tow: Annotated[bool, typer.Option("--tow", help="How far the wind drags the bait.")] = False,
    svg: Annotated[Path | None, typer.Option(help="Draw it: the SVG to write.")] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over an older file.")] = False,
    why: Why = False,
    as_json: Json = False,
) -> None:
    """Say how a rig falls: when the bait is down, what the tip shows, when to strike."""
    from tacklebox.desk import settling

    fishing = settling.Fishing(
        bait, sinks, hook_mass, float_mass, fished, plumbed, water, wind, seen, away, seconds
    )
    asked = settling.FallQuestion(
        recipe, pairs(chosen, "--set"), pairs(use, "--use"), fishing, held
    )
    if feeder_in or tow or (bite_at and svg is None):
        _ask_else(context, asked, bite_at, feeder_in, feeder_sinks, as_json)
        return
    found, _ = settling.drawn(
        desk_of(context), asked, beside or (), to=svg, overwrite=replace, bite_at=bite_at
    )
    if as_json:
        show_answer(found)
        return
    _show(found, why)
    if svg is not None:
        say(f"Drew it: {svg}")


def _ask_else(
    context: typer.Context,
    asked: "FallQuestion",
    bite_at: str,
    feeder_in: str,
    feeder_sinks: str,
    as_json: bool,
) -> None:
    """A feeder's hooklength, a bite on the drop, or the tow."""
    from tacklebox.desk import settling

    desk = desk_of(context)
    if feeder_in:
        swung = settling.swing(desk, asked, feeder_in, sinks=feeder_sinks)
        if as_json:
            show_answer(swung)
            return
        say_folded(
            f"{swung.recipe}: the feeder is down after {swung.feeder_s:.0f} s, its hooklength of "
            f"{units.nearly(swung.length_mm)} with {swung.bait} lies {_band(swung.bait_after_s)} s "
            "after it."
        )
        _notes(swung.notes, swung.unproven)
    elif bite_at:
        held = settling.bite(desk, asked, bite_at)
        if as_json:
            show_answer(held)
        else:
            _show_bite(held)
    else:
        towed = settling.tow(desk, asked)
        if as_json:
            show_answer(towed)
            return
        (cm, share), (m, far) = units.small(), units.far()
        say_folded(
            f"{towed.recipe}: the wind moves the surface at {100 * share * towed.surface_m_s:.0f} "
            f"{cm}/s. When the bait is down, after {_band(towed.after_s)} s, it is "
            f"{_band(towed.dragged_m, 1, far)} {m} downwind of where it would be in still water, "
            f"the float {_band(towed.float_m, 1, far)} {m}; then the bait goes on by "
            f"{_band(towed.per_minute_m, 1, far)} {m} a minute."
        )
        _notes(towed.notes, towed.unproven)


def _show(found: "Settles", why: bool) -> None:
    for one in found.patterns:
        _show_head(one)
    rows = [
        (
            one.what,
            _band(one.half_s),
            _band(one.nine_tenths_s),
            _band(one.down_s),
            f"{one.settled_by_s} s" if one.settled_by_s is not None else "not said",
        )
        for one in found.patterns
    ]
    show_table(["s, tight–slack", "half down", "nine tenths", "down", "settled by"], rows, 0)
    first = found.patterns[0]
    if first.shot:
        say()
        show_table(
            ["shot", "above the hook", "in place after, s"],
            [(s.shot, units.nearly(s.above_hook_mm), _band(s.after_s)) for s in first.shot],
            0,
        )
    say()
    unit, share = units.small()
    show_table(
        ["bait passes", "after, s", "for, s", f"{unit}/s", f"{unit} from the float's cast"],
        [
            (
                units.between(x.from_mm, x.to_mm),
                _band(x.enters_s),
                _band(x.takes_s),
                _band(x.speed_cm_s, 1, share),
                _band(x.aside_m, 0, 100 * share),
            )
            for x in first.layers
        ],
        4,
    )
    _show_tip(found.patterns)
    _notes((), found.unproven)
    if why:
        for fact in first.facts:
            say_folded(str(fact), "    ")


def show_in_short(found: "Settles") -> None:
    """How the first pattern falls, in a few lines."""
    say()
    first = found.patterns[0]
    _show_head(first)
    say_folded(
        f"Bait half down after {_band(first.half_s)} s, nine tenths after "
        f"{_band(first.nine_tenths_s)} s, down after {_band(first.down_s)} s.",
        "  ",
    )
    _notes((), found.unproven)


def _show_head(one: "Fell") -> None:
    start = one.name if one.what == "as it is" else one.what
    set_ = f", {one.fished}" if one.fished else ""
    say_folded(f"{start}: {one.bait}, {units.nearly(one.length_mm)} to the hook{set_}.")
    if one.settled_by_s is not None and one.tip_says == "settles":
        say_folded(f"Settled by {one.settled_by_s} s, else strike.", "  ")
    elif one.tip_says == "nothing":
        say_folded("The tip tells nothing of the fall: too little goes down the line.", "  ")
    for note in one.notes:
        say_folded(f"Mind: {note.says}.", "  ")


def _show_tip(patterns: "Sequence[Fell]") -> None:
    """What the tip shows, second by second as far as there is room for the rows."""
    shown = [one for one in patterns if one.tip_mm]
    if not shown:
        return
    last = max(len(one.tip_mm) for one in shown) - 1
    every = max(1, -(-last // MOST_TIPS))
    rows = [
        (
            f"{second} s",
            *(
                _band(one.tip_mm[second], 0) if second < len(one.tip_mm) else ""
                for one in shown[:4]
            ),
        )
        for second in range(0, last + 1, every)
    ]
    say()
    show_table(["tip, mm", *(one.what for one in shown[:4])], rows, 1)


def _show_bite(held: "HeldBite") -> None:
    seen = held.seen_after_s
    said = (
        f"shows {_band(seen, 1)} s after the take"
        if seen.tight is not None and seen.slack is not None
        else "may stay unseen"
    )
    say_folded(
        f"{held.recipe}: a fish that holds the bait still at {units.nearly(held.depth_mm)} takes it "
        f"after {_band(held.taken_s)} s and {said} (by {held.seen_mm:.0f} mm of tip)."
    )
    rows = [
        (
            units.between(x.from_mm, x.to_mm),
            _band(x.seen_after_s, 1),
            "may stay unseen"
            if x.seen_after_s.tight is None or x.seen_after_s.slack is None
            else "",
        )
        for x in held.layers
    ]
    show_table(["bait held at", "seen after, s", ""], rows, 2)
    _notes(held.notes, held.unproven)


def _notes(notes: "Sequence[Note]", unproven: str) -> None:
    for note in notes:
        say_folded(f"Mind: {note.says}.")
    say_folded(f"All figures are {unproven}. Tight line first, slack one after the dash.")


def _band(band: "Band", decimals: int = 0, times: float = 1) -> str:
    """Tight to slack, "never" for what does not come."""
    tight, slack = (
        "never" if value is None else f"{times * value:.{decimals}f}".replace("-", "−")
        for value in (band.tight, band.slack)
    )
    if tight == slack:
        return tight
    return f"{tight} to {slack}" if "−" in tight + slack else f"{tight}–{slack}"
