"""``tacklebox feed``: groundbait and particles for a match, against the venue's limit."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import Json, T, at, box_of
from tacklebox.cli.output import say, say_folded, show_json, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tacklebox.matches.files.feed import Feed
    from tacklebox.matches.files.venue import Venue

MEMORY, COMMON, OWN, PUBLISHED = "from memory", "common practice", "as you say", "published *"


def feed(
    context: typer.Context,
    match: Annotated[
        str | None, typer.Argument(metavar="MATCH", help="A match: its hours and its venue.")
    ] = None,
    hours: Annotated[float | None, typer.Option(help="Hours, without a match.")] = None,
    venue: Annotated[str | None, typer.Option(help="A venue, for its groundbait limit.")] = None,
    feeder: Annotated[str | None, typer.Option(help='What the feeder holds: "40 ml".')] = None,
    cast_every: Annotated[
        float | None, typer.Option(help="Minutes from cast to cast; else 5.")
    ] = None,
    share: Annotated[
        float | None, typer.Option(help="Percent of groundbait in the feeder; else half.")
    ] = None,
    density: Annotated[
        float | None, typer.Option(help="Grams of wet groundbait to the ml, as you weighed it.")
    ] = None,
    water: Annotated[
        float | None, typer.Option(help="Ml of water to 100 g dry, as you mix it.")
    ] = None,
    loose: Annotated[
        int | None, typer.Option(help="Particles fed by hand each time, usually about 10.")
    ] = None,
    loose_every: Annotated[
        float | None, typer.Option(help="Minutes from time to time; else 2.")
    ] = None,
    per_pint: Annotated[
        float | None, typer.Option(help="Particles to the pint, as you counted; else maggots.")
    ] = None,
    casters: Annotated[
        bool,
        typer.Option("--casters", help="The particles are casters: say what maggots they take."),
    ] = False,
    as_json: Json = False,
) -> None:
    """Say how much groundbait, water and particles a match takes; exit 1 over the limit.

    What is not said here is taken from the match's own [feed].
    """
    from tacklebox.trade import feeding as f
    from tacklebox.trade.quantities import ML_PER_PINT

    _check_options({
        "hours": hours, "cast_every": cast_every, "share": share, "density": density,
        "water": water, "loose": loose, "loose_every": loose_every, "per_pint": per_pint,
    })  # fmt: skip
    lasts, place, own = _where(context, match, hours, venue)
    if own is not None:
        feeder, loose = _first(feeder, own.feeder), _first(loose, own.loose)
        cast_every = _first(cast_every, own.cast_every)
        loose_every = _first(loose_every, own.loose_every)
        share, water = _first(share, own.share), _first(water, own.water)
        density, per_pint = _first(density, own.density), _first(per_pint, own.per_pint)
    if feeder is None and loose is None:
        raise AskedWronglyError(
            "nothing is fed.", right='Say --feeder "40 ml", or --loose 10, or both.'
        )
    pint, counted = (f.MAGGOTS_PER_PINT, MEMORY) if per_pint is None else (per_pint, OWN)
    rows: list[tuple[str, str, str]] = []
    told: dict[str, Any] = {"hours": lasts}
    dry = particles_ml = 0.0
    if feeder is not None:
        casts = f.times_in(lasts, f.CAST_EVERY_MIN if cast_every is None else cast_every)
        mix = f.feeder_mix(
            casts,
            _volume(feeder),
            f.HALF if share is None else share / 100,
            f.WET_G_PER_ML if density is None else density,
            f.WATER_ML_PER_G if water is None else water / 100,
        )
        dry, particles_ml = mix.dry_g, mix.particles_ml
        weighed = OWN if density is not None and water is not None else MEMORY
        rows += [
            ("casts", str(casts), COMMON if cast_every is None else OWN),
            ("groundbait, dry", f"{mix.dry_g / 1000:.2f} kg", weighed),
            ("water to it", f"{mix.water_ml / 1000:.2f} l", weighed),
            ("groundbait, wet", f"{mix.wet_g / 1000:.2f} kg", MEMORY if density is None else OWN),
            ("groundbait in the mix", _percent(share), COMMON if share is None else OWN),
            ("particles in the feeder", _particles(particles_ml, pint), counted),
        ]
        told |= {"casts": casts, "dry_g": dry, "water_ml": mix.water_ml, "wet_g": mix.wet_g}
    if loose is not None:
        times = f.times_in(lasts, f.LOOSE_EVERY_MIN if loose_every is None else loose_every)
        where = "--loose" if own is None or loose != own.loose else f"{match}, feed.loose"
        by_hand = at(where, lambda each: f.fed_loose(each, times), loose)
        by_hand_ml = f.particle_pints(by_hand, pint) * ML_PER_PINT
        rows += [
            ("times fed by hand", f"{times}, {loose} each", COMMON if loose_every is None else OWN),
            ("particles by hand", _particles(by_hand_ml, pint), counted),
        ]
        told |= {"loose_particles": by_hand, "loose_pints": f.pints(by_hand_ml)}
        particles_ml += by_hand_ml
    rows.append(("particles together", _particles(particles_ml, pint), counted))
    together = f.pints(particles_ml)
    told |= {"particle_pints": together, "particles": round(together * pint)}
    if casters:
        maggots = together / f.caster_pints(1)
        rows.append(("maggots to turn", f"{maggots:.2f} pints", PUBLISHED))
        told["maggot_pints_to_turn"] = maggots
    if as_json:
        over = _show_limit(place, dry, told)
        show_json(told)
    else:
        say(f"For {lasts:g} hours:")
        show_table(["what", "how much", "rests on"], rows)
        if casters:
            say_folded(f"* {f.CASTERS.citation}.")
        over = _show_limit(place, dry, None)
    if over:
        raise typer.Exit(1)


def _first(said: "T | None", in_file: "T | None") -> "T | None":
    """What is said on the command line, else what the match's file says."""
    return in_file if said is None else said


