"""Hostile command lines, files, boxes and forms: never a traceback, never over two seconds, nothing raw."""

import json
import os
import shutil
import signal
import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
import typer

from tacklebox.signs import written_out
from tests.cli.match_boxes import make_match_box, spring_match
from tests.cli.runs import tacklebox_here
from tests.long.hostile import Case, cases, lay_out
from tests.long.hostile_forms import PAGES, Pages, chosen
from tests.long.length import WHOLE, so_many
from tests.long.ordinary_lines import DAY, LINES
from tests.rigs.boxes import SHORT_RIG

MOST_S = 2.0  # of the processor, so that no other program's work counts
HANGS_S = 60
PAPER = Path(__file__).parents[2] / "labels" / "a4-65.toml"
STEERING = (
    "\\u001b[2J\\u009b2J\\u202e\\u2066\\u200b"  # as TOML writes it: names of the box's own files
)


@dataclass(frozen=True)
class Kept:
    """A box and files beside it, to be copied for each case; the codes of a rig and a batch."""

    folder: Path
    codes: dict[str, str]

    def copy(self, to: Path) -> tuple[Path, Path]:
        box, out = Path(shutil.copytree(self.folder / "box", to / "box")), to / "out"
        shutil.copytree(self.folder / "out", out)
        (out / "loop").symlink_to("loop")
        os.mkfifo(out / "pipe")
        with socket.socket(socket.AF_UNIX) as one:
            before = Path.cwd()
            os.chdir(out)  # a socket's name is short
            try:
                one.bind("socket")
            finally:
                os.chdir(before)
        return box, out


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Kept:
    folder = tmp_path_factory.mktemp("kept")
    box, out = make_match_box(folder / "box", hooks="30"), folder / "out"
    out.mkdir()

    def run(words: str) -> str:
        done = tacklebox_here(*words.split("|"), box=box)
        assert done.returncode == 0, (words, done)
        return done.stdout

    match, venue = (box / name for name in ("matches/open.toml", "venues/pond.toml"))
    for file, text in (
        (box / "recipes" / "mine.toml", SHORT_RIG),
        (box / "matches" / "been.toml", spring_match(DAY, 2)),
        (match, match.read_text(encoding="utf-8")),
        (venue, venue.read_text(encoding="utf-8")),
    ):
        assert 'name = "' in text
        file.write_text(text.replace('name = "', f'name = "{STEERING}', 1), encoding="utf-8")
    (box / "labels" / "mine.toml").write_bytes(PAPER.read_bytes())
    for item in ("shot No 8", "shot No 10", "pole 4×12", "winder 13 cm"):
        run(f"stock|give|{item}|20")
    run("stock|add|elastic 4 6 m|--name|mine\u202e\u2066|--place|tray\u202e\x9b2J")
    (out / "stock.csv").write_text("item,name\nhook 18 pack 10,mine\n", encoding="utf-8")
    run(f"copy|{out / 'older.sqlite3'}")
    codes = {}
    for name, recipe in (("rig", "mine"), ("batch", "hooklength-fine")):
        tied = json.loads(run(f"tie|{recipe}|-n|3|--on|{DAY}|--json"))
        codes[name] = tied["codes"][0]
    run("reels|add|first")
    run("reels|load|first|2|20 m")
    run("measure|pull|2|0.6 kg")
    run(f"export|{out / 'kept'}")
    return Kept(folder, codes)


class HangsError(BaseException):
    """No error of the disk's, as a TimeoutError is: what takes those in its stride would hide it."""


@contextmanager
def in_time(name: str, most_s: float) -> Iterator[None]:
    """Fails what takes too long, and what waits for ever."""

    def hangs(*_: object) -> None:
        raise HangsError(name)

    before = signal.signal(signal.SIGALRM, hangs)
    signal.alarm(HANGS_S)
    begun = time.process_time()
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
    assert time.process_time() - begun < most_s, name


def test_every_group_of_commands_is_among_the_lines() -> None:
    from tacklebox.cli.main import COMMANDS

    assert {line.split()[0] for line in LINES} == set(COMMANDS)


@pytest.mark.long
@pytest.mark.skipif(not WHOLE, reason="a new command may get its line later on its day")
def test_every_command_is_among_the_lines() -> None:
    from tacklebox.cli.main import COMMANDS, app

    program = typer.main.get_command(app)
    context = program.make_context("tacklebox", ["audit"], resilient_parsing=True)
    every = set()
    for name in COMMANDS:
        command = program.get_command(context, name)  # type: ignore[attr-defined]
        below = command.list_commands(context) if hasattr(command, "list_commands") else ()
        every |= {f"{name} {one}" for one in below} or {name}
    tried = {name for name in every if any(f"{line} ".startswith(f"{name} ") for line in LINES)}
    assert tried == every


@pytest.mark.long
def test_no_command_line_or_file_ends_in_a_traceback(kept: Kept, tmp_path: Path) -> None:
    """Of ordinary lines with something hostile in one place, of hostile lists, files of one's own and
    damaged boxes; what is shown has no sign that steers a terminal."""
    faults = []
    for number, case in enumerate(cases(so_many(1500, 10))):
        fault = _fault_of(case, kept, tmp_path / str(number))
        if fault:
            faults.append(f"{case.name}: {fault}")
        shutil.rmtree(tmp_path / str(number))
    assert not faults, "\n".join([f"{len(faults)} of them", *faults[:40]])


def _fault_of(case: Case, kept: Kept, folder: Path) -> str:
    box, out = kept.copy(folder)
    words = lay_out(case, box, out, kept.codes)
    try:
        # The demo is twenty commands.
        with in_time(case.name, 10 * MOST_S if words[0] == "demo" else MOST_S):
            done = tacklebox_here(*words, box=box, cwd=out)
    except AssertionError:
        return "it takes too long"
    except (Exception, HangsError) as error:
        return repr(error)[:200]
    if done.returncode not in (0, 1, 2):
        return f"it ends with {done.returncode}"
    if done.returncode and not (done.stderr or "Not in order" in done.stdout or done.stdout):
        return "it says nothing"
    for text in (done.stdout, done.stderr):
        if written_out(text) != text:
            return "a sign that steers a terminal"
    return ""


def test_no_form_address_or_header_ends_in_a_fault_of_the_program(
    kept: Kept, tmp_path: Path
) -> None:
    """Of each field of each form of each page, of addresses and of headers; a page has nothing raw."""
    box, _ = kept.copy(tmp_path)
    with Pages(box) as pages:
        asked = pages.hostile_requests(
            [path.format(**kept.codes) for path in (PAGES if WHOLE else PAGES[::4])]
        )
        faults = []
        for one in chosen(asked, so_many(1500, 12)):
            fault = pages.fault_of(one, MOST_S)
            if fault:
                faults.append(f"{one.name}: {fault}")
    assert not faults, "\n".join([f"{len(faults)} of them", *faults[:40]])
