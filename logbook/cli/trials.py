"""`logbook trial …`: side-by-side comparisons kept in the book."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

import click

from logbook.cli.arguments import (
    at_option,
    complete_places,
    complete_templates,
    complete_trays,
    iso,
    json_option,
    trays,
    when,
)
from logbook.cli.lazy import LazyGroup
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import print_json, say, tell_done
from logbook.text import Refused, clean, plural

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.actions.trial_tasting import Said
    from logbook.growing.trials.measured import Measured
    from logbook.growing.trials.prices import Prices
    from logbook.growing.trials.view import TrialView

WIDTH = 78


def _complete_trials(ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[str]:
    try:
        from logbook.store.book_file import BookFile
        from logbook.store.reads_trials import read_trials

        options = ctx.find_object(Options) or Options(None, None, None)
        with BookFile(options.path).reading() as reading:
            names = [trial.name for trial in read_trials(reading)]
    except Exception:  # noqa: BLE001 - a shell's completion stays silent
        return []
    return [name for name in names if name.casefold().startswith(incomplete.casefold())]


NAME = click.argument("name", shell_complete=_complete_trials)


def _pairs(given: Sequence[str], what: str, example: str) -> list[tuple[str, str]]:
    """Read "yield=3" and the like."""
    pairs = []
    for text in given:
        left, mark, right = text.partition("=")
        if not mark or not left.strip() or not right.strip():
            raise Refused(f'The {what} "{text[:40]}" must be like {example}.')
        pairs.append((left.strip(), right.strip()))
    return pairs


def _weights(given: Sequence[str]) -> dict[str, float]:
    from logbook.growing.measures import number

    return {
        name: number(value, f"weight of {name[:20]}")
        for name, value in _pairs(given, "weight", "yield=3")
    }


@click.group(cls=LazyGroup, above="trial")
def trial() -> None:
    """Compare side by side: set up, sow, judge, taste, decide, adopt."""


@trial.command()
@click.argument("name")
@click.option("--crop", required=True, shell_complete=complete_templates, help="Crop template.")
@click.option(
    "--factor",
    "thing",
    required=True,
    metavar="WORD",
    help="What differs: lamps, density, soak, medium, stages, water, or a free word.",
)
@click.option("--arm", "arms", multiple=True, metavar="ARM", help="An arm: thick=34g, or 34g.")
@click.option("--question", default="", help="The question, in a sentence.")
@click.option(
    "--measure",
    "measures",
    multiple=True,
    metavar="WORD",
    help="Measured besides grams: height, days, looks, taste.",
)
@click.option(
    "--replicates", "repeats", default=1, show_default=True, help="Trays per arm in each block."
)
@click.option(
    "--shelf",
    "shelves",
    multiple=True,
    shell_complete=complete_places,
    help="A shelf as a block; give two or more.",
)
@click.option("--weeks", default=0, help="In how many weeks it is to be sown.")
@click.option("--draw", "seed", type=int, help="Layout number, to draw the same layout again.")
@click.option(
    "--priority",
    "weights",
    multiple=True,
    metavar="NAME=NUMBER",
    help="What counts: yield=3, looks=1, taste=2, crunch=1, cost=1.",
)
@click.option("--dry-run", is_flag=True, help="Show what it comes to; write nothing.")
@json_option
@pass_options
def new(
    options: Options, name: str, crop: str, thing: str, arms: tuple[str, ...], question: str,
    measures: tuple[str, ...], repeats: int, shelves: tuple[str, ...], weeks: int,
    seed: int | None, weights: tuple[str, ...], dry_run: bool, as_json: bool,
) -> None:  # fmt: skip
    """Set a trial up: one thing that differs, its arms, how many trays, how grouped."""
    from logbook.actions.trial_words import layout_words, set_up_words
    from logbook.actions.trials import TrialDraft, preview_trial, set_up

    book = options.open()
    draft = TrialDraft(
        name=name,
        crop=crop,
        thing=thing,
        arms=arms,
        question=question,
        measures=tuple(measures),
        repeats=repeats,
        shelves=shelves,
        weeks=weeks,
        seed=seed,
        weights=_weights(weights),
    )
    plan = preview_trial(book, draft) if dry_run else set_up(book, draft).plan
    if as_json:
        print_json(
            {
                "trial": plan.name,
                "thing": plan.thing,
                "arms": [{"arm": arm.name, "setting": arm.setting} for arm in plan.arms],
                "blocks": plan.blocks,
                "trays_per_arm": plan.per_arm,
                "seed": plan.seed,
                "spread_percent": plan.spread.percent,
                "spread_rests_on_trays": plan.spread.trays,
                "gaps": [
                    {"gap_percent": row.difference, "trays_per_arm": row.trays_per_arm}
                    for row in plan.gaps
                ],
                "gap_seen_percent": plan.seen,
                "layout": [{"block": spot.block, "arm": spot.arm} for spot in plan.layout],
            }
        )
        return
    click.echo("\n".join([*set_up_words(plan), *layout_words(plan)]))


@trial.command("list")
@json_option
@pass_options
def list_all(options: Options, as_json: bool) -> None:
    """List the trials, the newest first."""
    from logbook.actions.trial_finding import list_trials

    found = list_trials(options.open())
    if as_json:
        print_json(
            {
                "trials": [
                    {
                        "trial": line.name,
                        "crop": line.crop,
                        "question": line.question,
                        "thing": line.thing,
                        "arms": list(line.arms),
                        "trays": line.trays,
                        "off_the_rack": line.cut,
                        "state": line.state,
                    }
                    for line in found
                ]
            }
        )
        return
    for line in found:
        trays = f", {line.cut} of {plural(line.trays, 'tray')} off the rack" if line.trays else ""
        click.echo(f"{line.name}: {line.state}, {line.crop}{trays}. {line.question}".rstrip())
    if not found:
        click.echo("No trials.")


@trial.command()
@NAME
@json_option
@pass_options
def show(options: Options, name: str, as_json: bool) -> None:
    """Show one trial: its arms and trays, and how it stands."""
    _judge(options.open(), name, None, None, as_json=as_json, whole=True)


def _prices(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add the options for what seed and work cost."""
    for option in (
        click.option(
            "--minutes", multiple=True, metavar="[ARM=]NUMBER", help="Minutes of work a tray takes."
        ),
        click.option("--hour-price", metavar="MONEY", help="What an hour of work costs."),
        click.option("--seed-price", metavar="PER_KG", help="What a kg of seed costs."),
    ):
        command = option(command)
    return command


