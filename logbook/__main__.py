"""The way in: `logbook` and `python -m logbook`."""

import os
import sys


def main() -> None:
    """Run the command line."""
    try:
        from logbook.cli.app import run
        from logbook.cli.signs import fit_streams

        fit_streams(os.environ)
        sys.exit(run())
    except KeyboardInterrupt:  # Ctrl-C while it was being loaded
        sys.exit(130)


if __name__ == "__main__":
    main()
