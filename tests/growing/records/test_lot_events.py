"""The sheets' heads are the key data elements of the traceability rule.

The names below are those of 21 CFR 1.1325, 1.1330, 1.1340 and 1.1350 as the eCFR had them in June 2026,
without what isn't of a farm that packs what it grows: fishing vessels, aquaculture, receiving.
"""

from __future__ import annotations

from dataclasses import fields
from datetime import date

import pytest

from logbook.growing.records.lot_events import EVENTS, LotEvent, cells_of

SHARED = ("quantity", "unit of measure", "reference document type", "reference document number")
ELEMENTS = {
    "harvesting": (
        "location description for the immediate subsequent recipient", "commodity", "variety", *SHARED,
        "location description for the farm where the food was harvested",
        "name of the field or other growing area", "date of harvesting",
    ),
    "cooling": (
        "location description for the immediate subsequent recipient", "commodity", "variety", *SHARED,
        "location description for where you cooled the food", "date of cooling",
        "location description for the farm where the food was harvested",
    ),
    "packing": (
        "commodity", "variety", "date you received the food", "quantity of the food received",
        "unit of measure of the food received",
        "location description for the farm where the food was harvested",
        "name of the field or other growing area",
        "business name and phone number for the harvester", "date of harvesting",
        "location description for where the food was cooled", "date of cooling",
        "traceability lot code", "product description of the packed food",
        "quantity of the packed food", "unit of measure of the packed food",
        "location description for where you initially packed the food",
        "traceability lot code source reference", "date of initial packing",
        "reference document type", "reference document number",
    ),
    "sprouts": (
        "location description for the grower of seeds", "date of seed harvesting",
        "location description for the seed conditioner or processor",
        "location description for the seed packinghouse",
        "location description for the seed supplier", "seed lot code", "description of the seeds",
        "date of receipt of the seeds", "reference document type", "reference document number",
    ),
    "shipping": (
        "traceability lot code", *SHARED, "product description",
        "location description for the immediate subsequent recipient",
        "location description for the location from which you shipped the food",
        "date you shipped the food",
        "location description for the traceability lot code source",
        "traceability lot code source reference",
    ),
    "transformation": (
        "traceability lot code of the food used", "product description of the food used",
        "quantity of the food used", "new traceability lot code",
        "location description for where you transformed the food",
        "date transformation was completed", "product description", *SHARED,
    ),
}  # fmt: skip


@pytest.mark.parametrize(
    ("event", "element"), [(event, each) for event, named in ELEMENTS.items() for each in named]
)
def test_the_head_of_a_sheet_names_each_element_of_the_rule(event: str, element: str) -> None:
    heads = [each.head.casefold() for each in EVENTS[event].elements]
    assert sum(head == element or head.startswith(f"{element} (") for head in heads) == 1


@pytest.mark.parametrize("event", EVENTS)
def test_an_element_says_a_field_or_a_blank(event: str) -> None:
    sheet = EVENTS[event]
    told = {each.name for each in fields(LotEvent)} | {"quantity", "unit", "packed_unit"}
    assert {element.field for element in sheet.elements} <= told
    assert set(cells_of(sheet, LotEvent())) == {""}
    assert ELEMENTS.keys() == EVENTS.keys()


def test_what_is_known_is_written_as_a_spreadsheet_reads_it() -> None:
    event = LotEvent(lot="261128-DAI-1", grams=240.5, packs=3, shipped_on=date(2026, 11, 28))
    cells = cells_of(EVENTS["shipping"], event)
    assert cells[:4] == ("261128-DAI-1", "240.5", "g", "3")
    assert cells[7] == "2026-11-28"
    live = cells_of(EVENTS["shipping"], LotEvent(packs=2))
    assert live[1:4] == ("2", "live trays", "2")
