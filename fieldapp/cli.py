"""The `fieldapp` command."""

import sys


def main(argv: list[str] | None = None) -> int:
    """Run one subcommand; returns the exit code."""
    print("usage: fieldapp COMMAND", file=sys.stderr)
    return 2
