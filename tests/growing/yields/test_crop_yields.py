"""What trays yielded, worked by hand, and batches that are out of the usual."""

from datetime import UTC, date, datetime, timedelta

import pytest

from logbook.growing.crops.templates import CropTemplate, CutWindow, Stage
from logbook.growing.orders.customer import Mix, Packed
from logbook.growing.yields.crop_yields import batch_yields, crop_yields
from logbook.growing.yields.sold import Sold, unlotted_of
from logbook.growing.yields.trays import GoneTray
from logbook.growing.yields.trend import beside_rows, trend_rows
from logbook.growing.yields.unusual import LEAST, limits, unusual_words, with_unusual
from tests.bench.unusual import share_called

DAY = 86_400
SOWN = datetime(2026, 4, 1, 8, tzinfo=UTC)
TEMPLATE = CropTemplate(
    name="radish", crop="radish", seed_grams=30.0,
    stages=(Stage("stacked", 2 * DAY, cover="weight"), Stage("light", None, light="lit")),
    cut=CutWindow(4 * DAY, 6 * DAY, 8 * DAY),
)  # fmt: skip


def tray(
    number: int, batch: int, grams: float | None, *, days: float = 8, lost: str = "", further: float = 0,
    again: float = 0, place: str = "Rack 1/Shelf 1", kwh: float | None = None, crop: str = "radish",
) -> GoneTray:  # fmt: skip
    end = SOWN + timedelta(days=days)
    return GoneTray(
        number, batch, crop, TEMPLATE, SOWN, None if lost else end, end, grams, further, again,
        lost=lost, seed_grams=30.0, place=place, kwh=kwh,
    )  # fmt: skip


TRAYS = (
    tray(1, 1, 300, kwh=2), tray(2, 1, 200, further=60, again=40, kwh=2), tray(3, 1, 0, lost="mould", days=4),
    tray(4, 2, 330, place="Rack 1/Shelf 2"), tray(5, 2, 270), tray(6, 2, None),
)  # fmt: skip


def test_a_crop_by_hand() -> None:
    """1,200 g of five trays that are known: 240 g each with the loss, 300 g each without.

    Slot-days, two stacked to a slot for 2 days: 7 of a tray of 8 days, 3 of the one thrown out
    after 4; 4 × 7 + 3 = 31. Seed 5 × 30 g. Light: 600 g of two trays for 4 kWh.
    """
    (found,) = crop_yields(TRAYS, stack=2)
    assert (found.trays_sown, found.trays_cut, found.trays_lost, found.trays_unweighed) == (
        6,
        5,
        1,
        1,
    )
    assert (found.batches, found.lost_words) == (2, "1 mould")
    assert (found.first_grams, found.further_grams, found.regrown_grams) == (1100, 60, 40)
    assert found.grams_per_tray_sown == pytest.approx(1200 / 5)
    assert found.grams_per_tray_cut == pytest.approx(1200 / 4)
    assert found.grams_per_slot_day == pytest.approx(1200 / 31)
    assert found.grams_per_gram_seed == pytest.approx(1200 / 150)
    assert found.grams_per_kwh == pytest.approx(150)
    assert found.days_to_cut == pytest.approx(8)
    assert found.batch_sd == 0  # both batches have a mean of 300 g
    assert found.tray_sd == pytest.approx((1800 / 3) ** 0.5)


def test_a_tray_sold_live_is_neither_cut_nor_lost_nor_unweighed() -> None:
    (found,) = crop_yields([tray(1, 1, 300), tray(2, 1, None)._replace(sold_live=True)], 1)
    assert (found.trays_sown, found.trays_cut, found.trays_lost, found.trays_unweighed) == (
        2,
        1,
        0,
        0,
    )
    assert found.grams_per_tray_sown == 300
    assert found.other_words == "1 tray sold live"


def test_the_least_per_slot_day_is_first() -> None:
    others = [tray(7, 3, 100, crop="basil", days=18), tray(8, 4, 500, crop="pea")]
    assert [one.crop for one in crop_yields([*TRAYS, *others], 1)] == ["basil", "radish", "pea"]


def test_groups_of_a_crop() -> None:
    found = {one.group: one for one in crop_yields(TRAYS, 1, "shelf")}
    assert found["Rack 1/Shelf 2"].grams_per_tray_sown == 330
    assert found["Rack 1/Shelf 1"].trays_sown == 5
    assert [one.group for one in crop_yields(TRAYS, 1, "season")] == ["spring 2026"]


