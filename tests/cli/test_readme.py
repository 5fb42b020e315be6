"""The README's console output is made by running its commands, so it cannot go stale.

``TACKLEBOX_WRITE_README=1 python -m pytest tests/cli/test_readme.py`` writes it anew.
"""

import os
import re
import shlex
from pathlib import Path

from tests.cli.runs import ROOT, tacklebox

README = ROOT / "README.md"
BLOCK = re.compile(r"```console\n(.*?)```", re.DOTALL)


def shown(block: str, folder: Path) -> str:
    """The block's commands with what they print."""
    lines = []
    for line in block.splitlines():
        if not line.startswith("$ "):
            continue
        program, *words = shlex.split(line[2:])
        assert program == "tacklebox"
        done = tacklebox(*words, box=Path("box"), cwd=folder)
        said = done.stdout if done.returncode == 0 else done.stderr
        lines += [line, *said.splitlines()]
    return "\n".join(lines) + "\n"


def test_console_output_is_what_the_commands_print(tmp_path: Path) -> None:
    text = README.read_text(encoding="utf-8")
    made = BLOCK.sub(lambda found: f"```console\n{shown(found.group(1), tmp_path)}```", text)
    if os.environ.get("TACKLEBOX_WRITE_README"):
        README.write_text(made, encoding="utf-8")
    assert made == text or os.environ.get("TACKLEBOX_WRITE_README")


def test_commands_of_the_set_up_are_two() -> None:
    blocks = re.findall(r"```sh\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    assert len(blocks) == 2
    assert all(len(block.splitlines()) == 1 for block in blocks)


def test_pictures_are_there() -> None:
    pictures = re.findall(r"!\[[^]]+\]\(([^)]+)\)", README.read_text(encoding="utf-8"))
    assert len(pictures) >= 2
    for picture in pictures:
        assert (ROOT / picture).stat().st_size > 1000


def test_no_paragraph_is_longer_than_a_leaflets() -> None:
    text = re.sub(r"```.*?```", "", (ROOT / "README.md").read_text(encoding="utf-8"), flags=re.S)
    long = [p for p in text.split("\n\n") if not p.startswith("|") and len(p.split()) > 80]
    assert long == []
