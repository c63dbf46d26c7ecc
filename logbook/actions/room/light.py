"""Light on shelves: what the readings of a meter mean for the crops there."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.room.lamps import shelf_named, shelf_pasts
from logbook.actions.trays.done import Done, done_of
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.currencies import UNSET, exact
from logbook.growing.days import day_bounds, day_of
from logbook.growing.measures import number_words
from logbook.growing.room import light as lights
from logbook.growing.room.places import Place
from logbook.growing.room.power import LampSet
from logbook.growing.room.shelf_past import ShelfPast
from logbook.growing.room.tariffs import Tariff, price_at
from logbook.growing.wall_hours import WallHours, seconds_on
from logbook.store.reads.lamps import StoredSurvey, read_surveys, read_tariffs
from logbook.store.rows import grouped
from logbook.text import Refused, plural

FALLEN_PERCENT = 90.0
"""At or under this share of the first reading the screen says that output has fallen."""


@dataclass(frozen=True, slots=True)
class SurveyView:
    """A survey and its figures; `percent` is of the first at like height, None if unlike."""

    keys: ClassVar = """
        entry=survey.entry at=survey.at by=survey.by mean_ppfd=even.mean
        min_over_mean=even.min_over_mean percent_of_first=percent height_mm=survey.height_mm
        lux_lamp=survey.lux_lamp spots=survey.spots note=survey.note
    """

    survey: StoredSurvey
    even: lights.Uniformity
    percent: float | None

    @property
    def estimate(self) -> str:
        """Say that its mean is an estimate from lux, and how far off; '' where it is PPFD."""
        lamp = self.survey.lux_lamp
        return lights.guessed(self.even.mean, lights.lamp_kind(lamp)).words if lamp else ""

    @property
    def words(self) -> str:
        """What it came to, in a line."""
        lamp, percent = self.survey.lux_lamp, self.percent
        estimate = f", estimate from lux ({lamp})" if lamp else ""
        of_first = "" if percent is None else f", {number_words(percent, 0)} % of the first"
        return (
            f"PPFD {number_words(self.even.mean, 0)} µmol/m²/s of "
            f"{plural(self.even.count, 'spot')}{estimate}{of_first}"
        )


@dataclass(frozen=True, slots=True)
class CropVerdict:
    """A shelf's light against what one of its crops wants."""

    keys: ClassVar = """
        crop verdict=judgement.verdict hours_needed=judgement.hours_then
        cost_change_per_day=judgement.cost_change currency=judgement.money.code words=judgement.words
    """

    crop: str
    judgement: lights.LightJudgement


@dataclass(frozen=True, slots=True)
class ShelfLight:
    """A shelf with its surveys, oldest first, and what the newest means today.

    `lit_hours` are the real lit hours of today, a clock change included; `daily` is mol m⁻² d⁻¹.
    `wishes` say the lit hours that crops want and do not get.
    """

    keys: ClassVar = """
        place=place.path mean_ppfd=newest.even.mean min_over_mean=newest.even.min_over_mean
        min_over_max=newest.even.min_over_max cv_percent=newest.even.cv_percent
        lit_hours_today=lit_hours dli_mol_m2_day=daily estimated_from_lux verdicts surveys
        hours=hours.words wishes falling
    """

    place: Place
    hours: WallHours | None
    lit_hours: float
    lamps: LampSet | None
    surveys: tuple[SurveyView, ...]
    daily: float | None
    verdicts: tuple[CropVerdict, ...]
    wishes: tuple[str, ...]

    @property
    def newest(self) -> SurveyView | None:
        """The survey that holds now."""
        return self.surveys[-1] if self.surveys else None

    @property
    def falling(self) -> str:
        """Say that the output has fallen, or ''."""
        newest = self.newest
        if newest is None or newest.percent is None or newest.percent > FALLEN_PERCENT:
            return ""
        return f"Output fell to {number_words(newest.percent, 0)} % of the first reading at the same height: wipe the lamps, measure again, then consider new ones."

    @property
    def estimated_from_lux(self) -> bool:
        """Whether its PPFD is a guess from lux."""
        return self.newest is not None and bool(self.newest.survey.lux_lamp)

    @property
    def kind(self) -> str:
        """What its lamps are, in the grower's words; empty where none are known."""
        return self.lamps.kind if self.lamps else ""

    @property
    def colour(self) -> str:
        """Colour of their light, in the grower's words; empty where none are known."""
        return self.lamps.light if self.lamps else ""


@dataclass(frozen=True, slots=True)
class ShelfLamps:
    """The lamps of a shelf."""

    keys: ClassVar = """
        place=shelf.place.path lamps=shelf.lamps.lamps watts_each=shelf.lamps.watts
        amps_each=shelf.lamps.amps volts=shelf.lamps.volts watts=shelf.lamps.draw.watts
        volt_amps=shelf.lamps.draw.volt_amps power_factor=shelf.lamps.draw.power_factor
        kind=shelf.kind light=shelf.colour height_mm=shelf.lamps.height_mm
        bought=shelf.lamps.bought hours=shelf.hours.words lit_hours_today=shelf.lit_hours
    """

    shelf: ShelfLight


