/* The sheet of judges: for each class what every judge gave every entry whose sheets are all in,
 * beside the others and as a plot; the figures follow the sheets of marks.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <math.h>

#include "workbook_internal.h"

enum column { NUMBER, DRIVER, FIRST_JUDGE };

#define TITLE_ROW  0
#define FIRST_ROW  2
#define PLOT_ROWS  19 /* rows of the usual height that the plot takes */
#define PLOT_WIDTH 900

/* A class's rows here. */
struct block {
	struct rt__sheet *sheet;
	const struct rt__marks *m;
	lxw_row_t heads, first, last; /* entries */
};

/* An entry that every judge's sheet is in of; what would be empty is zero to a plot. */
static bool is_listed(const struct rt_results *r, const struct rt_result *result)
{
	return result->status == RT_ENTERED && result->sheets == r->of->class_->judges.n;
}

static size_t listed(const struct rt_results *r)
{
	size_t n = 0;

	for (size_t i = 0; i < r->n; i++)
		n += is_listed(r, &r->at[i]);
	return n;
}

/* Is there anything to compare? */
static bool has_block(const struct rt_results *r)
{
	return r->of->class_->judges.n > 1 && listed(r) > 0;
}

static lxw_col_t judge_column(size_t judge)
{
	return (lxw_col_t)(FIRST_JUDGE + judge);
}

/* ---- rows ------------------------------------------------------------------------------------ */

static void write_heads(const struct block *b)
{
	const struct rt_class *class_ = b->m->of->class_;

	rt__put_loose(b->sheet, b->heads - 1, 0,
		      rt__say(b->sheet->book, "%s: %s (per cent)", class_->name, class_->title),
		      RT__LOOK_STRONG);
	rt__put_head(b->sheet, b->heads, NUMBER, "No.", RT__LOOK_HEAD_OVER);
	rt__put_head(b->sheet, b->heads, DRIVER, "Driver or rider", RT__LOOK_HEAD);
	for (size_t j = 0; j < b->m->judges; j++)
		rt__put_head(b->sheet, b->heads, judge_column(j), class_->judges.at[j].position,
			     RT__LOOK_HEAD_OVER);
}

static void write_entry(const struct block *b, lxw_row_t row, const struct rt_result *result)
{
	const struct rt__marks *m = b->m;
	lxw_row_t from = rt__marks_row(m, rt__marks_entry(m, result));

	rt__put_number(b->sheet, row, NUMBER, (double)result->entry->number, 0, RT__LOOK_PLAIN);
	rt__put(b->sheet, row, DRIVER, result->entry->driver, RT__LOOK_PLAIN);
	for (size_t j = 0; j < m->judges; j++)
		rt__put_formula(b->sheet, row, judge_column(j),
				rt__say(b->sheet->book, "=%s%s", m->sheet.quoted,
					rt__ref_fixed(from + (lxw_row_t)j, m->judge_percent).s),
				rt__judge_percent(m->results, result, j),
				m->results->judge_percent_digits, RT__LOOK_PLAIN);
	rt__said(b->sheet->book);
}

/* ---- mean and spread ------------------------------------------------------------------------- */

/* Mean and standard deviation (n - 1; NAN of fewer than two) of what a judge gave. */
static void figures(const struct rt__marks *m, size_t judge, double *mean, double *spread)
{
	const struct rt_results *r = m->results;
	double sum = 0, square = 0, n = (double)listed(r);

	for (size_t i = 0; i < r->n; i++)
		sum += is_listed(r, &r->at[i]) ? rt__judge_percent(r, &r->at[i], judge) : 0;
	*mean = sum / n;
	for (size_t i = 0; i < r->n; i++) {
		double off = rt__judge_percent(r, &r->at[i], judge) - *mean;

		square += is_listed(r, &r->at[i]) ? off * off : 0;
	}
	*spread = n > 1 ? sqrt(square / (n - 1)) : NAN;
}

/* A row of what a function of the program comes to, of each judge. */
static void write_figure(const struct block *b, lxw_row_t row, const char *words,
			 const char *function)
{
	rt__put(b->sheet, row, DRIVER, words, RT__LOOK_STRONG);
	for (size_t j = 0; j < b->m->judges; j++) {
		lxw_col_t col = judge_column(j);
		double mean, spread;

		figures(b->m, j, &mean, &spread);
		rt__put_formula(b->sheet, row, col,
				rt__say(b->sheet->book, "=%s(%s)", function,
					rt__ref_range(b->first, col, b->last, col).s),
				row == b->last + 1 ? mean : spread, 2, RT__LOOK_STRONG);
	}
	rt__said(b->sheet->book);
}

/* The foot of the plot: under the lowest percentage, a multiple of five. */
static double least_percent(const struct rt__marks *m)
{
	double least = 100;

	for (size_t i = 0; i < m->results->n; i++)
		for (size_t j = 0; is_listed(m->results, &m->results->at[i]) && j < m->judges; j++)
			least = fmin(least, rt__judge_percent(m->results, &m->results->at[i], j));
	return 5 * floor(least / 5 - 1e-9);
}

/* ---- plot ------------------------------------------------------------------------------------ */

