"""Which country a time zone is of."""

from functools import cache


@cache
def country_of_zone(zone: str) -> str:
    """The country (ISO 3166) of a time zone by the tables of tzdata; '' where it is of none."""
    from importlib.resources import files

    folder = files("tzdata") / "zoneinfo"
    told = [
        line.split("\t")
        for line in (folder / "zone.tab").read_text(encoding="utf-8").splitlines()
        if not line.startswith("#")
    ]
    countries = {columns[2]: columns[0] for columns in told}
    if zone not in countries:
        links = (folder / "tzdata.zi").read_text(encoding="utf-8").splitlines()
        names = {words[2]: words[1] for words in map(str.split, links) if words[0] == "L"}
        zone = names.get(zone, "")
    return countries.get(zone, "")
