"""Notices of how far long work is."""

import time
from collections.abc import Callable

from tacklebox.desk.opening import Desk


def each_second(desk: Desk, total: int, what: str) -> Callable[[int], None]:
    """A callback for work on so many things: a notice of how many are done, each second after the
    first."""
    last = time.monotonic()

    def notice(done: int) -> None:
        nonlocal last
        if time.monotonic() - last > 1:
            last = time.monotonic()
            desk.notice(f"{done} of {total} {what} …")

    return notice
