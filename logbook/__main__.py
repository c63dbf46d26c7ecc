"""The way in: `logbook` and `python -m logbook`."""

from __future__ import annotations

import sys


def main() -> None:
    """Run the command line."""
    from logbook.cli.app import run

    sys.exit(run())


if __name__ == "__main__":
    main()
