/* A class made in a few lines, for the tests of the office.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "office_class.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FIELDS 17 /* of a row before its source */

static void must(bool ok, const char *what)
{
	if (ok)
		return;
	fprintf(stderr, "cannot make the class of a test: %s\n", what);
	exit(EXIT_FAILURE);
}

/* ---- rules ---- */

/* The next field of a row without quotes, in the arena; *row moves behind its comma. */
static const char *next_field(const char **row, struct rt_arena **text)
{
	size_t n = strcspn(*row, ",\n");
	const char *field = rt_arena_copy(text, *row, n);

	must(field != NULL, "memory");
	*row += n + ((*row)[n] == ',');
	return field;
}

static bool read_errors(struct rt_rule *rule, const char *const *field)
{
	rule->error_steps = 0;
	for (size_t i = 0; i < RT_ERROR_STEPS && *field[i]; i++) {
		rule->error[i].amount_x100 = 0;
		rule->error[i].eliminated = strcmp(field[i], "eliminated") == 0;
		if (!rule->error[i].eliminated &&
		    !rt_parse_decimal(field[i], 2, &rule->error[i].amount_x100))
			return false;
		rule->error_steps++;
	}
	return true;
}

static bool read_decimals(const char *field, int *out)
{
	int64_t v;

	if (!rt_parse_int(field, &v))
		return false;
	*out = (int)v;
	return true;
}

bool office_rule_word(struct rt_rule *rule, const char *column, const char *word)
{
	return !rt_field_read(rt_record_field(&rt_rule_record, column), rule, word, NULL, NULL);
}

/* The columns that may be left out; an empty field has the usual value. */
static bool read_optional(struct rt_rule *rule, const char *const *field)
{
	rule->apart_judges = RT_APART_JUDGES;
	return (!*field[0] || office_rule_word(rule, "missing", field[0])) &&
	       (!*field[1] || rt_parse_decimal(field[1], 2, &rule->apart_x100)) &&
	       (!*field[2] || rt_parse_int(field[2], &rule->apart_judges)) &&
	       (!*field[3] || office_rule_word(rule, "rounding", field[3]));
}

bool office_rule_row(struct rt_rule *rule, struct rt_arena **text, const char *row)
{
	const char *field[FIELDS];

	memset(rule, 0, sizeof *rule);
	for (size_t i = 0; i < FIELDS; i++)
		field[i] = next_field(&row, text);
	rule->name = field[0];
	return office_rule_word(rule, "scale", field[1]) &&
	       office_rule_word(rule, "wins", field[2]) && rt_parse_int(field[3], &rule->base) &&
	       read_decimals(field[4], &rule->judge_decimals) &&
	       read_decimals(field[5], &rule->percent_decimals) &&
	       read_decimals(field[6], &rule->score_decimals) &&
	       office_rule_word(rule, "taken", field[7]) && read_errors(rule, field + 8) &&
	       rt_tie_steps_read(field[12], rule) && read_optional(rule, field + 13);
}

bool office_rule_shipped(struct rt_rule *rule, struct rt_arena **text, const char *name)
{
	const char *folder = getenv("srcdir");
	char line[1000];
	bool found = false;
	FILE *f;

	snprintf(line, sizeof line, "%s/share/rules.csv", folder ? folder : ".");
	f = fopen(line, "r");
	if (!f)
		return false;
	while (!found && fgets(line, sizeof line, f)) {
		size_t n = strcspn(line, ",");

		found = n == strlen(name) && strncmp(line, name, n) == 0 &&
			office_rule_row(rule, text, line);
	}
	fclose(f);
	return found;
}

/* ---- a class ---- */

void office_open(struct office_class *c, const char *rule, const char *judges)
{
	memset(c, 0, sizeof *c);
	must(office_rule_shipped(&c->rule, &c->text, rule), rule);
	must(rt_judges_read(&c->class_.judges, &c->text, judges, NULL) == RT_OK, judges);
	c->class_.name = "K1";
	c->class_.title = "Class one";
	c->class_.test = c->test.name = "T1";
	c->test.title = "Test one";
	c->marks.class_ = &c->class_;
	c->marks.test = &c->test;
	c->marks.rule = &c->rule;
	c->marks.items = &c->items;
	c->marks.entries = &c->entries;
	c->marks.penalties = &c->penalties;
	c->marks.decisions = &c->decisions;
}

