"""Reading a trial's weights or a tasting's ranks from a CSV file, however it was saved."""

from dataclasses import dataclass

from logbook.exchange.csv_rows import cell_at, number, read_sheet
from logbook.growing.trials.arms import Tray
from logbook.text import Refused, clean_words, fold

GRAMS = ("grams", "gram", "g", "weight")
_DAYS = ("cut", "cut_on", "cut on", "day", "date")


@dataclass(frozen=True, slots=True)
class TrialFile:
    """The trays of a file, and a sentence about them where one is due ('' for none)."""

    trays: tuple[Tray, ...]
    note: str


def read_trays(file: str, block: str | None) -> TrialFile:
    """Read the columns arm, grams and, if any, block (or the one so named), or raise Refused."""
    sheet = read_sheet(file)
    arm_at = sheet.needed(("arm",))
    grams_at = sheet.needed(GRAMS)
    block_at = sheet.column(("block",)) if block is None else sheet.needed((block,))
    day_at = sheet.column(_DAYS)
    trays, days = [], set()
    for line, row in sheet.rows:
        where = f"{sheet.name}, line {line}"
        arm, grams_, its_block, day = (
            cell_at(row, at) for at in (arm_at, grams_at, block_at, day_at)
        )
        if not arm:
            raise Refused(f"{where}: the arm has no name.")
        weight = _weight(grams_, where)
        trays.append(Tray(clean_words(arm, "arm"), weight, clean_words(its_block, "block") or None))
        if day and day_at != block_at:
            days.add(day)
    note = (
        f"The trays were cut on {len(days)} different days; a later tray has grown longer."
        if len(days) > 1
        else ""
    )
    return TrialFile(tuple(trays), note)


def read_batches(file: str) -> list[tuple[str, float]]:
    """Read the columns batch and grams, a row for each tray; empty weights are left out; or Refused."""
    sheet = read_sheet(file)
    batch_at, grams_at = sheet.needed(("batch",)), sheet.needed(GRAMS)
    found = []
    for line, row in sheet.rows:
        where, batch = f"{sheet.name}, line {line}", cell_at(row, batch_at)
        if not batch:
            raise Refused(f"{where}: the batch has no name.")
        weight = _weight(cell_at(row, grams_at), where)
        if weight is not None:
            found.append((fold(batch), weight))
    return found


def _weight(cell: str, where: str) -> float | None:
    weight = number(cell, "weight", where)
    if weight is not None and weight < 0:
        raise Refused(f"{where}: the weight {weight:g} g is negative; it is 0 g or more.")
    return weight


@dataclass(frozen=True, slots=True)
class TastingFile:
    """Taster → sample → rank or score."""

    given: dict[str, dict[str, float]]
    scores: bool


def read_ranks(file: str, *, scores: bool) -> TastingFile:
    """Read ranks, long (taster, sample, rank) or wide (taster, a column per sample), or Refused.

    A column "score" instead of "rank" means that more is better, as `scores` does.
    """
    sheet = read_sheet(file)
    taster_at = sheet.needed(("taster", "person", "judge"))
    sample_at = sheet.column(("sample", "arm", "code"))
    if sample_at is None:
        columns = [at for at in range(len(sheet.header)) if at != taster_at]
        entries = [(line, row, sheet.header[at], at) for line, row in sheet.rows for at in columns]
    else:
        value_at = sheet.column(("rank",))
        if value_at is None:
            value_at, scores = sheet.needed(("score", "rank")), True
        entries = [(line, row, cell_at(row, sample_at), value_at) for line, row in sheet.rows]
    given: dict[str, dict[str, float]] = {}
    for line, row, sample, at in entries:
        where, taster = f"{sheet.name}, line {line}", cell_at(row, taster_at)
        if not taster or not sample:
            raise Refused(f"{where}: a taster or a sample has no name.")
        value = number(cell_at(row, at), "score" if scores else "rank", where)
        its = given.setdefault(taster, {})
        if value is not None and sample in its:
            raise Refused(f"{where}: {taster} has judged {sample} before; keep one of the two.")
        if value is not None:
            its[sample] = value
    return TastingFile(given, scores)
