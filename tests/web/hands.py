"""Two ways to use the pages: by mouse, and by keys alone, counted as he would count them."""

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

MOST_TABS = 120  # to what is wanted next on a page
FOCUSED = """() => {
  const one = document.activeElement;
  if (!one) return ["", "", ""];
  const label = one.labels && one.labels.length ? one.labels[0].innerText : "";
  const words = label || one.getAttribute("aria-label") || one.innerText || one.value || "";
  return [words.trim().replace(/\\s+/g, " "), one.tagName, one.type || ""];
}"""


class Hands(Protocol):
    """What he does on a page; ``strokes`` are clicks and keys."""

    strokes: int
    furthest: int  # Tabs from one thing to the next, the most

    def press(self, name: str) -> None:
        """A button or a link."""

    def fill(self, label: str, words: str) -> None:
        """A field, instead of what it holds."""

    def choose(self, label: str, words: str) -> None:
        """One of a list."""

    def tick(self, label: str) -> None:
        """A box or one of several."""


class Mouse:
    """Clicks where things are; only letters are typed."""

    def __init__(self, page: "Page") -> None:
        self.page, self.strokes, self.furthest = page, 0, 0

    def _click(self, found: "Locator") -> None:
        found.scroll_into_view_if_needed()
        box = found.bounding_box()
        assert box is not None
        self.page.mouse.click(box["x"] + min(box["width"], 60) / 2, box["y"] + box["height"] / 2)
        self.strokes += 1

    def press(self, name: str) -> None:
        buttons, links = (self.page.get_by_role(role, name=name) for role in ("button", "link"))
        self._click(buttons.or_(links).first)

    def fill(self, label: str, words: str) -> None:
        self._click(self.page.get_by_label(label).last)
        self.page.keyboard.press("Control+A")
        self.page.keyboard.type(words)
        self.strokes += len(words)

    def choose(self, label: str, words: str) -> None:
        self.page.get_by_label(label, exact=True).last.select_option(label=words)
        self.strokes += 2

    def tick(self, label: str) -> None:
        self._click(self.page.get_by_label(label).first)


class Keys:
    """Tab, Enter, Space and letters; nothing else reaches the page."""

    def __init__(self, page: "Page") -> None:
        self.page, self.strokes, self.furthest = page, 0, 0

    def _key(self, key: str) -> None:
        self.page.keyboard.press(key)
        self.strokes += 1

    def _type(self, words: str) -> None:
        self.page.keyboard.type(words)
        self.strokes += len(words)

    def _reach(self, name: str, kinds: tuple[str, ...]) -> None:
        """Go on with Tab to what bears that name; it may have the focus already."""
        passed = []
        for tabs in range(MOST_TABS):
            if tabs:
                self._key("Tab")
            words, tag, kind = self.page.evaluate(FOCUSED)
            if words.startswith(name) and (tag in kinds or kind in kinds):
                self.furthest = max(self.furthest, tabs)
                return
            passed.append(words[:20])
        raise AssertionError(f"no key reaches {name}: {passed}")

    def press(self, name: str) -> None:
        self._reach(name, ("BUTTON", "A"))
        self._key("Enter")

    def fill(self, label: str, words: str) -> None:
        self._reach(label, ("INPUT", "TEXTAREA"))
        self._key("Control+A")
        self._type(words)

    def choose(self, label: str, words: str) -> None:
        self._reach(label, ("SELECT",))
        self._type(words)

    def tick(self, label: str) -> None:
        self._reach(label, ("checkbox", "radio"))
        self._key("Space")
