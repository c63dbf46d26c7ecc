"""A command: what can be asked for by a key, and how keys are written."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Command:
    """One thing that can be asked for. `words` stand in the footer, `tip` in help and palette."""

    name: str
    key: str
    words: str
    tip: str
    also: tuple[str, ...] = ()
    everywhere: bool = False
    """Whether every screen has it; else those that list it among their own."""
    action: str = ""
    """What Textual is asked to run; the name, where nothing else is given."""
    writes: bool = False
    """Whether it writes at once, with nothing asked."""
    shows: bool = False
    """Whether it only shows something; no line for a text is open after it."""
    on_line: bool = False
    """Whether it does something only to what the cursor is on."""
    arrows: bool = True
    """Whether the terminal can show arrows; in ASCII ↓ would look like the key v."""

    def __post_init__(self) -> None:
        if not self.action:
            object.__setattr__(self, "action", self.name)

    @property
    def keys(self) -> tuple[str, ...]:
        """All its keys, the one of the footer first."""
        return (self.key, *self.also)

    @property
    def key_words(self) -> str:
        return self.key if self.key in ARROWS and not self.arrows else words_of_key(self.key)


KEY_WORDS = {
    "enter": "enter", "question_mark": "?", "slash": "/", "escape": "esc", "right": "→", "left": "←",
    "pagedown": "PgDn", "pageup": "PgUp", "space": "space", "plus": "+", "minus": "-",
    "equals_sign": "=", "up": "↑", "down": "↓", "colon": ":", "comma": ",", "semicolon": ";", "full_stop": ".",
    **{f"f{number}": f"F{number}" for number in range(1, 11)}, "ctrl+c": "ctrl+c",
}  # fmt: skip
ARROWS = frozenset({"up", "down", "left", "right"})


def words_of_key(key: str) -> str:
    """Write a key as people do."""
    return KEY_WORDS.get(key, key)
