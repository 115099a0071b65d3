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

#define TRIES 1000  /* names left behind by programs that were killed are passed over */
#define FIRST 4096  /* bytes that a file's kind is told by */
#define LAST  65536 /* and those at its end */

/* What a show file may have beside itself. */
static const char *const beside[] = {"", "-wal", "-shm", "-journal"};

#define BESIDE (sizeof beside / sizeof *beside)

struct rt_outfile {
	char *name;   /* as messages call it */
	char *target; /* through symbolic links; NULL: standard output */
	char *folder;
	char *temp;
	int fd;	     /* of temp; a library that opens temp by name writes the same file */
	bool made;   /* temp exists */
	bool exists; /* the target does; then its permission bits are kept */
	bool empty;  /* and has nothing in it */
	mode_t mode;
};

/* path with its ending, "-wal"; NULL when memory is out. */
static char *with_ending(const char *path, const char *ending)
{
	size_t size = strlen(path) + strlen(ending) + 1;
	char *s = malloc(size);

	if (s)
		snprintf(s, size, "%s%s", path, ending);
	return s;
}

void rt_outfile_discard(struct rt_outfile *f)
{
	if (!f)
		return;
	if (f->fd >= 0)
		close(f->fd);
	for (size_t i = 0; f->made && i < BESIDE; i++) { /* a show is written by a database */
		char *left = with_ending(f->temp, beside[i]);

		if (left)
			unlink(left);
		free(left);
	}
	free(f->name);
	free(f->target);
	free(f->folder);
	free(f->temp);
	free(f);
}

/* ---- what may be replaced -------------------------------------------------------------------- */

/* The folder a path stands in, ending in a slash. */
static char *folder_of(const char *path)
{
	const char *slash = strrchr(path, '/');

	return slash ? strndup(path, (size_t)(slash - path) + 1) : strdup("./");
}

/* Whether the target is called `name`, whatever way leads to its folder; nothing is there yet. */
static bool would_be(const char *target, const char *name)
{
	const char *base = strrchr(target, '/'), *other = strrchr(name, '/');
	char *folder = folder_of(target), *resolved = folder ? realpath(folder, NULL) : NULL;
	size_t n = (size_t)(other - name);
	bool same = resolved && strlen(resolved) == n && memcmp(resolved, name, n) == 0 &&
		    strcmp(base ? base + 1 : target, other + 1) == 0;

	free(resolved);
	free(folder);
	return same;
}

/* The show that is open, and what stands beside it, are never written over, under whatever name.
 * st is NULL where nothing is there yet.  What the show is told from is looked at only: to open
 * and close it would drop the locks that this program holds on it. */
static enum rt_err check_show(const char *target, const struct stat *st, const char *show,
			      struct rt_error *err)
{
	char *real = show ? realpath(show, NULL) : NULL;
	enum rt_err rc = RT_OK;

	for (size_t i = 0; real && !rc && i < BESIDE; i++) {
		char *name = with_ending(real, beside[i]);
		struct stat other;
		bool same = name && (st ? stat(name, &other) == 0 && other.st_dev == st->st_dev &&
						     other.st_ino == st->st_ino
					: would_be(target, name));

		free(name);
		if (!name)
			rc = rt_fail_nomem(err);
		else if (same)
			rc = rt_fail(err, RT_E_INPUT, "%s %s: choose another name", target,
				     i == 0 ? "is the show itself" : "belongs to the show");
	}
	free(real);
	return rc;
}

/* A show file is replaced at rest only: its log would be read into the new one. */
static enum rt_err check_rest(const char *target, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 1; !rc && i < BESIDE; i++) {
		char *log = with_ending(target, beside[i]);
		struct stat st;

		if (!log)
			rc = rt_fail_nomem(err);
		else if (stat(log, &st) == 0)
			rc = rt_fail(err, RT_E_INPUT,
				     "%s is there, so somebody has %s open or its last program was "
				     "killed: choose another name",
				     log, target);
		free(log);
	}
	return rc;
}

