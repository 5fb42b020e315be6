"""What the commands on matches share: the match, its wants, its venue, its plan."""

from contextlib import suppress
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import box_of, resolved_recipe

if TYPE_CHECKING:
    from tacklebox.matches.before.plan import Plan
    from tacklebox.matches.files.match import Match, Matches, WantedRig
    from tacklebox.matches.files.venue import Venue
    from tacklebox.rigs.recipes.resolved import Resolved

MatchArg = Annotated[str, typer.Argument(metavar="MATCH", help="A match's name.")]
Page = Annotated[str, typer.Option(help='"a4" or "a5".')]
Replace = Annotated[bool, typer.Option("--replace", help="Write over older files.")]


def matches_of(context: typer.Context) -> "Matches":
    """The matches of the box."""
    from tacklebox.matches.files.match import Matches

    return Matches(box_of(context).folder / "matches")


def plan_of(
    context: typer.Context,
    match: str,
    limits: tuple[float, float] | None = None,
    *,
    despite_rules: bool = False,
) -> "tuple[Match, Venue, Plan]":
    """A match that is still to come, its venue and its plan, checked by the ``limits``."""
    from tacklebox.cli.venues import venues_of
    from tacklebox.errors import AskedWronglyError
    from tacklebox.matches.before.holding_plan import plan_that_holds
    from tacklebox.matches.files.match import refuse_past
    from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM

    told = matches_of(context).load(match)
    refuse_past(told, date.today())
    try:
        venue = venues_of(context).load(told.venue)
    except AskedWronglyError as error:
        raise error.at(f"{told.stem}.toml, venue") from None
    rules = None if despite_rules else venue.rules
    wants = wants_of(context, told)
    return (
        told,
        venue,
        plan_that_holds(box_of(context), wants, rules, limits or (SOUND_FROM, DOUBTFUL_FROM)),
    )


def wants_of(context: typer.Context, told: "Match") -> "list[tuple[WantedRig, Resolved]]":
    """The wants of a match with their recipes; faults name the want."""
    from tacklebox.errors import AskedWronglyError
    from tacklebox.matches.before.plan import refuse_overlap
    from tacklebox.rigs.recipes.read_once import ReadOnce

    shelf, wants = ReadOnce(box_of(context).recipes), []
    for number, want in enumerate(told.want, 1):
        try:
            wants.append((want, resolved_recipe(shelf, want.recipe, dict(want.choose))))
        except AskedWronglyError as error:
            head, _, choice = error.field.partition(".")  # in a file there is no option
            where = f"choose.{choice}" if head == "set" else error.where
            fault = AskedWronglyError(error.what, where=where, right=error.right)
            raise fault.at(f"{told.stem}.toml, want {number}") from None
    try:
        refuse_overlap(wants)
    except AskedWronglyError as error:
        raise error.at(f"{told.stem}.toml") from None
    return wants


def refuse_page(page: str) -> None:
    """Raises AskedWronglyError for a page size that is none, whether or not a page is printed."""
    from tacklebox.errors import AskedWronglyError, nearest_word

    if page.lower() not in ("a4", "a5"):
        raise AskedWronglyError(
            f'"{page}" is no page size.', where="--page", right=nearest_word(page, ["a4", "a5"])
        )


class _CanBeWrittenError(Exception):
    """Breaks off a trial of writing."""


def refuse_unwritable(target: Path, *, replace: bool) -> None:
    """Try whether a PDF could be written there, and leave nothing behind.

    Raises as writing it would: AskedWronglyError, CannotBeDoneError.
    """
    from tacklebox.printing.pdf import write_aside

    with suppress(_CanBeWrittenError), write_aside(target, overwrite=replace):
        raise _CanBeWrittenError
