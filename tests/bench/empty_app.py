"""An empty Textual app, to measure against: `python tests/bench/empty_app.py`."""

from textual.app import App, ComposeResult
from textual.widgets import Static


class Empty(App[None]):
    def compose(self) -> ComposeResult:
        yield Static("ready")


if __name__ == "__main__":
    Empty().run()
