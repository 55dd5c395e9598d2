"""The calculators over HTTP: the same answers as the command, open to anyone, problems in the one error shape."""

import io
import json
import re

import pytest
from jsonschema import Draft202012Validator

from fieldapp.work.command import run
from fieldapp.work.lines import MOST_BYTES
from fieldapp.work.registry import CALCULATORS

OURS = {"Sec-Fetch-Site": "same-origin"}  # what a browser says of a form on our own page


@pytest.fixture
def anyone(shared):
    return shared.app.test_client()


def ask(client, name, body, mimetype="application/json"):
    raw = body if isinstance(body, bytes) else json.dumps(body).encode()
    return client.post(f"/api/work/{name}", data=raw, content_type=mimetype)


def by_command(name, body):
    out = io.StringIO()
    run([name], io.StringIO(json.dumps(body) + "\n"), out, io.StringIO())
    return json.loads(out.getvalue())


def test_the_list(anyone):
    answer = anyone.get("/api/work")
    assert answer.status_code == 200
    assert answer.headers["Cache-Control"] == "no-store"
    assert answer.json == {"work": [{"name": name, "say": made.say} for name, made in CALCULATORS.items()]}


@pytest.mark.parametrize("name", CALCULATORS)
def test_one_calculator_described_and_asked(anyone, name):
    told = anyone.get(f"/api/work/{name}").json
    assert sorted(told) == ["answer", "example", "input", "name", "say", "sources"]
    answer = ask(anyone, name, told["example"])
    assert (answer.status_code, answer.mimetype) == (200, "application/json")
    Draft202012Validator(told["answer"]).validate(answer.json)
    assert answer.json == by_command(name, told["example"])


def problem(answer, status, code):
    assert (answer.status_code, answer.mimetype) == (status, "application/problem+json")
    body = answer.json
    assert (body["type"], body["status"], body["retry"]) == (f"urn:fieldapp:{code}", status, "never")
    assert body["title"]
    assert body["detail"]
    return body.get("problems")


def test_problems_are_those_of_the_command(anyone):
    body = {"diameter": "1,234", "stack": [{"thickness": True}], "at": [], "show": None}
    assert problem(ask(anyone, "rivet", body), 422, "bad_shape") == by_command("rivet", body)["problems"]


@pytest.mark.parametrize(
    "raw",
    [b"", b"[1]", b'{"a":1,"a":2}', b'{"a":NaN}', b"\xff", b'{"a":"\\ud800"}', b'{"a":' + b"[" * 20 + b"]" * 20 + b"}"],
)
def test_what_cannot_be_read(anyone, raw):
    assert list(problem(ask(anyone, "seal", raw), 400, "bad_json")) == ["line"]


def test_too_long_and_the_longest(anyone):
    long = b'{"identification":"' + b" " * MOST_BYTES + b'"}'
    out = io.StringIO()
    run(["container"], io.BytesIO(long), out, io.StringIO())
    assert problem(ask(anyone, "container", long), 413, "too_big") == json.loads(out.getvalue())["problems"]
    just = b'{"identification":"' + b" " * (MOST_BYTES - 21) + b'"}'
    assert len(just) == MOST_BYTES
    assert list(problem(ask(anyone, "container", just), 422, "bad_shape")) == ["identification"]


def test_other_types_names_and_methods(anyone):
    problem(ask(anyone, "seal", b"{}", "text/plain"), 415, "wrong_type")
    problem(ask(anyone, "sundial", b"{}"), 404, "not_found")
    problem(anyone.get("/api/work/sundial"), 404, "not_found")
    problem(anyone.delete("/api/work/seal"), 405, "wrong_method")
    methods = anyone.options("/api/work/seal")
    assert (methods.status_code, methods.data, methods.headers.get("Content-Type")) == (200, b"", None)


def test_no_session_no_origin_and_no_version_are_asked_for(anyone):
    assert ask(anyone, "container", {"identification": "CSQU3054383"}).status_code == 200
    other = anyone.post(
        "/api/work/container",
        json={"identification": "CSQU3054383"},
        headers={"Sec-Fetch-Site": "cross-site", "Origin": "https://elsewhere.example"},
    )
    assert other.status_code == 200


def test_the_index_names_every_page(anyone):
    page = anyone.get("/work/").get_data(as_text=True)
    assert all(f'href="/work/{name}"' in page for name in CALCULATORS)


def by_page(client, name, form):
    """The form sent from our own page, as browsers do."""
    return client.post(f"/work/{name}", data=form, headers={"Sec-Fetch-Site": "same-origin"})


