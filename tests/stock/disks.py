"""Small disks that are full, disks that are read-only, and programs without root's right to pass by.

As root a small disk in memory is mounted, else the size of files is limited; programs that must not pass by
a folder's rights are run by ``setpriv``.
"""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.cli.runs import unfolded
from tests.long.length import WHOLE
from tests.programs import loaded

IS_ROOT = os.geteuid() == 0
# Root passes by the permissions of files; without these two capabilities it is an owner like any other.
AS_OWNER = ("setpriv", "--bounding-set", "-dac_override,-dac_read_search") if IS_ROOT else ()
# Where no disk can be mounted: the system refuses files beyond a limit, as a full disk does.
LIMITED = """
import resource, sys
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]), int(sys.argv[1])))
sys.argv = ["tacklebox", *sys.argv[2:]]
from tacklebox.cli.main import run
run()
"""


@contextmanager
def small_disk(at: Path, kilobytes: int) -> Iterator[Path]:
    """A disk of its own in memory; the test is skipped where none can be mounted."""
    at.mkdir()
    options = ["-t", "tmpfs", "-o", f"size={kilobytes}k"]
    if (
        not IS_ROOT
        or subprocess.run(
            ["mount", *options, "tmpfs", str(at)], capture_output=True, check=False
        ).returncode
    ):
        pytest.skip("no disk can be mounted here")
    try:
        yield at
    finally:
        subprocess.run(["umount", "-l", str(at)], check=True)


def fill(disk: Path, kilobytes_left: int) -> Path:
    """Leave so much room on the disk; hands back the file that takes the rest."""
    filler = disk / "filler"
    filler.write_bytes(b"x" * (shutil.disk_usage(disk).free - kilobytes_left * 1024))
    return filler


def program(*words: str, before: Sequence[str] = ()) -> subprocess.CompletedProcess[str]:
    """Run ``tacklebox`` by way of another program; it must never end in a traceback."""
    if WHOLE or before not in ((), AS_OWNER):
        return _told(_begun([*before, sys.executable, "-m", "tacklebox", *words]))
    return _told(_copied(words, before=tuple(before)))


def limited(most_bytes: int, *words: str) -> subprocess.CompletedProcess[str]:
    """Run ``tacklebox`` where no file may grow beyond so many bytes."""
    if WHOLE:
        return _told(_begun([sys.executable, "-c", LIMITED, str(most_bytes), *words]))
    return _told(_copied(words, most_bytes=most_bytes))


def _begun(command: Sequence[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command, capture_output=True, encoding="utf-8", check=False, env=_environment()
    )


def _copied(
    words: Sequence[str], *, before: tuple[str, ...] = (), most_bytes: int = 0
) -> subprocess.CompletedProcess[str]:
    program = loaded(before)
    program.begin(words, _environment(), most_bytes=most_bytes)
    code, out, err = program.ended()
    return subprocess.CompletedProcess(words, code, out, err)


def _environment() -> dict[str, str]:
    environment = {k: v for k, v in os.environ.items() if k != "TACKLEBOX_BOX"}
    return environment | {"COLUMNS": "80", "PYTHONIOENCODING": "utf-8"}


def _told(done: subprocess.CompletedProcess[str]) -> subprocess.CompletedProcess[str]:
    assert "Traceback" not in done.stderr, done.stderr
    done.stderr = unfolded(done.stderr)
    return done


def without_root() -> None:
    """Skip the test where a program would pass by the permissions all the same."""
    tried = (
        subprocess.run([*AS_OWNER, "true"], capture_output=True, check=False) if IS_ROOT else None
    )
    if tried and tried.returncode:
        pytest.skip("root passes by permissions here")
