"""Grams from the bag to the plate: nothing is lost, and both directions say the same."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.growing.packs.flow import Flow, Link, Node, What, settled

BAG, OTHER = Node("seed lot", "RA 1"), Node("seed lot", "RA 2")
BATCH, TRAY, CUT = Node("batch", 1), Node("tray", 101), Node("cut", 7)
LOT, MIX = Node("pack lot", 20), Node("pack lot", 21)
BISTRO, CAFE = Node("delivery", 30), Node("delivery", 31)
ENDS: tuple[What, ...] = ("delivery", "own use", "waste", "stock", "unaccounted")


def way(*nodes: Node, grams: float) -> list[Link]:
    """The same grams from node to node."""
    return [Link(giver, taker, grams) for giver, taker in pairwise(nodes)]


def test_a_bag_is_followed_to_the_plate_and_the_plate_to_the_bag() -> None:
    flow = settled([*way(BAG, BATCH, TRAY, CUT, LOT, grams=400), Link(LOT, BISTRO, 250)])
    forward = flow.forward([BAG])
    assert [node.what for node in forward.grams] == [
        "seed lot", "batch", "tray", "cut", "pack lot", "delivery", "stock",
    ]  # fmt: skip
    assert (forward.grams_in, forward.grams[BISTRO], forward.sum("stock")) == (400, 250, 150)
    back = flow.back([BISTRO])
    assert list(back.grams) == [BISTRO, LOT, CUT, TRAY, BATCH, BAG]
    assert back.grams[BAG] == 250


def test_a_mixed_lot_counts_in_proportion_to_what_each_root_gave() -> None:
    """300 g of one bag and 100 g of another: three quarters of each pack are of the first."""
    flow = settled([
        Link(BAG, Node("cut", 1), 300), Link(OTHER, Node("cut", 2), 100),
        Link(Node("cut", 1), LOT, 300), Link(Node("cut", 2), LOT, 100),
        Link(LOT, MIX, 200), Link(LOT, CAFE, 120), Link(MIX, BISTRO, 160),
    ])  # fmt: skip
    forward = flow.forward([BAG])
    assert forward.grams[CAFE] == pytest.approx(90)
    assert forward.grams[BISTRO] == pytest.approx(120)
    assert forward.sum("stock") == pytest.approx(60 + 30)
    assert flow.back([BISTRO]).grams[OTHER] == pytest.approx(40)
    both = flow.forward([LOT, MIX])
    assert (both.grams_in, both.sum(*ENDS)) == (400, 400)


def test_a_cut_without_a_lot_is_unaccounted_for() -> None:
    flow = settled(way(BAG, BATCH, TRAY, CUT, grams=400))
    assert flow.forward([BATCH]).sum("unaccounted") == 400


def test_more_despatched_than_was_weighed_stays_true_and_shows() -> None:
    """A weight of 400 g is struck out after 250 g were despatched: they did go out."""
    flow = settled([Link(CUT, LOT, 0), Link(LOT, BISTRO, 250)])
    for root, out in ((LOT, 250), (CUT, 0)):
        forward = flow.forward([root])
        assert forward.grams_in == 0
        assert BISTRO in forward.grams
        assert (forward.grams[BISTRO], forward.sum("unaccounted")) == (out, -out)


def test_a_live_tray_reaches_its_customer_without_a_gram() -> None:
    flow = settled([*way(BAG, BATCH, TRAY, grams=0), Link(TRAY, BISTRO, 0)])
    assert flow.forward([BAG]).grams[BISTRO] == 0
    assert BAG in flow.back([BISTRO]).grams


GRAMS = st.floats(0, 2000).map(lambda grams: round(grams, 1))


@st.composite
def histories(draw: st.DrawFn) -> tuple[list[Link], list[Node]]:
    """Any way through a room: batches of several bags, cuts in a lot or in none, lots of lots.

    More may go out of a lot than came in: weights are put right after packs have gone out.
    """
    links, lots = list[Link](), [Node("pack lot", name) for name in range(draw(st.integers(1, 5)))]
    bags = [Node("seed lot", name) for name in "ABC"]
    for batch in range(draw(st.integers(1, 4))):
        cuts = draw(st.lists(st.tuples(GRAMS, st.sampled_from([*lots, None])), max_size=4))
        grams = sum(each for each, _ in cuts)
        shares = draw(st.lists(st.integers(1, 9), min_size=1, max_size=3))
        links += [
            Link(bag, Node("batch", batch), grams * share / sum(shares))
            for bag, share in zip(bags, shares, strict=False)
        ]
        for number, (each, lot) in enumerate(cuts):
            tray, cut = Node("tray", 10 * batch + number), Node("cut", 10 * batch + number)
            links += way(Node("batch", batch), tray, cut, *([lot] if lot else ()), grams=each)
    for number, lot in enumerate(lots):
        later = [*lots[number + 1 :], *(Node(end, number) for end in ENDS[:3])]
        links += [Link(lot, to, draw(GRAMS)) for to in draw(st.lists(st.sampled_from(later)))]
    return links, [*bags, *lots]


@settings(max_examples=40)
@given(histories())
def test_what_came_in_is_what_went_out_is_left_is_waste_or_unaccounted(
    history: tuple[list[Link], list[Node]],
) -> None:
    links, roots = history
    flow = settled(links)
    for some in (*([root] for root in roots), roots[:3], roots[-2:], roots):
        forward = flow.forward(some)
        assert forward.sum(*ENDS) == pytest.approx(forward.grams_in, abs=1e-3)


@settings(max_examples=40)
@given(histories())
def test_forward_and_back_mirror_each_other(history: tuple[list[Link], list[Node]]) -> None:
    flow = settled(history[0])
    nodes = {node for link in flow.links for node in (link.giver, link.taker)}
    back = {node: flow.back([node]).grams for node in nodes}
    for node in nodes:
        forward = flow.forward([node]).grams
        assert set(forward) == {other for other in nodes if node in back[other]}
        for other in forward:
            assert forward[other] == pytest.approx(back[other][node], abs=1e-3)


def test_a_node_of_no_link_is_followed_to_itself() -> None:
    assert Flow(()).forward([LOT]).grams == {LOT: 0}
