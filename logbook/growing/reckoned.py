"""What the calculators give: values put together from several rules of the trade.

`reckoned` marks views whose numbers are not measured: JSON gives them to six figures.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from logbook.growing.crops.seeding import SeedNeed
from logbook.growing.room.power import Draw
from logbook.growing.room.solutions import Dilution
from logbook.growing.room.spots import Uniformity


@dataclass(frozen=True, slots=True)
class LightSum:
    """Evenness and daily light of a shelf's readings."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        readings=even.count mean_ppfd=even.mean least_ppfd=even.least most_ppfd=even.most
        min_over_mean=even.min_over_mean min_over_max=even.min_over_max cv_percent=even.cv_percent
        hours dli_mol_m2_day want_dli_mol_m2_day hours_needed can_be_met estimated_from_lux
    """

    even: Uniformity
    hours: float | None
    """Lit hours a day."""
    dli_mol_m2_day: float | None
    want_dli_mol_m2_day: float | None
    hours_needed: float | None
    """Lit hours for the wanted light; null where there is no light, or none is wanted."""
    estimated_from_lux: bool

    @property
    def can_be_met(self) -> bool | None:
        """Whether a day is long enough for the wanted light."""
        if self.want_dli_mol_m2_day is None:
            return None
        return self.hours_needed is not None and self.hours_needed <= 24


@dataclass(frozen=True, slots=True)
class PowerSum:
    """Watts, energy and cost a day of lamps."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        watts=draw.watts kwh_per_day cost_per_day volts=draw.volts amps=draw.amps va=draw.volt_amps
        power_factor=draw.power_factor cautions
    """

    draw: Draw
    kwh_per_day: float | None
    cost_per_day: float | None
    """In the money of the price."""
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AirSum:
    """What air is like."""

    reckoned: ClassVar = True
    temperature_c: float
    humidity_percent: float
    vpd_kpa: float
    """Vapour pressure deficit."""
    dew_point_c: float | None
    leaf_vpd_kpa: float | None
    """From the leaf's temperature."""


@dataclass(frozen=True, slots=True)
class DilutionSum:
    """Stock and water for a wanted strength."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        stock_ml=made.stock_ml water_ml=made.water_ml stock_percent=made.stock_percent
        want_percent=made.want_percent want_ppm=made.want_ppm parts_water=made.parts_water kind
        cautions
    """

    made: Dilution
    kind: str | None
    """What the product is known as."""
    cautions: tuple[str, ...]
    """What to beware of, a sentence each."""


@dataclass(frozen=True, slots=True)
class SeedSum:
    """Seeds and grams for a tray."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        seeds=need.seeds seeds_sown=need.seeds_sown grams=need.grams
        pure_live_share=need.pure_live_share tray_cm2 least_germination_percent caution
    """

    need: SeedNeed
    tray_cm2: float
    least_germination_percent: float | None
    """Of seed sold in the US, where one is set."""
    caution: str | None
