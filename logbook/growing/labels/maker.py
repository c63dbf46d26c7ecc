"""Who makes what is sold, with the full address that the law wants on a label."""

import re

from logbook.text import Refused, clean_words

LONGEST_ADDRESS = 200


def address_read(text: str) -> str:
    """Read an address, its lines parted by ; or new lines: "4 Mill Lane; 9 Marsh End; Wales".

    '' takes it away. Raises Refused for less than two lines: a name and a place are not yet a full address
    (Regulation (EU) No 1169/2011, Article 9(1)(h); 21 CFR 101.5).
    """
    parts = [clean_words(part, "address") for part in re.split(r"[;\n]", text)]
    lines = [part for part in parts if part]
    if len(lines) == 1:
        lines = [part.strip() for part in lines[0].split(",") if part.strip()]
    if len(lines) == 1:
        raise Refused(
            "A full address has at least two lines: street; postcode and town. Separate them "
            "with ;.",
            "address",
        )
    return clean_words("; ".join(lines), "address", LONGEST_ADDRESS)


def address_lines(address: str) -> list[str]:
    """The lines of an address as it is kept."""
    return address.split("; ")
