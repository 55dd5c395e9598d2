"""The plan's form filled in from the catalogues: a row's figures before anybody looks; nothing typed is lost unseen."""

import html
import re

import pytest
from planned import CHOICES, form_of, site, words

from fieldapp.places import folder
from fieldapp.plan import catalogue_csv
from fieldapp.plan.catalogue import edition
from fieldapp.plan.catalogue_seed import seed
from fieldapp.store import editions
from fieldapp.store.base import write
from fieldapp.web import plan_form

TRIM = {
    "id": "T-2",
    "kind": "edge trim",
    "free height": None,
    "thickness": 2.5,
    "band from": None,
    "band to": None,
    "source": "invented",
}
BULB = {
    **TRIM,
    "id": "fat bulb",
    "kind": "bulb",
    "free height": 15.0,
    "thickness": None,
    "band from": 35.0,
    "band to": 45.0,
}


@pytest.fixture
def planned(tmp_path):
    """The yard with the demo's doors, which are invented, and a shop's seals as edition 1."""
    yard = site(tmp_path / "site")
    doors, faults = catalogue_csv.read("doors", (folder("seed_data") / "demo_doors.csv").read_bytes())
    assert faults == []
    bring_in(yard, doors=doors, seals=[*seed()["seals"], BULB, TRIM])
    return yard


def bring_in(yard, **rows):
    with yard.app.app_context(), write() as session:
        for name, each in rows.items():
            editions.add(session, name, *edition(name, each), person_id=yard.people["ruth"])


def post(yard, form, unit="07", name="ruth"):
    return yard.client(name).send("POST", f"/office/units/{yard.units[unit]}/plan", data=form)


def sent(answer):
    """What a browser would send of the page's form: its fields as they stand."""
    page = answer.get_data(as_text=True)
    form = page[page.index('id="planning"') : page.index("</form>", page.index('id="planning"'))]
    found = {}
    for tag in re.findall(r"<input[^>]*>", form):
        if 'type="checkbox"' not in tag or " checked" in tag:
            found[re.search(r' name="([^"]*)"', tag)[1]] = html.unescape(re.search(r' value="([^"]*)"', tag)[1])
    for name, options in re.findall(r'<select[^>]* name="([^"]*)"[^>]*>(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r'<option(?: value="([^"]*)")? selected>([^<]*)', options)
        found[name] = html.unescape((chosen[2] if chosen[1] is None else chosen[1]) if chosen else "")
    return found


def test_a_door_fills_the_form_before_anybody_looks(planned):
    answer = post(
        planned, form_of(CHOICES, **{"from.door": "E-4", "corners__width": "34 in", "holes__sill": "3"}, do="fill")
    )
    assert answer.status_code == 200
    form = sent(answer)
    wanted = {
        "frame.width": "927.1",
        "frame.height": "2044.7",
        "corners.width": "880",
        "flange": "1.5",
        "glass": "none",
        "head_kit.profile": "straight",
        "head_kit.rise": "44.2",
        "holes.side": "8",
        "holes.per_flat": "1",
        "mass.leaf": "38",
        "mass.total": "61",
        "drawing": "E-4, invented for the demo, as maker's sheet E-4",
    }
    assert {path: form[path] for path in wanted} == wanted
    assert form["from.door"] == ""  # the plan holds the figures from here on, not the name
    said = words(answer)
    assert re.search(r"Frame over all, width\s+stood here:\s+914\u00a0mm\s+now:\s+927.1\u00a0mm", said)
    assert re.search(r"Between the inner corners, width\s+stood here:\s+34 in\s+now:\s+880\u00a0mm", said)
    assert re.search(r"Frame’s sheet, thickness\s+stood here:\s+empty\s+now:\s+1.5\u00a0mm", said)
    assert "what stood here stays: Holes in the sill: 3" in said
    look = post(planned, form | {"do": "look"})
    assert "what the new plan would change" in words(look)
    assert re.search(r"Opening's width\s+926\u00a0mm\s+939.1\u00a0mm", words(look))
    back = sent(post(planned, form | {"do": "back"}))
    assert (back["frame.width"], back["corners.width"], back["flange"]) == ("914", "34 in", "")
    assert back["drawing"] == CHOICES.get("drawing", "")


def test_what_says_the_same_stays_as_it_was_typed(planned):
    answer = post(
        planned, form_of(CHOICES, **{"from.door": "E-4", "frame__width": "36 1/2 in", "mass__leaf": "38,0"}, do="fill")
    )
    form = sent(answer)
    assert (form["frame.width"], form["mass.leaf"]) == ("36 1/2 in", "38,0")
    assert "Frame over all, width stood" not in words(answer)


