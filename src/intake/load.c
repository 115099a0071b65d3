/* Rows as structs, by the columns that a struct rt__file names.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* ---- faults ---------------------------------------------------------------------------------- */

/* The columns of the file, as a message lists them; those that may be missing in brackets. */
struct columns_text {
	char text[320];
};

static struct columns_text columns_of(const struct rt__file *file)
{
	struct columns_text out;

	rt_record_columns(file->record, out.text, sizeof out.text);
	return out;
}

/* ---- columns that a file calls otherwise ----------------------------------------------------- */

/* A name of n bytes without outer spaces; one that is too long is none. */
static void take_name(char out[RT_COLUMN_SIZE], const char *s, size_t n)
{
	while (n && *s == ' ') {
		s++;
		n--;
	}
	while (n && s[n - 1] == ' ')
		n--;
	snprintf(out, RT_COLUMN_SIZE, "%.*s", n < RT_COLUMN_SIZE ? (int)n : 0, s);
}

bool rt_next_column(const char **columns, char theirs[RT_COLUMN_SIZE], char ours[RT_COLUMN_SIZE])
{
	const char *s = *columns;
	size_t n, name;

	if (!s || !*s)
		return false;
	n = strcspn(s, ";");
	name = n;
	while (name && s[name - 1] != '=')
		name--;
	take_name(theirs, s, name ? name - 1 : 0);
	take_name(ours, s + name, name ? n - name : 0);
	*columns = s + n + (s[n] == ';');
	return true;
}

/* ---- header ---------------------------------------------------------------------------------- */

size_t rt__find_column(const struct rt__file *file, const char *name)
{
	const struct rt_field *f = rt_record_field(file->record, name);

	return f ? (size_t)(f - file->record->field) : RT__NO_COLUMN;
}

/* The column that a heading is in a file of that kind: as the source calls it, else as it says
 * itself; RT__NO_COLUMN: none. */
static size_t column_headed(const struct rt__load *l, const struct rt__file *file,
			    const char *heading)
{
	const char *columns = l->from->columns;
	char theirs[RT_COLUMN_SIZE], ours[RT_COLUMN_SIZE];

	while (rt_next_column(&columns, theirs, ours)) {
		size_t which = rt__find_column(file, ours);

		if (which != RT__NO_COLUMN && rt_same_name(theirs, heading))
			return which;
	}
	for (size_t which = 0; which < file->record->fields; which++)
		if (rt_field_headed(&file->record->field[which], heading))
			return which;
	return RT__NO_COLUMN;
}

/* Whether the header has a column. */
static bool has_column(const struct rt__load *l, const struct rt__file *file,
		       const struct rt__row *row, size_t which)
{
	for (size_t i = 0; i < row->fields && i < RT__FIELDS_MAX; i++)
		if (column_headed(l, file, row->field[i].s) == which)
			return true;
	return false;
}

/* The column that was meant by an unknown name, or NULL. */
static const char *meant_column(const struct rt__file *file, const char *name)
{
	const char *words[2 * RT__FIELDS_MAX];
	size_t n = 0;

	for (size_t i = 0; i < file->record->fields; i++) {
		const struct rt_field *f = &file->record->field[i];

		if (!rt_field_in_file(f))
			continue;
		words[n++] = f->name;
		if (f->also)
			words[n++] = f->also;
	}
	return rt_meant(name, words, n);
}

static void head_fault(struct rt__load *l, const char *column, const char *wrong)
{
	rt__row_fault(l, column, "%s: the columns are %s", wrong, columns_of(l->file).text);
	l->head_bad = true;
}

/* A column that is none of ours, for the note of those. */
static void leave_out(struct rt__load *l, const char *name)
{
	(void)rt_append(l->left_out, sizeof l->left_out, "%s%s", *l->left_out ? ", " : "",
			rt_show(name).text);
}

