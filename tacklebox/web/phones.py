"""Phones of the same network: a second listener until it is stopped, a door of its own, pairing by a QR.

Without a certificate whatever goes to and fro can be overheard, so that a phone may only look, tick the pack
list and fill a debrief. A phone is known by a cookie; of that a hash is kept, beside the settings of this
user and in no box, so that no copy, export or restore brings a phone in.
"""

import hmac
import json
import re
import secrets
import threading
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass, field
from datetime import date
from hashlib import sha256
from ipaddress import ip_address
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk.private import write_private
from tacklebox.web.entry import Door
from tacklebox.web.guard import SAFE, Guard, Scope, session_of

if TYPE_CHECKING:
    pass

SECRET_BYTES = 16  # 128 bits
PAIRING_S, MOST_TRIES = 300.0, 5
MOST_PHONES = 20
_HASH = re.compile("[0-9a-f]{64}")
OPEN_PATHS = ("/pair", "/static/house.css")
AT_THE_BENCH = ("/care", "/phones")  # are not looked at from a phone
MAY_SEND = re.compile(r"/pair|/matches/[^/]+/(?:debrief|record|pack)")
NOT_PAIRED = "This phone is not paired. On the bench, open Phones and scan what stands there."
ONLY_LOOK = (
    "From a phone you can look, tick the pack list and fill a debrief. Do this at the bench: without a "
    "certificate of your own, others on this network could listen."
)
OVERHEARD = (
    "Without a certificate of your own, whatever a phone reads or sends can be overheard by others on this "
    "network. Use it at home."
)


@dataclass(frozen=True)
class PairedPhone:
    """A phone that was let in: what it is called, since when, the hash of its key, and whether that went by
    TLS alone: one that did not may have been overheard."""

    name: str
    since: str
    hashed: str
    is_secured: bool = False

    @property
    def day(self) -> date:
        """The day on which it was let in."""
        return date.fromisoformat(self.since)


def paired_with(box: str) -> "PairedPhones":
    """The phones that were paired with the box of that mark."""
    from platformdirs import user_state_path

    return PairedPhones(user_state_path("tacklebox") / f"phones-{box}.json")


class PairedPhones:
    """The phones that were paired with a box, in a file that only this user can read."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self._turning = threading.Lock()

    def listed(self) -> tuple[PairedPhone, ...]:
        """The phones, the first paired first."""
        try:
            text = self.file.read_text(encoding="utf-8") if self.file.is_file() else "[]"
            rows = tuple(PairedPhone(**row) for row in json.loads(text))
        except (OSError, ValueError, TypeError, RecursionError):  # damaged: nobody is let in by it
            return ()
        return tuple(one for one in rows if _is_as_written(one))

    def add(self, session: str, name: str, *, is_secured: bool = False) -> None:
        """Let a phone in from now on; of very many the first is forgotten."""
        one = PairedPhone(name, date.today().isoformat(), _hashed(session), is_secured)
        with self._turning:
            self._write((*self.listed(), one)[-MOST_PHONES:])

    def shut_out(self, hashed: str) -> None:
        """Let a phone in no longer."""
        with self._turning:
            self._write(tuple(one for one in self.listed() if one.hashed != hashed))

    def knows(self, session: str, *, is_secured: bool = False) -> bool:
        """Whether the cookie is of a phone that may come in; by TLS, one that was paired by it."""
        hashed = _hashed(session).encode()
        return any(
            hmac.compare_digest(one.hashed.encode(), hashed) and one.is_secured >= is_secured
            for one in self.listed()
        )

    def _write(self, phones: tuple[PairedPhone, ...]) -> None:
        write_private(self.file, json.dumps([asdict(one) for one in phones]))


def _is_as_written(one: PairedPhone) -> bool:
    texts = (one.name, one.since, one.hashed)
    if not all(isinstance(text, str) for text in texts) or not isinstance(one.is_secured, bool):
        return False
    try:
        return bool(one.day) and bool(_HASH.fullmatch(one.hashed))
    except ValueError:
        return False


def _hashed(session: str) -> str:
    return sha256(session.encode()).hexdigest()


@dataclass
class _Pairing:
    secret: str
    until: float
    tries: int = 0


@dataclass
class PhoneDoor(Door):
    """The door for phones: a secret of one use, five minutes and five tries lets one in for good."""

    paired: PairedPhones = field(kw_only=True)
    is_secured: bool = field(default=False, kw_only=True)
    clock: Callable[[], float] = field(default=time.monotonic, kw_only=True)
    _pairing: _Pairing | None = field(default=None, init=False, repr=False)

    @property
    def apart(self) -> tuple[str, ...]:
        """The rooms that whoever comes in here may not look at."""
        return AT_THE_BENCH

    def lets(self, method: str, path: str) -> bool:
        """Whether a paired phone may look at that path, or send something there."""
        if path.startswith(AT_THE_BENCH):
            return False
        return method in SAFE or self.is_secured or bool(MAY_SEND.fullmatch(path))

    @property
    def may(self) -> str:
        """What is done from a phone where not all is."""
        return "" if self.is_secured else ONLY_LOOK

    @property
    def origin(self) -> str:
        """The only origin that may write."""
        return f"{'https' if self.is_secured else 'http'}://{self.host}"

    def new_pairing(self) -> str:
        """The address that pairs one phone, in the place of any before it."""
        with self._turning:
            secret = secrets.token_urlsafe(SECRET_BYTES)
            self._pairing = _Pairing(secret, self.clock() + PAIRING_S)
        return f"{self.origin}/pair?secret={secret}"

    @property
    def is_pairing(self) -> bool:
        """Whether a phone could be paired now."""
        with self._turning:
            return self._pairing is not None and self.clock() < self._pairing.until

    def pair(self, secret: str, name: str) -> str | None:
        """The key of a phone that is let in; None for a secret that is wrong, used or too old."""
        with self._turning:
            pairing = self._pairing
            if pairing is None or self.clock() >= pairing.until:
                self._pairing = None
                return None
            pairing.tries += 1
            is_right = hmac.compare_digest(pairing.secret.encode(), secret.encode())
            if is_right or pairing.tries >= MOST_TRIES:
                self._pairing = None
            if not is_right:
                return None
        session = secrets.token_urlsafe(32)
        self.paired.add(session, name, is_secured=self.is_secured)
        return session

    def knows(self, session: str) -> bool:
        """Whether the cookie is of a phone that was paired and not shut out."""
        return bool(session) and self.paired.knows(session, is_secured=self.is_secured)


class PhoneGuard(Guard):
    """The guard before the pages of the phones: an unpaired one gets nothing but the way to pair it."""

    door: PhoneDoor

    def _refusal(self, scope: Scope, headers: dict[str, str]) -> tuple[int, str] | None:
        path, method = scope["path"], scope["method"]
        if not _is_near(scope):
            return 403, "Only phones of this network are let in."
        if not self.door.is_own_host(headers.get("host", "")):
            return 421, "This is not the address of the bench."
        if path not in OPEN_PATHS and not self.door.knows(session_of(headers)):
            return 403, NOT_PAIRED
        if path == "/pair" and method in SAFE:
            return None  # from the camera, so from no origin
        if not self.door.lets(method, path):
            return 403, ONLY_LOOK
        if path == "/pair":
            return None if self.door.is_own_origin(headers.get("origin")) else (403, NOT_PAIRED)
        return super()._refusal(scope, headers)


def _is_near(scope: Scope) -> bool:
    """Whether whoever asks is on a private network, or on this machine."""
    host = (scope.get("client") or ("", 0))[0]
    try:
        return ip_address(host).is_private
    except ValueError:
        return False
