"""What is done at the bench to tie a rig, from the recipe as fitted: take, cut, thread, place shot.

Words and figures only; ``printing.tie_sheet`` lays them out.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import Branch, Need, Segment
from tacklebox.stock.amounts import show_amount
from tacklebox.stock.inventory import piece_name
from tacklebox.stock.tables import Kind
from tacklebox.trade.knots import Knot, eaten_mm
from tacklebox.trade.shot import Load
from tacklebox.trade.units_first import show_length


@dataclass(frozen=True, slots=True)
class Taking:
    """What to take from which place for all rigs of a sheet; ``gap`` says what is missing."""

    place: str
    name: str
    amount: int
    measured: bool
    gap: str = ""

    @property
    def words(self) -> str:
        """The amount as an angler reads it."""
        return show_amount(self.amount, self.measured) if self.amount else ""


@dataclass(frozen=True, slots=True)
class Cut:
    """A piece of line to cut for each rig: from the spool, and finished (mm), and how they differ."""

    part: str
    item: str
    cut_mm: float
    finished_mm: float
    knots: tuple[tuple[str, float], ...]  # (knot, what it eats in mm)

    @property
    def words(self) -> str:
        """How the cut length comes about."""
        eaten = "".join(f" + {in_cm(mm)} {knot}" for knot, mm in self.knots)
        return f"{in_cm(self.finished_mm)} finished{eaten}"


def takings(fit: Fit) -> list[Taking]:
    """What to take for all rigs, by place; what is on the reel or pole already is not taken."""
    found = []
    for serving in fit.servings:
        if serving.need.in_place:
            continue
        if serving.item is None:
            found.append(Taking("", serving.need.part, 0, False, serving.gap or "none in stock"))
            continue
        item = serving.item.item
        found.append(Taking(item.place, piece_name(serving.item), serving.amount, item.measured))
    return totals([found])


def totals(lists: Iterable[Sequence[Taking]]) -> list[Taking]:
    """Several lists as one, the same item's amounts summed, by place and name."""
    summed: dict[tuple[str, str, bool, str], int] = {}
    for taking in (t for takings_ in lists for t in takings_):
        key = (taking.place, taking.name, taking.measured, taking.gap)
        summed[key] = summed.get(key, 0) + taking.amount
    merged = [
        Taking(place, name, amount, measured, gap)
        for (place, name, measured, gap), amount in summed.items()
    ]
    return sorted(merged, key=lambda t: (bool(t.gap), t.place == "", t.place, t.name))


def cuts(fit: Fit) -> list[Cut]:
    """The pieces of line of one rig, rod to hook, side branches last."""
    resolved = fit.resolved
    segments = [*resolved.chain, *(s for branch in resolved.branches for s in branch.chain)]
    return [
        Cut(
            s.name,
            _item_words(fit, s.name),
            s.cut_mm,
            s.length_mm,
            tuple((k.name, eaten_mm(k, s.loop_mm)) for k in (s.top, s.bottom) if k),
        )
        for s in segments
        if s.kind is Kind.LINE and not s.need.in_place
    ]


def _item_words(fit: Fit, part: str) -> str:
    item = fit.serving(part).item
    return item.item.name if item else "none in stock"


def _with_item(fit: Fit, part: str) -> str:
    """The part, and the item that serves it where that has another name."""
    item = _item_words(fit, part)
    return part if item == part else f"{part} ({item})"


def steps(fit: Fit) -> list[str]:
    """How one rig is put together, in order, from the rod's end to the hook.

    What runs on a line is threaded before the knot below it is tied; side branches are made up
    beforehand.
    """
    resolved = fit.resolved
    found = [_make_up(fit, branch) for branch in resolved.branches if branch.chain]
    for above, segment, below in zip(
        (None, *resolved.chain), resolved.chain, (*resolved.chain[1:], None), strict=False
    ):
        if segment.kind is Kind.LINE:
            found += _line_steps(fit, above, segment, below)
        elif segment.kind is Kind.FEEDER and above and above.kind is not Kind.LINE:
            found.append(f"Hang the {_with_item(fit, segment.name)} on the {above.name}.")
    if resolved.hooklength:
        length = show_length(resolved.hooklength.length_mm)
        what = f"{resolved.hooklength.recipe.name}, {length}"
        if fit.hooklength and fit.hooklength.in_wallet and (one := fit.hooklength.in_wallet.item):
            what = f"{one.item.name}, from the wallet"
        found.append(f"Put on the hooklength: {what}.")
    found += [f"{what}, {where}." for what, where in shot_places(fit)]
    return found


