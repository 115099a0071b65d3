/* What the files of the workbook share: a book, its sheets, and cells that remember the first
 * thing that went wrong.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_WORKBOOK_INTERNAL_H
#define RT_WORKBOOK_INTERNAL_H

#include <xlsxwriter.h>

#include "../scoring/internal.h"
#include "internal.h"

#define RT__SHEET_NAME 31    /* characters a sheet's name may have */
#define RT__CELL_TEXT  32767 /* UTF-16 units a cell can hold */
#define RT__WIDTHS     512   /* columns whose width is kept; those beyond have the usual one */
#define RT__WIDEST     48    /* cells; longer text is wrapped */
#define RT__DECIMALS   10    /* number formats: 0 to 9 decimals */
#define RT__ROW_POINTS 15.0  /* the height of a line of the usual font */
#define RT__BREAKS     1023  /* page breaks a sheet may have */

/* How a cell looks.  Nothing is told by colour. */
enum rt__look {
	RT__LOOK_PLAIN,	    /* text to the left, numbers to the right */
	RT__LOOK_WRAP,	    /* text that may take several lines */
	RT__LOOK_TITLE,	    /* of a sheet */
	RT__LOOK_STRONG,    /* bold */
	RT__LOOK_OVER,	    /* bold, over numbers */
	RT__LOOK_HEAD,	    /* of a column: bold, wrapped, a line below; to the left */
	RT__LOOK_HEAD_OVER, /* the same over numbers, to the right */
	RT__LOOK_HEAD_BOX,  /* the same over boxes, in the middle */
	RT__LOOK_TURNED,    /* the same, read from below */
	RT__LOOK_BOX,	    /* a box to write in */
	RT__LOOK_BOX_TEXT,  /* the same for words */
	RT__LOOKS
};

#define RT__TEXT_LOOK (-1) /* instead of decimals */

/* What was put on a sheet: cells, ranges merged to one, and bytes of text and formulas that are no
 * white space, which XML may change. */
struct rt__tally {
	size_t cells, merged, text;
};

struct rt__tallies RT_LIST(struct rt__tally); /* by sheet */

/* How much of n bytes at s counts as text. */
size_t rt__tally_text(const char *s, size_t n);

/* A workbook that is being written.  failed is the first fault; what follows is of no effect. */
struct rt__book {
	lxw_workbook *file;
	const struct rt_workbook *of;
	lxw_format *words[RT__LOOKS], *number[RT__LOOKS][RT__DECIMALS];
	struct rt_map *names; /* of the sheets, folded */
	struct rt__tallies put;
	struct rt_arena *text;
	struct rt_arena *said; /* passing texts of rt__say */
	lxw_error failed;
};

/* A sheet; rows are written in order.  width is what the cells of each column need. */
struct rt__sheet {
	struct rt__book *book;
	lxw_worksheet *at;
	size_t number; /* among the book's */
	char name[RT__SHEET_NAME * 4 + 1];
	char quoted[RT__SHEET_NAME * 8 + 4]; /* as a formula writes it, with the mark behind */
	size_t width[RT__WIDTHS];
	double height; /* of the row of heads so far */
};

/* A cell or range as a formula writes it. */
struct rt__ref {
	char s[LXW_MAX_CELL_RANGE_LENGTH];
};

/* Text as a cell takes it: cleaned, and cut to what one can hold.  It lives until rt__said.
 * Never NULL: empty when memory is out. */
const char *rt__legible(struct rt__book *book, const char *s);
/* The bytes of s, which is UTF-8, that make at most so many UTF-16 units, which is how the
 * format counts; no space at their end. */
size_t rt__cut(const char *s, size_t units);

/* Add a sheet named as near to `name` as the format allows, set up for printing.  A name of
 * letters and digits only gets `prefix` before it, unless that is NULL: libxlsxwriter 1.1.4
 * does not quote such a name in print areas and titles, where "1" or "P1" would mean something
 * else.  `right` is what the page head says beside the show's title (NULL: the sheet's name). */
void rt__sheet_add(struct rt__sheet *sheet, struct rt__book *book, const char *prefix,
		   const char *name, const char *right);
/* Set the widths of the columns. */
void rt__sheet_end(struct rt__sheet *sheet);
/* Keep rows above `row` and columns left of `col` in sight. */
void rt__sheet_freeze(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col);
/* Print these rows on each page after them. */
void rt__sheet_repeat(struct rt__sheet *sheet, lxw_row_t first, lxw_row_t last);
/* The points of a page's height that are left for rows when the sheet's columns, all of which
 * have a width, are fitted to its breadth. */
