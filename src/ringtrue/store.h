/* store: the show file, one SQLite database.
 *
 * A handle belongs to one thread.  Several programs may have one show file open; a write waits
 * up to twenty seconds for another, then fails with RT_E_BUSY and nothing is changed.  Rows that
 * are loaded carry their `id`, and text that is not there is NULL.  A load appends to a list
 * (start it zeroed); also after a failure free it with the list's own free.
 *
 * Beside what is said at each function, any may fail with RT_E_STORE (the disk is full, reading
 * or writing failed, the file cannot be written or is damaged: the text says what to do),
 * RT_E_BUSY, RT_E_NOMEM.  What is written is written in a transaction that the caller began, and is
 * kept when that ends: RT_E_USAGE without one, or where the file was opened for reading; RT_E_INPUT
 * where the checks of the schema refuse it, and then the caller undoes the whole.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_STORE_H
#define RINGTRUE_STORE_H

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

struct rt_store;

/* What a show says of itself. */
struct rt_show {
	const char *title;
	const char *day;     /* YYYY-MM-DD */
	const char *created; /* when the file was made, as the caller said */
	struct rt_arena *text;
};

/* The rows that come with the program and are copied into a new show file. */
struct rt_shipped {
	struct rt_ring_kinds kinds;
	struct rt_levels levels;
	struct rt_gaits gaits;
	struct rt_rules rules;
	struct rt_turnout_parts turnouts;
	struct rt_articles articles;
};

RT_API void rt_shipped_free(struct rt_shipped *shipped);

/* ---- the file -------------------------------------------------------------------------------- */

/* Make a new show file: it appears whole under its name or not at all.  RT_E_INPUT when
 * something of that name is there already. */
RT_API enum rt_err rt_store_create(const char *path, const struct rt_show *show,
				   const struct rt_shipped *shipped, struct rt_error *err);
/* Open a show file.  RT_E_NOTFOUND when it is not there; RT_E_FORMAT when it is no show file
 * or one of a newer version (it is left untouched); RT_E_STORE when it was copied without its
 * log, or put over a file whose log is still there; an older version is brought up to date
 * when opened for writing, in one transaction.  Opened for reading, a file at rest needs no
 * place that can be written, and nothing is made beside it.  Opened for writing, the file stays
 * as it is, byte for byte, until the first transaction begins; where the file cannot be written
 * this fails already, where its folder cannot, that transaction does. */
RT_API enum rt_err rt_store_open(struct rt_store **out, const char *path, bool writing,
				 struct rt_error *err);
/* Close; the last program to close folds the log back, so that the file stands alone.  Any
 * transaction still open is undone.  NULL is accepted. */
RT_API void rt_store_close(struct rt_store *s);

/* One transaction; they do not nest.  A commit that fails undoes it.  The first that a handle
 * begins takes up the log beside the file, which changes the file's header.  Begin it before what
 * the change is made from is read: then nobody else changes that in between. */
RT_API enum rt_err rt_store_begin(struct rt_store *s, struct rt_error *err);
/* All that is read from here to rt_store_rollback is of one moment. */
RT_API enum rt_err rt_store_begin_reading(struct rt_store *s, struct rt_error *err);
RT_API enum rt_err rt_store_commit(struct rt_store *s, struct rt_error *err);
RT_API void rt_store_rollback(struct rt_store *s);

RT_API enum rt_err rt_store_show(struct rt_store *s, struct rt_show *out, struct rt_error *err);
/* What the columns of a kind of file ("entries") are called, as struct rt_source has it: as it was
 * put last, in *text; NULL: it never was. */
RT_API enum rt_err rt_store_headings(struct rt_store *s, const char *file, const char **columns,
				     struct rt_arena **text, struct rt_error *err);
RT_API enum rt_err rt_store_headings_put(struct rt_store *s, const char *file, const char *columns,
					 struct rt_error *err);
RT_API void rt_show_free(struct rt_show *show);

/* ---- shipped rows, rings, tests, classes, entries -------------------------------------------- */

RT_API enum rt_err rt_store_shipped(struct rt_store *s, struct rt_shipped *out,
				    struct rt_error *err);

/* Put rows inside a transaction: each list of *rows that is not empty.  A row whose name (a
 * level's name and discipline, a turnout's name) is there already takes its place, whole. */
