"""The template versions of the sample: the starting guesses and what the room made of them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from logbook.actions.crops.templates import write_version
from logbook.clock import FixedClock
from logbook.growing.crops.targets import Targets
from logbook.growing.crops.templates import CropTemplate, CutWindow, checked
from logbook.growing.days import DAY
from logbook.store.reads.templates import read_templates
from sample_db.crops import HOUR, LEARNED, TARGETS, Learned
from sample_db.days import DAYS_BEHIND, Days
from sample_db.months import Months
from sample_db.room import OWNER


@dataclass(frozen=True, slots=True)
class Version:
    """A stored version of a template and since when it is the newest."""

    id: int
    since: datetime
    template: CropTemplate


Versions = dict[str, list[Version]]
"""By the template's name, oldest first."""


def version_at(versions: Sequence[Version], at: datetime) -> Version:
    """The version that a batch of that moment is sown with."""
    standing = [version for version in versions if version.since <= at]
    return standing[-1] if standing else versions[0]


def write_versions(book: Months, days: Days) -> Versions:
    """Write the room's own versions behind the starting ones; returns all of them."""
    with book.reading() as reading:
        found = {
            stored.template.name: [
                Version(stored.version_id, days.on(DAYS_BEHIND), stored.template)
            ]
            for stored in read_templates(reading)
        }
    for learned in LEARNED:
        newest = found[learned.base or learned.name][-1].template
        since = days.on(min(7 * learned.weeks, DAYS_BEHIND), 120)
        book.clock = FixedClock(since)
        with book.writing() as act:
            version, template = write_version(
                act.writer, _learned(learned, newest), by=OWNER, now=since, why=learned.why
            )
        found.setdefault(learned.name, []).append(Version(version, since, template))
    return found


def _learned(learned: Learned, base: CropTemplate) -> CropTemplate:
    dark = zip(base.stages[:-1], learned.hours, strict=True)
    light = replace(base.stages[-1], water_per_day=learned.waterings)
    return checked(
        replace(
            base, name=learned.name, variety=learned.variety or base.variety,
            stages=(*(replace(stage, seconds=hours * HOUR) for stage, hours in dark), light),
            cut=CutWindow(*(round(days * DAY) for days in learned.cut)), seed_grams=learned.seed,
            soak_seconds=base.soak_seconds if learned.soak is None else learned.soak * HOUR,
            soak_ph=learned.soak_ph, expected_grams=learned.grams, spread_percent=learned.spread,
            guess=False, notes=learned.notes, targets=TARGETS.get(learned.name, Targets()),
        )
    )  # fmt: skip
