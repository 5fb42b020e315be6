"""Answers as pages: templates, what each page needs to know, faults in the words of a form."""

import hashlib
import json
import re
import secrets
import sys
import threading
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, ParamSpec, TypeVar
from urllib.parse import quote

import jinja2
from fastapi import Request
from fastapi.responses import HTMLResponse, JSONResponse, RedirectResponse, Response
from jinja2 import Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket
from markupsafe import Markup, escape

from tacklebox.desk import units
from tacklebox.desk.answers import Fault, write_day
from tacklebox.desk.own_files import FieldFaultsError
from tacklebox.errors import AlreadyDoneError, BenchError, ManyFaultsError, SeveralFitError
from tacklebox.signs import all_written_out, refuse_no_words, written_out
from tacklebox.web.entry import FIELD, KEY
from tacklebox.web.fault_words import LABELS, PAGES
from tacklebox.web.only_looked import only_looked

if TYPE_CHECKING:
    from tacklebox.desk import Desk
    from tacklebox.web.kept import KeptAnswers

P = ParamSpec("P")
T = TypeVar("T")
# What is another one each time a page is made, though it shows the same.
_NOT_SHOWN = re.compile(
    rf'<input type="hidden" name="(?:{FIELD}|{KEY})" value="[^"]*">|<!--beside-->.*?<!--/beside-->',
    re.DOTALL,
)
# Which of several things was meant: the number chosen, the field, the words that stand there.
MOST_WRITTEN = 100  # files that are known by the key of their form
_WRITING = threading.Lock()
MEANT, MEANT_IN, MEANT_FOR = "meant", "meant_in", "meant_for"
ROOMS = (
    ("/", "Bench"),
    ("/stock", "Stock"),
    ("/recipes", "Recipes"),
    ("/rigs", "Winder tray"),
    ("/wallet", "Wallet"),
    ("/reels", "Reels"),
    ("/labels", "Labels"),
    ("/matches", "Matches"),
    ("/care", "Care"),
)
WITHIN = {"/season": "/matches", "/venues": "/matches", "/phones": "/care"}  # of which room


TEMPLATES = Path(__file__).parent / "templates"
_READ_AS: dict[str, Any] = {"autoescape": True, "trim_blocks": True, "lstrip_blocks": True}


class _CompiledBeside(FileSystemBytecodeCache):
    """Templates as they were compiled, kept beside them as Python keeps its modules, where it may: the first
    pages are felt."""

    def __init__(self) -> None:
        super().__init__(str(TEMPLATES / "__pycache__"))

    def get_source_checksum(self, source: str) -> str:
        return super().get_source_checksum(f"{jinja2.__version__} {_READ_AS} {source}")

    def dump_bytecode(self, bucket: Bucket) -> None:
        if not sys.dont_write_bytecode:
            with suppress(OSError):
                Path(self.directory).mkdir(exist_ok=True)
                super().dump_bytecode(bucket)


@cache
def _templates() -> Environment:
    env = Environment(
        loader=FileSystemLoader(TEMPLATES),
        undefined=StrictUndefined,
        bytecode_cache=_CompiledBeside(),
        **_READ_AS,
    )
    env.filters["in_address"] = lambda text: quote(str(text), safe="")
    # What begins a sentence; the filter that there is would make the rest of it small.
    env.filters["begun"] = lambda text: str(text)[:1].upper() + str(text)[1:]
    env.filters["as_id"] = lambda field: _NO_ID.sub("-", str(field))
    env.filters["drawn"] = _drawn
    env.filters["day"] = write_day
    env.filters["dated"] = partial(write_day, with_year=True, short=True)
    env.filters["nearly"], env.filters["between"] = units.nearly, units.between
    env.globals |= {"small": units.small, "far": units.far}
    return env


