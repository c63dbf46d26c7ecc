"""When an entry can have happened, by what else its trays went through."""

from collections.abc import Callable, Sequence
from datetime import datetime

from logbook.actions.reading import Reading
from logbook.actions.trays.done import lives_begin
from logbook.actions.trays.entry_words import entry_noun
from logbook.actions.trays.named import who_then
from logbook.growing.kinds import kind_of
from logbook.growing.trays.life import Deed
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.entries import StoredEntry, read_act, read_entry, read_root
from logbook.text import Refused

Bound = tuple[datetime, str]
"""A moment, and what happened to the tray then ("was sown")."""


def check_time(
    reading: Reading, entry: StoredEntry, at: datetime, trays: Sequence[TrayNow]
) -> None:
    """Raise Refused where an entry cannot stand at another time, or on these trays."""
    if entry.kind == "plan":
        return
    noun = entry_noun(reading, entry)
    deeds = read_deeds(reading, [known.id for known in trays])
    begun = lives_begin(reading, trays) if entry.kind == "jot" else {}
    for known in trays:
        earliest, latest = _bounds(reading, entry, known, deeds.get(known.id, []))
        earliest = begun.get(known.id, earliest)
        for bound, side in ((earliest, "before"), (latest, "after")):
            if bound is not None and (at < bound[0] if side == "before" else at > bound[0]):
                other = who_then(reading, known.stored, at, reading.now, reading.zone)
                raise Refused(
                    f"Tray {known.number} {bound[1]} {known.when(bound[0])}; the {noun} cannot have been done "
                    f"{side} that.{other if side == 'before' else ''}"
                )


def soaks_with(reading: Reading, sowing: StoredEntry) -> list[StoredEntry]:
    """The standing soaks on a sowing's trays that were written with it, or with what it replaced."""
    chain = [sowing]
    while chain[-1].replaces is not None and (before := read_entry(reading, chain[-1].replaces)):
        chain.append(before)
    return [
        each
        for sown in chain
        for each in read_act(reading, sown.act_id or sown.id)
        if each.kind == "soak" and not each.struck and set(each.tray_ids) == set(sowing.tray_ids)
    ]


def _bounds(
    reading: Reading, entry: StoredEntry, known: TrayNow, deeds: Sequence[Deed]
) -> tuple[Bound | None, Bound | None]:
    """The earliest and the latest moment that a tray leaves to the entry."""
    sown = [deed.at for deed in deeds if deed.kind == "sow"]
    if entry.kind == "soak":
        return None, _bound(min, sown, "was sown")
    if entry.kind == "sow":
        own = {each.id for each in soaks_with(reading, entry)}
        late = [deed.at for deed in deeds if deed.kind not in ("plan", "soak", "sow", "skip")]
        soaked = [deed.at for deed in deeds if deed.kind == "soak" and deed.entry not in own]
        return (_bound(max, soaked, "was soaked"), _bound(min, late, "had something done to it"))
    if entry.kind == "change":
        mine = (entry.at, read_root(reading, entry.id))
        steps = [deed for deed in deeds if deed.kind in ("sow", "change")]
        earlier = [deed.at for deed in steps if (deed.at, deed.entry) < mine]
        later = [deed.at for deed in steps if (deed.at, deed.entry) > mine]
        return (
            _bound(max, earlier, "came into the stage before"),
            _bound(min, later, "went on to its next stage"),
        )
    if not sown and not kind_of(entry.kind).before_sowing:
        raise Refused(
            f"Tray {known.number} is not sown yet, so there was no "
            f"{entry_noun(reading, entry)} to do."
        )
    return _bound(max, sown, "was sown"), None


def _bound(
    end: Callable[[Sequence[datetime]], datetime], moments: Sequence[datetime], what: str
) -> Bound | None:
    return (end(moments), what) if moments else None
