"""Trials kept in the book: set up, sown, judged, tasted, decided, taken over, taken back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import (
    all_templates,
    list_templates,
    put_template,
    show_template,
)
from logbook.actions.room.places import PlaceDraft, add_place
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import look
from logbook.actions.trays.page import page
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.actions.trials.deciding import adopt, decide, set_weights
from logbook.actions.trials.finding import list_trials, strike_trial
from logbook.actions.trials.joining import join_trial, leave_out
from logbook.actions.trials.judging import judge_trial
from logbook.actions.trials.planned_end import plan_end
from logbook.actions.trials.setting_up import preview_trial, set_up
from logbook.actions.trials.sowing import SowTrialDraft, preview_sowing, sow_trial
from logbook.actions.trials.tasting import (
    SampleSaid,
    new_tasting,
    newest_sheet,
    taste,
    write_triangle,
)
from logbook.actions.trials.words import judged_words, set_up_words, stand_words
from logbook.growing.cautions import words_of
from logbook.growing.trays.looks import Look
from logbook.growing.trials.kept import Decision
from logbook.growing.trials.money import Prices
from logbook.growing.trials.view import TrialView
from logbook.store.reads.trials import read_said, read_trials
from logbook.text import Refused
from tests.actions.days import counts, stand_at, views
from tests.room import field_test, moment, wall_words
from tests.trial_room import cut, finished, grow, later, make_trial, plan_trial, sow_all

HEAVY = {"thin": (400, 410, 405), "thick": (520, 515, 530)}
LEVEL = {"thin": (400, 430, 415), "thick": (410, 425, 405)}


def _words(view: TrialView) -> str:
    return "\n".join(f"{head}: {' '.join(texts)}" for head, texts in judged_words(view))


# Setting up


def test_a_set_up_says_what_it_can_show(book: Book) -> None:
    before = counts(book)
    plan = preview_trial(book, plan_trial(replicates=4))
    words = "\n".join(set_up_words(plan))
    assert "thin = 80 g (white) and thick = 120 g (yellow)" in words
    assert "8 trays in all" in words
    assert "15 % from tray to tray (the template's figure; too few own trays" in words
    assert [row.difference for row in plan.gaps] == [5, 10, 15, 20, 30]
    # statsmodels TTestIndPower: spread 15 %, gap 15 % is an effect of one spread, 17 trays (Cohen)
    assert plan.gaps[2].trays_per_arm == 17
    assert plan.seen is not None
    assert 30 < plan.seen < 45
    assert counts(book) == before


def test_arms_without_a_value_of_what_differs_are_named(book: Book) -> None:
    arms = ("soak 8h", "long=12h", "usual")
    words = set_up_words(preview_trial(book, plan_trial(factor="soak", arms=arms)))
    assert "no value of the soak for soak 8h and usual: the template's is used" in words
    bare = set_up_words(preview_trial(book, plan_trial(arms=("thin", "thick=120g"))))
    assert "no value of the seed density for thin: add their trays by hand" in bare
    assert not any("no value" in line for line in set_up_words(preview_trial(book, plan_trial())))


def test_one_tray_per_arm_is_said_to_show_nothing(book: Book) -> None:
    words = set_up_words(preview_trial(book, plan_trial(replicates=1)))[-1]
    assert words.startswith("With one tray per arm it can show nothing")


def test_the_rooms_own_spread_is_taken_from_trays_sown_together(book: Book) -> None:
    # given two sowings whose level differs widely and whose trays lie close
    for at, base in (("2026-03-01 08:00", 300), ("2026-03-08 08:00", 500)):
        stand_at(book, at)
        numbers = sow(book, SowDraft("field test", 5)).plan.numbers
        later(book, 8)
        for step, number in enumerate(numbers):
            weigh(book, [number], base * (0.98 + 0.01 * step))
    # then the spread is of trays within a sowing: 0.98 … 1.02, standard deviation 1.58 %
    spread = preview_trial(book, plan_trial()).spread
    assert spread.percent == pytest.approx(1.5811, rel=1e-3)
    assert (spread.trays, spread.sowings) == (10, 2)


def test_trays_weighed_together_tell_nothing_of_the_spread(book: Book) -> None:
    stand_at(book, "2026-03-01 08:00")
    numbers = sow(book, SowDraft("field test", 8)).plan.numbers
    later(book, 8)
    weigh(book, numbers, 3200)
    assert preview_trial(book, plan_trial()).spread.trays == 0


def test_the_layout_is_drawn_again_from_its_seed(book: Book) -> None:
    one, two = (preview_trial(book, plan_trial(layout_number=seed)).layout for seed in (7, 7))
    other = preview_trial(book, plan_trial(layout_number=8)).layout
    assert one == two
    assert one != other
    assert sorted(spot.arm for spot in one) == ["thick"] * 3 + ["thin"] * 3


def test_a_seed_is_drawn_and_kept_where_none_is_given(book: Book) -> None:
    made = make_trial(book, layout_number=None)
    with book.reading() as reading:
        assert read_trials(reading)[0].layout_number == made.layout_number


def test_arms_of_seed_differ_in_their_grams(book: Book) -> None:
    make_trial(book, factor="Seed", arms=("thin=220g", "thick=260g"))
    with book.reading() as reading:
        assert read_trials(reading)[0].factor == "density"


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"arms": ("thin=80g",)}, "A trial needs two arms or more"),
        ({"arms": ()}, "A trial needs two arms or more"),
        ({"arms": ("thin=80g", "THIN=90g")}, 'Two arms are called "THIN"'),
        ({"arms": ("a=80g", "b=80 g")}, "Two arms have the same value"),
        ({"arms": tuple(f"a{n}" for n in range(501))}, "501 arms"),
        ({"arms": ("a=heavy", "b=light")}, '"heavy" is not a number'),
        ({"arms": ("a=", "b=2g")}, "nothing after ="),
        ({"crop": "nothing"}, "There is no crop template"),
        ({"name": " "}, "name is empty"),
        ({"replicates": 0}, "from 1 to 5,000"),
        ({"replicates": 4000}, "up to 5,000 trays"),
        ({"weeks": -1}, "from 0 to 52"),
        ({"shelves": ("Rack 1/Shelf 1",)}, "makes no blocks"),
        ({"shelves": ("Rack 1", "Rack 2")}, "is a rack"),
        ({"shelves": ("Rack 1/Shelf 1", "Rack 1/Shelf 1")}, "named twice"),
        ({"layout_number": -4}, "layout number"),
        ({"measures": ("colour",)}, "is not measured"),
        ({"weights": {"yield": 0}}, "above 0"),
        ({"weights": {"smell": 1}}, "isn't a criterion"),
        ({"weights": {"yield": float("nan")}}, "must be 0 to"),
        ({"factor": "soak", "arms": ("a=8h", "b=30d")}, "longer than a week"),
        (
            {"factor": "stages", "arms": ("a=blakout 2d", "b=blackout 1d")},
            'Did you mean "blackout"',
        ),
    ],
)
def test_what_cannot_be_set_up_is_said_and_not_written(
    book: Book, changes: dict[str, object], sentence: str
) -> None:
    before = counts(book)
    with pytest.raises(Refused, match=sentence):
        set_up(book, plan_trial(**changes))
    assert counts(book) == before


def test_a_name_is_taken_until_its_trial_is_struck(book: Book) -> None:
    make_trial(book)
    with pytest.raises(Refused, match="already"):
        make_trial(book, name="Thick OR thin")
    strike_trial(book, "thick or thin", "wrong crop")
    make_trial(book, name="Thick OR thin")


# Sowing


def test_all_arms_are_sown_in_one_act_with_their_marks_and_seed(book: Book) -> None:
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00", lot="L7")
    assert {arm.arm: arm.colour for arm in sown.arms} == {"thin": "white", "thick": "yellow"}
    for arm in sown.arms:
        batch = batch_page(book, str(arm.batch_id))
        assert batch.seed_grams == {"thin": 80, "thick": 120}[arm.arm]
        assert batch.lot == "L7"
        assert {tray.colour for tray in batch.trays} == {arm.colour}
    # numbers run along the shelf in the drawn order, and stand so
    spots = [tray_page(book, number).tray.state.slot for number, _ in sown.spots[:4]]
    assert spots == [1, 2, 3, 4]
    # and the whole of it is taken back as one
    before = views(book)
    undo(book)
    assert not the_round(book).lines
    assert judge_trial(book, "thick").records == ()
    assert views(book) != before


@pytest.mark.parametrize(
    ("draft", "said"),
    [
        (SowTrialDraft(numbers=(901, 902, 903, 904, 905, 906)), "In use already"),
        (SowTrialDraft(at=moment("2020-01-01 08:00")), "more than two years ago"),
        (SowTrialDraft(grams=30.0), "The seed is what this trial compares"),
        (SowTrialDraft(lot="x" * 400), "seed lot"),
    ],
)
def test_a_preview_refuses_what_the_sowing_would(
    book: Book, draft: SowTrialDraft, said: str
) -> None:
    stand_at(book, "2026-04-01 07:00")
    sow(book, SowDraft("field test", 1, numbers=(901,)))
    make_trial(book)
    for tried in (preview_sowing, sow_trial):
        with pytest.raises(Refused, match=said):
            tried(book, "thick", draft)


def test_sowing_it_again_is_another_week_drawn_anew(book: Book) -> None:
    make_trial(book, weeks=2)
    first = sow_all(book, "2026-04-01 08:00")
    second = sow_all(book, "2026-04-08 08:00")
    assert (first.run, second.run) == (1, 2)
    assert [spot.arm for _, spot in first.spots] != [spot.arm for _, spot in second.spots]
    blocks = {record.block for record in judge_trial(book, "thick").records}
    assert blocks == {"week 1", "week 2"}


def test_shelves_are_blocks(book: Book) -> None:
    shelves = ("Rack 1/Shelf 2", "Rack 2/Shelf 1")
    make_trial(book, replicates=1, shelves=shelves)
    sown = sow_all(book, "2026-04-01 08:00")
    assert [spot.block for _, spot in sown.spots] == [s for s in shelves for _ in range(2)]
    records = judge_trial(book, "thick").records
    assert {(record.block, record.place) for record in records} == {(s, s) for s in shelves}
    assert sown.notices == ()


def test_trays_that_begin_in_the_dark_come_to_their_block_with_the_light(book: Book) -> None:
    add_place(book, PlaceDraft("Dark shelf", "shelf", "Rack 2", 4))
    shelves = ("Rack 1/Shelf 1", "Rack 2/Shelf 1")
    make_trial(book, replicates=1, shelves=shelves)
    sown = sow_all(book, "2026-04-01 08:00")
    assert {record.place for record in judge_trial(book, "thick").records} == {"Rack 2/Dark shelf"}
    assert sown.notices == (
        "On Rack 1/Shelf 1 when they come under lights, in this order: 101 102.",
        "On Rack 2/Shelf 1 when they come under lights, in this order: 103 104.",
    )


def test_trays_that_find_no_room_on_their_block_are_named(book: Book) -> None:
    made = make_trial(book, shelves=("Rack 1/Shelf 1", "Rack 2/Shelf 1"))
    assert "Rack 1/Shelf 1 has 4 slots for 6 trays: too few" in set_up_words(made)
    # nothing is written before the grower says that it may be so
    before = counts(book)
    lack = "Rack 1/Shelf 1 has room for 4 of 6 trays: the others would go to Rack 1/Shelf 2"
    with pytest.raises(Refused, match=lack):
        sow_all(book, "2026-04-01 08:00")
    assert lack in preview_sowing(book, "thick", SowTrialDraft()).lack
    assert counts(book) == before
    sown = sow_all(book, "2026-04-01 08:00", anyway=True)
    assert sown.notices == (
        "No room on Rack 1/Shelf 1 for 105 106: they are on Rack 1/Shelf 2.",
        "No room on Rack 2/Shelf 1 for 111 112: they are on Rack 2/Shelf 2.",
    )


def test_a_shelf_that_trays_come_to_with_the_light_must_have_room(book: Book) -> None:
    add_place(book, PlaceDraft("Dark shelf", "shelf", "Rack 2", 12))
    stand_at(book, "2026-03-31 08:00")
    sow(book, SowDraft("field test", 2, place="Rack 1/Shelf 1"))
    make_trial(book, replicates=2, shelves=("Rack 1/Shelf 1", "Rack 2/Shelf 1"))
    before = counts(book)
    with pytest.raises(Refused, match="Rack 1/Shelf 1 has 2 free slots now for the 4 trays that"):
        sow_all(book, "2026-04-01 08:00")
    assert counts(book) == before
    assert len(sow_all(book, "2026-04-01 08:00", anyway=True).spots) == 8


def test_trays_go_to_the_place_that_is_named(book: Book) -> None:
    make_trial(book, replicates=2)
    ahead = preview_sowing(book, "thick", SowTrialDraft(place="Rack 2/Shelf 1"))
    assert (ahead.act_id, ahead.places) == (None, ("Rack 2/Shelf 1",) * 4)
    assert stand_words(ahead) == ["on Rack 2/Shelf 1, in this order: 101 102 103 104"]
    sow_all(book, "2026-04-01 08:00", place="Rack 2/Shelf 1")
    assert {record.place for record in judge_trial(book, "thick").records} == {"Rack 2/Shelf 1"}
    with pytest.raises(Refused, match="Rack 2/Shelf 1 has room for 0 of 4 trays"):
        sow_all(book, "2026-04-02 08:00", place="Rack 2/Shelf 1")


def test_a_place_beside_shelves_is_refused(book: Book) -> None:
    make_trial(book, replicates=1, shelves=("Rack 1/Shelf 1", "Rack 2/Shelf 1"))
    with pytest.raises(Refused, match="go to its shelves, Rack 1/Shelf 1 and Rack 2/Shelf 1"):
        sow_all(book, "2026-04-01 08:00", place="Rack 1/Shelf 2")


def test_a_sowing_without_any_slot_is_said_before_it_is_written(book: Book) -> None:
    make_trial(book, replicates=30)
    with pytest.raises(
        Refused, match=r"There is room for \d+ of 60 trays: the others would have no"
    ):
        sow_all(book, "2026-04-01 08:00")


def test_the_same_day_is_no_second_week_unless_asked_for(book: Book) -> None:
    make_trial(book, replicates=1)
    sow_all(book, "2026-04-01 08:00")
    before = counts(book)
    with pytest.raises(Refused, match=r"sown on Wed 1 Apr already \(week 1: 101 102\)"):
        sow_all(book, "2026-04-01 08:01")
    assert counts(book) == before
    assert sow_all(book, "2026-04-01 08:01", again=True).run == 2
    # a sowing that was taken back is none, and the next day is another day
    undo(book)
    undo(book)
    assert sow_all(book, "2026-04-01 08:02").run == 1
    assert sow_all(book, "2026-04-02 00:01").run == 2


def test_a_plan_for_the_same_day_is_no_second_week_either(book: Book) -> None:
    make_trial(book, replicates=1)
    stand_at(book, "2026-04-01 08:00")
    sow_trial(book, "thick", SowTrialDraft(at=moment("2026-04-02 20:00")))
    with pytest.raises(Refused, match="is planned for Thu 2 Apr already"):
        sow_trial(book, "thick", SowTrialDraft(at=moment("2026-04-02 09:00")))


def test_there_is_no_verdict_before_the_planned_end_and_who_decides_is_told(book: Book) -> None:
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    cut(book, sown, {"thin": (400, 410), "thick": (520, 515)})
    (head, said), *_ = judged_words(judge_trial(book, "thick"))
    assert head == "What the weights say"
    assert said[0].startswith("No verdict before the planned end: 4 of 6 trays are weighed")
    early = "This is before the planned end (4 of 6 trays): there is no verdict yet."
    assert decide(book, "thick", "thick it is").notices == (early,)
    assert adopt(book, "thick", "thin", "looks good").notices == (early,)
    # when: the last two are discarded and weighed, and two more join
    weigh(book, [sown.arms[0].numbers[2]], 405.0)
    discard(book, [sown.arms[1].numbers[2]], "mould")
    parts = judged_words(judge_trial(book, "thick"))
    assert [head for head, _ in parts][:2] == ["In short", "What the weights say"]
    assert decide(book, "thick", "thick it is").notices == ()
    later(book, 1)
    again = sow_trial(book, "thick", SowTrialDraft())
    view = judge_trial(book, "thick")
    assert view.judged is not None
    assert sum(arm.n for arm in view.judged.arms) == 5
    assert "6 trays joined after the planned end and aren't judged" in view.words
    assert len(again.spots) == 6


def test_the_planned_end_is_said_anew_for_nothing_before_a_weight_and_not_after_the_end(
    book: Book,
) -> None:
    make_trial(book)
    with pytest.raises(Refused, match="is 3 trays per arm already"):
        plan_end(book, "thick", 3)
    with pytest.raises(Refused, match="from 1 to 5,000"):
        plan_end(book, "thick", 0)
    assert plan_end(book, "thick", 4).notices[0].startswith("As planned, with 4 trays per arm, it")
    undo(book)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    assert plan_end(book, "thick", 2).notices[0] == (
        "It has 6 trays already, and all of them count."
    )
    undo(book)
    cut(book, sown, {"thin": (400, 410), "thick": (520, 515)})
    later(book, 1)
    (costs,) = plan_end(book, "thick", 5).notices
    assert costs.startswith("Its plan changed after trays were weighed, so a difference must stay")
    assert judge_trial(book, "thick").course.threshold == 0.01
    undo(book)  # what was seen at the stricter level stays seen
    assert judge_trial(book, "thick").course.threshold == 0.01


def test_a_planned_end_that_has_come_is_not_planned_anew(book: Book) -> None:
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    cut(book, sown, {"thin": (400, 410), "thick": (520, 515)})
    assert "4 of 6 trays" in judge_trial(book, "thick").why_not
    for arm in sown.arms:
        weigh(book, [arm.numbers[2]], 450.0)
    with pytest.raises(Refused, match="has come: all 6 trays are weighed or discarded"):
        plan_end(book, "thick", 5)


def test_a_trial_without_a_planned_end_is_asked_for_one_and_can_be_given_one(book: Book) -> None:
    make_trial(book, replicates=1)
    assert judge_trial(book, "thick").course.open
    assert plan_end(book, "thick", 3).words.startswith("planned end of thick or thin: 3 trays per")
    assert judge_trial(book, "thick").course.planned == 6
    assert "It has no planned end" in plan_end(book, "thick", 1).notices[0]


def test_a_plan_puts_the_sowing_on_the_round(book: Book) -> None:
    make_trial(book, factor="soak", arms=("dry=0h", "soaked=8h"), replicates=1)
    stand_at(book, "2026-04-01 07:00")
    sow_trial(book, "thick", SowTrialDraft(at=moment("2026-04-01 20:00")))
    chores = [(line.chore, wall_words(line.due_at)) for line in the_round(book).lines]
    # only the arm that is soaked asks for its soak; both are sown at one time
    assert sorted(chores) == [
        ("soak", "2026-04-01 12:00"),
        ("sow", "2026-04-01 20:00"),
        ("sow", "2026-04-01 20:00"),
    ]


def test_one_soak_for_all_arms_is_no_trial_of_the_soak(book: Book) -> None:
    make_trial(book, factor="soak", arms=("short=4h", "long=12h"))
    for said in ("dry", moment("2026-03-31 20:00")):
        with pytest.raises(Refused, match="can't be the same for all arms"):
            sow_all(book, "2026-04-01 08:00", soaked=said)
    assert sow_all(book, "2026-04-01 08:00", soaked="arms").notices == ()


def test_an_arm_soaked_too_long_is_named_before_and_after_it_is_sown(book: Book) -> None:
    make_trial(book)
    stand_at(book, "2026-04-01 08:00")
    draft = SowTrialDraft(soaked=moment("2026-03-31 08:00"))
    said = preview_sowing(book, "thick", draft).notices
    assert said[0].startswith("thin: The soak is long: 24 h, where the template has 4 h.")
    assert sow_trial(book, "thick", draft).notices == said


@pytest.mark.parametrize(
    ("factor", "arms", "check"),
    [
        ("soak", ("dry=0h", "wet=12h"), lambda t: t.soak_seconds == 12 * 3600),
        ("medium", ("coco", "hemp"), lambda t: t.medium == "hemp"),
        ("stages", ("short=blackout 12h", "long=blackout 2d"),
         lambda t: t.stages[1].seconds == 2 * 86_400),
        ("water", ("once=1", "twice=2 a day"), lambda t: t.stages[2].water_per_day == 2),
    ],
)  # fmt: skip
def test_arms_are_sown_from_variants_that_the_round_follows(
    book: Book, factor: str, arms: tuple[str, ...], check: object
) -> None:
    offered = [each.name for each in list_templates(book)]
    make_trial(book, factor=factor, arms=arms, replicates=1)
    sown = sow_all(book, "2026-04-01 08:00")
    template = tray_page(book, sown.arms[1].numbers[0]).tray.template
    assert callable(check)
    assert check(template)
    assert template.label() == "field test"
    # the variants are kept among the retired templates and are not offered
    assert [each.name for each in list_templates(book)] == offered
    assert any(each.retired for each in all_templates(book))


def test_arms_of_a_lamp_trial_can_be_shelves(book: Book) -> None:
    make_trial(
        book, factor="lamps", arms=("warm=Rack 1/Shelf 1", "cool=Rack 2/Shelf 1"), replicates=2
    )
    sow_all(book, "2026-04-01 08:00")
    view = judge_trial(book, "thick")
    where = {(record.arm, record.place) for record in view.records}
    assert where == {("warm", "Rack 1/Shelf 1"), ("cool", "Rack 2/Shelf 1")}
    # shelf and lamps always go together, which is said
    assert ("the lamps", "shelf") in view.confounders.together
    with pytest.raises(Refused, match="shelves cannot be blocks too"):
        make_trial(
            book, name="x", factor="lamps", arms=("a=Rack 1/Shelf 1", "b=Rack 2/Shelf 1"),
            shelves=("Rack 1/Shelf 2", "Rack 1/Shelf 3"),
        )  # fmt: skip


def test_seed_is_each_arms_own(book: Book) -> None:
    make_trial(book)
    with pytest.raises(Refused, match="each arm has its own"):
        sow_all(book, "2026-04-01 08:00", grams=90.0)
    make_trial(book, name="vague", arms=("little", "much"))
    with pytest.raises(Refused, match="does not say how much seed"):
        sow_all(book, "2026-04-01 08:00", "vague")


# Trays that stand already, and trays left out


def test_trays_that_stand_already_are_taken_in(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2, grams=80))
    sow(book, SowDraft("field test", 2, grams=120))
    make_trial(book, arms=("thin", "thick"))
    join_trial(book, "thick", "thin", [101, 102])
    done = join_trial(book, "thick", "thick", [103, 104])
    assert done.words == "103 104 in thick of thick or thin"
    moved = join_trial(book, "thick", "thick", [102])
    assert moved.notices == ("102 was in thin before.",)
    arms = {record.number: record.arm for record in judge_trial(book, "thick").records}
    assert arms == {101: "thin", 102: "thick", 103: "thick", 104: "thick"}


def test_trays_of_another_crop_are_refused_and_of_another_template_are_said_first(
    book: Book,
) -> None:
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 4, soaked="dry"))
    put_template(book, field_test(name="field test, coarse", variety="coarse"), "another seed")
    sow(book, SowDraft("field test, coarse", 1, soaked="dry"))
    sow(book, SowDraft("pea", 1, soaked="dry"))
    make_trial(book, arms=("thin", "thick"))
    # then: a tray of peas is refused, one of another template is taken and named
    with pytest.raises(Refused, match="a trial of field test, but 106: pea"):
        join_trial(book, "thick", "thin", [101, 106])
    join_trial(book, "thick", "thin", [101, 102])
    done = join_trial(book, "thick", "thick", [103, 104, 105])
    assert done.notices[0].startswith("Sown from another template, field test, coarse: 105;")
    line = "Not all trays are from one template: 105 was sown from field test, coarse, not from field test."
    assert judged_words(judge_trial(book, "thick"))[0][1][0] == line
    # when: a sowing turns out to have been peas
    later(book, 9)
    weigh(book, [101], 400.0)
    weigh(book, [104], 500.0)
    sown = next(each for each in page(book, date(2026, 4, 1), kind="sow") if 101 in each.trays)
    replace_entry(book, sown.id, "misread", Changes(template="pea"))
    line = "Not all trays are from one template: 101–105 were sown from pea shoots and field test, coarse, "
    view = judge_trial(book, "thick")
    assert view.words.startswith(line)
    assert judged_words(view)[0][1][0].startswith(line)
    # and: what is left out is not named
    leave_out(book, "thick", [101, 102, 103, 104, 105], "peas")
    assert judge_trial(book, "thick").strange == ""


def test_what_cannot_be_taken_in_is_said(book: Book) -> None:
    make_trial(book, shelves=("Rack 1/Shelf 1", "Rack 1/Shelf 2"))
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 2))
    refused: list[tuple[Callable[[], object], str]] = [
        (lambda: join_trial(book, "thick", "thin", [101]), "Which block"),
        (lambda: join_trial(book, "thick", "thin", [999]), "no tray 999"),
        (lambda: join_trial(book, "thick", "mid", [101]), 'no arm "mid"'),
        (lambda: join_trial(book, "none", "thin", [101]), 'There is no trial "none"'),
        (
            lambda: join_trial(book, "thick", "thin", [101], shelf="Rack 2/Shelf 1"),
            "is not a block",
        ),
        (lambda: join_trial(book, "thick", "thin", [101], shelf="Rack 1/Shelf 1", run=0), "Week 0"),
        (lambda: leave_out(book, "thick", [101], "x"), "is not in the trial"),
        (lambda: leave_out(book, "thick", [101], " "), "give a reason"),
    ]
    for call, sentence in refused:
        with pytest.raises(Refused, match=sentence):
            call()


def test_a_tray_that_must_not_count_is_said_to_be_left_out(book: Book) -> None:
    make_trial(book, replicates=4)
    sown = sow_all(book, "2026-04-01 08:00")
    thin, thick = (arm.numbers for arm in sown.arms)
    grow(book, sown)
    discard(book, [thin[0]], "mould")
    for number, grams in zip(thin[1:], (400, 410, 405), strict=True):
        weigh(book, [number], grams)
    weigh(book, thick[:2], 1000)
    for number, grams in zip(thick[2:], (520, 0), strict=True):
        weigh(book, [number], grams)
    leave_out(book, "thick", [thin[1]], "stood in the draught")
    view = judge_trial(book, "thick")
    words = _words(view)
    assert "1 tray of thin left out (discarded: mould)" in words
    assert "1 tray of thin left out (stood in the draught)" in words
    assert "2 trays of thick left out (weighed together with others" in words
    # a weight of 0 is kept apart from a missing one
    assert "1 tray of thick weighed 0 g (died?)" in words
    assert view.arms[1].died == 1
    undo(book)
    assert "draught" not in _words(judge_trial(book, "thick"))


# Judging


def test_a_clear_difference_is_said_with_its_gap(book: Book) -> None:
    view = finished(book, HEAVY)
    assert view.judged is not None
    assert view.judged.design == "one way"
    assert view.judged.shown
    assert view.judged.pairs[0].gap_grams == pytest.approx(116.667, rel=1e-4)
    assert view.advice.startswith(
        "thick cut more than thin (probably by 102 g or more; 117 g, 29 %, here"
    )
    assert "a second week would show whether it holds" in view.advice


def test_no_difference_makes_no_winner(book: Book) -> None:
    view = finished(book, LEVEL, weights={"yield": 3, "cost": 1})
    assert view.judged is not None
    assert not view.judged.shown
    assert "give no reason to change" in view.advice
    assert "no arm is ahead" in view.advice
    assert "comes first" not in _words(view)


def test_four_arms_of_one_tray_declare_no_winner(book: Book) -> None:
    """Common practice, no source: 594, 513, 635 and 662 g come up by chance often enough."""
    grams = {"a": (594,), "b": (513,), "c": (635,), "d": (662,)}
    view = finished(book, grams, factor="brushing", arms=tuple(grams), replicates=1)
    assert view.judged is not None
    assert view.judged.design == "one tray"
    assert "must stay below" not in view.words, "nothing is tested"
    judged = judge_trial(book, "thick", spread=8.0).judged
    assert judged is not None
    assert judged.chance_of_such_a_gap == pytest.approx(1 / 8, abs=0.02)
    assert "shows no difference" in judged.words
    assert "no reason to change" in judge_trial(book, "thick", spread=8.0).advice


def test_weeks_join_as_blocks(book: Book) -> None:
    make_trial(book, replicates=1)
    grams = [(400, 440), (500, 545), (450, 492), (420, 458)]
    for week, (thin, thick) in enumerate(grams):
        sown = sow_all(book, f"2026-04-{1 + 9 * week:02} 08:00")
        later(book, 8)
        cut(book, sown, {"thin": (thin,), "thick": (thick,)})
    view = judge_trial(book, "thick")
    assert view.judged is not None
    assert view.judged.design == "blocks"
    assert view.judged.shown
    assert "as pairs of trays in 4 blocks" in view.judged.words
    assert "It is based on 4 weeks taken together." in view.advice


def test_a_missing_block_cell_is_named(book: Book) -> None:
    make_trial(book, replicates=1, arms=("a=60g", "b=80g", "c=100g"))
    for week in range(3):
        sown = sow_all(book, f"2026-04-{1 + 9 * week:02} 08:00")
        later(book, 8)
        weights = {"a": (400 + 9 * week,), "b": (430 - 5 * week,), "c": (440 + week,)}
        cut(book, sown, {**weights, "c": () if week == 1 else weights["c"]})
    view = judge_trial(book, "thick")
    assert view.judged is not None
    assert "Without a weight: c in week 2" in view.judged.words


def test_all_trays_alike_are_nothing_to_compare(book: Book) -> None:
    view = finished(book, {"thin": (400, 400, 400), "thick": (400, 400, 400)})
    words = _words(view)
    assert "All trays weigh the same" in words
    assert "nan" not in words.casefold()


def test_an_arm_without_trays_is_said(book: Book) -> None:
    view = finished(book, {"thin": (400, 410, 405), "thick": ()})
    assert view.judged is None
    assert "3 of 6 trays" in view.why_not
    assert view.advice == view.why_not


def test_a_running_trial_says_that_it_runs(book: Book) -> None:
    make_trial(book)
    assert judge_trial(book, "thick").why_not.startswith("No tray is in this trial yet")
    sow_all(book, "2026-04-01 08:00")
    assert judge_trial(book, "thick").why_not == "Nothing is cut yet: 6 trays still growing."
    assert list_trials(book)[0].state == "running"


def test_five_hundred_arms_are_judged_without_a_traceback(book: Book) -> None:
    arms = tuple(f"a{number}" for number in range(500))
    stand_at(book, "2026-04-01 08:00")
    make_trial(book, factor="luck", arms=arms, replicates=1)
    view = judge_trial(book, "thick")
    assert len(view.arms) == 500
    sow(book, SowDraft("field test", 3))
    later(book, 8)
    for number, arm in ((101, "a0"), (102, "a499")):
        join_trial(book, "thick", arm, [number])
        weigh(book, [number], 400 + number)
    view = judge_trial(book, "thick")
    assert view.judged is not None
    assert view.judged.design == "one tray"
    assert "nan" not in _words(view).casefold()


# Likeness


def test_what_else_differed_is_listed_with_its_values(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 3, grams=80, lot="old sack"))
    stand_at(book, "2026-04-01 11:00")
    sow(book, SowDraft("field test", 3, grams=120, lot="new sack"))
    make_trial(book, arms=("thin", "thick"))
    join_trial(book, "thick", "thin", [101, 102, 103])
    join_trial(book, "thick", "thick", [104, 105, 106])
    view = judge_trial(book, "thick")
    words = " ".join(view.confounders.words)
    assert "seed lot differs: could explain part of it (thin old sack and thick new sack)" in words
    assert "time of sowing differs" in words
    # seed a tray is the one thing, so it is not among what else differed
    assert "seed sown" not in words
    # what always moves together with the arms cannot be told apart from them
    assert "cannot say which of them made the difference" in words
    assert ("the seed density", "seed lot", "time of sowing") in view.confounders.together


def test_deep_red_stems_put_watering_on_the_list(book: Book) -> None:
    """Common practice, no source: a deep red stem usually means a tray went short of water."""
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    assert "Watering may differ" not in " ".join(judge_trial(book, "thick").confounders.words)
    look(book, [sown.arms[0].numbers[0]], Look(stem_colour="deep red"))
    words = " ".join(judge_trial(book, "thick").confounders.words)
    assert f"deep red stems on tray {sown.arms[0].numbers[0]} (thin)" in words


def test_deep_red_stems_of_one_arm_speak_against_its_gap(book: Book) -> None:
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    look(book, list(sown.arms[0].numbers), Look(stem_colour="deep red"))
    cut(book, sown, HEAVY)
    view = judge_trial(book, "thick")
    assert view.judged is not None
    assert view.judged.shown
    assert (
        "A look saw deep red stems (thin: all trays and thick: none seen), usually a sign of too "
        "little water, so the difference may come from the watering"
    ) in view.advice


def test_deep_red_stems_of_all_arms_alike_part_nothing(book: Book) -> None:
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    look(book, [number for number, _ in sown.spots], Look(stem_colour="deep red"))
    cut(book, sown, HEAVY)
    view = judge_trial(book, "thick")
    assert "deep red" in " ".join(view.confounders.words)
    assert "deep red" not in view.advice


def test_height_and_days_are_judged_where_they_are_measured(book: Book) -> None:
    stand_at(book, "2026-04-01 07:00")
    make_trial(book, measures=("height", "days", "looks"))
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    for arm, tall in zip(sown.arms, (60, 80), strict=True):
        for more, number in enumerate(arm.numbers):
            look(book, [number], Look(height_mm=tall + more))
    cut(book, sown, HEAVY)
    view = judge_trial(book, "thick")
    said = " ".join(dict(judged_words(view))["Also measured"])
    assert "taller than thin (95 % sure), 2 cm (33 %) here" in said
    assert "Days to the cut: thin 7.5 days" in said
    assert "Within thin and thick all trays are the same" in said
    assert "Each is judged on its own" in said
    assert "Looks: no taster has scored them yet." in said


def test_trays_cut_on_different_days_are_said(book: Book) -> None:
    stand_at(book, "2026-04-01 07:00")
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    cut(book, sown, {"thin": (400, 410, 405), "thick": ()})
    later(book, 1)
    cut(book, sown, {"thin": (), "thick": (520, 515, 530)})
    view = judge_trial(book, "thick")
    words = " ".join(view.confounders.words)
    assert "were cut on 2 different days (Wed 8 Apr thin and Thu 9 Apr thick)" in words
    assert "days from sowing to the cut" in {each.fact for each in view.confounders.differences}
    assert "this trial cannot say which of them did it" in view.advice


def test_records_that_are_missing_are_named(book: Book) -> None:
    view = finished(book, HEAVY)
    assert "seed lot" in view.confounders.missing
    assert "seed lot is not recorded for any tray." in view.confounders.words


# Money, tasting, weighing up


def test_money_is_only_reckoned_from_what_is_known(book: Book) -> None:
    view = finished(book, HEAVY)
    assert not view.costs.per_100_g
    assert "light, the price of seed and hours of work are not known" in view.costs.words
    costs = judge_trial(book, "thick", prices=Prices(seed_per_kg=Decimal("10.0"))).costs
    # 80 g at 10 a kg is 0.80 a tray of 405 g; 120 g is 1.20 a tray of 521.67 g
    assert costs.per_100_g["thin"] == pytest.approx(0.80 / 4.05)
    assert costs.per_100_g["thick"] == pytest.approx(1.20 / 5.216667, rel=1e-6)
    assert costs.missing == ("light", "hours of work")


def test_a_gap_that_may_be_chance_makes_no_money(book: Book) -> None:
    finished(book, LEVEL)
    costs = judge_trial(book, "thick", prices=Prices(seed_per_kg=Decimal("10.0"))).costs
    assert costs.per_100_g["thick"] / costs.per_100_g["thin"] == pytest.approx(1.5)
    assert "no difference in weight is shown" in costs.words


def _taste(book: Book, taster: str, thin: float, thick: float) -> None:
    codes = newest_sheet(book, "thick").codes
    taste(book, "thick", taster, {codes["thin"]: SampleSaid({"taste": thin}, "mild"),
                                  codes["thick"]: SampleSaid({"taste": thick})})  # fmt: skip


def test_two_tasters_show_nothing_and_their_notes_are_kept(book: Book) -> None:
    finished(book, HEAVY)
    sheet = new_tasting(book, "thick", seed=5)
    assert sorted(sheet.order("AB")) == sorted(sheet.codes.values())
    for taster in ("AB", "CD"):
        _taste(book, taster, 8, 5)
    words = _words(judge_trial(book, "thick"))
    assert "With 2 tasters nothing can be shown" in words
    assert "AB on thin: mild" in words


def test_many_tasters_who_agree_are_believed(book: Book) -> None:
    finished(book, HEAVY)
    new_tasting(book, "thick", seed=5)
    for number in range(8):
        _taste(book, f"T{number}", 8, 5)
    _taste(book, "t0", 7, 6)  # the same taster anew, spelled in small letters
    view = judge_trial(book, "thick")
    assert view.tasting is not None
    result = view.tasting.aspects[0].ranks
    assert result is not None
    assert (result.tasters, result.shown) == (8, True)


def test_scores_out_of_range_and_unknown_codes_are_refused(book: Book) -> None:
    finished(book, HEAVY)
    with pytest.raises(Refused, match="no tasting"):
        newest_sheet(book, "thick")
    codes = new_tasting(book, "thick", ranked=True, seed=5).codes
    code = codes["thin"]
    for said, sentence in (
        ({code: SampleSaid({"taste": 3})}, "must be between 1 and 2"),
        ({code: SampleSaid({"smell": 1})}, "is not part of a tasting"),
        ({"000": SampleSaid({"taste": 1})}, 'no sample "000"'),
        ({}, "No sample was scored"),
        ({code: SampleSaid({}, " ")}, "No sample was scored"),
    ):
        with pytest.raises(Refused, match=sentence):
            taste(book, "thick", "AB", said)


def test_a_triangle_test_is_written_and_read(book: Book) -> None:
    finished(book, HEAVY)
    done = write_triangle(book, "thick", ("thin", "thick"), 12, 8)
    assert "8 are enough" in done.words  # ISO 4120: 12 tasters need 8
    assert "8 are enough" in _words(judge_trial(book, "thick"))
    for arms, tasters, right in ((("thin", "thin"), 12, 8), (("thin", "thick"), 3, 4)):
        with pytest.raises(Refused):
            write_triangle(book, "thick", arms, tasters, right)


def test_what_counts_said_after_the_cut_is_said_to_lean(book: Book) -> None:
    view = finished(book, HEAVY, weights={"yield": 2, "taste": 1})
    assert view.weighing is not None
    assert "lean" not in view.weighing.words
    assert "nothing is known of it yet: taste" in view.weighing.words
    assert view.weighing.places
    assert view.weighing.places[0].arm == "thick"
    later(book, 1)
    set_weights(book, "thick", {"yield": 1})
    weighing = judge_trial(book, "thick").weighing
    assert weighing is not None
    assert "may lean towards what was seen" in weighing.words


@pytest.mark.parametrize(("cut_before", "leans"), [(0, False), (1, True)])
def test_what_counts_leans_when_it_is_said_after_the_first_of_the_cuts(
    book: Book, cut_before: int, leans: bool
) -> None:
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    grow(book, sown)
    numbers = [number for arm in sown.arms for number in arm.numbers]
    for number in numbers[:cut_before]:
        weigh(book, [number], 400)
        later(book, 1)
    set_weights(book, "thick or thin", {"yield": 1})
    for number in numbers[cut_before:]:
        weigh(book, [number], 500)
    weighing = judge_trial(book, "thick or thin").weighing
    assert weighing is not None
    assert ("may lean" in weighing.words) is leans


# Deciding and taking over


def test_adopting_makes_a_version_that_links_to_the_trial(book: Book) -> None:
    finished(book, HEAVY)
    before = show_template(book, "field test").template
    done = adopt(book, "thick", "thick", "a third more", "thicker still")
    assert done.notices == words_of("denser stands")
    view = show_template(book, "field test")
    assert (view.template.seed_grams, view.template.version) == (120, before.version + 1)
    assert view.versions[0].why == 'trial "thick or thin", arm "thick": a third more'
    with book.reading() as reading:
        trial = read_trials(reading)[0]
        decision = read_said(reading, Decision, trial.id)[0]
    assert decision.version_id == view.versions[0].version_id
    assert decision.arm_id == trial.arms[1].id
    assert decision.try_next == "thicker still"
    assert list_trials(book)[0].state == "decided"
    assert any(line.kind == "decide" and "a third more" in line.note for line in page(book))
    with pytest.raises(Refused, match="has that already"):
        adopt(book, "thick", "thick", "again")


def test_adopting_without_evidence_says_so(book: Book) -> None:
    finished(book, LEVEL)
    (notice,) = adopt(book, "thick", "thin", "looks airier").notices
    assert "do not show that thin cuts more" in notice


def test_what_a_template_has_no_field_for_goes_into_its_notes(book: Book) -> None:
    make_trial(book, factor="brushing", arms=("none", "twice a day"))
    adopt(book, "thick", "twice a day", "stockier")
    assert show_template(book, "field test").template.notes.endswith("Brushing: twice a day.")
    make_trial(book, name="vague", arms=("little", "much"))
    with pytest.raises(Refused, match="has no value of the seed density"):
        adopt(book, "vague", "much", "more")


def test_a_decision_is_an_entry_and_can_be_struck(book: Book) -> None:
    make_trial(book)
    decide(book, "thick", "stay with 100 g", "try the soak")
    view = judge_trial(book, "thick")
    assert [(each.decided, each.try_next) for each in view.decisions] == [
        ("stay with 100 g", "try the soak")
    ]
    strike(book, view.decisions[0].entry_id, "too soon")
    assert judge_trial(book, "thick").decisions == ()
    with pytest.raises(Refused, match="What was decided"):
        decide(book, "thick", " ")


# Taking back


def test_a_struck_set_up_is_gone_from_the_list_and_stays_in_the_record(book: Book) -> None:
    stand_at(book, "2026-04-01 07:00")
    make_trial(book)
    sown = sow_all(book, "2026-04-01 08:00")
    strike_trial(book, "thick", "wrong seed")
    assert list_trials(book) == []
    assert tray_page(book, sown.spots[0][0]).tray.status == "growing"
    assert any(line.struck and line.kind == "trial" for line in page(book))
    undo(book)
    assert len(judge_trial(book, "thick").records) == 6


def test_a_set_up_is_undone_as_a_whole(book: Book) -> None:
    make_trial(book, weights={"yield": 1})
    undo(book)
    assert list_trials(book) == []


def test_an_entry_of_a_trial_is_not_corrected_in_place(book: Book) -> None:
    made = make_trial(book)
    assert made.entry_id is not None
    with pytest.raises(Refused, match="belongs to a trial"):
        replace_entry(book, made.entry_id, "typo", Changes(note="x"))


def test_a_struck_sowing_leaves_its_tray_out(book: Book) -> None:
    make_trial(book, replicates=1)
    sown = sow_all(book, "2026-04-01 08:00")
    entry = next(
        line.id for line in page(book) if line.kind == "sow" and line.trays == sown.arms[0].numbers
    )
    strike(book, entry, "never sown")
    records = {record.arm: record.left_out for record in judge_trial(book, "thick").records}
    assert records == {"thin": "its sowing was struck out", "thick": ""}
