"""Photos as files: looked at before they are decoded, re-encoded upright without metadata, kept by their hash."""

import io
import os
import secrets
import threading
import time
import warnings
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

from ..store.ids import sha256
from .sessions import settings

BYTES_LIMIT = 12 << 20
PIXELS_LIMIT = 50_000_000
_FORMATS = ("JPEG", "PNG", "WEBP")
# Decoded pictures are large; two at a time keep the memory of a small machine flat.
_decoders = threading.BoundedSemaphore(2)
Image.MAX_IMAGE_PIXELS = PIXELS_LIMIT
warnings.simplefilter("error", Image.DecompressionBombWarning)


class NoPicture(ValueError):
    """The bytes are not a picture that is taken; the text says why."""


class TooLarge(ValueError):
    """The picture has too many pixels; the text says how many."""


@dataclass(frozen=True)
class Kept:
    """A re-encoded picture on disk."""

    hash: str
    width: int
    height: int


def folder() -> Path:
    """Where photos lie: in the site, outside anything served as files."""
    path = settings().site / "photos"
    path.mkdir(mode=0o700, exist_ok=True)
    return path


def path_of(kept: str) -> Path:
    """File of a kept picture."""
    return folder() / f"{kept}.jpg"


def keep(data: bytes) -> Kept:
    """Re-encode and put on disk: temporary file, fsync, rename. Raises NoPicture, TooLarge."""
    with _decoders:
        body, width, height = reencoded(data)
    kept = Kept(sha256(body), width, height)
    _write(path_of(kept.hash), body)
    return kept


def reencoded(data: bytes) -> tuple[bytes, int, int]:
    """(JPEG bytes, width, height) of a JPEG, PNG or WebP: first frame, upright, no EXIF, no profile of a camera.

    Pixels are counted in the header, before anything is decoded. Raises NoPicture, TooLarge.
    """
    try:
        with Image.open(io.BytesIO(data), formats=_FORMATS) as picture:
            if picture.width * picture.height > PIXELS_LIMIT:
                raise TooLarge(f"{picture.width} × {picture.height} pixels; at most {PIXELS_LIMIT:,}")
            picture.load()
            upright = ImageOps.exif_transpose(picture)
            plain = _on_white(upright)
            out = io.BytesIO()
            plain.save(out, "JPEG", quality=90)
            return out.getvalue(), plain.width, plain.height
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as fault:
        raise TooLarge(str(fault)) from None
    except TooLarge:
        raise
    except (
        UnidentifiedImageError,
        OSError,
        SyntaxError,
        ValueError,
        EOFError,
        OverflowError,
        KeyError,
        IndexError,
        TypeError,
        AttributeError,
        ZeroDivisionError,
        MemoryError,
        NotImplementedError,  # one of Pillow's, for a mode that it cannot read
        RuntimeError,
        Warning,
    ) as fault:
        # Pillow's plugins raise what they like over broken files.
        raise NoPicture(f"not a JPEG, PNG or WebP that can be decoded ({type(fault).__name__})") from None


def _on_white(picture: Image.Image) -> Image.Image:
    """As plain RGB; what is see-through stands on white."""
    if "A" not in picture.getbands() and "transparency" not in picture.info:
        return picture.convert("RGB") if picture.mode != "RGB" else _bare(picture)
    layer = picture.convert("RGBA")
    ground = Image.new("RGB", layer.size, "white")
    ground.paste(layer, mask=layer.getchannel("A"))
    return ground


def _bare(picture: Image.Image) -> Image.Image:
    copy = picture.copy()
    copy.info.clear()
    return copy


def sweep(known: Callable[[list[str]], set[str]]) -> int:
    """Take away what a killed process left: parts, and pictures without a row, older than a day. Returns how many.

    known: those of these hashes that have a row.
    """
    day_ago = time.time() - 86_400
    old = [path for path in folder().iterdir() if path.stat().st_mtime < day_ago]
    pictures = [path.stem for path in old if path.suffix == ".jpg"]
    there = known(pictures) if pictures else set()
    left = [path for path in old if path.suffix == ".part" or (path.suffix == ".jpg" and path.stem not in there)]
    for path in left:
        path.unlink(missing_ok=True)
    return len(left)


def _write(path: Path, body: bytes) -> None:
    if path.exists():
        return
    fresh = path.with_name(f".{secrets.token_hex(8)}.part")
    try:
        with open(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as out:
            out.write(body)
            out.flush()
            os.fsync(out.fileno())
        os.replace(fresh, path)
        _sync_folder(path.parent)
    finally:
        fresh.unlink(missing_ok=True)


def _sync_folder(path: Path) -> None:
    if hasattr(os, "O_DIRECTORY"):
        handle = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
