"""Where the shipped recipes and label papers lie: in the wheel, or beside the package in a checkout."""

from pathlib import Path


def shipped_folder(name: str) -> Path:
    """The folder of shipped data files called ``name`` ("recipes" or "labels")."""
    package = Path(__file__).resolve().parent
    installed = package / "shipped" / name
    return installed if installed.is_dir() else package.parent / name
