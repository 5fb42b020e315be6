"""Tying: from stock to coded rigs in one transaction, and what becomes of them later."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, StockShortError
from tacklebox.rigs.checking.cast import Cast
from tacklebox.rigs.checking.check import Checked, check
from tacklebox.rigs.fitting import Fit, Serving, fit, inventory_for
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.batch_making import add_batch, newest_number
from tacklebox.rigs.tying.describe import describe
from tacklebox.rigs.tying.falls import kept_fall
from tacklebox.stock.care.box import Box
from tacklebox.stock.codes import next_code
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.made import Batch, BatchUse, Tied, TiedUse
from tacklebox.stock.tables import Action, Item, Why
from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM
from tacklebox.trade.limits import within
from tacklebox.trade.water import USUAL_C

MOST_AT_ONCE = 500


@dataclass(frozen=True)
class Tying:
    """What a tying did: the rigs, or the batch of hooklengths, the checks they passed, and what is left of
    what was used."""

    made: tuple[Tied | Batch, ...]
    checked: Checked
    left: tuple[Item, ...]
    item: Item | None = None  # that hooklengths were added to

    @property
    def rigs(self) -> tuple[Tied, ...]:
        """The rigs; none where hooklengths were tied."""
        return tuple(one for one in self.made if isinstance(one, Tied))

    @property
    def batch(self) -> Batch | None:
        """The batch of hooklengths; None where rigs were tied."""
        return next((one for one in self.made if isinstance(one, Batch)), None)

    @property
    def count(self) -> int:
        """How many were tied."""
        return self.checked.fit.count


def fit_and_check(
    box: Box,
    resolved: Resolved,
    count: int = 1,
    use: Mapping[str, int] | None = None,
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
    *,
    water_c: float = USUAL_C,
    cast: Cast | None = None,
    hooklengths: int = 0,
) -> Checked:
    """Fit a recipe to the box's stock and check it; nothing is written.

    ``limits`` are the chances from which it is sound, and to be looked at again; ``water_c`` is
    the temperature of the water in °C; ``hooklengths`` as for ``fit``.
    """
    with box.reading() as session:
        fitted = fit(
            resolved,
            inventory_for(session, [resolved], (use or {}).values()),
            count,
            use,
            hooklengths=hooklengths,
        )
        return check(fitted, *limits, water_c=water_c, cast=cast)


def tie(
    box: Box,
    resolved: Resolved,
    count: int,
    on: date,
    *,
    use: Mapping[str, int] | None = None,
    because: str = "",
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
    with_hooklength: bool = False,
    entered_late: bool = False,
) -> Tying:
    """Tie so many from stock: the rigs and every movement in one transaction, or nothing.

    Hooklengths are one batch, added to their item. ``with_hooklength`` puts one on each rig: from the
    wallet where that has enough of them, else of hook and line. Raises AskedWronglyError for a count
    out of its range, and for hooklengths tied before their hooks came into the box, unless those were
    there and ``entered_late``; StockShortError when stock is short, CannotBeDoneError when a check says it
    fails and no reason to go on is given in ``because`` (it is kept with the rigs).
    """
    within(count, 1, MOST_AT_ONCE, "a number to tie at once", field="count")
    recipe = resolved.recipe
    with box.writing() as session:
        inventory = inventory_for(session, [resolved], (use or {}).values())
        # What is tied hangs on no hooklength that the others take: one is looked at, as by a plan.
        each = count if with_hooklength else 1
        checked = check(fit(resolved, inventory, count, use, hooklengths=each), *limits)
        on_each = _hooklengths(checked.fit) if with_hooklength else ()
        _refuse(checked, because, on_each)
        fall = kept_fall(checked.fit)
        action = begin(session, f"tie {count} × {recipe.name}", on)
        forced = because if checked.refusals else ""
        if recipe.makes == "hooklength":
            batch = add_batch(
                session, action, checked, count, on, forced, entered_late=entered_late
            )
            left = _take(session, checked.fit, action, batch)
            return Tying((batch,), checked, left, session.get_one(Item, batch.item_id))
        rigs = []
        for number, code in next_codes(session, count):
            snapshot = replace(describe(checked, code, on), fall=fall)
            tied = Tied(
                code=code,
                code_number=number,
                recipe=recipe.stem,
                kind=recipe.makes,
                tied_on=on,
                forced_because=forced,
                snapshot=snapshot.to_json(),
                action_id=action.id or 0,
            )
            session.add(tied)
            rigs.append(tied)
        session.flush()
        left = _take(session, checked.fit, action, rigs, on_each)
    return Tying(tuple(rigs), checked, left)


def could_be_tied(
    box: Box,
    resolved: Resolved,
    count: int,
    *,
    use: Mapping[str, int] | None = None,
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
    with_hooklength: bool = False,
) -> bool:
    """Whether ``tie`` would tie so many without a reason to go on; nothing is written."""
    each = count if with_hooklength else 1
    checked = fit_and_check(box, resolved, count, use, limits, hooklengths=each)
    on_each = _hooklengths(checked.fit) if with_hooklength else ()
    gaps = checked.fit.gaps or any(serving.gap for serving in on_each)
    return not gaps and not checked.refusals


def next_codes(session: Session, count: int) -> Iterator[tuple[int, str]]:
    """So many codes that no rig or batch has, with their numbers."""
    number = newest_number(session)
    for _ in range(count):
        number, code = next_code(number)
        yield number, code


def _hooklengths(fitted: Fit) -> tuple[Serving, ...]:
    """What the hooklengths of so many rigs take. Raises AskedWronglyError where the recipe names none."""
    below = fitted.hooklength
    if below is None:
        raise AskedWronglyError(
            f"no hooklength goes with {fitted.resolved.recipe.name}.", field="with_hooklength"
        )
    return (below.in_wallet,) if below.in_wallet else below.servings


def _refuse(checked: Checked, because: str, on_each: Sequence[Serving] = ()) -> None:
    gaps = (*checked.fit.gaps, *(serving for serving in on_each if serving.gap))
    if gaps:
        missing = "".join(f"\n  {s.need.part}: {s.gap}" for s in gaps)
        raise StockShortError(
            f"stock is short for {checked.fit.count} × {checked.fit.resolved.recipe.name}; "
            f"nothing was tied.{missing}"
        )
    if checked.refusals and not because.strip():
        reasons = "".join(f"\n  {j.about}: {j.says}" for j in checked.refusals)
        raise CannotBeDoneError(
            f"{checked.fit.resolved.recipe.name} fails a check; nothing was tied.{reasons}",
            see="tie.because",
        )


def _take(
    session: Session,
    fitted: Fit,
    action: Action,
    made: Sequence[Tied] | Batch,
    on_each: Sequence[Serving] = (),
) -> tuple[Item, ...]:
    """Write what the rigs, or all of a batch, took; hands back the items as they are then, each once."""
    used: dict[int, Item] = {}
    for serving in (*fitted.servings, *on_each):
        item = _item(serving)
        if item is None:
            continue
        item = session.merge(item)
        move(session, action, item, -serving.amount, Why.TIED, fitted.resolved.recipe.stem)
        used[item.id or 0] = item
        if isinstance(made, Batch):
            session.add(
                BatchUse(
                    batch_id=made.id or 0,
                    item_id=item.id or 0,
                    part=serving.need.part,
                    amount=0 if item.level else serving.amount,
                )
            )
            continue
        for rig in made:
            session.add(
                TiedUse(
                    tied_id=rig.id or 0,
                    item_id=item.id or 0,
                    part=serving.need.part,
                    amount=0 if item.level else serving.need.amount,
                    comes_back=serving.need.comes_back,
                )
            )
    session.flush()
    return tuple(used.values())


def _item(serving: Serving) -> Item | None:
    return serving.item.item if serving.item and serving.amount else None
