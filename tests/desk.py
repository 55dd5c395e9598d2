"""The demo's site answered by the application itself, for tests of what the supervisor sees in a real browser."""

import re
import unicodedata
import zlib
from contextlib import contextmanager
from urllib.parse import urlsplit

from browsers import launch

from fieldapp import settings
from fieldapp.site import demo
from fieldapp.web.app import create_app

HOME = "http://127.0.0.1:8000"


class Desk:
    """`units`: ids by (job, number); `show(path)`: a page of the office as `name` sees it, without a server."""

    def __init__(self, folder, browser):
        self.app = create_app(folder, settings.load(folder))
        self.units = demo.seed(self.app).units
        self.browser, self.clients, self.pages = browser, {}, []

    def client(self, name="ruth"):
        if name not in self.clients:
            self.clients[name] = client = self.app.test_client()
            password = next(one["password"] for one in demo.people() if one["name"] == name)
            form = {"name": name, "password": password}
            answer = client.post("/sign-in", data=form, headers={"Sec-Fetch-Site": "same-origin"})
            assert answer.status_code == 303, answer.get_data(as_text=True)
        return self.clients[name]

    def show(self, path, name="ruth", width=1280, height=800, **more):
        page = self.browser.new_page(viewport={"width": width, "height": height}, **more)
        self.pages.append(page)

        def answer(route):
            asked = route.request
            parts = urlsplit(asked.url)
            got = self.client(name).open(
                f"{parts.path}?{parts.query}",
                method=asked.method,
                data=asked.post_data_buffer,
                headers={**asked.headers, "Sec-Fetch-Site": "same-origin"},
            )
            route.fulfill(status=got.status_code, headers=dict(got.headers), body=got.get_data())

        page.route("**/*", answer)
        page.goto(HOME + path)
        return page

    def record(self, job, number, **more):
        return self.show(f"/office/units/{self.units[job, number]}", **more)


@contextmanager
def opened(folder):
    browser = launch()
    try:
        yield Desk(folder, browser)
    finally:
        browser.close()


def paper_pages(pdf):
    """The words on each page of a PDF as Chromium writes it, without white space, in the order of painting."""
    objects = {int(number): body for number, body in re.findall(rb"(\d+) 0 obj\s*(.*?)\nendobj", pdf, re.DOTALL)}
    return [_words(objects, body) for body in objects.values() if re.search(rb"/Type /Page\b", body)]


def plain(text):
    """Without white space, ligatures and such taken apart (Unicode NFKC)."""
    return re.sub(r"\s+", "", unicodedata.normalize("NFKC", text))


def _unpacked(body):
    packed = re.search(rb"stream\r?\n(.*)\nendstream", body, re.DOTALL)[1]
    return zlib.decompressobj().decompress(packed).decode("latin-1")  # the line's end before endstream is left over


def _letters(objects, font):
    """{glyph: letters} from a font's ToUnicode map (ISO 32000-1, 9.10.3)."""
    table = _unpacked(objects[int(re.search(rb"/ToUnicode (\d+)", objects[font])[1])])
    found = {}
    for part in re.findall(r"beginbfchar(.*?)endbfchar", table, re.DOTALL):
        for glyph, text in re.findall(r"<(\w+)> <(\w+)>", part):
            found[int(glyph, 16)] = bytes.fromhex(text).decode("utf-16-be")
    for part in re.findall(r"beginbfrange(.*?)endbfrange", table, re.DOTALL):
        for first, last, text in re.findall(r"<(\w+)> <(\w+)> <(\w+)>", part):
            for glyph in range(int(first, 16), int(last, 16) + 1):
                found[glyph] = chr(int(text, 16) + glyph - int(first, 16))
    return found


def _words(objects, page):
    fonts = {name.decode(): _letters(objects, int(at)) for name, at in re.findall(rb"/(F\d+) (\d+) 0 R", page)}
    now, told = {}, []
    for name, glyphs in re.findall(r"/(F\d+) [\d.]+ Tf|<([0-9A-F]+)> Tj",
                                   _unpacked(objects[int(re.search(rb"/Contents (\d+)", page)[1])])):
        now = fonts[name] if name else now
        told += [now.get(int(glyphs[at:at + 4], 16), "?") for at in range(0, len(glyphs), 4)]
    return plain("".join(told))
