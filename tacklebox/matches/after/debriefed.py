"""What debriefs say that stand, as it was written."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlmodel import Session, col, select

from tacklebox.matches.after.account import OF_THE_MATCH, Account, Became
from tacklebox.matches.before.losses import valid_debriefs
from tacklebox.stock.amounts import read_amount, write_amount
from tacklebox.stock.care.box import Box
from tacklebox.stock.made import Debrief, DebriefRig, Tied
from tacklebox.stock.tables import Item, Movement, Why


@dataclass(frozen=True)
class Debriefed:
    """What a debrief says of its match: rigs by code, items lost beside them with the amount, and
    what went back into stock from rigs lost and worn out."""

    debrief: Debrief
    became: Mapping[str, Became]
    did_well: frozenset[str]
    lost: Sequence[tuple[Item, int]]
    given_back: Sequence[tuple[Item, int]]
    worn_out: Sequence[tuple[Item, int]] = ()  # hooklengths

    def rigs(self, became: Became) -> list[str]:
        """The rigs of which that became, by their codes."""
        return [code for code, what in self.became.items() if what is became]

    @property
    def account(self) -> Account:
        """The same as the angler would say it."""
        return Account(
            self.rigs(Became.BACK),
            self.rigs(Became.LOST),
            self.rigs(Became.WORN_OUT),
            did_well=[code for code in self.became if code in self.did_well],
            tackle_lost={item.name: write_exactly(amount, item) for item, amount in self.lost},
            **{name: getattr(self.debrief, name) for name in OF_THE_MATCH},
            worn_out_tackle={item.name: write_exactly(n, item) for item, n in self.worn_out},
        )


def write_exactly(amount: int, item: Item) -> str:
    """The amount as it is written, but in mm where metres would round it."""
    written = write_amount(amount, item.measured)
    return written if read_amount(written, item.measured) == amount else f"{amount} mm"


def read_debrief(session: Session, match: str) -> Debriefed | None:
    """What the debrief of a match says that stands now; None where there is none."""
    debrief = next((d for d in valid_debriefs(session) if d.match == match), None)
    if debrief is None:
        return None
    query = select(Tied.code, DebriefRig).join(Tied, col(Tied.id) == DebriefRig.tied_id)
    query = query.where(DebriefRig.debrief_id == debrief.id).order_by(col(Tied.id))
    rigs = list(session.exec(query))
    return Debriefed(
        debrief,
        {code: Became(rig.became) for code, rig in rigs},
        frozenset(code for code, rig in rigs if rig.did_well),
        _moved(session, debrief, Why.LOST),
        _moved(session, debrief, Why.GIVEN_BACK),
        _moved(session, debrief, Why.THROWN_OUT),
    )


def _moved(session: Session, debrief: Debrief, why: Why) -> list[tuple[Item, int]]:
    """Each item that the debrief moved so, and how much of it."""
    query = select(Item, Movement.amount).join(Movement, col(Movement.item_id) == Item.id)
    query = query.where(Movement.action_id == debrief.action_id, Movement.why == why)
    amounts: dict[int, tuple[Item, int]] = {}
    for item, amount in session.exec(query.order_by(col(Movement.id))):
        so_far = amounts.get(item.id or 0, (item, 0))[1]
        amounts[item.id or 0] = item, so_far + abs(amount)
    return list(amounts.values())


def debriefed(box: Box, match: str) -> Debriefed | None:
    """As ``read_debrief``, of a box that is not read already."""
    with box.reading() as session:
        return read_debrief(session, match)
