"""What each argument of a command is, for the manual page."""

from logbook.growing.trays.chores import CHORES
from logbook.text import listed

_WORDS = {
    "numbers": "Trays: 101 104-109; a number that is used again is 23@2027-03-07 or 23@2027-03-07/2.",
    "number": "The number, as the list of its command shows it.",
    "name": "The name, as the list of its command shows it.",
    "template": "A crop template, like radish.",
    "chore": f"The chore: {listed(CHORES, len(CHORES), 'or')}.",
    "crop": "A crop template, or a crop of one, like radish.",
    "code": "A seed lot, a supplier, a batch, a tray, a pack lot or a customer.",
    "lot": "A seed lot, as the bag says it.",
    "weight": "A weight, like 1kg or 12oz.",
    "count": "How many.",
    "date": "A day: 2026-04-14, or a day of the week.",
    "day": "A day: 2026-04-14, or a day of the week.",
    "entry": "The number of an entry, as `logbook page` shows it.",
    "path": "A place by its path, like Rack 1/Shelf 2; the shelf's name alone where it is the only one.",
    "text": "The text; several words need no quotes.",
    "file": "A file, or - for standard input.",
    "arm": "The name of an arm of the trial.",
    "arms": "The names of two arms of the trial.",
    "customer": "The name of a customer.",
    "parts": "Crops with their shares, as in the example.",
    "words": "Words to find; all of them must be there.",
    "command": "The words of a command, like templates show; without them all that have a schema.",
}  # fmt: skip
_OF_COMMANDS = {
    **{f"cold {each} lot": "The code of a pack lot." for each in ("out", "back", "change")},
    **{f"cold {each} weight": "A weight, like 80g; or all." for each in ("out", "back")},
    "cold mix mix": "A mix, as `logbook mix list` names it.",
    "despatch lot": "The code of a pack lot; of live trays their numbers.",
    "despatch packs": "Packs: 6, 6 x 50g, or 300g.",
    "sheet enter lines": "What came back on paper: a code and what was done, as in the example.",
    "month month": "A month, like 2026-04; the last whole one by default.",
    "costs set name": "What costs something, as `logbook costs rates` lists it.",
    "costs set amount": "What it costs, or the minutes that it takes.",
    "tray number": "A tray's number: 23, or 23@2027-03-07 for an earlier life of it.",
    "batch name": "The number of a batch.",
    "label what": "The code of a pack lot; or a crop or a mix, as it is ordered.",
    "templates allergens words": "Allergens, like mustard, celery; or none.",
    "lot name": "A seed lot, as it was written when it was sown.",
    "jot numbers": "Trays, like 101 104-109; or a place; or room.",
    "move words": "Trays, then the place that they go to: a shelf, or a slot of it.",
    "weigh words": "Trays, then the weight: 283, 283g or 10oz.",
    "me initials": "The initials of who writes at this terminal from now on.",
    "seed test sown": "How many seeds were put to germinate.",
    "seed test up": "How many of them came up.",
    "templates copy new_name": "The name of the copy.",
    "templates put file": "A TOML file, as `logbook templates show` prints one.",
    "places add name": "The name of the new place.",
    "export target": "A new folder, or a file that ends in .zip.",
    "import source": "A folder or zip that `logbook export` wrote.",
    "copy target": "A folder, or the name of the new file; without it the folder copies beside the book.",
    "restore copy": "A copy by its path or bare name; without it the copies are listed.",
    "air words": "Temperature and humidity: 21.4 63, or 70F 55%; still or moving may follow.",
    "cleaning purpose": "What was cleaned: trays, lids, the shelf.",
    "tariff price": "The price per kWh.",
    "circuit name": "The name of the circuit.",
    "promise text": "What is asked for, like 500g daikon fri; several words need no quotes.",
    "trial decide decided": "What was decided, in a sentence.",
    "trial new name": "A new name for the trial.",
    "handbook chapter": "A chapter; without it they are listed.",
    "completion shell": "Which shell.",
}  # fmt: skip


def argument_words(command: str, argument: str) -> str:
    """What an argument (by its Python name) of a command (by its words) is; '' where nobody says."""
    return _OF_COMMANDS.get(f"{command} {argument}", _WORDS.get(argument, ""))
