"""A new box for each test of the stock."""

from pathlib import Path

import pytest

from tacklebox.stock.care.box import Box, open_box


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return open_box(tmp_path / "box")
