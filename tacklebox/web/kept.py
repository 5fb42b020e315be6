"""Answers of the desk, kept until the box changes: made once, however many pages ask for them.

What takes longer than a page may take is made beside it, and comes into the page when it is ready.
"""

import contextvars
import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Hashable, Mapping
from concurrent.futures import Future
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING, ParamSpec, TypeVar

if TYPE_CHECKING:
    from tacklebox.desk import Desk

P = ParamSpec("P")
T = TypeVar("T")
MOST = 120  # answers that are kept; the one that was asked for longest ago goes
SOON_S = 0.03  # what is ready so soon after it was first asked for is in the page from the start


class _OutdatedError(Exception):
    """Of what was to be answered the box is another by now; it is asked anew."""


class _Answer(Future[object]):
    """What is answered, or will be; ``begun`` is when it was first asked for."""

    def __init__(self) -> None:
        super().__init__()
        self.begun = time.monotonic()


class KeptAnswers:
    """What the desk answered in the state that the box is in."""

    def __init__(self, desk: "Desk") -> None:
        self.desk = desk
        self._state = ""
        self._answers: OrderedDict[Hashable, _Answer] = OrderedDict()
        self._turning = threading.Lock()
        self._makers = threading.Semaphore(2)  # more would only hold one another up

    def answer(self, ask: "Callable[P, T]", *args: P.args, **kwargs: P.kwargs) -> T:
        """What the desk answers, made now unless it is there or is being made."""
        while True:
            future, is_mine = self._future(ask, args, kwargs)
            if is_mine:
                _make(future, ask, args, kwargs)
                if future.exception():
                    self._forget(future)
            try:
                return future.result()  # type: ignore[return-value]
            except _OutdatedError:
                continue

    def ready(self, ask: "Callable[P, T]", *args: P.args, **kwargs: P.kwargs) -> T | None:
        """What the desk answers, if that is there at once; else it is made beside, and None is said."""
        future, is_mine = self._future(ask, args, kwargs)
        if is_mine:

            def make() -> None:
                with self._makers:
                    if future in self._answers.values():
                        _make(future, ask, args, kwargs)
                    else:  # the box was changed while this waited for its turn
                        future.set_exception(_OutdatedError())

            told_so = contextvars.copy_context()  # in the units in which the page is told
            threading.Thread(target=told_so.run, args=(make,), daemon=True).start()
            # closing does not wait for it
        try:
            soon = max(0, future.begun + SOON_S - time.monotonic())
            return future.result(timeout=soon)  # type: ignore[return-value]
        except TimeoutError:
            if future.done():
                raise
            return None
        except _OutdatedError:
            return None

    def at_hand(self, ask: "Callable[P, T]", *args: P.args, **kwargs: P.kwargs) -> T | None:
        """What the desk answers, if that is there; else nothing is begun, and None is said."""
        with self._turning:
            future = self._answers.get(_key(ask, args, kwargs))
        if self._state != self._now() or future is None or not future.done():
            return None
        return future.result()  # type: ignore[return-value]

    def _forget(self, future: "Future[object]") -> None:
        with self._turning:
            for key in [key for key, kept in self._answers.items() if kept is future]:
                del self._answers[key]

    def _now(self) -> str:
        from tacklebox.desk.changes import state

        return state(self.desk)

    def _future(
        self, ask: Callable[..., object], args: tuple[object, ...], kwargs: dict[str, object]
    ) -> tuple[_Answer, bool]:
        """The answer to be, and whether who asked is the first, and is to make it."""
        key, now = _key(ask, args, kwargs), self._now()
        with self._turning:
            if now != self._state:
                self._state = now
                self._answers.clear()
            if key in self._answers:
                self._answers.move_to_end(key)
                return self._answers[key], False
            future = self._answers[key] = _Answer()
            while len(self._answers) > MOST:
                self._answers.popitem(last=False)
            return future, True


def _key(
    ask: Callable[..., object], args: tuple[object, ...], kwargs: dict[str, object]
) -> Hashable:
    """What is asked; the first argument is the desk."""
    return (ask, *map(_fixed, args[1:]), *((k, _fixed(v)) for k, v in sorted(kwargs.items())))


def _fixed(said: object) -> Hashable:
    """What was said, as something that stays as it is."""
    if isinstance(said, Mapping):
        return tuple((name, _fixed(one)) for name, one in said.items())
    if is_dataclass(said):
        return (type(said), *(_fixed(getattr(said, one.name)) for one in fields(said)))
    return tuple(map(_fixed, said)) if isinstance(said, list | tuple) else said


def _make(
    future: "Future[object]",
    ask: Callable[..., object],
    args: tuple[object, ...],
    kwargs: dict[str, object],
) -> None:
    try:
        future.set_result(ask(*args, **kwargs))
    except BaseException as error:  # it is the answer of all who wait for it
        future.set_exception(error)
