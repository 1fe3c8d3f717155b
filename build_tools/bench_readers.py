"""Measuring what a reader waits for: pages of a built site in Chromium, with a slow processor and a slow mobile network, beside a plain page of the theme."""

from __future__ import annotations

import contextlib
import functools
import gzip
import http.server
import json
import statistics
import threading
from collections.abc import Iterator
from pathlib import Path

SLOWER = 4  # times slower than this machine
NETWORK = {"offline": False, "latency": 150, "downloadThroughput": 1.6e6 / 8, "uploadThroughput": 0.75e6 / 8}  # a slow mobile connection; bytes a second, milliseconds
TIMES = 3
SEEN = """
window.seen = { shift: 0, longest: 0, largest: 0, first: 0, events: [] };
const watch = (type, take, more = {}) => new PerformanceObserver((list) => list.getEntries().forEach(take)).observe({ type, buffered: true, ...more });
watch("layout-shift", (one) => { if (!one.hadRecentInput) window.seen.shift += one.value; });
watch("longtask", (one) => { window.seen.longest = Math.max(window.seen.longest, one.duration); });
watch("largest-contentful-paint", (one) => { window.seen.largest = one.startTime; });
watch("paint", (one) => { if (one.name === "first-contentful-paint") window.seen.first = one.startTime; });
"""
# From a key to the headline that is laid out, and to all of the answer.
ANSWERED = """async (field) => {
  const start = performance.now();
  field.value = field.value === "9" ? "8" : "9";
  field.dispatchEvent(new InputEvent("input", { bubbles: true }));
  document.body.getBoundingClientRect();
  const told = performance.now() - start;
  while (document.querySelector(".calculator-rest[aria-busy]")) await new Promise((done) => setTimeout(done));
  document.body.getBoundingClientRect();
  return [told, performance.now() - start];
}"""
TYPED = ".calculator-form :is([data-name=normal], [name=m7], [name=lastday], [name=temp1])"  # fields that take 8 and 9
ANSWERS = 9
TRACED = ["toplevel", "blink.user_timing"]  # no more than needed: tracing itself takes time
TASKS = ("RunTask", "ThreadControllerImpl::RunTask")


class _Zipped(http.server.SimpleHTTPRequestHandler):
    """Sends text gzipped, as the usual servers do."""

    protocol_version = "HTTP/1.1"

    def do_GET(self):
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if not path.is_file():
            self.send_error(404)
            return
        content = path.read_bytes()
        zipped = path.suffix in (".html", ".css", ".js", ".json", ".svg", ".webmanifest")
        content = gzip.compress(content, 6) if zipped else content
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(path)))
        if zipped:
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, format, *arguments):
        pass


