/* entry list, find and history.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

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

struct list {
	const char *class_name;
	enum rt_entry_order order;
	enum rt_status status;
};

static const struct rt_field list_options[] = {
	{"class", RT_AT(struct list, class_name), .type = RT_NAME, .is = RT_ARGUMENT},
	{"order", RT_AT(struct list, order), RT_WORD_OF(entry_order), .is = RT_USUAL,
	 .help = "by class, and by number within each; by number; by driver; or by arrival, with "
		 "when an entry came in and whether it was late"},
	{"status", RT_AT(struct list, status), RT_WORD_OF(status),
	 .help = "only those that stand so, with when and why"},
};

static void entry_list(struct cli *c, const void *typed)
{
	const struct list *o = typed;
	bool by_status = cli_given(c, &o->status);
	struct rt_entries entries = {0};
	size_t kept = 0;

	cli_store(c, false);
	CLI_DO(c, rt_store_entries(c->store, o->class_name, &entries, &c->err));
	for (size_t i = 0; i < entries.n; i++)
		if (!by_status || entries.at[i].status == o->status)
			entries.at[kept++] = entries.at[i];
	entries.n = kept;
	CLI_DO(c, rt_entries_sort(&entries, o->order, &c->err));
	cli_report_entries(c, &entries,
			   o->order == RT_ORDER_ARRIVAL ? CLI_ENTRY_ARRIVAL
			   : by_status			? CLI_ENTRY_WHY
							: CLI_ENTRY_CLUB);
	RT_LIST_FREE(&entries);
}

const struct cli_command cmd_entry_list = {
	.name = "entry list",
	.summary = "List the entries of a class, or of the show.",
	.details = "In CSV it is a file that `entry import` reads.",
	.example = "--show spring.show entry list 3 --order driver",
	CLI_OPTIONS(struct list, list_options),
	.table = {&rt_entry_record},
	.run = entry_list,
};

static const struct rt_field find_options[] = {
	{"word", .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED | RT_MANY},
};

static const struct rt_field found_fields[] = {
	{"class", RT_AT(struct rt_entry, class_name)},
	{"number", .head = "no.", RT_AT(struct rt_entry, number), .type = RT_INT},
	{"driver", RT_AT(struct rt_entry, driver)},
	{"horses", RT_AT(struct rt_entry, horses), .type = RT_NAMES},
	{"groom", RT_AT(struct rt_entry, groom), .wide = true},
	{"turnout", RT_AT(struct rt_entry, turnout), .wide = true},
	{"carriage", RT_AT(struct rt_entry, carriage), .wide = true},
	{"club", RT_AT(struct rt_entry, club), .wide = true},
	{"status", RT_AT(struct rt_entry, status), RT_WORD_OF(status)},
	{"found", RT_AT(struct rt_entry, found)},
};

static const struct rt_record found_table = RT_TABLE("entries", "Entries", found_fields,
						     struct rt_entry);

static void entry_find(struct cli *c, const void *typed)
{
	const struct rt_strings *words = typed;
	struct rt_entries entries = {0};

	cli_store(c, false);
	CLI_DO(c, rt_store_entries(c->store, NULL, &entries, &c->err));
	CLI_DO(c, rt_entries_find(&entries, words->at, words->n, &c->err));
	rt_report_list(&c->report, &found_table, entries.at, entries.n);
	if (!entries.n)
		rt_report_note(&c->report, "No entry has this in a name or as its number.");
	RT_LIST_FREE(&entries);
}

const struct cli_command cmd_entry_find = {
	.name = "entry find",
	.summary = "Find entries by any part of a name, or by number.",
	.details =
		"Looks into driver, horses, groom, club, turnout and carriage, accents and case ignored,\n"
		"and at the number as a whole. Where there are several words all of them must be\n"
		"found; the column found tells where.",
	.example = "--show spring.show entry find gwen pollux",
	CLI_OPTIONS(struct rt_strings, find_options),
	.table = {&found_table},
	.run = entry_find,
};

/* ---- history ----------------------------------------------------------------------------- */

void cli_find_entry(struct cli *c, const struct rt_entries *entries, const char *class_name,
		    int64_t number, const struct rt_entry **out)
{
	int64_t now = 0;

	if (c->err.code)
		return;
	*out = rt_entry_numbered(entries, class_name, number);
	if (*out)
		return;
	CLI_DO(c, rt_store_number_now(c->store, class_name, number, &now, &c->err));
	if (now)
		CLI_FAIL(c, RT_E_NOTFOUND,
			 "entry %lld of class %s was given another number: it is %lld now",
			 (long long)number, class_name, (long long)now);
	CLI_FAIL(c, RT_E_NOTFOUND, "there is no entry %lld in class %s", (long long)number,
		 class_name);
}

static const struct rt_field history_fields[] = {
	{"at", .head = "when", RT_AT(struct rt_change, reason.when)},
	{"field", .head = "what", RT_AT(struct rt_change, field)},
	{"was", RT_AT(struct rt_change, was)},
	{"became", RT_AT(struct rt_change, became)},
	{"why", RT_AT(struct rt_change, reason.why)},
	{"by", RT_AT(struct rt_change, reason.who)},
};

const struct rt_record cli_history_table = RT_TABLE("history", "History", history_fields,
						    struct rt_change);

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

struct of_entry {
	const char *class_name;
	int64_t number;
};

static const struct rt_field history_options[] = {
	CLI_CLASS(struct of_entry, class_name),
	CLI_NUMBER(struct of_entry, number),
};

static void entry_history(struct cli *c, const void *typed)
{
	const struct of_entry *o = typed;
	struct rt_entries entries = {0};
	struct rt_changes changes = {0};
	const struct rt_entry *entry = NULL;

	cli_store(c, false);
	CLI_DO(c, rt_store_entries(c->store, o->class_name, &entries, &c->err));
	cli_find_entry(c, &entries, o->class_name, o->number, &entry);
	CLI_DO(c, rt_store_entry_history(c->store, entry->id, &changes, &c->err));
	rt_report_list(&c->report, &cli_history_table, changes.at, changes.n);
	RT_LIST_FREE(&changes);
	RT_LIST_FREE(&entries);
}

const struct cli_command cmd_entry_history = {
	.name = "entry history",
	.summary = "How an entry came in, what was changed of it, and how it stood.",
	.example = "--show spring.show entry history 3 47",
	CLI_OPTIONS(struct of_entry, history_options),
	.table = {&cli_history_table},
	.run = entry_history,
};
