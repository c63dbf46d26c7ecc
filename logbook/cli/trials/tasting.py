"""`logbook trial taste` and `triangle`: what tasters say."""

import re
from collections.abc import Callable, Iterator, Sequence
from typing import Any

import click

from logbook.actions.book import Book
from logbook.actions.trials.tasting import SampleSaid, new_tasting, newest_sheet, write_triangle
from logbook.actions.trials.tasting import taste as write
from logbook.cli.arguments import OF_ALL_AT
from logbook.cli.printing import DONE, book_answers, json_asked, say, tell, tell_done
from logbook.cli.trials.options import NAME, complete_arms, pairs
from logbook.cli.usage import WrongUsage
from logbook.growing.measures import plain
from logbook.growing.trials.tasted import TastingSheet
from logbook.text import Refused, clean


def _scores(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add an option for what is said of samples under each aspect, and one for own words."""
    for name, words in (
        ("say", 'Your own words: 418="a bit bitter".'),
        ("looks", "Looks: 418=7."),
        ("crunch", "Crunch: 418=6."),
        ("taste", "Taste: 418=8, from 1 to 9; or ranks, 1 is best."),
    ):
        command = click.option(f"--{name}", multiple=True, metavar="CODE=VALUE", help=words)(
            command
        )
    return command


@click.command()
@NAME
@click.option("--new", "fresh", is_flag=True, help="Set a tasting up: draw blind codes.")
@click.option("--ranks", "ranked", is_flag=True, help="With --new: ranks instead of scores 1–9.")
@click.option(
    "--draw",
    "seed",
    type=int,
    help="With --new: an earlier draw's number, for its codes.",
)
@click.option("--taster", default="", help="Who tastes; on its own, prints their order.")
@_scores
@OF_ALL_AT
@book_answers(DONE, "logbook.growing.trials.tasted:TastingSheet")
def taste(
    book: Book, name: str, fresh: bool, ranked: bool, seed: int | None, taster: str,
    **given: tuple[str, ...],
) -> None:  # fmt: skip
    """Taste blind: --new draws codes, --taster gives an order or takes their scores."""
    said = _said(**given)
    if said:
        if not taster.strip():
            raise WrongUsage("Who tasted? Give --taster.")
        tell_done(write(book, name, taster, said))
        return
    sheet = new_tasting(book, name, ranked=ranked, seed=seed) if fresh else newest_sheet(book, name)
    taster = taster.strip()
    answer = TastingSheet(sheet, taster, sheet.order(taster) if taster else ())
    if not answer.order and not json_asked():
        say("Tasters must not see this list. Taste only what is clean and free of mould.")
    tell(answer, _sheet_words(answer))


def _sheet_words(answer: TastingSheet) -> Iterator[str]:
    sheet, order = answer.sheet, answer.order
    if order:
        how = f"rank 1 (best) to {len(order)}" if sheet.ranks else "score 1 to 9"
        yield clean(
            f"{answer.taster}, in this order: {', '.join(order)}. Each: {how}; rinse between."
        )
        return
    yield f"{sheet.trial}, tasting {sheet.number}: whoever serves puts these codes on the cups."
    yield from (f"  {code}  {arm}" for arm, code in sheet.codes.items())


def _said(say: Sequence[str], **scores: Sequence[str]) -> dict[str, SampleSaid]:

    values: dict[str, dict[str, float]] = {}
    for aspect, given in scores.items():
        for code, value in pairs(given, aspect, "418=7"):
            values.setdefault(_code(code), {})[aspect] = plain(value, f"{aspect} of {code[:10]}")
    said = {_code(code): text for code, text in pairs(say, "words", '418="a bit bitter"')}
    return {
        code: SampleSaid(values.get(code, {}), said.get(code, ""))
        for code in dict.fromkeys((*values, *said))
    }


def _code(text: str) -> str:
    if not re.fullmatch(r"[0-9]{3}", text):
        raise Refused(f'"{text[:20]}" is not a sample code; they have three digits, like 418.')
    return text


@click.command()
@NAME
@click.argument("arms", nargs=2, metavar="ARM ARM", shell_complete=complete_arms)
@click.option("--tasters", type=int, required=True, help="How many people tasted.")
@click.option("--right", type=int, required=True, help="How many found the odd one.")
@OF_ALL_AT
@book_answers(DONE)
def triangle(book: Book, **tested: Any) -> None:
    """Can anyone tell two arms apart? Three samples, two alike; how many were right."""
    tell_done(write_triangle(book, **tested))
