"""What entries are called: by their kind, and changes between stages by all that they ask of the hands."""

from collections.abc import Iterable, Mapping, Sequence

from logbook.actions.reading import Reading
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.kinds import kind_of
from logbook.growing.trays.chores import WORDS, change_into
from logbook.store.reads.entries import StoredEntry
from logbook.store.reads.trays import read_trays

UNDO, REDO = "undo", "redo"
"""The chores of strikes that undo and redo made, which are not undone in their turn."""
_STRUCK = {UNDO: "undo of", REDO: "redo of"}


def change_words(reading: Reading, entries: Sequence[StoredEntry]) -> dict[int, str]:
    """Name all of what each change among the entries, or skip of one, asked of the hands, by id."""
    changes = [
        entry for entry in entries if entry.kind in ("change", "skip") and entry.stage is not None
    ]
    trays = read_trays(reading, {tray for entry in changes for tray in entry.tray_ids})
    version = {tray.id: tray.version_id for tray in trays}
    templates = reading.versions(set(version.values()))
    return {
        entry.id: words_into(
            (templates[version[tray]] for tray in entry.tray_ids), entry.stage, entry.chore
        )
        for entry in changes
        if entry.stage is not None
    }


def words_into(templates: Iterable[CropTemplate], stage: int, chore: str) -> str:
    """Name the change into a stage of templates; where these differ in it, the chore alone.

    That is also what is left of a change into a stage that a template does not have.
    """
    words = {
        change_into(template, stage).words if stage < len(template.stages) else ""
        for template in templates
    }
    known = words.pop() if len(words) == 1 else ""
    return known or WORDS.get(chore, chore)


def entry_noun(reading: Reading, entry: StoredEntry) -> str:
    """How an entry is named in a sentence: "watering", "lid off", "skip of look"."""
    if entry.kind == "strike":
        return f"strike of entry {entry.strikes_id}"
    change = change_words(reading, [entry]).get(entry.id) or WORDS.get(entry.chore, entry.chore)
    if entry.kind == "skip":
        return f"skip of {change}"
    return change if entry.kind == "change" else kind_of(entry.kind).noun


def done_words(entry: StoredEntry, carried: str, changes: Mapping[int, str]) -> str:
    """What an entry says was done, with what it carries; `changes` as of change_words()."""
    kind = kind_of(entry.kind)
    head = kind.done
    if entry.kind in ("change", "skip"):
        change = changes.get(entry.id) or WORDS.get(entry.chore, entry.chore)
        head = change if entry.kind == "change" else f"{head} {change}"
    elif entry.kind == "strike":
        head = f"{_STRUCK.get(entry.chore, head)} entry {entry.strikes_id}"
    return f"{head}{kind.joint}{carried}" if carried else head
