/* entry status: how entries stand, as many as are told at once.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "office.h"

#include <string.h>

struct status {
	const char *class_name;
	struct rt_strings numbers; /* "12", "12-18" */
	enum rt_status status;
	const char *at;
	struct rt_reason reason;
};

static const struct rt_field status_options[] = {
	CLI_CLASS(struct status, class_name),
	{"number", RT_AT(struct status, numbers), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_MANY},
	{"status", RT_AT(struct status, status), RT_WORD_OF(status),
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"at", RT_AT(struct status, at), .head = "TIME", .type = RT_TEXT, .high = 40,
	 .help = "when it was so: HH:MM, or a date with a time; now unless given"},
	CLI_WHY(struct status, reason.why, 0),
	CLI_BY(struct status, reason.who, 0),
};

static const struct rt_field status_fields[] = {
	{"class", RT_AT(struct rt_entry, class_name)},
	{"number", .head = "no.", RT_AT(struct rt_entry, number), .type = RT_INT},
	{"driver", RT_AT(struct rt_entry, driver)},
	{"status", RT_AT(struct rt_entry, status), RT_WORD_OF(status)},
	{"at", RT_AT(struct rt_entry, status_at)},
	{"why", RT_AT(struct rt_entry, status_why)},
};

static const struct rt_record status_table = RT_TABLE("status", "Status", status_fields,
						      struct rt_entry);

/* --at: HH:MM of the day that outputs carry, or a date with a time. */
static void read_at(struct cli *c, const char *typed, char at[static 24])
{
	size_t length = typed ? strlen(typed) : 0;
	bool time = length == 5 || length == 8, dated = length > 10 && length < 24;

	snprintf(at, 24, "%s", c->when);
	if (!typed)
		return;
	snprintf(at + (time ? 11 : 0), time ? 24 - 11 : 24, "%s", typed);
	at[10] = ' ';
	if (!(time || dated) || !rt_parse_when(at))
		CLI_FAIL(c, RT_E_USAGE, "--at: \"%s\": HH:MM, or \"YYYY-MM-DD HH:MM\"", typed);
	else if (strlen(at) == 16)
		strcat(at, ":00");
}

/* ---- which entries ----------------------------------------------------------------------- */

/* "12" or "12-18". */
static void read_range(struct cli *c, const char *typed, int64_t *from, int64_t *to)
{
	char first[24] = "";
	size_t length = strcspn(typed, "-");

	if (length < sizeof first)
		memcpy(first, typed, length);
	if (!rt_parse_int(first, from) || *from < 1 || *from > RT_NUMBER_MOST ||
	    (typed[length] &&
	     (!rt_parse_int(typed + length + 1, to) || *to < *from || *to > RT_NUMBER_MOST)))
		CLI_FAIL(c, RT_E_USAGE,
			 "number: \"%s\" is wrong: a number from 1 to %d, or the first and the last "
			 "of several with a dash between (12-18)",
			 typed, RT_NUMBER_MOST);
	else if (!typed[length])
		*to = *from;
}

/* The places of entries in the list of the class, each once, in its order. */
static void find_range(struct cli *c, const struct rt_entries *entries, const char *class_name,
		       const char *typed, bool *said)
{
	const struct rt_entry *one = NULL;
	int64_t from = 0, to = 0;
	bool any = false;

	read_range(c, typed, &from, &to);
	if (from == to) {
		cli_find_entry(c, entries, class_name, from, &one);
		if (one)
			said[one - entries->at] = true;
		return;
	}
	for (size_t i = 0; i < entries->n; i++)
		if (entries->at[i].number >= from && entries->at[i].number <= to)
			said[i] = any = true;
	if (!any)
		CLI_FAIL(c, RT_E_NOTFOUND, "class %s has no entry from %lld to %lld", class_name,
			 (long long)from, (long long)to);
}

/* ---- what is said of one ----------------------------------------------------------------- */

/* What another desk may have said before. */
static void note_before(struct cli *c, const char *whose, const struct rt_entry *was)
{
	if (was->status != RT_ENTERED)
		rt_report_note(&c->report, "%s was %s before%s%s%s%s%s%s.", whose,
			       rt_status_words(was->status), was->status_at ? ", since " : "",
			       was->status_at ? was->status_at : "", was->status_by ? ", by " : "",
			       was->status_by ? was->status_by : "", was->status_why ? ": " : "",
			       was->status_why ? was->status_why : "");
}

/* Whether just this was said before. */
static bool is_so(const struct status *o, const struct rt_entry *was)
{
	const char *why = o->reason.why;

	return was->status == o->status && !o->at &&
	       (!why || (was->status_why && strcmp(was->status_why, why) == 0));
}

/* whose: "It" of one alone. */
static bool put_status(struct cli *c, const struct status *o, const char *at, const char *whose,
		       const struct rt_entry *was, struct rt_table *t)
{
	struct rt_entry now = *was;

	if (is_so(o, was)) {
		rt_put_row(t, was);
		rt_report_note(&c->report, "%s is so already: nothing was written.", whose);
		return false;
	}
	now.status = o->status;
	now.status_at = at;
	now.status_why = o->reason.why;
	CLI_DO(c, rt_store_status_put(c->store, o->class_name, was->number, o->status,
				      o->reason.why, o->reason.who, at, &c->err));
	rt_put_row(t, &now);
	note_before(c, whose, was);
	return true;
}

/* ---- the command ------------------------------------------------------------------------- */

static void put_statuses(struct cli *c, const struct status *o, const char *at,
			 const struct rt_entries *entries, const bool *said)
{
	struct rt_table *t = rt_report_rows(&c->report, &status_table);
	size_t one = 0, put = 0;

	for (size_t i = 0; i < entries->n; i++)
		one += said[i];
	for (size_t i = 0; i < entries->n && !c->err.code; i++) {
		char whose[32];

		snprintf(whose, sizeof whose, "Number %lld", (long long)entries->at[i].number);
		if (said[i])
			put += put_status(c, o, at, one == 1 ? "It" : whose, &entries->at[i], t);
	}
	if (put)
		rt_table_title(t, "Status kept");
	if (put)
		cli_note_posted(c, o->class_name);
}

static void entry_status(struct cli *c, const void *typed)
{
	const struct status *o = typed;
	struct rt_entries entries = {0}; /* of the class, as they were */
	char at[24];
	bool *said;

	read_at(c, o->at, at);
	cli_store(c, true);
	CLI_DO(c, rt_store_entries(c->store, o->class_name, &entries, &c->err));
	said = cli_array(c, entries.n, sizeof *said);
	for (size_t i = 0; i < o->numbers.n && !c->err.code; i++)
		find_range(c, &entries, o->class_name, o->numbers.at[i], said);
	if (!c->err.code)
		put_statuses(c, o, at, &entries, said);
	RT_LIST_FREE(&entries);
}

const struct cli_command cmd_entry_status = {
	.name = "entry status",
	.summary = "Say that entries are withdrawn, retired, eliminated, ...",
	.details =
		"NUMBER is a number, or the first and the last of several with a dash between (12-18):\n"
		"those of the class that are between. STATUS is withdrawn (or scratched), retired, eliminated, disqualified, did-not-start, or entered to take one of them back. Earlier statuses stay in the history\n"
		"(`entry history`).",
	.example = "--show spring.show entry status 3 47 retired --why \"lame in the second circle\"",
	CLI_OPTIONS(struct status, status_options),
	.table = {&status_table},
	.run = entry_status,
	.lists = true,
};
