/* intake: a part of a workbook as elements and text, and its cells as lines of CSV.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_INTAKE_SHEET_XML_H
#define RT_INTAKE_SHEET_XML_H

#include <expat.h>
#include <unzip.h>

#include "internal.h"

#define RT__SHEET_ROWS	  1048576
#define RT__SHEET_COLUMNS 16384

/* Text that grows. */
struct rt__text {
	char *s; /* NULL until something was added */
	size_t n, cap;
};

/* A workbook that is read: one part of it after another is open.  Once trouble, nomem or failed is
 * set nothing more is read. */
struct rt__book {
	const struct rt_source *from;
	struct rt_faults *faults;
	unzFile zip;
	XML_Parser parser; /* of the part that is read */
	int depth;
	const char *trouble; /* what is wrong with the whole of it; NULL: nothing */
	bool nomem, failed;  /* failed: the lines could not be written */
	void *self;	     /* what the functions of a part need */
	bool keep_text;	     /* what comes now is added to text */
	struct rt__text text;
	/* The row that is open, as a line. */
	struct rt__text line;
	size_t line_columns;
	size_t line_cells, cells;
	long rows; /* written */
	FILE *out;
};

/* What is called with the elements of a part: names without their space, which is in `space`. */
struct rt__part {
	void (*open)(struct rt__book *b, const char *space, const char *name,
		     const char **attributes);
	void (*close)(struct rt__book *b, const char *name);
};

/* Read a part of the workbook; false: it is not there. */
bool rt__part_read(struct rt__book *b, const char *name, const struct rt__part *part, void *self);
/* The value of an attribute, whatever its space unless one is named; NULL: it is not there. */
const char *rt__attribute(const char **attributes, const char *space, const char *name);
void rt__stop(struct rt__book *b, const char *trouble);
void rt__text_add(struct rt__book *b, struct rt__text *text, const char *s, size_t n);
/* What was kept of text, "" for nothing. */
const char *rt__text_of(const struct rt__text *text);

/* Put a cell of the open row, its column counted from 0; an empty one is none. */
void rt__put_cell(struct rt__book *b, size_t column, const char *s);
/* End the open row, which stands `times` times from that row on, counted from 1. */
void rt__end_row(struct rt__book *b, long row, long times);
/* A fault of a cell, told by its name ("B7"). */
void rt__cell_fault(struct rt__book *b, long row, size_t column, const char *text);

/* A number as a text that is read again: without the noise of its last bits. */
#define RT__CELL_SIZE 48
void rt__number_text(double v, char out[RT__CELL_SIZE]);
/* A date (days since 1899-12-30, a time in the fraction), or a time alone; dated: it has a day. */
void rt__moment_text(double days, bool dated, char out[RT__CELL_SIZE]);

/* The sheets of a workbook as messages list them, and the one that was asked for. */
bool rt__is_wanted(const struct rt__book *b, const char *sheet, size_t before);
/* The two kinds of workbook: false when there is no such sheet, whose names are then in names. */
bool rt__xlsx_lines(struct rt__book *b, char names[RT_LISTED_SIZE], size_t *sheets);
bool rt__ods_lines(struct rt__book *b, char names[RT_LISTED_SIZE], size_t *sheets);

#endif
