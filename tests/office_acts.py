"""What a yard's people do, and what the supervisor's pages then say, for tests of the office."""

import html
import re

from fieldapp.record.entries import covers_hash


def text(answer):
    assert answer.status_code == 200, answer.get_data(as_text=True)
    return html.unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.get_data(as_text=True))))


def state(client, unit="07"):
    return client.get(f"/api/units/{client.yard.units[unit]}").get_json()["state"]


def act(client, unit="07", **form):
    return client.send("POST", f"/office/units/{client.yard.units[unit]}/act", data=form)


def record(client, unit="07"):
    return client.get(f"/office/units/{client.yard.units[unit]}")


def read_gap(client, nm=3_000_000, **more):
    return client.entry("reading", {"text": f"{nm / 1e6:g} mm", "nm": nm}, field="gap", **more)


def tick_and_release(lena, second):
    [tick] = lena.kept(lena.entry("tick", {"ticked": True}, step="stop", field="stays"))
    [release] = lena.kept(
        lena.entry(
            "release",
            {"second": lena.yard.people[second], "covers": [tick], "sha256": covers_hash([tick])},
            step="stop",
        )
    )
    return tick, release


def signed(yard, nm=3_000_000):
    """A unit that lena read, released with omar, and signed; the sign-off's id."""
    lena = yard.client("lena")
    [gap] = lena.kept(read_gap(lena, nm))
    tick, release = tick_and_release(lena, "omar")
    [signoff] = lena.kept(lena.signoff(sorted([gap, tick, release])))
    return signoff
