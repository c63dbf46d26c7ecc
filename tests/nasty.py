"""Text as people, pastes and other programs bring it: what has harmed programs before, and any."""

from __future__ import annotations

from hypothesis import strategies as st

NASTY = [
    "", " ", "-", "--", "-1", "=1+1", "[/]", "[bold]x[/bold]", "%s {0} {x!r}", "\x00", "\x1b[31mred",
    "\x9b2J", "a\x07b\x08c", "\u202egrams\u2066", "\ufeffx", "\ud800", "\udcff.csv", "one\ntwo\r\nthree",
    "\t", "nan", "NaN", "inf", "-inf", "1e308", "1e400", "9" * 400, "9" * 5000, "1,5", "1,500", "½",
    "²", "٣", "−4 g", "0", "101-99999", "5-3", "0x10", "1_0", "2026-02-30", "2026-13-01", "0001-01-01",
    "9999-12-31T23:59:59", "2026-04-14T07:30+25:00", "2100-12-31T23:59-23:59", "24:00", "25:99",
    "2026-W54-1", "tomorrow tomorrow", "~nobody", "..", "/", "Rack 1/Shelf 2/" + "9" * 5000,
    "Rack 1/²", "a" * 30_000, "e\u0301" * 50, "\U0001f331", "\u2028",
]  # fmt: skip
TEXT = st.sampled_from(NASTY) | st.text(st.characters(exclude_categories=()), max_size=30)
