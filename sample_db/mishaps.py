"""What went differently: mishaps, odd cuts and what people jotted about them."""

from dataclasses import dataclass
from typing import Literal

What = Literal[
    "forget", "skip", "late", "never", "split", "leave", "part", "slip", "discard", "mould",
    "sign", "weigh", "jot", "move",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Mishap:
    """Something that befell a batch, named by its crop and how many days ago it was sown.

    forget: not watered on the day. skip: watering left out with a reason. late: a change made
    `hours` late. never: a change not made to this hour. split: `trays` of it go to the light
    `hours` early. leave: one tray is not cut with the rest. part: one tray is cut twice. slip: a
    weight typed ten times too high and struck. discard, mould, sign, weigh, jot and move befall
    one tray (the words of a move name the rack). `ago` is the day, counted back from today; `minute` the minute of the working day
    (of today: the share of it, in sixtieths, between the day's start and now).
    """

    crop: str
    age: int
    what: What
    ago: int = 0
    words: str = ""
    minute: int = 25
    chore: str = ""
    hours: float = 0.0
    trays: int = 1


MISHAPS = (
    # Of the trays that stand in the room today.
    Mishap("pea shoots", 5, "forget", 1),
    Mishap("kale", 3, "never", chore="weight_off"),
    Mishap("chard", 5, "split", chore="light_on", hours=14, trays=2),
    Mishap("rocket", 13, "leave"),
    Mishap("rocket", 13, "jot", 1, "one tray forgotten behind the tap: taste it, 50 % woody?"),
    Mishap("mustard", 6, "sign", 0, "open wide, bite is mild still", 35),
    Mishap("beet", 11, "mould", 0, "window side, size of a coin [photo 3]", 45),
    Mishap("sunflower", 9, "weigh", 0, minute=52),
    Mishap("sunflower", 9, "jot", 1, "hulls off ✔ looks like 100 % 🌻"),
    Mishap("sunflower", 6, "late", chore="weight_off", hours=9,
           words="weight stayed on overnight, stems a little bent"),
    Mishap("basil", 12, "move", 4, "Rack 2"),
    Mishap("coriander", 10, "jot", 2, "semente nova: germinação só razoável, ~70 %"),
    Mishap("radish, pink stem", 8, "jot", 2, "[/] looks tall in the corner [b]why?[/b]"),
    # Of the months behind.
    Mishap("sunflower", 16, "slip"),
    Mishap("pea shoots", 26, "discard", 18, "mould spread from the hinge side, bagged it"),
    Mishap("basil", 40, "discard", 24, "dropped it on the stairs 🙈"),
    Mishap("mustard", 48, "discard", 43, "mould, third day under the lid"),
    Mishap("mustard", 55, "mould", 50, "middle"),
    Mishap("radish", 24, "skip", 19, "soaked through already, pads still heavy"),
    Mishap("kale", 31, "skip", 25, "no water: pump in pieces [again]"),
    Mishap("broccoli", 38, "forget", 32),
    Mishap("pea shoots", 33, "part"),
    Mishap("pea shoots", 54, "part"),
    Mishap("sunflower", 44, "late", chore="weight_off", hours=6, words="forgot, market day"),
    Mishap("radish", 45, "late", chore="light_on", hours=11, words="lid off late: pale"),
    Mishap("cress", 30, "jot", 24, "très dense – essayer 9 g la prochaine fois"),
    Mishap("chard", 33, "jot", 20, "colour splits 40/60: <red> stems heavier than {yellow}"),
    Mishap("red amaranth", 35, "jot", 27, "Größe ok, Farbe schön; Nº 2 = best of the shelf ★"),
    Mishap("wheatgrass", 44, "discard", 38, "smelled sour, binned"),
    Mishap("beet", 60, "split", chore="light_on", hours=12),
    Mishap("coriander", 52, "jot", 40, "=SUM(a:b) is not a note, TM! 😀 — use grams"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class RoomNote:
    """A jot on the room or on one place, so many days ago."""

    ago: int
    words: str
    place: str = ""
    minute: int = 15


ROOM_NOTES = (
    RoomNote(81, "fan filter washed; 1st week with the book"),
    RoomNote(
        62, "new lamps on the third rack: on at night, off at noon [cheaper current]", "Rack 3"
    ),
    RoomNote(47, "power cut from about four to half past nine, lamps and fans off; warm after"),
    RoomNote(46, "water left of the tank tastes fine, pH 6.1"),
    RoomNote(29, "ventoinha do canto faz barulho – lubrificar", "Rack 2/Shelf 3"),
    RoomNote(15, "humidity 78 % at dawn, heater + fan 20 min ⇒ 61 %"),
    RoomNote(8, "drip tray cracked, taped. *Buy two*", "Rack 1/Shelf 2"),
    RoomNote(1, "shelf feels dimmer than the others (to measure)", "Rack 3/Shelf 3", 200),
    RoomNote(0, "frost outside, 17° in here at first; door was ajar 🥶", minute=10),
)
