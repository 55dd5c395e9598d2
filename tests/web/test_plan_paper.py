"""A plan and who decides on it, on paper: what the screen shows in a form stands there too, under the title block."""

import pytest
from desk import paper_pages, plain

from fieldapp.web import plan_form


@pytest.fixture(scope="module", params=["A4", "Letter"])
def printed(desk, request):
    unit = desk.units["Saltmarsh stores", "01"]
    found = {}
    for what in ("plan", "deciders"):
        page = desk.show(f"/office/units/{unit}/{what}")
        found[what] = paper_pages(page.pdf(format=request.param))
        page.close()
    return found


def test_every_field_of_a_plan_is_on_paper(printed):
    said = "".join(printed["plan"])
    for asked in plan_form.every_field():
        assert plain(asked.say) in said, asked.say
    for figure in ("36 1/2 in", "44.2", "left empty: 8 m/s"):
        assert plain(figure) in said, figure
    assert plain("Fill in from the catalogue") not in said
    assert plain("See what it changes") not in said


def test_every_question_is_on_paper_with_what_holds(printed):
    said = "".join(printed["deciders"])
    for text in ("Who decides: structure", "Who decides: fire", "never a permission", "Who decided", "not answered"):
        assert plain(text) in said, text
    assert plain("Keep these answers") not in said


def test_the_title_block_stands_on_every_page(printed):
    for what, pages in printed.items():
        assert len(pages) <= {"plan": 3, "deciders": 2}[what]
        for number, page in enumerate(pages, 1):
            for text in ("Saltmarsh stores", "01, ", "Printed ", "by ruth", "Plan", f"page {number} of {len(pages)}"):
                assert plain(text) in page, (what, number, text)
