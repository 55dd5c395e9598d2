"""The phone's normal distribution and verdicts against Python's: JavaScript has no error function of its own."""

import pytest

from fieldapp.trade.estimate import chance

MODULE = "phone/chance.js"
STEPS = [at / 37 for at in range(-1500, 1501)]


def test_phi_agrees_to_1e_13(module_page):
    seen = module_page.call(MODULE, "phi", [[z] for z in STEPS])
    assert seen == pytest.approx([chance.phi(z) for z in STEPS], abs=1e-13)


def test_phi_agrees_in_the_tail_where_it_is_small(module_page):
    far = [z for z in STEPS if z < -2]
    assert module_page.call(MODULE, "phi", [[z] for z in far]) == pytest.approx([chance.phi(z) for z in far], rel=1e-11)


def test_chances_and_verdicts_agree(module_page):
    cases = [(m, u, low, high) for m in (-2.0, 0.0, 1.6, 1.9) for u in (0.0, 0.2, 3.0)
             for low, high in ((-1.6, 1.6), (None, 1.6), (-1.6, None), (2.0, 1.0), (None, None))]
    ours = [chance.chance_inside(*case) for case in cases]
    assert module_page.call(MODULE, "chanceInside", cases) == pytest.approx(ours, abs=1e-13)
    edges = [0.0, 0.025, 0.0250004, 0.0250006, 0.5, 0.9749994, 0.9749996, 0.975, 1.0]
    assert module_page.call(MODULE, "verdict", [[one] for one in edges]) == [chance.verdict(one) for one in edges]
