"""A sowing counted back from when it is wanted; where it is too late, what else there is."""

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta

from logbook.actions.reading import Reading
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.numbers import numbers_words
from logbook.growing.planning.backward import Backward, backward, earliest
from logbook.growing.trays.chores import RoomHours
from logbook.store.reads.templates import StoredTemplate
from logbook.text import Refused, listed

FAR_FROM_BEST = timedelta(hours=12)


def count_back(
    reading: Reading, template: CropTemplate, ready: datetime, now: datetime, hours: RoomHours,
    known: Sequence[StoredTemplate],
) -> Backward:  # fmt: skip
    """The sowing whose trays are wanted at a moment.

    Raises Refused where that is past, or sooner than the crop can grow: with the earliest day, the
    other crops (of `known`) and the growing trays that could be ready by then.
    """
    if ready <= now:
        raise Refused(f"{reading.when(ready)} is past. Give a later time.", "ready")
    if (found := backward(template, ready, hours, now)) is not None:
        return found
    soonest = earliest(template, now, hours)
    begun = soonest.soak_at or soonest.sow_at
    verb = "Soaked" if soonest.soak_at else "Sown"
    since = f"{verb} now" if begun == now else f"{verb} {reading.when(begun)}"
    others = _in_time(template, ready, now, hours, known)
    first = reading.when(soonest.cut_at)
    said = (
        f"{template.label()} can't be ready by {reading.when(ready)}.",
        f"{since}, it can be cut from {first}.",
        *_growing(reading, template, ready),
        f"These would be in time: {listed(others, 4)}." if others else "",
    )
    raise Refused(" ".join(filter(None, said)), "ready")


def _in_time(
    template: CropTemplate, ready: datetime, now: datetime, hours: RoomHours,
    known: Sequence[StoredTemplate],
) -> list[str]:  # fmt: skip
    """The other crops that would be ready, those that are soonest to sow first."""
    backs = (
        (each.template.label(), backward(each.template, ready, hours, now))
        for each in known
        if not each.retired and each.template.crop != template.crop
    )
    found = sorted((back.sow_at, label) for label, back in backs if back is not None)
    return [label for _, label in found]


def _growing(reading: Reading, template: CropTemplate, ready: datetime) -> Iterator[str]:
    """Say which growing trays of the crop can be cut by then."""
    names = [
        tray.name
        for tray in reading.live
        if tray.template.crop == template.crop
        and tray.status == "growing"
        and not tray.held
        and tray.window is not None
        and tray.window.start <= ready <= tray.hours.walk_at(tray.window.by)
    ]
    if names:
        trays = "Tray" if len(names) == 1 else "Trays"
        yield f"{trays} {numbers_words(names)} can be cut by then."


def ready_notices(reading: Reading, back: Backward | None) -> Iterator[str]:
    """Say what of a counted-back sowing is not as one would wish."""
    if back is None:
        return
    if not back.soak_at_work and back.soak_at is not None:
        yield f"The soak begins {reading.when(back.soak_at)}, outside working hours."
    if abs(back.cut.best - back.cut_at) > FAR_FROM_BEST:
        yield (
            f"It will be cut {reading.when(back.cut_at)}; the best time would be "
            f"{reading.when(back.cut.best)}."
        )
