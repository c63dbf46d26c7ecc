"""Drafts: what is being typed, kept on disk until it is saved or thrown away.

A draft is written on every change of its text, because a dropped line or a kill leaves no time for
anything at the end. One small file a draft, readable by its owner alone.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from logbook.paths import private_folder, state_folder
from logbook.text import clean

ANSWER = "answer"
"""The kind of what was typed into a question: it stands there when the question is asked again."""


@dataclass(frozen=True, slots=True)
class Draft:
    """What was being typed. `kind` is jot, look, weigh or a form's name, or ANSWER for the answer to
    a question; `trays` and `place` are its subject.
    """  # noqa: D205

    kind: str
    label: str
    texts: Mapping[str, str]
    trays: tuple[int, ...] = ()
    place: str = ""

    @property
    def key(self) -> str:
        """What tells this draft from others."""
        return f"{self.kind}/{self.place}/{','.join(str(number) for number in self.trays)}"

    @property
    def words(self) -> str:
        """Say what it is and how it begins."""
        begins = " ".join(text for text in self.texts.values() if text.strip())
        begins = clean(begins, lines=False)
        short = begins if len(begins) <= 40 else begins[:39] + "…"
        return f'{self.kind} {self.label}: "{short}"'


def answer_to(asked: str) -> Draft:
    """Give the draft of the answer to a question."""
    return Draft(ANSWER, "", {}, place=asked)


class Drafts:
    """The drafts of one book on this machine."""

    def __init__(self, book: Path) -> None:
        name = hashlib.sha256(str(book.absolute()).encode()).hexdigest()[:16]
        self.folder = state_folder() / "drafts" / name

    def _path(self, key: str) -> Path:
        return self.folder / f"{hashlib.sha256(key.encode()).hexdigest()[:24]}.json"

    def keep(self, draft: Draft) -> None:
        """Keep a draft; an empty one goes. A full disk keeps nothing and says nothing here."""
        if not any(text.strip() for text in draft.texts.values()):
            self.drop(draft.key)
            return
        content = json.dumps(
            {
                "kind": draft.kind,
                "label": draft.label,
                "texts": dict(draft.texts),
                "trays": list(draft.trays),
                "place": draft.place,
            }
        ).encode("utf-8", "surrogatepass")
        path = self._path(draft.key)
        unfinished = path.with_suffix(".unfinished")
        try:
            private_folder(self.folder)
            handle = os.open(unfinished, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, 0o600)
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            unfinished.replace(path)
        except OSError:
            return

    def drop(self, key: str) -> None:
        """Let a draft go: it was saved or thrown away."""
        try:
            self._path(key).unlink(missing_ok=True)
        except OSError:
            return

    def find(self, key: str) -> Draft | None:
        """Give the draft of this key, or None."""
        return self._read(self._path(key))

    def all(self) -> list[Draft]:
        """Give all drafts, the newest last; a damaged file is passed over."""
        try:
            files = sorted(self.folder.glob("*.json"), key=lambda file: file.stat().st_mtime_ns)
        except OSError:
            return []
        found = [self._read(file) for file in files]
        return [draft for draft in found if draft is not None]

    @staticmethod
    def _read(path: Path) -> Draft | None:
        try:
            given = json.loads(path.read_text(encoding="utf-8"))
            return Draft(
                str(given["kind"]),
                clean(str(given["label"]), lines=False),
                {str(name): str(text) for name, text in given["texts"].items()},
                tuple(int(number) for number in given["trays"]),
                str(given["place"]),
            )
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            return None
