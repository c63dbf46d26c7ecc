"""A tour of one minute: a sentence on each screen, and the key that leads to the next."""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass

from textual.binding import Binding
from textual.events import Key

from logbook.paths import state_folder, write_private
from logbook.ui.command import Command
from logbook.ui.commands import keyed
from logbook.ui.forms.asking import AskYes, Question
from logbook.ui.sitting import Sitting


@dataclass(frozen=True, slots=True)
class Step:
    """What is said on a screen of a `command`; a command in braces in the `words` is its key."""

    command: str
    words: str


STEPS = (
    Step("round",
         "This is the round: what each tray needs now, in the order you walk past them."),
    Step("round",
         "On a line, {done} writes that it is done; {undo} undoes it. ▌ marks what is late."),
    Step("racks", "The racks: what is where, how old it is, and what it is waiting for."),
    Step("due", "What will be ready on which day, how heavy, and how sure that is."),
    Step("weigh", "Cutting: type the grams, press Enter, and the next tray is offered."),
    Step("sow",
         "Sowing: crop and trays; the book says how much seed and when each cover comes off."),
    Step("page", "The day's page: who did what and when. A wrong line is struck out, never erased."),
    Step("round",
         "{help} shows the keys of any screen, {handbook} the handbook; {back} always goes back. "
         "That is all."),
)  # fmt: skip
OFFER = "This is the sample room; nothing here is yours. A tour of the screens, one minute?"


class TourStep(Question[bool]):
    """One step, drawn over the screen that it speaks of; Enter or the named key goes on."""

    BINDINGS = [Binding("enter,space", "dismiss(True)", "go on")]

    def __init__(self, number: int, commands: Mapping[str, Command]) -> None:
        step, last = STEPS[number], number + 1 == len(STEPS)
        after = commands[step.command if last else STEPS[number + 1].command]
        moves = after.name != step.command
        self.next_keys = after.keys if moves else ()
        on = f"enter or {after.key_words}: {after.words}" if moves else "enter go on"
        hint = "enter end" if last else f"{on}   esc leave the tour"
        super().__init__(keyed(step.words, commands), f"{hint}   {number + 1} of {len(STEPS)}")

    def on_key(self, event: Key) -> None:
        """Let the key that the step names go on too."""
        if event.key in self.next_keys:
            event.stop()
            self.dismiss(True)


async def tour(app: Sitting, *, ask: bool = False) -> None:
    """Walk through the steps, asked first if so wanted; Esc leaves at any. Nothing is written."""
    if ask and not await app.push_screen_wait(AskYes(OFFER, "enter yes   esc no")):
        return
    for number, step in enumerate(STEPS):
        app.go(step.command)
        if not await app.push_screen_wait(TourStep(number, app.commands)):
            break
    app.go("round")


def first_time() -> bool:
    """Whether this person was never offered the tour before; from now on they were."""
    path = state_folder() / "tour"
    if path.exists():
        return False
    with suppress(OSError):
        write_private(path, "offered\n")
    return True