def test_picking_and_looking_at_once_fills_in_first(planned):
    for do in ("look", "issue"):
        answer = post(planned, form_of(CHOICES, **{"from.door": "E-4"}, do=do))
        assert (answer.status_code, "what the new plan would change" in words(answer)) == (200, False)
        assert sent(answer)["frame.width"] == "927.1"


def test_a_seal_and_an_edge_trim(planned):
    bead = {**CHOICES, "head_seal": {"kind": "bead", "thickness": 5}}
    answer = post(planned, form_of(bead, **{"from.head_seal": "fat bulb", "from.side_edges": "t-2"}, do="fill"))
    assert "bulb seal at the head, “fat bulb” (seals, edition 1); edge trim at the sides, “T-2”" in words(answer)
    form = sent(answer)
    wanted = {
        "head_seal.kind": "bulb",
        "head_seal.free_height": "15",
        "head_seal.band.0": "35",
        "head_seal.band.1": "45",
        "side_edges.kind": "edge trim",
        "side_edges.thickness": "2.5",
    }
    assert {path: form[path] for path in wanted} == wanted
    look = post(planned, form | {"head_seal.compression": "40", "do": "look"})
    assert "what the new plan would change" in words(look)


def test_a_door_made_one_handed_against_the_hand_is_a_fault_and_fills_nothing(planned):
    typed = form_of(CHOICES, **{"from.door": "P-7", "hand": "left", "frame__width": "36 in"}, do="fill")
    answer = post(planned, typed)
    assert answer.status_code == 422
    beside = re.search(r'id="f-hand-fault">(.*?)</p>', answer.get_data(as_text=True))[1]
    assert html.unescape(beside) == "'left'; right would be 'right': the door P-7 has its hinges right."
    assert "Nothing was filled in" in words(answer)
    form = sent(answer)
    assert (form["from.door"], form["frame.width"]) == ("P-7", "36 in")
    assert sent(post(planned, form | {"hand": "right", "do": "fill"}))["frame.width"] == "914"


@pytest.mark.parametrize(
    ("name", "row", "said"),
    [
        ("from.door", "E-5", "'E-5'; right would be one of the catalogue's: 'E-4', 'E-4 half glass', 'S-2', 'P-7'."),
        ("from.door", "<b>" * 90, "'<b><b><b>"),
        ("from.head_seal", "T-2", "'T-2'; right would be one of the catalogue's: 'bulb seal', 'fat bulb'."),
        ("from.side_edges", "bulb seal", "'bulb seal'; right would be one of the catalogue's: 'T-2'."),
    ],
)
def test_a_name_that_no_row_has_stands_beside_its_list(planned, name, row, said):
    answer = post(planned, form_of(CHOICES, **{name: row}, do="fill"))
    assert answer.status_code == 422
    id = name.replace(".", "-")
    assert said in html.unescape(re.search(rf'id="f-{id}-fault">(.*?)</p>', answer.get_data(as_text=True))[1])


def test_nothing_picked_fills_nothing(planned):
    answer = post(planned, form_of(CHOICES, frame__width="36 in") | {"do": "fill"})
    assert answer.status_code == 422
    assert "No row is chosen" in words(answer)
    assert sent(answer)["frame.width"] == "36 in"


def test_an_empty_catalogue_says_so_and_where_rows_come_from(tmp_path):
    yard = site(tmp_path / "site")
    page = yard.client("ruth").get(f"/office/units/{yard.units['07']}/plan").get_data(as_text=True)
    assert 'The catalogue of doors has no row yet: <a href="/office/catalogues/doors">bring one in</a>' in page
    assert "The catalogue of seals has no edge trim yet" in page
    answer = post(yard, form_of(CHOICES, **{"from.door": "E-4"}, do="fill"))
    assert "right would be nothing: the catalogue of doors is empty yet" in words(answer)


