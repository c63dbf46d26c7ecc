"""Figures in columns: units once, figures right, what gives way first where there is no room."""

from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.table import Column, table, turned

Shelf = tuple[str, float, str]
SHELVES: list[Shelf] = [("Rack 1/Shelf 1", 184, "enough"), ("Rack 1/Shelf 2", 9, "too little")]
COLUMNS: tuple[Column[Shelf], ...] = (
    Column("shelf", lambda one: one[0], right=False),
    Column("PPFD", lambda one: f"{one[1]:.0f}", "µmol/m²/s"),
    Column("DLI", lambda one: f"{one[1] * 0.0576:.1f}", "mol/m²/d", spare=1),
    Column("empty", lambda _: "", "kWh"),
    Column("verdict", lambda one: one[2], right=False),
)


def test_figures_stand_right_under_their_heads_with_the_unit_once() -> None:
    assert table(COLUMNS, SHELVES, 80).lines == (
        "shelf                PPFD       DLI  verdict",
        "                µmol/m²/s  mol/m²/d",
        "Rack 1/Shelf 1        184      10.6  enough",
        "Rack 1/Shelf 2          9       0.5  too little",
    )


def test_where_it_is_narrow_units_are_a_line_and_what_can_be_spared_goes() -> None:
    assert table(COLUMNS, SHELVES, 30).lines == (
        "PPFD µmol/m²/s",
        "shelf          PPFD verdict",
        "Rack 1/Shelf 1  184 enough",
        "Rack 1/Shelf 2    9 too little",
    )


def test_a_name_is_never_cut_for_figures() -> None:
    assert table(COLUMNS, SHELVES, 20).rows == (
        "Rack 1/Shelf 1\n   184  enough",
        "Rack 1/Shelf 2\n     9  too little",
    )


def test_things_side_by_side_have_a_figure_in_each_row() -> None:
    assert turned(COLUMNS, SHELVES, 60).lines == (
        "shelf           Rack 1/Shelf 1  Rack 1/Shelf 2",
        "PPFD µmol/m²/s             184               9",
        "DLI mol/m²/d              10.6             0.5",
        "verdict                 enough      too little",
    )


@given(
    st.lists(st.tuples(st.text("ab c", max_size=30), st.floats(0, 1e5), st.text("xy")), max_size=4),
    st.integers(20, 90),
)
def test_no_line_is_wider_than_its_room(shelves: list[Shelf], width: int) -> None:
    lines = "\n".join(table(COLUMNS, shelves, width).lines).split("\n")
    assert max(map(len, lines)) <= width
