"""A phone whose store has no room: NOT SAVED is said where the figure is typed, and every key stays in sight."""

import pytest
from lead import lead_on

FULL = """() => { const full = () => { throw new DOMException('full', 'QuotaExceededError'); };
  IDBObjectStore.prototype.put = full; IDBObjectStore.prototype.add = full; }"""
CUT = """() => { const top = document.querySelector('.title-block').getBoundingClientRect().top;
  return [...document.querySelectorAll('.pad button')].filter((key) => key.getBoundingClientRect().bottom > top + 0.5)
    .map((key) => key.dataset.key); }"""


@pytest.fixture(scope="module")
def lead(new_phone):
    phone = new_phone().start("lena")
    phone.run("""await store.setting('show', 'in');
        for (const unit of await store.units()) await store.noteUnit(unit.id, {seen: true})""")
    yield lead_on(phone, "07", "Saltmarsh stores")
    assert phone.errors == []


def test_7_not_saved_leaves_the_whole_pad_in_sight_and_nothing_says_saved(lead):
    page = lead.page

    def cut():
        found = []
        for height in (640, 560):
            page.set_viewport_size({"width": 360, "height": height})
            page.wait_for_timeout(50)
            found += [(height, key) for key in page.evaluate(CUT)]
        return found

    page.evaluate("hash => { location.hash = hash; }", f"#unit/{lead.unit['id']}/read/true-frame/height_left")
    lead.settle()
    page.wait_for_selector(".pad [data-key='8']")
    page.evaluate(FULL)
    for key in ("7", "8", "and", "5"):
        page.click(f".pad [data-key='{key}']")
    page.wait_for_selector(".alert:has-text('Not kept yet')")
    assert cut() == []
    page.click(".pad [data-key='/8']")
    page.click("#key-action")
    if ask := page.query_selector(".ask .key:has-text('as typed')"):
        ask.click()
    page.wait_for_selector(".alert:has-text('NOT SAVED')")
    page.wait_for_timeout(400)  # longer than a draft waits
    assert cut() == []
    assert page.locator(".alert").count() == 1
    assert "saved" not in page.inner_text("main")