static void tell_unknown_column(struct rt__load *l, size_t i, const char *name)
{
	const char *meant = *name ? meant_column(l->file, name) : NULL;
	char wrong[192];

	if (!*name) {
		snprintf(wrong, sizeof wrong, "column %zu has no name", i + 1);
		head_fault(l, NULL, wrong);
	} else if (!meant && l->from->notes) {
		leave_out(l, name);
	} else if (!meant) {
		snprintf(wrong, sizeof wrong, "unknown column %s", rt_show(name).text);
		head_fault(l, name, wrong);
	} else {
		rt__row_fault(l, name,
			      "unknown column %s: did you mean \"%s\"? (the columns are %s)",
			      rt_show(name).text, meant, columns_of(l->file).text);
		l->head_bad = true;
		l->unread |= UINT64_C(1) << rt__find_column(l->file, meant);
	}
}

/* Whether a column may stand there under both of its names: each row then fills one of them. */
static bool are_two_names(const struct rt__load *l, size_t which, const char *a, const char *b)
{
	return l->file->record->field[which].also && strcasecmp(a, b) != 0;
}

/* Which column the header's field i is; it must stand there once under each name. */
static void place_column(struct rt__load *l, size_t i, const char *name)
{
	size_t which = column_headed(l, l->file, name);
	char wrong[192];

	l->csv.head[i] = rt_arena_string(&l->text, name);
	l->nomem |= !l->csv.head[i];
	if (which == RT__NO_COLUMN) {
		tell_unknown_column(l, i, name);
		return;
	}
	for (size_t k = 0; k < i; k++)
		if (l->of_field[k] == which &&
		    !are_two_names(l, which, l->csv.head[k], l->csv.head[i])) {
			snprintf(wrong, sizeof wrong, "doubled column: \"%s\" is there already",
				 l->csv.head[k]);
			head_fault(l, name, wrong);
			return;
		}
	l->of_field[i] = which;
}

/* Tell of columns that are not there under any name, not even a misspelt one. */
static void tell_missing_columns(struct rt__load *l)
{
	uint64_t absent = 0;

	for (size_t which = 0; which < l->file->record->fields; which++) {
		const struct rt_field *f = &l->file->record->field[which];
		uint64_t bit = UINT64_C(1) << which;
		bool there = false;

		for (size_t i = 0; i < l->fields && !there; i++)
			there = l->of_field[i] == which;
		if (!there)
			absent |= bit;
		if (absent & ~l->unread & bit && !(f->is & (RT_OPTIONAL | RT_OF_SHOW)))
			head_fault(l, f->name, "missing column");
	}
	l->unread = l->head_bad ? absent : 0;
}

/* Whether the row can be a header at all; otherwise one fault says it better than many. */
static bool is_header(struct rt__load *l, const struct rt__row *row)
{
	for (size_t which = 0; which < l->file->record->fields; which++)
		if (has_column(l, l->file, row, which))
			return true;
	for (size_t i = 0; i < row->fields; i++)
		if (row->field[i].bad) /* which says enough */
			return false;
	head_fault(l, NULL, "no header row with the names of the columns");
	return false;
}

/* ---- which kind of file ---- */

/* How well a header goes with a kind of file: its columns that are there, in capitals or not,
 * less those that are missing. */
static int header_fits(const struct rt__load *l, const struct rt__file *file,
		       const struct rt__row *row)
{
	int fits = 0;

	for (size_t which = 0; which < file->record->fields; which++) {
		const struct rt_field *f = &file->record->field[which];

		fits += has_column(l, file, row, which)	     ? 1
			: f->is & (RT_OPTIONAL | RT_OF_SHOW) ? 0
							     : -1;
	}
	return fits;
}

/* Every kind's columns, "a, b; or c, d". */
static void list_kinds(const struct rt__load *l, char *out, size_t size)
{
	size_t at = 0;

	*out = '\0';
	for (size_t i = 0; i < l->kinds && at < size; i++) {
		int n = snprintf(out + at, size - at, "%s%s", i ? "; or " : "",
				 columns_of(l->kind[i]).text);

		at += n > 0 ? (size_t)n : 0;
	}
}

/* The kind that the header fits better than any other; false where there is none, which has been
 * told. */
