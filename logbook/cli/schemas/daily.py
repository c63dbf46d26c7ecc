"""Schemas of the daily commands: round, due, page, search, tray, batch, lot, racks, sow, weigh."""

from __future__ import annotations

from typing import Any

from logbook.cli.schemas.shapes import (
    day,
    either,
    many,
    moment,
    number,
    one_of,
    or_null,
    text,
    thing,
    tray,
    trays,
    truth,
    whole,
)
from logbook.growing.chores import CHORES

_EXPECTED: dict[str, Any] = {
    "expected_grams": or_null(number("The middle of what is expected, g a tray.", least=0)),
    "spread_grams": or_null(number("One standard deviation, g.", least=0)),
    "rests_on_trays": or_null(whole("On how many of this room's trays it rests.")),
}
_DAY_NUMBER = whole("Calendar days since sowing; the sowing day is 1, or 0 if the room says so.")
_ENTRY = thing(
    "One line of the book.",
    id=whole("The entry's number.", least=1),
    kind=text("water, look, jot, weigh …"),
    at=moment("When it happened."),
    trays=trays(),
    by=text("Who wrote it."),
    note=text(),
    struck=truth("Whether it was struck; it stays in the record."),
    replaced_by=or_null(whole("The entry in its place.", least=1)),
    replaces=or_null(whole("The entry in whose place it stands.", least=1)),
    words=text("The entry in words."),
    written_at=moment("When it was written."),
    clock_in_doubt=truth("Whether the machine's clock was in doubt when it was written."),
)

ROUND = thing(
    "What every tray needs on a day, in walking order.",
    day=day(),
    chores=many(
        thing(
            "",
            chore=one_of(*CHORES),
            trays=trays(),
            batch=text(),
            crop=text(),
            place=text("Rack and shelf."),
            day_number=_DAY_NUMBER,
            stage=text("The stage's name; empty before sowing."),
            due_at=moment(),
            overdue=truth("Whether its time has passed."),
            later=truth("Whether it comes later than now."),
            words=text("The chore in words."),
            mould_seen_on=trays(),
        )
    ),
)
DUE = thing(
    "Trays that are or will be ready to cut, the most pressing first.",
    trays=many(
        thing(
            "",
            tray=tray(),
            crop=text(),
            day_number=_DAY_NUMBER,
            from_=moment("Not before."),
            best=moment("The best moment."),
            by=moment("Not after."),
            state=one_of("soon", "ready", "late"),
            **_EXPECTED,
            batch=text(),
            place=text(),
            sign_seen=truth("Whether the crop's sign to cut was seen."),
            mould_seen=truth("Whether mould stands on it."),
        )
    ),
)
PAGE = thing("A day's entries, oldest first.", day=day(), entries=many(_ENTRY))
SEARCH = thing("Entries whose note holds the words, oldest first.", entries=many(_ENTRY))
TRAY = thing(
    "One tray.",
    tray=tray(),
    batch=text(),
    crop=text(),
    place=text("Empty when it has none."),
    status=text("planned, growing, cut, discarded …"),
    stage=or_null(text("The stage's name; empty or null outside one.")),
    day_number=or_null(_DAY_NUMBER),
    mould_seen=truth("Whether mould stands on it."),
    grams=or_null(number("What was cut, g.", least=0)),
    grams_per_gram_seed=or_null(number(least=0)),
    past=many(_ENTRY),
    ahead=many(thing("What will happen if nothing else does.", at=moment(), words=text())),
)
BATCH = thing(
    "One batch.",
    batch=text(),
    template=text(),
    version=whole("The template's version that it was sown with.", least=1),
    lot=text("Seed lot; empty when none was given."),
    seed_grams_per_tray=or_null(number(least=0)),
    sown_at=or_null(moment()),
    planned_for=or_null(moment()),
    trays=many(
        thing(
            "",
            tray=tray(),
            status=text(),
            stage=or_null(text()),
            place=text(),
            grams=or_null(number(least=0)),
        )
    ),
    cut_grams=number("All that was cut, g.", least=0),
    past=many(_ENTRY),
)
LOT = thing(
    "All that was sown from a seed lot.",
    lot=text("As it was written most often."),
    spellings=many(text(), "Every way in which it was written."),
    batches=many(
        thing(
            "",
            batch=text(),
            template=text(),
            at=or_null(moment("When it was sown, or for when it is planned.")),
            cut_grams=number("What was cut of it so far, g.", least=0),
            trays=many(
                thing(
                    "",
                    tray=tray(),
                    status=one_of("planned", "growing", "cut", "discarded"),
                    place=text("Where it stands, or stood last; empty for nowhere."),
                    ended_at=or_null(moment("When it was cut to the end or discarded.")),
                    grams=or_null(number("Its cut weight, g.", least=0)),
                )
            ),
        )
    ),
)
RACKS = thing(
    "The racks with the trays in their slots.",
    racks=many(
        thing(
            "",
            rack=text(),
            shelves=many(
                thing(
                    "",
                    place=text(),
                    slots=whole(),
                    trays=many(
                        thing(
                            "",
                            tray=tray(),
                            slot=or_null(whole()),
                            crop=text(),
                            day_number=or_null(_DAY_NUMBER),
                            due=many(one_of(*CHORES), "What is due on it."),
                            late=truth("Whether any of it is late."),
                            mould_seen=truth("Whether mould stands on it."),
                        )
                    ),
                )
            ),
        )
    ),
    loose=trays("Trays that stand nowhere."),
)
SOW = thing(
    "What was sown, or would be with --dry-run.",
    batch=text("Empty with --dry-run."),
    trays=trays(),
    soak_at=or_null(moment()),
    sow_at=moment(),
    changes=many(thing("A change of cover or light.", chore=one_of(*CHORES), at=moment())),
    cut=thing("When to cut.", from_=moment(), best=moment(), by=moment()),
    seed_grams=or_null(number("Seed for all trays, g.", least=0)),
    seed_grams_per_tray=or_null(number(least=0)),
    planned=truth("Whether it lies ahead."),
    places=many(text(), "Where each tray stands, in the order of the trays."),
    notices=many(text(), "What is worth knowing, a sentence each."),
)
_WEIGHED = thing(
    "A weight that was written.",
    tray=tray(),
    grams=number(least=0),
    grams_per_gram_seed=or_null(number(least=0)),
    day_number=or_null(_DAY_NUMBER),
    total_grams=number("All that was cut from the tray, g.", least=0),
    part=truth("Whether more will be cut from it."),
    shared=truth("Whether it is a share of trays weighed together."),
    question=text("What is odd about it; empty when nothing is."),
)
WEIGH = either(
    "One tray's weight, or those of trays weighed together.",
    _WEIGHED,
    thing("", trays=many(_WEIGHED)),
)
DONE = thing(
    "What was written by one command.",
    act=whole("The act; undo strikes all of it."),
    trays=trays(),
    words=text("What was done, in a sentence."),
    notices=many(text(), "What is worth knowing, a sentence each."),
)
