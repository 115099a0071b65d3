/* Files of the ring: kinds and their letters, points, how far it may fall.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

/* ---- kinds ----------------------------------------------------------------------------------- */

struct first_lines RT_LIST(long);

struct ring_load {
	struct rt_ring_kinds *out;
	struct rt_map *places;	  /* in out, by name: the kinds of this file */
	struct first_lines lines; /* of each kind of this file */
	size_t before;		  /* kinds that were in out already */
};

/* A new kind, as its first row has it. */
static struct rt_ring_kind *add_kind(struct rt__load *l, const struct rt_ring_row *row)
{
	struct ring_load *self = l->self;
	struct rt_ring_kind *kind = RT_LIST_ADD(self->out);
	long *line = RT_LIST_ADD(&self->lines);
	struct rt_error err;

	if (!kind || !line) {
		l->nomem = true;
		return NULL;
	}
	*line = l->line;
	kind->name = row->kind;
	kind->discipline = row->discipline;
	kind->width_m = row->width_m;
	kind->length_m = row->length_m;
	if (rt_ring_size_check(kind, &err) != RT_OK)
		rt__row_fault(l, err.column, "%s", err.text);
	return kind;
}

static void check_agreement(struct rt__load *l, const struct rt_ring_row *row,
			    const struct rt_ring_kind *kind, long line)
{
	const struct {
		const char *column;
		bool differs;
	} agree[] = {
		{"discipline", row->discipline != kind->discipline},
		{"width_m", row->width_m < kind->width_m || row->width_m > kind->width_m},
		{"length_m", row->length_m < kind->length_m || row->length_m > kind->length_m},
	};

	for (size_t i = 0; i < RT__COUNT(agree); i++)
		if (agree[i].differs)
			rt__row_fault(l, agree[i].column,
				      "not the same as in line %ld for kind %s: one value for "
				      "all rows of a kind",
				      line, rt_show(row->kind).text);
}

static struct rt_ring_kind *kind_of(struct rt__load *l, const struct rt_ring_row *row)
{
	struct ring_load *self = l->self;
	size_t at = rt_map_put(&self->places, row->kind, self->out->n, &l->nomem);

	if (at == RT_MAP_NONE)
		return add_kind(l, row);
	check_agreement(l, row, &self->out->at[at], self->lines.at[at - self->before]);
	return &self->out->at[at];
}

static void keep_ring_row(struct rt__load *l, void *data)
{
	const struct rt_ring_row *row = data;
	struct rt_ring_kind *kind = kind_of(l, row);
	struct rt_letter *letter = kind ? RT_LIST_ADD(&kind->letters) : NULL;
	struct rt_error err;

	if (!letter) {
		l->nomem = true;
		return;
	}
	*letter = row->letter;
	/* In a ring of no size, no letter is in its place. */
	if (rt_ring_size_check(kind, &err) != RT_OK ||
	    rt_ring_letter_check(kind, kind->letters.n - 1, &err) == RT_OK)
		return;
	kind->letters.n--;
	rt__row_fault(l, err.column, "%s", err.text);
}

/* Every ring has its entrance at A and the president at C. */
static void tell_letters_missing(const struct rt__load *l, const char *path)
{
	static const char *const needed[] = {"A", "C"};
	const struct ring_load *self = l->self;

	for (size_t k = self->before; k < self->out->n; k++)
		for (size_t i = 0; i < RT__COUNT(needed); i++)
			if (!rt_ring_has_letter(&self->out->at[k], needed[i]))
				rt_fault(l->faults, path, self->lines.at[k - self->before], "peg",
					 "kind %s has no letter %s: A and C stand in every ring",
					 rt_show(self->out->at[k].name).text, needed[i]);
}

enum rt_err rt_read_ring_kinds(struct rt_ring_kinds *out, const struct rt_source *from,
			       struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_ring_row_record, .keep = keep_ring_row};
	struct ring_load self = {.out = out, .before = out->n};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), NULL, faults, err);
	size_t told = faults->total;
	enum rt_err rc;

	l.self = &self;
	rc = rt__load_all(&l, from);
	if (rc == RT_OK && faults->total == told) /* else a letter's own row may have a fault */
		tell_letters_missing(&l, from->path);
	rt_map_free(self.places);
	RT_LIST_FREE(&self.lines);
	return rc;
}

/* ---- points ---------------------------------------------------------------------------------- */

enum rt_err rt_read_points(struct rt_points *out, const struct rt_source *from,
			   struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_point_record, .key = {"point"},
					     .once = "each point once"};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), NULL, faults, err);

	return rt__load_all(&l, from);
}

/* ---- footing rules --------------------------------------------------------------------------- */

static void check_one_of(struct rt__load *l, const char *column, double metres, double percent)
{
	if (isnan(metres) == isnan(percent))
		rt__row_fault(l, column, "%s: one of the two, in metres or in per cent",
			      isnan(metres) ? "no limit is given" : "two limits are given");
}

static void check_footing(struct rt__load *l, void *data)
{
	const struct rt_footing_rule *row = data;

	if (!rt__fields_sound(l, "along_m along_percent across_m across_percent"))
		return;
	check_one_of(l, "along_m", row->along_m, row->along_percent);
	check_one_of(l, "across_m", row->across_m, row->across_percent);
}

enum rt_err rt_read_footing_rules(struct rt_footing_rules *out, const struct rt_source *from,
				  struct rt_faults *faults, struct rt_error *err)
{
	static const struct rt__file file = {&rt_footing_rule_record, .key = {"footing"},
					     .once = "each rule once", .check = check_footing};
	struct rt__load l = rt__load_of(&file, RT__LIST(out), NULL, faults, err);

	return rt__load_all(&l, from);
}
