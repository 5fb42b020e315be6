"""Running the command line: in this process, or as a process of its own where that matters.

With TACKLEBOX_LONG=1 every command is a process of its own.
"""

import io
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from pathlib import Path
from unittest.mock import patch

from sqlalchemy import Connection, Engine, event

from tacklebox.cli.main import main
from tests.long.length import WHOLE

ROOT = Path(__file__).parents[2]
Ended = subprocess.CompletedProcess[str]


def tacklebox(*words: str, box: Path | None = None, cwd: Path | None = None) -> Ended:
    """Run ``tacklebox`` with the words; it must never end in a traceback."""
    if WHOLE:
        return tacklebox_alone(*words, box=box, cwd=cwd)
    return tacklebox_here(*words, box=box, cwd=cwd)


def tacklebox_here(*words: str, box: Path | None = None, cwd: Path | None = None) -> Ended:
    """Run ``tacklebox`` with the words in this process, whatever is asked for; a traceback is raised."""
    out, err = _Stream(), _Stream()
    with (
        patch.dict(os.environ, _environment(box), clear=True),
        patch.object(sys, "stdin", io.StringIO()),  # where nobody types
        redirect_stdout(out),
        redirect_stderr(err),
        _in_folder(cwd),
        _boxes_closed(),
    ):
        code = main(words)
    return Ended(words, code, out.text(), err.text())


def tacklebox_alone(*words: str, box: Path | None = None, cwd: Path | None = None) -> Ended:
    """Run ``tacklebox`` with the words as a process of its own; it must never end in a traceback."""
    done = subprocess.run(
        [sys.executable, "-m", "tacklebox", *words],
        cwd=cwd,
        env=_environment(box) | {"PYTHONIOENCODING": "utf-8"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert "Traceback" not in done.stderr, done.stderr
    return done


def run(*words: str, box: Path | None = None, cwd: Path | None = None, expect: int = 0) -> Ended:
    """Run ``tacklebox`` with the words; fails when it ends otherwise than expected.

    What it told on stderr comes back unfolded, so that its sentences can be looked for.
    """
    return _expected(tacklebox(*words, box=box, cwd=cwd), expect)


def run_alone(
    *words: str, box: Path | None = None, cwd: Path | None = None, expect: int = 0
) -> Ended:
    """``run`` as a process of its own."""
    return _expected(tacklebox_alone(*words, box=box, cwd=cwd), expect)


def unfolded(answer: str) -> str:
    """Lines that were folded at 80 columns, as they were."""
    return re.sub(r"\n +", " ", answer)


def _expected(done: Ended, code: int) -> Ended:
    assert done.returncode == code, (done.returncode, done.stdout, done.stderr)
    done.stderr = unfolded(done.stderr)
    return done


def _environment(box: Path | None) -> dict[str, str]:
    environment = {k: v for k, v in os.environ.items() if k != "TACKLEBOX_BOX"} | {"COLUMNS": "80"}
    return environment if box is None else environment | {"TACKLEBOX_BOX": str(box)}


class _Stream(io.TextIOWrapper):
    """What the program's output goes to; like a pipe, and unlike a string, it takes bytes too."""

    def __init__(self) -> None:
        super().__init__(io.BytesIO(), encoding="utf-8", errors="replace", newline="")

    def text(self) -> str:
        self.flush()
        held = self.buffer
        assert isinstance(held, io.BytesIO)
        return held.getvalue().decode("utf-8")


@contextmanager
def _in_folder(folder: Path | None) -> Iterator[None]:
    before = Path.cwd()
    os.chdir(folder or before)
    try:
        yield
    finally:
        os.chdir(before)


@contextmanager
def _boxes_closed() -> Iterator[None]:
    """Close what was opened, as the end of a process does."""
    opened: set[Engine] = set()

    def note(connection: Connection) -> None:
        opened.add(connection.engine)

    event.listen(Engine, "engine_connect", note)
    try:
        yield
    finally:
        event.remove(Engine, "engine_connect", note)
        for engine in opened:
            engine.dispose()
