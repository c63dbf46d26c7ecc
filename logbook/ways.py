"""What a sentence asks a person to do, named so that it fits the shell and the screens alike.

A lower layer writes `f"There is no trial yet; {Way.TRIAL_NEW} sets one up."` and knows neither
keys nor commands: the sentence holds a mark, and who shows it puts words in its place.
"""

import re
from collections.abc import Callable
from enum import Enum

_MARK = re.compile("\ufdd0(\\w+)(?: ([^\ufdd1]*))?\ufdd1")
"""Between two code points that Unicode keeps for the inside of a program: no text has them."""


class Way(Enum):
    """A thing that can be done: its command, and where on the screens it is done, keys in braces.

    An ellipsis in the command stands for what `of` says. With no place on the screens the command
    is named there too: there is no other way. What begins with - is an option.
    """

    AIR_FEED = "air --feed", ""
    ALLERGENS = "templates allergens", "the crop's template ({templates})"
    AT = "--at", "{at} on the round ({round})"
    BEGIN = "begin", ""
    BOOK = "--book", ""
    BOOK_AT = "--book …", ""
    BY = "--by AB", ""
    CHANGE_PLACE = "places change", "places ({places})"
    CHECK = "check", ""
    AHEAD_DATE = "check --ahead WHEN", ""
    AHEAD_STRIKE = "check --ahead strike", ""
    CHECK_MEND = "check --mend", ""
    COLD = "cold", "the cold store (C on {jump})"
    COPY = "copy", ""
    COPY_TO = "copy …", ""
    CURRENCY = "room --currency …", "the room, from places ({places}),"
    CUSTOMERS = "customer list", "customers ({customers})"
    CUSTOMER_ADD = "customer add …", ""
    CUSTOMER_CHANGE = "customer change", "{edit} on the customers ({customers})"
    DAYS = "--date-order …", ""
    DEMO = "demo", ""
    DEMO_TOUR = "demo --tour", ""
    DONE = "did …", "the round ({round})"
    EXPORT = "export", ""
    HANDBOOK = "handbook", ""
    MAKER = 'room --maker "…" --address "street; town"', "the room, from places ({places}),"
    MIXES = "mix list", "customers ({customers})"
    MOVE_BOOK = "move-book FROM TO", ""
    MOVE = "move TRAYS PLACE", "{move} on the racks ({racks})"
    NOW = "--now", ""
    ORDERS = "orders list", "customers ({customers})"
    ORDER = "order", ""
    PAGE = "page", "the page ({page})"
    PAGE_OF = "page --day …", "the page ({page})"
    POOL = "room --numbers", "the room, from places ({places})"
    RECALL = "recall …", "{add} on the holds ({holds})"
    RELEASE = "release … --why REASON", "{release} on the holds ({holds})"
    RESTORE = "restore", ""
    RESTORE_COPY = "restore …", ""
    RESTORE_DRY = "restore … --dry-run", ""
    RESTORE_TRIED = "restore COPY --dry-run", ""
    RECORDS_CSV = "records --event shipping --csv", ""
    SHEET_OF = "sheet enter --printed …", ""
    SOAKED_AT = "--soaked-at", ""
    SOW = "sow", "{sow}"
    SOW_AGAIN = "--again", ""
    SOW_ANYWAY = "--anyway", ""
    SOW_PLAN = "--plan", "a time to come"
    TASTE = "trial taste", ""
    TASTE_NEW = "trial taste NAME --new", "{tasting} on its page"
    TEMPLATES = "templates", "crop templates ({templates})"
    TEMPLATE_BACK = "templates retire --back", "{retire} on the crop templates ({templates})"
    TRIAL = "trial", "its page (trials: {trials})"
    TRIAL_ADD = "trial add", "{add} on the trial's page"
    TRIAL_END = "trial plan NAME --per-arm N", "{counts} on its page, then e,"
    TRIALS = "trial list", "trials ({trials})"
    TRIAL_NEW = "trial new", "{add} on the trials ({trials})"
    UNDO = "undo", "{undo}"

    def __init__(self, command: str, screens: str) -> None:
        self.command = command
        self.screens = screens

    def __str__(self) -> str:
        return f"\ufdd0{self.name}\ufdd1"

    def of(self, what: object) -> str:
        """The same with what it is done to, which stands in the command: a path, a day."""
        return f"\ufdd0{self.name} {what}\ufdd1"


def _put(text: str, words: Callable[[Way, str], str]) -> str:
    return _MARK.sub(lambda found: words(Way[found[1]], found[2] or "…"), text)


def in_shell(text: str) -> str:
    """The text with the commands: "`logbook trial new` sets one up"."""

    def words(way: Way, what: str) -> str:
        command = way.command.replace("…", what)
        return command if command.startswith("-") else f"`logbook {command}`"

    return _put(text, words)


def on_screens(text: str, keyed: Callable[[str], str]) -> str:
    """The text with keys, which `keyed` puts into words like {sow}; else with the commands."""
    return _put(
        text, lambda way, what: keyed(way.screens) if way.screens else in_shell(way.of(what))
    )
