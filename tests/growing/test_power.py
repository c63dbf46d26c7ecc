"""Watts, volt-amperes, kWh, and what they gave."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.room.power import Worth, draw, kwh, per_tray, worth
from logbook.text import Refused


def test_nothing_cut_yet_is_not_nothing_for_a_kwh() -> None:
    assert worth(0.0, kwh_used=2.0, mol=3.0, cost=Decimal("0.5")) == Worth(None, None, None)


def test_a_poor_power_factor_draws_more_amps() -> None:
    # Computed: 100 W at power factor 0.55 on 120 V.
    drawn = draw(100, volts=120, power_factor=0.55)
    assert drawn.volt_amps == pytest.approx(181.8, abs=0.05)
    assert drawn.amps == pytest.approx(1.515, abs=0.0005)


def test_the_power_factor_follows_from_amps() -> None:
    drawn = draw(100, volts=120, amps=1.515)
    assert drawn.power_factor == pytest.approx(0.55, abs=0.0005)


@pytest.mark.parametrize(("watts", "amps"), [(19.3, 0.16), (41.0, 0.35)])
def test_label_amps_on_120_volts_are_taken(watts: float, amps: float) -> None:
    # Common practice, no source: 19.3 W lamps draw 0.16 A and 41 W lamps 0.35 A on 120 V.
    drawn = draw(watts, lamps=3, volts=120, amps=amps)
    assert drawn.watts == pytest.approx(3 * watts)
    assert drawn.amps == pytest.approx(3 * amps)
    assert 0.97 <= (drawn.power_factor or 0) <= 1


@pytest.mark.parametrize(
    ("watts", "lamps", "price", "a_day"),
    [(19.3, 3, 0.13, 0.12), (19.3, 6, 0.13, 0.24), (41.0, 3, 0.13, 0.25)],
)
def test_what_a_shelf_costs_a_day(watts: float, lamps: int, price: float, a_day: float) -> None:
    # Common practice, no source: about 12, 24 and 25 cents a day for 16 h at 0.13 a kWh. The
    # third is 25.6 cents, which people round down.
    assert kwh(draw(watts, lamps).watts, 16) * price == pytest.approx(a_day, abs=0.0065)


def test_energy() -> None:
    assert kwh(72, 16) == pytest.approx(1.152)  # definition
    with pytest.raises(Refused):
        kwh(72, -1)


def test_what_cannot_be_one_lamp_is_refused() -> None:
    with pytest.raises(Refused, match="at least 1 lamp"):
        draw(18, 0)
    with pytest.raises(Refused, match="more than 0 W"):
        draw(0)
    with pytest.raises(Refused, match="check the label"):
        draw(100, volts=120, amps=0.5)
    with pytest.raises(Refused, match="not both"):
        draw(100, volts=120, amps=1, power_factor=0.9)
    with pytest.raises(Refused, match="need volts"):
        draw(100, amps=1)
    with pytest.raises(Refused, match="power factor"):
        draw(100, volts=120, power_factor=1.5)
    with pytest.raises(Refused, match="more than 0 A"):
        draw(100, volts=120, amps=0)


def test_watts_alone_leave_the_rest_unknown() -> None:
    assert draw(18, 4).volt_amps is None
    assert draw(18, 4, volts=230).amps is None


def test_what_light_and_electricity_gave() -> None:
    gave = worth(300, kwh_used=12, mol=9, cost=Decimal("3.6"))
    assert gave.grams_per_kwh == 25
    assert gave.cost_per_100_g == Decimal("1.2")
    assert gave.grams_per_mol == pytest.approx(33.333, abs=0.001)
    nothing = worth(0, kwh_used=0, mol=0, cost=Decimal("3.6"))
    assert (nothing.grams_per_kwh, nothing.grams_per_mol, nothing.cost_per_100_g) == (None,) * 3
    assert per_tray(Decimal("1.2"), 4) == Decimal("0.3")
    assert per_tray(Decimal("1.2"), 0) is None


@given(st.floats(1, 2000), st.integers(1, 50), st.floats(100, 250), st.floats(0.3, 1))
def test_watts_are_volts_times_amps_times_power_factor(
    watts: float, lamps: int, volts: float, factor: float
) -> None:
    drawn = draw(watts, lamps, volts=volts, power_factor=factor)
    assert drawn.amps is not None
    again = draw(watts, lamps, volts=volts, amps=drawn.amps / lamps)
    assert again.power_factor == pytest.approx(factor)
    assert volts * drawn.amps * factor == pytest.approx(drawn.watts)
