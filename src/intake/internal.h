/* intake, shared between its files: lines, CSV rows, columns by descriptor, known names.
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file kind is a static struct rt__file: its columns, the row they are read into, and what
 * is checked of a row as a whole.  Layers, each on the one before it:
 *   lines.c  a file as physical lines of text, in bounded memory
 *   csv.c    lines as rows of fields (libcsv), each with the line it begins in
 *   load.c   rows as structs, by the columns of a struct rt__file
 *   row_faults.c  how a fault of a row is told, and which fields have one
 *   names.c  names that must exist, and keys that may stand only once
 *   *_files.c, readings.c, marks.c  the files of a subject */
#ifndef RT_INTAKE_INTERNAL_H
#define RT_INTAKE_INTERNAL_H

#include <csv.h>
#include <iconv.h>

#include <ringtrue/intake.h>

#define RT__FIELDS_MAX 64	     /* fields of a row that are looked at; no file has as many */
#define RT__ROW_MAX    (1024 * 1024) /* bytes of a row; a longer one is no row of ours */

/* ---- lines ----------------------------------------------------------------------------------- */

#define RT__RAW 8192 /* bytes of UTF-16 at a time */

/* Start it zeroed but for fd. */
struct rt__lines {
	int fd;
	bool started, wide; /* wide: UTF-16, which `text` makes UTF-8 of */
	iconv_t text;
	char raw[RT__RAW]; /* read, but not made text yet */
	size_t raw_n;
	char *buf;
	size_t cap, begin, end;
	bool eof;
	long line; /* the one that was read last; the first is 1 */
};

enum rt__line {
	RT__LINE,
	RT__LINE_END,	 /* no more lines */
	RT__LINE_LONG,	 /* longer than RT__ROW_MAX */
	RT__LINE_FAILED, /* errno tells: EILSEQ for what is no UTF-16 after all */
	RT__LINE_NOMEM
};

/* The next line, without its end (LF, CRLF or CR) but with a '\n' after its n bytes; it holds
 * until the next call. */
enum rt__line rt__lines_next(struct rt__lines *l, char **text, size_t *n);
void rt__lines_close(struct rt__lines *l);

/* ---- workbooks ------------------------------------------------------------------------------- */

/* The sheet of a workbook that the source wants, as lines of CSV in a file of its own, in which the
 * line of a row is its number in the sheet.  What hinders is a fault, and *fd is then -1. */
enum rt_err rt__workbook_lines(int *fd, const struct rt_source *from, struct rt_faults *faults,
			       struct rt_error *err);

/* ---- CSV ------------------------------------------------------------------------------------- */

/* A row: fields without outer white space, ended by NUL.  A bad field (not UTF-8, control
 * characters) has been told.  fields may be more than RT__FIELDS_MAX; the others are lost. */
struct rt__row {
	long line;
	size_t fields;
	struct {
		const char *s;
		bool bad;
	} field[RT__FIELDS_MAX];
};

struct rt__csv {
	const char *path;
	struct rt_faults *faults;
	struct rt__lines lines;
	struct csv_parser parser;
	struct rt_report *notes; /* NULL: nowhere */
	bool sheet;		 /* a workbook's, which knows neither encodings nor separators */
	bool started, in_row, whole, nomem;
	bool marked;	/* text outside ASCII was seen, which told what the file is written in */
	bool latin;	/* that is Windows-1252 */
	char separator; /* between columns; 0: not known yet */
	char *line;	/* in UTF-8, of a line that is not */
	size_t line_cap;
	size_t row_bytes;
	char *text; /* of the row: fields with their NULs */
	size_t text_n, text_cap;
	size_t at[RT__FIELDS_MAX], length[RT__FIELDS_MAX];
	struct rt__row row;
	const char *head[RT__FIELDS_MAX]; /* names of the columns once known, for faults */
};

/* Open the source; what hinders is a fault, and *is_open is then false.  c must not move after
 * this. */
enum rt_err rt__csv_open(struct rt__csv *c, const struct rt_source *from, bool *is_open,
			 struct rt_faults *faults, struct rt_error *err);
/* The next row that can be read, NULL at the end; it holds until the next call.  What cannot
 * be read is a fault, and reading goes on with the next line. */
enum rt_err rt__csv_next(struct rt__csv *c, const struct rt__row **row, struct rt_error *err);
void rt__csv_close(struct rt__csv *c);

/* ---- columns and rows ------------------------------------------------------------------------ */

struct rt__load;

/* Names that must exist, and their places in the list they come from. */
struct rt__names {
	const char *what;  /* "class", "level" */
	const char *where; /* what their list is told as; NULL: it stands alone */
	bool any;	   /* no list was given: every name will do */
	bool nomem;
	struct rt_map *map;
	struct rt_strings list;
};

/* What columns of files name: the lists of a roster, and what readings are between. */
enum rt__named {
	RT__KINDS,
	RT__GAITS,
	RT__RULES,
	RT__RINGS,
	RT__TESTS,
	RT__CLASSES,
	RT__PEGS,
	RT__NAMED
};

