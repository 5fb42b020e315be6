"""The angler's own readings recorded, slips refused, and what was misread taken back."""

import re
from datetime import date

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.ledger import begin
from tacklebox.stock.measured import (
    BUCKET,
    FLOATS,
    HOOKS,
    PULL,
    SINKING,
    STRETCH,
    TAKEN_BACK,
    WEIGHING,
    figures_of,
    standing,
)
from tacklebox.stock.naming.tokens import tokenise
from tacklebox.stock.tables import (
    UNMARKED,
    Float,
    Hook,
    Item,
    Line,
    Measurement,
    Weight,
)
from tacklebox.trade.floats import checked_own_mass_g, inside_g, usual_own_mass_g
from tacklebox.trade.knots import keeps, knot_named
from tacklebox.trade.limits import within, write_rounded
from tacklebox.trade.pulls import (
    Pull,
    capacity_from_bucket,
    shot_from_weighings,
    strain_from_pulls,
    stretch_from_readings,
)
from tacklebox.trade.quantities import KG_PER_LB, read_strain_kg
from tacklebox.trade.shot import read_mark
from tacklebox.trade.units_first import show_both_strains

MOST_TOGETHER = 500
MOST_PULLED_G = 20_000  # by an elastic: several times what the strongest is fished with


# A reading further off than this is a slip rather than a surprise (from memory).
FURTHEST = {PULL: 2.0, WEIGHING: 1.5, BUCKET: 2.0, HOOKS: 2.0, FLOATS: 4.0, SINKING: 3.0}


def refuse_a_slip(what: str, read: float, expected: float, words: str, meant: str) -> None:
    """Refuse a reading too far from what is expected to be anything but a slip."""
    furthest = FURTHEST[what]
    if expected / furthest <= read <= expected * furthest:
        return
    raise AskedWronglyError(
        f"{words} is too far off to be believed.",
        right=meant + "Read it again.",
        see="measure.as_read",
    )


_OUNCES = re.compile(r"(?<=\d)lbs?(\d{1,2})(?![\d.])", re.IGNORECASE)  # "1lb8"


def read_pulls(text: str) -> list[float]:
    """The readings of a pull test, in kg: "2.6lb 2.5lb 2.7lb", "1.7, 1.75 and 1.8 kg", "1lb8 1lb7".

    A number without a unit has that of the next one that has. Raises AskedWronglyError for anything else,
    and where no unit is said.
    """
    said: list[str] = []
    unit = ""
    for token in reversed(tokenise(_OUNCES.sub(r" lb \1 oz", text))):
        if token.text in (",", ";", "and", "/"):
            continue
        if token.kind != "number" or not (token.unit or unit):
            read_strain_kg(text)  # says what is wrong with it
            raise AskedWronglyError(
                f'"{token.said}" is no strain.', right='Write it like "1.9 kg".'
            )
        unit = token.unit or unit
        said.insert(0, token.said if token.unit else f"{token.text} {unit}")
    return [read_strain_kg(one) for one in said] or [read_strain_kg(text)]


def record_pull(
    session: Session, item: Item, pulled_kg: float, knot: str, on: date, *, as_read: bool = False
) -> Measurement:
    """Keep a pull test on a line, in kg; ``knot`` is its name, "" for plain line.

    Raises AskedWronglyError for an item that is no line, a knot not known here, and, unless
    ``as_read``, a reading less than half or more than twice of what is expected.
    """
    line = figures_of(session, item, PULL)
    assert isinstance(line, Line)
    tied = knot_named(knot) if knot else None
    strain_from_pulls(line.breaks_at_kg, [Pull(pulled_kg, tied)], line.material)  # checks the range
    if line.breaks_at_kg is not None and not as_read:
        expected = line.breaks_at_kg * (keeps(tied, line.material) if tied else 1)
        meant = ""
        for factor, unit in ((KG_PER_LB, "lb"), (1 / KG_PER_LB, "kg")):
            if abs(pulled_kg * factor / expected - 1) < 0.25 and pulled_kg != expected:
                meant = f"Was it in {unit}? "
        words = (
            f"{show_both_strains(pulled_kg)} on line that should hold {show_both_strains(expected)}"
        )
        refuse_a_slip(
            PULL, pulled_kg, expected, words + (f" with a {tied.name}" if tied else ""), meant
        )
    return keep_reading(
        session,
        f"pull test of {item.name}",
        Measurement(
            item_id=item.id or 0,
            what=PULL,
            breaks_at_kg=pulled_kg,
            knot=tied.name if tied else "",
            on=on,
        ),
    )


