"""Drafts: what is being typed, kept on disk until it is saved or thrown away.

A draft is written on every change of its text, because a dropped line or a kill leaves no time for
anything at the end. One small file a draft, readable by its owner alone, named for the app that
keeps it. That app holds a lock while it lives, which ends with it however it ends: so a draft is
offered to another app on the same book when its own is gone, and never before.
"""

import fcntl
import hashlib
import json
import os
from collections.abc import Collection, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from logbook.paths import private_folder, state_folder
from logbook.text import clean

ATTEMPTS = 3
"""How often a lock is tried that another app looks at in that moment."""
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
        return f'{f"{self.kind} {self.label}".strip()}: "{short}"'


def answer_to(asked: str) -> Draft:
    """Where the answer to a question is kept: under what is asked."""
    return Draft(ANSWER, "", {}, place=asked)


class Drafts:
    """The drafts of one book on this machine, as one app sees them: its own, and those of apps that
    have ended. What another living app keeps is its own affair.
    """  # noqa: D205

    def __init__(self, book: Path) -> None:
        name = hashlib.sha256(str(book.absolute()).encode()).hexdigest()[:16]
        self.folder = state_folder() / "drafts" / name
        self.token = os.urandom(6).hex()
        """What tells the files of this app from those of others."""
        self._lock: int | None = None

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
        path = self._own(draft.key)
        unfinished = path.with_suffix(".unfinished")
        try:
            self._hold()
            handle = os.open(unfinished, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, 0o600)
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            unfinished.replace(path)
        except OSError:
            return

    def drop(self, key: str) -> None:
        """Let a draft of this app go: it was saved or thrown away."""
        with suppress(OSError):
            self._own(key).unlink(missing_ok=True)

    def throw_away(self, keys: Collection[str]) -> None:
        """Let all drafts of these keys go, also those of apps that have ended."""
        names = {self._name(key) for key in keys}
        for path in self._files():
            if path.name.partition(".")[0] in names:
                with suppress(OSError):
                    path.unlink(missing_ok=True)

    def find(self, key: str) -> Draft | None:
        """The draft of this key, or None; one of an app that has ended is this app's then."""
        own = self._own(key)
        if not own.exists():
            left = [path for path in self._files() if path.name.startswith(f"{self._name(key)}.")]
            if not left:
                return None
            try:
                self._hold()
                left[-1].rename(own)
            except OSError:
                return None
        return self._read(own)

    def all(self) -> list[Draft]:
        """All drafts, the newest last; a damaged file is passed over."""
        found = [self._read(path) for path in self._files()]
        return [draft for draft in found if draft is not None]

    def let_go(self) -> None:
        """Leave what is kept to whoever comes next; what ended apps left besides drafts goes."""
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None
        with suppress(OSError):
            for path in (*self.folder.glob("*.lock"), *self.folder.glob("*.unfinished")):
                _has_ended(self.folder / f"{_token_of(path)}.lock", path)

    @staticmethod
    def _name(key: str) -> str:
        return hashlib.sha256(key.encode()).hexdigest()[:24]

    def _own(self, key: str) -> Path:
        return self.folder / f"{self._name(key)}.{self.token}.json"

    def _files(self) -> list[Path]:
        """The files of this app and of those that have ended, the newest last."""
        kept: dict[Path, int] = {}
        for path in self.folder.glob("*.json"):
            with suppress(OSError):  # another app lets its own go in that moment
                kept[path] = path.stat().st_mtime_ns
        files = sorted(kept, key=lambda path: kept[path])
        tokens = {_token_of(file) for file in files}
        seen = {
            token
            for token in tokens
            if token == self.token or _has_ended(self.folder / f"{token}.lock")
        }
        return [file for file in files if _token_of(file) in seen]

    def _hold(self) -> None:
        """Hold the lock that tells other apps that this one lives; raise OSError."""
        private_folder(self.folder)
        path = self.folder / f"{self.token}.lock"
        for _ in range(ATTEMPTS):
            if self._lock is not None:
                return
            lock = os.open(path, os.O_CREAT | os.O_RDWR, 0o600)
            try:
                fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
                if path.stat().st_ino == os.fstat(lock).st_ino:
                    self._lock = lock
            except OSError:  # looked at by another app just now, or no locks on this disk
                continue
            finally:
                if self._lock is None:
                    os.close(lock)

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


def _token_of(path: Path) -> str:
    return path.stem.rpartition(".")[2]


def _has_ended(lock: Path, *leavings: Path) -> bool:
    """Whether the app of a lock is gone, for nobody holds it; what it left behind goes then."""
    handle = None
    try:
        with suppress(FileNotFoundError):
            handle = os.open(lock, os.O_RDWR)
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:  # no locks on this disk: nobody can tell
        return True
    else:
        for path in leavings:
            path.unlink(missing_ok=True)
        return True
    finally:
        if handle is not None:
            os.close(handle)
