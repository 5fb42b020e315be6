"""Pages without what would be refused: the rest of them stays as it was, sign for sign."""

import pytest

from tacklebox.web.only_looked import only_looked

REFUSED = '<form method="post" action="/no">{}</form>'
FIELD = '<p class="field"><label for="a">A</label><input id="a"></p><p><button>Go</button></p>'


def lets(method: str, path: str) -> bool:
    return path != "/no" and not (method == "POST" and path == "/here")


def looked(text: str) -> str:
    return only_looked(text, lets, "/here")


@pytest.mark.parametrize(
    "text",
    [
        "<!doctype html>\n<p>a &amp; b &#39;c&#39; &nbsp; <br>d<BR/></p><!-- x --><svg><path d='M0'/></svg>",
        '<form method="post" action="/yes"><input><button>Go</button></form>',
        '<form method="get" action="/here"><input></form><a href="/yes">x</a><a href="#page">y</a>',
        "<section><h2>Empty from the first</h2></section>",
        "<p>unclosed<p>too</div><script>if (a < b && c) '<p>'</script>",
    ],
)
def test_what_is_let_in_stays_as_it_was_written(text: str) -> None:
    assert looked(text) == text


@pytest.mark.parametrize(
    ("text", "left"),
    [
        (REFUSED.format(FIELD), ""),
        (f"<section><h2>Buy</h2>{REFUSED.format(FIELD)}</section><p>x</p>", "<p>x</p>"),
        (f'<details><summary>Edit</summary><p class="hint">h</p>{REFUSED.format(FIELD)}</details>', ""),
        (f"<section><h2>Rows</h2><p>three</p>{REFUSED.format(FIELD)}</section>",
         "<section><h2>Rows</h2><p>three</p></section>"),
        (REFUSED.format('<ul><li>A01T <input type="checkbox"></li></ul><button>Go</button>'),
         "<div><ul><li>A01T </li></ul></div>"),
        ('<form class="x" method="post" action="/no"><b>k</b></form>', '<div class="x"><b>k</b></div>'),
        ('<form method="post"><input>k</form>', "<div>k</div>"),  # to its own page
        ('<form method="post" action="/yes"><button>a</button><button formaction="/no">b</button></form>',
         '<form method="post" action="/yes"><button>a</button></form>'),
        (f'<p><a href="#a">Add</a></p><p><a href="#b">x</a></p><div id="a">{REFUSED.format(FIELD)}</div>',
         '<p><a href="#b">x</a></p>'),
        ('<p><a href="/no">Care</a></p><p><a href="/no#x">Care</a> and more</p>', "<p> and more</p>"),
    ],
)  # fmt: skip
def test_what_would_be_refused_is_gone_with_its_heading(text: str, left: str) -> None:
    assert looked(text) == left
