"""Where static, templates and seed_data lie: inside the package in a wheel, beside it in a checkout."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def folder(name: str) -> Path:
    """The folder `name` (`static`, `templates`, `seed_data`), inside the package first, then beside it.

    Raises FileNotFoundError when it is in neither place: the installation is incomplete.
    """
    for base in (_PACKAGE, _PACKAGE.parent):
        if (base / name).is_dir():
            return base / name
    raise FileNotFoundError(f"no folder {name!r} inside or beside {_PACKAGE}: the installation is incomplete")
