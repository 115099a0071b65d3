/* A small invented show for the checks of the store.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "store_show.h"

#include <dirent.h>
#include <math.h>
#include <signal.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define LIST(array)                                                                                \
	{                                                                                          \
		.at = (array), .n = sizeof(array) / sizeof *(array)                                \
	}

struct rt_error why;

/* ---- folders and files ----------------------------------------------------------------------- */

struct place place_make(void)
{
	const char *temp = getenv("TMPDIR");
	struct place p;

	snprintf(p.folder, sizeof p.folder, "%s/ringtrue-store-XXXXXX", temp ? temp : "/tmp");
	ck_assert_ptr_nonnull(mkdtemp(p.folder));
	ck_assert_int_eq(chmod(p.folder, 0755), 0);
	snprintf(p.path, sizeof p.path, "%s/show.ring", p.folder);
	return p;
}

/* Call `each` (NULL: none) on every file of the folder, and count them. */
static size_t walk(const struct place *p, int (*each)(const char *path))
{
	DIR *dir = opendir(p->folder);
	struct dirent *entry;
	size_t n = 0;

	ck_assert_ptr_nonnull(dir);
	while ((entry = readdir(dir))) {
		char path[512];

		if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0)
			continue;
		n++;
		snprintf(path, sizeof path, "%s/%s", p->folder, entry->d_name);
		if (each)
			ck_assert_int_eq(each(path), 0);
	}
	closedir(dir);
	return n;
}

size_t place_files(const struct place *p)
{
	return walk(p, NULL);
}

void place_remove(const struct place *p)
{
	walk(p, remove);
	ck_assert_int_eq(rmdir(p->folder), 0);
}

unsigned char *file_bytes(const char *path, size_t *n)
{
	FILE *f = fopen(path, "rb");
	struct stat st;
	unsigned char *bytes;

	ck_assert_ptr_nonnull(f);
	ck_assert_int_eq(fstat(fileno(f), &st), 0);
	*n = (size_t)st.st_size;
	bytes = malloc(*n + 1);
	ck_assert_ptr_nonnull(bytes);
	ck_assert_uint_eq(fread(bytes, 1, *n, f), *n);
	fclose(f);
	return bytes;
}

void file_write(const char *path, const void *bytes, size_t n)
{
	FILE *f = fopen(path, "wb");

	ck_assert_ptr_nonnull(f);
	ck_assert_uint_eq(fwrite(bytes, 1, n, f), n);
	ck_assert_int_eq(fclose(f), 0);
}

bool file_has_log(const char *path)
{
	size_t n;
	unsigned char *bytes = file_bytes(path, &n);
	bool log;

	ck_assert_uint_gt(n, 18);
	log = bytes[18] == 2;
	free(bytes);
	return log;
}

int run_outside(const char *path, const char *sql)
{
	sqlite3 *db;
	int code = sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL);

	if (code == SQLITE_OK)
		code = sqlite3_exec(db, sql, NULL, NULL, NULL);
	sqlite3_close(db);
	return code;
}

/* ---- the show -------------------------------------------------------------------------------- */

const struct rt_show invented_show = {
	.title = "Höst på Lövåsen", .day = "2026-09-12", .created = "2026-08-01 09:30:00"};

