/* Report tables of kinds, rings and set-outs.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "internal.h"

#define COUNT(a) (sizeof(a) / sizeof *(a))

enum rt_err rt_ring_kinds_report(struct rt_report *r, const struct rt_ring_kinds *kinds,
				 struct rt_error *err)
{
	static const struct rt_field columns[] = {
		RT__TEXT("kind", "kind", false),
		RT__TEXT("discipline", "discipline", false),
		RT__METRES("width_m", "width", 0, false),
		RT__METRES("length_m", "length", 0, false),
		RT__TEXT("letters", "letters", false),
	};
	struct rt_table *t = rt_report_table(r, "kinds", "Kinds of ring", columns, COUNT(columns));

	for (size_t i = 0; i < kinds->n; i++) {
		const struct rt_ring_kind *kind = &kinds->at[i];
		char letters[512] = "";
		size_t used = 0;

		for (size_t k = 0; k < kind->letters.n && used < sizeof letters; k++)
			used += (size_t)snprintf(letters + used, sizeof letters - used, "%s%s",
						 k ? " " : "", kind->letters.at[k].name);
		rt_put_text(t, kind->name);
		rt_put_text(t, rt_discipline_words(kind->discipline));
		rt_put_real(t, kind->width_m);
		rt_put_real(t, kind->length_m);
		rt_put_text(t, letters);
	}
	return rt_report_result(r, err);
}

enum rt_err rt_rings_report(struct rt_report *r, const struct rt_rings *rings, struct rt_error *err)
{
	static const struct rt_field columns[] = {
		RT__TEXT("ring", "ring", false),
		RT__TEXT("kind", "kind", false),
	};
	struct rt_table *t = rt_report_table(r, "rings", "Rings of the show", columns,
					     COUNT(columns));

	for (size_t i = 0; i < rings->n; i++) {
		rt_put_text(t, rings->at[i].name);
		rt_put_text(t, rings->at[i].kind);
	}
	return rt_report_result(r, err);
}
