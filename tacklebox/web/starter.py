"""A starter on the desktop, so that the bench opens without a terminal.

Tested on Linux. What is written for Windows and macOS is not tested, and says so.
"""

import os
import shlex
import stat
import sys
from dataclasses import dataclass
from pathlib import Path

from tacklebox.errors import CannotBeDoneError

ICON = Path(__file__).with_name("static") / "icon.svg"
UNTESTED = "It was written for this system, and never tested on it."
_ESCAPED = str.maketrans({'"': '\\"', "`": "\\`", "$": "\\$", "\\": "\\\\"})


@dataclass(frozen=True)
class Starter:
    """The file that was written, and what is not sure of it ("" where nothing is)."""

    file: Path
    caution: str


def put_on_desktop(box: Path | None, *, system: str = sys.platform) -> Starter:
    """Write a starter of the bench, of that box where one is named, over an older one.

    Raises CannotBeDoneError where there is no desktop folder or it may not be written.
    """
    from platformdirs import user_desktop_path

    from tacklebox.desk.opening import folder_named

    folder = user_desktop_path()
    words = [sys.executable, "-m", "tacklebox"]
    if box is not None:
        words += ["--box", str(folder_named(box).absolute())]
    words.append("open")
    name, text = _starter(words, system)
    file = folder / name
    try:
        if not folder.is_dir():
            raise FileNotFoundError(2, "there is no such folder")
        half = folder / f".{name}.half"
        half.write_text(text, encoding="utf-8")
        half.chmod(half.stat().st_mode | stat.S_IXUSR)
        half.replace(file)
    except OSError as error:
        raise CannotBeDoneError(
            f"no starter can be put on the desktop: {error.strerror}.",
            where=str(folder),
            right="`tacklebox open` opens the bench as well.",
        ) from None
    return Starter(file, "" if system.startswith("linux") else UNTESTED)


def _starter(words: list[str], system: str) -> tuple[str, str]:
    """The file's name and what it says, by the system."""
    if system == "win32":
        python, *rest = words
        quiet = python.replace("python.exe", "pythonw.exe")
        return "Tacklebox.cmd", f'@start "" "{quiet}" {" ".join(map(_in_quotes, rest))}{os.linesep}'
    if system == "darwin":
        return "Tacklebox.command", f"#!/bin/sh\nexec {shlex.join(words)}\n"
    entry = {
        "Type": "Application",
        "Name": "Tacklebox",
        "Comment": "Tackle in stock, rigs and labels",
        "Exec": " ".join(f'"{word.translate(_ESCAPED).replace("%", "%%")}"' for word in words),
        "Icon": str(ICON),
        "Terminal": "false",
        "Categories": "Utility;",
    }
    # A value's own backslashes are written twice, beside the quoting of a command.
    lines = [f"{key}={value.replace(chr(92), chr(92) * 2)}" for key, value in entry.items()]
    return "tacklebox.desktop", "\n".join(["[Desktop Entry]", *lines, ""])


def _in_quotes(word: str) -> str:
    return f'"{word}"' if " " in word else word
