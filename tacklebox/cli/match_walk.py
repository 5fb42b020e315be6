"""The debrief as a walk at the terminal: question after question, shown whole, written once."""

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, TypeVar

import typer

from tacklebox.cli.match_debrief import NONE, cleared, read_weight, show_told
from tacklebox.cli.output import say, say_folded
from tacklebox.errors import AskedWronglyError, BenchError

if TYPE_CHECKING:
    from tacklebox.matches.after.debrief import Told
    from tacklebox.matches.after.taken import Taken
    from tacklebox.matches.files.match import Match
    from tacklebox.stock.care.box import Box
    from tacklebox.stock.tables import Item

Answer = TypeVar("Answer")


def walk(box: "Box", match: "Match", taken: "Taken", write: "Callable[[Told], None]") -> bool:
    """Ask for everything and write it; False where the angler leaves or says no.

    Where what was told cannot be written, why is told, and all is asked once more with it as what
    Enter keeps.
    """
    stands = taken.before.told if taken.before else None
    try:
        say(f"Debrief of {match.name}, {match.date}, {match.venue}.")
        say('Rigs are told by their codes, or "all"; Enter is none. Ctrl-C leaves.')
        if stands and not _goes_on(stands):
            return False
        while True:
            stands = _asked(box, taken, stands)
            say()
            show_told(stands)
            if not typer.confirm("Write this down?", default=True):
                return False
            try:
                write(stands)
            except BenchError as error:
                say_folded(str(error))
                say(f'Once more: Enter keeps what stands in [ ], "{NONE}" clears it.')
            else:
                return True
    except typer.Abort:
        say()
        return False


def _goes_on(stands: "Told") -> bool:
    """Shows the debrief there is, and offers to correct it."""
    say("It was debriefed already:")
    show_told(stands)
    say(f'Enter keeps what stands in [ ], "{NONE}" clears it.')
    return typer.confirm("Correct it?", default=False)


def _asked(box: "Box", taken: "Taken", stands: "Told | None") -> "Told":
    """All questions; ``stands`` is what Enter keeps."""
    from tacklebox.matches.after.debrief import Told
    from tacklebox.trade.quantities import write_weighed

    became: dict[str, list[str]] = {"back": [], "lost": [], "spent": []}
    well: list[str] = []
    for group in taken.groups:
        say()
        say_folded(f"{group.name}: {' '.join(group.codes)}")
        home = _codes("Left at home", group.codes, _which(stands, group.codes, "home"))
        left = [c for c in group.codes if c not in home]
        well += _ask_became(left, taken, stands, became)
    if not taken.groups:
        say("No rig of its wants is ready.")
    well += _ask_became(_others(taken, stands), taken, stands, became)
    say()
    items = _items(box, taken, stands)
    weight_g = _weight(stands.weight_g if stands else None, write_weighed)
    peg = _ask("Peg", str, stands.peg if stands else "")
    notes = _ask("What worked, in your words", str, stands.notes if stands else "")
    return Told(became["back"], became["lost"], became["spent"], well, items, peg, weight_g, notes)


def _ask_became(
    codes: Sequence[str], taken: "Taken", stands: "Told | None", became: dict[str, list[str]]
) -> list[str]:
    """What became of rigs that were taken: neither lost nor worn out is back. Who did well."""
    left = list(codes)
    told_before = taken.before.became if taken.before else {}
    for state, question in (("lost", "Lost"), ("spent", "Worn out")):
        # What was said before stands, however a rig went on.
        settled = {c: why for c, why in taken.settled.items() if told_before.get(c) != state}
        told = _codes(question, left, _which(stands, left, state), settled) if left else []
        became[state] += told
        left = [code for code in left if code not in told]
    became["back"] += left
    return _codes("Did well", codes, _which(stands, codes, "well")) if codes else []


def _which(stands: "Told | None", codes: Sequence[str], what: str) -> list[str]:
    """What was told of these rigs before."""
    if stands is None:
        return []
    told = {"lost": stands.lost, "spent": stands.spent, "well": stands.did_well}
    if what == "home":
        taken = {*stands.back, *stands.lost, *stands.spent}
        return [code for code in codes if code not in taken]
    return [code for code in codes if code in told[what]]