double rt__sheet_page_height(const struct rt__sheet *sheet);
/* A column needs so many cells. */
void rt__sheet_widen(struct rt__sheet *sheet, lxw_col_t col, size_t cells);

/* The format of a look, with so many decimals or RT__TEXT_LOOK. */
lxw_format *rt__format(struct rt__book *book, enum rt__look look, int decimals);
/* Note the first thing that failed. */
void rt__check(struct rt__book *book, lxw_error failed);
/* Zeroed bytes that live as long as the book; NULL, and noted, when memory is out. */
void *rt__take(struct rt__book *book, size_t size);
/* A passing text; it lives until rt__said.  Never NULL: empty when memory is out. */
const char *rt__say(struct rt__book *book, const char *fmt, ...) RT_PRINTF(2, 3);
/* Release all that rt__say gave. */
void rt__said(struct rt__book *book);

/* Cells.  Text is never taken for a formula; NULL leaves an empty cell.  Only rt__put widens
 * its column by its text. */
void rt__put(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *s,
	     enum rt__look look);
void rt__put_loose(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *s,
		   enum rt__look look);
void rt__put_number(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, double v, int decimals,
		    enum rt__look look);
/* The head of a column: as wide as its longest word at least; the row grows with its heads. */
void rt__put_head(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *s,
		  enum rt__look look);
/* The same for a narrow column: read from below, which does not widen it. */
void rt__put_turned(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *s);
/* A text over several columns of one row, wrapped, the row as tall as it needs. */
void rt__put_across(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t first, lxw_col_t last,
		    const char *s);

/* A formula and what it comes to: a number, or a text. */
void rt__put_formula(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *formula,
		     double value, int decimals, enum rt__look look);
void rt__put_formula_text(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col,
			  const char *formula, const char *value, int decimals, enum rt__look look);

/* The same, or an empty text where it comes to nothing. */
void rt__put_formula_if(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *formula,
			bool there, double value, int decimals, enum rt__look look);
/* Units of 10^-decimals as a number. */
double rt__number(int64_t units, int decimals);
/* Ten thousandths and a part of one more, as points. */
double rt__points(int64_t x10000, const struct rt_part *part);

/* References: this row's column fixed, both fixed, a range with both fixed. */
struct rt__ref rt__ref(lxw_row_t row, lxw_col_t col);
struct rt__ref rt__ref_fixed(lxw_row_t row, lxw_col_t col);
struct rt__ref rt__ref_range(lxw_row_t row, lxw_col_t col, lxw_row_t last_row, lxw_col_t last_col);

/* ---- a class's sheet of marks ---------------------------------------------------------------- */

#define RT__NO_COLUMN UINT16_MAX
#define RT__NO_SHEET  (-1000000) /* the percentage of a judge whose sheet is not in */

/* What formulas find on the way to an entry's place. */
struct rt__working {
	int64_t worth[RT_TIE_STEPS];	   /* what each tie-break looks at, in its own unit */
	struct rt_part part[RT_TIE_STEPS]; /* of one more */
	size_t stage[RT_TIE_STEPS + 1];	   /* the place after so many of them; 0: not placed */
};

/* Where everything stands on the sheet of a class.  An entry has a row a judge; what belongs
 * to the entry as a whole stands on the first of them.  A row of the rule that the class has
 * not got is 0. */
struct rt__marks {
	struct rt__sheet sheet;
	const struct rt_results *results;
	const struct rt_class_marks *of;
	const struct rt_result **result; /* by place in the list of entries; in the book's arena */
	struct rt__working *working;	 /* the same */
	size_t judges, items, entries, president;
	bool alike; /* every judge marks every item */

	lxw_row_t heads, coefficients, first, last; /* last: the last judge of the last entry */
	/* the rule below the marks; figures_end: the first row after it */
	lxw_row_t words, maximum, base, multiplier, error[RT_ERROR_STEPS], eliminated;
	lxw_row_t limit, limit_judges, figures_end;
	size_t eliminating; /* so many errors of course eliminate, where the rule has that */

