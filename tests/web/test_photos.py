"""Photos: re-encoded, upright, without metadata; bombs and broken files refused; who may see them."""

import hashlib
import io
import os
import struct
import zlib

import pytest
import yard as yards
from PIL import Image
from yard import FROM_HERE

from fieldapp.web import photo_files


def picture(kind="JPEG", size=(40, 20), colour="red", **more):
    out = io.BytesIO()
    Image.new("RGB", size, colour).save(out, kind, **more)
    return out.getvalue()


def put(client, data, name=None, kind="image/jpeg"):
    return client.send("PUT", f"/api/photos/{name or hashlib.sha256(data).hexdigest()}", data=data, content_type=kind)


def gps_and_turned():
    """A JPEG that lies on its side (EXIF 2.32: Orientation 6) and says where it was taken."""
    exif = Image.Exif()
    exif[0x0112] = 6
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (51.0, 30.0, 0.0)
    exif[0x010F] = "a maker"
    return picture(exif=exif.tobytes())


@pytest.fixture
def lena(shared):
    return shared.client("lena")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_kept_then_had(lena, kind):
    data = picture(kind, colour={"JPEG": "red", "PNG": "green", "WEBP": "blue"}[kind])
    first, again = put(lena, data, kind=f"image/{kind.lower()}"), put(lena, data)
    assert (first.status_code, again.status_code) == (201, 200)
    assert first.get_json() == again.get_json()
    body = first.get_json()
    assert (body["sha256"], body["width"], body["height"]) == (hashlib.sha256(data).hexdigest(), 40, 20)
    got = lena.get(f"/api/photos/{body['sha256']}")
    assert (got.status_code, got.content_type) == (200, "image/jpeg")
    assert got.headers["Cache-Control"] == "private, no-cache"
    assert hashlib.sha256(got.get_data()).hexdigest() == body["kept"]
    assert lena.get(f"/api/photos/{body['sha256']}", **{"If-None-Match": got.headers["ETag"]}).status_code == 304


