/* Scores classes that come as text on standard input, and writes the results as text, for
 * office_random.py to compare.  A line is a word and what belongs to it:
 *
 *   rule ROW OF RULES.CSV          starts a class
 *   judges C B* E
 *   multiplier MILLIONTHS
 *   item COEFFICIENT_X1000 GROUP JUDGES   (0 movement, 1 general, 2 artistic; C M, or none: all)
 *   entry NUMBER STATUS HORS_CONCOURS DIVISION   (- is no division)
 *   sheets                         entries and items are all there
 *   mark ENTRY JUDGE ITEM KEYING MARK_X100       (places from 0)
 *   errors ENTRY JUDGE KEYING COUNT
 *   missing ENTRY JUDGE ITEM       an empty box whose judge cannot be asked
 *   away ENTRY JUDGE
 *   decide DECISION NUMBER RANK
 *   penalty NUMBER POINTS_X100 ERRORS
 *   end                            scores it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../office_class.h"

#define NUMBERS 5 /* a line has at most so many */

static _Noreturn void stop(const char *what, const char *line)
{
	fprintf(stderr, "office_batch: %s: %s\n", what, line);
	exit(EXIT_FAILURE);
}

/* The whole numbers of a line into v; what is not there is 0. */
static void numbers(const char *s, int64_t v[NUMBERS])
{
	char *end;

	for (int i = 0; i < NUMBERS; i++) {
		v[i] = strtoll(s, &end, 10);
		s = end;
	}
}

static void read_entry(struct office_class *c, const char *rest)
{
	char status[40], division[40];
	struct rt_entry *entry;
	int64_t number;
	int hors_concours;

	if (sscanf(rest, "%" SCNd64 " %39s %d %39s", &number, status, &hors_concours, division) !=
	    4)
		stop("not an entry", rest);
	entry = office_entry(c, number);
	entry->hors_concours = hors_concours != 0;
	if (rt_field_read(rt_record_field(&rt_entry_record, "status"), entry, status, NULL, NULL))
		stop("not a status", status);
	if (strcmp(division, "-") != 0)
		entry->division = rt_arena_string(&c->text, division);
}

static void write_result(const struct rt_results *r, const struct rt_result *result)
{
	printf("%" PRId64 " %zu %s %" PRId64, result->entry->number, result->place,
	       rt_status_words(result->status), result->errors);
	printf(" sheets %zu of %zu empty %zu filled %zu", result->sheets, result->expected,
	       result->empty, result->filled);
	if (result->scored)
		printf(" score %" PRId64 " percent %" PRId64 " penalty %" PRId64, result->score,
		       result->percent, result->penalty_x100);
	if (result->scored && r->halves)
		printf(" halves %" PRId64 " %" PRId64, result->technical, result->artistic);
	printf(" by %s", result->parted_by ? result->parted_by : "-");
	for (size_t j = 0; j < r->of->class_->judges.n; j++)
		if (result->judge[j].in)
			printf(" %s %" PRId64 "+%" PRId64 "/%" PRId64 " %" PRId64 " as %" PRId64
			       " %zu",
			       r->of->class_->judges.at[j].position, result->judge[j].points_x100000,
			       result->judge[j].part.num,
			       result->judge[j].part.den ? result->judge[j].part.den : 1,
			       result->judge[j].percent, result->judge[j].counted,
			       result->judge[j].place);
	printf("\n");
}

static void score(struct office_class *c)
{
	struct rt_results r;
	struct rt_error err;

	if (rt_results_make(&r, &c->marks, &err))
		stop("not scored", err.text);
	for (size_t i = 0; i < r.n; i++)
		write_result(&r, &r.at[i]);
	printf("differ %d missing %d single %d complete %d\n", r.differ, r.missing, r.single_keying,
	       r.complete);
	rt_results_free(&r);
}

static void start_class(struct office_class *c, const char *row)
{
	office_open(c, "driven-percent", "C");
	RT_LIST_FREE(&c->class_.judges);
	if (!office_rule_row(&c->rule, &c->text, row))
		stop("not a rule", row);
}

/* What a person says of a sheet or of a tie. */
static bool read_said(struct office_class *c, const char *word, const int64_t v[NUMBERS])
{
	if (strcmp(word, "missing") == 0)
		office_missing(c, (size_t)v[0], (size_t)v[1], (size_t)v[2]);
	else if (strcmp(word, "away") == 0)
		office_away(c, (size_t)v[0], (size_t)v[1]);
	else if (strcmp(word, "decide") == 0)
		office_decide(c, v[0], v[1], v[2]);
	else if (strcmp(word, "penalty") == 0)
		office_penalty(c, v[0], v[1], v[2]);
	else
		return false;
	return true;
}

/* What follows the first two words of a line. */
static void read_item(struct office_class *c, const int64_t v[NUMBERS], const char *rest)
{
	for (int word = 0; word < 2; word++) {
		rest += strspn(rest, " ");
		rest += strcspn(rest, " ");
	}
	office_item(c, v[0], (enum rt_item_group)v[1]);
	c->items.at[c->items.n - 1].judges = rt_arena_string(&c->text, rest + strspn(rest, " "));
}

static void read_line(struct office_class *c, const char *word, const char *rest)
{
	int64_t v[NUMBERS];

	numbers(rest, v);
	if (strcmp(word, "rule") == 0)
		start_class(c, rest);
	else if (strcmp(word, "judges") == 0) {
		if (rt_judges_read(&c->class_.judges, &c->text, rest, NULL))
			stop("not judges", rest);
	} else if (strcmp(word, "multiplier") == 0)
		c->test.multiplier_x1000000 = v[0];
	else if (strcmp(word, "item") == 0)
		read_item(c, v, rest);
	else if (strcmp(word, "entry") == 0)
		read_entry(c, rest);
	else if (strcmp(word, "sheets") == 0)
		office_sheets(c);
	else if (strcmp(word, "mark") == 0)
		office_mark(c, (size_t)v[0], (size_t)v[1], (size_t)v[2], (int)v[3], (int)v[4]);
	else if (strcmp(word, "errors") == 0)
		office_errors(c, (size_t)v[0], (size_t)v[1], (int)v[2], v[3]);
	else if (strcmp(word, "end") == 0) {
		score(c);
		office_close(c);
	} else if (!read_said(c, word, v))
		stop("not a word of this form", word);
}

int main(void)
{
	struct office_class c;
	char line[1000];

	while (fgets(line, sizeof line, stdin)) {
		char *rest;

		line[strcspn(line, "\n")] = '\0';
		rest = line + strcspn(line, " ");
		if (*rest)
			*rest++ = '\0';
		read_line(&c, line, rest);
	}
	return EXIT_SUCCESS;
}
