"""What the angler sets for his box: where copies go, which paper labels go on."""

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.boxfolder import at_home
from tacklebox.desk.asking import past_day
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, FaultsOfFields, nearest_word

if TYPE_CHECKING:
    from sqlmodel import Session


@dataclass(frozen=True)
class Settings:
    """What is set, in the angler's words; "" is as usual.

    ``copies`` is the folder that copies go to, ``paper`` what labels go on, ``sound_from`` and
    ``doubtful_from`` the chances, in percent, from which a rig is sound, and doubtful; ``units``
    are those told first where he did not say a figure himself: "imperial" or "metric".
    """

    copies: str = ""
    paper: str = ""
    sound_from: str = ""
    doubtful_from: str = ""
    units: str = ""


NAMES = tuple(one.name for one in fields(Settings))
CALLED = {  # as it is told what was done last
    "copies": "the folder for copies",
    "paper": "the paper of labels",
    "sound_from": "what is sound",
    "doubtful_from": "what is doubtful",
    "units": "the units told first",
}


def settings(desk: Desk) -> Settings:
    """What is set now."""
    with desk.box.reading() as session:
        return _read(session)


def set_them(desk: Desk, said: Mapping[str, str], *, on: str = "") -> Settings:
    """Set what is said, "" as usual; what is not named stays.

    Raises AskedWronglyError, naming the field, for what is no setting, a folder that is not there,
    a paper that is none, units that are none and chances that cannot be.
    """
    from tacklebox.stock.ledger import begin
    from tacklebox.stock.made import Setting

    for name in said:
        if name not in NAMES:
            raise AskedWronglyError(
                f'"{name}" is no setting.', field="name", right=nearest_word(name, NAMES)
            )
    faults = FaultsOfFields("this cannot be set.")
    new = {name: " ".join(words.split()) for name, words in said.items()}
    before = settings(desk)
    with faults.of("units"):
        new["units"] = _units(new.get("units", before.units))
    changed = {name: words for name, words in new.items() if words != getattr(before, name)}
    _gather(desk, before, changed, faults)
    faults.refuse()
    if not changed:
        return before
    day = past_day(desk, on)
    with desk.box.writing() as session:
        begin(session, "set " + ", ".join(CALLED[name] for name in changed), day)
        for name, words in changed.items():
            setting = session.get(Setting, name) or Setting(name=name)
            setting.said = words
            session.add(setting)
        session.flush()
        return _read(session)


def chances_of(desk: Desk, sound_from: str, doubtful_from: str) -> tuple[float, float]:
    """From which chances a rig is sound, and doubtful: as is said, else as is set, else the usual."""
    from tacklebox.desk.asking import chances

    if sound_from.strip() and doubtful_from.strip():
        return chances(sound_from, doubtful_from)
    set_ = settings(desk)
    return chances(sound_from or set_.sound_from, doubtful_from or set_.doubtful_from)


def _read(session: "Session") -> Settings:
    from sqlmodel import select

    from tacklebox.stock.made import Setting

    said = {setting.name: setting.said for setting in session.exec(select(Setting))}
    return Settings(**{name: said.get(name, "") for name in NAMES})


def _units(said: str) -> str:
    """The units that are meant by one of their names, "" for none."""
    from tacklebox.trade.units_first import IMPERIAL, METRIC

    named = {"lb": IMPERIAL, "oz": IMPERIAL, "ft": IMPERIAL, "feet": IMPERIAL, "in": IMPERIAL,
             "kg": METRIC, "g": METRIC, "m": METRIC, "cm": METRIC}  # fmt: skip
    word = said.lower()
    if word in ("", IMPERIAL, METRIC):
        return word
    words = re.findall("[a-z]+", word.replace(" and ", " "))
    meant = {named.get(one, "") for one in words}
    if len(meant) == 1 and "" not in meant:
        return meant.pop()
    raise AskedWronglyError(
        f'"{said}" names no units to tell first.',
        field="units",
        right='Write "imperial" for lb, oz and feet, or "metric" for kg, g and metres.',
    )


def _gather(
    desk: Desk, before: Settings, changed: Mapping[str, str], faults: FaultsOfFields
) -> None:
    """What stands is not judged anew: the drive of the copies may lie in a drawer."""
    from tacklebox.desk.asking import chances
    from tacklebox.printing.labels.papers import load_paper

    if changed.get("paper"):
        with faults.of("paper"):
            load_paper(changed["paper"], desk.box.labels)
    if changed.keys() & {"sound_from", "doubtful_from"}:
        now = {"sound_from": before.sound_from, "doubtful_from": before.doubtful_from, **changed}
        with faults.of("sound_from"):
            chances(now["sound_from"], now["doubtful_from"])
    if changed.get("copies"):
        with faults.of("copies"):
            _refuse_folder(desk, changed["copies"])


def _refuse_folder(desk: Desk, said: str) -> None:
    """Raises AskedWronglyError for a folder that copies cannot go to."""
    folder = at_home(Path(said), "copies")
    if not folder.is_absolute() or not folder.is_dir():
        raise AskedWronglyError(
            f"{said} is no folder.",
            right="Write the whole name of a folder that is there, on another drive.",
        )
    if folder.resolve().is_relative_to(desk.box.folder.resolve()):
        raise AskedWronglyError(
            f"{folder} is in the box itself: a copy there goes with it.",
            right="Name a folder on another drive.",
        )
    if not os.access(folder, os.W_OK):
        raise AskedWronglyError(f"{folder} may not be written.", right="Name another folder.")
