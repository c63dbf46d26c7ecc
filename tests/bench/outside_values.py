"""Each outside value of the room beside ours, with its source: python -m tests.bench.outside_values."""

from __future__ import annotations

from collections import Counter

from tests.outside.every import every


def main() -> None:
    """Print the table, and how many checks each source has."""
    checks = every()
    for one in checks:
        print(f"{one.what:<40}{one.theirs:>12.6g}{one.ours:>12.6g}  {one.source}")
    for source, many in Counter(each.source for each in checks).most_common():
        print(f"{many:>4}  {source}")
    print(f"{len(checks)} checks")


if __name__ == "__main__":
    main()
