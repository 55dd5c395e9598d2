"""A phone for browser tests: a window of 360 × 640 on a demo server behind a proxy that can fail."""

import json
from contextlib import contextmanager

import pytest
from browsers import launch
from faults import FaultProxy

SIZE = {"width": 360, "height": 640}
PATIENCE_MS = 60_000  # of a machine that has much else to do; only what fails waits so long

# The page's own modules, out of the files that a phone keeps: the very instances that it runs, with no network too.
MODULES = """const base = document.querySelector('script[type=module]').src.replace(/[^/]+$/, '');
const part = async (name) => {
  for (const kind of ['opening', 'working', 'rest']) {
    const file = await import(`${base}joined_${kind}.js`);
    if (`$${name}` in file) return file[`$${name}`];
  }
  throw new Error(`no file holds ${name}`);
};
const [store, entry, sync, outbox, db, session] = await Promise.all(
  ['store', 'entry', 'sync', 'outbox', 'db', 'session'].map(part));"""

# The screen under the address stands, not the one before it.
THERE = "() => document.body?.dataset.at === location.hash && !document.body.hasAttribute('aria-busy')"

MAKE = """const me = await store.session(); const device = await store.value('device');
const unit = (await store.units()).sort((a, b) => a.number.localeCompare(b.number))[0];
const note = (text) => entry.make('note', {text}, {unit: unit.id, packet: unit.packet},
  {person: me.id, device: device.id});"""


class Phone:
    """One person's phone: a browser profile of its own, and the proxy it reaches the server through."""

    def __init__(self, context, proxy, demo):
        self.context, self.proxy, self.demo = context, proxy, demo
        self.errors = []
        self.page = self.window()

    def window(self):
        page = self.context.new_page()
        page.on("pageerror", lambda error: self.errors.append(str(error)))
        page.set_default_timeout(PATIENCE_MS)
        return page

    def open(self, hash_="", page=None):
        page = page or self.page
        page.goto(f"{self.proxy.address}/{hash_}")
        page.wait_for_function(THERE)
        return page

    def shows(self, screen, page=None):
        (page or self.page).wait_for_selector(f"body[data-screen={screen}]")

    def sign_in(self, name, password=None):
        page = self.page
        self.shows("sign_in")
        page.fill("#name", name)
        page.fill("#password", password or self.demo.password(name))
        page.click("#key-action")

    def start(self, name="lena"):
        """Signed in, every unit's plan here, the pages kept by the worker."""
        self.open()
        self.sign_in(name)
        self.shows("open_unit")
        self.page.evaluate("navigator.serviceWorker.ready.then(() => null)")
        self.until("return sync.state().is === 'idle' && (await store.units()).length > 0")
        return self

    def run(self, body, *values, page=None):
        """`body` as an async function over the page's own modules; `values` are its `args`."""
        script = f"async (args) => {{ {MODULES} return JSON.stringify(await (async () => {{ {body} }})() ?? null); }}"
        return json.loads((page or self.page).evaluate(script, list(values)))

    def until(self, body, page=None, tries=300):
        """Waits until `body` gives something true, and gives it back."""
        for _ in range(tries):
            found = self.run(body, page=page)
            if found:
                return found
            (page or self.page).wait_for_timeout(100)
        raise AssertionError(f"never true: {body}; row A says {self.row_a(page)!r}")

    def row_a(self, page=None):
        return (page or self.page).inner_text(".row-a").replace("\n", " ")

    def keep(self, *texts, page=None):
        """Notes on the first unit, kept as a screen keeps them; their ids."""
        body = f"{MAKE} const kept = await store.keep(args[0].map(note)); return kept.map((e) => e.id);"
        return self.run(body, list(texts), page=page)

    def unsent(self, page=None):
        return self.run("return (await store.counts()).reduce((n, c) => n + c.waiting, 0)", page=page)


@contextmanager
def phones(demo):
    """Makes phones on `demo`, each with its proxy; all closed at the end."""
    browser = launch()
    made = []

    def new(**options):
        proxy = FaultProxy(demo.address)
        made.append(Phone(browser.new_context(viewport=SIZE, **options), proxy, demo))
        return made[-1]

    yield new
    browser.close()
    for phone in made:
        phone.proxy.close()


@pytest.fixture(scope="module")
def new_phone(demo):
    with phones(demo) as new:
        yield new
