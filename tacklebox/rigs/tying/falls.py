"""How a rig falls, computed once when it is tied, so that it can be kept with it.

As the recipe fishes it, with the usual bait in water of the usual temperature: what the angler timed and
weighed himself goes before what is from memory.
"""

from typing import TYPE_CHECKING

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.tying.snapshot import KeptFall
from tacklebox.stock.tables import Kind

if TYPE_CHECKING:
    from tacklebox.trade.settling.fall import Fall
    from tacklebox.trade.settling.outcome import Settling

MOST_OF_TRACK = 48  # moments of it that are kept
LINKS = (
    20  # that tying stays quick: no shipped rig settles a second sooner or later than with forty
)
NOT_AT_REST = "when it has settled is not known: it does not come to rest"
NO_FLOAT = "no float, so nothing tells when it has settled"


def kept_fall(fit: Fit) -> KeptFall | None:
    """How the fitted rig falls, or the words why that is not said; None for a hooklength."""
    resolved = fit.resolved
    if resolved.recipe.makes != "rig":
        return None
    if all(thing.kind is not Kind.FLOAT for thing in resolved.along):
        return KeptFall(NO_FLOAT)
    from tacklebox.rigs.checking.falling import as_recipe_fishes, falling_rig
    from tacklebox.trade.settling.outcome import settle

    try:
        fished = as_recipe_fishes(fit)
        falling = falling_rig(fit, fished)
        found = settle(falling.rig, links=LINKS)
    except AskedWronglyError as error:
        return KeptFall(f"not computed: {error.what.rstrip('.')}")
    return KeptFall(
        says=_says(found),
        settled_by_s=found.settled_by_s if found.tip_says == "settles" else None,
        bait=found.rig.bait.name if found.rig.bait else "",
        fished=str(resolved.fished),
        water_c=found.rig.temperature_c,
        deep_mm=found.rig.depth_mm if found.tight.bed_m is not None else found.rig.length_mm,
        has_bed=found.tight.bed_m is not None,
        rig=tuple(_as_it_ends(found.tight)),
        tight=tuple(_track(found.tight)),
        slack=tuple(_track(found.slack)) if found.slack else (),
        notes=tuple(
            note.says for note in (*falling.notes, *found.notes) if note.key != "stays under"
        ),
    )


def _says(found: "Settling") -> str:
    from tacklebox.trade.settling.outcome import TipSays

    if found.tip_says is TipSays.NOTHING:
        return "the tip tells nothing of the fall: too little goes down the line"
    if found.settled_by_s is None:
        return next((note.says for note in found.notes if note.key == "stays under"), NOT_AT_REST)
    return f"settled by {found.settled_by_s} s, else strike"


def _as_it_ends(one: "Fall") -> list[tuple[int, int, float]]:
    """From the float down, each place of shot, the hook."""
    shot: dict[int, float] = {}
    for at in one.rig.shot:
        point = one.point_at(at.above_hook_mm)
        shot[point] = shot.get(point, 0.0) + at.mass_g
    last = one.chain.points - 1
    kept = []
    for point in sorted({0, *shot, last} | _bends(one)):
        x_m, _ = one.place(one.seconds, point)
        deep_mm = round(one.depth_mm(one.seconds, point))
        kept.append((round(1000 * x_m), deep_mm, round(shot.get(point, 0.0), 3)))
    return kept


def _bends(one: "Fall") -> set[int]:
    """Every fourth point, so that line that lies or hangs in a bow is drawn so."""
    return set(range(0, one.chain.points, 4))


def _track(one: "Fall") -> list[tuple[float, int, int]]:
    """The bait's way, at moments that lie evenly in time."""
    moments = [round(one.seconds * n / MOST_OF_TRACK, 1) for n in range(MOST_OF_TRACK + 1)]
    return [(s, round(1000 * one.place(s)[0]), round(one.depth_mm(s))) for s in moments]