RT_API enum rt_err rt_store_rows_put(struct rt_store *s, const struct rt_shipped *rows,
				     struct rt_error *err);

/* RT_E_INPUT when the kind is unknown, or when a ring has that name already, the same but for
 * case and accents counting too. */
RT_API enum rt_err rt_store_ring_add(struct rt_store *s, const struct rt_ring *ring,
				     struct rt_error *err);
RT_API enum rt_err rt_store_rings(struct rt_store *s, struct rt_rings *out, struct rt_error *err);

/* How many rows an import added, and how many it found there just so; a test counts once, with
 * all its items. */
struct rt_import_count {
	size_t added, same;
	size_t changed; /* by an import that changes what is there */
};

/* Put rows.  A row that is there already with the same content counts as same; one with the
 * same key and other content is a fault (with the row's file and line), and so is one that
 * names what the show has not got (a test's kind, level, rule, gaits; a class's test, level,
 * ring, rule; an entry's class).  The items of a test are compared as a whole, in order.  The
 * caller has begun a transaction and commits only when there is no fault. */
RT_API enum rt_err rt_store_tests_put(struct rt_store *s, const struct rt_tests *tests,
				      const struct rt_items *items, struct rt_import_count *count,
				      struct rt_faults *faults, struct rt_error *err);
RT_API enum rt_err rt_store_classes_put(struct rt_store *s, const struct rt_classes *classes,
					struct rt_import_count *count, struct rt_faults *faults,
					struct rt_error *err);
RT_API enum rt_err rt_store_entries_put(struct rt_store *s, const struct rt_entries *entries,
					struct rt_import_count *count, struct rt_faults *faults,
					struct rt_error *err);

RT_API enum rt_err rt_store_tests(struct rt_store *s, struct rt_tests *out, struct rt_error *err);
/* The items of one test in sheet order; of all tests, test by test, when test is NULL. */
RT_API enum rt_err rt_store_items(struct rt_store *s, const char *test, struct rt_items *out,
				  struct rt_error *err);
RT_API enum rt_err rt_store_classes(struct rt_store *s, struct rt_classes *out,
				    struct rt_error *err);
/* The entries of one class by number (RT_E_NOTFOUND when there is no such class); of all
 * classes, class by class, when class_name is NULL. */
RT_API enum rt_err rt_store_entries(struct rt_store *s, const char *class_name,
				    struct rt_entries *out, struct rt_error *err);

/* Set the status of an entry; the earlier ones stay in the file's history.  RT_E_NOTFOUND. */
RT_API enum rt_err rt_store_status_put(struct rt_store *s, const char *class_name, int64_t number,
				       enum rt_status status, const char *why, const char *who,
				       const char *when, struct rt_error *err);
/* Add a row to what the office adds or takes off.  RT_E_NOTFOUND; RT_E_INPUT when the points of
 * the entry would come below 0 or above RT_PENALTY_MOST_X100 together. */
RT_API enum rt_err rt_store_penalty_put(struct rt_store *s, const char *class_name,
					const struct rt_penalty *penalty, struct rt_error *err);
/* Take one that holds back, whole, as if it had never been; an entry that it had eliminated stands as
 * before.  RT_E_INPUT when points were taken off it since, so that there would be less than none. */
RT_API enum rt_err rt_store_penalty_undo(struct rt_store *s, const char *class_name,
					 const struct rt_penalty *penalty,
					 const struct rt_reason *said, struct rt_error *err);
/* All of a class in the order they came, those that were taken back too. */
RT_API enum rt_err rt_store_penalties(struct rt_store *s, const char *class_name,
				      struct rt_penalties *out, struct rt_error *err);

/* ---- championships, teams, prize money ------------------------------------------------------- */

/* Put rows, as of tests, classes and entries above. */
RT_API enum rt_err rt_store_championships_put(struct rt_store *s,
					      const struct rt_championships *list,
					      struct rt_import_count *count,
					      struct rt_faults *faults, struct rt_error *err);
RT_API enum rt_err rt_store_team_members_put(struct rt_store *s,
					     const struct rt_team_members *members,
					     struct rt_import_count *count,
					     struct rt_faults *faults, struct rt_error *err);
