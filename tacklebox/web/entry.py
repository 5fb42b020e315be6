"""Who may come in: one token opens the door once, a cookie keeps it open, and the address is checked.

The pages listen on the loopback, where every program and every user of the machine can knock. So nothing
but a small door page is served without the cookie; the cookie is given for a token of one use; and the
token lies in a file that only the angler's own browser can read.
"""

import hmac
import secrets
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from hashlib import sha256
from urllib.parse import urlsplit

COOKIE = "tacklebox"
FIELD = "form_token"
KEY = "once"  # the field of a form that makes one of it, however often it is sent
MOST_TOKENS = 20  # not yet used; an older one is forgotten


@dataclass
class Door:
    """What lets a browser in at ``host`` ("x.localhost:8123"); its keys live as long as it does."""

    host: str
    on_entry: Callable[[], None] = lambda: None  # the way in was used
    _secret: bytes = field(default_factory=lambda: secrets.token_bytes(32), repr=False)
    _tokens: list[str] = field(default_factory=list, repr=False)
    _sessions: set[str] = field(default_factory=set, repr=False)
    _turning: threading.Lock = field(default_factory=threading.Lock, repr=False)

    @property
    def apart(self) -> tuple[str, ...]:
        """The rooms that whoever comes in here may not look at."""
        return ()

    def lets(self, method: str, path: str) -> bool:
        """Whether whoever is in may look at that path, or send something there."""
        return bool(method and path)

    @property
    def may(self) -> str:
        """What is done from here, where not all is."""
        return ""

    @property
    def origin(self) -> str:
        """The only origin that may write."""
        return f"http://{self.host}"

    def new_token(self) -> str:
        """A token that opens the door once."""
        token = secrets.token_urlsafe(32)
        with self._turning:
            self._tokens.append(token)
            del self._tokens[:-MOST_TOKENS]
        return token

    def enter(self, token: str) -> str | None:
        """The session that the token opens, None for one that is unknown or used."""
        with self._turning:
            known = [t for t in self._tokens if hmac.compare_digest(t.encode(), token.encode())]
            if not known:
                return None
            self._tokens.remove(known[0])
            session = secrets.token_urlsafe(32)
            self._sessions.add(session)
        self.on_entry()
        return session

    def knows(self, session: str) -> bool:
        """Whether the cookie's session was opened here."""
        with self._turning:
            return session in self._sessions

    def form_token(self, session: str) -> str:
        """What a form of this session carries, so that no other page can send it."""
        return hmac.new(self._secret, session.encode(), sha256).hexdigest()

    def is_form_token(self, session: str, given: str) -> bool:
        """Whether the form is one of ours, made for this session."""
        return hmac.compare_digest(self.form_token(session).encode(), given.encode())

    def is_own_host(self, header: str) -> bool:
        """Whether a Host header is ours: another name that leads here is a page's trick."""
        return header.lower() == self.host

    def is_own_origin(self, header: str | None) -> bool:
        """Whether an Origin header, where there is one, is ours."""
        if header is None:
            return True
        parts = urlsplit(header)
        return f"{parts.scheme}://{parts.netloc}".lower() == self.origin
