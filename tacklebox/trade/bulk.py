"""Whether shot down the line sits as it should: a bulk of several equal shot, none lighter than a
dropper below it; strung out or as droppers, each no heavier than the one above."""

from collections.abc import Sequence
from itertools import pairwise

from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.pictured import Pinched, ShotInOrder, ShotPart
from tacklebox.trade.shot import Load, write_pattern
from tacklebox.trade.sources import BY_RECIPE, COMMON, STRUNG_OUT
from tacklebox.trade.supply import TRIMS_UP_TO_G

AT_BULK_MM = 30.0  # shot so near above a bulk holds it or trims it (our choice)
_FORMULA = (
    "shot of one size, two or more, and at most one trimming shot; none lighter than a shot below "
    "it, none above it lighter than its own"
)


def judge_bulk(
    bulk: Sequence[Load], droppers: Sequence[Load], above: Sequence[Load] = ()
) -> Judgement:
    """Whether the weights of a bulk sit together as one, above droppers that are no heavier.

    Sound: one or more olivettes, or two or more shot of one size; with either at most one trimming
    shot (No 11 to No 13) more, and nothing else in it lighter than the heaviest shot below it. Of
    what sits ``above``, between it and the float, none is lighter than its shot: each shot is no
    heavier than the one above it, or it sinks past that and hangs the rig up; one trimming shot may
    be. Else doubtful, with what would be right. Masses in g. Sources: common practice; of what is
    above, Black Country Fishing, "Shot".

    >>> from tacklebox.trade.shot import read_pattern
    >>> judge_bulk(read_pattern("6 No 8 + No 12"), read_pattern("2 No 10")).outcome.value
    'sound'
    >>> judge_bulk(read_pattern("No 5 + No 11"), read_pattern("No 8")).line
    'the bulk is one No 5 with a trimming shot; make it of two or more of one size'
    """
    rest, trimming = _without_trimming(bulk)
    sizes = list(dict.fromkeys(load.mark for load in rest))
    heaviest = max(droppers, key=lambda load: load.mass_g, default=None)
    light = [load for load in rest if heaviest and load.mass_g < heaviest.mass_g - 1e-9]
    says = remedy = ""
    if len(sizes) > 1:
        says = f"the bulk is of several sizes, {write_pattern(tuple(bulk))}"
        remedy = "make it of one size, with at most one trimming shot"
    elif light and heaviest:
        says = f"the bulk's {light[0].mark} is lighter than the {heaviest.mark} below it"
        remedy = f"make it of {heaviest.mark} or bigger, or the droppers smaller"
    elif rest and rest[0].kind != "olivette" and sum(load.count for load in rest) < 2:
        says = f"the bulk is one {rest[0].mark}" + (" with a trimming shot" if trimming else "")
        remedy = "make it of two or more of one size"
    over = [load for load in _not_trimming(above) if _is_lighter(load, rest)]
    if over and not says:
        says = f"the {over[0].mark} above the bulk is lighter than the {rest[0].mark} in it"
        remedy = f"put it below the bulk, or take {rest[0].mark} or bigger there"
    strung: tuple[Fact, ...] = ()
    if above:
        strung = (
            Fact("above the bulk", write_pattern(tuple(above)), "", BY_RECIPE),
            Fact("each shot is no heavier than the one above", "usual", "", STRUNG_OUT),
        )
    facts = (
        Fact("bulk", write_pattern(tuple(bulk)), "", BY_RECIPE),
        Fact("below it", write_pattern(tuple(droppers)) or "none", "", BY_RECIPE),
        Fact("a bulk is of several equal shot", "usual", "", COMMON),
        *strung,
    )
    outcome = Outcome.DOUBTFUL if says else Outcome.SOUND
    whole = says or "the bulk is of one size, none lighter than what is below it"
    pictured = _in_order(bulk, droppers, above)
    return Judgement(
        "bulk", outcome, whole, _FORMULA, facts, Check.BULK, remedy, dull=True, pictured=pictured
    )


def _in_order(bulk: Sequence[Load], droppers: Sequence[Load], above: Sequence[Load]) -> ShotInOrder:
    """Each weight by itself, from the float down, with what it is to the bulk."""
    rest, trimming = _without_trimming(bulk)
    parted = [(load, ShotPart.ABOVE) for load in above] + [(load, ShotPart.BULK) for load in rest]
    parted += [(trimming, ShotPart.TRIMS)] if trimming else []
    parted += [(load, ShotPart.BELOW) for load in droppers]
    return ShotInOrder(
        tuple(
            Pinched(load.kind, load.mark, load.mass_g, part)
            for load, part in parted
            for _ in range(load.count)
        )
    )


def judge_order(strung_out: Sequence[Load], droppers: Sequence[Load]) -> Judgement:
    """Whether shot strung out, or droppers below a bulk, get no heavier down the line.

    Both from the float down, singly or several of one size together; masses in g. A lighter one above
    a heavier one sinks behind it, and the line hangs in a bow that hides bites: doubtful, with what
    would be right. Sources: of shot strung out, Black Country Fishing, "Shot"; of droppers, common
    practice.

    >>> from tacklebox.trade.shot import read_pattern
    >>> judge_order((), read_pattern("No 8 + 2 No 10")).outcome.value
    'sound'
    >>> judge_order((), read_pattern("No 12 + No 10")).line
    'a dropper of No 12 is above one of No 10, which is heavier; put the No 10 above it'
    """
    called = (("a shot", strung_out, STRUNG_OUT), ("a dropper", droppers, COMMON))
    wrong = [
        (f"{what} of {above.mark} is above one of {below.mark}, which is heavier", below.mark)
        for what, loads, _ in called
        for above, below in pairwise(loads)
        if above.mass_g < below.mass_g - 1e-9
    ]
    facts = tuple(
        fact
        for _, loads, source in called
        if loads
        for fact in (
            Fact("from the float down", write_pattern(tuple(loads)), "", BY_RECIPE),
            Fact("each shot is no heavier than the one above", "usual", "", source),
        )
    )
    says, heavier = wrong[0] if wrong else ("each shot is no heavier than the one above it", "")
    remedy = f"put the {heavier} above it" if wrong else ""
    outcome = Outcome.DOUBTFUL if wrong else Outcome.SOUND
    formula = "each shot no heavier than the one above"
    return Judgement(
        "order of shot", outcome, says, formula, facts, Check.SHOT_ORDER, remedy, dull=True
    )


def _is_lighter(load: Load, bulk: Sequence[Load]) -> bool:
    return bool(bulk) and load.mass_g < min(one.mass_g for one in bulk) - 1e-9


def _not_trimming(above: Sequence[Load]) -> list[Load]:
    """What is above the bulk without the one trimming shot that may sit under the float."""
    trims = [load for load in above if load.mass_g <= TRIMS_UP_TO_G]
    alone = sum(load.count for load in trims) == 1
    return [load for load in above if not (alone and load in trims)]


def _without_trimming(bulk: Sequence[Load]) -> tuple[list[Load], Load | None]:
    """The bulk without the one trimming shot that it may have beside what it is made of."""
    loads = sorted(bulk, key=lambda load: -load.mass_g)
    last = loads[-1] if len(loads) > 1 else None
    trims = last and last.kind == "shot" and last.count == 1 and last.mass_g <= TRIMS_UP_TO_G
    return (loads[:-1], last) if trims else (loads, None)
