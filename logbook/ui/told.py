"""What is told of the line that the cursor is on: its name, facts in two columns, sentences."""

from collections.abc import Iterable, Sequence

from rich.cells import cell_len
from textual.content import Content

from logbook.text import clean
from logbook.ui.columns import wrapped

Facts = Sequence[tuple[str, str]]
"""Labels and values; what has no value is left out."""
Part = Content | str | Facts
"""A text as it is drawn, a sentence, or facts; an empty one is left out."""


def told(head: str, parts: Iterable[Part], width: int) -> Content:
    """Draw a name and what is told of it in so many cells, a blank line between parts.

    Without a name it stands below a list, where lines are dear: there is no blank line then.
    """
    lines = [Content.styled(clean(head, lines=False), "bold $primary")] if head else []
    for part in parts:
        drawn = _drawn(part, width)
        lines += [Content("")] * bool(head and drawn) + drawn
    return Content("\n").join(lines)


def _drawn(part: Part, width: int) -> list[Content]:
    if isinstance(part, Content):
        return part.wrap(width) if part else []
    if isinstance(part, str):
        return [Content(line) for line in wrapped(clean(part), width)] if part else []
    return facts_below(part, width)


def facts_below(facts: Facts, width: int) -> list[Content]:
    """Facts one below the other: labels in one column, values in the next."""
    known = [(label, value) for label, value in facts if value]
    room = max((cell_len(label) for label, _ in known), default=0) + 2
    lines = []
    for label, value in known:
        for at, words in enumerate(wrapped(clean(value, lines=False), width - room)):
            name = label if not at else ""
            pad = " " * (room - cell_len(name))
            lines.append(Content.assemble((name, "$text-past"), pad, words))
    return lines
