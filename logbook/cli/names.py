"""Names that commands and options once had: they still work, and nothing lists them."""

from collections.abc import Sequence

COMMANDS = {
    "give-out": "export",
    "take-in": "import",
    "solution": "cleaning",
    "trial weigh-up": "trial criteria",
    "reckon repeats": "reckon replicates",
    "lot": "trace",
}
"""The words of a command as they were → as they are."""

OPTIONS: dict[str, dict[str, str]] = {
    "begin": {"--lamps": "--lit"},
    "places add": {"--lamps": "--lit"},
    "room": {"--day": "--open"},
    "air": {"--hours": "--back"},
    "tariff": {"--hours": "--price-at"},
    "import": {"--days": "--date-order"},
    "customer add": {"--days": "--weekdays"},
    "customer change": {"--days": "--weekdays"},
    "sow": {"--colour": "--mark"},
    "look": {"--sign": "--ready-sign"},
    "strike": {"--sign": "--ready-sign"},
    "places change": {"--earlier": "--up", "--later": "--down", "--lamps": "--lit"},
    "trial new": {
        "--thing": "--factor",
        "--repeats": "--replicates",
        "--seed": "--draw",
        "--weight": "--priority",
    },
    "trial taste": {"--seed": "--draw"},
    "trial criteria": {"--weight": "--priority"},
    "reckon replicates": {"--gap": "--difference"},
}
"""Words of a command as they are → its options as they were → as they are."""

GUESSES = {
    "trays": "tray", "batches": "batch", "lots": "trace", "rack": "racks", "template": "templates",
    "place": "places", "lamp": "lamps", "trials": "trial", "bill": "bills", "circuits": "circuit", "outages": "outage",
    "yield": "yields", "cost": "costs", "customers": "customer", "delivery": "deliveries", "mixes": "mix",
    "labels": "label", "tapes": "tape", "seeds": "seed", "recalls": "recall", "holds": "hold", "plans": "plan",
    "sheets": "sheet", "record": "records", "looks": "look", "lights": "light", "tariffs": "tariff", "months": "month",
    "promises": "promise", "weeks": "week", "copies": "copy", "rooms": "room", "calendars": "calendar",
}  # fmt: skip
"""The other number of a name, which works as well."""


def words_now(words: str) -> str:
    """A command's words as they are now."""
    return COMMANDS.get(words, GUESSES.get(words, words))


def name_now(above: str, name: str) -> str:
    """The last word of a command as it is now, below the words of its group."""
    return words_now(f"{above} {name}".lstrip()).removeprefix(above).lstrip()


def options_now(words: str, arguments: Sequence[str]) -> list[str]:
    """A command's arguments with its options as they are named now, also in --option=value."""
    renamed = OPTIONS.get(words, {})
    made = []
    for argument in arguments:
        option, mark, value = argument.partition("=")
        made.append(f"{renamed[option]}{mark}{value}" if option in renamed else argument)
    return made
