"""Folding after the answer: in the thread that answered, or in one of its own where the server runs."""

import logging
import queue
import threading
from collections.abc import Iterable

from flask import Flask

from ..store import states

_log = logging.getLogger(__name__)


class Folding:
    """Call it with the units that have new entries. One not folded when the process ends is folded at its next read."""

    def __init__(self, app: Flask) -> None:
        self._app = app
        self._units: queue.SimpleQueue[str] | None = None

    def start(self) -> None:
        """From now on fold in a thread of its own, so that no answer's thread is held up."""
        self._units = queue.SimpleQueue()
        threading.Thread(target=self._work, args=(self._units,), name="fold", daemon=True).start()

    def __call__(self, unit_ids: Iterable[str]) -> None:
        if self._units is None:
            self._fold(unit_ids)
        else:
            for id in sorted(unit_ids):
                self._units.put(id)

    def _work(self, units: "queue.SimpleQueue[str]") -> None:
        while True:
            self._fold([units.get()])

    def _fold(self, unit_ids: Iterable[str]) -> None:
        try:
            with self._app.app_context():
                states.bring_up(unit_ids)
        except Exception:
            _log.exception("folding after an answer failed; the next read tries again")
