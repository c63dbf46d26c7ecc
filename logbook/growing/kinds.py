"""Kinds of entries: what each is called, carries and bears on; all that depends on a kind derives from here.

A new kind is a line here, and a table where it carries numbers of its own.
"""

from dataclasses import dataclass
from typing import Annotated, Literal

Carried = Literal[
    "lot", "placing", "weights", "look", "watering", "lamps", "hours", "tariff", "circuit", "light",
    "air", "use", "check", "outage", "bag", "seed count", "seed weight", "held", "recall",
]  # fmt: skip
"""What an entry may say beside its note: each in a table of its own, but for the seed lot."""
Part = Literal[
    "at",
    "note",
    "numbers",
    "grams",
    "part",
    "keep",
    "amount_ml",
    "place",
    "look",
    "lot",
    "template",
]
"""What an entry that replaces another may say differently."""

NAMED = "named"
"""Of what answers a chore: the one that the entry names."""

_EVERY: tuple[Part, ...] = ("at", "note")
_ON_TRAYS: tuple[Part, ...] = (*_EVERY, "numbers")
_SOWING: tuple[Part, ...] = (*_EVERY, "grams", "lot", "template", "place")


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of entry.

    done: what it says on a page ("watered"); noun: how it is named ("watering"); joint: what
    stands between `done` and what it carries; puts: the word before the place of its trays.
    """

    name: str
    done: str
    noun: str
    purpose: str
    """What is written by it, for the handbook."""
    carries: tuple[Carried, ...] = ()
    joint: str = ": "
    puts: str = ""
    groups: tuple[str, ...] = ()
    """What a grower may narrow a page to it by; its own name where it is empty."""
    makes_state: bool = False
    """Whether a tray's state is made of it."""
    answers: str = ""
    """The chore that it answers, or NAMED."""
    undo: Literal["at once", "asks", "never"] = "at once"
    """Whether undo takes it back; never what is more than a record, such as a place's name."""
    takes: tuple[Part, ...] = _EVERY
    """What may be said differently by an entry in its place."""
    replaced: bool = True
    """Whether an entry may take its place; else it is struck and said anew."""
    note_needed: bool = False
    on_ended: bool = False
    """Whether trays that are cut or discarded may have it."""
    before_sowing: bool = False
    """Whether trays that are not sown yet may have it."""

    @property
    def filters(self) -> tuple[str, ...]:
        """The words that narrow a page to it."""
        return self.groups or (self.name,)


def _trial(name: str, done: str, noun: str, purpose: str) -> Kind:
    return Kind(name, done, noun, purpose, groups=("trial",), replaced=False)


def _order(name: str, done: str, noun: str, purpose: str) -> Kind:
    return Kind(
        name,
        done,
        noun,
        purpose,
        groups=("order", *(("pack",) if name == "pack" else ())),
        replaced=False,
    )


def _lot(name: str, done: str, noun: str, purpose: str) -> Kind:
    return Kind(name, done, noun, purpose, groups=("pack",), replaced=False)


def _seed(name: str, done: str, noun: str, purpose: str, carried: Carried) -> Kind:
    return Kind(name, done, noun, purpose, (carried,), groups=("seed",))


def _hold(name: str, done: str, purpose: str) -> Kind:
    return Kind(
        name,
        done,
        name,
        purpose,
        ("held",),
        groups=("hold",),
        undo="asks",
        replaced=False,
        note_needed=True,
        on_ended=True,
        before_sowing=True,
    )


