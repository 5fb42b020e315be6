"""What was taken to a match, for its debrief: ready rigs of its wants, and their loose tackle."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from sqlmodel import Session, col, or_, select

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.losses import valid_debriefs
from tacklebox.matches.match import Match, WantedRig
from tacklebox.matches.plan import is_as_wanted
from tacklebox.rigs.resolved import Resolved
from tacklebox.rigs.snapshot import Snapshot
from tacklebox.rigs.tied import READY
from tacklebox.stock.box import Box
from tacklebox.stock.tables import Debrief, DebriefRig, Item, Kind, Movement, Tied, TiedUse, Why

LOOSE = (Kind.HOOK, Kind.WEIGHT)  # what is lost beside whole rigs


@dataclass(frozen=True)
class Group:
    """Rigs of one kind that may have been taken: what they are, and their codes."""

    name: str
    codes: tuple[str, ...]


@dataclass(frozen=True)
class Before:
    """What an earlier debrief of the match said: rigs by code, losses by item number."""

    debrief: Debrief
    became: Mapping[str, str]
    did_well: frozenset[str]
    lost: Mapping[int, int]


@dataclass(frozen=True)
class Taken:
    """What may have been taken: rigs in groups, and the hooks and shot that they are tied from."""

    groups: tuple[Group, ...]
    loose: tuple[Item, ...]
    before: Before | None = field(default=None)

    def had(self, item: Item) -> int:
        """What there was of an item before an earlier debrief took away what was lost."""
        return item.on_hand + (self.before.lost.get(item.id or 0, 0) if self.before else 0)


def refuse_coming(match: Match, today: date) -> None:
    """Raises AskedWronglyError for a match that has not been yet."""
    if match.day > today:
        raise AskedWronglyError(
            f"{match.stem} is on {match.day}, which has not come yet.", right="Debrief it then."
        )


def what_was_taken(
    box: Box, match: Match, wants: Sequence[tuple[WantedRig, Resolved | None]]
) -> Taken:
    """The rigs that may have been taken: ready ones of the wants, tied by the day of the match.

    Where a want's recipe can no longer be read, all rigs of its name count. What an earlier
    debrief of the match told is taken, too.
    """
    with box.reading() as session:
        before = _before(session, match)
        told = before.became if before else {}
        query = select(Tied).where(
            or_(col(Tied.state) == READY, col(Tied.code).in_(told)), Tied.tied_on <= match.day
        )
        free = {
            t.code: Snapshot.from_json(t.snapshot)
            for t in session.exec(query.order_by(col(Tied.id)))
        }
        groups = []
        for want, resolved in wants:
            codes = [code for code, made in free.items() if _is_of(made, want, resolved)]
            if codes:
                groups.append(Group(_name(free[codes[0]]), tuple(codes)))
            for code in codes:
                del free[code]
        others = tuple(code for code in free if code in told)
        if others:
            groups.append(Group("Other rigs that were told of", others))
        every = [code for group in groups for code in group.codes]
        loose = _loose(session, every, before)
    return Taken(tuple(groups), loose, before)


def _is_of(made: Snapshot, want: WantedRig, resolved: Resolved | None) -> bool:
    if resolved is None:
        return made.recipe == want.recipe.strip()
    return is_as_wanted(made, resolved)


def _name(made: Snapshot) -> str:
    told = (made.name, made.size, made.set_for)
    return ", ".join(t for t in told if t)


def _before(session: Session, match: Match) -> Before | None:
    debrief = next((d for d in valid_debriefs(session) if d.match == match.stem), None)
    if debrief is None:
        return None
    query = select(Tied.code, DebriefRig).join(Tied, col(Tied.id) == DebriefRig.tied_id)
    rigs = list(session.exec(query.where(DebriefRig.debrief_id == debrief.id)))
    lost = select(Movement).where(Movement.action_id == debrief.action_id, Movement.why == Why.LOST)
    amounts: dict[int, int] = {}
    for movement in session.exec(lost):
        amounts[movement.item_id] = amounts.get(movement.item_id, 0) - movement.amount
    return Before(
        debrief,
        {code: rig.became for code, rig in rigs},
        frozenset(code for code, rig in rigs if rig.did_well),
        amounts,
    )


def _loose(session: Session, codes: Sequence[str], before: Before | None) -> tuple[Item, ...]:
    """Hooks first, then shot; and whatever an earlier debrief said was lost."""
    used = (
        select(TiedUse.item_id)
        .join(Tied, col(Tied.id) == TiedUse.tied_id)
        .where(col(Tied.code).in_(codes))
    )
    lost = list(before.lost) if before else []
    query = select(Item).where(
        or_(
            col(Item.id).in_(used) & col(Item.kind).in_(LOOSE),
            col(Item.id).in_(lost),
        )
    )
    items = session.exec(query.order_by(col(Item.id)))
    return tuple(sorted(items, key=lambda item: (item.kind != Kind.HOOK, item.id)))


def write_weight(weight_g: float) -> str:
    """A weight as it is called at the scales, in kg; ``read_mass_g`` reads it back.

    >>> write_weight(5443.1)
    '5.4431 kg'
    """
    return f"{weight_g / 1000:.7g} kg"
