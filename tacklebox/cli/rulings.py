"""How a venue's rulings are shown, and what always comes first."""

from typing import TYPE_CHECKING

from tacklebox.cli.output import say_folded

if TYPE_CHECKING:
    from tacklebox.desk.rulings import Ruling


def show_ruling(ruling: "Ruling") -> None:
    """Print one ruling: the answer, the rule, the part, what would pass."""
    words = [ruling.rule.words.rstrip("."), ruling.part, ruling.says]
    text = f"{ruling.verdict.upper()}: {': '.join(word for word in words if word)}"
    if ruling.remedy:
        text += f". Would pass: {ruling.remedy}"
    if ruling.in_box:
        text += (
            f"; in the box: {ruling.in_box.name} "
            f'(--use "{ruling.part}={ruling.in_box.item}" where it is tied)'
        )
    say_folded(text.rstrip(".") + ".")


def show_overhead_lines(caution: str) -> None:
    """Print the caution for power lines, where they are noted."""
    if caution:
        say_folded(f"OVERHEAD LINES NEARBY. {caution}")


def show_comes_first(words: str) -> None:
    """Say what always comes first."""
    say_folded(f"{words[0].upper()}{words[1:]}.")
