"""How the bench clears its memory: never with a pause that a hand on a slider feels.

A look at all that is kept takes a quarter of a second, so it is had when nobody asks for anything. What
outlived a collection is set aside until then: the next looks only at what came since.
"""

import asyncio
import gc
from typing import Any

COLLECTED_AT = (5000, 10, 10)  # a bench lives for weeks: what it leaves behind matters
IDLE_S = 2.0


class Collecting:
    """What is known of the collections of this process."""

    def __init__(self) -> None:
        self.since = 0  # … the last look at everything
        self.later: asyncio.TimerHandle | None = None

    def begin(self) -> None:
        """Collect so from here on."""
        gc.set_threshold(*COLLECTED_AT)
        if self.note not in gc.callbacks:
            gc.callbacks.append(self.note)
        self.look_at_everything()

    def end(self) -> None:
        """As it was."""
        if self.note in gc.callbacks:
            gc.callbacks.remove(self.note)
        gc.unfreeze()

    def note(self, phase: str, info: dict[str, Any]) -> None:
        """Called by the interpreter before and after each collection."""
        if phase == "stop" and info["generation"] == 2:
            self.since += 1
            gc.freeze()

    def look_at_everything(self) -> None:
        """Also at what was set aside; then set aside what is left."""
        gc.unfreeze()
        gc.collect()
        self.since = 0

    def answered(self) -> None:
        """A page was sent: once none was for a while, there is time to look at everything."""
        if self.note not in gc.callbacks:
            return
        if self.later:
            self.later.cancel()
        self.later = asyncio.get_running_loop().call_later(IDLE_S, self._when_idle)

    def _when_idle(self) -> None:
        self.later = None
        if self.since:
            self.look_at_everything()


COLLECTING = Collecting()