def _prices_of(
    book: Book, name: str, seed: str | None, hour: str | None, minutes: Sequence[str]
) -> Prices | None:
    from logbook.actions.trial_finding import arm_names
    from logbook.growing.measures import money, number
    from logbook.growing.trials.prices import prices_from

    if seed is None and hour is None and not minutes:
        return None
    spent = {}
    for text in minutes:
        arm, mark, value = text.rpartition("=")
        spent[arm.strip() if mark else ""] = number(value, "minutes of work")
    return prices_from(
        arm_names(book, name),
        None if seed is None else money(seed, "price of seed"),
        None if hour is None else money(hour, "price of an hour"),
        spent,
    )


@trial.command()
@NAME
@click.option("--spread", metavar="PERCENT", help="Spread from tray to tray, if not the room's.")
@_prices
@json_option
@pass_options
def judge(
    options: Options, name: str, spread: str | None, seed_price: str | None,
    hour_price: str | None, minutes: tuple[str, ...], as_json: bool,
) -> None:  # fmt: skip
    """Judge a trial: what its weights can say, what else differed, what may be made of it."""
    from logbook.cli.reckon_trials import percent

    book = options.open()
    _judge(
        book,
        name,
        None if spread is None else percent(spread, "spread"),
        _prices_of(book, name, seed_price, hour_price, minutes),
        as_json=as_json,
        whole=False,
    )


