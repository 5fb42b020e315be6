"""The pack list: what to take to a match, in the order it is loaded, in the same words everywhere.

What may stop the day comes first, what is read at the water last.

``printing.pack_page`` and the command line only lay these words out.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from sqlmodel import Session, col, select

from tacklebox.matches.before.along import CHANGED, SPARES, spares_of, to_change_to
from tacklebox.matches.before.day_rules import judge_day
from tacklebox.matches.before.judged_plan import judge_plan
from tacklebox.matches.before.pack_reels import (
    age_words,
    old_on_the_day,
    reels_to_take,
    spools_to_take,
)
from tacklebox.matches.before.plan import Plan, PlannedWant
from tacklebox.matches.before.rulings import About, Ruling, Verdict
from tacklebox.matches.before.venue_rules import rule_words
from tacklebox.matches.files.feed import Bait
from tacklebox.matches.files.match import Match
from tacklebox.matches.files.venue import Venue
from tacklebox.stock.amounts import show_amount
from tacklebox.stock.batches import batches_of
from tacklebox.stock.care.box import Box
from tacklebox.stock.dates import write_day
from tacklebox.stock.inventory import Inventory, Stocked, piece_name
from tacklebox.stock.lead import lead_in_stock
from tacklebox.stock.levels import to_hand
from tacklebox.stock.line_age import PastAge
from tacklebox.stock.made import Tied, TiedUse
from tacklebox.stock.tables import Item, Kind
from tacklebox.trade import law
from tacklebox.trade.sources import LEAD_USE_ENGLAND

FIRST = "Before anything else"
MOST_LETTERS = 400  # of an entry with a box


def lead_words() -> str:
    """Which lead may not be used, in a sentence."""
    return (
        f"Lead over {law.LEAD_FREE_UP_TO_G:g} g and up to {law.lead_banned_up_to()} may not be used "
        f"in England and Wales ({LEAD_USE_ENGLAND.citation}): of lead shot only No 14 to No 8."
    )


@dataclass(frozen=True)
class Entry:
    """One entry of the list; ``first`` is what is looked for: a code, a count.

    ``tick``: it has a box to tick. ``strong``: it stands out. ``key`` names what is ticked, whatever its
    amount; "" for a rig that is still to be tied. ``rig`` is a code, ``item`` and ``count`` hooklengths.
    """

    words: str
    first: str = ""
    tick: bool = False
    strong: bool = False
    key: str = ""
    rig: str = ""
    item: int = 0
    count: int = 0


@dataclass(frozen=True)
class Section:
    """Entries under a heading; ``at_the_water``: it is read there, not packed."""

    heading: str
    entries: tuple[Entry, ...]
    at_the_water: bool = False


@dataclass(frozen=True)
class PackList:
    """The whole list; sections that have nothing to say are left out."""

    title: str
    facts: tuple[str, ...]
    sections: tuple[Section, ...]


# Of each want, by its number, and each item: so many hooklengths of the batches of those codes.
_Batches = dict[tuple[int, int], list[tuple[int, str]]]


@dataclass(frozen=True)
class _Winder:
    """A winder that ready rigs are on, by its name and the place it is kept."""

    name: str
    place: str


def make_pack_list(box: Box, match: Match, venue: Venue, plan: Plan) -> PackList:
    """What to take: rigs by code, hooklengths, spares, bait; then rules, distances, cautions.

    The codes are those of the plan's ready rigs; what is still to be tied has a box without one.
    Nothing is written. Raises AskedWronglyError for feed figures out of their range.
    """
    bait = match.bait
    judged = judge_plan(box, venue, plan)
    day = judge_day(venue, match.day, match.groundbait_g)
    with box.reading() as session:
        inventory = Inventory.read(session, (*SPARES, *CHANGED, Kind.LINE, Kind.ELASTIC))
        winders, used = of_ready(session, plan)
        batches = _of_wallet(session, plan)
        lead = [item for item, _ in lead_in_stock(session)]
        taken = used | set(uses_of(plan))
        old = old_on_the_day(session, plan, taken, match.day)
        reels = list(reels_to_take(session, inventory, plan, old))
    left = left_of(inventory, plan)
    packed = (
        (FIRST, _warnings(venue, plan, day, judged, lead)),
        ("Rigs", _made(plan, "rig", winders, batches)),
        ("Hooklengths", [*_made(plan, "hooklength", winders, batches), *_old_of_wallet(plan, old)]),
        (
            "Reels and top kits",
            [Entry(words, first, tick=True, key=_reel_key(first, words)) for first, words in reels],
        ),
        (
            "Floats and feeders to change to",
            _by_place("change", to_change_to(plan, inventory), left),
        ),
        ("Spare tackle for what was tied", _spares(plan, inventory, left, used)),
        ("Spare spools", _spools(inventory, taken, left, old)),
        ("Also", [Entry(words, tick=True, key=f"also {words}") for words in match.also]),
        ("Bait", _bait(bait)),
    )
    read = (
        (f"Rules of {venue.name}", _rules(venue, plan, judged)),
        ("Line clip", [Entry(c.words, c.heading) for c in match.clip]),
        ("Mind", _cautions(plan, day)),
    )
    depths = f", {venue.depths}" if venue.depths else ""
    seen: Counter[str] = Counter()
    return PackList(
        match.name,
        (
            f"{write_day(match.day)}, {match.begins} to {match.ends}. "
            f"{venue.name}, {venue.water}{depths}",
            *([venue.notes] if venue.notes else []),
        ),
        tuple(
            Section(heading, entries, at_the_water)
            for at_the_water, sections in ((False, packed), (True, read))
            for heading, found in sections
            if (entries := tuple(_named_apart(found, seen)))
        ),
    )


def _named_apart(entries: Iterable[Entry], seen: Counter[str]) -> Iterator[Entry]:
    """Entries of which no two have one key: of several pieces the later are numbered."""
    for entry in entries:
        if entry.key:
            seen[entry.key] += 1
            key, number = entry.key[: MOST_LETTERS - 10], seen[entry.key]
            entry = replace(entry, key=key if number == 1 else f"{key}, {number}")
        yield entry


def _reel_key(first: str, words: str) -> str:
    """A reel or top kit by its name; one that is none yet by what it should hold."""
    return f"reel {first.rstrip(':')}" if first.endswith(":") else f"reel {words}"


def of_ready(session: Session, plan: Plan) -> tuple[dict[str, _Winder], set[int]]:
    """The winder of each ready rig, by code, and the items that ready rigs were tied from."""
    codes = [code for want in plan.wants for code in want.ready]
    query = (
        select(Tied.code, Item)
        .join(TiedUse, col(TiedUse.tied_id) == Tied.id)
        .join(Item, col(Item.id) == TiedUse.item_id)
        .where(col(Tied.code).in_(codes))
    )
    winders, used = {}, set()
    for code, item in session.exec(query):
        used.add(item.id or 0)
        if item.kind == Kind.WINDER:
            winders[code] = _Winder(item.name, item.place)
    return winders, used


def _of_wallet(session: Session, plan: Plan) -> _Batches:
    """The batches of the hooklengths that each want takes along, by its number and their item, the oldest
    first: of each item the first want takes the oldest."""
    taken = {stocked.id for want in plan.wants for stocked, _ in want.from_wallet}
    batches = batches_of(session, taken)
    left = {batch.code: batch.left for batch in batches}
    found: _Batches = {}
    for number, want in enumerate(plan.wants):
        for stocked, count in want.from_wallet:
            still, of = count, found.setdefault((number, stocked.id), [])
            for code in [batch.code for batch in batches if batch.item_id == stocked.id]:
                if many := min(still, left[code]):
                    of.append((many, code))
                    left[code] -= many
                    still -= many
    return found


def _old_of_wallet(plan: Plan, old: Sequence[PastAge]) -> Iterator[Entry]:
    """Hooklengths of the plan that are past their age."""
    taken = {stocked.id for want in plan.wants for stocked, _ in want.from_wallet}
    for one in old:
        if one.item.id in taken:
            yield Entry(f"{one.item.name}: {age_words(one)}.", "OLD:")


def uses_of(plan: Plan) -> Mapping[int, int]:
    """What the plan ties from each item, by its number, in its smallest unit."""
    taken: Counter[int] = Counter()
    for want in plan.wants:
        amounts = {need.part: need.amount for need in want.resolved.needs}
        for part, items in want.parts:
            for stocked, count in items:
                taken[stocked.id] += count * amounts[part]
    return taken


def left_of(inventory: Inventory, plan: Plan) -> dict[int, int]:
    taken = uses_of(plan)
    every = (s for stock in inventory.by_kind.values() for s in stock if not s.item.on_reel)
    return {s.id: to_hand(s.item) - taken.get(s.id, 0) for s in every}


def _warnings(
    venue: Venue,
    plan: Plan,
    day: Sequence[Ruling],
    judged: Sequence[Sequence[Ruling]],
    lead: Sequence[Item],
) -> Iterator[Entry]:
    nearby = venue.overhead_lines
    yield Entry(law.power_lines().says, "OVERHEAD LINES NEARBY." if nearby else "", strong=nearby)
    for ruling in day:
        if ruling.verdict is Verdict.NOT_ALLOWED:
            yield Entry(_ruling_words(ruling), "NOT ALLOWED:", strong=True)
    for words in _judged(plan, judged, Verdict.NOT_ALLOWED):
        yield Entry(words, "NOT ALLOWED:", strong=True)
    for item in lead:
        yield Entry(f"{item.name}: lead that may not weight a line.", "Leave at home:", strong=True)


def _judged(plan: Plan, judged: Sequence[Sequence[Ruling]], verdict: Verdict) -> Iterable[str]:
    """What the rules say of what is taken, with that answer, the same of two wants once."""
    return dict.fromkeys(
        f"{want.resolved.recipe.name}: {_ruling_words(ruling)}"
        for want, rulings in zip(plan.wants, judged, strict=True)
        for ruling in rulings
        if ruling.verdict is verdict and (want.has or want.tie)
    )


def _ruling_words(ruling: Ruling) -> str:
    words = [ruling.rule.words.rstrip("."), ruling.part, ruling.says.rstrip(".")]
    right = f". Would pass: {ruling.remedy}" if ruling.remedy else ""
    return ": ".join(word for word in words if word) + right.rstrip(".") + "."


def _made(
    plan: Plan,
    makes: str,
    winders: Mapping[str, _Winder],
    batches: _Batches,
) -> Iterator[Entry]:
    """Rigs or hooklengths, want by want: the ready ones by code, those in the wallet by their batches, boxes
    for those to be tied."""
    for number, want in enumerate(plan.wants):
        if want.resolved.recipe.makes != makes:
            continue
        spares = f", {want.wanted.spares} of them spare" if want.wanted.spares else ""
        chosen = "".join(f", {name} {value}" for name, value in want.resolved.chosen.items())
        title = f"{want.resolved.recipe.name}{chosen}{spares}"
        yield Entry(title, f"{want.wanted.total} ×", strong=True)
        yield from _ready(want, winders)
        yield from _from_wallet(number, want, batches)
        yield from _to_tie(want)
        if want.unmet:
            yield Entry(f"cannot be tied: {want.because}.", str(want.unmet))


def _ready(want: PlannedWant, winders: Mapping[str, _Winder]) -> Iterator[Entry]:
    """The codes, by the winder that they are on, and where they lie or will lie."""
    by_winder: dict[_Winder | None, list[str]] = {}
    for code in want.ready:
        by_winder.setdefault(winders.get(code), []).append(code)
    if want.tie and not by_winder and not want.from_wallet and want.wanted.place:
        yield Entry(f"{want.wanted.place}:")
    for winder, codes in by_winder.items():
        place = want.wanted.place or (winder.place if winder else "")
        words = [word for word in (f"on {winder.name}" if winder else "", place) if word]
        if words:
            yield Entry(", ".join(words) + ":")
        yield from (Entry("", code, tick=True, key=f"rig {code}", rig=code) for code in codes)


def _from_wallet(number: int, want: PlannedWant, batches: _Batches) -> Iterator[Entry]:
    """So many of each item, where it is or will be, and the batches that they are of, the oldest first."""
    at = ""
    for stocked, count in want.from_wallet:
        place = want.wanted.place or stocked.item.place or "in the wallet"
        if place != at:
            yield Entry(f"{place}:")
            at = place
        of = [f"{many} of {code}" for many, code in batches[number, stocked.id]]
        words = [stocked.item.name, *([f"({', '.join(of)})"] if of else [])]
        yield Entry(
            " ".join(words),
            f"{count} ×",
            tick=True,
            key=f"hooklengths {stocked.id}",
            item=stocked.id,
            count=count,
        )


def _to_tie(want: PlannedWant) -> Iterator[Entry]:
    """A box for each rig, one for all hooklengths together."""
    if want.tie and want.resolved.recipe.makes == "hooklength":
        yield Entry("to tie", f"{want.tie} ×", tick=True)
    else:
        yield from [Entry("", "to tie", tick=True)] * want.tie


def _rules(venue: Venue, plan: Plan, judged: Sequence[Sequence[Ruling]]) -> Iterator[Entry]:
    """What is judged in a paragraph, what is to be looked at with a box each."""
    judged_rules = "; ".join(rule_words(venue.rules))
    if judged_rules:
        yield Entry(f"{judged_rules[0].upper()}{judged_rules[1:]}.")
    for words in _in_lengths(venue.keepnet.words(venue.under), ". "):
        yield Entry(words, tick=True, key=f"rule {words}")
    for words in venue.read:
        yield Entry(words.rstrip("."), tick=True, key=f"rule {words}")
    for words in _judged(plan, judged, Verdict.CHECK_YOURSELF):
        yield Entry(words, "Check this yourself:")


def _cautions(plan: Plan, day: Sequence[Ruling]) -> Iterator[Entry]:
    for ruling in day:
        if ruling.rule.about is About.CLOSE_SEASON and ruling.verdict is not Verdict.NOT_ALLOWED:
            yield Entry(f"Close season: {ruling.says}.")
    yield Entry(lead_words())
    yield Entry(law.LINE_LITTER.says)
    if any(want.resolved.recipe.method == "feeder" for want in plan.wants):
        yield Entry(law.FREE_RUNNING.says)  # it says, too, who comes first
        return
    yield Entry(f"{law.DEFERS[0].upper()}{law.DEFERS[1:]}.")


def _bait(bait: Bait | None) -> Iterator[Entry]:
    if bait is None:
        return
    for words in bait.words:
        yield Entry(words, tick=True, key=f"bait {words}")
    if bait.from_memory:
        yield Entry("By densities and counts from memory: weigh and count your own.")


def _spares(
    plan: Plan, inventory: Inventory, left: Mapping[int, int], used: set[int]
) -> Iterator[Entry]:
    """What is left of the hooks, shot and small parts that the rigs are tied from."""
    used = used | set(uses_of(plan))
    found = spares_of(inventory, used)
    yield from _by_place("spare", found, left)
    used_up = [s.item.name for s in found if left.get(s.id, 0) <= 0]
    if used_up:
        yield Entry(", ".join(used_up) + ".", "None is left of")


def _spools(
    inventory: Inventory, taken: set[int], left: Mapping[int, int], old: Sequence[PastAge]
) -> Iterator[Entry]:
    """What is left of the line that the rigs are tied from, each with its place."""
    for place, (amount, words) in spools_to_take(inventory, taken, left, old):
        yield Entry(
            f"{amount} of {words}", f"{place}:" if place else "", tick=True, key=f"spool {words}"
        )


def _by_place(what: str, found: Sequence[Stocked], left: Mapping[int, int]) -> Iterator[Entry]:
    """One box to tick for each place: the shot box is taken as a whole."""
    by_place: dict[str, list[tuple[str, str]]] = {}
    for stocked in found:
        amount = left.get(stocked.id, 0)
        if amount > 0:
            item, name = stocked.item, piece_name(stocked)
            has = item.level or show_amount(amount, item.measured, item.pack_said)
            by_place.setdefault(item.place, []).append((name, f"{name}: {has}"))
    for place, pieces in by_place.items():
        if place:
            for words in _in_lengths([words for _, words in pieces]):
                yield Entry(words, f"{place}:", tick=True, key=f"{what} {place}")
        else:
            yield from (Entry(words, tick=True, key=f"{what} {name}") for name, words in pieces)


def _in_lengths(sentences: Sequence[str], between: str = ", ") -> Iterator[str]:
    """Put together, in pieces that a column always has room for."""
    piece = ""
    for words in sentences:
        if piece and len(piece) + len(words) > MOST_LETTERS:
            yield piece
            piece = ""
        piece = f"{piece}{between}{words}" if piece else words
    if piece:
        yield piece
