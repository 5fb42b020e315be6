"""The debrief as a walk at the terminal: question after question, shown whole, written once."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeVar

import typer

from tacklebox.cli.adding import choose
from tacklebox.cli.common import pairs
from tacklebox.cli.debrief_rows import answers_said, show_answers
from tacklebox.cli.faults import fault_as_said
from tacklebox.cli.output import say, say_folded
from tacklebox.cli.typed import number_typed, typed
from tacklebox.errors import AskedWronglyError, BenchError, SeveralFitError

if TYPE_CHECKING:
    from tacklebox.desk import Desk
    from tacklebox.desk.debrief_words import RigAsked, TackleAsked
    from tacklebox.desk.debriefs import DebriefAnswers, DebriefForm, DebriefShown

Answer = TypeVar("Answer")


def walk(desk: "Desk", form: "DebriefForm") -> "DebriefShown | None":
    """Ask for everything and write it; None where the angler leaves or says no.

    Where what was answered cannot be written, why is told, and all is asked once more with it as
    what Enter keeps.
    """
    from tacklebox.desk import debrief_words, debriefs
    from tacklebox.desk.answers import write_day

    stands, correct = form.stands, form.stands is not None
    try:
        day = write_day(form.on, with_year=True)
        say(f"Debrief of {form.name}, {day}, {form.venue}.")
        say('Rigs are named by their codes, or "all"; Enter is none. Ctrl-C leaves.')
        if stands and not _goes_on(stands):
            return None
        while True:
            stands = _Walk(desk, form, stands).answers()
            say()
            show_answers(answers_said(stands))
            if not typer.confirm("Write this down?", default=True):
                return None
            try:
                return debriefs.write(desk, form.match, stands, correct=correct)
            except BenchError as error:
                say_folded(fault_as_said(error.without_field()))
                say(f'Once more: Enter keeps what stands in [ ], "{debrief_words.NONE}" clears it.')
    except typer.Abort:
        say()
        return None


def _goes_on(stands: "DebriefAnswers") -> bool:
    """Shows the debrief there is, and offers to correct it."""
    say("It was debriefed already:")
    show_answers(answers_said(stands))
    say('Enter keeps what stands in [ ], "none" clears it.')
    return typer.confirm("Correct it?", default=False)


@dataclass
class _Walk:
    """All questions of a form once; ``stands`` is what Enter keeps."""

    desk: "Desk"
    form: "DebriefForm"
    stands: "DebriefAnswers | None"
    lost: list[str] = field(default_factory=list)
    worn_out: list[str] = field(default_factory=list)
    back: list[str] = field(default_factory=list)
    did_well: list[str] = field(default_factory=list)
    not_taken: list[str] = field(default_factory=list)
    open_to_change: "list[RigAsked]" = field(default_factory=list)

    def answers(self) -> "DebriefAnswers":
        """What is answered."""
        from tacklebox.desk.debriefs import DebriefAnswers

        for group in self.form.rigs:
            say()
            say_folded(f"{group.name}: {' '.join(rig.code for rig in group.rigs)}")
            home = self._rigs("Left at home", group.rigs, "not_taken")
            self.not_taken += [rig.code for rig in group.rigs if rig.in_bag and rig.code in home]
            self._became([rig for rig in group.rigs if rig.code not in home])
        if not self.form.rigs:
            say("No rig of its wants is ready.")
        if self.form.others:
            say()
            others = self._rigs("Other rigs taken", self.form.others, "back")
            self._became([rig for rig in self.form.others if rig.code in others])
        say()
        hooklengths, worn_out = self._hooklengths()
        tackle = hooklengths | self._tackle()
        came_home, not_home = self._bag()
        stood = self.stands
        weight = _ask(
            "Weighed in, like 5.4 kg or 12-8 (0 is a blank)",
            self._weight,
            (stood.weight or "") if stood else "",
        )
        peg = _ask("Peg", str, (stood.peg or "") if stood else "")
        notes = _ask("What worked, in your words", str, (stood.notes or "") if stood else "")
        return DebriefAnswers(
            self.back,
            self.lost,
            self.worn_out,
            did_well=self.did_well,
            tackle_lost=tackle,
            weight=weight,
            peg=peg,
            notes=notes,
            worn_out_tackle=worn_out,
            not_taken=self.not_taken,
            changed=self._changed(),
            came_home=came_home,
            not_home=not_home,
        )

    def _became(self, rigs: "Sequence[RigAsked]") -> None:
        """What became of rigs that were taken: neither lost nor worn out is back. Who did well."""
        left = list(rigs)
        for became, question, found in (
            ("lost", "Lost", self.lost),
            ("worn_out", "Worn out", self.worn_out),
        ):
            codes = self._rigs(question, left, became) if left else ()
            found += codes
            left = [rig for rig in left if rig.code not in codes]
        self.back += [rig.code for rig in left]
        self.open_to_change += [rig for rig in left if not rig.only_back]
        if rigs:
            self.did_well += self._rigs("Did well", rigs, "did_well")

    def _changed(self) -> dict[str, dict[str, str]]:
        """What the rigs are now that were changed there; each is written as a new one."""
        asked = self.open_to_change
        found = {}
        for code in (
            self._rigs("Rigs that are other than they were", asked, "changed") if asked else ()
        ):
            found[code] = {
                name: _ask(f"  {code}: {question}", str)
                for name, question in (
                    ("hooklength", "hooklength put on, by its number or words"),
                    ("depth", "depth now"),
                    ("shot_now", "all of its shot now"),
                    ("carries", "float or feeder now"),
                    ("note", "what else"),
                )
            }
        return found

    def _rigs(self, question: str, among: "Sequence[RigAsked]", became: str) -> tuple[str, ...]:
        """The rigs of which that is said; Enter keeps those of which it stands."""
        from tacklebox.desk.debrief_words import read_rigs

        stood = self._stood(among, became)
        return _ask(question, lambda said: read_rigs(said, among, became, stood), " ".join(stood))

    def _stood(self, among: "Sequence[RigAsked]", became: str) -> list[str]:
        if self.stands is None:
            return []
        named = {*self.stands.back, *self.stands.lost, *self.stands.worn_out}
        if became == "not_taken":
            return [rig.code for rig in among if rig.code not in named]
        if became == "changed":  # what was is written already
            return []
        of = named if became == "back" else set(getattr(self.stands, became))
        return [rig.code for rig in among if rig.code in of]

    def _hooklengths(self) -> tuple[dict[str, str], dict[str, str]]:
        """How many of each kind of hooklength were lost, and how many are worn out."""
        stood = self.stands
        before = (stood.tackle_lost, stood.worn_out_tackle) if stood else ({}, {})
        found: tuple[dict[str, str], dict[str, str]] = ({}, {})
        if self.form.hooklengths:
            say("Hooklengths (how many; Enter is none):")
        for asked in self.form.hooklengths:
            say_folded(f"  {asked.name}, {asked.stock_before}:")
            for became, was, gone in zip(("lost", "worn out"), before, found, strict=True):
                count = self._count_of(f"    {became}", asked, was.get(asked.name, ""))
                if count:
                    gone[asked.name] = count
        return found

    def _count_of(self, question: str, asked: "TackleAsked", stood: str) -> str:
        from tacklebox.desk.debrief_words import read_tackle

        return _ask(question, lambda said: read_tackle(said, asked), stood)

    def _tackle(self) -> dict[str, str]:
        """Hooks and shot lost beside whole rigs, by the item's name, then anything else."""
        from tacklebox.desk.debrief_words import read_other_tackle

        own = {asked.name for asked in self.form.hooklengths}
        stood = self.stands.tackle_lost if self.stands else {}
        before = {name: amount for name, amount in stood.items() if name not in own}
        lost = {}
        if self.form.tackle:
            say("Lost beside what was on lost rigs (how many; Enter is none):")
        for asked in self.form.tackle:
            amount = self._count_of(f"  {asked.name}", asked, before.pop(asked.name, ""))
            if amount:
                lost[asked.name] = amount
        shown = ", ".join(f"{name}={amount}" for name, amount in before.items())

        def read(said: str) -> dict[str, str]:
            if said and said == shown:
                return before
            words = [word for word in said.split(",") if word.strip()]
            return read_other_tackle(self.desk, pairs(words, "lost"), list(lost))

        return lost | _ask('Other tackle lost, like "bead=2, swivel=1"', read, shown)

    def _bag(self) -> tuple[list[str], list[str]]:
        """What else was in the bag: by their numbers what did not come home; "all" came by Enter."""
        lines = self.form.bag
        if not lines:
            return [], []
        say("In the bag beside rigs:")
        for number, line in enumerate(lines, 1):
            say_folded(f"{number}  {line.words}", "  ")
        gone = [str(n) for n, line in enumerate(lines, 1) if line.became == "not home"]

        def read(said: str) -> set[int]:
            numbers = said.replace(",", " ").split()
            which = {number_typed(one, len(lines)) for one in numbers}
            if 0 not in which:
                return which
            raise AskedWronglyError(f'"{said}" is no number of these.', right="Like: 2 5.")

        missing = _ask("Which of these did not come home? Enter: all did", read, " ".join(gone))
        keys = [line.key for line in lines]
        return (
            [key for n, key in enumerate(keys, 1) if n not in missing],
            [key for n, key in enumerate(keys, 1) if n in missing],
        )

    def _weight(self, said: str) -> str:
        """The weight in his words, read once so that a slip is told at once."""
        from tacklebox.desk.debrief_words import read_weight

        read_weight(said)
        return said


def _ask(question: str, read: Callable[[str], Answer], default: str = "") -> Answer:
    """Ask until the answer can be read; Enter takes the default, "none" is nothing."""
    from tacklebox.desk.debrief_words import cleared

    shown = f"{question} [{default}]" if default else question
    while True:
        said = typed(shown, default)
        try:
            return _read(cleared(said), read)
        except AskedWronglyError as error:
            say_folded(fault_as_said(error.without_field()), "  ")


def _read(said: str, read: Callable[[str], Answer]) -> Answer:
    """What is read from it, once it was asked which of several things its words mean."""
    while True:
        try:
            return read(said)
        except SeveralFitError as error:
            chosen = choose(error.what, error.readings)
            if not chosen or error.said not in said:
                raise
            said = said.replace(error.said, chosen, 1)
