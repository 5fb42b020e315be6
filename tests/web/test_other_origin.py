"""A page of another origin, in the very browser that is let in: it can neither read nor write."""

import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING

from tacklebox.desk import adding, stock
from tests.web.conftest import Served

if TYPE_CHECKING:
    from playwright.sync_api import Page

# All that a page can try by itself: asked for with and without the cookies, embedded, sent as a form.
EVIL = """<!doctype html><title>evil</title><script>
window.found = [];
const at = "%(bench)s";
(async () => {
  for (const [path, how] of [
    ["/stock", {credentials: "include"}], ["/care/export.zip", {credentials: "include"}],
    ["/state", {}], ["/stock", {credentials: "include", mode: "no-cors"}],
    ["/stock", {method: "POST", credentials: "include", mode: "no-cors",
      body: new URLSearchParams({words: "hook 20 pack 10"})}],
    ["/stock/1/take", {method: "POST", credentials: "include", mode: "no-cors",
      body: new URLSearchParams({amount: "5"})}],
  ]) {
    try { window.found.push(await (await fetch(at + path, how)).text()); }
    catch (refused) { window.found.push(""); }
  }
  const frame = document.createElement("iframe");
  frame.src = at + "/stock";
  frame.onload = () => {
    try { window.found.push(frame.contentDocument ? frame.contentDocument.body.innerText : ""); }
    catch (refused) { window.found.push(""); }
    const script = document.createElement("script");
    script.src = at + "/static/bench.js";
    script.onload = () => { window.found.push("script ran"); window.done = true; };
    script.onerror = () => { window.found.push(""); window.done = true; };
    document.body.append(script);
  };
  document.body.append(frame);
})();
</script><body></body>"""
FORM = """<!doctype html><form id="f" method="post" action="%(bench)s/stock/1/take">
<input name="amount" value="5"></form>"""


def test_a_page_elsewhere_reads_and_writes_nothing(page: "Page", served: Served) -> None:
    adding.add(served.desk, "hook 18 barbless spade pack 10")
    asked = []

    class Elsewhere(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            body = (
                (FORM if "form" in self.path else EVIL) % {"bench": served.door.origin}
            ).encode()
            self.send_response(200)
            self.send_header("content-type", "text/html")
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_: object) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Elsewhere)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        evil = page.context.new_page()
        evil.goto(f"http://127.0.0.1:{server.server_port}/")
        evil.wait_for_function("window.done")
        assert evil.evaluate("window.found") == [""] * 8
        evil.goto(f"http://127.0.0.1:{server.server_port}/form")
        evil.evaluate("document.getElementById('f').submit()")
        evil.locator("body", has_text="Only the bench's own pages may ask").wait_for()
        page.goto(served.address("/stock/1"))  # the bench itself goes on
        assert page.locator(".big").inner_text() == "10"
    finally:
        server.shutdown()
        server.server_close()
    assert asked
    assert [(row.number, row.on_hand.value) for row in stock.listed(served.desk).items] == [(1, 10)]
