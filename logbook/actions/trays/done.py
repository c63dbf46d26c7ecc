"""What acts on trays give back, and what they have in common."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.actions.reading import Reading
from logbook.actions.trays.named import who_then
from logbook.actions.writing import Act
from logbook.growing.keys import TrayNumber
from logbook.growing.kinds import kind_of
from logbook.growing.numbers import name_words
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.deeds import read_deeds
from logbook.text import Refused
from logbook.ways import Way

Numbers = Sequence[int]


@dataclass(frozen=True, slots=True)
class Done:
    """What was written."""

    keys: ClassVar = "act=act_id entry=act_id trays=numbers words notices"

    words: str
    """What was done, in a sentence."""
    act_id: int
    """The first entry of the act; undo takes all of it back."""
    numbers: tuple[TrayNumber, ...]
    notices: tuple[str, ...] = ()
    """What is worth knowing, a sentence each."""
    mouldy: tuple[TrayNumber, ...] = ()
    """The trays on which mould was seen, those that still grow."""
    sign: bool = False


def done_of(act: Act, words: str, numbers: Numbers, notices: Sequence[str] = ()) -> Done:
    """What an act wrote."""
    assert act.act_id is not None  # noqa: S101 - something was written
    at = told_words(act)
    words = words if at in words else f"{words}, {at}"
    return Done(words, act.act_id, tuple(numbers), tuple(notices))


def told_words(act: Act) -> str:
    """When it was, as it was understood, where a time was said; else ''."""
    return act.reading.when(act.told) if act.told else ""


def ids_of(trays: Sequence[TrayNow]) -> list[int]:
    """The ids of trays."""
    return [known.id for known in trays]


def numbers_of(trays: Sequence[TrayNow]) -> tuple[int, ...]:
    """The numbers of trays."""
    return tuple(known.number for known in trays)


def batch_of(trays: Sequence[TrayNow]) -> int | None:
    """The batch that all trays are of; None where they are of several, or there are none."""
    batches = {known.stored.batch_id for known in trays}
    return next(iter(batches)) if len(batches) == 1 else None


def entry_on(
    act: Act, kind: str, trays: Sequence[TrayNow], at: datetime | None = None, *,
    chore: str = "", stage: int | None = None, note: str = "",
) -> int:  # fmt: skip
    """Write an entry on trays, of the batch that all of them are of; returns its id."""
    return act.entry(
        kind, ids_of(trays), at, chore=chore, stage=stage, note=note, batch=batch_of(trays)
    )


def refuse_unsown(act: Act, trays: Sequence[TrayNow], when: datetime, what: str) -> None:
    """Raise Refused for a tray that was not sown when `what` ("the look") was done."""
    for known in trays:
        if known.state.status == "planned":
            raise Refused(
                f"Tray {name_words(known.number)} is not sown yet; write that first: "
                f"{Way.DONE.of(f'sow {name_words(known.number)}')}."
            )
    refuse_before_sowing(act, trays, when, what)


def refuse_before_sowing(
    act: Act, trays: Sequence[TrayNow], when: datetime, what: str, *, planned: bool = False
) -> None:
    """Raise Refused for a tray that was sown after `what` ("the look") was done.

    With `planned`, and where a tray is not sown yet, its plan or soak begins its life.
    """
    reading = act.reading
    begun = lives_begin(reading, [each for each in trays if planned or not each.state.sown_at])
    for known in trays:
        sown = (known.state.sown_at, "was sown") if known.state.sown_at else None
        start = begun.get(known.id, sown)
        if start is not None and when < start[0]:
            raise Refused(
                f"Tray {name_words(known.number)} {start[1]} "
                f"{known.when(start[0])}; {what} cannot have been done "
                f"before that.{who_then(reading, known.stored, when, act.now, reading.zone)}"
            )


def lives_begin(reading: Reading, trays: Sequence[TrayNow]) -> dict[int, tuple[datetime, str]]:
    """When each tray was first planned, soaked or sown, and which: (moment, "was sown"), by id."""
    deeds = read_deeds(reading, ids_of(trays)) if trays else {}
    return {
        tray: min((deed.at, f"was {kind_of(deed.kind).done}") for deed in begun)
        for tray, each in deeds.items()
        if (begun := [deed for deed in each if deed.kind in ("plan", "soak", "sow")])
    }
