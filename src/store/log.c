/* The log beside a show file: taken up, laid down, and told from one that is not the file's own.
 *
 * While it is written the file has a log beside it (SQLite's WAL, the name of the file with -wal
 * behind it), so that readers and a writer do not wait for each other: from the first transaction
 * to write until the last program closes the file.  At rest it has none (journal mode DELETE): it
 * can be copied as it is and opened where nothing can be written.
 *
 * Byte 18 of the file's header says whether there is a log.  SQLite itself makes a log after it
 * has written that byte and removes it before, so a program that is killed in between would leave
 * what looks like a file without its log.  Here the log is made, empty, before the header says
 * that there is one, and it is removed, empty and synced, after the header says that there is
 * none.  So header and log tell how a file came to be as it is:
 *
 *   header says  beside it       what happened                          what is done
 *   no log       none            a clean end, or a copy of such a file  go on
 *   no log       an empty log    killed while the log was taken up or   go on: all is in the file
 *                                laid down
 *   no log       a log           the file was put over one that was     refuse: SQLite would play
 *                                not closed (killed, or still open)     the log into the file
 *   a log        a log, empty    desks at work, or killed               go on: SQLite takes what
 *                or not                                                 was kept from the log
 *   a log        none            a copy without its log of a file that  refuse: what was kept last
 *                                was open, or the log was taken away    may be missing
 *
 * Three cases cannot be told.  A copy without its log that is put beside another's log looks like
 * desks at work.  Another program of SQLite's that is the last to close a file removes the log and
 * leaves the header: that is refused though all is there.  And the header is changed under a
 * rollback journal (-journal), for some milliseconds: a file that is put over one that was killed
 * just then is given the other's header.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "internal.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define LOCK_TRIES   100
#define LOCK_WAIT_MS 5

/* ---- one at a time --------------------------------------------------------------------------- */

int rt__lock_folder(const char *path)
{
	int fd = rt__open_folder(path);

	for (int i = 0; fd >= 0 && i < LOCK_TRIES && flock(fd, LOCK_EX | LOCK_NB) != 0; i++) {
		if (errno != EWOULDBLOCK)
			break;
		sqlite3_sleep(LOCK_WAIT_MS);
	}
	return fd;
}

void rt__unlock_folder(int fd)
{
	if (fd >= 0)
		close(fd);
}

/* ---- whose log it is ------------------------------------------------------------------------- */

static const char *file_name(const struct rt_store *s)
{
	return sqlite3_db_filename(s->db, "main");
}

static const char *log_name(const struct rt_store *s)
{
	return sqlite3_filename_wal(file_name(s));
}

bool rt__has_log(const struct rt_store *s)
{
	unsigned char header[RT__HEADER_SIZE];

	return rt__read_header(s, header) &&
	       header[RT__HEADER_WRITE_VERSION] == RT__HEADER_WITH_LOG;
}

enum rt__log rt__log_look(const struct rt_store *s)
{
	struct stat st;
	bool there = stat(log_name(s), &st) == 0;

	if (rt__has_log(s))
		return there ? RT__LOG_OWN : RT__LOG_MISSING;
	return there && st.st_size > 0 ? RT__LOG_FOREIGN : RT__LOG_OWN;
}

enum rt_err rt__log_check(const struct rt_store *s, struct rt_error *err)
{
	enum rt__log log = rt__log_look(s);

	if (log != RT__LOG_OWN) {
		/* another program may be taking the log up or laying it down just now */
		int lock = rt__lock_folder(file_name(s));

		log = rt__log_look(s);
		rt__unlock_folder(lock);
	}
	switch (log) {
	case RT__LOG_OWN:
		break;
	case RT__LOG_FOREIGN:
		return rt_fail(err, RT_E_STORE,
			       "%s-wal is the log of another file: %s was put over a show that had "
			       "not been closed. Nothing was changed. Copy it to NEW, then "
			       "`ringtrue --show %s restore NEW` puts that in its place",
			       s->path, s->path, s->path);
	case RT__LOG_MISSING:
		return rt_fail(
			err, RT_E_STORE,
			"%s was copied while the show was open, without its log %s-wal: what "
			"was kept last may be missing. Copy both, or use `ringtrue backup`; "
			"if this is all there is, `ringtrue --show NEW restore %s --anyway`",
			s->path, s->path, s->path);
	}
	return RT_OK;
}