RT_API enum rt_err rt_store_prize_steps_put(struct rt_store *s, const struct rt_prize_steps *steps,
					    struct rt_import_count *count, struct rt_faults *faults,
					    struct rt_error *err);

RT_API enum rt_err rt_store_championships(struct rt_store *s, struct rt_championships *out,
					  struct rt_error *err);
RT_API enum rt_err rt_store_team_members(struct rt_store *s, struct rt_team_members *out,
					 struct rt_error *err);
RT_API enum rt_err rt_store_prize_steps(struct rt_store *s, struct rt_prize_steps *out,
					struct rt_error *err);

/* Who is paid for a number from now on; the earlier ones stay in the file's history.
 * RT_E_NOTFOUND when no entry has the number. */
RT_API enum rt_err rt_store_payee_put(struct rt_store *s, int64_t number, const char *name,
				      const char *who, const char *when, struct rt_error *err);
RT_API enum rt_err rt_store_payees(struct rt_store *s, struct rt_payees *out, struct rt_error *err);

/* ---- entries and people: numbers, changes, judges by name ------------------------------------ */

/* How numbers are given out: as put last, else 1 to RT_NUMBER_MOST by turnout. */
RT_API enum rt_err rt_store_numbering(struct rt_store *s, struct rt_numbering *out,
				      struct rt_error *err);
RT_API enum rt_err rt_store_numbering_put(struct rt_store *s, const struct rt_numbering *rule,
					  struct rt_error *err);
/* The numbers that entries had before theirs was changed. */
RT_API enum rt_err rt_store_numbers_given_up(struct rt_store *s, struct rt_numbers *out,
					     struct rt_error *err);
/* The number of the entry of a class that had this number before; 0: none had. */
RT_API enum rt_err rt_store_number_now(struct rt_store *s, const char *class_name, int64_t number,
				       int64_t *now, struct rt_error *err);

/* Whether a mark or a line of a sheet is keyed, in either keying: in a class, of an entry (by
 * its id). */
RT_API enum rt_err rt_store_class_marked(struct rt_store *s, const char *class_name, bool *marked,
					 struct rt_error *err);
RT_API enum rt_err rt_store_entry_marked(struct rt_store *s, int64_t entry, bool *marked,
					 struct rt_error *err);

/* Make an entry (by its id) what `became` says and keep `changes`, as rt_record_changes gave
 * them, in its history, with the reason.  The caller has begun a transaction and has read in it
 * what the entry was.  Only the checks of the schema are made.  Its team and its payee go with
 * a changed number. */
RT_API enum rt_err rt_store_entry_change(struct rt_store *s, const struct rt_entry *became,
					 const struct rt_changes *changes,
					 const struct rt_reason *reason, struct rt_error *err);
/* How the reason begins for which an entry that was moved is withdrawn in its old class. */
#define RT_MOVED_TO "moved to class "
/* Put an entry into another class, with that number, which is free there, and keep so in its
 * history; its team goes along.  Where anything hangs on the entry (a draw, a start, a mark ...)
 * *left is true: it stays in its class as withdrawn, told where it went, and a new one is made;
 * sheets: all of its sheets is copied for the judges at the same positions, as the test is the
 * same. */
RT_API enum rt_err rt_store_entry_move(struct rt_store *s, const struct rt_entry *was,
				       const char *to, int64_t number, bool sheets,
				       const struct rt_reason *reason, bool *left,
				       struct rt_error *err);
/* How an entry (by its id) came in, what was changed of it, and how it stood (field `status`),
 * the oldest first. */
RT_API enum rt_err rt_store_entry_history(struct rt_store *s, int64_t entry, struct rt_changes *out,
					  struct rt_error *err);

/* Take a class out of the show: no list has it any more, and its history tells what became of it
 * ("removed", "merged into 2").  Its name is not given again. */
RT_API enum rt_err rt_store_class_remove(struct rt_store *s, const char *name, const char *became,
					 const struct rt_reason *reason, struct rt_error *err);
/* The same for a class, by its name.  RT_E_INPUT when it has marks and its test or the positions
 * of its judges would change. */
RT_API enum rt_err rt_store_class_change(struct rt_store *s, const struct rt_class *was,
					 const struct rt_class *became,
					 const struct rt_changes *changes,
					 const struct rt_reason *reason, struct rt_error *err);
