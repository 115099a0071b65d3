/* intake: files to structs, with all their faults by file, line and column.
 *
 * Every reader takes a source and appends to `faults` all that is wrong with the file (missing
 * or doubled column, bad number, unknown name, doubled key, wrong encoding, empty file, a
 * folder, no such file); rows with a fault are left out of the result.  A reader returns RT_OK
 * also with faults in the file, so that several files can be told about at once: call
 * rt_faults_result before anything is done with the rows.  It returns RT_E_NOMEM, or RT_E_IO
 * when reading failed half way.  A roster may be NULL: then no name is checked.  Rows are added
 * to what the list holds already; it is the caller's to free, whatever is returned.
 *
 * Files are CSV as RFC 4180 has it, a header row with the columns by name in any order, in capitals
 * or not; commas, semicolons or tabs separate them.  They are UTF-8 or UTF-16, with a mark or
 * without, or Windows-1252; CRLF, blank lines and empty columns at the end are accepted.  A .xlsx
 * or .ods workbook is read as it is: a line is then a row of its sheet.  Where nothing but commas
 * separates columns a decimal comma is a fault, elsewhere it is read.  Unknown columns are left out
 * where notes are taken, which name them, and faults elsewhere; one that is nearly a known name is
 * always a fault.  White space around a field is dropped.  A row and a line are at most 1 MiB; a
 * row's line is the one it begins in.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_INTAKE_H
#define RINGTRUE_INTAKE_H

#include <ringtrue/report.h>
#include <ringtrue/footing.h>
#include <ringtrue/ring.h>
#include <ringtrue/route.h>
#include <ringtrue/series.h>
#include <ringtrue/survey.h>
#include <ringtrue/times.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- where rows come from ----------------------------------------------------------------------
 */

/* A file, and how it is to be read.  Start it zeroed but for the path. */
struct rt_source {
	const char *path;    /* - is standard input */
	const char *sheet;   /* of a workbook; NULL: its first one */
	const char *columns; /* what columns are called in the file, and here: "Reiter=driver;
			      * Pferd=horses"; NULL: nothing */
	const char *first_day; /* of the show, YYYY-MM-DD: a date in a column of days is the day of
				* the show that it falls on; NULL: it is no day */
	/* where what was found out about the file is told; NULL: nowhere */
	struct rt_report *notes;
};

/* A file that is read as it is. */
#define RT_FILE(path_) (&(const struct rt_source){.path = (path_)})

/* The next pair of a list of columns, the name in the file and ours, into room for RT_NAME_MOST
 * characters each; *columns moves on over it.  false: there is none.  A pair that is none has an
 * empty ours. */
#define RT_COLUMN_SIZE (4 * RT_NAME_MOST + 1)
RT_API bool rt_next_column(const char **columns, char theirs[RT_COLUMN_SIZE],
			   char ours[RT_COLUMN_SIZE]);

/* ---- names that must exist ------------------------------------------------------------------- */

/* What marks are checked against, a class: its positions, item names with their mark step, and
 * entry numbers.  Borrowed from the caller's lists. */
struct rt_roster_class {
	const struct rt_class *class_;
	const struct rt_items *items;
	const struct rt_entries *entries;
};

struct rt_roster_classes RT_LIST(struct rt_roster_class);

/* Names that exist; a NULL list means that this name is not checked. */
struct rt_roster {
	const struct rt_ring_kinds *kinds;
	const struct rt_levels *levels;
	const struct rt_gaits *gaits;
	const struct rt_rules *rules;
	const struct rt_rings *rings;
	const struct rt_tests *tests;
	const struct rt_classes *classes;
	const struct rt_roster_classes *sheets; /* for marks */
	bool unexpected; /* marks of one who withdrew or did not start are taken, too */
};

/* ---- whole files ----------------------------------------------------------------------------- */

RT_API enum rt_err rt_read_ring_kinds(struct rt_ring_kinds *out, const struct rt_source *from,
				      struct rt_faults *faults, struct rt_error *err);
RT_API enum rt_err rt_read_levels(struct rt_levels *out, const struct rt_source *from,
				  const struct rt_roster *roster, struct rt_faults *faults,
				  struct rt_error *err);
RT_API enum rt_err rt_read_gaits(struct rt_gaits *out, const struct rt_source *from,
				 struct rt_faults *faults, struct rt_error *err);
RT_API enum rt_err rt_read_rules(struct rt_rules *out, const struct rt_source *from,
				 struct rt_faults *faults, struct rt_error *err);
/* Articles; applies_to is a discipline or one of the roster's rules. */
RT_API enum rt_err rt_read_articles(struct rt_articles *out, const struct rt_source *from,
				    const struct rt_roster *roster, struct rt_faults *faults,
				    struct rt_error *err);
RT_API enum rt_err rt_read_turnouts(struct rt_turnout_parts *out, const struct rt_source *from,
				    struct rt_faults *faults, struct rt_error *err);
/* Footing rules; each direction has one limit, in metres or in per cent. */
RT_API enum rt_err rt_read_footing_rules(struct rt_footing_rules *out, const struct rt_source *from,
					 struct rt_faults *faults, struct rt_error *err);
