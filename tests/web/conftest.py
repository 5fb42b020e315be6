"""A box, its pages served on the loopback, and a real browser where the machine has one."""

import asyncio
import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING
from unittest.mock import patch

import httpx
import pytest
import uvicorn

from tacklebox.desk import Desk
from tacklebox.web import starting
from tacklebox.web.app import make_app
from tacklebox.web.entry import FIELD, Door

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

LONGEST_S = 300  # before a page is given up for lost; a busy machine may take its time
LOOKS_S = 0.005  # between two looks of a server at whether it is to end
starting.SETTLES_S = 3600.0  # a process of tests collects as it is told, and is no bench
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
# Of its newer kinds, each window has lists for its address field, which are pages of two programs more: half
# of all that it costs, and nobody types there. Such a list goes before that of Playwright, which is in it.
LEFT_OFF = (
    "WebUIOmniboxPopup,WebUIOmniboxAimPopup,WebUIOmniboxFullPopup,AimEnabled,PreconnectToSearch,"
    "AvoidUnnecessaryBeforeUnloadCheckSync,DestroyProfileOnBrowserClose,HttpsUpgrades,"
    "HttpsFirstBalancedModeAutoEnable,MediaRouter,PaintHolding,ThirdPartyStoragePartitioning,"
    "OptimizationHints,NetworkTimeServiceQuerying"
)
ARGUMENTS = ("--no-sandbox", "--disable-gpu", f"--disable-features={LEFT_OFF}")


async def _until_told(server: uvicorn.Server) -> None:
    while not await server.on_tick(0):
        await asyncio.sleep(LOOKS_S)


async def _end(server: uvicorn.Server, sockets: list[socket.socket] | None = None) -> None:
    """What is asked is answered to its end; no time is given away."""
    for listener in server.servers:
        listener.close()
    for listening in sockets or []:
        listening.close()
    for connection in list(server.server_state.connections):
        connection.shutdown()
    while server.server_state.connections or server.server_state.tasks:
        await asyncio.sleep(LOOKS_S)
    await server.lifespan.shutdown()


# A server of uvicorn's looks ten times a second; tests end two hundred of them.
patch.multiple(uvicorn.Server, main_loop=_until_told, shutdown=_end).start()


@dataclass
class Served:
    """Pages that are being served, and the door to them."""

    desk: Desk
    door: Door

    def address(self, path: str = "/") -> str:
        return self.door.origin + path

    @contextmanager
    def client(self) -> Iterator[httpx.Client]:
        """One that came in by the door."""
        with httpx.Client(
            timeout=LONGEST_S, base_url=self.door.origin, follow_redirects=True
        ) as client:
            client.get("/enter", params={"token": self.door.new_token()}).raise_for_status()
            yield client


@contextmanager
def serving(folder: Path) -> Iterator[Served]:
    """Serve the box in the folder until the block ends."""
    desk = Desk(folder)
    with socket.socket(proto=socket.IPPROTO_TCP) as listening:  # so that asyncio sends at once
        listening.bind(("127.0.0.1", 0))
        door = Door(f"127.0.0.1:{listening.getsockname()[1]}")
        up = threading.Event()

        class Server(uvicorn.Server):
            async def startup(self, sockets: list[socket.socket] | None = None) -> None:
                await super().startup(sockets)
                up.set()

        server = Server(uvicorn.Config(make_app(desk, door), log_level="error", access_log=False))
        running = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
        running.start()
        assert up.wait(60)
        try:
            yield Served(desk, door)
        finally:
            server.should_exit = True
            running.join()
            desk.close()


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    with serving(tmp_path / "box") as pages:
        yield pages


@contextmanager
def chromium() -> "Iterator[Browser]":
    """The machine's browser, without a window."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(
            executable_path=CHROMIUM,
            args=[*ARGUMENTS, "--disable-background-networking"],
        )
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def browser() -> "Iterator[Browser]":
    if CHROMIUM is None:
        pytest.skip("there is no Chromium on this machine")
    with chromium() as opened:
        yield opened


@pytest.fixture(scope="session")
def _tab(browser: "Browser") -> "Iterator[Page]":
    """The one that all tests have who need none of their own: a new one is a new program each time."""
    context = browser.new_context()
    yield context.new_page()
    context.close()


@pytest.fixture
def tab(_tab: "Page") -> "Iterator[Page]":
    """A page of the browser that was nowhere yet, as far as anyone can see."""
    _tab.set_viewport_size({"width": 1280, "height": 900})
    yield _tab
    for other in _tab.context.pages:
        if other is not _tab:
            other.close()
    _tab.goto("about:blank")
    _tab.context.clear_cookies()


@pytest.fixture
def page(served: Served, tab: "Page") -> "Page":
    """A page of the browser, inside."""
    return enter(tab, served)


def enter(page: "Page", served: Served) -> "Page":
    """The page, once it came in by the door."""
    page.goto(served.address(f"/enter?token={served.door.new_token()}"))
    page.wait_for_url(served.address("/"))
    return page


def form_token(text: str) -> str:
    """The token of a page's forms."""
    return text.partition(f'name="{FIELD}" value="')[2].partition('"')[0]