RT_API enum rt_err rt_store_class_history(struct rt_store *s, const char *class_name,
					  struct rt_changes *out, struct rt_error *err);

/* Who was to judge at a position, and who to write. */
struct rt_judge_name {
	const char *position, *name, *scribe; /* name, scribe NULL: nobody known */
	/* The entry (its id, its number) from which on, in the order of starting; 0: of all. */
	int64_t from_entry, from_number;
	struct rt_reason reason; /* when NULL: not known */
};

struct rt_judge_names RT_LIST(struct rt_judge_name);

/* Name the judge and the scribe at judge->position: of all sheets, or of those from an entry (by its
 * id; 0: all) on in the order of starting, whatever was said of them before; that stays in the
 * history.  That there are such a position and entry in the class is for the caller to see to. */
RT_API enum rt_err rt_store_judge_name_put(struct rt_store *s, const char *class_name,
					   const struct rt_judge *judge, int64_t from_entry,
					   const struct rt_reason *reason, struct rt_error *err);
/* Who gives the sheets of the positions whose judge was replaced: for rt_sheet_judge and
 * rt_judge_spells.  A class book holds them too. */
RT_API enum rt_err rt_store_judged(struct rt_store *s, const char *class_name,
				   struct rt_judge_sheets *out, struct rt_error *err);
/* All that were ever named in a class, the oldest first. */
RT_API enum rt_err rt_store_judge_history(struct rt_store *s, const char *class_name,
					  struct rt_judge_names *out, struct rt_error *err);

/* ---- marks ----------------------------------------------------------------------------------- */

/* What became of a mark that was put. */
enum rt_mark_put {
	RT_MARK_NEW,	/* the box was empty in this keying */
	RT_MARK_SAME,	/* it says the same already: nothing written */
	RT_MARK_CHANGED /* it said something else: a new row was added, the old one stays */
};

/* Who keys, when and why: the rows of one pass refer to it. */
struct rt_pass {
	int keying;			       /* 1 or 2 */
	const char *who, *when, *source, *why; /* NULL: none */
};

/* Start a pass inside a transaction; it ends with the transaction, or with the next pass. */
RT_API enum rt_err rt_store_pass_begin(struct rt_store *s, const struct rt_pass *pass,
				       struct rt_error *err);
/* Put one mark (kind, value as in struct rt_mark_row) of the pass that was begun, by the ids of
 * entry, judge and item (0 for errors and total).  remark may be NULL.  A box that one pass puts
 * twice is for the caller to find (struct rt_mark_reader does): here the later mark counts.
 * RT_E_INPUT when the value is out of bounds or an id is not there. */
RT_API enum rt_err rt_store_mark_put(struct rt_store *s, int64_t entry, int64_t judge, int64_t item,
				     enum rt_mark_kind kind, int64_t value, const char *remark,
				     enum rt_mark_put *what, struct rt_error *err);

/* For marks that are kept one by one: begin the pass where *id is 0, and set *id; else go on
 * with it in this transaction. */
RT_API enum rt_err rt_store_pass_go_on(struct rt_store *s, const struct rt_pass *pass, int64_t *id,
				       struct rt_error *err);
/* Put one mark of the pass as the version after the one that was seen (0: the box was empty).
 * *put is false, and nothing is written, when another has been put since.  RT_NO_MARK empties it. */
RT_API enum rt_err rt_store_mark_put_after(struct rt_store *s, int64_t entry, int64_t judge,
					   int64_t item, enum rt_mark_kind kind, int64_t value,
					   const char *remark, int64_t seen, bool *put,
					   struct rt_error *err);
/* Every version of every mark and line of a class, or of the entry with this number (-1: all).
 * A class or number that is not there has none. */
RT_API enum rt_err rt_store_mark_versions(struct rt_store *s, const char *class_name,
					  int64_t number, struct rt_mark_versions *out,
					  struct rt_error *err);

/* Who keyed boxes of a sheet in one keying (1 or 2), as far as it is known; those who settled or
 * corrected a mark of it only are not among them. */
RT_API enum rt_err rt_store_sheet_people(struct rt_store *s, int64_t entry, int64_t judge,
					 int keying, struct rt_strings *out, struct rt_error *err);

