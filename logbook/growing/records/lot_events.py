"""Key data elements of lots, by the names of 21 CFR part 1 subpart S (the traceability rule).

What a sheet holds is data: an element for each column, with its paragraph and the field of `LotEvent`
that it says. An element that nobody told the book stays blank; none is guessed.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

UNIT = "g"
"""The unit of quantities that are weights."""
LIVE = "live trays"


@dataclass(frozen=True, slots=True, kw_only=True)
class LotEvent:
    """One event of a lot; what is not known, or isn't part of the event, is None or ''.

    Locations are business name, phone and address as they are known.
    """

    lot: str = ""
    commodity: str = ""
    variety: str = ""
    description: str = ""
    grams: float | None = None
    packed_grams: float | None = None
    packs: int | None = None
    farm: str = ""
    area: str = ""
    """The shelf or rack that it grew on."""
    harvester: str = ""
    harvested_on: date | None = None
    cooled_at: str = ""
    cooled_on: date | None = None
    packed_at: str = ""
    packed_on: date | None = None
    source_reference: str = ""
    shipped_from: str = ""
    shipped_on: date | None = None
    recipient: str = ""
    used_lot: str = ""
    used_description: str = ""
    seed_grower: str = ""
    seed_harvested_on: date | None = None
    seed_conditioner: str = ""
    seed_packer: str = ""
    seed_supplier: str = ""
    seed_lot: str = ""
    seed_description: str = ""
    seed_received_on: date | None = None
    document: str = ""
    document_number: int | None = None

    @property
    def quantity(self) -> float | int | None:
        """Its grams, or how many live trays."""
        return self.packs if self.grams is None else self.grams

    @property
    def unit(self) -> str:
        """The unit of its quantity; '' where there is none."""
        return UNIT if self.grams is not None else LIVE if self.packs is not None else ""

    @property
    def packed_unit(self) -> str:
        """The unit of what was packed; '' where that is not known."""
        return "" if self.packed_grams is None else UNIT


@dataclass(frozen=True, slots=True)
class Element:
    """A key data element: its head in the words of the rule, the paragraph, the field that says it."""

    head: str
    paragraph: str
    field: str


@dataclass(frozen=True, slots=True)
class EventSheet:
    """A tracking event of the rule, and its elements in the rule's order."""

    name: str
    section: str
    meaning: str
    elements: tuple[Element, ...]


def _sheet(name: str, section: str, meaning: str, *elements: tuple[str, str, str]) -> EventSheet:
    return EventSheet(
        name,
        section,
        meaning,
        tuple(Element(head, f"{section}{paragraph}", field) for head, paragraph, field in elements),
    )


