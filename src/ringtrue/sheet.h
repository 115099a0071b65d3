/* sheet: pages of lines, arcs and text in millimetres, written as PDF or SVG; drawings of a ring
 * and of paths in it; the sheets that are made of them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_SHEET_H
#define RINGTRUE_SHEET_H

#include <ringtrue/report.h>
#include <ringtrue/check.h>
#include <ringtrue/footing.h>
#include <ringtrue/ring.h>
#include <ringtrue/route.h>
#include <ringtrue/series.h>
#include <ringtrue/setout.h>
#include <ringtrue/sweep.h>
#include <ringtrue/times.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- pages and what is drawn ----------------------------------------------------------------- */

/* The paper, upright. */
#define RT_PAPER_SIZES(X) X(RT_A4, "a4") X(RT_LETTER, "letter")
enum rt_paper_size { RT_PAPER_SIZES(RT_ENUM_CODE) };
RT_ENUM_WORDS(paper_size);

enum rt_ink { RT_INK_NONE, RT_INK_BLACK, RT_INK_GREY, RT_INK_WHITE };

/* How a shape is drawn: its line, its dashes (on, off, on, off; none where dash_mm[0] is 0) and
 * what fills it. */
struct rt_pen {
	double width_mm;
	enum rt_ink stroke, fill;
	double dash_mm[4];
};

/* A step of a shape.  x_mm and y_mm is where it ends, from the upper left corner of the page, y
 * downwards.  An arc runs round its centre by turned_rad, clockwise as it is seen positive, up
 * to a whole turn. */
enum rt_pen_step_kind { RT_PEN_MOVE, RT_PEN_LINE, RT_PEN_ARC, RT_PEN_CLOSE };
struct rt_pen_step {
	enum rt_pen_step_kind kind;
	double x_mm, y_mm;
	double centre_x_mm, centre_y_mm, turned_rad;
};

struct rt_pen_steps RT_LIST(struct rt_pen_step);

enum rt_anchor { RT_ANCHOR_LEFT, RT_ANCHOR_MIDDLE, RT_ANCHOR_RIGHT };

/* How words are set, in bold type always; turned_deg counts clockwise from upright. */
struct rt_lettering {
	double size_pt;
	enum rt_anchor anchor;
	double turned_deg;
	enum rt_ink ink; /* RT_INK_NONE: black */
};

/* The size of words as they are set, unturned. */
struct rt_extent {
	double width_mm, ascent_mm, descent_mm;
};

/* Something drawn on a page: a shape, or one line of words (`words` not NULL) whose baseline
 * begins, has its middle or ends at x_mm, y_mm.  role says what it is ("boards", "arc", "letter"):
 * the class of its element in SVG. */
struct rt_drawn {
	int page; /* counted from 1 */
	const char *role;
	struct rt_pen pen;
	size_t first_step, steps; /* of a shape, in sheet.step */
	const char *words;
	double x_mm, y_mm;
	struct rt_lettering lettering;
	struct rt_extent extent;
};

struct rt_drawn_list RT_LIST(struct rt_drawn);

/* Part of a page. */
struct rt_area {
	double left_mm, top_mm, right_mm, bottom_mm;
};

/* Where a reader of the file can jump to.  label: before the numbers of its pages ("2-1"). */
struct rt_bookmark {
	int page; /* counted from 1 */
	const char *words, *label;
	bool under; /* the one before that is not */
};

struct rt_bookmarks RT_LIST(struct rt_bookmark);

struct rt_typesetter;

/* A sheet: its pages as one list, drawn in that order.  Words live in drawn.text. */
struct rt_sheet {
	double width_mm, height_mm;
	const char *title; /* that the file carries */
	const char *when;  /* YYYY-MM-DD[ HH:MM[:SS]] that the file carries as its making */
	int pages;
	struct rt_drawn_list drawn;
	struct rt_pen_steps step;
	struct rt_bookmarks bookmarks; /* by page */
	bool nomem;		       /* sticky: something could not be kept */
	struct rt_typesetter *typesetter;
};

/* Begin a sheet without pages.  *out starts zeroed and is yours: rt_sheet_free.  One that has begun
 * stays as it is, so that several papers can be one file.  RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_begin(struct rt_sheet *out, enum rt_paper_size paper, const char *title,
				  const char *when, struct rt_error *err);
RT_API void rt_sheet_free(struct rt_sheet *sheet);
/* A new page, on which stands what follows. */
RT_API void rt_sheet_page(struct rt_sheet *sheet);

