"""`logbook reckon compare`, `repeats`, `triangle` and `ranks`, from a file to words and JSON."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.cli.reckoning.reckon import reckon
from logbook.text import Refused

# Common practice, no source: four arms, one tray each, in g.
FOUR = "arm,grams\nA,594\nB,513\nC,635\nD,662\n"

WEEKS = "arm,grams,week\n" + "".join(
    f"{arm},{grams},{week}\n"
    for arm, row in {"thin": (300, 320, 310), "thick": (330, 352, 339)}.items()
    for week, grams in enumerate(row)
)


def run(*arguments: str, stdin: bytes | None = None) -> str:
    result = CliRunner().invoke(reckon, list(arguments), input=stdin)
    if isinstance(result.exception, Refused):
        raise result.exception
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    assert result.exit_code == 0, result.output
    return result.output


def saved(folder: Path, content: str | bytes, name: str = "trial.csv") -> str:
    file = folder / name
    file.write_bytes(content.encode() if isinstance(content, str) else content)
    return str(file)


def data(*arguments: str) -> dict[str, Any]:
    def refuse(constant: str) -> None:
        raise AssertionError(constant)

    value = json.loads(run(*arguments, "--json"), parse_constant=refuse)
    assert isinstance(value, dict)
    return value


def test_one_tray_per_arm_as_json(tmp_path: Path) -> None:
    found = data("compare", saved(tmp_path, FOUR), "--spread", "8%")
    assert list(found) == [
        "design", "arms", "f", "df_arm", "df_error", "p", "block_f", "cv_percent", "pairs",
        "chance_of_such_a_gap", "trays_per_arm_to_settle", "words",
    ]  # fmt: skip
    assert found["design"] == "one tray"
    first = {"arm": "A", "n": 1, "mean_grams": 594.0, "sd_grams": None, "died": 0, "missing": 0}
    assert found["arms"][0] == first
    assert found["pairs"] == []
    assert all(found[key] is None for key in ("f", "df_arm", "df_error", "p", "block_f"))
    assert found["chance_of_such_a_gap"] == pytest.approx(0.125, abs=0.005)
    assert isinstance(found["trays_per_arm_to_settle"], int)
    assert "about one time in eight" in found["words"]


def test_one_tray_per_arm_in_words(tmp_path: Path) -> None:
    said = run("compare", saved(tmp_path, FOUR), "--spread", "10 %")
    assert "about three times in ten" in said
    assert "shows no difference" in said
    assert "nan" not in said.casefold()


def test_blocks_by_a_named_column(tmp_path: Path) -> None:
    file = saved(tmp_path, WEEKS)
    assert data("compare", file)["design"] == "one way"
    found = data("compare", file, "--block", "WEEK")
    assert found["design"] == "blocks"
    assert found["block_f"] > 0
    assert (found["df_arm"], found["df_error"]) == (1, 2)
    assert set(found["pairs"][0]) == {"a", "b", "gap_grams", "low", "high", "p", "gap_percent"}


def test_a_column_called_block_is_used(tmp_path: Path) -> None:
    file = saved(tmp_path, WEEKS.replace("week", "Block"))
    assert data("compare", file)["design"] == "blocks"


@pytest.mark.parametrize(
    "content",
    [
        b"\xef\xbb\xbfarm,grams\r\nA,594\r\nB,513\r\nC,635\r\nD,662\r\n",
        b"Arm;Grams\nA;594,0\nB;513,0\nC;635,0\nD;662,0\n",
        b"\nARM\tGRAMS\nA\t594\nB\t513\n\nC\t635\nD\t662",
        b'" arm "," grams "\n"A","594 g"\n"B","0.513 kg"\nC,635\nD,662\n',
        "arm;grams\nA;594,5\nB;513\nC;635\nD;662\n".encode("utf-16"),
        b"arm,grams,note\nA,594,caf\xe9\nB,513,\nC,635\nD,662,x,y\n",
    ],
)
def test_files_as_they_are_saved(tmp_path: Path, content: bytes) -> None:
    found = data("compare", saved(tmp_path, content))
    assert [arm["arm"] for arm in found["arms"]] == ["A", "B", "C", "D"]
    assert [arm["mean_grams"] for arm in found["arms"]] == pytest.approx(
        [594, 513, 635, 662], abs=0.6
    )


def test_standard_input() -> None:
    assert "One tray per arm" in run("compare", "-", stdin=FOUR.encode())


def test_a_dead_and_a_missing_tray(tmp_path: Path) -> None:
    file = saved(tmp_path, "arm,grams\nA,300\nA,0\nA,310\nB,320\nB,\nB,330\n")
    found = data("compare", file)
    assert [arm["n"] for arm in found["arms"]] == [2, 2]
    assert "1 tray of A weighed 0 g (died?)" in found["words"]
    assert "1 tray of B without a weight" in found["words"]


def test_trays_cut_on_different_days_are_said(tmp_path: Path) -> None:
    file = saved(tmp_path, "arm,grams,cut\nA,300,1 May\nB,310,2 May\n")
    assert "cut on 2 different days" in run("compare", file)


def test_markup_in_a_name_is_only_text(tmp_path: Path) -> None:
    said = run("compare", saved(tmp_path, "arm,grams\n[/]red\x1b[31m,300\nB,310\n"))
    assert "[/]red[31m" in said
    assert "\x1b" not in said


def test_500_arms(tmp_path: Path) -> None:
    rows = "".join(f"arm {at},{300 + at % 7}\n" for at in range(500))
    found = data("compare", saved(tmp_path, "arm,grams\n" + rows), "--spread", "8%")
    assert len(found["arms"]) == 500


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("", "is empty"),
        ("\n \n", "is empty"),
        ("arm,grams\n", "There are no trays"),
        ("arm,grams\nA,300\nA,310\n", "There is one arm"),
        ("arm,weight kg\nA,1\n", 'has no column "grams"'),
        ("name,grams\nA,1\n", 'has no column "arm"'),
        ("arm,grams\nA,300\nB,heavy\n", "line 3: .*heavy"),
        ("arm,grams\nA,300\nB,-5\n", "line 3: .*negative"),
        ("arm,grams\nA,300\n,310\n", "line 3: the arm has no name"),
        ('arm;grams\nA;300\nB;"1,250"\n', "line 3: .*two ways"),
        ("arm,grams\nA,300\nB,1e99\n", "line 3: .*too large"),
        (b"\x00\x01\x02", "not a text file"),
        ('arm,grams\nA,"300\n', "Fewer than two|one arm|cannot be read"),
    ],
)
def test_bad_files_are_refused_in_a_sentence(
    tmp_path: Path, content: str | bytes, says: str
) -> None:
    with pytest.raises(Refused, match=says):
        run("compare", saved(tmp_path, content))


def test_files_that_are_not_there(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="There is no file"):
        run("compare", str(tmp_path / "none.csv"))
    with pytest.raises(Refused, match="is a folder"):
        run("compare", str(tmp_path))


def test_a_block_column_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(Refused, match=r'no column "wek".*Did you mean "week"'):
        run("compare", saved(tmp_path, WEEKS), "--block", "wek")


@pytest.mark.parametrize("spread", ["0%", "-8%", "8 g", "lots", "1e9%"])
def test_a_bad_spread(tmp_path: Path, spread: str) -> None:
    with pytest.raises(Refused, match="spread"):
        run("compare", saved(tmp_path, FOUR), "--spread", spread)


def test_repeats() -> None:
    assert data("replicates", "--spread", "8%", "--difference", "10%")["trays_per_arm"] == 11
    assert data("replicates", "--spread", "10", "--difference", "5 %", "--power", "80%")[
        "trays_per_arm"
    ] == 64  # fmt: skip
    assert "11 trays per arm" in run("replicates", "--spread", "8%", "--difference", "10%")


def test_repeats_as_a_table() -> None:
    assert len(data("replicates", "--spread", "8%")["gaps"]) > 4


def test_repeats_out_of_reach_is_null() -> None:
    arguments = ("replicates", "--spread", "100%", "--difference", "0.1%")
    assert data(*arguments)["trays_per_arm"] is None
    assert "more than 10,000" in run(*arguments)


@pytest.mark.parametrize("option", ["--difference=0%", "--power=100%", "--power=2%", "--arms=1"])
def test_bad_repeats(option: str) -> None:
    with pytest.raises(Refused):
        run("replicates", "--spread", "8%", option)


def test_triangle() -> None:
    found = data("triangle", "--tasters", "12", "--right", "8")
    assert found["needed"] == 8
    assert found["chance"] == pytest.approx(0.0188, abs=5e-5)
    assert "can tell them apart" in run("triangle", "--tasters", "12", "--right", "8")


def test_triangle_of_two_tasters_shows_nothing() -> None:
    assert data("triangle", "--tasters", "2", "--right", "2")["needed"] is None


def test_bad_triangle() -> None:
    with pytest.raises(Refused, match="from 0 to 5"):
        run("triangle", "--tasters", "5", "--right", "6")


LONG = "taster,sample,rank\n" + "".join(
    f"{taster},{sample},{rank}\n"
    for taster in ("R", "S", "T", "U")
    for rank, sample in enumerate(("pea", "kale", "cress"), 1)
)
WIDE = "taster;pea;kale;cress\n" + "".join(f"{taster};1;2;3\n" for taster in "RSTU")


@pytest.mark.parametrize("content", [LONG, WIDE])
def test_ranks_long_and_wide(tmp_path: Path, content: str) -> None:
    found = data("ranks", saved(tmp_path, content))
    assert found["tasters"] == 4
    assert found["samples"][0] == {"sample": "pea", "rank_sum": 4.0, "mean_rank": 1.0}
    assert (found["chi_square"], found["df"]) == (pytest.approx(8), 2)
    assert "Best first: pea, then kale, then cress" in found["words"]


def test_scores_rank_the_other_way(tmp_path: Path) -> None:
    by_column = data("ranks", saved(tmp_path, LONG.replace("rank", "score")))
    by_option = data("ranks", saved(tmp_path, WIDE), "--scores")
    assert by_column["samples"][0]["sample"] == by_option["samples"][0]["sample"] == "cress"


def test_two_tasters_show_nothing(tmp_path: Path) -> None:
    said = run("ranks", saved(tmp_path, "taster,A,B\nR,1,2\nS,1,2\n"))
    assert "nothing can be shown" in said


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("who,A,B\nR,1,2\n", 'no column "taster"'),
        ("taster,A\nR,1\n", "two samples or more"),
        ("taster,A,B\nR,1,\n", "No taster judged every sample|two samples"),
        ("taster,A,B\nR,1,good\n", "line 2: .*good"),
        ("taster,A,B\nR,1,2\nR,2,1\n", "line 3: R has judged A before"),
        ("taster,sample,rank\nR,,1\n", "line 2: .*no name"),
    ],
)
def test_bad_ranks(tmp_path: Path, content: str, says: str) -> None:
    with pytest.raises(Refused, match=says):
        run("ranks", saved(tmp_path, content))


@settings(
    max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    st.one_of(
        st.binary(max_size=200),
        st.text(max_size=200).map(lambda text: text.encode("utf-8", "replace")),
        st.lists(
            st.sampled_from(
                ["A", "B", "300", "0", "", "x", "1,5", '"', ";", ",", "\n", "\r\n", "arm,grams\n"]
            ),
            max_size=30,
        ).map(lambda parts: ("arm,grams\n" + ",".join(parts)).encode()),
    )
)
def test_any_bytes_are_read_or_refused(tmp_path: Path, content: bytes) -> None:
    file = saved(tmp_path, content)
    for command in ("compare", "ranks"):
        try:
            run(command, file, "--json")
        except Refused as refused:
            said = str(refused)
            assert "\x1b" not in said, said
