"""Three months in the room, lived through by the rules of the trade.

Everything happens in the order of its moment, so that entries are written as a grower would have
written them: sowings and changes at their times, watering, looks and cuts on the rounds.
"""

from functools import partial

from sample_db.befalling import await_note
from sample_db.days import AFTERNOON, DAYS_BEHIND, Days
from sample_db.meters import await_meters
from sample_db.mishaps import ROOM_NOTES
from sample_db.months import Months
from sample_db.orders import await_orders
from sample_db.planting import plan_ahead, take_up
from sample_db.seed import await_seed
from sample_db.sowings import HABITS, PLANS
from sample_db.tending import afternoon, morning, this_morning
from sample_db.trials import await_trials
from sample_db.world import World


def live_season(book: Months, days: Days) -> None:
    """Live through the months up to now."""
    world = World(book, days)
    agenda = world.agenda
    for ago in range(DAYS_BEHIND, 0, -1):
        agenda.put(days.on(ago), partial(morning, world))
        agenda.put(days.on(ago, AFTERNOON), partial(afternoon, world, ago))
    agenda.put(days.at(0, 0), partial(this_morning, world))
    for habit in HABITS:
        take_up(world, habit)
    for plan in PLANS:
        plan_ahead(world, plan)
    await_trials(world)
    await_orders(world)
    await_seed(world)
    for note in ROOM_NOTES:
        await_note(world, note)
    await_meters(world)
    agenda.run()
    world.act(days.now)
