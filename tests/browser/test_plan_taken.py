"""A plan changed in the office while a crew works: the phone says what changed, and takes the new one when told."""

import json
import re
import urllib.parse
import urllib.request
from http.cookiejar import CookieJar

import pytest

SAME = {"Sec-Fetch-Site": "same-origin"}


class Office:
    """The supervisor at a desk, by what a browser would send."""

    def __init__(self, demo):
        self.demo = demo
        self.http = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
        self.post("/sign-in", {"name": "ruth", "password": demo.password("ruth")})

    def post(self, path, form):
        asked = urllib.request.Request(self.demo.address + path, urllib.parse.urlencode(form).encode(), SAME)
        return self.http.open(asked).read().decode()

    def get(self, path):
        return self.http.open(self.demo.address + path).read().decode()

    def issues(self, unit, because, **changed):
        """The plan's page as it stands, some fields typed otherwise; looked at, then issued."""
        path = f"/office/units/{unit}/plan"
        page = self.get(path)
        form = dict(re.findall(r'<input id="[^"]*" name="([^"]*)"[^>]*? value="([^"]*)"', page))
        form |= dict(re.findall(r'<input type="checkbox"[^>]*name="([^"]*)" value="(yes)" checked', page))
        for name, options in re.findall(r'<select [^>]*name="([^"]*)"[^>]*>(.*?)</select>', page, re.DOTALL):
            form[name] = re.search(r'value="([^"]*)" selected', options)[1]
        form |= {name.replace("__", "."): text for name, text in changed.items()}
        looked = self.post(path, {**form, "do": "look"})
        seen = {name: re.search(rf'name="{name}" value="(\w+)"', looked)[1] for name in ("since", "looked")}
        return self.post(path, {**form, **seen, "do": "issue", "because": because})


@pytest.fixture(scope="module")
def lena(new_phone):
    phone = new_phone().start("lena")
    yield phone
    assert phone.errors == []


def test_a_new_plan_is_said_then_taken(lena, demo):
    [unit] = lena.run("""const all = await store.units();
        return all.filter((u) => u.number === '03' && u.job.name.startsWith('Saltmarsh')).map((u) => u.id)""")
    lena.run("await store.noteUnit(args[0], {seen: true})", unit)
    old = lena.run("""const me = await store.session(), device = await store.value('device');
        const unit = await store.unit(args[0]);
        await store.keep([entry.make('note', {text: 'begun'}, {unit: unit.id, packet: unit.packet},
          {person: me.id, device: device.id})]);
        await sync.sendNow(true); return unit.packet""", unit)
    lena.open(f"#unit/{unit}")
    lena.shows("unit")
    assert "in force" in Office(demo).issues(unit, "The maker sent a higher kit.", **{"head_kit__rise": "50.2"})
    lena.until(f"await sync.sendNow(true); return (await store.unit({json.dumps(unit)})).packet !== '{old}'")
    lena.open(f"#unit/{unit}")
    lena.page.wait_for_selector(".alert")
    said = lena.page.inner_text(".alert").replace("\u00a0", " ")
    # 2045 + 6 + 44.2 + 12 * 0.55 = 2101.8 of scenario.toml's side wall; lena reads inches: 82 3/4 (2101.85)
    assert re.search(r"Opening's height (2101\.8 mm → 2107\.8 mm|82 3/4 in → 82 31/32 in)", said), said
    assert lena.run("return (await store.unit(args[0])).inUse", unit) == old  # not before she takes it
    lena.page.click(".alert button")
    lena.page.wait_for_selector(".alert", state="detached")
    assert lena.run("return (await store.unit(args[0])).inUse", unit) != old
