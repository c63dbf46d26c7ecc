"""A person's settings, tried on the screen as they are chosen and kept with the last Enter."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from textual import on
from textual.widgets import Input

from logbook.settings import SIGNS, Settings
from logbook.text import clean_name, yes_no
from logbook.ui.forms.ask_form import AskForm
from logbook.ui.widgets.form_lines import Field

BELL = ("yes", "no")


class SettingsForm(AskForm[Settings]):
    """Asks for colours, signs, bell and initials; `show` lets the screens follow what is chosen."""

    def __init__(
        self, now: Settings, themes: Sequence[str], show: Callable[[Settings], object]
    ) -> None:
        """`now` is what the screens follow when it is opened, with who writes."""
        self.now, self.show = now, show
        fields = (
            Field("theme", "colours", ", ".join(themes), now.theme, offers=themes, pick=True),
            Field("signs", "signs", "auto, plain (ASCII) or full", now.signs, offers=SIGNS, pick=True),
            Field("bell", "bell", "yes rings when a chore comes due", "yes" if now.bell else "no", offers=BELL,
                  read=lambda text: bool(yes_no(text, "Bell")), pick=True),
            Field("by", "initials", "who writes", now.by,
                  lambda text: clean_name(text, "initials") if text.strip() else ""),
        )  # fmt: skip
        super().__init__("Your settings", fields, self._settings)

    def _settings(self, values: Mapping[str, Any]) -> Settings:
        return replace(self.now, **{name: value for name, value in values.items() if value != ""})

    @on(Input.Changed)
    def tried(self) -> None:
        """Show what is chosen so far; a line that is wrong or empty changes nothing."""
        values, _ = self.body.read()
        self.show(self._settings(values))
