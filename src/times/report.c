/* Draw, start times, what clashes and how good a plan is, as tables of a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define JUDGES_BYTES 2000 /* all judges of a class */

#define NUMBER	.type = RT_INT
#define MINUTES .type = RT_REAL, .decimals = 1
#define SECONDS .type = RT_INT, .unit = RT_SECOND

/* The time of day of a moment. */
static const char *write_time(const struct rt_field *f, const void *member, char *out, size_t size)
{
	int64_t at_s = *(const int64_t *)member;

	(void)f;
	rt_time_words(at_s, rt_day_of(at_s), out, size);
	return out;
}

/* The same of day 1, past midnight too. */
static const char *write_of_day(const struct rt_field *f, const void *member, char *out,
				size_t size)
{
	(void)f;
	rt_time_words(*(const int64_t *)member, 1, out, size);
	return out;
}

#define OF_DAY .type = RT_OWN, .write = write_of_day
#define TIME   .type = RT_OWN, .write = write_time

/* ---- start list ---- */

struct start_row {
	const struct rt_start *start;
	const struct rt_entry *entry;
	int64_t day, of_day_s;
	char then[40];
};

/* "break 15 min" */
static void pause_words(const struct rt_start *s, char *out, size_t size)
{
	bool minutes = s->pause_s % 60 == 0;

	if (s->pause != RT_PAUSE_NONE)
		snprintf(out, size, "%s %lld %s", rt_pause_words(s->pause),
			 (long long)(minutes ? s->pause_s / 60 : s->pause_s),
			 minutes ? "min" : "s");
}

#define START(member) RT_IN(struct start_row, start, struct rt_start, member)
#define ENTRY(member) RT_IN(struct start_row, entry, struct rt_entry, member)

static const struct rt_field time_fields[] = {
	{"day", .head = "Day", RT_AT(struct start_row, day), NUMBER},
	{"start", .head = "Start", START(at_s), TIME},
	{"ring", .head = "Ring", START(ring)},
	{"class", .head = "Class", ENTRY(class_name)},
	{"number", .head = "No.", ENTRY(number), NUMBER},
	{"driver", .head = "Driver", ENTRY(driver)},
	{"horses", .head = "Horses", ENTRY(horses), .type = RT_NAMES},
	{"status", .head = "Status", ENTRY(status), .type = RT_WORD, .words = &rt_words_of_status},
	{"then", .head = "Then", RT_AT(struct start_row, then), .type = RT_CHARS},
	{"place", .head = "Drawn", START(place), NUMBER, .is = RT_EMPTY, .wide = true},
	{"groom", .head = "Groom", ENTRY(groom), .wide = true},
	{"turnout", .head = "Turnout", ENTRY(turnout), .wide = true},
	{"carriage", .head = "Carriage", ENTRY(carriage), .wide = true},
	{"club", .head = "Club", ENTRY(club), .wide = true},
	{"start_s", .head = "From midnight", RT_AT(struct start_row, of_day_s), SECONDS,
	 .wide = true},
	{"interval_s", .head = "Interval", START(slot_s), SECONDS, .wide = true},
	{"pause_s", .head = "Pause behind", START(pause_s), SECONDS, .wide = true},
	{"version", .head = "Version", START(version), NUMBER, .is = RT_EMPTY, .wide = true},
};

static const struct rt_record times_table = RT_TABLE("times", "Start times", time_fields,
						     struct start_row);

/* In text a column that says the same in every row is left out. */
void rt_times_report(struct rt_report *report, const struct rt_starts *starts)
{
	struct rt_table *t = rt_report_rows(report, &times_table);
	bool pauses = false, left = false;

	for (size_t i = 0; i < starts->n; i++) {
		const struct rt_start *s = &starts->at[i];
		struct start_row row = {.start = s, .entry = s->entry, .day = rt_day_of(s->at_s)};

		row.of_day_s = s->at_s - (row.day - 1) * RT_DAY_S;
		pause_words(s, row.then, sizeof row.then);
		rt_put_row(t, &row);
		pauses |= s->pause != RT_PAUSE_NONE;
		left |= s->entry->status != RT_ENTERED;
	}
	rt_table_show(t, "then", pauses);
	rt_table_show(t, "status", left);
}

/* ---- clashes ---- */

struct clash_row {
	const struct rt_clash *clash;
	const struct rt_start *a, *b;
	const struct rt_entry *entry, *other;
	int64_t day;
	const char *shared;
	char other_start[16]; /* of the first one's day */
	double gap_min, asked_min;
};

#define A(member)     RT_IN(struct clash_row, a, struct rt_start, member)
#define B(member)     RT_IN(struct clash_row, b, struct rt_start, member)
#define FIRST(member) RT_IN(struct clash_row, entry, struct rt_entry, member)
#define OTHER(member) RT_IN(struct clash_row, other, struct rt_entry, member)
#define CLASH(member) RT_IN(struct clash_row, clash, struct rt_clash, member)