	/* a judge's row */
	lxw_col_t number, driver, judge, item, sum, points, judge_percent;
	lxw_col_t group[RT_ITEM_GROUP_COUNT]; /* of those that part equal ones */
	lxw_col_t apart, counted; /* where judges may be moved */
	/* an entry's row */
	lxw_col_t errors, error_cost, penalties, together, percent, score, place;
	lxw_col_t division, hors_concours, status, outcome;
	/* how the place comes about: what is ranked, what parts equal ones, places so far */
	lxw_col_t ranked, worth[RT_TIE_STEPS], stage[RT_TIE_STEPS];
	size_t tie_steps;	  /* those that can part anybody in this test */
	size_t tie[RT_TIE_STEPS]; /* which of the rule's */

	int point_decimals;	  /* shown */
	int64_t scale;		  /* points are whole numbers of 1/scale inside formulas */
	int64_t multiplier_scale; /* the same for the printed multiplier */
};

/* Work out columns, rows and workings for results that are set; marks->sheet is added. */
void rt__marks_plan(struct rt__marks *marks);
/* The first row of an entry. */
lxw_row_t rt__marks_row(const struct rt__marks *marks, size_t entry);
/* The entry of a result by its place in the list. */
size_t rt__marks_entry(const struct rt__marks *marks, const struct rt_result *result);
/* The judge whom a tie-break looks at; the number of judges: none. */
size_t rt__marks_tie_judge(const struct rt__marks *marks, size_t step);
/* One worth as the cell shows it, and its decimals there. */
double rt__marks_worth(const struct rt__marks *marks, size_t entry, size_t step, int *decimals);

/* Formulas; row is the first of an entry, judge_row any of its rows.  They live until
 * rt__said. */
const char *rt__formula_sum(const struct rt__marks *m, lxw_row_t judge_row);
const char *rt__formula_points(const struct rt__marks *m, lxw_row_t row, lxw_row_t judge_row);
const char *rt__formula_judge_percent(const struct rt__marks *m, lxw_row_t row,
				      lxw_row_t judge_row);
const char *rt__formula_group(const struct rt__marks *m, lxw_row_t judge_row,
			      enum rt_item_group group);
const char *rt__formula_apart(const struct rt__marks *m, lxw_row_t row, lxw_row_t judge_row);
const char *rt__formula_counted(const struct rt__marks *m, lxw_row_t row, lxw_row_t judge_row);
/* The mark that fills a box of an entry's judge. */
const char *rt__formula_filled(const struct rt__marks *m, size_t entry, size_t judge);
const char *rt__formula_error_cost(const struct rt__marks *m, lxw_row_t row);
const char *rt__formula_together(const struct rt__marks *m, lxw_row_t row);
const char *rt__formula_percent(const struct rt__marks *m, lxw_row_t row);
const char *rt__formula_score(const struct rt__marks *m, lxw_row_t row);
/* boxes: of the sheets that are expected. */
const char *rt__formula_outcome(const struct rt__marks *m, lxw_row_t row, size_t boxes);
const char *rt__formula_ranked(const struct rt__marks *m, lxw_row_t row);
const char *rt__formula_worth(const struct rt__marks *m, lxw_row_t row, size_t step);
/* The place after so many tie-breaks. */
const char *rt__formula_place(const struct rt__marks *m, lxw_row_t row, size_t steps);

/* ---- sheets ---------------------------------------------------------------------------------- */

/* Put the words of a cell of a sheet of marks; an empty cell there is an empty text here. */
void rt__follow_words(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col,
		      const struct rt__marks *marks, lxw_row_t from_row, lxw_col_t from,
		      const char *value);
/* marks: n classes, planned. */
void rt__write_entries(struct rt__sheet *sheet, const struct rt__marks *marks, size_t n);
void rt__write_marks(struct rt__marks *marks);
/* The rule's figures in labelled boxes under the marks, and what a person should know;
 * returns the last row. */
lxw_row_t rt__write_rule(struct rt__marks *marks);
void rt__write_results(struct rt__sheet *sheet, const struct rt__marks *marks, size_t n);
/* Whether an entry of some class has the sheets of two judges or more: then there is a sheet of
 * judges. */
bool rt__has_judges(const struct rt_results *const *results, size_t n);
void rt__write_judges(struct rt__sheet *sheet, const struct rt__marks *marks, size_t n);
void rt__write_page(struct rt__sheet *sheet, const struct rt_workbook_page *page);

/* Whether every part of the finished file is there, and on its sheets all that was put. */
bool rt__workbook_is_whole(const char *path, const struct rt__tallies *put);

#endif
