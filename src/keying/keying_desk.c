/* A sheet that is being keyed, line by line: what is asked, and what each typed line means.
 *
 * The boxes of the items come first, then the errors of course, the hand total, and a last look
 * at all of it.  A mark always goes into the box that is asked for, and the next one into the box
 * behind it: who goes back keys on from there, and what a box says stands in its prompt.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define REMARK_MOST 500 /* characters */
#define NAMED_MOST  8	/* empty boxes named in one sentence */
#define MANY_ERRORS 2	/* one more is rather a mark in the wrong place: it would eliminate */

static const char help_words[] =
	"A mark: 65 or 6.5; 7; 10. With a remark behind it: 65 late at E.\n"
	"A row of marks, two digits each: 65707560. A hand total: t 143.5.\n"
	"Enter keeps what a box says; b goes back a step and f forward, bb and ff five;\n"
	"h goes to the first box, e to the first empty one; p pauses, nothing is lost;\n"
	"- leaves a box empty and -- all that follow, where a sheet may have empty boxes.";

/* ---- the boxes ---- */

static size_t errors_box(const struct rt_keying *k)
{
	return k->items->n;
}

static size_t total_box(const struct rt_keying *k)
{
	return k->items->n + 1;
}

static enum rt_mark_kind kind_of(const struct rt_keying *k, size_t box)
{
	if (box < k->items->n)
		return RT_MARK_ITEM;
	return box == errors_box(k) ? RT_MARK_ERRORS : RT_MARK_TOTAL;
}

static int64_t item_of(const struct rt_keying *k, size_t box)
{
	return box < k->items->n ? k->items->at[box].id : 0;
}

/* Whether nothing more is wanted of a box. */
static bool is_done(const struct rt_keyed_box *box)
{
	return box->version || box->missing;
}

/* The first box that wants something; k->boxes when there is none. */
static size_t first_empty(const struct rt_keying *k)
{
	size_t box;

	for (box = 0; box < k->boxes && is_done(&k->box[box]); box++)
		;
	return box;
}

enum rt_err rt_keying_make(struct rt_keying *k, const struct rt_items *items, bool gaps,
			   struct rt_error *err)
{
	*k = (struct rt_keying){.items = items, .gaps = gaps, .boxes = items->n + 2};
	k->box = calloc(k->boxes, sizeof *k->box);
	return k->box ? RT_OK : rt_fail_nomem(err);
}

void rt_keying_free(struct rt_keying *k)
{
	free(k->box);
	rt_arena_free(k->text);
	*k = (struct rt_keying){0};
}

/* What a box says from now on. */
static enum rt_err set_box(struct rt_keying *k, size_t box, int64_t value, int64_t version,
			   const char *remark, struct rt_error *err)
{
	const char *copy = rt_arena_string(&k->text, remark);

	if (remark && !copy)
		return rt_fail_nomem(err);
	k->box[box].value = value;
	k->box[box].version = version;
	k->box[box].remark = copy;
	return RT_OK;
}

enum rt_err rt_keying_resume(struct rt_keying *k, const struct rt_mark_versions *versions,
			     int64_t entry, int64_t judge, int keying, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	for (size_t box = 0; box < k->boxes && !e; box++) {
		const struct rt_mark_version *v = rt_mark_latest(
			versions, entry, judge, kind_of(k, box), item_of(k, box), keying);

		if (v)
			e = set_box(k, box, v->value, v->version, v->remark, err);
		else
			k->box[box].emptied = rt_mark_seen(versions, entry, judge, kind_of(k, box),
							   item_of(k, box), keying);
	}
	k->at = first_empty(k);
	return e;
}

size_t rt_keying_filled(const struct rt_keying *k)
{
	size_t filled = 0;

	for (size_t box = 0; box < k->items->n; box++)
		filled += k->box[box].version > 0;
	return filled;
}

bool rt_keying_whole(const struct rt_keying *k)
{
	return first_empty(k) > errors_box(k);
}

void rt_keying_points(const struct rt_keying *k, int64_t *points_x100000, int64_t *most_x100000)
{
	*points_x100000 = *most_x100000 = 0;
	for (size_t box = 0; box < k->items->n; box++) {
		if (!k->box[box].version)
			continue;
		*points_x100000 += k->box[box].value * k->items->at[box].coefficient_x1000;
		*most_x100000 += RT_MARK_MOST_X100 * k->items->at[box].coefficient_x1000;
	}
}

/* ---- what is asked ---- */

