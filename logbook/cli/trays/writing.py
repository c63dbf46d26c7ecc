"""The commands that write: sow, did, skip, look, jot, move, discard, weigh."""

import re
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

import click

from logbook.actions.book import Book
from logbook.actions.trays import moving, noticing
from logbook.cli.arguments import AT, NOTE, OF_ALL_AT, PLACE, SURE, confirm, trays, when
from logbook.cli.completing import (
    complete_lots,
    complete_places,
    complete_templates,
    complete_trays,
    completer,
    either,
)
from logbook.cli.printing import DONE, book_answers, say, tell, tell_done
from logbook.cli.trays.look_options import look_given, look_options
from logbook.cli.usage import WrongUsage
from logbook.growing.numbers import names_trays, numbers_words
from logbook.growing.quantities import EC, PH, SEED, WATER
from logbook.growing.room.water import WaterReading
from logbook.growing.trays.chores import CHORES
from logbook.growing.trays.soaking import Soaked, read_soaked
from logbook.text import Refused

TRAYS = click.argument(
    "numbers", nargs=-1, required=True, metavar="TRAYS", shell_complete=complete_trays
)
CHORE = click.argument("chore", shell_complete=completer(lambda: CHORES))
LOTS = click.option(
    "--lot", multiple=True, metavar="LOT", shell_complete=complete_lots, callback=lambda _context, _option, lots: " + ".join(lots) if lots else None,
    help='Seed lot. A bag changed half-way: --lot "DK 10 = 120 g" --lot "DK 11 = 80 g".',
)  # fmt: skip
PART = click.option("--part", is_flag=True, help="A part cut: more of this harvest follows.")
KEEP = click.option("--keep", is_flag=True, help="Cut and growing again: the next cut is regrowth.")
LOOSE = {"ignore_unknown_options": True, "help_option_names": ["--help"]}


class LooseCommand(click.Command):
    """One that takes words that begin with - as text: -hulls, -3 °C."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Take a lone -h for --help."""
        return super().parse_args(ctx, ["--help" if each == "-h" else each for each in args])


