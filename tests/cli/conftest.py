"""What test files of commands share."""

import shutil
from pathlib import Path

import pytest


@pytest.fixture
def box(made: Path, tmp_path: Path) -> Path:
    """A copy, for one test, of the box that its file makes once."""
    return Path(shutil.copytree(made, tmp_path / "box"))
