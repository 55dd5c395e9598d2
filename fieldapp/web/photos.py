"""PUT and GET /api/photos/SHA256."""

from flask import Blueprint, make_response, request
from werkzeug.wrappers import Response

from ..store import photos as store
from ..store.base import read, write
from ..store.ids import sha256
from . import photo_files
from .doors import EVERYBODY, door
from .entry_fields import is_hash
from .problems import stop
from .sessions import person

photos = Blueprint("photos", __name__)


@door(
    photos,
    "/api/photos/<hash>",
    who=("installer", "supervisor"),
    methods=["PUT"],
    doc={
        "summary": "Send a photo, named by the SHA-256 of its bytes",
        "picture": True,
        "answer": "Photo",
        "may_create": True,
    },
)
def put_photo(hash: str) -> Response:
    """Kept re-encoded; 201, and 200 when it was here."""
    data = _data(hash)
    with read() as session:
        before = store.get(session, hash)
    there = before if before is not None and photo_files.path_of(before.kept).exists() else None
    kept = photo_files.Kept(there.kept, there.width, there.height) if there else _kept(data)
    with write() as session:
        row = store.put(session, hash, kept.hash, kept.width, kept.height, person().id)
    body = {"sha256": hash, "kept": row.kept, "width": row.width, "height": row.height}
    return make_response(body, 200 if before is not None else 201)


def _data(hash: str) -> bytes:
    if not is_hash(hash):
        stop(
            422,
            "bad_shape",
            "the address ends in no SHA-256 in lower-case hex",
            {"sha256": ["64 hex digits would be right"]},
        )
    request.max_content_length = photo_files.BYTES_LIMIT
    if (request.content_length or 0) > photo_files.BYTES_LIMIT:
        sentence = f"{request.content_length} bytes; at most {photo_files.BYTES_LIMIT}"
        stop(413, "too_big", f"the photo has {sentence}", {"photo": [sentence]})
    data = request.get_data(cache=False)
    if sha256(data) != hash:
        sentence = f"the bytes sent have the SHA-256 {sha256(data)}"
        stop(422, "bad_shape", f"{sentence}, not the one in the address", {"sha256": [sentence]})
    return data


def _kept(data: bytes) -> photo_files.Kept:
    try:
        return photo_files.keep(data)
    except photo_files.NoPicture as fault:
        stop(422, "bad_shape", f"the bytes are {fault}", {"photo": [str(fault)]})
    except photo_files.TooLarge as fault:
        stop(413, "too_big", f"the picture has {fault}", {"photo": [str(fault)]})


@door(
    photos,
    "/api/photos/<hash>",
    who=EVERYBODY,
    doc={"summary": "A photo, re-encoded", "picture_answer": True, "tagged": True},
)
def get_photo(hash: str) -> Response:
    """For whoever sees a unit with an entry that names it, or sent it."""
    with read() as session:
        photo = store.seen(session, person(), hash) if is_hash(hash) else None
    path = photo_files.path_of(photo.kept) if photo else None
    if photo is None or path is None or not path.exists():
        stop(404, "not_found", "no photo of that hash, or not for you")
    response = make_response(path.read_bytes())
    response.content_type = "image/jpeg"
    response.headers["Cache-Control"] = "private, no-cache"
    response.set_etag(photo.kept)
    return response.make_conditional(request)
