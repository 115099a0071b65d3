/* A part of a workbook as elements and text, inside limits, and its cells as lines of CSV.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "sheet_xml.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define CHUNK	   16384
#define DEPTH_MOST 64
#define PART_MOST  ((uint64_t)256 << 20)
#define RATIO_MOST 200 /* of a part that was packed, beyond 1 MiB */
#define RATIO_FROM ((uint64_t)1 << 20)
#define CELLS_MOST 5000000
#define DAYS_MOST  2958466 /* the end of the year 9999 */
#define SPACE_END  '|'

/* ---- parts ----------------------------------------------------------------------------------- */

void rt__stop(struct rt__book *b, const char *trouble)
{
	if (!b->trouble)
		b->trouble = trouble;
	if (b->parser)
		XML_StopParser(b->parser, XML_FALSE);
}

const char *rt__attribute(const char **attributes, const char *space, const char *name)
{
	for (; *attributes; attributes += 2) {
		const char *end = strrchr(*attributes, SPACE_END);

		if (strcmp(end ? end + 1 : *attributes, name) == 0 &&
		    (!space || strstr(*attributes, space)))
			return attributes[1];
	}
	return NULL;
}

void rt__text_add(struct rt__book *b, struct rt__text *text, const char *s, size_t n)
{
	size_t cap = text->cap ? text->cap : 256;
	char *wide;

	while (cap - text->n < n + 1)
		cap *= 2;
	if (cap != text->cap) {
		wide = realloc(text->s, cap);
		if (!wide) {
			b->nomem = true;
			return;
		}
		text->s = wide;
		text->cap = cap;
	}
	memcpy(text->s + text->n, s, n);
	text->n += n;
	text->s[text->n] = '\0';
}

const char *rt__text_of(const struct rt__text *text)
{
	return text->n ? text->s : "";
}

struct reading {
	struct rt__book *b;
	const struct rt__part *part;
};

static void XMLCALL on_open(void *data, const char *name, const char **attributes)
{
	const struct reading *r = data;
	const char *end = strrchr(name, SPACE_END);

	if (++r->b->depth > DEPTH_MOST)
		rt__stop(r->b, "its elements lie too deep in each other");
	else
		r->part->open(r->b, name, end ? end + 1 : name, attributes);
}

static void XMLCALL on_close(void *data, const char *name)
{
	const struct reading *r = data;
	const char *end = strrchr(name, SPACE_END);

	r->b->depth--;
	if (r->part->close)
		r->part->close(r->b, end ? end + 1 : name);
	if (r->b->nomem || r->b->failed)
		XML_StopParser(r->b->parser, XML_FALSE);
}

static void XMLCALL on_text(void *data, const char *s, int n)
{
	const struct reading *r = data;

	if (r->b->keep_text)
		rt__text_add(r->b, &r->b->text, s, (size_t)n);
}

static void XMLCALL on_doctype(void *data, const char *name, const char *system, const char *known,
			       int internal)
{
	const struct reading *r = data;

	(void)name, (void)system, (void)known, (void)internal;
	rt__stop(r->b, "it declares a type of document of its own");
}

/* Feed the open part to the parser. */
static void feed(struct rt__book *b, uint64_t packed)
{
	char bytes[CHUNK];
	uint64_t read = 0;
	int n;

	while (!b->trouble && (n = unzReadCurrentFile(b->zip, bytes, sizeof bytes)) != 0) {
		read += n > 0 ? (uint64_t)n : 0;
		if (n < 0)
			rt__stop(b, "it is damaged");
		else if (read > PART_MOST)
			rt__stop(b, "a part of it is larger than 256 MiB");
		else if (read > RATIO_FROM && read / RATIO_MOST > packed)
			rt__stop(b, "a part of it was packed more than 200 to 1");
		else if (XML_Parse(b->parser, bytes, n, 0) != XML_STATUS_OK)
			break;
	}
	if (b->nomem || b->failed || b->trouble)
		return;
	if (XML_Parse(b->parser, bytes, 0, 1) != XML_STATUS_OK) {
		if (XML_GetErrorCode(b->parser) == XML_ERROR_NO_MEMORY)
			b->nomem = true;
		else
			rt__stop(b, "a part of it is no XML");
	}
}

bool rt__part_read(struct rt__book *b, const char *name, const struct rt__part *part, void *self)
{
	struct reading r = {b, part};
	unz_file_info64 about;

	if (b->trouble || unzLocateFile(b->zip, name, 1) != UNZ_OK)
		return false;
	if (unzGetCurrentFileInfo64(b->zip, &about, NULL, 0, NULL, 0, NULL, 0) != UNZ_OK ||
	    unzOpenCurrentFile(b->zip) != UNZ_OK) {
		rt__stop(b, about.flag & 1 ? "it is encrypted: save it without a password"
					   : "it is damaged");
		return true;
	}
	b->parser = XML_ParserCreateNS(NULL, SPACE_END);
	b->depth = 0;
	b->keep_text = false;
	b->self = self;
	if (b->parser) {
		XML_SetUserData(b->parser, &r);
		XML_SetElementHandler(b->parser, on_open, on_close);
		XML_SetCharacterDataHandler(b->parser, on_text);
		XML_SetStartDoctypeDeclHandler(b->parser, on_doctype);
		feed(b, about.compressed_size);
		XML_ParserFree(b->parser);
	}
	b->nomem |= !b->parser;
	b->parser = NULL;
	if (unzCloseCurrentFile(b->zip) == UNZ_CRCERROR)
		rt__stop(b, "it is damaged");
	return true;
}

