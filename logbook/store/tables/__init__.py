"""The tables: what was said and done, and nothing computed but the trays' rebuildable summary."""

from logbook.store.tables.base import Table, added
from logbook.store.tables.book import AboutRow, BookRow, PlaceRow
from logbook.store.tables.crops import StageRow, TemplateRow, TemplateTargetRow, TemplateVersionRow
from logbook.store.tables.entries import (
    ClosedDayRow,
    EntryRow,
    EntryWordsRow,
    LookRow,
    WateringRow,
    WeightRow,
)
from logbook.store.tables.room import (
    AirReadingRow,
    CircuitRow,
    CircuitShelfRow,
    LampHoursRow,
    LampSetRow,
    LightSpotRow,
    LightSurveyRow,
    OutageRow,
    SolutionUseRow,
    TariffHoursRow,
    TariffRow,
)
from logbook.store.tables.trays import BatchLotRow, BatchRow, EntryTrayRow, TrayPlaceRow, TrayRow
from logbook.store.tables.trials import (
    TastingAnswerRow,
    TastingRow,
    TrialArmRow,
    TrialBlockRow,
    TrialCriterionRow,
    TrialDecisionRow,
    TrialRow,
    TrialTrayRow,
    TriangleRow,
)

__all__ = [
    "AboutRow",
    "AirReadingRow", "BatchLotRow", "BatchRow", "BookRow", "CircuitRow", "CircuitShelfRow", "ClosedDayRow", "EntryRow",
    "EntryTrayRow", "EntryWordsRow", "LampHoursRow", "LampSetRow", "LightSpotRow", "LightSurveyRow",
    "LookRow", "OutageRow", "PlaceRow", "SolutionUseRow", "StageRow", "Table", "TariffHoursRow", "TariffRow",
    "TastingAnswerRow", "TastingRow", "TemplateRow", "TemplateTargetRow", "TemplateVersionRow",
    "TrayPlaceRow", "TrayRow", "TrialArmRow", "TrialBlockRow", "TrialCriterionRow",
    "TrialDecisionRow", "TrialRow", "TrialTrayRow", "TriangleRow", "WateringRow", "WeightRow", "added",
]  # fmt: skip
