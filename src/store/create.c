/* A new show file: made beside its place, synced, and named only when it is whole.
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
#include <sys/stat.h>
#include <unistd.h>

#define TRIES 1000 /* names left behind by programs that were killed are passed over */

enum rt_err rt__cannot_make(const char *path, struct rt_error *err)
{
	const char *slash = strrchr(path, '/');

	if (errno == ENOENT && slash)
		return rt_fail(err, RT_E_STORE, "%s cannot be made: there is no folder %.*s", path,
			       (int)(slash - path), path);
	return rt_fail(err, RT_E_STORE, "%s cannot be made: %s", path, strerror(errno));
}

static enum rt_err there_already(const char *path, struct rt_error *err)
{
	return rt_fail(err, RT_E_INPUT, "%s is there already: choose another name", path);
}

enum rt_err rt__make_temp(char **out, const char *path, struct rt_error *err)
{
	size_t size = strlen(path) + 64;
	char *temp = malloc(size);

	*out = temp;
	if (!temp)
		return rt_fail_nomem(err);
	for (int i = 0; i < TRIES; i++) {
		int fd;

		snprintf(temp, size, "%s.new-%ld-%d", path, (long)getpid(), i);
		fd = open(temp, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
		if (fd >= 0) {
			close(fd);
			return RT_OK;
		}
		if (errno != EEXIST)
			break;
	}
	free(temp);
	*out = NULL;
	return rt__cannot_make(path, err);
}

static enum rt_err fill(const char *temp, const char *path, const struct rt_show *show,
			const struct rt_shipped *shipped, struct rt_error *err)
{
	struct rt_store *s;
	enum rt_err rc = rt__handle_open(&s, temp, path, true, err);

	if (rc)
		return rc;
	rc = rt__run(s, RT__SQL_SYNCHRONOUS_FULL, RT__NO_CELLS, err);
	if (!rc)
		rc = rt_store_begin(s, err);
	if (!rc)
		rc = rt__run_group(s, "schema", err);
	if (!rc)
		rc = rt__run(s, RT__SQL_SHOW_INSERT,
			     RT__CELLS(rt__text(show->title), rt__text(show->day),
				       rt__text(show->created)),
			     err);
	if (!rc)
		rc = rt_store_rows_put(s, shipped, err);
	if (!rc)
		rc = rt_store_commit(s, err);
	rt__handle_close(s); /* undoes what is not committed */
	return rc;
}

bool rt__take_name(const char *temp, const char *path)
{
	if (link(temp, path) == 0) {
		unlink(temp);
		return true;
	}
#ifdef RENAME_NOREPLACE
	/* A stick may know no second name for a file. */
	if (errno == EPERM || errno == EOPNOTSUPP || errno == ENOSYS)
		return renameat2(AT_FDCWD, temp, AT_FDCWD, path, RENAME_NOREPLACE) == 0;
#endif
	return false;
}

void rt__sync_folder(const char *path)
{
	int fd = rt__open_folder(path);

	if (fd < 0)
		return;
	(void)fsync(fd);
	close(fd);
}

enum rt_err rt_store_create(const char *path, const struct rt_show *show,
			    const struct rt_shipped *shipped, struct rt_error *err)
{
	struct stat st;
	char *temp;
	enum rt_err rc;

	if (lstat(path, &st) == 0)
		return there_already(path, err);
	rc = rt__no_log_beside(path, err);
	if (!rc)
		rc = rt__make_temp(&temp, path, err);
	if (rc)
		return rc;
	rc = fill(temp, path, show, shipped, err);
	if (!rc && !rt__take_name(temp, path))
		rc = errno == EEXIST ? there_already(path, err) : rt__cannot_make(path, err);
	if (rc)
		unlink(temp);
	else
		rt__sync_folder(path);
	free(temp);
	return rc;
}