/* ---- cells as lines -------------------------------------------------------------------------- */

void rt__put_cell(struct rt__book *b, size_t column, const char *s)
{
	static const char commas[] = ",,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,";

	if (!s[strspn(s, " \t\r\n")] || column >= RT__SHEET_COLUMNS ||
	    column < b->line_columns + (b->line_cells > 0))
		return;
	while (b->line_columns < column) {
		size_t n = column - b->line_columns, most = sizeof commas - 1;

		n = n < most ? n : most;
		rt__text_add(b, &b->line, commas, n);
		b->line_columns += n;
	}
	rt__text_add(b, &b->line, "\"", 1);
	for (; *s; s++) {
		char c = (unsigned char)*s < ' ' ? ' ' : *s; /* a line of a cell ends no row */

		rt__text_add(b, &b->line, &c, 1);
		if (c == '"')
			rt__text_add(b, &b->line, &c, 1);
	}
	rt__text_add(b, &b->line, "\"", 1);
	b->line_cells++;
}

void rt__end_row(struct rt__book *b, long row, long times)
{
	for (; b->line.n && times > 0 && !b->trouble && !b->failed; times--, row++) {
		b->cells += b->line_cells;
		if (b->cells > CELLS_MOST)
			rt__stop(b, "it has more than 5,000,000 cells");
		else if (row > RT__SHEET_ROWS || row <= b->rows)
			rt__stop(b, "its rows are not in order");
		while (!b->trouble && b->rows < row - 1) {
			b->failed |= fputc('\n', b->out) == EOF;
			b->rows++;
		}
		b->failed |= fwrite(b->line.s, 1, b->line.n, b->out) != b->line.n ||
			     fputc('\n', b->out) == EOF;
		b->rows = row;
	}
	b->line.n = 0;
	b->line_columns = b->line_cells = 0;
}

void rt__cell_fault(struct rt__book *b, long row, size_t column, const char *text)
{
	char name[RT__CELL_SIZE], letters[8];
	size_t n = sizeof letters - 1;

	letters[n] = '\0';
	for (size_t at = column + 1; at && n; at = (at - 1) / 26)
		letters[--n] = (char)('A' + (at - 1) % 26);
	snprintf(name, sizeof name, "%s%ld", letters + n, row);
	rt_fault(b->faults, b->from->path, row, name, "%s", text);
}

/* ---- values ---------------------------------------------------------------------------------- */

void rt__number_text(double v, char out[RT__CELL_SIZE])
{
	char *comma;

	snprintf(out, RT__CELL_SIZE, "%.15g", v);
	comma = strchr(out, ',');
	if (comma) /* as a locale may have it */
		*comma = '.';
}

/* Days are counted from the nearer of two days: counting takes time. */
static void date_text(int64_t day, char out[RT_DAY_SIZE])
{
	const int64_t day_2000 = 36526;

	if (day >= day_2000)
		rt_day_after("2000-01-01", day - day_2000, out);
	else /* 1900 had a 29th of February in the first spreadsheets */
		rt_day_after("1899-12-30", day < 61 ? day + 1 : day, out);
}

void rt__moment_text(double days, bool dated, char out[RT__CELL_SIZE])
{
	int64_t seconds, of_day;
	char date[RT_DAY_SIZE] = "";

	if (!(days >= 0 && days < DAYS_MOST)) {
		rt__number_text(days, out);
		return;
	}
	seconds = (int64_t)llround(days * RT_DAY_S);
	of_day = dated ? seconds % RT_DAY_S : seconds;
	if (dated && seconds >= RT_DAY_S)
		date_text(seconds / RT_DAY_S, date);
	snprintf(out, RT__CELL_SIZE, "%.10s", date);
	if (!of_day && *date)
		return;
	(void)rt_append(out, RT__CELL_SIZE, "%s%02d:%02d", *date ? " " : "", (int)(of_day / 3600),
			(int)(of_day / 60 % 60));
	if (of_day % 60)
		(void)rt_append(out, RT__CELL_SIZE, ":%02d", (int)(of_day % 60));
}

bool rt__is_wanted(const struct rt__book *b, const char *sheet, size_t before)
{
	return b->from->sheet ? rt_same_name(sheet, b->from->sheet) : before == 0;
}