KINDS = {
    kind.name: kind
    for kind in (
        Kind("plan", "planned", "plan", "a sowing still to come", ("lot", "placing"), joint=" ",
             puts="on", makes_state=True, undo="asks", takes=_SOWING, before_sowing=True),
        Kind("soak", "soaked", "soak", "seed put in water", makes_state=True, answers="soak",
             before_sowing=True),
        Kind("sow", "sown", "sowing", "trays sown, from which lot and where they were put",
             ("lot", "placing"), joint=" ", puts="on", makes_state=True, answers="sow", undo="asks",
             takes=_SOWING, before_sowing=True),
        Kind("change", "changed", "change", "a weight, a lid or the light changed",
             makes_state=True, answers=NAMED),
        Kind("water", "watered", "watering", "trays watered, with amount, pH and EC if measured",
             ("watering",), makes_state=True, answers="water", takes=(*_ON_TRAYS, "amount_ml")),
        Kind("look", "look", "look", "what was seen on trays", ("look",), makes_state=True,
             answers="look", takes=(*_ON_TRAYS, "look")),
        Kind("glance", "glanced at", "glance", "trays seen in passing while they were watered",
             makes_state=True, answers="look", takes=_ON_TRAYS),
        Kind("weigh", "cut", "cut", "trays cut and weighed", ("weights",), joint=" ",
             groups=("weigh", "cut"), makes_state=True, answers="cut", undo="asks",
             takes=(*_ON_TRAYS, "grams", "part", "keep")),
        Kind("cut", "cut, not weighed", "cut", "trays cut, not weighed", groups=("weigh", "cut"),
             makes_state=True, answers="cut", takes=_ON_TRAYS),
        Kind("cut_part", "cut in part, not weighed", "part cut", "trays cut in part, not weighed",
             groups=("weigh", "cut"), makes_state=True, answers="cut", takes=_ON_TRAYS),
        Kind("cut_keep", "cut, not weighed, grows again", "cut",
             "trays cut and left to grow again, not weighed", groups=("weigh", "cut"),
             makes_state=True, answers="cut", takes=_ON_TRAYS),
        Kind("sold_live", "sold live", "sale of live trays", "trays sold live, with a delivery",
             groups=("sold",), makes_state=True, answers="cut", undo="asks", replaced=False),
        Kind("move", "moved", "move", "trays moved to another place", ("placing",), joint=" ",
             puts="to", makes_state=True, takes=(*_ON_TRAYS, "place")),
        Kind("discard", "discarded", "discard", "trays discarded, and why", makes_state=True,
             undo="asks", takes=_ON_TRAYS, note_needed=True, before_sowing=True),
        Kind("skip", "skipped", "skip", "a chore left out, and why", makes_state=True,
             answers=NAMED, note_needed=True, before_sowing=True),
        Kind("jot", "jot", "jot", "a free note on trays, a place or the room",
             takes=(*_ON_TRAYS, "place"), note_needed=True, on_ended=True, before_sowing=True),
        _hold("hold", "on hold",
              "seed, trays, packs or a shelf that may not go on until released, and why"),
        _hold("release", "released", "what was on hold goes on, and why"),
        Kind("recall", "recall", "recall", "a recall that was made or practised, and how long it took",
             ("recall",), groups=("hold",), undo="asks", replaced=False),
        Kind("strike", "struck", "strike", "an entry struck out or undone, and why", replaced=False),
        Kind("measure", "water", "water reading", "pH and EC of water, without watering",
             ("watering",), groups=("water",)),
        Kind("air", "air", "air reading", "temperature and humidity", ("air",)),
        Kind("light", "light", "light survey", "PPFD at the spots of a shelf", ("light",)),
        Kind("lamps", "lamps", "lamps", "a shelf's lamps", ("lamps",)),
        Kind("hours", "lamp hours", "lamp hours", "when a shelf's lamps are on", ("hours",)),
        Kind("outage", "power off", "power cut", "a time when the power was off", ("outage",),
             joint=" ", replaced=False),
        Kind("circuit", "circuit", "circuit", "a circuit and the shelves on it", ("circuit",)),
        Kind("tariff", "tariff", "tariff", "a price per kWh from a day on", ("tariff",)),
        Kind("cost", "cost set", "cost", "what something costs or takes, from a day on",
             replaced=False),
        Kind("clean", "cleaned", "cleaning", "a cleaning, or a solution that was used", ("use",)),
        Kind("check", "checked", "check", "a check of the cold store, water or scale: what it showed",
             ("check",), groups=("clean", "check")),
        Kind("upkeep", "cleaning or check set", "setting of a cleaning or check",
             "how often something is cleaned or checked", groups=("settings",), replaced=False),
        Kind("review", "records reviewed", "review", "a week's records reviewed, and by whom",
             replaced=False),
        Kind("assurance", "assured", "assurance", "what a customer assured in writing, for a year",
             groups=("order",), replaced=False),
        Kind("sales", "sales of a year", "sales of a year", "what was sold in a year, and to whom",
             groups=("cost",), replaced=False),
        _seed("seed", "seed bought", "purchase of seed", "a bag of seed bought", "bag"),
        _seed("seed_test", "seedlings counted", "count of seedlings",
              "seed put to germinate, and how many came up", "seed count"),
        _seed("seed_weight", "seed weighed", "weight of a seed lot", "what is left of a seed lot",
              "seed weight"),
        Kind("settings", "settings changed", "change of settings",
             "a crop template, a place or the room itself changed", undo="never", replaced=False),
        _order("customer", "customer", "customer", "a customer added, changed or removed"),
        _order("mix", "mix", "mix", "a mix of crops and their parts"),
        _order("order", "ordered", "order", "what a customer orders, once or as a standing order"),
        _order("pause", "paused", "pause", "days on which a customer takes nothing"),
        _order("pack", "packed", "packing", "packs that were packed for a customer's delivery"),
        _lot("pack_lot", "pack lot", "pack lot", "a pack lot named, changed or mixed from others"),
        _lot("lot_out", "out of a pack lot", "withdrawal",
             "what of a pack lot was wasted, eaten or came back"),
        _trial("trial", "trial set up", "setting up of a trial", "a trial set up"),
        _trial("join", "in a trial", "joining of a trial", "trays that take part in a trial"),
        _trial("leave", "left out of a trial", "leaving of a trial", "trays left out of a trial"),
        _trial("trial_end", "planned end of a trial", "planned end of a trial",
               "how many trays per arm the planned end of a trial takes"),
        _trial("weights", "what counts in a trial", "criteria of a trial", "what counts in a trial"),
        _trial("tasting", "tasting set up", "setting up of a tasting", "a tasting set up"),
        _trial("taste", "tasted", "tasting", "what a taster said"),
        _trial("triangle", "triangle test", "triangle test", "a triangle test of two arms"),
        _trial("decide", "decided", "decision", "what was decided on a trial"),
    )
}  # fmt: skip
"""Every kind of entry, by its name in the book."""
KindName = Annotated[str, tuple(KINDS)]
"""The name of a kind."""
_STRANGE = Kind(
    "", "something a newer version wrote", "entry of a newer version", "", replaced=False
)


def groups() -> dict[str, tuple[str, ...]]:
    """What a page may be narrowed to, by name: the kinds of entry that each stands for."""
    found: dict[str, tuple[str, ...]] = {}
    for kind in KINDS.values():
        for group in kind.filters:
            found[group] = (*found.get(group, ()), kind.name)
    return dict(sorted(found.items()))


def purposes() -> dict[str, tuple[str, ...]]:
    """What is written by the kinds that each group stands for, by the group's name."""
    return {
        group: tuple(KINDS[kind].purpose for kind in kinds) for group, kinds in groups().items()
    }


def that_carry(*carried: Carried) -> tuple[str, ...]:
    """The kinds that carry any of these."""
    return tuple(name for name, kind in KINDS.items() if set(carried) & set(kind.carries))


def kind_of(name: str) -> Kind:
    """The kind of an entry; one of a newer program, which is not in the table, says so."""
    return KINDS.get(name) or _STRANGE
