/* Lists of start times: by ring and by driver, for the gate, the announcer and the steward.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

#define WORDS_BYTES  (4 * RT_NAME_MOST + 100)
#define CLASS_BYTES  2000 /* a class with its judges, or a line of a list */
#define CHANGE_BYTES 4000
#define FORMER_MOST  6 /* so many lines that changed are told as they were */

/* ---- what each list shows -------------------------------------------------------------------- */

#define TIME_NUMBER                                                                                \
	{.name = "time", .head = "Time", .anchor = RT_ANCHOR_RIGHT},                               \
	{                                                                                          \
		.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT                         \
	}

#define CLASS_BEGINS                                                                               \
	{                                                                                          \
		.name = "whole", .whole = true                                                     \
	}

static const struct rt__list_column ring_columns[] = {
	CLASS_BEGINS,
	TIME_NUMBER,
	{.name = "class", .head = "Class"},
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "club", .head = "Club", .if_any = true},
};

static const struct rt__list_column driver_columns[] = {
	{.name = "driver", .head = "Driver or rider"},
	{.name = "time", .head = "Time", .anchor = RT_ANCHOR_RIGHT},
	{.name = "ring", .head = "Ring"},
	{.name = "class", .head = "Class"},
	{.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "horses", .head = "Horses"},
};

static const struct rt__list_column gate_columns[] = {
	CLASS_BEGINS,
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "turnout", .head = "Turnout", .if_any = true},
	{.head = "Called", .box_mm = 14.0, .with = "number"},
	{.head = "In", .box_mm = 14.0, .with = "number"},
	{.head = "Out", .box_mm = 14.0, .with = "number"},
};

static const struct rt__list_column announcer_columns[] = {
	CLASS_BEGINS,
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "groom", .head = "Groom", .if_any = true},
	{.name = "club", .head = "Club", .if_any = true},
	{.name = "class", .head = "Class"},
};

static const struct rt__list_column steward_columns[] = {
	CLASS_BEGINS,
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "groom", .head = "Groom", .if_any = true},
	{.head = "Before", .box_mm = 12.0, .with = "number"},
	{.head = "After", .box_mm = 12.0, .with = "number"},
	{.head = "Remarks", .box_mm = 22.0, .with = "number"},
};

static const struct {
	const char *title;
	struct rt__list_view view;
	const char *signature;
} lists[] = {
	[RT_START_LIST_RING] = {.title = "Start list by ring",
				.view = {RT__LIST_VIEW("starts", ring_columns)}},
	[RT_START_LIST_DRIVER] = {.title = "Start times by driver or rider",
				  .view = {RT__LIST_VIEW("starts", driver_columns)}},
	[RT_START_LIST_GATE] = {.title = "Gate list",
				.view = {RT__LIST_VIEW("starts", gate_columns)}},
	[RT_START_LIST_ANNOUNCER] = {.title = "Announcer's list",
				     .view = {RT__LIST_VIEW("starts", announcer_columns)}},
	[RT_START_LIST_STEWARD] = {.title = "Steward's list",
				   .view = {RT__LIST_VIEW("starts", steward_columns)},
				   .signature = "Steward:"},
};

/* ---- tables ---------------------------------------------------------------------------------- */

/* A start; a pause, which is of no entry; or the beginning of a class, which has `whole` alone. */
struct line {
	const char *time, *ring, *who, *whole;
	const struct rt_entry *entry;
};

#define ENTRY(member) RT_IN(struct line, entry, struct rt_entry, member)

static const struct rt_field line_fields[] = {
	{"time", RT_AT(struct line, time)}, {"number", ENTRY(number), .type = RT_INT},
	{"class", ENTRY(class_name)},	    {"driver", RT_AT(struct line, who)},
	{"horses", ENTRY(horses)},	    {"club", ENTRY(club)},
	{"ring", RT_AT(struct line, ring)}, {"groom", ENTRY(groom)},
	{"turnout", ENTRY(turnout)},	    {"whole", RT_AT(struct line, whole)},
	{"id", ENTRY(id), .type = RT_INT},
};

static const struct rt_record line_record = RT_TABLE("starts", NULL, line_fields, struct line);

