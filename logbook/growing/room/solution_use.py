"""What was cleaned or soaked, and with what."""

from dataclasses import dataclass

from logbook.growing.room.products import cautions, product_kind
from logbook.growing.room.solutions import Dilution, dilute, strength_words
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class Use:
    """What was cleaned or soaked, how, with what; strengths in % weight in volume, ml, or none."""

    purpose: str
    method: str
    product: str = ""
    stock_percent: float | None = None
    want_percent: float | None = None
    volume_ml: float | None = None

    @property
    def dilution(self) -> Dilution | None:
        """How much of each; None where no strengths are given. Raise Refused for some but not all."""
        stock, want, volume = self.stock_percent, self.want_percent, self.volume_ml
        if stock is None and want is None and volume is None:
            return None
        if stock is None or want is None or volume is None:
            raise Refused(
                "Give stock, wanted strength and volume together, like 5.25%, 200ppm and 10L; or "
                "none of them."
            )
        return dilute(stock, want, volume)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to mind with its product; nothing where there is none."""
        kind = product_kind(self.product)
        return cautions(kind, self.stock_percent, self.want_percent) if self.product else ()

    @property
    def what(self) -> str:
        """Say what was done: "trays, brush and rinse, bleach at 200 ppm"."""
        parts = [self.purpose, self.method]
        if self.product:
            want = self.want_percent
            strength = "" if want is None else f" at {strength_words(want)}"
            parts.append(f"{self.product}{strength}")
        return ", ".join(parts)
