"""A real server process for tests: started by the command, spoken to over HTTP, ended or killed."""

import http.client
import json
import os
import signal
import subprocess
import sys
import threading
from contextlib import contextmanager
from pathlib import Path

COMMAND = str(Path(sys.executable).parent / "fieldapp")
FROM_HERE = {"Sec-Fetch-Site": "same-origin", "Fieldapp-Api": "1", "Content-Type": "application/json"}


def environment(**more):
    """This one without settings of ours."""
    return {k: v for k, v in os.environ.items() if not k.startswith("FIELDAPP_")} | more


def run(*words, **more):
    """The command to its end: (exit code, standard output, standard error)."""
    done = subprocess.run(
        [COMMAND, *map(str, words)], capture_output=True, text=True, env=environment(**more), timeout=120, check=False
    )
    return done.returncode, done.stdout, done.stderr


class Server:
    """A running `fieldapp serve` or `demo`."""

    def __init__(self, words, **more):
        self.process = subprocess.Popen(
            [COMMAND, *map(str, words), "--json"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=environment(**more),
        )
        self._log = []
        threading.Thread(target=self._read_log, daemon=True).start()
        line = self.process.stdout.readline()
        assert line, (self.process.wait(10), self._log)
        self.report = json.loads(line)
        self.port = int(self.report["address"].rpartition(":")[2])

    def _read_log(self):
        for line in self.process.stderr:
            self._log.append(line)

    @property
    def log(self):
        return "".join(self._log)

    def ask(self, method, path, body=None, cookie=None, timeout=30, **headers):
        """(status, headers, JSON body or bytes)."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=timeout)
        try:
            sent = json.dumps(body).encode() if isinstance(body, dict) else body
            connection.request(method, path, sent, {**FROM_HERE, **({"Cookie": cookie} if cookie else {}), **headers})
            answer = connection.getresponse()
            raw = answer.read()
            return (
                answer.status,
                dict(answer.headers),
                json.loads(raw) if "json" in answer.headers.get("Content-Type", "") else raw,
            )
        finally:
            connection.close()

    def sign_in(self, name, password):
        """The cookie of a new session."""
        status, headers, body = self.ask("POST", "/api/session", {"name": name, "password": password, "device": None})
        assert status == 200, body
        return headers["Set-Cookie"].partition(";")[0], body["person"]

    def end(self, how=signal.SIGTERM):
        """The exit code after a signal."""
        self.process.send_signal(how)
        try:
            return self.process.wait(15)
        finally:
            self.process.stdout.close()
            self.process.stderr.close()

    def kill(self):
        self.end(signal.SIGKILL)


@contextmanager
def server(*words, **more):
    """A server until the block ends."""
    found = Server(words, **more)
    try:
        yield found
    finally:
        if found.process.poll() is None:
            found.kill()
