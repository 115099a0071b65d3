/* Entries that are changed, by one command or by a file.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "office.h"

#include "../times/times.h"

#include <string.h>

struct change_row {
	const struct rt_entry *entry;
	const struct rt_change *change;
};

#define ENTRY(member)  RT_IN(struct change_row, entry, struct rt_entry, member)
#define CHANGE(member) RT_IN(struct change_row, change, struct rt_change, member)

static const struct rt_field changes_fields[] = {
	{"class", ENTRY(class_name)},
	{"number", .head = "no.", ENTRY(number), .type = RT_INT},
	{"field", .head = "what", CHANGE(field)},
	{"was", CHANGE(was)},
	{"became", CHANGE(became)},
};

const struct rt_record cli_entry_changes_table = RT_TABLE("changes", "Changes kept", changes_fields,
							  struct change_row);

static bool has_change(const struct rt_changes *changes, const char *field)
{
	for (size_t i = 0; i < changes->n; i++)
		if (strcmp(changes->at[i].field, field) == 0)
			return true;
	return false;
}

/* Whoever has a mark has started: somebody else was not judged. */
static void must_not_have_started(struct cli *c, const struct rt_entry *was)
{
	bool marked = false;

	CLI_DO(c, rt_store_entry_marked(c->store, was->id, &marked, &c->err));
	if (marked)
		CLI_FAIL(c, RT_E_INPUT,
			 "entry %lld of class %s has marks, so it has started: no driver or horse "
			 "is substituted now; --spelling writes the name of the same one right",
			 (long long)was->number, was->class_name);
}

/* Whose start is past may have started, though no mark says so yet. */
static void note_past(struct cli *c, const struct rt_entry *was)
{
	struct cli_times in = {0};
	const struct rt_start *start;
	struct cli_now now;
	char at[16];

	cli_times_read(c, true, &in);
	start = cli_start_of(&in.starts, was);
	now = cli_show_now(c, &in);
	if (start && now.day && start->at_s < now.at_s) {
		rt_time_words(start->at_s, rt_day_of(start->at_s), at, sizeof at);
		rt_report_note(&c->report,
			       "Number %lld of class %s was to start at %s on day %lld, which is "
			       "past: see that it has not started.",
			       (long long)was->number, was->class_name, at,
			       (long long)rt_day_of(start->at_s));
	}
	cli_times_free(&in);
}

/* Marks stay with the entry, but its sheets bear the old number. */
static void note_sheets(struct cli *c, const struct rt_entry *was, int64_t number)
{
	bool marked = false;

	CLI_DO(c, rt_store_entry_marked(c->store, was->id, &marked, &c->err));
	if (marked)
		rt_report_note(&c->report,
			       "The marks keyed for number %lld of class %s are those of number "
			       "%lld now.",
			       (long long)was->number, was->class_name, (long long)number);
}

/* Somebody else may be named for the prize money of the new number. */
static void note_payee(struct cli *c, int64_t was, int64_t number)
{
	const char *mine = NULL, *there = NULL;
	struct rt_payees payees = {0};

	CLI_DO(c, rt_store_payees(c->store, &payees, &c->err));
	for (size_t i = 0; i < payees.n; i++) {
		mine = payees.at[i].number == was ? payees.at[i].name : mine;
		there = payees.at[i].number == number ? payees.at[i].name : there;
	}
	if (there && !mine)
		rt_report_note(
			&c->report,
			"The prize money of number %lld goes to %s: `prize payee` names another.",
			(long long)number, there);
	RT_LIST_FREE(&payees);
}

static void put_change(struct cli *c, struct cli_entry_changes *w, const struct rt_entry *was,
		       const struct rt_change *change)
{
	if (!w->table)
		w->table = rt_report_rows(&c->report, &cli_entry_changes_table);
	rt_put_row(w->table, &(struct change_row){was, change});
}

/* Tell the changes of one entry, and who has changed the same before. */
static void tell_changes(struct cli *c, struct cli_entry_changes *w, const struct rt_entry *was,
			 const struct rt_changes *changes)
{
	struct rt_changes history = {0};
	char whose[RT_NAME_MOST * 4 + 40];

	CLI_DO(c, rt_store_entry_history(c->store, was->id, &history, &c->err));
	snprintf(whose, sizeof whose, "Class %s, number %lld", was->class_name,
		 (long long)was->number);
	for (size_t i = 0; i < changes->n; i++) {
		put_change(c, w, was, &changes->at[i]);
		cli_note_earlier(c, whose, changes->at[i].field, &history, w->reason.who);
	}
	RT_LIST_FREE(&history);
}

void cli_entry_change(struct cli *c, struct cli_entry_changes *w, const struct rt_entry *was,
		      const struct rt_entry *became)
{
	struct rt_changes changes = {0};
	bool number, turnout;

	CLI_DO(c, rt_record_changes(&changes, &rt_entry_record, was, became, &c->err));
	number = has_change(&changes, "number");
	turnout = has_change(&changes, "driver") || has_change(&changes, "horses");
	if (number)
		cli_number_free(c, was->class_name, became->number);
	if (turnout && !w->spelling) {
		must_not_have_started(c, was);
		note_past(c, was);
	}
	if (changes.n)
		tell_changes(c, w, was, &changes);
	if (number) {
		note_sheets(c, was, became->number);
		note_payee(c, was->number, became->number);
	}
	CLI_DO(c, rt_store_entry_change(c->store, became, &changes, &w->reason, &c->err));
	if (!w->in_classes && (number || turnout))
		cli_note_numbers(c, became);
	w->changed += changes.n != 0;
	RT_LIST_FREE(&changes);
}

void cli_entry_stands(struct cli *c, struct cli_entry_changes *w, const struct rt_entry *was,
		      enum rt_status status, const char *why)
{
	const struct rt_change change = {.field = "status",
					 .was = rt_status_words(was->status),
					 .became = rt_status_words(status)};

	put_change(c, w, was, &change);
	CLI_DO(c, rt_store_status_put(c->store, was->class_name, was->number, status, why,
				      w->reason.who, c->when, &c->err));
}
