"""What a verdict on a recipe rests on, as pictures: strengths, where it breaks, the float's tip, and what the
other checks went by."""

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from tacklebox.desk.asking import items_to_use, resolved_recipe
from tacklebox.desk.opening import Desk
from tacklebox.desk.recipes import Drawn
from tacklebox.errors import AskedWronglyError, CannotBeDoneError, nearest_word

if TYPE_CHECKING:
    from reportlab.graphics.shapes import Drawing

    from tacklebox.desk.judgements import Judgement
    from tacklebox.outputs import Target
    from tacklebox.printing.drawing.verdicts import Parting
    from tacklebox.rigs.checking.breaks import Breaks
    from tacklebox.rigs.checking.check import Checked
    from tacklebox.rigs.recipes.resolved import Resolved

STRENGTHS, BREAKS, TIP = "strengths", "breaks", "tip"
PICTURES = (STRENGTHS, BREAKS, TIP)
# The checks that are drawn from the figures they went by; the others' pictures are those above, or words.
JUDGED = (
    "comes-free", "step", "join", "hook-and-line", "hook-knot", "elastic", "float-held", "bulk",
    "winder",
)  # fmt: skip


def draw_verdict(
    desk: Desk,
    recipe: str,
    choices: Mapping[str, str],
    what: str,
    to: "Target | None" = None,
    *,
    replace: bool = False,
    use: Mapping[str, str] | None = None,
    which: int = 1,
) -> Drawn:
    """Draw what a verdict rests on, as stock serves the recipe now, and write the SVG where it is to go.

    ``what`` is "strengths": each joint's strength as a curve; "breaks": where it breaks and what that
    leaves a fish with; "tip": the float's tip at each stage, life size; or one of ``JUDGED``, of several
    such verdicts the one that is ``which`` in their order. Raises AskedWronglyError for
    another, or a recipe or choice that is not there; CannotBeDoneError where a strength or the tip is not
    known, or the rig has no such verdict; and as ``write_aside``.
    """
    from tacklebox.outputs import SVG, write_aside

    resolved = resolved_recipe(desk.recipes, recipe, choices)
    svg = picture_of(desk, resolved, what, which=which, use=use)
    if to is not None:
        with write_aside(to, SVG, overwrite=replace) as aside:
            aside.write(svg.encode())
    return Drawn(resolved.recipe.stem, resolved.recipe.name, svg)


def picture_of(
    desk: Desk,
    resolved: "Resolved",
    what: str,
    *,
    which: int = 1,
    use: Mapping[str, str] | None = None,
) -> str:
    """The same as SVG, of a recipe that need not be in the box yet."""
    from tacklebox.printing.drawing.rig import as_svg
    from tacklebox.rigs.tying.tie import fit_and_check

    if what not in (*PICTURES, *JUDGED):
        raise AskedWronglyError(
            f'there is no picture "{what}" of a verdict.',
            field="what",
            right=nearest_word(what, (*PICTURES, *JUDGED)),
        )
    checked = fit_and_check(desk.box, resolved, use=items_to_use(desk, use or {}))
    svg = as_svg(_drawn(desk, checked, what) if what in PICTURES else _judged(checked, what, which))
    return _life_size(svg) if what == TIP else svg


def pictures_of(judgements: "Sequence[Judgement]") -> list[tuple[str, int] | None]:
    """What each judgement's picture is asked for by, and which one it is of several; None for words."""
    found: list[tuple[str, int] | None] = []
    counted: Counter[str] = Counter()
    for one in judgements:
        what = _name_of(one)
        counted[what] += one.pictured is not None
        found.append((what, counted[what]) if one.pictured is not None else None)
    return found


def _name_of(judgement: "Judgement") -> str:
    return (judgement.key or "").replace(" ", "-")


def _judged(checked: "Checked", what: str, which: int) -> "Drawing":
    from tacklebox.printing.drawing.judged import draw_judged

    every = [j.pictured for j in checked.judgements if _name_of(j) == what and j.pictured]
    if not 1 <= which <= len(every):
        raise CannotBeDoneError(f'no check of this rig has the picture "{what}".')
    return draw_judged(every[which - 1])


def _drawn(desk: Desk, checked: "Checked", what: str) -> "Drawing":
    from tacklebox.printing.drawing.verdicts import (
        TipStage,
        draw_partings,
        draw_strengths,
        draw_tips,
    )
    from tacklebox.rigs.checking.breaks import all_breaks
    from tacklebox.rigs.checking.shotting import floats_sit
    from tacklebox.rigs.tying.describe import describe

    if what == TIP:
        sits = next(iter(floats_sit(checked.fit)), None)
        if sits is None:
            raise CannotBeDoneError(
                "no float with a known tip is on it.", right="Note its tip's diameter and length."
            )
        stages = [TipStage(stage.what, stage.shows_mm) for stage in sits.stages]
        return draw_tips(stages, sits.tip.diameter_mm, sits.tip.length_mm)
    pulls = all_breaks(checked.fit)
    if not pulls:
        raise CannotBeDoneError(
            "a strength in it is not known.", right="Pull the line, or read it off the spool."
        )
    if what == STRENGTHS:
        joints = [one.joint for one in pulls[0].breaks]
        return draw_strengths(joints)
    return draw_partings(describe(checked, "", desk.today()), _partings(checked, pulls[0]))


def _partings(checked: "Checked", pull: "Breaks") -> "list[Parting]":
    """The breaks under a pull at the hook, those together that leave a fish with the same."""
    from tacklebox.printing.drawing.verdicts import Parting
    from tacklebox.rigs.checking.breaks import heavy_by_name, places_mm
    from tacklebox.trade.breaks_first import write_chance

    places, kinds = places_mm(checked.fit), heavy_by_name(checked.fit)
    lost_below = {number: one.lost for number, one in enumerate(pull.breaks, 1)}
    together: dict[tuple[str, tuple[str, ...]], list[tuple[int, float, float]]] = {}
    for number, one in enumerate(pull.breaks, 1):
        place = places.get(one.joint.name, 0.0)
        together.setdefault((one.key, one.tows), []).append((number, place, one.chance))
    partings = []
    for (left, tows), those in together.items():
        *most, last = [str(number) for number, _, _ in those]
        numbers = f"{', '.join(most)} or {last}" if most else last
        chance = write_chance(sum(chance for _, _, chance in those))
        off = [name for name in kinds if name in lost_below[those[0][0]] and name not in tows]
        keeps = f"tows the {' and the '.join(tows)}" if tows else f"is left with {left}"
        if off:
            keeps += f", and the {' and the '.join(off)} {'come' if len(off) > 1 else 'comes'} off"
        partings.append(
            Parting(
                tuple((number, place) for number, place, _ in those),
                f"{numbers} first, {chance}: the fish {keeps}",
                frozenset(kinds.values()) - {kinds[name] for name in tows if name in kinds},
            )
        )
    return partings


def _life_size(svg: str) -> str:
    """Width and height in mm, so that it is shown and printed as large as it is."""
    import re

    from tacklebox.printing.pdf import MM

    def in_mm(found: "re.Match[str]") -> str:
        return f'{found[1]}="{float(found[2]) / MM:.2f}mm"'

    head, _, rest = svg.partition("<svg")
    tag, _, body = rest.partition(">")
    sized = re.sub(r'\b(width|height)="([0-9.]+)"', in_mm, tag)
    return f"{head}<svg{sized}>{body}"