def record_weighing(
    session: Session, item: Item, total_g: float, count: int, on: date, *, as_read: bool = False
) -> Measurement:
    """Keep a weighing of so many weights, hooks or floats together, in g.

    Raises AskedWronglyError for an item that is none of them, a count outside 1–500, and, unless
    ``as_read``, a mass less than two thirds or more than one and a half of what is expected; of hooks
    less than half or more than twice, of floats less than a quarter or more than four times.
    """
    figures = figures_of(session, item, WEIGHING)
    within(
        count,
        1,
        MOST_TOGETHER,
        "a number weighed together",
        field="count",
        hint="About twenty is good.",
    )
    if isinstance(figures, Hook):
        _refuse_of_no_size(item, figures.size)
        one_g, what = _hook_g(figures, total_g / count), HOOKS
    elif isinstance(figures, Float):
        checked_own_mass_g(total_g / count)
        takes_g, what = figures.capacity_g, FLOATS
        one_g = None if takes_g is None else usual_own_mass_g(takes_g, inside_g(figures.mark))
    else:
        assert isinstance(figures, Weight)
        _refuse_of_no_size(item, figures.mark)
        assert figures.mass_g is not None
        shot_from_weighings(figures.mass_g, [(count, total_g)])  # checks the range
        unknown = figures.form != "olivette" and read_mark(figures.mark).must_be_weighed
        one_g, what = None if unknown else figures.mass_g, WEIGHING
    if not as_read and one_g is not None:
        expected = count * one_g
        words = (
            f"{write_rounded(total_g)} g for {count} × {item.name}, "
            f"nominally {write_rounded(expected)} g,"
        )
        meant = ""
        if abs(total_g / one_g - round(total_g / one_g)) < 0.1:
            near = round(total_g / one_g)
            meant = f"That would be about {near} of them: is the count right? " if near >= 1 else ""
        refuse_a_slip(what, total_g, expected, words, meant)
    row = Measurement(item_id=item.id or 0, what=WEIGHING, mass_g=total_g, count=count, on=on)
    return keep_reading(session, f"weighing of {item.name}", row)


def _refuse_of_no_size(item: Item, size: str) -> None:
    if size == UNMARKED:
        raise AskedWronglyError(
            f"{item.name} is of no one size, so what one of them weighs says nothing.",
            right="Weigh those of one size, or put the size in, where all are of one.",
        )


def _hook_g(hook: Hook, weighed_g: float) -> float | None:
    """What one is from memory, in g; None beyond the sizes that are known. Checks the weighing's range."""
    from tacklebox.trade.settling.sizes import hook_of_size, hook_weighed

    hook_weighed(hook.size, 1000 * weighed_g)
    try:
        return hook_of_size(hook.size).mass_mg / 1000
    except AskedWronglyError:
        return None


def record_bucket(
    session: Session, item: Item, carried_g: float, on: date, *, as_read: bool = False
) -> Measurement:
    """Keep what a float carried in a bucket before it dotted down, in g of shot.

    Raises AskedWronglyError for an item that is no float and, unless ``as_read``, a mass less
    than half or more than twice of what its mark means, where it has one.
    """
    figures = figures_of(session, item, BUCKET)
    assert isinstance(figures, Float)
    capacity_from_bucket(figures.capacity_g, [carried_g])  # checks the range
    if not as_read and figures.capacity_g is not None:
        words = (
            f"{write_rounded(carried_g)} g in a float marked {figures.mark}, which means "
            f"{write_rounded(figures.capacity_g)} g,"
        )
        refuse_a_slip(BUCKET, carried_g, figures.capacity_g, words, "")
    row = Measurement(item_id=item.id or 0, what=BUCKET, mass_g=carried_g, on=on)
    return keep_reading(session, f"bucket test of {item.name}", row)


def record_stretch(session: Session, item: Item, pulled_g: float, on: date) -> Measurement:
    """Keep what an elastic pulled on a balance at three to four times its length, in g.

    Raises AskedWronglyError for an item that is no elastic, or a pull beyond 20 kg.
    """
    figures_of(session, item, STRETCH)
    within(pulled_g, 1, MOST_PULLED_G, "what an elastic pulls,", "g", hint="Read it again.")
    stretch_from_readings([pulled_g / 1000])  # checks the range
    row = Measurement(item_id=item.id or 0, what=STRETCH, mass_g=pulled_g, on=on)
    return keep_reading(session, f"pull of {item.name}", row)


def keep_reading(session: Session, what: str, row: Measurement) -> Measurement:
    """Keep a reading by an action of its own, which ``what`` names."""
    row.action_id = begin(session, what, row.on).id
    session.add(row)
    session.flush()
    return row


def take_back(session: Session, number: int, on: date) -> Measurement:
    """Take back a reading that was misread; the row itself stays. Hands back that reading.

    Raises AskedWronglyError when there is no such reading, or it was taken back already.
    """
    row = session.get(Measurement, number)
    if row is None or row.what == TAKEN_BACK:
        raise AskedWronglyError(f"there is no reading {number}.", see="measure.of")
    if not any(one.id == row.id for one in standing(session)):
        raise AskedWronglyError(f"reading {number} is taken back already.")
    keep_reading(
        session,
        f"reading {number} taken back",
        Measurement(item_id=row.item_id, bait=row.bait, what=TAKEN_BACK, takes_back=row.id, on=on),
    )
    return row
