/* store: what its files share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_STORE_INTERNAL_H
#define RT_STORE_INTERNAL_H

#include <sqlite3.h>

#include <ringtrue/store.h>

/* The version of the show file that this program writes.  schema.sql is always of this
 * version; the group migrate-N (sql/migrate-N.sql) brings a file from version N - 1 to N and
 * sets user_version in its last statement. */
#define RT__VERSION	   1
#define RT__APPLICATION_ID 0x52547368 /* RTsh, as in schema.sql */
#define RT__BUSY_MS	   20000      /* eight plans of a large show, one behind the other */

/* Versions of one thing are counted one by one. */
#define RT__VERSION_MOST INT32_MAX

/* ---- statements: enum rt__sql and their text, from the SQL files ---------------------------- */

enum rt__sql {
#define RT_SQL(name, group, text) RT__SQL_##name,
#include "store/sql_text.h"
#undef RT_SQL
	RT__SQL_COUNT
};

struct rt__sql_text {
	const char *name, *group, *text;
};

extern const struct rt__sql_text rt__sql_text[RT__SQL_COUNT];

/* A statement that is made, and what its names are in the record that it was first used with. */
struct rt__statement {
	sqlite3_stmt *q;
	const struct rt_record *record;
	const struct rt_field **parameter, **column; /* NULL: no field; one allocation */
};

struct rt_store {
	sqlite3 *db;
	char *path; /* as the caller gave it, for messages */
	bool writing;
	bool log_due; /* the log is taken up before the first transaction to write */
	int64_t pass; /* of the transaction under way; 0: none was begun */
	int keying;   /* of that pass */
	struct rt__statement stmt[RT__SQL_COUNT]; /* each made on first use, kept until the end */
};

void rt__statement_free(struct rt__statement *st);

/* The error for a result code of SQLite, in plain words with what to do. */
enum rt_err rt__sqlite_fail(const struct rt_store *s, int sqlite_code, struct rt_error *err);
/* RT_E_STORE: a row says what the checks of the schema cannot have let in. */
enum rt_err rt__damaged(const struct rt_store *s, struct rt_error *err);

/* ---- parameters ------------------------------------------------------------------------------ */

/* A value for a parameter: a text, or a whole number. */
struct rt__cell {
	bool null;
	const char *text; /* NULL: a number */
	int64_t whole;
};

struct rt__cell rt__text(const char *s);  /* NULL stays null, "" stays empty */
struct rt__cell rt__given(const char *s); /* "" is null too: an optional text */
struct rt__cell rt__int(int64_t v);
struct rt__cell rt__int_unless(int64_t v, int64_t none); /* `none` is null */

/* Those of a reason, or of anything else that tells why, by whom and when. */
#define RT__SAID_CELLS(said) rt__given((said)->why), rt__given((said)->who), rt__given((said)->when)

/* Run a statement to its end, rows left unread.  RT_E_USAGE for one that writes a row, unless a
 * transaction to write is under way. */
enum rt_err rt__run(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell, size_t n,
		    struct rt_error *err);
#define RT__CELLS(...)                                                                             \
	(const struct rt__cell[]){__VA_ARGS__},                                                    \
		sizeof((const struct rt__cell[]){__VA_ARGS__}) / sizeof(struct rt__cell)
#define RT__NO_CELLS NULL, 0
/* The same with a row of a record: first come the parameters that are the cells, then those that
 * are called as fields are in the show file: `VALUES (?1, :driver, :horses)`. */
enum rt_err rt__run_row(struct rt_store *s, enum rt__sql sql, const struct rt_record *record,
			const void *row, const struct rt__cell *cell, size_t n,
			struct rt_error *err);
/* The same with every row of a list that belongs to one thing: `whose` and the number of the row,
 * from 1, are the cells. */
enum rt_err rt__run_list(struct rt_store *s, enum rt__sql sql, const struct rt_record *record,
			 const void *rows, size_t n, struct rt__cell whose, struct rt_error *err);
