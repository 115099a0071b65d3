/* A copy put in the place of the show, and the show that was there kept beside it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#include "internal.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/sendfile.h>
#include <sys/stat.h>
#include <unistd.h>

#define KEPT_MOST 1000 /* names tried for the show that was there */
#define AT_ONCE	  (1 << 20)

/* Where SQLite locks a file (its page "File Locking And Concurrency"). */
#define LOCKS_AT 0x40000000
#define LOCKS	 512

/* ---- the copy -------------------------------------------------------------------------------- */

/* The bytes of a file as they are; what was in its log is not among them. */
static enum rt_err copy_bytes(const char *from, const char *to, struct rt_error *err)
{
	int in = open(from, O_RDONLY | O_CLOEXEC), out = open(to, O_WRONLY | O_CLOEXEC);
	ssize_t n = -1;
	enum rt_err rc = RT_OK;

	if (in >= 0 && out >= 0)
		while ((n = sendfile(out, in, NULL, AT_ONCE)) > 0)
			;
	if (n < 0)
		rc = rt_fail(err, RT_E_STORE, "%s cannot be copied: %s", from, strerror(errno));
	if (in >= 0)
		close(in);
	if (out >= 0)
		close(out);
	return rc;
}

static enum rt_err copy_backup(const char *backup, const char *temp, bool anyway,
			       struct rt_error *err)
{
	struct rt_store *from;
	enum rt_err rc = rt_store_open(&from, backup, false, err);

	if (!rc) {
		rc = rt_store_copy(from, temp, err);
		rt_store_close(from);
	} else if (rc == RT_E_STORE && anyway) {
		rc = copy_bytes(backup, temp, err);
		if (!rc) /* it was copied without its log, and needs none from now on */
			rc = rt__fold(temp, backup, err);
	}
	return rc;
}

/* RT_E_INPUT unless the copy is whole. */
static enum rt_err check_whole(const char *temp, const char *backup, struct rt_error *err)
{
	struct rt_file_faults faults = {0};
	struct rt_file_counts counts;
	struct rt_store *s = NULL;
	enum rt_err rc = rt_store_open(&s, temp, false, err);

	if (!rc)
		rc = rt_store_verify(s, &faults, &counts, err);
	if (!rc && faults.n)
		rc = rt_fail(err, RT_E_INPUT,
			     "%s has %zu %s (`ringtrue --show %s verify` lists them): take another "
			     "copy, or give --anyway",
			     backup, faults.n, faults.n == 1 ? "fault" : "faults", backup);
	RT_LIST_FREE(&faults);
	rt_store_close(s);
	return rc;
}

/* ---- the show that is there ------------------------------------------------------------------ */

/* Whether a program has locks of SQLite's on a file that this one has not read yet. */
static bool is_in_use(const char *path)
{
	struct flock lock = {
		.l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = LOCKS_AT, .l_len = LOCKS};
	int fd = open(path, O_RDWR | O_CLOEXEC);
	bool in_use = fd >= 0 && fcntl(fd, F_GETLK, &lock) == 0 && lock.l_type != F_UNLCK;

	if (fd >= 0)
		close(fd);
	return in_use;
}

/* Hold the show that is there, so that nobody else works in it: its log, where it is its own, is
 * folded in.  A damaged file is held as it is. */
static enum rt_err hold(struct rt_store **out, const char *path, struct rt_error *err)
{
	enum rt_err rc = rt__handle_open(out, path, path, true, err);

	if (!rc)
		rc = rt__check_header(*out, err);
	if (rc)
		return rc;
	if (is_in_use(path))
		rc = RT_E_BUSY;
	else if (rt__log_look(*out) == RT__LOG_OWN)
		rc = rt__log_lay_down(*out, err);
	else
		return RT_OK;
	if (!rc)
		rc = rt__run(*out, RT__SQL_BEGIN_ALONE, RT__NO_CELLS, err);
	if (rc == RT_E_BUSY)
		return rt_fail(err, RT_E_BUSY,
			       "another program has %s open: end it first; nothing was changed",
			       path);
	return rc == RT_E_STORE || rc == RT_E_FORMAT ? RT_OK : rc;
}