void office_item(struct office_class *c, int64_t coefficient_x1000,
		 enum rt_item_group group)
{
	struct rt_item *item = RT_LIST_ADD(&c->items);
	char name[24];

	must(item != NULL, "memory");
	snprintf(name, sizeof name, "%zu", c->items.n);
	item->test = "T1";
	item->name = rt_arena_string(&c->text, name);
	item->letters = item->movement = "";
	item->coefficient_x1000 = coefficient_x1000;
	item->group = group;
	item->mark_step_x100 = 50;
}

void office_items(struct office_class *c, size_t n)
{
	while (n-- > 0)
		office_item(c, 1000, RT_GROUP_MOVEMENT);
}

struct rt_entry *office_entry(struct office_class *c, int64_t number)
{
	struct rt_entry *entry = RT_LIST_ADD(&c->entries);

	must(entry != NULL, "memory");
	entry->class_name = "K1";
	entry->id = entry->number = number;
	entry->driver = "Driver";
	entry->horses = "Horse";
	entry->height_cm = NAN;
	return entry;
}

struct rt_penalty *office_penalty(struct office_class *c, int64_t number, int64_t points_x100,
				  int64_t errors)
{
	struct rt_penalty *penalty = RT_LIST_ADD(&c->penalties);

	must(penalty != NULL, "memory");
	penalty->number = number;
	penalty->points_x100 = points_x100;
	penalty->errors = errors;
	return penalty;
}

void office_decide(struct office_class *c, int64_t decision, int64_t number, int64_t rank)
{
	struct rt_decision *d = RT_LIST_ADD(&c->decisions);

	must(d != NULL, "memory");
	*d = (struct rt_decision){decision, number, rank, "The judge", "the better paces", NULL};
}

void office_missing(struct office_class *c, size_t entry, size_t judge, size_t item)
{
	struct rt_box *box = rt_class_marks_box(&c->marks, entry, judge, item);

	*box = (struct rt_box){{RT_NO_MARK, RT_NO_MARK}, true};
}

void office_sheets(struct office_class *c)
{
	must(rt_class_marks_make(&c->marks, NULL) == RT_OK, "sheets");
}

void office_mark(struct office_class *c, size_t entry, size_t judge, size_t item, int keying,
		 int mark_x100)
{
	rt_class_marks_box(&c->marks, entry, judge, item)->keyed_x100[keying] = mark_x100;
}

static struct rt_sheet_lines *lines(struct office_class *c, size_t entry, size_t judge)
{
	return &c->marks.lines[entry * c->class_.judges.n + judge];
}

void office_away(struct office_class *c, size_t entry, size_t judge)
{
	lines(c, entry, judge)->away = true;
}

void office_errors(struct office_class *c, size_t entry, size_t judge, int keying, int64_t errors)
{
	lines(c, entry, judge)->errors[keying] = errors;
}

void office_total(struct office_class *c, size_t entry, size_t judge, int keying,
		  int64_t total_x100000)
{
	lines(c, entry, judge)->total_x100000[keying] = total_x100000;
}

void office_sum(struct office_class *c, size_t entry, size_t judge, int sum_x10)
{
	int halves = sum_x10 / 5, n = (int)c->items.n;

	must(sum_x10 % 5 == 0 && halves <= 20 * n, "a sum of half marks");
	for (int i = 0; i < n; i++) {
		int mark_x100 = 50 * (halves / n + (i < halves % n));

		for (int k = 0; k < RT_KEYINGS; k++)
			office_mark(c, entry, judge, (size_t)i, k, mark_x100);
	}
}

void office_close(struct office_class *c)
{
	rt_class_marks_free(&c->marks);
	RT_LIST_FREE(&c->items);
	RT_LIST_FREE(&c->entries);
	RT_LIST_FREE(&c->penalties);
	RT_LIST_FREE(&c->decisions);
	RT_LIST_FREE(&c->class_.judges);
	rt_arena_free(c->text);
	memset(c, 0, sizeof *c);
}
