"""What was on hand over time, as a plot; its table is the item's history."""

from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import history, show


def on_hand_plot(desk: Desk, item: str) -> str:
    """How much there was of an item at the end of each day that changed it, as SVG that takes the ink of
    the page around it; "" where it is not counted."""
    from tacklebox.printing.drawing.plot import Plot, plot_svg
    from tacklebox.trade.quantities import MM_PER_INCH
    from tacklebox.trade.units_first import IMPERIAL, first

    row = show(desk, item).item
    if not row.on_hand.counted:
        return ""
    share, unit = (1.0, "pieces")
    if row.on_hand.unit == "mm":
        share, unit = (36 * MM_PER_INCH, "yd") if first() == IMPERIAL else (1000.0, "m")
    by_day = {
        one.on: one.then.value / share for one in history(desk, item).movements if one.then.counted
    }
    if not by_day:
        return ""
    points = sorted(by_day.items())
    if points[-1][0] < desk.today():
        points.append((desk.today(), points[-1][1]))
    return plot_svg(Plot(f"{row.name}: on hand", unit, tuple(points), stepped=True))
