"""`fieldapp work`: lists, examples, schemas, JSON Lines in and out, exit codes."""

import io
import json

import pytest

from fieldapp.work.command import run
from fieldapp.work.lines import MOST_BYTES
from fieldapp.work.registry import CALCULATORS


class Watched(io.BytesIO):
    """A stream that counts the lines that were there at each flush."""

    def __init__(self):
        super().__init__()
        self.flushed = []

    def flush(self):
        self.flushed.append(self.getvalue().count(b"\n"))


def work(*argv, given=b""):
    out, err = Watched(), io.StringIO()
    code = run(list(argv), io.BytesIO(given), out, err)
    return code, out.getvalue().decode(), err.getvalue(), out.flushed


def test_alone_it_lists_every_calculator():
    code, out, err, _ = work()
    assert (code, err) == (0, "")
    assert [line.split()[0] for line in out.splitlines()] == list(CALCULATORS)
    assert all(made.say in out for made in CALCULATORS.values())


@pytest.mark.parametrize("name", CALCULATORS)
def test_the_example_can_be_piped_back(name):
    code, example, _, _ = work(name, "--example")
    assert code == 0
    assert example.count("\n") == 1
    code, out, err, _ = work(name, given=example.encode())
    assert (code, err) == (0, "")
    assert json.loads(out) == CALCULATORS[name].answer(CALCULATORS[name].example)[0]


@pytest.mark.parametrize("name", CALCULATORS)
def test_the_schemas(name):
    code, out, _, _ = work(name, "--schema")
    found = json.loads(out)
    assert (code, list(found)) == (0, ["input", "answer"])
    assert found["input"]["required"]


@pytest.mark.parametrize(
    "argv", [["sundial"], ["rivet", "--help-me"], ["rivet", "--example", "--schema"], ["--example"]]
)
def test_a_wrong_call_is_2_with_a_sentence(argv):
    code, out, err, _ = work(*argv)
    assert (code, out) == (2, "")
    assert err.strip().count("\n") == 0
    assert "work" in err


def test_lines_in_order_blank_ones_skipped_each_flushed():
    right = json.dumps(CALCULATORS["container"].example).encode()
    given = b"\n".join([right, b"", b"  \t", b"[1]", b'{"identification":"CSQU3054383","a":null}', right]) + b"\r\n"
    code, out, err, flushed = work("container", given=given)
    answers = [json.loads(line) for line in out.splitlines()]
    assert (code, err) == (1, "")
    assert [answer.get("valid") for answer in answers] == [True, None, None, True]
    assert list(answers[1]["problems"]) == ["line"]
    assert list(answers[2]["problems"]) == ["a"]
    assert flushed == [1, 2, 3, 4]


def test_no_line_end_at_the_end_and_nothing_at_all():
    assert work("container", given=b'{"identification":"CSQU3054383"}')[0] == 0
    assert work("container", given=b"")[:2] == (0, "")


def test_a_line_that_is_too_long_is_one_problem_and_the_next_is_answered():
    long = b'{"identification":"' + b"x" * (3 * MOST_BYTES) + b'"}\n'
    code, out, _, _ = work("container", given=long + b'{"identification":"CSQU3054383"}\n')
    first, second = (json.loads(line) for line in out.splitlines())
    assert (code, list(first["problems"]), second["valid"]) == (1, ["line"], True)
    just = b'{"identification":"' + b" " * (MOST_BYTES - 32) + b'CSQU3054383"}'
    assert len(just) == MOST_BYTES
    assert list(json.loads(work("container", given=just)[1])["problems"]) == ["identification"]


def test_text_streams_serve_too():
    out = io.StringIO()
    assert run(["container"], io.StringIO('{"identification":"ſ"}\n'), out, io.StringIO()) == 1
    assert "ſ" in out.getvalue()


def test_a_reader_that_goes_away_is_no_traceback(tmp_path):
    class Gone(io.BytesIO):
        def write(self, _):
            raise BrokenPipeError

        def fileno(self):
            return self.spare.fileno()

    out = Gone()
    with open(tmp_path / "spare", "w") as out.spare:
        assert run(["container"], io.BytesIO(b"{}\n"), out, io.StringIO()) == 1


def test_all_problems_of_a_line_come_together():
    line = {"diameter": "1,234", "stack": [{"thickness": "9/8"}], "at": [{"place": ""}], "edge": True, "colour": 1}
    _, out, _, _ = work("rivet", given=json.dumps(line).encode())
    assert set(json.loads(out)["problems"]) == {"diameter", "stack.0.thickness", "at.0.place", "edge", "colour"}


