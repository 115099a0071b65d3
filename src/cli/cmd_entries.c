/* entry list, find, history and status.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

/* ---- the table of entries ---------------------------------------------------------------- */

void cli_report_entries(struct cli *c, const struct rt_entries *entries,
			enum cli_entry_columns shown)
{
	struct rt_table *t = rt_report_list(&c->report, &rt_entry_record, entries->at, entries->n);
	bool any = false;

	for (size_t i = 0; i < entries->n; i++)
		any |= entries->at[i].hors_concours;
	rt_table_show(t, "hors_concours", any);
	rt_table_show(t, "club", shown == CLI_ENTRY_CLUB);
	rt_table_show(t, "status_why", shown == CLI_ENTRY_WHY);
	rt_table_show(t, "status_at", shown == CLI_ENTRY_WHY);
	rt_table_show(t, "entered_at", shown == CLI_ENTRY_ARRIVAL);
	rt_table_show(t, "late", shown == CLI_ENTRY_ARRIVAL);
}

/* ---- list and find ----------------------------------------------------------------------- */

static enum rt_err read_status(struct cli *c, const char *typed, enum rt_status *status)
{
#define WORDS(code, words) words,
	static const char *const names[] = {RT_STATUSES(WORDS)};
#undef WORDS
	const char *nearest;

	if (rt_status_read(typed, status))
		return RT_OK;
	nearest = rt_nearest(typed, names, sizeof names / sizeof *names);
	return rt_fail(&c->err, RT_E_USAGE,
		       "unknown status \"%s\": %s%s%sentered, retired, eliminated, disqualified, "
		       "withdrawn or did-not-start%s",
		       typed, nearest ? "did you mean \"" : "", nearest ? nearest : "",
		       nearest ? "\"? (" : "", nearest ? ")" : "");
}

static enum rt_err list_options(struct cli *c, const struct cli_call *call,
				enum rt_entry_order *order, enum rt_status *status)
{
	const char *by = cli_option(call, "by"), *stands = cli_option(call, "status");

	*order = RT_ORDER_CLASS;
	if (by && !rt_entry_order_read(by, order))
		return rt_fail(&c->err, RT_E_USAGE,
			       "--by: \"%s\": class, number, driver or arrival", by);
	return stands ? read_status(c, stands, status) : RT_OK;
}

static void keep_status(struct rt_entries *entries, enum rt_status status)
{
	size_t kept = 0;

	for (size_t i = 0; i < entries->n; i++)
		if (entries->at[i].status == status)
			entries->at[kept++] = entries->at[i];
	entries->n = kept;
}

static enum rt_err entry_list(struct cli *c, const struct cli_call *call)
{
	struct rt_entries entries = {0};
	enum rt_entry_order order;
	enum rt_status status;
	enum rt_err e = list_options(c, call, &order, &status);

	if (!e)
		e = CLI_OLD(c, cli_store(c, false));
	if (!e)
		e = rt_store_entries(c->store, call->args ? call->arg[0] : NULL, &entries, &c->err);
	if (!e && cli_option(call, "status"))
		keep_status(&entries, status);
	if (!e)
		e = rt_entries_sort(&entries, order, &c->err);
	if (!e)
		cli_report_entries(c, &entries,
				   order == RT_ORDER_ARRIVAL	? CLI_ENTRY_ARRIVAL
				   : cli_option(call, "status") ? CLI_ENTRY_WHY
								: CLI_ENTRY_CLUB);
	RT_LIST_FREE(&entries);
	return e;
}

const struct cli_command cmd_entry_list = {
	.group = "Office",
	.name = "entry list",
	.args = "[CLASS]",
	.summary = "List the entries of a class, or of the show.",
	.details =
		"--by class (by number within each) unless given; arrival is the order of entering,\n"
		"with when an entry came in and whether it was late.",
	.example = "--show spring.show entry list 3 --by driver",
	.old_option = {{"by", "ORDER", "class, number, driver or arrival", false},
		       {"status", "STATUS", "only those that stand so, with when and why", false}},
	.old_max_args = 1,
	.old_run = entry_list,
};

static enum rt_err entry_find(struct cli *c, const struct cli_call *call)
{
	struct rt_entries entries = {0};
	enum rt_err e = RT_OK;

	for (int i = 0; i < call->args && !e; i++)
		e = cli_text(c, "what is to be found", call->arg[i], RT_NAME_MOST, true);
	if (!e)
		e = CLI_OLD(c, cli_store(c, false));
	if (!e)
		e = rt_store_entries(c->store, NULL, &entries, &c->err);
	if (!e)
		e = rt_entries_find(&entries, call->arg, (size_t)call->args, &c->err);
	if (!e) {
		cli_report_entries(c, &entries, CLI_ENTRY_CLUB);
		if (!entries.n)
			rt_report_note(&c->report, "No entry has this in a name or as its number.");
	}
	RT_LIST_FREE(&entries);
	return e;
}