/* Add what a person says of a sheet; the strings of event are copied. */
RT_API enum rt_err rt_store_sheet_event_put(struct rt_store *s, const struct rt_sheet_event *event,
					    struct rt_error *err);
/* What was said of the sheets of a class, in order; number as in rt_store_mark_versions. */
RT_API enum rt_err rt_store_sheet_events(struct rt_store *s, const char *class_name, int64_t number,
					 struct rt_sheet_events *out, struct rt_error *err);

/* How many sheets of a class have a mark in the first and in the second keying. */
RT_API enum rt_err rt_store_sheets_keyed(struct rt_store *s, const char *class_name,
					 size_t keyed[RT_KEYINGS], struct rt_error *err);

/* Everything that is scored in one class, as it stands at one moment: class, test and rule are
 * those in marks, which point into the lists beside them, so a book must not be copied. */
struct rt_class_book {
	struct rt_classes classes; /* one */
	struct rt_tests tests;	   /* one */
	struct rt_rules rules;	   /* all of the show */
	struct rt_items items;	   /* of the test */
	struct rt_entries entries; /* by number */
	struct rt_penalties penalties;
	struct rt_decisions decisions;
	struct rt_judge_sheets judged; /* of judges who were replaced */
	struct rt_class_marks marks;
};

/* In a transaction, and out starts zeroed.  RT_E_NOTFOUND when there is no such class (the nearest
 * name is said); RT_E_INPUT when neither the class nor its test names a rule. */
RT_API enum rt_err rt_store_class_book(struct rt_store *s, const char *class_name,
				       struct rt_class_book *out, struct rt_error *err);
RT_API void rt_class_book_free(struct rt_class_book *book);

/* ---- judges and ties ---------------------------------------------------------------------------
 */

/* Who says something of a sheet or a tie, and why, is needed. */

/* Say that a box stays empty as its judge cannot be asked, or (missing false) take that back; by
 * the ids of entry, judge and item. */
RT_API enum rt_err rt_store_missing_put(struct rt_store *s, int64_t entry, int64_t judge,
					int64_t item, bool missing, const struct rt_reason *said,
					struct rt_error *err);
/* Say that a judge was away for an entry, or was not. */
RT_API enum rt_err rt_store_away_put(struct rt_store *s, int64_t entry, int64_t judge, bool away,
				     const struct rt_reason *said, struct rt_error *err);
/* A sheet that is not expected, as its judge was away. */
struct rt_away_sheet {
	int64_t judge;	/* id */
	int64_t number; /* of the entry */
};

struct rt_away_sheets RT_LIST(struct rt_away_sheet);

/* Those of a class, by number. */
RT_API enum rt_err rt_store_away(struct rt_store *s, const char *class_name,
				 struct rt_away_sheets *out, struct rt_error *err);
/* Keep what an official decided between n equal entries of a class, by their ids, best first. */
RT_API enum rt_err rt_store_decision_put(struct rt_store *s, const char *class_name,
					 const int64_t *entry, size_t n,
					 const struct rt_reason *said, struct rt_error *err);

/* ---- posting -----------------------------------------------------------------------------------
 */

/* The postings of a class, by version; RT_E_NOTFOUND when there is no such class. */
RT_API enum rt_err rt_store_postings(struct rt_store *s, const char *class_name,
				     struct rt_postings *out, struct rt_error *err);
/* The latest posting of a class with its places; *found is false when there is none. */
RT_API enum rt_err rt_store_posting_latest(struct rt_store *s, const char *class_name,
					   struct rt_posting *out, bool *found,
					   struct rt_error *err);
/* Whether anything was recorded of the class since it was posted that may change its results: a
 * mark, a penalty, a status, a change of the class or of an entry, an official's word. */
RT_API enum rt_err rt_store_posting_followed(struct rt_store *s, const char *class_name,
					     const struct rt_posting *posting, bool *followed,
					     struct rt_error *err);
/* Post the results of a class as its next version: `when` (YYYY-MM-DD HH:MM:SS) is when objections
 * run from, for so many minutes. */
RT_API enum rt_err rt_store_posting_put(struct rt_store *s, const struct rt_results *r,
					const char *who, const char *when, int64_t minutes,
					struct rt_error *err);

/* ---- the file as a whole ------------------------------------------------------------------------
 */

