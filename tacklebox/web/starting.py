"""``tacklebox open``: the server on the loopback, the browser let in, one server for a box."""

import os
import secrets
import socket
import stat
import sys
import threading
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk.private import private_folder
from tacklebox.errors import CannotBeDoneError
from tacklebox.web.collecting import COLLECTING
from tacklebox.web.entry import Door
from tacklebox.web.phone_listener import Phones
from tacklebox.web.phones import OVERHEARD
from tacklebox.web.server import THREADS, Certificate, server_of

if TYPE_CHECKING:
    from tacklebox.desk import Desk

M_ARENA_MAX = -8  # of glibc's malloc.h
SWITCHES_S = 0.001  # what is made beside the pages keeps none of them longer from its turn
SETTLES_S = 2.0  # after a browser came in: by then its first page is there

LOOPBACK = "127.0.0.1"
SOCKET = "open.socket"
PAGE = """<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Tacklebox</title>
<meta http-equiv="refresh" content="0; url={url}">
<p><a href="{url}">Open the bench</a></p></html>
"""


def open_pages(
    desk: "Desk",
    *,
    port: int = 0,
    browser: bool = True,
    phone: bool = False,
    certificate: Certificate | None = None,
    say: Callable[[str], None] = print,
) -> None:
    """Serve the pages of the desk's box until stopped; where they are served already, open those.

    ``phone``: phones of the network are let in at once, by TLS where there is a ``certificate``.
    Raises CannotBeDoneError when no port can be had, or no phone can be let in.
    """
    from tacklebox.web.app import make_app

    desk.threads = THREADS
    folder = desk.box.folder
    running = ask_running(folder)
    if running:
        say("The bench is open already; here it is again.")
        _show(running, browser=browser, say=say)
        return
    _share_memory()
    listening = _listen(port, say)
    door = Door(f"{host_name()}:{listening.getsockname()[1]}")
    phones = Phones(desk, partial(make_app, desk))
    with private_folder() as private, _answering(folder, lambda: _way_in(door, private)):
        way_in = _way_in(door, private)

        def show_when_up() -> None:
            _show(way_in, browser=browser, say=say)
            say("The bench is open. Ctrl-C closes it.")

        pages = make_app(
            desk, door, phones=phones, close=lambda: setattr(server, "should_exit", True)
        )
        server = server_of(pages, show_when_up)
        if phone:
            _let_phones_in(phones, certificate, say)
        server.run(sockets=[listening])
        phones.stop()
    desk.close()


def _let_phones_in(
    phones: Phones, certificate: Certificate | None, say: Callable[[str], None]
) -> None:
    door = phones.begin(certificate=certificate)
    say(f"Phones of this network are let in at {door.origin}; pair one on the bench, under Phones.")
    if not door.is_secured:
        say(OVERHEARD)


def _share_memory() -> None:
    """Let threads share two stores of memory, from before the first of them begins.

    Where the C library is glibc it gives each thread one of its own, which is not given back (a tenth to
    a third more was held by twenty clients at once).
    """
    import ctypes

    with suppress(OSError, AttributeError, TypeError):
        ctypes.CDLL(None).mallopt(M_ARENA_MAX, 2)


def _settle_in() -> None:
    """See to what weeks ask for, once the first page is there, which is felt."""
    COLLECTING.begin()
    sys.setswitchinterval(SWITCHES_S)


def host_name() -> str:
    """A name of its own where the machine knows such names: cookies do not tell ports apart."""
    name = f"{secrets.token_hex(8)}.localhost"
    try:
        found = socket.getaddrinfo(name, None, family=socket.AF_INET)
    except OSError:
        return LOOPBACK
    return name if all(one[4][0] == LOOPBACK for one in found) else LOOPBACK


def ask_running(folder: Path) -> Path | None:
    """The way into the pages that are served for this box already; None where none are."""
    with _at(folder) as place, socket.socket(socket.AF_UNIX) as asking:
        asking.settimeout(5)
        try:
            asking.connect(place)
            answer = asking.makefile(encoding="utf-8").readline().strip()
        except OSError:
            return None
    return Path(answer) if answer else None


def _listen(port: int, say: Callable[[str], None]) -> socket.socket:
    listening = socket.socket(proto=socket.IPPROTO_TCP)  # so that asyncio sends at once
    try:
        listening.bind((LOOPBACK, port))
    except OSError:
        if not port:
            raise CannotBeDoneError("no port can be had on this machine.") from None
        say(f"Port {port} is in use; another is taken.")
        listening.bind((LOOPBACK, 0))
    return listening


def _way_in(door: Door, private: Path) -> Path:
    """A page, readable by its owner alone, that leads in once."""
    for old in private.iterdir():
        old.unlink(missing_ok=True)
    page = private / f"{secrets.token_hex(8)}.html"
    url = f"{door.origin}/enter?token={door.new_token()}"
    handle = os.open(page, os.O_WRONLY | os.O_CREAT | os.O_EXCL, stat.S_IRUSR | stat.S_IWUSR)
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(PAGE.format(url=url))

    def entered() -> None:
        page.unlink(missing_ok=True)
        after = threading.Timer(SETTLES_S, _settle_in)
        after.daemon = True
        after.start()

    door.on_entry = entered
    return page


def _show(way_in: Path, *, browser: bool, say: Callable[[str], None]) -> None:
    """Open the browser on the page; where there is no browser, the address is said."""
    if browser and has_browser() and webbrowser.open(way_in.as_uri()):
        return
    text = way_in.read_text(encoding="utf-8")
    url = text.partition("url=")[2].partition('"')[0]
    say(f"Open this in a browser on this machine; it works once:\n  {url}")


def has_browser() -> bool:
    """Whether a browser with windows can be opened from here."""
    if sys.platform.startswith("linux") and not (
        os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    ):
        return False
    try:
        webbrowser.get()
    except webbrowser.Error:
        return False
    return True


@contextmanager
def _at(folder: Path) -> Iterator[str]:
    """The socket's name, short enough for the system however deep the box lies."""
    if not Path("/proc/self/fd").is_dir():
        yield str(folder / SOCKET)
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        yield f"/proc/self/fd/{handle}/{SOCKET}"
    finally:
        os.close(handle)


@contextmanager
def _answering(folder: Path, way_in: Callable[[], Path]) -> Iterator[None]:
    """Tell another ``open`` of the same box the way in, through a socket that only its owner can use."""
    with _at(folder) as place, socket.socket(socket.AF_UNIX) as answering:
        with suppress(FileNotFoundError):
            (folder / SOCKET).unlink()  # of one that was killed
        answering.bind(place)
        (folder / SOCKET).chmod(stat.S_IRUSR | stat.S_IWUSR)
        answering.listen()

        def answer() -> None:
            while True:
                try:
                    asked, _ = answering.accept()
                except OSError:
                    return
                with asked:
                    asked.sendall(f"{way_in()}\n".encode())

        threading.Thread(target=answer, daemon=True).start()
        try:
            yield
        finally:
            with suppress(OSError):
                answering.shutdown(socket.SHUT_RDWR)
            (folder / SOCKET).unlink(missing_ok=True)