def _judge(
    book: Book, name: str, spread: float | None, prices: Prices | None, *, as_json: bool,
    whole: bool,
) -> None:  # fmt: skip
    from logbook.actions.trial_judging import judge_trial

    view = judge_trial(book, name, spread, prices)
    if as_json:
        print_json(_view_json(view, book, whole=whole))
        return
    click.echo("\n".join(_view_lines(view, book, whole=whole)))


def _view_lines(view: TrialView, book: Book, *, whole: bool) -> list[str]:
    from logbook.actions.trial_words import judged_words
    from logbook.growing.trials.factors import factor_words

    trial_ = view.trial
    lines = [f"{trial_.name}: {trial_.question}" if trial_.question else trial_.name]
    lines.append(f"{view.template.label()}; what differs is {factor_words(trial_.thing)}")
    lines += _chart_lines(view)
    for head, texts in judged_words(view, book.units):
        lines += ["", head, *(line for text in texts for line in _wrapped(text))]
    return lines + _tray_lines(view) if whole and view.records else lines


def _chart_lines(view: TrialView) -> list[str]:
    from logbook.growing.trials.chart import chart

    names = min(24, max(len(arm.name) for arm in view.arms))
    drawn = chart(view.arms, WIDTH - names - 26)
    lines = [
        f"{line.arm[:names]:{names}}  {line.dots:{WIDTH - names - 26}}  {line.words}".rstrip()
        for line in drawn.lines
    ]
    return [*lines, f"{'':{names}}  {drawn.foot}".rstrip()] if drawn.foot else lines


def _tray_lines(view: TrialView) -> list[str]:
    from logbook.growing.measures import number_words

    lines = ["", "Trays"]
    for record in view.records:
        weight = "" if record.grams is None else f"{number_words(record.grams)} g"
        note = f"left out: {record.left_out}" if record.left_out else ""
        parts = (
            str(record.number),
            record.arm,
            record.block,
            weight or record.state.status.words,
            note,
        )
        lines.append("  ".join(part for part in parts if part))
    return lines


def _wrapped(text: str) -> list[str]:
    import textwrap

    return textwrap.wrap(text, WIDTH, break_long_words=False, break_on_hyphens=False) or [""]


def _view_json(view: TrialView, book: Book, *, whole: bool) -> dict[str, Any]:
    from logbook.cli.reckon_trials import comparison_json

    trial_ = view.trial
    given: dict[str, Any] = {
        "trial": trial_.name,
        "question": trial_.question,
        "thing": trial_.thing,
        "crop": view.template.label(),
        "seed": trial_.seed,
        "spread_percent": view.spread.percent,
        "spread_rests_on_trays": view.spread.trays,
        "still_growing": view.waiting,
        "judged": None if view.judged is None else comparison_json(view.judged, view.judged.words),
        "why_not": view.why_not,
        "likeness": {
            "differs": [
                {"fact": one.fact, "by_arm": dict(one.by_arm)}
                for one in view.confounders.differences
            ],
            "not_separable": [list(group) for group in view.confounders.together],
            "not_recorded": {fact: list(who) for fact, who in view.confounders.missing.items()},
            "alike": list(view.confounders.alike),
            "words": list(view.confounders.words),
        },
        "measured": {
            each.quantity.name: _measured_json(each, each.words(book.units))
            for each in view.measured
        },
        "cost_per_100_g": dict(view.costs.per_100_g),
        "cost_not_known": list(view.costs.missing),
        "weighed_up": None
        if view.weighing is None or view.weighing.result is None
        else [{"arm": place.arm, "points": place.points} for place in view.weighing.result.places],
        "decisions": [
            {
                "decided": each.decided,
                "try_next": each.try_next,
                "at": iso(each.at, book),
                "by": each.by,
            }
            for each in view.decisions
        ],
        "words": view.advice,
    }
    if whole:
        given["trays"] = [
            {
                "tray": str(record.number),
                "arm": record.arm,
                "block": record.block,
                "week": record.run,
                "grams": record.grams,
                "left_out": record.left_out,
            }
            for record in view.records
        ]
    return given


