/* Levels and gaits: finding them, and their measure for an animal of another height.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

/* The height of the horses whose speeds and strides the gaits give. */
#define GAIT_HEIGHT_CM 165.0

const struct rt_level *rt_level_find(const struct rt_levels *levels, const char *name,
				     enum rt_discipline discipline)
{
	for (size_t i = 0; i < levels->n; i++)
		if (levels->at[i].discipline == discipline &&
		    rt_same_name(levels->at[i].name, name))
			return &levels->at[i];
	return NULL;
}

const struct rt_gait *rt_gait_find(const struct rt_gaits *gaits, const char *name)
{
	for (size_t i = 0; i < gaits->n; i++)
		if (rt_same_name(gaits->at[i].name, name))
			return &gaits->at[i];
	return NULL;
}

double rt_level_diameter(const struct rt_level *level, double height_cm)
{
	if (!(height_cm > 0.0) || height_cm >= level->reference_height_cm)
		return level->turn_diameter_m;
	return floor(level->turn_diameter_m * height_cm / level->reference_height_cm * 2.0 + 0.5) /
	       2.0;
}

double rt_level_bend_deg(const struct rt_level *level, double feet_apart_m)
{
	double height_cm = 100.0 * feet_apart_m / RT__FEET_APART_PER_HEIGHT;

	return 2.0 * feet_apart_m / rt_level_diameter(level, height_cm) * RT__DEGREES;
}

struct rt__pace rt__pace(const struct rt_gait *gait, double height_cm)
{
	double scale = height_cm > 0.0 ? fmin(1.0, height_cm / GAIT_HEIGHT_CM) : 1.0;

	return (struct rt__pace){gait->speed_m_per_s * sqrt(scale), gait->stride_m * scale};
}

double rt_gait_speed(const struct rt_gait *gait, double height_cm)
{
	return rt__pace(gait, height_cm).speed_m_per_s;
}
