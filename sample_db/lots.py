"""The pack lots that the room's cuts go into, from when it began to sell."""

from collections.abc import Callable, Mapping
from datetime import date, datetime

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.days import day_of
from logbook.growing.packs.lots import best_before, lot_code
from logbook.text import fold
from sample_db.days import Days

SINCE = 21
"""So many days ago customers began to order, and lots were kept."""


class Lots:
    """A lot for each crop and day; `put` writes a row of a table, `templates` are ids by name."""

    def __init__(self, days: Days, templates: Mapping[str, int], put: Callable[..., None]) -> None:
        self._days, self._templates, self._put = days, templates, put
        self._lots: dict[tuple[str, date], int] = {}
        self._codes: set[str] = set()

    def of(self, template: CropTemplate, entry: int, when: datetime) -> int | None:
        """The lot that a cut goes into; the first one of the day names it. None before lots were kept."""
        day = day_of(when, self._days.hours.zone)
        if (self._days.today - day).days > SINCE:
            return None
        key = (template.name, day)
        if key not in self._lots:
            self._lots[key] = entry
            run = 1
            while (code := lot_code(day, template.crop, run)) in self._codes:
                run += 1
            self._codes.add(code)
            self._put(
                "pack_lot", entry_id=entry, lot_id=entry, code=code, code_key=fold(code),
                template_id=self._templates[template.name], mix_id=None, packed_on=day.isoformat(),
                best_before=best_before(day, template.keeps).isoformat(),
            )  # fmt: skip
        return self._lots[key]
