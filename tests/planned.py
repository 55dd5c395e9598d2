"""A small site whose unit 07 has a plan of real choices in force, and what a browser sends of the plan's form."""

import html
import re

import yard as yards
from plan.conftest import plan

from fieldapp.site import reissue
from fieldapp.web import plan_form

CHOICES = plan()
ASKED = ("structure", "plate", "escape", "access", "fire")
ANSWERS = {"structure": "conditions", "plate": "keeps", "escape": "not", "access": "not", "fire": "not"}


def site(folder):
    """The yard; `packets["07"]` is the hash in force."""
    yard = yards.make(folder)
    issue(yard, CHOICES)
    return yard


def issue(yard, choices, unit="07"):
    with yard.app.app_context():
        made = reissue.built(yard.units[unit], choices)
        assert reissue.issue(yard.units[unit], choices, made, yard.packets[unit], "first plan", yard.people["ruth"])
        yard.packets[unit] = made.hash


def form_of(choices, **changed):
    """What a browser sends of the form, with some fields typed otherwise (dots as two underscores)."""
    given = {path: text for path, text in plan_form.texts(choices).items() if text}
    return given | {path.replace("__", "."): text for path, text in changed.items()}


def words(answer):
    """A page's words without its marks."""
    return html.unescape(re.sub(r"<[^>]+>", " ", answer.get_data(as_text=True)))


def answers(*asked, **more):
    """What a browser sends of the page of who decides, with these questions answered."""
    given = {}
    for what in asked:
        given |= {
            f"decide-{what}.answer": ANSWERS[what],
            f"decide-{what}.who": f"H. Quill, {what}",
            f"decide-{what}.decided_on": "2026-10-21",
        }
    return given | more
