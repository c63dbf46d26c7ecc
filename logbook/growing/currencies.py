"""Currencies: their codes and digits (ISO 4217), where they are used, how amounts are written."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from logbook.text import Refused, clean
from logbook.ways import Way

_USED = """
    AED AE; AFN AF; ALL AL; AMD AM; AOA AO; ARS AR; AUD AU CC CX HM KI NF NR TV; AWG AW; AZN AZ;
    BAM BA; BBD BB; BDT BD; BHD3 BH; BIF0 BI; BMD BM; BND BN; BOB BO; BRL BR; BSD BS; BTN BT;
    BWP BW; BYN BY; BZD BZ; CAD CA; CDF CD; CHF CH LI; CLP0 CL; CNY CN; COP CO; CRC CR; CUP CU;
    CVE CV; CZK CZ; DJF0 DJ; DKK DK FO GL; DOP DO; DZD DZ; EGP EG; ERN ER; ETB ET; EUR AD AT AX
    BE BG BL CY DE EE ES FI FR GF GP GR HR IE IT LT LU LV MC ME MF MQ MT NL PM PT RE SI SK SM TF
    VA XK YT; FJD FJ; FKP FK; GBP GB GG GS IM JE; GEL GE; GHS GH; GIP GI; GMD GM; GNF0 GN; GTQ
    GT; GYD GY; HKD HK; HNL HN; HTG; HUF HU; IDR ID; ILS IL; INR IN; IQD3 IQ; IRR IR; ISK0 IS;
    JMD JM; JOD3 JO; JPY0 JP; KES KE; KGS KG; KHR KH; KMF0 KM; KPW KP; KRW0 KR; KWD3 KW; KYD KY;
    KZT KZ; LAK LA; LBP LB; LKR LK; LRD LR; LSL LS; LYD3 LY; MAD EH MA; MDL MD; MGA MG; MKD MK;
    MMK MM; MNT MN; MOP MO; MRU MR; MUR MU; MVR MV; MWK MW; MXN MX; MYR MY; MZN MZ; NAD NA; NGN
    NG; NIO NI; NOK BV NO SJ; NPR NP; NZD CK NU NZ PN TK; OMR3 OM; PAB; PEN PE; PGK PG; PHP PH;
    PKR PK; PLN PL; PYG0 PY; QAR QA; RON RO; RSD RS; RUB RU; RWF0 RW; SAR SA; SBD SB; SCR SC;
    SDG SD; SEK SE; SGD SG; SHP SH; SLE SL; SOS SO; SRD SR; SSP SS; STN ST; SVC; SYP SY; SZL SZ;
    THB TH; TJS TJ; TMT TM; TND3 TN; TOP TO; TRY TR; TTD TT; TWD TW; TZS TZ; UAH UA; UGX0 UG;
    USD AS BQ EC FM GU IO MH MP PR PW SV TC TL UM US VG VI; UYU UY; UZS UZ; VES VE; VND0 VN;
    VUV0 VU; WST WS; XAF0 CF CG CM GA GQ TD; XCD AG AI DM GD KN LC MS VC; XCG CW SX; XOF0 BF BJ
    CI GW ML NE SN TG; XPF0 NC PF WF; YER YE; ZAR ZA; ZMW ZM; ZWG
"""
"""Every currency of ISO 4217 (January 2026) but funds and test codes: its code, its digits after
the point where they are not 2, and the countries (ISO 3166) in which it is the only one, or their own.
"""

_LINES = [each.split() for each in _USED.split(";")]
DIGITS = {code[:3]: int(code[3:] or 2) for code, *_ in _LINES}
"""Digits after the point by currency."""
OF_COUNTRY = {country: code[:3] for code, *countries in _LINES for country in countries}
"""The currency of a country; left out where several are used."""


def exact(measured: float) -> Decimal:
    """A measured number as the decimal that was typed, to twelve figures."""
    return Decimal(f"{measured:.12g}")


@dataclass(frozen=True, slots=True)
class Currency:
    """What a book's money is in; without a `code` amounts are written without one."""

    code: str | None = None
    named: bool = True

    @property
    def digits(self) -> int:
        """Its digits after the point; 2 where it is not known."""
        return DIGITS.get(self.code or "", 2)

    def total(self, amount: Decimal | float) -> str:
        """Write an amount by the digits of the currency: "1,234.50 EUR"."""
        return self._written(amount, self.digits)

    def rate(self, amount: Decimal | float) -> str:
        """Write an amount per tray or per 100 g, to one digit more: "0.127 EUR"."""
        return self._written(amount, self.digits + 1)

    def per(self, what: str) -> str:
        """The unit of a price in a table's head: "EUR/day", "per day" without a currency."""
        return f"{self.code}/{what}" if self.code else f"per {what}"

    @property
    def bare(self) -> Currency:
        """The same, for columns whose head names it: amounts are written without it."""
        return Currency(self.code, named=False)

    def price(self, amount: Decimal) -> str:
        """Write a price with all digits that it was typed with: "0.2895 EUR"."""
        exponent = amount.normalize().as_tuple().exponent
        own = -exponent if isinstance(exponent, int) else 0
        return self._written(amount, max(own, self.digits))

    @property
    def unset_words(self) -> str:
        """Say how a currency is set; '' where there is one."""
        return (
            "" if self.code else f"The book has no currency yet; {Way.CURRENCY.of('EUR')} sets it."
        )

    def _written(self, amount: Decimal | float, digits: int) -> str:
        return f"{amount:,.{digits}f} {(self.named and self.code) or ''}".rstrip()


UNSET = Currency()
"""That of a book which names none."""


def currency_code(text: str) -> str:
    """Read a currency's code; raise Refused for one that ISO 4217 has not."""
    code = clean(text, lines=False).strip().upper()
    if code not in DIGITS:
        raise Refused(
            f'"{code[:20]}" isn\'t a currency. Write its three letters, like EUR, GBP or USD.',
            "currency",
        )
    return code