struct rt_shipped invented_shipped(void)
{
	static struct rt_letter letters[] = {
		{"A", RT_SIDE_A, 20}, {"K", RT_LEFT, 10}, {"F", RT_RIGHT, 10},
		{"X", RT_CENTRE, 40}, {"H", RT_LEFT, 70}, {"M", RT_RIGHT, 70},
		{"C", RT_SIDE_C, 20},
	};
	static struct rt_letter ends[] = {{"A", RT_SIDE_A, 8.625}, {"C", RT_SIDE_C, 8.625}};
	static struct rt_ring_kind kinds[] = {
		{"driven-40x80", RT_DRIVEN, 40, 80, LIST(letters)},
		{"paddock", RT_RIDDEN, 17.25, 35.5, LIST(ends)},
	};
	static struct rt_gait gaits[] = {
		{"trot", 3.61, 2.73, "measured one fine day"},
		{"walk", 1.73, 1.6, "measured one foggy day"},
	};
	static struct rt_level levels[] = {
		{"training", RT_DRIVEN, 20, 142.2, "trot"},
		{"training", RT_RIDDEN, 10, 165, "trot"},
		{"advanced", RT_DRIVEN, 15, 142.2, "walk"},
	};
	static struct rt_rule rules[] = {
		{.name = "driven-percent",
		 .judge_decimals = -1,
		 .percent_decimals = 3,
		 .score_decimals = 3,
		 .error = {{true, false, 500}, {true, false, 1000}, {true, true, 0}},
		 .error_steps = 3,
		 .tie = {{.by = RT_TIE_GENERAL}, {.by = RT_TIE_MEDIAN, .places = 3}},
		 .tie_steps = 2,
		 .source = "a rulebook",
		 .apart_judges = RT_APART_JUDGES},
		{.name = "driven-combined",
		 .scale = RT_PENALTY_SCALE,
		 .wins = RT_LOWEST_WINS,
		 .base = 160,
		 .judge_decimals = 2,
		 .percent_decimals = 2,
		 .score_decimals = 2,
		 .taken = RT_TAKEN_SCORE,
		 .error = {{true, false, 500}, {true, true, 0}},
		 .error_steps = 2,
		 .source = "another rulebook",
		 .apart_judges = RT_APART_JUDGES},
	};
	static struct rt_turnout_part parts[] = {
		{"gig", "horse", 0, 1.35, 0.6, NAN, NAN, 1},
		{"gig", "gig", -0.95, 2.55, 1.4, 1.3, 0.9, 0},
	};

	return (struct rt_shipped){.kinds = LIST(kinds),
				   .levels = LIST(levels),
				   .gaits = LIST(gaits),
				   .rules = LIST(rules),
				   .turnouts = LIST(parts)};
}

static struct rt_test tests_at[] = {
	{.name = "T1",
	 .title = "First turns",
	 .kind = "driven-40x80",
	 .level = "training",
	 .rule = "driven-percent",
	 .multiplier_x1000000 = 640000,
	 .file = "tests.csv",
	 .line = 2},
	{.name = "T2", .title = "Second turns", .file = "tests.csv", .line = 3},
};
struct rt_tests invented_tests = LIST(tests_at);

static struct rt_item items_at[] = {
	{0, "T1", "1", "A X", "Enter and halt", "X halt", "trot", 1000, RT_GROUP_MOVEMENT, NULL, 5,
	 "movements.csv", 2},
	{0, "T1", "2", "", "Circle left", NULL, NULL, 1500, RT_GROUP_MOVEMENT, NULL, 10,
	 "movements.csv", 3},
	{0, "T2", "1", "C", "Salute", NULL, "walk", 1000, RT_GROUP_MOVEMENT, "C B", 5,
	 "movements.csv", 4},
	{0, "T1", "general-1", "", "Paces", NULL, NULL, 2000, RT_GROUP_GENERAL, NULL, 5,
	 "movements.csv", 5},
};
struct rt_items invented_items = LIST(items_at);

static struct rt_entry entries_at[] = {
	{.class_name = "1",
	 .number = 7,
	 .driver = "Åsa Björk",
	 .horses = "Flinga; Frost",
	 .height_cm = 132.08,
	 .turnout = "gig",
	 .carriage = "the club's gig",
	 .groom = "Bo Ek",
	 .club = "Lövåsens RK",
	 .division = "pair",
	 .file = "entries.csv",
	 .line = 2},
	{.class_name = "1",
	 .number = 12,
	 .driver = "Émile Noir",
	 .horses = "Orage",
	 .height_cm = NAN,
	 .hors_concours = true,
	 .file = "entries.csv",
	 .line = 3},
	{.class_name = "2",
	 .number = 7,
	 .driver = "Åsa Björk",
	 .horses = "Frost",
	 .height_cm = NAN,
	 .file = "entries.csv",
	 .line = 4},
	{.class_name = "1",
	 .number = 9,
	 .driver = "Cay Dahl",
	 .horses = "Kvast",
	 .height_cm = NAN,
	 .file = "entries.csv",
	 .line = 5},
};
struct rt_entries invented_entries = LIST(entries_at);

