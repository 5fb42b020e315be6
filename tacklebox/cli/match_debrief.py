"""``tacklebox match debrief``: what became of what was taken; ``match did-well``: what worked."""

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, desk_of, pairs
from tacklebox.cli.debrief_rows import answers_shown, show_answers
from tacklebox.cli.match_options import MatchArg
from tacklebox.cli.output import say, say_folded, show_answer, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.debriefs import DebriefShown, TackleMoved

Codes = list[str] | None
CHANGED = ("hooklength", "depth", "shot_now", "carries", "note")


def debrief(
    context: typer.Context,
    match: MatchArg,
    back: Annotated[
        Codes, typer.Option("--back", help="Rigs that came back, by their codes.")
    ] = None,
    lost: Annotated[
        Codes, typer.Option("--lost", help='Rigs that were lost; hooklengths: "18 to 0.10=3".')
    ] = None,
    worn_out: Annotated[
        Codes, typer.Option("--worn-out", help="Rigs, or hooklengths, that are worn out.")
    ] = None,
    not_taken: Annotated[
        Codes,
        typer.Option("--not-taken", help="Rigs of the bag that stayed at home after all."),
    ] = None,
    well: Annotated[
        Codes,
        typer.Option("--did-well", help="Rigs that did well; they came back unless you say more."),
    ] = None,
    tackle: Annotated[
        Codes,
        typer.Option(
            "--tackle-lost",
            help='Tackle lost beside rigs: "hook 20=3"; "hook 20=0" for none.',
        ),
    ] = None,
    changed: Annotated[
        Codes,
        typer.Option(
            "--changed",
            help='A rig that came back as another: "A01T depth=1.1 m", hooklength, shot-now, carries, note.',
        ),
    ] = None,
    weight: Annotated[
        str | None, typer.Option(help='Weighed in: "5.4 kg", "12 lb 8", "12-8"; 0 for a blank.')
    ] = None,
    peg: Annotated[str | None, typer.Option(help="The peg.")] = None,
    notes: Annotated[str | None, typer.Option(help="What worked, in your words.")] = None,
    section: Annotated[str | None, typer.Option(help="The section.")] = None,
    place: Annotated[str | None, typer.Option(help='Where you came: "3rd of 20".')] = None,
    points: Annotated[str | None, typer.Option(help="The points that it gave.")] = None,
    water: Annotated[str | None, typer.Option(help="The water's temperature: 9 C.")] = None,
    record: Annotated[
        Path | None,
        typer.Option("--from", help="The record of the page for the water; it fills all this in."),
    ] = None,
    clock: Annotated[
        str, typer.Option(help='By how much the phone\'s clock is put: "-1 h", "as it is".')
    ] = "",
    correct: Annotated[
        bool,
        typer.Option(
            "--correct",
            help="Change the debrief there is: what is not named stays as it stood, a rig or item "
            'named again becomes what is said now, "none" clears --weight, --peg or --notes.',
        ),
    ] = False,
    show: Annotated[
        bool, typer.Option("--show", help="Show the debrief there is; ask nothing.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Say what became of what was taken; with no answers given, it asks for each.

    All is written at once, or nothing.
    """
    from tacklebox.desk import debriefs

    named = (back, lost, worn_out, not_taken, well, tackle, changed)
    single = (weight, peg, notes, section, place, points, water)
    answered = any((*named, *single)) or (correct and any(said is not None for said in single))
    answers = debriefs.DebriefAnswers(
        back or (),
        lost or (),
        worn_out or (),
        not_taken or (),
        well or (),
        pairs(tackle, "--tackle-lost"),
        weight,
        peg,
        notes,
        section=section,
        place=place,
        points=points,
        water=water,
        changed=_changed(changed),
    )
    desk = desk_of(context)
    if show:
        if answered or correct:
            raise AskedWronglyError(
                "--show goes with no other option than --json.", right="It changes nothing."
            )
        _show_debrief(debriefs.show(desk, match), match, as_json)
        return
    if record is not None:
        from tacklebox.cli.match_water import read_record, show_record
        from tacklebox.desk import bank

        found = read_record(desk, match, record, clock)
        answers, answered = bank.filled(found, answers), True
        if not as_json:
            show_record(found)
    if answered:
        written = debriefs.write(desk, match, answers, correct=correct, only_changes=correct)
    else:
        asked = debriefs.form(desk, match)
        if as_json or not sys.stdin.isatty():
            raise _nothing_said(asked.match)
        from tacklebox.cli.match_walk import walk

        done = walk(desk, asked)
        if done is None:
            say("Nothing was written.")
            raise typer.Exit(1)
        written = done
    if as_json:
        show_answer(written)
        return
    if answered and (correct or record):
        show_answers(answers_shown(written))
    if written.back_in_stock:
        say_folded(f"Back in stock: {_in_words(written.back_in_stock)}.")
    for was, now in written.changed.items():
        say_folded(f"{was} is {now} now; `tacklebox labels {now}` prints its label.")
    _say_counts(written)
    _ask_of_bag(written)


def _changed(said: Codes) -> dict[str, dict[str, str]]:
    """What was changed on rigs, by their codes."""
    found: dict[str, dict[str, str]] = {}
    for words, value in pairs(said, "--changed").items():
        code, _, what = words.partition(" ")
        name = what.strip().replace("-", "_")
        if name not in CHANGED:
            raise AskedWronglyError(
                f'"{words}" does not say what was changed.',
                where="--changed",
                right='Write it like "A01T depth=1.1 m"; hooklength, depth, shot-now, carries or note.',
            )
        found.setdefault(code, {})[name] = value
    return found


def _nothing_said(match: str) -> AskedWronglyError:
    return AskedWronglyError(
        "nothing is said of the match, and there is no terminal to ask at.",
        where=f"debrief of {match}",
        right="Say --back, --lost, --worn-out, --did-well CODE, --tackle-lost ITEM=AMOUNT, "
        '--weight, --peg or --notes; for a day that cost nothing, --notes "nothing lost".',
    )


def _ask_of_bag(shown: "DebriefShown") -> None:
    """What was in the bag beside rigs and is not said to have come home."""
    from tacklebox.cli.match_bag import show_not_said

    not_said = tuple(line.words for line in shown.bag if line.became == "not said")
    show_not_said(shown.match, not_said)


def _say_counts(written: "DebriefShown") -> None:
    from tacklebox.desk.answers import write_day

    counts = f"{len(written.back)} back, {len(written.lost)} lost, {len(written.worn_out)} worn out"
    if written.tackle_lost:
        counts += f"; lost beside rigs: {_in_words(written.tackle_lost)}"
    day = write_day(written.on, with_year=True)
    say_folded(f"{written.match}, {day}: {counts}. `tacklebox undo` takes it back.")


def _in_words(moved: "Sequence[TackleMoved]") -> str:
    return ", ".join(
        one.name if one.amount.value == 1 else f"{one.amount} × {one.name}" for one in moved
    )


def _show_debrief(found: "DebriefShown | None", match: str, as_json: bool) -> None:
    from tacklebox.desk.answers import write_day

    if found is None:
        raise AskedWronglyError(
            f"{match} is not debriefed yet.", right=f"`tacklebox match debrief {match}` does it."
        )
    if as_json:
        show_answer(found)
        return
    day = write_day(found.on, with_year=True)
    say_folded(f"Debrief of {found.match}, {day}, {found.venue}.")
    show_answers(
        [
            *answers_shown(found),
            ("back in stock", _in_words(found.back_in_stock)),
            *((f"{was} is now", now) for was, now in found.changed.items()),
            *_rows_of_bag(found),
        ]
    )


def _rows_of_bag(found: "DebriefShown") -> list[tuple[str, str]]:
    """What was in the bag, by what became of it."""
    by: dict[str, list[str]] = {}
    for line in found.bag:
        gone = f" ({line.gone})" if line.gone else ""
        by.setdefault(line.became.value, []).append(f"{line.rig or line.words}{gone}")
    return [(f"of the bag, {became}", "; ".join(lines)) for became, lines in by.items()]


def did_well(
    context: typer.Context,
    venue: Annotated[str, typer.Option(help="At this venue only.")] = "",
    season: Annotated[str, typer.Option(help="spring, summer, autumn or winter only.")] = "",
    method: Annotated[str, typer.Option(help="float, feeder or pole only.")] = "",
    as_json: Json = False,
) -> None:
    """Find rigs that did well, the latest first."""
    from tacklebox.desk import debriefs
    from tacklebox.desk.answers import write_day

    found = debriefs.did_well(desk_of(context), venue=venue, season=season, method=method)
    if as_json:
        show_answer(found)
    elif found:
        days = {one.on: write_day(one.on, with_year=True) for one in found}
        rows = [(one.code, one.rig, one.method, one.venue, days[one.on], one.peg) for one in found]
        show_table(["code", "rig", "method", "venue", "on", "peg"], rows)
        for one in {one.match: one for one in found}.values():
            words = ", ".join(words for words in (one.weight, one.notes) if words)
            if words:
                say_folded(f"{days[one.on]}, {one.venue}: {words}")
    else:
        say("No rig did well there yet, as far as the debriefs say.")
