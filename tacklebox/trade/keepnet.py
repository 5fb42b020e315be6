"""Keepnets: what the national byelaws of England and Wales ask of one."""

from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.law import FISHERY_BYELAWS
from tacklebox.trade.quantities import write_length
from tacklebox.trade.sources import Source


@dataclass(frozen=True, slots=True)
class KeepnetRule:
    """Measures in mm: least length, widest ring spacing, least ring and greatest mesh size around.

    Source: Environment Agency, national fisheries byelaws. The net must be knotless too.
    """

    length_mm: float = 2000.0
    rings_apart_mm: float = 400.0
    ring_around_mm: float = 1200.0
    hole_around_mm: float = 25.0
    source: Source = FISHERY_BYELAWS


BYELAW = KeepnetRule()
MOST_MM = 20_000.0


def keepnet_faults(
    length_mm: float,
    rings_apart_mm: float,
    ring_around_mm: float,
    hole_around_mm: float,
    least_length_mm: float = 0.0,
) -> list[str]:
    """What is wrong with a keepnet, in sentences; none when it passes.

    Arguments in mm, above 0: its length, the spacing of its rings, the circumference of a
    ring and of a hole; ``least_length_mm`` is what the venue asks beyond the byelaw. Raises
    AskedWronglyError for a measure of 0 or less. Source: Environment Agency, national fisheries
    byelaws.

    >>> keepnet_faults(2500, 400, 1200, 25)
    []
    >>> keepnet_faults(1900, 400, 1200, 25)
    ['it is 190 cm long: at least 200 cm']
    """
    measures = (length_mm, rings_apart_mm, ring_around_mm, hole_around_mm)
    if not all(0 < m <= MOST_MM for m in measures):
        raise AskedWronglyError(
            "a keepnet's measures are above 0, up to 20 m.", right="Measure it again."
        )
    least = max(BYELAW.length_mm, least_length_mm)
    faults = []
    if length_mm < least:
        faults.append(f"it is {write_length(length_mm)} long: at least {write_length(least)}")
    if rings_apart_mm > BYELAW.rings_apart_mm:
        most = write_length(BYELAW.rings_apart_mm)
        faults.append(f"its rings are {write_length(rings_apart_mm)} apart: at most {most}")
    if ring_around_mm < BYELAW.ring_around_mm:
        least_ring = write_length(BYELAW.ring_around_mm)
        faults.append(f"a ring is {write_length(ring_around_mm)} around: at least {least_ring}")
    if hole_around_mm > BYELAW.hole_around_mm:
        most = f"{BYELAW.hole_around_mm:g} mm"
        faults.append(f"a hole is {hole_around_mm:g} mm around: at most {most}")
    return faults


def keepnet_words(least_length_mm: float = 0.0) -> str:
    """The byelaw in a sentence, with a venue's greater length where it asks for one.

    >>> keepnet_words(3000).startswith("Keepnet knotless, at least 3 m long")
    True
    """
    length = write_length(max(BYELAW.length_mm, least_length_mm))
    return (
        f"Keepnet knotless, at least {length} long, rings at most "
        f"{write_length(BYELAW.rings_apart_mm)} apart and at least "
        f"{write_length(BYELAW.ring_around_mm)} around, no hole over {BYELAW.hole_around_mm:g} mm "
        f"around ({BYELAW.source.citation})."
    )
