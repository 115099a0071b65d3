/* draw, draw late and draw history: the order of starting in a class.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <string.h>

/* A draw to be made.  Start it zeroed. */
struct drawing {
	struct rt_entries entries;
	struct rt_draw_fixes fixes;
	int64_t *place; /* as many as entries */
	struct rt_draw draw;
	struct rt_draw_places places;
	struct rt_stored_draw stored;
};

static void drawing_free(struct drawing *d)
{
	RT_LIST_FREE(&d->places);
	rt_draw_free(&d->draw);
	RT_LIST_FREE(&d->fixes);
	RT_LIST_FREE(&d->entries);
}

/* ---- places that are kept ---------------------------------------------------------------- */

static void keep_place(struct cli *c, struct drawing *d, int64_t number, int64_t place)
{
	size_t i = 0;

	while (i < d->entries.n && d->entries.at[i].number != number)
		i++;
	if (i == d->entries.n)
		CLI_FAIL(c, RT_E_NOTFOUND, "there is no entry %lld in class %s", (long long)number,
			 d->stored.class_name);
	else if (d->entries.at[i].status != RT_ENTERED)
		CLI_FAIL(c, RT_E_INPUT, "number %lld is not drawn: %s", (long long)number,
			 rt_status_words(d->entries.at[i].status));
	else if (d->place[i])
		CLI_FAIL(c, RT_E_INPUT, "number %lld is given two places", (long long)number);
	else
		d->place[i] = place;
}

/* A whole number that ends at `end` or the end of the text; *s is moved behind it. */
static bool read_number(const char **s, char end, int64_t *out)
{
	char copy[16];
	size_t n = strcspn(*s, end == '=' ? "=" : ",");

	if (n >= sizeof copy || (end == '=' && (*s)[n] != '='))
		return false;
	memcpy(copy, *s, n);
	copy[n] = '\0';
	*s += n + ((*s)[n] ? 1 : 0);
	return rt_parse_int(copy, out) && *out >= 1;
}

/* --fix 12=3,15=1 */
static void fix_typed(struct cli *c, struct drawing *d, const char *typed)
{
	for (const char *s = typed; s && *s && !c->err.code;) {
		int64_t number, place;

		if (read_number(&s, '=', &number) && read_number(&s, ',', &place))
			keep_place(c, d, number, place);
		else
			CLI_FAIL(c, RT_E_USAGE,
				 "--fix: \"%s\": NUMBER=PLACE, commas between: 12=3,15=1", typed);
	}
}

/* --first 12,15 and --last 9,4: in that order at the beginning, or at the end. */
static void edge_typed(struct cli *c, struct drawing *d, const char *option, const char *typed,
		       bool last)
{
	int64_t count = 0, i = 0;

	for (const char *s = typed; s && *s; count++)
		s += strcspn(s, ",") + (strchr(s, ',') ? 1 : 0);
	for (const char *s = typed; s && *s && !c->err.code; i++) {
		int64_t number;

		if (read_number(&s, ',', &number))
			keep_place(c, d, number, last ? i - count : i + 1);
		else
			CLI_FAIL(c, RT_E_USAGE, "--%s: \"%s\": numbers with commas between", option,
				 typed);
	}
}

/* ---- draw -------------------------------------------------------------------------------- */

struct draw {
	const char *class_name, *fix, *first, *last, *fixed, *why, *by;
	int64_t seed, apart;
	bool all, again;
};

#define DRAW(member) RT_AT(struct draw, member)

static const struct rt_field draw_options[] = {
	{"class", DRAW(class_name), .type = RT_NAME, .is = RT_ARGUMENT},
	{"all", DRAW(all), .type = RT_BOOL, .help = "every class that is not drawn yet"},
	CLI_SEED(struct draw, seed),
	{"fix", DRAW(fix), .head = "NUMBER=PLACE,...", .help = "places that are kept"},
	{"first", DRAW(first), .head = "NUMBERS", .help = "who starts first, with commas between"},
	{"last", DRAW(last), .head = "NUMBERS", .help = "who starts last, with commas between"},
	{"fixed", DRAW(fixed), .head = "FILE.csv", .help = "places that are kept"},
	{"apart", DRAW(apart), .head = "PLACES", .type = RT_INT, .low = 1, .high = 999,
	 .help = "enough between two starts of one driver"},
	{"again", DRAW(again), .type = RT_BOOL, .help = "draw anew though start times are out"},
	CLI_WHY(struct draw, why, 0),
	CLI_BY(struct draw, by, 0),
};

