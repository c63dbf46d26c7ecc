"""Examples of each command, shown under its help and in the manual page."""

from __future__ import annotations

import click

EXAMPLES: dict[str, tuple[str, ...]] = {
    "begin": (
        'logbook begin --name "Back room" --zone Europe/Lisbon --racks 2 --shelves 4 --slots 6',
        "logbook --book ~/stall.book begin --units us --lamps 05:00-21:00",
    ),
    "demo": ("logbook demo", "logbook demo --tour", "logbook demo --keep ~/sample.book"),
    "round": ("logbook round", "logbook round --day tomorrow", "logbook round --brief --if-any"),
    "due": ("logbook due", "logbook due --days 14"),
    "page": (
        "logbook page",
        "logbook page --day yesterday",
        "logbook page --day 2026-04-10 --kind weigh --crop radish",
    ),
    "search": ("logbook search mould", 'logbook search "smells of cress"'),
    "tray": ("logbook tray 101",),
    "batch": ("logbook batch 12",),
    "lot": ('logbook lot "RA 12"', 'logbook lot "RA 12" --json'),
    "racks": ("logbook racks",),
    "sow": (
        'logbook sow radish --trays 4 --place "Rack 1/Shelf 2" --lot "RA 12"',
        "logbook sow kale --numbers 201-204 --at 2026-04-10T08:00",
        'logbook sow "pea shoots" --trays 6 --at 2026-04-20T08:00 --dry-run',
        'logbook sow sunflower --trays 2 --soaked-at "yesterday 22:00"',
    ),
    "did": (
        "logbook did water 101-104 --amount 300ml",
        "logbook did weight_off 101 103 --at 07:10",
        'logbook did light_on 101-104 --place "Rack 1/Shelf 2"',
    ),
    "skip": ('logbook skip look 101-104 --why "shelf is being cleaned"',),
    "look": (
        "logbook look 101-104 --emerged 90 --height 4cm --mould none",
        'logbook look 103 --mould spot --where "back left" --note "moved away from the fan"',
    ),
    "jot": (
        'logbook jot 101 "smells of cress"',
        'logbook jot "Rack 1/Shelf 2" "lamp flickers"',
        'logbook jot room "door left open overnight"',
    ),
    "move": ('logbook move 101-104 "Rack 1/Shelf 2"',),
    "discard": ('logbook discard 104 --why "mould at the edge"',),
    "weigh": (
        "logbook weigh 101 283",
        "logbook weigh 101-104 1.15kg",
        "logbook weigh 105 120 --part",
    ),
    "undo": ("logbook undo", "logbook undo 57"),
    "redo": ("logbook redo",),
    "strike": (
        'logbook strike 57 --why "wrong tray"',
        'logbook strike 57 --why "misread the scale" --grams 238',
    ),
    "me": ("logbook me", "logbook me AB"),
    "templates": ("logbook templates", "logbook templates --retired"),
    "templates show": (
        "logbook templates show radish",
        "logbook templates show radish --toml > radish.toml",
    ),
    "templates put": ("logbook templates put radish.toml",),
    "templates copy": ('logbook templates copy radish "radish, north shelf"',),
    "templates retire": (
        "logbook templates retire wheatgrass",
        "logbook templates retire wheatgrass --back",
    ),
    "room": ("logbook room", "logbook room --units us", "logbook room --day 06:30-20:00"),
    "places": ("logbook places",),
    "places add": (
        'logbook places add "Rack 3" --kind rack',
        'logbook places add "Shelf 1" --under "Rack 3" --slots 6 --lamps 06:00-22:00',
    ),
    "places change": (
        'logbook places change "Rack 3/Shelf 1" --lamps none',
        'logbook places change "Rack 3" --name "Window rack"',
        'logbook places change "Rack 3" --up',
    ),
    "places retire": ('logbook places retire "Rack 3/Shelf 1"',),
    "lamps": (
        "logbook lamps",
        'logbook lamps --place "Rack 1" --lamps 4 --watts 18 --amps 0.09 --volts 230',
        'logbook lamps --place "Rack 1/Shelf 2" --off',
    ),
    "light": (
        'logbook light --place "Rack 1/Shelf 2"',
        'logbook light --place "Rack 1/Shelf 2" --ppfd 180 200 185 170 190 175 --grid 2x3',
    ),
    "air": (
        "logbook air",
        'logbook air 21.4 63 --place "Rack 1" --still',
        "logbook air --batch 12",
        "logbook air --feed < readings.jsonl",
    ),
    "water": ("logbook water", "logbook water --ph 6.1 --ec 1.2"),
    "cleaning": (
        "logbook cleaning",
        'logbook cleaning trays --method "soak, rinse" --with bleach --want 200ppm --volume 10L',
    ),
    "tariff": ("logbook tariff", "logbook tariff 0.24 --from 2026-03-05 --hours 18:00-22:00=0.31"),
    "circuit": (
        "logbook circuit",
        'logbook circuit "left wall" --breaker 16 --volts 230 --place "Rack 1"',
    ),
    "bills": ("logbook bills", "logbook bills --days 7", "logbook bills --batch 12"),
    "trial": ("logbook trial list",),
    "trial new": (
        "logbook trial new density --crop radish --factor density --arm 28g --arm 36g --replicates 4",
        "logbook trial new soaks --crop pea --factor soak --arm 8h --arm 12h --shelf Top --shelf Low",
        "logbook trial new bricks --crop sunflower --factor weight --arm one --arm two --weeks 3",
    ),
    "trial list": ("logbook trial list",),
    "trial show": ("logbook trial show density",),
    "trial sow": (
        'logbook trial sow density --lot "RA 12" --dry-run',
        'logbook trial sow weeks --lot "RA 12" --place "Rack 1/Shelf 2"',
    ),
    "trial add": ("logbook trial add density 28g 101 103",),
    "trial leave-out": ('logbook trial leave-out density 103 --why "dropped"',),
    "trial judge": (
        "logbook trial judge density",
        "logbook trial judge density --seed-price 9.50 --hour-price 15 --minutes 3",
    ),
    "trial taste": (
        "logbook trial taste density --new",
        "logbook trial taste density --taster AB",
        'logbook trial taste density --taster AB --taste 418=8 --taste 203=6 --say 418="sharp"',
    ),
    "trial triangle": ("logbook trial triangle density 28g 36g --tasters 12 --right 8",),
    "trial criteria": (
        "logbook trial criteria density --priority yield=3 --priority taste=2",
        "logbook trial criteria density",
    ),
    "trial decide": (
        'logbook trial decide density "36 g is kept" --arm 36g --next "32 g, other lot"',
    ),
    "trial adopt": ('logbook trial adopt density 36g --why "cuts more in four blocks"',),
    "serve": (
        "logbook serve",
        "logbook serve --port 8080 --tabs 2",
        "logbook serve --host 0.0.0.0 --password-file password.txt",
    ),
    "export": ("logbook export ~/book-2026", "logbook export ~/book-2026.zip"),
    "import": (
        "logbook --book ~/new.book import ~/book-2026.zip",
        "logbook import --harvests harvests.csv --dry-run",
        "logbook import --harvests harvests.csv --days dmy --make-templates",
    ),
    "copy": ("logbook copy", "logbook copy ~/usb/", "logbook copy --daily"),
    "restore": ("logbook restore", "logbook restore copies/room-2026-04-14.book --dry-run"),
    "check": ("logbook check", "logbook check --mend"),
    "reckon": ("logbook reckon air --temp 21C --rh 55",),
    "reckon light": (
        "logbook reckon light --ppfd 180 200 220 190 --hours 16",
        'logbook reckon light --lux 9000 8500 --lamp "white LED" --hours 16 --want-dli 12',
    ),
    "reckon power": ("logbook reckon power --watts 36 --lamps 8 --hours 16 --price 0.24",),
    "reckon circuit": ("logbook reckon circuit --amps 0.16 0.35 --breaker 16 --volts 230",),
    "reckon air": ("logbook reckon air --temp 70F --rh 60 --leaf 68F",),
    "reckon dilute": (
        "logbook reckon dilute --stock 5.25% --want 200ppm --volume 10L --product bleach",
    ),
    "reckon seed": ("logbook reckon seed --per-cm2 1.9 --tray 10x20in --tsw 9 --germination 92",),
    "reckon compare": ("logbook reckon compare trial.csv --block shelf",),
    "reckon replicates": ("logbook reckon replicates --spread 8% --difference 10%",),
    "reckon triangle": ("logbook reckon triangle --tasters 12 --right 8",),
    "reckon ranks": ("logbook reckon ranks tasting.csv",),
    "handbook": ("logbook handbook", "logbook handbook pi", "logbook handbook --all > handbook.md"),
    "schema": ("logbook schema", "logbook schema templates show"),
    "man": ("logbook man > logbook.1",),
    "completion": ('eval "$(logbook completion bash)"',),
}


def show_examples(name: str, command: click.Command) -> None:
    """Put the examples under a command's help, and under those of its own subcommands."""
    lines = EXAMPLES.get(name)
    if lines and command.epilog is None:
        head = "Example:" if len(lines) == 1 else "Examples:"
        command.epilog = "\n".join(["\b", head, *(f"  {line}" for line in lines)])
    for below in getattr(command, "commands", {}).values():
        show_examples(f"{name} {below.name}", below)