/* The value of a box as a person writes it. */
static void format_value(const struct rt_keying *k, size_t box, char *out, size_t size)
{
	const struct rt_keyed_box *said = &k->box[box];

	switch (kind_of(k, box)) {
	case RT_MARK_ITEM:
		rt_format_short(said->value, 2, 1, out, size);
		break;
	case RT_MARK_ERRORS:
		rt_format_decimal(said->value, 0, out, size);
		break;
	case RT_MARK_TOTAL:
		rt__format_points(said->value, out, size);
		break;
	}
}

/* Points so far of the most so far: "41.5 of 60.0". */
static void format_sum(const struct rt_keying *k, char *out, size_t size)
{
	int64_t points, most;
	char one[24], other[24];

	rt_keying_points(k, &points, &most);
	rt__format_points(points, one, sizeof one);
	rt__format_points(most, other, sizeof other);
	snprintf(out, size, "%s of %s", one, other);
}

static void prompt_item(const struct rt_keying *k, const char *sum, const char *kept, char *out,
			size_t size)
{
	const struct rt_item *item = &k->items->at[k->at];
	char coefficient[24];

	rt_format_short(item->coefficient_x1000, 3, 0, coefficient, sizeof coefficient);
	snprintf(out, size, "%s  %s%s%s, coefficient %s\n    %s so far; mark%s: ", item->name,
		 item->letters, *item->letters ? "  " : "", item->movement, coefficient, sum, kept);
}

static void prompt_end(const struct rt_keying *k, const char *sum, char *out, size_t size)
{
	char errors[24] = "not keyed", total[24] = "none";

	if (k->box[errors_box(k)].version)
		format_value(k, errors_box(k), errors, sizeof errors);
	if (k->box[total_box(k)].version)
		format_value(k, total_box(k), total, sizeof total);
	snprintf(out, size,
		 "%zu of %zu boxes keyed, %s; errors of course %s; hand total %s\n"
		 "    Enter to finish, b to go back: ",
		 rt_keying_filled(k), k->items->n, sum, errors, total);
}

void rt_keying_prompt(const struct rt_keying *k, char *out, size_t size)
{
	char sum[60], value[24], kept[40] = "";

	format_sum(k, sum, sizeof sum);
	if (k->at < k->boxes && k->box[k->at].version) {
		format_value(k, k->at, value, sizeof value);
		snprintf(kept, sizeof kept, " [%s]", value);
	} else if (k->at < k->boxes && k->box[k->at].missing) {
		snprintf(kept, sizeof kept, " [missing, Enter leaves it so]");
	}
	if (k->at < k->items->n)
		prompt_item(k, sum, kept, out, size);
	else if (k->at == errors_box(k))
		snprintf(out, size,
			 "Errors of course on this sheet, Enter when there are none\n"
			 "    %s; errors%s: ",
			 sum, kept);
	else if (k->at == total_box(k))
		snprintf(out, size,
			 "Hand total on this sheet as t 143.5, Enter when there is none\n"
			 "    total%s: ",
			 kept);
	else
		prompt_end(k, sum, out, size);
}

/* ---- what a typed line means ---- */

RT_PRINTF(2, 3)
static void say(struct rt_keying_step *step, const char *fmt, ...)
{
	va_list args;

	va_start(args, fmt);
	vsnprintf(step->say, sizeof step->say, fmt, args);
	va_end(args);
}

static void go_back(struct rt_keying *k, size_t steps, struct rt_keying_step *step)
{
	if (k->at == 0)
		say(step, "This is the first box.");
	k->at -= k->at < steps ? k->at : steps;
}

/* Over what is done, and over the hand total, which may stay empty. */
static void go_forward(struct rt_keying *k, size_t steps, struct rt_keying_step *step)
{
	if (k->at == k->boxes || (k->at != total_box(k) && !is_done(&k->box[k->at])))
		say(step, k->at == k->boxes ? "This is the end of the sheet."
					    : "This box is empty: type what the sheet says.");
	for (; steps && k->at < k->boxes && (k->at == total_box(k) || is_done(&k->box[k->at]));
	     steps--)
		k->at++;
}

/* Whether a line only moves on the sheet, and does it. */
static bool take_move(struct rt_keying *k, const char *line, struct rt_keying_step *step)
{
	if (strcmp(line, "b") == 0)
		go_back(k, 1, step);
	else if (strcmp(line, "bb") == 0)
		go_back(k, RT_KEYING_PAGE, step);
	else if (strcmp(line, "f") == 0)
		go_forward(k, 1, step);
	else if (strcmp(line, "ff") == 0)
		go_forward(k, RT_KEYING_PAGE, step);
	else if (strcmp(line, "h") == 0)
		k->at = 0;
	else if (strcmp(line, "e") == 0)
		k->at = first_empty(k);
	else
		return false;
	return true;
}

