/* The sheet of results: every class as it is read out, no page break in a class that fits on
 * one; scores and places follow the sheets of marks.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "workbook_internal.h"

enum column {
	PLACE,
	NUMBER,
	DRIVER,
	HORSES,
	DIVISION,
	STATUS,
	SCORE,
	PERCENT,
	ERRORS,
	PENALTIES,
	POINTS_OFF, /* only when a class has a rule that tells them apart; a column a judge follows
		     */
	COLUMNS
};

#define HEAD_ROW     1
#define PAGE_RESERVE 0.92 /* of a page's height is counted on: fonts and printers differ */
#define TITLE_POINTS 19.0

static bool tells_points_apart(const struct rt__marks *m)
{
	return m->of->rule->taken == RT_TAKEN_PERCENT;
}

/* The column of the first judge. */
static lxw_col_t judges_column(const struct rt__marks *marks, size_t n)
{
	for (size_t c = 0; c < n; c++)
		if (tells_points_apart(&marks[c]))
			return COLUMNS;
	return POINTS_OFF;
}

static void write_heads(struct rt__sheet *sheet, lxw_col_t first_judge, size_t judges)
{
	static const char *const heads[COLUMNS] = {
		"Place",
		"No.",
		"Driver or rider",
		"Horses",
		"Division",
		"Status",
		"Score",
		"Percent",
		"Errors of course",
		"Errors and penalties",
		"Points off",
	};
	const struct rt_workbook *of = sheet->book->of;

	rt__put_loose(sheet, 0, 0,
		      rt__say(sheet->book, "%s, %s: results", of->title ? of->title : "",
			      of->day ? of->day : ""),
		      RT__LOOK_TITLE);
	for (lxw_col_t i = 0; i < first_judge; i++)
		rt__put_head(sheet, HEAD_ROW, i, heads[i],
			     i >= DRIVER && i <= STATUS ? RT__LOOK_HEAD : RT__LOOK_HEAD_OVER);
	for (size_t j = 0; j < judges; j++)
		rt__put_head(sheet, HEAD_ROW, (lxw_col_t)(first_judge + j), "Percent at",
			     RT__LOOK_HEAD_OVER);
}

/* The class's own head: its name, and the judges over their columns. */
static void write_class_head(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t first_judge,
			     const struct rt__marks *m)
{
	const struct rt_class *class_ = m->of->class_;
	const struct rt_rule *rule = m->of->rule;

	rt__put_loose(sheet, row, 0,
		      rt__say(sheet->book, "%s: %s (%s; %s wins)%s", class_->name, class_->title,
			      rule->scale == RT_PERCENT_SCALE ? "per cent"
							      : rt_scale_words(rule->scale),
			      rt_wins_words(rule->wins),
			      m->results->complete ? "" : ", provisional"),
		      RT__LOOK_STRONG);
	for (size_t j = 0; j < m->judges; j++)
		rt__put(sheet, row, (lxw_col_t)(first_judge + j), class_->judges.at[j].position,
			RT__LOOK_OVER);
}

/* A row of results, and where it comes from. */
struct line {
	struct rt__sheet *sheet;
	const struct rt__marks *m;
	const struct rt_result *result;
	lxw_row_t row;	/* here */
	lxw_row_t from; /* there: the first of the entry */
	lxw_col_t first_judge;
};

/* What stands in a cell of the sheet of marks: a number, or an empty text. */
static void follow(const struct line *l, lxw_col_t col, lxw_row_t from_row, lxw_col_t from,
		   bool there, double value, int decimals)
{
	enum rt__look look = col == PLACE || col == SCORE ? RT__LOOK_STRONG : RT__LOOK_PLAIN;
	const char *formula = rt__say(l->sheet->book, "=%s%s", l->m->sheet.quoted,
				      rt__ref_fixed(from_row, from).s);

	rt__put_formula_if(l->sheet, l->row, col, formula, there, value, decimals, look);
}

static void follow_judges(const struct line *l)
{
	const struct rt__marks *m = l->m;

	for (size_t j = 0; j < m->judges; j++)
		follow(l, (lxw_col_t)(l->first_judge + j), l->from + (lxw_row_t)j, m->judge_percent,
		       l->result->judge[j].in, rt__judge_percent(m->results, l->result, j),
		       m->results->judge_percent_digits);
}