def _line_steps(
    fit: Fit, above: Segment | None, segment: Segment, below: Segment | None
) -> Iterator[str]:
    tied_above = above is not None and above.bottom is not None and above.bottom.use == "line"
    if segment.top and not tied_above:
        yield _tie(segment.top, f"the top of the {segment.name}", segment)
    on_it = [a for a in fit.resolved.along if a.on == segment.name]
    for thing in sorted(on_it, key=lambda a: -a.at_mm):
        hangs = [s.name for s in fit.resolved.branches if s.hangs_from == thing.name]
        with_side = f", with the {hangs[0]} on it" if hangs else ""
        held = {"one point": "held by its one end", "two points": "held top and bottom"}.get(
            thing.held, thing.held
        )
        if thing.held_by:
            with_side += f", held by {_holding(fit, thing.held_by)}"
        yield f"Thread on the {_with_item(fit, thing.name)}: {held}{with_side}."
    if segment.bottom and segment.bottom.use != "loop" and below:
        what = f"the {_with_item(fit, below.name)}"
        yield f"Tie {what} to the {segment.name}: {segment.bottom.name}, wetted."
    elif segment.bottom:
        yield _tie(segment.bottom, f"the lower end of the {segment.name}", segment)


def _holding(fit: Fit, need: Need) -> str:
    """What holds a float: how many pieces, and of what."""
    item = fit.serving(need.part).item
    return f"{need.amount} × {item.item.name if item else need.part}"


def _tie(knot: Knot, where: str, segment: Segment) -> str:
    loop = f", {show_length(segment.loop_mm)} long" if knot.use == "loop" else ""
    return f"Tie a {knot.name} at {where}{loop}, wetted."


def _make_up(fit: Fit, branch: Branch) -> str:
    parts = []
    for segment in branch.chain:
        length = f" {show_length(segment.length_mm)}" if segment.length_mm else ""
        knots = " and ".join(dict.fromkeys(k.name for k in (segment.top, segment.bottom) if k))
        parts.append(
            f"{segment.name}{length} ({_item_words(fit, segment.name)}"
            f"{'; ' + knots if knots else ''})"
        )
    return f"Make up the {branch.name} for the {branch.hangs_from}: {', then '.join(parts)}."


def shot_places(fit: Fit) -> list[tuple[str, str]]:
    """Each weight, or run of equal ones at one place, from the float down: what is done with it, and
    how far that is from the hook."""
    found: list[tuple[str, str]] = []
    for group in fit.resolved.shot:
        positions = iter(group.positions_mm)
        for load in group.loads:
            at = list(dict.fromkeys(_laid(next(positions)) for _ in range(load.count)))
            put = "Pinch on" if load.kind == "shot" else "Put on"
            place = "" if group.place in ("bulk", "at the float") else f", {group.place}"
            where = ", ".join(f"{mm / 10:g}" for mm in at) + " cm from the hook"
            if group.place == "at the float":
                where = "at the float"
            found.append((f"{put} {_load_words(load)}{place}", where))
    return found


def in_cm(length_mm: float) -> str:
    """A length as it is laid against a ruler on the bench.

    >>> in_cm(2140.0), in_cm(203.2)
    ('214 cm', '20.3 cm')
    """
    return f"{round(length_mm / 10, 1):g} cm"


def _laid(from_hook_mm: float) -> float:
    """A distance as it is laid against a ruler: to 5 mm, from 20 cm on to 1 cm."""
    step = 5.0 if from_hook_mm < 200 else 10.0
    return round(from_hook_mm / step) * step


def _load_words(load: Load) -> str:
    kind = "" if load.kind == "shot" else f"{load.kind} "
    return f"{load.count} {kind}{load.mark}" if load.count > 1 else f"{kind or 'a '}{load.mark}"
