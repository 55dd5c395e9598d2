"""fieldapp: checklist and measurement logger for steel doors in container walls."""

__version__ = "0.1.0"