static const struct rt_field clash_fields[] = {
	{"what", .head = "What", CLASH(kind), .type = RT_WORD, .words = &rt_words_of_clash_kind},
	{"shared", .head = "Shared", RT_AT(struct clash_row, shared)},
	{"who", .head = "Who or where", CLASH(who)},
	{"day", .head = "Day", RT_AT(struct clash_row, day), NUMBER},
	{"start", .head = "Start", A(at_s), TIME},
	{"class", .head = "Class", FIRST(class_name)},
	{"number", .head = "No.", FIRST(number), NUMBER},
	{"other_start", .head = "And", RT_AT(struct clash_row, other_start), .type = RT_CHARS},
	{"other_class", .head = "Class", OTHER(class_name)},
	{"other_number", .head = "No.", OTHER(number), NUMBER},
	{"gap_min", .head = "Gap min", RT_AT(struct clash_row, gap_min), MINUTES},
	{"asked_min", .head = "Asked min", RT_AT(struct clash_row, asked_min), MINUTES,
	 .wide = true},
	{"ring", .head = "Ring", A(ring), .wide = true},
	{"other_ring", .head = "Other ring", B(ring), .wide = true},
};

static const struct rt_record collisions_table = RT_TABLE("collisions", "Collisions", clash_fields,
							  struct clash_row);

void rt_clashes_report(struct rt_report *report, const struct rt_clashes *clashes)
{
	struct rt_table *t = rt_report_rows(report, &collisions_table);

	for (size_t i = 0; i < clashes->n; i++) {
		const struct rt_clash *c = &clashes->at[i];
		bool shared = c->kind == RT_CLASH_SHARED || c->kind == RT_CLASH_TWO_PLACES;

		struct clash_row row = {
			.clash = c,
			.a = c->a,
			.b = c->b,
			.entry = c->a->entry,
			.other = c->b ? c->b->entry : NULL,
			.day = rt_day_of(c->a->at_s),
			.shared = shared ? rt_shared_words(c->shared) : NULL,
			.gap_min = (double)c->gap_s / 60,
			.asked_min = shared ? (double)c->asked_s / 60 : NAN,
		};

		if (c->b)
			rt_time_words(c->b->at_s, row.day, row.other_start, sizeof row.other_start);
		rt_put_row(t, &row);
	}
	report->needs_person |= clashes->n > 0;
}

/* ---- how good a plan is ---- */

struct plan_row {
	const struct rt_time_quality *quality;
	size_t starts;
	int64_t seed;
	double above_min, gap_min, waits_min, over_min;
	const char *whose;
};

#define QUALITY(member) RT_IN(struct plan_row, quality, struct rt_time_quality, member)
#define PLAN(member)	RT_AT(struct plan_row, member)

static const struct rt_field plan_fields[] = {
	{"starts", .head = "Starts", PLAN(starts), .type = RT_SIZE},
	{"last_finish", .head = "Last finish", QUALITY(last_s), OF_DAY},
	{"bound", .head = "No plan before", QUALITY(bound_s), OF_DAY},
	{"above_bound_min", .head = "Above it min", PLAN(above_min), MINUTES},
	{"smallest_gap_min", .head = "Smallest gap min", PLAN(gap_min), MINUTES},
	{"whose", .head = "Whose", PLAN(whose)},
	{"waits_min", .head = "Waits min", PLAN(waits_min), MINUTES},
	{"missed", .head = "Musts missed", QUALITY(missed), NUMBER, .wide = true},
	{"wishes_missed", .head = "Wishes missed", QUALITY(soft_missed), NUMBER, .wide = true},
	{"over_min", .head = "Over the day min", PLAN(over_min), MINUTES, .wide = true},
	{"seed", .head = "Seed", PLAN(seed), NUMBER},
	{"plans_tried", .head = "Plans tried", QUALITY(tried), .type = RT_SIZE, .wide = true},
	{"last_finish_s", .head = "Last finish s", QUALITY(last_s), SECONDS, .wide = true},
	{"bound_s", .head = "No plan before s", QUALITY(bound_s), SECONDS, .wide = true},
};

static const struct rt_record plan_table = RT_TABLE("plan", "How good the plan is", plan_fields,
						    struct plan_row);

static void report_quality(struct rt_report *report, const struct rt_times *times,
			   const struct rt_time_settings *settings)
{
	const struct rt_time_quality *q = &times->quality;
	struct plan_row row = {
		.quality = q,
		.starts = times->starts.n,
		.seed = settings->seed,
		.above_min = (double)(q->last_s - q->bound_s) / 60,
		.gap_min = q->gap_s < 0 ? NAN : (double)q->gap_s / 60,
		.waits_min = (double)q->waits_s / 60,
		.over_min = (double)q->over_s / 60,
	};

	if (q->gap_s >= 0)
		row.whose = rt_report_textf(report, "%s %s", rt_shared_words(q->gap_shared),
					    q->gap_who);
	rt_report_list(report, &plan_table, &row, 1);
}

