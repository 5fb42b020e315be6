"""Amounts, packets and prices, read as they are said and written as they are told."""

import math
import re

from tacklebox.errors import AskedWronglyError
from tacklebox.trade import quantities as q
from tacklebox.trade.units_first import IMPERIAL, first, show_length

MOST_PIECES = 1_000_000

MOST_CENTS = 10_000_000

_YARD_MM = 36 * q.MM_PER_INCH
_FOOT_MM = 12 * q.MM_PER_INCH

_PRICE = re.compile(r"(\d{1,9})(?:[.,](\d{1,2}))?", re.ASCII)


def read_amount(text: str, measured: bool) -> int:
    """An amount in the item's smallest unit: a length in mm, or a number of pieces.

    Raises AskedWronglyError: a length needs its unit, pieces are whole and no length.

    >>> read_amount("12.5 m", measured=True), read_amount("30", measured=False)
    (12500, 30)
    >>> read_amount("six metres", measured=True), read_amount("half a dozen", measured=False)
    (6000, 6)
    """
    plain = text.strip()
    if not plain:
        like = "12.5 m" if measured else "30"
        raise AskedWronglyError("nothing is said.", right=f'Write how much, like "{like}".')
    if not any(letter.isdigit() for letter in plain):
        plain = _in_figures(plain)
    if plain == "0":
        return 0
    if measured:
        length_mm = q.read_length_mm(plain)
        if round(length_mm) == 0:
            raise AskedWronglyError(
                f'"{text}" is less than a millimetre.', right="Lengths are kept in millimetres."
            )
        return round(length_mm)
    if not plain.isdecimal() or not plain.isascii() or len(plain) > 7 or int(plain) > MOST_PIECES:
        if _is_length(plain):
            raise AskedWronglyError(
                f'"{text}" is a length, and this is counted in pieces.',
                right='Write how many pieces, like "30"; how long a piece is goes with what it is. '
                "What nobody counts is plenty, low or out.",
            )
        raise AskedWronglyError(
            f'"{text}" is no number of pieces.', right=f"Write a whole number up to {MOST_PIECES}."
        )
    return int(plain)


def read_packets(text: str) -> int:
    """A number of packets, as it is said or in figures. Raises AskedWronglyError for what is none.

    >>> read_packets("2"), read_packets("two packets"), read_packets("a dozen packs")
    (2, 2, 12)
    """
    plain = re.sub(r"\s*\b(?:packs?|packets?)$", "", text.strip().lower())
    try:
        return read_amount(plain, measured=False)
    except AskedWronglyError:
        raise AskedWronglyError(
            f'"{text}" is no number of packets.', right="Write a whole number."
        ) from None


def _is_length(text: str) -> bool:
    try:
        return q.read_length_mm(text) > 0
    except AskedWronglyError:
        return False


def _in_figures(text: str) -> str:
    """A number in words as figures: "half a dozen" is "6"; as it is where it is none."""
    from tacklebox.stock.naming.tokens import as_said

    return as_said(text) or text


def write_amount(amount: int, measured: bool) -> str:
    """An amount as an angler reads it: metres of line, pieces of all else.

    >>> write_amount(12_500, True), write_amount(-3, False)
    ('12.5 m', '-3')
    """
    if not measured:
        return str(amount)
    return f"{amount / 1000:.2f}".rstrip("0").rstrip(".") + " m"


def show_amount(amount: int, measured: bool, said: str = "") -> str:
    """An amount as it is told: as ``write_amount`` writes it, line in yards where those are wanted first
    or its spool was ``said`` in them.

    >>> show_amount(12_500, True), show_amount(91_440, True, "100 yd")
    ('12.5 m', '100 yd')
    """
    if not measured or (first() != IMPERIAL and not said.endswith(" yd")):
        return write_amount(amount, measured)
    return f"{round(amount / _YARD_MM, 1):g} yd"


def show_round(amount: int, measured: bool, said: str = "") -> str:
    """What he set or loaded, in the unit in which it is whole (metres, yards, feet); else as ``show_amount``.

    >>> show_round(10_000, True, "100 yd"), show_round(109_728, True), show_round(20, False)
    ('10 m', '120 yd', '20')
    >>> show_round(1829, True), show_round(1830, True)
    ('2 yd', '1.83 m')
    """
    if measured and amount % 1000 == 0:
        return write_amount(amount, measured)
    for unit, unit_mm in (("yd", _YARD_MM), ("ft", _FOOT_MM)) if measured else ():
        many = round(amount / unit_mm)
        if amount == round(many * unit_mm):
            return f"{many} {unit}"
    return show_amount(amount, measured, said)


def show_left(length_mm: int, said: str = "") -> str:
    """What is left on a spool, no finer than anyone can see it: whole metres or yards, and never more than
    there is; below ten of them in tenths.

    >>> show_left(95_120), show_left(9_940), show_left(91_440, "100 yd"), show_left(40)
    ('95 m', '9.9 m', '100 yd', '40 mm')
    """
    in_yards = first() == IMPERIAL or said.endswith(" yd")
    unit, unit_mm = ("yd", _YARD_MM) if in_yards else ("m", 1000.0)
    many = length_mm / unit_mm
    if many < 0.1:
        return f"{length_mm} mm"
    step = 1 if many >= 10 else 10
    return f"{math.floor(many * step + 1e-9) / step:g} {unit}"


def show_cut(length_mm: int) -> str:
    """What rigs take of a spool: centimetres below a metre, else metres; or feet and inches.

    >>> show_cut(350), show_cut(1790)
    ('35 cm', '1.79 m')
    """
    if first() == IMPERIAL:
        return show_length(length_mm)
    return f"{length_mm / 10:g} cm" if length_mm < 1000 else write_amount(length_mm, measured=True)


def packet_as_said(text: str, measured: bool) -> str:
    """The words of a spool's length, "" of a number of pieces: "100yds" is "100 yd"."""
    from tacklebox.stock.naming.tokens import as_said

    return as_said(text) if measured else ""


def read_price_cents(text: str) -> int:
    """The price of a pack, in hundredths of the angler's money: "3.49", "3,49", "£3.49".

    What has more than two decimals may be thousands, and is refused.

    >>> read_price_cents("3,49")
    349
    """
    plain = text.strip().strip("£€$ ")
    found = _PRICE.fullmatch(plain)
    if not found:
        raise AskedWronglyError(f'"{text}" is no price.', right='Write it like "3.49".')
    whole, part = found.groups()
    cents = int(whole) * 100 + int((part or "").ljust(2, "0"))
    if cents > MOST_CENTS:
        raise AskedWronglyError(f'"{text}" is no price.', right='Write it like "3.49".')
    return cents


def write_price(cents: int) -> str:
    """A price with two decimals."""
    return f"{cents / 100:.2f}"