enum rt_err rt__no_log_beside(const char *path, struct rt_error *err)
{
	char name[RT__PATH_SIZE];
	struct stat st;

	if (snprintf(name, sizeof name, "%s-wal", path) >= (int)sizeof name ||
	    stat(name, &st) != 0 || st.st_size == 0)
		return RT_OK;
	return rt_fail(
		err, RT_E_INPUT,
		"%s is there, the log of a show that was not closed: choose another name, or "
		"move the log away",
		name);
}

/* ---- taken up and laid down ------------------------------------------------------------------ */

/* A program takes the log up, or lays it down, alone: of two that close at the same moment,
 * each would take the other for one that is still at work, and the log would stay.  The lock is
 * on the folder, as a file of its own would be left behind.  Where it cannot be had (a file
 * system without locks, somebody else who keeps it) the work goes on without. */
enum rt_err rt__log_take_up(struct rt_store *s, struct rt_error *err)
{
	static const enum rt__sql step[] = {RT__SQL_SYNCHRONOUS_FULL, RT__SQL_CACHE_SIZE,
					    RT__SQL_JOURNAL_SIZE_LIMIT, RT__SQL_JOURNAL_WAL};
	int lock = rt__lock_folder(file_name(s));
	/* SQLite gives an empty log the permissions of the file */
	int log = open(log_name(s), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
	enum rt_err rc = RT_OK;

	if (log >= 0)
		close(log); /* if it cannot be made, the steps tell why */
	for (size_t i = 0; i < sizeof step / sizeof *step && !rc; i++)
		rc = rt__run(s, step[i], RT__NO_CELLS, err);
	rt__unlock_folder(lock);
	return rc;
}

/* The log is in the file: that it is empty must last before the header says so. */
static void sync_log(const struct rt_store *s)
{
	int log = open(log_name(s), O_RDWR | O_CLOEXEC);

	if (log < 0)
		return;
	(void)fsync(log);
	close(log);
}

/* Remove the empty log, and the index that SQLite keeps of it, while nobody else reads the file. */
static void remove_log(struct rt_store *s)
{
	char name[RT__PATH_SIZE];

	if (rt__run(s, RT__SQL_BEGIN_ALONE, RT__NO_CELLS, NULL) != RT_OK)
		return;
	if (!rt__has_log(s) && rt__log_look(s) == RT__LOG_OWN) {
		unlink(log_name(s));
		if (snprintf(name, sizeof name, "%s-shm", file_name(s)) < (int)sizeof name)
			unlink(name);
	}
	(void)rt__run(s, RT__SQL_ROLLBACK, RT__NO_CELLS, NULL);
}

enum rt_err rt__log_lay_down(struct rt_store *s, struct rt_error *err)
{
	enum rt_err rc;

	sqlite3_busy_timeout(s->db, 0);
	if (!rt__has_log(s))
		return RT_OK;
	rc = rt__run(s, RT__SQL_JOURNAL_SIZE_LIMIT, RT__NO_CELLS, err);
	if (rc)
		return rc;
	sync_log(s);
	rc = rt__run(s, RT__SQL_JOURNAL_DELETE, RT__NO_CELLS, err);
	if (!rc && rt__has_log(s)) /* SQLite may just say that the log stays */
		rc = rt__sqlite_fail(s, SQLITE_BUSY, err);
	if (!rc)
		remove_log(s);
	return rc;
}

enum rt_err rt__fold(const char *opened, const char *path, struct rt_error *err)
{
	struct rt_store *s;
	enum rt_err rc = rt__handle_open(&s, opened, path, true, err);

	if (!rc && !sqlite3_db_readonly(s->db, "main"))
		rc = rt__log_lay_down(s, err);
	rt__handle_close(s);
	return rc;
}
