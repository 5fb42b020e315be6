"""Tying: from stock to coded rigs in one transaction, and what becomes of them later."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, func, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.rigs.check import Checked, check
from tacklebox.rigs.codes import near_codes, next_code, read_code
from tacklebox.rigs.describe import describe
from tacklebox.rigs.fit import Fit, Serving, fit
from tacklebox.rigs.resolved import Resolved
from tacklebox.rigs.snapshot import Snapshot
from tacklebox.stock.box import Box
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Action, Item, SheetInUse, Tied, TiedUse, Why
from tacklebox.trade.strength import LOOK_FROM, SOUND_FROM

READY, APART, LOST = "ready", "taken apart", "lost"
MOST_AT_ONCE = 500


@dataclass(frozen=True)
class Tying:
    """What a tying did: the rigs, the checks they passed, and what is left of what was used."""

    rigs: tuple[Tied, ...]
    checked: Checked
    left: tuple[Item, ...]


def fit_and_check(
    box: Box,
    resolved: Resolved,
    count: int = 1,
    use: Mapping[str, int] | None = None,
    limits: tuple[float, float] = (SOUND_FROM, LOOK_FROM),
) -> Checked:
    """Fit a recipe to the box's stock and check it; nothing is written.

    ``limits`` are the chances from which it is sound, and to be looked at again.
    """
    with box.reading() as session:
        return check(fit(resolved, _inventory(session, resolved), count, use), *limits)


def _inventory(session: Session, resolved: Resolved) -> Inventory:
    needs = [*resolved.needs, *(resolved.hooklength.needs if resolved.hooklength else ())]
    return Inventory.read(session, {need.ask.kind for need in needs})


def tie(
    box: Box,
    resolved: Resolved,
    count: int,
    on: date,
    *,
    use: Mapping[str, int] | None = None,
    because: str = "",
    limits: tuple[float, float] = (SOUND_FROM, LOOK_FROM),
) -> Tying:
    """Tie so many from stock: the rigs and every movement in one transaction, or nothing.

    Raises CannotBeDoneError when stock is short, or when a check says it will not do and no
    reason to go on is given in ``because`` (it is kept with the rigs).
    """
    if not 1 <= count <= MOST_AT_ONCE:
        raise AskedWronglyError(
            f"{count} rigs cannot be tied at once.",
            where="--count",
            right=f"From 1 to {MOST_AT_ONCE}.",
        )
    recipe = resolved.recipe
    with box.writing() as session:
        checked = check(fit(resolved, _inventory(session, resolved), count, use), *limits)
        _refuse(checked, because)
        action = begin(session, f"tie {count} × {recipe.stem}", on)
        number = session.exec(select(func.max(Tied.code_number))).one()
        number = -1 if number is None else number
        rigs = []
        for _ in range(count):
            number, code = next_code(number)
            snapshot = describe(checked, code, on)
            tied = Tied(
                code=code,
                code_number=number,
                recipe=recipe.stem,
                kind=recipe.makes,
                tied_on=on,
                forced_because=because if checked.refusals else "",
                snapshot=snapshot.to_json(),
                action_id=action.id or 0,
            )
            session.add(tied)
            rigs.append(tied)
        session.flush()
        left = _take(session, checked.fit, action, rigs)
    return Tying(tuple(rigs), checked, left)


def _refuse(checked: Checked, because: str) -> None:
    gaps = checked.fit.gaps
    if gaps:
        missing = "".join(f"\n  {s.need.part}: {s.gap}" for s in gaps)
        raise CannotBeDoneError(
            f"stock is short for {checked.fit.count} × {checked.fit.resolved.recipe.stem}; "
            f"nothing was tied.{missing}"
        )
    if checked.refusals and not because.strip():
        reasons = "".join(f"\n  {j.about}: {j.says}" for j in checked.refusals)
        raise CannotBeDoneError(
            f"{checked.fit.resolved.recipe.stem} will not do; nothing was tied.{reasons}",
            right="\nTo tie it all the same, say why with --because; the reason is kept.",
        )


def _take(session: Session, fitted: Fit, action: Action, rigs: Sequence[Tied]) -> tuple[Item, ...]:
    """Write what the rigs took; hands back the items as they are then, each once."""
    used: dict[int, Item] = {}
    for serving in fitted.servings:
        item = _item(serving)
        if item is None:
            continue
        item = session.merge(item)
        move(session, action, item, -serving.amount, Why.TIED, fitted.resolved.recipe.stem)
        used[item.id or 0] = item
        for rig in rigs:
            session.add(
                TiedUse(
                    tied_id=rig.id or 0,
                    item_id=item.id or 0,
                    part=serving.need.part,
                    amount=serving.need.amount,
                    comes_back=serving.need.comes_back,
                )
            )
    session.flush()
    return tuple(used.values())


def _item(serving: Serving) -> Item | None:
    return serving.item.item if serving.item and serving.amount else None


def tied_with(
    box: Box, *, state: str | None = None, unlabelled: bool = False, last: bool = False
) -> list[Tied]:
    """Tied rigs and hooklengths, oldest first: by state, without a label, or of the last tying."""
    query = select(Tied).order_by(col(Tied.id))
    if state:
        query = query.where(Tied.state == state)
    if unlabelled:
        query = query.where(col(Tied.labelled_on).is_(None))
    if last:
        query = query.where(Tied.action_id == select(func.max(Tied.action_id)).scalar_subquery())
    with box.reading() as session:
        return list(session.exec(query))


def find_tied(session: Session, typed: str) -> Tied:
    """The rig of a code as typed. Raises AskedWronglyError, offering near codes in the box."""
    try:
        code = read_code(typed)
    except AskedWronglyError as error:
        raise AskedWronglyError(error.what, right=_near(session, typed) or error.right) from None
    tied = session.exec(select(Tied).where(Tied.code == code)).first()
    if tied is None:
        right = _near(session, code) or "`rigs list` shows what is tied."
        raise AskedWronglyError(f"no rig has the code {code}.", right=right)
    return tied


def _near(session: Session, typed: str) -> str:
    near = near_codes(typed, list(session.exec(select(Tied.code))))
    return f"Near it: {', '.join(near)}." if near else ""


def find_snapshot(box: Box, typed: str) -> tuple[Tied, Snapshot]:
    """A rig by its code, and what was tied."""
    with box.reading() as session:
        tied = find_tied(session, typed)
    return tied, Snapshot.from_json(tied.snapshot)


def take_apart(box: Box, codes: Sequence[str], on: date) -> list[tuple[Tied, list[Item]]]:
    """Take rigs apart: floats, feeders and winders go back to stock; all of them or none."""
    done = []
    with box.writing() as session:
        for tied in _ready(session, codes):
            action = begin(session, f"take apart {tied.code}", on)
            back = []
            uses = select(TiedUse, Item).join(Item, col(Item.id) == TiedUse.item_id)
            for use, item in session.exec(uses.where(TiedUse.tied_id == tied.id)):
                if use.comes_back:
                    move(
                        session,
                        action,
                        item,
                        use.amount,
                        Why.GIVEN_BACK,
                        f"{use.part} of {tied.code}",
                    )
                    back.append(item)
            tied.state = APART
            session.add(tied)
            done.append((tied, back))
        session.flush()
    return done


def mark_lost(box: Box, codes: Sequence[str], on: date) -> list[Tied]:
    """Mark rigs as lost: all of them or none. Their tackle left stock when they were tied."""
    with box.writing() as session:
        lost = _ready(session, codes)
        for tied in lost:
            begin(session, f"lost {tied.code}", on)
            tied.state = LOST
            session.add(tied)
        session.flush()
    return lost


def _ready(session: Session, codes: Sequence[str]) -> list[Tied]:
    rigs: list[Tied] = []
    for code in codes:
        tied = find_tied(session, code)
        if tied.state != READY:
            raise AskedWronglyError(
                f"{tied.code} is {tied.state} already.", right="Nothing was changed."
            )
        if any(tied.id == other.id for other in rigs):
            raise AskedWronglyError(f"{tied.code} is named twice.", right="Name each rig once.")
        rigs.append(tied)
    return rigs


def next_free_place(box: Box, paper: str) -> int:
    """The next free place on the part-used sheet of a paper; 1 where there is none."""
    with box.reading() as session:
        sheet = session.get(SheetInUse, paper)
        return sheet.next_free if sheet else 1


def mark_labelled(box: Box, codes: Sequence[str], on: date, paper: str, next_free: int) -> None:
    """Remember that labels of these rigs were printed, and where the sheet goes on."""
    with box.writing() as session:
        for tied in session.exec(select(Tied).where(col(Tied.code).in_(codes))):
            tied.labelled_on = on
            session.add(tied)
        session.merge(SheetInUse(paper=paper, next_free=next_free))
        session.flush()
