"""The chance that trays are enough for an order."""

import random

import pytest
from click.testing import CliRunner

from logbook.cli.reckoning.reckon import reckon
from logbook.growing.crops.chances import odds_words
from logbook.growing.planning.enough import Yield, fewest
from logbook.text import Refused


@pytest.mark.parametrize(
    ("share", "trays", "percent"), [(0, 10, 50), (0, 11, 99), (0.5, 11, 85), (0.5, 12, 97)]
)
def test_three_kilos(share: float, trays: int, percent: int) -> None:
    """Worked by hand: 3 kg from trays of 300 ± 36 g."""
    assert round(100 * Yield(300, 36, share).chance(trays, 3000)) == percent


@pytest.mark.parametrize("share", [0, 0.5, 1])
def test_simulated_weeks(share: float) -> None:
    """20,000 weeks with batch luck keep the chance within a point, the surplus within 10 g."""
    draw, of, weeks = random.Random(7), Yield(300, 36, share), 20_000
    over = []
    for _ in range(weeks):
        batch = draw.gauss(300, 36 * share**0.5)
        over.append(sum(draw.gauss(batch, 36 * (1 - share) ** 0.5) for _ in range(11)) - 3000)
    assert sum(each >= 0 for each in over) / weeks == pytest.approx(of.chance(11, 3000), abs=0.01)
    found = sum(max(0.0, each) for each in over) / weeks
    assert found == pytest.approx(of.surplus(11, 3000), abs=10)


@pytest.mark.parametrize("share", [0, 0.3, 0.5])
def test_no_fewer_would_do(share: float) -> None:
    of = Yield(300, 36, share)
    found = fewest(3000, of, 0.9)
    assert found.chance_of_enough >= 0.9 > of.chance(found.trays - 1, 3000)


def test_a_known_weight_needs_no_margin() -> None:
    assert fewest(3000, Yield(300, 0), 0.99).trays == 10


def test_luck_that_no_number_of_trays_outweighs() -> None:
    with pytest.raises(Refused, match="several sowings"):
        fewest(3000, Yield(300, 300, 1), 0.9)


def test_loss_takes_trays() -> None:
    line = "trays --order 3kg --yield 300g --spread 0% --sure 90% --loss 5% --json"
    assert '"trays": 11' in CliRunner().invoke(reckon, line.split()).output


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (0.0, "less than once in 100"),
        (0.013, "once in 100"),
        (0.0004, "less than once in 100"),
        (0.93, "93 times in 100"),
        (0.9996, "more than 99 times in 100"),
    ],
)
def test_a_chance_is_never_said_as_certain_where_it_is_not(chance: float, said: str) -> None:
    assert odds_words(chance) == said