/* Run every statement of a group, in the order of its file; RT_E_FORMAT if there is no such. */
enum rt_err rt__run_group(struct rt_store *s, const char *group, struct rt_error *err);

/* The fields of why, by whom and when; in: the member that they are in, with its dot. */
#define RT__SAID(struct_, in)                                                                      \
	{"why", RT_AT(struct_, in why), .type = RT_TEXT, .is = RT_EMPTY},                          \
		{"who", RT_AT(struct_, in who), .type = RT_TEXT, .is = RT_EMPTY},                  \
	{                                                                                          \
		"at", RT_AT(struct_, in when), .type = RT_TEXT, .is = RT_EMPTY                     \
	}

/* ---- rows ------------------------------------------------------------------------------------ */

/* A statement under way.  Errors stay in rc: rt__next is false then, and what is read is 0 or
 * NULL; so look at rc once, after the last row. */
struct rt__rows {
	struct rt_store *s;
	struct rt__statement *statement;
	sqlite3_stmt *q;
	struct rt_arena **text; /* where texts are copied */
	enum rt_err rc;
	struct rt_error *err;
};

struct rt__rows rt__open_rows(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell,
			      size_t n, struct rt_arena **text, struct rt_error *err);
struct rt__rows rt__open_rows_of(struct rt_store *s, enum rt__sql sql,
				 const struct rt_record *record, const void *row,
				 const struct rt__cell *cell, size_t n, struct rt_arena **text,
				 struct rt_error *err);
/* Go to the next row; after the last one, or an error, the statement is free again. */
bool rt__next(struct rt__rows *r);
/* Leave before the last row. */
void rt__close_rows(struct rt__rows *r);
void rt__rows_nomem(struct rt__rows *r);
void rt__rows_damaged(struct rt__rows *r);
/* Go to the next row and add a place for it to a list; NULL after the last one, or an error. */
#define RT__NEXT(rows, list) (rt__next(rows) ? rt__added(rows, RT_LIST_ADD(list)) : NULL)
void *rt__added(struct rt__rows *r, void *place);

/* Read all columns that are called as fields of the record are in the show file; the row is started
 * as the blank one.  What a field does not accept makes the rows damaged, as below. */
void rt__read_row(struct rt__rows *r, const struct rt_record *record, void *row);
/* All rows of a statement into a list, each read so. */
#define RT__LOAD(s, sql, cells, record, list, err)                                                 \
	rt__load_rows(rt__open_rows(s, sql, cells, &(list)->text, err), record, &(list)->at,       \
		      &(list)->n, &(list)->cap)
enum rt_err rt__load_rows(struct rt__rows rows, const struct rt_record *record, void *at_field,
			  size_t *n, size_t *cap);

/* What a row says.  Nothing of a file is trusted, as a disk, a stick or another program may have
 * changed it: a value of another type, beyond its limits, or not there where it must be makes the
 * rows damaged, and what is given back then (least, "") can be used until the rows end. */

/* A text copied into the arena; NULL for null. */
const char *rt__text_at(struct rt__rows *r, int column);
/* One that is there and not empty, copied likewise. */
const char *rt__name_at(struct rt__rows *r, int column);
/* A text that is there, itself, until the next row. */
const char *rt__words_at(struct rt__rows *r, int column);
/* Any whole number: an id that is looked up, a version that is passed on. */
int64_t rt__int_at(struct rt__rows *r, int column);
int64_t rt__int_in(struct rt__rows *r, int column, int64_t least, int64_t most);

/* What a mark that is keyed is, and its value. */
enum rt_mark_kind rt__mark_kind_at(struct rt__rows *r, int column);
int64_t rt__mark_at(struct rt__rows *r, int column, enum rt_mark_kind kind);

/* The number in the first column of the first row; *out is left alone when there is no row. */
enum rt_err rt__get_int(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell, size_t n,
			int64_t *out, struct rt_error *err);
/* The same of a question: whether that number is there and is not 0. */
enum rt_err rt__ask(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell, size_t n,
		    bool *yes, struct rt_error *err);