/* The class to be written to, and its entries. */
static void read_class(struct cli *c, const char *name, struct drawing *d)
{
	d->stored.when = c->when;
	d->stored.class_name = name;
	cli_store(c, true);
	CLI_DO(c, rt_store_entries(c->store, name, &d->entries, &c->err));
	d->place = cli_array(c, d->entries.n, sizeof *d->place);
}

static void keep_places(struct cli *c, const struct draw *o, struct drawing *d)
{
	if (o->fixed)
		CLI_DO(c,
		       rt_read_draw_fixes(&d->fixes, CLI_SOURCE(c, o->fixed), &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	for (size_t i = 0; i < d->fixes.n; i++)
		keep_place(c, d, d->fixes.at[i].number, d->fixes.at[i].place);
	fix_typed(c, d, o->fix);
	edge_typed(c, d, "first", o->first, false);
	edge_typed(c, d, "last", o->last, true);
}

static void take_places(struct cli *c, struct drawing *d)
{
	for (size_t i = 0; i < d->draw.n; i++) {
		size_t entry = d->draw.order[i];

		CLI_ADD(c, &d->places,
			(struct rt_draw_place){d->entries.at[entry].id, (int64_t)i + 1,
					       d->place[entry] != 0});
	}
}

struct drawn_row {
	const struct rt_stored_draw *draw;
	size_t drawn, left_out;
};

#define STORED(member) RT_IN(struct drawn_row, draw, struct rt_stored_draw, member)

static const struct rt_field drawn_fields[] = {
	{"class", STORED(class_name)},
	{"seed", STORED(seed), .type = RT_INT},
	{"drawn", RT_AT(struct drawn_row, drawn), .type = RT_SIZE},
	{"not_drawn", RT_AT(struct drawn_row, left_out), .type = RT_SIZE},
	{"at", STORED(when)},
};

static const struct rt_record drawn_table = RT_TABLE("drawn", "Drawn", drawn_fields,
						     struct drawn_row);

/* Draw a class, into the table of those that were drawn. */
static void draw_class(struct cli *c, const struct draw *o, const char *class_name, int64_t seed,
		       struct rt_table *t)
{
	struct drawing d = {.stored = {.what = RT_DRAWN,
				       .who = o->by,
				       .why = o->why,
				       .seed = seed,
				       .apart = o->apart}};

	read_class(c, class_name, &d);
	if (!c->err.code)
		keep_places(c, o, &d);
	CLI_DO(c, rt_draw_make(
			  &d.draw,
			  &(struct rt_draw_ask){&d.entries, d.place, d.stored.seed, d.stored.apart},
			  &c->err));
	if (!d.draw.n)
		CLI_FAIL(c, RT_E_INPUT, "class %s has nobody to draw", class_name);
	take_places(c, &d);
	CLI_DO(c, rt_store_draw_put(c->store, &d.stored, &d.places, &c->err));
	rt_put_row(t, &(struct drawn_row){&d.stored, d.draw.n, d.entries.n - d.draw.n});
	rt_draw_report(&c->report, &d.draw, &d.entries);
	drawing_free(&d);
}

/* Once start times are out, a new draw has to be meant. */
static void draw_one(struct cli *c, const struct draw *o, struct rt_table *t)
{
	int64_t seed = o->seed;
	bool timed = false;

	cli_seed(c, &seed);
	CLI_DO(c, rt_store_class_timed(c->store, o->class_name, &timed, &c->err));
	if (timed && !o->again)
		CLI_FAIL(c, RT_E_USAGE,
			 "class %s has start times: --again draws it anew (the draw before stays "
			 "in the history, the times stay until they are planned again)",
			 o->class_name);
	if (!c->err.code)
		draw_class(c, o, o->class_name, seed, t);
	rt_report_note(&c->report,
		       "The same entries and the same places kept give the same draw "
		       "with --seed %lld.",
		       (long long)seed);
}

/* Whether a class is to be drawn with all others: somebody starts, and it has no order yet. */
static bool is_undrawn(struct cli *c, const char *class_name)
{
	const struct rt_entries *entries = cli_entries(c);
	struct rt_draw_places places = {0};
	bool starters = false, timed = false;

	for (size_t i = 0; i < entries->n; i++)
		starters |= entries->at[i].status == RT_ENTERED &&
			    strcmp(entries->at[i].class_name, class_name) == 0;
	CLI_DO(c, rt_store_draw_places(c->store, class_name, &places, &c->err));
	CLI_DO(c, rt_store_class_timed(c->store, class_name, &timed, &c->err));
	if (starters && !places.n && timed)
		rt_report_note(
			&c->report,
			"Class %s has start times without a draw: `draw %s --again` draws it.",
			class_name, class_name);
	starters &= !places.n && !timed;
	RT_LIST_FREE(&places);
	return starters;
}

/* Each with a seed of its own: those behind the one that is given, or any. */
static void draw_all(struct cli *c, const struct draw *o, struct rt_table *t)
{
	const struct rt_classes *classes = cli_classes(c);
	int64_t drawn = 0;

	for (size_t i = 0; i < classes->n && !c->err.code; i++) {
		int64_t seed = o->seed ? (o->seed - 1 + drawn) % RT_SEED_MOST + 1 : 0;

		if (!is_undrawn(c, classes->at[i].name))
			continue;
		cli_seed(c, &seed);
		draw_class(c, o, classes->at[i].name, seed, t);
		drawn++;
	}
	if (drawn)
		rt_report_note(&c->report,
			       "The same entries give the same draw of a class with its seed.");
	else
		rt_report_note(&c->report, "Nothing was drawn: no class waits for its draw.");
}

static void draw(struct cli *c, const void *typed)
{
	const struct draw *o = typed;
	struct rt_table *t = rt_report_rows(&c->report, &drawn_table);

	if (!o->all == !o->class_name)
		CLI_FAIL(c, RT_E_USAGE,
			 "draw which class? CLASS, or --all: every class that is not drawn yet");
	if (o->all && (o->fix || o->first || o->last || o->fixed || o->again))
		CLI_FAIL(c, RT_E_USAGE,
			 "--fix, --first, --last, --fixed and --again are of one class, not of "
			 "--all");
	cli_store(c, true);
	if (o->all)
		draw_all(c, o, t);
	else
		draw_one(c, o, t);
}

const struct cli_command cmd_draw = {
	.name = "draw",
	.summary = "Draw the order of starting of a class, or of all.",
	.details =
		"Random by a seed that is told and kept; the same seed gives the same order on every\n"
		"machine. Entries that are withdrawn are not drawn. A driver with several turnouts\n"
		"starts them as far apart as can be, or --apart places where that is enough.\n"
		"Earlier draws stay in the history. --all draws every class that is not drawn yet, each\n"
		"with a seed of its own (with --seed, those from it on).",
	.files = (const struct rt_record *const[]){&rt_draw_fix_record, NULL},
	.example = "--show spring.show draw 3 --seed 2026",
	CLI_OPTIONS(struct draw, draw_options),
	.table = {&drawn_table},
	.run = draw,
};

/* ---- late entries ------------------------------------------------------------------------ */

struct draw_late {
	const char *class_name, *why, *by;
	int64_t number, seed;
	bool front, take;
};

static const struct rt_field draw_late_options[] = {
	CLI_CLASS(struct draw_late, class_name),
	CLI_NUMBER(struct draw_late, number),
	{"front", RT_AT(struct draw_late, front), .type = RT_BOOL,
	 .help = "before all who have not started"},
	{"take", RT_AT(struct draw_late, take), .type = RT_BOOL,
	 .help = "give it the start time of its place too"},
	CLI_SEED(struct draw_late, seed),
	CLI_WHY(struct draw_late, why, 0),
	CLI_BY(struct draw_late, by, 0),
};

/* Those that were drawn and may still start, in their order; how many of the first are over:
 * they have marks, or left after they had started. */
static size_t still_drawn(struct cli *c, struct drawing *d)
{
	size_t driven = 0;

	for (size_t i = 0; i < d->places.n; i++) {
		bool marked = false;

		for (size_t k = 0; k < d->entries.n; k++)
			if (d->entries.at[k].id == d->places.at[i].entry)
				marked = d->entries.at[k].status == RT_RETIRED ||
					 d->entries.at[k].status == RT_ELIMINATED;
		if (!marked)
			CLI_DO(c, rt_store_entry_marked(c->store, d->places.at[i].entry, &marked,
							&c->err));
		if (marked)
			driven = i + 1;
	}
	return driven;
}

static void insert_place(struct cli *c, struct drawing *d, int64_t entry, int64_t place)
{
	struct rt_draw_places *p = &d->places;

	if (!RT_LIST_ADD(p)) {
		CLI_DO(c, rt_fail_nomem(&c->err));
		return;
	}
	for (size_t i = p->n; i-- > (size_t)place;) {
		p->at[i] = p->at[i - 1];
		p->at[i].place = (int64_t)i + 1;
	}
	p->at[place - 1] = (struct rt_draw_place){entry, place, false};
}

struct late_row {
	const struct rt_entry *entry;
	const struct rt_stored_draw *draw;
	int64_t place;
	size_t of;
	char start[16];
	const char *ring;
};

#define ENTRY(member) RT_IN(struct late_row, entry, struct rt_entry, member)

static const struct rt_field late_fields[] = {
	{"class", ENTRY(class_name)},
	{"number", .head = "no.", ENTRY(number), .type = RT_INT},
	{"driver", ENTRY(driver)},
	{"place", RT_AT(struct late_row, place), .type = RT_INT},
	{"of_places", .head = "of", RT_AT(struct late_row, of), .type = RT_SIZE},
	{"start", RT_AT(struct late_row, start), .type = RT_CHARS},
	{"ring", RT_AT(struct late_row, ring)},
	{"how", RT_IN(struct late_row, draw, struct rt_stored_draw, what)},
	{"seed", RT_IN(struct late_row, draw, struct rt_stored_draw, seed), .type = RT_INT},
};

static const struct rt_record late_table = RT_TABLE("late", "Late entry", late_fields,
						    struct late_row);

static const struct rt_start *start_of_id(const struct rt_starts *starts, int64_t id)
{
	for (size_t i = 0; i < starts->n; i++)
		if (starts->at[i].entry->id == id)
			return &starts->at[i];
	return NULL;
}

/* The start time that goes with a place: of who starts behind it, else when the last one ends;
 * false where the class has no times. */
static bool time_of_place(const struct rt_starts *starts, const struct rt_entry *entry,
			  const struct rt_draw_places *places, int64_t place, struct rt_start *out)
{
	const struct rt_start *last = NULL;

	for (size_t i = (size_t)place; i < places->n; i++) {
		const struct rt_start *next = start_of_id(starts, places->at[i].entry);

		if (next && next->entry->status == RT_ENTERED) {
			*out = *next;
			return true;
		}
	}
	for (size_t i = 0; i < starts->n; i++)
		if (strcmp(starts->at[i].entry->class_name, entry->class_name) == 0)
			last = &starts->at[i];
	if (last) {
		*out = *last;
		out->at_s += last->slot_s + last->pause_s;
	}
	return last != NULL;
}

/* Tell the place, and the time that goes with it. */
static void report_late(struct cli *c, const struct drawing *d, const struct rt_entry *entry,
			int64_t place, const struct rt_start *start)
{
	struct late_row row = {
		.entry = entry, .draw = &d->stored, .place = place, .of = d->places.n};

	if (start) {
		rt_time_words(start->at_s, rt_day_of(start->at_s), row.start, sizeof row.start);
		row.ring = start->ring;
	}
	rt_report_list(&c->report, &late_table, &row, 1);
}

static void take_time(struct cli *c, const struct draw_late *o, const struct rt_entry *entry,
		      const struct rt_start *start)
{
	const int64_t day = rt_day_of(start->at_s), of_day_s = start->at_s - (day - 1) * RT_DAY_S;
	char at[16];

	rt_time_words(start->at_s, day, at, sizeof at);
	if (o->take)
		cli_times_move(c, &(struct cli_times_move){.class_name = entry->class_name,
							   .ring = start->ring,
							   .why = o->why,
							   .by = o->by,
							   .number = entry->number,
							   .at_s = of_day_s,
							   .day = day});
	else
		rt_report_note(&c->report,
			       "No start time has changed. Its place gives %s in %s on day %lld: "
			       "`times move %s %lld %s` takes it, and so does --take.",
			       at, start->ring, (long long)day, entry->class_name,
			       (long long)entry->number, at);
}

static void add_late(struct cli *c, struct drawing *d, const struct rt_entry *entry,
		     const struct draw_late *o)
{
	struct rt_starts starts = {0};
	struct rt_start start;
	int64_t place;
	bool timed;

	CLI_DO(c, rt_store_draw_places(c->store, entry->class_name, &d->places, &c->err));
	for (size_t i = 0; i < d->places.n; i++)
		if (d->places.at[i].entry == entry->id)
			CLI_FAIL(c, RT_E_INPUT, "number %lld has place %lld already",
				 (long long)entry->number, (long long)d->places.at[i].place);
	if (!d->places.n)
		CLI_FAIL(c, RT_E_INPUT, "class %s is not drawn yet: `draw %s` draws all",
			 entry->class_name, entry->class_name);
	if (entry->status != RT_ENTERED)
		CLI_FAIL(c, RT_E_INPUT, "number %lld is %s", (long long)entry->number,
			 rt_status_words(entry->status));
	if (c->err.code)
		return;
	place = rt_draw_late(d->places.n, still_drawn(c, d), o->front, d->stored.seed);
	insert_place(c, d, entry->id, place);
	CLI_DO(c, rt_store_draw_put(c->store, &d->stored, &d->places, &c->err));
	CLI_DO(c, rt_store_times(c->store, &d->entries, &starts, &c->err));
	timed = time_of_place(&starts, entry, &d->places, place, &start);
	report_late(c, d, entry, place, timed ? &start : NULL);
	if (timed)
		take_time(c, o, entry, &start);
	else if (o->take)
		CLI_FAIL(c, RT_E_INPUT,
			 "class %s has no start times yet, so that its places have none",
			 entry->class_name);
	RT_LIST_FREE(&starts);
}

static void draw_late(struct cli *c, const void *typed)
{
	const struct draw_late *o = typed;
	struct drawing d = {.stored = {.what = o->front ? RT_DRAWN_FRONT : RT_DRAWN_BETWEEN,
				       .who = o->by,
				       .why = o->why,
				       .seed = o->seed}};
	const struct rt_entry *entry = NULL;

	cli_seed(c, &d.stored.seed);
	read_class(c, o->class_name, &d);
	cli_find_entry(c, &d.entries, o->class_name, o->number, &entry);
	if (!c->err.code)
		add_late(c, &d, entry, o);
	drawing_free(&d);
}

const struct cli_command cmd_draw_late = {
	.name = "draw late",
	.summary = "Give a late entry a place in the order of starting.",
	.details =
		"It comes in among those that have not started (no mark of theirs is keyed): with\n"
		"--front it is the next to go, else any place to the end is as likely as any other.\n"
		"The others keep their order. The start time that goes with the place is told; --take\n"
		"gives it, as `times move` does: those behind move as far as they must.",
	.example = "--show spring.show draw late 3 8 --seed 7 --why \"paid on the day\"",
	CLI_OPTIONS(struct draw_late, draw_late_options),
	.table = {&late_table},
	.run = draw_late,
	.lists = true,
};

/* ---- history ----------------------------------------------------------------------------- */

#define KEPT(member) RT_AT(struct rt_stored_draw, member)

static const struct rt_field history_fields[] = {
	{"draw", KEPT(id), .type = RT_INT, .wide = true},
	{"at", KEPT(when)},
	{"how", KEPT(what)},
	{"seed", KEPT(seed), .type = RT_INT},
	{"apart", KEPT(apart), .type = RT_INT, .wide = true},
	{"by", KEPT(who)},
	{"why", KEPT(why)},
};

static const struct rt_record draws_table = RT_TABLE("draws", "Draws, the latest last",
						     history_fields, struct rt_stored_draw);

static void draw_history(struct cli *c, const void *typed)
{
	struct rt_stored_draws draws = {0};

	cli_class(c, CLI_TYPED(typed));
	CLI_DO(c, rt_store_draws(c->store, CLI_TYPED(typed), &draws, &c->err));
	rt_report_list(&c->report, &draws_table, draws.at, draws.n);
	RT_LIST_FREE(&draws);
}

const struct cli_command cmd_draw_history = {
	.name = "draw history",
	.summary = "List the draws of a class with their seeds.",
	.example = "--show spring.show draw history 3",
	CLI_OPTIONS(const char *, cli_class_argument),
	.table = {&draws_table},
	.run = draw_history,
};
