"""Whether anything of the box is other than it was: its database, its own files, the day."""

import hashlib
import stat
from functools import lru_cache
from pathlib import Path

from tacklebox.desk.opening import Desk
from tacklebox.errors import AlreadyDoneError


def state(desk: Desk) -> str:
    """A mark that is another one once anything is other that an answer could rest on.

    Of the database it is the count of its changes, of the angler's own files their hash.
    """
    from tacklebox.boxfolder import READ

    mark = desk.box.mark()
    said = [mark.box, mark.stamp, str(mark.changes), desk.today().isoformat()]
    for kind in READ:
        said += [f"{kind}/{path.name} {_hash_of(path)}" for path in _files(desk.box.folder / kind)]
    return hashlib.sha256("\n".join(said).encode()).hexdigest()[:20]


def state_with_bags(desk: Desk) -> str:
    """As ``state``, of what is ticked for the bags too: pages show that, and no answer that is kept rests
    on it."""
    folder = desk.box.folder / "bags"
    said = [state(desk), *(f"{path.name} {_hash_of(path)}" for path in _files(folder))]
    return hashlib.sha256("\n".join(said).encode()).hexdigest()[:20]


def refuse_done(desk: Desk) -> None:
    """Raises AlreadyDoneError where what this call asks for was done under its key."""
    from sqlmodel import select

    from tacklebox.stock.tables import Action

    if desk.box.key is None:
        return
    with desk.box.reading() as session:
        done = session.exec(select(Action).where(Action.key == desk.box.key)).first()
        if done is not None:
            raise AlreadyDoneError(done.what, done.id or 0)


def _files(folder: Path) -> list[Path]:
    return sorted(folder.glob("*.toml"))


def _hash_of(path: Path) -> str:
    try:
        seen = path.stat()
        if not stat.S_ISREG(seen.st_mode):  # a pipe would wait for ever, a device have no end
            return "no file"
        return _hash(path, seen.st_ino, seen.st_mtime_ns, seen.st_ctime_ns, seen.st_size)
    except OSError:
        return "unreadable"


@lru_cache(maxsize=2000)
def _hash(path: Path, *_seen: int) -> str:
    """The hash of a file as it was seen; one that is changed is read anew."""
    return hashlib.sha256(path.read_bytes()).hexdigest()
