"""The `fieldapp` command: a table of subcommands, each a few lines over the room that does the work."""

import argparse
import json
import logging
import shutil
import socket
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from . import __version__, settings
from .settings import DEFAULT_PORT, Settings, SettingsError

Args = argparse.Namespace


class Wrong(Exception):
    """The options do not go together; exit 2."""


def main(argv: list[str] | None = None) -> int:
    """Run one subcommand; returns the exit code: 0, 1 with a sentence on standard error, 2 for wrong options."""
    words = sys.argv[1:] if argv is None else argv
    if words[:1] == ["work"]:  # its options are the calculators' own
        from .work import command

        return command.run(words[1:], sys.stdin, sys.stdout, sys.stderr)
    args = _parser().parse_args(words)
    run: Callable[[Args], int] = args.run
    try:
        return run(args)
    except Wrong as fault:
        return _say(fault, 2)
    except (SettingsError, OSError) as fault:
        return _say(fault, 1)
    except RuntimeError as fault:
        if isinstance(fault, _faults()):
            return _say(fault, 1)
        raise


def _say(fault: Exception, code: int) -> int:
    print(f"fieldapp: {' '.join(str(fault).split())}", file=sys.stderr)
    return code


def _faults() -> tuple[type[RuntimeError], ...]:
    from .site.make import SiteError
    from .store.opening import StoreError

    return StoreError, SiteError


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="fieldapp", description="Checklist and measurement logger for steel doors in container walls."
    )
    parser.add_argument("--version", action="version", version=__version__)
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    for name, (say, options, run) in _COMMANDS.items():
        command = commands.add_parser(name, help=say, description=say)
        options(command)
        command.set_defaults(run=run)
    return parser


def _serving_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--host", default="127.0.0.1", help="address to listen on (default 127.0.0.1)")
    parser.add_argument("--port", type=_port, help=f"0 takes a free one (default {DEFAULT_PORT})")
    parser.add_argument("--site", help="the site's folder (default: FIELDAPP_SITE)")
    parser.add_argument("--json", action="store_true", help="the start report as one line of JSON")


def _port(text: str) -> int:
    if not (text.isascii() and text.isdecimal() and len(text) < 6 and int(text) < 65536):
        raise argparse.ArgumentTypeError(f"{text!r}: a port from 0 to 65535 would be right")
    return int(text)


def _site(given: str | None) -> Path:
    site = settings.site_folder(given)
    if site is None:
        raise Wrong("no site named: --site DIR or the setting FIELDAPP_SITE would be right")
    return site


def _want_site(site: Path) -> Path:
    from .site import make

    if not make.is_site(site):
        raise make.SiteError(f"no site in {site}; `fieldapp new-site {site}` makes one")
    return site


def _new_site(args: Args) -> int:
    from .site import make

    site = Path(args.dir).expanduser().absolute()
    path = make.new_site(site)
    print(
        f"A site in {site}. Its first administrator signs in within 24 hours, once, at\n"
        f"{settings.load(site).address}{path}"
    )
    return 0


def _serve(args: Args) -> int:
    from .site import make

    site = _want_site(_site(args.site))
    return _run(args, site, settings.load, lambda: [], or_next=False, hold=make.hold)


def _demo(args: Args) -> int:
    from .site import demo, make

    stop = _stop()
    given = settings.site_folder(args.site)
    site = given or Path(tempfile.mkdtemp(prefix="fieldapp-demo-"))
    try:
        sock = _listening(args, site, make.demo_settings, or_next=True)
        with stop.at_once():
            make.demo_site(site, demo.seed)
        if stop.asked.is_set():
            return 0
        return _run(args, site, make.demo_settings, demo.people, or_next=True, hold=make.hold, sock=sock, stop=stop)
    finally:
        if given is None:
            shutil.rmtree(site, ignore_errors=True)


def _stop() -> Any:
    from .site import serve

    return serve.Stop()


def _listening(args: Args, site: Path, load: Callable[[Path, int | None], Settings], or_next: bool) -> socket.socket:
    """The socket, before anything slow is done. Raises Wrong where phones could not find what it would serve."""
    from .site import serve

    if args.host != "127.0.0.1" and not load(site, None).given_address:
        raise Wrong(
            f"--host is {args.host!r}, and FIELDAPP_ADDRESS is not set: give the address that phones open, as "
            "https://name (labels and sign-in use it; phones work offline over https only)"
        )
    return serve.listen(args.host, DEFAULT_PORT if args.port is None else args.port, or_next and args.port is None)


