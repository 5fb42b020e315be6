"""What the angler says of a match, in his words: what became of rigs, what tackle was lost."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from enum import StrEnum

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tacklebox.rigs.tying.codes import each_code
from tacklebox.rigs.tying.tied import find_tied
from tacklebox.stock.ledger import find, read_amount, refuse_uncounted
from tacklebox.stock.tables import Item, State, Tied


class Became(StrEnum):
    """What became of a rig at a match."""

    BACK = "back"
    LOST = State.LOST.value
    WORN_OUT = State.WORN_OUT.value
    NOT_TAKEN = "not taken"


@dataclass(frozen=True)
class Account:
    """Codes of rigs as they are typed, and tackle lost beside them by words or number, with its amount.

    ``not_taken`` are rigs that an earlier debrief told of and that were not taken after all.
    """

    back: Sequence[str] = ()
    lost: Sequence[str] = ()
    worn_out: Sequence[str] = ()
    did_well: Sequence[str] = ()
    tackle_lost: Mapping[str, str] = field(default_factory=dict)
    peg: str = ""
    weight_g: float | None = None
    notes: str = ""
    not_taken: Sequence[str] = ()


# What each field of an account says of its rigs.
FIELDS = {
    "back": Became.BACK,
    "lost": Became.LOST,
    "worn_out": Became.WORN_OUT,
    "not_taken": Became.NOT_TAKEN,
}


@dataclass(frozen=True)
class Understood:
    """An account as the box knows its rigs and items; ``fields`` say where each rig was named."""

    rigs: Mapping[str, Tied]
    became: Mapping[str, Became]
    did_well: frozenset[str]
    tackle_lost: Mapping[int, tuple[Item, int]]
    fields: Mapping[str, str]


class AccountFaults:
    """What is wrong with an account, gathered so that all can be mended at once."""

    def __init__(self, heading: str) -> None:
        self.heading = heading
        self.found: list[AskedWronglyError] = []

    @contextmanager
    def of(self, name: str) -> Iterator[None]:
        """Keep a fault of what is done within, with the field it lies in."""
        try:
            yield
        except AskedWronglyError as error:
            self.found.append(error.in_field(name))

    def refuse(self) -> None:
        """Raises what was found: one fault as it is, several as ManyFaultsError."""
        if len(self.found) == 1:
            raise self.found[0]
        if self.found:
            raise ManyFaultsError(self.heading, self.found)


def understand(session: Session, account: Account, faults: AccountFaults) -> Understood:
    """The rigs and items that an account names; what cannot be is kept in ``faults``."""
    rigs: dict[str, Tied] = {}
    became: dict[str, Became] = {}
    fields: dict[str, str] = {}
    for name, what in FIELDS.items():
        for typed in each_code(getattr(account, name)):
            with faults.of(name):
                tied = find_tied(session, typed)
                if tied.code in became:
                    raise AskedWronglyError(
                        f"{tied.code} is named twice.", right="Name each rig once."
                    )
                rigs[tied.code], became[tied.code], fields[tied.code] = tied, what, name
    well = set()
    for typed in each_code(account.did_well):
        with faults.of("did_well"):
            well.add(find_tied(session, typed).code)
    tackle: dict[int, tuple[Item, int]] = {}
    for said, amount in account.tackle_lost.items():
        with faults.of(f"tackle_lost.{said}"):
            item = find(session, said)
            refuse_uncounted(item)
            if item.id in tackle:
                raise AskedWronglyError(f"{item.name} is named twice.", right="Name it once.")
            tackle[item.id or 0] = item, read_amount(amount, item.measured)
    return Understood(rigs, became, frozenset(well), tackle, fields)