/* The names in the first column, in the arena of the list. */
enum rt_err rt__load_names(struct rt_store *s, enum rt__sql sql, const struct rt__cell *cell,
			   size_t n, struct rt_strings *out, struct rt_error *err);

/* The place in a list of the element with this id, or n.  It is looked for from `last` on round:
 * rows mostly come in the order of the list. */
#define RT__PLACE_BY_ID(type, list, id_, last)                                                     \
	rt__place_by_id((list)->at, (list)->n, sizeof(type), offsetof(type, id), id_, last)
size_t rt__place_by_id(const void *at, size_t n, size_t size, size_t id_at, int64_t id,
		       size_t last);

/* ---- the file -------------------------------------------------------------------------------- */

/* A handle on the file at `opened`, which messages call `path`; nothing of it is read yet. */
enum rt_err rt__handle_open(struct rt_store **out, const char *opened, const char *path,
			    bool writing, struct rt_error *err);
/* Release it, without a look at the log. */
void rt__handle_close(struct rt_store *s);
/* Bring a file from its version to another, in one transaction: a step brings it from the version
 * before to this one, user_version too. */
typedef enum rt_err rt__step(struct rt_store *s, int64_t version, struct rt_error *err);
enum rt_err rt__migrate(struct rt_store *s, int64_t to, rt__step *step, struct rt_error *err);
/* A descriptor of the folder that path stands in, or -1. */
int rt__open_folder(const char *path);

/* The first bytes of the file (SQLite's page "Database File Format", section 1.3). */
#define RT__HEADER_SIZE		 100
#define RT__HEADER_WRITE_VERSION 18
#define RT__HEADER_WITH_LOG	 2
bool rt__read_header(const struct rt_store *s, unsigned char header[RT__HEADER_SIZE]);
/* Whether its first bytes say that it is a show file, of a version that is known. */
enum rt_err rt__check_header(const struct rt_store *s, struct rt_error *err);

#define RT__PATH_SIZE 4096

/* ---- the log beside the file (log.c tells the cases) ------------------------------------------
 */

enum rt__log { RT__LOG_OWN, RT__LOG_FOREIGN, RT__LOG_MISSING };

/* Whether the header says that there is a log. */
bool rt__has_log(const struct rt_store *s);
/* How header and log go together at this moment. */
enum rt__log rt__log_look(const struct rt_store *s);
/* RT_E_STORE, with the way out, unless the log is the file's own. */
enum rt_err rt__log_check(const struct rt_store *s, struct rt_error *err);
/* RT_E_INPUT when a log is left where a file is to be made. */
enum rt_err rt__no_log_beside(const char *path, struct rt_error *err);
/* Take the log up, once a handle: from then on it holds the file, and nobody lays the log down. */
enum rt_err rt__log_take_up(struct rt_store *s, struct rt_error *err);
/* Fold the log into the file and remove it, at once or not: RT_E_BUSY while another program has
 * the file open. */
enum rt_err rt__log_lay_down(struct rt_store *s, struct rt_error *err);
/* The same for the file at `opened` that nobody here has open, where it can be written; messages
 * call it `path`. */
enum rt_err rt__fold(const char *opened, const char *path, struct rt_error *err);
/* Hold others off while a log is taken up or laid down; what is returned ends it. */
int rt__lock_folder(const char *path);
void rt__unlock_folder(int fd);

/* ---- transactions ---------------------------------------------------------------------------- */

/* RT_E_USAGE unless a transaction is under way. */
enum rt_err rt__need_transaction(const struct rt_store *s, struct rt_error *err);

/* ---- imports --------------------------------------------------------------------------------- */

/* What an import counts and tells. */
struct rt__import {
	struct rt_store *s;
	struct rt_faults *faults;
	struct rt_error *err;
	const char *rename; /* what to give a row that differs: "the test another name" */
};

/* Where a row comes from, and what it is called: "test T1". */
struct rt__origin {
	const char *file;
	long line;
	char what[160];
};

