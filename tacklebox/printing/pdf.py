"""Files that are written whole or not at all, and one way to start a PDF."""

import io
import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, BinaryIO

from tacklebox.errors import AskedWronglyError, CannotBeDoneError

MM = 72 / 25.4  # PDF's points in a millimetre
Target = Path | BinaryIO  # where a file goes: a place on the disk, or any stream


def new_canvas(file: BinaryIO, width_mm: float, height_mm: float, title: str) -> Any:
    """A ReportLab canvas of that page size that asks the printer not to scale.

    Nothing in it changes from run to run.
    """
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(file, pagesize=(width_mm * MM, height_mm * MM), invariant=1)
    canvas.setPageCompression(1)
    canvas.setTitle(title)
    canvas.setCreator("Tacklebox")
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas


def begin_anew(file: BinaryIO) -> None:
    """Take away what was written to the file so far."""
    file.seek(0)
    file.truncate()


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
def write_aside(target: Target, *, overwrite: bool = False) -> Iterator[BinaryIO]:
    """An empty file to write to, which reaches the target when all went well, and is gone otherwise.

    It may be begun anew as often as is wanted. Raises AskedWronglyError for a file that is there
    already and may not be replaced, and for what is there and is no plain file; CannotBeDoneError
    if the disk does not allow it.
    """
    if not isinstance(target, Path):
        held = io.BytesIO()
        yield held
        target.write(held.getvalue())
        return
    refuse_no_file(target)
    if target.exists() and not overwrite:
        raise AskedWronglyError(
            "the file is there already; it was left as it is.",
            where=str(target),
            right="Name another.",
            see="output.replace",
        )
    aside = target.with_name(f".printing-{secrets.token_hex(6)}{target.suffix}")
    try:
        try:
            with os.fdopen(
                os.open(aside, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o666), "w+b"
            ) as file:
                yield file
            aside.replace(target)
        finally:
            aside.unlink(missing_ok=True)
    except OSError as error:
        raise CannotBeDoneError(
            f"the file cannot be written: {error.strerror}.",
            where=str(target),
            right="Name a place that may be written and has room.",
        ) from None
