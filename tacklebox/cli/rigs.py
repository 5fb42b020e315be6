"""``tacklebox check`` and ``tie``, and ``tacklebox rigs`` for what has been tied."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import (
    NUMBER,
    PLAIN,
    DoubtfulFrom,
    Json,
    On,
    Over,
    Plumbed,
    Set,
    SoundFrom,
    Use,
    Water,
    Why,
    desk_of,
    pairs,
    with_depth,
)
from tacklebox.cli.output import say, say_folded, show_answer, show_judgement, show_table

if TYPE_CHECKING:
    from tacklebox.desk.checking import Fitted, PartServed, RigChecked, UnderPull
    from tacklebox.desk.rigs import RigEnded, Snapshot
    from tacklebox.desk.tying import RigsTied

app = typer.Typer(
    help="Tied rigs: list, add, show, strip, mark lost.", no_args_is_help=True, **PLAIN
)

Recipe = Annotated[str, typer.Argument(metavar="RECIPE", help="A recipe's name.")]
Count = Annotated[int, typer.Option("--count", "-n", help="How many.", **NUMBER)]
AtVenue = Annotated[
    str, typer.Option("--venue", help="For a water that may ask that weights come free.")
]
Codes = Annotated[list[str], typer.Argument(metavar="CODE...", help="Codes from labels.")]


def check(
    context: typer.Context,
    recipe: Recipe,
    count: Count = 1,
    chosen: Set = None,
    use: Use = None,
    why: Why = False,
    water: Water = "",
    distance: Annotated[str, typer.Option(help='Judge a cast that far too, like "40 m".')] = "",
    load: Annotated[str, typer.Option(help='What the feeder is filled with, like "25 g".')] = "",
    sound_from: SoundFrom = "",
    doubtful_from: DoubtfulFrom = "",
    settle: Annotated[bool, typer.Option("--settle", help="Say how it falls too.")] = False,
    venue: AtVenue = "",
    plumbed: Plumbed = "",
    over: Over = "",
    as_json: Json = False,
) -> None:
    """Fit a recipe to stock and say whether it holds together; nothing is tied."""
    from tacklebox.desk import checking

    checked = checking.check(
        desk_of(context),
        recipe,
        with_depth(pairs(chosen, "--set"), plumbed, over),
        count=count,
        use=pairs(use, "--use"),
        water=water,
        distance=distance,
        load=load,
        sound_from=sound_from,
        doubtful_from=doubtful_from,
        settle=settle,
        venue=venue,
    )
    if as_json:
        show_answer(checked)
        return
    _show_checked(checked, why)
    if checked.falls:
        from tacklebox.cli.settle import show_in_short

        show_in_short(checked.falls)


def _show_checked(checked: "RigChecked", why: bool) -> None:
    choices = "".join(f", {name} {value}" for name, value in checked.rig.chosen.items())
    say(f"{checked.rig.name}: {checked.count} wanted{choices}")
    _show_parts(checked.rig, "part")
    if checked.hooklength:
        say()
        _show_parts(checked.hooklength, "hooklength, tied separately")
    say()
    for judgement in checked.judgements:
        show_judgement(judgement, why)
    if why:
        for pull in checked.pulls:
            _show_pull(pull)
        say()
    missing = f"; {checked.missing} missing" if checked.missing else ""
    say(f"Outcome: {checked.outcome}{missing}")
    if checked.lead:
        names = ", ".join(f"{lead.number} {lead.name}" for lead in checked.lead)
        say_folded(f"Lead that may not weight a line is in the box: {names}. See `tacklebox law`.")


def _show_parts(fitted: "Fitted", title: str) -> None:
    show_table([title, "from stock", "takes"], list(map(_row, fitted.parts)))


def _row(part: "PartServed") -> tuple[str, str, str]:
    if part.item is None:
        if part.already:
            return part.part, f"none noted: {part.asks}", part.already
        word = "ONLY ON A REEL" if part.only_on else "MISSING"
        return part.part, f"{word}: {part.missing}", ""
    others = ", ".join(str(other.number) for other in part.others[:3])
    also = f" (or {others})" if others else ""
    on = f", on {' and '.join(part.reels)}" if part.reels else ""
    takes = part.takes.words if part.takes else part.already
    return part.part, f"{part.item.number} {part.item.name}{on}{also}", takes


def _show_pull(pull: "UnderPull") -> None:
    """Every joint in order of strength, with its chance of going first."""
    say()
    say_folded(f"{pull.what[0].upper()}{pull.what[1:]}, weakest first:")
    for one in pull.breaks:
        say_folded(f"{one.holds:>8}  {one.chance:>11} goes first: {one.joint}", "  ")
        lost, tows = ", ".join(one.lost) or "-", ", ".join(one.tows) or "-"
        say_folded(f"lost: {lost}; a fish tows: {tows}", "      ")


def tie(
    context: typer.Context,
    recipe: Recipe,
    count: Count = 1,
    chosen: Set = None,
    use: Use = None,
    because: Annotated[str, typer.Option(help="Why to go on where a check fails.")] = "",
    with_hooklength: Annotated[
        bool,
        typer.Option(
            "--with-hooklength", help="Put one on each rig, from the wallet if it can be."
        ),
    ] = False,
    venue: AtVenue = "",
    sound_from: SoundFrom = "",
    doubtful_from: DoubtfulFrom = "",
    plumbed: Plumbed = "",
    over: Over = "",
    on: On = "",
    entered_late: Annotated[
        bool,
        typer.Option("--entered-late", help="With --on: what it takes was there before that day."),
    ] = False,
    as_json: Json = False,
) -> None:
    """Tie from stock: rigs get codes, and the count of stock stays true."""
    from tacklebox.desk import tying

    tied = tying.tie(
        desk_of(context),
        recipe,
        with_depth(pairs(chosen, "--set"), plumbed, over),
        count=count,
        use=pairs(use, "--use"),
        because=because,
        with_hooklength=with_hooklength,
        venue=venue,
        sound_from=sound_from,
        doubtful_from=doubtful_from,
        on=on,
        entered_late=entered_late,
    )
    if as_json:
        show_answer(tied)
        return
    say(f"Tied {tied.count} × {tied.name}: {', '.join(tied.codes)}")
    for one in tied.hooklengths:
        say_folded(f"In the wallet, item {one.item}: {one.on_hand} × {one.name}")
    say(f"Outcome of the checks: {tied.outcome}")
    for judgement in tied.judgements:
        if judgement.outcome != "sound":
            show_judgement(judgement, why=False)
    rows = list(_left(tied))
    if rows:
        show_table(["no.", "used", "left"], rows)
    for caution in tied.cautions:
        say_folded(f"CAUTION: {caution.about}: {caution.says}")


def _left(tied: "RigsTied") -> Iterator[tuple[str, str, str]]:
    for item in tied.left:
        yield (
            str(item.item),
            item.name,
            item.on_hand.words + (" short" if item.short and item.on_hand.counted else ""),
        )


@app.command("list")
def list_(
    context: typer.Context,
    every: Annotated[bool, typer.Option("--all", help="Also stripped and lost.")] = False,
    as_json: Json = False,
) -> None:
    """List tied rigs that are ready; `tacklebox hooklengths list` has the wallet."""
    from tacklebox.desk import rigs

    tied = rigs.listed(desk_of(context), every=every)
    if as_json:
        show_answer(tied)
        return
    if not tied:
        say("No rig is tied.")
        return
    rows = []
    for one in tied:
        made = one.made
        words = (made.name, made.size, made.set_for, _depth_words(made))
        label = "labelled" if one.labelled_on else "no label"
        tied_on = str(one.tied_on or "")
        if made.in_tray_before:
            tied_on = f"{tied_on} (already)" if tied_on else "already"
        state = f"{one.state} into {one.changed_into}" if one.changed_into else one.state
        rows.append((one.code, ", ".join(filter(None, words)), state, tied_on, label))
    show_table(["code", "rig", "state", "tied", "label"], rows)


def _depth_words(made: "Snapshot") -> str:
    """The depth as it was plumbed, and what is over it."""
    return ", ".join(filter(None, (made.plumbed and f"plumbed {made.plumbed}", made.over)))


@app.command()
def add(
    context: typer.Context,
    wanted: Annotated[
        list[str], typer.Argument(metavar="RIG=COUNT...", help="Rigs that are there already.")
    ],
    chosen: Set = None,
    use: Use = None,
    plumbed: Plumbed = "",
    over: Over = "",
    on: Annotated[str, typer.Option("--on", help="The day they were tied, if you know.")] = "",
    as_json: Json = False,
) -> None:
    """Add rigs that are there already, tied before or bought: nothing is taken from stock."""
    from tacklebox.desk import rigs

    added = rigs.add(
        desk_of(context),
        pairs(wanted, "RIG=COUNT"),
        with_depth(pairs(chosen, "--set"), plumbed, over),
        use=pairs(use, "--use"),
        on=on,
    )
    if as_json:
        show_answer(added)
        return
    for one in added:
        say_folded(f"Added {len(one.codes)} × {one.name}: {', '.join(one.codes)}")
    if not on.strip():
        say_folded(
            "No day was said, so they bear none, and may have been at any match; `--on` says it."
        )
    say("Nothing was taken from stock. `tacklebox labels --last` prints their labels.")


@app.command()
def show(
    context: typer.Context,
    code: Annotated[str, typer.Argument(metavar="CODE", help="The code on its label.")],
    as_json: Json = False,
) -> None:
    """Show a tied rig by the code on its label."""
    from tacklebox.desk import rigs

    tied = rigs.show(desk_of(context), code)
    if as_json:
        show_answer(tied)
        return
    made = tied.made
    rows = [
        ("rig", made.name),
        ("for", made.purpose),
        ("carries", made.carries),
        ("rig line", made.rig_line),
        ("hooklength", made.hooklength),
        ("hook", made.hook),
        ("shot", made.shot),
        ("set for", made.set_for),
        ("plumbed", made.plumbed),
        ("fished", made.over),
        ("length", tied.length),
        ("there already", "tied before the box knew it, or bought" * made.in_tray_before),
        ("tied", ", ".join(filter(None, (str(tied.tied_on or ""), tied.state)))),
        ("checks", made.outcome),
        ("falls", tied.falls),
        ("tied all the same", tied.tied_because),
        ("changed from", f"{made.made_from}: {made.changed}" if made.made_from else ""),
        ("changed into", tied.changed_into),
    ]
    show_table([tied.code, ""], [row for row in rows if row[1]])


@app.command()
def strip(context: typer.Context, codes: Codes, on: On = "") -> None:
    """Strip rigs: float, feeder and winder go back to stock."""
    from tacklebox.desk import rigs

    _show_ended(rigs.strip(desk_of(context), codes, on=on))


@app.command()
def lost(
    context: typer.Context,
    codes: Annotated[
        list[str],
        typer.Argument(metavar="CODE...", help='Codes from labels; of hooklengths "A01T=2".'),
    ],
    on: On = "",
) -> None:
    """Mark rigs as lost: the winder goes back to stock, the rest counts as lost on that day."""
    from tacklebox.desk import rigs

    _show_ended(rigs.lose(desk_of(context), codes, on=on))


@app.command()
def change(
    context: typer.Context,
    code: Annotated[str, typer.Argument(metavar="CODE", help="The code on its label.")],
    hooklength: Annotated[
        str, typer.Option(help="One of the wallet that was put on: its number or words.")
    ] = "",
    depth: Annotated[str, typer.Option(help="From float to hook now: 1.1 m.")] = "",
    shot_now: Annotated[
        str, typer.Option(help='All of its shot now: "2 No 8 at 50 cm, 2 No 10 20–35 cm".')
    ] = "",
    carries: Annotated[
        str, typer.Option(help="The float or feeder that is on it now: its number or words.")
    ] = "",
    note: Annotated[str, typer.Option(help="What else was changed, in your words.")] = "",
    on: On = "",
    as_json: Json = False,
) -> None:
    """Write a rig that was changed as what it is now: a new code, made from the old, both kept."""
    from tacklebox.desk import rigs

    done = rigs.change(
        desk_of(context),
        code,
        hooklength=hooklength,
        depth=depth,
        shot_now=shot_now,
        carries=carries,
        note=note,
        on=on,
    )
    if as_json:
        show_answer(done)
        return
    say_folded(f"{done.was} is {done.now.code} now: {done.now.made.changed}.")
    say_folded("It was not checked as it is now. `tacklebox labels --last` prints its label.")


def _show_ended(rigs: "Sequence[RigEnded]") -> None:
    for one in rigs:
        if one.hooklengths:
            state = "thrown out" if one.state == "stripped" else one.state
            say_folded(f"{one.hooklengths} of {one.code} {state}; {one.left} left.")
            continue
        names = ", ".join(item.name for item in one.back)
        names = names or ("nothing, nothing was taken" if one.in_tray_before else "nothing")
        say_folded(f"{one.code} is {one.state}; back in stock: {names}.")
