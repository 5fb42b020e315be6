"""Every published figure of the trade's tables is held by a check against its source.

Each is made a tenth bigger, one at a time, and the outside checks are run on it: one has to fail.
Doctests are not among them. In the short form one figure in seventy is tried, with
``TACKLEBOX_LONG=1`` all are. ``python -m tests.long.test_figures [word …]`` tries those whose name
has a word in it.
"""

import os
import sys
from collections.abc import Sequence
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType
from typing import Any

import pytest
from sqlmodel import SQLModel

from tests.long.length import WHOLE, so_many
from tests.outside.figures import ROOT, Figure, figures, without_check

# Held by what runs in a second or two; the marked tests elsewhere hold them all the more.
HELD_BY = (ROOT / "tests" / "outside",)
SHORT_FORM = 70


def warm_up() -> None:
    """Read the reference libraries once, so that every fork has them."""
    import fluids.drag
    import pint
    from iapws import IAPWS95  # type: ignore[import-untyped]

    assert IAPWS95(T=283.15, P=0.101325).rho > fluids.drag.Clift_Gauvin(100.0)
    units = pint.get_application_registry()  # type: ignore[no-untyped-call]
    assert units.Quantity(1, "inch").to("mm").magnitude == pytest.approx(25.4)


def published() -> list[Figure]:
    """The figures that an outside check has to hold."""
    listed = without_check()
    return [one for one in figures() if one.name not in listed]


def outcome_with(figure: Figure | None) -> int:
    """How the outside checks end when the figure is changed; None: as it is.

    In a process of its own, forked before anything of ours is imported there.
    """
    pid = os.fork()
    if pid == 0:
        code = 70
        try:
            code = _run_changed(figure)
        finally:
            os._exit(code)
    _, status = os.waitpid(pid, 0)
    return os.waitstatus_to_exitcode(status)


def _run_changed(figure: Figure | None) -> int:
    for name in [n for n in sys.modules if n.partition(".")[0] in ("tacklebox", "tests")]:
        del sys.modules[name]
    SQLModel.metadata.clear()  # the tables of the modules that are gone
    if figure is not None:
        _serve(figure.file, figure.changed(figure.file.read_text(encoding="utf-8")))
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
    sys.dont_write_bytecode = True
    options = ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", "-p", "no:randomly"]
    options += ["-o", "addopts=--import-mode=importlib", "-m", "outside", "--rootdir", str(ROOT)]
    return int(pytest.main([*options, *map(str, HELD_BY)]))


def _serve(file: Path, text: str) -> None:
    """Let the import system read that text for the file."""
    read = SourceFileLoader.get_code

    def get_code(loader: SourceFileLoader, name: str) -> CodeType | None:
        if Path(loader.path) == file:
            return compile(text, str(file), "exec")
        return read(loader, name)

    patched: Any = get_code
    SourceFileLoader.get_code = patched  # type: ignore[method-assign]


def survivors(tried: Sequence[Figure]) -> list[str]:
    """The names of those figures that may be a tenth bigger without any check noticing."""
    return [one.name for one in tried if outcome_with(one) != pytest.ExitCode.TESTS_FAILED]


@pytest.mark.long
@pytest.mark.skipif(not WHOLE, reason="the short set runs these checks themselves")
def test_unchanged_the_outside_checks_pass() -> None:
    assert outcome_with(None) == pytest.ExitCode.OK


@pytest.mark.long
def test_every_published_figure_is_held_by_a_check_against_its_source() -> None:
    warm_up()
    tried = published()[:: so_many(1, SHORT_FORM)]
    assert len(tried) >= 3
    assert survivors(tried) == []


def main() -> None:
    """Try the figures named on the command line, or all of them, and say which survive."""
    words = sys.argv[1:]
    tried = [one for one in published() if not words or any(word in one.name for word in words)]
    warm_up()
    left = survivors(tried)
    print(f"{len(tried)} figures, {len(left)} not held")
    for name in left:
        print(name)


if __name__ == "__main__":
    main()
