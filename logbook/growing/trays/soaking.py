"""A soak: what was said of it at the sowing, and how it compares with the template's."""

from datetime import datetime, timedelta
from typing import Literal
from zoneinfo import ZoneInfo

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import moment_words
from logbook.growing.measures import ago_words, hours_words
from logbook.growing.when import parse_when
from logbook.text import Refused, clean

LONGEST_SOAK = timedelta(days=7)
SHORT, LONG = 0.5, 1.5
"""Shares of the template's soak from which one is said to be short or long (common practice)."""
SOAK_BY_TEMPLATE = "time by the template"
"""The note of a soak whose time nobody gave; books of older versions have it."""

Soaked = datetime | Literal["dry", "now"]
"""Since when the seed is in the water; or that it is sown dry; or that it goes in now."""


def read_soaked(text: str, now: datetime, zone: ZoneInfo) -> Soaked:
    """Read "yesterday 20:00", "dry" or "now"; raise Refused."""
    words = clean(text, lines=False).casefold()
    if words in ("dry", "no", "none", "not soaked"):
        return "dry"
    return "now" if words in ("now", "soak now") else parse_when(text, now, zone)


def refuse_gelling(template: CropTemplate) -> None:
    """Raise Refused for seed that is not to be soaked."""
    if template.mucilage:
        raise Refused(f"{template.label()} seed gels when soaked. Sow it dry.", "soaked")


def check_soaked(template: CropTemplate, soaked: datetime, sown: datetime) -> None:
    """Raise Refused for a soak that cannot have been."""
    refuse_gelling(template)
    if soaked > sown:
        raise Refused("The soak begins before the sowing; give an earlier time.", "soaked")
    if sown - soaked > LONGEST_SOAK:
        raise Refused("The soak would be longer than a week; look at its day.", "soaked")


def soak_notice(template: CropTemplate, soaked: datetime | None, sown: datetime) -> str:
    """Say that seed was soaked far shorter or longer than the template wants; '' where it was not."""
    if soaked is None or not template.soak_seconds:
        return ""
    took = (sown - soaked).total_seconds()
    share = took / template.soak_seconds
    if SHORT <= share <= LONG:
        return ""
    how = "short" if share < SHORT else "long"
    more = " Old water and warmth spoil seed: smell it first." if share > LONG else ""
    return (
        f"The soak is {how}: {ago_words(took)}, where the template has "
        f"{hours_words(template.soak_seconds / 3600)}.{more}"
    )


def past_soak(template: CropTemplate, sown: datetime, now: datetime, zone: ZoneInfo) -> str:
    """Say that the soak of a plan should have begun already; '' where it lies ahead, or is none."""
    soak = timedelta(seconds=template.soak_seconds)
    if not soak or sown - soak >= now:
        return ""
    begun, ready = (moment_words(each, now, zone) for each in (sown - soak, now + soak))
    return f"The soak should have begun {begun}; seed soaked now can be sown {ready}."