static bool choose_kind(struct rt__load *l, const struct rt__row *row)
{
	int best = 0;
	bool one = false;
	char kinds[400];

	for (size_t i = 0; i < l->kinds; i++) {
		int fits = header_fits(l, l->kind[i], row);

		if (fits > best) {
			l->file = l->kind[i];
			best = fits;
			one = true;
		} else if (fits == best) {
			one = false;
		}
	}
	if (one) {
		if (l->chosen)
			l->chosen(l);
		return true;
	}
	list_kinds(l, kinds, sizeof kinds);
	l->line = row->line;
	l->head_bad = true;
	rt__row_fault(l, NULL, "the header row is none that is known: %s", kinds);
	return false;
}

/* Read the header; false when the rows below cannot be told apart, which has been told. */
static bool read_header(struct rt__load *l, const struct rt__row *row)
{
	l->line = row->line;
	for (size_t i = 0; i < RT__FIELDS_MAX; i++)
		l->of_field[i] = RT__NO_COLUMN;
	if (row->fields > RT__FIELDS_MAX) {
		head_fault(l, NULL, "too many columns");
		return false;
	}
	l->fields = row->fields;
	while (l->fields && !*row->field[l->fields - 1].s)
		l->fields--;
	if (!is_header(l, row))
		return false;
	for (size_t i = 0; i < l->fields; i++) {
		if (row->field[i].bad) {
			l->head_bad = true;
			l->unread = UINT64_MAX; /* it may be any column */
		} else {
			place_column(l, i, row->field[i].s);
		}
	}
	tell_missing_columns(l);
	if (*l->left_out && !l->head_bad)
		rt_report_note(l->from->notes, "Left out of %s: the columns %s.", l->csv.path,
			       l->left_out);
	return true;
}

static void tell_empty(const struct rt__load *l, const char *path)
{
	char kinds[400];

	if (l->kinds)
		list_kinds(l, kinds, sizeof kinds);
	rt_fault(l->faults, path, 0, NULL,
		 "the file is empty: a header row with the columns %s, then a row each",
		 l->kinds ? kinds : columns_of(l->file).text);
}

struct rt__load rt__load_of(const struct rt__file *file, struct rt__list list,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err)
{
	static const struct rt_roster nothing = {0};
	struct rt__load l = {.file = file,
			     .list = list,
			     .roster = roster ? roster : &nothing,
			     .faults = faults,
			     .err = err};

	rt__names_of_roster(&l);
	return l;
}

enum rt_err rt__load_open(struct rt__load *l, const struct rt_source *from)
{
	const struct rt__row *row = NULL;
	size_t faults = l->faults->total;
	enum rt_err rc = rt__csv_open(&l->csv, from, &l->open, l->faults, l->err);

	l->from = from;
	l->first_day = from->first_day;
	if (rc == RT_OK && l->open)
		rc = rt__csv_next(&l->csv, &row, l->err);
	if (rc == RT_OK && l->open && !row && l->faults->total == faults)
		tell_empty(l, from->path);
	l->open = rc == RT_OK && row && (!l->kinds || choose_kind(l, row)) && read_header(l, row);
	if (rc == RT_OK && (l->nomem || l->faults->nomem))
		rc = rt_fail_nomem(l->err);
	if (rc != RT_OK || !l->open)
		rt__load_close(l);
	return rc;
}

void rt__load_close(struct rt__load *l)
{
	rt__csv_close(&l->csv);
	rt_arena_free(l->text);
	l->text = NULL;
	for (size_t i = 0; i < RT__NAMED; i++)
		rt__names_free(&l->names[i]);
	rt_map_free(l->seen);
	l->seen = NULL;
}

/* ---- rows ------------------------------------------------------------------------------------ */

/* Text behind the apostrophe that keeps a spreadsheet from running it. */
static const char *plain_text(const struct rt_field *f, const char *s)
{
	bool guarded = *s == '\'' && rt_is_formula(s);

	return guarded && rt_type_shown(f->type) == RT_TEXT ? s + 1 : s;
}

/* "7,5" as 7.5, where a comma separates no columns. */
static const char *point_for_comma(const struct rt__load *l, const struct rt_field *f,
				   const char *s, char number[RT__NUMBER_SIZE])
{
	bool may_be_number = rt_type_shown(f->type) != RT_TEXT || f->type == RT_OWN ||
			     (l->file->number && strcmp(l->file->number, f->name) == 0);

	if (!may_be_number || (l->csv.separator == ',' && !l->csv.sheet) || !rt_has_comma(s))
		return s;
	snprintf(number, RT__NUMBER_SIZE, "%s", s);
	*strchr(number, ',') = '.';
	return number;
}