def _ask(question: str, read: Callable[[str], Answer], default: str = "") -> Answer:
    """Ask until the answer can be read; Enter takes the default, "none" is nothing."""
    shown = f"{question} [{default}]" if default else question
    while True:
        said = str(typer.prompt(shown, default=default, show_default=False)).strip()
        try:
            return read(cleared(said))
        except AskedWronglyError as error:
            say_folded(str(error), "  ")


def _codes(
    question: str,
    codes: Sequence[str],
    default: Sequence[str],
    settled: Mapping[str, AskedWronglyError] | None = None,
) -> list[str]:
    """Some of these codes, none of those that are ``settled``."""
    from tacklebox.rigs.tying.codes import each_code, near_codes, read_code

    def read(said: str) -> list[str]:
        found = list(codes) if said.lower() == "all" else []
        for word in each_code([said]) if said and not found else ():
            near = near_codes(word, list(codes))
            right = f"Near it: {', '.join(near)}." if near else f"There are {', '.join(codes)}."
            try:
                code = read_code(word)
            except AskedWronglyError as error:
                raise AskedWronglyError(error.what, right=right) from None
            if code not in codes:
                raise AskedWronglyError(f"{code} is not among these.", right=right)
            found.append(code)
        for code in found:
            if settled and code in settled:
                raise settled[code]
        return list(dict.fromkeys(found))

    return _ask(question, read, " ".join(default))


def _others(taken: "Taken", stands: "Told | None") -> list[str]:
    """Ready rigs beside those of the wants that were taken, too."""
    if not taken.others:
        return []
    told = {*stands.back, *stands.lost, *stands.spent} if stands else set()
    say()
    default = [code for code in taken.others if code in told]
    return _codes("Other rigs taken", taken.others, default)


def _weight(stands: float | None, write: Callable[[float], str]) -> float | None:
    """What was weighed in; Enter keeps it to the gram, though it is shown rounded."""
    shown = "" if stands is None else write(stands)
    return _ask(
        "Weighed in, like 5.4 kg or 12-8 (0 is a blank)",
        lambda said: stands if said and said == shown else read_weight(said),
        shown,
    )


def _items(box: "Box", taken: "Taken", stands: "Told | None") -> dict[str, str]:
    """Hooks and shot lost beside whole rigs, by the item's name, then anything else."""
    before = dict(stands.items_lost) if stands else {}
    lost = {}
    if taken.loose:
        say("Lost beside what was on lost rigs (how many; Enter is none):")
    for item in taken.loose:
        read = _amount_of(item, taken.had(item))
        amount = _ask(f"  {item.name}", read, before.pop(item.name, ""))
        if amount:
            lost[item.name] = amount
    shown = ", ".join(f"{name}={amount}" for name, amount in before.items())
    read_others = _others_lost(box, lost)
    return lost | _ask(
        'Other tackle lost, like "bead=2, swivel=1"',
        lambda said: before if said and said == shown else read_others(said),
        shown,
    )


def _amount_of(item: "Item", had: int) -> Callable[[str], str]:
    from tacklebox.stock.ledger import read_amount, write_amount

    def read(said: str) -> str:
        amount = read_amount(said, item.measured) if said else 0
        if amount > had:
            raise AskedWronglyError(
                f"{write_amount(amount, item.measured)} of {item.name} cannot be lost: "
                f"{write_amount(had, item.measured)} is in stock."
            )
        return said if amount else ""

    return read


def _others_lost(box: "Box", lost: dict[str, str]) -> Callable[[str], dict[str, str]]:
    from tacklebox.cli.common import pairs
    from tacklebox.stock.ledger import find

    def read(said: str) -> dict[str, str]:
        found: dict[str, str] = {}
        for words, amount in pairs([w for w in said.split(",") if w.strip()], "lost").items():
            with box.reading() as session:
                item = find(session, words)
            if item.name in {*lost, *found}:
                raise AskedWronglyError(f"{item.name} is told already.", right="Name it once.")
            if _amount_of(item, item.on_hand)(amount):
                found[item.name] = amount
        return found

    return read