/* ---- rings ---- */

struct block_row {
	const struct rt_start *first;
	const char *class_name;
	const struct rt_class *class_; /* NULL: not given */
	const char *test;
	int64_t day, starts;
	char finish[16], judges[JUDGES_BYTES];
};

#define BLOCK(member) RT_AT(struct block_row, member)

static const struct rt_field block_fields[] = {
	{"day", .head = "Day", BLOCK(day), NUMBER},
	{"ring", .head = "Ring", RT_IN(struct block_row, first, struct rt_start, ring)},
	{"class", .head = "Class", BLOCK(class_name)},
	{"starts", .head = "Starts", BLOCK(starts), NUMBER},
	{"first_start", .head = "First start",
	 RT_IN(struct block_row, first, struct rt_start, at_s), TIME},
	{"finish", .head = "Finish", BLOCK(finish), .type = RT_CHARS},
	{"interval_s", .head = "Interval", RT_IN(struct block_row, first, struct rt_start, slot_s),
	 SECONDS},
	{"title", .head = "Title", RT_IN(struct block_row, class_, struct rt_class, title),
	 .wide = true},
	{"test", .head = "Test", BLOCK(test), .wide = true},
	{"judged_by", .head = "Judges", BLOCK(judges), .type = RT_CHARS, .wide = true},
};

static const struct rt_record blocks_table = RT_TABLE("classes", "Classes in the rings",
						      block_fields, struct block_row);

/* Whether two starts are of the same class, ring and day. */
static bool same_block(const struct rt_start *a, const struct rt_start *b)
{
	return strcmp(a->ring, b->ring) == 0 && rt_day_of(a->at_s) == rt_day_of(b->at_s) &&
	       strcmp(a->entry->class_name, b->entry->class_name) == 0;
}

/* How many starts the class of one has with it, and when the last of them ends. */
static void count_block(struct block_row *row, const struct rt_starts *starts, size_t first)
{
	int64_t end = 0;

	for (size_t k = first; k < starts->n; k++)
		if (same_block(&starts->at[k], row->first)) {
			row->starts++;
			end = starts->at[k].at_s + starts->at[k].slot_s;
		}
	rt_time_words(end, row->day, row->finish, sizeof row->finish);
}

/* What is told of the class at its beginning. */
static void name_block(struct block_row *row, const struct rt_classes *classes,
		       const struct rt_tests *tests, const struct rt_judge_sheets *judged)
{
	for (size_t i = 0; i < classes->n; i++)
		if (strcmp(classes->at[i].name, row->class_name) == 0)
			row->class_ = &classes->at[i];
	if (!row->class_)
		return;
	for (size_t i = 0; i < tests->n; i++)
		if (strcmp(tests->at[i].name, row->class_->test) == 0)
			row->test = tests->at[i].title;
	rt_class_judge_words(judged, row->class_, row->judges, sizeof row->judges);
}

static struct rt_table *report_blocks(struct rt_report *report, const struct rt_starts *starts,
				      const struct rt_classes *classes,
				      const struct rt_tests *tests,
				      const struct rt_judge_sheets *judged)
{
	struct rt_table *t = rt_report_rows(report, &blocks_table);

	for (size_t i = 0; i < starts->n; i++) {
		const struct rt_start *first = &starts->at[i];
		struct block_row row = {.first = first,
					.class_name = first->entry->class_name,
					.day = rt_day_of(first->at_s)};
		size_t k = 0;

		while (k < i && !same_block(&starts->at[k], first))
			k++;
		if (k < i) /* told with an earlier one */
			continue;
		count_block(&row, starts, i);
		if (classes)
			name_block(&row, classes, tests, judged);
		rt_put_row(t, &row);
	}
	return t;
}

void rt_times_classes_report(struct rt_report *report, const struct rt_starts *starts,
			     const struct rt_classes *classes, const struct rt_tests *tests,
			     const struct rt_judge_sheets *judged)
{
	static const char *const shown[] = {"title", "test", "judged_by"};
	static const char *const hidden[] = {"starts", "finish", "interval_s"};
	struct rt_table *t = report_blocks(report, starts, classes, tests, judged);

	rt_table_title(t, "Classes begin");
	for (size_t i = 0; i < 3; i++) {
		rt_table_show(t, shown[i], true);
		rt_table_show(t, hidden[i], false);
	}
}

/* ---- wishes ---- */

struct wish_row {
	const struct rt_wish_told *told;
	const char *weight;
	bool met;
	double missed_min;
};

