"""After a match: what became of what was taken. A form says what is asked; what is answered is
written once, as a whole, and each fault names the field that it lies in."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Amount, amount
from tacklebox.desk.asking import in_field
from tacklebox.desk.matches import matches_of
from tacklebox.desk.opening import Desk
from tacklebox.desk.wants import resolve_wants
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.after.account import Account
    from tacklebox.matches.after.debriefed import Debriefed
    from tacklebox.matches.after.taken import Taken
    from tacklebox.matches.files.match import Match, WantedRig
    from tacklebox.rigs.recipes.resolved import Resolved
    from tacklebox.stock.tables import Item

NONE = "none"  # clears what stands
ALL = "all"


@dataclass(frozen=True)
class RigAsked:
    """A rig that may have been taken; ``only_back`` says why it cannot have been lost or worn out."""

    code: str
    only_back: str = ""


@dataclass(frozen=True)
class RigsAsked:
    """Rigs of one kind that may have been taken: what they are, and which."""

    name: str
    rigs: tuple[RigAsked, ...]


@dataclass(frozen=True)
class TackleAsked:
    """Tackle that may have been lost beside whole rigs, and how much of it there was."""

    item: int
    name: str
    stock_before: Amount


@dataclass(frozen=True)
class DebriefAnswers:
    """What is answered, in words. Codes are typed as on the labels; tackle is named by number or
    words, with how much of it was lost; "18 to 0.10=3" among what is lost or worn out is so many
    hooklengths. What is None stays as it stands, "none" clears it.

    ``not_taken`` are rigs that the debrief there is names, and that stayed at home after all.
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


