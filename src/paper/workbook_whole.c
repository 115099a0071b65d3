/* Whether a workbook came out whole.
 *
 * libxlsxwriter writes every part to a temporary file first and does not look whether that went
 * well: on a full disk it reports success for a book with parts cut off.  So the finished file
 * is read back: each part must inflate to what was packed, and end by closing its first element.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <stdlib.h>
#include <string.h>
#include <zlib.h>

#include "workbook_internal.h"

#define END_RECORD     22 /* bytes of the zip format's records, APPNOTE.TXT 4.3 */
#define CENTRAL_RECORD 46
#define LOCAL_RECORD   30
#define DEFLATED       8
#define KEPT	       256 /* bytes kept of a part's begin and end: more than a name takes */
#define CHUNK	       16384

static size_t number16(const unsigned char *p)
{
	return (size_t)p[0] | (size_t)p[1] << 8;
}

static size_t number32(const unsigned char *p)
{
	return number16(p) | number16(p + 2) << 16;
}

static bool read_at(FILE *f, size_t at, unsigned char *out, size_t n, const char *mark)
{
	return fseeko(f, (off_t)at, SEEK_SET) == 0 && fread(out, 1, n, f) == n &&
	       memcmp(out, mark, 4) == 0;
}

/* The begin and the end of a part's text. */
struct ends {
	char begin[KEPT + 1], end[KEPT + 1];
	size_t begun, ended; /* bytes in them */
	unsigned long crc;   /* of all of it */
};

static void keep(struct ends *e, const unsigned char *text, size_t n)
{
	size_t more = n < KEPT - e->begun ? n : KEPT - e->begun;
	size_t last = n < KEPT ? n : KEPT, stay = KEPT - last;

	e->crc = crc32(e->crc, text, (uInt)n);
	memcpy(e->begin + e->begun, text, more);
	e->begun += more;
	if (stay > e->ended)
		stay = e->ended;
	memmove(e->end, e->end + e->ended - stay, stay);
	memcpy(e->end + stay, text + n - last, last);
	e->ended = stay + last;
}

/* Whether the first element is closed at the end. */
static bool is_closed(struct ends *e)
{
	char closing[KEPT + 4], *name = e->begin;

	e->begin[e->begun] = '\0';
	while (e->ended > 0 && (unsigned char)e->end[e->ended - 1] <= ' ')
		e->ended--;
	e->end[e->ended] = '\0';
	while ((name = strchr(name, '<')) && name[1] == '?')
		name++;
	if (!name)
		return false;
	snprintf(closing, sizeof closing, "</%.*s>", (int)strcspn(name + 1, " />\r\n"), name + 1);
	return e->ended >= strlen(closing) &&
	       strcmp(e->end + e->ended - strlen(closing), closing) == 0;
}

/* Inflate the n bytes from here on. */
static bool inflate_part(FILE *f, size_t n, struct ends *e)
{
	static const z_stream fresh;
	unsigned char in[CHUNK], out[CHUNK];
	z_stream z = fresh;
	int rc = inflateInit2(&z, -MAX_WBITS);

	if (rc != Z_OK)
		return false;
	while (rc == Z_OK) {
		if (z.avail_in == 0) {
			z.avail_in = (uInt)fread(in, 1, n < CHUNK ? n : CHUNK, f);
			z.next_in = in;
			n -= z.avail_in;
		}
		z.next_out = out;
		z.avail_out = CHUNK;
		rc = inflate(&z, Z_NO_FLUSH);
		keep(e, out, CHUNK - z.avail_out);
	}
	inflateEnd(&z);
	return rc == Z_STREAM_END;
}

/* The part that a record of the central directory tells about. */
static bool part_is_whole(FILE *f, const unsigned char *central)
{
	size_t at = number32(central + 42);
	unsigned char local[LOCAL_RECORD];
	struct ends e = {.begun = 0};

	if (number16(central + 10) != DEFLATED || !read_at(f, at, local, sizeof local, "PK\3\4"))
		return false;
	at += LOCAL_RECORD + number16(local + 26) + number16(local + 28);
	return fseeko(f, (off_t)at, SEEK_SET) == 0 && inflate_part(f, number32(central + 20), &e) &&
	       e.crc == number32(central + 16) && is_closed(&e);
}

static bool parts_are_whole(FILE *f)
{
	unsigned char end[END_RECORD], central[CENTRAL_RECORD];
	size_t at, parts;

	if (fseeko(f, -END_RECORD, SEEK_END) != 0 ||
	    !read_at(f, (size_t)ftello(f), end, sizeof end, "PK\5\6"))
		return false;
	parts = number16(end + 10);
	at = number32(end + 16);
	for (size_t i = 0; i < parts; i++) {
		if (!read_at(f, at, central, sizeof central, "PK\1\2") ||
		    !part_is_whole(f, central))
			return false;
		at += CENTRAL_RECORD + number16(central + 28) + number16(central + 30) +
		      number16(central + 32);
	}
	return parts > 0;
}

bool rt__workbook_is_whole(const char *path)
{
	FILE *f = fopen(path, "rb");
	bool whole = f && parts_are_whole(f);

	if (f)
		fclose(f);
	return whole;
}
