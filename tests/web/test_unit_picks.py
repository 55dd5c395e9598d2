"""What one door needs, for the crew at the box: the job's pick list of this unit alone, for who sees the unit.

Whether the figures are right is for tests/plan/test_picks.py; here: that they are this unit's, and who may see them.
"""

import json

from plan.conftest import plan

from fieldapp.plan.picks import picks
from fieldapp.store.base import write
from fieldapp.store.models import Unit


def chosen(yard, choices):
    unit = yard.units["07"]
    with yard.app.app_context(), write() as session:
        session.get(Unit, unit).choices = json.dumps(choices)
    return unit


def test_the_crew_sees_what_its_door_needs(yard):
    choices = plan("corrugated side")
    unit = chosen(yard, choices)
    page = yard.client("lena").get(f"/units/{unit}/picks").get_data(as_text=True)
    lines = picks([{"number": "07", "choices": choices}])["lines"]
    assert len(lines) > 5
    for line in lines:
        assert f"<strong>{line['what']}</strong>" in page
    assert page.count('<td class="line">') == len(lines)
    assert f'href="/#unit/{unit}"' in page
    assert f'href="/units/{unit}/picks"' in yard.client("lena").get(f"/units/{unit}/work").get_data(as_text=True)


def test_choices_that_do_not_fit_are_said_and_nothing_is_counted(yard):
    unit = chosen(yard, plan("corrugated side") | {"hand": "up"})
    page = yard.client("lena").get(f"/units/{unit}/picks").get_data(as_text=True)
    assert "Nothing is counted" in page
    assert '<td class="line">' not in page


def test_only_who_sees_the_unit_sees_its_list(yard):
    unit = yard.units["07"]
    assert yard.client("pia").get(f"/units/{unit}/picks").status_code == 404
    assert yard.client("lena").get("/units/no-such/picks").status_code == 404
    assert yard.app.test_client().get(f"/units/{unit}/picks").status_code in (302, 303, 401)
