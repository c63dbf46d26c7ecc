"""The way in: `logbook` and `python -m logbook`."""

import os
import sys


def main() -> None:
    """Run the command line."""
    from logbook.cli.app import run
    from logbook.cli.signs import fit_streams

    fit_streams(os.environ)
    sys.exit(run())


if __name__ == "__main__":
    main()