def fields(page):
    """{name: value} of a page's form by fields, as a browser would send it."""
    form = page.split('id="by-hand"')[1].split("</form>")[0]
    found = dict(re.findall(r'<input id="[^"]*" name="([^"]+)" value="([^"]*)"', form))
    for name, options in re.findall(r'<select id="[^"]*" name="([^"]+)"[^>]*>(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r"<option selected>([^<]*)", options)
        found[name] = chosen[1] if chosen else ""
    return {name: value.replace("&#39;", "'").replace("&#34;", '"') for name, value in found.items()}


@pytest.mark.parametrize("name", CALCULATORS)
def test_a_reference_page_shows_what_is_needed_and_works_by_hand(anyone, name):
    made = CALCULATORS[name]
    page = anyone.get(f"/work/{name}")
    text = page.get_data(as_text=True)
    assert page.status_code == 200
    assert "<title>" in text
    for needed in (*made.formulas, *made.limits, *made.sources):
        assert needed.replace("'", "&#39;") in text
    assert "<script" not in text
    assert " style=" not in text
    sent = anyone.post(f"/work/{name}", data=fields(text), headers=OURS)
    shown = sent.get_data(as_text=True)
    assert sent.status_code == 200, re.findall(r'role="alert".*?</div>', shown, re.DOTALL)
    figures = re.search(r"<summary>All figures</summary><pre>(.*?)</pre>", shown, re.DOTALL)[1]
    assert json.loads(figures.replace("&#34;", '"').replace("&#39;", "'")) == made.answer(made.example)[0]


def test_a_cut_sheet_by_hand_needs_no_disc(anyone):
    typed = {"wall": "corrugated end", "cut.width": "926", "cut.height": "2093", "thickness": "2",
             "disc.marked_rpm": "", "disc.diameter": "", "tool.rpm": " "}
    sent = by_page(anyone, "cut", typed)
    assert sent.status_code == 200
    assert "Disc and tool were not given" in sent.get_data(as_text=True)


def test_a_form_with_faults_names_them_beside_the_fields(anyone):
    typed = {"free_height": "1,234", "gaps.0.value": "7", "gaps.1.value": "x", "waste": "much"}
    sent = by_page(anyone, "seal", typed)
    text = sent.get_data(as_text=True)
    assert sent.status_code == 422
    assert 'role="alert"' in text
    for path in ("free_height", "gaps.1.value", "waste"):
        assert f'href="#{path}"' in text
        assert re.search(rf'id="why-{re.escape(path)}"><strong class="fault">', text), path
    assert 'value="1,234"' in text


def test_json_by_hand(anyone):
    right = anyone.post("/work/container", headers=OURS, data={"json": '{"identification": "CSQU3054383"}'})
    assert (right.status_code, "the check digit agrees" in right.get_data(as_text=True)) == (200, True)
    wrong = anyone.post("/work/container", headers=OURS, data={"json": "{<b>"})
    assert wrong.status_code == 400
    assert "{&lt;b&gt;" in wrong.get_data(as_text=True)
    assert "<b>" not in wrong.get_data(as_text=True)


def test_a_form_from_elsewhere_is_refused(anyone):
    elsewhere = anyone.post("/work/seal", data={"free_height": "12"}, headers={"Sec-Fetch-Site": "cross-site"})
    assert elsewhere.status_code == 403


def test_an_unknown_page_is_404(anyone):
    assert anyone.get("/work/sundial").status_code == 404


def test_the_layout_page_draws_its_answer_and_words_stay_words(anyone):
    line = CALCULATORS["layout"].example | {"keep_clear": [{"from": 0, "to": 60, "what": "<b>post</b>"}], "show": "in"}
    text = anyone.post("/work/layout", headers=OURS, data={"json": json.dumps(line)}).get_data(as_text=True)
    answer, _ = CALCULATORS["layout"].answer(line)
    shown = sum(place["possible"] for place in answer["places"])
    assert text.count('<figure class="to-scale">') == shown > 1
    assert 'data-part="cut"' in text
    assert "<b>" not in text
    assert " style=" not in text


def test_a_field_by_hand_says_what_it_is_before_its_path_and_an_item_its_number(anyone):
    page = anyone.get("/work/layout").get_data(as_text=True)
    assert '<label for="edges.0.at">Where it stands, from the datum, needed <small>edges.0.at</small>' in page
    assert '<h3 id="edges.3" class="item">No. 4 if there is one <small>edges.3</small>' in page
    firsts = re.findall(r'<p class="field first">\s*<label for="([^"]+)"', page)
    assert firsts == ["wall_from", "between", "wish", "show"], "after a group that they are no part of"


def test_a_page_may_be_asked_for_in_inches_with_its_example(anyone):
    page = anyone.get("/work/layout?show=in").get_data(as_text=True)
    assert fields(page)["show"] == "in"
    assert fields(page)["edges.0.at"] == fields(anyone.get("/work/layout").get_data(as_text=True))["edges.0.at"] != ""
    assert "Filled in from the plan" not in page
    assert "Filled in from the plan" in anyone.get("/work/layout?opening.width=800").get_data(as_text=True)


def test_a_list_by_hand_offers_lines_and_more_of_them_are_had_without_working_it_out(anyone):
    page = anyone.get("/work/layout?opening.width=800").get_data(as_text=True)
    assert sum(name.endswith(".at") for name in fields(page)) == 6
    assert page.index('class="hidden" tabindex="-1"') < page.index('name="more"'), "Enter in a field works it out"
    typed = fields(page) | {f"edges.{i}.at": str(100 * i) for i in range(6)} | {"more": "edges"}
    sent = by_page(anyone, "layout", typed)
    again = sent.get_data(as_text=True)
    assert sent.status_code == 200
    assert 'role="alert"' not in again
    assert sum(name.endswith(".at") for name in fields(again)) == 6 + 12
    assert [fields(again)[f"edges.{i}.at"] for i in range(6)] == ["0", "100", "200", "300", "400", "500"]
    assert sum(name.endswith(".from") for name in fields(again)) == 1, "of the other list as before"