_PACKED = (
    ("Traceability lot code", "(a)(11)", "lot"),
    ("Product description of the packed food", "(a)(12)", "description"),
    ("Quantity of the packed food", "(a)(13)", "packed_grams"),
    ("Unit of measure of the packed food", "(a)(13)", "packed_unit"),
    ("Location description for where you initially packed the food (traceability lot code source)",
     "(a)(14)", "packed_at"),
    ("Traceability lot code source reference", "(a)(14)", "source_reference"),
    ("Date of initial packing", "(a)(15)", "packed_on"),
    ("Reference document type", "(a)(16)", "document"),
    ("Reference document number", "(a)(16)", "document_number"),
)  # fmt: skip
EVENTS: Mapping[str, EventSheet] = {
    sheet.name: sheet
    for sheet in (
        _sheet(
            "harvesting", "1.1325", "cuts, by lot, batch and shelf",
            ("Location description for the immediate subsequent recipient", "(a)(1)(i)", "packed_at"),
            ("Commodity", "(a)(1)(ii)", "commodity"),
            ("Variety", "(a)(1)(ii)", "variety"),
            ("Quantity", "(a)(1)(iii)", "grams"),
            ("Unit of measure", "(a)(1)(iii)", "unit"),
            ("Location description for the farm where the food was harvested", "(a)(1)(iv)", "farm"),
            ("Name of the field or other growing area", "(a)(1)(v)", "area"),
            ("Date of harvesting", "(a)(1)(vii)", "harvested_on"),
            ("Reference document type", "(a)(1)(viii)", "document"),
            ("Reference document number", "(a)(1)(viii)", "document_number"),
        ),
        _sheet(
            "cooling", "1.1325", "cooling before the food is packed",
            ("Location description for the immediate subsequent recipient", "(b)(1)(i)", "packed_at"),
            ("Commodity", "(b)(1)(ii)", "commodity"),
            ("Variety", "(b)(1)(ii)", "variety"),
            ("Quantity", "(b)(1)(iii)", "grams"),
            ("Unit of measure", "(b)(1)(iii)", "unit"),
            ("Location description for where you cooled the food", "(b)(1)(iv)", "cooled_at"),
            ("Date of cooling", "(b)(1)(v)", "cooled_on"),
            ("Location description for the farm where the food was harvested", "(b)(1)(vi)", "farm"),
            ("Reference document type", "(b)(1)(vii)", "document"),
            ("Reference document number", "(b)(1)(vii)", "document_number"),
        ),
        _sheet(
            "packing", "1.1330", "initial packing, by lot, batch and shelf",
            ("Commodity", "(a)(1)", "commodity"),
            ("Variety", "(a)(1)", "variety"),
            ("Date you received the food", "(a)(2)", "harvested_on"),
            ("Quantity of the food received", "(a)(3)", "grams"),
            ("Unit of measure of the food received", "(a)(3)", "unit"),
            ("Location description for the farm where the food was harvested", "(a)(4)", "farm"),
            ("Name of the field or other growing area", "(a)(5)", "area"),
            ("Business name and phone number for the harvester", "(a)(7)", "harvester"),
            ("Date of harvesting", "(a)(8)", "harvested_on"),
            ("Location description for where the food was cooled", "(a)(9)", "cooled_at"),
            ("Date of cooling", "(a)(10)", "cooled_on"),
            *_PACKED,
        ),
        _sheet(
            "sprouts", "1.1330",
            "the seed of each lot; for sprouts, but not for those grown in soil or on a mat and cut without roots",
            ("Traceability lot code", "(b)", "lot"),
            ("Location description for the grower of seeds", "(b)(1)", "seed_grower"),
            ("Date of seed harvesting", "(b)(1)", "seed_harvested_on"),
            ("Location description for the seed conditioner or processor", "(b)(2)", "seed_conditioner"),
            ("Location description for the seed packinghouse", "(b)(3)", "seed_packer"),
            ("Location description for the seed supplier", "(b)(4)", "seed_supplier"),
            ("Seed lot code", "(b)(4)", "seed_lot"),
            ("Description of the seeds", "(b)(5)", "seed_description"),
            ("Date of receipt of the seeds", "(b)(6)", "seed_received_on"),
            ("Reference document type", "(b)(7)", "document"),
            ("Reference document number", "(b)(7)", "document_number"),
        ),
        _sheet(
            "shipping", "1.1340", "despatch, by lot and customer",
            ("Traceability lot code", "(a)(1)", "lot"),
            ("Quantity", "(a)(2)", "quantity"),
            ("Unit of measure", "(a)(2)", "unit"),
            ("Number of packs or trays", "(a)(2)", "packs"),
            ("Product description", "(a)(3)", "description"),
            ("Location description for the immediate subsequent recipient", "(a)(4)", "recipient"),
            ("Location description for the location from which you shipped the food", "(a)(5)", "shipped_from"),
            ("Date you shipped the food", "(a)(6)", "shipped_on"),
            ("Location description for the traceability lot code source", "(a)(7)", "packed_at"),
            ("Traceability lot code source reference", "(a)(7)", "source_reference"),
            ("Reference document type", "(a)(8)", "document"),
            ("Reference document number", "(a)(8)", "document_number"),
        ),
        _sheet(
            "transformation", "1.1350", "mixes, by lot and what it took of each other",
            ("Traceability lot code of the food used", "(a)(1)(i)", "used_lot"),
            ("Product description of the food used", "(a)(1)(ii)", "used_description"),
            ("Quantity of the food used", "(a)(1)(iii)", "grams"),
            ("Unit of measure of the food used", "(a)(1)(iii)", "unit"),
            ("New traceability lot code", "(a)(2)(i)", "lot"),
            ("Location description for where you transformed the food (traceability lot code source)",
             "(a)(2)(ii)", "packed_at"),
            ("Traceability lot code source reference", "(a)(2)(ii)", "source_reference"),
            ("Date transformation was completed", "(a)(2)(iii)", "packed_on"),
            ("Product description", "(a)(2)(iv)", "description"),
            ("Quantity", "(a)(2)(v)", "packed_grams"),
            ("Unit of measure", "(a)(2)(v)", "packed_unit"),
            ("Reference document type", "(a)(2)(vi)", "document"),
            ("Reference document number", "(a)(2)(vi)", "document_number"),
        ),
    )
}  # fmt: skip
"""The events of a room that cuts and sells, by our names: 21 CFR 1.1325 to 1.1350 as of June 2026.

Fishing vessels, aquaculture, receiving from others and first land-based receiving are not of such a room.
"""


def cells_of(sheet: EventSheet, event: LotEvent) -> tuple[str, ...]:
    """What each element says of an event; '' where it is not known."""
    return tuple(_cell(getattr(event, element.field)) for element in sheet.elements)


def _cell(value: object) -> str:
    if value is None:
        return ""
    return f"{value:g}" if isinstance(value, float) else str(value)
