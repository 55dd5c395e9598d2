"""Fixtures of the web room's tests."""

import pytest
import yard as yards
from desk import opened


@pytest.fixture
def yard(tmp_path):
    """A site of its own for a test that changes what others look at."""
    return yards.make(tmp_path / "site")


@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    """A site that the tests of a module share: they add entries and change nothing else."""
    return yards.make(tmp_path_factory.mktemp("shared") / "site")


@pytest.fixture
def ruth(yard):
    """The yard's supervisor."""
    return yard.client("ruth")


@pytest.fixture(scope="session")
def desk(tmp_path_factory):
    """The demo's site in a real browser, for tests that look at pages and change nothing."""
    with opened(tmp_path_factory.mktemp("desk")) as found:
        yield found
