"""``tacklebox match debrief``: what became of what was taken; ``match did-well``: what worked."""

import sys
from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import Json, box_of, desk_of, resolved_recipe, shelf_of
from tacklebox.cli.match_options import MatchArg
from tacklebox.cli.output import say, say_folded, show_json, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.after.debrief import Debriefed, Told
    from tacklebox.matches.files.match import Match, WantedRig
    from tacklebox.rigs.recipes.resolved import Resolved
    from tacklebox.stock.tables import Item

Codes = list[str] | None
NONE = "none"  # clears what was told


def debrief(
    context: typer.Context,
    match: MatchArg,
    back: Annotated[
        Codes, typer.Option("--back", help="Rigs that came back, by their codes.")
    ] = None,
    lost: Annotated[Codes, typer.Option("--lost", help="Rigs that were lost.")] = None,
    spent: Annotated[Codes, typer.Option("--spent", help="Rigs that are worn out.")] = None,
    home: Annotated[
        Codes, typer.Option("--home", help="With --correct: rigs that were not taken after all.")
    ] = None,
    well: Annotated[Codes, typer.Option("--did-well", help="Rigs that did well.")] = None,
    gone: Annotated[
        Codes,
        typer.Option("--gone", help='Tackle lost beside rigs: "hook 20=3"; "hook 20=0" for none.'),
    ] = None,
    weight: Annotated[
        str | None, typer.Option(help='Weighed in: "5.4 kg", "12 lb 8", "12-8"; 0 for a blank.')
    ] = None,
    peg: Annotated[str | None, typer.Option(help="The peg.")] = None,
    notes: Annotated[str | None, typer.Option(help="What worked, in your words.")] = None,
    correct: Annotated[
        bool,
        typer.Option(
            "--correct",
            help="Change the debrief there is: what is not named stays as it stood, a rig or item "
            'named again is told anew, "none" clears --weight, --peg or --notes.',
        ),
    ] = False,
    show: Annotated[bool, typer.Option("--show", help="Show what was told; ask nothing.")] = False,
    as_json: Json = False,
) -> None:
    """Say what became of what was taken; with no answers given, it asks for each.

    All is written at once, or nothing.
    """
    answers = (back, lost, spent, home, well, gone, weight, peg, notes)
    answered = any(answers) or (correct and any(answer is not None for answer in answers))
    if show:
        if answered or correct:
            raise AskedWronglyError(
                "--show goes with no other option than --json.", right="It changes nothing."
            )
        _show_debrief(context, match, as_json)
        return
    from tacklebox.desk.matches import matches_of
    from tacklebox.matches.after.debrief import debrief as write
    from tacklebox.matches.after.debrief import debriefed, refuse_coming

    box, match_file, today = box_of(context), matches_of(desk_of(context)).load(match), date.today()
    refuse_coming(match_file, today)
    if answered:
        if home and not correct:
            raise AskedWronglyError(
                "a rig that was not taken need not be told.",
                where="--home",
                right="It goes with --correct.",
            )
        said, kept = _told(back, lost, spent, home, well, gone, weight, peg, notes)
        write(box, match_file, said, today, correct=correct, kept=kept if correct else None)
    elif as_json or not sys.stdin.isatty():
        raise AskedWronglyError(
            "nothing is said of the match, and there is no terminal to ask at.",
            where=f"debrief of {match_file.stem}",
            right="Say --back, --lost, --spent, --did-well CODE, --gone ITEM=AMOUNT, --weight, "
            '--peg or --notes; for a day that cost nothing, --notes "nothing lost".',
        )
    elif not _walked(context, match_file, today):
        say("Nothing was written.")
        raise typer.Exit(1)
    written = debriefed(box, match_file.stem)
    assert written is not None
    if as_json:
        show_json(_as_json(written))
        return
    if answered and correct:
        show_told(written.told)
    _show_back_in_stock(written)
    told = written.told
    counts = f"{len(told.back)} back, {len(told.lost)} lost, {len(told.spent)} spent"
    say_folded(f"{match_file.name}, {match_file.day}: {counts}. `tacklebox undo` takes it back.")


def _told(
    back: Codes,
    lost: Codes,
    spent: Codes,
    home: Codes,
    well: Codes,
    gone: Codes,
    weight: str | None,
    peg: str | None,
    notes: str | None,
) -> "tuple[Told, set[str]]":
    """What the options tell, and what is told once of a match and is not among them."""
    from tacklebox.cli.common import at, pairs
    from tacklebox.matches.after.debrief import Told

    told = Told(
        back or (), lost or (), spent or (), well or (), pairs(gone, "--gone"),
        cleared(peg or ""), at("--weight", read_weight, weight or ""), cleared(notes or ""),
        home or (),
    )  # fmt: skip
    single = {"peg": peg, "weight_g": weight, "notes": notes}
    return told, {name for name, said in single.items() if said is None}


def cleared(said: str) -> str:
    """What is said, without "none"."""
    return "" if said.strip().lower() == NONE else said.strip()


def read_weight(said: str) -> float | None:
    """What was weighed in, in g; None where nothing is told of it."""
    from tacklebox.trade.quantities import read_weighed_g

    return read_weighed_g(said) if cleared(said) else None


