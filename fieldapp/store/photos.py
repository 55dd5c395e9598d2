"""Photos' rows: what was sent, by whom, and who may see it. The files are the web room's."""

from sqlalchemy import exists, or_, select
from sqlalchemy.orm import Session

from .base import now_ms
from .models import Person, Photo, PhotoNamed, PhotoSender, Unit


def get(session: Session, sha256: str) -> Photo | None:
    """The photo whose sent bytes hash so."""
    return session.get(Photo, sha256)


def put(session: Session, sha256: str, kept: str, width: int, height: int, person_id: str) -> Photo:
    """Keep a photo's row (the file lies there already) and who sent it. Inside a write transaction."""
    photo = session.get(Photo, sha256)
    if photo is None:
        photo = Photo(sha256=sha256, kept=kept, width=width, height=height, received=now_ms())
        session.add(photo)
    photo.kept, photo.width, photo.height = kept, width, height  # another where a lost file was made anew
    session.flush()
    session.merge(PhotoSender(sha256=sha256, person_id=person_id))
    session.flush()
    return photo


def rows_of(session: Session, kept: list[str]) -> set[str]:
    """Those of these kept pictures that have a row."""
    found: set[str] = set()
    for start in range(0, len(kept), 500):
        found.update(session.scalars(select(Photo.kept).where(Photo.kept.in_(kept[start : start + 500]))))
    return found


def seen(session: Session, person: Person, sha256: str) -> Photo | None:
    """The photo where this person sent it or sees a unit with an entry that names it, else None."""
    names = select(PhotoNamed.sha256).join(Unit, Unit.id == PhotoNamed.unit_id).where(PhotoNamed.sha256 == Photo.sha256)
    if person.crew_id is not None:
        names = names.where(Unit.crew_id == person.crew_id)
    sent = select(PhotoSender.sha256).where(PhotoSender.sha256 == Photo.sha256, PhotoSender.person_id == person.id)
    return session.scalar(select(Photo).where(Photo.sha256 == sha256, or_(exists(names), exists(sent))))
