"""Where a tray stood, and whether its stage wanted light: stretch by stretch of its life."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.trays.life import Deed


@dataclass(frozen=True, slots=True)
class Stay:
    """A stretch of a tray's life on one place (id) in one light state."""

    start: datetime
    end: datetime
    place: int | None
    lit: bool


def stays_of(template: CropTemplate, deeds: Iterable[Deed], now: datetime) -> tuple[Stay, ...]:
    """A tray's stretches from its sowing to its end, or to now.

    `lit` is whether the stage was one of light: under a lid or weight in the dark, lamps over the
    shelf give the crop nothing. A stage that passes by itself has the light of the one before.
    """
    found: list[Stay] = []
    since: datetime | None = None
    place: int | None = None
    stage = 0

    def close(at: datetime) -> None:
        nonlocal since
        if since is not None and at > since:
            found.append(Stay(since, at, place, template.stages[stage].light == "lit"))
        since = at if since is not None else None

    for deed in sorted(deeds, key=lambda one: (one.at, one.entry)):
        if deed.kind == "sow":
            close(deed.at)
            since, place, stage = deed.at, deed.place, 0
        elif since is None:
            continue
        elif deed.kind == "change" and deed.stage is not None:
            close(deed.at)
            stage = min(deed.stage, len(template.stages) - 1)
        elif deed.kind == "move":
            close(deed.at)
            place = deed.place
        elif deed.ends:
            close(deed.at)
            since = None
    close(now)
    return tuple(found)


def up_to(stays: Sequence[Stay], end: datetime) -> tuple[Stay, ...]:
    """What of a tray's stretches lies before a moment."""
    return tuple(
        one if one.end <= end else Stay(one.start, end, one.place, one.lit)
        for one in stays
        if one.start < end
    )
