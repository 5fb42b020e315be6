"""``tacklebox feed``: groundbait and particles for a match, against the venue's limit."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import Json, box_of
from tacklebox.cli.output import say, show_json, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.venue import Venue

MEMORY, COMMON, OWN = "from memory", "common practice", "as you say"


def feed(
    context: typer.Context,
    match: Annotated[
        str | None, typer.Argument(metavar="MATCH", help="A match: its hours and its venue.")
    ] = None,
    hours: Annotated[float | None, typer.Option(help="Hours, without a match.")] = None,
    venue: Annotated[str | None, typer.Option(help="A venue, for its groundbait limit.")] = None,
    feeder: Annotated[str | None, typer.Option(help='What the feeder holds: "40 ml".')] = None,
    cast_every: Annotated[float, typer.Option(help="Minutes from cast to cast.")] = 5.0,
    share: Annotated[
        float | None, typer.Option(help="Percent of groundbait in the feeder; else half.")
    ] = None,
    density: Annotated[
        float | None, typer.Option(help="Grams of wet groundbait to the ml, as you weighed it.")
    ] = None,
    water: Annotated[
        float | None, typer.Option(help="Ml of water to 100 g dry, as you mix it.")
    ] = None,
    loose: Annotated[int | None, typer.Option(help="Particles fed by hand each time.")] = None,
    loose_every: Annotated[float, typer.Option(help="Minutes from time to time.")] = 2.0,
    per_pint: Annotated[
        float | None, typer.Option(help="Particles to the pint, as you counted; else maggots.")
    ] = None,
    as_json: Json = False,
) -> None:
    """Say how much groundbait, water and particles a match takes; exit 1 over the limit."""
    from tacklebox.trade import feeding as f
    from tacklebox.trade.quantities import ML_PER_PINT

    lasts, place = _where(context, match, hours, venue)
    if feeder is None and loose is None:
        raise AskedWronglyError(
            "nothing is fed.", right='Say --feeder "40 ml", or --loose 10, or both.'
        )
    rows: list[tuple[str, str, str]] = []
    told: dict[str, Any] = {"hours": lasts}
    dry = particles_ml = 0.0
    if feeder is not None:
        casts = f.times_in(lasts, cast_every)
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
            ("casts", str(casts), OWN),
            ("groundbait, dry", f"{mix.dry_g / 1000:.2f} kg", weighed),
            ("water to it", f"{mix.water_ml / 1000:.2f} l", weighed),
            ("particles in the feeder", _pints(particles_ml), COMMON if share is None else OWN),
        ]
        told |= {"casts": casts, "dry_g": dry, "water_ml": mix.water_ml, "wet_g": mix.wet_g}
    if loose is not None:
        count = loose * f.times_in(lasts, loose_every)
        by_hand = f.particle_pints(count, per_pint or f.MAGGOTS_PER_PINT)
        source = MEMORY if per_pint is None else OWN
        rows.append(("particles by hand", f"{count}, {by_hand:.2f} pints", source))
        told |= {"loose_particles": count, "loose_pints": by_hand}
        particles_ml += by_hand * ML_PER_PINT
    rows.append(("particles together", _pints(particles_ml), ""))
    told |= {"particle_pints": f.pints(particles_ml)}
    if as_json:
        over = _show_limit(place, dry, told)
        show_json(told)
    else:
        say(f"For {lasts:g} hours:")
        show_table(["what", "how much", "rests on"], rows)
        over = _show_limit(place, dry, None)
    if over:
        raise typer.Exit(1)


def _pints(volume_ml: float) -> str:
    from tacklebox.trade.feeding import pints

    return f"{pints(volume_ml):.2f} pints"


def _volume(text: str) -> float:
    from tacklebox.trade.quantities import read_volume_ml

    try:
        return read_volume_ml(text)
    except AskedWronglyError as error:
        raise error.at("--feeder") from None


def _where(
    context: typer.Context, match: str | None, hours: float | None, venue: str | None
) -> "tuple[float, Venue | None]":
    """How long it lasts, and the venue where one is known."""
    from tacklebox.cli.venues import venues_of

    if match is not None:
        from tacklebox.matches.match import Matches

        told = Matches(box_of(context).folder / "matches").load(match)
        return hours or told.hours, venues_of(context).load(venue or told.venue)
    if hours is None:
        raise AskedWronglyError("nobody knows how long.", right="Name a match, or say --hours 5.")
    return hours, venues_of(context).load(venue) if venue else None


def _show_limit(place: "Venue | None", dry_g: float, told: dict[str, Any] | None) -> bool:
    """The venue's groundbait limit; whether this is over it."""
    from tacklebox.cli.venues import defer, ruling_as_json, show_ruling
    from tacklebox.matches.rules import Verdict, judge_day

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