/* "3, 9, errors of course", of the boxes that must not be empty; how many there are. */
static size_t name_empty(const struct rt_keying *k, char *out, size_t size)
{
	size_t empty = 0;

	*out = '\0';
	for (size_t box = 0; box <= errors_box(k); box++)
		if (!is_done(&k->box[box]) && ++empty <= NAMED_MOST)
			rt_append(out, size, "%s%s", *out ? ", " : "",
				  box < k->items->n ? k->items->at[box].name : "errors of course");
	if (empty > NAMED_MOST)
		rt_append(out, size, " and %zu more", empty - NAMED_MOST);
	return empty;
}

/* The last look is over. */
static void finish(struct rt_keying *k, struct rt_keying_step *step)
{
	char names[400];
	size_t empty = name_empty(k, names, sizeof names);

	if (empty == 0 || k->gaps) {
		step->act = RT_KEYING_END;
		return;
	}
	say(step, "%zu box%s empty: %s. Ask the judge: pause (p), or end it so with --unfinished.",
	    empty, empty == 1 ? " is" : "es are", names);
	k->at = first_empty(k);
}

/* - leaves a box empty, -- all that follow. */
static void leave(struct rt_keying *k, bool all, struct rt_keying_step *step)
{
	if (!k->gaps && !k->box[k->at].missing)
		say(step, "No box of this sheet may stay empty; --unfinished allows it.");
	else if (k->box[k->at].version)
		say(step, "A box that is keyed stays keyed: Enter keeps it, or type another mark.");
	else if (all && k->gaps && k->at < k->items->n)
		k->at = k->items->n;
	else
		k->at++;
}

static bool read_value(const struct rt_keying *k, const char *word, struct rt_keying_step *step)
{
	int64_t points, most = 0;
	char accepted[100];

	switch (step->kind) {
	case RT_MARK_ITEM:
		rt_mark_accepted(k->items->at[k->at].mark_step_x100, accepted, sizeof accepted);
		if (rt_mark_typed(word, k->items->at[k->at].mark_step_x100, &step->value))
			return true;
		say(step, "\"%.40s\" is no mark: %s; ? for help.", word, accepted);
		return false;
	case RT_MARK_ERRORS:
		if (rt_sheet_errors_typed(word, &step->value)) {
			if (step->value > MANY_ERRORS)
				say(step, "%s errors of course: look again; b goes back.", word);
			return true;
		}
		say(step, "\"%.40s\" is no number of errors: 0 to %d; ? for help.", word,
		    RT_SHEET_ERRORS_MOST);
		return false;
	case RT_MARK_TOTAL:
		break;
	}
	if (*word++ != 't') { /* a mark too many must not pass for one */
		say(step,
		    "\"%.40s\" without a t: a hand total is typed as t 143.5; Enter when "
		    "there is none.",
		    word - 1);
		return false;
	}
	for (size_t i = 0; i < k->items->n; i++)
		most += RT_MARK_MOST_X100 * k->items->at[i].coefficient_x1000;
	if (!rt_total_typed(word, most, &step->value)) {
		rt__format_points(most, accepted, sizeof accepted);
		say(step, "\"%.40s\" is no total: 0 to %s; ? for help.", word, accepted);
		return false;
	}
	rt_keying_points(k, &points, &most);
	rt__format_points(points, accepted, sizeof accepted);
	if (points != step->value)
		say(step, "The boxes add up to %s: look at both again; b goes back.", accepted);
	return true;
}

static bool read_remark(const char *remark, struct rt_keying_step *step)
{
	if (!*remark)
		return true;
	if (strchr("0123456789.,+-", *remark))
		say(step, "One mark at a time; a remark behind it begins with a letter.");
	else if (rt_plain_text(remark, strlen(remark)) != RT_PLAIN || strchr(remark, '\t'))
		say(step, "The remark is not plain text in UTF-8: type the mark again.");
	else if (rt_characters(remark) > REMARK_MOST)
		say(step, "The remark is too long: at most %d characters.", REMARK_MOST);
	else
		step->remark = remark;
	return step->remark != NULL;
}

/* The box says so already: nothing to keep. */
static bool is_kept(const struct rt_keyed_box *box, const struct rt_keying_step *step)
{
	if (!box->version || box->value != step->value)
		return false;
	return !step->remark || (box->remark && strcmp(box->remark, step->remark) == 0);
}

/* "t 143.5" as the one word "t143.5". */
static void join_total(char *line)
{
	size_t gap = strspn(line + 1, " ");

	if (*line == 't')
		memmove(line + 1, line + 1 + gap, strlen(line + 1 + gap) + 1);
}