def show_told(told: "Told", more: "tuple[tuple[str, str], ...]" = ()) -> None:
    """Print the whole of a debrief."""
    from tacklebox.trade.quantities import write_weighed

    gone = [f"{amount} × {name}" for name, amount in told.items_lost.items()]
    rows = [
        ("back", " ".join(told.back)),
        ("lost", " ".join(told.lost)),
        ("worn out", " ".join(told.spent)),
        ("did well", " ".join(told.did_well)),
        ("lost beside", ", ".join(gone)),
        ("weighed in", "" if told.weight_g is None else write_weighed(told.weight_g)),
        ("peg", told.peg),
        ("notes", told.notes),
        *more,
    ]
    show_table(["the whole of it", ""], [(what, words or "-") for what, words in rows])


def _show_debrief(context: typer.Context, match: str, as_json: bool) -> None:
    """What was told of a match, whether or not its file can still be read."""
    from tacklebox.datafiles import check_name
    from tacklebox.desk.matches import matches_of
    from tacklebox.matches.after.debrief import debriefed

    found = debriefed(box_of(context), check_name(match, "match"))
    if found is None:
        stem = matches_of(desk_of(context)).load(match).stem
        raise AskedWronglyError(
            f"{stem} is not debriefed yet.", right=f"`tacklebox match debrief {stem}` does it."
        )
    if as_json:
        show_json(_as_json(found))
        return
    say_folded(f"Debrief of {found.debrief.match}, {found.debrief.on}, {found.debrief.venue}.")
    show_told(found.told, (("back in stock", _back_in_stock(found)),))


def _back_in_stock(written: "Debriefed") -> str:
    return ", ".join(
        item.name if amount == 1 else f"{amount} × {item.name}"
        for item, amount in written.given_back
    )


def _show_back_in_stock(written: "Debriefed") -> None:
    if written.given_back:
        say_folded(f"Back in stock: {_back_in_stock(written)}.")


def _as_json(written: "Debriefed") -> dict[str, Any]:
    from tacklebox.cli.output import row_as_json

    def amounts(moved: "Sequence[tuple[Item, int]]") -> list[dict[str, Any]]:
        return [{"item": i.id, "name": i.name, "amount": amount} for i, amount in moved]

    told = written.told
    return {
        **row_as_json(written.debrief),
        "back": told.back,
        "lost": told.lost,
        "spent": told.spent,
        "did_well": told.did_well,
        "gone": amounts(written.lost),
        "back_in_stock": amounts(written.given_back),
    }


def _walked(context: typer.Context, match: "Match", today: date) -> bool:
    """Whether the angler walked through it, and it was written."""
    from tacklebox.cli.match_walk import walk
    from tacklebox.matches.after.debrief import debrief as write
    from tacklebox.matches.after.taken import what_was_taken

    box = box_of(context)
    taken = what_was_taken(box, match, _wants(context, match))

    def write_it(told: "Told") -> None:
        write(box, match, told, today, correct=taken.before is not None)

    return walk(box, match, taken, write_it)


def _wants(context: typer.Context, match: "Match") -> "list[tuple[WantedRig, Resolved | None]]":
    """The wants; one whose recipe was changed or is gone since has none."""
    shelf = shelf_of(box_of(context))
    wants: list[tuple[WantedRig, Resolved | None]] = []
    for want in match.want:
        try:
            wants.append((want, resolved_recipe(shelf, want.recipe, dict(want.choose))))
        except AskedWronglyError:
            wants.append((want, None))
    return wants


def did_well(
    context: typer.Context,
    venue: Annotated[str | None, typer.Option(help="At this venue only.")] = None,
    season: Annotated[
        str | None, typer.Option(help="spring, summer, autumn or winter only.")
    ] = None,
    method: Annotated[str | None, typer.Option(help="float, feeder or pole only.")] = None,
    as_json: Json = False,
) -> None:
    """Find rigs that did well, the latest first."""
    from tacklebox.matches.after import debrief as debriefs
    from tacklebox.trade.quantities import write_weighed

    found = debriefs.did_well(box_of(context), venue=venue, season=season, method=method)
    rows = [
        (w.tied.code, w.made.name, w.made.method, w.debrief.venue, str(w.debrief.on), w.debrief.peg)
        for w in found
    ]
    if as_json:
        keys = ("code", "rig", "method", "venue", "on", "peg", "weight_g", "notes")
        more = [(w.debrief.weight_g, w.debrief.notes) for w in found]
        told = [dict(zip(keys, (*r, *m), strict=True)) for r, m in zip(rows, more, strict=True)]
        show_json(told)
    elif rows:
        show_table(["code", "rig", "method", "venue", "on", "peg"], rows)
        for debrief in {w.debrief.id: w.debrief for w in found}.values():
            grams = debrief.weight_g
            words = [write_weighed(grams)] if grams is not None else []
            words += [debrief.notes] if debrief.notes else []
            if words:
                say_folded(f"{debrief.on}, {debrief.venue}: {', '.join(words)}")
    else:
        say("No rig did well there yet, as far as the debriefs tell.")
