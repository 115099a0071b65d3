/* A small invented show for the checks of the store, in a folder of its own.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STORE_SHOW_H
#define STORE_SHOW_H

#include <check.h>

#include <ringtrue/store.h>

/* A new empty folder, and the path of a show file to be made in it. */
struct place {
	char folder[128];
	char path[160];
};

struct place place_make(void);
/* Remove the folder with all that is in it. */
void place_remove(const struct place *p);
/* How many files stand in it. */
size_t place_files(const struct place *p);

/* All bytes of a file; free() them.  Never NULL. */
unsigned char *file_bytes(const char *path, size_t *n);
void file_write(const char *path, const void *bytes, size_t n);
/* true when the file is used with a log just now (byte 18 of its header). */
bool file_has_log(const char *path);

/* ck_assert that a call went well; its error goes to `why`. */
extern struct rt_error why;
#define DONE(call) ck_assert_msg((call) == RT_OK, "%s: %s", #call, why.text)

extern const struct rt_show invented_show;
/* Two kinds, two gaits, three levels, two rules, a turnout; static, not to be freed. */
struct rt_shipped invented_shipped(void);
extern struct rt_tests invented_tests;	   /* T1 (driven-percent), T2 (no rule) */
extern struct rt_items invented_items;	   /* three items of T1, one of T2 */
extern struct rt_entries invented_entries; /* 7, 12 and 9 in class 1; 7 in class 2 */
/* Class 1 (T1, judges C B) and class 2 (T2, judges B E*, no rule); rt_classes_free. */
struct rt_classes invented_classes(void);

/* A show file with the shipped rows only. */
void make_show(const struct place *p);
/* The same with ring Oak, tests, classes and entries, open for writing. */
struct rt_store *open_filled_show(const struct place *p);
/* A call that writes, in a transaction of its own. */
#define KEEP(s, call)                                                                              \
	do {                                                                                       \
		DONE(rt_store_begin(s, &why));                                                     \
		DONE(call);                                                                        \
		DONE(rt_store_commit(s, &why));                                                    \
	} while (0)
/* Add a ring of the kind driven-40x80 in the transaction under way, or in one of its own. */
enum rt_err add_ring(struct rt_store *s, const char *name, struct rt_error *err);
enum rt_err keep_ring(struct rt_store *s, const char *name, struct rt_error *err);
/* In a child: add a ring to the file, commit it or not, and be killed with the file open. */
void add_and_die(const char *path, const char *name, bool commit);
size_t count_rings(const char *path);
/* The book of a class, read in one moment unless a transaction is under way. */
enum rt_err book_of_class(struct rt_store *s, const char *class_name, struct rt_class_book *book,
			  struct rt_error *err);
/* Run SQL on the file from outside, as another program would; returns SQLite's result. */
int run_outside(const char *path, const char *sql);

#endif
