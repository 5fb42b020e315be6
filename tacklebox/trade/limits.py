"""What a figure may be: one check for all that are asked for, and one way to say it."""

import math
from decimal import Decimal
from typing import TypeVar

from tacklebox.errors import AskedWronglyError

Figure = TypeVar("Figure", int, float)


def write_figure(value: float) -> str:
    """A figure as it would be typed, without an exponent.

    >>> write_figure(3e9), write_figure(0.25), write_figure(-5)
    ('3000000000', '0.25', '-5')
    """
    if not math.isfinite(value):
        return str(value)
    return format(Decimal(repr(value)), "f").removesuffix(".0")


def write_rounded(value: float, digits: int = 4) -> str:
    """A figure that may have been worked out or turned into another unit, no finer than anyone says it: a
    whole number as it is, any other to so many ``digits``.

    >>> write_rounded(1088.621688), write_rounded(14.17476), write_rounded(3_000_001)
    ('1089', '14.17', '3000001')
    """
    if not math.isfinite(value) or float(value).is_integer():
        return write_figure(value)
    return write_figure(round(value, digits - 1 - math.floor(math.log10(abs(value)))))


def within(
    value: Figure,
    low: float,
    high: float,
    what: str = "",
    unit: str = "",
    *,
    above: bool = False,
    typed: str = "",
    where: str = "",
    field: str = "",
    hint: str = "",
) -> Figure:
    """The value, if it lies from ``low`` to ``high``, both included, or ``above`` low.

    For the fault alone: ``what`` it is a figure of ("a feeder"), ``typed`` how it was written, where
    that was more than a number, ``where`` it stands or in which ``field``, and a ``hint`` how to find
    it. Raises AskedWronglyError for a value outside, and for none at all (nan).

    >>> within(40, 1, 500, "a feeder", "ml")
    40
    >>> within(600, 1, 500, "a feeder", "ml")
    Traceback (most recent call last):
    tacklebox.errors.AskedWronglyError: a feeder of 600 ml cannot be right. From 1 to 500 ml.
    """
    if low <= value <= high and not (above and value == low):
        return value
    with_unit = f" {unit}" if unit else ""
    figure = write_rounded(value)
    if math.isfinite(value) and low <= float(figure) <= high:  # a hair outside
        figure = write_figure(value)
    said = typed or f"{figure}{with_unit if what else ''}"
    ends = f"Above {write_rounded(low)}, up to " if above else f"From {write_rounded(low)} to "
    raise AskedWronglyError(
        f"{what}{' of ' if what else ''}{said} cannot be right.",
        where=where,
        field=field,
        right=f"{ends}{write_rounded(high)}{with_unit}.{' ' if hint else ''}{hint}",
    )