def test_crops_side_by_side() -> None:
    others = [tray(7, 3, 100, crop="basil, the green one", days=18), tray(8, 4, 400, crop="pea")]
    crops = crop_yields(others, 1)
    head, *bars = beside_rows(crops, 60, "metric")
    assert head == "per slot-day side by side; bars begin at 0"
    assert bars[0] == f"basil, the green one  5.6 g  {'█' * 3}"
    assert bars[1] == f"pea                    50 g  {'█' * 29}"
    narrow = beside_rows(crops, 30, "metric")[1:]
    assert narrow[0] == "bars begin at 0"
    assert narrow[1] == "basil, t…  5.6 g  █"
    assert all(len(line) <= 30 for line in narrow)
    assert beside_rows(crops[:1], 60, "metric") == []
    assert beside_rows(crops, 8, "metric") == []


def test_packs_from_no_lot_count_by_their_days() -> None:
    """Twelve packs of 50 g, four for a later day; 100 g of a mix; five packs of nine days before."""
    day = date(2026, 4, 10)
    mix = Mix(9, "half", day, {1: 0.5, 2: 0.5})

    def packs(count: int, of: date, **what: int | None) -> tuple[date, Packed, float]:
        one = Packed(1, SOWN, "ab", None, 5, what.get("crop"), what.get("mix"), count, 50, of)
        return min(day, of), one, count * 50.0

    packed = [
        packs(8, day, crop=1), packs(4, day + timedelta(days=5), crop=1), packs(2, day, mix=9),
        packs(5, day - timedelta(days=9), crop=1),
    ]  # fmt: skip
    found = unlotted_of(packed, {9: [mix]}, day - timedelta(days=1), day + timedelta(days=1))
    assert found == {1: Sold(0, 650, 450), 2: Sold(0, 50, 50)}
    said = "packed 650 g (50 %), sold 440 g, waste 30 g"
    assert Sold(1300, 650, 440, 30).words(1300, "metric") == f"cut 1300 g, {said}"
    half = Sold(1300, 650, 440, 30).words(2000, "metric")
    assert half == f"cut 2000 g, 1300 g of it into pack lots, {said}"
    assert found[2].words(0, "metric") == "cut 0 g, packed 50 g, sold 50 g"


@pytest.mark.parametrize(
    "trays", [TRAYS[:1], TRAYS[2:3], TRAYS[5:]], ids=["one", "lost", "unweighed"]
)
def test_too_little_says_nothing_of_spread(trays: tuple[GoneTray, ...]) -> None:
    (found,) = crop_yields(trays, 1)
    assert (found.batch_sd, found.tray_sd) == (None, None)


def test_trays_that_all_weigh_the_same() -> None:
    (found,) = crop_yields([tray(each, each % 2, 300) for each in range(6)], 1)
    assert (found.batch_sd, found.tray_sd) == (0, 0)


def test_no_trays() -> None:
    assert crop_yields([], 1) == []
    assert trend_rows([], 80, "metric") == []


def test_the_individuals_chart_of_the_handbook() -> None:
    """NIST/SEMATECH e-Handbook 6.3.2.2, ten flow rates, from memory: 50.81, 45.8159 to 55.8041."""
    found = limits([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])
    assert found is not None
    assert found.mean == pytest.approx(50.81)
    assert found.low == pytest.approx(45.8159, abs=1e-3)
    assert found.high == pytest.approx(55.8041, abs=1e-3)


def test_a_low_batch_is_named_after_enough_others() -> None:
    grams = [300.0, 310.0] * (LEAST // 2)
    assert unusual_words(200, grams[1:], "metric") == ""
    assert unusual_words(300, grams, "metric") == ""
    words = unusual_words(200, grams, "metric")
    assert words == "below what is usual: 200 g per tray; usual is 305 g, seldom less than 278 g"
    trays = [tray(each, each, one) for each, one in enumerate([*grams, 200.0], 1)]
    marked = with_unusual(batch_yields(trays, 1), "metric")
    assert [bool(one.unusual) for one in marked] == [True] + [False] * LEAST
    assert trend_rows(marked, 80, "metric")[-1].endswith("!")


def test_few_usual_batches_are_called_low() -> None:
    """As its chapter says: about 1 in 65 with 8 batches before, 1 in 200 with 24."""
    assert share_called(2_000, 5, LEAST, 1.0) < 0.03
    assert share_called(1_000, 5, 24, 1.0) < 0.015
    assert share_called(300, 5, 24, 0.6) > 0.9
