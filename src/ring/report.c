/* Report tables of kinds and rings.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "internal.h"

struct kind_row {
	struct rt_ring_kind kind;
	const char *letters;
};

static const struct rt_field kind_fields[] = {
	{"kind", RT_AT(struct kind_row, kind.name), .type = RT_NAME},
	{"discipline", RT_AT(struct kind_row, kind.discipline), RT_WORD_OF(discipline)},
	{"width_m", .head = "width", RT_AT(struct kind_row, kind.width_m), RT_METRES(0)},
	{"length_m", .head = "length", RT_AT(struct kind_row, kind.length_m), RT_METRES(0)},
	{"letters", RT_AT(struct kind_row, letters), .type = RT_LETTERS},
};

static const struct rt_record kind_table = RT_TABLE("kinds", "Kinds of ring", kind_fields,
						    struct kind_row);

static const struct rt_field ring_fields[] = {
	{"ring", RT_AT(struct rt_ring, name), .type = RT_NAME, .is = RT_KEY},
	{"kind", RT_AT(struct rt_ring, kind), .type = RT_NAME},
};

const struct rt_record rt_ring_record = {"ring", "rings", "Rings of the show",
					 RT_FIELDS(ring_fields), .size = sizeof(struct rt_ring)};

const struct rt_record *const rt_ring_tables[] = {&kind_table, &rt_ring_row_record, &rt_ring_record,
						  NULL};

enum rt_err rt_ring_kinds_report(struct rt_report *r, const struct rt_ring_kinds *kinds,
				 struct rt_error *err)
{
	struct rt_table *t = rt_report_rows(r, &kind_table);
	struct rt_table *rows = rt_report_rows(r, &rt_ring_row_record);

	rt_table_main(rows); /* a file of kinds */
	for (size_t i = 0; i < kinds->n; i++) {
		const struct rt_ring_kind *kind = &kinds->at[i];
		char letters[512] = "";
		size_t used = 0;

		for (size_t k = 0; k < kind->letters.n && used < sizeof letters; k++)
			used += (size_t)snprintf(letters + used, sizeof letters - used, "%s%s",
						 k ? " " : "", kind->letters.at[k].name);
		rt_put_row(t, &(struct kind_row){*kind, letters});
		for (size_t k = 0; k < kind->letters.n; k++)
			rt_put_row(rows, &(struct rt_ring_row){kind->name, kind->discipline,
							       kind->width_m, kind->length_m,
							       kind->letters.at[k]});
	}
	return rt_report_result(r, err);
}
