"""Deliveries that become short by what is written: whose, by how much, and what can still be done."""

from collections.abc import Collection, Iterator, Sequence
from datetime import datetime, timedelta

from logbook.actions.orders.deliveries import Covered, covered
from logbook.actions.orders.wanted import crop_names
from logbook.actions.reading import Reading
from logbook.actions.writing import Act
from logbook.growing.crops.yields import Meant, chance_of
from logbook.growing.measures import grams_words
from logbook.growing.numbers import numbers_words
from logbook.growing.orders.customer import Customer
from logbook.growing.orders.wishes import Delivery
from logbook.growing.planning.backward import latest
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.templates import read_templates, template_of_versions
from logbook.text import listed, plural

AHEAD = timedelta(days=28)
"""Deliveries so far ahead are looked at."""
WORTH_GRAMS, WORTH_SHARE = 5.0, 0.01
"""A delivery is said to be short, or shorter, by so many g and such a share of what is promised."""
MOST_SOWN = 200


class Shortages:
    """How deliveries of the crops of trays were covered before an act.

    Of trays that change, as if they weren't late.
    """

    def __init__(
        self, reading: Reading, trays: Sequence[TrayNow], *, changed: bool = False
    ) -> None:
        ordered = "SELECT 1 FROM order_line WHERE until IS NULL OR until >= ? LIMIT 1"
        self.ordered = reading.value(ordered, (reading.today.isoformat(),)) is not None
        if self.ordered:
            versions = {tray.stored.version_id for tray in trays}
            self.crops = set(template_of_versions(reading, versions).values())
            in_time = [tray.id for tray in trays] if changed else ()
            self.before = _shorts(self._covered(reading, in_time))

    def _covered(self, reading: Reading, in_time: Collection[int] = ()) -> Covered:
        return covered(reading, reading.today + AHEAD, in_time, self.crops)

    def made_by(self, act: Act) -> list[str]:
        """Say which delivery is short now and wasn't, or is shorter than it was; nothing for none."""
        if not self.ordered:
            return []
        act.settle()
        after = act.reading
        found, now = [], self._covered(after)
        promised = {
            (delivery.ready_at, each.crop): (delivery, each.promised)
            for delivery, covers in now
            for each in covers
        }
        for key, short in _shorts(now).items():
            delivery, grams = promised[key]
            more = short - self.before.get(key, 0.0)
            if more >= max(WORTH_GRAMS, WORTH_SHARE * grams):
                found.append((delivery, key[1], short, more))
        if not found:
            return []
        (delivery, crop, short, more), *others = found
        said = [_short_words(after, delivery, crop, short, more)]
        if others:
            said[0] += (
                f" So {'are' if len(others) > 1 else 'is'} {plural(len(others), 'later delivery', 'later deliveries')}."
            )
        return [f"{said[0]} {' '.join(_still(after, delivery, crop, short))}"]


def _shorts(found: Covered) -> dict[tuple[datetime, int], float]:
    return {
        (delivery.ready_at, each.crop): each.short
        for delivery, covers in found
        for each in covers
        if each.short
    }


def _customers(delivery: Delivery, crop: int) -> list[Customer]:
    """Those who want a crop (template id) of a delivery and don't take only what is left."""
    firm = (wish for wish in delivery.wishes if not wish.customer.takes_rest)
    wanting = (wish.customer for wish in firm if any(part.template == crop for part in wish.open))
    return list({each.id: each for each in wanting}.values())


def _short_words(reading: Reading, delivery: Delivery, crop: int, short: float, more: float) -> str:
    names = listed([each.name for each in _customers(delivery, crop)])
    by = grams_words(short, reading.units)
    before = "" if short - more < 1 else f", {grams_words(more, reading.units)} more than before"
    return (
        f"{reading.when(delivery.ready_at)} for {names} is now short of {crop_names(reading)[crop]} "
        f"by {by}{before}."
    )


def _still(reading: Reading, delivery: Delivery, crop: int, short: float) -> Iterator[str]:
    """What can still be done about it, a sentence each."""
    template = next(each for each in read_templates(reading) if each.id == crop)
    sowing = latest(template.template, delivery.ready_at, reading.hours, reading.now)
    if sowing is not None and (trays := _fewest(reading, template.version_id, short)):
        verb = "soaked" if sowing.soak_at else "sown"
        by = reading.when(sowing.soak_at or sowing.sow_at)
        yield f"{plural(trays, 'tray')} {verb} by {by} would make it up."
        return
    if growing := _later(reading, crop, delivery.ready_at):
        names, start = growing
        many = "Tray" if len(names) == 1 else "Trays"
        yield f"{many} {numbers_words(names)} can be cut from {reading.when(start)}: ask to deliver later."
    else:
        yield "It is too late to sow for it."
    contacts = [
        f"{each.name} ({each.contact})" for each in _customers(delivery, crop) if each.contact
    ]
    if contacts:
        yield f"Tell {listed(contacts)}."


def _fewest(reading: Reading, version: int, short: float) -> int:
    """The fewest trays of one sowing that give so many g, trimmed, as surely as the room wants; 0 for none."""
    about, luck = reading.about, reading.luck([(version, 1)])[version, 1]
    cut = short / about.kept
    tries = range(1, MOST_SOWN + 1)
    return next((n for n in tries if chance_of([Meant(luck, -1)] * n, cut) >= about.sure), 0)


def _later(reading: Reading, crop: int, ready: datetime) -> tuple[Sequence[int], datetime] | None:
    """The trays of a crop that can be cut first after a moment, and from when."""
    of = template_of_versions(reading, {tray.stored.version_id for tray in reading.live})
    later = [
        (tray.window.start, tray.name)
        for tray in reading.live
        if of[tray.stored.version_id] == crop
        and tray.status == "growing"
        and tray.window is not None
        and tray.window.start > ready
    ]
    if not later:
        return None
    first = min(later)[0]
    return [name for start, name in later if start == first], first
