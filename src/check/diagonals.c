/* What two diagonals tell.
 *
 * With side a of width w where it should be, side c as wide and parallel to it, slid by s and h
 * away: AK-CM^2 = (w + s)^2 + h^2 and FA-HC^2 = (w - s)^2 + h^2.  So 4 w s is the difference of
 * the squares, and h^2 what is left of their mean.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

#define PART_MOST 0.25 /* of a ring's diagonal: no ring is further off, a typing slip is */

enum rt_err rt_diagonals(struct rt_diagonals *out, const struct rt_ring_kind *kind, double ak_cm_m,
			 double fa_hc_m, struct rt_error *err)
{
	double w = kind->width_m, d = hypot(w, kind->length_m), square, h;
	double a = ak_cm_m, b = fa_hc_m, noise;

	if (!(fabs(a - d) < PART_MOST * d) || !(fabs(b - d) < PART_MOST * d))
		return rt_fail(err, RT_E_INPUT,
			       "diagonals of %s and %s m: of %s they should be %s m",
			       rt_show_real(a, 2).text, rt_show_real(b, 2).text, kind->name,
			       rt_show_real(d, 2).text);
	*out = (struct rt_diagonals){.kind = kind, .ak_cm_m = a, .fa_hc_m = b, .should_m = d};
	out->slide_m = (a - b) * (a + b) / (4 * w);
	square = (a * a + b * b) / 2 - w * w - out->slide_m * out->slide_m;
	if (!(square > 0))
		return rt_fail(err, RT_E_INPUT,
			       "diagonals of %s and %s m: no ring %.0f m wide has them",
			       rt_show_real(a, 2).text, rt_show_real(b, 2).text, w);
	h = sqrt(square);
	out->out_m = kind->length_m - h;
	out->expected_m = hypot(w, h);
	/* both by the propagation of independent errors of the two readings */
	noise = hypot(a * rt__tape_sigma(a), b * rt__tape_sigma(b));
	out->se_m = noise / (2 * w);
	out->out_se_m = noise / (2 * h);
	return RT_OK;
}
