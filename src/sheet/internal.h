/* What the files of sheet share: setting type, the two writers, furniture, labels, turn groups.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_SHEET_INTERNAL_H
#define RT_SHEET_INTERNAL_H

#include <stdio.h>

#include <ringtrue/sheet.h>

#define RT__PI	      3.14159265358979323846
#define RT__MM_PER_PT (25.4 / 72.0)

/* The font of all sheets, and what stands in for letters it has not got. */
#define RT__FONT "DejaVu Sans, sans-serif"

/* The least type on a sheet, and its lines. */
#define RT__BODY_PT 12.0
#define RT__LINE_MM 5.1

/* That type from the left, about the middle and up to the right; headings. */
extern const struct rt_lettering rt__type, rt__middle_type, rt__right_type, rt__head_type;
/* Rules; what is filled. */
extern const struct rt_pen rt__thin, rt__thick, rt__black, rt__white;

/* ---- typeset.c: measuring and setting words by pango ----------------------------------------- */

/* NULL when memory is out. */
struct rt_typesetter *rt__typesetter_new(void);
void rt__typesetter_free(struct rt_typesetter *t);
struct rt_extent rt__typeset_measure(struct rt_typesetter *t, const char *words,
				     const struct rt_lettering *lettering);
/* Show words on a cairo context (cairo_t *) whose unit is the point, at its current point. */
void rt__typeset_show(struct rt_typesetter *t, void *cairo, const char *words,
		      const struct rt_lettering *lettering);

/* ---- svg.c, pdf.c: the two writers ----------------------------------------------------------- */

/* v with up to three decimals, without trailing zeros, whatever the locale. */
void rt__svg_number(double v, char out[static 48]);
/* Write words so that they can stand in an element or in an attribute: the five characters of
 * markup as entities. */
void rt__svg_escape(FILE *out, const char *words);
/* The writers leave failures of the stream to its error flag. */
void rt__svg_write(const struct rt_sheet *sheet, FILE *out);
enum rt_err rt__pdf_write(const struct rt_sheet *sheet, FILE *out, struct rt_error *err);

/* ---- lines.c: words over several lines ------------------------------------------------------- */

/* Add to the string out, as printf would; without room for all of it, whole characters only.
 * Names have up to RT_NAME_MOST characters, and each of those up to four bytes. */
