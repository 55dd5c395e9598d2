"""Fixtures of the store's tests."""

import pytest
import yard as yards


@pytest.fixture
def yard(tmp_path):
    """A filled site of its own, in an app context."""
    made = yards.make(tmp_path / "site")
    with made.app.app_context():
        yield made