def test_a_blank_text_is_shown_between_its_quotation_marks():
    _, out, _, _ = work("container", given=b'{"identification": "CSQU3054383", "show": " "}')
    assert json.loads(out)["problems"] == {"show": ["“ ” given; mm or in would be right"]}


# each line of it by the contract: (calculator, input, the paths that must be named)
NAMED = [
    (
        "seal",
        {"free_height": 0, "gaps": [{"value": 101}], "band": [50, 40], "waste": 101},
        {"free_height", "gaps.0.value", "band", "waste"},
    ),
    ("seal", {"free_height": 201, "gaps": [], "show": "cm"}, {"free_height", "gaps", "show"}),
    ("seal", {"free_height": 12, "gaps": [{"value": 1}] * 51, "wall": "brick"}, {"gaps", "wall"}),
    (
        "seal",
        {"free_height": 12, "gaps": [{"value": 6}], "wall": "smooth insulated", "starts": 4, "profile": None},
        {"starts", "profile"},
    ),
    (
        "opening",
        {
            "wall": "smooth insulated",
            "frame": {"width": 914, "height": 2030},
            "head_seal": "none",
            "clearance": {"left": 6, "right": -1, "head": 501},
            "head_kit": {"profile": "angled", "rise": 40},
        },
        {"head_kit", "clearance.right", "clearance.head", "clearance.sill"},
    ),
    (
        "opening",
        {
            "wall": "corrugated side",
            "frame": {"width": 914},
            "clearance": 6,
            "edge_trim": "x",
            "head_kit": {"profile": "straight", "rise": 1001},
            "head_seal": {"kind": "bulb", "thickness": 3},
        },
        {
            "head_kit.rise",
            "head_kit.profile",
            "frame.height",
            "clearance",
            "edge_trim",
            "head_seal.free_height",
            "head_seal.compression",
            "head_seal.thickness",
        },
    ),
    (
        "opening",
        {
            "wall": "corrugated end",
            "frame": {"width": 914, "height": 2030},
            "head_kit": "nothing",
            "clearance": {"left": 6, "right": 6, "head": 6, "sill": 0},
            "head_seal": {"kind": "rope"},
            "cut": {"width_head": {"value": "1 m 20 cm", "u": -1}},
            "drawing": {"depth": 3},
        },
        {"head_kit", "head_seal.kind", "cut.width_head.value", "cut.width_head.u", "drawing.depth"},
    ),
    (
        "wheel",
        {
            "disc": {"diameter": 19, "expires": "2027-13", "marked_speed": 0, "damaged": 1},
            "tool": {"rpm": "9000", "guard_on": None},
            "today": "2026-02-30",
        },
        {
            "disc.marked_rpm",
            "disc.diameter",
            "disc.expires",
            "disc.marked_speed",
            "disc.damaged",
            "tool.rpm",
            "tool.guard_on",
            "today",
        },
    ),
    ("container", {"identification": "CSQU30543833"}, {"identification"}),
    (
        "rivet",
        {"diameter": 5, "stack": [{"thickness": 13}], "at": [{"place": "sides", "stand_off": 101}]},
        {"rows", "hole", "stack.0.thickness", "at.0.stand_off"},
    ),
    (
        "rivet",
        {
            "diameter": 4.8,
            "stack": [{"thickness": 2}] * 9,
            "at": [{"place": "x" * 201}],
            "metals": {"rivet": "tin"},
            "rows": [{"name": "a", "grip_from": 2, "grip_to": 1}],
        },
        {"stack", "at.0.place", "metals.rivet", "rows.0.grip_to"},
    ),
    # a list of the wrong length and its items together
    ("seal", {"free_height": 12, "gaps": [{"value": 1}] * 49 + [{"value": 101}, {}]}, {"gaps", "gaps.49.value"}),
    ("container", {"identification": 1, "_schema": 1, "": 1}, {"identification", "_schema", ""}),
    ("seal", {"free_height": 12, "gaps": [{"value": 1, "_schema": 1}]}, {"gaps.0._schema"}),
    (
        "frame",
        {
            "frame": {"width": 299, "height": "4001 mm", "hinge": "top"},
            "rounds": [{"readings": [{"of": "gap", "value": 1}, {"of": "string_gap", "value": 3, "over": 500}]}],
        },
        {"frame.width", "frame.height", "frame.hinge", "rounds.0.readings.0.of", "rounds.0.readings.1.over"},
    ),
]


@pytest.mark.parametrize(("name", "line", "paths"), NAMED)
def test_problems_by_the_contract(name, line, paths):
    code, out, _, _ = work(name, given=json.dumps(line).encode())
    assert code == 1
    assert set(json.loads(out)["problems"]) == paths
