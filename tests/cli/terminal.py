"""Running the real command line at a terminal, with answers typed in."""

import os
import pty
import re
import select
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from tests.cli.runs import ROOT
from tests.long.length import WHOLE
from tests.programs import loaded

CTRL_C, CTRL_D = "\x03", "\x04"
PATIENCE_S = 120.0  # without a word, which is that it hangs
ASKS = re.compile(r"[^:]: $")  # a question ends so, and waits
NO_MORE_S = 0.003  # without a letter, which is that nothing was cut in its middle


def typed(*words: str, box: Path, answers: Sequence[str]) -> tuple[int, str]:
    """Run ``tacklebox`` at a terminal of its own, giving an answer to each question.

    Returns the exit code and all that stood on the screen. Every answer must be asked for.
    """
    inner, outer = pty.openpty()
    environment = {k: v for k, v in os.environ.items() if k != "TACKLEBOX_BOX"}
    environment |= {"TACKLEBOX_BOX": str(box), "PYTHONPATH": str(ROOT), "TERM": "dumb"}
    ended = _begun(words, environment, outer) if WHOLE else _copied(words, environment, outer)
    os.close(outer)
    left, screen, since = list(answers), "", ""
    heard = time.monotonic()
    while time.monotonic() < heard + PATIENCE_S:
        ready, _, _ = select.select([inner], [], [], NO_MORE_S)
        if ready:
            try:
                some = os.read(inner, 65536).decode("utf-8", "replace")
            except OSError:  # the other end was closed
                break
            screen, since, heard = screen + some, since + some, time.monotonic()
        elif ASKS.search(since) and left:
            answer = left.pop(0)
            os.write(inner, (answer if answer in (CTRL_C, CTRL_D) else answer + "\n").encode())
            since = ""
    os.close(inner)  # which ends what still waits at it
    code = ended()
    assert "Traceback" not in screen, screen
    assert not left, (left, screen)
    return code, screen.replace("\r\n", "\n")


def _copied(words: Sequence[str], environment: dict[str, str], outer: int) -> Callable[[], int]:
    program = loaded()
    program.begin(words, environment, terminal=os.ttyname(outer))
    return lambda: program.ended()[0]


def _begun(words: Sequence[str], environment: dict[str, str], outer: int) -> Callable[[], int]:
    return subprocess.Popen(
        [sys.executable, "-m", "tacklebox", *words],
        stdin=outer, stdout=outer, stderr=outer, env=environment, cwd=ROOT,
        start_new_session=True, preexec_fn=_take_terminal,
    ).wait  # fmt: skip


def _take_terminal() -> None:
    import fcntl
    import termios

    for one in (signal.SIGINT, signal.SIGHUP):  # whoever runs the tests may ignore it
        signal.signal(one, signal.SIG_DFL)
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)
