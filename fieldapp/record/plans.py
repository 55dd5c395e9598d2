"""Which plan is in force, which were ever issued here, and whether two differ for a sign-off."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from fieldapp.record.entries import Json
from fieldapp.record.standing import Index


@dataclass(frozen=True)
class Plan:
    """The packet in force (`packet` is {} while it is not at hand) and every hash issued → its English
    one."""

    hash: str | None
    packet: Json
    issued: dict[str, str]


def _issue_hashes(issue: Json) -> list[str]:
    """The English packet's hash, then those of the other languages in order of language."""
    value = issue.get("value", {})
    others = value.get("others") or {}
    return [value["packet"], *(others[lang] for lang in sorted(others))]


def in_force(index: Index, packets: Mapping[str, Json]) -> Plan:
    """The plan of the standing issue with the greatest id; a packet in another language serves where the
    English is not at hand."""
    issues = [entry for entry in index.counted.values() if entry["kind"] == "issue"]
    issued = {hash_: _issue_hashes(entry)[0] for entry in issues for hash_ in _issue_hashes(entry)}
    standing = index.of_kind("issue")
    if not standing:
        return Plan(None, {}, issued)
    hashes = _issue_hashes(standing[-1])
    at_hand = next((packets[hash_] for hash_ in hashes if hash_ in packets), {})
    return Plan(hashes[0], at_hand, issued)


def signed_steps(packet: Json) -> dict[str, Json]:
    """The packet's steps that a sign-off covers, by id, in the packet's order."""
    return {step["id"]: step for step in packet.get("steps", []) if step.get("signed", True)}


def differs(plan: Plan, named: str | None, packets: Mapping[str, Json]) -> bool:
    """Whether a sign-off made under the packet `named` no longer fits the plan in force.

    A step of the plan in force that is not the same in the other, or one of the other's that was taken out;
    steps that no sign-off covers aside. The same plan in another language is the same plan. A packet that was
    never issued here, or is not at hand to compare, counts as differing: nobody could say that it fits.
    """
    english = plan.issued.get(named) if named is not None else None
    if english is None:
        return True
    if english == plan.hash:
        return False
    if english not in packets or not plan.packet:
        return True
    then, now = packets[english], plan.packet
    all_now = {step["id"] for step in now.get("steps", [])}
    before = {step["id"]: step for step in then.get("steps", [])}
    if any(before.get(key) != step for key, step in signed_steps(now).items()):
        return True
    return any(key not in all_now for key in signed_steps(then))


def wanted(held: Json) -> list[str]:
    """Hashes of the packets that `result` may look at, sorted: all that were issued on the unit."""
    issues: Iterable[Json] = (entry for entry in held["entries"].values() if entry["kind"] == "issue")
    return sorted({hash_ for issue in issues for hash_ in _issue_hashes(issue)})
