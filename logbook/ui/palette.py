"""The list of all commands: found by their words and by what they do, the screen's own first."""

from textual.app import SystemCommand
from textual.command import Hit, Hits, Provider

from logbook.tried import meant_by


def how_well(typed: str, words: str, tip: str) -> int:
    """3 where the command's words begin like all that was typed, 2 words inside, 1 its tip, 0 no.

    A word that means the command, as "invoice" means the deliveries, is as good as its tip.
    """
    wanted = typed.casefold().split()
    named, told = words.casefold(), tip.casefold()
    if named.startswith(" ".join(wanted)):
        return 3
    if all(each in named for each in wanted):
        return 2
    said = all(any(word.startswith(each) for word in told.split()) for each in wanted)
    meant = meant_by(typed) or typed
    return int(said or any(word.startswith(meant) for word in named.split()))


class CommandFinder(Provider):
    """Finds the commands of the screen that is shown."""

    def _hits(self, typed: str) -> list[tuple[int, SystemCommand]]:
        found = [
            (how_well(typed, each.title, each.help), each)
            for each in self.app.get_system_commands(self.screen)
        ]
        return sorted((one for one in found if one[0]), key=lambda one: -one[0])

    async def discover(self) -> Hits:
        async for hit in self.search(""):
            yield hit

    async def search(self, query: str) -> Hits:
        """Hits in the order in which they are to stand: Textual sorts them by their score."""
        matcher = self.matcher(query)
        for at, (_, command) in enumerate(self._hits(query)):
            shown = matcher.highlight(command.title) if query else command.title
            yield Hit(1 / (1 + at), shown, command.callback, help=command.help)
