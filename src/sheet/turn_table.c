/* The table of the turn sheet: a block a group of figures.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define HEAD_PT	       1.0 /* larger than the type of the rows */
#define NUMBER_MM      8.6 /* the column of numbers, in type of 12 points */
#define GUTTER_MM      2.0
#define BADGE_MM       2.9
#define AFTER_RULE_MM  0.8
#define AFTER_BLOCK_MM 2.2
#define WORDS_MOST     512

static const struct rt_pen circle = {.width_mm = 0.4, .stroke = RT_INK_BLACK, .fill = RT_INK_WHITE};

/* A pen of text that goes down a column. */
struct column {
	const struct rt__turn_sheet *t;
	double left, right, down;
	struct rt_lettering head, body;
	double larger; /* than type of 12 points */
	bool unfit;    /* what does not fit has its heading above */
	bool draw;
};

static void words(struct column *c, const char *role, const char *text,
		  const struct rt_lettering *type)
{
	c->down += rt__set_lines(c->t->sheet, role, text, c->left, c->down, c->right - c->left,
				 type, c->draw);
}

static void rule(struct column *c)
{
	if (c->draw)
		rt_sheet_segment(c->t->sheet, "rule", &rt__thick, c->left, c->down, c->right,
				 c->down);
	c->down += AFTER_RULE_MM;
}

/* ---- rows ------------------------------------------------------------------------------------ */

/* Begin and finish side by side, each over as many lines as it takes. */
static void pair(struct column *c, const char *role[2], const char *left, const char *right)
{
	double from = c->left + NUMBER_MM * c->larger, width = (c->right - from - GUTTER_MM) / 2.0;
	double a = rt__set_lines(c->t->sheet, role[0], left, from, c->down, width, &c->body,
				 c->draw);
	double b = rt__set_lines(c->t->sheet, role[1], right, from + width + GUTTER_MM, c->down,
				 width, &c->body, c->draw);

	c->down += fmax(a, b);
}

static void badge(const struct column *c, enum rt__turn_type which)
{
	struct rt_lettering type = c->body;
	const char text[] = {(char)('0' + which), '\0'};
	double radius = BADGE_MM * c->larger;
	double x = c->left + radius + 0.2, y = c->down + RT__LINE_MM * c->larger / 2.0;
	struct rt_extent e;

	if (!c->draw)
		return;
	type.anchor = RT_ANCHOR_MIDDLE;
	e = rt_sheet_measure(c->t->sheet, text, &type);
	rt_sheet_circle(c->t->sheet, "badge", &circle, x, y, radius);
	rt__label_set(c->t->sheet, "key", text, &e, &(struct rt__spot){x, y}, &type);
}

static void turn_row(struct column *c, const struct rt_turn *turn, enum rt__turn_type which)
{
	const char *role[] = {"begin", "finish"};
	char begin[256], finish[256];

	rt_place_words(&turn->begin, c->t->options->feet, begin, sizeof begin);
	rt_place_words(&turn->finish, c->t->options->feet, finish, sizeof finish);
	badge(c, which);
	pair(c, role, begin, finish);
}

static void between(struct column *c, const struct rt_turn *turn)
{
	struct column inner = *c;
	char text[128] = "nothing straight here";

	if (turn->straight_m >= 0.001)
		snprintf(text, sizeof text, "then %s straight",
			 rt_show_length(round(turn->straight_m * 10.0) / 10.0, 0, 2,
					c->t->options->feet)
				 .text);
	inner.left += NUMBER_MM * c->larger;
	words(&inner, "between", text, &c->body);
	c->down = inner.down;
}

/* ---- blocks ---------------------------------------------------------------------------------- */

