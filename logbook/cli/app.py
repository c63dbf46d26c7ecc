"""The command line: options for all, the table of commands, and where refusals are shown."""

import io
import sqlite3
import sys
from contextlib import suppress
from typing import Any

import click

from logbook import __version__
from logbook.cli.files import FileName, refuse_broken
from logbook.cli.lazy import LazyGroup
from logbook.cli.options import Options
from logbook.cli.printing import say
from logbook.cli.usage import INTERRUPTED, WrongUsage, usage_words
from logbook.paths import BOOK_VARIABLE
from logbook.text import Refused

TABLE = {
    "begin": ("care.keeping:begin", "make a new book: racks, shelves, slots, units"),
    "demo": ("care.keeping:demo", "open a fresh sample book; never touches yours"),
    "round": ("trays.round:the_round", "what every tray needs now, in walking order"),
    "sheet": ("trays.sheet:sheet", "the round on paper, and back"),
    "week": ("trays.week:week", "the coming week on one page"),
    "calendar": ("trays.calendar:calendar", "what is coming up, for any calendar program"),
    "due": ("trays.due:due", "what is or will be ready to cut"),
    "page": ("trays.page:page", "a day's entries"),
    "search": ("trays.page:search", "find a word in notes, looks and seed lots"),
    "tray": ("trays.shown:tray", "one tray: its past and what comes next"),
    "batch": ("trays.shown:batch", "one batch: its trays, entries and weights"),
    "label": ("labels.label:label", "labels for packs: lot, days, allergens, maker"),
    "tape": ("labels.label:tape", "tapes for trays, as text or on a sheet of labels"),
    "trace": ("packs.trace:trace", "follow a lot back to the bag and on to every customer"),
    "seed": ("seed.seed:seed", "seed lots: what is left; bags bought, counted, weighed"),
    "shopping": ("seed.shopping:shopping", "what to buy for the sowings to come"),
    "racks": ("trays.racks:racks", "the racks with the trays in their slots"),
    "sow": ("trays.writing:sow", "sow a batch, or plan one"),
    "did": ("trays.writing:did", "record a chore as done: did water 101-104"),
    "skip": ("trays.writing:skip", "leave a chore out this time, with the reason"),
    "look": ("trays.writing:look", "record what you saw on trays"),
    "jot": ("trays.writing:jot", "a note on trays or a place"),
    "move": ("trays.writing:move", "move trays to another place"),
    "hold": ("recall.hold:hold", "put a lot, batch, trays or shelf on hold; or list what is"),
    "release": ("recall.hold:release", "let what is on hold go on, with the reason"),
    "recall": ("recall.recall:recall", "who to call and what to stop; a practice recall is timed"),
    "discard": ("trays.writing:discard", "discard trays, with the reason"),
    "weigh": ("trays.writing:weigh", "the cut weight of a tray"),
    "undo": ("trays.striking:undo", "undo what you wrote last"),
    "redo": ("trays.striking:redo", "bring back what undo took"),
    "strike": ("trays.striking:strike", "strike out an entry, or put the right one in its place"),
    "me": ("who:me", "who writes at this terminal"),
    "templates": ("crops.templates:templates", "crop templates: list, show, put, copy, retire"),
    "places": ("room.places:places", "racks and shelves: list, add, change, retire"),
    "room": ("room.room:room", "the room's name, units, sowing day and day"),
    "export": ("care.exchange:export", "everything as CSV files: a folder or a zip"),
    "move-book": ("care.exchange:move_book", "the same book in another file, or on a server"),
    "import": ("care.exchange:import_", "an export, or a spreadsheet of past harvests"),
    "copy": ("care.safety:copy_command", "a checked copy of the book"),
    "restore": ("care.safety:restore_command", "go back to a copy; says what would be lost"),
    "check": ("care.safety:check_command", "is the book in order? what to do if not"),
    "lamps": ("room.lamps:lamps", "the lamps of every shelf; hang some, take them off"),
    "light": ("room.light:light", "light readings of a shelf and what they mean"),
    "air": ("room.air:air", "temperature and humidity; by hand or --feed"),
    "water": ("room.water:water", "pH and EC of the water"),
    "cleaning": ("room.cleaning:cleaning", "cleaning and solutions: the record"),
    "upkeep": ("room.upkeep:upkeep", "cleaning and checks that come round, and how often"),
    "records": (
        "records.records:records",
        "records the rules ask for: lots made and shipped, as sheets",
    ),
    "tariff": ("room.circuits:tariff", "the price per kWh, by date and hour"),
    "circuit": ("room.circuits:circuit", "circuits and their loads"),
    "outage": ("room.outages:outage", "times when the power was off"),
    "bills": ("room.bills:bills", "what light costs by shelf, tray-day and batch"),
    "deliveries": ("orders.deliveries:deliveries", "who gets what, and is there enough of it?"),
    "despatch": ("packs.despatch:despatch", "say which lot a customer's packs come from"),
    "cold": ("packs.cold:cold", "the cold store: lots, what is left, waste, returns, mixes"),
    "order": ("orders.order:order", 'what a customer wants: order "Bistro" "daikon 500g fri"'),
    "orders": ("orders.order:orders", "what is ordered: list, change, stop"),
    "customer": ("orders.customers:customer", "customers: list, add, change, pause, remove"),
    "mix": ("orders.customers:mix", "mixes of crops: list, put, remove"),
    "promise": ("planning.promise:promise", "can I say yes? from which trays, or from when"),
    "plan": ("planning.plan:plan", "what to soak and sow for the deliveries to come"),
    "month": ("yields.month:month", "a month on one page: what crops gave and cost"),
    "costs": ("costs.costs:costs", "what trays cost and what is left; the rates you type"),
    "yields": (
        "yields.yields:yields",
        "what crops gave by tray, slot-day, seed and kWh; what was lost",
    ),
    "trial": ("trials.trial:trial", "side-by-side trials: set up, sow, judge, taste, decide"),
    "serve": ("serving:serve", "the screens in a browser, also on a phone"),
    "reckon": ("reckoning.reckon:reckon", "calculators; nothing is written"),
    "handbook": ("reader:handbook", "the handbook, by job"),
    "schema": ("reader:schema", "JSON schemas of what --json prints"),
    "man": ("reader:man", "the manual page, for man"),
    "completion": ("care.completion:completion", "completion for bash, zsh or fish"),
}
"""Each command: what it is, below logbook.cli, and what it does."""

