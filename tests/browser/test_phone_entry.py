"""Entries as the phone makes them: ids, times, waiting times; each against the standard that fixes it."""

import pytest

from fieldapp.places import folder


def test_uuid7_vector(module_page):
    """RFC 9562, appendix A.6: 2022-02-22 14:22:22 -05:00, rand_a CC3, rand_b 18C4DC0C0C07398F with its variant."""
    random = [0x0C, 0xC3, 0x18, 0xC4, 0xDC, 0x0C, 0x0C, 0x07, 0x39, 0x8F]
    made = module_page.call("phone/entry.js", "uuid7", [[0x017F22E279B0, random]])
    assert made == ["017f22e2-79b0-7cc3-98c4-dc0c0c07398f"]


def test_uuid7_is_its_time_and_differs(module_page):
    made = module_page.call("phone/entry.js", "uuid7", [[1764063727120]] * 500)
    assert len(set(made)) == 500
    assert {int(u.replace("-", "")[:12], 16) for u in made} == {1764063727120}
    assert {(u[14], u[19] in "89ab") for u in made} == {("7", True)}


@pytest.mark.parametrize(("east", "text"), [
    (60, "2026-11-25T10:42:07.120+01:00"), (0, "2026-11-25T09:42:07.120+00:00"),
    (-570, "2026-11-25T00:12:07.120-09:30"), (345, "2026-11-25T15:27:07.120+05:45"),
    (-720, "2026-11-24T21:42:07.120-12:00")])
def test_time_with_zone(module_page, east, text):
    """RFC 3339, 5.6: local time and its offset; all five are one moment (zones from the IANA list, from memory)."""
    stamp = module_page.page.evaluate("""async ([module, east]) =>
        (await import(module)).stamp(new Date(Date.UTC(2026, 10, 25, 9, 42, 7, 120)), east)""",
        [f"{module_page.origin}/phone/entry.js", east])
    assert stamp == text


def test_pauses_are_jittered_under_a_doubling_roof_of_five_minutes(module_page):
    """Full jitter: random between nought and the roof. Common practice, no source."""
    pauses = module_page.call("phone/outbox.js", "pause", [[0, 1], [1, 1], [3, 0.5], [30, 1], [5, 0]])
    assert pauses == [2000, 4000, 8000, 300000, 0]


@pytest.mark.parametrize(("path", "code"), [("/u/7K3MD9QX2P", "7K3MD9QX2P"), ("/U/7k3md9qx2p/", "7k3md9qx2p"),
                                            ("/units/7", None), ("/u/", None), ("/u/a/b", None)])
def test_deep_links(module_page, path, code):
    assert module_page.call("phone/routes.js", "deepLink", [[path]]) == [code]


MODULES = sorted(p.relative_to(folder("static")).as_posix() for p in (folder("static") / "phone").rglob("*.js")
                 if p.name not in ("app.js", "service-worker.js"))


@pytest.mark.parametrize("module", MODULES)
def test_every_module_loads_by_itself(module_page, module):
    """What it imports is there and exports those names (app.js would start, the worker is no module)."""
    address = f"{module_page.origin}/{module}"
    assert module_page.page.evaluate("(address) => import(address).then(() => null, (e) => String(e))", address) is None