/* A bookmark to the next page that begins, and the label of its pages; under: as of the struct. */
RT_API void rt_sheet_bookmark(struct rt_sheet *sheet, const char *words, const char *label,
			      bool under);

/* Begin a shape and add its steps.  Nothing here fails visibly: when memory is out, nomem is set
 * and rt_sheet_result tells it. */
RT_API void rt_sheet_shape(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen);
RT_API void rt_sheet_move(struct rt_sheet *sheet, double x_mm, double y_mm);
RT_API void rt_sheet_line(struct rt_sheet *sheet, double x_mm, double y_mm);
/* From where the shape stands round a centre. */
RT_API void rt_sheet_arc(struct rt_sheet *sheet, double centre_x_mm, double centre_y_mm,
			 double turned_rad);
RT_API void rt_sheet_close(struct rt_sheet *sheet);
/* Whole shapes: a line, a rectangle, a circle. */
RT_API void rt_sheet_segment(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
			     double x0_mm, double y0_mm, double x1_mm, double y1_mm);
RT_API void rt_sheet_rectangle(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
			       const struct rt_area *area);
RT_API void rt_sheet_circle(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
			    double x_mm, double y_mm, double radius_mm);
/* One line of words, which are copied as rt_clean_line has them. */
RT_API void rt_sheet_text(struct rt_sheet *sheet, const char *role, const char *words, double x_mm,
			  double y_mm, const struct rt_lettering *lettering);
/* How large words will be when they are drawn. */
RT_API struct rt_extent rt_sheet_measure(struct rt_sheet *sheet, const char *words,
					 const struct rt_lettering *lettering);
/* The box round drawn words, turned with them. */
RT_API struct rt_area rt_drawn_area(const struct rt_drawn *drawn);
/* RT_OK, or RT_E_NOMEM when something was lost. */
RT_API enum rt_err rt_sheet_result(const struct rt_sheet *sheet, struct rt_error *err);

struct rt_outfile; /* paper.h */
/* Write the sheet into a file opened as RT_FILE_PDF or RT_FILE_SVG, which stays the caller's, to
 * commit or discard.  The same sheet gives the same bytes.  A PDF of several bookmarks has them as
 * its outline, and their labels on its pages.  Several pages of an SVG stand one under
 * another in its one file, 10 mm apart, each a group "page-1", "page-2".  RT_E_IO. */
RT_API enum rt_err rt_sheet_write(const struct rt_sheet *sheet, const struct rt_outfile *to,
				  enum rt_file_kind kind, struct rt_error *err);

/* ---- a ring on a page ------------------------------------------------------------------------ */

/* Where the reader stands: that side of the ring is nearest, at the foot of the drawing; b is
 * the right side of somebody at A, e the left.  The ring is turned, never mirrored. */
#define RT_SEATS(X) X(RT_SEAT_A, "A") X(RT_SEAT_C, "C") X(RT_SEAT_B, "B") X(RT_SEAT_E, "E")
enum rt_seat { RT_SEATS(RT_ENUM_CODE) };
RT_ENUM_WORDS(seat);

/* How a ring lies on a page: X at (x_mm, y_mm). */
struct rt_ring_view {
	enum rt_seat seat;
	double mm_per_m;
	double x_mm, y_mm;
};

/* The point of the page where a point of the ring is drawn. */
RT_API void rt_ring_view_point(const struct rt_ring_view *view, double x_m, double y_m,
			       double *x_mm, double *y_mm);
/* The direction on the page of a direction in the ring (length 1 stays length 1). */
RT_API void rt_ring_view_toward(const struct rt_ring_view *view, double x, double y, double *x_page,
				double *y_page);

/* What is drawn of a ring. */
struct rt_ring_drawing {
	double letter_pt; /* letters outside the boards */
	double boards_mm; /* how thick the boards are drawn, outside the ring's edge */
	bool quarter_lines;
};

/* Draw a ring: its edge (role "ring"), boards, the centreline dashed, the quarter lines dotted
 * where they are asked for, and the letters outside the boards. */
RT_API void rt_sheet_ring(struct rt_sheet *sheet, const struct rt_ring_kind *kind,
			  const struct rt_ring_view *view, const struct rt_ring_drawing *drawing);
/* Draw pieces of a path as one shape with true arcs; one that does not begin where the last one
 * ended begins anew. */
RT_API void rt_sheet_path(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
			  const struct rt_ring_view *view, const struct rt_piece *piece,
			  size_t pieces);

/* ---- the turn sheet -------------------------------------------------------------------------- */