static void write_line(const struct line *l)
{
	const struct rt_result *result = l->result;
	const struct rt__marks *m = l->m;
	bool apart = tells_points_apart(m);
	int score = m->of->rule->score_decimals, percent = m->of->rule->percent_decimals;

	follow(l, PLACE, l->from, m->place, result->place > 0, (double)result->place, 0);
	rt__put_number(l->sheet, l->row, NUMBER, (double)result->entry->number, 0, RT__LOOK_PLAIN);
	rt__put(l->sheet, l->row, DRIVER, result->entry->driver, RT__LOOK_PLAIN);
	rt__put(l->sheet, l->row, HORSES, result->entry->horses, RT__LOOK_PLAIN);
	rt__follow_words(l->sheet, l->row, DIVISION, m, l->from, m->division, result->division);
	rt__follow_words(l->sheet, l->row, STATUS, m, l->from, m->outcome, rt_result_words(result));
	follow(l, SCORE, l->from, m->score, result->scored, rt__number(result->score, score),
	       score);
	follow(l, PERCENT, l->from, m->percent, result->scored,
	       rt__number(result->percent, percent), percent);
	follow(l, ERRORS, l->from, m->errors, true, (double)result->errors, 0);
	follow(l, PENALTIES, l->from, m->together, true,
	       rt__number(apart ? result->error_x100 : result->penalty_x100, 2), 2);
	if (apart)
		follow(l, POINTS_OFF, l->from, m->penalties, true,
		       rt__number(result->points_x100, 2), 2);
	follow_judges(l);
	rt__said(l->sheet->book);
}

/* The class from `row` on; returns the first row after it. */
static lxw_row_t write_class(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t first_judge,
			     const struct rt__marks *m)
{
	write_class_head(sheet, row++, first_judge, m);
	for (size_t i = 0; i < m->results->n; i++) {
		const struct rt_result *result = &m->results->at[i];
		struct line l = {
			sheet,	    m, result, row++, rt__marks_row(m, rt__marks_entry(m, result)),
			first_judge};

		write_line(&l);
	}
	return row;
}

static size_t most_judges(const struct rt__marks *marks, size_t n)
{
	size_t most = 0;

	for (size_t c = 0; c < n; c++)
		if (marks[c].judges > most)
			most = marks[c].judges;
	return most;
}

/* A page break before each class that would not be whole on the page that the one before it
 * ends on; `first` is the row of the first. */
static void break_pages(struct rt__sheet *sheet, lxw_row_t first, const struct rt__marks *marks,
			size_t n)
{
	double heads = TITLE_POINTS + sheet->height;
	double points = PAGE_RESERVE * rt__sheet_page_height(sheet) - heads;
	size_t most = points > RT__ROW_POINTS ? (size_t)(points / RT__ROW_POINTS) : 1;
	lxw_row_t row = first, *breaks = rt__take(sheet->book, (n + 1) * sizeof *breaks);
	size_t used = 0, broken = 0;

	if (!breaks)
		return;
	for (size_t c = 0; c < n; c++) {
		size_t rows = 1 + marks[c].results->n;

		if (used > 0 && used + rows > most && broken < RT__BREAKS) {
			breaks[broken++] = row;
			used = 0;
		}
		row += (lxw_row_t)rows + 1; /* an empty one follows */
		used = (used + rows + 1) % most;
	}
	rt__check(sheet->book, worksheet_set_h_pagebreaks(sheet->at, breaks));
}

void rt__write_results(struct rt__sheet *sheet, const struct rt__marks *marks, size_t n)
{
	lxw_col_t first_judge = judges_column(marks, n);
	lxw_row_t row = HEAD_ROW + 1;

	write_heads(sheet, first_judge, most_judges(marks, n));
	for (size_t c = 0; c < n; c++)
		row = write_class(sheet, row, first_judge, &marks[c]) + 1;
	break_pages(sheet, HEAD_ROW + 1, marks, n);
	rt__sheet_freeze(sheet, HEAD_ROW + 1, HORSES);
	rt__sheet_repeat(sheet, 0, HEAD_ROW);
	rt__sheet_end(sheet);
}