@dataclass(frozen=True)
class DebriefForm:
    """What is asked of a match: its rigs, want by want, then ready rigs beside them, and tackle.

    ``stands`` is what its debrief says already, to be corrected; None where it has none.
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
    from tacklebox.matches.after.debrief import refuse_coming
    from tacklebox.matches.after.taken import what_was_taken

    own = in_field("match", matches_of(desk).load, match)
    refuse_coming(own, desk.today())
    taken = what_was_taken(desk.box, own, _wants(desk, own))
    return DebriefForm(
        own.stem,
        own.name,
        own.day,
        own.venue,
        tuple(RigsAsked(group.name, _rigs(taken, group.codes)) for group in taken.groups),
        _rigs(taken, taken.others),
        _asked(taken, taken.tackle),
        _answers(taken.before.account) if taken.before else None,
        _asked(taken, taken.hooklengths),
    )


def _asked(taken: "Taken", items: "Iterable[Item]") -> tuple[TackleAsked, ...]:
    return tuple(
        TackleAsked(item.id or 0, item.name, amount(taken.had(item), item.measured))
        for item in items
    )


def _rigs(taken: "Taken", codes: Iterable[str]) -> tuple[RigAsked, ...]:
    faults = taken.only_back
    return tuple(RigAsked(code, str(faults[code]) if code in faults else "") for code in codes)


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
        weight=_weight_words(account.weight_g),
        peg=account.peg,
        notes=account.notes,
        worn_out_tackle=dict(account.worn_out_tackle),
    )


def _weight_words(weight_g: float | None) -> str:
    from tacklebox.trade.quantities import write_weighed

    return "" if weight_g is None else write_weighed(weight_g)


def read_rigs(
    said: str, among: Sequence[RigAsked], became: str, stands: Sequence[str] = ()
) -> tuple[str, ...]:
    """The rigs that are said of those asked for: their codes, "all", or nothing for none.

    ``became`` is the field they are said for; ``stands`` are those that it says already. Raises
    AskedWronglyError for a code that is not among them, offering near ones, and for a rig of which
    that cannot have become.
    """
    asked = {rig.code: rig for rig in among}
    if cleared(said).lower() == ALL:
        codes = list(asked)
    else:
        codes = [_code_among(word, list(asked)) for word in _words(said)]
    for code in codes:
        why = asked[code].only_back
        if why and code not in stands and became in ("lost", "worn_out"):
            raise AskedWronglyError(why, field=became)
    return tuple(dict.fromkeys(codes))


def _words(said: str) -> list[str]:
    from tacklebox.rigs.tying.codes import each_code

    return each_code([words]) if (words := cleared(said)) else []


def _code_among(typed: str, codes: Sequence[str]) -> str:
    from tacklebox.rigs.tying.codes import near_codes, read_code

    near = near_codes(typed, list(codes))
    right = f"Near it: {', '.join(near)}." if near else f"There are {', '.join(codes)}."
    try:
        code = read_code(typed)
    except AskedWronglyError as error:
        raise AskedWronglyError(error.what, right=right) from None
    if code not in codes:
        raise AskedWronglyError(f"{code} is not among these.", right=right)
    return code


def read_tackle(said: str, asked: TackleAsked) -> str:
    """How much of an item was lost, "" for none.

    Raises AskedWronglyError for no amount of it, and for more than there was.
    """
    words = cleared(said)
    return words if words and _lost(words, asked.stock_before, asked.name) else ""


def _lost(words: str, stock_before: Amount, name: str) -> int:
    from tacklebox.stock.amounts import read_amount, write_amount

    measured = stock_before.unit == "mm"
    lost = read_amount(words, measured)
    if lost > stock_before.value:
        raise AskedWronglyError(
            f"{write_amount(lost, measured)} of {name} cannot be lost: {stock_before} is in stock.",
            field="tackle_lost",
        )
    return lost


def read_other_tackle(
    desk: Desk, said: Mapping[str, str], besides: Sequence[str]
) -> dict[str, str]:
    """Other tackle that was lost, by the names of its items.

    ``besides`` are names that are answered already. Raises AskedWronglyError for what is not known,
    is named twice, or cannot be lost.
    """
    from tacklebox.stock.finding import find
    from tacklebox.stock.ledger import refuse_uncounted

    found: dict[str, str] = {}
    for words, lost in said.items():
        with desk.box.reading() as session:
            item = in_field("tackle_lost", lambda text: find(session, text), words)
        in_field("tackle_lost", refuse_uncounted, item)
        if item.name in {*besides, *found}:
            raise AskedWronglyError(
                f"{item.name} is answered already.", field="tackle_lost", right="Name it once."
            )
        if _lost(lost, amount(item.on_hand, item.measured), item.name):
            found[item.name] = lost
    return found


def read_weight(said: str) -> float | None:
    """What was weighed in, in g; None where nothing is said of it."""
    from tacklebox.trade.quantities import read_weighed_g

    words = cleared(said)
    return in_field("weight", read_weighed_g, words) if words else None


def weighed(said: str) -> str:
    """A weight as it is understood, in kilograms and in pounds and ounces."""
    return _weight_words(read_weight(said))


def cleared(said: str) -> str:
    """What is said, without "none"."""
    return "" if said.strip().lower() == NONE else said.strip()


def write(
    desk: Desk,
    match: str,
    answers: DebriefAnswers,
    *,
    correct: bool = False,
    only_changes: bool = False,
) -> DebriefShown:
    """Write what became of everything that was taken to a match: all of it, or nothing.

    With ``correct`` it takes the place of the debrief there is; with ``only_changes`` what that
    says of rigs and items that are not named stays. Raises AskedWronglyError for a match that has
    not been, a second debrief, and what cannot be, naming its field, all of it together;
    CannotBeDoneError for more lost than there was.
    """
    from tacklebox.matches.after.account import Account
    from tacklebox.matches.after.debrief import OF_THE_MATCH, refuse_coming, write_debrief

    own = in_field("match", matches_of(desk).load, match)
    refuse_coming(own, desk.today())
    if not correct and answers.not_taken:
        raise AskedWronglyError(
            "a rig that was not taken need not be named.", field="not_taken", see="debriefs.correct"
        )
    weight_g, is_kept = _weight(desk, own.stem, answers.weight)
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
    )
    said = {"peg": answers.peg is not None, "notes": answers.notes is not None,
            "weight_g": not is_kept}  # fmt: skip
    kept = OF_THE_MATCH - {name for name, is_said in said.items() if is_said}
    write_debrief(
        desk.box, own, account, desk.today(),
        correct=correct, only_changes=only_changes, kept=kept if correct else frozenset(),
    )  # fmt: skip
    written = show(desk, own.stem)
    assert written is not None
    return written


def _weight(desk: Desk, match: str, said: str | None) -> tuple[float | None, bool]:
    """What was weighed in, and whether what stands is kept: it is to the gram, though shown rounded."""
    from tacklebox.matches.after.debriefed import debriefed

    if said is None:
        return None, True
    first = debriefed(desk.box, match)
    if first and cleared(said) and cleared(said) == _weight_words(first.debrief.weight_g):
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
    return _shown(found)


def _shown(found: "Debriefed") -> DebriefShown:
    from tacklebox.matches.after.account import Became

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
        _weight_words(debrief.weight_g),
        debrief.peg,
        debrief.notes,
        _moved(found.worn_out),
    )


def _moved(moved: "Iterable[tuple[Item, int]]") -> tuple[TackleMoved, ...]:
    return tuple(
        TackleMoved(item.id or 0, item.name, amount(by, item.measured)) for item, by in moved
    )


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
            _weight_words(one.debrief.weight_g),
            one.debrief.notes,
        )
        for one in find(desk.box, venue=venue, season=season, method=method)
    )