@dataclass(frozen=True)
class Shown:
    """What every page has: the desk, the form token, where we are."""

    desk: "Desk"
    token: str
    path: str
    kept: "KeptAnswers"
    is_read: bool  # not what a form was answered with
    apart: tuple[str, ...] = ()  # rooms that whoever asks may not look at
    may: str = ""  # what is done from here where not all is, in words
    lets: "Callable[[str, str], bool]" = lambda method, path: bool(method and path)
    forms: dict[str, Any] = field(default_factory=dict)  # that are being filled in, by their mark
    key: str = ""  # of the form that was sent
    written: dict[str, str] = field(default_factory=dict)  # files, by the key of the form

    def ask(self, question: "Callable[P, T]", *args: P.args, **kwargs: P.kwargs) -> T:
        """What the desk answers, kept until the box changes; for pages that only show."""
        return self.kept.answer(question, *args, **kwargs)

    def ready(self, question: "Callable[P, T]", *args: P.args, **kwargs: P.kwargs) -> T | None:
        """What the desk answers, or None while that is made beside."""
        return self.kept.ready(question, *args, **kwargs)

    def at_hand(self, question: "Callable[P, T]", *args: P.args, **kwargs: P.kwargs) -> T | None:
        """What the desk answers, or None where that is still to be made; nothing is begun."""
        return self.kept.at_hand(question, *args, **kwargs)

    def render(self, template: str, values: Mapping[str, Any]) -> str:
        """The page as text."""
        at = next((room for path, room in WITHIN.items() if self.path.startswith(path)), self.path)
        room = max((r for r, _ in ROOMS if at.startswith(r)), key=len, default="/")
        known = {
            "rooms": [one for one in ROOMS if not one[0].startswith(self.apart or ("-",))],
            "may": self.may,
            "room": room,
            "form_field": FIELD,
            "form_token": self.token,
            "key_field": KEY,
            "new_key": _new_key,
            "state": "",
            "again": "",
        }
        text = written_out(_templates().get_template(template).render(known | dict(values)))
        return only_looked(text, self.lets, self.path) if self.apart else text

    def render_kept_up(self, template: str, values: Mapping[str, Any]) -> str:
        """The page as text, with the marks by which it tells that what it shows was changed since."""
        from tacklebox.desk.changes import state_with_bags

        now = ""
        with suppress(BenchError):  # of a box that cannot be read; the page says so
            now = state_with_bags(self.desk)
        text = self.render(template, {"state": now, **values})
        if not self.is_read or "<main" not in text:
            return text
        shows = hashlib.sha256(_NOT_SHOWN.sub("", text.partition("<main")[2]).encode()).hexdigest()
        return text.replace('data-shows=""', f'data-shows="{shows[:20]}"', 1)

    def word(self, error: BenchError | Fault) -> str:
        """The fault in one line, without the name of the field that it stands beside."""
        if isinstance(error, ManyFaultsError):
            lines = [f if isinstance(f, str) else self.word(f) for f in error.faults]
            return "\n".join([error.heading, *lines])
        start = f"{error.where}: " if error.where else ""
        return start + " ".join(p for p in (error.what, error.right, self.help(error.see)) if p)

    def refused(self, error: BenchError) -> str:
        """The fault that a form was refused with. Raises AlreadyDoneError where the same form came before,
        and was done."""
        from tacklebox.desk.changes import refuse_done

        if self.key and not isinstance(error, AlreadyDoneError):
            try:
                refuse_done(self.desk)
            except AlreadyDoneError as done:
                error = done
            except BenchError:
                pass  # of a box that cannot be read the first fault tells
        if isinstance(error, AlreadyDoneError):
            raise error
        return self.word(error)

    def once(self, write: Callable[[], str]) -> str:
        """The name of the file that a form writes: written once, however often the form is sent."""
        with _WRITING:
            if self.key not in self.written:
                name = write()
                if not self.key:
                    return name
                self.written[self.key] = name
                for old in list(self.written)[:-MOST_WRITTEN]:
                    del self.written[old]
            return self.written[self.key]

    @staticmethod
    def help(see: str) -> str:
        """What a question of the desk is asked by here, as a sentence."""
        question, _, words = see.partition(" ")
        return PAGES[question].format(words) if question in PAGES else ""


def shown_for(request: Request) -> Shown:
    """What the page of this request has."""
    session = request.state.session
    door = request.app.state.door
    token = door.form_token(session) if session else ""
    desk, key = request.app.state.desk, getattr(request.state, "key", "")
    kept = request.app.state.kept
    return Shown(
        desk.keyed(key) if key else desk,
        token,
        request.url.path,
        kept,
        request.method == "GET",
        door.apart,
        door.may,
        door.lets,
        request.app.state.forms,
        key,
        request.app.state.written,
    )


def _new_key() -> str:
    return secrets.token_hex(12)


