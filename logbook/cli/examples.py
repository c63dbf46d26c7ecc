"""Examples of each command, shown under its help and in the manual page."""

from __future__ import annotations

import re
from itertools import groupby

import click

_LINES = """
logbook begin --name "Back room" --zone Europe/Lisbon --racks 2 --shelves 4 --slots 6
logbook --book ~/stall.book begin --units us --lamps 05:00-21:00
logbook demo
logbook demo --tour
logbook demo --keep ~/sample.book
logbook round
logbook round --day tomorrow
logbook round --brief --if-any
logbook due
logbook due --days 14
logbook page
logbook page --day yesterday
logbook page --day 2026-04-10 --kind weigh --crop radish
logbook search mould
logbook search "smells of cress"
logbook tray 101
logbook batch 12
logbook lot "RA 12"
logbook lot "RA 12" --json
logbook racks
logbook sow radish --trays 4 --place "Rack 1/Shelf 2" --lot "RA 12"
logbook sow kale --numbers 201-204 --at 2026-04-10T08:00
logbook sow "pea shoots" --trays 6 --at 2026-04-20T08:00 --dry-run
logbook sow sunflower --trays 2 --soaked-at "yesterday 22:00"
logbook did water 101-104 --amount 300ml
logbook did weight_off 101 103 --at 07:10
logbook did light_on 101-104 --place "Rack 1/Shelf 2"
logbook did sow 105-106 --dry --lot "DK 10 = 40 g" --lot "DK 11 = 60 g"
logbook skip look 101-104 --why "shelf is being cleaned"
logbook look 101-104 --emerged 90 --height 4cm --mould none
logbook look 103 --mould spot --where "back left" --note "moved away from the fan"
logbook jot 101 "smells of cress"
logbook jot "Rack 1/Shelf 2" "lamp flickers"
logbook jot room "door left open overnight"
logbook move 101-104 "Rack 1/Shelf 2"
logbook discard 104 --why "mould at the edge"
logbook weigh 101 283
logbook weigh 101-104 1.15kg
logbook weigh 105 120 --part
logbook weigh 106 320-38 --keep
logbook undo
logbook undo 57
logbook redo
logbook strike 57 --why "wrong tray"
logbook strike 57 --why "misread the scale" --grams 238
logbook me
logbook me AB
logbook templates
logbook templates --retired
logbook templates show radish
logbook templates show radish --toml > radish.toml
logbook templates put radish.toml
logbook templates copy radish "radish, north shelf"
logbook templates copy radish "radish, half tray" --tray 10x10in
logbook templates retire wheatgrass
logbook templates retire wheatgrass --back
logbook room
logbook room --units us
logbook room --stack 3
logbook room --day 06:30-20:00
logbook places
logbook places add "Rack 3" --kind rack
logbook places add "Shelf 1" --under "Rack 3" --slots 6 --lamps 06:00-22:00
logbook places change "Rack 3/Shelf 1" --lamps none
logbook places change "Rack 3" --name "Window rack"
logbook places change "Rack 3" --up
logbook places retire "Rack 3/Shelf 1"
logbook lamps
logbook lamps --place "Rack 1" --lamps 4 --watts 18 --amps 0.09 --volts 230
logbook lamps --place "Rack 1/Shelf 2" --off
logbook light --place "Rack 1/Shelf 2"
logbook light --place "Rack 1/Shelf 2" --ppfd 180 200 185 170 190 175 --grid 2x3
logbook air
logbook air 21.4 63 --place "Rack 1" --still
logbook air --batch 12
logbook air --feed < readings.jsonl
logbook water
logbook water --ph 6.1 --ec 1.2
logbook cleaning
logbook cleaning trays --method soak --with bleach --stock 5.25% --want 200ppm --volume 10L
logbook tariff
logbook tariff 0.24 --from 2026-03-05 --hours 18:00-22:00=0.31
logbook circuit
logbook circuit "left wall" --breaker 16 --volts 230 --place "Rack 1"
logbook outage
logbook outage --from "yesterday 18:00" --to "yesterday 20:15"
logbook bills
logbook bills --days 7
logbook bills --batch 12
logbook trial new density --crop radish --factor density --arm 28g --arm 36g --replicates 4
logbook trial new soaks --crop pea --factor soak --arm 8h --arm 12h --shelf Top --shelf Low
logbook trial new bricks --crop sunflower --factor weight --arm one --arm two --weeks 3
logbook trial list
logbook trial show density
logbook trial sow density --lot "RA 12" --dry-run
logbook trial sow weeks --lot "RA 12" --place "Rack 1/Shelf 2"
logbook trial add density 28g 101 103
logbook trial leave-out density 103 --why "dropped"
logbook trial judge density
logbook trial judge density --seed-price 9.50 --hour-price 15 --minutes 3
logbook trial taste density --new
logbook trial taste density --taster AB
logbook trial taste density --taster AB --taste 418=8 --taste 203=6 --say 418="sharp"
logbook trial triangle density 28g 36g --tasters 12 --right 8
logbook trial criteria density --priority yield=3 --priority taste=2
logbook trial criteria density
logbook trial decide density "36 g is kept" --arm 36g --next "32 g, other lot"
logbook trial adopt density 36g --why "cuts more in four blocks"
logbook serve
logbook serve --port 8080 --tabs 2
logbook serve --host 0.0.0.0 --password-file password.txt
logbook export ~/book-2026
logbook export ~/book-2026.zip
logbook --book ~/new.book import ~/book-2026.zip
logbook import --harvests harvests.csv --dry-run
logbook import --harvests harvests.csv --days dmy --make-templates
logbook copy
logbook copy ~/usb/
logbook copy --daily
logbook restore
logbook restore copies/room-2026-04-14.book.xz --dry-run
logbook check
logbook check --mend
logbook reckon light --ppfd 180 200 220 190 --hours 16
logbook reckon light --lux 9000 8500 --lamp "white LED" --hours 16 --want-dli 12
logbook reckon power --watts 36 --lamps 8 --hours 16 --price 0.24
logbook reckon circuit --amps 0.16 0.35 --breaker 16 --volts 230
logbook reckon air --temp 70F --rh 60 --leaf 68F
logbook reckon dilute --stock 5.25% --want 200ppm --volume 10L --product bleach
logbook reckon seed --per-cm2 1.9 --tray 10x20in --tsw 9 --germination 92
logbook reckon compare trial.csv --block shelf
logbook reckon replicates --spread 8% --difference 10%
logbook reckon triangle --tasters 12 --right 8
logbook reckon ranks tasting.csv
logbook handbook
logbook handbook pi
logbook handbook --all > handbook.md
logbook schema
logbook schema templates show
logbook man > logbook.1
eval "$(logbook completion bash)"
"""
_COMMAND = re.compile(
    r"logbook (?:--book \S+ )?((?:templates|places|trial|reckon) [a-z][a-z-]*|[a-z]+)"
)


def _command_of(line: str) -> str:
    found: str = _COMMAND.findall(line)[0]
    return found


EXAMPLES: dict[str, tuple[str, ...]] = {
    name: tuple(lines) for name, lines in groupby(_LINES.strip().splitlines(), _command_of)
}
EXAMPLES["trial"], EXAMPLES["reckon"] = EXAMPLES["trial list"], EXAMPLES["reckon air"][:1]
"""By the words of each command."""


def show_examples(name: str, command: click.Command) -> None:
    """Put the examples under a command's help, and under those of its own subcommands."""
    lines = EXAMPLES.get(name)
    if lines and command.epilog is None:
        head = "Example:" if len(lines) == 1 else "Examples:"
        command.epilog = "\n".join(["\b", head, *(f"  {line}" for line in lines)])
    for below in getattr(command, "commands", {}).values():
        show_examples(f"{name} {below.name}", below)
