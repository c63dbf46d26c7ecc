"""Customers, mixes of crops, and what is ordered, as the book keeps them."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Annotated, Literal, get_args

from logbook.growing.keys import WallTime
from logbook.text import Refused, fold, listed

CustomerKind = Literal["kitchen", "shop", "stall", "household"]
CUSTOMER_KINDS: tuple[CustomerKind, ...] = get_args(CustomerKind)


def customer_kind(text: str) -> CustomerKind:
    """Read what a customer is; raise Refused."""
    found = next((kind for kind in CUSTOMER_KINDS if kind == fold(text)), None)
    if found is None:
        raise Refused(
            f'A customer is a {listed(CUSTOMER_KINDS, joint="or")}; you typed "{text[:20]}".',
            "kind",
        )
    return found


@dataclass(frozen=True, slots=True)
class Customer:
    """Somebody who gets deliveries; `minute` is when they are wanted, '' or None: nobody said."""

    id: int
    name: str
    kind: Annotated[str, CUSTOMER_KINDS]
    contact: str = ""
    weekdays: str = ""
    minute: WallTime | None = None
    gone: bool = False
    near: bool | None = None
    """Whether a kitchen or shop is in the farm's State or within 275 miles; null where nobody said."""

    @property
    def end_user(self) -> bool | None:
        """Whether they are a qualified end user (21 CFR 112.3); None where that isn't known.

        A household is a consumer, and who buys at a stall; a kitchen or shop is one where it is near.
        """
        return True if self.kind in ("household", "stall") else self.near

    @property
    def takes_rest(self) -> bool:
        """Whether they take what is left when the others have theirs."""
        return self.kind == "stall"


@dataclass(frozen=True, slots=True)
class Mix:
    """A mix of crops from a day on: the share of each (template id), together 1."""

    id: int
    name: str
    since: date
    shares: Mapping[int, float]
    gone: bool = False


@dataclass(frozen=True, slots=True)
class Order:
    """A standing line or a single order as it holds from `since` on; see store/tables/orders.py."""

    id: int
    entry: int
    customer: int
    template: int | None
    mix: int | None
    packs: int
    pack_grams: float | None
    weekdays: str
    minute: int | None
    since: date
    until: date | None
    price: str | None = None
    gone: bool = False

    @property
    def grams(self) -> float | None:
        """What it weighs in all, g; None for live trays."""
        return None if self.pack_grams is None else self.packs * self.pack_grams

    @property
    def per_pack(self) -> Decimal | None:
        """The price of a pack, or of a live tray."""
        return None if self.price is None else Decimal(self.price)


@dataclass(frozen=True, slots=True)
class Pause:
    """Days, both included, on which a customer takes nothing, or one line of theirs is left out."""

    customer: int
    order: int | None
    since: date
    until: date


@dataclass(frozen=True, slots=True)
class Packed:
    """Packs that were packed for the delivery of a day."""

    entry: int
    at: datetime
    by: str
    order: int | None
    customer: int
    template: int | None
    mix: int | None
    packs: int
    pack_grams: float | None
    day: date
