"""What an order asks that the site has already, or has not."""

from sqlalchemy.orm import Session

from fieldapp.site.order_file import Order
from fieldapp.store import people, units


def clashes(session: Session, order: Order) -> list[str]:
    """A sentence for each fault: path, value, what would be right; [] when the order can be kept."""
    known = {crew.name for crew in people.crews(session)} | set(order.crews)
    return [*_people(session, order, known), *_units(session, order, known)]


def _no_crew(path: str, name: str, known: set[str]) -> str:
    right = "one of the crews " + ", ".join(map(repr, sorted(known))) if known else "a crew, as [[crew]]"
    return f"{path}: {name!r}; right would be {right}."


def _people(session: Session, order: Order, known: set[str]) -> list[str]:
    found = []
    for number, one in enumerate(order.people):
        if people.by_name(session, one["name"]) is not None:
            found.append(f"person.{number}.name: {one['name']!r} is in this site; right would be another name.")
        if one["crew"] is not None and one["crew"] not in known:
            found.append(_no_crew(f"person.{number}.crew", one["crew"], known))
    return found


def _units(session: Session, order: Order, known: set[str]) -> list[str]:
    found = []
    here = {job.name: job.id for job in units.jobs(session)}
    for number, job in enumerate(order.jobs):
        in_job = units.in_job(session, here[job["name"]]) if job["name"] in here else []
        taken = {unit.number for unit in in_job}
        for at, unit in enumerate(job["units"]):
            path = f"job.{number}.unit.{at}"
            if unit["crew"] not in known:
                found.append(_no_crew(f"{path}.crew", unit["crew"], known))
            if unit["number"] in taken:
                found.append(f"{path}.number: {unit['number']!r} is in this job; right would be another number.")
    return found