struct rt__origin rt__origin(const char *file, long line, const char *fmt, ...) RT_PRINTF(3, 4);
void rt__import_fault(struct rt__import *in, const struct rt__origin *from, const char *column,
		      const char *fmt, ...) RT_PRINTF(4, 5);

/* The fault of a row that is in the show already and differs; how is said, then what can be done.
 */
void rt__import_differs(struct rt__import *in, const struct rt__origin *from, const char *column,
			const char *fmt, ...) RT_PRINTF(4, 5);

enum rt__outcome { RT__ADDED, RT__THERE, RT__DIFFERS };

/* Insert a row of a record, the cells as in rt__run_row; when its key is there already, compare it
 * with what the statement `there` gives for the same parameters: those of its columns that a file
 * has too.  The first difference is a fault. */
enum rt_err rt__import_row(struct rt__import *in, enum rt__sql insert, enum rt__sql there,
			   const struct rt__origin *from, const struct rt_record *record,
			   const void *row, const struct rt__cell *cell, size_t n,
			   enum rt__outcome *outcome);
/* Compare a row that is known to be there. */
enum rt_err rt__import_compare(struct rt__import *in, enum rt__sql there,
			       const struct rt__origin *from, const struct rt_record *record,
			       const void *row, const struct rt__cell *cell, size_t n,
			       enum rt__outcome *outcome);
/* A fault in `column` unless name (NULL: nothing to check) is known to the statement. */
enum rt_err rt__import_name(struct rt__import *in, enum rt__sql known,
			    const struct rt__origin *from, const char *column, const char *name,
			    bool *missing);

/* ---- loads and puts that other files build upon ---------------------------------------------- */

enum rt_err rt__load_rules(struct rt_store *s, struct rt_rules *out, struct rt_error *err);
enum rt_err rt__load_test(struct rt_store *s, const char *name, struct rt_tests *out,
			  struct rt_error *err);
enum rt_err rt__load_class(struct rt_store *s, const char *name, struct rt_classes *out,
			   struct rt_error *err);
enum rt_err rt__load_judges(struct rt_store *s, const char *class_name, struct rt_judges *out,
			    struct rt_arena **text, struct rt_error *err);
/* The latest change of an entry, or none. */
enum rt_err rt__latest_change(struct rt_store *s, const char *class_name, int64_t number,
			      struct rt_changes *out, struct rt_error *err);
/* Keep that one field of an entry, by its id, was changed. */
enum rt_err rt__put_entry_change(struct rt_store *s, int64_t entry, const char *field,
				 const char *was, const char *became,
				 const struct rt_reason *reason, struct rt_error *err);
/* RT_E_NOTFOUND for a class that is not there, with the nearest name. */
enum rt_err rt__need_class(struct rt_store *s, const char *class_name, struct rt_error *err);
/* Whether the judges of two lists sit at the same positions. */
bool rt__same_positions(const struct rt_judges *a, const struct rt_judges *b);

/* What the office adds to the entries of a class, or takes off. */
enum rt_err rt__load_penalties(struct rt_store *s, const char *class_name, struct rt_penalties *out,
			       struct rt_error *err);
/* What officials decided between equal entries of a class. */
enum rt_err rt__load_decisions(struct rt_store *s, const char *class_name, struct rt_decisions *out,
			       struct rt_error *err);

/* ---- files made beside their place ----------------------------------------------------------- */

/* RT_E_STORE with errno's reason why a file cannot be made. */
enum rt_err rt__cannot_make(const char *path, struct rt_error *err);
/* An empty file beside path under a name that nobody has, with the permission bits that the
 * program's mask gives; *out is the caller's to free. */
enum rt_err rt__make_temp(char **out, const char *path, struct rt_error *err);
/* Give temp its name, never over another file.  False with errno. */
bool rt__take_name(const char *temp, const char *path);
/* Make a new name last.  The file is whole under it already, and not every file system can sync a
 * folder: a failure here is not one of the making. */
void rt__sync_folder(const char *path);

#endif