/* The lists of a paper under way: a table each, which stands in the report. */
struct tables {
	struct rt_report report;
	struct rt_times_lists lists; /* their lines are not made yet */
};

static void tables_free(struct tables *t)
{
	rt_report_free(&t->report);
	rt_times_lists_free(&t->lists);
}

/* Who left is told beside the name, so that nobody waits at the gate. */
static void put_start(struct rt_table *t, const struct rt_start *start)
{
	const struct rt_entry *entry = start->entry;
	char time[32], who[WORDS_BYTES];

	rt_time_words(start->at_s, rt_day_of(start->at_s), time, sizeof time);
	snprintf(who, sizeof who, "%s (%s)", entry->driver, rt_status_words(entry->status));
	rt_put_row(t, &(struct line){.time = time,
				     .ring = start->ring,
				     .who = entry->status == RT_ENTERED ? entry->driver : who,
				     .entry = entry});
}

/* "break, 10 min" as a row of its own. */
static void put_pause(struct rt_table *t, const struct rt_start *start)
{
	int64_t at = start->at_s + start->slot_s;
	char time[32], what[80];

	rt_time_words(at, rt_day_of(start->at_s), time, sizeof time);
	snprintf(what, sizeof what, "%s, %lld min", rt_pause_words(start->pause),
		 (long long)((start->pause_s + 59) / 60));
	rt_put_row(t, &(struct line){.time = time, .who = what});
}

static const char *test_title(const struct rt_tests *tests, const char *name)
{
	for (size_t i = 0; i < tests->n; i++)
		if (strcmp(tests->at[i].name, name) == 0)
			return tests->at[i].title;
	return name;
}

/* "Class 3: Novice pairs. Driven test 2. Judges: C Ada Lund, B Bo Ek." */
static void put_class(struct rt_table *t, const struct rt_times_paper *of, const char *name)
{
	char words[CLASS_BYTES] = "", judges[CLASS_BYTES];

	for (size_t i = 0; i < of->classes->n; i++) {
		const struct rt_class *k = &of->classes->at[i];

		if (strcmp(k->name, name) != 0)
			continue;
		rt_class_judge_words(of->judged, k, judges, sizeof judges);
		rt__add_words(words, sizeof words, "Class %s: %s. %s. Judges: %s.", k->name,
			      k->title, test_title(of->tests, k->test), judges);
	}
	rt_put_row(t, &(struct line){.whole = words});
}

/* A class that others came between. */
static void put_class_again(struct rt_table *t, const char *name)
{
	char words[WORDS_BYTES];

	snprintf(words, sizeof words, "Class %s goes on.", name);
	rt_put_row(t, &(struct line){.whole = words});
}

/* A start, and what its list is ordered by on a day: its ring, or its driver's name folded. */
struct listed {
	const struct rt_start *start;
	const char *by;
	char *folded; /* NULL: by ring */
};

static int compare(int64_t a, int64_t b)
{
	return (a > b) - (a < b);
}

static int by_order(const void *left, const void *right)
{
	const struct listed *a = left, *b = right;
	int order = compare(rt_day_of(a->start->at_s), rt_day_of(b->start->at_s));

	if (!order)
		order = strcmp(a->by, b->by);
	if (!order)
		order = compare(a->start->at_s, b->start->at_s);
	return order ? order : compare(a->start->entry->number, b->start->entry->number);
}

/* Drivers of a day stand in one table, rings in one each. */
static bool same_table(const struct listed *a, const struct listed *b)
{
	return rt_day_of(a->start->at_s) == rt_day_of(b->start->at_s) &&
	       (a->folded || strcmp(a->by, b->by) == 0);
}

/* Tell the class of listed[i] where it begins, or goes on behind another, in its ring. */
static void begin_class(struct rt_table *t, const struct rt_times_paper *of,
			const struct listed *listed, size_t i)
{
	const char *name = listed[i].start->entry->class_name, *before = NULL;
	bool begun = false;

	for (size_t k = i; k-- > 0 && same_table(&listed[i], &listed[k]);) {
		const char *other = listed[k].start->entry->class_name;

		before = before ? before : other;
		begun |= strcmp(name, other) == 0;
	}
	if (before && strcmp(before, name) == 0)
		return;
	if (begun)
		put_class_again(t, name);
	else
		put_class(t, of, name);
}

