"""Running the real command line as a process of its own."""

import os
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def tacklebox(
    *words: str, box: Path | None = None, cwd: Path | None = None
) -> subprocess.CompletedProcess[str]:
    """Run ``tacklebox`` with the words; it must never end in a traceback."""
    environment = {k: v for k, v in os.environ.items() if k != "TACKLEBOX_BOX"}
    environment |= {"COLUMNS": "80", "PYTHONIOENCODING": "utf-8"}
    if box is not None:
        environment["TACKLEBOX_BOX"] = str(box)
    done = subprocess.run(
        [sys.executable, "-m", "tacklebox", *words],
        cwd=cwd,
        env=environment,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert "Traceback" not in done.stderr, done.stderr
    return done


def run(
    *words: str, box: Path | None = None, cwd: Path | None = None, expect: int = 0
) -> subprocess.CompletedProcess[str]:
    """Run ``tacklebox`` with the words; fails when it ends otherwise than expected.

    What it told on stderr comes back unfolded, so that its sentences can be looked for.
    """
    done = tacklebox(*words, box=box, cwd=cwd)
    assert done.returncode == expect, (done.returncode, done.stdout, done.stderr)
    done.stderr = unfolded(done.stderr)
    return done


def unfolded(told: str) -> str:
    """Lines that were folded at 80 columns, as they were."""
    return re.sub(r"\n +", " ", told)
