/* A class made in a few lines, for the tests of the office.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef OFFICE_CLASS_H
#define OFFICE_CLASS_H

#include <ringtrue/series.h>

/* All that a struct rt_class_marks points to, in one place. */
struct office_class {
	struct rt_class class_;
	struct rt_test test;
	struct rt_rule rule;
	struct rt_items items;
	struct rt_entries entries;
	struct rt_penalties penalties;
	struct rt_decisions decisions;
	struct rt_class_marks marks;
	struct rt_arena *text;
};

/* Read a rule from a row of rules.csv (without quotes before its source); false when it is no
 * such row. */
bool office_rule_row(struct rt_rule *rule, struct rt_arena **text, const char *row);
/* Read a word into a column of a rule; false when it is none. */
bool office_rule_word(struct rt_rule *rule, const char *column, const char *word);
/* The shipped rule of that name, from share/rules.csv under $srcdir (or here). */
bool office_rule_shipped(struct rt_rule *rule, struct rt_arena **text, const char *name);

/* A class under a shipped rule with these judges; stops the program when that cannot be. */
void office_open(struct office_class *c, const char *rule, const char *judges);
void office_item(struct office_class *c, int64_t coefficient_x1000,
		 enum rt_item_group group);
/* n plain items of coefficient 1. */
void office_items(struct office_class *c, size_t n);
/* Add an entry; its place in the list is how many there were. */
struct rt_entry *office_entry(struct office_class *c, int64_t number);
struct rt_penalty *office_penalty(struct office_class *c, int64_t number, int64_t points_x100,
				  int64_t errors);
/* An official's decision: number is of that rank among those of the same decision. */
void office_decide(struct office_class *c, int64_t decision, int64_t number, int64_t rank);
/* When items and entries are all there: make the empty sheets. */
void office_sheets(struct office_class *c);
/* Key a mark, the errors or the hand total in one keying (0 or 1). */
void office_mark(struct office_class *c, size_t entry, size_t judge, size_t item, int keying,
		 int mark_x100);
/* Empty a box whose judge cannot be asked; a judge who was away for an entry. */
void office_missing(struct office_class *c, size_t entry, size_t judge, size_t item);
void office_away(struct office_class *c, size_t entry, size_t judge);
void office_errors(struct office_class *c, size_t entry, size_t judge, int keying, int64_t errors);
void office_total(struct office_class *c, size_t entry, size_t judge, int keying,
		  int64_t total_x100000);
/* Key half marks in both keyings, as even as they come, that add up to sum_x10 over items of
 * coefficient 1. */
void office_sum(struct office_class *c, size_t entry, size_t judge, int sum_x10);
void office_close(struct office_class *c);

#endif