#define TOLD(member) RT_IN(struct wish_row, told, struct rt_wish_told, member)

static const struct rt_field wish_fields[] = {
	{"wish", .head = "Wish", TOLD(words)},
	{"weight", .head = "Weight", RT_AT(struct wish_row, weight)},
	{"met", .head = "Met", RT_AT(struct wish_row, met), .type = RT_BOOL},
	{"missed_min", .head = "By min", RT_AT(struct wish_row, missed_min), MINUTES},
	{"drop", .head = "Drop it", TOLD(drop), .type = RT_BOOL},
	{"because", .head = "Because", TOLD(because), .wide = true},
};

static const struct rt_record wishes_table = RT_TABLE("wishes", "Wishes", wish_fields,
						      struct wish_row);

static void report_wishes(struct rt_report *report, const struct rt_times *times)
{
	struct rt_table *t;

	if (!times->wishes.n)
		return;
	t = rt_report_rows(report, &wishes_table);
	for (size_t i = 0; i < times->wishes.n; i++) {
		const struct rt_wish_told *told = &times->wishes.at[i];
		struct wish_row row = {.told = told,
				       .weight = "must",
				       .met = told->missed_s == 0,
				       .missed_min = NAN};

		if (told->wish && told->wish->weight)
			row.weight = rt_report_textf(report, "%lld", (long long)told->wish->weight);
		if (!row.met)
			row.missed_min = (double)told->missed_s / 60;
		rt_put_row(t, &row);
		if (told->because)
			rt_report_note(report, "Missed: %s, because %s.", told->words,
				       told->because);
		if (told->drop)
			rt_report_note(report, "All else that must be can be met without%s: %s.",
				       times->drops > 1 ? " these together" : "", told->words);
	}
	if (times->quality.missed && !times->drops)
		rt_report_note(report, "Not everything that must be can be met, and nothing was "
				       "found to drop: the day is too short.");
}

void rt_plan_report(struct rt_report *report, const struct rt_times *times,
		    const struct rt_time_settings *settings)
{
	report_quality(report, times, settings);
	report_blocks(report, &times->starts, NULL, NULL, NULL);
	report_wishes(report, times);
	report->needs_person |= times->quality.missed > 0;
}

/* ---- draw ---- */

struct draw_row {
	int64_t place;
	const struct rt_entry *entry;
};

#define DRAWN(member) RT_IN(struct draw_row, entry, struct rt_entry, member)

static const struct rt_field draw_fields[] = {
	{"class", .head = "Class", DRAWN(class_name)},
	{"place", .head = "Place", RT_AT(struct draw_row, place), NUMBER},
	{"number", .head = "No.", DRAWN(number), NUMBER},
	{"driver", .head = "Driver", DRAWN(driver)},
	{"horses", .head = "Horses", DRAWN(horses), .type = RT_NAMES},
};

static const struct rt_record draw_table = RT_TABLE("draw", "Draw", draw_fields, struct draw_row);

struct spread_row {
	const char *class_name;
	const struct rt_draw_spread *spread;
};

#define SPREAD(member) RT_IN(struct spread_row, spread, struct rt_draw_spread, member)

static const struct rt_field spread_fields[] = {
	{"class", .head = "Class", RT_AT(struct spread_row, class_name)},
	{"driver", .head = "Driver", SPREAD(driver)},
	{"turnouts", .head = "Turnouts", SPREAD(turnouts), NUMBER},
	{"apart", .head = "Places apart", SPREAD(apart), NUMBER},
};

static const struct rt_record spread_table = RT_TABLE("spread", "Drivers with several turnouts",
						      spread_fields, struct spread_row);

const struct rt_record *const rt_times_tables[] = {
	&times_table,	   &collisions_table, &plan_table,   &blocks_table, &wishes_table,
	&rt__shares_table, &draw_table,	      &spread_table, NULL};

/* The table of those rows that the report has, else a new one. */
static struct rt_table *table_of(struct rt_report *report, const struct rt_record *record)
{
	for (size_t i = 0; i < report->tables; i++)
		if (report->table[i]->record == record)
			return report->table[i];
	return rt_report_rows(report, record);
}

void rt_draw_report(struct rt_report *report, const struct rt_draw *draw,
		    const struct rt_entries *entries)
{
	struct rt_table *t = table_of(report, &draw_table);

	for (size_t i = 0; i < draw->n; i++)
		rt_put_row(t, &(struct draw_row){(int64_t)i + 1, &entries->at[draw->order[i]]});
	if (draw->spreads.n)
		t = table_of(report, &spread_table);
	for (size_t i = 0; i < draw->spreads.n; i++)
		rt_put_row(t, &(struct spread_row){entries->at[draw->order[0]].class_name,
						   &draw->spreads.at[i]});
}
