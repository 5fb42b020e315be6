"""A process in which commands run and are killed at a chosen moment: no clock decides when.

The moments are the SQL statements that a command sends, those of triggers too; and below them, by
way of ``stopping.c``, each write, sync, rename and the like that changes a file.
"""

import ctypes
import json
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import traceback
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from sqlite3 import dbapi2
from typing import Any, Self

from tests.cli.runs import tacklebox_here
from tests.programs import load_all

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
STATEMENTS, FILES, WORK_OUT = "statements", "files", "work out"
_CONNECT = sqlite3.connect


@dataclass(frozen=True)
class Run:
    """How a command ended: killed or with its exit code; the moments it passed and what it said."""

    killed: bool
    code: int
    passed: int
    said: str


class Stopping:
    """Runs commands, each in a copy of one process that has all of the program loaded."""

    def __init__(self, library: Path | None) -> None:
        self.below = library is not None
        environment = {k: v for k, v in os.environ.items() if k != "TACKLEBOX_BOX"}
        environment |= {"PYTHONDONTWRITEBYTECODE": "1", "PYTHONHASHSEED": "0"}
        environment |= {"PYTHONPATH": str(ROOT), "COLUMNS": "80"}
        if library is not None:
            environment["LD_PRELOAD"] = str(library)
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.long.stopping", str(library or "")],
            cwd=ROOT, env=environment, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        assert self._process.stdin is not None
        self._process.stdin.close()
        self._process.wait()

    def run(
        self, words: Sequence[str], box: Path, what: str, at: int = 0, states: Path | None = None
    ) -> Run:
        """Run a command on a box, killed at the moment with that number; 0 lets it end.

        Into the folder ``states`` goes the database as it was after each transaction.
        """
        return self._ask(words, box, what=what, at=at, states=str(states or ""))

    def work_out(self, words: Sequence[str], box: Path) -> None:
        """Run a command on a box before all others, none of which works out again what is no more than
        computed for it."""
        ended = self._ask(words, box, what=WORK_OUT)
        assert ended.code == 0, ended

    def _ask(self, words: Sequence[str], box: Path, **more: Any) -> Run:
        asked = {"words": words, "box": str(box), **more}
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.write(json.dumps(asked) + "\n")
        self._process.stdin.flush()
        return Run(**json.loads(self._process.stdout.readline()))


def compiled(folder: Path) -> Path | None:
    """``stopping.c`` as a library, None where there is no compiler or it cannot be laid before."""
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None or not sys.platform.startswith("linux"):
        return None
    library = folder / "stopping.so"
    command = [
        compiler,
        "-shared",
        "-fPIC",
        "-O1",
        "-o",
        str(library),
        str(HERE / "stopping.c"),
        "-ldl",
    ]
    return library if subprocess.run(command, check=False).returncode == 0 else None


def _serve(library: str) -> None:
    load_all()
    below = ctypes.CDLL(library) if library else None
    for line in sys.stdin:
        asked = json.loads(line)
        if asked["what"] == WORK_OUT:
            done = tacklebox_here(*asked["words"], box=Path(asked["box"]))
            ended = asdict(Run(False, done.returncode, 0, done.stdout + done.stderr))
        else:
            ended = _in_a_copy(below, **asked)
        print(json.dumps(ended), flush=True)


def _in_a_copy(below: ctypes.CDLL | None, **asked: Any) -> dict[str, Any]:
    out, into = os.pipe()
    number = os.fork()
    if number == 0:
        os.close(out)
        os.dup2(into, 1)
        os.dup2(into, 2)
        _be_killed_at(below, into, **asked)
    os.close(into)
    with open(out, encoding="utf-8") as file:  # noqa: PTH123
        said, _, passed = file.read().partition("\0")
    _, status = os.waitpid(number, 0)
    code = os.waitstatus_to_exitcode(status)
    return {
        "killed": code == -signal.SIGKILL,
        "code": code,
        "passed": int(passed or 0),
        "said": said,
    }


def _be_killed_at(
    below: ctypes.CDLL | None,
    into: int,
    words: list[str],
    box: str,
    what: str,
    at: int,
    states: str,
) -> None:
    """Run the command and end this process: at the moment asked for, or with its exit code."""
    from tacklebox.cli.main import main

    code = 99
    try:
        os.environ["TACKLEBOX_BOX"] = box
        count = _Statements(at if what == STATEMENTS else 0, Path(box), states)
        sqlite3.connect = dbapi2.connect = count.connect  # type: ignore[assignment]
        if what == FILES:
            assert below is not None
            below.count_from_here(ctypes.c_long(at))
        code = main(words)
        passed = below.passed() if what == FILES and below is not None else count.passed
        count.keep_state()
        os.write(into, f"\0{passed}".encode())
    except BaseException:
        os.write(into, traceback.format_exc().encode())
    finally:
        os._exit(code)


class _Statements:
    """Counts the statements of all connections, and ends the process at one of them."""

    def __init__(self, at: int, box: Path, states: str) -> None:
        self.passed, self._at = 0, at
        self._box, self._states, self._ended = box, states, False

    def connect(self, *words: Any, **more: Any) -> sqlite3.Connection:
        """A connection whose statements are counted."""
        made: sqlite3.Connection = _CONNECT(*words, **more)
        made.set_trace_callback(self._pass)
        return made

    def _pass(self, statement: str) -> None:
        self.passed += 1
        if self.passed == self._at:
            os.kill(os.getpid(), signal.SIGKILL)
        if self._ended:
            self.keep_state()
        self._ended = statement.startswith("COMMIT")

    def keep_state(self) -> None:
        """After a transaction, and at the end."""
        from tacklebox.boxfolder import DATABASE_NAME

        if self._states and (self._box / DATABASE_NAME).exists():
            number = len(list(Path(self._states).iterdir()))
            shutil.copyfile(self._box / DATABASE_NAME, Path(self._states) / f"{number:03}.sqlite3")


if __name__ == "__main__":
    _serve(sys.argv[1])
