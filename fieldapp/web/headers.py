"""What every answer carries, and what a request must carry that changes something."""

import gzip
from urllib.parse import urlsplit

from flask import Flask, Response, current_app, request

from .doors import declaration
from .problems import stop, told
from .sessions import prolong, settings

API = 1
OLDEST = 1
CSP = (
    "default-src 'self'; img-src 'self' blob:; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; "
    "form-action 'self'"
)
_SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
_LOOPBACK = frozenset({"127.0.0.1", "localhost", "::1"})
_TEXT = (
    "text/",
    "application/json",
    "application/problem+json",
    "application/manifest+json",
    "image/svg+xml",
)


def check_host() -> None:
    """Only the site's own name and this machine's own names are answered (health checks come by any)."""
    if request.path.startswith("/health/"):
        return
    try:
        name = urlsplit(f"//{request.environ.get('HTTP_HOST', '')}").hostname or ""
    except ValueError:
        name = ""
    if name not in _LOOPBACK and name != urlsplit(settings().address).hostname:
        stop(400, "bad_request", f"host {told(name)} is not this site's; {settings().address} would be right")


def check_version() -> None:
    """A Fieldapp-Api that is no longer served: 426."""
    text = request.headers.get("Fieldapp-Api")
    if text is not None and text.strip().isdecimal() and len(text) < 10 and int(text) < OLDEST:
        stop(
            426,
            "too_old",
            f"Fieldapp-Api {told(text)} is no longer served; {OLDEST} to {API} are",
            retry="after_update",
        )


def check_origin() -> None:
    """What changes something comes from our own pages, else 403, whoever asks."""
    if request.method in _SAFE or request.endpoint is None:
        return
    if not declaration(current_app, request.endpoint)["asks_origin"]:
        return
    site = request.headers.get("Sec-Fetch-Site")
    origin = request.headers.get("Origin")
    if site is not None and site != "same-origin":
        stop(403, "cross_site", f"Sec-Fetch-Site is {told(site)}; same-origin would be right")
    if site is None and origin not in settings().origins:
        stop(403, "cross_site", f"Origin is {told(origin or 'missing')}; {settings().address} would be right")
    if request.path.startswith("/api/"):
        _check_api_headers()


def _check_api_headers() -> None:
    version = request.headers.get("Fieldapp-Api", "")
    if not version.strip().isdecimal():
        stop(
            403,
            "cross_site",
            f"the header Fieldapp-Api is {told(version or 'missing')}; {API} would be right",
        )
    bodyless = request.method == "DELETE" and not request.content_length
    if not (request.mimetype == "application/json" or request.mimetype.startswith("image/") or bodyless):
        stop(
            403,
            "cross_site",
            f"content type is {told(request.mimetype or 'missing')}; application/json (or image/… for "
            "a photo) would be right",
        )


def always(app: Flask) -> dict[str, str]:
    """The headers of every answer."""
    return {
        "Fieldapp-Api": str(API),
        "Fieldapp-Shell": app.config["FIELDAPP_SHELL"].version,
        "X-Content-Type-Options": "nosniff",
        "Content-Security-Policy": CSP,
        "Referrer-Policy": "same-origin",
        "Permissions-Policy": "camera=(self), microphone=(), geolocation=()",
    }


def finish(response: Response) -> Response:
    """After each request: headers, gzip."""
    headers = response.headers
    headers.update(always(current_app))
    if request.path.startswith("/api/"):
        headers.setdefault("Cache-Control", "no-store")
        if request.method == "OPTIONS" and response.status_code < 400:
            headers.remove("Content-Type")  # empty, and nothing under /api/ is HTML
    elif "Cache-Control" not in headers:
        headers["Cache-Control"] = "no-store" if response.status_code != 200 else "private, no-cache"
    prolong(response)
    return _packed(response)


def _packed(response: Response) -> Response:
    """The answer gzipped for whoever takes it."""
    if not (response.mimetype or "").startswith(_TEXT) or response.direct_passthrough or response.is_streamed:
        return response
    response.vary.add("Accept-Encoding")
    body = response.get_data()
    if body and request.accept_encodings["gzip"] > 0:
        response.set_data(gzip.compress(body, 6, mtime=0))
        response.headers["Content-Encoding"] = "gzip"
    return response