/* Three numbers with a separator between, which is returned; 0: s is none of that. */
static char read_three(const char *s, int out[3])
{
	char separator = 0;

	for (int k = 0; k < 3; k++) {
		size_t digits = strspn(s, "0123456789");

		if (!digits || digits > 4)
			return 0;
		for (out[k] = 0; digits; digits--)
			out[k] = out[k] * 10 + (*s++ - '0');
		if (k == 2)
			return *s ? 0 : separator;
		if (!*s || !strchr("-./", *s) || (separator && *s != separator))
			return 0;
		separator = *s++;
	}
	return 0;
}

/* "2026-05-09", "9.5.2026" or "5/9/2026" as ISO has it; the last says which is the month only where
 * the other can be none.  false: s is no such date. */
static bool read_date(const char *s, char iso[RT_DAY_SIZE])
{
	int n[3];
	char separator = read_three(s, n);
	bool day_first = separator == '.' || n[0] > 12;

	if (!separator || (separator == '/' && n[0] <= 12 && n[1] <= 12 && n[0] != n[1]))
		return false;
	if (separator == '-')
		snprintf(iso, RT_DAY_SIZE, "%04d-%02d-%02d", n[0], n[1], n[2]);
	else
		snprintf(iso, RT_DAY_SIZE, "%04d-%02d-%02d", n[2], n[day_first], n[!day_first]);
	return rt_day_number(iso);
}

/* A date as the day of the show, in a column of days. */
static const char *day_for_date(const struct rt__load *l, const struct rt_field *f, const char *s,
				char number[RT__NUMBER_SIZE])
{
	char iso[RT_DAY_SIZE];

	if (!l->first_day || f->type != RT_INT || strcmp(f->name, "day") != 0 || !read_date(s, iso))
		return s;
	snprintf(number, RT__NUMBER_SIZE, "%lld",
		 (long long)(rt_day_number(iso) - rt_day_number(l->first_day) + 1));
	return number;
}

/* Whether another field of the same column says it: fields of a column with two names are read
 * where they are filled, and must not contradict each other. */
static bool is_said_elsewhere(struct rt__load *l, const struct rt__row *from, size_t i)
{
	const char *s = from->field[i].s;

	for (size_t k = 0; k < l->fields; k++) {
		const char *other = from->field[k].s;

		if (k == i || l->of_field[k] != l->of_field[i] || (!*other && i < k))
			continue;
		if (*s && *other && k < i && !rt_same_name(s, other))
			rt__row_fault(l, l->csv.head[i], "%s, but %s says %s: one of them empty",
				      rt_show(s).text, l->csv.head[k], rt_show(other).text);
		if (!*s || (*other && k < i))
			return true;
	}
	return false;
}

/* Read what the row has in a field into its member. */
static void read_field(struct rt__load *l, const struct rt_field *f, const char *s, void *row)
{
	struct rt_arena **text = l->list.at ? l->list.text : NULL;
	char number[RT__NUMBER_SIZE];
	struct rt_error err;
	enum rt_err rc;

	if (!*s) {
		if (!(f->is & (RT_OPTIONAL | RT_EMPTY)))
			rt__row_fault(l, f->name, "empty: this column is filled in each row");
		return;
	}
	s = day_for_date(l, f, point_for_comma(l, f, plain_text(f, s), number), number);
	rc = rt_field_read(f, row, s, text, &err);
	if (rc == RT_E_NOMEM)
		l->nomem = true;
	else if (rc)
		rt__row_fault(l, f->name, "%s", err.text);
}

/* What a row says something of; an empty field that is usual says nothing. */
static void note_said(struct rt__load *l, const struct rt__row *from, void *row)
{
	uint64_t *said = (uint64_t *)((char *)row + l->file->said_at);

	*said = 0;
	for (size_t i = 0; i < l->fields; i++) {
		size_t which = l->of_field[i];

		if (which != RT__NO_COLUMN && (*from->field[i].s ||
					       !(l->file->record->field[which].is & RT_USUAL)))
			*said |= UINT64_C(1) << which;
	}
}

