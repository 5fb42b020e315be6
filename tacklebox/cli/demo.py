"""``tacklebox demo``: the whole job on an invented box, by the tool's own commands.

The scenario: a match on a canal, from stock and rigs through the plan and the pack list to what
was lost. Floats and feeders lie ready, size 20 hooks do not.
"""

import shlex
import shutil
import sys
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from tacklebox.cli.output import say, say_folded
from tacklebox.errors import AskedWronglyError, CannotBeDoneError

STOCK = Path(__file__).with_name("demo_stock.csv")
VENUE = {
    "name": "The old canal",
    "water": "canal",
    "depths": "1.2 to 1.8 m",
    "overhead_lines": "yes",
    "read": "Nets are dipped before and after the match.",
    "rules.barbless": "yes",
    "rules.largest_hook": "14",
    "rules.groundbait_limit": "2 kg",
}
MATCH = {
    "name": "Club match",
    "from": "10:00",
    "to": "15:00",
    "also": "landing net\nkeepnet\nrod licence",
    "feed.loose": "10",
    "feed.loose_every": "2",
}
WANTS = (
    ("pole-canal-shot", "5", "1", ""),
    ("hooklength-fine", "8", "4", ""),
    ("waggler-made-up", "2", "", "depth = 1.8 m"),
)
AT_HOME = (
    "stock import stock.csv",
    'stock list --kind line --where "diameter at most 0.12 mm"',
    "check pole-canal-shot -n 4",
    "tie pole-canal-shot -n 4",
    "check waggler-made-up -n 2 --set depth=1.8m",
    "measure pull 3 1.55kg",
    "measure pull 4 2.1kg",
    "tie waggler-made-up -n 2 --set depth=1.8m",
    "tie feeder-running-paternoster -n 2",
    "tie hooklength-fine -n 6 --set length=15cm",
    "rigs list",
    "hooklengths list",
    "labels --to labels.pdf",
    "labels --paper a4-65 --to sticky.pdf A01T A02R A05L A07H",
    "low pole-canal-shot=2 hooklength-fine=16",
)
FOR_THE_MATCH = (
    "match plan club-match",
    "match tie club-match --labels more-labels.pdf --sheets tie-sheets.pdf",
    'stock buy "hook 20" --packs 2',
    "match pack club-match --to pack.pdf",
    'match debrief club-match --back A01T --lost A02R --lost "20 to 0.08=2"'
    ' --tackle-lost "hook 20=2" --did-well A01T'
    ' --weight "4 kg" --notes "skimmers down the far shelf"',
    "match did-well --method pole",
    "audit",
)
FILES = (
    "stock.csv", "labels.pdf", "sticky.pdf", "more-labels.pdf", "tie-sheets.pdf", "pack.pdf", "box",
)  # fmt: skip
MOST_DEMOS = 1000


def demo(
    context: typer.Context,
    into: Annotated[
        Path | None, typer.Option(help="A folder for it; else the next free tacklebox-demo.")
    ] = None,
) -> None:
    """Build a demo box and run the whole job on it, in a folder of its own."""
    if context.obj is not None:
        raise AskedWronglyError(
            "the demo makes a box of its own.", where="--box", right="Say where with --into DIR."
        )
    folder = _new_folder(into)
    say(f"A demo box in {folder}.")
    say("There is a match on a canal; this is what is done for it at home.")
    (folder / "stock.csv").write_bytes(STOCK.read_bytes())
    for command in AT_HOME:
        _run(folder, command)
    say()
    say("The venue and the match are files in the box. What is to be tied and taken?")
    _write_match(folder / "box")
    for command in FOR_THE_MATCH:
        _run(folder, command)
    say()
    say("The files:")
    for name in FILES:
        say(f"  {folder / name}")
    say("Go on with it in the browser; with --icon a starter of it lies on the desktop:")
    say(f"  {_as_started()} --box {shlex.quote(str(folder / 'box'))} open")


def _as_started() -> str:
    """The program's name where that finds it; else the way that it was started."""
    started = Path(sys.argv[0])
    if shutil.which("tacklebox") or not started.name.startswith("tacklebox"):
        return "tacklebox"
    return shlex.quote(str(started))


def _write_match(box: Path) -> None:
    from tacklebox.desk import Desk, match_forms, venue_forms

    desk = Desk(box)
    venue = venue_forms.write(desk, VENUE)
    day = {**MATCH, "date": date.today().isoformat(), "venue": venue}
    match_forms.write(desk, day, [match_forms.WantRow(*want) for want in WANTS])
    desk.close()


def _new_folder(into: Path | None) -> Path:
    names = [into] if into else [Path(f"tacklebox-demo{n}") for n in ("", *_numbers())]
    for folder in names:
        try:
            folder.mkdir(parents=True)
        except FileExistsError:
            continue
        except OSError as error:
            raise CannotBeDoneError(
                f"the folder cannot be made: {error.strerror}.", where=str(folder)
            ) from None
        return folder
    raise AskedWronglyError(
        f"{names[0]} is there already; it was left as it is.",
        where="--into",
        right="Name a folder that is not there yet.",
    )


def _numbers() -> list[str]:
    return [f"-{n}" for n in range(2, MOST_DEMOS)]


def _run(folder: Path, command: str) -> None:
    """Run one command of the tool on the demo box, files beside it."""
    from tacklebox.cli.main import app
    from tacklebox.desk import Desk

    say()
    say_folded(f"$ tacklebox {command}")
    desk = Desk(folder / "box")  # made here, so that no command has to say that it is new
    assert desk.box.folder.is_dir()
    desk.close()
    words = [str(folder / w) if w.endswith((".csv", ".pdf")) else w for w in shlex.split(command)]
    app(["--box", str(folder / "box"), *words], standalone_mode=False)
