"""``tacklebox`` as a program that begins at once: a copy of a process that has loaded all of it.

It has a terminal, limits and rights of its own, as any program. With TACKLEBOX_LONG=1 the tests that
would use it begin each program anew, as an angler does.
"""

import atexit
import functools
import gc
import importlib
import json
import os
import pkgutil
import resource
import selectors
import signal
import subprocess
import sys
import traceback
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NoReturn

ROOT = Path(__file__).parents[1]


class Loaded:
    """A process that has the program loaded, and runs it in a copy of itself each time it is asked."""

    def __init__(self, before: Sequence[str]) -> None:
        self._process = subprocess.Popen(
            [*before, sys.executable, "-m", "tests.programs"],
            cwd=ROOT, env=os.environ | {"PYTHONPATH": str(ROOT), "COLUMNS": "80", "TERM": "dumb"},
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        atexit.register(self.end)

    def end(self) -> None:
        """Let the process end."""
        assert self._process.stdin is not None
        self._process.stdin.close()
        self._process.wait()

    def begin(
        self, words: Sequence[str], env: dict[str, str], *, most_bytes: int = 0, terminal: str = ""
    ) -> None:
        """Begin the program with these words: at a terminal, or where nobody types; see ``ended``.

        ``most_bytes`` is the most that a file may grow to.
        """
        asked = {"words": list(words), "env": env, "most_bytes": most_bytes, "terminal": terminal}
        assert self._process.stdin is not None
        self._process.stdin.write(json.dumps(asked) + "\n")
        self._process.stdin.flush()
        if terminal:
            assert self._answer() == "at the terminal"

    def ended(self) -> tuple[int, str, str]:
        """Its exit code, what it printed, what it told on stderr, once it ended."""
        code, out, err = self._answer()
        return int(code), str(out), str(err)

    def _answer(self) -> Any:
        assert self._process.stdout is not None
        return json.loads(self._process.stdout.readline())


@functools.cache
def loaded(before: tuple[str, ...] = ()) -> Loaded:
    """The one for this test process, begun by way of another program."""
    return Loaded(before)


def load_all() -> None:
    """Load all of the program, and what it loads late."""
    import tacklebox

    gc.disable()  # nothing of it goes
    for module in pkgutil.walk_packages(tacklebox.__path__, "tacklebox."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    for late in ("highspy", "numpy", "reportlab.pdfgen.canvas", "qrcode.main", "tomllib"):
        importlib.import_module(late)
    gc.freeze()  # so that a copy of this process does not touch all of its memory
    gc.enable()


def _serve() -> None:
    load_all()
    for line in sys.stdin:
        asked = json.loads(line)
        ours, its = [os.pipe() for _ in range(3)], []
        its = [end for _, end in ours]
        number = os.fork()
        if number == 0:
            _be(asked, *its)
        for end in its:
            os.close(end)
        begun, out, err = (end for end, _ in ours)
        with os.fdopen(begun, "rb") as until:
            until.read()
        if asked["terminal"]:
            print(json.dumps("at the terminal"), flush=True)
        said = _read_all(out, err)
        _, status = os.waitpid(number, 0)
        print(json.dumps([os.waitstatus_to_exitcode(status), *said]), flush=True)


def _read_all(*ends: int) -> list[str]:
    """What comes from each, until they are closed."""
    said = dict.fromkeys(ends, b"")
    with selectors.DefaultSelector() as which:
        for end in ends:
            which.register(end, selectors.EVENT_READ)
        while which.get_map():
            for key, _ in which.select():
                some = os.read(key.fd, 65536)
                said[key.fd] += some
                if not some:
                    which.unregister(key.fd)
                    os.close(key.fd)
    return [some.decode("utf-8") for some in said.values()]


def _be(asked: dict[str, Any], begun: int, out: int, err: int) -> NoReturn:
    """Be the program, and end with its exit code."""
    code = 70
    try:
        os.setsid()
        if asked["terminal"]:
            import fcntl
            import termios

            at = os.open(asked["terminal"], os.O_RDWR)
            fcntl.ioctl(at, termios.TIOCSCTTY, 0)
            ends = (at, at, at)
        else:
            ends = (os.open(os.devnull, os.O_RDONLY), out, err)
        for number, end in enumerate(ends):
            os.dup2(end, number)
        for end in {begun, out, err, *ends} - {0, 1, 2}:
            os.close(end)
        code = _run(asked)
    except BaseException:
        traceback.print_exc()
    finally:
        for stream in (sys.stdout, sys.stderr):
            stream.flush()
        os._exit(code)


def _run(asked: dict[str, Any]) -> int:
    from tacklebox.cli.main import run

    signal.signal(signal.SIGINT, signal.default_int_handler)
    signal.signal(signal.SIGHUP, signal.SIG_DFL)
    os.environ.clear()
    os.environ.update(asked["env"])
    sys.stdin, sys.stdout, sys.stderr = (
        open(number, how, encoding="utf-8", buffering=1, closefd=False)  # noqa: SIM115
        for number, how in ((0, "r"), (1, "w"), (2, "w"))
    )
    if asked["most_bytes"]:
        resource.setrlimit(resource.RLIMIT_FSIZE, (asked["most_bytes"], asked["most_bytes"]))
    sys.argv = ["tacklebox", *asked["words"]]
    try:
        run()
    except SystemExit as ended:
        return int(ended.code or 0)
    return 0


if __name__ == "__main__":
    _serve()
