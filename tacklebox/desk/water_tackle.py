"""What a record of the water names, as the box knows it: rigs by their codes, tackle by its number."""

from dataclasses import replace
from typing import TYPE_CHECKING

from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.water.record import Record


def as_known(desk: Desk, record: "Record") -> "tuple[Record, tuple[str, ...]]":
    """The record with rigs and hooklengths that the box knows, rigs by their own codes; others are faults
    of their lines, but a fish, a cast or a change is kept without its rig, which is told."""
    from tacklebox.matches.water.record import CARRIED, Did, DoubtfulLine, write_line

    box = _KnownTackle(desk)
    rigs = [box.rig(code) for code in record.rigs]
    remarks = [f"Of the rigs that went along: {no_rig.what}" for _, no_rig in rigs if no_rig]
    faults, taps = list(record.faults), []
    for tap in record.taps:
        (rig, no_rig), no_item = box.rig(tap.rig), box.item(tap.item, tap.about in CARRIED)
        fault = no_rig or no_item
        if fault and tap.did in (Did.LOST, Did.WORN_OUT):
            faults.append(DoubtfulLine(tap.line, write_line(tap), fault.what, fault.right))
            continue
        if fault:
            remarks.append(f"Line {tap.line}: {fault.what} The {tap.did} is kept without it.")
        taps.append(replace(tap, rig=rig, item=0 if no_item else tap.item))
    went = tuple(dict.fromkeys(code for code, _ in rigs if code))
    return replace(record, taps=tuple(taps), rigs=went, faults=tuple(faults)), tuple(remarks)


class _KnownTackle:
    """What the box knows of the codes and numbers of a record; each is looked up once."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.rigs: dict[str, tuple[str, AskedWronglyError | None]] = {"": ("", None)}
        self.items: dict[tuple[int, bool], AskedWronglyError | None] = {
            (0, False): None,
            (0, True): None,
        }

    def rig(self, typed: str) -> tuple[str, AskedWronglyError | None]:
        """The rig's code, "" with what is wrong where there is none of it."""
        from tacklebox.rigs.tying.tied import find_tied

        if typed not in self.rigs:
            try:
                with self.desk.box.reading() as session:
                    self.rigs[typed] = find_tied(session, typed).code, None
            except AskedWronglyError as error:
                self.rigs[typed] = "", error
        return self.rigs[typed]

    def item(self, number: int, is_carried: bool) -> AskedWronglyError | None:
        """What is wrong with the number of hooklengths, or of a float or feeder that was put on."""
        asked = number, is_carried
        if asked not in self.items:
            self.items[asked] = None
            try:
                self._find(number, is_carried)
            except AskedWronglyError as error:
                self.items[asked] = error
        return self.items[asked]

    def _find(self, number: int, is_carried: bool) -> None:
        from tacklebox.matches.water.record import CARRIED
        from tacklebox.stock.finding import find
        from tacklebox.stock.hooklengths import find_hooklength

        with self.desk.box.reading() as session:
            found = (find if is_carried else find_hooklength)(session, str(number))
            if is_carried and found.kind not in CARRIED:
                raise AskedWronglyError(f"{found.name} is no float, feeder or bomb.")