REFUSED, USAGE = 1, 2
CLOSED = "standard output is closed"
CONTEXT: dict[str, Any] = {"help_option_names": ["-h", "--help"], "max_content_width": 100}


@click.group(cls=LazyGroup, table=TABLE, invoke_without_command=True, context_settings=CONTEXT)
@click.option(
    "--book", metavar="PATH", type=FileName(str), help=f"Which book, or which copy (or {BOOK_VARIABLE}).",
)  # fmt: skip
@click.option(
    "--now",
    metavar="WHEN",
    help="Pretend a time, to look or to rehearse: 07:30 or 2026-04-14T07:30.",
)
@click.option("--by", metavar="INITIALS", help="Who writes (or LOGBOOK_BY).")
@click.version_option(__version__, prog_name="logbook")
@click.pass_context
def logbook(ctx: click.Context, book: str | None, now: str | None, by: str | None) -> None:
    """Keep a grow room's daily log: trays, chores, looks, weights.

    Without a command the app opens at the round. Tray lists read "101 104-109"; times read
    07:30 (today) or 2026-04-14T07:30, with or without an offset.
    """
    ctx.obj = ctx.obj or Options(None, None, None)
    ctx.obj.book, ctx.obj.now, ctx.obj.by = book, now, by
    if ctx.invoked_subcommand is None:
        from logbook.cli.screen import open_app

        open_app(ctx.obj, top_context)


def top_context() -> click.Context:
    """A context of the whole program, to list its commands in.

    It names the options for help as a run does: a command keeps the first that it is asked for.
    """
    return click.Context(logbook, info_name="logbook", **CONTEXT)


def run(arguments: list[str] | None = None) -> int:
    """Run the command line: 0 is done, 1 refused, 2 wrong usage, 3 written but not printed.

    Wrong usage is a part that is missing, unknown or doesn't go with another; a value that can't be
    is refused. Ctrl-C gives 130, as in every shell.
    """
    options = Options(None, None, None, say=say)
    try:
        refuse_broken(sys.argv[1:] if arguments is None else arguments)
        result: Any = logbook.main(
            arguments, prog_name="logbook", standalone_mode=False, obj=options
        )
        if options.written and sys.stdout is None:
            return _unprinted(options, CLOSED)
    except Refused as refused:
        say(str(refused))
        return USAGE if isinstance(refused, WrongUsage) else REFUSED
    except click.exceptions.Exit as end:
        return end.exit_code
    except SystemExit as end:  # what click makes of a pipe that is closed
        return _unprinted(options, CLOSED) if options.written else int(end.code or 0)
    except click.Abort as stopped:
        say("Stopped; nothing more was written.")
        return REFUSED if isinstance(stopped.__context__, EOFError) else INTERRUPTED
    except click.ClickException as wrong:
        return _refuse_usage(wrong)
    except sqlite3.Error as fault:
        say(f"The book could not be used: {fault}.")
        return 1
    except BrokenPipeError:
        return _unprinted(options, CLOSED)
    except OSError as fault:
        if options.written or fault.filename is None:
            return _unprinted(options, fault.strerror or "")
        say(f"{fault.filename or 'A file'} could not be used: {fault.strerror}.")
        return 1
    except Exception as fault:  # noqa: BLE001 - the last net: a sentence and a log, no traceback
        from logbook.cli.mishap import keep_trace

        say(keep_trace(fault))
        return 1
    return result if isinstance(result, int) else 0


def _unprinted(options: Options, why: str) -> int:
    sys.stdout = io.StringIO()
    with suppress(OSError):
        if options.written:
            say(f"Written, but could not be printed: {why}.")
        elif why != CLOSED:
            say(f"This could not be printed: {why}.")
    return 3 if options.written else 1


def _refuse_usage(wrong: click.ClickException) -> int:
    """Say what is wrong with a command; a value that can't be is refused like any other."""
    words = usage_words(wrong)
    if isinstance(wrong, click.BadParameter) and not isinstance(wrong, click.MissingParameter):
        say(words)
        return REFUSED
    if isinstance(wrong, click.UsageError) and wrong.ctx and not words.startswith("Usage:"):
        say(wrong.ctx.get_usage())
        words += f" `{wrong.ctx.command_path} --help` says more."
    say(words)
    return wrong.exit_code
