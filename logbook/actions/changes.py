"""What changes between stages ask of the hands, in words: all parts of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from logbook.actions.reading import Reading
from logbook.growing.chores import WORDS, change_into
from logbook.growing.templates import CropTemplate
from logbook.store.reads import StoredEntry, read_trays


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
