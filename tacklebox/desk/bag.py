"""The bag: what was ticked off the pack list of a match is what was taken; what came home of it.

A bag moves no stock. Of rigs and hooklengths the debrief says what became of them, of all else the bag
does; of what nobody said anything it says just that.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field
from tacklebox.desk.matches import matches_of
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.packing import Packing
    from tacklebox.matches.after.debriefed import Debriefed
    from tacklebox.matches.files.bag import BagLine, Bags

ALL = "all"


class Home(StrEnum):
    """What became of a line of the bag."""

    NOT_SAID = "not said"
    HOME = "home"
    NOT_HOME = "not home"
    LOST = "lost"
    WORN_OUT = "worn out"
    NOT_TAKEN = "not taken"


@dataclass(frozen=True)
class InBag:
    """A line of the pack list: whether it is ticked, whether it still stands on the list, and what became
    of it. ``gone`` says how many hooklengths of it were lost or worn out, in words."""

    key: str
    heading: str
    words: str
    ticked: bool
    on_list: bool
    became: Home
    rig: str = ""
    item: int = 0
    count: int = 0
    gone: str = ""
    only_read: bool = False  # a rule that was looked at


@dataclass(frozen=True)
class Bag:
    """What can be ticked, in the order of loading, and what was; ``not_said`` are lines of which nobody
    said that they came home, once the match is debriefed."""

    match: str
    debriefed: bool
    lines: tuple[InBag, ...]
    taken: int
    not_said: tuple[str, ...]


def ticked(desk: Desk, match: str) -> frozenset[str]:
    """The keys of what is ticked, rules that were looked at too."""
    return frozenset(line.key for line in bags_of(desk).load(_name(match)))


def show(desk: Desk, match: str, of: "Packing | None" = None) -> Bag:
    """What is in the bag; before the match what can be ticked besides, by ``of`` where it is made already.

    Raises AskedWronglyError as ``packing.pack``, for a match that is still to come.
    """
    stem = _name(match)
    lines, found = bags_of(desk).load(stem), _debriefed(desk, stem)
    if found is None and not lines:
        in_field("match", matches_of(desk).load, stem)
    packing = of or (None if found else _packing(desk, stem))
    return _bag(desk, stem, lines, packing)


def put(
    desk: Desk,
    match: str,
    *,
    into: Sequence[str] = (),
    out: Sequence[str] = (),
    of: "Packing | None" = None,
) -> Bag:
    """Tick lines of the pack list, or take their ticks away; what is not named stays as it is.

    Lines are named by their key, their number in the list, a rig's code or words that only they have;
    "all" are all of them. ``of`` is the pack list where it is made already. Raises AskedWronglyError for a
    line that is none, and as ``packing.pack``.
    """
    stem = _name(match)
    packing = of or (_packing(desk, stem) if into or out else None)
    with desk.box.writing():  # one at a time: the phone in the shed, and the bench
        bags = bags_of(desk)
        before = bags.load(stem)
        listed = {line.key: line for line in _listed(packing)} if packing else {}
        kept = {line.key: line for line in before}
        shown = [*listed.values(), *(line for key, line in kept.items() if key not in listed)]
        going_in = [key for said in into for key in _named(said, shown, "tick")]
        going_out = {key for said in out for key in _named(said, shown, "untick")}
        for key in going_in:
            line = listed.get(key) or kept[key]
            kept[key] = replace_home(line, kept[key].home) if key in kept else line
        after = [line for key, line in kept.items() if key not in going_out]
        order = {key: at for at, key in enumerate(listed)}
        after.sort(key=lambda line: order.get(line.key, len(order)))
        if tuple(after) != before:
            bags.write(stem, after)
    return _bag(desk, stem, tuple(after), packing)


def home(desk: Desk, match: str, *, came: Sequence[str] = (), not_home: Sequence[str] = ()) -> Bag:
    """Say of lines of the bag that they came home, or did not; lines are named as in ``put``.

    Raises AskedWronglyError for a match that has not been, a line that is none, one that is named as both,
    and a rig, of which the debrief says it.
    """
    from tacklebox.matches.after.debrief import refuse_coming

    stem = _name(match)
    if _debriefed(desk, stem) is None:
        refuse_coming(in_field("match", matches_of(desk).load, stem), desk.today())
    with desk.box.writing():
        lines = say_home(desk, stem, came=came, not_home=not_home)
    return _bag(desk, stem, lines, None)


def say_home(
    desk: Desk, stem: str, *, came: Sequence[str], not_home: Sequence[str]
) -> "tuple[BagLine, ...]":
    """Write what came home and what did not, within a transaction; raises as ``home``."""
    bags = bags_of(desk)
    before = bags.load(stem)
    named = {
        name: {key for one in said for key in _named(one, before, name, are_asked=True)}
        for name, said in (("home", came), ("not_home", not_home))
    }
    if both := named["home"] & named["not_home"]:
        raise AskedWronglyError(
            f"{_words_of(before, both)} is named as home and as not home.",
            field="not_home",
            right="Say one of the two.",
        )
    after = tuple(
        replace_home(line, "yes" if line.key in named["home"] else
                     "no" if line.key in named["not_home"] else line.home)
        for line in before
    )  # fmt: skip
    if after != before:
        bags.write(stem, after)
    return after


def replace_home(line: "BagLine", said: str) -> "BagLine":
    """The line, with what was said of it."""
    return line.model_copy(update={"home": said})


def rigs_in_bag(desk: Desk, stem: str) -> tuple[str, ...]:
    """The rigs that were ticked for a match, by their codes."""
    return tuple(line.rig for line in bags_of(desk).load(stem) if line.rig)


def bags_of(desk: Desk) -> "Bags":
    """The bags of the box."""
    from tacklebox.matches.files.bag import Bags

    return Bags(desk.box.folder / "bags")


def _name(match: str) -> str:
    from tacklebox.datafiles import check_name

    return in_field("match", lambda name: check_name(name, "match"), match)


def _debriefed(desk: Desk, stem: str) -> "Debriefed | None":
    from tacklebox.matches.after.debriefed import debriefed

    return debriefed(desk.box, stem)


def _packing(desk: Desk, stem: str) -> "Packing | None":
    """The pack list of a match that is still to come; of one that is past what was ticked is all there is."""
    from tacklebox.desk.packing import pack

    if in_field("match", matches_of(desk).load, stem).day < desk.today():
        return None
    return pack(desk, stem)


def _listed(packing: "Packing") -> "Iterator[BagLine]":
    from tacklebox.matches.files.bag import MOST_WORDS, BagLine

    for section in packing.sections:
        for entry in section.entries:
            if entry.key:
                words = " ".join(word for word in (entry.first, entry.words) if word)
                yield BagLine(
                    key=entry.key, heading=section.heading, words=words[:MOST_WORDS].rstrip("."),
                    rig=entry.rig, item=entry.item, count=entry.count, only_read=section.at_the_water,
                )  # fmt: skip


def _named(
    said: str, shown: "Sequence[BagLine]", field: str, *, are_asked: bool = False
) -> list[str]:
    """The keys of the lines that are meant, of those shown; ``are_asked``: of those alone that the bag asks
    about itself."""
    words = said.strip()
    small = words.casefold()
    if small == ALL:
        return [line.key for line in shown if not are_asked or _is_asked(line)]
    found = [line for line in shown if words and words in (line.key, line.rig)]
    if not found and words.isdecimal() and words.isascii() and 1 <= int(words[:6]) <= len(shown):
        found = [shown[int(words[:6]) - 1]]
    if not found and small:
        found = [one for one in shown if small in f"{one.rig} {one.heading} {one.words}".casefold()]
    if len(found) != 1:
        right = (
            f"It fits {len(found)} lines: say the line's number."
            if found
            else 'Say "all", or a line by its number, its code or its words.'
        )
        raise AskedWronglyError(f'"{words[:60]}" is no line of the bag.', field=field, right=right)
    if are_asked and not _is_asked(found[0]):
        what, right = (
            ("a rig", "Its debrief says what became of it.")
            if found[0].rig
            else ("a rule", "It was looked at, not taken.")
        )
        raise AskedWronglyError(f"{found[0].words} is {what}.", field=field, right=right)
    return [found[0].key]


def _is_asked(line: "BagLine") -> bool:
    return not (line.rig or line.only_read)


def _words_of(lines: "Sequence[BagLine]", keys: Collection[str]) -> str:
    return ", ".join(line.words for line in lines if line.key in keys)


def _bag(desk: Desk, stem: str, lines: "tuple[BagLine, ...]", packing: "Packing | None") -> Bag:
    found = _debriefed(desk, stem)
    kept = {line.key: line for line in lines}
    listed = {line.key: line for line in _listed(packing)} if packing else {}
    gone = _gone(found)
    shown = tuple(
        InBag(
            key,
            line.heading,
            line.words,
            key in kept,
            key in listed or packing is None,
            _became(kept.get(key, line), found),
            line.rig,
            line.item,
            line.count,
            gone.get(line.item, ""),
            line.only_read,
        )
        for key, line in {**listed, **kept}.items()
    )
    taken = [one for one in shown if one.ticked and not one.only_read]
    not_said = tuple(one.words for one in taken if found and one.became is Home.NOT_SAID)
    return Bag(stem, found is not None, shown, len(taken), not_said)


def of_debrief(desk: Desk, stem: str, found: "Debriefed | None") -> tuple[InBag, ...]:
    """What was taken to a match that has been, and what became of each."""
    gone = _gone(found)
    return tuple(
        InBag(line.key, line.heading, line.words, True, True, _became(line, found), line.rig,
              line.item, line.count, gone.get(line.item, ""))
        for line in bags_of(desk).load(stem)
        if not line.only_read
    )  # fmt: skip


def _became(line: "BagLine", found: "Debriefed | None") -> Home:
    if line.rig:
        if found is None:
            return Home.NOT_SAID
        what = found.became.get(line.rig)
        return Home.NOT_TAKEN if what is None else Home.HOME if what == "back" else Home(what.value)
    return {"yes": Home.HOME, "no": Home.NOT_HOME}.get(line.home, Home.NOT_SAID)


def _gone(found: "Debriefed | None") -> dict[int, str]:
    """How many of each kind of hooklength were lost or worn out, in words."""
    from tacklebox.stock.amounts import show_amount

    words: dict[int, list[str]] = {}
    for became, moved in (("lost", found.lost), ("worn out", found.worn_out)) if found else ():
        for item, much in moved:
            words.setdefault(item.id or 0, []).append(
                f"{show_amount(much, item.measured, item.pack_said)} {became}"
            )
    return {item: ", ".join(said) for item, said in words.items()}