def test_rivet_profile_sealant_and_disc_are_rows_of_the_editions_in_force(planned):
    own = {
        "id": "wide",
        "wall": "corrugated end",
        "outer": 90.0,
        "slope": 20.0,
        "inner": 90.0,
        "depth": 40.0,
        "source": "tape",
    }
    rivet = {
        **seed()["rivets"][0],
        "id": "5-M",
        "diameter": 5.0,
        "inch": None,
        "hole from": 5.1,
        "hole to": 5.2,
        "head": None,
    }
    bring_in(planned, profiles=[*seed()["profiles"], own], rivets=[*seed()["rivets"], rivet])
    page = planned.client("ruth").get(f"/office/units/{planned.units['07']}/plan").get_data(as_text=True)
    for path, option in (
        ("profile", "wide, corrugated end"),
        ("rivet", "5\u00a0mm"),
        ("rivet", "4.8\u00a0mm (3/16\u00a0in)"),
        ("sealant", "class 25"),
        ("disc", "115 mm"),
    ):
        assert f">{option}</option>" in re.search(rf'<select id="f-{path}".*?</select>', page, re.DOTALL)[0]
    form = form_of(CHOICES, profile="wide", rivet="5", sealant="class 25", disc="115 mm", do="look")
    assert "what the new plan would change" in words(post(planned, form))
    wrong = post(planned, form | {"profile": "corrugated side"})
    assert "this is one of a corrugated side wall" in words(wrong)


def test_every_default_beside_an_empty_field_says_its_figure_and_where_it_is_from(planned):
    page = planned.client("ruth").get(f"/office/units/{planned.units['08']}/plan").get_data(as_text=True)
    beside = {
        id: html.unescape(re.sub("<.*?>", "", said))
        for id, said in re.findall(r'id="f-([\w-]+)-hint">(.*?)</small>', page)
    }
    wanted = {
        "clearance-left": "left empty: 6\u00a0mm. Common practice, no source: room to set a frame true on each side.",
        "needs_land": "left empty: 25\u00a0mm. Our own figure; the maker's sheet beats it.",
        "wind_limit": "left empty: 8\u00a0m/s. Our own figure; whoever plans the lift sets the limit.",
        "hardware-limit_angle-1": "left empty: 95°. The leaf stops at or just past 90°: common practice, no source.",
        "head_seal-band-0": "left empty: 40\u00a0%. Bulb seal compressed 40 to 50 %: common practice, no source.",
    }
    assert {path: beside[path] for path in wanted} == wanted
    assert "29 CFR 1910.252(a)(2)(iii)(B)" in beside["watch_minutes"]
    assert beside["tolerance-square"].startswith("left empty: 1.6\u00a0mm. ± 1/16 in")
    assert beside["rail"].startswith("left empty: 6000\u00a0mm; on an end wall 2400\u00a0mm. A 20 ft box's rail")
    assert beside["strip"].startswith("left empty: 4.8\u00a0mm; smooth wall: 0\u00a0mm. Some 3/16 in")
    filled = planned.client("ruth").get(f"/office/units/{planned.units['07']}/plan").get_data(as_text=True)
    assert '<button class="hidden" name="do" value="look"' in filled  # Enter looks; it neither fills in nor issues


def test_one_end_of_a_span_left_empty_is_the_default_beside_it(planned):
    given = form_of(CHOICES, head_seal__band__0="42", hardware__limit_angle__1="100")
    made = plan_form.choices({}, given)
    assert (made["head_seal"]["band"], made["hardware"]["limit_angle"]) == ([42, 50], [90, 100])
    assert post(planned, given | {"do": "look"}).status_code == 200
    crossed = html.unescape(post(planned, form_of(CHOICES, head_seal__band__0="60", do="look")).get_data(as_text=True))
    assert "60 to 50; right would be two rising numbers of 0 to 95." in crossed.replace("50.0", "50")


def test_a_compression_outside_its_band_is_a_fault(planned):
    answer = post(planned, form_of(CHOICES, head_seal__compression="60", do="look"))
    assert answer.status_code == 422
    beside = re.search(r'id="f-head_seal-compression-fault">(.*?)</p>', answer.get_data(as_text=True))[1]
    assert beside == "60.0; right would be 40 to 50, as its band allows."


def test_a_reason_once_typed_outlives_another_look(planned):
    given = form_of(CHOICES, frame__width="920", because="The maker sent <another>.")
    again = post(planned, given | {"do": "look"}).get_data(as_text=True)
    assert ">The maker sent &lt;another&gt;.</textarea>" in again
    for more in ({"frame.width": "wide", "do": "look"}, {"from.door": "E-4", "do": "fill"}):
        assert sent(post(planned, given | more))["because"] == "The maker sent <another>."


def test_a_reason_too_long_says_so(planned):
    look = sent(post(planned, form_of(CHOICES, frame__width="920", do="look")))
    answer = post(planned, look | {"because": "x" * 2001, "do": "issue"})
    assert answer.status_code == 422
    assert "The reason has 2001 characters; at most 2000." in words(answer)
