"""What there is to read on a subject: one text for both faces, a file for each subject."""

from dataclasses import dataclass
from pathlib import Path

from tacklebox.errors import AskedWronglyError, nearest_word

FOLDER = Path(__file__).with_name("topics")


@dataclass(frozen=True)
class Topic:
    """A subject and its text, by paragraphs; one that begins with "- " is a line of a list."""

    topic: str
    title: str
    paragraphs: tuple[str, ...]


def listed() -> tuple[Topic, ...]:
    """All subjects, by name."""
    return tuple(topic(file.stem) for file in sorted(FOLDER.glob("*.txt")))


def topic(name: str) -> Topic:
    """The text on a subject. Raises AskedWronglyError where there is none."""
    known = sorted(file.stem for file in FOLDER.glob("*.txt"))
    if name not in known:
        raise AskedWronglyError(
            f'there is nothing on "{name}".', field="topic", right=nearest_word(name, known)
        )
    title, _, text = (FOLDER / f"{name}.txt").read_text(encoding="utf-8").partition("\n")
    return Topic(name, title, tuple(line for line in text.splitlines() if line.strip()))
