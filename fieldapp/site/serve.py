"""Serving an application with waitress: the port, the signals, and an end that lets calls finish."""

import json
import select
import signal
import socket
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from flask import Flask
from waitress import wasyncore
from waitress.channel import HTTPChannel
from waitress.server import create_server
from waitress.task import ErrorTask

_THREADS = 8
_GRACE_S = 4.0  # of the 5 s promised; Python itself takes a while to close down
# Above what any address takes, so that whoever sends somewhat too much is answered by the application.
_BODY_LIMIT = 32 << 20


class PortTaken(OSError):
    """Nobody can listen there; the text is one sentence."""


def listen(host: str, port: int, or_next: bool = False) -> socket.socket:
    """A listening socket; `or_next`: where the port is used, the next free one of the hundred after it.

    Raises PortTaken.
    """
    for candidate in range(port, min(port + 100, 65536) if or_next and port else port + 1):
        try:
            return _listen(host, candidate)
        except OSError as fault:
            last = fault
    raise PortTaken(f"port {port} of {host} cannot be used: {last.strerror or last}") from None


def _listen(host: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    sock = socket.socket(family, socket.SOCK_STREAM)
    try:
        if hasattr(socket, "SO_REUSEPORT"):  # elsewhere SO_REUSEADDR would let two listen
            sock.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        sock.bind((host, port))
        sock.listen(256)
    except BaseException:
        sock.close()
        raise
    return sock


class Stop:
    """Asked to end by SIGTERM or SIGINT. Made in the main thread, before the start report."""

    def __init__(self) -> None:
        self.asked = threading.Event()
        self.wake: Callable[[], None] = lambda: None
        for number in (signal.SIGTERM, signal.SIGINT):
            signal.signal(number, self._ask)

    @contextmanager
    def at_once(self) -> Iterator[None]:
        """Inside, being asked ends the process there and then, exit 0: for work that a later start begins anew."""

        def leave() -> None:
            raise SystemExit(0)

        self.wake = leave
        try:
            if self.asked.is_set():
                leave()
            yield
        finally:
            self.wake = lambda: None

    def _ask(self, _number: int, _frame: object) -> None:
        self.asked.set()
        self.wake()


def run(
    app: Flask, sock: socket.socket, stop: Stop, ready: Callable[[], None], headers: Mapping[str, str], proxies: int
) -> None:
    """Serve until asked to stop; then calls under way finish, within 5 s.

    ready: called once calls are taken; headers: of answers to requests that are no HTTP; proxies: how many trusted.
    """
    server: Any = create_server(
        app,
        sockets=[sock],
        threads=_THREADS,
        ident=None,
        max_request_body_size=_BODY_LIMIT,
        connection_limit=500,
        clear_untrusted_proxy_headers=proxies == 0,
        asyncore_use_poll=hasattr(select, "poll"),
    )
    server.channel_class = _channel(headers)
    stop.wake = server.pull_trigger
    ready()
    while not stop.asked.is_set():
        _turn(server)
    wasyncore.dispatcher.close(server)  # nobody new comes in
    end = time.monotonic() + _GRACE_S
    while time.monotonic() < end and any(map(_busy, list(server.active_channels.values()))):
        _turn(server, 0.05)
    server.task_dispatcher.shutdown(timeout=max(0.0, end - time.monotonic()))


def _turn(server: Any, seconds: float = 1.0) -> None:
    wasyncore.loop(timeout=seconds, map=server._map, use_poll=server.adj.asyncore_use_poll, count=1)


def _busy(channel: Any) -> bool:
    return bool(channel.requests or channel.request is not None or channel.total_outbufs_len)


def _channel(headers: Mapping[str, str]) -> type[HTTPChannel]:
    """A channel whose own refusals (no HTTP, over 32 MiB) have the one error shape."""

    class ProblemTask(ErrorTask):
        def execute(self) -> None:
            request: Any = self.request
            fault = request.error
            status = 503 if fault.code >= 500 else fault.code
            code = {413: "too_big", 503: "not_now"}.get(status, "bad_request")
            retry = "later" if status == 503 else "never"
            problem = {
                "type": f"urn:fieldapp:{code}",
                "title": fault.reason,
                "status": status,
                "detail": str(fault.body),
                "retry": retry,
            }
            body = json.dumps(problem).encode()
            more = {"Retry-After": "2"} if status == 503 else {}
            kind = {"Content-Type": "application/problem+json", "Connection": "close"}
            self.status = f"{status} {fault.reason}"
            self.content_length = len(body)
            self.response_headers = [*self.response_headers, *{**kind, **headers, **more}.items()]
            self.close_on_finish = True
            self.write(body)

    class Channel(HTTPChannel):
        error_task_class = ProblemTask

    return Channel
