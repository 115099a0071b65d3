/* The marking sheet: for every entry and judge the items of the test with boxes for marks and
 * remarks, the sums, errors of course and a line to sign on; a figure beside each movement where
 * it is asked for.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#define WORDS_BYTES  (3 * 4 * RT_NAME_MOST) /* two names and more */
#define ROW_LEAST_MM 8.6		    /* a box that a pen can write in */
#define ROW_GAP_MM   1.2
#define FIGURE_SCALE 0.34 /* millimetres a metre, for a ring of 80 m */
#define FIGURE_RING  80.0
#define PAD_MM	     1.0

enum column { ITEM, LETTERS, MOVEMENT, COEFFICIENT, MARK, REMARK, COLUMNS };

static const char *const heads[COLUMNS] = {"no.", "at", "movement", "coeff.", "mark", "remarks"};

/* One sheet of the pile. */
struct marking {
	struct rt_sheet *sheet;
	const struct rt_marking *of;
	const char *show;
	const struct rt_entry *entry; /* NULL: a blank one */
	const struct rt_judge *judge;
	struct rt__furniture furniture;
	char title[WORDS_BYTES], who[WORDS_BYTES], where[WORDS_BYTES];
	struct rt_area room;
	double left[COLUMNS + 1]; /* the last is the right edge */
	struct rt__route_sheet figures;
	struct rt_sheet_options lying; /* of the figures: the long side across */
	double figure_width, figure_height;
	double top;
};

/* ---- columns --------------------------------------------------------------------------------- */

/* The room of a column of short words, from 8 mm up. */
static double room_of(double widest_mm, double most_mm)
{
	return fmin(fmax(widest_mm, 8.0), most_mm) + 2.0;
}

/* Movement and remarks share what the others leave. */
static void place_columns(struct marking *m)
{
	double width = m->room.right_mm - m->room.left_mm, rest, name = 0.0, letters = 0.0;
	double need[COLUMNS] = {[COEFFICIENT] = 16.0, [MARK] = 17.0};

	for (size_t i = 0; i < m->of->items->n; i++) {
		const struct rt_item *item = &m->of->items->at[i];

		name = fmax(name, rt_sheet_measure(m->sheet, item->name, &rt__type).width_mm);
		letters = fmax(letters,
			       rt_sheet_measure(m->sheet, item->letters, &rt__type).width_mm);
	}
	need[ITEM] = room_of(name, 24.0);
	need[LETTERS] = room_of(letters, 26.0);
	for (int i = 0; i < COLUMNS; i++)
		width -= need[i];
	rest = width - m->figure_width;
	need[MOVEMENT] = m->figure_width + rest * 0.52;
	need[REMARK] = rest * 0.48;
	m->left[0] = m->room.left_mm;
	for (int i = 0; i < COLUMNS; i++)
		m->left[i + 1] = m->left[i] + need[i];
}

static double set_cell(const struct marking *m, enum column c, const char *role, const char *words,
		       double top, double less, bool draw)
{
	return rt__set_lines(m->sheet, role, words, m->left[c] + PAD_MM, top,
			     m->left[c + 1] - m->left[c] - 2.0 * PAD_MM - less, &rt__type, draw);
}

/* ---- pages ----------------------------------------------------------------------------------- */

/* The heads of the columns, where rows follow. */
static void set_heads(struct marking *m)
{
	double height = 0.0;

	for (int i = 0; i < COLUMNS; i++)
		height = fmax(height,
			      set_cell(m, (enum column)i, "head", heads[i], m->top, 0.0, true));
	m->top += height + 0.6;
	rt_sheet_segment(m->sheet, "rule", &rt__thick, m->room.left_mm, m->top, m->room.right_mm,
			 m->top);
}

static void next_page(struct marking *m, bool rows)
{
	rt_sheet_page(m->sheet);
	m->top = m->room.top_mm;
	if (rows)
		set_heads(m);
}

/* ---- rows ------------------------------------------------------------------------------------ */

/* Units of 10^-digits without trailing zeros: "1.5". */
static void exact_words(int64_t units, int digits, char out[40])
{
	int needed = rt_digits_needed(units, digits, 0);

	rt_format_decimal(units / rt_power_of_ten(digits - needed), needed, out, 40);
}

/* The leg of the route that an item is; SIZE_MAX: it has no figure. */
static size_t leg_of(const struct marking *m, size_t item)
{
	size_t leg = 0;

	if (!m->of->route || m->of->items->at[item].group != RT_GROUP_MOVEMENT)
		return SIZE_MAX;
	for (size_t i = 0; i < item; i++)
		leg += m->of->items->at[i].group == RT_GROUP_MOVEMENT;
	return leg < m->of->route->legs.n ? leg : SIZE_MAX;
}

