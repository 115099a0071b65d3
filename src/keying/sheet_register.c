/* The register of sheets: where each one is, and what is waited for.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

#include "../base/enum_words.h"

RT__ENUM_WORDS(sheet_state, "state", RT_SHEET_STATES)

#define FIRST_KEYING "the first keying"

/* How the boxes of a sheet are keyed; the errors of course are a box once somebody keyed them,
 * a hand total only where the keyings differ. */
struct count {
	size_t boxes;
	size_t filled[RT_KEYINGS];
	size_t differing, empty;
	bool errors_once;
};

/* A row of the register. */
struct sheet {
	const struct rt_entry *entry;
	const struct rt_judge *judge;
	enum rt_sheet_state state;
	const char *since, *by;
	char waiting_for[RT_NAME_MOST * 3];
};

static const struct rt_field sheet_fields[] = {
	{"number", .head = "No.", RT_IN(struct sheet, entry, struct rt_entry, number),
	 .type = RT_INT},
	{"driver", .head = "Driver", RT_IN(struct sheet, entry, struct rt_entry, driver)},
	{"judge", .head = "Judge", RT_IN(struct sheet, judge, struct rt_judge, position)},
	{"state", .head = "State", RT_AT(struct sheet, state), .type = RT_WORD,
	 .words = &rt_words_of_sheet_state},
	{"waiting_for", .head = "Waiting for", RT_AT(struct sheet, waiting_for), .type = RT_CHARS},
	{"since", .head = "Since", RT_AT(struct sheet, since)},
	{"by", .head = "By", RT_AT(struct sheet, by)},
};

const struct rt_record rt__sheets_table = RT_TABLE("sheets", "Sheets", sheet_fields, struct sheet);

static void count_box(struct count *count, const int64_t keyed[RT_KEYINGS])
{
	int64_t value;

	for (int k = 0; k < RT_KEYINGS; k++)
		count->filled[k] += keyed[k] >= 0;
	count->boxes++;
	count->empty += rt__settle(keyed, &value) == RT__EMPTY;
	count->differing += rt__settle(keyed, &value) == RT__DIFFERING;
}

static struct count count_boxes(const struct rt_class_marks *m, size_t entry, size_t judge)
{
	const int64_t *errors = rt__lines(m, entry, judge)->errors;
	struct count count = {.boxes = 0};
	int64_t total;

	for (size_t i = 0; i < m->items->n; i++) {
		const struct rt_box *box = rt_class_marks_box(m, entry, judge, i);

		/* A box that stays empty wants no keying. */
		if (rt_class_marks_asked(m, judge, i) &&
		    (!box->missing || box->keyed_x100[0] >= 0 || box->keyed_x100[1] >= 0))
			count_box(&count, box->keyed_x100);
	}
	if (errors[0] >= 0 || errors[1] >= 0) {
		count_box(&count, errors);
		count.errors_once = errors[0] < 0 || errors[1] < 0;
	}
	count.differing += rt__settle(rt__lines(m, entry, judge)->total_x100000, &total) ==
			   RT__DIFFERING;
	return count;
}

static const struct rt_sheet_event *latest_event(const struct rt_sheet_events *events,
						 int64_t entry, int64_t judge)
{
	const struct rt_sheet_event *latest = NULL;

	for (size_t i = 0; i < events->n; i++)
		if (events->at[i].entry == entry && events->at[i].judge == judge)
			latest = &events->at[i];
	return latest;
}

/* The row of a sheet that was kept last. */
static const struct rt_mark_version *latest_row(const struct rt_mark_versions *versions,
						int64_t entry, int64_t judge)
{
	size_t n;
	const struct rt_mark_version *row = rt__sheet_rows(versions, entry, judge, &n);
	const struct rt_mark_version *latest = NULL;

	for (size_t i = 0; i < n; i++)
		if (!latest || row[i].pass >= latest->pass)
			latest = &row[i];
	return latest;
}

/* What a sheet with one whole keying, or two, still wants. */
static enum rt_sheet_state judge_keyed(const struct rt_class_marks *m, size_t entry, size_t judge,
				       const struct count *count, char *wants, size_t size)
{
	bool checked = rt__total_checks(m, entry, judge);

	if (count->differing)
		snprintf(wants, size, "%zu difference%s between the keyings", count->differing,
			 count->differing == 1 ? "" : "s");
	else if (count->filled[0] == count->boxes && count->filled[1] == count->boxes)
		return RT_SHEET_COMPARED;
	else if (checked && !count->errors_once)
		return RT_SHEET_COMPARED;
	else if (checked)
		snprintf(wants, size, "the errors of course a second time");
	else if (count->filled[0] && count->filled[1])
		snprintf(wants, size, "the second keying: %zu of %zu boxes",
			 count->filled[count->filled[0] == count->boxes], count->boxes);
	else
		snprintf(wants, size, "the second keying, or another person's hand total");
	return RT_SHEET_KEYED;
}

