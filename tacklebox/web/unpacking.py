"""An export that was sent as one file, laid out in a folder: only what an export has, and not too much."""

import io
import lzma
import re
import zipfile
import zlib
from pathlib import Path

from tacklebox.errors import AskedWronglyError

MOST_UNPACKED = 400_000_000  # bytes of all files together
MOST_FILES = 5000
NOT_SAVED = "not-saved.txt"  # beside the export of a damaged box: what is not in it
_DAMAGED = (
    *(zipfile.BadZipFile, zlib.error, lzma.LZMAError, EOFError, OSError),
    *(NotImplementedError, RuntimeError, ValueError),  # of a packing that is unknown, a password
)
# A folder of the export's own before it or not; own files lie in a folder of their kind.
_OWN = "(?:recipes|labels|venues|matches|bags)/"
_NAME = re.compile(
    rf"^(?:(?!{_OWN})[A-Za-z0-9_-]{{1,60}}/)?((?:{_OWN})?[a-z0-9][A-Za-z0-9_-]{{0,59}}\.(?:csv|toml))$"
)


def unpack(sent: bytes, folder: Path) -> None:
    """Write the files of an export into the folder.

    Raises AskedWronglyError for what is no export, and for more than an export of a box can be.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(sent)) as archive:
            names = [
                one for one in archive.infolist() if not one.is_dir() and one.filename != NOT_SAVED
            ]
            if len(names) > MOST_FILES:
                raise _refused("there are too many files in it.")
            left = MOST_UNPACKED
            for one in names:
                found = _NAME.match(one.filename)
                if not found:
                    raise _refused("there are files in it that no export has.")
                with archive.open(one) as packed:
                    data = packed.read(left + 1)  # whatever size it says that it has
                left -= len(data)
                if left < 0:
                    raise _refused("it unpacks to more than an export can be.")
                to = folder / found[1]
                to.parent.mkdir(exist_ok=True)
                to.write_bytes(data)
    except _DAMAGED:
        raise _refused("it cannot be unpacked.") from None


def _refused(what: str) -> AskedWronglyError:
    return AskedWronglyError(
        what, field="file", right="Choose what “Download everything” wrote, as it is."
    )
