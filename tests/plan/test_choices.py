"""Choices: one set that fits, or a sentence for each fault with path, value and what would be right."""

import pytest
from plan.conftest import all_plans, plan

from fieldapp.plan.choices import check, read


def changed(path, value, **base):
    """A plan with one thing put otherwise; None takes it away."""
    made = plan(**base)
    *tables, key = path.split(".")
    table = made
    for name in tables:
        table = table.setdefault(name, {})
    if value is None:
        del table[key]
    else:
        table[key] = value
    return made


def test_every_variant_fits():
    for chosen in all_plans():
        assert check(plan(**chosen)) == []


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("wall", "brick", "wall: 'brick'; right would be one of 'corrugated side'"),
        ("wall", None, "wall: missing; right would be one of"),
        ("hand", 3, "hand: 3; right would be one of 'left', 'right'"),
        ("frame.width", "3 feet wide", "frame.width: '3 feet wide'; right would be a length of 300 mm to 3000 mm"),
        ("frame.width", 1e9, "frame.width: 1000000000.0; right would be a length of 300 mm to 3000 mm"),
        ("frame.width", -914, "frame.width: -914; right would be"),
        ("frame.width", True, "frame.width: True; right would be"),
        ("frame.height", float("nan"), "frame.height: nan; right would be"),
        ("frame.width", "1,234", "frame.width: '1,234'; right would be"),
        ("frame", None, "frame: missing; right would be a table, as [frame]"),
        ("frame", 914, "frame: 914; right would be a table, as [frame]"),
        ("corners.width", 914, "corners.width: 914.0; right would be less than the frame's width over all, 914 mm"),
        ("clearance.left", -1, "clearance.left: -1; right would be a length of 0 mm to 500 mm"),
        ("head_kit.profile", "round", "head_kit.profile: 'round'; right would be one of 'angled', 'straight'"),
        (
            "head_kit.profile",
            "angled",
            "head_kit.profile: 'angled'; right would be 'straight' on a corrugated end wall",
        ),
        ("head_seal.free_height", None, "head_seal.free_height: missing; right would be a length of 1 mm to 200 mm"),
        ("head_seal.compression", 96, "head_seal.compression: 96; right would be a number of 0 to 95"),
        ("head_seal.band", [50, 40], "head_seal.band: [50, 40]; right would be two rising numbers of 0 to 95"),
        ("head_seal", {"kind": "rope"}, "head_seal.kind: 'rope'; right would be one of 'bulb', 'bead'"),
        ("side_edges.kind", "tape", "side_edges.kind: 'tape'; right would be one of 'edge trim', 'sealant'"),
        ("rivet", 5, "rivet: 5; right would be one of 3.2, 4, 4.8, 6.4"),
        ("mass.leaf", 0, "mass.leaf: 0; right would be a number of 1 to 1000"),
        ("hardware.limit", "rope", "hardware.limit: 'rope'; right would be one of 'chain', 'stop'"),
        ("hardware.closer", "yes", "hardware.closer: 'yes'; right would be true or false"),
        ("glass", "a lot", "glass: 'a lot'; right would be one of 'none', 'half', 'full'"),
        ("tolerance.plumb", 0, "tolerance.plumb: 0; right would be a length of 0.1 mm to 100 mm"),
        ("watch_minutes", 10, "watch_minutes: 10; right would be a number of 30 to 600"),
        ("colour", "red", "colour: 'red'; right would be nothing by that name, only "),
        ("hardware.knob", 1, "hardware.knob: 1; right would be nothing by that name, only "),
    ],
)
def test_a_fault_is_one_sentence(path, value, said):
    faults = check(changed(path, value))
    assert len(faults) == 1, faults
    assert faults[0].startswith(said), faults
    assert faults[0].endswith(".")


def test_all_faults_come_together_and_read_refuses():
    made = changed("hand", "up") | {"glass": "a lot"}
    assert len(check(made)) == 2
    with pytest.raises(ValueError, match=r"hand: 'up'.*\n.*glass"):
        read(made)
    assert check([])[0].startswith("plan: []; right would be a table of choices")


def test_lengths_are_read_as_people_type_them():
    # 36 1/2 in = 36.5 · 25.4 mm
    assert read(changed("frame.width", "36 1/2 in")).frame_width == pytest.approx(927.1, abs=1e-9)


def test_a_smooth_wall_takes_no_head_kit():
    faults = check(changed("head_kit", {"profile": "straight", "rise": 44}, wall="smooth insulated"))
    assert faults == ["head_kit.profile: 'straight'; right would be 'none' on a smooth insulated wall."]