struct rt_sheet_options {
	enum rt_paper_size paper;
	enum rt_seat seat;
	const char *when; /* as in struct rt_sheet */
	const char *show; /* told under the title; NULL: none */
	bool feet;	  /* places in feet and inches */
};

/* The turn sheet of a level, on one page: the ring to scale with every turn that fits as an arc,
 * numbered by what it is (1 at the centreline, 2 corner, 3 across, 4 diagonal), where it begins
 * and finishes ticked and measured from the letters; the table by the letters, where figures
 * that are alike (mirrored, moved along the ring, or driven the other way) are told once; what
 * does not fit.  The drawing is the largest that leaves room for the table in type of 12 points;
 * a ring of odd letters whose table is longer gets further pages.  turns are of that kind.
 * RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_turns(struct rt_sheet *out, const struct rt_turns *turns,
				  const struct rt_ring_kind *kind,
				  const struct rt_sheet_options *options, struct rt_error *err);

/* ---- the route sheet ------------------------------------------------------------------------- */

/* What a test says of a movement; NULL: nothing. */
struct rt_movement_words {
	const char *letters, *movement;
};

/* What is told with a route. */
struct rt_route_sheet {
	const char *title;		       /* of the test */
	const struct rt_movement_words *words; /* one a leg of the route */
	bool compare;			       /* draw the line of maps under the driven one */
	const char *turnout;		       /* what sweeps the band; NULL: none */
	double turnout_track_m;		       /* rt_turnout_track */
	const struct rt_band *band;	       /* its band along the route's path; NULL: none */
};

/* The route sheet of a test: for each movement a small ring with its own piece of the route,
 * thick and with arrowheads, the movement before it in thinner grey dashes, halts as squares and
 * bars where arcs of two turns meet with nothing straight between; the words beside it, its
 * length and time, what keeps it from being driven; at the end all of it.  Several pages.
 * RT_E_INPUT: a movement whose words fill more than a page.  RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_route(struct rt_sheet *out, const struct rt_route *route,
				  const struct rt_ring_kind *kind,
				  const struct rt_route_sheet *what,
				  const struct rt_sheet_options *options, struct rt_error *err);

/* ---- the practice sheet ---------------------------------------------------------------------- */

/* The practice sheet: the ring with every cone numbered, on as many drawings as it takes for the
 * numbers to be clear of each other, and the table of tapes.  title: what the arcs are of.
 * RT_E_INPUT: a row of the table that fills more than a page.  RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_cones(struct rt_sheet *out, const struct rt_cones *cones,
				  const struct rt_ring_kind *kind, const char *title,
				  const struct rt_sheet_options *options, struct rt_error *err);

/* ---- papers of the office -------------------------------------------------------------------- */

/* Papers of the office follow what is on a sheet that has begun, on pages of their own.  Those of
 * results show the posting in force, or what is asked for instead, and say in a band at the head
 * of every page where that is not posted, or has changed since. */

/* The results of a class to put up.  RT_E_INPUT: a row that fills more than a page.  RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_results(struct rt_sheet *out, const struct rt_results_shown *shown,
				    const struct rt_sheet_options *options, struct rt_error *err);

/* Prize money to be paid out, a box for each to sign.  Errors as of rt_sheet_results. */
RT_API enum rt_err rt_sheet_prizes(struct rt_sheet *out, const struct rt_prizes *prizes,
				   const struct rt_sheet_options *options, struct rt_error *err);

/* What marking sheets are made of: a sheet for each entry and judge, ordered by judge, as they
 * are handed out.  NULL entries: one blank sheet a judge; NULL position: all judges; NULL route:
 * no figures, else the route of the test, a leg for each item that is a movement. */
struct rt_marking {
	const struct rt_class *class_;
	const struct rt_test *test;
	const struct rt_rule *rule;
	const struct rt_items *items; /* of the test, in sheet order */
	const struct rt_entries *entries;
	const struct rt_judge_sheets *judged; /* as of struct rt_class_marks */
	const char *position;
	const struct rt_route *route;
	const struct rt_ring_kind *kind; /* of the route */
};

/* Marking sheets; each counts its own pages.  RT_E_INPUT: an item whose words fill more than a
 * page.  RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_marking(struct rt_sheet *out, const struct rt_marking *of,
				    const struct rt_sheet_options *options, struct rt_error *err);

/* The own sheet of one entry.  result is one of the results shown; route NULL: no drawing. */
struct rt_own_sheet {
	const struct rt_results_shown *shown;
	const struct rt_result *result;
	const struct rt_route *route;
	const struct rt_ring_kind *kind; /* of the route */
	bool feet;
};

