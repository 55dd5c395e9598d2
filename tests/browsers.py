"""A real browser for tests: Chromium, driven by Playwright, and a page that can import our ES modules.

A test that asks for `module_page` is skipped with a plain reason where no Chromium is installed.
"""

import json
import os
import shutil
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer

import pytest

from fieldapp.places import folder

FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync"]


def chromium() -> str:
    """Path of a Chromium; skips the test where there is none."""
    found = os.environ.get("FIELDAPP_CHROMIUM") or next(
        filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if not found:
        pytest.skip("needs Chromium: install Debian's package 'chromium', or name one in FIELDAPP_CHROMIUM")
    return found


_driver = None


def driver():
    """The one Playwright driver of this process: its synchronous kind cannot be started twice in a thread."""
    global _driver
    if _driver is None:
        from playwright.sync_api import sync_playwright
        _driver = sync_playwright().start()
    return _driver


def stop_driver():
    """At the end of the run."""
    global _driver
    if _driver is not None:
        _driver.stop()
        _driver = None


def launch():
    """A new Chromium; skips the test where there is none."""
    return driver().chromium.launch(executable_path=chromium(), args=FLAGS)


class _Quiet(SimpleHTTPRequestHandler):
    extensions_map = {**SimpleHTTPRequestHandler.extensions_map, ".js": "text/javascript"}  # noqa: RUF012

    def log_message(self, *args):
        pass

    def do_GET(self):
        if self.path == "/":
            self.send_response(200)
            self.send_header("Content-Type", "text/html; charset=utf-8")
            self.end_headers()
            self.wfile.write(b"<!doctype html><title>modules</title>")
        else:
            super().do_GET()


class ModulePage:
    """A blank page of a server that serves static/; `call` runs a module's exported function over many cases."""

    def __init__(self, page, origin):
        self.page, self.origin = page, origin

    def call(self, module, function, cases):
        """[function(*case) for case in cases] in the browser; a thrown error comes back as {"threw": message}."""
        script = """async ([module, name, cases]) => {
            const f = (await import(module))[name];
            if (typeof f !== 'function') throw new Error(`${module} exports no function ${name}`);
            return JSON.stringify(cases.map(args => {
                try { return f(...args) ?? null; } catch (e) { return {threw: String(e.message)}; }
            }));
        }"""
        return json.loads(self.page.evaluate(script, [f"{self.origin}/{module}", function, cases]))


@pytest.fixture(scope="session")
def module_page():
    browser = launch()
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder("static"))))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    origin = f"http://127.0.0.1:{server.server_address[1]}"
    page = browser.new_page()
    page.goto(origin + "/")
    yield ModulePage(page, origin)
    browser.close()
    server.shutdown()
    server.server_close()
