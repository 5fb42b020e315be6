"""``tacklebox demo``: the whole job on an invented box, by the tool's own commands.

The scenario: it is Thursday, and on Sunday there is a match on a canal. Floats and
feeders lie ready, size 20 hooks do not.
"""

import shlex
from pathlib import Path
from typing import Annotated

import typer

from tacklebox.cli.output import say
from tacklebox.errors import AskedWronglyError, CannotBeDoneError

STOCK = Path(__file__).with_name("demo_stock.csv")
THURSDAY = "2026-03-05"
COMMANDS = (
    f"stock import stock.csv --on {THURSDAY}",
    'stock list --kind line --where "diameter at most 0.12 mm"',
    "check pole-canal-shot -n 4",
    f"tie pole-canal-shot -n 4 --on {THURSDAY}",
    "check waggler-insert-bulk -n 2 --set depth=1.8m",
    f"measure pull 3 1.55kg --on {THURSDAY}",
    f"measure pull 4 2.1kg --on {THURSDAY}",
    f"tie waggler-insert-bulk -n 2 --set depth=1.8m --on {THURSDAY}",
    f"tie feeder-running-paternoster -n 2 --on {THURSDAY}",
    f"tie hooklength-fine -n 6 --set length=15cm --on {THURSDAY}",
    "rigs list",
    f"labels --to labels.pdf --on {THURSDAY}",
    "low pole-canal-shot=2 hooklength-fine=12",
)
MOST_DEMOS = 1000


def demo(
    into: Annotated[
        Path | None, typer.Option(help="A folder for it; else the next free tacklebox-demo.")
    ] = None,
) -> None:
    """Build a demo box and run the whole job on it, in a folder of its own."""
    folder = _new_folder(into)
    say(f"A demo box in {folder}: it is Thursday, and on Sunday there is a match on a canal.")
    (folder / "stock.csv").write_bytes(STOCK.read_bytes())
    for command in COMMANDS:
        say()
        say(f"$ tacklebox {command}")
        _run(folder, command)
    strips = "labels --paper strips-180 --to strips.pdf"
    say()
    say(f"$ tacklebox {strips} CODE...")
    _run(folder, f"{strips} --on {THURSDAY} " + " ".join(_rig_codes(folder)))
    say()
    say("The files:")
    for name in ("stock.csv", "labels.pdf", "strips.pdf", "box"):
        say(f"  {folder / name}")
    say(f"Go on with it: tacklebox --box {folder / 'box'} rigs list")


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
    from tacklebox.stock.box import open_box

    open_box(folder / "box")
    words = [str(folder / w) if w.endswith((".csv", ".pdf")) else w for w in shlex.split(command)]
    app(["--box", str(folder / "box"), *words], standalone_mode=False)


def _rig_codes(folder: Path) -> list[str]:
    from tacklebox.rigs.tied import READY, tied_with
    from tacklebox.stock.box import open_box

    return [t.code for t in tied_with(open_box(folder / "box"), state=READY) if t.kind == "rig"]