/* The route with its tightest turn drawn thick, and every movement with the marks of every judge
 * on a scale beside the spread of the class; where a box has no mark that is settled, why.  Errors
 * as of rt_sheet_marking. */
RT_API enum rt_err rt_sheet_own(struct rt_sheet *out, const struct rt_own_sheet *of,
				const struct rt_sheet_options *options, struct rt_error *err);

/* ---- the check sheet and the certificate ----------------------------------------------------- */

/* A check as a paper tells it. */
struct rt_check_paper {
	const char *ring; /* its name; NULL: a kind only */
	const struct rt_ring_check *check;
	const char *measured, *who;	  /* when and by whom; NULL: not told */
	int64_t number;			  /* of the ring's checks; 0: not kept */
	const struct rt_footing *footing; /* NULL: no heights */
	const char *footing_measured;	  /* NULL: with the check */
};

/* The check sheet: the ring with every peg as it was found, an arrow to where it belongs for each
 * that is to move, error ellipses and tolerance circles, all larger than the ring by a factor that
 * is told in words and by a bar; readings thin, those set aside or suspected dashed; the moves
 * with boxes to tick, what is unsure, the footing, a line to sign.  Further pages where the words
 * are many.  RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_check(struct rt_sheet *out, const struct rt_check_paper *paper,
				  const struct rt_sheet_options *options, struct rt_error *err);

/* The certificate of a true ring, one page to pin up: within how much every letter stands, with
 * what confidence, when it was measured, by whom and with what.  RT_E_INPUT, saying why, when the
 * verdict of the check is not RT_RING_TRUE, or when the words fill more than a page.
 * RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_certificate(struct rt_sheet *out, const struct rt_check_paper *paper,
					const struct rt_sheet_options *options,
					struct rt_error *err);

/* ---- the set-out sheet ----------------------------------------------------------------------- */

/* What is told of a set-out. */
struct rt_setout_sheet {
	const char *ring; /* its name; NULL: of a kind only */
	const struct rt_setout_plan *plan;
	const struct rt_setout_form *form;
	const struct rt_setout_room *room;
	bool form_only;
};

/* The set-out sheet: the ring to scale with every running distance in metres and in feet, the
 * diagonals, the first right angle and the room outside; the steps with boxes to tick; what to
 * carry; the reading form to fill in.  options: feet sets lengths of the steps in feet; the seat
 * is not used, the ring stands upright with A at the foot.  RT_E_INPUT: a step or a row that
 * fills more than a page.  RT_E_NOMEM. */
RT_API enum rt_err rt_sheet_setout(struct rt_sheet *out, const struct rt_setout_sheet *what,
				   const struct rt_sheet_options *options, struct rt_error *err);

/* ---- lists of start times -------------------------------------------------------------------- */

struct rt_times_paper {
	enum rt_start_list list;
	const struct rt_starts *starts;
	const struct rt_classes *classes; /* of the starts, and their tests */
	const struct rt_tests *tests;
	const struct rt_judge_sheets *judged; /* of judges who were replaced; NULL: none was */
	const char *about;     /* a line under the title; NULL: none */
	const char *first_day; /* of the show, YYYY-MM-DD */
};

/* A list of such a paper as it is now, and the lines of the version before; without a version
 * before, none. */
struct rt_times_list {
	struct rt_printed_list now; /* its ring is that of the starts */
	struct rt_list_lines before;
};

struct rt_times_lists RT_LIST(struct rt_times_list);

/* The lists that a paper is made of, in its order: each ring and day, or each day with all drivers
 * by name.  They have no version yet, and none before. */
RT_API enum rt_err rt_times_lists_make(struct rt_times_lists *out, const struct rt_times_paper *of,
				       struct rt_error *err);
RT_API void rt_times_lists_free(struct rt_times_lists *lists);

/* The paper: made are those of rt_times_lists_make, with their versions; of one that has a version
 * before it tells what changed, with a bar beside the lines.  A class begins with its title, its
 * test and its judges; breaks stand between the starts; who left is told.  Errors as of
 * rt_sheet_results. */
RT_API enum rt_err rt_sheet_times(struct rt_sheet *out, const struct rt_times_paper *of,
				  const struct rt_times_lists *made,
				  const struct rt_sheet_options *options, struct rt_error *err);

#ifdef __cplusplus
}
#endif
#endif
