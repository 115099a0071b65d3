/* A copy of the show, taken while others work on it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "internal.h"

#include <string.h>

#define ALL_PAGES (-1)

bool rt_store_is_copy(struct rt_store *s, const char *path)
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

enum rt_err rt_store_copy(struct rt_store *s, const char *path, struct rt_error *err)
{
	struct rt_store *to;
	enum rt_err rc = rt__handle_open(&to, path, path, true, err);

	if (rc)
		return rc;
	rc = rt__run(to, RT__SQL_SYNCHRONOUS_FULL, RT__NO_CELLS, err);
	if (!rc)
		rc = copy_pages(s, to, err);
	if (!rc) /* the copy says what the show said: that it has a log beside it */
		rc = rt__log_lay_down(to, err);
	rt__handle_close(to);
	return rc;
}
