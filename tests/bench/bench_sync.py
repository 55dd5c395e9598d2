"""A sync call of 500 entries over HTTP against the same rows inserted by plain sqlite3 in one transaction.

Same file system, same settings (WAL, foreign keys, synchronous FULL), same tables. Prints the ratio; target: at
most 12.
Run: python tests/bench/bench_sync.py
"""

import http.client
import json
import sqlite3
import statistics
import sys
import tempfile
import threading
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from waitress.server import create_server
from yard import FROM_HERE, make

ENTRIES, ROUNDS, TARGET = 500, 15, 12


class Phone:
    """A kept connection that sends calls of 500."""

    def __init__(self, yard, port):
        self.client = yard.client("lena")
        token = next(iter(self.client.http._cookies.values())).value
        self.connection = http.client.HTTPConnection("127.0.0.1", port)
        self.headers = {**FROM_HERE, "Content-Type": "application/json", "Cookie": f"session={token}"}

    def call(self):
        """Seconds of one call."""
        value = {"text": "88 5/8 in", "nm": 2251075000}
        entries = [self.client.entry("reading", value, field="gap") for _ in range(ENTRIES)]
        body = json.dumps({"device": self.client.device, "entries": entries, "units": {}})
        start = time.perf_counter()
        self.connection.request("POST", "/api/sync", body, self.headers)
        answer = json.loads(self.connection.getresponse().read())
        took = time.perf_counter() - start
        assert {r["answer"] for r in answer["results"]} == {"kept"}
        return took


class Plain:
    """The same tables in a file of its own, written by sqlite3 alone."""

    def __init__(self, yard, folder):
        self.source = sqlite3.connect(yard.site / "fieldapp.sqlite3")
        self.to = sqlite3.connect(Path(folder) / "plain.sqlite3", isolation_level=None)
        for pragma in ("journal_mode=WAL", "synchronous=FULL"):
            self.to.execute(f"PRAGMA {pragma}")
        for (sql,) in self.source.execute("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL").fetchall():
            self.to.execute(sql)
        for name in ("crew", "job", "unit"):
            rows = self.source.execute(f"SELECT * FROM {name}").fetchall()
            self.to.executemany(f"INSERT INTO {name} VALUES ({','.join('?' * len(rows[0]))})", rows)
        self.to.execute("PRAGMA foreign_keys=ON")

    def call(self):
        """Seconds of inserting the newest 500 rows of the site."""
        rows = self.source.execute(
            "SELECT unit_id, seq, id, kind, person_id, standing, received, body FROM entry ORDER BY seq DESC LIMIT ?",
            (ENTRIES,),
        ).fetchall()[::-1]
        start = time.perf_counter()
        self.to.execute("BEGIN IMMEDIATE")
        self.to.executemany(
            "INSERT INTO entry (unit_id, seq, id, kind, person_id, standing, received, body) VALUES (?,?,?,?,?,?,?,?)",
            rows,
        )
        self.to.execute("COMMIT")
        return time.perf_counter() - start

    def close(self):
        self.source.close()
        self.to.close()


def main():
    with tempfile.TemporaryDirectory() as folder:
        yard = make(Path(folder) / "site")
        server = create_server(yard.app, host="127.0.0.1", port=0)
        threading.Thread(target=server.run, daemon=True).start()
        phone, plain, pairs = Phone(yard, server.effective_port), Plain(yard, folder), []
        for _ in range(ROUNDS + 1):  # by turns, so that a busy machine is as busy for both
            pairs.append((phone.call(), plain.call()))
            time.sleep(0.3)  # the fold comes after the answer, and is not what is measured
        plain.close()
    ours, theirs = zip(*pairs[1:], strict=True)
    ratio = statistics.median(o / t for o, t in pairs[1:])
    print(
        f"sync of {ENTRIES}: median {statistics.median(ours) * 1000:.1f} ms (best {min(ours) * 1000:.1f}); plain "
        f"sqlite3: {statistics.median(theirs) * 1000:.1f} ms (best {min(theirs) * 1000:.1f}); ratio {ratio:.1f} "
        f"(of the bests {min(ours) / min(theirs):.1f}), target at most {TARGET}"
    )


if __name__ == "__main__":
    main()