/* What is wrong with a show file, a row a fault. */
struct rt_file_fault {
	const char *check; /* what was looked at: "marks in steps" */
	const char *where; /* a class and number, a table; NULL: the file */
	const char *what;
};

struct rt_file_faults RT_LIST(struct rt_file_fault);

/* How much was looked at. */
struct rt_file_counts {
	int64_t classes, entries, marks, postings;
};

/* Look at all of the file, in a transaction where others may write: whether SQLite finds it whole, every row names what is there, tables
 * and triggers are all there, histories are unbroken, marks belong to their sheets and stand in
 * the steps of their items.  Results are not computed here. */
RT_API enum rt_err rt_store_verify(struct rt_store *s, struct rt_file_faults *out,
				   struct rt_file_counts *counts, struct rt_error *err);
/* Copy the show into the file at `path`, which is there and empty (rt_outfile_open makes one beside
 * its target), while others work on it: the copy is as the show is at one moment, and stands
 * alone. */
RT_API enum rt_err rt_store_copy(struct rt_store *s, const char *path, struct rt_error *err);
/* Whether the file at `path` is a copy of this show: made at the same moment, under the same
 * title. */
RT_API bool rt_store_is_copy(struct rt_store *s, const char *path);
/* Put a copy in the place of the show at `path`, which nobody may have open, or where there is
 * none.  The show that was there is kept beside it, with all that its log held; *kept is its name
 * (NULL: there was none), yours to free.  RT_E_INPUT when the copy has faults, RT_E_STORE when it
 * was made without its log: `anyway` takes it nevertheless.  RT_E_BUSY when another program has the
 * show open.  Nothing is changed unless all is done. */
RT_API enum rt_err rt_store_restore(const char *path, const char *backup, bool anyway, char **kept,
				    struct rt_error *err);

/* ---- the draw and start times ---------------------------------------------------------------- */

/* How an order came to be. */
#define RT_DRAWN	 "drawn"
#define RT_DRAWN_FRONT	 "late at the front"
#define RT_DRAWN_BETWEEN "late at random"

struct rt_draw_place {
	int64_t entry; /* its id */
	int64_t place; /* from 1 */
	bool fixed;
};

struct rt_draw_places RT_LIST(struct rt_draw_place);

/* A draw as it was made. */
struct rt_stored_draw {
	int64_t id;
	const char *class_name, *what;
	int64_t seed, apart;
	const char *why, *who, *when; /* NULL: none */
};

struct rt_stored_draws RT_LIST(struct rt_stored_draw);

/* Keep a draw with its places, whole or not at all. */
RT_API enum rt_err rt_store_draw_put(struct rt_store *s, const struct rt_stored_draw *draw,
				     const struct rt_draw_places *places, struct rt_error *err);
/* Every draw of a class, the latest last. */
RT_API enum rt_err rt_store_draws(struct rt_store *s, const char *class_name,
				  struct rt_stored_draws *out, struct rt_error *err);
/* The places of its latest draw, in order; none when it was not drawn. */
RT_API enum rt_err rt_store_draw_places(struct rt_store *s, const char *class_name,
					struct rt_draw_places *out, struct rt_error *err);
/* Who put a file of wishes or a change in, and why. */
struct rt_times_note {
	int64_t version;	      /* of a change that is loaded */
	const char *what;	      /* "plan", "move", "late" or "back" */
	const char *words;	      /* what was done; of a file its path */
	const char *ring;	      /* that was said to be late; NULL: none */
	const char *why, *who, *when; /* NULL: none */
};

struct rt_times_notes RT_LIST(struct rt_times_note);

/* Keep a plan file or a wishes file whole: it takes the place of the one before. */
RT_API enum rt_err rt_store_plan_rows_put(struct rt_store *s, const struct rt_plan_rows *rows,
					  const struct rt_times_note *note, struct rt_error *err);
RT_API enum rt_err rt_store_wishes_put(struct rt_store *s, const struct rt_wishes *wishes,
				       const struct rt_times_note *note, struct rt_error *err);
/* Those of the latest file; their own file is "". */
RT_API enum rt_err rt_store_plan_rows(struct rt_store *s, struct rt_plan_rows *out,
				      struct rt_error *err);
RT_API enum rt_err rt_store_wishes(struct rt_store *s, struct rt_wishes *out, struct rt_error *err);

