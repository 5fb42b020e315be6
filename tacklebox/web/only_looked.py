"""Pages for whoever may only look: nothing is sent that would be refused when it came back."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from html import escape
from html.parser import HTMLParser

VOID = frozenset("area base br col embed hr img input link meta source track wbr".split())
CONTROLS = frozenset(("button", "input", "select", "textarea", "fieldset", "datalist"))
OF_CONTROLS = frozenset(
    ("field", "tick")
)  # classes of what holds a control, its label and its hint
HEADS = frozenset(("h1", "h2", "h3", "summary", "legend", "label"))
HINT = "hint"
HOLDS = frozenset(("form", "section", "details", "div", "p", "ul", "li", "td", "span", "fieldset"))
SHOWN = frozenset(("img", "svg", "object", "input", "script", "button", "select", "textarea"))


@dataclass
class Element:
    """An element of a page as it was written; the page itself has no tag."""

    tag: str = ""
    start: str = ""
    end: str = ""
    known: dict[str, str] = field(default_factory=dict)
    parts: "list[Element | str]" = field(default_factory=list)

    def written(self) -> str:
        """The element as text."""
        inner = "".join(p if isinstance(p, str) else p.written() for p in self.parts)
        return f"{self.start}{inner}{self.end}"

    @property
    def classes(self) -> set[str]:
        return set(self.known.get("class", "").split())

    def elements(self) -> "Iterator[Element]":
        return (part for part in self.parts if isinstance(part, Element))


class _Reader(HTMLParser):
    """Reads a page so that it is written again sign for sign."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.page = Element()
        self.open = [self.page]

    def _add(self, part: "Element | str") -> None:
        self.open[-1].parts.append(part)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        made = Element(tag, self.get_starttag_text() or "", "", {n: v or "" for n, v in attrs})
        self._add(made)
        if tag not in VOID:
            self.open.append(made)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._add(Element(tag, self.get_starttag_text() or "", "", {n: v or "" for n, v in attrs}))

    def handle_endtag(self, tag: str) -> None:
        at = next((n for n in range(len(self.open) - 1, 0, -1) if self.open[n].tag == tag), 0)
        if not at:
            self._add(f"</{tag}>")
            return
        self.open[at].end = f"</{tag}>"
        del self.open[at:]

    def handle_data(self, data: str) -> None:
        self._add(data)

    def handle_entityref(self, name: str) -> None:
        self._add(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self._add(f"&#{name};")

    def handle_comment(self, data: str) -> None:
        self._add(f"<!--{data}-->")

    def handle_decl(self, decl: str) -> None:
        self._add(f"<!{decl}>")


def only_looked(text: str, lets: Callable[[str, str], bool], path: str) -> str:
    """A page, or a part of one, without forms, buttons and links that are refused: ``lets`` says of a method
    and a path whether they are let in, ``path`` is the page's own. What such a form shows besides stays;
    a heading under which nothing is left goes with it."""
    if not _may_be_refused(text, lets):
        return text
    reader = _Reader()
    reader.feed(text)
    reader.close()
    before = set(_names(reader.page))
    _without(reader.page, lets, path, is_refused=False)
    gone = before - set(_names(reader.page))
    if gone:
        known = {f"#{name}" for name in gone}
        _without(reader.page, lambda _, where: where not in known, path, is_refused=False)
    return reader.page.written()


_SENT = re.compile(r'action="([^"?#]*)|href="(/[^"?#]*)|<form(?![^>]*action=)')


def _may_be_refused(text: str, lets: Callable[[str, str], bool]) -> bool:
    """Whether the page has to be looked through at all; the debrief of a full tray has not."""
    asked = {
        ("POST", found[1]) if found[1] else ("GET", found[2] or "")
        for found in _SENT.finditer(text)
    }
    return any(not (path and lets(method, path)) for method, path in asked)


def _names(one: Element) -> Iterator[str]:
    """What a link can lead to within a page."""
    if name := one.known.get("id"):
        yield name
    for part in one.elements():
        yield from _names(part)


def _without(
    one: Element, lets: Callable[[str, str], bool], path: str, *, is_refused: bool
) -> bool:
    """Take out what is refused; returns whether anything was."""
    kept: list[Element | str] = []
    any_gone = False
    for part in one.parts:
        if isinstance(part, str):
            kept.append(part)
            continue
        refused = is_refused or (
            part.tag == "form"
            and part.known.get("method", "").lower() == "post"
            and not lets("POST", _path(part.known.get("action", "") or path))
        )
        if _is_control(part, refused) or _leads_nowhere(part, lets):
            any_gone = True
            continue
        gone = _without(part, lets, path, is_refused=refused)
        any_gone |= gone
        if gone and part.tag in HOLDS and not _shows(part):
            continue
        if part.tag == "form" and refused:
            classes = part.known.get("class", "")
            part.start, part.end = (
                f'<div class="{escape(classes)}">' if classes else "<div>",
                "</div>",
            )
        kept.append(part)
    one.parts = kept
    return any_gone


def _is_control(one: Element, refused: bool) -> bool:
    return refused and (one.tag in CONTROLS or bool(one.classes & OF_CONTROLS))


def _leads_nowhere(one: Element, lets: Callable[[str, str], bool]) -> bool:
    where = one.known.get("href", "")
    if one.tag == "a" and where.startswith(("/", "#")):
        return not lets("GET", _path(where) or where)
    return "formaction" in one.known and not lets("POST", _path(one.known["formaction"]))


def _path(address: str) -> str:
    return address.partition("#")[0].partition("?")[0]


def _shows(one: Element) -> bool:
    """Whether anything is left of it beside headings and hints."""
    for part in one.parts:
        if isinstance(part, str):
            if part.strip() and not part.startswith("<!"):
                return True
        elif part.tag in SHOWN or (
            part.tag not in HEADS and HINT not in part.classes and _shows(part)
        ):
            return True
    return False
