"""What was on hand over time, as a plot; its table is the item's history."""

from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import history, show


def on_hand_plot(desk: Desk, item: str) -> str:
    """How much there was of an item at the end of each day that changed it, as SVG; "" where it is not
    counted."""
    from tacklebox.printing.drawing.plots import plot_over_days

    row = show(desk, item).item
    if not row.on_hand.counted:
        return ""
    share, unit = (1000.0, "metres on hand") if row.on_hand.unit == "mm" else (1.0, "on hand")
    by_day = {
        one.on: one.then.value / share for one in history(desk, item).movements if one.then.counted
    }
    if not by_day:
        return ""
    points = sorted(by_day.items())
    if points[-1][0] < desk.today():
        points.append((desk.today(), points[-1][1]))
    return plot_over_days(points, unit, minimum=row.minimum.value / share, steps=True)
