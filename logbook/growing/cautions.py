"""Cautions: what can hurt the grower or who eats it, once each, with its source and where it is shown.

`about` names it. Screens (by heading) and commands show theirs in their help; what is drawn beside the
work itself takes its words from here.
"""

from dataclasses import dataclass

from logbook.handbook import cautions_chapter

LAST_WORD = "Local rules and licensed practice decide."


@dataclass(frozen=True, slots=True)
class Caution:
    """Sentences about one danger, the gravest first; screens by heading, commands by words, parted by commas."""

    about: str
    words: tuple[str, ...]
    source: str
    screens: str = ""
    commands: str = ""


CAUTIONS = (
    Caution(
        "electricity by water",
        (
            "Let every cord hang in a drip loop below its socket, and keep sockets above the trays.",
            "Feed the room through a protected supply (GFCI, RCD); test it monthly.",
            "Switch off and unplug before wet work, and before touching lamps or plugs with wet hands.",
            "Local electrical code and a licensed electrician have the last word.",
        ),
        "US NEC 210.8 and UK BS 7671, part 7 (from memory); the rest is common practice",
        "lamps and bills, light", "lamps, circuit, bills, reckon power, reckon circuit",
    ),
    Caution(
        "disinfectants and mixtures",
        (
            "The product's label is the law: its use, strength, time and rinsing come first.",
            ("Never mix bleach with acid, vinegar, ammonia or peroxide, nor use one right after the other "
            "without rinsing: toxic gas."),
            "Wear gloves and eye protection, open a window; keep it from children and food.",
            "Pour the stock into the water, not the water into the stock.",
        ),
        "US EPA, pesticide labels; US CDC, cleaning and disinfecting with bleach (from memory)",
        "the round, the racks", "cleaning, reckon dilute",
    ),
    Caution(
        "chlorine",
        (
            "Mix fresh each day in cool water: light, heat and soil use it up. Use a test strip.",
            "Use unscented bleach only, and only for what its label allows.",
            "On produce, 50 to 200 ppm for 1 to 2 minutes is usual; a consumer label may allow only 25.",
            "Rinse seed and produce in drinking water; over 200 ppm also rinse what touches food.",
            "Let clean trays drain and dry in air.",
        ),
        "USDA, good agricultural practices audit; University of Massachusetts Extension",
    ),
    Caution(
        "peroxide",
        (
            "Over about 8 % it burns skin and eyes and feeds fire: dilute such stock with great care.",
            "Use a grade meant for food; keep the bottle dark, cool and vented, never sealed tight.",
            "Rinse seed in drinking water after soaking.",
        ),
        "Regulation (EC) No 1272/2008, Annex VI, hydrogen peroxide (from memory)",
        commands="cleaning, reckon dilute",
    ),
    Caution(
        "peroxyacetic acid",
        (
            "The stock burns and its vapour stings: fresh air, gloves, goggles.",
            "At most 80 ppm in wash water for produce in the US (21 CFR 173.315).",
            "Rinse or not as the label says.",
        ),
        "21 CFR 173.315",
    ),
    Caution(
        "acids",
        (
            "Acid and bleach together give off chlorine: rinse everything that held bleach first.",
            "Add a little, stir, measure the pH again.",
        ),
        "US CDC, cleaning and disinfecting with bleach (from memory)",
    ),
    Caution(
        "alcohol",
        ("It burns: no flame, no hot lamp, no spraying near plugs; let it dry with the lamps off.",),
        "common practice, no source",
    ),
    Caution(
        "quats",
        (
            "Not for seed or produce unless its label says so.",
            "Rinse what touches food unless the label calls it no-rinse at this strength.",
        ),
        "21 CFR 178.1010 (from memory)",
    ),
    Caution(
        "other products",
        ("Rinse what touches food or seed unless the label says otherwise.",),
        "common practice, no source",
    ),
    Caution(
        "mould",
        (
            "Do not sell or taste from a tray with mould.",
            "Root hairs look like fine even fuzz and vanish when misted; mould does not.",
            ("If in doubt, discard the tray: bag it, clean and disinfect the tray by the product's "
            "label, wash your hands, and look at its neighbours."),
            ("Anyone with asthma or a weak immune system leaves mould to others; gloves, and a mask that "
            "filters (N95, FFP2), for all."),
            "Your local food-safety rules have the last word.",
        ),
        "US CDC, mold clean up guidelines; the rest is common practice",
        "the round, tray", "look, discard",
    ),
    Caution(
        "blades",
        (
            "Cut away from the hand that holds, with a sharp, clean blade on a dry bench.",
            "Cover the blade when you put it down; never catch one that falls.",
        ),
        "common practice, no source",
        "weigh-in", "weigh, did",
    ),
    Caution(
        "lifting stacks",
        (
            ("A stack of wet trays under weight is heavy: lift a few at a time, close to the body, "
            "with your legs, nothing heavy above the shoulder; ask for a second pair of hands."),
        ),
        "UK HSE, manual handling at work, INDG143 (from memory)",
        "sow, the racks", "sow, move",
    ),
    Caution(
        "raw food",
        (
            "Chill cut greens at once and keep them at 5 °C (41 °F) or less.",
            ("They are eaten raw: clean hands, blade and scale between crops; anyone who is ill doesn't cut or pack."),
        ),
        "US FDA Food Code 2009, 3-202.11; 21 CFR 112.31 and 112.32 (from memory)",
        "weigh-in, deliveries, cold store", "weigh, deliveries, despatch, cold, label",
    ),
    Caution(
        "denser stands",
        (
            ("Denser stands carried more bacteria and fungi in published trials of cress, rocket and "
            "pea: let air move, and look for mould more often."),
        ),
        "Dubey et al. 2026, Plants 15:635",
        "trial", "trial adopt",
    ),
    Caution(
        "holds and recalls",
        (
            "If people may be ill, call your food-safety office and your customers first; search afterwards.",
            "Put the bag and the packs aside, closed and marked, and keep them: they may be tested.",
            "Don't taste what is on hold.",
        ),
        "Regulation (EC) 178/2002, article 19, and US FDA, recalls (21 CFR 7, subpart C), from memory",
        "holds, recall", "hold, release, recall",
    ),
)  # fmt: skip
_BY_NAME = {each.about: each for each in CAUTIONS}


def words_of(about: str) -> tuple[str, ...]:
    """The sentences about a danger."""
    return _BY_NAME[about].words


def shown_on(screen: str) -> tuple[str, ...]:
    """What the help of a screen says."""
    return _joined(tuple(each for each in CAUTIONS if screen in each.screens.split(", ")))


def shown_by(command: str) -> tuple[str, ...]:
    """What the help of a command says."""
    return _joined(tuple(each for each in CAUTIONS if command in each.commands.split(", ")))


def care_chapter() -> str:
    """All of them, as a chapter of the handbook."""
    return cautions_chapter(((each.about, each.words, each.source) for each in CAUTIONS), LAST_WORD)


def _joined(shown: tuple[Caution, ...]) -> tuple[str, ...]:
    words = tuple(sentence for each in shown for sentence in each.words)
    return (*words, LAST_WORD) if words else ()