const struct cli_command cmd_entry_find = {
	.group = "Office",
	.name = "entry find",
	.args = "WORDS",
	.summary = "Find entries by any part of a name, or by number.",
	.details =
		"Looks into driver, horses, groom, club and turnout, accents and case ignored, and at\n"
		"the number as a whole. Where there are several words all of them must be found.",
	.example = "--show spring.show entry find gwen pollux",
	.old_min_args = 1,
	.old_max_args = CLI_ARGS_MAX,
	.old_run = entry_find,
};

/* ---- history ----------------------------------------------------------------------------- */

enum rt_err cli_entry_numbered(struct cli *c, const struct rt_entries *entries,
			       const char *class_name, int64_t number, const struct rt_entry **out)
{
	int64_t now = 0;
	enum rt_err e;

	*out = rt_entry_numbered(entries, class_name, number);
	if (*out)
		return RT_OK;
	e = rt_store_number_now(c->store, class_name, number, &now, &c->err);
	if (e)
		return e;
	if (now)
		return rt_fail(&c->err, RT_E_NOTFOUND,
			       "entry %lld of class %s was given another number: it is %lld now",
			       (long long)number, class_name, (long long)now);
	return rt_fail(&c->err, RT_E_NOTFOUND, "there is no entry %lld in class %s",
		       (long long)number, class_name);
}