def page(shown: Shown, template: str, values: Mapping[str, Any], status: int = 200) -> HTMLResponse:
    """A page of the template."""
    text = shown.render_kept_up(template, values)
    filled = values.get("filled", EMPTY)
    faults = {**filled.faults, **values.get("beside", {})}
    first = {filled.at: next(iter(filled.faults.values()))} if filled.at else {}
    for name, words in {**first, **faults}.items():
        text = _beside(text, name, words)
    if faults:
        text = _with_every_fault(text, faults)
    return HTMLResponse(text, status_code=status)


# How an input is called for what is asked by several, by the first word of the field.
_INPUTS = {
    "set": "choose-{}",
    "tackle_lost": "tackle-{}",
    "worn_out_tackle": "worn-{}",
    "age": "age-{}",
    "wanted": "count",
}


def input_of(field: str) -> str:
    """The name or id of the input that a field of the desk is asked by."""
    head, dot, rest = field.partition(".")
    return _INPUTS[head].format(rest) if dot and head in _INPUTS else field


def _beside(text: str, field: str, words: str) -> str:
    """The page with the fault beside the field of it, as the name or id of its input, where no template
    put it there."""
    name = input_of(field)
    said = f"✗ {escape(written_out(words))}</span>"
    if not name or said in text:
        return text
    asks = re.compile(
        r'<p class="field(?P<kind>[^"]*)">(?P<start>(?:(?!</p>).)*?<(?:input|select|textarea) [^>]*?)'
        rf'(?P<it>\b(?:name|id)="{re.escape(str(escape(name)))}")(?P<end>(?:(?!</p>).)*)</p>',
        re.DOTALL,
    )
    return asks.sub(
        lambda found: (
            f'<p class="field{found["kind"]} wrong">{found["start"]}{found["it"]} aria-invalid="true"'
            f'{found["end"]}<span class="fault" role="alert">{said}</p>'
        ),
        text,
        count=1,
    )


def _with_every_fault(text: str, faults: Mapping[str, str]) -> str:
    """The page with those faults at its head that stand beside no field of it: a box that is in use,
    what nobody asked for by name."""
    shown = text.partition("<main")[2]
    heading, end, rest = text.partition("</h1>")
    lost = [one for one in faults.values() if str(escape(written_out(one))) not in shown]
    told = "".join(f'<p class="fault lines" role="alert">✗ {escape(one)}</p>' for one in lost)
    return heading + end + written_out(told) + rest if end else text


_NO_ID = re.compile(r"[^A-Za-z0-9]+")
_STYLE = re.compile(r' style="([^"]*)"')
_CLIP = re.compile(
    r"<title>.*?</desc>|<clipPath.*?</clipPath>|clip-path: url\(#clip\);?", re.DOTALL
)
_SIZE = re.compile(r' (?:width|height)="[^"]*"| id="group"')


def _drawn(svg: str, words: str) -> Markup:
    """A drawing as a part of a page, which allows no styles: they become attributes."""

    def attributes(style: re.Match[str]) -> str:
        pairs = (pair.partition(":") for pair in style[1].split(";") if ":" in pair)
        return "".join(f' {name.strip()}="{value.strip()}"' for name, _, value in pairs)

    whole = _CLIP.sub("", svg[svg.index("<svg") :])
    head, end, body = whole.partition(">")
    head = _SIZE.sub("", head).replace("<svg", f'<svg role="img" aria-label="{escape(words)}"', 1)
    return Markup(head + end + _STYLE.sub(attributes, body.replace(' id="group"', "", 1)))


def coming(shown: Shown, title: str, words: str, where: str) -> HTMLResponse:
    """A page while what it is to show is being made: it comes into it from ``where``."""
    return page(shown, "coming.html", {"title": title, "words": words, "where": where})


def svg(drawn: str) -> Response:
    """A drawing; what it needs beyond a page is its own lines' colours and widths."""
    policy = "default-src 'none'; style-src 'unsafe-inline'"
    drawn = written_out(drawn)
    return Response(drawn, media_type="image/svg+xml", headers={"Content-Security-Policy": policy})


def data(answer: Any, status: int = 200) -> JSONResponse:
    """What a script of a page shows."""
    return JSONResponse(all_written_out(answer), status)


def pdf(printed: bytes, name: str) -> Response:
    """A printed page, to be kept or sent to the printer."""
    return download(printed, name, "application/pdf")


