/* What kind a file is, told by its first and last bytes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "enum_words.h"

#include <string.h>

RT__ENUM_WORDS(file_kind, "kind", RT_FILE_KINDS)

static bool begins(const unsigned char *s, size_t n, const char *with)
{
	size_t length = strlen(with);

	return n >= length && memcmp(s, with, length) == 0;
}

static bool holds(const unsigned char *s, size_t n, const char *word)
{
	size_t length = strlen(word);

	for (size_t i = 0; i + length <= n; i++)
		if (memcmp(s + i, word, length) == 0)
			return true;
	return false;
}

/* The first bytes of every SQLite file (the file format page of its documentation, section "The
 * Database Header"); at 68 the number that says whose it is. */
static enum rt_file_kind database_kind(const unsigned char *s, size_t n)
{
	const unsigned char *id = s + 68;

	if (n < 72)
		return RT_FILE_DATABASE;
	return ((uint32_t)id[0] << 24 | (uint32_t)id[1] << 16 | (uint32_t)id[2] << 8 | id[3]) ==
			       RT_SHOW_FILE_ID
		       ? RT_FILE_SHOW
		       : RT_FILE_DATABASE;
}

/* A workbook is a zip archive whose parts are named so: the first one's name stands 30 bytes from
 * the begin (APPNOTE.TXT 4.3.7), all names in the directory at the end. */
static enum rt_file_kind archive_kind(const unsigned char *first, size_t n,
				      const unsigned char *last, size_t m)
{
	static const char *const part[] = {"[Content_Types].xml", "_rels/", "docProps/", "xl/"};
	bool office = false;

	for (size_t i = 0; n > 30 && i < sizeof part / sizeof *part; i++)
		office = office || begins(first + 30, n - 30, part[i]);
	return office && holds(last, m, "xl/workbook.xml") ? RT_FILE_WORKBOOK : RT_FILE_ARCHIVE;
}

/* Cut at n bytes, the last character may be half. */
static bool is_text(const char *s, size_t n)
{
	for (size_t cut = 0; cut < 4 && cut < n; cut++)
		if (rt_plain_text(s, n - cut) == RT_PLAIN)
			return true;
	return false;
}

enum rt_file_kind rt_file_kind(const void *first, size_t n, const void *last, size_t m)
{
	const unsigned char *s = first;

	if (n == 0)
		return RT_FILE_EMPTY;
	if (begins(s, n, "%PDF-"))
		return RT_FILE_PDF;
	if (begins(s, n, "SQLite format 3"))
		return database_kind(s, n);
	if (begins(s, n, "PK\3\4"))
		return archive_kind(s, n, last, m);
	if (begins(s, n, "\xEF\xBB\xBF")) {
		s += 3;
		n -= 3;
	}
	if (begins(s, n, "<svg") || (begins(s, n, "<?xml") && holds(s, n, "<svg")))
		return RT_FILE_SVG;
	return is_text((const char *)s, n) ? RT_FILE_TEXT : RT_FILE_OTHER;
}
