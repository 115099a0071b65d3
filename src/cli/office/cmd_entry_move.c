/* entry move: an entry goes to another class.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "office.h"

#include <string.h>

/* ---- one entry --------------------------------------------------------------------------- */

static const struct rt_field moved_fields[] = {
	{"class", RT_AT(struct cli_moved, class_name)},
	{"number", .head = "no.", RT_AT(struct cli_moved, number), .type = RT_INT},
	{"driver", RT_AT(struct cli_moved, driver)},
	{"to_class", .head = "to class", RT_AT(struct cli_moved, to)},
	{"to_number", .head = "as no.", RT_AT(struct cli_moved, to_number), .type = RT_INT},
	{"its_marks", .head = "marks", RT_AT(struct cli_moved, marks)},
};

const struct rt_record cli_moved_table = RT_TABLE("moves", "Entries moved", moved_fields,
						  struct cli_moved);

/* Judges of the old class at whose position nobody sits in the new one: their marks stay. */
static void note_judges(struct cli *c, const struct rt_class *from, const struct rt_class *to)
{
	for (size_t i = 0; i < from->judges.n; i++) {
		const char *position = from->judges.at[i].position;
		bool there = false;

		for (size_t k = 0; k < to->judges.n; k++)
			there |= strcmp(to->judges.at[k].position, position) == 0;
		if (!there)
			rt_report_note(&c->report,
				       "Nobody sits at %s in class %s: the marks given there stay in "
				       "class %s.",
				       position, to->name, from->name);
	}
}

/* The number that an entry has in its new class: the one it has, unless that is taken. */
static int64_t number_there(struct cli *c, const struct rt_entry *entry, const char *to)
{
	struct rt_entry there = *entry;
	struct rt_entries now = {0};
	struct rt_numbers given_up = {0};
	struct rt_numbering rule;
	bool kept;

	there.class_name = to;
	CLI_DO(c, rt_store_entries(c->store, NULL, &now, &c->err));
	if (!c->err.code && rt_entry_numbered(&now, to, entry->number)) {
		CLI_DO(c, rt_store_numbering(c->store, &rule, &c->err));
		CLI_DO(c, rt_store_numbers_given_up(c->store, &given_up, &c->err));
		CLI_DO(c, rt_number_give(&there.number, &rule, &now, &given_up, &there, &kept,
					 &c->err));
	}
	RT_LIST_FREE(&given_up);
	RT_LIST_FREE(&now);
	return there.number;
}

void cli_entry_move(struct cli *c, const struct rt_entry *entry, const struct rt_class *from,
		    const struct rt_class *to, int64_t number, const struct rt_reason *reason,
		    struct cli_moved *moved)
{
	bool same = strcmp(from->test, to->test) == 0, marked = false, left = false;

	if (!number)
		number = number_there(c, entry, to->name);
	*moved = (struct cli_moved){entry->class_name, to->name, entry->driver, entry->number,
				    number, NULL, false};
	CLI_DO(c, rt_store_entry_marked(c->store, entry->id, &marked, &c->err));
	CLI_DO(c, rt_store_entry_move(c->store, entry, to->name, number, same, reason, &left,
				      &c->err));
	if (c->err.code || !left)
		return;
	moved->left = true;
	if (marked)
		moved->marks = same ? "go along" : "stay";
	if (marked && same)
		note_judges(c, from, to);
	if (marked && !same)
		rt_report_note(&c->report,
			       "Its marks are of test %s and class %s has test %s: they stay in the "
			       "history of class %s.",
			       from->test, to->name, to->test, from->name);
}

void cli_note_anew(struct cli *c, const char *class_name)
{
	struct rt_draw_places places = {0};
	bool timed = false;

	CLI_DO(c, rt_store_draw_places(c->store, class_name, &places, &c->err));
	CLI_DO(c, rt_store_class_timed(c->store, class_name, &timed, &c->err));
	if (places.n)
		rt_report_note(&c->report,
			       "Class %s was drawn before: `draw %s --again` draws it anew.",
			       class_name, class_name);
	if (timed)
		rt_report_note(&c->report,
			       "Class %s has start times from before: `times plan %s` makes them "
			       "anew.",
			       class_name, class_name);
	RT_LIST_FREE(&places);
}

/* ---- the command ------------------------------------------------------------------------- */

struct move {
	const char *class_name, *to;
	int64_t number, new_number;
	struct rt_reason reason;
};

static const struct rt_field move_options[] = {
	CLI_CLASS(struct move, class_name),
	CLI_NUMBER(struct move, number),
	{"to", RT_AT(struct move, to), .head = "CLASS", .type = RT_NAME, .is = RT_REQUIRED,
	 .help = "the class it goes to"},
	{"number", RT_AT(struct move, new_number), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .help = "its number there, where it is to be another"},
	CLI_WHY(struct move, reason.why, 0),
	CLI_BY(struct move, reason.who, 0),
};

static void entry_move(struct cli *c, const void *typed)
{
	const struct move *o = typed;
	const struct rt_reason reason = {o->reason.who, o->reason.why, c->when};
	const struct rt_entry *entry = NULL;
	const struct rt_class *from, *to;
	struct rt_entry there;
	struct cli_moved moved;

	if (strcmp(o->class_name, o->to) == 0)
		CLI_FAIL(c, RT_E_USAGE, "entry move: --to wants another class than %s",
			 o->class_name);
	cli_store(c, true);
	from = cli_class(c, o->class_name);
	to = cli_class(c, o->to);
	cli_find_entry(c, cli_entries(c), o->class_name, o->number, &entry);
	if (o->new_number)
		cli_number_free(c, o->to, o->new_number);
	if (c->err.code)
		return;
	cli_entry_move(c, entry, from, to, o->new_number, &reason, &moved);
	rt_report_list(&c->report, &cli_moved_table, &moved, 1);
	if (moved.left)
		rt_report_note(&c->report,
			       "Number %lld of class %s stays there as withdrawn: moved.",
			       (long long)entry->number, o->class_name);
	cli_note_anew(c, o->class_name);
	cli_note_anew(c, o->to);
	cli_note_posted(c, o->class_name);
	there = *entry;
	there.class_name = o->to;
	there.number = moved.to_number;
	cli_note_entries(c, &(struct rt_entries){.at = &there, .n = 1});
}

const struct cli_command cmd_entry_move = {
	.name = "entry move",
	.summary = "Put an entry into another class.",
	.details =
		"Its number goes with it, unless that is taken there. Marks go along when the test is\n"
		"the same, for the judges at the same positions. Of an entry that was drawn, planned,\n"
		"printed or judged something stays in the old class: an entry that is withdrawn and\n"
		"tells where it went.",
	CLI_OPTIONS(struct move, move_options),
	.table = {&cli_moved_table},
	.run = entry_move,
	.lists = true,
};
