/* Whether a workbook came out whole.
 *
 * libxlsxwriter writes every part to a temporary file first and does not look whether that went
 * well: on a full disk it reports success for a book with parts cut off, or with cells missing from
 * their middle.  So the finished file is read back: each part must inflate to what was packed, be
 * well-formed XML whose lists are as long as they say, and each sheet must have all the cells and
 * all the text that were put into it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <expat.h>
#include <stdlib.h>
#include <stdlib.h>
#include <string.h>
#include <unzip.h>

#include "workbook_internal.h"

#define DEPTH	 32 /* of elements; the format's are not half as deep */
#define NOT_TOLD (-1L)
#define CHUNK	 16384

/* A part while it is read. */
struct part {
	struct rt__tally found;
	long told[DEPTH], children[DEPTH]; /* of each element that is open */
	int depth;
	bool string; /* the cell's value is text */
	bool text;   /* what comes now belongs to a cell */
	bool bad;
};

static const char *attribute(const char **attributes, const char *name)
{
	for (; *attributes; attributes += 2)
		if (strcmp(attributes[0], name) == 0)
			return attributes[1];
	return NULL;
}

static void XMLCALL open_element(void *data, const char *name, const char **attributes)
{
	struct part *p = data;
	const char *told = attribute(attributes, "count"), *type = attribute(attributes, "t");

	if (p->depth == DEPTH) {
		p->bad = true;
		return;
	}
	if (p->depth > 0)
		p->children[p->depth - 1]++;
	p->told[p->depth] = told ? strtol(told, NULL, 10) : NOT_TOLD;
	p->children[p->depth++] = 0;
	if (strcmp(name, "c") == 0) {
		p->found.cells++;
		p->string = type && strcmp(type, "str") == 0;
	} else if (strcmp(name, "mergeCell") == 0) {
		p->found.merged++;
	}
	p->text = strcmp(name, "t") == 0 || strcmp(name, "f") == 0 ||
		  (p->string && strcmp(name, "v") == 0);
}

static void XMLCALL close_element(void *data, const char *name)
{
	struct part *p = data;

	(void)name;
	p->text = false;
	if (p->bad)
		return;
	p->depth--;
	if (p->told[p->depth] != NOT_TOLD && p->told[p->depth] != p->children[p->depth])
		p->bad = true;
}

static void XMLCALL read_text(void *data, const char *s, int n)
{
	struct part *p = data;

	if (p->text)
		p->found.text += rt__tally_text(s, (size_t)n);
}

/* Read the part that is open in the archive. */
static bool read_part(unzFile archive, XML_Parser parser, struct part *p)
{
	char bytes[CHUNK];
	int n;

	XML_SetUserData(parser, p);
	XML_SetElementHandler(parser, open_element, close_element);
	XML_SetCharacterDataHandler(parser, read_text);
	while ((n = unzReadCurrentFile(archive, bytes, sizeof bytes)) > 0)
		if (XML_Parse(parser, bytes, n, 0) != XML_STATUS_OK)
			return false;
	return n == 0 && XML_Parse(parser, bytes, 0, 1) == XML_STATUS_OK && !p->bad;
}

/* Check the part that the archive stands at; a sheet by what was put into it. */
static bool check_part(unzFile archive, const struct rt__tallies *put, size_t *sheets)
{
	struct part p = {.depth = 0};
	XML_Parser parser = XML_ParserCreate(NULL);
	static const char sheet[] = "xl/worksheets/sheet";
	char name[64] = "";
	size_t number;
	bool good = parser &&
		    unzGetCurrentFileInfo64(archive, NULL, name, sizeof name, NULL, 0, NULL, 0) ==
			    UNZ_OK &&
		    unzOpenCurrentFile(archive) == UNZ_OK;

	if (good) {
		good = read_part(archive, parser, &p);
		/* which compares the checksum too */
		good = unzCloseCurrentFile(archive) == UNZ_OK && good;
	}
	XML_ParserFree(parser);
	if (!good || strncmp(name, sheet, sizeof sheet - 1) != 0)
		return good;
	++*sheets;
	number = strtoul(name + sizeof sheet - 1, NULL, 10);
	return number > 0 && number <= put->n && p.found.cells == put->at[number - 1].cells &&
	       p.found.merged == put->at[number - 1].merged &&
	       p.found.text == put->at[number - 1].text;
}

bool rt__workbook_is_whole(const char *path, const struct rt__tallies *put)
{
	unzFile archive = unzOpen64(path);
	size_t sheets = 0;
	int rc;

	if (!archive)
		return false;
	rc = unzGoToFirstFile(archive);
	while (rc == UNZ_OK)
		rc = check_part(archive, put, &sheets) ? unzGoToNextFile(archive) : UNZ_ERRNO;
	unzClose(archive);
	return rc == UNZ_END_OF_LIST_OF_FILE && sheets == put->n;
}
