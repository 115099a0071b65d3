/* entry change.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "office.h"

#include <string.h>

enum answer { NO, YES };
static const char *const answer_words[] = {"no", "yes"};
static const struct rt_words answers = {"answer", answer_words, 2, NULL, 0};

struct change {
	struct rt_entry entry; /* what is typed of it */
	const char *class_name;
	int64_t number;
	enum answer late;
	bool spelling, all_classes;
	int64_t seen;
	struct rt_reason reason;
};

static const struct rt_field change_options[] = {
	CLI_CLASS(struct change, class_name),
	CLI_NUMBER(struct change, number),
	{"number", RT_AT(struct change, entry.number), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "another number"},
	{"late", RT_AT(struct change, late), .head = "yes|no", .type = RT_WORD, .words = &answers,
	 .help = "came in after entries had closed"},
	{"spelling", RT_AT(struct change, spelling), .type = RT_BOOL,
	 .help = "the same driver and horses, written right"},
	{"seen", RT_AT(struct change, seen), .head = "CHANGES", .type = RT_INT,
	 .help = "refuse if it has other than so many changes"},
	{"all-classes", RT_AT(struct change, all_classes), .type = RT_BOOL,
	 .help = "in every class with this number and driver"},
	CLI_WHY(struct change, reason.why, 0),
	CLI_BY(struct change, reason.who, 0),
};

/* What is typed of it over what an entry has. */
static void change_one(struct cli *c, struct cli_entry_changes *w, const struct change *o,
		       const struct rt_entry *was, struct rt_entries *touched)
{
	struct rt_entry became = *was;
	size_t changed = w->changed;

	cli_change(c, &became);
	if (cli_given(c, &o->entry.number))
		became.number = o->entry.number;
	if (cli_given(c, &o->late))
		became.late = o->late == YES;
	cli_entry_change(c, w, was, &became);
	if (w->changed > changed)
		CLI_ADD(c, touched, became);
}

static void entry_change(struct cli *c, const void *typed)
{
	const struct change *o = typed;
	struct cli_entry_changes w = {.reason = {o->reason.who, o->reason.why, c->when},
				      .spelling = o->spelling,
				      .in_classes = o->all_classes};
	const struct rt_entries *all;
	struct rt_entries touched = {0};
	const struct rt_entry *first = NULL;
	size_t left_alone = 0; /* entries of the same number and driver in other classes */

	w.table = rt_report_rows(&c->report, &cli_entry_changes_table);
	cli_store(c, true);
	cli_class(c, o->class_name);
	all = cli_entries(c);
	cli_find_entry(c, all, o->class_name, o->number, &first);
	if (first && cli_given(c, &o->seen) && o->seen != first->changes)
		CLI_FAIL(c, RT_E_INPUT,
			 "entry %lld of class %s was changed meanwhile (%lld "
			 "changes, %lld seen): look at `entry history %s %lld`",
			 (long long)first->number, first->class_name, (long long)first->changes,
			 (long long)o->seen, first->class_name, (long long)first->number);
	if (!c->err.code)
		change_one(c, &w, o, first, &touched);
	for (size_t i = 0; i < all->n && !c->err.code; i++) {
		const struct rt_entry *other = &all->at[i];
		bool driver = false, turnout;

		if (other == first || other->number != first->number)
			continue;
		CLI_DO(c, rt_entries_alike(first, other, &driver, &turnout, &c->err));
		if (driver && o->all_classes)
			change_one(c, &w, o, other, &touched);
		else
			left_alone += driver;
	}
	if (!w.changed)
		rt_report_note(&c->report, "Nothing was changed: it is so already.");
	else if (left_alone)
		rt_report_note(&c->report,
			       "Number %lld of the same driver is in %zu other class%s, unchanged: "
			       "--all-classes changes it there too.",
			       (long long)o->number, left_alone, left_alone == 1 ? "" : "es");
	cli_note_entries(c, &touched);
	RT_LIST_FREE(&touched);
}

const struct cli_command cmd_entry_change = {
	.name = "entry change",
	.summary = "Change an entry, or put another driver or horse in its place.",
	.details =
		"What was there before stays in its history (`entry history`). An option with \"\" empties\n"
		"its field. Driver and horses can be others until the entry has started, that is until a\n"
		"mark of it is keyed; marks stay with an entry whose number changes. `entry status` says\n"
		"how it stands.",
	.example =
		"--show spring.show entry change 3 47 --groom \"Per Ask\" --why \"groom is ill\"",
	CLI_OPTIONS(struct change, change_options),
	.record = &rt_entry_record,
	.left_out = "status",
	.changes = true,
	.table = {&cli_entry_changes_table},
	.run = entry_change,
	.lists = true,
};