void cli_report_changes(struct cli *c, const struct rt_changes *changes)
{
	static const struct rt_field columns[] = {
		{"at", "when", RT_TEXT, RT_NO_UNIT, 0, false},
		{"field", "what", RT_TEXT, RT_NO_UNIT, 0, false},
		{"was", "was", RT_TEXT, RT_NO_UNIT, 0, false},
		{"became", "became", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
		{"by", "by", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "history", "History", columns, 6);

	for (size_t i = 0; i < changes->n; i++) {
		const struct rt_change *change = &changes->at[i];

		rt_put_text(t, change->reason.when);
		rt_put_text(t, change->field);
		rt_put_text(t, change->was);
		rt_put_text(t, change->became);
		rt_put_text(t, change->reason.why);
		rt_put_text(t, change->reason.who);
	}
}

/* So that of two desks the second sees what the first did. */
void cli_note_earlier(struct cli *c, const char *whose, const char *field,
		      const struct rt_changes *history, const char *who)
{
	const struct rt_change *earlier = NULL;

	for (size_t i = 0; i < history->n; i++)
		if (strcmp(history->at[i].field, field) == 0)
			earlier = &history->at[i];
	if (!earlier || (earlier->reason.who && who && strcmp(earlier->reason.who, who) == 0))
		return;
	rt_report_note(&c->report, "%s: %s was changed before, from \"%s\" to \"%s\"%s%s%s%s.",
		       whose, field, earlier->was ? earlier->was : "",
		       earlier->became ? earlier->became : "", earlier->reason.when ? ", on " : "",
		       earlier->reason.when ? earlier->reason.when : "",
		       earlier->reason.who ? ", by " : "",
		       earlier->reason.who ? earlier->reason.who : "");
}

static enum rt_err entry_history(struct cli *c, const struct cli_call *call)
{
	struct rt_entries entries = {0};
	struct rt_changes changes = {0};
	const struct rt_entry *entry;
	int64_t number;
	enum rt_err e = cli_whole(c, "number", call->arg[1], 1, RT_NUMBER_MOST, &number);

	if (!e)
		e = CLI_OLD(c, cli_store(c, false));
	if (!e)
		e = rt_store_entries(c->store, call->arg[0], &entries, &c->err);
	if (!e)
		e = cli_entry_numbered(c, &entries, call->arg[0], number, &entry);
	if (!e)
		e = rt_store_entry_history(c->store, entry->id, &changes, &c->err);
	if (!e)
		cli_report_changes(c, &changes);
	RT_LIST_FREE(&changes);
	RT_LIST_FREE(&entries);
	return e;
}

const struct cli_command cmd_entry_history = {
	.group = "Office",
	.name = "entry history",
	.args = "CLASS NUMBER",
	.summary = "How an entry came in, what was changed of it, and how it stood.",
	.example = "--show spring.show entry history 3 47",
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = entry_history,
};

/* ---- status ------------------------------------------------------------------------------ */

struct status_work {
	const char *class_name;
	int64_t number;
	enum rt_status status;
	struct rt_reason reason;
	struct rt_entries entries; /* of the class, as they were */
	const struct rt_entry *was;
	bool at_given;
	bool same; /* it was said before */
};

static bool same_text(const char *a, const char *b)
{
	return a && b ? strcmp(a, b) == 0 : !a && !b;
}

static enum rt_err put_status(struct cli *c, struct status_work *w)
{
	enum rt_err e = rt_store_entries(c->store, w->class_name, &w->entries, &c->err);

	if (!e)
		e = cli_entry_numbered(c, &w->entries, w->class_name, w->number, &w->was);
	if (e)
		return e;
	w->same = w->was->status == w->status && !w->at_given &&
		  (!w->reason.why || same_text(w->was->status_why, w->reason.why));
	return w->same ? RT_OK
		       : rt_store_status_put(c->store, w->class_name, w->number, w->status,
					     w->reason.why, w->reason.who, w->reason.when, &c->err);
}

/* What another desk may have said before. */
static void note_status(struct cli *c, const struct status_work *w)
{
	const struct rt_entry *was = w->was;

	if (was->status != RT_ENTERED)
		rt_report_note(&c->report, "It was %s before%s%s%s%s%s%s.",
			       rt_status_words(was->status), was->status_at ? ", since " : "",
			       was->status_at ? was->status_at : "", was->status_by ? ", by " : "",
			       was->status_by ? was->status_by : "", was->status_why ? ": " : "",
			       was->status_why ? was->status_why : "");
}

static void report_status(struct cli *c, const struct status_work *w)
{
	static const struct rt_field columns[] = {
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"driver", "driver", RT_TEXT, RT_NO_UNIT, 0, false},
		{"status", "status", RT_TEXT, RT_NO_UNIT, 0, false},
		{"at", "at", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "status",
					     w->same ? "Status" : "Status kept", columns, 6);

	rt_put_text(t, w->class_name);
	rt_put_int(t, w->number);
	rt_put_text(t, w->was->driver);
	rt_put_text(t, rt_status_words(w->status));
	rt_put_text(t, w->same ? w->was->status_at : w->reason.when);
	rt_put_text(t, w->same ? w->was->status_why : w->reason.why);
	if (w->same)
		rt_report_note(&c->report, "It is so already: nothing was written.");
	else
		note_status(c, w);
}

/* --at: HH:MM of the day that outputs carry, or a date with a time. */
static enum rt_err read_at(struct cli *c, const struct cli_call *call, char at[static 24])
{
	const char *typed = cli_option(call, "at");
	size_t length = typed ? strlen(typed) : 0;

	snprintf(at, 24, "%s", c->when);
	if (!typed)
		return RT_OK;
	if (length == 5 || length == 8) /* behind the day */
		snprintf(at + 11, 24 - 11, "%s", typed);
	else if (length > 10 && length < 24)
		snprintf(at, 24, "%s", typed);
	at[10] = ' ';
	if (length && length < 24 && length != 10 && rt_parse_when(at)) {
		if (strlen(at) == 16)
			strcat(at, ":00");
		return RT_OK;
	}
	return rt_fail(&c->err, RT_E_USAGE, "--at: \"%s\": HH:MM, or \"YYYY-MM-DD HH:MM\"", typed);
}

static enum rt_err entry_status(struct cli *c, const struct cli_call *call)
{
	char at[24];
	struct status_work w = {.class_name = call->arg[0],
				.at_given = cli_option(call, "at") != NULL};
	enum rt_err e = cli_whole(c, "number", call->arg[1], 1, RT_NUMBER_MOST, &w.number);

	if (!e)
		e = read_status(c, call->arg[2], &w.status);
	if (!e)
		e = cli_reasons(c, call);
	if (!e)
		e = read_at(c, call, at);
	w.reason = (struct rt_reason){cli_option(call, "by"), cli_option(call, "why"), at};
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = put_status(c, &w);
	if (!e)
		report_status(c, &w);
	if (!e && !w.same)
		e = CLI_OLD(c, cli_note_posted(c, w.class_name));
	RT_LIST_FREE(&w.entries);
	return e;
}

const struct cli_command cmd_entry_status = {
	.group = "Office",
	.name = "entry status",
	.args = "CLASS NUMBER STATUS",
	.summary = "Say that an entry is withdrawn, retired, eliminated, ...",
	.details =
		"STATUS is withdrawn, retired, eliminated, disqualified, did-not-start, or entered to\n"
		"take one of them back. Earlier statuses stay in the file's history (`entry history`).",
	.example = "--show spring.show entry status 3 47 withdrawn --why \"lame at the vet check\"",
	.old_option = {{"at", "TIME", "when it was so: HH:MM, or a date with a time; now", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who said so", false}},
	.old_min_args = 3,
	.old_max_args = 3,
	.old_run = entry_status,
};