def _measured_json(measured: Measured, said: str) -> dict[str, Any]:
    """Give what was measured besides grams; every key ends in the unit of its figure."""
    unit, judged = measured.quantity.unit, measured.judged
    return {
        "design": None if judged is None else judged.design,
        "arms": [
            {"arm": arm.name, "n": arm.n, f"mean_{unit}": arm.mean, f"sd_{unit}": arm.sd}
            for arm in measured.arms
        ],
        "f": None if judged is None else judged.f,
        "df_arm": None if judged is None else judged.df_arm,
        "df_error": None if judged is None else judged.df_error,
        "p": None if judged is None else judged.p,
        "pairs": [
            {
                "a": pair.a,
                "b": pair.b,
                f"gap_{unit}": pair.gap_grams,
                f"low_{unit}": pair.low,
                f"high_{unit}": pair.high,
                "p": pair.p,
            }
            for pair in (() if judged is None else judged.pairs)
        ],
        "words": said,
    }


@trial.command()
@NAME
@at_option
@click.option("--plan", is_flag=True, help="Plan it: soak and sow come onto the round.")
@click.option("--lot", default="", help="Seed lot.")
@click.option("--grams", "weight", metavar="WEIGHT", help="Dry seed a tray, as weighed.")
@click.option("--numbers", default="", metavar="LIST", help="The numbers on the tape.")
@click.option(
    "--place",
    default="",
    shell_complete=complete_places,
    help="Where they go, if the trial names no shelves; the next free slots without it.",
)
@click.option("--again", is_flag=True, help="Sow another week on the same day.")
@click.option("--anyway", is_flag=True, help="Sow although its shelves lack room.")
@click.option("--dry-run", is_flag=True, help="Say where the trays go; write nothing.")
@json_option
@pass_options
def sow(
    options: Options, name: str, at: str | None, plan: bool, lot: str, weight: str | None,
    numbers: str, place: str, again: bool, anyway: bool, dry_run: bool, as_json: bool,
) -> None:  # fmt: skip
    """Sow all arms once: marked batches, in the drawn order. Another day: another week."""
    from logbook.actions.trial_trays import SowTrialDraft, preview_sowing, sow_trial
    from logbook.actions.trial_words import sown_words
    from logbook.growing.measures import grams

    book = options.open()
    draft = SowTrialDraft(
        at=when(book, at),
        plan=plan,
        lot=lot,
        grams=None if weight is None else grams(weight, "seed a tray", book.units),
        numbers=trays(numbers) if numbers else (),
        place=place,
        again=again,
        anyway=anyway,
    )
    sown = (preview_sowing if dry_run else sow_trial)(book, name, draft)
    warnings = [each for each in (sown.same_day, sown.lack) if each] if dry_run else []
    for notice in [*warnings, *sown.notices]:
        say(notice)
    if not as_json:
        click.echo("\n".join(sown_words(sown)))
        return
    print_json(
        {
            "trial": sown.trial,
            "week": sown.run,
            "planned": sown.planned,
            "sow_at": iso(sown.sow_at, book),
            "arms": [
                {
                    "arm": arm.arm,
                    "colour": arm.colour,
                    "trays": [str(number) for number in arm.numbers],
                    "batch": None if arm.batch_id is None else str(arm.batch_id),
                }
                for arm in sown.arms
            ],
            "order": [str(number) for number, _ in sown.spots],
            "places": list(sown.places),
        }
    )


NUMBERS = click.argument("numbers", nargs=-1, required=True, shell_complete=complete_trays)


