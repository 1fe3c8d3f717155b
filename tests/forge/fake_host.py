"""A made-up host of the repository, as far as the comment workflow speaks to it: pull requests, artifacts, comments, in pages."""

from __future__ import annotations

import json
import re
import threading
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs, urlsplit

REPOSITORY = "wrenfield/reference"
BOT = {"login": "github-actions[bot]", "type": "Bot"}


@dataclass
class Host:
    """What the host holds, and every request that it was sent as (method, path)."""

    pulls: list[dict] = field(default_factory=list)
    artifacts: dict[int, list[dict]] = field(default_factory=dict)
    comments: dict[int, list[dict]] = field(default_factory=dict)
    asked: list[tuple[str, str]] = field(default_factory=list)
    refuse_writing: bool = False

    @property
    def written(self) -> list[tuple[str, str]]:
        return [entry for entry in self.asked if entry[0] != "GET"]

    def answer(self, method: str, address: str, sent) -> tuple[int, object]:
        """Status and JSON of the answer; an unknown route is 404, a request the host would refuse 4xx."""
        parts = urlsplit(address)
        query = {key: values[0] for key, values in parse_qs(parts.query).items()}
        self.asked.append((method, parts.path))
        route = parts.path.removeprefix(f"/repos/{REPOSITORY}")
        if method != "GET" and self.refuse_writing:
            return 403, {"message": "Resource not accessible by integration"}
        if (method, route) == ("GET", "/pulls"):
            found = [p for p in self.pulls if p["state"] == query.get("state", "open") and query.get("head") in (None, p["head"]["label"]) and query.get("base") in (None, p["base"]["ref"])]
            return 200, _page(found, query)
        if method == "GET" and (m := re.fullmatch(r"/actions/runs/(\d+)/artifacts", route)):
            found = [a for a in self.artifacts.get(int(m[1]), []) if query.get("name") in (None, a["name"])]
            return 200, {"total_count": len(found), "artifacts": _page(found, query)}
        if m := re.fullmatch(r"/issues/(\d+)/comments", route):
            comments = self.comments.setdefault(int(m[1]), [])
            if method == "GET":
                return 200, _page(comments, query)
            if method == "POST":
                return self._took(sent) or self._added(comments, sent)
        if method == "PATCH" and (m := re.fullmatch(r"/issues/comments/(\d+)", route)):
            comment = next((c for listed in self.comments.values() for c in listed if c["id"] == int(m[1])), None)
            if comment is None or comment["user"] != BOT:
                return 404, {"message": "Not Found"}
            return self._took(sent) or (comment.update(body=sent["body"]) or (200, comment))
        return 404, {"message": "Not Found"}

    def _took(self, sent):
        """The refusal of a body that is too long or no text, as the host gives it; None when it is taken."""
        if not isinstance(sent, dict) or set(sent) != {"body"} or not sent["body"] or len(sent["body"]) > 65_536:
            return 422, {"message": "Validation Failed"}
        return None

    def _added(self, comments, sent):
        comments.append({"id": 900 + sum(map(len, self.comments.values())), "user": BOT, "body": sent["body"]})
        return 201, comments[-1]


def _page(entries: list, query: dict) -> list:
    size, number = int(query.get("per_page", 30)), int(query.get("page", 1))
    return entries[(number - 1) * size : number * size]


@contextmanager
def serving(host: Host):
    """Serve the host on this machine; gives its address."""

    class Handler(BaseHTTPRequestHandler):
        def _do(self):
            length = int(self.headers.get("Content-Length") or 0)
            sent = json.loads(self.rfile.read(length)) if length else None
            status, answer = host.answer(self.command, self.path, sent)
            body = json.dumps(answer).encode()
            self.send_response(status)
            self.send_header("Content-Type", "application/json; charset=utf-8")
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        do_GET = do_POST = do_PATCH = do_DELETE = do_PUT = _do

        def log_message(self, *args):
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
