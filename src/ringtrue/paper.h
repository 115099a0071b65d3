/* paper: a report as text, CSV and JSON; the workbook; files written beside their target.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_PAPER_H
#define RINGTRUE_PAPER_H

#include <stdio.h>

#include <ringtrue/report.h>
#include <ringtrue/scoring.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- reports ----------------------------------------------------------------------------- */

/* All three return RT_E_NOMEM also for a report that lost something on the way, and RT_E_IO when
 * the stream has failed (it is flushed).  What they write does not depend on the locale.
 *
 * What is written is cleaned as by rt_clean, whatever is stored, so that nothing makes a report
 * unreadable or commands a terminal. */

/* As aligned text: tables under their titles, wide columns left out, heads and then long cells
 * broken between words so that it reads in `columns` cells (80 where 0); where that is not enough,
 * the last columns stand on further lines of each row.  No word or number is ever broken or cut:
 * one that is wider goes beyond.  Tabs and line ends are spaces; what is not there is an empty
 * cell.  Lengths in feet and inches when `feet`.
 * Notes below.  No line ends in a space, and there are no codes for colour. */
RT_API enum rt_err rt_paper_text(FILE *out, const struct rt_report *report, unsigned columns,
				 bool feet, struct rt_error *err);
/* The notes of a report as a table of CSV: that name, a column `note`. */
#define RT_CSV_NOTES "notes"
/* One table of the report as CSV (RFC 4180, but lines end with LF) with its header row: that of
 * the name, RT_E_USAGE with the names that there are where there is none; NULL: the main one, or
 * the notes where there is no table.  Metric; yes and no; real numbers with the fewest digits that
 * read back to the same value.  A text that a spreadsheet would run gets an apostrophe before it,
 * which imports take off again, unless it is to be raw. */
RT_API enum rt_err rt_paper_csv(FILE *out, const struct rt_report *report, const char *table,
				bool raw, struct rt_error *err);
/* The names of the tables, and of notes where there are some, that the same call leaves out, with
 * commas between; "" for none. */
RT_API void rt_paper_csv_others(const struct rt_report *report, const char *table,
				char out[RT_LISTED_SIZE]);
/* What the first key of the JSON, `format`, says. */
#define RT_JSON_FORMAT "ringtrue/1"
/* As one JSON object: the format; each table an array of row objects; and `notes`, an array of
 * strings.  A list of names or letters is an array of strings.  Real numbers as in CSV, decimals
 * with their exact digits.  Metric. */
RT_API enum rt_err rt_paper_json(FILE *out, const struct rt_report *report, struct rt_error *err);
/* What went wrong as one JSON object: the format; `error` {line, file, column, text}, null where it
 * is not known; `faults`, an array of the same for each fault of a file that is kept, and
 * `fault_count`, how many there were in all. */
RT_API enum rt_err rt_paper_json_error(FILE *out, const struct rt_error *failed,
				       const struct rt_faults *faults, struct rt_error *err);

/* Write a text as it may go to a terminal, cleaned as by rt_clean. */
RT_API void rt_paper_words(FILE *out, const char *s);

/* ---- files ------------------------------------------------------------------------------- */

/* A file that is written beside its target and takes its name only when it is whole.
 *
 * One rule says what it may replace: an empty file, or one of its own kind by its first bytes,
 * but never the show that is open nor what stands beside that, be it under another name (device
 * and inode are compared).  Symbolic links are followed: the link stays, what it leads to is
 * replaced. */
struct rt_outfile;
/* Make the temporary file in the target's folder; *out is NULL on failure.  "-" is standard
 * output, which is written at the commit from a file in the temporary folder (TMPDIR); no show
 * file goes there.  `show` is the path of the show that is open; NULL: none is.  RT_E_INPUT, with
 * what is there in plain words, when that may not be replaced; RT_E_IO when it may not be written
 * or its folder is not there. */
RT_API enum rt_err rt_outfile_open(struct rt_outfile **out, const char *path,
				   enum rt_file_kind kind, const char *show, struct rt_error *err);
/* The temporary file's path, for a library that opens it by name; it is f's.  A database may put
 * files of its own beside it ("-wal"): they go with it. */
RT_API const char *rt_outfile_path(const struct rt_outfile *f);
/* What messages call the target. */
RT_API const char *rt_outfile_name(const struct rt_outfile *f);
/* The path of the file that will be replaced; NULL: there is none, or it is empty. */
RT_API const char *rt_outfile_replaces(const struct rt_outfile *f);
/* Sync, rename over the target, sync the folder, and release f; on failure (RT_E_IO) the target
 * is as it was (standard output may have got a part) and the temporary file is gone.  A target that
 * was there keeps its permission bits; a new one has those of the program's mask. */
RT_API enum rt_err rt_outfile_commit(struct rt_outfile *f, struct rt_error *err);
/* Drop it; NULL is accepted. */
RT_API void rt_outfile_discard(struct rt_outfile *f);

/* ---- workbook ---------------------------------------------------------------------------- */

/* A page of the workbook made from a report (a level's turns, a ring check): a sheet named
 * `name`, titled `title`.  Wide columns stand to the right of what is printed. */
struct rt_workbook_page {
	const char *name, *title;
	const struct rt_report *report;
};

struct rt_workbook {
	const char *title; /* of the show */
	const char *day;
	const char *when; /* YYYY-MM-DD HH:MM:SS that the file carries as its making */
	const struct rt_results *const *results; /* the classes in order */
	size_t classes;
	const struct rt_workbook_page *page;
	size_t pages;
};

/* Write the workbook: a sheet Entries, for each class a sheet of marks (named by the class) with
 * live formulas, a sheet Results that follows them, a sheet Judges (how they agreed, with a plot a
 * class) where a class has two judges or more, then the pages.
 *
 * On a sheet of marks an entry has a row a judge; a question mark stands where keyings differ.
 * Whatever stands in a box may be changed: marks, coefficients, errors, penalties, division,
 * hors concours, status, and the rule's figures below; points, percentages, scores and places
 * follow with the same exact arithmetic as rt_results_make.  The formulas need no newer function
 * than SUMPRODUCT and carry the values they come to.  Text is cleaned as in CSV, and cut where it
 * is longer than a cell can hold (32767 characters).
 *
 * The same input gives the same bytes, whatever the locale and time zone.  RT_E_IO when the
 * file cannot be written whole; RT_E_NOMEM.  `to` stays the caller's, to commit or discard. */
RT_API enum rt_err rt_workbook_write(const struct rt_outfile *to,
				     const struct rt_workbook *workbook, struct rt_error *err);

#ifdef __cplusplus
}
#endif
#endif
