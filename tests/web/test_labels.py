"""The label pages: who may see them, what they take and refuse, and the printed sheet as a browser draws it."""

import io
import re
import zlib
from urllib.parse import urlsplit

import pytest
import yard as yards
import zxingcpp
from browsers import launch
from PIL import Image

from fieldapp.places import folder
from fieldapp.store import people, units
from fieldapp.store.base import read, write

HOME = "https://field-doors.example"
PRINT = "/office/labels/print"
MM = 96 / 25.4  # CSS pixels (CSS Values 4, 6.2: 96 px are 1 in)
LONG = "A very long name of a place that goes on and on past any label, second yard"


def more_units(yard):
    """Two more jobs, one with names far too long; a supervisor of one crew."""
    with yard.app.app_context(), write() as session:
        crews = {crew.name: crew.id for crew in people.crews(session)}
        sven = people.add_person(session, "sven", ["supervisor"], crews["south"])
        sven.password = yards.CHEAP.hash(yards.PASSWORD)
        for name, numbers in (("Depot <b>", ["01", "02", "03", "04", "05"]), (LONG, [LONG])):
            job = units.add_job(session, name, name)
            yard.people[name] = job.id  # ids by name
            for number in numbers:
                unit = units.add_unit(session, job.id, crews["north"], number, "CSQU 305438 3")
                yard.units[f"{name} {number}"] = unit.id
    return yard


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    return more_units(yards.make(tmp_path_factory.mktemp("labels") / "site", address=HOME, given_address=True))


@pytest.fixture(scope="module")
def local(tmp_path_factory):
    """A site that only this machine reaches."""
    return more_units(yards.make(tmp_path_factory.mktemp("local") / "site", address="http://127.0.0.1:41873"))


@pytest.fixture
def ruth(site):
    return site.client("ruth")


def wanted(yard, *names):
    return f"{PRINT}?" + "&".join(f"unit={yard.units[name]}" for name in names or yard.units)


def addresses(yard, origin, names=None):
    with yard.app.app_context(), read() as session:
        return {f"{origin.upper()}/U/{units.get(session, yard.units[name]).code}" for name in names or yard.units}


@pytest.mark.parametrize("path", ["/office/labels", PRINT])
@pytest.mark.parametrize(("name", "status"), [(None, 303), ("lena", 403), ("ada", 403)])
def test_labels_are_the_supervisors(site, path, name, status):
    answer = site.client(name).get(f"{path}?unit={site.units['07']}" if path == PRINT else path)
    assert answer.status_code == status
    assert "07" not in re.sub(r"/static/\S+", "", answer.get_data(as_text=True))


def test_choosing_lists_jobs_and_units(site, ruth):
    page = ruth.get("/office/labels").get_data(as_text=True)
    assert page.count('type="checkbox"') == len(site.units) == 9
    assert "Quay 3" in page
    assert "Depot &lt;b&gt;" in page
    assert all(f'value="{id}"' in page for id in site.units.values())


def test_a_supervisor_of_one_crew_labels_its_units_only(site):
    sven = site.client("sven")
    assert sven.get("/office/labels").get_data(as_text=True).count('type="checkbox"') == 1
    assert sven.get(wanted(site, "09")).status_code == 200
    assert sven.get(wanted(site, "07")).status_code == 404
    assert sven.get(f"{PRINT}?job={site.people[LONG]}").status_code == 404


@pytest.mark.parametrize(
    "query", ["unit=none", "unit=0199c0de-7a11-7000-8000-000000000001", "job=none", "unit=", "unit=%00%ff"]
)
def test_what_is_not_there_is_not_found(ruth, query):
    assert ruth.get(f"{PRINT}?{query}").status_code == 404


def test_one_unknown_among_known_is_not_found_and_named(site, ruth):
    answer = ruth.get(f"{wanted(site, '07')}&unit=nobody")
    assert answer.status_code == 404
    assert "nobody" in answer.get_data(as_text=True)


