/* A sheet of an .xlsx workbook as lines of CSV.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "sheet_xml.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#define DAYS_1904    1462 /* from the first day of a book of 1904 to that of 1900 */
#define FORMATS_MOST 65536
#define PART_NAME    512

enum shown { SHOWN_NUMBER, SHOWN_DATE, SHOWN_TIME, SHOWN_PERCENT };

/* A format of numbers that the book has of its own. */
struct format {
	long id;
	enum shown shown;
};

struct xlsx {
	char sheet_id[64]; /* of the relation to the sheet; "": not found */
	char sheet[PART_NAME], strings[PART_NAME], styles[PART_NAME];
	struct rt_strings sheets; /* their names, in the arena */
	struct rt_arena *arena;
	bool of_1904;
	struct rt_strings shared;
	struct format *format;
	size_t formats, formats_cap;
	unsigned char *shown; /* of each style of a cell */
	size_t styles_n, styles_cap;
	bool in_cell_styles, phonetic;
	/* the cell that is open */
	long row;
	size_t column;
	char type; /* s, i(nline), t (str), b, e, d, n */
	size_t style;
	bool formula, valued;
};

/* ---- which part is what ---------------------------------------------------------------------- */

static void open_workbook(struct rt__book *b, const char *space, const char *name,
			  const char **attributes)
{
	struct xlsx *x = b->self;

	(void)space;
	if (strcmp(name, "workbookPr") == 0) {
		const char *from = rt__attribute(attributes, NULL, "date1904");

		x->of_1904 = from && (*from == '1' || *from == 't');
	} else if (strcmp(name, "sheet") == 0) {
		const char *sheet = rt__attribute(attributes, NULL, "name");
		const char *id = rt__attribute(attributes, "relationships", "id");
		const char *kept = rt_arena_string(&x->arena, sheet ? sheet : "");
		const char **slot = RT_LIST_ADD(&x->sheets);

		b->nomem |= !kept || !slot;
		if (slot)
			*slot = kept;
		if (sheet && id && !*x->sheet_id && rt__is_wanted(b, sheet, x->sheets.n - 1))
			snprintf(x->sheet_id, sizeof x->sheet_id, "%s", id);
	}
}

/* The part that a relation of the workbook leads to. */
static void part_of(const char *target, char out[PART_NAME])
{
	snprintf(out, PART_NAME, "%s%s", *target == '/' ? "" : "xl/",
		 *target == '/' ? target + 1 : target);
}

static void open_relations(struct rt__book *b, const char *space, const char *name,
			   const char **attributes)
{
	struct xlsx *x = b->self;
	const char *id = rt__attribute(attributes, NULL, "Id");
	const char *target = rt__attribute(attributes, NULL, "Target");
	const char *type = rt__attribute(attributes, NULL, "Type");
	const char *what = type ? strrchr(type, '/') : NULL;

	(void)space;
	if (strcmp(name, "Relationship") != 0 || !id || !target || !what)
		return;
	if (strcmp(id, x->sheet_id) == 0)
		part_of(target, x->sheet);
	else if (strcmp(what, "/sharedStrings") == 0)
		part_of(target, x->strings);
	else if (strcmp(what, "/styles") == 0)
		part_of(target, x->styles);
}

/* ---- strings --------------------------------------------------------------------------------- */

/* Put a letter's number as UTF-8. */
static char *put_letter(char *to, unsigned long c)
{
	if (c < 0x80) {
		*to++ = (char)(c < ' ' ? ' ' : c);
	} else if (c < 0x800) {
		*to++ = (char)(0xC0 | c >> 6);
		*to++ = (char)(0x80 | (c & 0x3F));
	} else {
		*to++ = (char)(0xE0 | c >> 12);
		*to++ = (char)(0x80 | (c >> 6 & 0x3F));
		*to++ = (char)(0x80 | (c & 0x3F));
	}
	return to;
}

/* _x000D_ in a string is that letter. */
static void unescape(char *s)
{
	char *to = s;

	while (*s) {
		size_t digits = s[0] == '_' && s[1] == 'x' ? strspn(s + 2, "0123456789abcdefABCDEF")
							   : 0;

		if (digits == 4 && s[6] == '_') {
			to = put_letter(to, strtoul(s + 2, NULL, 16));
			s += 7;
		} else {
			*to++ = *s++;
		}
	}
	*to = '\0';
}

static void open_strings(struct rt__book *b, const char *space, const char *name,
			 const char **attributes)
{
	struct xlsx *x = b->self;

	(void)space, (void)attributes;
	if (strcmp(name, "si") == 0)
		b->text.n = 0;
	x->phonetic |= strcmp(name, "rPh") == 0;
	b->keep_text = strcmp(name, "t") == 0 && !x->phonetic;
}