/* A mark with what stands behind it. */
static void take_value(struct rt_keying *k, char *line, struct rt_keying_step *step)
{
	char *rest;

	if (k->at == total_box(k))
		join_total(line);
	rest = line + strcspn(line, " ");
	if (*rest)
		*rest++ = '\0';
	rest += strspn(rest, " ");
	step->box = k->at;
	step->kind = kind_of(k, k->at);
	step->item = item_of(k, k->at);
	if (!read_value(k, line, step) || !read_remark(rest, step))
		return;
	if (is_kept(&k->box[k->at], step)) {
		k->at++;
		return;
	}
	step->act = RT_KEYING_KEEP;
	if (!step->remark)
		step->remark = k->box[k->at].remark;
}

/* ---- a row of marks ---- */

#define ROW_LEAST 4 /* digits: fewer are one mark */

static bool is_row(const struct rt_keying *k, const char *line)
{
	size_t n = strlen(line);

	return k->at < k->items->n && n >= ROW_LEAST && strspn(line, "0123456789") == n;
}

/* Whether every two digits are a mark of their box; what is wrong is said. */
static bool check_row(const struct rt_keying *k, const char *row, struct rt_keying_step *step)
{
	size_t n = strlen(row) / 2, left = k->items->n - k->at;

	if (strlen(row) % 2) {
		say(step, "A row of marks has two digits for each: 65707560; this one is odd.");
		return false;
	}
	if (n > left) {
		say(step, "%zu marks, but %zu box%s left: nothing of the row was taken.", n, left,
		    left == 1 ? " is" : "es are");
		return false;
	}
	for (size_t i = 0; i < n; i++) {
		const struct rt_item *item = &k->items->at[k->at + i];
		const char pair[] = {row[2 * i], row[2 * i + 1], '\0'};
		char accepted[100];
		int64_t mark;

		if (rt_mark_typed(pair, item->mark_step_x100, &mark))
			continue;
		rt_mark_accepted(item->mark_step_x100, accepted, sizeof accepted);
		say(step, "\"%s\" is no mark of item %s: %s; nothing of the row was taken.", pair,
		    item->name, accepted);
		return false;
	}
	return true;
}

/* Take the first mark of a row; the others are what rt_keying_row gives. */
static void take_row(struct rt_keying *k, const char *row, struct rt_keying_step *step)
{
	char pair[RT_KEYING_PAIR];

	if (!check_row(k, row, step))
		return;
	k->row = rt_arena_string(&k->text, row);
	if (!k->row) {
		say(step, "Memory is out: type one mark at a time.");
		return;
	}
	rt_keying_row(k, pair);
	take_value(k, pair, step);
}

bool rt_keying_row(struct rt_keying *k, char pair[RT_KEYING_PAIR])
{
	if (!k->row || !*k->row)
		return false;
	snprintf(pair, RT_KEYING_PAIR, "%.2s", k->row);
	k->row += 2;
	return true;
}

void rt_keying_drop_row(struct rt_keying *k)
{
	k->row = NULL;
}

/* ---- a line ---- */

/* Enter alone: a box keeps what it says, no errors and no hand total are said with it. */
static void take_enter(struct rt_keying *k, struct rt_keying_step *step)
{
	char none[] = "0";

	if (is_done(&k->box[k->at]) || k->at == total_box(k))
		k->at++;
	else if (k->at == errors_box(k))
		take_value(k, none, step);
	else
		say(step, "This box is empty: type what the sheet says; ? for help.");
}

static char *trimmed(char *line)
{
	size_t n;

	line += strspn(line, " \t\r");
	for (n = strlen(line); n && strchr(" \t\r", line[n - 1]); n--)
		line[n - 1] = '\0';
	return line;
}

void rt_keying_take(struct rt_keying *k, char *line, struct rt_keying_step *out)
{
	bool look = k->at == k->boxes;

	*out = (struct rt_keying_step){.act = RT_KEYING_ASK};
	line = trimmed(line);
	if (strcmp(line, "p") == 0)
		out->act = RT_KEYING_PAUSE;
	else if (take_move(k, line, out))
		;
	else if (strcmp(line, "?") == 0)
		say(out, "%s", help_words);
	else if (look && !*line)
		finish(k, out);
	else if (look)
		say(out, "Enter to finish, b to go back, h to the first box, p to pause.");
	else if (strcmp(line, "-") == 0 || strcmp(line, "--") == 0)
		leave(k, line[1] == '-', out);
	else if (is_row(k, line))
		take_row(k, line, out);
	else if (*line)
		take_value(k, line, out);
	else
		take_enter(k, out);
}

enum rt_err rt_keying_kept(struct rt_keying *k, const struct rt_keying_step *step, int64_t version,
			   struct rt_error *err)
{
	enum rt_err e = set_box(k, step->box, step->value, version, step->remark, err);

	k->at = step->box + 1;
	return e;
}
