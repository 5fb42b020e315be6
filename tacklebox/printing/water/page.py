"""The page for the water: one file with all that it needs, which asks nothing of any network.

Its script and style are let in by their hashes and nothing else is: what stands in a venue's rules or
a rig's name is words, whatever it looks like.
"""

import hashlib
import json
from base64 import b64encode
from dataclasses import asdict
from datetime import date
from pathlib import Path

from tacklebox.matches.water.sheet import WaterSheet
from tacklebox.matches.water.signs import BASIS
from tacklebox.outputs import WATER_MARK, WATER_PAGE, Target, write_aside
from tacklebox.signs import all_written_out, written_out
from tacklebox.stock.dates import write_day

HERE = Path(__file__).parent
DAY_FIELDS = (
    ("peg", "Peg"),
    ("section", "Section"),
    ("draw", "Draw"),
    ("wind", "Wind"),
    ("depth", "Depth"),
    ("water", "Water's temperature"),
    ("bait", "Bait"),
    ("weighed", "Weighed in"),
    ("place", "Place"),
    ("points", "Points"),
)


def water_page(sheet: WaterSheet) -> bytes:
    """The page as HTML."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    css, script = ((HERE / name).read_text(encoding="utf-8") for name in ("page.css", "page.js"))
    policy = (
        f"default-src 'none'; style-src {_hash(css)}; script-src {_hash(script)}; "
        "base-uri 'none'; form-action 'none'"
    )
    pages = Environment(
        loader=FileSystemLoader(HERE), autoescape=True, undefined=StrictUndefined, trim_blocks=True
    )
    facts = json.dumps(all_written_out(asdict(sheet)), ensure_ascii=False).replace("<", "\\u003c")
    words = pages.get_template("page.html").render(
        sheet=sheet,
        day=write_day(date.fromisoformat(sheet.on)),
        basis=BASIS,
        day_fields=DAY_FIELDS,
        policy=policy,
        mark=Markup(WATER_MARK),
        css=Markup(css),
        script=Markup(script),
        facts=Markup(facts),
    )
    return written_out(words).encode()


def write_water_page(sheet: WaterSheet, to: Target, *, overwrite: bool = False) -> int:
    """Write the page to a file or stream; returns its size in bytes.

    Raises AskedWronglyError for a file that is there already, unless ``overwrite``, and
    CannotBeDoneError where it cannot be written.
    """
    page = water_page(sheet)
    with write_aside(to, WATER_PAGE, overwrite=overwrite) as file:
        file.write(page)
    return len(page)


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"
