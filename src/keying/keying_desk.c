/* A sheet that is being keyed, line by line: what is asked, and what each typed line means.
 *
 * The boxes of the items come first, then the errors of course, the hand total, and a last look
 * at all of it.  `front` is as far as the sheet has been keyed: after a step back and a
 * correction the keying goes on there, so that nobody types the next mark over one that is kept.
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
	"Enter keeps what a box says; b goes back a step; p pauses, nothing is lost;\n"
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
	k->box[box] = (struct rt_keyed_box){value, version, copy, k->box[box].missing};
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
	}
	k->at = k->front = first_empty(k);
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
			 "Errors of course on this sheet, 0 too\n    %s; errors%s: ", sum, kept);
	else if (k->at == total_box(k))
		snprintf(out, size,
			 "Hand total on this sheet, Enter when there is none\n"
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

static void go_on(struct rt_keying *k)
{
	k->at++;
	if (k->at > k->front)
		k->front = k->at;
}

static void go_back(struct rt_keying *k, struct rt_keying_step *step)
{
	if (k->at > 0)
		k->at--;
	else
		say(step, "This is the first box.");
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
		while (k->at < k->items->n)
			go_on(k);
	else
		go_on(k);
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

/* A mark with what stands behind it. */
static void take_value(struct rt_keying *k, char *line, struct rt_keying_step *step)
{
	char *rest = line + strcspn(line, " ");

	if (*rest)
		*rest++ = '\0';
	rest += strspn(rest, " ");
	step->box = k->at;
	step->kind = kind_of(k, k->at);
	step->item = item_of(k, k->at);
	if (!read_value(k, line, step) || !read_remark(rest, step))
		return;
	if (is_kept(&k->box[k->at], step)) {
		go_on(k);
		return;
	}
	step->act = RT_KEYING_KEEP;
	if (!step->remark)
		step->remark = k->box[k->at].remark;
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
	else if (strcmp(line, "b") == 0)
		go_back(k, out);
	else if (strcmp(line, "?") == 0)
		say(out, "%s", help_words);
	else if (look && !*line)
		finish(k, out);
	else if (look)
		say(out, "Enter to finish, b to go back, p to pause.");
	else if (strcmp(line, "-") == 0 || strcmp(line, "--") == 0)
		leave(k, line[1] == '-', out);
	else if (*line)
		take_value(k, line, out);
	else if (is_done(&k->box[k->at]) || k->at == total_box(k))
		go_on(k);
	else
		say(out, "This box is empty: type what the sheet says; ? for help.");
}

enum rt_err rt_keying_kept(struct rt_keying *k, const struct rt_keying_step *step, int64_t version,
			   struct rt_error *err)
{
	enum rt_err e = set_box(k, step->box, step->value, version, step->remark, err);

	if (k->at < k->front)
		k->at = k->front;
	else
		go_on(k);
	return e;
}
