"""``tacklebox match tie``: all that the plan says, in one go, with its labels and tie sheets."""

from collections.abc import Sequence
from contextlib import nullcontext
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import (
    DoubtfulFrom,
    Json,
    On,
    SoundFrom,
    box_of,
    day,
    desk_of,
)
from tacklebox.cli.match_files import MatchArg, Page, Replace, plan_of, refuse_unwritable
from tacklebox.cli.output import say, say_folded, say_unprintable, show_json, show_table
from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError

if TYPE_CHECKING:
    from tacklebox.desk.labels import OnPaper, StartPlace
    from tacklebox.matches.before.plan import Plan
    from tacklebox.matches.files.match import Match
    from tacklebox.matches.files.venue import Venue
    from tacklebox.rigs.tying.tie import Tying
    from tacklebox.stock.care.box import Box
    from tacklebox.stock.tables import Item


def tie(
    context: typer.Context,
    match: MatchArg,
    labels: Annotated[Path | None, typer.Option(help="Print their labels to this PDF.")] = None,
    paper: Annotated[str, typer.Option(help="The labels' paper; see `paper list`.")] = "a4-65",
    start: Annotated[
        str, typer.Option(help='First place on a part-used sheet: a number, or "next".')
    ] = "1",
    skip: Annotated[
        list[int] | None, typer.Option(help="A spoiled place to leave empty; again for more.")
    ] = None,
    sheets: Annotated[Path | None, typer.Option(help="Print their tie sheets to this PDF.")] = None,
    page: Page = "a4",
    replace: Replace = False,
    because: Annotated[str, typer.Option(help="Why to go on where a check refuses.")] = "",
    despite_rules: Annotated[
        bool, typer.Option("--despite-rules", help="Tie what the venue does not allow, too.")
    ] = False,
    sound_from: SoundFrom = "",
    doubtful_from: DoubtfulFrom = "",
    on: On = "",
    as_json: Json = False,
) -> None:
    """Tie all that the plan says, from the items it chose: everything at once, or nothing."""
    from tacklebox.desk.asking import chances
    from tacklebox.desk.labels import OnPaper
    from tacklebox.desk.notices import each_second
    from tacklebox.matches.before.tie_plan import check_portions, portions_of, tie_portions
    from tacklebox.printing.pages.tie_sheet import write_tie_sheets
    from tacklebox.printing.pdf import write_aside

    limits = chances(sound_from, doubtful_from)
    box, tied_on = box_of(context), day(on)
    wanted = _start_place(context, labels, OnPaper(paper, start, skip or (), replace=replace))
    _look_at_sheets(sheets, labels, page, replace)
    told, venue, plan = plan_of(context, match, limits, despite_rules=despite_rules)
    portions = portions_of(plan)
    if not portions:
        _show_nothing(told, plan, as_json)
        return
    if not despite_rules:
        _refuse_not_allowed(box, told, venue, plan)
    # Tie sheets need no codes, so they go first: where they fail nothing is tied yet.
    with write_aside(sheets, overwrite=replace) if sheets else nullcontext() as aside:
        if aside is not None:
            checked = check_portions(box, portions, limits)
            printed = write_tie_sheets(checked, aside, tied_on, page=page)
        count = sum(portion.count for portion in portions)
        done = tie_portions(
            box, portions, tied_on, because=because, limits=limits, as_of=plan.as_of,
            progress=each_second(desk_of(context), count, "tied"),
        )  # fmt: skip
    if as_json:
        show_json(_as_json(told, plan, done, sheets, labels))
    else:
        _show(plan, done)
        if sheets is not None:
            say(f"Tie sheets: {sheets}, {printed.pages} page{'' if printed.pages == 1 else 's'}.")
            say_unprintable(printed.unknown)
    if wanted is not None and labels is not None:
        _print_labels(context, labels, wanted, done, tied_on, quiet=as_json)


def _start_place(context: typer.Context, to: Path | None, paper: "OnPaper") -> "StartPlace | None":
    """The labels' paper and place, and whether their file can be written."""
    from tacklebox.desk.labels import start_place

    if to is None:
        return None
    place = start_place(desk_of(context), paper)
    refuse_unwritable(to, replace=paper.replace)
    return place


def _look_at_sheets(sheets: Path | None, labels: Path | None, page: str, replace: bool) -> None:
    from tacklebox.errors import nearest_word
    from tacklebox.printing.pages.tie_sheet import PAGES_MM

    if sheets is None:
        return
    if labels is not None and sheets.absolute() == labels.absolute():
        raise AskedWronglyError(
            "labels and tie sheets cannot go to one file.", where="--sheets", right="Name two."
        )
    if page.lower() not in PAGES_MM:
        raise AskedWronglyError(
            f'"{page}" is no page size.', where="--page", right=nearest_word(page, list(PAGES_MM))
        )
    refuse_unwritable(sheets, replace=replace)


def _show_nothing(told: "Match", plan: "Plan", as_json: bool) -> None:
    if as_json:
        show_json(_as_json(told, plan, [], None, None))
        return
    ready = sum(len(line.ready) for line in plan.lines)
    say(f"There is nothing to tie for {told.name}: {ready} ready.")
    _show_unmet(plan)