@pytest.mark.parametrize(
    ("query", "says"),
    [
        ("", "No unit is ticked"),
        ("paper=a4", "No unit is ticked"),
        ("paper=a0", "a4 or letter would be right"),
        ("units=7", "unit, job, paper would be right"),
        ("paper=a4&paper=", "a4 or letter would be right"),
    ],
)
def test_a_query_that_cannot_be_followed_says_why(ruth, query, says):
    answer = ruth.get(f"{PRINT}?{query}")
    assert answer.status_code == 422
    assert says in answer.get_data(as_text=True)


def test_more_than_the_limit_is_refused(site, ruth, monkeypatch):
    monkeypatch.setattr("fieldapp.web.labels.MOST", 8)
    answer = ruth.get(wanted(site))
    assert answer.status_code == 422
    assert "9 labels are too many at once; up to 8" in answer.get_data(as_text=True)


def test_a_job_gives_all_its_labels_each_once(site, ruth):
    page = ruth.get(f"{PRINT}?job={site.people['Depot <b>']}&unit={site.units['Depot <b> 03']}").get_data(as_text=True)
    assert page.count('<article class="label"') == 5


def test_an_address_too_long_for_a_label_is_said(tmp_path):
    yard = yards.make(tmp_path / "site", address="https://" + "a" * 700, given_address=True)
    answer = yard.client("ruth").get(wanted(yard, "07"))
    assert answer.status_code == 422
    assert "FIELDAPP_ADDRESS" in answer.get_data(as_text=True)


def test_each_label_of_a_loopback_address_says_so(local, site, ruth):
    says = "This label leads to this machine only."
    assert local.client("ruth").get(wanted(local)).get_data(as_text=True).count(says) == 9
    assert "this machine only" not in ruth.get(wanted(site)).get_data(as_text=True)


def test_labels_are_measured_in_millimetres():
    """offline.md 93: fixed blocks in mm, no flex, no percentages; paper by its size in mm, margin of 8 mm or more."""
    sheet = (folder("static") / "office" / "labels.css").read_text("utf-8")
    assert "flex" not in sheet
    assert "%" not in sheet
    for name in ("a4", "letter"):
        text = (folder("static") / "office" / f"paper-{name}.css").read_text("utf-8")
        assert float(re.search(r"margin: (\d+)mm", text)[1]) >= 8


@pytest.fixture(scope="module")
def browser():
    found = launch()
    yield found
    found.close()


@pytest.fixture(scope="module")
def shown(browser):
    """Opens a path of a yard as ruth, without a server: every request is answered by the application itself."""
    made = []

    def show(yard, path, origin=HOME):
        client = yard.client("ruth")
        page = browser.new_page(viewport={"width": 900, "height": 1200}, device_scale_factor=2)
        made.append(page)

        def answer(route):
            parts = urlsplit(route.request.url)
            got = client.get(f"{parts.path}?{parts.query}")
            route.fulfill(status=got.status_code, headers=dict(got.headers), body=got.get_data())

        page.route("**/*", answer)
        assert page.goto(origin + path).status == 200
        return page

    yield show
    for page in made:
        page.close()


def codes_in(picture):
    return [found.text for found in zxingcpp.read_barcodes(Image.open(io.BytesIO(picture)))]


def test_the_printed_sheet_is_read_back(site, shown):
    """Every label of the page as a browser prints it, read by zxing-cpp; then where such a code leads."""
    page = shown(site, wanted(site))
    page.emulate_media(media="print")
    sheets = page.locator(".labels").all()
    found = [text for sheet in sheets for text in codes_in(sheet.screenshot())]
    assert len(sheets) == 2
    assert len(found) == len(set(found)) == 9
    assert set(found) == addresses(site, HOME)
    [one] = addresses(site, HOME, ["07"])
    answer = site.client("ruth").get(urlsplit(one).path)
    assert (answer.status_code, answer.headers["Location"]) == (303, f"/office/units/{site.units['07']}")