/* What the figures of a group are called; "E B, V P or S R". */
static void title(const struct rt__group *group, char out[static WORDS_MOST])
{
	static const char *const what[] = {
		[RT__OFF_ONTO] = "Off the centreline at",
		[RT__SHORT_SIDE] = "Along a short side",
		[RT__LINE_ACROSS] = "Across",
		[RT__LONG_DIAGONAL] = "Diagonal",
	};
	const char *names = group->names ? group->names : "", *last = strrchr(names, ',');

	if (last)
		snprintf(out, WORDS_MOST, "%s %.*s or%s", what[group->type], (int)(last - names),
			 names, last + 1);
	else
		snprintf(out, WORDS_MOST, "%s%s%s", what[group->type], *names ? " " : "", names);
}

static void fitting_block(struct column *c, const struct rt__group *group)
{
	char text[WORDS_MOST];

	title(group, text);
	words(c, "head", text, &c->head);
	turn_row(c, &group->first[0], group->number[0]);
	between(c, &group->first[0]);
	turn_row(c, &group->first[1], group->number[1]);
}

/* "K to F on the right rein: 10.0 m at most", under one heading in a column. */
static void unfit_block(struct column *c, const struct rt__group *group)
{
	char text[WORDS_MOST];
	const struct rt_turn *turn = group->first;
	const char *comma = strchr(turn->turn, ',');
	int n = comma ? (int)(comma - turn->turn) : (int)strlen(turn->turn);
	bool feet = c->t->options->feet;

	snprintf(text, sizeof text, "Does not fit: %s",
		 rt_show_length(c->t->turns->diameter_m, 0, 2, feet).text);
	if (!c->unfit)
		words(c, "head", text, &c->head);
	c->unfit = true;
	snprintf(text, sizeof text, "%.*s on the %s rein%s: %s at most", n, turn->turn,
		 rt_side_words(turn->hand), group->figures > 1 ? " and its mirror images" : "",
		 rt_show_length(fmin(turn[0].largest_m, turn[1].largest_m), 0, 2, feet).text);
	words(c, "unfit", text, &c->body);
}

/* Above the first block of a column: what its columns are. */
static void column_heads(struct column *c)
{
	const char *role[] = {"columns", "columns"};

	pair(c, role, "begin", "finish");
}

static void notes(struct column *c)
{
	char text[WORDS_MOST];

	words(c, "note",
	      "Mirror images are told once and have the same number. The other way round, read "
	      "from the foot up; past and before change places.",
	      &c->body);
	if (*c->t->turns->unconfirmed) {
		snprintf(text, sizeof text, "Check where %s stand against the rulebook in force.",
			 c->t->turns->unconfirmed);
		words(c, "note", text, &c->body);
	}
}

size_t rt__turn_table_blocks(const struct rt__turn_sheet *t)
{
	return t->groups->n + 1;
}

static void block(struct column *c, size_t i)
{
	if (i >= c->t->groups->n || !c->unfit)
		rule(c);
	if (i >= c->t->groups->n)
		notes(c);
	else if (c->t->groups->at[i].fits)
		fitting_block(c, &c->t->groups->at[i]);
	else
		unfit_block(c, &c->t->groups->at[i]);
	c->down += AFTER_BLOCK_MM;
}

void rt__turn_table(const struct rt__turn_sheet *t, const struct rt_area *frame, size_t frames,
		    size_t *next, bool draw)
{
	size_t blocks = rt__turn_table_blocks(t);

	for (size_t f = 0; f < frames && *next < blocks; f++) {
		struct column c = {
			.t = t,
			.left = frame[f].left_mm,
			.right = frame[f].right_mm,
			.down = frame[f].top_mm,
			.head = {.size_pt = t->type_pt + HEAD_PT},
			.body = {.size_pt = t->type_pt},
			.larger = t->type_pt / RT__BODY_PT,
			.draw = draw,
		};
		bool rows = *next < t->groups->n && t->groups->at[*next].fits;

		if (rows)
			column_heads(&c);
		for (; *next < blocks; ++*next) {
			struct column try = c;

			try.draw = false;
			block(&try, *next);
			if (try.down - AFTER_BLOCK_MM > frame[f].bottom_mm)
				break;
			block(&c, *next);
		}
	}
}