@contextlib.contextmanager
def serving(folder: Path, handler: type[http.server.SimpleHTTPRequestHandler]) -> Iterator[str]:
    """Serve a folder on this machine only; yields the address, ending in a slash."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(handler, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}/"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def serve_zipped(folder: Path) -> contextlib.AbstractContextManager[str]:
    """The same, texts gzipped."""
    return serving(folder, _Zipped)


def longest_traced(trace: bytes, address: str) -> float:
    """Milliseconds of the longest task of the page at `address` on its main thread, from when its document begins.

    `trace` is what Chromium writes (Trace Event Format, a JSON object). Chromium's Long Tasks API tells nothing of a task that only styles, lays out and paints; a trace has it.
    Raises ValueError when the page was not opened while the trace was written.
    """
    events = json.loads(trace)["traceEvents"]
    frame = next((e["args"]["frame"] for e in events if e["name"] == "navigationStart" and e["args"]["data"]["documentLoaderURL"] == address), None)
    began = max((e for e in events if e["name"] == "domLoading" and e["args"]["frame"] == frame), key=lambda e: e["ts"], default=None)  # an empty document may come first
    if frame is None or began is None:
        raise ValueError(f"{address} is not in the trace: begin it before the page is opened")
    return max(e["dur"] / 1000 for e in events if e["name"] in TASKS and e["ph"] == "X" and (e["pid"], e["tid"]) == (began["pid"], began["tid"]) and e["ts"] >= began["ts"])


def visit(browser, address: str, slow: bool = True) -> dict[str, float]:
    """One first visit with nothing kept: milliseconds to the `first` and `largest` paint, layout `shift`, `bytes` and `requests` as sent.

    `longest` is the longest task over 50 ms that the Long Tasks API tells of, `drawn` the longest of all, drawing alone included. Of a calculator also the milliseconds until an answer is `told` and until the `whole` of it stands; both None elsewhere.
    """
    context = browser.new_context(viewport={"width": 360, "height": 740}, device_scale_factor=2, is_mobile=True, has_touch=True)
    page = context.new_page()
    client = context.new_cdp_session(page)
    sent = {"bytes": 0, "requests": 0}

    def arrived(event):
        sent["bytes"] += event["encodedDataLength"]
        sent["requests"] += 1

    client.on("Network.loadingFinished", arrived)
    client.send("Network.enable")
    client.send("Network.setCacheDisabled", {"cacheDisabled": True})
    if slow:
        client.send("Network.emulateNetworkConditions", NETWORK)
        client.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.add_init_script(SEEN)
    browser.start_tracing(page=page, categories=TRACED)
    page.goto(address, wait_until="load")
    page.wait_for_timeout(1500)
    drawn = longest_traced(browser.stop_tracing(), address)
    seen = page.evaluate("() => window.seen")
    field = page.locator(TYPED).first
    seen["told"] = seen["whole"] = None
    if field.count():
        answers = [field.evaluate(ANSWERED) for _ in range(ANSWERS)]
        seen["told"], seen["whole"] = (statistics.median(times) for times in zip(*answers, strict=True))
        seen["longest"] = page.evaluate("() => window.seen.longest")
    context.close()
    return {**seen, **sent, "drawn": drawn}


def readers(site: Path, plain: Path, plain_page: str, pages: list[str], row) -> None:
    """Print the table: the median of several visits of each page, and the ratio to a page of a plain site of the theme."""
    from tests.site.browser import shared_browser

    with contextlib.ExitStack() as stack:
        try:
            browser = stack.enter_context(shared_browser())
        except RuntimeError as error:
            print(f"Not measured in a browser: {error}")
            return
        print(f"First visits in Chromium, {SLOWER} × slower processor, {NETWORK['latency']} ms and {NETWORK['downloadThroughput'] * 8 / 1e6} Mbit/s; ms, medians of {TIMES}; ratio to the plain page.")
        row("page", "first paint", "largest paint", "longest task over 50 told to pages", "longest task, drawing included", "layout shift", "answer told", "all of it", "kB sent", "requests", "ratio of largest paint")
        row(*["---"] * 11)
        base, plain_base = stack.enter_context(serve_zipped(site)), stack.enter_context(serve_zipped(plain))
        theme = None
        for name, address in (("plain page of the theme", plain_base + plain_page), *((page or "home page", base + page) for page in pages)):
            visits = [visit(browser, address) for _ in range(TIMES)]
            middle = {key: statistics.median(v[key] for v in visits) if visits[0][key] is not None else None for key in visits[0] if key != "events"}
            theme = theme or middle
            told, whole = ("" if middle[key] is None else f"{middle[key]:.1f}" for key in ("told", "whole"))
            row(
                name, f"{middle['first']:.0f}", f"{middle['largest']:.0f}", f"{middle['longest']:.0f}", f"{middle['drawn']:.0f}", f"{middle['shift']:.3f}", told, whole,
                f"{middle['bytes'] / 1000:.0f}", f"{middle['requests']:.0f}", f"{middle['largest'] / theme['largest']:.2f}",
            )
