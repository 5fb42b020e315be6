"""After a match: what became of what was taken. A form says what is asked; what is answered is
written once, as a whole, and each fault names the field that it lies in."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Amount, amount_of
from tacklebox.desk.asking import in_field
from tacklebox.desk.debrief_words import (
    RigAsked,
    TackleAsked,
    cleared,
    plain_number,
    read_place,
    read_points,
    read_water,
    read_weight,
    weight_words,
)
from tacklebox.desk.matches import matches_of
from tacklebox.desk.opening import Desk
from tacklebox.desk.wants import resolve_wants
from tacklebox.errors import AskedWronglyError, FaultsOfFields

if TYPE_CHECKING:
    from tacklebox.desk.bag import InBag
    from tacklebox.matches.after.account import Account
    from tacklebox.matches.after.debriefed import Debriefed
    from tacklebox.matches.after.taken import Taken
    from tacklebox.matches.files.match import Match, WantedRig
    from tacklebox.rigs.recipes.resolved import Resolved
    from tacklebox.stock.tables import Item


# The fields of the answers, by what an account calls them; the weight is looked at apart.
SAID_AS = {
    "peg": "peg",
    "section": "section",
    "place": "place",
    "points": "points",
    "water_c": "water",
    "notes": "notes",
    "record": "record",
}


@dataclass(frozen=True)
class RigsAsked:
    """Rigs of one kind that may have been taken: what they are, and which."""

    name: str
    rigs: tuple[RigAsked, ...]


@dataclass(frozen=True)
class DebriefAnswers:
    """What is answered, in words. Codes are typed as on the labels; tackle is named by number or
    words, with how much of it was lost; "18 to 0.10=3" among what is lost or worn out is so many
    hooklengths. What is None stays as it stands, "none" clears it.

    ``not_taken`` are rigs in the bag, or that the debrief there is names, that stayed at home after all.
    """

    back: Sequence[str] = ()
    lost: Sequence[str] = ()
    worn_out: Sequence[str] = ()
    not_taken: Sequence[str] = ()
    did_well: Sequence[str] = ()
    tackle_lost: Mapping[str, str] = field(default_factory=dict)
    weight: str | None = None
    peg: str | None = None
    notes: str | None = None
    worn_out_tackle: Mapping[str, str] = field(default_factory=dict)  # hooklengths
    section: str | None = None
    place: str | None = None
    points: str | None = None
    water: str | None = None  # its temperature
    record: str | None = None  # of the water, as ``bank.read_record`` keeps it
    came_home: Sequence[str] = ()  # lines of the bag, as ``bag.home`` names them
    not_home: Sequence[str] = ()
    # Of a rig that was changed, by its code: what ``rigs.change`` takes, by name.
    changed: Mapping[str, Mapping[str, str]] = field(default_factory=dict)


@dataclass(frozen=True)
class DebriefForm:
    """What is asked of a match: its rigs, want by want, then ready rigs beside them, and tackle.

    ``stands`` is what its debrief says already, to be corrected; None where it has none. ``bag`` is what
    was in the bag beside rigs.
    """

    match: str
    name: str
    on: date
    venue: str
    rigs: tuple[RigsAsked, ...]
    others: tuple[RigAsked, ...]
    tackle: tuple[TackleAsked, ...]
    stands: DebriefAnswers | None
    hooklengths: tuple[TackleAsked, ...] = ()
    version: str = ""  # the mark of what stands
    bag: "tuple[InBag, ...]" = ()


@dataclass(frozen=True)
class TackleMoved:
    """So much of an item."""

    item: int
    name: str
    amount: Amount


@dataclass(frozen=True)
class DebriefShown:
    """What the debrief of a match says."""

    match: str
    venue: str
    on: date
    corrects: int | None
    back: tuple[str, ...]
    lost: tuple[str, ...]
    worn_out: tuple[str, ...]
    did_well: tuple[str, ...]
    tackle_lost: tuple[TackleMoved, ...]
    back_in_stock: tuple[TackleMoved, ...]
    weight_g: float | None
    weight: str  # in words
    peg: str
    notes: str
    hooklengths_worn_out: tuple[TackleMoved, ...] = ()
    section: str = ""
    place: int | None = None
    points: float | None = None
    water_c: float | None = None
    record: str = ""
    bag: "tuple[InBag, ...]" = ()
    changed: Mapping[str, str] = field(default_factory=dict)  # what rigs that came back are now


@dataclass(frozen=True)
class WorkedWell:
    """A rig that did well: what it is, where and when, and what was weighed in."""

    code: str
    rig: str
    method: str
    match: str
    venue: str
    on: date
    peg: str
    weight_g: float | None
    weight: str
    notes: str


def form(desk: Desk, match: str) -> DebriefForm:
    """What is asked of a match. Raises AskedWronglyError for one that has not been yet."""
    from tacklebox.desk.bag import of_debrief
    from tacklebox.matches.after.debrief import refuse_coming
    from tacklebox.matches.after.taken import what_was_taken

    own = in_field("match", matches_of(desk).load, match)
    refuse_coming(own, desk.today())
    bag = of_debrief(desk, own.stem, None)
    in_bag = [line.rig for line in bag if line.rig]
    taken = what_was_taken(desk.box, own, _wants(desk, own), in_bag)
    stands = _answers(taken.before.account) if taken.before else None
    return DebriefForm(
        own.stem,
        own.name,
        own.day,
        own.venue,
        tuple(RigsAsked(group.name, _rigs(taken, group.codes, in_bag)) for group in taken.groups),
        _rigs(taken, taken.others, in_bag),
        _asked(taken, taken.tackle),
        stands,
        _asked(taken, taken.hooklengths),
        _version(stands),
        tuple(line for line in bag if not line.rig),
    )


def _version(stands: DebriefAnswers | None) -> str:
    from tacklebox.editing import version_of

    return version_of(repr(stands))


def _asked(taken: "Taken", items: "Iterable[Item]") -> tuple[TackleAsked, ...]:
    return tuple(
        TackleAsked(item.id or 0, item.name, amount_of(item, taken.had(item))) for item in items
    )


def _rigs(taken: "Taken", codes: Iterable[str], in_bag: Sequence[str]) -> tuple[RigAsked, ...]:
    why = {code: str(fault) for code, fault in taken.only_back.items()}
    why |= {code: f"It was changed: it is {now} now." for code, now in taken.changed.items()}
    return tuple(
        RigAsked(code, why.get(code, ""), code in in_bag, taken.called.get(code, ""))
        for code in codes
    )


def _wants(desk: Desk, match: "Match") -> "list[tuple[WantedRig, Resolved | None]]":
    """The wants; one whose recipe was changed or is gone since has none."""
    wants: list[tuple[WantedRig, Resolved | None]] = []
    for want in match.want:
        try:
            (rig,) = resolve_wants(desk.recipes, [want.recipe], want.choose)
            wants.append((want, rig))
        except AskedWronglyError:
            wants.append((want, None))
    return wants


def _answers(account: "Account") -> DebriefAnswers:
    """An account in the words that the form takes."""
    return DebriefAnswers(
        tuple(account.back),
        tuple(account.lost),
        tuple(account.worn_out),
        did_well=tuple(account.did_well),
        tackle_lost=dict(account.tackle_lost),
        weight=weight_words(account.weight_g),
        peg=account.peg,
        notes=account.notes,
        worn_out_tackle=dict(account.worn_out_tackle),
        section=account.section,
        place=plain_number(account.place),
        points=plain_number(account.points),
        water=plain_number(account.water_c),
        record=account.record,
    )


def write(
    desk: Desk,
    match: str,
    answers: DebriefAnswers,
    *,
    correct: bool = False,
    only_changes: bool = False,
    version: str = "",
) -> DebriefShown:
    """Write what became of everything that was taken to a match: all of it, or nothing.

    With ``correct`` it takes the place of the debrief there is; with ``only_changes`` what that
    says of rigs and items that are not named stays. Raises AskedWronglyError for a match that has
    not been, a second debrief, one that is another than the form was filled from (``version``), a rig that
    was in the bag and of which nothing is said, and what cannot be, naming its field, all of it together;
    CannotBeDoneError for more lost than there was.
    """
    from tacklebox.desk.bag import rigs_in_bag, say_home
    from tacklebox.desk.rigs import write_changed
    from tacklebox.matches.after.account import OF_THE_MATCH, Account
    from tacklebox.matches.after.debrief import refuse_coming, write_debrief
    from tacklebox.stock.codes import each_code, read_code

    own = in_field("match", matches_of(desk).load, match)
    refuse_coming(own, desk.today())
    in_bag = rigs_in_bag(desk, own.stem)
    at_home = [in_field("not_taken", read_code, one) for one in each_code(answers.not_taken)]
    if not correct and set(at_home) - set(in_bag):
        raise AskedWronglyError(
            "a rig that was not taken need not be named.", field="not_taken", see="debriefs.correct"
        )
    if version:
        _refuse_changed(desk, own.stem, version)
    faults = FaultsOfFields(f"{own.stem}: this debrief cannot be written.")
    weight_g, is_kept, place, points, water_c, record = None, False, None, None, None, ""
    with faults.of("weight"):
        weight_g, is_kept = _weight(desk, own.stem, answers.weight)
    with faults.of("place"):
        place = read_place(answers.place or "")
    with faults.of("points"):
        points = read_points(answers.points or "")
    with faults.of("water"):
        water_c = read_water(answers.water or "")
    with faults.of("record"):
        record = _record(answers.record or "")
    faults.refuse()
    account = Account(
        answers.back,
        answers.lost,
        answers.worn_out,
        answers.did_well,
        answers.tackle_lost,
        cleared(answers.peg or ""),
        weight_g,
        cleared(answers.notes or ""),
        answers.not_taken,
        answers.worn_out_tackle,
        cleared(answers.section or ""),
        place,
        points,
        water_c,
        record,
    )
    said = {name for name, field in SAID_AS.items() if getattr(answers, field) is not None}
    kept = OF_THE_MATCH - said - (set() if is_kept else {"weight_g"})
    with desk.box.writing():  # with the bag's file, or nothing of it
        write_debrief(
            desk.box, own, account, desk.today(), correct=correct, only_changes=only_changes,
            kept=kept if correct else frozenset(), in_bag=in_bag,
        )  # fmt: skip
        say_home(desk, own.stem, came=answers.came_home, not_home=answers.not_home)
        write_changed(desk, own, answers.changed)
    written = show(desk, own.stem)
    assert written is not None
    return written


def _record(text: str) -> str:
    """A record of the water as it is kept. Raises AskedWronglyError for one with lines in doubt."""
    from tacklebox.matches.water.record import read_record, write_record

    if not text:
        return ""
    record = read_record(text)
    if record.faults:
        fault = record.faults[0]
        raise AskedWronglyError(fault.what, field="record", right=fault.right)
    return write_record(record)


def _refuse_changed(desk: Desk, match: str, version: str) -> None:
    from tacklebox.matches.after.debriefed import debriefed

    before = debriefed(desk.box, match)
    if _version(_answers(before.account) if before else None) != version:
        raise AskedWronglyError(
            "the debrief was changed elsewhere since this was opened; nothing was written over.",
            right="Open it anew: what you typed is below.",
        )


def _weight(desk: Desk, match: str, said: str | None) -> tuple[float | None, bool]:
    """What was weighed in, and whether what stands is kept: it is to the gram, though shown rounded."""
    from tacklebox.matches.after.debriefed import debriefed

    if said is None:
        return None, True
    first = debriefed(desk.box, match)
    if first and cleared(said) and cleared(said) == weight_words(first.debrief.weight_g):
        return first.debrief.weight_g, True
    return read_weight(said), False


def show(desk: Desk, match: str) -> DebriefShown | None:
    """What the debrief of a match says, whether or not its file can still be read; None where it
    has none.

    Raises AskedWronglyError for a match that neither has a file nor was debriefed.
    """
    from tacklebox.datafiles import check_name
    from tacklebox.matches.after.debriefed import debriefed

    stem = in_field("match", lambda name: check_name(name, "match"), match)
    found = debriefed(desk.box, stem)
    if found is None:
        in_field("match", matches_of(desk).load, stem)
        return None
    return _shown(desk, found)


def _shown(desk: Desk, found: "Debriefed") -> DebriefShown:
    from tacklebox.desk.bag import of_debrief
    from tacklebox.matches.after.account import Became
    from tacklebox.rigs.tying.changed import changed_into

    debrief = found.debrief
    return DebriefShown(
        debrief.match,
        debrief.venue,
        debrief.on,
        debrief.corrects,
        tuple(found.rigs(Became.BACK)),
        tuple(found.rigs(Became.LOST)),
        tuple(found.rigs(Became.WORN_OUT)),
        tuple(code for code in found.became if code in found.did_well),
        _moved(found.lost),
        _moved(found.given_back),
        debrief.weight_g,
        weight_words(debrief.weight_g),
        debrief.peg,
        debrief.notes,
        _moved(found.worn_out),
        debrief.section,
        debrief.place,
        debrief.points,
        debrief.water_c,
        debrief.record,
        of_debrief(desk, debrief.match, found),
        changed_into(desk.box, found.rigs(Became.BACK)),
    )


def _moved(moved: "Iterable[tuple[Item, int]]") -> tuple[TackleMoved, ...]:
    return tuple(TackleMoved(item.id or 0, item.name, amount_of(item, by)) for item, by in moved)


def did_well(
    desk: Desk, *, venue: str = "", season: str = "", method: str = ""
) -> tuple[WorkedWell, ...]:
    """The rigs that did well, the latest first, by venue, season and method where they are said.

    Raises AskedWronglyError for a season or method that is none, or a venue that no debrief names.
    """
    from tacklebox.matches.after.did_well import did_well as find

    return tuple(
        WorkedWell(
            one.tied.code,
            one.made.name,
            one.made.method,
            one.debrief.match,
            one.debrief.venue,
            one.debrief.on,
            one.debrief.peg,
            one.debrief.weight_g,
            weight_words(one.debrief.weight_g),
            one.debrief.notes,
        )
        for one in find(desk.box, venue=venue, season=season, method=method)
    )
