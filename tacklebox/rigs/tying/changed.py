"""A rig that was changed at the water: a new one is written as made from the old, and both are kept.

What passes from the one to the other is moved by nobody; only what was put on is taken from stock. Nothing of
the new one was checked, and no fall was computed of it.
"""

import re
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from sqlmodel import Session, col, func, select

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.tying.describe import mark_of, size_of
from tacklebox.rigs.tying.snapshot import Mark, Snapshot, read_kept
from tacklebox.rigs.tying.tie import next_codes
from tacklebox.rigs.tying.tied import find_tied
from tacklebox.rigs.wallet import PART, as_hook, as_line
from tacklebox.stock.care.box import Box
from tacklebox.stock.finding import find
from tacklebox.stock.hooklengths import find_hooklength
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.made import Tied, TiedUse
from tacklebox.stock.naming.rows import of_row
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.notation import write_notation
from tacklebox.stock.tables import (
    FIGURES,
    Feeder,
    Figures,
    Float,
    Hooklength,
    Item,
    Kind,
    State,
    Weight,
    Why,
)
from tacklebox.trade.quantities import read_length_mm, write_length
from tacklebox.trade.shot import read_pattern

DEPTH = "depth"
MOST_LETTERS = 200
SHOT = ("shot", "olivette")
SAME_MM = 0.5
COME_BACK = (Kind.FLOAT, Kind.FEEDER)
_FIGURE = r"(?:\d+ *ft +)?\d+(?:\.\d+|/\d+)?(?: \d+/\d+)?"
_FILLING = re.compile(r"\b(?:bulk(?:ed)?|droppers?|spread|strung out|from)\b", re.IGNORECASE)
_PLACED = re.compile(
    rf"(?P<what>.+?)\s+(?:at\s+)?(?:(?P<low>{_FIGURE})\s*(?P<unit>[a-z]*)\s*(?:–|-|to)\s*)?"
    rf"(?P<high>{_FIGURE}\s*[a-z]+)",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class RigChange:
    """What was changed, in words, "" where it stays: the hooklength that was put on, the depth from float to
    hook, all of its shot, the float or feeder, and anything else."""

    hooklength: str = ""
    depth: str = ""
    shot_now: str = ""
    carries: str = ""
    note: str = ""

    @property
    def is_one(self) -> bool:
        """Whether anything is said."""
        every = (self.hooklength, self.depth, self.shot_now, self.carries, self.note)
        return any(said.strip() for said in every)


def change_rig(box: Box, typed: str, change: RigChange, on: date) -> tuple[Tied, Tied]:
    """Write the rig as it is now: the old one, which is ready no longer, and the new one.

    Raises AskedWronglyError for a rig that is not ready, a change that says nothing or that cannot be of it,
    naming its field; CannotBeDoneError for a hooklength or shot of which there is not enough.
    """
    with box.writing() as session:
        old = find_tied(session, typed)
        if old.state != State.READY:
            raise AskedWronglyError(
                f"{old.code} is {old.state} already.", right="Nothing was changed."
            )
        made = read_kept(old)
        if made.unreadable:
            raise AskedWronglyError(f"{made.name}, so {old.code} cannot be changed.")
        action = begin(session, f"change {old.code}", on)
        ((number, code),) = next_codes(session, 1)
        put_on, carried = _put_on(session, change.hooklength), _carried(session, change.carries)
        snapshot = _changed(made, change, put_on, carried, code, on)
        new = Tied(
            code=code, code_number=number, recipe=old.recipe, kind=old.kind, tied_on=on,
            snapshot=snapshot.to_json(), action_id=action.id or 0,
        )  # fmt: skip
        session.add(new)
        session.flush()
        added, off = _pass_on(session, old, new, snapshot, put_on is not None, carried)
        added += [(put_on.item, PART, 1)] if put_on else []
        for item, part, count in [*off, *added]:
            taken = session.merge(item)
            move(session, action, taken, -count, Why.TIED, old.recipe)
            if count > 0:
                session.add(
                    TiedUse(
                        tied_id=new.id or 0, item_id=item.id or 0, part=part,
                        amount=0 if taken.level else count, comes_back=item.kind in COME_BACK,
                    )
                )  # fmt: skip
        old.state = State.CHANGED.value
        session.add(old)
        session.flush()
    return old, new


def _carried(session: Session, said: str) -> tuple[Item, Float | Feeder] | None:
    """The float or feeder that is on it now."""
    if not said.strip():
        return None
    try:
        item = find(session, said.strip())
    except AskedWronglyError as error:
        raise error.in_field("carries") from None
    figures = session.get_one(FIGURES[item.kind], item.id)
    if not isinstance(figures, Float | Feeder):
        raise AskedWronglyError(f"{item.name} is no float, feeder or bomb.", field="carries")
    return item, figures


@dataclass(frozen=True)
class _PutOn:
    """A hooklength of the wallet, as the hook and the line that it is; ``line`` in words."""

    item: Item
    length: str
    length_mm: float
    hook: Figures
    line: str


def _put_on(session: Session, said: str) -> _PutOn | None:
    if not said.strip():
        return None
    try:
        item = find_hooklength(session, said.strip())
    except AskedWronglyError as error:
        raise error.in_field("hooklength") from None
    inventory = Inventory.read(session, (Kind.HOOKLENGTH,))
    stocked = next(s for s in inventory.by_kind[Kind.HOOKLENGTH] if s.id == item.id)
    figures = stocked.figures
    if not (isinstance(figures, Hooklength) and figures.length_mm):
        raise AskedWronglyError(
            f"how long {item.name} is nobody noted.",
            field="hooklength",
            right="Say it as what else was changed.",
        )
    length = of_row(figures).words_of("length") or write_length(figures.length_mm)
    has_line = figures.diameter_mm or figures.breaks_at_kg
    line = write_notation(as_line(stocked, inventory).figures) if has_line else ""
    return _PutOn(item, length, figures.length_mm, as_hook(stocked).figures, line)


def _changed(
    made: Snapshot,
    change: RigChange,
    put_on: _PutOn | None,
    carried: tuple[Item, Float | Feeder] | None,
    code: str,
    on: date,
) -> Snapshot:
    """The snapshot of the new rig."""
    if not change.is_one:
        raise AskedWronglyError(
            f"nothing is said of what was changed on {made.code}.",
            field="note",
            right="Say its hooklength, depth or shot, or what else.",
        )
    if len(change.note) > MOST_LETTERS:
        raise AskedWronglyError(
            "this is too long.", field="note", right=f"At most {MOST_LETTERS} letters."
        )
    words = []
    new = replace(
        made, code=code, tied_on=on.isoformat(), outcome="", fall=None, in_tray_before=False,
        made_from=made.code,
    )  # fmt: skip
    if put_on is not None:
        new = _with_hooklength(new, put_on)
        words.append(f"hooklength {new.hooklength}")
    if change.depth.strip():
        new = _with_depth(new, change.depth)
        words.append(f"depth {new.lengths[DEPTH]}")
    if change.shot_now.strip():
        new = _with_shot(new, change.shot_now)
        words.append(f"shot {new.shot}")
    if carried is not None:
        new = _with_carried(new, *carried)
        words.append(new.carries)
    words += [change.note.strip()] if change.note.strip() else []
    return replace(
        new,
        changed="; ".join(words),
        changed_otherwise=made.changed_otherwise or bool(change.note.strip()),
    )


def _with_hooklength(made: Snapshot, put_on: _PutOn) -> Snapshot:
    """All above the hooklength stands higher or lower by what the new one is longer or shorter; shot that was
    pinched on the old one is pinched on the new one, where it was."""
    before_mm, hook = made.hooklength_mm, put_on.hook
    if not before_mm:
        raise AskedWronglyError(
            f"how long the hooklength of {made.code} was nobody noted.",
            field="hooklength",
            right="Say it as what else was changed.",
        )
    by = put_on.length_mm - before_mm
    above = [m for m in made.marks if m.what != "hook" and m.from_hook_mm > before_mm - SAME_MM]
    below = [m for m in made.marks if m.what in SHOT and m.from_hook_mm <= before_mm - SAME_MM]
    marks = [
        *(replace(mark, from_hook_mm=mark.from_hook_mm + by) for mark in above),
        *(mark for mark in below if mark.from_hook_mm < put_on.length_mm),
        Mark("hook", getattr(hook, "size", ""), write_notation(hook), 0.0),
    ]
    new = replace(
        made,
        hooklength=f"{put_on.length} {put_on.line}".strip(),
        hook=write_notation(hook).removeprefix("hook "),
        marks=_sorted(marks),
        hooklength_mm=put_on.length_mm,
    )
    if by:
        new = replace(new, shot=_shot_words(new.marks))
    if DEPTH in made.lengths and any(mark.what == "float" for mark in made.marks):
        return _deep(new, write_length(read_length_mm(made.lengths[DEPTH]) + by))
    return new


def _shot_words(marks: Iterable[Mark]) -> str:
    """The shot of a rig as it stands, from the float down, in words that ``_placed`` reads again."""
    words = []
    for (what, kind), run in groupby(marks, key=lambda mark: (mark.what, mark.kind)):
        if what in SHOT:
            places = [mark.from_hook_mm for mark in run]
            low, high = write_length(min(places)), write_length(max(places))
            name = f"olivette {kind}" if what == "olivette" else kind
            at = f"at {high}" if low == high else f"{low}–{high}"
            words.append(f"{len(places)} {name} {at}")
    return ", ".join(words)


def _with_carried(made: Snapshot, item: Item, figures: Float | Feeder) -> Snapshot:
    """The float or feeder in the place of the one that was there."""
    whats = ("float",) if isinstance(figures, Float) else ("feeder", "bomb")
    old = next((mark for mark in made.marks if mark.what in whats), None)
    if old is None:
        raise AskedWronglyError(
            f"{made.code} carries no {whats[0]} that {item.name} could take the place of.",
            field="carries",
        )
    mark = mark_of(figures, Kind(item.kind), old.from_hook_mm, held=old.held, side_mm=old.side_mm)
    size = size_of(figures)
    return replace(
        made,
        marks=tuple(mark if one is old else one for one in made.marks),
        carries=write_notation(figures),
        size=size,
        sizes={name: size if was == made.size else was for name, was in made.sizes.items()},
    )


def _with_depth(made: Snapshot, said: str) -> Snapshot:
    """The float stands so far from the hook; all else is where it was."""
    try:
        depth_mm = read_length_mm(said)
    except AskedWronglyError as error:
        raise error.in_field("depth") from None
    floats = [mark for mark in made.marks if mark.what == "float"]
    top_mm = max((mark.from_hook_mm for mark in made.marks), default=0.0)
    if not (floats and DEPTH in made.lengths):
        raise AskedWronglyError(
            f"{made.code} has no depth from float to hook.",
            field="depth",
            right="Say it as what else was changed.",
        )
    if not made.hooklength_mm < depth_mm <= top_mm:
        raise AskedWronglyError(
            f"{said.strip()} is no depth of {made.code}.",
            field="depth",
            right=f"It lies between {write_length(made.hooklength_mm)} and {write_length(top_mm)}.",
        )
    marks = (replace(m, from_hook_mm=depth_mm) if m.what == "float" else m for m in made.marks)
    return _deep(replace(made, marks=_sorted(marks)), as_said(said))


def _deep(made: Snapshot, depth: str) -> Snapshot:
    lengths = {**made.lengths, DEPTH: depth}
    set_for = ", ".join(f"{name} {length}" for name, length in lengths.items())
    return replace(made, lengths=lengths, set_for=set_for, plumbed="", over="")


def _with_shot(made: Snapshot, said: str) -> Snapshot:
    """All of its shot: "2 No 8 at 50 cm, 2 No 10 20–35 cm"."""
    try:
        marks = [mark for words in said.split(",") for mark in _placed(words.strip())]
    except AskedWronglyError as error:
        raise error.in_field("shot_now") from None
    top_mm = max((mark.from_hook_mm for mark in made.marks), default=0.0)
    if any(not 0 < mark.from_hook_mm < top_mm for mark in marks):
        raise AskedWronglyError(
            "some of it would not be on the line.",
            field="shot_now",
            right=f"The rig is {write_length(top_mm)} long, from the hook up.",
        )
    others = [mark for mark in made.marks if mark.what not in SHOT]
    return replace(made, shot=" ".join(said.split()), marks=_sorted([*others, *marks]))


def _placed(words: str) -> Iterator[Mark]:
    """So many shot at one place, or spread evenly from one place to another."""
    found = _PLACED.fullmatch(" ".join(_FILLING.sub(" ", words.replace("@", " at ")).split()))
    if not found:
        raise AskedWronglyError(
            f'"{words[:60]}" does not say which shot, and where.',
            right="Write it like: 2 No 8 at 50 cm, 2 No 10 20–35 cm.",
        )
    loads = read_pattern(found["what"])
    high_mm = read_length_mm(found["high"])
    low_mm = high_mm
    if found["low"]:
        unit = found["unit"] or re.sub(r"[\d./ ]", "", found["high"])
        low_mm = read_length_mm(f"{found['low']} {unit}")
    one_by_one = [load for load in loads for _ in range(load.count)]
    step = (high_mm - low_mm) / (len(one_by_one) - 1) if len(one_by_one) > 1 else 0.0
    for number, load in enumerate(one_by_one):
        yield Mark(load.kind, load.mark, "shot", high_mm - number * step, load.mass_g)


def _sorted(marks: Iterable[Mark]) -> tuple[Mark, ...]:
    return tuple(sorted(marks, key=lambda mark: -mark.from_hook_mm))


_Taken = list[tuple[Item, str, int]]  # of an item, for a part, so many; below nothing is put back


def _pass_on(
    session: Session,
    old: Tied,
    new: Tied,
    snapshot: Snapshot,
    new_hooklength: bool,
    carried: tuple[Item, Float | Feeder] | None,
) -> tuple[_Taken, _Taken]:
    """Note that the new rig is of what the old one was tied from, as far as that is still on it; hands back
    what was put on besides, to be taken from stock, and what came off whole."""
    uses = select(TiedUse, Item).join(Item, col(Item.id) == TiedUse.item_id)
    uses = uses.where(TiedUse.tied_id == old.id).order_by(col(TiedUse.id))
    wanted = Counter((mark.what, mark.kind) for mark in snapshot.marks if mark.what in SHOT)
    before = Counter((m.what, m.kind) for m in read_kept(old).marks if m.what in SHOT)
    more = wanted - before
    of_mark: dict[tuple[str, str], Item] = {}
    added: _Taken = []
    off: _Taken = []
    for use, item in session.exec(uses).all():
        amount = use.amount
        if new_hooklength and item.kind in (Kind.HOOKLENGTH, Kind.HOOK):
            continue
        if carried and item.kind == carried[0].kind and not off:
            off.append((item, use.part, -use.amount))
            added.append((carried[0], use.part, 1))
            continue
        if item.kind == Kind.WEIGHT:
            sort = _sort_of(session, item)
            of_mark.setdefault(sort, item)
            amount = min(amount, wanted[sort])
            if not wanted[sort]:
                continue
        session.add(
            TiedUse(
                tied_id=new.id or 0, item_id=item.id or 0, part=use.part, amount=amount,
                comes_back=use.comes_back,
            )
        )  # fmt: skip
    if carried and not off:  # nobody noted what it carried
        added.append((carried[0], "float" if isinstance(carried[1], Float) else "feeder", 1))
    added += [(_shot_of(session, sort, of_mark), "shot", n) for sort, n in more.items()]
    return added, off


def _shot_of(
    session: Session, sort: tuple[str, str], of_mark: Mapping[tuple[str, str], Item]
) -> Item:
    """The item that more shot of a size is of: what the rig has already, else what the box has of it."""
    if sort in of_mark:
        return of_mark[sort]
    try:
        return find(session, f"{sort[0]} {sort[1]}")
    except AskedWronglyError as error:
        raise error.in_field("shot_now") from None


def _sort_of(session: Session, item: Item) -> tuple[str, str]:
    figures = session.get_one(Weight, item.id)
    return ("olivette" if figures.form == "olivette" else "shot", figures.mark)


def carried_by(session: Session, tied: Tied) -> Item | None:
    """The float or feeder that a rig was tied with; None where nobody noted it."""
    query = select(Item).join(TiedUse, col(TiedUse.item_id) == Item.id)
    query = query.where(TiedUse.tied_id == tied.id, col(Item.kind).in_(COME_BACK))
    return session.exec(query).first()


def changed_into(box: Box, codes: Collection[str]) -> dict[str, str]:
    """The rigs that those became, by their codes, as far as that stands."""
    kept = func.json_extract(Tied.snapshot, "$.made_from")
    query = select(kept, Tied.code).where(kept.in_(codes), Tied.state != State.UNTIED)
    with box.reading() as session:
        return dict(session.exec(query).all())