/* A line a judge, told apart by the shape of its marks and the dashes of its line. */
static void add_judge(const struct block *b, lxw_chart *chart, size_t judge)
{
	static const uint8_t shapes[] = {LXW_CHART_MARKER_CIRCLE,   LXW_CHART_MARKER_SQUARE,
					 LXW_CHART_MARKER_TRIANGLE, LXW_CHART_MARKER_DIAMOND,
					 LXW_CHART_MARKER_X,	    LXW_CHART_MARKER_PLUS,
					 LXW_CHART_MARKER_STAR};
	static const uint8_t dashes[] = {
		LXW_CHART_LINE_DASH_SOLID, LXW_CHART_LINE_DASH_DASH, LXW_CHART_LINE_DASH_ROUND_DOT,
		LXW_CHART_LINE_DASH_LONG_DASH, LXW_CHART_LINE_DASH_DASH_DOT};
	lxw_chart_line line = {.color = LXW_COLOR_BLACK,
			       .width = 1.25F,
			       .dash_type = dashes[judge % (sizeof dashes)]};
	lxw_chart_fill fill = {.color = judge % 2 ? LXW_COLOR_WHITE : LXW_COLOR_BLACK};
	lxw_chart_line edge = {.color = LXW_COLOR_BLACK};
	lxw_chart_series *series = chart_add_series(chart, NULL, NULL);

	if (!series) {
		rt__check(b->sheet->book, LXW_ERROR_MEMORY_MALLOC_FAILED);
		return;
	}
	chart_series_set_name(
		series, rt__legible(b->sheet->book, b->m->of->class_->judges.at[judge].position));
	chart_series_set_categories(series, b->sheet->name, b->first, NUMBER, b->last, NUMBER);
	chart_series_set_values(series, b->sheet->name, b->first, judge_column(judge), b->last,
				judge_column(judge));
	chart_series_set_line(series, &line);
	chart_series_set_marker_type(series, shapes[judge % (sizeof shapes)]);
	chart_series_set_marker_size(series, 8);
	chart_series_set_marker_fill(series, &fill);
	chart_series_set_marker_line(series, &edge);
}

static void add_plot(const struct block *b)
{
	lxw_chart_options size = {.x_offset = 4,
				  .y_offset = 4,
				  .x_scale = PLOT_WIDTH / 480.0,
				  .y_scale = PLOT_ROWS * 20 / 300.0};
	lxw_chart *chart = workbook_add_chart(b->sheet->book->file, LXW_CHART_LINE);

	if (!chart) {
		rt__check(b->sheet->book, LXW_ERROR_MEMORY_MALLOC_FAILED);
		return;
	}
	for (size_t j = 0; j < b->m->judges; j++)
		add_judge(b, chart, j);
	chart_title_off(chart);
	chart_axis_set_name(chart->x_axis, "Number, in the order of the results");
	chart_axis_set_name(chart->y_axis, "Per cent");
	chart_legend_set_position(chart, LXW_CHART_LEGEND_RIGHT);
	chart_axis_set_min(chart->y_axis, least_percent(b->m));
	rt__check(b->sheet->book,
		  worksheet_insert_chart_opt(b->sheet->at, b->last + 3, 0, chart, &size));
}

/* ---- the sheet ------------------------------------------------------------------------------- */

/* The class from `row` on; returns the first row after it. */
static lxw_row_t write_block(struct rt__sheet *sheet, lxw_row_t row, const struct rt__marks *m)
{
	struct block b = {.sheet = sheet, .m = m, .heads = row + 1, .first = row + 2};

	b.last = b.first + (lxw_row_t)listed(m->results) - 1;
	write_heads(&b);
	row = b.first;
	for (size_t i = 0; i < m->results->n; i++)
		if (is_listed(m->results, &m->results->at[i]))
			write_entry(&b, row++, &m->results->at[i]);
	write_figure(&b, b.last + 1, "Mean", "AVERAGE");
	if (b.last > b.first)
		write_figure(&b, b.last + 2, "Spread (standard deviation)", "STDEV");
	add_plot(&b);
	return b.last + 3 + PLOT_ROWS + 1;
}

bool rt__has_judges(const struct rt_results *const *results, size_t n)
{
	for (size_t c = 0; c < n; c++)
		if (has_block(results[c]))
			return true;
	return false;
}

void rt__write_judges(struct rt__sheet *sheet, const struct rt__marks *marks, size_t n)
{
	const struct rt_workbook *of = sheet->book->of;
	lxw_row_t row = FIRST_ROW, *breaks = rt__take(sheet->book, (n + 1) * sizeof *breaks);
	size_t broken = 0;

	if (!breaks) /* they end with a 0 */
		return;
	rt__put_loose(sheet, TITLE_ROW, 0,
		      rt__say(sheet->book, "%s, %s: how the judges agreed",
			      of->title ? of->title : "", of->day ? of->day : ""),
		      RT__LOOK_TITLE);
	for (size_t c = 0; c < n; c++) {
		if (!has_block(marks[c].results))
			continue;
		if (row > FIRST_ROW && broken < RT__BREAKS)
			breaks[broken++] = row;
		row = write_block(sheet, row, &marks[c]);
	}
	rt__check(sheet->book, worksheet_set_h_pagebreaks(sheet->at, breaks));
	rt__sheet_freeze(sheet, TITLE_ROW + 1, FIRST_JUDGE);
	rt__sheet_repeat(sheet, TITLE_ROW, TITLE_ROW);
	rt__sheet_end(sheet);
}