/* What is there is of the kind that takes its place, or empty. */
static enum rt_err check_kind(struct rt_outfile *f, off_t size, enum rt_file_kind kind,
			      struct rt_error *err)
{
	unsigned char first[FIRST], last[LAST];
	off_t from = size > LAST ? size - LAST : 0;
	int fd = open(f->target, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
	ssize_t n = fd < 0 ? -1 : pread(fd, first, sizeof first, 0);
	ssize_t m = n < 0 ? -1 : pread(fd, last, sizeof last, from);
	enum rt_err rc = RT_OK;
	enum rt_file_kind there;

	if (m < 0)
		rc = rt_fail(err, RT_E_IO, "%s cannot be read, to see what it is: %s", f->name,
			     strerror(errno));
	if (fd >= 0)
		close(fd);
	if (rc)
		return rc;
	there = rt_file_kind(first, (size_t)n, last, (size_t)m);
	f->empty = there == RT_FILE_EMPTY;
	if (f->empty || there == kind)
		return RT_OK;
	return rt_fail(err, RT_E_INPUT,
		       "%s is %s: %s takes the place of %s or an empty file, of nothing else",
		       f->name, rt_file_kind_words(there), rt_file_kind_words(kind),
		       rt_file_kind_words(kind));
}

/* Look at what stands at path: nothing, or a file that may be replaced. */
static enum rt_err look(struct rt_outfile *f, const char *path, enum rt_file_kind kind,
			const char *show, struct rt_error *err)
{
	struct stat st;
	enum rt_err rc;

	if (!*path)
		return rt_fail(err, RT_E_INPUT, "a file without a name cannot be written");
	if (stat(path, &st) != 0) {
		if (errno != ENOENT)
			return rt_fail(err, RT_E_IO, "%s cannot be written: %s", path,
				       strerror(errno));
		if (lstat(path, &st) == 0)
			return rt_fail(err, RT_E_INPUT,
				       "%s is a symbolic link that leads nowhere: name the file",
				       path);
		f->target = strdup(path);
		if (!f->target)
			return rt_fail_nomem(err);
		rc = check_show(f->target, NULL, show, err);
	} else {
		if (S_ISDIR(st.st_mode))
			return rt_fail(err, RT_E_INPUT,
				       "%s is a folder: the name of a file is needed", path);
		if (!S_ISREG(st.st_mode))
			return rt_fail(err, RT_E_INPUT,
				       "%s is not an ordinary file: the name of one is needed",
				       path);
		if (access(path, W_OK) != 0)
			return rt_fail(err, RT_E_IO, "%s cannot be written: %s", path,
				       strerror(errno));
		f->exists = true;
		f->mode = st.st_mode & 07777;
		f->target = realpath(path, NULL);
		if (!f->target)
			return rt_fail(err, RT_E_IO, "%s cannot be found: %s", path,
				       strerror(errno));
		rc = check_show(path, &st, show, err);
		if (!rc)
			rc = check_kind(f, st.st_size, kind, err);
	}
	if (!rc && kind == RT_FILE_SHOW)
		rc = check_rest(f->target, err);
	return rc;
}

/* Standard output is written from a file in the temporary folder, once that is whole. */
static enum rt_err look_out(struct rt_outfile *f, enum rt_file_kind kind, struct rt_error *err)
{
	const char *folder = getenv("TMPDIR");

	if (kind == RT_FILE_SHOW)
		return rt_fail(err, RT_E_INPUT,
			       "a show file cannot be written to standard output: the name of a "
			       "file is needed");
	if (kind != RT_FILE_SVG && isatty(STDOUT_FILENO))
		return rt_fail(err, RT_E_INPUT,
			       "%s is nothing for a terminal: send standard output to a file or a "
			       "program",
			       rt_file_kind_words(kind));
	f->folder = with_ending(folder && *folder ? folder : "/tmp", "/");
	return f->folder ? RT_OK : rt_fail_nomem(err);
}

/* ---- writing beside -------------------------------------------------------------------------- */

/* Make the temporary file under a name that nobody has.  A new file gets the permission bits
 * that the program's mask gives, as mkstemp would not; one that takes the place of another is
 * never open to more people than that. */
static enum rt_err make_temp(struct rt_outfile *f, const char *path, struct rt_error *err)
{
	size_t size = strlen(f->folder) + 64;
	mode_t mode = f->exists ? f->mode & 0777 : f->target ? 0666 : 0600;

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
		return rt_fail(err, RT_E_IO, "%s cannot be written: there is no folder %.*s", path,
			       (int)strlen(f->folder) - 1, f->folder);
	return rt_fail(err, RT_E_IO, "%s cannot be written: %s", path, strerror(errno));
}

enum rt_err rt_outfile_open(struct rt_outfile **out, const char *path, enum rt_file_kind kind,
			    const char *show, struct rt_error *err)
{
	struct rt_outfile *f = calloc(1, sizeof *f);
	bool to_output = strcmp(path, "-") == 0;
	enum rt_err rc = RT_OK;

	*out = NULL;
	if (!f)
		return rt_fail_nomem(err);
	f->fd = -1;
	f->name = strdup(to_output ? "standard output" : path);
	if (!f->name)
		rc = rt_fail_nomem(err);
	else if (to_output)
		rc = look_out(f, kind, err);
	else
		rc = look(f, path, kind, show, err);
	if (!rc && !f->folder) {
		f->folder = folder_of(f->target);
		rc = f->folder ? RT_OK : rt_fail_nomem(err);
	}
	if (!rc)
		rc = make_temp(f, f->name, err);
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

const char *rt_outfile_name(const struct rt_outfile *f)
{
	return f->name;
}

const char *rt_outfile_replaces(const struct rt_outfile *f)
{
	return f->exists && !f->empty ? f->target : NULL;
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

/* Copy what was written to standard output. */
static bool send(struct rt_outfile *f)
{
	char bytes[16384];
	ssize_t n;

	if (lseek(f->fd, 0, SEEK_SET) < 0)
		return false;
	while ((n = read(f->fd, bytes, sizeof bytes)) > 0)
		for (ssize_t sent = 0, now; sent < n; sent += now) {
			now = write(STDOUT_FILENO, bytes + sent, (size_t)(n - sent));
			if (now < 0 && errno != EINTR)
				return false;
			if (now < 0)
				now = 0;
		}
	return n == 0;
}

enum rt_err rt_outfile_commit(struct rt_outfile *f, struct rt_error *err)
{
	bool done = f->target ? (!f->exists || fchmod(f->fd, f->mode) == 0) && fsync(f->fd) == 0 &&
					rename(f->temp, f->target) == 0
			      : send(f);
	enum rt_err rc = RT_OK;

	if (!done)
		rc = rt_fail(err, RT_E_IO, "%s cannot be written: %s", f->name, strerror(errno));
	else if (f->target) {
		f->made = false;
		sync_folder(f->folder);
	}
	rt_outfile_discard(f);
	return rc;
}
