"""``tacklebox venue``: waters and their rules, and what they say to a rig."""

from datetime import date
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import PLAIN, Json, Set, box_of, pairs, resolved_recipe, shelf_of
from tacklebox.cli.output import fold_refusal, say, say_folded, show_json, show_table

if TYPE_CHECKING:
    from tacklebox.matches.before.venue_rules import Ruling
    from tacklebox.matches.files.venue import Venue, Venues

app = typer.Typer(
    help="Waters and their rules: list, show, start one, judge rigs and keepnets.",
    no_args_is_help=True,
    **PLAIN,
)
VenueArg = Annotated[str, typer.Argument(metavar="VENUE", help="A venue's name.")]


def venues_of(context: typer.Context) -> "Venues":
    """The venues of the box."""
    from tacklebox.matches.files.venue import Venues

    return Venues(box_of(context).folder / "venues")


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the venues of the box."""
    from tacklebox.matches.files.venue import START

    venues = venues_of(context)
    told, faulty = venues.files.load_each(venues.load)
    rows = [(v.stem, v.name, v.water, v.depths or "") for v in told]
    if as_json:
        keys = ("venue", "name", "water", "depths")
        show_json([dict(zip(keys, row, strict=True)) for row in rows])
    elif rows:
        show_table(["venue", "name", "water", "depths"], rows)
    else:
        say(f"No venue is in the box. `{START}` writes a first one.")
    for fault in faulty:
        typer.echo(fold_refusal(str(fault)), err=True)


@app.command()
def start(context: typer.Context, venue: VenueArg) -> None:
    """Write a commented starting file for a venue."""
    from tacklebox.matches.files.venue import write_starting_venue

    path = write_starting_venue(venues_of(context).folder, venue)
    say(f"Wrote {path}")
    say(f"Edit it, then try `tacklebox venue show {path.stem}`.")


@app.command()
def show(context: typer.Context, venue: VenueArg, as_json: Json = False) -> None:
    """Show a venue, its rules and its cautions."""
    told = venues_of(context).load(venue)
    if as_json:
        show_json(told.model_dump(mode="json"))
        return
    lines = "yes, keep 30 m away" if told.overhead_lines else "none noted; look up all the same"
    rows = [("water", told.water), ("depths", told.depths or ""), ("overhead lines", lines)]
    rows += [("notes", told.notes)] if told.notes else []
    for key, value in told.rules:
        if value:
            text = (
                "yes" if value is True else ", ".join(value) if isinstance(value, tuple) else value
            )
            rows.append((key.replace("_", " "), text))
    rows += [("keepnet", words) for words in told.keepnet.words(told.under)]
    rows += [("read yourself", words) for words in told.read]
    show_table([told.stem, told.name], rows)
    defer()


def defer() -> None:
    """Say what always comes first."""
    from tacklebox.trade.law import DEFERS

    say_folded(f"{DEFERS[0].upper()}{DEFERS[1:]}.")


@app.command()
def judge(
    context: typer.Context,
    venue: VenueArg,
    recipes: Annotated[
        list[str] | None, typer.Argument(metavar="RECIPE...", help="Rigs or hooklengths.")
    ] = None,
    chosen: Set = None,
    on: Annotated[str, typer.Option("--on", help="The day, like 2026-06-20; else today.")] = "",
    groundbait: Annotated[
        str | None, typer.Option(help='Groundbait to be taken, dry, like "1.5 kg".')
    ] = None,
    as_json: Json = False,
) -> None:
    """Judge rigs as stock serves them, and the day, by the venue's rules; exit 1 if any fails."""
    from tacklebox.matches.before.venue_rules import Verdict, judge_day

    place = venues_of(context).load(venue)
    day = read_day(on)
    judged = [("", judge_day(place, day, _mass(groundbait)))]
    judged += _judged_rigs(context, place, recipes or [], pairs(chosen, "--set"))
    if as_json:
        show_json(_as_json(place, day, judged))
    else:
        _show_judged(place, day, judged)
    if any(r.verdict is Verdict.NOT_ALLOWED for _, rulings in judged for r in rulings):
        raise typer.Exit(1)


