"""A proxy between phone and server that fails on purpose, one fault at a time."""

import json
import threading
import time
from http.client import HTTPConnection
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import urlsplit

PORTAL = b"<!doctype html><title>Guest network</title><p>Accept the terms of this network first."
NOT_PASSED_ON = {"connection", "keep-alive", "transfer-encoding", "accept-encoding"}


class FaultProxy:
    """Passes calls on until `fault` is set. `seen` lists (method, path, body as JSON or None, fault).

    Faults, for paths under /api/ that start with `on`: `drop` (never reaches the server), `cut` (the server has done
    it, the reply is lost), `portal` (200 with a page), `slow_down` (429 with Retry-After), `stall` (no answer for
    `stall_s` seconds), a status number with a problem body, or what is asked for one of these by the call's body.
    """

    def __init__(self, target):
        self.target = urlsplit(target)
        self.fault, self.on, self.times, self.stall_s = None, "/api/", None, 12
        self.seen = []
        self.server = ThreadingHTTPServer(("127.0.0.1", 0), self._handler())
        self.server.daemon_threads = True
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        self.address = f"http://127.0.0.1:{self.server.server_address[1]}"

    def set(self, fault, on="/api/", times=None):
        """From now on: `fault` (None: none) on paths that start with `on`, `times` times (None: for good)."""
        self.fault, self.on, self.times = fault, on, times

    def take(self, path):
        """The fault for a call of `path`, counted down."""
        if self.fault is None or not path.startswith(self.on):
            return None
        fault = self.fault
        if self.times is not None:
            self.times -= 1
            if self.times <= 0:
                self.fault = None
        return fault

    def sent(self, path="/api/sync"):
        """Bodies of the calls of `path` that reached the proxy."""
        return [body for _, where, body, _ in self.seen if where == path and body is not None]

    def close(self):
        self.server.shutdown()
        self.server.server_close()

    def forward(self, method, path, headers, body):
        connection = HTTPConnection(self.target.hostname, self.target.port, timeout=30)
        try:
            passed = {k: v for k, v in headers.items() if k.lower() not in NOT_PASSED_ON}
            connection.request(method, path, body, passed)
            answer = connection.getresponse()
            return answer.status, answer.getheaders(), answer.read()
        finally:
            connection.close()

    def _handler(proxy):  # noqa: N805 - the handler's own self is the request
        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def log_message(self, *args):
                pass

            def answer(self, status, headers, body):
                self.send_response(status)
                for name, value in headers:
                    if name.lower() not in NOT_PASSED_ON | {"content-length", "date", "server"}:
                        self.send_header(name, value)
                if status not in (204, 304):
                    self.send_header("Content-Length", str(len(body)))
                self.end_headers()
                if self.command != "HEAD" and status not in (204, 304):
                    self.wfile.write(body)

            def handle_call(self):
                body = self.rfile.read(int(self.headers.get("Content-Length") or 0))
                fault = proxy.take(self.path)
                told = json.loads(body) if body.startswith(b"{") else None
                if callable(fault):
                    fault = fault(told)
                proxy.seen.append((self.command, self.path.split("?")[0], told, fault))
                if fault == "drop":
                    self.close_connection = True
                elif fault == "portal":
                    self.answer(200, [("Content-Type", "text/html")], PORTAL)
                elif fault == "slow_down":
                    self.answer(429, [*OURS, ("Retry-After", "2")], problem(429, "slow_down", "later"))
                elif isinstance(fault, int):
                    self.answer(fault, OURS, problem(fault, "sign_in" if fault == 401 else "not_now", "later"))
                elif fault == "stall":
                    time.sleep(proxy.stall_s)
                    self.close_connection = True
                else:
                    self.pass_on(body, cut=fault == "cut")

            def pass_on(self, body, cut):
                try:
                    result = proxy.forward(self.command, self.path, self.headers, body)
                except OSError:  # the server is gone: so is the line
                    cut = True
                if cut:
                    self.close_connection = True
                else:
                    self.answer(*result)

            def __getattr__(self, name):  # do_GET, do_POST …: one way for all
                if name.startswith("do_"):
                    return self.handle_call
                raise AttributeError(name)

        return Handler


OURS = [("Content-Type", "application/problem+json"), ("Fieldapp-Api", "1"), ("Fieldapp-Shell", "x"),
        ("Cache-Control", "no-store")]


def problem(status, kind, retry):
    body = {"type": f"urn:fieldapp:{kind}", "title": kind, "status": status, "detail": kind, "retry": retry}
    return json.dumps(body).encode()