static struct rt_table *add_table(struct tables *t, const struct listed *first)
{
	struct rt_times_list *list = RT_LIST_ADD(&t->lists);

	t->report.nomem |= !list;
	if (list)
		*list = (struct rt_times_list){.now = {.ring = first->folded ? NULL : first->by,
						       .day = rt_day_of(first->start->at_s)}};
	return rt_report_rows(&t->report, &line_record);
}

static void add_tables(struct tables *out, const struct rt_times_paper *of,
		       const struct listed *listed, size_t n)
{
	struct rt_table *t = NULL;

	for (size_t i = 0; i < n; i++) {
		bool last = i + 1 == n || !same_table(&listed[i], &listed[i + 1]);

		if (i == 0 || !same_table(&listed[i], &listed[i - 1]))
			t = add_table(out, &listed[i]);
		if (!listed[i].folded)
			begin_class(t, of, listed, i);
		put_start(t, listed[i].start);
		if (listed[i].start->pause != RT_PAUSE_NONE && !listed[i].folded && !last)
			put_pause(t, listed[i].start);
	}
}

static enum rt_err list_starts(struct tables *out, const struct rt_times_paper *of,
			       struct rt_error *err)
{
	size_t n = of->starts->n;
	struct listed *listed = calloc(n + 1, sizeof *listed);
	enum rt_err e = listed ? RT_OK : rt_fail_nomem(err);

	for (size_t i = 0; i < n && !e; i++) {
		const struct rt_start *start = &of->starts->at[i];

		listed[i] = (struct listed){.start = start, .by = start->ring};
		if (of->list == RT_START_LIST_DRIVER)
			listed[i].by = listed[i].folded = rt_fold(start->entry->driver);
		if (!listed[i].by)
			e = rt_fail_nomem(err);
	}
	if (!e) {
		qsort(listed, n, sizeof *listed, by_order);
		add_tables(out, of, listed, n);
	}
	for (size_t i = 0; listed && i < n; i++)
		free(listed[i].folded);
	free(listed);
	return e ? e : rt_report_result(&out->report, err);
}

/* ---- lists ----------------------------------------------------------------------------------- */

/* A row as the list prints it. */
static bool add_line(struct rt_list_lines *lines, const struct rt__list_view *view,
		     const struct rt_table *t, size_t row)
{
	const struct rt_value *id = rt_table_cell(t, row, rt__column_named(t, "id"));
	struct rt_list_line *line = RT_LIST_ADD(lines);
	char words[CLASS_BYTES] = "", buf[RT__COLUMN_BYTES];

	if (!line)
		return false;
	for (size_t i = 0; i < view->columns; i++) {
		const char *cell = rt__column_words(t, row, view->column[i].name, false, buf);

		if (*cell)
			rt__add_words(words, sizeof words, "%s%s", *words ? ", " : "", cell);
	}
	*line = (struct rt_list_line){id->null ? 0 : id->as.whole,
				      rt_arena_string(&lines->text, words)};
	return line->words != NULL;
}

enum rt_err rt_times_lists_make(struct rt_times_lists *out, const struct rt_times_paper *of,
				struct rt_error *err)
{
	struct tables t = {0};
	enum rt_err e = list_starts(&t, of, err);

	for (size_t i = 0; i < t.lists.n && !e; i++) {
		struct rt_printed_list *now = &t.lists.at[i].now;
		const struct rt_table *table = t.report.table[i];

		now->list = of->list;
		for (size_t row = 0; row < rt_table_rows(table) && !e; row++)
			if (!add_line(&now->lines, &lists[of->list].view, table, row))
				e = rt_fail_nomem(err);
	}
	if (!e) {
		*out = t.lists;
		t.lists = (struct rt_times_lists){0};
	}
	tables_free(&t);
	return e;
}

void rt_times_lists_free(struct rt_times_lists *made)
{
	for (size_t i = 0; i < made->n; i++) {
		RT_LIST_FREE(&made->at[i].before);
		rt_printed_list_free(&made->at[i].now);
	}
	RT_LIST_FREE(made);
}

