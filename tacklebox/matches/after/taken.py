"""What was taken to a match, for its debrief: ready rigs of its wants, and their loose tackle."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sqlmodel import Session, col, or_, select

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.after.debrief import (
    SPENT,
    Debriefed,
    later_told,
    read_debrief,
    refuse_contradiction,
)
from tacklebox.matches.before.ready_rigs import is_as_wanted
from tacklebox.matches.files.match import Match, WantedRig
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care.box import Box
from tacklebox.stock.tables import Item, Kind, State, Tied, TiedUse

LOOSE = (Kind.HOOK, Kind.WEIGHT)  # what is lost beside whole rigs


@dataclass(frozen=True)
class Group:
    """Rigs of one kind that may have been taken: what they are, and their codes."""

    name: str
    codes: tuple[str, ...]


@dataclass(frozen=True)
class Taken:
    """What may have been taken: rigs in groups, and the hooks and shot that they are tied from.

    ``others`` are ready rigs beside those of the wants. ``settled`` are the rigs that cannot have
    been lost or worn out then, with the fault that says why.
    """

    groups: tuple[Group, ...]
    loose: tuple[Item, ...]
    before: Debriefed | None = field(default=None)
    others: tuple[str, ...] = ()
    settled: Mapping[str, AskedWronglyError] = field(default_factory=dict)

    def had(self, item: Item) -> int:
        """What there was of an item before an earlier debrief took away what was lost."""
        lost = self.before.lost if self.before else ()
        return item.on_hand + sum(amount for other, amount in lost if other.id == item.id)


def what_was_taken(
    box: Box, match: Match, wants: Sequence[tuple[WantedRig, Resolved | None]]
) -> Taken:
    """The rigs that may have been taken: ready ones of the wants, tied by the day of the match.

    Where a want's recipe can no longer be read, all rigs of its name count. What an earlier
    debrief of the match told is taken, too, whatever became of it since.
    """
    with box.reading() as session:
        before = read_debrief(session, match.stem)
        told = before.became if before else {}
        query = select(Tied).where(
            or_(col(Tied.state) == State.READY, col(Tied.code).in_(told)), Tied.tied_on <= match.day
        )
        rigs = session.exec(query.order_by(col(Tied.id))).all()
        free = {tied.code: Snapshot.from_json(tied.snapshot) for tied in rigs}
        settled = _settled(session, match, rigs, told)
        groups = []
        for want, resolved in wants:
            codes = [code for code, made in free.items() if _is_of(made, want, resolved)]
            if codes:
                groups.append(Group(_name(free[codes[0]]), tuple(codes)))
            for code in codes:
                del free[code]
        told_too = tuple(code for code in free if code in told)
        if told_too:
            groups.append(Group("Other rigs that were told of", told_too))
        every = [code for group in groups for code in group.codes]
        loose = _loose(session, every, before)
    others = tuple(code for code in free if code not in told)
    return Taken(tuple(groups), loose, before, others, settled)


def _settled(
    session: Session, match: Match, rigs: Sequence[Tied], told: Mapping[str, str]
) -> dict[str, AskedWronglyError]:
    later = later_told(session, match.stem, match.day)
    settled = {}
    for tied in rigs:
        was = told.get(tied.code)
        other = SPENT if was == State.LOST else State.LOST  # what it was not said to be
        try:
            refuse_contradiction(session, tied, other, was, match.day, later)
        except AskedWronglyError as error:
            settled[tied.code] = error
    return settled


def _is_of(made: Snapshot, want: WantedRig, resolved: Resolved | None) -> bool:
    if resolved is None:
        return made.recipe == want.recipe.strip()
    return is_as_wanted(made, resolved)


def _name(made: Snapshot) -> str:
    told = (made.name, made.size, made.set_for)
    return ", ".join(t for t in told if t)


def _loose(session: Session, codes: Sequence[str], before: Debriefed | None) -> tuple[Item, ...]:
    """Hooks first, then shot; and whatever an earlier debrief said was lost."""
    used = (
        select(TiedUse.item_id)
        .join(Tied, col(Tied.id) == TiedUse.tied_id)
        .where(col(Tied.code).in_(codes))
    )
    lost = [item.id for item, _ in before.lost] if before else []
    query = select(Item).where(
        or_(
            col(Item.id).in_(used) & col(Item.kind).in_(LOOSE),
            col(Item.id).in_(lost),
        )
    )
    items = session.exec(query.order_by(col(Item.id)))
    return tuple(sorted(items, key=lambda item: (item.kind != Kind.HOOK, item.id)))
