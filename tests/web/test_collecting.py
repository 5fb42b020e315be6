"""What the bench's collections look at: what came since the last, and everything when nobody asks."""

import asyncio
import gc
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest

from tacklebox.web import collecting
from tacklebox.web.collecting import Collecting


@pytest.fixture
def ours() -> Iterator[Collecting]:
    usual, callbacks = gc.get_threshold(), len(gc.callbacks)
    gc.disable()  # no collection comes but those that are asked for
    ours = Collecting()
    ours.begin()
    assert len(gc.callbacks) == callbacks + 1
    yield ours
    ours.end()
    assert len(gc.callbacks) == callbacks
    gc.set_threshold(*usual)
    gc.freeze()  # as tests begin with
    gc.enable()


class Ring:
    """Something that only a collection clears."""

    alive = 0

    def __init__(self) -> None:
        self.itself = self
        Ring.alive += 1

    def __del__(self) -> None:
        Ring.alive -= 1


def test_what_outlived_a_collection_is_looked_at_again_when_nobody_asks(
    ours: Collecting, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(collecting, "IDLE_S", 0.0)
    old, young = Ring(), Ring()
    gc.collect()
    del old
    gc.collect()
    assert (Ring.alive, ours.since) == (2, 2)  # it was set aside

    async def idle() -> None:
        ours.answered()
        ours.answered()
        while ours.since:
            await asyncio.sleep(0)

    with ThreadPoolExecutor(1) as beside:  # here a browser's loop may run already
        beside.submit(asyncio.run, idle()).result()
    assert Ring.alive == 1
    del young
    later = Ring()
    del later
    gc.collect()
    assert Ring.alive == 1  # what came since is looked at each time
