"""Numbers of goods by the GS1 General Specifications: GTIN, check digit, element strings."""

import re
from datetime import date

from logbook.text import Refused, clean

LENGTHS = (8, 12, 13, 14)
_LOT = re.compile(r"[!\"%-?A-Z_a-z]{1,20}")
"""What a lot code may be in AI 10: up to 20 of GS1's character set 82."""


def check_digit(digits: str) -> int:
    """The digit that follows: weights 3, 1, 3 … from the right (section 7.9)."""
    weighted = (int(each) * (1 if at % 2 else 3) for at, each in enumerate(reversed(digits)))
    return -sum(weighted) % 10


def prefix_read(text: str) -> str:
    """Read a company prefix, 4 to 12 digits; '' takes it away. Raise Refused."""
    digits = re.sub(r"[\s-]", "", clean(text, lines=False))
    if digits and not re.fullmatch(r"[0-9]{4,12}", digits):
        raise Refused(
            f'"{digits[:20]}" isn\'t a GS1 company prefix: it has 4 to 12 digits, as on your '
            "certificate from GS1.",
            "gs1_prefix",
        )
    return digits


def gtin_read(text: str, prefix: str = "") -> str:
    """Read a GTIN of 8, 12, 13 or 14 digits, or the digits of an item after one's own `prefix`.

    Raises Refused where it has other lengths or a wrong check digit, with what would be right.
    """
    digits = re.sub(r"[\s-]", "", clean(text, lines=False))
    if not re.fullmatch(r"[0-9]+", digits):
        raise Refused(f'"{digits[:20]}" isn\'t a GTIN: it has 8, 12, 13 or 14 digits.', "gtin")
    if prefix and len(prefix) + len(digits) == 12:
        digits = prefix + digits
        return f"{digits}{check_digit(digits)}"
    if len(digits) not in LENGTHS:
        room = 12 - len(prefix)
        item = f", or the {room} of your item after {prefix}" if prefix and room else ""
        raise Refused(f"A GTIN has 8, 12, 13 or 14 digits{item}; you typed {len(digits)}.", "gtin")
    right = check_digit(digits[:-1])
    if int(digits[-1]) != right:
        raise Refused(
            f"The last digit of the GTIN {digits} doesn't fit: with {right} it would be "
            f"{digits[:-1]}{right}. Check all of its digits.",
            "gtin",
        )
    return digits


def elements(
    gtin: str, lot: str, packed: date | None, best_before: date | None
) -> list[tuple[str, str]]:
    """The elements of a pack: AI 01 GTIN, 13 packed on, 15 best before, 10 lot, last as it ends where it ends.

    Raises Refused for a lot code that AI 10 can't hold.
    """
    if not _LOT.fullmatch(lot):
        raise Refused(
            f'The lot code "{lot[:40]}" can\'t be in a GS1 code: use up to 20 letters without '
            "accents, digits and signs, no spaces.",
            "lot",
        )
    dates = (("13", packed), ("15", best_before))
    return [
        ("01", gtin.zfill(14)),
        *((ai, f"{day:%y%m%d}") for ai, day in dates if day is not None),
        ("10", lot),
    ]


def element_words(found: list[tuple[str, str]]) -> str:
    """Elements as people read them: "(01)09506000134352(10)ABC"."""
    return "".join(f"({ai}){value}" for ai, value in found)