struct rt_classes invented_classes(void)
{
	struct rt_classes classes = {0};
	struct rt_class *c = RT_LIST_ADD(&classes);

	ck_assert_ptr_nonnull(c);
	*c = (struct rt_class){.name = "1",
			       .title = "Open",
			       .test = "T1",
			       .level = "advanced",
			       .ring = "Oak",
			       .division = "single",
			       .file = "classes.csv",
			       .line = 2};
	DONE(rt_judges_read(&c->judges, &classes.text, "C B", &why));
	DONE(rt_judges_name(&c->judges, &classes.text, "Una Älv; ", &why));
	c = RT_LIST_ADD(&classes);
	ck_assert_ptr_nonnull(c);
	*c = (struct rt_class){
		.name = "2", .title = "Novice", .test = "T2", .file = "classes.csv", .line = 3};
	DONE(rt_judges_read(&c->judges, &classes.text, "B E*", &why));
	return classes;
}

void make_show(const struct place *p)
{
	const struct rt_shipped shipped = invented_shipped();

	DONE(rt_store_create(p->path, &invented_show, &shipped, &why));
}

struct rt_store *open_filled_show(const struct place *p)
{
	const struct rt_ring oak = {"Oak", "driven-40x80"};
	struct rt_classes classes = invented_classes();
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};
	struct rt_store *s;

	make_show(p);
	DONE(rt_store_open(&s, p->path, true, &why));
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_ring_add(s, &oak, &why));
	DONE(rt_store_tests_put(s, &invented_tests, &invented_items, &count, &faults, &why));
	DONE(rt_store_classes_put(s, &classes, &count, &faults, &why));
	DONE(rt_store_entries_put(s, &invented_entries, &count, &faults, &why));
	DONE(rt_faults_result(&faults, &why));
	DONE(rt_store_commit(s, &why));
	ck_assert_uint_eq(count.added, 8);
	ck_assert_uint_eq(count.same, 0);
	rt_classes_free(&classes);
	return s;
}

enum rt_err add_ring(struct rt_store *s, const char *name, struct rt_error *err)
{
	const struct rt_ring ring = {name, "driven-40x80"};

	return rt_store_ring_add(s, &ring, err);
}

enum rt_err keep_ring(struct rt_store *s, const char *name, struct rt_error *err)
{
	enum rt_err rc = rt_store_begin(s, err);

	if (!rc)
		rc = add_ring(s, name, err);
	return rc ? rc : rt_store_commit(s, err);
}

void add_and_die(const char *path, const char *name, bool commit)
{
	pid_t child = fork();
	int status;

	ck_assert_int_ge(child, 0);
	if (child == 0) {
		struct rt_store *s;

		if (rt_store_open(&s, path, true, NULL) || rt_store_begin(s, NULL) ||
		    add_ring(s, name, NULL) || (commit && rt_store_commit(s, NULL)))
			_exit(1);
		raise(SIGKILL);
	}
	ck_assert_int_eq(waitpid(child, &status, 0), child);
	ck_assert(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
}

size_t count_rings(const char *path)
{
	struct rt_rings rings = {0};
	struct rt_store *s;
	size_t n;

	DONE(rt_store_open(&s, path, false, &why));
	DONE(rt_store_rings(s, &rings, &why));
	n = rings.n;
	RT_LIST_FREE(&rings);
	rt_store_close(s);
	return n;
}

enum rt_err book_of_class(struct rt_store *s, const char *class_name, struct rt_class_book *book,
			  struct rt_error *err)
{
	bool own = rt_store_begin_reading(s, NULL) == RT_OK;
	enum rt_err rc = rt_store_class_book(s, class_name, book, err);

	if (own)
		rt_store_rollback(s);
	return rc;
}
