"""How long his baits take to sink, as he timed it himself; no item of stock is needed for that."""

from datetime import date

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.measured import SINKING, Known, read_measured
from tacklebox.stock.measuring import keep_reading, refuse_a_slip
from tacklebox.stock.tables import Measurement
from tacklebox.trade.pulls import Estimate
from tacklebox.trade.settling.sizes import BAITS, SINKING_SPREAD, Timing, bait_named, bait_timed


def record_sinking(
    session: Session, bait: str, timing: Timing, on: date, *, as_read: bool = False
) -> Measurement:
    """Keep how long a bait took to sink so far.

    Raises AskedWronglyError for a timing that no bait has and, unless ``as_read``, for a speed less than
    a third or more than three times of what is known of it.
    """
    timed = bait_timed(bait, timing.distance_m, timing.seconds, timing.water_c)
    known = next((one for one in BAITS if one.name == timed.name), None)
    if known is not None and not as_read:
        words = f"a {timed.name} that sinks at {100 * timed.sinks_m_s:.1f} cm/s"
        refuse_a_slip(SINKING, timed.sinks_m_s, known.sinks_m_s, words, "")
    row = Measurement(
        what=SINKING,
        bait=timed.name,
        distance_mm=1000 * timing.distance_m,
        seconds=timing.seconds,
        water_c=timing.water_c,
        on=on,
    )
    return keep_reading(session, f"timing of {timed.name}", row)


def known_of_bait(session: Session, name: str) -> list[Known]:
    """What the tool takes a bait's sinking for, his own timings before all else."""
    measured = read_measured(session)
    bait = measured.bait(name)
    many = len(measured.sinkings.get(bait.name, ())) if bait else 0
    if bait is None:
        try:
            bait = bait_named(name)
        except AskedWronglyError:
            return []
    speed = 100 * bait.sinks_m_s
    spread = speed * SINKING_SPREAD / max(1, many) ** 0.5
    return [Known("it sinks at", "cm/s", Estimate(speed, spread, many, bait.source))]
