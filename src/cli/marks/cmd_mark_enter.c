/* mark enter: one sheet keyed at a terminal, or a pile of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "sheet_keying.h"

static const struct rt_field enter_options[] = {
	CLI_CLASS(struct cli_enter, class_name),
	{"number", RT_AT(struct cli_enter, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST, .is = RT_ARGUMENT},
	CLI_JUDGE(struct cli_enter, judge, RT_REQUIRED),
	CLI_BY(struct cli_enter, by, RT_REQUIRED),
	{"keying", RT_AT(struct cli_enter, keying), .head = "N", .type = RT_INT, .low = 1,
	 .high = RT_KEYINGS, .help = "unless given, the first that is not whole"},
	{"unfinished", RT_AT(struct cli_enter, unfinished), .type = RT_BOOL,
	 .help = "the sheet may end with empty boxes: it is queried"},
	CLI_SAME_PERSON(struct cli_enter, same_person),
	{"unexpected", RT_AT(struct cli_enter, unexpected), .type = RT_BOOL,
	 .help = "a sheet of one who did not start, or of a judge who was away"},
};

static void enter_one(struct cli *c, const struct cli_enter *o)
{
	struct cli_terminal terminal;
	struct cli_sheet_keying s = {.terminal = &terminal};
	enum cli_ending ending;

	cli_sheet_keying_open(c, o, o->number, o->keying, &s);
	if (!c->err.code) {
		cli_terminal_open(&terminal, c->format == CLI_TEXT ? stdout : stderr);
		cli_sheet_keying_greet(&s);
		ending = cli_sheet_keying_talk(c, &s);
		cli_terminal_close(&terminal);
		cli_sheet_keying_conclude(c, &s, ending,
					  rt_report_rows(&c->report, &cli_sheet_keying_table));
		c->report.needs_person |= s.differing > 0;
	}
	if (s.pass_id)
		cli_note_posted(c, s.desk.book.classes.at->name);
	cli_sheet_keying_free(&s);
}

static void mark_enter(struct cli *c, const void *typed)
{
	const struct cli_enter *o = typed;

	cli_store_open(c, true);
	if (o->number)
		enter_one(c, o);
	else
		cli_pile(c, o);
}

const struct cli_command cmd_mark_enter = {
	.name = "mark enter",
	.summary = "Key one sheet at a terminal, box by box, or a pile of them.",
	.details =
		"A mark is typed as 65 or 6.5 (7 is 7.0; 10 and 100 are 10), a remark behind it: 65 late\n"
		"at E, or a row of marks as two digits each: 65707560. Enter keeps what a box says, b goes\n"
		"back a step and h to the first box (arrow keys, Home, End and the page keys move at a\n"
		"terminal), p (or the end of input, or a lost connection) pauses: each mark is safe before\n"
		"the next is asked for, and the same command goes on at the first empty box. Behind the\n"
		"boxes the errors of course are keyed, Enter for none; then the hand total as t 143.5, if\n"
		"there is one. The second keying is for another person. Exit status 1 when the sheet is\n"
		"paused, has empty boxes, differs from the other keying, or when its hand total is not the\n"
		"sum of its boxes. Without NUMBER a pile of sheets is keyed: each number is asked for (n\n"
		"takes the next in the order of starting, b goes back into the sheet before), Enter alone\n"
		"ends the pile; then what the second keying says otherwise is settled, one by one.",
	.example = "--show spring.show mark enter 1 11 --judge C --by \"Tove Hallbäck\"",
	CLI_OPTIONS(struct cli_enter, enter_options),
	.run = mark_enter,
	.table = {&cli_sheet_keying_table, &cli_settled_table},
};
