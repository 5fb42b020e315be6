"""What was taken to a match, for its debrief: ready rigs of its wants, and the tackle they are of."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sqlmodel import Session, and_, col, or_, select

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.after.account import Became
from tacklebox.matches.after.debriefed import Debriefed, read_debrief
from tacklebox.matches.after.rig_history import later_debriefs, refuse_contradiction
from tacklebox.matches.before.ready_rigs import is_as_wanted
from tacklebox.matches.files.match import Match, WantedRig
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.changed import changed_into
from tacklebox.rigs.tying.snapshot import Snapshot, read_kept
from tacklebox.rigs.wallet import ask_of
from tacklebox.stock.care.box import Box
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.made import Tied, TiedUse
from tacklebox.stock.tables import Item, Kind, State

LOST_SINGLY = (Kind.HOOK, Kind.WEIGHT)  # what is lost beside whole rigs


@dataclass(frozen=True)
class RigsTaken:
    """Rigs of one kind that may have been taken: what they are, and their codes."""

    name: str
    codes: tuple[str, ...]


@dataclass(frozen=True)
class Taken:
    """What may have been taken: rigs in groups, and the hooks and shot that they are tied from.

    ``hooklengths`` are what the wallet holds for the wants. ``others`` are ready rigs beside those of
    the wants, ``called`` what each of them is. ``only_back`` are the rigs that cannot have been lost or
    worn out then, with the fault that says why.
    """

    groups: tuple[RigsTaken, ...]
    tackle: tuple[Item, ...]
    before: Debriefed | None = None
    others: tuple[str, ...] = ()
    called: Mapping[str, str] = field(default_factory=dict)
    only_back: Mapping[str, AskedWronglyError] = field(default_factory=dict)
    hooklengths: tuple[Item, ...] = ()
    changed: Mapping[str, str] = field(default_factory=dict)  # what rigs are now that were changed

    def had(self, item: Item) -> int:
        """What there was of an item before an earlier debrief took away what was lost."""
        gone = (*self.before.lost, *self.before.worn_out) if self.before else ()
        return item.on_hand + sum(amount for other, amount in gone if other.id == item.id)


def what_was_taken(
    box: Box,
    match: Match,
    wants: Sequence[tuple[WantedRig, Resolved | None]],
    in_bag: Sequence[str] = (),
) -> Taken:
    """The rigs that may have been taken: ready ones of the wants, tied by the day of the match as far as
    anybody knows.

    Where a want's recipe can no longer be read, all rigs of its name count. What an earlier
    debrief of the match named is taken, too, whatever became of it since, and what was ``in_bag``.
    """
    with box.reading() as session:
        before = read_debrief(session, match.stem)
        named = before.became if before else {}
        query = select(Tied).where(or_(col(Tied.state) == State.READY, col(Tied.code).in_(named)))
        every_rig = session.exec(query.order_by(col(Tied.id))).all()
        rigs = [t for t in every_rig if t.tied_on <= match.day or not read_kept(t).tied_on]
        free = {tied.code: read_kept(tied) for tied in rigs}
        only_back = _only_back(session, match, rigs, named)
        groups = []
        for want, resolved in wants:
            codes = [code for code, made in free.items() if _is_of(made, want, resolved)]
            if codes:
                groups.append(RigsTaken(_name(free[codes[0]]), tuple(codes)))
            for code in codes:
                del free[code]
        named_too = tuple(code for code in free if code in named)
        if named_too:
            groups.append(RigsTaken("Other rigs of the first debrief", named_too))
        ticked = tuple(code for code in free if code in in_bag and code not in named)
        if ticked:
            groups.append(RigsTaken("Other rigs in the bag", ticked))
        every = [code for group in groups for code in group.codes]
        hooklengths = _hooklengths(session, wants, before)
        own = {item.id for item in hooklengths}
        tackle = tuple(i for i in _lost_singly(session, every, before) if i.id not in own)
    others = tuple(code for code in free if code not in named and code not in in_bag)
    changed = changed_into(box, list(only_back)) if only_back else {}
    called = {code: _name(free[code]) for code in others}
    return Taken(tuple(groups), tackle, before, others, called, only_back, hooklengths, changed)


def _hooklengths(
    session: Session,
    wants: Sequence[tuple[WantedRig, Resolved | None]],
    before: Debriefed | None,
) -> tuple[Item, ...]:
    """The hooklengths that serve a want, or that go with a rig of one; and those that an earlier debrief
    named."""
    own = (r if r.recipe.makes == "hooklength" else r.hooklength for _, r in wants if r)
    asks = [ask_of(hooklength) for hooklength in own if hooklength]
    inventory = Inventory.read_for(session, asks) if asks else None
    found = {
        s.id: s.item for ask in asks if inventory for s in inventory.ranked(ask, in_place=False)
    }
    named = {item.id or 0: item for item, _ in (*before.lost, *before.worn_out)} if before else {}
    kept = {n: item for n, item in named.items() if item.kind == Kind.HOOKLENGTH}
    in_stock = {number: item for number, item in found.items() if item.on_hand}
    return tuple(item for _, item in sorted((kept | in_stock).items()))


def _only_back(
    session: Session, match: Match, rigs: Sequence[Tied], named: Mapping[str, Became]
) -> dict[str, AskedWronglyError]:
    later = later_debriefs(session, match.stem, match.day)
    found = {}
    for tied in rigs:
        was = named.get(tied.code)
        other = Became.WORN_OUT if was is Became.LOST else Became.LOST  # what it was not said to be
        try:
            refuse_contradiction(session, tied, other, was, match.day, later)
        except AskedWronglyError as error:
            found[tied.code] = error
    return found


def _is_of(made: Snapshot, want: WantedRig, resolved: Resolved | None) -> bool:
    if resolved is None:
        return made.recipe == want.recipe.strip()
    return is_as_wanted(made, resolved)


def _name(made: Snapshot) -> str:
    return ", ".join(words for words in (made.name, made.size, made.set_for) if words)


def _lost_singly(
    session: Session, codes: Sequence[str], before: Debriefed | None
) -> tuple[Item, ...]:
    """Hooks first, then shot; and whatever an earlier debrief said was lost."""
    used = (
        select(TiedUse.item_id)
        .join(Tied, col(Tied.id) == TiedUse.tied_id)
        .where(col(Tied.code).in_(codes))
    )
    lost = [item.id for item, _ in before.lost] if before else []
    query = select(Item).where(
        or_(
            and_(col(Item.id).in_(used), col(Item.kind).in_(LOST_SINGLY), col(Item.level) == ""),
            and_(col(Item.id).in_(lost), col(Item.level) == ""),
        )
    )
    items = session.exec(query.order_by(col(Item.id)))
    return tuple(sorted(items, key=lambda item: (item.kind != Kind.HOOK, item.id)))