/* Whether somebody has added the sheet up by hand, and so had it. */
static bool has_total(const struct rt_class_marks *m, size_t entry, size_t judge)
{
	const int64_t *total = rt__lines(m, entry, judge)->total_x100000;

	return total[0] >= 0 || total[1] >= 0;
}

/* What the marks alone say. */
static enum rt_sheet_state judge_marks(const struct rt_class_marks *m, size_t entry, size_t judge,
				       const struct count *count, char *wants, size_t size)
{
	size_t most = count->filled[0] > count->filled[1] ? count->filled[0] : count->filled[1];

	if (most == 0 && !has_total(m, entry, judge))
		return RT_SHEET_EXPECTED;
	if (most == 0) {
		snprintf(wants, size, FIRST_KEYING);
		return RT_SHEET_IN;
	}
	if (count->empty == 0)
		return judge_keyed(m, entry, judge, count, wants, size);
	snprintf(wants, size, "the %s keying: %zu of %zu boxes",
		 most == count->filled[0] ? "first" : "second", most, count->boxes);
	return RT_SHEET_IN;
}

/* What a person said last goes before the marks, where it says more. */
static void add_event(struct sheet *s, const struct rt_sheet_event *event)
{
	size_t size = sizeof s->waiting_for;

	if (!event || (event->state == RT_SHEET_IN && s->state != RT_SHEET_EXPECTED))
		return;
	s->state = event->state;
	s->since = event->when;
	s->by = event->who;
	if (event->state == RT_SHEET_QUERIED)
		snprintf(s->waiting_for, size, "the judge's answer%s%s", event->why ? ": " : "",
			 event->why ? event->why : "");
	else if (event->state == RT_SHEET_IN)
		snprintf(s->waiting_for, size, FIRST_KEYING);
}

static void make_sheet(struct sheet *s, const struct rt_class_marks *m, size_t entry, size_t judge,
		       const struct rt_mark_versions *versions,
		       const struct rt_sheet_events *events)
{
	int64_t entry_id = m->entries->at[entry].id, judge_id = m->class_->judges.at[judge].id;
	const struct rt_mark_version *row = latest_row(versions, entry_id, judge_id);
	struct count count = count_boxes(m, entry, judge);

	*s = (struct sheet){.entry = &m->entries->at[entry], .judge = &m->class_->judges.at[judge]};
	s->state = judge_marks(m, entry, judge, &count, s->waiting_for, sizeof s->waiting_for);
	s->since = row ? row->when : NULL;
	s->by = row ? row->who : NULL;
	if (s->state == RT_SHEET_EXPECTED)
		snprintf(s->waiting_for, sizeof s->waiting_for, "the sheet");
	add_event(s, latest_event(events, entry_id, judge_id));
	/* Who left needs no marks; but a question to a judge wants its answer. */
	if (m->entries->at[entry].status != RT_ENTERED && s->state != RT_SHEET_QUERIED)
		s->waiting_for[0] = '\0';
}

/* Whether a row belongs into the table. */
static bool is_listed(const struct rt_class_marks *m, size_t entry, const struct sheet *s,
		      bool waiting)
{
	if (waiting)
		return *s->waiting_for != '\0';
	return m->entries->at[entry].status == RT_ENTERED || s->state != RT_SHEET_EXPECTED;
}

/* How many sheets are waited for, by where they are. */
struct tally {
	size_t sheets, waited, state[RT_SHEET_RETURNED + 1];
};

static void note_tally(struct rt_report *report, const struct tally *tally)
{
	char parts[200] = "";

	if (!tally->waited) {
		rt_report_note(report, "No sheet is waited for.");
		return;
	}
	for (int i = 0; i <= RT_SHEET_RETURNED; i++)
		if (tally->state[i])
			rt_append(parts, sizeof parts, "%s%zu %s", *parts ? ", " : "",
				  tally->state[i], rt_sheet_state_words((enum rt_sheet_state)i));
	rt_report_note(report, "%zu of %zu sheets are waited for: %s.", tally->waited,
		       tally->sheets, parts);
}

void rt_sheets_report(struct rt_report *report, const struct rt_class_marks *m,
		      const struct rt_mark_versions *versions, const struct rt_sheet_events *events,
		      int64_t number, bool waiting)
{
	struct rt_table *t = rt_report_rows(report, &rt__sheets_table);
	struct tally tally = {.sheets = 0};
	struct sheet s;

	for (size_t e = 0; e < m->entries->n; e++) {
		const struct rt_entry *entry = &m->entries->at[e];

		if (!rt__started(entry->status) || (number >= 0 && entry->number != number))
			continue;
		for (size_t j = 0; j < m->class_->judges.n; j++) {
			if (rt__lines(m, e, j)->away)
				continue;
			make_sheet(&s, m, e, j, versions, events);
			tally.sheets += is_listed(m, e, &s, false);
			tally.waited += *s.waiting_for != '\0';
			tally.state[s.state] += *s.waiting_for != '\0';
			if (is_listed(m, e, &s, waiting))
				rt_put_row(t, &s);
		}
	}
	note_tally(report, &tally);
}