/* ---- what changed ---------------------------------------------------------------------------- */

/* A bar beside every line that the version before did not have so; how many there are. */
static size_t mark_lines(const struct rt_times_list *list, bool *marked)
{
	size_t n = 0;

	for (size_t i = 0; i < list->now.lines.n; i++) {
		marked[i] = !rt_list_line_stands(&list->before, &list->now.lines.at[i]);
		n += marked[i];
	}
	return n;
}

/* The lines of entries that say something else now, or that have none any more. */
static void add_former(const struct rt_times_list *list, bool gone, char *out, size_t size)
{
	const char *lead = gone ? " No longer here: " : " Before: ";

	for (size_t i = 0; i < list->before.n; i++) {
		const struct rt_list_line *was = &list->before.at[i];
		const struct rt_list_line *now = rt_list_line_of(&list->now.lines, was->entry);

		if (!was->entry || gone != !now || (now && strcmp(now->words, was->words) == 0))
			continue;
		rt__add_words(out, size, "%s%s", lead, was->words);
		lead = "; ";
	}
	if (*lead == ';')
		rt__add_words(out, size, ".");
}

/* Many lines that moved are not told one by one. */
static const char *change_words(struct rt_report *report, const struct rt_times_list *list,
				size_t marked)
{
	char words[CHANGE_BYTES] = "";

	rt__add_words(words, sizeof words, "Changed since version %lld: %zu %s, with a bar beside.",
		      (long long)list->now.version - 1, marked, marked == 1 ? "line" : "lines");
	if (marked <= FORMER_MOST)
		add_former(list, false, words, sizeof words);
	add_former(list, true, words, sizeof words);
	return rt_report_textf(report, "%s", words);
}

/* ---- the paper ------------------------------------------------------------------------------- */

/* "Oak ring, Saturday 2026-05-02 (day 1), version 2" */
static const char *heading_words(struct rt_report *report, const struct rt_times_paper *of,
				 const struct rt_printed_list *list)
{
	char date[RT_DAY_SIZE];

	rt_day_after(of->first_day, list->day - 1, date);
	return rt_report_textf(report, "%s%s%s %s (day %lld), version %lld",
			       list->ring ? list->ring : "", list->ring ? ", " : "",
			       rt_weekday(date), date, (long long)list->day,
			       (long long)list->version);
}

/* Titles, and what is said of each table; false when memory is out. */
static bool say(struct rt__list_said *said, struct tables *t, const struct rt_times_paper *of,
		const struct rt_times_lists *made)
{
	for (size_t i = 0; i < made->n; i++) {
		const struct rt_times_list *list = &made->at[i];
		bool *marked = rt_arena_take(&t->report.text, list->now.lines.n + 1);

		if (!marked)
			return false;
		rt_table_title(t->report.table[i], heading_words(&t->report, of, &list->now));
		if (list->now.version > 1)
			said[i] = (struct rt__list_said){
				change_words(&t->report, list, mark_lines(list, marked)), marked};
	}
	return true;
}

enum rt_err rt_sheet_times(struct rt_sheet *out, const struct rt_times_paper *of,
			   const struct rt_times_lists *made,
			   const struct rt_sheet_options *options, struct rt_error *err)
{
	static const char *const last = "The list put up last holds: compare the version.";
	struct tables t = {0};
	struct rt__list_said *said = rt_arena_take(&t.report.text, (made->n + 1) * sizeof *said);
	const struct rt__list_paper paper = {.title = lists[of->list].title,
					     .line = {options->show, of->about, last},
					     .report = &t.report,
					     .view = &lists[of->list].view,
					     .views = 1,
					     .said = said,
					     .new_pages = of->list != RT_START_LIST_DRIVER,
					     .signature = lists[of->list].signature};
	enum rt_err e = said ? list_starts(&t, of, err) : rt_fail_nomem(err);

	if (!e && !say(said, &t, of, made))
		e = rt_fail_nomem(err);
	if (!e)
		e = rt__list(out, &paper, options, err);
	tables_free(&t);
	return e;
}
