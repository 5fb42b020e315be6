"""The debrief as a walk at the terminal: question after question, shown whole, written once."""

import re
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

import typer

from tacklebox.cli.output import say, say_folded, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.debrief import Told
    from tacklebox.matches.match import Match
    from tacklebox.matches.taken import Before, Taken
    from tacklebox.stock.box import Box
    from tacklebox.stock.tables import Item

NONE = "none"
Answer = TypeVar("Answer")


def walk(box: "Box", match: "Match", taken: "Taken") -> "tuple[Told | None, bool]":
    """Ask for everything; what was told, or None where the angler leaves or says no, and whether
    it is to stand in the place of an earlier debrief. Nothing is written here.
    """
    before = taken.before
    try:
        say(f"Debrief of {match.name}, {match.date}, {match.venue}.")
        say('Rigs are told by their codes, or "all"; Enter is none. Ctrl-C leaves.')
        if before and not _goes_on(before):
            return None, False
        told = _asked(box, taken)
        say()
        _show(told)
        right = typer.confirm("Write this down?", default=True)
    except typer.Abort:
        say()
        return None, False
    return (told if right else None), before is not None


def _goes_on(before: "Before") -> bool:
    """Shows the debrief there is, and offers to correct it."""
    say_folded(f"It was debriefed already: {_in_short(before)}.")
    say(f'Enter keeps what stands in [ ], "{NONE}" clears it.')
    return typer.confirm("Correct it?", default=False)


def _in_short(before: "Before") -> str:
    from tacklebox.matches.taken import write_weight

    debrief = before.debrief
    told = [
        f"{code} {became}{', did well' if code in before.did_well else ''}"
        for code, became in before.became.items()
    ]
    told += [f"peg {debrief.peg}"] if debrief.peg else []
    told += [write_weight(debrief.weight_g)] if debrief.weight_g else []
    return "; ".join(told) or "nothing lost"


def _asked(box: "Box", taken: "Taken") -> "Told":
    from tacklebox.matches.debrief import Told
    from tacklebox.matches.taken import write_weight

    became: dict[str, list[str]] = {"back": [], "lost": [], "spent": []}
    well: list[str] = []
    for group in taken.groups:
        say()
        say_folded(f"{group.name}: {' '.join(group.codes)}")
        home = _codes("Left at home", group.codes, _which(taken.before, group.codes, "home"))
        well += _ask_became([c for c in group.codes if c not in home], taken.before, became)
    if not taken.groups:
        say("No rig of its wants is ready.")
    well += _ask_became(_others(box, taken), None, became)
    say()
    items = _items(box, taken)
    before = taken.before.debrief if taken.before else None
    weighed = write_weight(before.weight_g) if before and before.weight_g else ""
    weight_g = _ask("Weighed in, like 5.4 kg", _read_weight, weighed)
    peg = _ask("Peg", str, before.peg if before else "")
    notes = _ask("What worked, in your words", str, before.notes if before else "")
    return Told(became["back"], became["lost"], became["spent"], well, items, peg, weight_g, notes)


def _ask_became(
    codes: Sequence[str], before: "Before | None", became: dict[str, list[str]]
) -> list[str]:
    """What became of rigs that were taken: neither lost nor worn out is back. Who did well."""
    left = list(codes)
    for state, question in (("lost", "Lost"), ("spent", "Worn out")):
        told = _codes(question, left, _which(before, left, state)) if left else []
        became[state] += told
        left = [code for code in left if code not in told]
    became["back"] += left
    return _codes("Did well", codes, _which(before, codes, "well")) if codes else []


def _which(before: "Before | None", codes: Sequence[str], what: str) -> list[str]:
    """What an earlier debrief said of these rigs."""
    if before is None:
        return []
    if what == "well":
        return [code for code in codes if code in before.did_well]
    if what == "home":
        return [code for code in codes if code not in before.became]
    return [code for code in codes if before.became.get(code) == what]


def _ask(question: str, read: Callable[[str], Answer], default: str = "") -> Answer:
    """Ask until the answer can be read; Enter takes the default, "none" is nothing."""
    shown = f"{question} [{default}]" if default else question
    while True:
        said = str(typer.prompt(shown, default=default, show_default=False)).strip()
        try:
            return read("" if said.lower() == NONE else said)
        except AskedWronglyError as error:
            say_folded(str(error), "  ")


def _codes(question: str, codes: Sequence[str], default: Sequence[str]) -> list[str]:
    """Some of these codes."""
    from tacklebox.rigs.codes import near_codes, read_code

    def read(said: str) -> list[str]:
        if said.lower() == "all":
            return list(codes)
        found = []
        for word in re.split(r"[\s,;]+", said) if said else ():
            near = near_codes(word, list(codes))
            right = f"Near it: {', '.join(near)}." if near else f"There are {', '.join(codes)}."
            try:
                code = read_code(word)
            except AskedWronglyError as error:
                raise AskedWronglyError(error.what, right=right) from None
            if code not in codes:
                raise AskedWronglyError(f"{code} is not among these.", right=right)
            found.append(code)
        return list(dict.fromkeys(found))

    return _ask(question, read, " ".join(default))


def _others(box: "Box", taken: "Taken") -> list[str]:
    """Ready rigs beside those of the wants that were taken, too."""
    from tacklebox.rigs.tied import READY, tied_with

    told = {code for group in taken.groups for code in group.codes}
    known = [rig.code for rig in tied_with(box, state=READY) if rig.code not in told]
    if not known:
        return []
    say()
    return _codes("Other rigs taken", known, [])


def _items(box: "Box", taken: "Taken") -> dict[str, str]:
    """Hooks and shot lost beside whole rigs, by the item's name, then anything else."""
    from tacklebox.stock.ledger import write_amount

    lost = {}
    if taken.loose:
        say("Lost beside what was on lost rigs (how many; Enter is none):")
    for item in taken.loose:
        before = taken.before.lost.get(item.id or 0, 0) if taken.before else 0
        default = write_amount(before, item.measured) if before else ""
        amount = _ask(f"  {item.name}", _amount_of(item, taken.had(item)), default)
        if amount:
            lost[item.name] = amount
    return lost | _ask('Other tackle lost, like "bead=2, swivel=1"', _others_lost(box, lost))


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


def _read_weight(said: str) -> float | None:
    from tacklebox.trade.quantities import read_mass_g

    return read_mass_g(said) if said else None


def _show(told: "Told") -> None:
    """The whole of it, before it is written."""
    from tacklebox.matches.taken import write_weight

    gone = [f"{amount} × {name}" for name, amount in told.items_lost.items()]
    rows = [
        ("back", " ".join(told.back)),
        ("lost", " ".join(told.lost)),
        ("worn out", " ".join(told.spent)),
        ("did well", " ".join(told.did_well)),
        ("lost beside", ", ".join(gone)),
        ("weighed in", write_weight(told.weight_g) if told.weight_g else ""),
        ("peg", told.peg),
        ("notes", told.notes),
    ]
    show_table(["the whole of it", ""], [(what, words or "-") for what, words in rows])
