/* A copy of the show, taken while others work on it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "internal.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define ALL_PAGES (-1)

/* ---- what is there already ------------------------------------------------------------------- */

/* Whether the file is a copy of this show: made at the same moment, under the same title. */
static bool is_copy(struct rt_store *s, const char *path)
{
	struct rt_show own = {0}, other = {0};
	struct rt_store *copy = NULL;
	bool same = rt_store_open(&copy, path, false, NULL) == RT_OK &&
		    rt_store_show(copy, &other, NULL) == RT_OK &&
		    rt_store_show(s, &own, NULL) == RT_OK && strcmp(own.title, other.title) == 0 &&
		    strcmp(own.day, other.day) == 0 && strcmp(own.created, other.created) == 0;

	rt_show_free(&own);
	rt_show_free(&other);
	rt_store_close(copy);
	return same;
}

static bool is_same_file(const char *a, const struct stat *there)
{
	struct stat st;

	return stat(a, &st) == 0 && st.st_dev == there->st_dev && st.st_ino == there->st_ino;
}

static enum rt_err may_write(struct rt_store *s, const char *path, bool replace,
			     struct rt_error *err)
{
	struct stat there;

	if (stat(path, &there) != 0)
		return RT_OK;
	if (is_same_file(s->path, &there))
		return rt_fail(err, RT_E_INPUT, "%s is the show itself: choose another name", path);
	if (!S_ISREG(there.st_mode))
		return rt_fail(err, RT_E_INPUT, "%s is no file: choose another name", path);
	if (replace || is_copy(s, path))
		return RT_OK;
	return rt_fail(err, RT_E_INPUT,
		       "%s is there already and is no copy of this show: choose another name, or "
		       "give --replace",
		       path);
}

/* ---- the copy -------------------------------------------------------------------------------- */

/* All pages in one step: one moment of the show, while others go on writing to its log. */
static enum rt_err copy_pages(struct rt_store *from, struct rt_store *to, struct rt_error *err)
{
	sqlite3_backup *backup = sqlite3_backup_init(to->db, "main", from->db, "main");
	int code;

	if (!backup)
		return rt__sqlite_fail(to, sqlite3_extended_errcode(to->db), err);
	code = sqlite3_backup_step(backup, ALL_PAGES);
	sqlite3_backup_finish(backup);
	return code == SQLITE_DONE ? RT_OK : rt__sqlite_fail(from, code, err);
}

/* Copy into a file that is there and empty, laid to rest. */
static enum rt_err fill(struct rt_store *s, const char *temp, const char *path,
			struct rt_error *err)
{
	struct rt_store *to;
	enum rt_err rc = rt__handle_open(&to, temp, path, true, err);

	if (rc)
		return rc;
	rc = rt__run(to, RT__SQL_SYNCHRONOUS_FULL, RT__NO_CELLS, err);
	if (!rc)
		rc = copy_pages(s, to, err);
	/* the copy says what the show said: that it has a log beside it */
	if (!rc)
		rc = rt__run(to, RT__SQL_JOURNAL_DELETE, RT__NO_CELLS, err);
	rt__handle_close(to);
	return rc;
}

/* Take away what a database leaves beside itself. */
static void remove_temp(const char *temp)
{
	static const char *const beside[] = {"", "-journal", "-wal", "-shm"};
	char name[4096];

	for (size_t i = 0; i < sizeof beside / sizeof *beside; i++)
		if (snprintf(name, sizeof name, "%s%s", temp, beside[i]) < (int)sizeof name)
			unlink(name);
}

enum rt_err rt_store_backup(struct rt_store *s, const char *path, bool replace,
			    struct rt_error *err)
{
	char *temp = NULL;
	enum rt_err rc = may_write(s, path, replace, err);

	if (!rc)
		rc = rt__make_temp(&temp, path, err);
	if (rc)
		return rc;
	rc = fill(s, temp, path, err);
	if (!rc && rename(temp, path) != 0)
		rc = rt_fail(err, RT_E_STORE, "%s cannot be made: %s", path, strerror(errno));
	if (rc)
		remove_temp(temp);
	else
		rt__sync_folder(path);
	free(temp);
	return rc;
}
