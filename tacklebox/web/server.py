"""One server of pages; the one that listens on the loopback and that for phones are alike."""

import socket
import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import uvicorn

    from tacklebox.web.guard import Guard

THREADS = 5  # that answer at a time: more would only hold one another up, and each takes its memory


@dataclass(frozen=True)
class Certificate:
    """A certificate of his own and its key, as files."""

    file: Path
    key: Path


def server_of(
    pages: "Guard", on_up: Callable[[], None], certificate: Certificate | None = None
) -> "uvicorn.Server":
    """A server that calls ``on_up`` when it listens, so that no browser comes before it.

    Raises OSError for a certificate that cannot be used.
    """
    import uvicorn
    from anyio import to_thread

    class Server(uvicorn.Server):
        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            to_thread.current_default_thread_limiter().total_tokens = THREADS
            await super().startup(sockets)
            threading.Thread(target=on_up, daemon=True).start()

    config = uvicorn.Config(
        pages,
        log_level="error",
        access_log=False,
        server_header=False,
        date_header=False,
        timeout_graceful_shutdown=5,
        timeout_keep_alive=5,
        ssl_certfile=certificate.file if certificate else None,
        ssl_keyfile=certificate.key if certificate else None,
    )
    config.load()
    return Server(config)