static double row_words(const struct marking *m, size_t i, bool draw)
{
	const struct rt_item *item = &m->of->items->at[i];
	double top = m->top + PAD_MM, height = RT__LINE_MM;
	double less = leg_of(m, i) == SIZE_MAX ? 0.0 : m->figure_width;
	char coefficient[40];

	exact_words(item->coefficient_x1000, 3, coefficient);
	height = fmax(height, set_cell(m, ITEM, "item", item->name, top, 0.0, draw));
	height = fmax(height, set_cell(m, LETTERS, "letters", item->letters, top, 0.0, draw));
	height = fmax(height, set_cell(m, MOVEMENT, "movement", item->movement, top, less, draw));
	if (item->coefficient_x1000 != 1000)
		set_cell(m, COEFFICIENT, "coefficient", coefficient, top, 0.0, draw);
	height = fmax(height + 2.0 * PAD_MM, ROW_LEAST_MM);
	return less > 0.0 ? fmax(height, m->figure_height + PAD_MM) : height;
}

static void row_lines(const struct marking *m, double height)
{
	const struct rt_area box = {m->left[MARK], m->top, m->left[REMARK], m->top + height};

	rt_sheet_rectangle(m->sheet, "mark", &rt__thick, &box);
	rt_sheet_segment(m->sheet, "rule", &rt__thin, m->room.left_mm, m->top + height,
			 m->room.right_mm, m->top + height);
	rt_sheet_segment(m->sheet, "edge", &rt__thin, m->room.right_mm, m->top, m->room.right_mm,
			 m->top + height);
}

static enum rt_err set_row(struct marking *m, size_t i, struct rt_error *err)
{
	double height = row_words(m, i, false);
	size_t leg = leg_of(m, i);
	enum rt_err e = RT_OK;

	if (m->top + height > m->room.bottom_mm)
		next_page(m, true);
	if (m->top + height > m->room.bottom_mm)
		return rt_fail(err, RT_E_INPUT, "item %s: its words fill more than a page",
			       m->of->items->at[i].name);
	row_words(m, i, true);
	row_lines(m, height);
	if (leg != SIZE_MAX)
		e = rt__route_drawing(&m->figures, leg, m->left[COEFFICIENT] - m->figure_width,
				      m->top + PAD_MM / 2.0, err);
	m->top += height;
	return e;
}

/* ---- below the boxes ------------------------------------------------------------------------- */

/* What each error of course costs under the rule: "1st 5 points, 2nd 10 points, 3rd eliminated". */
static void error_words(const struct rt_rule *rule, char *out, size_t size)
{
	static const char *const nth[RT_ERROR_STEPS] = {"1st", "2nd", "3rd", "4th"};
	size_t used = (size_t)snprintf(out, size, "Errors of course");

	for (size_t i = 0; i < rule->error_steps && used < size - 1; i++) {
		char amount[40];

		exact_words(rule->error[i].amount_x100, 2, amount);
		used += (size_t)snprintf(out + used, size - used, "%s %s %s%s", i ? "," : ":",
					 nth[i], rule->error[i].eliminated ? "eliminated" : amount,
					 rule->error[i].eliminated	   ? ""
					 : rule->taken == RT_TAKEN_PERCENT ? " %"
									   : " points");
	}
}

/* Words, and a box at the right edge to write in. */
static void set_line(struct marking *m, const char *words)
{
	double box_left = m->room.right_mm - 30.0;
	double width = box_left - 3.0 - m->room.left_mm;
	double height = fmax(rt__set_lines(m->sheet, "below", words, m->room.left_mm, m->top, width,
					   &rt__type, false),
			     ROW_LEAST_MM);
	const struct rt_area box = {box_left, m->top, m->room.right_mm, m->top + height};

	rt__set_lines(m->sheet, "below", words, m->room.left_mm, m->top + PAD_MM, width, &rt__type,
		      true);
	rt_sheet_rectangle(m->sheet, "box", &rt__thick, &box);
	m->top += height + ROW_GAP_MM;
}

static void set_below(struct marking *m)
{
	char errors[WORDS_BYTES], sum[200], maximum[40];
	int64_t most = 0;
	double need = 4.0 * (ROW_LEAST_MM + ROW_GAP_MM) + 3.0 * RT__LINE_MM;

	for (size_t i = 0; i < m->of->items->n; i++)
		if (rt_item_marked_at(&m->of->items->at[i], m->judge->position))
			most += m->of->items->at[i].coefficient_x1000;
	if (m->top + need > m->room.bottom_mm)
		next_page(m, false);
	m->top += 2.0;
	exact_words(10 * most, 3, maximum);
	snprintf(sum, sizeof sum, "Sum of marks times coefficients (of %s)", maximum);
	error_words(m->of->rule, errors, sizeof errors);
	set_line(m, errors);
	set_line(m, sum);
	set_line(m, "Total, errors taken off where the rule of the class does so");
	m->top += 2.0 * RT__LINE_MM;
	rt_sheet_segment(m->sheet, "signature", &rt__thin, m->room.left_mm + 60.0, m->top,
			 m->room.right_mm, m->top);
	rt__set_lines(m->sheet, "signature", "Judge's signature:", m->room.left_mm,
		      m->top - 0.8 * RT__LINE_MM, 58.0, &rt__type, true);
}