static void close_strings(struct rt__book *b, const char *name)
{
	struct xlsx *x = b->self;

	b->keep_text = false;
	if (strcmp(name, "rPh") == 0)
		x->phonetic = false;
	if (strcmp(name, "si") == 0) {
		const char **slot = RT_LIST_ADD(&x->shared);
		const char *kept;

		if (b->text.n)
			unescape(b->text.s);
		kept = rt_arena_string(&x->arena, rt__text_of(&b->text));
		b->nomem |= !slot || !kept;
		if (slot)
			*slot = kept;
	}
}

/* ---- formats of numbers ---------------------------------------------------------------------- */

/* The end of what a format has at s beside its letters: a text in quotes, a bracket that is no
 * elapsed time, a letter that is shown as it is; s itself where there is none. */
static const char *beside_letters(const char *s)
{
	const char *end = s;

	if (*s == '"')
		end = strchr(s + 1, '"');
	else if (*s == '[' && !strchr("hmsHMS", s[1]))
		end = strchr(s, ']');
	else if ((*s == '\\' || *s == '_' || *s == '*') && s[1])
		end = s + 1;
	else
		return s;
	return end ? end + 1 : s + strlen(s);
}

static enum shown shown_by(const char *code)
{
	bool date = false, time = false, percent = false;

	for (const char *s = code; *s;) {
		const char *end = beside_letters(s);
		int c = tolower((unsigned char)*s);

		if (end == s) {
			date |= c == 'd' || c == 'y';
			time |= c == 'h' || c == 'm' || c == 's';
			percent |= c == '%';
			end++;
		}
		s = end;
	}
	return date ? SHOWN_DATE : time ? SHOWN_TIME : percent ? SHOWN_PERCENT : SHOWN_NUMBER;
}

static enum shown shown_as(const struct xlsx *x, long id)
{
	for (size_t i = 0; i < x->formats; i++)
		if (x->format[i].id == id)
			return x->format[i].shown;
	if ((id >= 14 && id <= 17) || id == 22)
		return SHOWN_DATE;
	if ((id >= 18 && id <= 21) || (id >= 45 && id <= 47))
		return SHOWN_TIME;
	return id == 9 || id == 10 ? SHOWN_PERCENT : SHOWN_NUMBER;
}

static void open_styles(struct rt__book *b, const char *space, const char *name,
			const char **attributes)
{
	struct xlsx *x = b->self;
	const char *id = rt__attribute(attributes, NULL, "numFmtId");
	const char *code = rt__attribute(attributes, NULL, "formatCode");

	(void)space;
	x->in_cell_styles |= strcmp(name, "cellXfs") == 0;
	if (strcmp(name, "numFmt") == 0 && id && code && x->formats < FORMATS_MOST) {
		struct format *f = rt_list_add(&x->format, &x->formats, &x->formats_cap, sizeof *f);

		b->nomem |= !f;
		if (f)
			*f = (struct format){strtol(id, NULL, 10), shown_by(code)};
	} else if (strcmp(name, "xf") == 0 && x->in_cell_styles && x->styles_n < FORMATS_MOST) {
		unsigned char *shown = rt_list_add(&x->shown, &x->styles_n, &x->styles_cap, 1);

		b->nomem |= !shown;
		if (shown)
			*shown = (unsigned char)shown_as(x, id ? strtol(id, NULL, 10) : 0);
	}
}

static void close_styles(struct rt__book *b, const char *name)
{
	struct xlsx *x = b->self;

	if (strcmp(name, "cellXfs") == 0)
		x->in_cell_styles = false;
}

/* ---- cells ----------------------------------------------------------------------------------- */

/* Where a cell stands, of its "B7"; without one it is the next. */
static void place_cell(struct xlsx *x, const char *name)
{
	size_t column = 0;

	for (; name && isalpha((unsigned char)*name) && column <= RT__SHEET_COLUMNS; name++)
		column = column * 26 + (size_t)(toupper((unsigned char)*name) - 'A') + 1;
	x->column = column ? column : x->column + 1; /* counted from 1 */
}

static char type_of(const char *t)
{
	if (!t)
		return 'n';
	return (char)(strcmp(t, "inlineStr") == 0 ? 'i' : strcmp(t, "str") == 0 ? 't' : *t);
}

