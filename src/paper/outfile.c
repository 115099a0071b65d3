/* A file written beside its target that takes its name only when it is whole.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "internal.h"

#define TRIES 1000 /* names left behind by programs that were killed are passed over */

struct rt_outfile {
	char *target; /* through symbolic links, when it is there already */
	char *folder;
	char *temp;
	int fd;	     /* of temp; a library that opens temp by name writes the same file */
	bool made;   /* temp exists */
	bool exists; /* the target does; then its permission bits are kept */
	mode_t mode;
};

void rt_outfile_discard(struct rt_outfile *f)
{
	if (!f)
		return;
	if (f->fd >= 0)
		close(f->fd);
	if (f->made)
		unlink(f->temp);
	free(f->target);
	free(f->folder);
	free(f->temp);
	free(f);
}

/* Look at what stands at path: nothing, or a file that may be written. */
static enum rt_err look(struct rt_outfile *f, const char *path, struct rt_error *err)
{
	struct stat st;

	if (!*path)
		return rt_fail(err, RT_E_IO, "a file without a name cannot be written");
	if (stat(path, &st) != 0) {
		if (errno != ENOENT)
			return rt_fail(err, RT_E_IO, "%s cannot be written: %s", path,
				       strerror(errno));
		f->target = strdup(path);
		return f->target ? RT_OK : rt_fail_nomem(err);
	}
	if (S_ISDIR(st.st_mode))
		return rt_fail(err, RT_E_IO, "%s is a folder: the name of a file is needed", path);
	if (!S_ISREG(st.st_mode))
		return rt_fail(err, RT_E_IO, "%s is not an ordinary file", path);
	if (access(path, W_OK) != 0)
		return rt_fail(err, RT_E_IO, "%s cannot be written: %s", path, strerror(errno));
	f->exists = true;
	f->mode = st.st_mode & 07777;
	f->target = realpath(path, NULL);
	return f->target ? RT_OK
			 : rt_fail(err, RT_E_IO, "%s cannot be found: %s", path, strerror(errno));
}

/* The folder a path stands in, ending in a slash. */
static char *folder_of(const char *path)
{
	const char *slash = strrchr(path, '/');

	return slash ? strndup(path, (size_t)(slash - path) + 1) : strdup("./");
}

/* Make the temporary file under a name that nobody has.  A new file gets the permission bits
 * that the program's mask gives, as mkstemp would not; one that takes the place of another is
 * never open to more people than that. */
static enum rt_err make_temp(struct rt_outfile *f, const char *path, struct rt_error *err)
{
	size_t size = strlen(f->folder) + 64;
	mode_t mode = f->exists ? f->mode & 0777 : 0666;

	f->temp = malloc(size);
	if (!f->temp)
		return rt_fail_nomem(err);
	for (int i = 0; i < TRIES; i++) {
		snprintf(f->temp, size, "%s.ringtrue-%ld-%d", f->folder, (long)getpid(), i);
		f->fd = open(f->temp, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, mode);
		if (f->fd >= 0) {
			f->made = true;
			return RT_OK;
		}
		if (errno != EEXIST)
			break;
	}
	if (errno == ENOENT)
		return rt_fail(err, RT_E_IO, "%s cannot be written: there is no folder %s", path,
			       f->folder);
	return rt_fail(err, RT_E_IO, "%s cannot be written: %s", path, strerror(errno));
}

enum rt_err rt_outfile_open(struct rt_outfile **out, const char *path, struct rt_error *err)
{
	struct rt_outfile *f = calloc(1, sizeof *f);
	enum rt_err rc;

	*out = NULL;
	if (!f)
		return rt_fail_nomem(err);
	f->fd = -1;
	rc = look(f, path, err);
	if (!rc) {
		f->folder = folder_of(f->target);
		rc = f->folder ? make_temp(f, path, err) : rt_fail_nomem(err);
	}
	if (rc) {
		rt_outfile_discard(f);
		return rc;
	}
	*out = f;
	return RT_OK;
}

const char *rt_outfile_path(const struct rt_outfile *f)
{
	return f->temp;
}

/* Make the new name last.  The file is whole under it already, and not every file system can
 * sync a folder: a failure here is not one of the writing. */
static void sync_folder(const char *folder)
{
	int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

	if (fd < 0)
		return;
	(void)fsync(fd);
	close(fd);
}

enum rt_err rt_outfile_commit(struct rt_outfile *f, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	if ((f->exists && fchmod(f->fd, f->mode) != 0) || fsync(f->fd) != 0 ||
	    rename(f->temp, f->target) != 0)
		rc = rt_fail(err, RT_E_IO, "%s cannot be written: %s", f->target, strerror(errno));
	if (!rc) {
		f->made = false;
		sync_folder(f->folder);
	}
	rt_outfile_discard(f);
	return rc;
}