/* ---- the pile -------------------------------------------------------------------------------- */

static void head_words(struct marking *m)
{
	const struct rt_class *class_ = m->of->class_;
	const char *name = m->entry ? rt_sheet_judge(m->of->judged, m->entry->id, m->judge)
				    : m->judge->name;

	*m->title = *m->who = *m->where = '\0';
	rt__add_words(m->title, sizeof m->title, "%s, class %s", m->of->test->title, class_->name);
	if (m->entry)
		rt__add_words(m->who, sizeof m->who, "Number %lld: %s, %s",
			      (long long)m->entry->number, m->entry->driver, m->entry->horses);
	else
		rt__add_words(m->who, sizeof m->who, "Number:                    Driver or rider:");
	rt__add_words(m->where, sizeof m->where, "Judge at %s%s%s%s%s", m->judge->position,
		      name ? ": " : "", name ? name : "", m->judge->scribe ? "; scribe " : "",
		      m->judge->scribe ? m->judge->scribe : "");
	m->furniture = (struct rt__furniture){.title = m->title,
					      .line = {m->show, m->who, m->where}};
}

static void plan_figures(struct marking *m, const struct rt_marking *of,
			 const struct rt_sheet_options *options)
{
	static const struct rt_route_sheet plain = {0};

	m->figure_width = m->figure_height = 0.0;
	if (!of->route)
		return;
	m->lying = *options;
	m->lying.seat = RT_SEAT_E;
	m->figures = (struct rt__route_sheet){.sheet = m->sheet,
					      .route = of->route,
					      .kind = of->kind,
					      .what = &plain,
					      .options = &m->lying,
					      .mm_per_m = FIGURE_SCALE * FIGURE_RING /
							  of->kind->length_m};
	rt__route_drawing_size(&m->figures, &m->figure_width, &m->figure_height);
}

/* The heading over items of another group than those before them. */
static void set_heading(struct marking *m, enum rt_item_group group)
{
	static const char *const words[RT_ITEM_GROUP_COUNT] = {"Movements", "General impression",
							       "Artistic marks"};

	if (m->top + 2.0 * ROW_LEAST_MM + RT__LINE_MM > m->room.bottom_mm)
		next_page(m, true);
	m->top += 1.5;
	m->top += rt__set_lines(m->sheet, "heading", words[group], m->room.left_mm, m->top,
				m->room.right_mm - m->room.left_mm, &rt__head_type, true);
	rt_sheet_segment(m->sheet, "rule", &rt__thin, m->room.left_mm, m->top, m->room.right_mm,
			 m->top);
}

static enum rt_err set_sheet(struct marking *m, struct rt_error *err)
{
	int first = m->sheet->pages + 1;
	enum rt_item_group group = RT_GROUP_MOVEMENT;
	enum rt_err e = RT_OK;

	head_words(m);
	m->room = rt__furniture_room(m->sheet, &m->furniture);
	place_columns(m);
	next_page(m, true);
	for (size_t i = 0; i < m->of->items->n && !e; i++) {
		if (!rt_item_marked_at(&m->of->items->at[i], m->judge->position))
			continue;
		if (m->of->items->at[i].group != group)
			set_heading(m, group = m->of->items->at[i].group);
		e = set_row(m, i, err);
	}
	if (!e)
		set_below(m);
	rt__furniture_draw(m->sheet, &m->furniture, first);
	return e;
}

enum rt_err rt_sheet_marking(struct rt_sheet *out, const struct rt_marking *of,
			     const struct rt_sheet_options *options, struct rt_error *err)
{
	struct marking m = {.sheet = out, .of = of, .show = options->show};
	size_t entries = of->entries ? of->entries->n : 1;
	char title[WORDS_BYTES] = "";
	enum rt_err e;

	rt__add_words(title, sizeof title, "Marking sheets: class %s", of->class_->name);
	e = rt_sheet_begin(out, options->paper, title, options->when, err);
	if (e)
		return e;
	plan_figures(&m, of, options);
	for (size_t j = 0; j < of->class_->judges.n && !e; j++) {
		m.judge = &of->class_->judges.at[j];
		if (of->position && strcmp(of->position, m.judge->position) != 0)
			continue;
		for (size_t i = 0; i < entries && !e; i++) {
			m.entry = of->entries ? &of->entries->at[i] : NULL;
			e = set_sheet(&m, err);
		}
	}
	return e ? e : rt_sheet_result(out, err);
}
