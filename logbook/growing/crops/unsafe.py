"""Species whose seedlings must not be eaten, by the names under which their seed is sold."""

from typing import NamedTuple

from logbook.text import Refused, fold


class Unsafe(NamedTuple):
    """Why the seedlings of some plants must not be eaten, who says so, and their names (singular)."""

    why: str
    source: str
    names: str


UNSAFE = (
    Unsafe(
        "seedlings of nightshades contain poisonous alkaloids, such as solanine and tomatine",
        "EFSA, glycoalkaloids in feed and food, 2020",
        "tomato, cherry tomato, beefsteak tomato, plum tomato, solanum lycopersicum, "
        "lycopersicon esculentum, potato, solanum tuberosum, "
        "aubergine, eggplant, brinjal, solanum melongena, "
        "pepper, sweet pepper, bell pepper, red pepper, green pepper, hot pepper, chilli pepper, "
        "chili pepper, chile pepper, chilli, chili, chile, paprika, cayenne, cayenne pepper, "
        "jalapeno, jalapeño, habanero, capsicum, capsicum annuum, nightshade, black nightshade, "
        "solanum nigrum, tomatillo, ground cherry, cape gooseberry, physalis",
    ),
    Unsafe(
        "all parts of tobacco contain nicotine",
        "US National Library of Medicine, MedlinePlus, nicotine poisoning",
        "tobacco, nicotiana, nicotiana tabacum, flowering tobacco",
    ),
    Unsafe(
        "the green parts of rhubarb contain poisonous amounts of oxalic acid",
        "US National Library of Medicine, MedlinePlus, rhubarb leaves poisoning",
        "rhubarb, rheum rhabarbarum",
    ),
    Unsafe(
        "raw beans and their sprouts contain the lectin phytohaemagglutinin",
        "US Food and Drug Administration, Bad Bug Book, 2nd edition, 2012",
        "kidney bean, red kidney bean, white kidney bean, common bean, french bean, green bean, "
        "haricot bean, navy bean, black bean, black turtle bean, turtle bean, pinto bean, "
        "cannellini bean, borlotti bean, "
        "phaseolus vulgaris, runner bean, scarlet runner, scarlet runner bean, phaseolus coccineus",
    ),
    Unsafe(
        "raw lima beans and their sprouts release cyanide",
        "EFSA, cyanogenic glycosides in foods, 2019",
        "lima bean, butter bean, phaseolus lunatus",
    ),
    Unsafe(
        "young sorghum releases cyanide",
        "FAO, Sorghum and millets in human nutrition, 1995",
        "sorghum, sorghum bicolor, sudan grass, johnson grass",
    ),
    Unsafe(
        "sweet peas, which are flowers and not garden peas, contain substances that harm nerves",
        "Royal Horticultural Society, potentially harmful garden plants",
        "sweet pea, lathyrus odoratus",
    ),
)  # fmt: skip
_BY_NAME = {fold(name): each for each in UNSAFE for name in each.names.split(",")}
_ANY_CROP = (
    "microgreen", "microgreens", "greens", "shoots", "sprouts", "seedlings", "seed", "seeds",
)  # fmt: skip


def refuse_unsafe(*names: str) -> None:
    """Raise Refused when one of the names, whole and not a part of a word, is an unsafe species.

    What follows a comma, a last word that any crop may have ("shoots") and a plural's ending are
    left aside.
    """
    for name in names:
        words = fold(name.partition(",")[0].replace("-", " ")).split()
        while len(words) > 1 and words[-1] in _ANY_CROP:
            words.pop()
        whole = " ".join(words)
        alike = (whole, whole.removesuffix("s"), whole.removesuffix("es"))
        if found := next(filter(None, map(_BY_NAME.get, alike)), None):
            raise Refused(
                f'"{name[:40]}" can\'t be grown as a microgreen: {found.why}. '
                f"Source: {found.source}.",
                about="crop",
            )
