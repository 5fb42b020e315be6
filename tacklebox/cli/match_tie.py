"""``tacklebox match tie``: all that the plan says, in one go, with its labels and tie sheets."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import DoubtfulFrom, Json, On, SoundFrom, desk_of
from tacklebox.cli.labels import Paper, Skip, Start, show_printed
from tacklebox.cli.match_options import MatchArg, Page, Replace
from tacklebox.cli.output import say, say_folded, say_unprintable, show_answer, show_table

if TYPE_CHECKING:
    from tacklebox.desk.stock import Moved
    from tacklebox.desk.tie_plan import PlanTied


def tie(
    context: typer.Context,
    match: MatchArg,
    labels: Annotated[Path | None, typer.Option(help="Print their labels to this PDF.")] = None,
    paper: Paper = "",
    start: Start = "1",
    skip: Skip = None,
    sheets: Annotated[Path | None, typer.Option(help="Print their tie sheets to this PDF.")] = None,
    page: Page = "a4",
    replace: Replace = False,
    because: Annotated[str, typer.Option(help="Why to go on where a check fails.")] = "",
    despite_rules: Annotated[
        bool, typer.Option("--despite-rules", help="Tie what the venue does not allow, too.")
    ] = False,
    sound_from: SoundFrom = "",
    doubtful_from: DoubtfulFrom = "",
    on: On = "",
    as_json: Json = False,
) -> None:
    """Tie all that the plan says, from the items it chose: everything at once, or nothing."""
    from tacklebox.desk import tie_plan
    from tacklebox.desk.labels import OnPaper

    on_paper = OnPaper(paper, start, skip or (), replace=replace)
    done = tie_plan.tie(
        desk_of(context),
        match,
        tie_plan.ToPrint(labels, on_paper, sheets, page, replace),
        because=because,
        despite_rules=despite_rules,
        sound_from=sound_from,
        doubtful_from=doubtful_from,
        on=on,
    )
    if as_json:
        show_answer(done)
    elif not done.tied:
        say(f"There is nothing to tie for {done.name}: {done.ready} ready.")
        _show_unmet(done)
    else:
        _show(done)
        if sheets is not None and done.sheets:
            pages = done.sheets.pages
            say(f"Tie sheets: {sheets}, {pages} page{'' if pages == 1 else 's'}.")
            say_unprintable(done.sheets.unknown)
        if labels is not None and done.labels:
            show_printed(done.labels, labels)


def _show(done: "PlanTied") -> None:
    for one in done.tied:
        say_folded(f"Tied {one.count} × {one.name}: {', '.join(one.codes)}")
    doubts = [
        f"{j.outcome.upper()}: {one.recipe}: {j.about}: {j.says}."
        for one in done.tied
        for j in one.doubts
    ]
    for words in dict.fromkeys(doubts) or ["Every check is sound."]:
        say_folded(words)
    for one in done.tied:
        for pair in one.fails_with:
            say_folded(f"CAUTION: {one.name}: {pair.words}. Keep those for another rig.")
    _show_unmet(done)
    _show_left(done.left)
    for caution in done.cautions:
        say_folded(f"CAUTION: {caution.about}: {caution.says}")
    say("`tacklebox undo` takes all of it back.")


def _show_left(items: "Sequence[Moved]") -> None:
    rows = [
        (
            str(one.item),
            one.name,
            f"{one.on_hand}{' short' if one.short and one.on_hand.counted else ''}",
        )
        for one in items
    ]
    show_table(["no.", "used", "left"], rows)


def _show_unmet(done: "PlanTied") -> None:
    """What stays untied and why."""
    for one in done.unmet:
        say_folded(f"Unmet, {one.count} × {one.name}: {one.because}.")
    if done.not_allowed:
        say_folded("To tie what the venue does not allow, for another water: --despite-rules.")
    if done.fails:
        say_folded("To tie what fails a check, say why: --because.")
