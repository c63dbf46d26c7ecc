"""What the head of a shelf says on the round: its lamp hours, the last air, its light."""

from collections.abc import Iterator
from datetime import timedelta

from logbook.actions.reading import Reading
from logbook.growing.measures import number_words, temperature_words
from logbook.growing.room.places import Place
from logbook.store.reads.air import newest_air
from logbook.store.reads.lamps import newest_ppfd

AIR_TELLS = timedelta(hours=24)
"""An older reading says nothing of the air now."""


def shelf_heads(reading: Reading) -> dict[str, tuple[str, ...]]:
    """By the path of each shelf, the weightiest first: "lit 06–22", "21.4 °C 61 %", "PPFD 176".

    Air that was not measured on the shelf is that of the rack or the room around it.
    """
    since = reading.now - AIR_TELLS
    air = {
        place: f"{temperature_words(one.celsius, reading.units)} {round(one.humidity)} %"
        for place, one in newest_air(reading).items()
        if since <= one.at <= reading.now
    }
    ppfd = newest_ppfd(reading)

    def around(place: Place | None) -> Iterator[Place]:
        while place is not None:
            yield place
            place = reading.places.get(place.parent)

    heads = {}
    for shelf in (each for each in reading.places if each.kind == "shelf"):
        hours = "no lamps" if shelf.lit and shelf.id in reading.unlit else shelf.hours_words
        near = next((air[each.id] for each in around(shelf) if each.id in air), "")
        light = (
            f"PPFD {number_words(round(ppfd[shelf.id]))}" if shelf.lit and shelf.id in ppfd else ""
        )
        heads[shelf.path] = tuple(filter(None, (hours, near, light)))
    return heads