void rt__add_words(char *out, size_t size, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* Set words from top_mm down, broken at spaces into lines of width_mm; the height they take.
 * draw false: only measure. */
double rt__set_lines(struct rt_sheet *sheet, const char *role, const char *words, double left_mm,
		     double top_mm, double width_mm, const struct rt_lettering *lettering,
		     bool draw);

/* ---- flow.c: words down a frame and on to the next page -------------------------------------- */

/* A box to tick with its middle there, and half its side. */
#define RT__TICK_MM 2.0
void rt__tick(struct rt_sheet *sheet, double x_mm, double y_mm);

/* Where the next words stand.  Start it with frame and further; down_mm at the frame's top. */
struct rt__flow {
	struct rt_sheet *sheet;
	struct rt_area frame;	/* of this page */
	struct rt_area further; /* of pages after it */
	double down_mm;
};

/* Begin a new page unless so much room is left. */
void rt__flow_need(struct rt__flow *f, double height_mm);
/* Words over several lines, whole on one page where they fit one; keep_mm: room that has to be
 * left for what follows. */
void rt__flow_words(struct rt__flow *f, const char *role, const char *words,
		    const struct rt_lettering *lettering, double keep_mm);
/* The same with a box to tick before them. */
void rt__flow_tick(struct rt__flow *f, const char *role, const char *words,
		   const struct rt_lettering *lettering);
/* A line to write on, with what belongs there under it. */
void rt__flow_line(struct rt__flow *f, const char *what, const struct rt_lettering *lettering);

/* ---- furniture.c: what every page has -------------------------------------------------------- */

/* What stands on every page of a sheet; NULL lines are left out. */
struct rt__furniture {
	const char *band; /* what keeps the sheet from being taken for another, in a frame */
	const char *title, *line[3];
	bool caution;
};

/* The part of a page between head and foot, the same on every page: inside the margins, below
 * the clip of a clipboard. */
struct rt_area rt__furniture_room(struct rt_sheet *sheet, const struct rt__furniture *f);
/* Draw head and foot on the pages from `first` on, "page n of m" counted among them. */
void rt__furniture_draw(struct rt_sheet *sheet, const struct rt__furniture *f, int first);

/* ---- list.c: papers that are lists ----------------------------------------------------------- */

/* A column of a list: of the table by its name, or (name NULL) a box to write in. */
struct rt__list_column {
	const char *name, *head;
	enum rt_anchor anchor; /* right: its words are never broken */
	bool counted;	       /* the number of the row, instead of a box */
	double box_mm;	       /* how wide a box is at least */
	double most_mm;	    /* words wider than that are broken where they can be; 0: as it comes */
	bool if_any;	    /* left out where it is empty in every row */
	const char *letter; /* of a tape's length, told both ways: the column of its letter */
	const char *unless; /* empty where it says the same as that column; NULL: none */
	bool below;	    /* under the others of its row, as wide as they leave: one of a list */
	const char *with;   /* of a box: only where that column is not empty; NULL: always */
	bool whole;	    /* its words, where it has any, take the row alone: one of a list */
};

/* What is shown of the tables of a name, under their titles. */
struct rt__list_view {
	const char *table;
	const struct rt__list_column *column;
	size_t columns; /* 16 at most */
	bool untitled;
};
#define RT__LIST_VIEW(table_, array)                                                               \
	.table = (table_), .column = (array), .columns = sizeof(array) / sizeof *(array)

/* What is said of a table of a list. */
struct rt__list_said {
	const char *lead;   /* between its heading and its rows; NULL: nothing */
	const bool *marked; /* of each row: a bar stands beside it; NULL: beside none */
};

struct rt__list_paper {
	const char *band;		/* as of the furniture */
	const char *title, *line[3];	/* lines under the title; NULL: none */
	const struct rt_report *report; /* its tables that have a view, then its notes */
	const struct rt__list_view *view;
	size_t views;
	const struct rt__list_said *said; /* of each table; NULL: nothing of any */
	bool new_pages;			  /* each table begins a page */
	const char *signature;		  /* words before a line to sign on; NULL: none */
};

/* A column of a table; SIZE_MAX: there is none of that name. */
size_t rt__column_named(const struct rt_table *t, const char *name);
/* What a row has in it, in out where it is no text; "" where there is no such column, name NULL. */
#define RT__COLUMN_BYTES 64
const char *rt__column_words(const struct rt_table *t, size_t row, const char *name, bool feet,
			     char out[RT__COLUMN_BYTES]);
/* A paper of tables in bold type of 12 points: column widths by what the cells hold, long words
 * broken over lines; heads again on every page, a row never parted, a heading never alone at the
 * foot of a page.  RT_E_INPUT: a row that fills more than a page.  RT_E_NOMEM. */
enum rt_err rt__list(struct rt_sheet *out, const struct rt__list_paper *paper,
		     const struct rt_sheet_options *options, struct rt_error *err);
/* The same, of a sheet that has other pages too: from a new page on, between its head and foot. */
enum rt_err rt__list_pages(struct rt_sheet *sheet, const struct rt_area *room,
			   const struct rt__list_paper *paper, bool feet, struct rt_error *err);

/* ---- ring_drawing.c: a ring on a page -------------------------------------------------------- */

/* Whether the ring stands on a short side. */
bool rt__is_upright(enum rt_seat seat);
/* How far a ring goes across and down the page. */
void rt__ring_size(const struct rt_ring_kind *kind, enum rt_seat seat, double *across_m,
		   double *down_m);
/* The largest view that a room holds with so much left on each side, in its middle. */
struct rt_ring_view rt__ring_view_in(const struct rt_ring_kind *kind, enum rt_seat seat,
				     const struct rt_area *room, double beside_mm, double above_mm);
/* A line between two points of the ring; one of its whole length; its edge, larger all round. */
void rt__ring_line(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
		   const struct rt_ring_view *view, const double a[2], const double b[2]);
void rt__ring_length(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
		     const struct rt_ring_view *view, const struct rt_ring_kind *kind, double x_m);
void rt__ring_rectangle(struct rt_sheet *sheet, const char *role, const struct rt_pen *pen,
			const struct rt_ring_view *view, const struct rt_ring_kind *kind,
			double larger_mm);

/* The letters of the centreline, each beside its point where least of what is drawn already is in
 * its way, inside `within`: after the paths.  One that would meet more than `most` is left out. */
void rt__centre_letters(struct rt_sheet *sheet, const struct rt_ring_kind *kind,
			const struct rt_ring_view *view, double size_pt,
			const struct rt_area *within, double most);

/* ---- labels.c: words where nothing else is --------------------------------------------------- */

/* What a box on the last page meets of what has that role (NULL: any): 0 nothing; the square
 * millimetres of lines inside it; RT__WORDS_WEIGH for words or a filled shape. */
#define RT__WORDS_WEIGH 1000.0
double rt__clash(const struct rt_sheet *sheet, const struct rt_area *box, const char *role);

/* A place that words may take: their middle. */
struct rt__spot {
	double x_mm, y_mm;
};

/* The box of words whose middle is there, and gap_mm round them. */
struct rt_area rt__label_box(const struct rt_extent *e, const struct rt__spot *middle,
			     double gap_mm);
/* The middles of words round a point, in rings of RT__ROUND: away_mm from it at first, in the
 * direction of that angle from x to y and then to either side of it, step_mm farther each ring. */
#define RT__ROUND 16
void rt__label_round(const struct rt_extent *e, const struct rt__spot *about, double angle_rad,
		     double away_mm, double step_mm, size_t rings, struct rt__spot *out);
/* Set words, anchored in the middle, with their middle there. */
void rt__label_set(struct rt_sheet *sheet, const char *role, const char *words,
		   const struct rt_extent *e, const struct rt__spot *middle,
		   const struct rt_lettering *lettering);

/* Of the spots that lie `within` the first that is clear by gap_mm, else the one that meets
 * least; what it meets, INFINITY where there is none (*out stays). */
double rt__label_spot(const struct rt_sheet *sheet, const struct rt_extent *extent, double gap_mm,
		      const struct rt_area *within, const struct rt__spot *spot, size_t spots,
		      struct rt__spot *out);

/* ---- turn_groups.c: figures that are alike --------------------------------------------------- */

/* What a turn of the table is, and its number on the sheet. */
enum rt__turn_type { RT__CENTRELINE = 1, RT__CORNER, RT__ACROSS, RT__DIAGONAL };

/* What a figure is; the order in which the sheet tells them. */
enum rt__figure_type { RT__OFF_ONTO, RT__SHORT_SIDE, RT__LINE_ACROSS, RT__LONG_DIAGONAL };

/* Figures that are alike, told once by `first`. */
struct rt__group {
	enum rt__figure_type type;
	const struct rt_turn *first; /* its two arcs, first[0] and first[1] */
	enum rt__turn_type number[2];
	bool fits;
	size_t figures;
	const char *names; /* "E B, V P": the letters of all its figures, each once */
};

struct rt__groups RT_LIST(struct rt__group);

/* What a turn is, by where its lines meet. */
enum rt__turn_type rt__turn_type_of(const struct rt_turns *turns, const struct rt_ring_kind *kind,
				    const struct rt_turn *turn);
/* Group the figures of a turn table.  *out starts zeroed; free it with RT_LIST_FREE. */
enum rt_err rt__turn_groups(struct rt__groups *out, const struct rt_turns *turns,
			    const struct rt_ring_kind *kind, struct rt_error *err);

/* ---- turn_drawing.c, turn_dimensions.c, turn_table.c: the two halves of the turn sheet ------- */

/* What both halves are made of. */
struct rt__turn_sheet {
	struct rt_sheet *sheet;
	const struct rt_turns *turns;
	const struct rt_ring_kind *kind;
	const struct rt_sheet_options *options;
	const struct rt__groups *groups;
	double type_pt; /* of the table */
};

/* A distance from a letter to where a turn begins or finishes, in the ring.  out is the
 * direction in which it is drawn beside that line; outside: beyond the boards, reached from
 * `end` (inside the track for a diagonal). */
struct rt__dimension {
	enum rt__turn_type number;
	double from_x, from_y, to_x, to_y;
	double end_x, end_y;
	double out_x, out_y;
	bool outside;
	char words[40];
};

#define RT__DIMENSIONS_MOST 24

/* The distances that the drawing shows, one of each sort; how many. */
size_t rt__turn_dimensions(const struct rt__turn_sheet *t,
			   struct rt__dimension out[static RT__DIMENSIONS_MOST]);
/* Draw them.  `within` is the room of the drawing. */
void rt__turn_dimensions_draw(const struct rt__turn_sheet *t, const struct rt_ring_view *view,
			      const struct rt_area *within);

/* Room that a drawing of that scale takes, letters and dimensions included. */
void rt__turn_drawing_size(const struct rt__turn_sheet *t, double mm_per_m, double *width_mm,
			   double *height_mm);
/* Draw into that room, its upper left corner at left_mm, top_mm. */
void rt__turn_drawing(const struct rt__turn_sheet *t, double mm_per_m, double left_mm,
		      double top_mm);
/* Set the blocks of the table into frames, one after another, from block *next on; *next is the
 * first that found no room, or the number of blocks.  draw false: only try. */
void rt__turn_table(const struct rt__turn_sheet *t, const struct rt_area *frame, size_t frames,
		    size_t *next, bool draw);
/* How many blocks the table has. */
size_t rt__turn_table_blocks(const struct rt__turn_sheet *t);

/* ---- check.c, check_drawing.c, certificate.c: papers of a ring check ------------------------ */

/* What the halves of the check sheet are made of. */
struct rt__check_sheet {
	struct rt_sheet *sheet;
	const struct rt_check_paper *paper;
	const struct rt_sheet_options *options;
};

/* The drawing, as large as the room allows, with its key under it; where it ends. */
double rt__check_drawing(const struct rt__check_sheet *t, const struct rt_area *room);
/* Names of the pegs that were not measured; "" without any. */
void rt__unmeasured_words(const struct rt_ring_check *check, char *out, size_t size);
/* "2026-05-09 18:00 by Ann"; "" where neither is told. */
void rt__measured_words(const char *measured, const char *who, char *out, size_t size);
/* The footing in sentences under a heading, where there is one. */
void rt__tell_footing(struct rt__flow *f, const struct rt_check_paper *paper, bool feet,
		      const struct rt_lettering *head, const struct rt_lettering *body);

/* ---- route_drawing.c: a movement's piece of the route ---------------------------------------- */

/* What both halves of the route sheet are made of. */
struct rt__route_sheet {
	struct rt_sheet *sheet;
	const struct rt_route *route;
	const struct rt_ring_kind *kind;
	const struct rt_route_sheet *what;
	const struct rt_sheet_options *options;
	double mm_per_m;
};

/* Two turns that meet with nothing straight between, and where along the path. */
struct rt__meeting {
	const struct rt_turn *first, *second;
	double s_m;
};

/* The next meeting within a movement, from turn *next on, which moves on past it. */
bool rt__route_meeting(const struct rt_route *route, size_t leg, size_t *next,
		       struct rt__meeting *out);
/* Room that a drawing takes, letters included. */
void rt__route_drawing_size(const struct rt__route_sheet *t, double *width_mm, double *height_mm);
enum rt_err rt__route_drawing(const struct rt__route_sheet *t, size_t leg, double left_mm,
			      double top_mm, struct rt_error *err);
/* The key to the lines and marks, from top_mm down; the height it takes.  draw false: only
 * measure. */
double rt__route_key(const struct rt__route_sheet *t, const struct rt_area *room, bool draw);

#endif