/* Keep a change of the times, whole or not at all: those of starts whose version is 0, and the
 * entries (by id) that have no start any more.  settings: of a plan; NULL else.  *version is the
 * version of the times from then on, and that of the starts which were kept. */
RT_API enum rt_err rt_store_times_put(struct rt_store *s, const struct rt_times_note *note,
				      const struct rt_time_settings *settings,
				      struct rt_starts *starts, const int64_t *gone, size_t gone_n,
				      int64_t *version, struct rt_error *err);
/* The latest version, of those that follow. */
#define RT_TIMES_NOW INT64_MAX
/* The start times as they stood in a version, sorted; entries are of the list, those of others are
 * left out. */
RT_API enum rt_err rt_store_times_of(struct rt_store *s, int64_t version,
				     const struct rt_entries *entries, struct rt_starts *out,
				     struct rt_error *err);
/* The same as they stand. */
RT_API enum rt_err rt_store_times(struct rt_store *s, const struct rt_entries *entries,
				  struct rt_starts *out, struct rt_error *err);
/* The settings of the latest plan up to a version; *found is false, and *out as it was, when there
 * is none. */
RT_API enum rt_err rt_store_time_settings(struct rt_store *s, int64_t version,
					  struct rt_time_settings *out, bool *found,
					  struct rt_error *err);
/* Whether anybody of the class has a start time. */
RT_API enum rt_err rt_store_class_timed(struct rt_store *s, const char *class_name, bool *out,
					struct rt_error *err);
/* All changes of the times, the latest last. */
RT_API enum rt_err rt_store_times_changes(struct rt_store *s, struct rt_times_notes *out,
					  struct rt_error *err);

/* The version that a start list last changed in: of a ring on a day, or of a class. */
struct rt_list_version {
	const char *ring, *class_name; /* one of them is NULL */
	int64_t day;		       /* of a ring */
	int64_t version;
};

struct rt_list_versions RT_LIST(struct rt_list_version);

RT_API enum rt_err rt_store_list_versions(struct rt_store *s, struct rt_list_versions *out,
					  struct rt_error *err);

/* Keep a list as it was printed, in a transaction. */
RT_API enum rt_err rt_store_printed_put(struct rt_store *s, const struct rt_printed_list *list,
					struct rt_error *err);
/* The last two versions of the list that is like that one (whom for, ring, class, driver, day), the
 * latest first; one or none where it was printed once or never. */
RT_API enum rt_err rt_store_printed_versions(struct rt_store *s, const struct rt_printed_list *like,
					     struct rt_printed_lists *out, struct rt_error *err);
/* The latest version of every list that was printed. */
RT_API enum rt_err rt_store_printed_latest(struct rt_store *s, struct rt_printed_lists *out,
					   struct rt_error *err);

/* ---- ring checks ----------------------------------------------------------------------------- */

/* A check as it was made; readings and heights as they were typed (their file is "" when loaded).
 * It has readings or heights or both. */
struct rt_stored_check {
	const char *ring, *when;
	double tolerance_m;
	const char *fit; /* fewest, all or corners */
	struct rt_readings readings;
	struct rt_arena *text;
	const char *who; /* NULL: not told */
	struct rt_heights heights;
	struct rt_footing_limits limits; /* of the heights; not looked at without heights */
};

struct rt_stored_checks RT_LIST(struct rt_stored_check);

/* Keep a check, whole or not at all.  RT_E_NOTFOUND when there is no such ring. */
RT_API enum rt_err rt_store_check_put(struct rt_store *s, const struct rt_stored_check *check,
				      struct rt_error *err);
/* The latest check of a ring that has readings; *found is false when there was none. */
RT_API enum rt_err rt_store_check_latest(struct rt_store *s, const char *ring,
					 struct rt_stored_check *out, bool *found,
					 struct rt_error *err);
/* All checks of a ring, from the first to the latest.  *out starts zeroed and is yours:
 * rt_stored_checks_free. */
RT_API enum rt_err rt_store_checks(struct rt_store *s, const char *ring,
				   struct rt_stored_checks *out, struct rt_error *err);
RT_API void rt_stored_checks_free(struct rt_stored_checks *checks);
RT_API void rt_stored_check_free(struct rt_stored_check *check);

#ifdef __cplusplus
}
#endif
#endif
