/* Who and what takes part in more than one start, as a table of a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdlib.h>

/* A person, horse or carriage, and its starts so far. */
struct share {
	enum rt_shared as;
	const struct rt_start *last;
	int64_t starts, gap_s; /* gap_s: the smallest */
	const char *who, *words;
};

struct share_row {
	const struct share *share;
	const char *as;
	double gap_min;
};

#define SHARE(member) RT_IN(struct share_row, share, struct share, member)

static const struct rt_field share_fields[] = {
	{"shared", .head = "Shared", RT_AT(struct share_row, as)},
	{"who", .head = "Who or what", SHARE(who)},
	{"starts", .head = "Starts", SHARE(starts), .type = RT_INT},
	{"gap_min", .head = "Least gap min", RT_AT(struct share_row, gap_min), .type = RT_REAL,
	 .decimals = 1},
	{"where", .head = "Where", SHARE(words)},
};

const struct rt_record rt__shares_table = RT_TABLE("shares", "Who and what starts more than once",
						   share_fields, struct share_row);

/* "class 1 no. 12 at 09:00", with the day behind where that is another. */
static void add_words(struct rt_report *report, struct share *share, const struct rt_start *s)
{
	int64_t day = rt_day_of(s->at_s);
	char at[16];

	rt_time_words(s->at_s, day, at, sizeof at);
	share->words = rt_report_textf(report, "%s%sclass %s no. %lld at %s",
				       share->words ? share->words : "", share->words ? "; " : "",
				       s->entry->class_name, (long long)s->entry->number, at);
	if (day > 1)
		share->words = rt_report_textf(report, "%s on day %lld", share->words,
					       (long long)day);
}

static void add_start(struct rt_report *report, struct share *share, const struct rt_start *s,
		      enum rt_shared as)
{
	int64_t gap = share->last ? s->at_s - share->last->at_s - share->last->slot_s : INT64_MAX;

	share->as = share->last ? rt__shared_of(share->as, as) : as;
	share->gap_s = share->last && share->gap_s < gap ? share->gap_s : gap;
	share->last = s;
	share->starts++;
	add_words(report, share, s);
}

/* Find the uses of all starts; uses[from[i]..from[i + 1]) are of starts->at[i]. */
static void find_uses(const struct rt_starts *starts, struct rt__sharers *sharers,
		      struct rt__uses *uses, size_t *from)
{
	for (size_t i = 0; i < starts->n; i++) {
		from[i] = uses->n;
		if (starts->at[i].entry->status == RT_ENTERED)
			rt__uses_of_entry(uses, sharers, starts->at[i].entry);
	}
	from[starts->n] = uses->n;
}

static void report_shares(struct rt_report *report, const struct share *share, size_t n)
{
	struct rt_table *t = NULL;

	for (size_t i = 0; i < n; i++) {
		const struct share_row row = {&share[i], rt_shared_words(share[i].as),
					      (double)share[i].gap_s / 60};

		if (share[i].starts < 2)
			continue;
		t = t ? t : rt_report_rows(report, &rt__shares_table);
		rt_put_row(t, &row);
	}
}

void rt_shares_report(struct rt_report *report, const struct rt_starts *starts)
{
	struct rt__sharers sharers = {0};
	struct rt__uses uses = {0};
	size_t *from = calloc(starts->n + 1, sizeof *from);
	struct share *share = NULL;

	if (from)
		find_uses(starts, &sharers, &uses, from);
	share = calloc(sharers.names.n + 1, sizeof *share);
	report->nomem |= !from || !share || sharers.nomem;
	for (size_t i = 0; i < starts->n && !report->nomem; i++)
		for (size_t u = from[i]; u < from[i + 1]; u++) {
			struct share *of = &share[uses.at[u].sharer];

			of->who = sharers.names.at[uses.at[u].sharer];
			add_start(report, of, &starts->at[i], uses.at[u].as);
		}
	if (!report->nomem)
		report_shares(report, share, sharers.names.n);
	free(share);
	free(from);
	RT_LIST_FREE(&uses);
	rt__sharers_free(&sharers);
}