static void read_row(struct rt__load *l, const struct rt__row *from, void *row)
{
	rt_record_start(l->file->record, row);
	l->line = from->line;
	l->row_bad = l->head_bad;
	l->faulty = l->unread;
	for (size_t i = 0; i < l->fields; i++) {
		size_t which = l->of_field[i];

		l->row_bad |= from->field[i].bad;
		if (which == RT__NO_COLUMN || !rt_field_in_file(&l->file->record->field[which]))
			continue;
		if (from->field[i].bad) {
			l->faulty |= UINT64_C(1) << which;
			continue;
		}
		if (!is_said_elsewhere(l, from, i))
			read_field(l, &l->file->record->field[which], from->field[i].s, row);
	}
	if (l->file->path_at)
		*(const char **)((char *)row + l->file->path_at) = rt__load_path(l);
	if (l->file->line_at)
		*(long *)((char *)row + l->file->line_at) = l->line;
	if (l->file->said_at)
		note_said(l, from, row);
	rt__check_key(l, row);
	rt__check_names(l, row);
	if (l->file->check)
		l->file->check(l, row);
}

/* Whether the row has the fields of the header: empty ones after them are none. */
static bool fit_row(struct rt__load *l)
{
	struct rt__row *row = &l->csv.row;

	while (row->fields > l->fields && row->fields <= RT__FIELDS_MAX &&
	       !*row->field[row->fields - 1].s)
		row->fields--;
	while (l->csv.sheet && row->fields < l->fields) {
		row->field[row->fields].s = "";
		row->field[row->fields++].bad = false;
	}
	return row->fields == l->fields;
}

enum rt_err rt__load_next(struct rt__load *l, void *row, bool *got)
{
	const struct rt__row *from;
	size_t faults = l->faults->total;
	enum rt_err rc;

	*got = false;
	while ((rc = rt__csv_next(&l->csv, &from, l->err)) == RT_OK && from) {
		l->rows++;
		l->line = from->line;
		if (!fit_row(l)) {
			rt__row_fault(l, NULL, "%zu field%s in this row: %zu, as in the header",
				      from->fields, from->fields == 1 ? "" : "s", l->fields);
			l->row_lost = true;
			continue;
		}
		read_row(l, from, row);
		if (l->nomem || l->faults->nomem)
			return rt_fail_nomem(l->err);
		if (!l->row_bad) {
			*got = true;
			return RT_OK;
		}
	}
	if (rc == RT_OK && !l->rows && !l->head_bad && l->faults->total == faults)
		rt_fault(l->faults, l->csv.path, 0, NULL,
			 "there is only a header row: at least one row below it");
	return rc == RT_OK && l->faults->nomem ? rt_fail_nomem(l->err) : rc;
}

static void append(struct rt__load *l, const void *row)
{
	void *slot = rt_list_add(l->list.at, l->list.n, l->list.cap, l->file->record->size);

	if (slot)
		memcpy(slot, row, l->file->record->size);
	else
		l->nomem = true;
}

enum rt_err rt__load_all(struct rt__load *l, const struct rt_source *from)
{
	enum rt_err rc = rt__load_open(l, from);
	void *row = NULL;
	bool got = l->open;

	if (rc != RT_OK || !l->open)
		return rc;
	row = malloc(l->file->record->size);
	if (!row)
		l->nomem = true;
	while (rc == RT_OK && got && !l->nomem) {
		rc = rt__load_next(l, row, &got);
		if (rc != RT_OK || !got)
			break;
		if (l->file->keep)
			l->file->keep(l, row);
		else
			append(l, row);
	}
	free(row);
	rt__load_close(l);
	return rc == RT_OK && l->nomem ? rt_fail_nomem(l->err) : rc;
}

const char *rt__load_path(struct rt__load *l)
{
	if (!l->kept_path)
		l->kept_path = rt_arena_string(l->list.text, l->csv.path);
	if (!l->kept_path)
		l->nomem = true;
	return l->kept_path;
}
