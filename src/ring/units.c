/* Readings in another unit than metres.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

#define FITS_PART   0.03 /* how well a distance in its own unit must fit the layout */
#define FITS_M	    0.05
#define MISFIT_PART 0.25 /* and how badly it must as metres */

const char *rt__other_unit(double distance_m, double layout_m)
{
	static const struct {
		const char *name;
		double metres;
	} unit[] = {{"feet", 0.3048}, {"centimetres", 0.01}, {"inches", 0.0254}};

	if (fabs(distance_m - layout_m) <= MISFIT_PART * layout_m)
		return NULL;
	for (size_t i = 0; i < sizeof unit / sizeof *unit; i++) {
		if (fabs(distance_m * unit[i].metres - layout_m) <= FITS_PART * layout_m + FITS_M)
			return unit[i].name;
	}
	return NULL;
}