def measured(page):
    return page.evaluate("""() => {
      const box = (node) => { const b = node.getBoundingClientRect(); return [b.left, b.top, b.right, b.bottom]; };
      return {
        codes: [...document.querySelectorAll('.qr')].map(box),
        labels: [...document.querySelectorAll('.label')].map((label) => ({box: box(label),
          texts: [...label.querySelectorAll('p')].map((p) => ({
            size: parseFloat(getComputedStyle(p).fontSize), is: p.className, text: p.textContent, box: box(p),
            lost: p.scrollWidth > p.clientWidth + 1})),
          lost: [...label.querySelectorAll('.facts, .how')].some((n) => n.scrollHeight > n.clientHeight + 1)})),
        ruler: [...document.querySelectorAll('.ruler')].map((ruler) => ruler.getScreenCTM().a * 50),
      };
    }""")


def test_true_size_on_the_page(local, shown):
    """offline.md 90, 91, 93 and the sizes of a label: 50 mm lines and codes, 28 pt for the code, nothing under 9 pt."""
    page = shown(local, wanted(local), "http://127.0.0.1:41873")
    page.emulate_media(media="print")
    found = measured(page)
    assert len(found["labels"]) == 9
    assert found["ruler"] == pytest.approx([50 * MM] * 2, abs=0.1)
    for left, top, right, bottom in found["codes"]:
        assert (right - left, bottom - top) == pytest.approx((50 * MM, 50 * MM), abs=0.1)
    for label in found["labels"]:
        sizes = {text["is"]: text["size"] * 72 / 96 for text in label["texts"]}
        assert sizes["code"] == pytest.approx(28)
        assert min(sizes.values()) >= 9 - 1e-6
        assert not label["lost"], label
        assert any("this machine only" in text["text"] for text in label["texts"])
        for text in label["texts"]:
            assert not text["lost"], text
            assert inside(text["box"], label["box"]), text
    boxes = [label["box"] for label in found["labels"]]
    assert not any(overlap(a, b) for i, a in enumerate(boxes) for b in boxes[:i])


def inside(inner, outer):
    return inner[0] >= outer[0] and inner[1] >= outer[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def overlap(a, b):
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.5 and min(a[3], b[3]) - max(a[1], b[1]) > 0.5


@pytest.mark.parametrize(("paper", "size"), [("a4", (210, 297)), ("letter", (215.9, 279.4))])
def test_nine_labels_are_two_sheets_of_the_paper_chosen(site, shown, paper, size):
    """ISO 216 and ANSI Y14.1 sizes; a PDF counts in 1/72 in (ISO 32000)."""
    pdf = shown(site, f"{wanted(site)}&paper={paper}").pdf(prefer_css_page_size=True)
    boxes = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    assert [pytest.approx(size, abs=0.4)] * 2 == [tuple(float(side) * 25.4 / 72 for side in box) for box in boxes]


def ruler_on_paper(pdf):
    """Length in mm of each page's 50 mm line in a PDF: scale of the page times scale of the line (ISO 32000, 8.3.4)."""
    for stream in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.DOTALL):
        if not stream.startswith(b"\x78"):  # not deflated: no page
            continue
        marks = zlib.decompress(stream)
        line = re.search(rb"0 0 m\s+0 5 l\s+50 0 m\s+50 5 l", marks)
        if line:
            scales = re.findall(rb"([\d.]+) 0 0 -?[\d.]+ [\d.]+ [\d.]+ cm", marks[: line.start()])
            yield float(scales[0]) * float(scales[-1]) * 50 * 25.4 / 72


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_ruler_measures_fifty_millimetres_on_paper(site, shown, paper):
    """A page that is too wide for its paper is shrunk by the browser: then this line is shorter."""
    pdf = shown(site, f"{wanted(site)}&paper={paper}").pdf(prefer_css_page_size=True)
    assert list(ruler_on_paper(pdf)) == pytest.approx([50, 50], abs=0.1)


def test_choosing_is_ready_for_a_small_window(site, shown):
    """Controls of the office are 32 px high at least, and nothing goes past the side of a window 360 wide."""
    page = shown(site, "/office/labels")
    page.set_viewport_size({"width": 360, "height": 640})
    low = page.evaluate("""() => [...document.querySelectorAll('main a, main label, button')]
      .map((node) => [node.textContent.trim(), node.getBoundingClientRect().height]).filter(([, high]) => high < 32)""")
    assert low == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
