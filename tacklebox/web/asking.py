"""A question in a form: what was answered before it, and the words that all of it is about."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tacklebox.desk.adding import StockQuestion


@dataclass(frozen=True)
class Asking:
    """A question in the form, after so many ``answers``; None where all is answered and kept in the form."""

    question: "StockQuestion | None"
    answers: list[str]
    words: str


def answers_of(form: Mapping[str, str]) -> list[str]:
    """What was answered so far; nothing once the words were changed."""
    answers: list[str] = []
    while (answer := form.get(f"answer{len(answers)}")) and form.get("asked") == form.get("words"):
        answers.append(answer)
    return answers