def download(made: bytes, name: str, media_type: str) -> Response:
    """A file to be kept; the browser does not show it as one of our pages."""
    return Response(
        made,
        media_type=media_type,
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


def go(where: str) -> RedirectResponse:
    """After something was written: the page that shows it, so that a reload writes nothing."""
    return RedirectResponse(where, status_code=303)


def whole(text: str) -> int:
    """A number of packets or pieces; what is no number is none, which the desk refuses."""
    plain = text.strip()
    return int(plain) if plain.isascii() and plain.isdecimal() and len(plain) < 9 else 0


def label_of(field: str) -> str:
    """What a field is called on a form."""
    head, _, rest = field.partition(".")
    return rest or LABELS.get(head, head.replace("_", " "))


async def form_of(request: Request) -> dict[str, str]:
    """The form that was sent, once it is known to be ours. Raises a refusal otherwise.

    What is done for it from here on bears the form's key, so that a form sent twice is one action.
    """
    from starlette.exceptions import HTTPException

    form = await request.form(max_files=1, max_fields=2000)
    door = request.app.state.door
    if not door.is_form_token(request.state.session, str(form.get(FIELD, ""))):
        raise HTTPException(403, "This form is not of the bench that is open. Load the page again.")
    for name, value in form.multi_items():
        refuse_no_words(str(value), name)
        refuse_no_words(name)
    said = sorted((name, str(value)) for name, value in form.multi_items() if name != FIELD)
    if form.get(KEY):  # the same form with other words in it is another
        request.state.key = hashlib.sha256(
            json.dumps([request.url.path, said]).encode()
        ).hexdigest()
    filled = {n: v for n, v in form.items() if isinstance(v, str) and n not in (FIELD, KEY)}
    return _with_what_was_meant(filled)


def _with_what_was_meant(form: dict[str, str]) -> dict[str, str]:
    """The form with what was chosen in the place of words that fit several things."""
    chosen, field, said = form.pop(MEANT, ""), form.pop(MEANT_IN, ""), form.pop(MEANT_FOR, "")
    if chosen and said and said in form.get(field, ""):
        form[field] = form[field].replace(said, chosen, 1)
    return form


@dataclass
class Filled:
    """A form as it was filled in, with what is wrong beside each field; nothing typed is lost."""

    values: Mapping[str, str]
    faults: dict[str, str]
    several: SeveralFitError | None = None  # what is asked by its field
    at: str = ""  # the whole name of the field, of one of several that are asked alike

    def __getitem__(self, field: str) -> str:
        return self.values.get(field, "")

    def which(self, field: str) -> SeveralFitError | None:
        """What is asked of the field: which of several things its words mean."""
        asked = self.several
        return asked if asked and asked.field.partition(".")[0] == field else None


EMPTY = Filled({}, {})


async def refuse_hopeless(request: Request) -> None:
    """Raise AskedWronglyError for an address with words that nothing could read."""
    for words in (request.path_params, request.query_params):
        for name, said in words.items():
            refuse_no_words(str(said), name)
            refuse_no_words(name)


def try_form(
    shown: Shown, values: Mapping[str, str], do: Callable[[], Any]
) -> "tuple[Any, Filled | None]":
    """What was done, or the form with its fault beside the field."""
    try:
        return do(), None
    except FieldFaultsError as error:
        return None, Filled(values, error.by_field)
    except BenchError as error:
        several = error if isinstance(error, SeveralFitError) else None
        for fault in error.faults if isinstance(error, ManyFaultsError) else ():
            several = several or (fault if isinstance(fault, SeveralFitError) else None)
        words = several.what if several is error else shown.refused(error)
        if isinstance(error, ManyFaultsError) and not several:
            return None, Filled(values, _each_beside(shown, values, error))
        return None, Filled(values, {_name_in(values, error): words}, several, error.field)


def _name_in(values: Mapping[str, str], error: BenchError) -> str:
    """The field of a form that a fault lies in, "" where it lies in none."""
    name = input_of(error.field)
    return name if name in values else error.field.partition(".")[0]


def _each_beside(shown: Shown, values: Mapping[str, str], error: ManyFaultsError) -> dict[str, str]:
    """Several faults of one form by their fields; those that lie in none together, under their heading."""
    faults: dict[str, str] = {}
    others = [error.heading]
    for one in error.faults:
        name = _name_in(values, one) if isinstance(one, BenchError) else ""
        if name and name not in faults:
            faults[name] = shown.word(one) if isinstance(one, BenchError) else one
        else:
            others.append(shown.word(one) if isinstance(one, BenchError) else one)
    return {"": "\n".join(others), **faults}