/* A file: the rows it holds, and what is asked of a row beyond its fields. */
struct rt__file {
	const struct rt_record *record;
	size_t path_at, line_at; /* of the row's place in its struct, RT__PLACED; both 0: none */
	size_t said_at; /* where it keeps what it says something of, RT__SAYING; 0: nowhere */
	/* Columns of names that must exist, up to one that is NULL. */
	struct {
		const char *column;
		enum rt__named in;
	} names[4];
	const char *number; /* a column of text that holds numbers; NULL: none */
	/* The columns whose values stand in one row only, and the rule that says so; a fault is
	 * told of the last of them. */
	const char *key[3], *once;
	/* Check what else concerns several fields or other rows.  Called for each row, also for
	 * one with faults: then a field that could not be read is as in the blank row. */
	void (*check)(struct rt__load *l, void *row);
	/* Keep a row without faults; NULL: it is appended to the list. */
	void (*keep)(struct rt__load *l, void *row);
};
/* The row keeps where it was read. */
#define RT__SAYING(type) .said_at = offsetof(type, said)
#define RT__PLACED(type) .path_at = offsetof(type, file), .line_at = offsetof(type, line)

/* A list of rows, whatever its type. */
struct rt__list {
	void *at;
	size_t *n, *cap;
	struct rt_arena **text;
};
#define RT__LIST(list) ((struct rt__list){&(list)->at, &(list)->n, &(list)->cap, &(list)->text})

struct rt__load {
	const struct rt__file *file;
	const struct rt_source *from; /* until the header is read */
	const char *first_day;	      /* as the source says */
	/* The kinds of file that this one may be, told apart by the header, which sets file; none
	 * where it is known.  chosen is called when it is (NULL: nothing to do). */
	const struct rt__file *const *kind;
	size_t kinds;
	void (*chosen)(struct rt__load *l);
	struct rt__csv csv;
	struct rt_faults *faults;
	struct rt_error *err;
	struct rt__list list; /* at NULL: rows are not kept, and strings hold for one row */
	const struct rt_roster *roster;
	struct rt__names names[RT__NAMED];
	struct rt_map *seen; /* the line that a key stands in */
	void *self;	     /* what check and keep need beside the row */
	bool open, nomem;
	bool head_bad; /* the header has a fault: no row is good */
	bool row_bad;
	/* The columns of the file, a bit each: with a fault in this row, so that what the row holds
	 * of them is not what was typed; and not in a header that has a fault, which may mean them
	 * by another name. */
	uint64_t faulty, unread;
	char left_out[400]; /* columns that are none of ours */
	bool row_lost; /* some row could not be taken apart into its fields */
	long line;     /* of the row */
	size_t rows;
	size_t of_field[RT__FIELDS_MAX]; /* which column a field is, or RT__NO_COLUMN */
	size_t fields;			 /* of the header */
	const char *kept_path;
	struct rt_arena *text; /* the names of the columns */
};
#define RT__NO_COLUMN SIZE_MAX
#define RT__NUMBER_SIZE 32

/* A load of one file into a list, which rt__load_all or rt__load_close ends; the roster may be
 * NULL. */
struct rt__load rt__load_of(const struct rt__file *file, struct rt__list list,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err);
/* Open the source and read its header.  open is false when there is nothing to read, which has been
 * told as a fault. */
enum rt_err rt__load_open(struct rt__load *l, const struct rt_source *from);
/* The next row without a fault into row, of the size the file says. */
enum rt_err rt__load_next(struct rt__load *l, void *row, bool *got);
void rt__load_close(struct rt__load *l);
/* All of it: every row without a fault is kept.  l is closed. */
enum rt_err rt__load_all(struct rt__load *l, const struct rt_source *from);
/* The place of the column of that name in a file, or RT__NO_COLUMN. */
size_t rt__find_column(const struct rt__file *file, const char *name);
/* The path, kept with the strings of the list; NULL when memory is out, which l notes. */
const char *rt__load_path(struct rt__load *l);

/* ---- how a fault is told --------------------------------------------------------------------- */

/* A fault of the row that is read: column is a column's name, or NULL for the row as a whole. */
void rt__row_fault(struct rt__load *l, const char *column, const char *fmt, ...) RT_PRINTF(3, 4);
/* Whether the row's fields of these columns, "about name", are as they were typed, so that a fault
 * of them together is one of its own and does not follow from one that was told already. */
bool rt__fields_sound(const struct rt__load *l, const char *columns);

/* ---- names ----------------------------------------------------------------------------------- */

void rt__names_add(struct rt__names *names, const char *name);
void rt__names_free(struct rt__names *names);
/* The names of the load, from its roster. */
void rt__names_of_roster(struct rt__load *l);
/* Fill names from the `name` of every element of a list; a NULL list accepts any name. */
#define RT__NAMES_FROM(names, source)                                                              \
	do {                                                                                       \
		(names)->any = !(source);                                                          \
		for (size_t i_ = 0; (source) && i_ < (source)->n; i_++)                            \
			rt__names_add(names, (source)->at[i_].name);                               \
	} while (0)

/* Whether name is one of names (NULL, an empty or faulty field, is): a fault in that column
 * otherwise, with the nearest name and what there is. */
bool rt__known(struct rt__load *l, const struct rt__names *names, const char *column,
	       const char *name);
#define RT__COUNT(array) (sizeof(array) / sizeof(array)[0])

/* Room for a key of three names, 4 bytes a character, each with its line end. */
#define RT__KEY_SIZE (3 * (4 * RT_NAME_MOST + 1) + 1)
/* A fault, `SHOWN is there already, in line N: ONCE`, when an earlier row has this key. */
void rt__check_once(struct rt__load *l, const char *column, const char *key, const char *shown,
		    const char *once);

/* ---- what a file asks of its columns --------------------------------------------------------- */

void rt__check_key(struct rt__load *l, const void *row);
void rt__check_names(struct rt__load *l, const void *row);

#endif