/* A file of readings; its header tells which kind it holds:
 *   from,to,distance_m[,sigma_m][,note]             distances by tape
 *   point,from,to,offset_m[,sigma_m][,note]         offsets of `point` from a string
 *   point,from,to,angle_deg[,sigma_deg][,note]      angles at `point`, from `from` clockwise
 *   point,x_m,y_m[,sigma_m]                         a receiver's coordinates, in metres
 *   point,lat_deg,lon_deg[,height_m][,sigma_m]      the same on WGS84, in degrees
 *   point,height_m[,sigma_m]                        heights
 * Names: a letter or corner of kind; where kind is NULL, one of points; where both are NULL,
 * anything.  Coordinates of a file are a frame of their own, the next after those in out; those
 * in metres where there is no kind are in the frame of the points, 0.  Heights go into heights.
 *
 * Latitudes become metres east and north on the plane that touches the WGS84 ellipsoid's normal
 * at the file's middle, at the mean of its heights (0 where it has none), so that distances are
 * those on the ground there; at most 0.01 mm off within a kilometre of the middle.  That takes
 * PROJ; a build without it says so as a fault.  A point more than 2 km from the others is a fault,
 * and so is a file whose columns are swapped, where the nominal places show it. */
RT_API enum rt_err rt_read_readings(struct rt_readings *out, struct rt_heights *heights,
				    const struct rt_source *from, const struct rt_ring_kind *kind,
				    const struct rt_points *points, struct rt_faults *faults,
				    struct rt_error *err);
RT_API enum rt_err rt_read_points(struct rt_points *out, const struct rt_source *from,
				  struct rt_faults *faults, struct rt_error *err);
/* Tests, then their movements, checked against each other: every item names a test of tests or
 * of the roster's tests (either may be NULL), and every test of tests has an item, which is
 * otherwise a fault at the test's own file and line. */
RT_API enum rt_err rt_read_tests(struct rt_tests *out, const struct rt_source *from,
				 const struct rt_roster *roster, struct rt_faults *faults,
				 struct rt_error *err);
RT_API enum rt_err rt_read_items(struct rt_items *out, const struct rt_source *from,
				 const struct rt_tests *tests, const struct rt_roster *roster,
				 struct rt_faults *faults, struct rt_error *err);
RT_API enum rt_err rt_read_classes(struct rt_classes *out, const struct rt_source *from,
				   const struct rt_roster *roster, struct rt_faults *faults,
				   struct rt_error *err);
RT_API enum rt_err rt_read_entries(struct rt_entries *out, const struct rt_source *from,
				   const struct rt_roster *roster, struct rt_faults *faults,
				   struct rt_error *err);

/* Championships: each class of the list is one of the roster's. */
RT_API enum rt_err rt_read_championships(struct rt_championships *out, const struct rt_source *from,
					 const struct rt_roster *roster, struct rt_faults *faults,
					 struct rt_error *err);
RT_API enum rt_err rt_read_team_members(struct rt_team_members *out, const struct rt_source *from,
					const struct rt_roster *roster, struct rt_faults *faults,
					struct rt_error *err);
RT_API enum rt_err rt_read_prize_steps(struct rt_prize_steps *out, const struct rt_source *from,
				       struct rt_faults *faults, struct rt_error *err);

/* Places of a draw that are kept: number and place. */
RT_API enum rt_err rt_read_draw_fixes(struct rt_draw_fixes *out, const struct rt_source *from,
				      struct rt_faults *faults, struct rt_error *err);
/* What is asked of the start times of classes: a row a class. */
RT_API enum rt_err rt_read_plan_rows(struct rt_plan_rows *out, const struct rt_source *from,
				     const struct rt_roster *roster, struct rt_faults *faults,
				     struct rt_error *err);
/* Wishes about start times.  Of names only those of classes are checked. */
RT_API enum rt_err rt_read_wishes(struct rt_wishes *out, const struct rt_source *from,
				  const struct rt_roster *roster, struct rt_faults *faults,
				  struct rt_error *err);

/* ---- marks, row by row ----------------------------------------------------------------------- */

/* One checked row of a marks file: places in the roster's lists.  value is hundredths for an
 * item, a count for errors, hundred thousandths for a total.  remark (NULL: none) and the row hold until
 * the next call. */
struct rt_mark_row {
	size_t sheet_class, entry, judge, item; /* item: of RT_MARK_ITEM only */
	enum rt_mark_kind kind;
	int64_t value;
	const char *remark;
	long line;
};

struct rt_mark_reader;

/* Open a marks file: class, entry number, judge and item must stand in the roster's sheets, the
 * entry must have started, a mark is on its item's step from 0 to 10.  A file that cannot be read is a fault, *out is then
 * NULL and RT_OK is returned.  The roster must outlive the reader. */
RT_API enum rt_err rt_mark_reader_open(struct rt_mark_reader **out, const struct rt_source *from,
				       const struct rt_roster *roster, struct rt_faults *faults,
				       struct rt_error *err);
/* The next row without a fault: *got tells whether there was one.  A row for a box that stands
 * in an earlier row too, good or not, is a fault.  Memory does not grow with the file: it takes
 * a bit for each box of the sheets. */
RT_API enum rt_err rt_mark_reader_next(struct rt_mark_reader *r, struct rt_mark_row *row, bool *got,
				       struct rt_faults *faults, struct rt_error *err);
/* NULL is accepted. */
RT_API void rt_mark_reader_close(struct rt_mark_reader *r);

#ifdef __cplusplus
}
#endif
#endif
