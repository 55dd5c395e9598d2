"""The log on standard error: one JSON object a line, so that no text from outside starts a line of its own."""

import json
import logging
import sys
from datetime import UTC, datetime


class JsonLines(logging.Formatter):
    """time, level, logger, message, and the traceback where there is one."""

    def format(self, record: logging.LogRecord) -> str:
        line = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname,
            "from": record.name,
            "say": record.getMessage(),
        }
        if record.exc_info:
            line["trace"] = self.formatException(record.exc_info)
        return json.dumps(line)


def set_up() -> None:
    """Log to standard error."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(JsonLines())
    logging.basicConfig(level=logging.INFO, handlers=[handler], force=True)
    for name in ("waitress.queue", "alembic"):
        logging.getLogger(name).setLevel(logging.ERROR)
