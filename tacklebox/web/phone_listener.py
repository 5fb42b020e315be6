"""The second listener, for phones of the network: begun and stopped while the bench stays open."""

import socket
import threading
from collections.abc import Callable
from ipaddress import ip_address
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.errors import CannotBeDoneError
from tacklebox.web.guard import Guard
from tacklebox.web.phones import PairedPhones, PhoneDoor, paired_with
from tacklebox.web.server import Certificate, server_of

if TYPE_CHECKING:
    import uvicorn

    from tacklebox.desk import Desk

_NOWHERE = ("192.0.2.1", 9)  # RFC 5737: for documentation; nothing is sent there


def network_address() -> str | None:
    """This machine's address on its network; None where it is on none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(_NOWHERE)
        except OSError:
            return None
        address = str(asking.getsockname()[0])
    return address if ip_address(address).is_private and address != "127.0.0.1" else None


class Phones:
    """The second listener, which may be begun and stopped while the bench stays open."""

    def __init__(
        self, desk: "Desk", pages_of: Callable[[PhoneDoor], Guard], file: Path | None = None
    ) -> None:
        self.desk = desk
        self._pages_of = pages_of
        self._file = file
        self.door: PhoneDoor | None = None
        self._server: uvicorn.Server | None = None
        self._running: threading.Thread | None = None
        self._turning = threading.Lock()

    @property
    def paired(self) -> PairedPhones:
        """The phones that were paired with this box."""
        return PairedPhones(self._file) if self._file else paired_with(self.desk.mark)

    def begin(
        self, address: str | None = None, certificate: Certificate | None = None
    ) -> PhoneDoor:
        """Listen on the network's address, if it is not done yet.

        Raises CannotBeDoneError where this machine is on no network, or the address or the
        certificate cannot be used.
        """
        with self._turning:
            if self.door is not None:
                return self.door
            address = address or network_address()
            if address is None:
                raise CannotBeDoneError(
                    "this machine is on no network of its own.",
                    right="Join the network that the phone is on.",
                )
            listening = socket.socket(proto=socket.IPPROTO_TCP)  # so that asyncio sends at once
            try:
                listening.bind((address, 0))
                port = listening.getsockname()[1]
                door = PhoneDoor(
                    f"{address}:{port}", paired=self.paired, is_secured=certificate is not None
                )
                self._serve(door, listening, certificate)
            except OSError as error:
                listening.close()
                raise CannotBeDoneError(
                    f"phones cannot be let in at {address}: {error.strerror or error}.",
                    right="Look at the address, and at the certificate where there is one.",
                ) from None
            self.door = door
            return door

    def _serve(
        self, door: PhoneDoor, listening: socket.socket, certificate: Certificate | None
    ) -> None:
        up = threading.Event()
        self._server = server_of(self._pages_of(door), up.set, certificate)
        self._running = threading.Thread(
            target=self._server.run, kwargs={"sockets": [listening]}, daemon=True
        )
        self._running.start()
        up.wait()

    def stop(self) -> None:
        """Let no phone in any more; those that were paired come again when it is begun anew."""
        with self._turning:
            if self._server is not None and self._running is not None:
                self._server.should_exit = True
                self._running.join()
            self.door = self._server = self._running = None
