"""The edge of the command line: what goes out is fit for a terminal, what comes in can be text at all."""

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any, TextIO

from tacklebox.signs import refuse_no_words, written_out


class _Shown:
    """A stream whose text has no sign that steers a terminal; all else is the stream's own."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        self._stream.write(written_out(text))
        return len(text)

    def __getattr__(self, name: str) -> Any:
        if name == "buffer":  # by which bytes would go out as they are
            raise AttributeError(name)
        return getattr(self._stream, name)


@contextmanager
def safe_streams() -> Iterator[None]:
    """Whatever is printed meanwhile, by whomever, is fit for a terminal."""
    before = sys.stdout, sys.stderr
    sys.stdout, sys.stderr = (_Shown(stream) if stream else stream for stream in before)
    try:
        yield
    finally:
        sys.stdout, sys.stderr = before


def refuse_hopeless(words: Sequence[str]) -> None:
    """Raise AskedWronglyError for a word that nothing could read."""
    for word in words:
        refuse_no_words(word)