def _run(
    args: Args,
    site: Path,
    load: Callable[[Path, int | None], Settings],
    people: Callable[[], list[dict[str, Any]]],
    *,
    or_next: bool,
    hold: Callable[[Path], Any],
    sock: socket.socket | None = None,
    stop: Any = None,
) -> int:
    from .site import serve
    from .store import opening
    from .web import headers
    from .web.app import create_app
    from .web.log import set_up

    set_up()
    stop = stop or serve.Stop()
    sock = sock or _listening(args, site, load, or_next)
    found = load(site, sock.getsockname()[1])
    with hold(site):
        app = create_app(site, found)
        app.extensions["fieldapp_folding"].start()
        report = {
            "address": found.address,
            "site": str(site),
            "version": __version__,
            "api": headers.API,
            "people": people(),
        }
        serve.run(app, sock, stop, lambda: _report(report, args.json), headers.always(app), found.trusted_proxies)
        with app.app_context():
            opening.close_files()
    logging.shutdown()
    return 0


def _report(report: dict[str, Any], as_json: bool) -> None:
    if as_json:
        print(json.dumps(report), flush=True)
        return
    lines = [f"Serving {report['site']} (fieldapp {report['version']}). Open {report['address']}/"]
    if report["address"].startswith("http://127.0.0.1"):
        lines.append("This address, and so every label printed from it, leads to this machine only.")
    lines += [
        f"Sign in as {person['name']}, password {person['password']} ({', '.join(person['roles'])}"
        f"{', crew ' + person['crew'] if person['crew'] else ''})"
        for person in report["people"]
    ]
    print("\n".join([*lines, "Ctrl-C ends it."]), flush=True)


def _load(args: Args) -> int:
    from .site import load

    return load.run(Path(args.file), _want_site(_site(args.site)))


def _revoke(args: Args) -> int:
    from .site import revoke

    return revoke.run(_want_site(_site(args.site)), device=args.device, person=args.person)


def _routes(args: Args) -> int:
    from .web.app import bare_app
    from .web.doors import routes

    rows = routes(bare_app())
    if args.json:
        print(json.dumps(rows))
    else:
        for row in rows:
            who = row["who"] if isinstance(row["who"], str) else ", ".join(row["who"])
            print(f"{' '.join(row['methods']):8} {row['rule']:44} {who}")
    return 0


def _revoke_options(parser: argparse.ArgumentParser) -> None:
    which = parser.add_mutually_exclusive_group(required=True)
    which.add_argument("--device", type=_device, metavar="ID", help="a phone's id")
    which.add_argument("--person", metavar="NAME", help="a person's name")
    parser.add_argument("--site", help="the site's folder (default: FIELDAPP_SITE)")


def _device(text: str) -> str:
    from .store.ids import UUID

    if not UUID.fullmatch(text):
        raise argparse.ArgumentTypeError(f"{text!r}: a phone's id, a UUID in lower case, would be right")
    return text


def _load_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", help="a TOML file")
    parser.add_argument("--site", help="the site's folder (default: FIELDAPP_SITE)")


def _figures(_: Args) -> int:
    from .work import squareness

    print(squareness.text(), end="")
    return 0


_Options = Callable[[argparse.ArgumentParser], Any]
_COMMANDS: dict[str, tuple[str, _Options, Callable[[Args], int]]] = {
    "demo": ("make a seeded site and serve it", _serving_options, _demo),
    "serve": ("serve a site", _serving_options, _serve),
    "new-site": (
        "make a site; prints a one-time link for its first administrator",
        lambda parser: parser.add_argument("dir", metavar="DIR"),
        _new_site,
    ),
    "load": ("put people, crews, jobs, units and plans of a file into a site", _load_options, _load),
    "revoke": ("shut a phone or a person out, from the next call on", _revoke_options, _revoke),
    "routes": (
        "print the url map and who may pass",
        lambda parser: parser.add_argument("--json", action="store_true"),
        _routes,
    ),
    "figures": ("work out the figures of the page on squareness, as seed_data keeps them", lambda _: None, _figures),
    "work": ("the calculators: JSON Lines in, answers out (fieldapp work --help)", lambda _: None, lambda _: 2),
}


if __name__ == "__main__":
    raise SystemExit(main())
