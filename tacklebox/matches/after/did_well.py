"""Rigs that did well at earlier matches: where, when, and what they are."""

from dataclasses import dataclass

from sqlmodel import col, select

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.matches.before.losses import valid_debriefs
from tacklebox.rigs.tying.snapshot import Snapshot, read_kept
from tacklebox.stock.care.box import Box
from tacklebox.stock.made import Debrief, DebriefRig, Tied

METHODS = ("float", "feeder", "pole")
MONTHS = {
    "spring": (3, 4, 5),
    "summer": (6, 7, 8),
    "autumn": (9, 10, 11),
    "winter": (12, 1, 2),
}


@dataclass(frozen=True)
class DidWell:
    """A rig that did well: where, when, and what it is."""

    debrief: Debrief
    tied: Tied
    made: Snapshot


def did_well(box: Box, *, venue: str = "", season: str = "", method: str = "") -> list[DidWell]:
    """The rigs that did well, the latest first, by venue, season and method where they are said.

    Raises AskedWronglyError for a season or method that is none, or a venue that no debrief names.
    """
    if season and season not in MONTHS:
        raise AskedWronglyError(
            f'"{season}" is no season.', field="season", right=nearest_word(season, list(MONTHS))
        )
    if method and method not in METHODS:
        raise AskedWronglyError(
            f'"{method}" is no method.', field="method", right=nearest_word(method, METHODS)
        )
    found = []
    with box.reading() as session:
        debriefs = {d.id: d for d in valid_debriefs(session)}
        known = sorted({d.venue for d in debriefs.values()})
        if known and venue and venue not in known:
            raise AskedWronglyError(
                f'no debrief is of a match at "{venue}".',
                field="venue",
                right=nearest_word(venue, known),
            )
        query = select(DebriefRig, Tied).join(Tied, col(Tied.id) == DebriefRig.tied_id)
        for rig, tied in session.exec(query.where(col(DebriefRig.did_well))):
            debrief, made = debriefs.get(rig.debrief_id), read_kept(tied)
            if (
                debrief is not None
                and venue in ("", debrief.venue)
                and method in ("", made.method)
                and (not season or debrief.on.month in MONTHS[season])
            ):
                found.append(DidWell(debrief, tied, made))
    return sorted(found, key=lambda one: (one.debrief.on, one.tied.id or 0), reverse=True)