def _particles(volume_ml: float, per_pint: float) -> str:
    from tacklebox.trade.feeding import pints

    return f"{pints(volume_ml):.2f} pints, {pints(volume_ml) * per_pint:.0f}"


def _percent(share: float | None) -> str:
    from tacklebox.trade.feeding import HALF

    return f"{100 * HALF if share is None else share:g} %"


def _check_options(given: "Mapping[str, float | None]") -> None:
    """Raises AskedWronglyError for a figure out of its range, by its option's name."""
    from functools import partial

    from tacklebox.trade.feeding import check_figure

    for name, figure in given.items():
        if figure is not None:
            at(f"--{name.replace('_', '-')}", partial(check_figure, name), figure)


def _volume(text: str) -> float:
    from tacklebox.trade.feeding import check_figure
    from tacklebox.trade.quantities import read_volume_ml

    return at("--feeder", lambda words: check_figure("feeder", read_volume_ml(words), words), text)


def _where(
    context: typer.Context, match: str | None, hours: float | None, venue: str | None
) -> "tuple[float, Venue | None, Feed | None]":
    """How long it lasts, the venue where one is known, and what the match says of feed."""
    from tacklebox.cli.venues import venues_of

    if match is not None:
        from tacklebox.matches.files.match import Matches

        told = Matches(box_of(context).folder / "matches").load(match)
        place = venues_of(context).load(venue or told.venue)
        return told.fed_hours if hours is None else hours, place, told.feed
    if hours is None:
        raise AskedWronglyError("nobody knows how long.", right="Name a match, or say --hours 5.")
    return hours, venues_of(context).load(venue) if venue else None, None


def _show_limit(place: "Venue | None", dry_g: float, told: dict[str, Any] | None) -> bool:
    """The venue's groundbait limit; whether this is over it."""
    from tacklebox.cli.venues import defer, ruling_as_json, show_ruling
    from tacklebox.matches.before.venue_rules import Verdict, judge_day

    if place is None:
        return False
    day = judge_day(place, None, dry_g)
    rulings = [r for r in day if r.rule.startswith("groundbait")]
    if told is not None:
        told["limit"] = [ruling_as_json(r) for r in rulings]
    else:
        for ruling in rulings:
            show_ruling(ruling)
        defer()
    return any(r.verdict is Verdict.NOT_ALLOWED for r in rulings)
