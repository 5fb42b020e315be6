"""``tacklebox match bank`` and ``match card``: what goes to the water; the record that comes back."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, desk_of
from tacklebox.cli.match_options import MatchArg, Replace
from tacklebox.cli.output import say, say_folded, say_unprintable, show_answer
from tacklebox.cli.typed import number_typed, typed

if TYPE_CHECKING:
    from tacklebox.desk import Desk
    from tacklebox.desk.bank import Caught, RecordRead


def bank(
    context: typer.Context,
    match: MatchArg,
    to: Annotated[Path, typer.Option(help="Write it to this HTML file, for the phone.")],
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """Write one page for the water: fish, losses and changes are tapped on it, without a signal."""
    from tacklebox.desk import bank as at_the_water

    made = at_the_water.page(desk_of(context), match, to, overwrite=replace)
    if as_json:
        show_answer(made)
        return
    say_folded(
        f"Wrote {to}, {made.size / 1000:.0f} kB: {made.rigs} ready rigs, {made.hooklengths} hooklengths."
    )
    say_folded("Send it to your phone and open it there; it needs no signal, and sends nothing.")
    say_folded(f"Home again: `tacklebox match debrief {made.match} --from FILE` reads its record.")
    _say_still_to_tie(made.still_to_tie, made.match)


def card(
    context: typer.Context,
    match: MatchArg,
    to: Annotated[Path, typer.Option(help="Write it to this PDF, to be cut out and folded.")],
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """Write the card for the pocket: the same for a pen, with boxes to tick."""
    from tacklebox.desk import bank as at_the_water

    made = at_the_water.card(desk_of(context), match, to, overwrite=replace)
    if as_json:
        show_answer(made)
        return
    say_folded(f"Wrote {to}: cut it out, and fold it twice.")
    if made.left_out:
        say_folded(f"No room for {', '.join(made.left_out)}.")
    say_unprintable(made.unknown)
    _say_still_to_tie(made.still_to_tie, made.match)


def _say_still_to_tie(still_to_tie: int, match: str) -> None:
    if still_to_tie:
        say_folded(
            f"{still_to_tie} are still to be tied and not on it: after `tacklebox match tie {match}` "
            "write it again."
        )


def read_record(desk: "Desk", match: str, file: Path, clock: str) -> "RecordRead":
    """A record from its file; what is not sure is asked at a terminal, and refused without one."""
    from tacklebox.desk import bank as at_the_water

    text = at_the_water.record_text(file)
    found = at_the_water.read_record(desk, match, text, clock=clock)
    if sys.stdin.isatty():
        put_right: dict[int, str] = {}
        clock_at: dict[int, str] = {}
        while found.faults or found.clock_breaks:
            for fault in found.faults:
                say_folded(f"Line {fault.line}: {fault.what} {fault.right}")
                say_folded(f"  {fault.text}")
                put_right[fault.line] = typed("What is right? Enter leaves it out")
            for asked in found.clock_breaks:
                say_folded(f"Line {asked.line}: {asked.words} Which taps are to be put right?")
                clock_at[asked.line] = _which(asked.choices)
            found = at_the_water.read_record(
                desk, match, text, put_right=put_right, clock=clock, clock_at=clock_at
            )
        if found.clock and not clock:
            say_folded(found.clock)
            clock = _which(found.clock_choices)
            found = at_the_water.read_record(
                desk, match, text, put_right=put_right, clock=clock, clock_at=clock_at
            )
    at_the_water.refuse_doubts(found)
    return found


def _which(choices: tuple[str, ...]) -> str:
    for number, choice in enumerate(choices, 1):
        say(f"  {number}  {choice}")
    while True:
        said = typed("How is the clock to be put? Press its number [1]", "1")
        if number := number_typed(said, len(choices)):
            return choices[number - 1]


def show_record(found: "RecordRead") -> None:
    """What a record adds up to."""
    for remark in found.remarks:
        say_folded(remark)
    for heading, heaps in (("Nets", found.nets), ("Fish", found.species), ("Rigs", found.rigs)):
        if heaps:
            say_folded(f"{heading}: {'; '.join(map(_heap, heaps))}.")


def _heap(one: "Caught") -> str:
    name = f"{one.name} " if one.name else "not said "
    unweighed = f", {one.fish - one.weighed} not weighed" if one.weighed < one.fish else ""
    return f"{name}{one.fish} fish, {one.weighs}{unweighed}"
