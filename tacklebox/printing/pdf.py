"""One way to start a PDF."""

from typing import Any, BinaryIO

MM = 72 / 25.4  # PDF's points in a millimetre


def new_canvas(file: BinaryIO, width_mm: float, height_mm: float, title: str) -> Any:
    """A ReportLab canvas of that page size that asks the printer not to scale.

    Nothing in it changes from run to run.
    """
    from reportlab.pdfgen.canvas import Canvas

    _write_streams_as_they_are()
    canvas = Canvas(file, pagesize=(width_mm * MM, height_mm * MM), invariant=1)
    canvas.setPageCompression(1)
    canvas.setTitle(title)
    canvas.setCreator("Tacklebox")
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas


def begin_anew(file: BinaryIO) -> None:
    """Take away what was written to the file so far."""
    _write_streams_as_they_are()
    file.seek(0)
    file.truncate()


def _write_streams_as_they_are() -> None:
    """And not spelled in letters, which takes as long as to write the page, and a quarter more room."""
    from reportlab import rl_config

    rl_config.useA85 = 0
