"""PDF files: one way to start them, and to write them whole or not at all."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from tacklebox.errors import AskedWronglyError, CannotBeDoneError

MM = 72 / 25.4  # PDF's points in a millimetre


def new_canvas(path: Path, width_mm: float, height_mm: float, title: str) -> Any:
    """A ReportLab canvas of that page size that asks the printer not to scale.

    Nothing in it changes from run to run.
    """
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(path), pagesize=(width_mm * MM, height_mm * MM), invariant=1)
    canvas.setPageCompression(1)
    canvas.setTitle(title)
    canvas.setCreator("Tacklebox")
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas


def refuse_no_file(target: Path) -> None:
    """Raises AskedWronglyError where something is in the target's place that is no plain file.

    A file would take the place of a device, a pipe or a link, not be written into it.
    """
    if target.is_symlink():
        what = "a link"
    elif target.is_dir():
        what = "a folder"
    elif target.exists() and not target.is_file():
        what = "a device or pipe"
    else:
        return
    raise AskedWronglyError(f"this is {what}.", where=str(target), right="Name a file.")


@contextmanager
def write_aside(target: Path, *, overwrite: bool) -> Iterator[Path]:
    """A file beside the target that takes its place when all went well, and is gone otherwise.

    Raises AskedWronglyError for a file that is there already and may not be replaced, and for
    what is there and is no plain file; CannotBeDoneError if the disk does not allow it.
    """
    refuse_no_file(target)
    if target.exists() and not overwrite:
        raise AskedWronglyError(
            "the file is there already; it was left as it is.",
            where=str(target),
            right="Name another, or say --replace.",
        )
    try:
        handle, name = tempfile.mkstemp(dir=target.parent, prefix=".printing-", suffix=".pdf")
        os.close(handle)
        aside = Path(name)
        try:
            yield aside
            mask = os.umask(0)
            os.umask(mask)
            aside.chmod(0o666 & ~mask)
            aside.replace(target)
        finally:
            aside.unlink(missing_ok=True)
    except OSError as error:
        raise CannotBeDoneError(
            f"the file cannot be written: {error.strerror}.",
            where=str(target),
            right="Name a place that may be written and has room.",
        ) from None
