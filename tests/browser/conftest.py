"""Fixtures of the browser tests: a running demo, and phones on it."""

from demos import demo  # noqa: F401 - a fixture
from phones import new_phone  # noqa: F401 - a fixture
