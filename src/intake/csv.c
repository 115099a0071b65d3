/* Lines as rows of CSV fields.  libcsv takes the fields apart; it knows no positions, trims
 * spaces and stops at its first fault, so it gets one line at a time, a space test that never
 * holds, and a fresh start after a fault.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "internal.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define BOM	    "\xEF\xBB\xBF"
#define FIELD_BLOCK (16 * 1024) /* libcsv's buffer grows by this; its own 128 are slow */

static int no_space(unsigned char c)
{
	(void)c;
	return 0;
}

static bool is_white(char c)
{
	return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* ---- opening --------------------------------------------------------------------------------- */

static void tell_open_trouble(struct rt__csv *c, int error)
{
	if (error == ENOENT || error == ENOTDIR)
		rt_fault(c->faults, c->path, 0, NULL, "there is no such file: a CSV file");
	else if (error == EACCES || error == EPERM)
		rt_fault(c->faults, c->path, 0, NULL,
			 "no permission to read it: a CSV file that you may read");
	else if (error == EISDIR)
		rt_fault(c->faults, c->path, 0, NULL, "this is a folder: a CSV file");
	else
		rt_fault(c->faults, c->path, 0, NULL, "it cannot be opened (%s): a CSV file",
			 strerror(error));
}

/* Whether the file begins as a zip file does, which a workbook is. */
static bool is_workbook(int fd)
{
	char first[4];

	return pread(fd, first, sizeof first, 0) == (ssize_t)sizeof first &&
	       memcmp(first, "PK\x03\x04", sizeof first) == 0;
}

enum rt_err rt__csv_open(struct rt__csv *c, const struct rt_source *from, bool *is_open,
			 struct rt_faults *faults, struct rt_error *err)
{
	bool standard = strcmp(from->path, "-") == 0;
	enum rt_err rc;
	struct stat about;

	memset(c, 0, sizeof *c);
	c->path = standard ? "standard input" : from->path;
	c->faults = faults;
	c->notes = from->notes;
	*is_open = false;
	if (csv_init(&c->parser, CSV_STRICT) != 0)
		return rt_fail_nomem(err);
	csv_set_space_func(&c->parser, no_space);
	csv_set_blk_size(&c->parser, FIELD_BLOCK);
	c->lines.fd = standard ? fcntl(STDIN_FILENO, F_DUPFD_CLOEXEC, 3)
			       : open(from->path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
	if (c->lines.fd < 0) {
		tell_open_trouble(c, errno);
		return RT_OK;
	}
	if (fstat(c->lines.fd, &about) == 0 && S_ISDIR(about.st_mode)) {
		tell_open_trouble(c, EISDIR);
		return RT_OK;
	}
	if (!standard && is_workbook(c->lines.fd)) {
		close(c->lines.fd);
		c->sheet = true;
		rc = rt__workbook_lines(&c->lines.fd, from, faults, err);
		*is_open = rc == RT_OK && c->lines.fd >= 0;
		return rc;
	}
	if (from->sheet)
		rt_fault(c->faults, c->path, 0, NULL,
			 "a CSV file has no sheet %s: a workbook, or no sheet named",
			 rt_show(from->sheet).text);
	*is_open = !from->sheet;
	return RT_OK;
}

void rt__csv_close(struct rt__csv *c)
{
	if (!c->path)
		return;
	rt__lines_close(&c->lines);
	csv_free(&c->parser);
	free(c->text);
	c->text = NULL;
	free(c->line);
	c->line = NULL;
	c->path = NULL;
}

/* ---- libcsv's callbacks ---------------------------------------------------------------------- */

static bool make_room(struct rt__csv *c, size_t more)
{
	size_t cap = c->text_cap ? c->text_cap : 512;
	char *wide;

	while (cap - c->text_n < more)
		cap *= 2;
	if (cap == c->text_cap)
		return true;
	wide = realloc(c->text, cap);
	if (!wide)
		return false;
	c->text = wide;
	c->text_cap = cap;
	return true;
}

static void on_field(void *field, size_t n, void *data)
{
	struct rt__csv *c = data;
	const char *s = field;
	size_t i = c->row.fields;

	while (n && is_white(s[n - 1]))
		n--;
	for (; n && is_white(*s); n--)
		s++;
	if (i < RT__FIELDS_MAX || n) /* of empty columns there may be many */
		c->row.fields++;
	if (i >= RT__FIELDS_MAX)
		return;
	if (!make_room(c, n + 1)) {
		c->nomem = true;
		return;
	}
	c->at[i] = c->text_n;
	c->length[i] = n;
	if (n)
		memcpy(c->text + c->text_n, s, n);
	c->text[c->text_n + n] = '\0';
	c->text_n += n + 1;
}

static void on_row(int end, void *data)
{
	struct rt__csv *c = data;

	(void)end;
	c->whole = true;
}

/* ---- fields that cannot be text -------------------------------------------------------------- */

static const char *column_at(const struct rt__csv *c, size_t i)
{
	return i < RT__FIELDS_MAX ? c->head[i] : NULL;
}

/* What is wrong with the bytes of a field, or NULL.  Line breaks and tabs pass here. */
static const char *byte_trouble(const char *s, size_t n)
{
	switch (rt_plain_text(s, n)) {
	case RT_PLAIN:
		break;
	case RT_PLAIN_NUL:
		return "holds a NUL byte: plain text, saved as UTF-8";
	case RT_PLAIN_CONTROL:
		return "holds a control character: plain text";
	case RT_PLAIN_NOT_UTF8:
		return "is not UTF-8: save the file as UTF-8";
	}
	return NULL;
}

/* Complete the row: pointers to its fields, whose bytes are looked at. */
static void finish_row(struct rt__csv *c)
{
	size_t stored = c->row.fields < RT__FIELDS_MAX ? c->row.fields : RT__FIELDS_MAX;

	for (size_t i = 0; i < stored; i++) {
		const char *s = c->text + c->at[i];
		const char *trouble = byte_trouble(s, c->length[i]);

		c->row.field[i].s = s;
		c->row.field[i].bad = trouble != NULL;
		if (trouble)
			rt_fault(c->faults, c->path, c->row.line, column_at(c, i), "%s %s",
				 rt_show(s).text, trouble);
	}
}

/* Rows of a spreadsheet's empty lines: commas and nothing else. */
static bool is_blank(const struct rt__csv *c)
{
	if (c->row.fields > RT__FIELDS_MAX)
		return false;
	for (size_t i = 0; i < c->row.fields; i++)
		if (c->length[i])
			return false;
	return true;
}

/* ---- rows ------------------------------------------------------------------------------------ */

/* What the file's first bytes tell of another format; NULL: it may be CSV. */
static const char *other_format(const char *s, size_t n)
{
	if (n >= 4 && memcmp(s, "PK\x03\x04", 4) == 0)
		return "a workbook is not read from here: name its file";
	if (n >= 4 && memcmp(s, "\xD0\xCF\x11\xE0", 4) == 0)
		return "this workbook is encrypted, or of an old kind (.xls): save it without a "
		       "password as .xlsx or .ods";
	if (memchr(s, '\0', n))
		return "this is no text: a CSV file, or a workbook (.xlsx, .ods)";
	return NULL;
}

static bool is_ascii(const char *s, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (s[i] & 0x80)
			return false;
	return true;
}

/* Make a line of Windows-1252 into UTF-8; false: it is none, and stays as it is. */
static bool from_windows(struct rt__csv *c, char **s, size_t *n)
{
	size_t left = *n, room = 3 * *n + 1; /* no letter of it takes more */
	char *in = *s, *out;
	iconv_t text = iconv_open("UTF-8", "WINDOWS-1252");
	bool good;

	if (room > c->line_cap) {
		free(c->line);
		c->line = malloc(room);
		c->line_cap = c->line ? room : 0;
	}
	out = c->line;
	c->nomem |= !out || text == (iconv_t)-1;
	good = !c->nomem && iconv(text, &in, &left, &out, &room) != (size_t)-1;
	if (text != (iconv_t)-1)
		iconv_close(text);
	if (!good)
		return false;
	*s = c->line;
	*n = (size_t)(out - c->line);
	(*s)[*n] = '\n';
	return true;
}

/* A line as UTF-8.  The first that is not ASCII tells what the file is written in: a stray byte in
 * a file of UTF-8 is a fault, and no letter of Windows-1252. */
static void decode(struct rt__csv *c, char **s, size_t *n)
{
	if (c->sheet || is_ascii(*s, *n))
		return;
	if (!c->marked)
		c->latin = !c->lines.wide && rt_plain_text(*s, *n) == RT_PLAIN_NOT_UTF8;
	c->marked = true;
	if (c->latin && !from_windows(c, s, n))
		c->latin = false;
}

/* The character that separates columns, by how often the header has it outside quotes. */
static char separator_of(const char *s, size_t n)
{
	static const char known[] = ",;\t";
	size_t count[sizeof known] = {0}, best = 0;
	bool quoted = false;

	for (size_t i = 0; i < n; i++) {
		const char *k = s[i] ? strchr(known, s[i]) : NULL;

		quoted ^= s[i] == '"';
		if (k && !quoted)
			count[k - known]++;
	}
	for (size_t k = 1; k < sizeof known - 1; k++)
		if (count[k] > count[best])
			best = k;
	return known[best];
}

static void find_separator(struct rt__csv *c, const char *s, size_t n)
{
	if (c->separator || strspn(s, " \t\r,;") >= n)
		return;
	c->separator = c->sheet ? ',' : separator_of(s, n);
	csv_set_delim(&c->parser, (unsigned char)c->separator);
}

/* Tell what was found out about the file, when it was read to its end. */
static void tell_found(struct rt__csv *c)
{
	const char *text = c->lines.wide ? "UTF-16" : c->latin ? "Windows-1252" : NULL;
	const char *between = c->separator == ';'    ? "semicolons"
			      : c->separator == '\t' ? "tabs"
						     : NULL;

	if (c->notes && (text || between))
		rt_report_note(c->notes, "%s was read%s%s%s%s%s.", c->path, text ? " as " : "",
			       text ? text : "", between ? " with " : "", between ? between : "",
			       between ? " between columns" : "");
	c->notes = NULL;
}

static void start_over(struct rt__csv *c)
{
	csv_fini(&c->parser, NULL, NULL, NULL);
	c->in_row = false;
}

/* Feed one line; false when nothing further can be read. */
static bool feed(struct rt__csv *c, const char *s, size_t n)
{
	if (!c->in_row) {
		c->row.line = c->lines.line;
		c->row.fields = 0;
		c->text_n = c->row_bytes = 0;
	}
	c->in_row = c->in_row || n > 0;
	c->whole = false;
	c->row_bytes += n + 1;
	if (c->row_bytes > RT__ROW_MAX) {
		rt_fault(c->faults, c->path, c->row.line, column_at(c, c->row.fields),
			 "a row of over 1 MiB begins here: is a quote opened and not closed?");
		return false;
	}
	if (csv_parse(&c->parser, s, n + 1, on_field, on_row, c) != n + 1) {
		if (csv_error(&c->parser) != CSV_EPARSE) {
			c->nomem = true;
			return false;
		}
		rt_fault(c->faults, c->path, c->row.line, column_at(c, c->row.fields),
			 "a quote in the middle of a field: the whole field in quotes, and a "
			 "quote inside it written twice");
		start_over(c);
	}
	if (c->whole)
		c->in_row = false;
	return !c->nomem;
}

/* The next line to feed; false at the end of what can be read, with *rc saying why. */
static bool next_line(struct rt__csv *c, char **s, size_t *n, enum rt_err *rc, struct rt_error *err)
{
	const char *other;

	switch (rt__lines_next(&c->lines, s, n)) {
	case RT__LINE:
		break;
	case RT__LINE_END:
		if (c->in_row)
			rt_fault(c->faults, c->path, c->row.line, column_at(c, c->row.fields),
				 "a quote is opened and not closed: a field in quotes ends with "
				 "a quote");
		return false;
	case RT__LINE_LONG:
		rt_fault(c->faults, c->path, c->lines.line + 1, NULL,
			 "a line of over 1 MiB: a CSV file, a row a line");
		return false;
	case RT__LINE_FAILED:
		if (errno == EILSEQ) {
			rt_fault(c->faults, c->path, c->lines.line + 1, NULL,
				 "this begins as UTF-16 and is none: save the file as UTF-8");
			return false;
		}
		*rc = rt_fail(err, RT_E_IO, "reading %s failed: %s", c->path, strerror(errno));
		return false;
	case RT__LINE_NOMEM:
		c->nomem = true;
		return false;
	}
	other = c->started ? NULL : other_format(*s, *n);
	if (other)
		rt_fault(c->faults, c->path, 0, NULL, "%s", other);
	if (!c->started && *n >= 3 && memcmp(*s, BOM, 3) == 0) {
		c->marked = true;
		*s += 3;
		*n -= 3;
	}
	c->started = true;
	decode(c, s, n);
	find_separator(c, *s, *n);
	return !other;
}

enum rt_err rt__csv_next(struct rt__csv *c, const struct rt__row **row, struct rt_error *err)
{
	enum rt_err rc = RT_OK;
	char *s;
	size_t n;

	*row = NULL;
	while (next_line(c, &s, &n, &rc, err) && feed(c, s, n)) {
		if (!c->whole || is_blank(c))
			continue;
		finish_row(c);
		*row = &c->row;
		return RT_OK;
	}
	tell_found(c);
	return c->nomem ? rt_fail_nomem(err) : rc;
}