def test_no_metadata_and_upright(lena):
    data = gps_and_turned()
    assert Image.open(io.BytesIO(data)).getexif().get_ifd(0x8825)
    body = put(lena, data).get_json()
    assert (body["width"], body["height"]) == (20, 40)
    raw = lena.get(f"/api/photos/{body['sha256']}").get_data()
    kept = Image.open(io.BytesIO(raw))
    assert kept.size == (20, 40)
    assert not kept.getexif()
    assert b"Exif" not in raw
    assert b"a maker" not in raw
    assert set(kept.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


def test_comments_profiles_and_transparency_go(lena):
    data = picture("JPEG", comment=b"taken by somebody", icc_profile=b"x" * 200)
    body = put(lena, data).get_json()
    raw = lena.get(f"/api/photos/{body['sha256']}").get_data()
    assert b"somebody" not in raw
    assert "icc_profile" not in Image.open(io.BytesIO(raw)).info
    out = io.BytesIO()
    Image.new("RGBA", (8, 8), (255, 0, 0, 0)).save(out, "PNG")
    body = put(lena, out.getvalue()).get_json()
    seen = Image.open(io.BytesIO(lena.get(f"/api/photos/{body['sha256']}").get_data()))
    assert min(seen.getpixel((4, 4))) > 250


def png_header_only(width, height):
    """A PNG that claims a size and holds next to nothing (W3C PNG, 5 and 11.2)."""

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
        + chunk(b"IDAT", zlib.compress(b"\0" * 1000))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("size", [(20000, 20000), (12000, 12000), (7100, 7100), (2**31 - 1, 1)])
def test_bombs_are_refused_by_their_header(lena, size):
    answer = put(lena, png_header_only(*size))
    assert answer.status_code == 413
    assert answer.get_json()["type"] == "urn:fieldapp:too_big"


def test_50_megapixels_is_the_limit():
    assert 7071 * 7071 <= photo_files.PIXELS_LIMIT < 7100 * 7100


WRONG = {
    "text": b"no picture at all",
    "empty": b"",
    "gif": picture("GIF"),
    "cut": picture("PNG", (300, 300))[:-200],
    "cut-jpeg": picture("JPEG", (300, 300))[:300],
    "header": png_header_only(4, 4)[:40],
    "bmp": picture("BMP"),
    "riff": b"RIFF\x24\0\0\0WEBPVP8 ",
    "svg": b"<svg xmlns='http://www.w3.org/2000/svg'/>",
    "heic": b"\0\0\0\x18ftypheic" * 4,
    "zero": png_header_only(0, 10),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_is_no_picture_is_refused(lena, name):
    answer = put(lena, WRONG[name])
    assert answer.status_code == 422
    assert "photo" in answer.get_json()["problems"]


def test_every_cut_and_every_changed_byte_is_answered(lena):
    data = picture("PNG", (6, 6))
    for at in range(0, len(data), 3):
        for broken in (data[:at], data[:at] + bytes([data[at] ^ 0xFF]) + data[at + 1 :]):
            assert put(lena, broken).status_code in (200, 201, 413, 422), at


def test_wrong_hash(lena):
    data = picture()
    for name in ("a" * 64, "A" * 64, "x", hashlib.sha256(data).hexdigest().upper()):
        answer = put(lena, data, name)
        assert (answer.status_code, list(answer.get_json()["problems"])) == (422, ["sha256"])


def test_too_many_bytes(lena):
    data = picture() + b"\0" * (12 << 20)
    answer = put(lena, data)
    assert answer.status_code == 413
    assert put(lena, data[: 12 << 20]).status_code == 201


def test_who_may_see_it(yard):
    lena, omar, pia, ruth = (yard.client(name) for name in ("lena", "omar", "pia", "ruth"))
    data = picture(colour="yellow")
    sha = hashlib.sha256(data).hexdigest()
    path = f"/api/photos/{sha}"
    assert put(lena, data).status_code == 201
    assert [c.get(path).status_code for c in (lena, omar, pia, ruth)] == [200, 404, 404, 404]
    lena.kept(lena.entry("photo", {"sha256": sha, "bytes": len(data)}, unit="07"))
    assert [c.get(path).status_code for c in (lena, omar, pia, ruth)] == [200, 200, 404, 200]
    assert put(pia, data).status_code == 200
    assert pia.get(path).status_code == 200
    assert yard.client().get(path).status_code == 401


def test_its_entry_may_come_first(yard):
    lena, omar = yard.client("lena"), yard.client("omar")
    data = picture(colour="purple")
    sha = hashlib.sha256(data).hexdigest()
    lena.kept(lena.entry("photo", {"sha256": sha, "bytes": len(data)}))
    assert omar.get(f"/api/photos/{sha}").status_code == 404
    put(lena, data)
    assert omar.get(f"/api/photos/{sha}").status_code == 200


def test_a_lost_file_is_put_back_by_sending_again(yard):
    lena, data = yard.client("lena"), picture()
    kept = put(lena, data).get_json()["kept"]
    (yard.site / "photos" / f"{kept}.jpg").unlink()
    sha = hashlib.sha256(data).hexdigest()
    assert lena.get(f"/api/photos/{sha}").status_code == 404
    assert put(lena, data).status_code == 200
    assert lena.get(f"/api/photos/{sha}").status_code == 200


def test_files_lie_by_their_hash_alone(yard):
    put(yard.client("lena"), picture())
    names = [path.name for path in (yard.site / "photos").iterdir()]
    assert len(names) == 1
    assert len(names[0]) == 68
    assert names[0].endswith(".jpg")


def test_photos_ask_for_a_picture_type_and_a_role(shared):
    data = picture()
    answer = shared.client("lena").http.put(
        "/api/photos/" + "a" * 64, data=data, content_type="text/plain", headers=FROM_HERE
    )
    assert answer.get_json()["type"] == "urn:fieldapp:cross_site"
    assert put(shared.client("ada"), data).status_code == 403


def test_what_a_killed_process_left_is_swept_after_a_day(yard):
    lena, folder = yard.client("lena"), yard.site / "photos"
    kept = put(lena, picture()).get_json()["kept"]
    orphan, part, fresh = folder / f"{'0' * 64}.jpg", folder / ".abc.part", folder / f"{'1' * 64}.jpg"
    for path in (orphan, part, fresh):
        path.write_bytes(b"x")
    for path in (orphan, part, folder / f"{kept}.jpg"):
        os.utime(path, (0, 0))
    yards.create_app(yard.site, yard.app.config["FIELDAPP_SETTINGS"])
    assert {path.name for path in folder.iterdir()} == {f"{kept}.jpg", fresh.name}