def _refuse_not_allowed(box: "Box", told: "Match", venue: "Venue", plan: "Plan") -> None:
    from tacklebox.matches.before.tie_plan import not_allowed
    from tacklebox.trade.law import DEFERS

    found = not_allowed(box, venue, told.day, plan)
    if not found:
        return
    lines = []
    for about, ruling in found:
        what = ": ".join(t for t in (about, ruling.rule, ruling.part, ruling.says) if t)
        right = f"; would pass: {ruling.would_pass}" if ruling.would_pass else ""
        lines.append(f"\n  {what}{right}")
    raise CannotBeDoneError(
        f"{venue.name} does not allow this; nothing was tied.{''.join(lines)}",
        right="\nAsk for what would pass in the recipe, or change the want. To tie it for another "
        "water, add --despite-rules; "
        f"at this one {DEFERS}.",
    )


def _print_labels(
    context: typer.Context,
    to: Path,
    place: "StartPlace",
    done: "Sequence[Tying]",
    on: date,
    *,
    quiet: bool,
) -> None:
    from tacklebox.cli.labels import show_printed
    from tacklebox.desk.labels import print_snapshots
    from tacklebox.rigs.tying.snapshot import Snapshot

    rigs = [rig for tying in done for rig in tying.rigs]
    snapshots = [Snapshot.from_json(rig.snapshot) for rig in rigs]
    try:
        printed = print_snapshots(
            desk_of(context), snapshots, to, place, on, tied_by=rigs[0].action_id
        )
    except BenchError as error:
        paper = place.paper.stem
        raise CannotBeDoneError(
            f"{len(rigs)} rigs are tied, but their labels were not printed: {error}",
            right=f"\nPrint them: `tacklebox labels --last --paper {paper} --to FILE.pdf`.",
        ) from None
    if not quiet:
        show_printed(printed, to)


def _show(plan: "Plan", done: "Sequence[Tying]") -> None:
    for recipe, codes in _codes(done).items():
        say_folded(f"Tied {len(codes)} × {recipe}: {', '.join(codes)}")
    doubts = {
        f"{j.outcome.upper()}: {tying.checked.fit.resolved.recipe.stem}: {j.about}: {j.says}.": None
        for tying in done
        for j in tying.checked.judgements
        if j.outcome != "sound"
    }
    for words in doubts or ["Every check is sound."]:
        say_folded(words)
    _show_unmet(plan)
    _show_left(_left(done))
    _show_cautions(plan)
    say("`tacklebox undo` takes all of it back.")


def _codes(done: "Sequence[Tying]") -> dict[str, list[str]]:
    """The codes by what was tied, in words."""
    told: dict[str, list[str]] = {}
    for tying in done:
        resolved = tying.checked.fit.resolved
        chosen = "".join(f", {name} {value}" for name, value in resolved.chosen.items())
        told.setdefault(f"{resolved.recipe.name}{chosen}", []).extend(r.code for r in tying.rigs)
    return told


def _left(done: "Sequence[Tying]") -> "list[Item]":
    """The items that were used, as the last tying left them."""
    left = {item.id: item for tying in done for item in tying.left}
    return [item for _, item in sorted(left.items(), key=lambda pair: pair[0] or 0)]


def _show_left(items: "Sequence[Item]") -> None:
    from tacklebox.stock.ledger import write_amount

    rows = []
    for item in items:
        low = " low" if item.on_hand < item.minimum else ""
        rows.append((str(item.id), item.name, write_amount(item.on_hand, item.measured) + low))
    show_table(["no.", "used", "left"], rows)


def _show_unmet(plan: "Plan") -> None:
    """What stays untied and why."""
    for line in plan.lines:
        if line.unmet:
            say_folded(f"Unmet, {line.unmet} × {line.name}: {line.because}.")
    if any(line.turned_away for line in plan.lines):
        say_folded("To tie what the venue does not allow, for another water: --despite-rules.")


def _show_cautions(plan: "Plan") -> None:
    from tacklebox.trade.law import caution_for

    cautions = [caution_for(line.resolved.recipe.method) for line in plan.lines if line.tie]
    for caution in dict.fromkeys(cautions):
        say_folded(f"CAUTION: {caution.about}: {caution.says}")


def _as_json(
    told: "Match",
    plan: "Plan",
    done: "Sequence[Tying]",
    sheets: Path | None,
    labels: Path | None,
) -> dict[str, Any]:
    return {
        "match": told.stem,
        "tied": [
            {
                "recipe": tying.checked.fit.resolved.recipe.stem,
                "chosen": dict(tying.checked.fit.resolved.chosen),
                "codes": [rig.code for rig in tying.rigs],
                "outcome": tying.checked.outcome,
            }
            for tying in done
        ],
        "unmet": [
            {
                "recipe": line.resolved.recipe.stem,
                "count": line.unmet,
                "because": line.because,
            }
            for line in plan.lines
            if line.unmet
        ],
        "left": [
            {"item": i.id, "name": i.name, "on_hand": i.on_hand, "low": i.on_hand < i.minimum}
            for i in _left(done)
        ],
        "tie_sheets": str(sheets) if sheets else None,
        "labels": str(labels) if labels else None,
    }
