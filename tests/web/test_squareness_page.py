"""The page on squareness shows the figures of `fieldapp figures`, and no other."""

import re
from pathlib import Path

from fieldapp.places import folder
from fieldapp.work import squareness

KEPT = squareness.kept()


def test_the_page_shows_every_figure_and_none_of_its_own(shared):
    page = shared.app.test_client().get("/work/frame/squareness").get_data(as_text=True)
    for one in KEPT["read"]:
        assert f'<th scope="row">{one["say"]}</th>' in page
        figures = [one[what] for what in ("square_head", "plumb_left", "twist")]
        assert all(f'<td class="figure">{value:.2f}</td>' in page for value in figures)
    for name in ("level", "tape"):
        figures = [value for one in KEPT[name] for value in one.values() if value != one["say"]]
        assert all(f'<td class="figure">{value:.2f}</td>' in page for value in figures)
    assert all(f"{KEPT['read'][at]['square_head']:.2f} mm" in page for at in (0, 1))
    assert page.count("<li>", page.index("<ol>"), page.index("</ol>")) == len(KEPT["asked"])
    template = Path(folder("templates"), "work", "squareness.html").read_text("utf-8")
    prose = re.sub(r"<ul>.*?</ul>", "", template[template.index('id="sources"') :], flags=re.DOTALL)
    body = re.sub(r"{{.*?}}|{%.*?%}|<[^>]*>", " ", template[: template.index('id="sources"')] + prose)
    assert not re.search(r"\d", body), "a figure written by hand"


def test_it_is_found_from_the_reference_pages_and_the_frame_s_own(shared):
    anyone = shared.app.test_client()
    for page in ("/work/", "/work/frame"):
        assert 'href="/work/frame/squareness"' in anyone.get(page).get_data(as_text=True)
    assert 'href="/work/frame/squareness"' not in anyone.get("/work/rivet").get_data(as_text=True)
