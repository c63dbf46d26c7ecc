PRAGMA application_id=1819240290;
BEGIN TRANSACTION;
CREATE TABLE about (
	name VARCHAR NOT NULL, 
	says VARCHAR NOT NULL, 
	CONSTRAINT pk_about PRIMARY KEY (name)
);
INSERT INTO "about" VALUES('','The book is one SQLite file. Any program that reads SQLite can open it, today or in twenty years, without this one. Read a copy, and change nothing: the check would find it, the program might not. What this chapter says is in the file too, in the table `about`.

Moments are seconds since the beginning of 1970 in UTC, most of them whole numbers: SQLite''s `datetime(at, ''unixepoch'')` writes one out. The time zone of a room is in `place.zone`, by its IANA name. Days are text (`2026-04-14`). Minutes count from midnight by the clock on the wall of the room. Truths are 0 or 1. Weights are in grams, lengths in millimetres, whatever the screens show. An arrow points to a row of another table.

Entries are written once. What was struck stays in the file: an entry of kind `strike` names it in `strikes_id`. A strike that was struck itself does not count. The chapter `entries` has all kinds.');
INSERT INTO "about" VALUES('about','What this file, a table or a column ("entry.at") holds, with units and zones; '''' is the file.');
INSERT INTO "about" VALUES('about.name','text');
INSERT INTO "about" VALUES('about.says','text');
INSERT INTO "about" VALUES('book','The book itself: one row. `begun_as` is "rehearsal" or "sample", '''' for a real book.

New trays take their numbers in turn from `pool_first` to `pool_last`; None: numbers count on. `stack_height` trays under weight stand on one another and take one slot; None: they do not. `currency` (ISO 4217) is what all money is in; None: not said. Plans want a chance of enough of `sure_percent`, count `loss_percent` of a cut as lost in trimming, and fill `work_hours` of sowing and cutting a day; None: not said. Labels name `maker` and `address` (lines of it); `gs1_prefix` begins the grower''s own numbers of goods (GTIN); None: not said. `phone` is the maker''s; `certificate` names an organic certificate (number, certifier), which holds until a day.');
INSERT INTO "about" VALUES('book.id','a number');
INSERT INTO "about" VALUES('book.name','text');
INSERT INTO "about" VALUES('book.units','text');
INSERT INTO "about" VALUES('book.first_day','a number');
INSERT INTO "about" VALUES('book.made_at','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('book.begun_as','text');
INSERT INTO "about" VALUES('book.pool_first','a number, or empty');
INSERT INTO "about" VALUES('book.pool_last','a number, or empty');
INSERT INTO "about" VALUES('book.stack_height','a number, or empty');
INSERT INTO "about" VALUES('book.currency','text, or empty');
INSERT INTO "about" VALUES('book.sure_percent','%, or empty');
INSERT INTO "about" VALUES('book.loss_percent','%, or empty');
INSERT INTO "about" VALUES('book.work_hours','hours a day, or empty');
INSERT INTO "about" VALUES('book.maker','text, or empty');
INSERT INTO "about" VALUES('book.address','text, or empty');
INSERT INTO "about" VALUES('book.gs1_prefix','text, or empty');
INSERT INTO "about" VALUES('book.phone','text, or empty');
INSERT INTO "about" VALUES('book.certificate','text, or empty');
INSERT INTO "about" VALUES('book.certified_until','a day, or empty');
INSERT INTO "about" VALUES('place','A room, rack or shelf; `position` orders it among its siblings.

Shelves alone have slots and lamp hours, rooms alone a zone and a day (minutes after midnight, `evening` too); a room without them goes by the first room that has them.');
INSERT INTO "about" VALUES('place.id','a number');
INSERT INTO "about" VALUES('place.parent_id','→ `place.id`, or empty');
INSERT INTO "about" VALUES('place.kind','text');
INSERT INTO "about" VALUES('place.name','text');
INSERT INTO "about" VALUES('place.position','a number');
INSERT INTO "about" VALUES('place.slots','a number');
INSERT INTO "about" VALUES('place.lamp_on','minutes after midnight, or empty');
INSERT INTO "about" VALUES('place.lamp_off','minutes after midnight, or empty');
INSERT INTO "about" VALUES('place.retired','0 or 1');
INSERT INTO "about" VALUES('place.zone','a time zone by its IANA name; days and hours of the room are in it, or empty');
INSERT INTO "about" VALUES('place.day_start','minutes after midnight, or empty');
INSERT INTO "about" VALUES('place.day_end','minutes after midnight, or empty');
INSERT INTO "about" VALUES('place.evening','minutes after midnight, or empty');
INSERT INTO "about" VALUES('cost_rate','What something costs or takes from a day on, of a crop or of all: see growing/costs/rates.py.

`amount` is a decimal, as typed.');
INSERT INTO "about" VALUES('cost_rate.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('cost_rate.name','text');
INSERT INTO "about" VALUES('cost_rate.template_id','→ `template.id`, or empty');
INSERT INTO "about" VALUES('cost_rate.amount','text');
INSERT INTO "about" VALUES('cost_rate.since','a day');
INSERT INTO "about" VALUES('stage','A stage of a template version, in the order of `position` from 0.');
INSERT INTO "about" VALUES('stage.id','a number');
INSERT INTO "about" VALUES('stage.version_id','→ `template_version.id`');
INSERT INTO "about" VALUES('stage.position','a number');
INSERT INTO "about" VALUES('stage.name','text');
INSERT INTO "about" VALUES('stage.seconds','seconds, or empty');
INSERT INTO "about" VALUES('stage.cover','text');
INSERT INTO "about" VALUES('stage.light','text');
INSERT INTO "about" VALUES('stage.water','text');
INSERT INTO "about" VALUES('stage.water_per_day','times a day');
INSERT INTO "about" VALUES('stage.looks_per_day','times a day');
INSERT INTO "about" VALUES('template','A crop template''s name; `name_key` is the folded name, unique.');
INSERT INTO "about" VALUES('template.id','a number');
INSERT INTO "about" VALUES('template.name','text');
INSERT INTO "about" VALUES('template.name_key','text');
INSERT INTO "about" VALUES('template.retired','0 or 1');
INSERT INTO "about" VALUES('template_target','What a template version wants of light, air and water; None has no wish.

Daily light in mol m⁻² d⁻¹, lit hours a day, °C, % relative humidity, mS/cm, ml a tray.');
INSERT INTO "about" VALUES('template_target.version_id','→ `template_version.id`');
INSERT INTO "about" VALUES('template_target.light_low','mol/m²/d, or empty');
INSERT INTO "about" VALUES('template_target.light_high','mol/m²/d, or empty');
INSERT INTO "about" VALUES('template_target.lit_hours','hours a day, or empty');
INSERT INTO "about" VALUES('template_target.celsius_low','°C, or empty');
INSERT INTO "about" VALUES('template_target.celsius_high','°C, or empty');
INSERT INTO "about" VALUES('template_target.humidity_low','% relative humidity, or empty');
INSERT INTO "about" VALUES('template_target.humidity_high','% relative humidity, or empty');
INSERT INTO "about" VALUES('template_target.ph_low','pH, or empty');
INSERT INTO "about" VALUES('template_target.ph_high','pH, or empty');
INSERT INTO "about" VALUES('template_target.ec_low','mS/cm, or empty');
INSERT INTO "about" VALUES('template_target.ec_high','mS/cm, or empty');
INSERT INTO "about" VALUES('template_target.water_low_ml','millilitres, or empty');
INSERT INTO "about" VALUES('template_target.water_high_ml','millilitres, or empty');
INSERT INTO "about" VALUES('template_version','One version of a template; never changed once written. SI units: g, mm, s.');
INSERT INTO "about" VALUES('template_version.id','a number');
INSERT INTO "about" VALUES('template_version.template_id','→ `template.id`');
INSERT INTO "about" VALUES('template_version.number','a number');
INSERT INTO "about" VALUES('template_version.made_at','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('template_version.by','text');
INSERT INTO "about" VALUES('template_version.why','text');
INSERT INTO "about" VALUES('template_version.crop','text');
INSERT INTO "about" VALUES('template_version.variety','text');
INSERT INTO "about" VALUES('template_version.seed_grams','grams, or empty');
INSERT INTO "about" VALUES('template_version.tray_length_mm','millimetres');
INSERT INTO "about" VALUES('template_version.tray_width_mm','millimetres');
INSERT INTO "about" VALUES('template_version.soak_seconds','seconds');
INSERT INTO "about" VALUES('template_version.soak_ph','pH, or empty');
INSERT INTO "about" VALUES('template_version.medium','text');
INSERT INTO "about" VALUES('template_version.cut_from_seconds','seconds');
INSERT INTO "about" VALUES('template_version.cut_best_seconds','seconds');
INSERT INTO "about" VALUES('template_version.cut_by_seconds','seconds');
INSERT INTO "about" VALUES('template_version.sign_to_cut','text');
INSERT INTO "about" VALUES('template_version.expected_grams','grams, or empty');
INSERT INTO "about" VALUES('template_version.regrow_seconds','seconds, or empty');
INSERT INTO "about" VALUES('template_version.regrow_grams','grams, or empty');
INSERT INTO "about" VALUES('template_version.keeping_days','days, or empty');
INSERT INTO "about" VALUES('template_version.allergens','text, or empty');
INSERT INTO "about" VALUES('template_version.spread_percent','%');
INSERT INTO "about" VALUES('template_version.mucilage','0 or 1');
INSERT INTO "about" VALUES('template_version.guess','0 or 1');
INSERT INTO "about" VALUES('template_version.notes','text');
INSERT INTO "about" VALUES('closed_day','Entries written one after another on a day that is over, from `first_id` to `last_id`.

`sha256` is a digest of what they say and of the one before.');
INSERT INTO "about" VALUES('closed_day.last_id','a number');
INSERT INTO "about" VALUES('closed_day.first_id','a number');
INSERT INTO "about" VALUES('closed_day.day','a day');
INSERT INTO "about" VALUES('closed_day.sha256','a SHA-256 in hexadecimal');
INSERT INTO "about" VALUES('entry','One line in the book; written once, struck by a later entry, never changed.

`at` is when it happened, `written_at` when it was written. `stage` is the stage that a change led into or a skipped one would have, `chore` the chore that a change or a skip was. Entries of one act (one press of a key, one command) share `act_id`, the id of the first of them, and are undone together. `clock_in_doubt` marks what was written while the machine''s clock could not be believed.');
INSERT INTO "about" VALUES('entry.id','a number');
INSERT INTO "about" VALUES('entry.kind','text');
INSERT INTO "about" VALUES('entry.at','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('entry.written_at','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('entry.by','text');
INSERT INTO "about" VALUES('entry.note','text');
INSERT INTO "about" VALUES('entry.chore','text');
INSERT INTO "about" VALUES('entry.stage','a number, or empty');
INSERT INTO "about" VALUES('entry.batch_id','→ `batch.id`, or empty');
INSERT INTO "about" VALUES('entry.place_id','→ `place.id`, or empty');
INSERT INTO "about" VALUES('entry.strikes_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('entry.act_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('entry.clock_in_doubt','0 or 1');
INSERT INTO "about" VALUES('entry_words','The folded words that an entry is found by; derived, see store/search.py.');
INSERT INTO "about" VALUES('entry_words.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('entry_words.words','text');
INSERT INTO "about" VALUES('look','What a look saw; None or '''' was not looked at.');
INSERT INTO "about" VALUES('look.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('look.emerged_percent','%, or empty');
INSERT INTO "about" VALUES('look.height_mm','millimetres, or empty');
INSERT INTO "about" VALUES('look.mould','text');
INSERT INTO "about" VALUES('look.mould_where','text');
INSERT INTO "about" VALUES('look.wilting','0 or 1, or empty');
INSERT INTO "about" VALUES('look.cotyledons_open','0 or 1, or empty');
INSERT INTO "about" VALUES('look.true_leaves','0 or 1, or empty');
INSERT INTO "about" VALUES('look.stem_colour','text');
INSERT INTO "about" VALUES('look.hulls_on','0 or 1, or empty');
INSERT INTO "about" VALUES('look.uneven','text');
INSERT INTO "about" VALUES('look.sign','text');
INSERT INTO "about" VALUES('look.sign_seen','0 or 1');
INSERT INTO "about" VALUES('watering','Water as it was given or measured: ml a tray, pH, EC in mS/cm; None was not measured.');
INSERT INTO "about" VALUES('watering.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('watering.amount_ml','millilitres, or empty');
INSERT INTO "about" VALUES('watering.ph','pH, or empty');
INSERT INTO "about" VALUES('watering.ec','mS/cm, or empty');
INSERT INTO "about" VALUES('weight','A cut weight of one tray; `part` when more of that harvest is to come, `shared` when weighed together.

`keep` when the tray was left to grow again, so that its next cut is another harvest. `lot_id` is the pack lot that it went into; NULL for what was cut before there were lots.');
INSERT INTO "about" VALUES('weight.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('weight.tray_id','→ `tray.id`');
INSERT INTO "about" VALUES('weight.grams','grams');
INSERT INTO "about" VALUES('weight.part','0 or 1');
INSERT INTO "about" VALUES('weight.shared','0 or 1');
INSERT INTO "about" VALUES('weight.keep','0 or 1');
INSERT INTO "about" VALUES('weight.lot_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('customer','A customer as an entry of kind "customer" says; the newest standing one of `customer_id` holds.

`customer_id` is the entry that first named them. `weekdays` are delivery days ("tue,fri"), `minute` is when deliveries are wanted, after midnight; `gone` says that they are no customer any more; `near` that a kitchen or shop is in the farm''s State or not more than 275 miles away. None: not said.');
INSERT INTO "about" VALUES('customer.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('customer.customer_id','→ `entry.id`');
INSERT INTO "about" VALUES('customer.name','text');
INSERT INTO "about" VALUES('customer.name_key','text');
INSERT INTO "about" VALUES('customer.kind','text');
INSERT INTO "about" VALUES('customer.contact','text');
INSERT INTO "about" VALUES('customer.weekdays','text');
INSERT INTO "about" VALUES('customer.minute','minutes after midnight, or empty');
INSERT INTO "about" VALUES('customer.gone','0 or 1');
INSERT INTO "about" VALUES('customer.near','0 or 1, or empty');
INSERT INTO "about" VALUES('mix_part','How many parts of a mix, by weight, are of a crop.');
INSERT INTO "about" VALUES('mix_part.entry_id','→ `mix.entry_id`');
INSERT INTO "about" VALUES('mix_part.template_id','→ `template.id`');
INSERT INTO "about" VALUES('mix_part.parts','a number');
INSERT INTO "about" VALUES('mix','A mix of crops from the day `since` on; `mix_id` is the entry that first named it.');
INSERT INTO "about" VALUES('mix.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('mix.mix_id','→ `entry.id`');
INSERT INTO "about" VALUES('mix.name','text');
INSERT INTO "about" VALUES('mix.name_key','text');
INSERT INTO "about" VALUES('mix.since','a day');
INSERT INTO "about" VALUES('mix.gone','0 or 1');
INSERT INTO "about" VALUES('order_line','What a customer orders: packs of a crop or a mix, or live trays where `pack_grams` is null.

`order_id` is the entry that first said it. A standing line is wanted on `weekdays` ("tue,fri") from `since` until `until`, both included: of its rows the one with the latest `since` holds on a day. A single order has no weekdays and is wanted on `since`: its newest row holds. `price` is per pack, a decimal; `gone` ends it.');
INSERT INTO "about" VALUES('order_line.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('order_line.order_id','→ `entry.id`');
INSERT INTO "about" VALUES('order_line.customer_id','→ `entry.id`');
INSERT INTO "about" VALUES('order_line.template_id','→ `template.id`, or empty');
INSERT INTO "about" VALUES('order_line.mix_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('order_line.packs','a number');
INSERT INTO "about" VALUES('order_line.pack_grams','grams, or empty');
INSERT INTO "about" VALUES('order_line.weekdays','text');
INSERT INTO "about" VALUES('order_line.minute','minutes after midnight, or empty');
INSERT INTO "about" VALUES('order_line.since','a day');
INSERT INTO "about" VALUES('order_line.until','a day, or empty');
INSERT INTO "about" VALUES('order_line.price','a decimal number, in the book''s currency, or empty');
INSERT INTO "about" VALUES('order_line.gone','0 or 1');
INSERT INTO "about" VALUES('order_pause','From which day until which a customer, or one standing line of theirs, takes nothing.');
INSERT INTO "about" VALUES('order_pause.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('order_pause.customer_id','→ `entry.id`');
INSERT INTO "about" VALUES('order_pause.order_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('order_pause.since','a day');
INSERT INTO "about" VALUES('order_pause.until','a day');
INSERT INTO "about" VALUES('packed','Packs, or live trays where `pack_grams` is null, that were packed for the delivery of a day.');
INSERT INTO "about" VALUES('packed.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('packed.order_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('packed.customer_id','→ `entry.id`');
INSERT INTO "about" VALUES('packed.template_id','→ `template.id`, or empty');
INSERT INTO "about" VALUES('packed.mix_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('packed.packs','a number');
INSERT INTO "about" VALUES('packed.pack_grams','grams, or empty');
INSERT INTO "about" VALUES('packed.day','a day');
INSERT INTO "about" VALUES('lot_out','What left a lot otherwise, g: "waste", "own use", or "returned" by a customer and not sold again.');
INSERT INTO "about" VALUES('lot_out.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('lot_out.lot_id','→ `entry.id`');
INSERT INTO "about" VALUES('lot_out.grams','grams');
INSERT INTO "about" VALUES('lot_out.why','text');
INSERT INTO "about" VALUES('lot_out.customer_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('lot_part','What a mixed lot, which its entry first named, took of another lot, g.');
INSERT INTO "about" VALUES('lot_part.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('lot_part.from_lot_id','→ `entry.id`');
INSERT INTO "about" VALUES('lot_part.grams','grams');
INSERT INTO "about" VALUES('pack_lot','A pack lot as an entry of kind "pack_lot" says; the newest standing one of `lot_id` holds.

`lot_id` is the entry that first named it. A code is never given twice, not even a struck one.');
INSERT INTO "about" VALUES('pack_lot.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('pack_lot.lot_id','→ `entry.id`');
INSERT INTO "about" VALUES('pack_lot.code','text');
INSERT INTO "about" VALUES('pack_lot.code_key','text');
INSERT INTO "about" VALUES('pack_lot.template_id','→ `template.id`, or empty');
INSERT INTO "about" VALUES('pack_lot.mix_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('pack_lot.packed_on','a day');
INSERT INTO "about" VALUES('pack_lot.best_before','a day');
INSERT INTO "about" VALUES('packed_lot','From which lot the packs of a delivery came that its entry of kind "pack" ticks.

`grams` is null for live trays; packs are shared out by weight where they came from several.');
INSERT INTO "about" VALUES('packed_lot.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('packed_lot.lot_id','→ `entry.id`');
INSERT INTO "about" VALUES('packed_lot.packs','a number');
INSERT INTO "about" VALUES('packed_lot.grams','grams, or empty');
INSERT INTO "about" VALUES('hold_end','The hold that an entry of kind "release" ends; the note says why.');
INSERT INTO "about" VALUES('hold_end.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('hold_end.hold_id','→ `entry.id`');
INSERT INTO "about" VALUES('hold','What an entry of kind "hold" puts on hold: one of the five; the note says why.

`name` is what it was called then. `lot_id` is a pack lot''s: the entry that first named it.');
INSERT INTO "about" VALUES('hold.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('hold.name','text');
INSERT INTO "about" VALUES('hold.seed_lot','text');
INSERT INTO "about" VALUES('hold.batch_id','→ `batch.id`, or empty');
INSERT INTO "about" VALUES('hold.tray_id','→ `tray.id`, or empty');
INSERT INTO "about" VALUES('hold.lot_id','→ `entry.id`, or empty');
INSERT INTO "about" VALUES('hold.place_id','→ `place.id`, or empty');
INSERT INTO "about" VALUES('recall','A recall that was made, or practised: what it began at, and since when it took, to its entry''s time.

`grams` are what customers had got, `unaccounted_grams` what was cut of it and is in no pack lot.');
INSERT INTO "about" VALUES('recall.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('recall.code','text');
INSERT INTO "about" VALUES('recall.practice','0 or 1');
INSERT INTO "about" VALUES('recall.begun','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('recall.customers','a number');
INSERT INTO "about" VALUES('recall.lots','a number');
INSERT INTO "about" VALUES('recall.grams','grams');
INSERT INTO "about" VALUES('recall.unaccounted_grams','grams');
INSERT INTO "about" VALUES('assurance','A customer''s written assurance of a day, for a year; the entry''s note has its words.');
INSERT INTO "about" VALUES('assurance.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('assurance.customer_id','→ `entry.id`');
INSERT INTO "about" VALUES('assurance.given_on','a day');
INSERT INTO "about" VALUES('review','Whoever wrote the entry has reviewed the records of the week that begins on a Monday.');
INSERT INTO "about" VALUES('review.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('review.week','a day');
INSERT INTO "about" VALUES('sales_year','What was sold in a calendar year, in the book''s currency: decimals as typed; the newest row holds.

`sold` is all food, `to_end_users` the part that went straight to qualified end users, `produce` the part that is produce.');
INSERT INTO "about" VALUES('sales_year.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('sales_year.year','a number');
INSERT INTO "about" VALUES('sales_year.sold','a decimal number, in the book''s currency');
INSERT INTO "about" VALUES('sales_year.to_end_users','a decimal number, in the book''s currency');
INSERT INTO "about" VALUES('sales_year.produce','a decimal number, in the book''s currency, or empty');
INSERT INTO "about" VALUES('air_reading','Temperature and humidity at a place; a feed''s entry has as many as were held.');
INSERT INTO "about" VALUES('air_reading.id','a number');
INSERT INTO "about" VALUES('air_reading.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('air_reading.place_id','→ `place.id`');
INSERT INTO "about" VALUES('air_reading.at','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('air_reading.celsius','°C');
INSERT INTO "about" VALUES('air_reading.humidity','% relative humidity');
INSERT INTO "about" VALUES('air_reading.still','0 or 1, or empty');
INSERT INTO "about" VALUES('circuit','A circuit as an entry of kind "circuit" says; `other_amps` is what else hangs on it.

The newest standing entry of a `name_key` holds; `gone` says that there is no such circuit.');
INSERT INTO "about" VALUES('circuit.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('circuit.name','text');
INSERT INTO "about" VALUES('circuit.name_key','text');
INSERT INTO "about" VALUES('circuit.breaker_amps','amperes');
INSERT INTO "about" VALUES('circuit.volts','volts');
INSERT INTO "about" VALUES('circuit.share_percent','%');
INSERT INTO "about" VALUES('circuit.other_amps','amperes');
INSERT INTO "about" VALUES('circuit.gone','0 or 1');
INSERT INTO "about" VALUES('circuit_shelf','Which shelves'' lamps hang on a circuit.');
INSERT INTO "about" VALUES('circuit_shelf.entry_id','→ `circuit.entry_id`');
INSERT INTO "about" VALUES('circuit_shelf.place_id','→ `place.id`');
INSERT INTO "about" VALUES('lamp_hours','Lamp hours of a shelf from an entry of kind "hours" on, and those that held before it.

Minutes after midnight by the wall; None for no lamp hours.');
INSERT INTO "about" VALUES('lamp_hours.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('lamp_hours.lamp_on','minutes after midnight, or empty');
INSERT INTO "about" VALUES('lamp_hours.lamp_off','minutes after midnight, or empty');
INSERT INTO "about" VALUES('lamp_hours.was_on','minutes after midnight, or empty');
INSERT INTO "about" VALUES('lamp_hours.was_off','minutes after midnight, or empty');
INSERT INTO "about" VALUES('lamp_set','The lamps of a shelf from an entry of kind "lamps" on; `lamps` 0 says that they are off it.

Watts and amperes are those of one lamp; `height_mm` is from the shelf to the lamp.');
INSERT INTO "about" VALUES('lamp_set.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('lamp_set.lamps','a number');
INSERT INTO "about" VALUES('lamp_set.kind','text');
INSERT INTO "about" VALUES('lamp_set.light','text');
INSERT INTO "about" VALUES('lamp_set.watts','watts');
INSERT INTO "about" VALUES('lamp_set.amps','amperes, or empty');
INSERT INTO "about" VALUES('lamp_set.volts','volts, or empty');
INSERT INTO "about" VALUES('lamp_set.height_mm','millimetres, or empty');
INSERT INTO "about" VALUES('lamp_set.bought','a day, or empty');
INSERT INTO "about" VALUES('light_spot','A reading at a spot: row 1 is the front, column 1 the left; PPFD in µmol m⁻² s⁻¹.');
INSERT INTO "about" VALUES('light_spot.entry_id','→ `light_survey.entry_id`');
INSERT INTO "about" VALUES('light_spot.spot_row','a number');
INSERT INTO "about" VALUES('light_spot.spot_column','a number');
INSERT INTO "about" VALUES('light_spot.ppfd','µmol/m²/s');
INSERT INTO "about" VALUES('light_spot.lux','lux, or empty');
INSERT INTO "about" VALUES('light_survey','One walk round a shelf with a meter; `lux_lamp` names the lamp of an estimate from lux.

`height_mm` is from the trays to the lamp.');
INSERT INTO "about" VALUES('light_survey.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('light_survey.spot_rows','a number');
INSERT INTO "about" VALUES('light_survey.spot_columns','a number');
INSERT INTO "about" VALUES('light_survey.height_mm','millimetres, or empty');
INSERT INTO "about" VALUES('light_survey.lux_lamp','text');
INSERT INTO "about" VALUES('outage','Until when the power was off at the place of an entry of kind "outage", from its time on.');
INSERT INTO "about" VALUES('outage.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('outage.until','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('solution_use','A solution that was used, or a cleaning: what, with which product and method, how strong.');
INSERT INTO "about" VALUES('solution_use.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('solution_use.purpose','text');
INSERT INTO "about" VALUES('solution_use.method','text');
INSERT INTO "about" VALUES('solution_use.product','text');
INSERT INTO "about" VALUES('solution_use.stock_percent','%, or empty');
INSERT INTO "about" VALUES('solution_use.want_percent','%, or empty');
INSERT INTO "about" VALUES('solution_use.volume_ml','millilitres, or empty');
INSERT INTO "about" VALUES('tariff_hours','Hours of a tariff at another price; minutes after midnight by the wall.');
INSERT INTO "about" VALUES('tariff_hours.entry_id','→ `tariff.entry_id`');
INSERT INTO "about" VALUES('tariff_hours.position','a number');
INSERT INTO "about" VALUES('tariff_hours.starts','minutes after midnight');
INSERT INTO "about" VALUES('tariff_hours.ends','minutes after midnight');
INSERT INTO "about" VALUES('tariff_hours.per_kwh','a decimal number, in the book''s currency');
INSERT INTO "about" VALUES('tariff','A price per kWh from a day on, as an entry of kind "tariff" says: a decimal, as typed.');
INSERT INTO "about" VALUES('tariff.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('tariff.since','a day');
INSERT INTO "about" VALUES('tariff.per_kwh','a decimal number, in the book''s currency');
INSERT INTO "about" VALUES('upkeep_done','That a cleaning (kind "clean") or check ("check") was done, or put off ("skip").

`value` is what a check showed: °C, E. coli in 100 ml, or g for `known_grams`.');
INSERT INTO "about" VALUES('upkeep_done.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('upkeep_done.name','text');
INSERT INTO "about" VALUES('upkeep_done.name_key','text');
INSERT INTO "about" VALUES('upkeep_done.value','°C, count in 100 ml, or grams, or empty');
INSERT INTO "about" VALUES('upkeep_done.known_grams','grams, or empty');
INSERT INTO "about" VALUES('upkeep','How often something is cleaned or checked at the place of an entry of kind "upkeep".

The newest standing row of a `name_key` and place holds; `every_days` 0 says that it no longer comes round. `weekdays` is as in growing/orders/weekdays.py; `known_grams` what a scale is checked with.');
INSERT INTO "about" VALUES('upkeep.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('upkeep.name','text');
INSERT INTO "about" VALUES('upkeep.name_key','text');
INSERT INTO "about" VALUES('upkeep.every_days','days');
INSERT INTO "about" VALUES('upkeep.weekdays','text');
INSERT INTO "about" VALUES('upkeep.how','text');
INSERT INTO "about" VALUES('upkeep.known_grams','grams, or empty');
INSERT INTO "about" VALUES('seed_bag','A bag of a seed lot as an entry of kind "seed" says: bought on a day, g, for a price as typed.

`germination_percent` is the label''s, of a test on the day `tested`. NULL was not said.');
INSERT INTO "about" VALUES('seed_bag.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('seed_bag.lot','text');
INSERT INTO "about" VALUES('seed_bag.crop','text');
INSERT INTO "about" VALUES('seed_bag.grams','grams');
INSERT INTO "about" VALUES('seed_bag.bought','a day');
INSERT INTO "about" VALUES('seed_bag.supplier','text');
INSERT INTO "about" VALUES('seed_bag.price','a decimal number, in the book''s currency, or empty');
INSERT INTO "about" VALUES('seed_bag.germination_percent','%, or empty');
INSERT INTO "about" VALUES('seed_bag.tested','a day, or empty');
INSERT INTO "about" VALUES('seed_bag.treated','0 or 1, or empty');
INSERT INTO "about" VALUES('seed_bag.for_food','0 or 1, or empty');
INSERT INTO "about" VALUES('seed_bag.organic','0 or 1, or empty');
INSERT INTO "about" VALUES('seed_test','Of so many seeds of a lot that were put to germinate, how many came up.');
INSERT INTO "about" VALUES('seed_test.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('seed_test.lot','text');
INSERT INTO "about" VALUES('seed_test.sown','a number');
INSERT INTO "about" VALUES('seed_test.up','a number');
INSERT INTO "about" VALUES('seed_weight','What was left of a seed lot when its bag was weighed, g; 0 when it was empty.');
INSERT INTO "about" VALUES('seed_weight.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('seed_weight.lot','text');
INSERT INTO "about" VALUES('seed_weight.grams','grams');
INSERT INTO "about" VALUES('batch_lot','A seed lot that a batch is sown from, in the order of `position` from 0; g of dry seed in all.');
INSERT INTO "about" VALUES('batch_lot.batch_id','→ `batch.id`');
INSERT INTO "about" VALUES('batch_lot.position','a number');
INSERT INTO "about" VALUES('batch_lot.lot','text');
INSERT INTO "about" VALUES('batch_lot.grams','grams, or empty');
INSERT INTO "about" VALUES('batch','Trays sown together, of one template version.');
INSERT INTO "about" VALUES('batch.id','a number');
INSERT INTO "about" VALUES('batch.version_id','→ `template_version.id`');
INSERT INTO "about" VALUES('batch.grams_per_tray','grams, or empty');
INSERT INTO "about" VALUES('batch.planned_for','a moment, seconds since 1970 in UTC, or empty');
INSERT INTO "about" VALUES('entry_tray','Which trays an entry speaks of.');
INSERT INTO "about" VALUES('entry_tray.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('entry_tray.tray_id','→ `tray.id`');
INSERT INTO "about" VALUES('sheet_line','A line of a printed round: its code means these trays (ids, with spaces) and no others.');
INSERT INTO "about" VALUES('sheet_line.id','a number');
INSERT INTO "about" VALUES('sheet_line.printed_at','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('sheet_line.code','text');
INSERT INTO "about" VALUES('sheet_line.chore','text');
INSERT INTO "about" VALUES('sheet_line.at','a moment, seconds since 1970 in UTC');
INSERT INTO "about" VALUES('sheet_line.trays','text');
INSERT INTO "about" VALUES('tray_place','Where a sowing or a move put a tray.');
INSERT INTO "about" VALUES('tray_place.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('tray_place.tray_id','→ `tray.id`');
INSERT INTO "about" VALUES('tray_place.place_id','→ `place.id`, or empty');
INSERT INTO "about" VALUES('tray_place.slot','a number, or empty');
INSERT INTO "about" VALUES('tray','A tray under one number, from its sowing to its cut.

`live`, `ended_at` and `cut_grams` sum up the fold over the tray''s entries, `batch_id` and `version_id` what the newest standing sowing or plan says; they are written in the same transaction as an entry and can be rebuilt from the entries at any time.');
INSERT INTO "about" VALUES('tray.id','a number');
INSERT INTO "about" VALUES('tray.number','a number');
INSERT INTO "about" VALUES('tray.batch_id','→ `batch.id`');
INSERT INTO "about" VALUES('tray.version_id','→ `template_version.id`');
INSERT INTO "about" VALUES('tray.colour','text');
INSERT INTO "about" VALUES('tray.live','0 or 1');
INSERT INTO "about" VALUES('tray.ended_at','a moment, seconds since 1970 in UTC, or empty');
INSERT INTO "about" VALUES('tray.cut_grams','grams, or empty');
INSERT INTO "about" VALUES('tasting_answer','What one taster said of one arm under one aspect: a score (1–9) or rank, and own words.');
INSERT INTO "about" VALUES('tasting_answer.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('tasting_answer.arm_id','→ `trial_arm.id`');
INSERT INTO "about" VALUES('tasting_answer.aspect','text');
INSERT INTO "about" VALUES('tasting_answer.tasting_id','→ `tasting.id`');
INSERT INTO "about" VALUES('tasting_answer.taster','text');
INSERT INTO "about" VALUES('tasting_answer.score','1 to 9, or a rank, or empty');
INSERT INTO "about" VALUES('tasting_answer.words','text');
INSERT INTO "about" VALUES('tasting','A blind tasting of a trial''s arms. `seed` draws codes and orders; `ranks`: 1 is best.');
INSERT INTO "about" VALUES('tasting.id','a number');
INSERT INTO "about" VALUES('tasting.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('tasting.trial_id','→ `trial.id`');
INSERT INTO "about" VALUES('tasting.ranks','0 or 1');
INSERT INTO "about" VALUES('tasting.seed','a number');
INSERT INTO "about" VALUES('trial_arm','An arm of a trial, in the order of `position` from 0.

`setting` is its value of the one thing ("28 g", "8h"), `version_id` the variant of the template that its trays are sown from, `place_id` the shelf that the arm is.');
INSERT INTO "about" VALUES('trial_arm.id','a number');
INSERT INTO "about" VALUES('trial_arm.trial_id','→ `trial.id`');
INSERT INTO "about" VALUES('trial_arm.position','a number');
INSERT INTO "about" VALUES('trial_arm.name','text');
INSERT INTO "about" VALUES('trial_arm.setting','text');
INSERT INTO "about" VALUES('trial_arm.colour','text');
INSERT INTO "about" VALUES('trial_arm.version_id','→ `template_version.id`, or empty');
INSERT INTO "about" VALUES('trial_arm.place_id','→ `place.id`, or empty');
INSERT INTO "about" VALUES('trial_block','A shelf on which every arm of a trial has trays, in the order of `position` from 0.');
INSERT INTO "about" VALUES('trial_block.id','a number');
INSERT INTO "about" VALUES('trial_block.trial_id','→ `trial.id`');
INSERT INTO "about" VALUES('trial_block.position','a number');
INSERT INTO "about" VALUES('trial_block.place_id','→ `place.id`');
INSERT INTO "about" VALUES('trial_criterion','How much a criterion counts in weighing a trial up; the newest standing entry decides.');
INSERT INTO "about" VALUES('trial_criterion.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('trial_criterion.name','text');
INSERT INTO "about" VALUES('trial_criterion.trial_id','→ `trial.id`');
INSERT INTO "about" VALUES('trial_criterion.weight','a share; all of a trial are taken together');
INSERT INTO "about" VALUES('trial_decision','What was decided on a trial and what to try next; `version_id` is what was adopted.');
INSERT INTO "about" VALUES('trial_decision.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('trial_decision.trial_id','→ `trial.id`');
INSERT INTO "about" VALUES('trial_decision.arm_id','→ `trial_arm.id`, or empty');
INSERT INTO "about" VALUES('trial_decision.version_id','→ `template_version.id`, or empty');
INSERT INTO "about" VALUES('trial_decision.decided','text');
INSERT INTO "about" VALUES('trial_decision.try_next','text');
INSERT INTO "about" VALUES('trial_end','How many trays per arm the planned end of a trial takes; the newest standing one decides.');
INSERT INTO "about" VALUES('trial_end.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('trial_end.trial_id','→ `trial.id`');
INSERT INTO "about" VALUES('trial_end.per_arm','a number');
INSERT INTO "about" VALUES('trial','A side-by-side comparison, as its set-up (`entry_id`) said; it stands while that does.

`thing` is what differs between its arms, `version_id` the template version that its trays are sown from, `measures` what is measured, in words apart by spaces. `repeats` are trays per arm in each block, `blocks` is '''', shelf or week, `weeks` how many were meant. `seed` draws the layout.');
INSERT INTO "about" VALUES('trial.id','a number');
INSERT INTO "about" VALUES('trial.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('trial.name','text');
INSERT INTO "about" VALUES('trial.name_key','text');
INSERT INTO "about" VALUES('trial.question','text');
INSERT INTO "about" VALUES('trial.thing','text');
INSERT INTO "about" VALUES('trial.version_id','→ `template_version.id`');
INSERT INTO "about" VALUES('trial.measures','text');
INSERT INTO "about" VALUES('trial.repeats','a number');
INSERT INTO "about" VALUES('trial.blocks','text');
INSERT INTO "about" VALUES('trial.weeks','a number');
INSERT INTO "about" VALUES('trial.seed','a number');
INSERT INTO "about" VALUES('trial_tray','That a tray is in an arm of a trial, in a block and a run from 1, since this entry.

The newest standing row of a tray decides. `left_out` says why it must not count, '''' when it does.');
INSERT INTO "about" VALUES('trial_tray.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('trial_tray.tray_id','→ `tray.id`');
INSERT INTO "about" VALUES('trial_tray.trial_id','→ `trial.id`');
INSERT INTO "about" VALUES('trial_tray.arm_id','→ `trial_arm.id`');
INSERT INTO "about" VALUES('trial_tray.block_id','→ `trial_block.id`, or empty');
INSERT INTO "about" VALUES('trial_tray.run','a number');
INSERT INTO "about" VALUES('trial_tray.left_out','text');
INSERT INTO "about" VALUES('triangle','A triangle test of two arms: how many tasters, how many found the odd one.');
INSERT INTO "about" VALUES('triangle.entry_id','→ `entry.id`');
INSERT INTO "about" VALUES('triangle.trial_id','→ `trial.id`');
INSERT INTO "about" VALUES('triangle.first_arm_id','→ `trial_arm.id`');
INSERT INTO "about" VALUES('triangle.second_arm_id','→ `trial_arm.id`');
INSERT INTO "about" VALUES('triangle.tasters','a number');
INSERT INTO "about" VALUES('triangle.found','a number');
CREATE TABLE "air_reading" (
id INTEGER NOT NULL, 
entry_id INTEGER NOT NULL, 
place_id INTEGER NOT NULL, 
at DATETIME NOT NULL, 
celsius FLOAT NOT NULL, 
humidity FLOAT NOT NULL, 
still BOOLEAN, 
CONSTRAINT pk_air_reading PRIMARY KEY (id), 
CONSTRAINT fk_air_reading_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
CONSTRAINT fk_air_reading_place_id_place FOREIGN KEY(place_id) REFERENCES place (id)
);
INSERT INTO "air_reading" VALUES(1,32,2,1774765800,21.4,63.0,0);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0025');
CREATE TABLE assurance (
	entry_id INTEGER NOT NULL, 
	customer_id INTEGER NOT NULL, 
	given_on DATE NOT NULL, 
	CONSTRAINT pk_assurance PRIMARY KEY (entry_id), 
	CONSTRAINT fk_assurance_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_assurance_customer_id_entry FOREIGN KEY(customer_id) REFERENCES entry (id)
);
INSERT INTO "assurance" VALUES(64,56,'2026-03-29');
CREATE TABLE "batch" (
id INTEGER NOT NULL, 
version_id INTEGER NOT NULL, 
grams_per_tray FLOAT, 
planned_for DATETIME, 
CONSTRAINT pk_batch PRIMARY KEY (id), 
CONSTRAINT fk_batch_version_id_template_version FOREIGN KEY(version_id) REFERENCES template_version (id)
);
INSERT INTO "batch" VALUES(1,22,20.0,NULL);
INSERT INTO "batch" VALUES(2,10,18.0,NULL);
INSERT INTO "batch" VALUES(3,2,NULL,1774161000);
INSERT INTO "batch" VALUES(4,23,16.0,NULL);
INSERT INTO "batch" VALUES(5,23,24.0,NULL);
CREATE TABLE "batch_lot" (
batch_id INTEGER NOT NULL, 
position INTEGER NOT NULL, 
lot VARCHAR NOT NULL, 
grams FLOAT, 
CONSTRAINT pk_batch_lot PRIMARY KEY (batch_id, position), 
CONSTRAINT fk_batch_lot_batch_id_batch FOREIGN KEY(batch_id) REFERENCES batch (id)
) WITHOUT ROWID;
INSERT INTO "batch_lot" VALUES(1,0,'R-17',60.0);
INSERT INTO "batch_lot" VALUES(1,1,'R-18',20.0);
CREATE TABLE "book" (
id INTEGER NOT NULL, 
name VARCHAR NOT NULL, 
units VARCHAR NOT NULL, 
first_day INTEGER NOT NULL, 
made_at DATETIME NOT NULL, begun_as VARCHAR DEFAULT '' NOT NULL, pool_first INTEGER, pool_last INTEGER, stack_height INTEGER, currency VARCHAR, sure_percent FLOAT, loss_percent FLOAT, work_hours FLOAT, maker VARCHAR, address VARCHAR, gs1_prefix VARCHAR, phone VARCHAR, certificate VARCHAR, certified_until DATE, 
CONSTRAINT pk_book PRIMARY KEY (id)
);
INSERT INTO "book" VALUES(1,'Back room','metric',1,1773988200,'',NULL,NULL,NULL,'GBP',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
CREATE TABLE circuit (
	entry_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	breaker_amps FLOAT NOT NULL, 
	volts FLOAT NOT NULL, 
	share_percent FLOAT NOT NULL, 
	other_amps FLOAT NOT NULL, 
	gone BOOLEAN NOT NULL, 
	CONSTRAINT pk_circuit PRIMARY KEY (entry_id), 
	CONSTRAINT fk_circuit_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "circuit" VALUES(29,'left wall','left wall',15.0,120.0,80.0,0.0,0);
CREATE TABLE "circuit_shelf" (
entry_id INTEGER NOT NULL, 
place_id INTEGER NOT NULL, 
CONSTRAINT pk_circuit_shelf PRIMARY KEY (entry_id, place_id), 
CONSTRAINT fk_circuit_shelf_entry_id_circuit FOREIGN KEY(entry_id) REFERENCES circuit (entry_id), 
CONSTRAINT fk_circuit_shelf_place_id_place FOREIGN KEY(place_id) REFERENCES place (id)
) WITHOUT ROWID;
INSERT INTO "circuit_shelf" VALUES(29,3);
INSERT INTO "circuit_shelf" VALUES(29,4);
INSERT INTO "circuit_shelf" VALUES(29,5);
INSERT INTO "circuit_shelf" VALUES(29,10);
CREATE TABLE closed_day (
	last_id INTEGER NOT NULL, 
	first_id INTEGER NOT NULL, 
	day DATE NOT NULL, 
	sha256 VARCHAR NOT NULL, 
	CONSTRAINT pk_closed_day PRIMARY KEY (last_id)
);
INSERT INTO "closed_day" VALUES(5,1,'2026-03-20','3292c7710be64b652cf7b24e0414e6cfd97eb507eb3eebcd96d95dab0a2c3b54');
INSERT INTO "closed_day" VALUES(9,6,'2026-03-22','6729df2a821290ed0f5d1b88cfc57c2df028439cbfa911fb8ca2c2d67679cce2');
INSERT INTO "closed_day" VALUES(13,10,'2026-03-25','44db11b06f8334561b2a1c674e1f646ca99c1b5349132b0846f321b660e04418');
INSERT INTO "closed_day" VALUES(71,14,'2026-03-29','d4ed5fec7280d1737ef74ef63728f3d1b0686e42c7895f68e14046c58f3fde42');
CREATE TABLE cost_rate (
	entry_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	template_id INTEGER, 
	amount VARCHAR NOT NULL, 
	since DATE NOT NULL, 
	CONSTRAINT pk_cost_rate PRIMARY KEY (entry_id), 
	CONSTRAINT fk_cost_rate_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_cost_rate_template_id_template FOREIGN KEY(template_id) REFERENCES template (id)
);
INSERT INTO "cost_rate" VALUES(43,'medium',10,'0.35','2026-03-19');
CREATE TABLE customer (
	entry_id INTEGER NOT NULL, 
	customer_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	contact VARCHAR NOT NULL, 
	weekdays VARCHAR NOT NULL, 
	minute INTEGER, 
	gone BOOLEAN NOT NULL, near BOOLEAN, 
	CONSTRAINT pk_customer PRIMARY KEY (entry_id), 
	CONSTRAINT fk_customer_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_customer_customer_id_entry FOREIGN KEY(customer_id) REFERENCES entry (id)
);
INSERT INTO "customer" VALUES(56,56,'the chef','the chef','kitchen','','',NULL,0,NULL);
CREATE TABLE "entry" (
id INTEGER NOT NULL, 
kind VARCHAR NOT NULL, 
at DATETIME NOT NULL, 
written_at DATETIME NOT NULL, 
"by" VARCHAR NOT NULL, 
note VARCHAR NOT NULL, 
chore VARCHAR NOT NULL, 
stage INTEGER, 
batch_id INTEGER, 
place_id INTEGER, 
strikes_id INTEGER, 
act_id INTEGER, clock_in_doubt BOOLEAN DEFAULT 0 NOT NULL, 
CONSTRAINT pk_entry PRIMARY KEY (id), 
CONSTRAINT fk_entry_act_id_entry FOREIGN KEY(act_id) REFERENCES entry (id), 
CONSTRAINT fk_entry_batch_id_batch FOREIGN KEY(batch_id) REFERENCES batch (id), 
CONSTRAINT fk_entry_place_id_place FOREIGN KEY(place_id) REFERENCES place (id), 
CONSTRAINT fk_entry_strikes_id_entry FOREIGN KEY(strikes_id) REFERENCES entry (id)
);
INSERT INTO "entry" VALUES(1,'settings',1773988200,1773988200,'ab','Rack 1/Window added','',NULL,NULL,10,NULL,1,0);
INSERT INTO "entry" VALUES(2,'settings',1773988200,1773988200,'ab','template red radish, version 1','',NULL,NULL,NULL,NULL,2,0);
INSERT INTO "entry" VALUES(3,'sow',1773988200,1773988200,'ab','dense','sow',NULL,1,NULL,NULL,3,0);
INSERT INTO "entry" VALUES(4,'sow',1773901800,1773988200,'ab','','sow',NULL,2,NULL,NULL,4,0);
INSERT INTO "entry" VALUES(5,'plan',1773988200,1773988200,'ab','','',NULL,3,NULL,NULL,5,0);
INSERT INTO "entry" VALUES(6,'water',1774161000,1774161000,'ab','','water',NULL,1,NULL,NULL,6,0);
INSERT INTO "entry" VALUES(7,'skip',1774161000,1774161000,'ab','no time','look',NULL,1,NULL,NULL,7,0);
INSERT INTO "entry" VALUES(8,'look',1774161000,1774161000,'ab','','look',NULL,1,NULL,NULL,8,0);
INSERT INTO "entry" VALUES(9,'sow',1774161000,1774161000,'ab','planned, now done','sow',NULL,3,NULL,NULL,9,0);
INSERT INTO "entry" VALUES(10,'change',1774420200,1774420200,'ab','','light_on',2,2,NULL,NULL,10,0);
INSERT INTO "entry" VALUES(11,'move',1774420200,1774420200,'ab','','',NULL,1,NULL,NULL,11,0);
INSERT INTO "entry" VALUES(12,'jot',1774420200,1774420200,'cd','odd text: [b] "quotes", = 1 + 1, ø 🌱','',NULL,1,NULL,NULL,12,0);
INSERT INTO "entry" VALUES(13,'jot',1774420200,1774420200,'cd','the room was aired','',NULL,NULL,6,NULL,13,0);
INSERT INTO "entry" VALUES(14,'weigh',1774765800,1774765800,'cd','','cut',NULL,1,NULL,NULL,14,0);
INSERT INTO "entry" VALUES(15,'weigh',1774765800,1774765800,'cd','','cut',NULL,1,NULL,NULL,15,0);
INSERT INTO "entry" VALUES(16,'weigh',1774765800,1774765800,'cd','together','cut',NULL,1,NULL,NULL,16,0);
INSERT INTO "entry" VALUES(17,'discard',1774765800,1774765800,'cd','mould','',NULL,1,NULL,NULL,17,0);
INSERT INTO "entry" VALUES(18,'weigh',1774765800,1774765800,'cd','','cut',NULL,2,NULL,NULL,18,0);
INSERT INTO "entry" VALUES(19,'weigh',1774765800,1774765800,'cd','','cut',NULL,2,NULL,NULL,19,0);
INSERT INTO "entry" VALUES(20,'strike',1774765800,1774765800,'cd','undone','undo',NULL,2,NULL,19,20,0);
INSERT INTO "entry" VALUES(21,'jot',1774765800,1774765800,'cd','a slip','',NULL,NULL,NULL,NULL,21,0);
INSERT INTO "entry" VALUES(22,'strike',1774765800,1774765800,'cd','wrong room','',NULL,NULL,NULL,21,22,0);
INSERT INTO "entry" VALUES(23,'lamps',1774765800,1774765800,'cd','','',NULL,NULL,3,NULL,23,0);
INSERT INTO "entry" VALUES(24,'lamps',1774765800,1774765800,'cd','','',NULL,NULL,4,NULL,23,0);
INSERT INTO "entry" VALUES(25,'lamps',1774765800,1774765800,'cd','','',NULL,NULL,5,NULL,23,0);
INSERT INTO "entry" VALUES(26,'lamps',1774765800,1774765800,'cd','','',NULL,NULL,10,NULL,23,0);
INSERT INTO "entry" VALUES(27,'hours',1774765800,1774765800,'cd','','',NULL,NULL,3,NULL,27,0);
INSERT INTO "entry" VALUES(28,'tariff',1774765800,1774765800,'cd','','',NULL,NULL,NULL,NULL,28,0);
INSERT INTO "entry" VALUES(29,'circuit',1774765800,1774765800,'cd','','',NULL,NULL,NULL,NULL,29,0);
INSERT INTO "entry" VALUES(30,'outage',1774755000,1774765800,'cd','','',NULL,NULL,1,NULL,30,0);
INSERT INTO "entry" VALUES(31,'light',1774765800,1774765800,'cd','','',NULL,NULL,3,NULL,31,0);
INSERT INTO "entry" VALUES(32,'air',1774765800,1774765800,'cd','','',NULL,NULL,2,NULL,32,0);
INSERT INTO "entry" VALUES(33,'water',1774765800,1774765800,'cd','','water',NULL,2,NULL,NULL,33,0);
INSERT INTO "entry" VALUES(34,'measure',1774765800,1774765800,'cd','','',NULL,NULL,6,NULL,34,0);
INSERT INTO "entry" VALUES(35,'clean',1774765800,1774765800,'cd','','',NULL,NULL,NULL,NULL,35,0);
INSERT INTO "entry" VALUES(36,'upkeep',1774765800,1774765800,'cd','check scale every 7 days','',NULL,NULL,NULL,NULL,36,0);
INSERT INTO "entry" VALUES(37,'check',1774765800,1774765800,'cd','','',NULL,NULL,NULL,NULL,37,0);
INSERT INTO "entry" VALUES(38,'review',1774765800,1774765800,'cd','','',NULL,NULL,NULL,NULL,38,0);
INSERT INTO "entry" VALUES(39,'sales',1774765800,1774765800,'cd','sales of 2026: 900.00 GBP, 500.00 GBP of it to qualified end users','',NULL,NULL,NULL,NULL,39,0);
INSERT INTO "entry" VALUES(40,'seed',1774765800,1774765800,'cd','','',NULL,NULL,NULL,NULL,40,0);
INSERT INTO "entry" VALUES(41,'seed_test',1774765800,1774765800,'cd','','',NULL,NULL,NULL,NULL,41,0);
INSERT INTO "entry" VALUES(42,'seed_weight',1774765800,1774765800,'cd','','',NULL,NULL,NULL,NULL,42,0);
INSERT INTO "entry" VALUES(43,'cost',1774765800,1774765800,'cd','medium of kale 0.35 GBP per tray, from 2026-03-19','',NULL,NULL,NULL,NULL,43,0);
INSERT INTO "entry" VALUES(44,'settings',1774765800,1774765800,'cd','template kale, version 2','',NULL,NULL,NULL,NULL,44,0);
INSERT INTO "entry" VALUES(45,'trial',1774765800,1774765800,'cd','Density','',NULL,NULL,NULL,NULL,45,0);
INSERT INTO "entry" VALUES(46,'sow',1774765800,1774765800,'cd','','sow',NULL,4,NULL,NULL,46,0);
INSERT INTO "entry" VALUES(47,'sow',1774765800,1774765800,'cd','','sow',NULL,5,NULL,NULL,46,0);
INSERT INTO "entry" VALUES(48,'join',1774765800,1774765800,'cd','Density','',NULL,NULL,NULL,NULL,46,0);
INSERT INTO "entry" VALUES(49,'tasting',1774765800,1774765800,'cd','Density','',NULL,NULL,NULL,NULL,49,0);
INSERT INTO "entry" VALUES(50,'taste',1774765800,1774765800,'cd','Density: ef','',NULL,NULL,NULL,NULL,50,0);
INSERT INTO "entry" VALUES(51,'triangle',1774765800,1774765800,'cd','Density: thin and thick, 3 of 6','',NULL,NULL,NULL,NULL,51,0);
INSERT INTO "entry" VALUES(52,'weights',1774765800,1774765800,'cd','Density: yield 2 and taste 1','',NULL,NULL,NULL,NULL,52,0);
INSERT INTO "entry" VALUES(53,'trial_end',1774765800,1774765800,'cd','Density: 4 trays per arm','',NULL,NULL,NULL,NULL,53,0);
INSERT INTO "entry" VALUES(54,'decide',1774765800,1774765800,'cd','Density: too early to say Next: more trays','',NULL,NULL,NULL,NULL,54,0);
INSERT INTO "entry" VALUES(55,'mix',1774765800,1774765800,'cd','salad mix','',NULL,NULL,NULL,NULL,55,0);
INSERT INTO "entry" VALUES(56,'customer',1774765800,1774765800,'cd','the chef: kitchen','',NULL,NULL,NULL,NULL,56,0);
INSERT INTO "entry" VALUES(57,'order',1774765800,1774765800,'cd','the chef: salad mix 6 × 50 g, every Tue, Fri from Sun 29 Mar','',NULL,NULL,NULL,NULL,56,0);
INSERT INTO "entry" VALUES(58,'order',1774765800,1774765800,'cd','the chef: red radish 300 g, Mon 30 Mar','',NULL,NULL,NULL,NULL,58,0);
INSERT INTO "entry" VALUES(59,'pack',1774765800,1774765800,'cd','the chef: red radish 300 g for Mon 30 Mar, lot 260329-RAD-1','',NULL,NULL,NULL,NULL,59,0);
INSERT INTO "entry" VALUES(60,'pack_lot',1774765800,1774765800,'cd','salad mix mixed','',NULL,NULL,NULL,NULL,60,0);
INSERT INTO "entry" VALUES(61,'lot_out',1774765800,1774765800,'cd','20 g of lot 260329-RAD-1: own use','',NULL,NULL,NULL,NULL,61,0);
INSERT INTO "entry" VALUES(62,'pack_lot',1774765800,1774765800,'cd','RED-29: before 260329-RAD-1, best before Sun 5 Apr','',NULL,NULL,NULL,NULL,62,0);
INSERT INTO "entry" VALUES(63,'lot_out',1774765800,1774765800,'cd','the chef returned 30 g of lot RED-29: wilted','',NULL,NULL,NULL,NULL,63,0);
INSERT INTO "entry" VALUES(64,'assurance',1774765800,1774765800,'cd','washes what is cut','',NULL,NULL,NULL,NULL,64,0);
INSERT INTO "entry" VALUES(65,'pause',1774765800,1774765800,'cd','the chef: nothing from Thu 24 Dec to Sat 2 Jan','',NULL,NULL,NULL,NULL,65,0);
INSERT INTO "entry" VALUES(66,'hold',1774765800,1774765800,'cd','to be looked at','',NULL,NULL,NULL,NULL,66,0);
INSERT INTO "entry" VALUES(67,'hold',1774765800,1774765800,'cd','to be looked at','',NULL,NULL,NULL,NULL,67,0);
INSERT INTO "entry" VALUES(68,'hold',1774765800,1774765800,'cd','to be looked at','',NULL,NULL,9,NULL,68,0);
INSERT INTO "entry" VALUES(69,'hold',1774765800,1774765800,'cd','to be looked at','',NULL,2,NULL,NULL,69,0);
INSERT INTO "entry" VALUES(70,'release',1774765800,1774765800,'cd','nothing found','',NULL,NULL,NULL,NULL,70,0);
INSERT INTO "entry" VALUES(71,'recall',1774765800,1774765800,'cd','all reached','',NULL,NULL,NULL,NULL,71,0);
CREATE TABLE "entry_tray" (
entry_id INTEGER NOT NULL, 
tray_id INTEGER NOT NULL, 
CONSTRAINT pk_entry_tray PRIMARY KEY (entry_id, tray_id), 
CONSTRAINT fk_entry_tray_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
CONSTRAINT fk_entry_tray_tray_id_tray FOREIGN KEY(tray_id) REFERENCES tray (id)
) WITHOUT ROWID;
INSERT INTO "entry_tray" VALUES(3,1);
INSERT INTO "entry_tray" VALUES(6,1);
INSERT INTO "entry_tray" VALUES(11,1);
INSERT INTO "entry_tray" VALUES(14,1);
INSERT INTO "entry_tray" VALUES(15,1);
INSERT INTO "entry_tray" VALUES(3,2);
INSERT INTO "entry_tray" VALUES(6,2);
INSERT INTO "entry_tray" VALUES(12,2);
INSERT INTO "entry_tray" VALUES(16,2);
INSERT INTO "entry_tray" VALUES(3,3);
INSERT INTO "entry_tray" VALUES(7,3);
INSERT INTO "entry_tray" VALUES(12,3);
INSERT INTO "entry_tray" VALUES(16,3);
INSERT INTO "entry_tray" VALUES(3,4);
INSERT INTO "entry_tray" VALUES(8,4);
INSERT INTO "entry_tray" VALUES(17,4);
INSERT INTO "entry_tray" VALUES(4,5);
INSERT INTO "entry_tray" VALUES(10,5);
INSERT INTO "entry_tray" VALUES(19,5);
INSERT INTO "entry_tray" VALUES(20,5);
INSERT INTO "entry_tray" VALUES(69,5);
INSERT INTO "entry_tray" VALUES(4,6);
INSERT INTO "entry_tray" VALUES(10,6);
INSERT INTO "entry_tray" VALUES(18,6);
INSERT INTO "entry_tray" VALUES(33,6);
INSERT INTO "entry_tray" VALUES(69,6);
INSERT INTO "entry_tray" VALUES(4,7);
INSERT INTO "entry_tray" VALUES(10,7);
INSERT INTO "entry_tray" VALUES(33,7);
INSERT INTO "entry_tray" VALUES(66,7);
INSERT INTO "entry_tray" VALUES(69,7);
INSERT INTO "entry_tray" VALUES(70,7);
INSERT INTO "entry_tray" VALUES(5,8);
INSERT INTO "entry_tray" VALUES(9,8);
INSERT INTO "entry_tray" VALUES(5,9);
INSERT INTO "entry_tray" VALUES(9,9);
INSERT INTO "entry_tray" VALUES(46,10);
INSERT INTO "entry_tray" VALUES(48,10);
INSERT INTO "entry_tray" VALUES(46,11);
INSERT INTO "entry_tray" VALUES(48,11);
INSERT INTO "entry_tray" VALUES(47,12);
INSERT INTO "entry_tray" VALUES(48,12);
INSERT INTO "entry_tray" VALUES(47,13);
INSERT INTO "entry_tray" VALUES(48,13);
CREATE TABLE entry_words (
	entry_id INTEGER NOT NULL, 
	words VARCHAR NOT NULL, 
	CONSTRAINT pk_entry_words PRIMARY KEY (entry_id), 
	CONSTRAINT fk_entry_words_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "entry_words" VALUES(1,'rack 1/window added');
INSERT INTO "entry_words" VALUES(2,'template red radish, version 1');
INSERT INTO "entry_words" VALUES(3,'dense r-17 + r-18');
INSERT INTO "entry_words" VALUES(7,'no time');
INSERT INTO "entry_words" VALUES(8,'a spot of mould corner white edge');
INSERT INTO "entry_words" VALUES(9,'planned, now done');
INSERT INTO "entry_words" VALUES(12,'odd text: [b] "quotes", = 1 + 1, ø 🌱');
INSERT INTO "entry_words" VALUES(13,'the room was aired');
INSERT INTO "entry_words" VALUES(14,'260329-rad-1');
INSERT INTO "entry_words" VALUES(15,'260329-rad-1');
INSERT INTO "entry_words" VALUES(16,'together 260329-rad-1');
INSERT INTO "entry_words" VALUES(17,'mould');
INSERT INTO "entry_words" VALUES(18,'260329-kal-1');
INSERT INTO "entry_words" VALUES(19,'260329-kal-1');
INSERT INTO "entry_words" VALUES(20,'undone');
INSERT INTO "entry_words" VALUES(21,'a slip');
INSERT INTO "entry_words" VALUES(22,'wrong room');
INSERT INTO "entry_words" VALUES(36,'check scale every 7 days');
INSERT INTO "entry_words" VALUES(39,'sales of 2026: 900.00 gbp, 500.00 gbp of it to qualified end users');
INSERT INTO "entry_words" VALUES(40,'ra 12 hill farm');
INSERT INTO "entry_words" VALUES(43,'medium of kale 0.35 gbp per tray, from 2026-03-19');
INSERT INTO "entry_words" VALUES(44,'template kale, version 2');
INSERT INTO "entry_words" VALUES(45,'density');
INSERT INTO "entry_words" VALUES(48,'density');
INSERT INTO "entry_words" VALUES(49,'density');
INSERT INTO "entry_words" VALUES(50,'density: ef');
INSERT INTO "entry_words" VALUES(51,'density: thin and thick, 3 of 6');
INSERT INTO "entry_words" VALUES(52,'density: yield 2 and taste 1');
INSERT INTO "entry_words" VALUES(53,'density: 4 trays per arm');
INSERT INTO "entry_words" VALUES(54,'density: too early to say next: more trays');
INSERT INTO "entry_words" VALUES(55,'salad mix');
INSERT INTO "entry_words" VALUES(56,'the chef: kitchen');
INSERT INTO "entry_words" VALUES(57,'the chef: salad mix 6 × 50 g, every tue, fri from sun 29 mar');
INSERT INTO "entry_words" VALUES(58,'the chef: red radish 300 g, mon 30 mar');
INSERT INTO "entry_words" VALUES(59,'the chef: red radish 300 g for mon 30 mar, lot 260329-rad-1');
INSERT INTO "entry_words" VALUES(60,'salad mix mixed');
INSERT INTO "entry_words" VALUES(61,'20 g of lot 260329-rad-1: own use');
INSERT INTO "entry_words" VALUES(62,'red-29: before 260329-rad-1, best before sun 5 apr');
INSERT INTO "entry_words" VALUES(63,'the chef returned 30 g of lot red-29: wilted');
INSERT INTO "entry_words" VALUES(64,'washes what is cut');
INSERT INTO "entry_words" VALUES(65,'the chef: nothing from thu 24 dec to sat 2 jan');
INSERT INTO "entry_words" VALUES(66,'to be looked at');
INSERT INTO "entry_words" VALUES(67,'to be looked at');
INSERT INTO "entry_words" VALUES(68,'to be looked at');
INSERT INTO "entry_words" VALUES(69,'to be looked at');
INSERT INTO "entry_words" VALUES(70,'nothing found');
INSERT INTO "entry_words" VALUES(71,'all reached');
CREATE TABLE hold (
	entry_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	seed_lot VARCHAR NOT NULL, 
	batch_id INTEGER, 
	tray_id INTEGER, 
	lot_id INTEGER, 
	place_id INTEGER, 
	CONSTRAINT pk_hold PRIMARY KEY (entry_id), 
	CONSTRAINT fk_hold_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_hold_batch_id_batch FOREIGN KEY(batch_id) REFERENCES batch (id), 
	CONSTRAINT fk_hold_tray_id_tray FOREIGN KEY(tray_id) REFERENCES tray (id), 
	CONSTRAINT fk_hold_lot_id_entry FOREIGN KEY(lot_id) REFERENCES entry (id), 
	CONSTRAINT fk_hold_place_id_place FOREIGN KEY(place_id) REFERENCES place (id)
);
INSERT INTO "hold" VALUES(66,'tray 107','',NULL,7,NULL,NULL);
INSERT INTO "hold" VALUES(67,'seed lot R-17','R-17',NULL,NULL,NULL,NULL);
INSERT INTO "hold" VALUES(68,'Rack 2/Shelf 3','',NULL,NULL,NULL,9);
INSERT INTO "hold" VALUES(69,'batch 2','',2,NULL,NULL,NULL);
CREATE TABLE hold_end (
	entry_id INTEGER NOT NULL, 
	hold_id INTEGER NOT NULL, 
	CONSTRAINT pk_hold_end PRIMARY KEY (entry_id), 
	CONSTRAINT fk_hold_end_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_hold_end_hold_id_entry FOREIGN KEY(hold_id) REFERENCES entry (id)
);
INSERT INTO "hold_end" VALUES(70,66);
CREATE TABLE lamp_hours (
	entry_id INTEGER NOT NULL, 
	lamp_on INTEGER, 
	lamp_off INTEGER, 
	was_on INTEGER, 
	was_off INTEGER, 
	CONSTRAINT pk_lamp_hours PRIMARY KEY (entry_id), 
	CONSTRAINT fk_lamp_hours_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "lamp_hours" VALUES(27,300,1260,360,1320);
CREATE TABLE lamp_set (
	entry_id INTEGER NOT NULL, 
	lamps INTEGER NOT NULL, 
	kind VARCHAR NOT NULL, 
	light VARCHAR NOT NULL, 
	watts FLOAT NOT NULL, 
	amps FLOAT, 
	volts FLOAT, 
	height_mm FLOAT, 
	bought DATE, 
	CONSTRAINT pk_lamp_set PRIMARY KEY (entry_id), 
	CONSTRAINT fk_lamp_set_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "lamp_set" VALUES(23,4,'LED bar','4000 K',18.0,0.16,120.0,210.0,NULL);
INSERT INTO "lamp_set" VALUES(24,4,'LED bar','4000 K',18.0,0.16,120.0,210.0,NULL);
INSERT INTO "lamp_set" VALUES(25,4,'LED bar','4000 K',18.0,0.16,120.0,210.0,NULL);
INSERT INTO "lamp_set" VALUES(26,4,'LED bar','4000 K',18.0,0.16,120.0,210.0,NULL);
CREATE TABLE "light_spot" (
entry_id INTEGER NOT NULL, 
spot_row INTEGER NOT NULL, 
spot_column INTEGER NOT NULL, 
ppfd FLOAT NOT NULL, 
lux FLOAT, 
CONSTRAINT pk_light_spot PRIMARY KEY (entry_id, spot_row, spot_column), 
CONSTRAINT fk_light_spot_entry_id_light_survey FOREIGN KEY(entry_id) REFERENCES light_survey (entry_id)
) WITHOUT ROWID;
INSERT INTO "light_spot" VALUES(31,1,1,180.0,NULL);
INSERT INTO "light_spot" VALUES(31,2,1,200.0,NULL);
INSERT INTO "light_spot" VALUES(31,3,1,220.0,NULL);
CREATE TABLE light_survey (
	entry_id INTEGER NOT NULL, 
	spot_rows INTEGER NOT NULL, 
	spot_columns INTEGER NOT NULL, 
	height_mm FLOAT, 
	lux_lamp VARCHAR NOT NULL, 
	CONSTRAINT pk_light_survey PRIMARY KEY (entry_id), 
	CONSTRAINT fk_light_survey_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "light_survey" VALUES(31,3,1,165.0,'');
CREATE TABLE look (
	entry_id INTEGER NOT NULL, 
	emerged_percent FLOAT, 
	height_mm FLOAT, 
	mould VARCHAR NOT NULL, 
	mould_where VARCHAR NOT NULL, 
	wilting BOOLEAN, 
	cotyledons_open BOOLEAN, 
	true_leaves BOOLEAN, 
	stem_colour VARCHAR NOT NULL, 
	hulls_on BOOLEAN, 
	uneven VARCHAR NOT NULL, 
	sign VARCHAR NOT NULL, 
	sign_seen BOOLEAN NOT NULL, 
	CONSTRAINT pk_look PRIMARY KEY (entry_id), 
	CONSTRAINT fk_look_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "look" VALUES(8,90.0,21.0,'spot','corner',0,NULL,0,'white',1,'edge','',0);
CREATE TABLE lot_out (
	entry_id INTEGER NOT NULL, 
	lot_id INTEGER NOT NULL, 
	grams FLOAT NOT NULL, 
	why VARCHAR NOT NULL, 
	customer_id INTEGER, 
	CONSTRAINT pk_lot_out PRIMARY KEY (entry_id), 
	CONSTRAINT fk_lot_out_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_lot_out_lot_id_entry FOREIGN KEY(lot_id) REFERENCES entry (id), 
	CONSTRAINT fk_lot_out_customer_id_entry FOREIGN KEY(customer_id) REFERENCES entry (id)
);
INSERT INTO "lot_out" VALUES(61,14,20.0,'own use',NULL);
INSERT INTO "lot_out" VALUES(63,14,30.0,'returned',56);
CREATE TABLE lot_part (
	entry_id INTEGER NOT NULL, 
	from_lot_id INTEGER NOT NULL, 
	grams FLOAT NOT NULL, 
	CONSTRAINT pk_lot_part PRIMARY KEY (entry_id, from_lot_id), 
	CONSTRAINT fk_lot_part_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_lot_part_from_lot_id_entry FOREIGN KEY(from_lot_id) REFERENCES entry (id)
)
 WITHOUT ROWID

;
INSERT INTO "lot_part" VALUES(60,14,30.0);
INSERT INTO "lot_part" VALUES(60,18,60.0);
CREATE TABLE mix (
	entry_id INTEGER NOT NULL, 
	mix_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	since DATE NOT NULL, 
	gone BOOLEAN NOT NULL, 
	CONSTRAINT pk_mix PRIMARY KEY (entry_id), 
	CONSTRAINT fk_mix_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_mix_mix_id_entry FOREIGN KEY(mix_id) REFERENCES entry (id)
);
INSERT INTO "mix" VALUES(55,55,'salad mix','salad mix','2026-03-29',0);
CREATE TABLE mix_part (
	entry_id INTEGER NOT NULL, 
	template_id INTEGER NOT NULL, 
	parts FLOAT NOT NULL, 
	CONSTRAINT pk_mix_part PRIMARY KEY (entry_id, template_id), 
	CONSTRAINT fk_mix_part_entry_id_mix FOREIGN KEY(entry_id) REFERENCES mix (entry_id), 
	CONSTRAINT fk_mix_part_template_id_template FOREIGN KEY(template_id) REFERENCES template (id)
)
 WITHOUT ROWID

;
INSERT INTO "mix_part" VALUES(55,10,2.0);
INSERT INTO "mix_part" VALUES(55,22,1.0);
CREATE TABLE order_line (
	entry_id INTEGER NOT NULL, 
	order_id INTEGER NOT NULL, 
	customer_id INTEGER NOT NULL, 
	template_id INTEGER, 
	mix_id INTEGER, 
	packs INTEGER NOT NULL, 
	pack_grams FLOAT, 
	weekdays VARCHAR NOT NULL, 
	minute INTEGER, 
	since DATE NOT NULL, 
	until DATE, 
	price VARCHAR, 
	gone BOOLEAN NOT NULL, 
	CONSTRAINT pk_order_line PRIMARY KEY (entry_id), 
	CONSTRAINT fk_order_line_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_order_line_order_id_entry FOREIGN KEY(order_id) REFERENCES entry (id), 
	CONSTRAINT fk_order_line_customer_id_entry FOREIGN KEY(customer_id) REFERENCES entry (id), 
	CONSTRAINT fk_order_line_template_id_template FOREIGN KEY(template_id) REFERENCES template (id), 
	CONSTRAINT fk_order_line_mix_id_entry FOREIGN KEY(mix_id) REFERENCES entry (id)
);
INSERT INTO "order_line" VALUES(57,57,56,NULL,55,6,50.0,'tue,fri',NULL,'2026-03-29',NULL,'3.20',0);
INSERT INTO "order_line" VALUES(58,58,56,22,NULL,1,300.0,'',NULL,'2026-03-30','2026-03-30',NULL,0);
CREATE TABLE order_pause (
	entry_id INTEGER NOT NULL, 
	customer_id INTEGER NOT NULL, 
	order_id INTEGER, 
	since DATE NOT NULL, 
	until DATE NOT NULL, 
	CONSTRAINT pk_order_pause PRIMARY KEY (entry_id), 
	CONSTRAINT fk_order_pause_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_order_pause_customer_id_entry FOREIGN KEY(customer_id) REFERENCES entry (id), 
	CONSTRAINT fk_order_pause_order_id_entry FOREIGN KEY(order_id) REFERENCES entry (id)
);
INSERT INTO "order_pause" VALUES(65,56,NULL,'2026-12-24','2027-01-02');
CREATE TABLE "outage" (
entry_id INTEGER NOT NULL, 
until DATETIME NOT NULL, 
CONSTRAINT pk_outage PRIMARY KEY (entry_id), 
CONSTRAINT fk_outage_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "outage" VALUES(30,1774762200);
CREATE TABLE pack_lot (
	entry_id INTEGER NOT NULL, 
	lot_id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	code_key VARCHAR NOT NULL, 
	template_id INTEGER, 
	mix_id INTEGER, 
	packed_on DATE NOT NULL, 
	best_before DATE NOT NULL, 
	CONSTRAINT pk_pack_lot PRIMARY KEY (entry_id), 
	CONSTRAINT fk_pack_lot_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_pack_lot_lot_id_entry FOREIGN KEY(lot_id) REFERENCES entry (id), 
	CONSTRAINT fk_pack_lot_template_id_template FOREIGN KEY(template_id) REFERENCES template (id), 
	CONSTRAINT fk_pack_lot_mix_id_entry FOREIGN KEY(mix_id) REFERENCES entry (id)
);
INSERT INTO "pack_lot" VALUES(14,14,'260329-RAD-1','260329-rad-1',22,NULL,'2026-03-29','2026-04-05');
INSERT INTO "pack_lot" VALUES(18,18,'260329-KAL-1','260329-kal-1',10,NULL,'2026-03-29','2026-04-05');
INSERT INTO "pack_lot" VALUES(60,60,'260329-SAL-1','260329-sal-1',NULL,55,'2026-03-29','2026-04-05');
INSERT INTO "pack_lot" VALUES(62,14,'RED-29','red-29',22,NULL,'2026-03-29','2026-04-05');
CREATE TABLE packed (
	entry_id INTEGER NOT NULL, 
	order_id INTEGER, 
	customer_id INTEGER NOT NULL, 
	template_id INTEGER, 
	mix_id INTEGER, 
	packs INTEGER NOT NULL, 
	pack_grams FLOAT, 
	day DATE NOT NULL, 
	CONSTRAINT pk_packed PRIMARY KEY (entry_id), 
	CONSTRAINT fk_packed_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_packed_order_id_entry FOREIGN KEY(order_id) REFERENCES entry (id), 
	CONSTRAINT fk_packed_customer_id_entry FOREIGN KEY(customer_id) REFERENCES entry (id), 
	CONSTRAINT fk_packed_template_id_template FOREIGN KEY(template_id) REFERENCES template (id), 
	CONSTRAINT fk_packed_mix_id_entry FOREIGN KEY(mix_id) REFERENCES entry (id)
);
INSERT INTO "packed" VALUES(59,58,56,22,NULL,1,300.0,'2026-03-30');
CREATE TABLE packed_lot (
	entry_id INTEGER NOT NULL, 
	lot_id INTEGER NOT NULL, 
	packs INTEGER NOT NULL, 
	grams FLOAT, 
	CONSTRAINT pk_packed_lot PRIMARY KEY (entry_id, lot_id), 
	CONSTRAINT fk_packed_lot_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_packed_lot_lot_id_entry FOREIGN KEY(lot_id) REFERENCES entry (id)
)
 WITHOUT ROWID

;
INSERT INTO "packed_lot" VALUES(59,14,1,300.0);
CREATE TABLE place (
	id INTEGER NOT NULL, 
	parent_id INTEGER, 
	kind VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	slots INTEGER NOT NULL, 
	lamp_on INTEGER, 
	lamp_off INTEGER, 
	retired BOOLEAN NOT NULL, zone VARCHAR, day_start INTEGER, day_end INTEGER, evening INTEGER, 
	CONSTRAINT pk_place PRIMARY KEY (id), 
	CONSTRAINT fk_place_parent_id_place FOREIGN KEY(parent_id) REFERENCES place (id)
);
INSERT INTO "place" VALUES(1,NULL,'room','Back room',1,0,NULL,NULL,0,'Europe/London',420,1140,NULL);
INSERT INTO "place" VALUES(2,1,'rack','Rack 1',1,0,NULL,NULL,0,NULL,NULL,NULL,NULL);
INSERT INTO "place" VALUES(3,2,'shelf','Shelf 1',1,6,300,1260,0,NULL,NULL,NULL,NULL);
INSERT INTO "place" VALUES(4,2,'shelf','Shelf 2',2,6,360,1320,0,NULL,NULL,NULL,NULL);
INSERT INTO "place" VALUES(5,2,'shelf','Shelf 3',3,6,360,1320,0,NULL,NULL,NULL,NULL);
INSERT INTO "place" VALUES(6,1,'rack','Rack 2',2,0,NULL,NULL,0,NULL,NULL,NULL,NULL);
INSERT INTO "place" VALUES(7,6,'shelf','Shelf 1',1,6,360,1320,0,NULL,NULL,NULL,NULL);
INSERT INTO "place" VALUES(8,6,'shelf','Shelf 2',2,6,360,1320,0,NULL,NULL,NULL,NULL);
INSERT INTO "place" VALUES(9,6,'shelf','Shelf 3',3,6,360,1320,0,NULL,NULL,NULL,NULL);
INSERT INTO "place" VALUES(10,2,'shelf','Window',4,3,NULL,NULL,0,NULL,NULL,NULL,NULL);
CREATE TABLE recall (
	entry_id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	practice BOOLEAN NOT NULL, 
	begun DATETIME NOT NULL, 
	customers INTEGER NOT NULL, 
	lots INTEGER NOT NULL, 
	grams FLOAT NOT NULL, 
	unaccounted_grams FLOAT NOT NULL, 
	CONSTRAINT pk_recall PRIMARY KEY (entry_id), 
	CONSTRAINT fk_recall_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "recall" VALUES(71,'seed lot R-17',1,1774765560,1,2,300.0,0.0);
CREATE TABLE review (
	entry_id INTEGER NOT NULL, 
	week DATE NOT NULL, 
	CONSTRAINT pk_review PRIMARY KEY (entry_id), 
	CONSTRAINT fk_review_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "review" VALUES(38,'2026-03-23');
CREATE TABLE sales_year (
	entry_id INTEGER NOT NULL, 
	year INTEGER NOT NULL, 
	sold VARCHAR NOT NULL, 
	to_end_users VARCHAR NOT NULL, 
	produce VARCHAR, 
	CONSTRAINT pk_sales_year PRIMARY KEY (entry_id), 
	CONSTRAINT fk_sales_year_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "sales_year" VALUES(39,2026,'900','500',NULL);
CREATE TABLE seed_bag (
	entry_id INTEGER NOT NULL, 
	lot VARCHAR NOT NULL, 
	crop VARCHAR NOT NULL, 
	grams FLOAT NOT NULL, 
	bought DATE NOT NULL, 
	supplier VARCHAR NOT NULL, 
	price VARCHAR, 
	germination_percent FLOAT, 
	tested DATE, 
	treated BOOLEAN, 
	for_food BOOLEAN, organic BOOLEAN, 
	CONSTRAINT pk_seed_bag PRIMARY KEY (entry_id), 
	CONSTRAINT fk_seed_bag_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "seed_bag" VALUES(40,'RA 12','radish',1000.0,'2026-02-27','Hill farm','18.5',92.0,'2026-02-27',0,NULL,NULL);
CREATE TABLE seed_test (
	entry_id INTEGER NOT NULL, 
	lot VARCHAR NOT NULL, 
	sown INTEGER NOT NULL, 
	up INTEGER NOT NULL, 
	CONSTRAINT pk_seed_test PRIMARY KEY (entry_id), 
	CONSTRAINT fk_seed_test_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "seed_test" VALUES(41,'RA 12',100,91);
CREATE TABLE seed_weight (
	entry_id INTEGER NOT NULL, 
	lot VARCHAR NOT NULL, 
	grams FLOAT NOT NULL, 
	CONSTRAINT pk_seed_weight PRIMARY KEY (entry_id), 
	CONSTRAINT fk_seed_weight_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "seed_weight" VALUES(42,'RA 12',340.0);
CREATE TABLE sheet_line (
	id INTEGER NOT NULL, 
	printed_at DATETIME NOT NULL, 
	code VARCHAR NOT NULL, 
	chore VARCHAR NOT NULL, 
	at DATETIME NOT NULL, 
	trays VARCHAR NOT NULL, 
	CONSTRAINT pk_sheet_line PRIMARY KEY (id)
);
INSERT INTO "sheet_line" VALUES(1,1774765800,'BC','water_look',1774764000,'5');
INSERT INTO "sheet_line" VALUES(2,1774765800,'BD','look',1774764000,'6 7');
INSERT INTO "sheet_line" VALUES(3,1774765800,'BF','water_look',1774764000,'8 9');
INSERT INTO "sheet_line" VALUES(4,1774765800,'BG','weight_off',1774764000,'8 9');
CREATE TABLE solution_use (
	entry_id INTEGER NOT NULL, 
	purpose VARCHAR NOT NULL, 
	method VARCHAR NOT NULL, 
	product VARCHAR NOT NULL, 
	stock_percent FLOAT, 
	want_percent FLOAT, 
	volume_ml FLOAT, 
	CONSTRAINT pk_solution_use PRIMARY KEY (entry_id), 
	CONSTRAINT fk_solution_use_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "solution_use" VALUES(35,'trays','soak 10 min, rinse','bleach',5.25,0.02,10000.0);
CREATE TABLE stage (
	id INTEGER NOT NULL, 
	version_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	seconds INTEGER, 
	cover VARCHAR NOT NULL, 
	light VARCHAR NOT NULL, 
	water VARCHAR NOT NULL, 
	water_per_day FLOAT NOT NULL, 
	looks_per_day FLOAT NOT NULL, 
	CONSTRAINT pk_stage PRIMARY KEY (id), 
	CONSTRAINT fk_stage_version_id_template_version FOREIGN KEY(version_id) REFERENCES template_version (id)
);
INSERT INTO "stage" VALUES(1,1,0,'weighted',216000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(2,1,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(3,1,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(4,2,0,'weighted',259200,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(5,2,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(6,2,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(7,3,0,'weighted',172800,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(8,3,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(9,3,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(10,4,0,'weighted',216000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(11,4,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(12,4,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(13,5,0,'weighted',216000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(14,5,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(15,5,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(16,6,0,'weighted',216000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(17,6,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(18,6,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(19,7,0,'weighted',216000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(20,7,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(21,7,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(22,8,0,'under a lid',259200,'lid','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(23,8,1,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(24,9,0,'weighted',216000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(25,9,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(26,9,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(27,10,0,'weighted',216000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(28,10,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(29,10,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(30,11,0,'under a lid',345600,'lid','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(31,11,1,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(32,12,0,'under a lid',432000,'lid','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(33,12,1,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(34,13,0,'under a lid',518400,'lid','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(35,13,1,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(36,14,0,'weighted',432000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(37,14,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(38,14,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(39,15,0,'under a lid',432000,'lid','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(40,15,1,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(41,16,0,'weighted',432000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(42,16,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(43,16,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(44,17,0,'weighted',345600,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(45,17,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(46,17,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(47,18,0,'weighted',345600,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(48,18,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(49,18,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(50,19,0,'under a lid',302400,'lid','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(51,19,1,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(52,20,0,'under a lid',302400,'lid','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(53,20,1,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(54,21,0,'weighted',129600,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(55,21,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(56,21,2,'light',NULL,'none','lit','top',1.0,1.0);
INSERT INTO "stage" VALUES(57,22,0,'weighted',172800,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(58,22,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(59,22,2,'light',NULL,'none','lit','bottom',1.0,1.0);
INSERT INTO "stage" VALUES(60,23,0,'weighted',216000,'weight','dark','mist',1.0,1.0);
INSERT INTO "stage" VALUES(61,23,1,'blackout',86400,'lid','dark','none',0.0,1.0);
INSERT INTO "stage" VALUES(62,23,2,'light',NULL,'none','lit','bottom',1.0,1.0);
CREATE TABLE "tariff" (
	entry_id INTEGER NOT NULL, 
	since DATE NOT NULL, 
	per_kwh VARCHAR NOT NULL, 
	CONSTRAINT pk_tariff PRIMARY KEY (entry_id), 
	CONSTRAINT fk_tariff_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "tariff" VALUES(28,'2026-03-29','0.3');
CREATE TABLE "tariff_hours" (
entry_id INTEGER NOT NULL, 
position INTEGER NOT NULL, 
starts INTEGER NOT NULL, 
ends INTEGER NOT NULL, 
per_kwh VARCHAR NOT NULL, 
CONSTRAINT pk_tariff_hours PRIMARY KEY (entry_id, position), 
CONSTRAINT fk_tariff_hours_entry_id_tariff FOREIGN KEY(entry_id) REFERENCES tariff (entry_id)
) WITHOUT ROWID;
INSERT INTO "tariff_hours" VALUES(28,0,1020,1200,'0.42');
CREATE TABLE tasting (
	id INTEGER NOT NULL, 
	entry_id INTEGER NOT NULL, 
	trial_id INTEGER NOT NULL, 
	ranks BOOLEAN NOT NULL, 
	seed INTEGER NOT NULL, 
	CONSTRAINT pk_tasting PRIMARY KEY (id), 
	CONSTRAINT fk_tasting_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_tasting_trial_id_trial FOREIGN KEY(trial_id) REFERENCES trial (id)
);
INSERT INTO "tasting" VALUES(1,49,1,0,3);
CREATE TABLE "tasting_answer" (
entry_id INTEGER NOT NULL, 
arm_id INTEGER NOT NULL, 
aspect VARCHAR NOT NULL, 
tasting_id INTEGER NOT NULL, 
taster VARCHAR NOT NULL, 
score FLOAT, 
words VARCHAR NOT NULL, 
CONSTRAINT pk_tasting_answer PRIMARY KEY (entry_id, arm_id, aspect), 
CONSTRAINT fk_tasting_answer_arm_id_trial_arm FOREIGN KEY(arm_id) REFERENCES trial_arm (id), 
CONSTRAINT fk_tasting_answer_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
CONSTRAINT fk_tasting_answer_tasting_id_tasting FOREIGN KEY(tasting_id) REFERENCES tasting (id)
) WITHOUT ROWID;
INSERT INTO "tasting_answer" VALUES(50,1,'taste',1,'ef',6.0,'');
INSERT INTO "tasting_answer" VALUES(50,2,'taste',1,'ef',6.0,'');
CREATE TABLE template (
	id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	retired BOOLEAN NOT NULL, 
	CONSTRAINT pk_template PRIMARY KEY (id), 
	CONSTRAINT uq_template_name_key UNIQUE (name_key)
);
INSERT INTO "template" VALUES(1,'sunflower','sunflower',0);
INSERT INTO "template" VALUES(2,'pea shoots','pea shoots',0);
INSERT INTO "template" VALUES(3,'radish','radish',0);
INSERT INTO "template" VALUES(4,'broccoli','broccoli',0);
INSERT INTO "template" VALUES(5,'red cabbage','red cabbage',0);
INSERT INTO "template" VALUES(6,'kohlrabi','kohlrabi',0);
INSERT INTO "template" VALUES(7,'pak choi','pak choi',0);
INSERT INTO "template" VALUES(8,'mizuna','mizuna',0);
INSERT INTO "template" VALUES(9,'mustard','mustard',0);
INSERT INTO "template" VALUES(10,'kale','kale',0);
INSERT INTO "template" VALUES(11,'red amaranth','red amaranth',0);
INSERT INTO "template" VALUES(12,'basil','basil',0);
INSERT INTO "template" VALUES(13,'red shiso','red shiso',0);
INSERT INTO "template" VALUES(14,'coriander','coriander',0);
INSERT INTO "template" VALUES(15,'dill','dill',0);
INSERT INTO "template" VALUES(16,'leek','leek',0);
INSERT INTO "template" VALUES(17,'beet','beet',0);
INSERT INTO "template" VALUES(18,'chard','chard',0);
INSERT INTO "template" VALUES(19,'rocket','rocket',0);
INSERT INTO "template" VALUES(20,'cress','cress',0);
INSERT INTO "template" VALUES(21,'wheatgrass','wheatgrass',0);
INSERT INTO "template" VALUES(22,'red radish','red radish',0);
CREATE TABLE template_target (
	version_id INTEGER NOT NULL, 
	light_low FLOAT, 
	light_high FLOAT, 
	lit_hours FLOAT, 
	celsius_low FLOAT, 
	celsius_high FLOAT, 
	humidity_low FLOAT, 
	humidity_high FLOAT, 
	ph_low FLOAT, 
	ph_high FLOAT, 
	ec_low FLOAT, 
	ec_high FLOAT, 
	water_low_ml FLOAT, 
	water_high_ml FLOAT, 
	CONSTRAINT pk_template_target PRIMARY KEY (version_id), 
	CONSTRAINT fk_template_target_version_id_template_version FOREIGN KEY(version_id) REFERENCES template_version (id)
);
INSERT INTO "template_target" VALUES(1,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(2,6.0,12.0,16.0,15.0,21.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(3,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(4,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(5,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(6,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(7,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(8,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(9,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(10,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(11,9.0,16.0,16.0,20.0,26.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(12,9.0,16.0,16.0,20.0,26.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(13,9.0,16.0,16.0,20.0,26.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(14,6.0,12.0,16.0,15.0,21.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(15,6.0,12.0,16.0,15.0,21.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(16,6.0,12.0,16.0,15.0,21.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(17,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(18,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(19,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(20,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(21,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(22,8.0,14.0,16.0,16.0,24.0,40.0,70.0,5.5,6.5,NULL,1.6,NULL,NULL);
INSERT INTO "template_target" VALUES(23,8.0,12.0,NULL,18.0,24.0,NULL,NULL,5.5,6.5,NULL,NULL,NULL,NULL);
CREATE TABLE "template_version" (
id INTEGER NOT NULL, 
template_id INTEGER NOT NULL, 
number INTEGER NOT NULL, 
made_at DATETIME NOT NULL, 
"by" VARCHAR NOT NULL, 
why VARCHAR NOT NULL, 
crop VARCHAR NOT NULL, 
variety VARCHAR NOT NULL, 
seed_grams FLOAT, 
tray_length_mm FLOAT NOT NULL, 
tray_width_mm FLOAT NOT NULL, 
soak_seconds INTEGER NOT NULL, 
soak_ph FLOAT, 
medium VARCHAR NOT NULL, 
cut_from_seconds INTEGER NOT NULL, 
cut_best_seconds INTEGER NOT NULL, 
cut_by_seconds INTEGER NOT NULL, 
sign_to_cut VARCHAR NOT NULL, 
expected_grams FLOAT, 
spread_percent FLOAT NOT NULL, 
mucilage BOOLEAN NOT NULL, 
guess BOOLEAN NOT NULL, 
notes VARCHAR NOT NULL, regrow_seconds INTEGER, regrow_grams FLOAT, keeping_days FLOAT, allergens VARCHAR, 
CONSTRAINT pk_template_version PRIMARY KEY (id), 
CONSTRAINT fk_template_version_template_id_template FOREIGN KEY(template_id) REFERENCES template (id)
);
INSERT INTO "template_version" VALUES(1,1,1,1773988200,'ab','starting guess','sunflower','',125.0,508.0,254.0,36000,NULL,'coir',388800,561600,734400,'seed leaves open, before the first true leaves show',400.0,17.0,0,1,'Hulls cling: mist and brush them off by day 6. Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(2,2,1,1773988200,'ab','starting guess','pea shoots','',250.0,508.0,254.0,57600,NULL,'coir',345600,604800,864000,'first tendrils',330.0,32.0,0,1,'Starting guess: your own trays will replace it.',864000,150.0,7.0,'none');
INSERT INTO "template_version" VALUES(3,3,1,1773988200,'ab','starting guess','radish','',37.5,508.0,254.0,0,NULL,'coir',259200,432000,604800,'seed leaves open',275.0,18.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(4,4,1,1773988200,'ab','starting guess','broccoli','',20.0,508.0,254.0,0,NULL,'coir',302400,518400,734400,'seed leaves open',200.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(5,5,1,1773988200,'ab','starting guess','red cabbage','',20.0,508.0,254.0,0,NULL,'coir',388800,561600,734400,'seed leaves open',200.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(6,6,1,1773988200,'ab','starting guess','kohlrabi','',20.0,508.0,254.0,0,NULL,'coir',388800,561600,734400,'seed leaves open',200.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(7,7,1,1773988200,'ab','starting guess','pak choi','',16.0,508.0,254.0,0,NULL,'coir',388800,561600,734400,'seed leaves open',185.0,16.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(8,8,1,1773988200,'ab','starting guess','mizuna','',11.5,508.0,254.0,0,NULL,'coir',432000,604800,777600,'seed leaves open',160.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(9,9,1,1773988200,'ab','starting guess','mustard','',11.5,508.0,254.0,0,NULL,'coir',388800,561600,734400,'seed leaves open',160.0,17.0,1,1,'The seed gels when wet: sow it dry and mist it lightly. Starting guess: your own trays will replace it.',NULL,NULL,7.0,'mustard');
INSERT INTO "template_version" VALUES(10,10,1,1773988200,'ab','starting guess','kale','',20.0,508.0,254.0,0,NULL,'coir',388800,561600,734400,'seed leaves open',200.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(11,11,1,1773988200,'ab','starting guess','red amaranth','',9.0,508.0,254.0,0,NULL,'coir',345600,691200,1036800,'seed leaves open',90.0,19.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(12,12,1,1773988200,'ab','starting guess','basil','',7.5,508.0,254.0,0,NULL,'coir',777600,1252800,1728000,'first true leaves',95.0,18.0,1,1,'Starting guess: your own trays will replace it.',NULL,NULL,5.0,'none');
INSERT INTO "template_version" VALUES(13,13,1,1773988200,'ab','starting guess','red shiso','',9.0,508.0,254.0,0,NULL,'coir',864000,1252800,1641600,'first true leaves',85.0,20.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,5.0,'none');
INSERT INTO "template_version" VALUES(14,14,1,1773988200,'ab','starting guess','coriander','',32.5,508.0,254.0,14400,NULL,'coir',864000,1252800,1641600,'first true leaves',150.0,22.0,0,1,'Sow split seed. The soak may be left out. Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(15,15,1,1773988200,'ab','starting guess','dill','',15.0,508.0,254.0,0,NULL,'coir',950400,1339200,1728000,'first true leaves',110.0,18.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(16,16,1,1773988200,'ab','starting guess','leek','',16.0,508.0,254.0,0,NULL,'coir',691200,993600,1296000,'stems straight',120.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(17,17,1,1773988200,'ab','starting guess','beet','',35.0,508.0,254.0,21600,NULL,'coir',518400,907200,1296000,'seed leaves open',160.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(18,18,1,1773988200,'ab','starting guess','chard','',35.0,508.0,254.0,21600,NULL,'coir',518400,907200,1296000,'seed leaves open',160.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(19,19,1,1773988200,'ab','starting guess','rocket','',11.5,508.0,254.0,0,NULL,'coir',302400,518400,734400,'seed leaves open',150.0,13.0,1,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(20,20,1,1773988200,'ab','starting guess','cress','',11.5,508.0,254.0,0,NULL,'coir',302400,518400,734400,'seed leaves open',150.0,13.0,1,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(21,21,1,1773988200,'ab','starting guess','wheatgrass','',350.0,508.0,254.0,36000,NULL,'none, or coir',388800,604800,820800,'second blade splitting',350.0,19.0,0,1,'Starting guess: your own trays will replace it.',691200,200.0,7.0,'wheat');
INSERT INTO "template_version" VALUES(22,22,1,1773988200,'ab','copied from radish version 1','radish','',37.5,508.0,254.0,0,NULL,'coir',259200,432000,604800,'seed leaves open',275.0,18.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
INSERT INTO "template_version" VALUES(23,10,2,1774765800,'cd','wishes','kale','',20.0,508.0,254.0,0,NULL,'coir',388800,561600,734400,'seed leaves open',200.0,17.0,0,1,'Starting guess: your own trays will replace it.',NULL,NULL,7.0,'none');
CREATE TABLE "tray" (
id INTEGER NOT NULL, 
number INTEGER NOT NULL, 
batch_id INTEGER NOT NULL, 
version_id INTEGER NOT NULL, 
colour VARCHAR NOT NULL, 
live BOOLEAN NOT NULL, 
ended_at DATETIME, 
cut_grams FLOAT, 
CONSTRAINT pk_tray PRIMARY KEY (id), 
CONSTRAINT fk_tray_batch_id_batch FOREIGN KEY(batch_id) REFERENCES batch (id), 
CONSTRAINT fk_tray_version_id_template_version FOREIGN KEY(version_id) REFERENCES template_version (id)
);
INSERT INTO "tray" VALUES(1,101,1,22,'blue',0,1774765800,240.5);
INSERT INTO "tray" VALUES(2,102,1,22,'blue',0,1774765800,215.0);
INSERT INTO "tray" VALUES(3,103,1,22,'blue',0,1774765800,215.0);
INSERT INTO "tray" VALUES(4,104,1,22,'blue',0,1774765800,NULL);
INSERT INTO "tray" VALUES(5,105,2,10,'',1,NULL,NULL);
INSERT INTO "tray" VALUES(6,106,2,10,'',1,NULL,NULL);
INSERT INTO "tray" VALUES(7,107,2,10,'',1,NULL,NULL);
INSERT INTO "tray" VALUES(8,108,3,2,'',1,NULL,NULL);
INSERT INTO "tray" VALUES(9,109,3,2,'',1,NULL,NULL);
INSERT INTO "tray" VALUES(10,111,4,23,'white',1,NULL,NULL);
INSERT INTO "tray" VALUES(11,113,4,23,'white',1,NULL,NULL);
INSERT INTO "tray" VALUES(12,110,5,23,'yellow',1,NULL,NULL);
INSERT INTO "tray" VALUES(13,112,5,23,'yellow',1,NULL,NULL);
CREATE TABLE "tray_place" (
entry_id INTEGER NOT NULL, 
tray_id INTEGER NOT NULL, 
place_id INTEGER, 
slot INTEGER, 
CONSTRAINT pk_tray_place PRIMARY KEY (entry_id, tray_id), 
CONSTRAINT fk_tray_place_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
CONSTRAINT fk_tray_place_place_id_place FOREIGN KEY(place_id) REFERENCES place (id), 
CONSTRAINT fk_tray_place_tray_id_tray FOREIGN KEY(tray_id) REFERENCES tray (id)
) WITHOUT ROWID;
INSERT INTO "tray_place" VALUES(3,1,10,1);
INSERT INTO "tray_place" VALUES(3,2,10,2);
INSERT INTO "tray_place" VALUES(3,3,10,3);
INSERT INTO "tray_place" VALUES(3,4,3,1);
INSERT INTO "tray_place" VALUES(4,5,3,2);
INSERT INTO "tray_place" VALUES(4,6,3,3);
INSERT INTO "tray_place" VALUES(4,7,3,4);
INSERT INTO "tray_place" VALUES(5,8,7,NULL);
INSERT INTO "tray_place" VALUES(5,9,7,NULL);
INSERT INTO "tray_place" VALUES(9,8,7,1);
INSERT INTO "tray_place" VALUES(9,9,7,2);
INSERT INTO "tray_place" VALUES(11,1,10,1);
INSERT INTO "tray_place" VALUES(46,10,10,2);
INSERT INTO "tray_place" VALUES(46,11,3,1);
INSERT INTO "tray_place" VALUES(47,12,10,1);
INSERT INTO "tray_place" VALUES(47,13,10,3);
CREATE TABLE trial (
	id INTEGER NOT NULL, 
	entry_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	question VARCHAR NOT NULL, 
	thing VARCHAR NOT NULL, 
	version_id INTEGER NOT NULL, 
	measures VARCHAR NOT NULL, 
	repeats INTEGER NOT NULL, 
	blocks VARCHAR NOT NULL, 
	weeks INTEGER NOT NULL, 
	seed INTEGER NOT NULL, 
	CONSTRAINT pk_trial PRIMARY KEY (id), 
	CONSTRAINT fk_trial_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_trial_version_id_template_version FOREIGN KEY(version_id) REFERENCES template_version (id)
);
INSERT INTO "trial" VALUES(1,45,'Density','density','','density',23,'grams',1,'shelf',0,7);
CREATE TABLE trial_arm (
	id INTEGER NOT NULL, 
	trial_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	setting VARCHAR NOT NULL, 
	colour VARCHAR NOT NULL, 
	version_id INTEGER, 
	place_id INTEGER, 
	CONSTRAINT pk_trial_arm PRIMARY KEY (id), 
	CONSTRAINT fk_trial_arm_place_id_place FOREIGN KEY(place_id) REFERENCES place (id), 
	CONSTRAINT fk_trial_arm_trial_id_trial FOREIGN KEY(trial_id) REFERENCES trial (id), 
	CONSTRAINT fk_trial_arm_version_id_template_version FOREIGN KEY(version_id) REFERENCES template_version (id)
);
INSERT INTO "trial_arm" VALUES(1,1,0,'thin','16 g','white',NULL,NULL);
INSERT INTO "trial_arm" VALUES(2,1,1,'thick','24 g','yellow',NULL,NULL);
CREATE TABLE trial_block (
	id INTEGER NOT NULL, 
	trial_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	place_id INTEGER NOT NULL, 
	CONSTRAINT pk_trial_block PRIMARY KEY (id), 
	CONSTRAINT fk_trial_block_place_id_place FOREIGN KEY(place_id) REFERENCES place (id), 
	CONSTRAINT fk_trial_block_trial_id_trial FOREIGN KEY(trial_id) REFERENCES trial (id)
);
INSERT INTO "trial_block" VALUES(1,1,0,8);
INSERT INTO "trial_block" VALUES(2,1,1,9);
CREATE TABLE "trial_criterion" (
entry_id INTEGER NOT NULL, 
name VARCHAR NOT NULL, 
trial_id INTEGER NOT NULL, 
weight FLOAT NOT NULL, 
CONSTRAINT pk_trial_criterion PRIMARY KEY (entry_id, name), 
CONSTRAINT fk_trial_criterion_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
CONSTRAINT fk_trial_criterion_trial_id_trial FOREIGN KEY(trial_id) REFERENCES trial (id)
) WITHOUT ROWID;
INSERT INTO "trial_criterion" VALUES(52,'taste',1,1.0);
INSERT INTO "trial_criterion" VALUES(52,'yield',1,2.0);
CREATE TABLE trial_decision (
	entry_id INTEGER NOT NULL, 
	trial_id INTEGER NOT NULL, 
	arm_id INTEGER, 
	version_id INTEGER, 
	decided VARCHAR NOT NULL, 
	try_next VARCHAR NOT NULL, 
	CONSTRAINT pk_trial_decision PRIMARY KEY (entry_id), 
	CONSTRAINT fk_trial_decision_arm_id_trial_arm FOREIGN KEY(arm_id) REFERENCES trial_arm (id), 
	CONSTRAINT fk_trial_decision_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_trial_decision_trial_id_trial FOREIGN KEY(trial_id) REFERENCES trial (id), 
	CONSTRAINT fk_trial_decision_version_id_template_version FOREIGN KEY(version_id) REFERENCES template_version (id)
);
INSERT INTO "trial_decision" VALUES(54,1,1,NULL,'too early to say','more trays');
CREATE TABLE trial_end (
	entry_id INTEGER NOT NULL, 
	trial_id INTEGER NOT NULL, 
	per_arm INTEGER NOT NULL, 
	CONSTRAINT pk_trial_end PRIMARY KEY (entry_id), 
	CONSTRAINT fk_trial_end_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_trial_end_trial_id_trial FOREIGN KEY(trial_id) REFERENCES trial (id)
);
INSERT INTO "trial_end" VALUES(53,1,4);
CREATE TABLE "trial_tray" (
entry_id INTEGER NOT NULL, 
tray_id INTEGER NOT NULL, 
trial_id INTEGER NOT NULL, 
arm_id INTEGER NOT NULL, 
block_id INTEGER, 
run INTEGER NOT NULL, 
left_out VARCHAR NOT NULL, 
CONSTRAINT pk_trial_tray PRIMARY KEY (entry_id, tray_id), 
CONSTRAINT fk_trial_tray_arm_id_trial_arm FOREIGN KEY(arm_id) REFERENCES trial_arm (id), 
CONSTRAINT fk_trial_tray_block_id_trial_block FOREIGN KEY(block_id) REFERENCES trial_block (id), 
CONSTRAINT fk_trial_tray_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
CONSTRAINT fk_trial_tray_tray_id_tray FOREIGN KEY(tray_id) REFERENCES tray (id), 
CONSTRAINT fk_trial_tray_trial_id_trial FOREIGN KEY(trial_id) REFERENCES trial (id)
) WITHOUT ROWID;
INSERT INTO "trial_tray" VALUES(48,10,1,1,1,1,'');
INSERT INTO "trial_tray" VALUES(48,11,1,1,2,1,'');
INSERT INTO "trial_tray" VALUES(48,12,1,2,1,1,'');
INSERT INTO "trial_tray" VALUES(48,13,1,2,2,1,'');
CREATE TABLE triangle (
	entry_id INTEGER NOT NULL, 
	trial_id INTEGER NOT NULL, 
	first_arm_id INTEGER NOT NULL, 
	second_arm_id INTEGER NOT NULL, 
	tasters INTEGER NOT NULL, 
	found INTEGER NOT NULL, 
	CONSTRAINT pk_triangle PRIMARY KEY (entry_id), 
	CONSTRAINT fk_triangle_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
	CONSTRAINT fk_triangle_first_arm_id_trial_arm FOREIGN KEY(first_arm_id) REFERENCES trial_arm (id), 
	CONSTRAINT fk_triangle_second_arm_id_trial_arm FOREIGN KEY(second_arm_id) REFERENCES trial_arm (id), 
	CONSTRAINT fk_triangle_trial_id_trial FOREIGN KEY(trial_id) REFERENCES trial (id)
);
INSERT INTO "triangle" VALUES(51,1,1,2,6,3);
CREATE TABLE upkeep (
	entry_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	every_days FLOAT NOT NULL, 
	weekdays VARCHAR NOT NULL, 
	how VARCHAR NOT NULL, 
	known_grams FLOAT, 
	CONSTRAINT pk_upkeep PRIMARY KEY (entry_id), 
	CONSTRAINT fk_upkeep_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "upkeep" VALUES(36,'scale','scale',7.0,'','',100.0);
CREATE TABLE upkeep_done (
	entry_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	value FLOAT, 
	known_grams FLOAT, 
	CONSTRAINT pk_upkeep_done PRIMARY KEY (entry_id), 
	CONSTRAINT fk_upkeep_done_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "upkeep_done" VALUES(37,'scale','scale',99.8,100.0);
CREATE TABLE watering (
	entry_id INTEGER NOT NULL, 
	amount_ml FLOAT, ph FLOAT, ec FLOAT, 
	CONSTRAINT pk_watering PRIMARY KEY (entry_id), 
	CONSTRAINT fk_watering_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id)
);
INSERT INTO "watering" VALUES(6,250.0,NULL,NULL);
INSERT INTO "watering" VALUES(33,300.0,6.1,1.2);
INSERT INTO "watering" VALUES(34,NULL,7.2,0.6);
CREATE TABLE "weight" (
entry_id INTEGER NOT NULL, 
tray_id INTEGER NOT NULL, 
grams FLOAT NOT NULL, 
part BOOLEAN NOT NULL, 
shared BOOLEAN NOT NULL, keep BOOLEAN DEFAULT 0 NOT NULL, lot_id INTEGER CONSTRAINT fk_weight_lot_id_entry REFERENCES entry (id), 
CONSTRAINT pk_weight PRIMARY KEY (entry_id, tray_id), 
CONSTRAINT fk_weight_entry_id_entry FOREIGN KEY(entry_id) REFERENCES entry (id), 
CONSTRAINT fk_weight_tray_id_tray FOREIGN KEY(tray_id) REFERENCES tray (id)
) WITHOUT ROWID;
INSERT INTO "weight" VALUES(14,1,150.0,1,0,0,14);
INSERT INTO "weight" VALUES(15,1,90.5,0,0,0,14);
INSERT INTO "weight" VALUES(16,2,215.0,0,1,0,14);
INSERT INTO "weight" VALUES(16,3,215.0,0,1,0,14);
INSERT INTO "weight" VALUES(18,6,260.0,0,0,1,18);
INSERT INTO "weight" VALUES(19,5,999.0,0,0,0,18);
CREATE INDEX ix_place_parent_id ON place (parent_id);
CREATE UNIQUE INDEX uq_stage_position ON stage (version_id, position);
CREATE INDEX ix_circuit_name_key ON circuit (name_key);
CREATE INDEX ix_trial_entry_id ON trial (entry_id);
CREATE UNIQUE INDEX uq_trial_arm_position ON trial_arm (trial_id, position);
CREATE UNIQUE INDEX uq_trial_block_position ON trial_block (trial_id, position);
CREATE INDEX ix_trial_decision_trial_id ON trial_decision (trial_id);
CREATE INDEX ix_tasting_entry_id ON tasting (entry_id);
CREATE INDEX ix_tasting_trial_id ON tasting (trial_id);
CREATE INDEX ix_triangle_trial_id ON triangle (trial_id);
CREATE UNIQUE INDEX uq_template_version_number ON template_version (template_id, number);
CREATE INDEX ix_batch_version_id ON batch (version_id);
CREATE INDEX ix_entry_at ON entry (at);
CREATE INDEX ix_entry_batch_id ON entry (batch_id);
CREATE INDEX ix_tray_batch_id ON tray (batch_id);
CREATE INDEX ix_tray_number ON tray (number);
CREATE INDEX ix_tray_version_ended ON tray (version_id, ended_at);
CREATE UNIQUE INDEX uq_tray_number_live ON tray (number) WHERE live = 1;
CREATE INDEX ix_air_reading_entry_id ON air_reading (entry_id);
CREATE INDEX ix_air_reading_place_at ON air_reading (place_id, at);
CREATE INDEX ix_entry_tray_tray_id ON entry_tray (tray_id);
CREATE INDEX ix_tasting_answer_tasting_id ON tasting_answer (tasting_id);
CREATE INDEX ix_trial_criterion_trial_id ON trial_criterion (trial_id);
CREATE INDEX ix_trial_tray_trial_id ON trial_tray (trial_id);
CREATE INDEX ix_weight_keep ON weight (tray_id) WHERE keep = 1;
CREATE INDEX ix_entry_place_id ON entry (place_id) WHERE place_id IS NOT NULL;
CREATE INDEX ix_entry_strikes_id ON entry (strikes_id) WHERE strikes_id IS NOT NULL;
CREATE INDEX ix_entry_act_id ON entry (act_id) WHERE act_id <> id;
CREATE INDEX ix_sheet_line_printed_at ON sheet_line (printed_at);
CREATE INDEX ix_order_line_order_id ON order_line (order_id);
CREATE INDEX ix_order_line_until ON order_line (until);
CREATE INDEX ix_packed_day ON packed (day);
CREATE INDEX ix_trial_end_trial_id ON trial_end (trial_id);
CREATE INDEX ix_weight_lot_id ON weight (lot_id) WHERE lot_id IS NOT NULL;
CREATE INDEX ix_upkeep_done_name_key ON upkeep_done (name_key);
CREATE INDEX ix_pack_lot_lot_id ON pack_lot (lot_id);
CREATE INDEX ix_pack_lot_code_key ON pack_lot (code_key);
CREATE INDEX ix_pack_lot_packed_on ON pack_lot (packed_on);
CREATE INDEX ix_lot_part_from_lot_id ON lot_part (from_lot_id);
CREATE INDEX ix_packed_lot_lot_id ON packed_lot (lot_id);
CREATE INDEX ix_lot_out_lot_id ON lot_out (lot_id);
CREATE INDEX ix_hold_end_hold_id ON hold_end (hold_id);
CREATE INDEX ix_review_week ON review (week);
CREATE INDEX ix_tray_place_tray_id ON tray_place (tray_id);
CREATE INDEX ix_weight_shared ON weight (tray_id) WHERE shared = 1;
COMMIT;
