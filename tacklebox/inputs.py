"""Files that the angler names to be read: plain ones, of a size that can be one of ours."""

import stat
from pathlib import Path

from tacklebox.errors import AskedWronglyError


def read_file(path: Path, most_bytes: int) -> bytes:
    """All that a plain file holds.

    What is a folder, pipe, device or socket is refused without being opened: it might never end, or
    wait for ever. Raises AskedWronglyError for those, for what is not there or may not be read, and
    for more than so many bytes.
    """
    try:
        kind = path.stat().st_mode
        if not stat.S_ISREG(kind):
            what = "a folder" if stat.S_ISDIR(kind) else "a device, pipe or socket"
            raise AskedWronglyError(f"this is {what}.", where=str(path), right="Name a file.")
        with path.open("rb") as file:
            raw = file.read(most_bytes + 1)  # what grows meanwhile is not read on
    except (OSError, ValueError) as error:  # ValueError: a name with a zero byte
        why = error.strerror if isinstance(error, OSError) else "it has no such name"
        raise AskedWronglyError(
            f"the file cannot be read: {why}.", where=str(path), right="Check its name."
        ) from None
    if len(raw) > most_bytes:
        size = f"{most_bytes // 10**6} MB" if most_bytes >= 10**6 else f"{most_bytes // 1024} kB"
        raise AskedWronglyError(f"the file is over {size}.", where=str(path), right="Split it.")
    return raw