def _soak_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add what is said of a soak; nothing is written of one that nobody says."""
    since = "When the soak began; now: soak it now, sow it later."
    command = click.option("--dry", is_flag=True, help="Sown dry, without its soak.")(command)
    return click.option("--soaked-at", metavar="WHEN", help=since)(command)


def _soaked(book: Book, since: str | None, dry: bool) -> Soaked | None:
    if dry and since is not None:
        raise WrongUsage("Soaked or dry? Give one of --soaked-at and --dry.")
    if since is None:
        return "dry" if dry else None
    return read_soaked(since, book.now(), book.zone)


def _ask_soak(book: Book, seconds: int, sown: datetime) -> Soaked:
    from logbook.actions.trays.sow_words import soak_question

    asked = soak_question(seconds, sown, book)
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise WrongUsage(f"{asked} Add --soaked-at WHEN, --soaked-at now or --dry.")
    said = click.prompt(asked, err=True, prompt_suffix=" ")
    return read_soaked(said, book.now(), book.zone)


@click.command()
@click.argument("template", shell_complete=complete_templates)
@click.option("--trays", "count", type=int, help="How many trays.")
@AT
@click.option("--plan", is_flag=True, help="Plan it: its soak and sowing come onto the round.")
@click.option(
    "--ready",
    metavar="WHEN",
    help="When it should be ready; soak and sowing are counted back from then.",
)
@PLACE
@click.option("--numbers", default="", metavar="LIST", help="The numbers on the tape: 101-104.")
@LOTS
@click.option("--grams", "weight", metavar="WEIGHT", help="Dry seed per tray, as weighed.")
@click.option("--soak-at", metavar="WHEN", help="For a plan: when to soak the seed.")
@_soak_options
@click.option("--mark", "colour", default="", help="Colour mark.")
@NOTE
@click.option("--dry-run", is_flag=True, help="Show the result; write nothing.")
@book_answers("logbook.actions.trays.sowing:Sown")
def sow(
    book: Book, template: str, count: int | None, at: str | None, plan: bool,
    ready: str | None, place: str, numbers: str, lot: str | None, weight: str | None, soak_at: str | None, soaked_at: str | None,
    dry: bool, colour: str, note: str, dry_run: bool,
) -> None:  # fmt: skip
    """Sow a batch: now, in the past (--at), or planned ahead (a later --at, or --plan)."""
    from logbook.actions.trays.sow_words import plan_words, standing_words
    from logbook.actions.trays.sowing import SowDraft, Sown, preview
    from logbook.actions.trays.sowing import sow as write

    given = trays(numbers) if numbers else ()
    if count is None and not given:
        raise Refused("How many trays? Give --trays 4, or --numbers 101-104.")
    draft = SowDraft(
        template=template, trays=count, at=when(book, at, ahead=True), plan=plan, place=place, numbers=given,
        lot=lot or "", grams=SEED.given(weight), colours=(colour,) if colour else (),
        soak_at=when(book, soak_at, ahead=True), soaked=_soaked(book, soaked_at, dry), note=note,
        ready=when(book, ready, ahead=True),
    )  # fmt: skip
    ahead = preview(book, draft)
    if ahead.asks_soak and not dry_run:
        draft = replace(draft, soaked=_ask_soak(book, ahead.template.soak_seconds, ahead.sow_at))
    sown = Sown(0, ahead) if dry_run else write(book, draft)
    head = "would sow"
    if sown.batch:
        head = f"batch {sown.batch} {'planned' if sown.plan.planned else 'sown'}"
    tell(
        sown,
        [f"{head}: " + "\n  ".join([*plan_words(sown.plan, book), *standing_words(sown.plan)])],
    )


@click.command()
@CHORE
@TRAYS
@AT
@click.option("--amount", metavar="VOLUME", help="Water per tray, like 300ml.")
@click.option("--ph", metavar="PH", help="pH of the water.")
@click.option("--ec", metavar="EC", help="EC of the water in mS/cm.")
@click.option("--place", default="", shell_complete=complete_places, help="Where they were put.")
@LOTS
@_soak_options
@PART
@KEEP
@SURE
@NOTE
@book_answers(DONE)
def did(
    book: Book, chore: str, numbers: tuple[str, ...], at: str | None, amount: str | None,
    ph: str | None, ec: str | None, place: str, lot: str | None, soaked_at: str | None, dry: bool,
    part: bool, keep: bool, sure: bool, note: str,
) -> None:  # fmt: skip
    """Write that a chore was done: did water 101-104, did weight_off 101 103."""
    from logbook.actions.trays.doing import did as write
    from logbook.actions.trays.doing import unsaid_soak

    soaked, on, moment = _soaked(book, soaked_at, dry), trays(numbers), when(book, at)
    if chore == "sow" and soaked is None and (soak := unsaid_soak(book, on)):
        soaked = _ask_soak(book, soak, moment or book.now())
    water = WaterReading(PH.given(ph), EC.given(ec), WATER.given(amount, book.units))
    if water != WaterReading() and not sure:
        from logbook.actions.room.odd import odd_water

        confirm(odd_water(book, water, on, at=moment))
    done = write(
        book, chore, on, moment, amount_ml=water.millilitres, ph=water.ph, ec=water.ec,
        place=place, soaked=soaked, lot=lot, part=part, keep=keep, note=note,
    )  # fmt: skip
    tell_done(done)


@click.command()
@CHORE
@TRAYS
@click.option("--why", required=True, help="The reason.")
@OF_ALL_AT
@book_answers(DONE)
def skip(book: Book, chore: str, numbers: tuple[str, ...], why: str) -> None:
    """Leave a chore out this time: water and look wait for their next time, others for tomorrow."""
    from logbook.actions.trays.doing import skip as write

    tell_done(write(book, chore, trays(numbers), why))


@click.command()
@TRAYS
@AT
@look_options
@click.option("--mould-on", metavar="LIST", help="Which of several trays have the mould.")
@NOTE
@book_answers(DONE)
def look(
    book: Book, /, numbers: tuple[str, ...], at: str | None, mould_on: str | None, note: str,
    **seen: Any,
) -> None:  # fmt: skip
    """Write what was seen on trays; only what you give is written."""
    if seen["mould_where"] and (seen["mould"] or "none") == "none":
        raise WrongUsage(
            "--where says where mould is: give --mould spot or --mould spread with it, or write "
            "the place as --note."
        )
    mouldy, on = trays(mould_on) if mould_on is not None else (), trays(numbers)
    if not mouldy and len(on) > 1 and seen["mould"] in ("spot", "spread"):
        raise WrongUsage(f"Mould on which of {numbers_words(on)}? Name them: --mould-on {on[0]}.")
    done = noticing.look(book, on, look_given(book, seen), note, when(book, at), mouldy=mouldy)
    tell_done(done)


@click.command(cls=LooseCommand, context_settings=LOOSE)
@click.argument("numbers", metavar="TRAYS", shell_complete=either(complete_trays, complete_places))
@click.argument("text", nargs=-1, required=True, metavar="TEXT")
@OF_ALL_AT
@book_answers(DONE)
def jot(book: Book, numbers: str, text: tuple[str, ...]) -> None:
    """Write a free note on trays, or on a place: jot 101 "smells of cress".

    Several trays may come before the note: jot 101 104-106 dry edge.
    """
    strays = [word.split()[0] for word in text if word.startswith("--")] if len(text) > 1 else []
    if strays:
        raise Refused(
            f"{strays[0][:30]} would become part of the note: a jot has no such option. Quote the "
            'note if it belongs there, like: jot 101 "dry edge".'
        )
    if names_trays(numbers):
        more = _further_trays(book, text)
        note = " ".join(text[more:])
        tell_done(noticing.jot(book, trays((numbers, *text[:more])), note))
    else:
        tell_done(
            noticing.jot(
                book, (), " ".join(text), place="" if numbers.casefold() == "room" else numbers
            )
        )


def _further_trays(book: Book, words: Sequence[str]) -> int:
    """How many words in front are trays in use; the last one is always text."""
    with book.reading() as reading:
        live = {each.number for each in reading.live}
    for at, word in enumerate(words[:-1]):
        try:
            if not names_trays(word) or not live.issuperset(trays(word)):
                return at
        except Refused:
            return at
    return max(0, len(words) - 1)


@click.command()
@click.argument(
    "words",
    nargs=-1,
    required=True,
    metavar="TRAYS PLACE",
    shell_complete=either(complete_trays, complete_places),
)
@AT
@book_answers(DONE)
def move(book: Book, words: tuple[str, ...], at: str | None) -> None:
    """Move trays to free slots of a place: move 101-104 "Rack 1/Shelf 2"."""
    if len(words) < 2:
        raise WrongUsage('Where to? Write it like: move 101-104 "Rack 1/Shelf 2".')
    tell_done(moving.move(book, trays(words[:-1]), words[-1], when(book, at)))


@click.command()
@TRAYS
@click.option("--why", required=True, help="The reason.")
@AT
@book_answers(DONE)
def discard(book: Book, numbers: tuple[str, ...], why: str, at: str | None) -> None:
    """Discard trays, with the reason; they leave the rack."""
    tell_done(moving.discard(book, trays(numbers), why, when(book, at)))


@click.command(cls=LooseCommand, context_settings=LOOSE)
@click.argument(
    "words", nargs=-1, required=True, metavar="TRAYS WEIGHT", shell_complete=complete_trays
)
@AT
@PART
@SURE
@KEEP
@NOTE
@click.option(
    "--lot",
    default="",
    help="Pack lot: a code, or new; by default the crop's lot of the day.",
)
@book_answers(
    "logbook.actions.trays.weighing:Weighed", "trays=logbook.actions.trays.weighing:Weighed"
)
def weigh(
    book: Book, words: tuple[str, ...], at: str | None, part: bool, keep: bool, sure: bool,
    note: str, lot: str,
) -> None:  # fmt: skip
    """Write a cut weight: weigh 101 283, or weigh 101-104 1150 for trays weighed together."""
    from logbook.actions.trays.weighing import doubts, weighed_words
    from logbook.actions.trays.weighing import weigh as write
    from logbook.growing.trays.weighing import weight_of

    if len(words) < 2:
        raise WrongUsage("Give the tray and the weight, like: weigh 101 283.")
    if len(words) > 2 and words[-1].casefold() in ("g", "kg", "oz", "lb"):
        words = (*words[:-2], words[-2] + words[-1])
    if len(words) > 2 and re.fullmatch(r"[\d.,½¼¾]+ ?lbs?", words[-2], re.IGNORECASE):
        words = (*words[:-2], f"{words[-2]} {words[-1]}")
    numbers, moment = trays(words[:-1]), when(book, at)
    weight = weight_of(words[-1], book.units)
    confirm("" if sure else " ".join(doubts(book, numbers, weight, part=part, at=moment)))
    written = write(book, numbers, weight, at=moment, part=part, keep=keep, note=note, lot=lot)
    for notice in written[-1].notices if len(written) > 1 else ():
        say(notice)
    tell(
        written[0] if len(written) == 1 else {"trays": written},
        (weighed_words(book, one) for one in written),
    )
