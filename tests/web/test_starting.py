"""``tacklebox open``: the browser let in by a file of its owner's alone, one server for a box, a starter."""

import re
import socket
import stat
import threading
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from urllib.parse import unquote, urlsplit

import httpx
import pytest

from tacklebox.desk import Desk, adding, stock
from tacklebox.errors import CannotBeDoneError
from tacklebox.web import starter, starting
from tacklebox.web.entry import FIELD
from tests.web.conftest import LONGEST_S, form_token

QUOTED = re.compile(r'"((?:\\.|[^"\\])*)"')  # an argument in quotes, as desktop entries have it


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "home"
    folder.mkdir()
    monkeypatch.setenv("HOME", str(folder))
    monkeypatch.setattr(Path, "home", lambda: folder)
    return folder


@contextmanager
def opened(box: Path, port: int = 0) -> Iterator[tuple[list[str], list[str], Callable[[], None]]]:
    """The bench opened on the box: what the browser was asked to open, what was said, and the end of it."""
    shown: list[str] = []
    said: list[str] = []
    up = threading.Event()

    def show(uri: str) -> bool:
        shown.append(uri)
        up.set()
        return True

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(webbrowser, "open", show)
        patch.setattr(starting, "has_browser", lambda: True)
        desk = Desk(box)
        run = threading.Thread(target=lambda: starting.open_pages(desk, say=said.append, port=port))
        run.start()
        assert up.wait(60)

        def close() -> None:
            with suppress(httpx.HTTPError):
                client = entered(shown)
                token = form_token(client.get("/care").text)
                assert "closed" in client.post("/care/close", data={FIELD: token}).text
            run.join(60)

        try:
            yield shown, said, close
        finally:
            if run.is_alive():
                page = starting.ask_running(box)
                assert page is not None
                shown.append(page.as_uri())
                close()
            assert not run.is_alive()


def way_in(uri: str) -> Path:
    return Path(unquote(urlsplit(uri).path))


def entered(shown: list[str]) -> httpx.Client:
    """A browser that opened the file; a name of its own leads to this machine."""
    text = way_in(shown[-1]).read_text("utf-8")
    url = httpx.URL(text.partition("url=")[2].partition('"')[0])
    assert url.host == "127.0.0.1" or url.host.endswith(".localhost")
    client = httpx.Client(
        base_url=f"http://127.0.0.1:{url.port}",
        headers={"host": f"{url.host}:{url.port}"},
        timeout=LONGEST_S,
    )
    answer = client.get("/enter", params=url.params)
    assert answer.status_code == 200
    client.headers["cookie"] = answer.headers["set-cookie"].partition(";")[0]
    return client


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_another_user_gets_at_nothing(home: Path, tmp_path: Path) -> None:
    """What he can see is the port and the process list: the token is in neither, but in a file that its
    owner alone can read, in a folder of his alone, and gone once it was used."""
    with opened(tmp_path / "box") as (shown, said, _close):
        (uri,) = shown
        page = way_in(uri)
        assert (mode(page), mode(page.parent)) == (0o600, 0o700)
        assert page.is_relative_to(home)
        assert not any(part.startswith(".") for part in page.relative_to(home).parts)
        assert "token" not in uri  # what the process list shows of the browser
        assert not any("token" in words for words in said)
        assert mode(tmp_path / "box" / starting.SOCKET) == 0o600
        port = int(page.read_text("utf-8").partition(".localhost:")[2][:5].partition("/")[0] or 0)
        client = entered(shown)
        assert not page.exists()
        assert client.get("/").status_code == 200
        port = port or client.base_url.port or 0
        for path in ("/", "/stock", "/state", "/care/export.zip", "/enter?token=guess"):
            stranger = httpx.get(
                f"http://127.0.0.1:{port}{path}",
                headers={"host": client.headers["host"]},
                timeout=LONGEST_S,
            )
            assert stranger.status_code == 403, path
        with pytest.raises(OSError, match="refused"):  # it listens on the loopback alone
            socket.create_connection(("127.0.0.2", port), timeout=2)
        assert starting.ask_running(tmp_path / "box") is not None
        token = form_token(client.get("/care").text)
        assert "closed" in client.post("/care/close", data={FIELD: token}).text
    assert list(home.iterdir()) == []  # nothing is left of the way in
    assert not (tmp_path / "box" / starting.SOCKET).exists()


def test_a_second_open_finds_the_first(home: Path, tmp_path: Path) -> None:
    box = tmp_path / "box"
    with opened(box) as (shown, _, _close):
        entered(shown)
        said: list[str] = []
        with Desk(box).box.reading():
            pass
        starting.open_pages(Desk(box), say=said.append)
        assert "open already" in said[0]
        assert len(shown) == 2
        assert shown[1] != shown[0]
        client = entered(shown)
        assert client.get("/").status_code == 200
    assert home.is_dir()


def test_a_port_in_use_is_told_and_a_socket_left_behind_is_taken_over(
    home: Path, tmp_path: Path
) -> None:
    box = tmp_path / "box"
    adding.add(Desk(box), "hook 18 barbless spade pack 10")
    with socket.socket(socket.AF_UNIX) as killed:
        killed.bind(str(box / starting.SOCKET))  # of one that was killed
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        taken = other.getsockname()[1]
        with opened(box, port=taken) as (shown, said, _close):
            assert f"Port {taken} is in use; another is taken." in said
            assert "hook 18" in entered(shown).get("/stock").text
    assert home.is_dir()
    assert len(stock.listed(Desk(box)).items) == 1


def test_a_starter_on_the_desktop_runs_open(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    config = home / "config"
    config.mkdir()
    (config / "user-dirs.dirs").write_text('XDG_DESKTOP_DIR="$HOME/Bureau"\n', "utf-8")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(config))
    monkeypatch.delenv("XDG_DESKTOP_DIR", raising=False)
    with pytest.raises(CannotBeDoneError, match="no starter"):
        starter.put_on_desktop(None, system="linux")
    (home / "Bureau").mkdir()
    box = home / 'my 100% "$box"'
    made = starter.put_on_desktop(box, system="linux")
    assert made == starter.Starter(home / "Bureau" / "tacklebox.desktop", "")
    lines = dict(line.partition("=")[::2] for line in made.file.read_text("utf-8").splitlines()[1:])
    quoted = QUOTED.findall(lines["Exec"].replace("\\\\", "\\"))
    words = [re.sub(r"\\(.)", r"\1", word).replace("%%", "%") for word in quoted]
    assert words[1:] == ["-m", "tacklebox", "--box", str(box), "open"]
    assert Path(words[0]).is_file()
    assert Path(lines["Icon"]).is_file()
    assert mode(made.file) & stat.S_IXUSR
    assert starter.put_on_desktop(box, system="linux") == made  # an older one gives way
    for system, name in (("win32", "Tacklebox.cmd"), ("darwin", "Tacklebox.command")):
        other = starter.put_on_desktop(None, system=system)
        assert (other.file.name, other.caution) == (name, starter.UNTESTED)
        assert "-m tacklebox open" in other.file.read_text("utf-8")