@trial.command()
@NAME
@click.argument("arm")
@NUMBERS
@click.option("--week", type=int, help="Which week they belong to; the newest without it.")
@click.option("--shelf", default="", shell_complete=complete_places, help="Which block.")
@pass_options
def add(
    options: Options, name: str, arm: str, numbers: tuple[str, ...], week: int | None, shelf: str
) -> None:
    """Take trays that stand already, or are cut, into an arm."""
    from logbook.actions.trial_joining import join_trial

    tell_done(join_trial(options.open(), name, arm, trays(numbers), run=week, shelf=shelf))


@trial.command("leave-out")
@NAME
@NUMBERS
@click.option("--why", required=True, help="The reason.")
@pass_options
def leave_out(options: Options, name: str, numbers: tuple[str, ...], why: str) -> None:
    """Leave trays out of the judging, with the reason; they stay in the record."""
    from logbook.actions.trial_joining import leave_out as leave

    tell_done(leave(options.open(), name, trays(numbers), why))


def _scores(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add an option for what is said of samples under each aspect, and one for own words."""
    for name, words in (
        ("say", 'Own words: 418="a bit bitter".'),
        ("looks", "Looks: 418=7."),
        ("crunch", "Crunch: 418=6."),
        ("taste", "Taste: 418=8, from 1 to 9; or ranks, 1 is best."),
    ):
        option = click.option(
            f"--{name}", f"{name}_said", multiple=True, metavar="CODE=VALUE", help=words
        )
        command = option(command)
    return command


@trial.command()
@NAME
@click.option("--new", "fresh", is_flag=True, help="Set a tasting up: draw blind codes.")
@click.option("--ranks", "ranked", is_flag=True, help="With --new: ranks instead of scores 1–9.")
@click.option("--draw", "seed", type=int, help="With --new: draw number, for the same codes again.")
@click.option("--taster", default="", help="Who tastes; alone, prints the order for them.")
@_scores
@json_option
@pass_options
def taste(
    options: Options, name: str, fresh: bool, ranked: bool, seed: int | None, taster: str,
    taste_said: tuple[str, ...], crunch_said: tuple[str, ...], looks_said: tuple[str, ...],
    say_said: tuple[str, ...], as_json: bool,
) -> None:  # fmt: skip
    """Taste blind: --new draws codes, --taster gives an order or takes their scores."""
    from logbook.actions.trial_tasting import new_tasting, newest_sheet
    from logbook.actions.trial_tasting import taste as write

    book = options.open()
    said = _said({"taste": taste_said, "crunch": crunch_said, "looks": looks_said}, say_said)
    if said:
        if not taster.strip():
            raise Refused("Who tasted? Give --taster.")
        tell_done(write(book, name, taster, said))
        return
    sheet = new_tasting(book, name, ranked=ranked, seed=seed) if fresh else newest_sheet(book, name)
    order = list(sheet.order(taster)) if taster.strip() else []
    if as_json:
        print_json(
            {
                "trial": sheet.trial,
                "tasting": sheet.number,
                "ranks": sheet.ranks,
                **({"taster": taster, "order": order} if order else {"codes": dict(sheet.codes)}),
            }
        )
        return
    if order:
        how = f"rank 1 (best) to {len(order)}" if sheet.ranks else "score 1 to 9"
        click.echo(
            clean(f"{taster}, in this order: {', '.join(order)}. Each: {how}; rinse between.")
        )
        return
    click.echo(f"{sheet.trial}, tasting {sheet.number}: who serves puts these codes on the cups.")
    for arm, code in sheet.codes.items():
        click.echo(f"  {code}  {arm}")
    say("Tasters must not see this list. Taste only what is clean and free of mould.")


def _said(scores: dict[str, tuple[str, ...]], words: Sequence[str]) -> dict[str, Said]:
    from logbook.actions.trial_tasting import Said
    from logbook.growing.measures import number

    values: dict[str, dict[str, float]] = {}
    for aspect, given in scores.items():
        for code, value in _pairs(given, aspect, "418=7"):
            values.setdefault(_code(code), {})[aspect] = number(value, f"{aspect} of {code[:10]}")
    said = {_code(code): text for code, text in _pairs(words, "words", '418="a bit bitter"')}
    return {
        code: Said(values.get(code, {}), said.get(code, ""))
        for code in dict.fromkeys((*values, *said))
    }


def _code(text: str) -> str:
    if not re.fullmatch(r"[0-9]{3}", text):
        raise Refused(f'"{text[:20]}" is no code of a sample; codes have three digits, like 418.')
    return text


@trial.command()
@NAME
@click.argument("arms", nargs=2, metavar="ARM ARM")
@click.option("--tasters", type=int, required=True, help="How many tasted.")
@click.option("--right", type=int, required=True, help="How many found the odd one.")
@pass_options
def triangle(options: Options, name: str, arms: tuple[str, str], tasters: int, right: int) -> None:
    """Can anyone tell two arms apart? Three samples, two alike; how many were right."""
    from logbook.actions.trial_tasting import write_triangle

    tell_done(write_triangle(options.open(), name, arms, tasters, right))


@trial.command("criteria")
@NAME
@click.option(
    "--priority",
    "weights",
    multiple=True,
    metavar="NAME=NUMBER",
    help="What counts: yield=3, looks=1, taste=2, crunch=1, cost=1.",
)
@_prices
@json_option
@pass_options
def criteria(
    options: Options, name: str, weights: tuple[str, ...], seed_price: str | None,
    hour_price: str | None, minutes: tuple[str, ...], as_json: bool,
) -> None:  # fmt: skip
    """Say what counts (--priority), or see which arm comes first by it and what would flip it."""
    from logbook.actions.trial_deciding import set_weights
    from logbook.actions.trial_judging import judge_trial

    book = options.open()
    if weights:
        tell_done(set_weights(book, name, _weights(weights)))
        return
    view = judge_trial(book, name, prices=_prices_of(book, name, seed_price, hour_price, minutes))
    if view.weighing is None:
        raise Refused(
            f'Nobody has said yet what counts in "{view.trial.name}"; give --priority yield=3 and '
            "the like, best before the first cut."
        )
    result = view.weighing.result
    if as_json:
        print_json(
            {
                "weights": dict(view.weighing.weights),
                "places": [
                    {"arm": place.arm, "points": place.points}
                    for place in (result.places if result else ())
                ],
                "flips": [
                    {"criterion": flip.criterion, "weight": flip.weight, "needed": flip.needed,
                     "arm": flip.arm}
                    for flip in (result.flips if result else ())
                ],
                "words": view.weighing.words,
            }
        )  # fmt: skip
        return
    click.echo("\n".join(_wrapped(view.weighing.words)))


@trial.command()
@NAME
@click.argument("decided")
@click.option("--next", "try_next", default="", help="What to try next.")
@click.option("--arm", default="", help="The arm that is kept, where one is.")
@pass_options
def decide(options: Options, name: str, decided: str, try_next: str, arm: str) -> None:
    """Write what was decided, and what to try next."""
    from logbook.actions.trial_deciding import decide as write

    tell_done(write(options.open(), name, decided, try_next, arm))


@trial.command()
@NAME
@click.argument("arm")
@click.option("--why", required=True, help="The reason; it stands in the template's versions.")
@click.option("--next", "try_next", default="", help="What to try next.")
@pass_options
def adopt(options: Options, name: str, arm: str, why: str, try_next: str) -> None:
    """Make a new version of the crop template from an arm."""
    from logbook.actions.trial_deciding import adopt as write

    done = write(options.open(), name, arm, why, try_next)
    click.echo(clean(f"{done.words}."))
    if done.notice:
        say(done.notice)