def shelf_light(book: Book, path: str) -> ShelfLight:
    """A shelf's light; raises Refused when there is no such shelf."""
    with book.reading() as reading:
        return shelves_lit(reading, [shelf_named(path, reading.places)])[0]


def all_light(book: Book, place: str = "") -> list[ShelfLight]:
    """The light of every standing shelf, of a place or of all, in walking order."""
    with book.reading() as reading:
        places = reading.places
        return shelves_lit(reading, places.under(places.find(place)) if place else places.shelves)


def shelves_lit(reading: Reading, shelves: Iterable[Place]) -> list[ShelfLight]:
    """The light of shelves."""
    now, pasts, tariffs = reading.now, shelf_pasts(reading), read_tariffs(reading)
    surveys = grouped((one.place, one) for one in read_surveys(reading))
    crops: dict[int | None, dict[str, CropTemplate]] = defaultdict(dict)
    for known in reading.live:
        if known.state.status == "growing":
            crops[known.state.place][known.template.label()] = known.template
    return [
        _shelf(
            now, each, pasts[each.id], surveys.get(each.id, ()), crops[each.id].values(), tariffs
        )
        for each in shelves
    ]


def _shelf(
    now: datetime, place: Place, past: ShelfPast, surveys: Sequence[StoredSurvey],
    crops: Iterable[CropTemplate], tariffs: Sequence[Tariff],
) -> ShelfLight:  # fmt: skip
    hours = past.hours_at(now)
    today = day_of(now, past.zone)
    lit = seconds_on(hours, today, past.zone) / 3600 if hours else 0.0
    lost = past.lost(*day_bounds(today, past.zone)) / 3600
    had = max(0.0, lit - lost)
    lamps = past.hanging
    evens = [one.even for one in surveys]
    percents = lights.percent_of_first(
        [
            lights.Survey(one.at, even.mean, one.height_mm, bool(one.lux_lamp))
            for one, even in zip(surveys, evens, strict=True)
        ]
    )
    views = tuple(map(SurveyView, surveys, evens, percents))
    daily, verdicts = None, []
    if views:
        mean = views[-1].even.mean
        daily = lights.moles(mean, had * 3600)
        price = price_at(tariffs, now, past.zone)
        cost, money = None, tariffs[-1].money if tariffs else UNSET
        if price is not None and lamps is not None and lamps.lamps:
            cost = exact(lamps.draw.watts) / 1000 * price
        verdicts = [
            CropVerdict(crop.label(), lights.judge(mean, lit, crop.targets.light, cost, money))
            for crop in crops
            if crop.targets.light is not None
        ]
    wishes = tuple(
        f"{crop.label()} wants {number_words(crop.targets.lit_hours)} h of light per day; today "
        f"it gets {number_words(had)}."
        for crop in crops
        if crop.targets.lit_hours is not None and abs(crop.targets.lit_hours - had) >= 0.25
    )
    return ShelfLight(place, hours, had, lamps, views, daily, tuple(verdicts), wishes)


@dataclass(frozen=True, slots=True)
class SurveyDraft:
    """A walk round a shelf with a meter, at tray height.

    `spots` hold µmol m⁻² s⁻¹, or lux when `lux_lamp` names the kind of lamp. `height_mm` is from
    the trays to the lamp.
    """

    place: str
    grid: lights.Grid
    spots: tuple[lights.Spot, ...]
    height_mm: float | None = None
    lux_lamp: str = ""
    at: datetime | None = None
    note: str = ""


def write_survey(book: Book, draft: SurveyDraft) -> Done:
    """Write a survey of a shelf and say what it comes to, or raise Refused."""
    kind = lights.lamp_kind(draft.lux_lamp) if draft.lux_lamp else None
    spots = draft.spots
    if kind is not None:
        spots = tuple(replace(spot, ppfd=lights.from_lux(spot.ppfd, kind).ppfd) for spot in spots)
    draft.grid.check(spots)
    even = lights.uniformity([spot.ppfd for spot in spots])
    if draft.height_mm is not None and not 10 <= draft.height_mm <= 3000:
        raise Refused("The lamp hangs 1 cm to 3 m above the trays; write it like 21 cm.")
    with book.writing() as act:
        when = act.moment(draft.at, "A light reading")
        shelf = shelf_named(draft.place, act.reading.places)
        entry = act.entry("light", (), when, note=draft.note, place=shelf.id)
        act.put(
            "light_survey", entry, spot_rows=draft.grid.rows, spot_columns=draft.grid.columns,
            height_mm=draft.height_mm, lux_lamp=kind.name if kind else "",
        )  # fmt: skip
        read = (
            {"spot_row": spot.row, "spot_column": spot.column, "ppfd": spot.ppfd,
             "lux": measured.ppfd if kind else None}
            for spot, measured in zip(spots, draft.spots, strict=True)
        )  # fmt: skip
        act.put("light_spot", entry, read)
        done = f"light on {shelf.path}: PPFD {number_words(even.mean, 0)} µmol/m²/s, {even.words}"
        view = shelves_lit(act.reading, [shelf])[0]
        notices = [lights.guessed(even.mean, kind).words] if kind else []
        notices += [f"{each.crop}: {each.judgement.words}" for each in view.verdicts]
        return done_of(act, done, (), notices)
