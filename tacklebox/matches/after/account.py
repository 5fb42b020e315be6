"""What the angler says of a match, in his words: what became of rigs, what tackle was lost."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError, FaultsOfFields
from tacklebox.rigs.tying.batches import count_of_batch, find_batch, read_count
from tacklebox.rigs.tying.tied import find_tied
from tacklebox.stock.amounts import read_amount
from tacklebox.stock.codes import each_code
from tacklebox.stock.finding import find
from tacklebox.stock.hooklengths import find_hooklength
from tacklebox.stock.ledger import refuse_uncounted
from tacklebox.stock.made import Batch, Tied
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.tables import Item, State

_IN_FIGURES = re.compile(
    r"\d.*(?:\bto\b|[/·])", re.DOTALL
)  # "18 to 0.10"; a code begins with a letter
_MANY = re.compile(r"(\d+) (?:x |× |of (?:the |my )?)?(\d.*)")


class Became(StrEnum):
    """What became of a rig at a match."""

    BACK = "back"
    LOST = State.LOST.value
    WORN_OUT = State.WORN_OUT.value
    NOT_TAKEN = "not taken"


@dataclass(frozen=True)
class Account:
    """Codes of rigs as they are typed, and tackle lost beside them by words or number, with its amount.

    Among what is lost or worn out, "WORDS=COUNT" is so many hooklengths, by what they are or their
    batch. ``worn_out_tackle`` are hooklengths that were thrown out, as ``tackle_lost``. ``not_taken``
    are rigs that an earlier debrief told of and that were not taken after all.
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
    worn_out_tackle: Mapping[str, str] = field(default_factory=dict)
    section: str = ""
    place: int | None = None
    points: float | None = None
    water_c: float | None = None
    record: str = ""


# What is said once of a match
OF_THE_MATCH = frozenset(
    ("peg", "section", "place", "points", "water_c", "weight_g", "notes", "record")
)
# What each field of an account says of its rigs.
FIELDS = {
    "back": Became.BACK,
    "lost": Became.LOST,
    "worn_out": Became.WORN_OUT,
    "not_taken": Became.NOT_TAKEN,
}


@dataclass(frozen=True)
class Understood:
    """An account as the box knows its rigs and items; ``fields`` say where each rig was named.

    ``worn_out`` are hooklengths by their item; ``of_batch`` are those lost or worn out that were named by the
    code of their batch.
    """

    rigs: Mapping[str, Tied]
    became: Mapping[str, Became]
    did_well: frozenset[str]
    tackle_lost: Mapping[int, tuple[Item, int]]
    fields: Mapping[str, str]
    worn_out: Mapping[int, tuple[Item, int]] = field(default_factory=dict)
    of_batch: Mapping[Became, Sequence[tuple[Batch, int]]] = field(default_factory=dict)


def understand(session: Session, account: Account, faults: FaultsOfFields) -> Understood:
    """The rigs and items that an account names; what cannot be is kept in ``faults``."""
    rigs: dict[str, Tied] = {}
    became: dict[str, Became] = {}
    fields: dict[str, str] = {}
    hooklengths = _Hooklengths(session)
    for name, what in FIELDS.items():
        codes = []
        for said in getattr(account, name):
            if "=" not in said and not _IN_FIGURES.match(as_said(said)):
                codes.append(said)
                continue
            with faults.of(name):
                hooklengths.add(said, what)
        for typed in each_code(codes):
            with faults.of(name):
                if batch := find_batch(session, typed):
                    hooklengths.add_batch(batch, None, what)
                    continue
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
    tackle = hooklengths.gone[Became.LOST]
    for said, amount in account.tackle_lost.items():
        with faults.of(f"tackle_lost.{said}"):
            item = find(session, said)
            refuse_uncounted(item)
            _add(tackle, item, read_amount(amount, item.measured))
    worn_out = hooklengths.gone[Became.WORN_OUT]
    for said, amount in account.worn_out_tackle.items():
        with faults.of(f"worn_out_tackle.{said}"):
            item = find_hooklength(session, said)
            _add(worn_out, item, read_amount(amount, item.measured))
    return Understood(rigs, became, frozenset(well), tackle, fields, worn_out, hooklengths.of_batch)


def _add(to: dict[int, tuple[Item, int]], item: Item, amount: int) -> None:
    if item.id in to:
        raise AskedWronglyError(f"{item.name} is named twice.", right="Name it once.")
    to[item.id or 0] = item, amount


class _Hooklengths:
    """Hooklengths that were lost or worn out, by item, and of which batch where that was said."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.gone: dict[Became, dict[int, tuple[Item, int]]] = {
            Became.LOST: {},
            Became.WORN_OUT: {},
        }
        self.of_batch: dict[Became, list[tuple[Batch, int]]] = {
            Became.LOST: [],
            Became.WORN_OUT: [],
        }

    def add(self, said: str, became: Became) -> None:
        """ "18 to 0.10=3" or "3 18s to 0.10", or a batch's code in the place of the words."""
        words, _, count = said.rpartition("=")
        if not words and (many := _MANY.fullmatch(as_said(said))):
            count, words = many.groups()
        elif not words:
            raise AskedWronglyError(
                f'"{said}": nobody says how many.', right=f'Write "{said}=1" for one.'
            )
        batch = find_batch(self.session, words)
        number = 0 if count.strip() == "0" else read_count(count.strip())
        if batch and number:
            self.add_batch(batch, number, became)
            return
        item = find_hooklength(self.session, words)
        self._refuse_other(item.name, became)
        _add(self.gone[became], item, number)

    def add_batch(self, batch: Batch, count: int | None, became: Became) -> None:
        """So many of a batch; of one that holds a single one, that."""
        item = self.session.get_one(Item, batch.item_id)
        self._refuse_other(batch.code, became)
        number = count_of_batch(batch, item, count)
        if any(other.id == batch.id for other, _ in self.of_batch[became]):
            raise AskedWronglyError(f"{batch.code} is named twice.", right="Name it once.")
        before = self.gone[became].get(batch.item_id, (item, 0))[1]
        self.gone[became][batch.item_id] = item, before + number
        self.of_batch[became].append((batch, number))

    def _refuse_other(self, name: str, became: Became) -> None:
        if became not in self.gone:
            raise AskedWronglyError(
                f"{name}: hooklengths are counted.",
                right="Name only those that were lost or are worn out.",
            )
