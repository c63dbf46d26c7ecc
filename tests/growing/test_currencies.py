"""Currencies and their digits."""

from __future__ import annotations

from decimal import Decimal

import pytest

from logbook.actions.care.begin import currency_of_zone, guess_words
from logbook.growing.currencies import DIGITS, OF_COUNTRY, UNSET, Currency, currency_code, exact
from logbook.text import Refused

NEITHER = {"BOV", "CHE", "CHW", "CLF", "COU", "MXV", "USN", "UYI", "UYW", "XAD", "VED"}
"""Funds, units of account, and a second code of one currency."""


def test_codes_and_digits_are_those_of_iso_4217() -> None:
    """The package iso4217 carries the maintenance agency's list one."""
    listed = pytest.importorskip("iso4217").Currency
    told = {each.code: each.exponent for each in listed if each.exponent is not None}
    assert {code: digits for code, digits in told.items() if code not in NEITHER} == DIGITS


@pytest.mark.parametrize(
    ("zone", "country", "code"),
    [
        ("Europe/Berlin", "GERMANY", "EUR"), ("Europe/Sofia", "BULGARIA", "EUR"),
        ("Europe/London", "UNITED KINGDOM OF GREAT BRITAIN AND NORTHERN IRELAND (THE)", "GBP"),
        ("America/New_York", "UNITED STATES OF AMERICA (THE)", "USD"),
        ("US/Eastern", "UNITED STATES OF AMERICA (THE)", "USD"),
        ("Asia/Tokyo", "JAPAN", "JPY"), ("Japan", "JAPAN", "JPY"), ("Asia/Kuwait", "KUWAIT", "KWD"),
        ("Asia/Calcutta", "INDIA", "INR"), ("Pacific/Auckland", "NEW ZEALAND", "NZD"),
        ("Africa/Dakar", "SENEGAL", "XOF"), ("America/Curacao", "CURAÇAO", "XCG"),
    ],
)  # fmt: skip
def test_a_zone_tells_its_country_s_currency(zone: str, country: str, code: str) -> None:
    """Which country uses which is in the list of ISO 4217; which zone is whose in tzdata."""
    listed = pytest.importorskip("iso4217").Currency
    assert country in listed(code).country_names
    assert currency_of_zone(zone) == code


@pytest.mark.parametrize("zone", ["UTC", "Etc/GMT+3", "Asia/Gaza", "Antarctica/Vostok", "Nowhere"])
def test_where_there_is_none_or_several_nothing_is_guessed(zone: str) -> None:
    assert currency_of_zone(zone) is None
    assert guess_words(zone, None) == UNSET.unset_words


def test_a_country_has_one_currency_of_the_list() -> None:
    assert all(len(country) == 2 for country in OF_COUNTRY)
    assert set(OF_COUNTRY.values()) <= DIGITS.keys()


@pytest.mark.parametrize(
    ("code", "total", "rate", "price"),
    [
        ("EUR", "1,234.57 EUR", "1,234.568 EUR", "1,234.5678 EUR"),
        ("JPY", "1,235 JPY", "1,234.6 JPY", "1,234.5678 JPY"),
        ("KWD", "1,234.568 KWD", "1,234.5678 KWD", "1,234.5678 KWD"),
        (None, "1,234.57", "1,234.568", "1,234.5678"),
    ],
)
def test_an_amount_has_the_digits_of_its_currency(
    code: str | None, total: str, rate: str, price: str
) -> None:
    money, amount = Currency(code), Decimal("1234.5678")
    assert (money.total(amount), money.rate(amount), money.price(amount)) == (total, rate, price)
    assert bool(money.unset_words) is (code is None)


def test_a_price_has_at_least_the_digits_of_its_currency() -> None:
    assert [Currency("EUR").price(Decimal(each)) for each in ("30", "0.3", "0.30000")] == [
        "30.00 EUR", "0.30 EUR", "0.30 EUR",
    ]  # fmt: skip
    assert Currency("JPY").price(Decimal("1E+2")) == "100 JPY"


def test_a_measured_number_is_the_decimal_that_was_typed() -> None:
    assert exact(3 * 19.3) == Decimal("57.9")


def test_a_code_is_one_of_the_list() -> None:
    assert currency_code(" eur ") == "EUR"
    for wrong in ("", "€", "XXX", "EURO", "DEM"):
        with pytest.raises(Refused, match="like EUR, GBP or USD"):
            currency_code(wrong)
