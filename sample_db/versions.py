"""The template versions of the sample: the starting guesses and what the room made of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from logbook.growing.templates import CropTemplate
from logbook.growing.trials.things import adopted
from sample_db.crops import LEARNED, first_templates, learned_template
from sample_db.days import DAYS_BEHIND, Days
from sample_db.people import OWNER
from sample_db.tried import TRIALS

if TYPE_CHECKING:
    from logbook.actions.writing import Act


@dataclass(frozen=True, slots=True)
class Version:
    """A stored version of a template and since when it is the newest."""

    id: int
    since: datetime
    template: CropTemplate


def version_at(versions: Sequence[Version], at: datetime) -> Version:
    """Give the version that a batch of that moment is sown with."""
    standing = [version for version in versions if version.since <= at]
    return standing[-1] if standing else versions[0]


def write_versions(act: Act, days: Days) -> dict[str, list[Version]]:
    """Write the room's own versions behind the starting ones; give all, by name, oldest first."""
    from logbook.actions.templates import write_version
    from logbook.store.reads import read_templates

    begun = days.on(DAYS_BEHIND)
    found = {
        stored.template.name: [Version(stored.version_id, begun, stored.template)]
        for stored in read_templates(act.reading)
    }
    newest = first_templates()
    for learned in LEARNED:
        since = days.on(min(7 * learned.weeks, DAYS_BEHIND), 120)
        version, template = write_version(
            act.session, learned_template(learned, newest), by=OWNER, now=since, why=learned.why
        )
        newest[learned.name] = template
        found.setdefault(learned.name, []).append(Version(version, since, template))
    for tried in TRIALS:
        if tried.decided is None:
            continue
        since = days.on(tried.decided, 120)
        arm = next(arm for arm in tried.arms if arm.name == tried.adopts)
        version, template = write_version(
            act.session,
            adopted(newest[tried.crop], tried.thing, arm.name, arm.setting),
            by=OWNER,
            now=since,
            why=f'trial "{tried.name}", arm "{arm.name}": {tried.why}',
        )
        found[tried.crop].append(Version(version, since, template))
    return found