/* A second name for the show that is there. */
static enum rt_err keep(const char *path, char kept[RT__PATH_SIZE], struct rt_error *err)
{
	for (int i = 1; i <= KEPT_MOST; i++) {
		if (snprintf(kept, RT__PATH_SIZE, "%s.before-%d", path, i) >= RT__PATH_SIZE)
			break;
		if (link(path, kept) == 0)
			return RT_OK;
		/* a stick may know no second name for a file */
		if (errno == EPERM && access(kept, F_OK) != 0 && rename(path, kept) == 0)
			return RT_OK;
		if (errno != EEXIST && errno != EPERM)
			break;
	}
	return rt__cannot_make(kept, err);
}

/* The log of the show that is there, where it could not be folded in, goes with it. */
static void keep_log(const char *path, const char *kept)
{
	char from[RT__PATH_SIZE], to[RT__PATH_SIZE];

	if (snprintf(from, sizeof from, "%s-wal", path) < (int)sizeof from &&
	    snprintf(to, sizeof to, "%s-wal", kept) < (int)sizeof to)
		(void)rename(from, to);
}

/* Give the copy the name of the show that is there, which is kept under another. */
static enum rt_err replace(const char *temp, const char *path, char kept[RT__PATH_SIZE],
			   struct rt_error *err)
{
	struct rt_store *old = NULL;
	enum rt_err rc = hold(&old, path, err);

	if (!rc)
		rc = keep(path, kept, err);
	if (!rc) {
		keep_log(path, kept);
		if (rename(temp, path) != 0)
			rc = rt__cannot_make(path, err);
	}
	rt__handle_close(old);
	return rc;
}

/* Remove the file that the copy was made in, and what a database leaves beside itself. */
static void remove_temp(const char *temp)
{
	static const char *const beside[] = {"", "-journal", "-wal", "-shm"};
	char name[RT__PATH_SIZE];

	for (size_t i = 0; i < sizeof beside / sizeof *beside; i++)
		if (snprintf(name, sizeof name, "%s%s", temp, beside[i]) < (int)sizeof name)
			unlink(name);
}

static enum rt_err restore(const char *backup, const char *path, bool there, bool anyway,
			   char kept[RT__PATH_SIZE], struct rt_error *err)
{
	char *temp;
	int lock;
	enum rt_err rc = rt__make_temp(&temp, path, err);

	if (rc)
		return rc;
	rc = copy_backup(backup, temp, anyway, err);
	if (!rc && !anyway)
		rc = check_whole(temp, backup, err);
	if (!rc) {
		lock = rt__lock_folder(path);
		if (there)
			rc = replace(temp, path, kept, err);
		else if (!rt__take_name(temp, path))
			rc = rt__cannot_make(path, err);
		rt__unlock_folder(lock);
	}
	if (!rc)
		rt__sync_folder(path);
	remove_temp(temp);
	free(temp);
	return rc;
}

enum rt_err rt_store_restore(const char *path, const char *backup, bool anyway, char **kept,
			     struct rt_error *err)
{
	char name[RT__PATH_SIZE] = "";
	struct stat copy, show;
	/* a symbolic link stays one */
	char *real = lstat(path, &show) == 0 && S_ISLNK(show.st_mode) ? realpath(path, NULL) : NULL;
	const char *target = real ? real : path;
	bool there = stat(target, &show) == 0;
	enum rt_err rc = RT_OK;

	*kept = NULL;
	if (there && stat(backup, &copy) == 0 && show.st_dev == copy.st_dev &&
	    show.st_ino == copy.st_ino)
		rc = rt_fail(err, RT_E_INPUT, "%s is the show itself: give a copy of it", backup);
	else if (!there)
		rc = rt__no_log_beside(target, err);
	if (!rc)
		rc = restore(backup, target, there, anyway, name, err);
	if (!rc && *name && !(*kept = strdup(name)))
		rc = rt_fail_nomem(err);
	free(real);
	return rc;
}