static void open_cells(struct rt__book *b, const char *space, const char *name,
		       const char **attributes)
{
	struct xlsx *x = b->self;

	(void)space;
	if (strcmp(name, "row") == 0) {
		const char *row = rt__attribute(attributes, NULL, "r");

		x->row = row ? strtol(row, NULL, 10) : x->row + 1;
		x->column = 0;
	} else if (strcmp(name, "c") == 0) {
		const char *style = rt__attribute(attributes, NULL, "s");

		place_cell(x, rt__attribute(attributes, NULL, "r"));
		x->type = type_of(rt__attribute(attributes, NULL, "t"));
		x->style = style ? strtoul(style, NULL, 10) : 0;
		x->formula = x->valued = false;
		b->text.n = 0;
	}
	x->formula |= strcmp(name, "f") == 0;
	x->valued |= strcmp(name, "v") == 0;
	x->phonetic |= strcmp(name, "rPh") == 0;
	b->keep_text = strcmp(name, "v") == 0 || (strcmp(name, "t") == 0 && !x->phonetic);
}

static void put_number(struct rt__book *b, const struct xlsx *x, const char *s)
{
	enum shown shown = x->style < x->styles_n ? (enum shown)x->shown[x->style] : SHOWN_NUMBER;
	char text[RT__CELL_SIZE];
	double v;

	if (!rt_parse_real(s, &v)) {
		rt__put_cell(b, x->column - 1, s);
		return;
	}
	if (shown == SHOWN_DATE || shown == SHOWN_TIME)
		rt__moment_text(v + (shown == SHOWN_DATE && x->of_1904 ? DAYS_1904 : 0),
				shown == SHOWN_DATE, text);
	else
		rt__number_text(shown == SHOWN_PERCENT ? v * 100 : v, text);
	rt__put_cell(b, x->column - 1, text);
}

static void put_shared(struct rt__book *b, const struct xlsx *x, const char *s)
{
	size_t i = strtoul(s, NULL, 10);

	if (*s && i < x->shared.n)
		rt__put_cell(b, x->column - 1, x->shared.at[i]);
	else
		rt__cell_fault(b, x->row, x->column - 1, "its text is not in the workbook");
}

static void put_cell(struct rt__book *b, const struct xlsx *x)
{
	const char *s = rt__text_of(&b->text);

	if (x->type == 'e')
		rt__cell_fault(b, x->row, x->column - 1, "its formula ends in an error: a value");
	else if (x->formula && !*s && !(x->type == 't' && x->valued))
		rt__cell_fault(b, x->row, x->column - 1,
			       "a formula whose value was not kept: open and save it in a "
			       "spreadsheet, or type the value");
	else if (!*s)
		return;
	else if (x->type == 's')
		put_shared(b, x, s);
	else if (x->type == 'n')
		put_number(b, x, s);
	else if (x->type == 'b')
		rt__put_cell(b, x->column - 1, *s == '1' ? "yes" : "no");
	else {
		unescape(b->text.s);
		rt__put_cell(b, x->column - 1, b->text.s);
	}
}

static void close_cells(struct rt__book *b, const char *name)
{
	struct xlsx *x = b->self;

	b->keep_text = false;
	if (strcmp(name, "rPh") == 0)
		x->phonetic = false;
	else if (strcmp(name, "c") == 0)
		put_cell(b, x);
	else if (strcmp(name, "row") == 0)
		rt__end_row(b, x->row, 1);
}

/* ---- the book -------------------------------------------------------------------------------- */

static void xlsx_free(struct xlsx *x)
{
	RT_LIST_FREE(&x->sheets);
	RT_LIST_FREE(&x->shared);
	rt_arena_free(x->arena);
	free(x->format);
	free(x->shown);
}

bool rt__xlsx_lines(struct rt__book *b, char names[RT_LISTED_SIZE], size_t *sheets)
{
	struct xlsx x = {.row = 0};
	bool found;

	if (!rt__part_read(b, "xl/workbook.xml", &(struct rt__part){open_workbook, NULL}, &x))
		rt__stop(b, "it is no workbook");
	rt_list_names(x.sheets.at, x.sheets.n, names);
	*sheets = x.sheets.n;
	found = *x.sheet_id;
	if (found)
		rt__part_read(b, "xl/_rels/workbook.xml.rels",
			      &(struct rt__part){open_relations, NULL}, &x);
	if (found && *x.strings)
		rt__part_read(b, x.strings, &(struct rt__part){open_strings, close_strings}, &x);
	if (found && *x.styles)
		rt__part_read(b, x.styles, &(struct rt__part){open_styles, close_styles}, &x);
	if (found && !rt__part_read(b, x.sheet, &(struct rt__part){open_cells, close_cells}, &x))
		rt__stop(b, "its sheet is missing");
	xlsx_free(&x);
	return found;
}
