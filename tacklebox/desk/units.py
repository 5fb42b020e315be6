"""Lengths and speeds that are known only about, in the units that the angler wants first:
``Desk.in_his_units``."""


def nearly(length_mm: float) -> str:
    """A length that is known only about: "46 cm" or "18 in"."""
    from tacklebox.trade.units_first import show_nearly

    return show_nearly(length_mm)


def between(low_mm: float, high_mm: float) -> str:
    """From one length to another: "40–60 cm"."""
    low, high = nearly(low_mm).split(" "), nearly(high_mm).split(" ")
    if len(low) == len(high) == 2 and low[1] == high[1]:
        return f"{low[0]}–{' '.join(high)}"
    return f"{' '.join(low)}–{' '.join(high)}"


def small() -> tuple[str, float]:
    """What speeds and short distances are told in, and how many of it a centimetre is."""
    from tacklebox.trade.quantities import MM_PER_INCH
    from tacklebox.trade.units_first import IMPERIAL, first

    return ("in", 10 / MM_PER_INCH) if first() == IMPERIAL else ("cm", 1.0)


def far() -> tuple[str, float]:
    """What long distances are told in, and how many of it a metre is."""
    from tacklebox.trade.quantities import MM_PER_INCH
    from tacklebox.trade.units_first import IMPERIAL, first

    return ("yd", 1000 / (36 * MM_PER_INCH)) if first() == IMPERIAL else ("m", 1.0)