@app.command()
def keepnet(
    context: typer.Context,
    venue: Annotated[
        str | None, typer.Argument(metavar="VENUE", help="A venue; else the byelaws alone.")
    ] = None,
    length: Annotated[str | None, typer.Option(help='How long it is: "3 m".')] = None,
    rings: Annotated[str | None, typer.Option(help='From ring to ring: "30 cm".')] = None,
    ring: Annotated[str | None, typer.Option(help='A ring, all around: "130 cm".')] = None,
    round_: Annotated[
        str | None, typer.Option("--round", help='A round ring, across: "45 cm".')
    ] = None,
    square: Annotated[
        str | None,
        typer.Option(help='A square or oblong ring, its shorter side: "40 cm".'),
    ] = None,
    hole: Annotated[
        str | None, typer.Option(help='A hole of the mesh, all around: "20 mm".')
    ] = None,
    knotless: Annotated[
        bool | None, typer.Option("--knotless/--knotted", help="Whether the mesh has knots.")
    ] = None,
    metal: Annotated[
        bool | None, typer.Option("--metal/--no-metal", help="Whether the mesh is of metal.")
    ] = None,
    nets: Annotated[int | None, typer.Option(min=1, help="How many at a time.")] = None,
    as_json: Json = False,
) -> None:
    """Judge a keepnet by the byelaws and the venue's rules; exit 1 if it fails any."""
    from tacklebox.cli.common import at
    from tacklebox.matches.before.venue_rules import Verdict, judge_net, worst_verdict
    from tacklebox.trade.keepnet import Keepnet
    from tacklebox.trade.law import DEFERS
    from tacklebox.trade.quantities import read_length_mm

    place = venues_of(context).load(venue) if venue else None

    def read(option: str, text: str | None) -> float | None:
        return at(option, read_length_mm, text) if text else None

    net = Keepnet(
        read("--length", length),
        read("--rings", rings),
        read("--ring", ring),
        read("--hole", hole),
        knotless,
        read("--round", round_),
        read("--square", square),
        metal,
    )
    rulings = judge_net(place, net, nets)
    if as_json:
        rules = [ruling_as_json(r) for r in rulings]
        worst = worst_verdict(rulings)
        show_json({"verdict": worst, "rules": rules, "comes_first": DEFERS})
    else:
        for ruling in rulings:
            show_ruling(ruling)
        say()
        defer()
    if any(r.verdict is Verdict.NOT_ALLOWED for r in rulings):
        raise typer.Exit(1)


def read_day(text: str) -> date:
    """A day, past or coming; today when nothing is said. Raises AskedWronglyError for no date."""
    from tacklebox.errors import AskedWronglyError

    if text.strip().lower() in ("", "today"):
        return date.today()
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        raise AskedWronglyError(
            f'"{text}" is no date.', where="--on", right='Write it like "2026-06-20".'
        ) from None


def _mass(text: str | None) -> float | None:
    from tacklebox.errors import AskedWronglyError
    from tacklebox.trade.quantities import read_mass_g

    try:
        return read_mass_g(text) if text else None
    except AskedWronglyError as error:
        raise error.at("--groundbait") from None


def _judged_rigs(
    context: typer.Context, place: "Venue", names: list[str], chosen: dict[str, str]
) -> "list[tuple[str, list[Ruling]]]":
    from tacklebox.errors import AskedWronglyError
    from tacklebox.matches.before.venue_rules import judge_rig
    from tacklebox.rigs.tying.tie import fit_and_check

    box = box_of(context)
    shelf, judged, unused = shelf_of(box), [], set(chosen)
    for name in dict.fromkeys(names):
        recipe = shelf.load(name)
        below = [shelf.load(h) for h in recipe.hooklengths]
        known = {*recipe.choose, "hooklength", *(k for h in below for k in h.choose)}
        own = {k: v for k, v in chosen.items() if k in known or len(names) == 1}
        unused -= set(own)
        fitted = fit_and_check(box, resolved_recipe(shelf, name, own)).fit
        judged.append((recipe.stem, judge_rig(place, fitted)))
    if unused:
        raise AskedWronglyError(
            f"no recipe that is named lets one choose: {', '.join(sorted(unused))}.",
            where="--set",
            right="`tacklebox recipe show RECIPE` tells what can be chosen.",
        )
    return judged


def show_ruling(ruling: "Ruling") -> None:
    """Print one ruling: the answer, the rule, the part, what would pass."""
    part = f": {ruling.part}" if ruling.part else ""
    says = f": {ruling.says}" if ruling.says else ""
    right = f". Would pass: {ruling.would_pass}" if ruling.would_pass else ""
    text = f"{ruling.verdict.upper()}: {ruling.rule.rstrip('.')}{part}{says}{right}"
    say_folded(text.rstrip(".") + ".")


def _show_judged(place: "Venue", day: date, judged: "list[tuple[str, list[Ruling]]]") -> None:
    from tacklebox.matches.before.venue_rules import worst_verdict
    from tacklebox.trade.law import POWER_LINES

    say(f"{place.name}, {place.water}, {day}")
    if place.overhead_lines:
        say_folded(f"OVERHEAD LINES NEARBY. {POWER_LINES.says}")
    for name, rulings in judged:
        if name:
            say()
            say(f"{name}: {worst_verdict(rulings)}")
        for ruling in rulings:
            show_ruling(ruling)
    say()
    defer()


def ruling_as_json(ruling: "Ruling") -> dict[str, str]:
    """A ruling for JSON."""
    return {
        "rule": ruling.rule,
        "about": ruling.key or "",
        "verdict": ruling.verdict,
        "part": ruling.part,
        "says": ruling.says,
        "would_pass": ruling.would_pass,
    }


def _as_json(place: "Venue", day: date, judged: "list[tuple[str, list[Ruling]]]") -> dict[str, Any]:
    from tacklebox.matches.before.venue_rules import worst_verdict
    from tacklebox.trade.law import DEFERS

    told = [
        {
            "recipe": name or None,
            "verdict": worst_verdict(rulings),
            "rules": [ruling_as_json(r) for r in rulings],
        }
        for name, rulings in judged
    ]
    return {
        "venue": place.stem,
        "on": str(day),
        "overhead_lines": place.overhead_lines,
        "day": told[0],
        "rigs": told[1:],
        "comes_first": DEFERS,
    }
