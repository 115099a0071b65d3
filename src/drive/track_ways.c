/* Ways along the track: sides, corners and the letters between two points.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

static bool equal(double a, double b)
{
	return fabs(a - b) <= RT__EQUAL_M;
}

static bool on_long_sides(const struct rt__track *track, struct rt_vec p)
{
	return equal(fabs(p.x), track->half_width);
}

static bool on_short_sides(const struct rt__track *track, struct rt_vec p)
{
	return equal(fabs(p.y), track->half_length);
}

bool rt__one_side(const struct rt__track *track, struct rt_vec a, struct rt_vec b)
{
	return (on_long_sides(track, a) && equal(a.x, b.x)) ||
	       (on_short_sides(track, a) && equal(a.y, b.y));
}

bool rt__track_direction(const struct rt__track *track, struct rt_vec at, struct rt_vec travel,
			 struct rt_vec *out)
{
	bool along_y = on_long_sides(track, at), along_x = on_short_sides(track, at);

	if (!along_x && !along_y)
		return false;
	if (along_x && along_y)
		along_x = fabs(travel.x) > fabs(travel.y);
	if (along_x)
		*out = (struct rt_vec){copysign(1.0, travel.x), 0.0};
	else
		*out = (struct rt_vec){0.0, copysign(1.0, travel.y)};
	return true;
}

/* How far round the track a point of it lies, clockwise from the corner AK. */
static double round_m(const struct rt__track *track, struct rt_vec p)
{
	double w = track->half_width, l = track->half_length;

	if (equal(p.x, -w))
		return p.y + l;
	if (equal(p.y, l))
		return 2.0 * l + p.x + w;
	if (equal(p.x, w))
		return 2.0 * (l + w) + l - p.y;
	return 4.0 * l + 2.0 * w + w - p.x;
}

/* How far clockwise from one point of the track to another. */
static double clockwise_m(const struct rt__track *track, struct rt_vec from, struct rt_vec to)
{
	double whole = 4.0 * (track->half_width + track->half_length);
	double m = round_m(track, to) - round_m(track, from);

	return m < 0.0 ? m + whole : m;
}

/* What stands between two points of the track, clockwise from the first, ends left out: the
 * corner where there is one only, and the letters nearest to it, before and after. */
struct between {
	int corners, letters;
	const struct rt_peg *corner, *before, *after;
};

/* Whether a peg of the track stands there, m on from the first point. */
static bool is_between(const struct rt__track *track, struct rt_vec from, double far,
		       const struct rt_peg *peg, double *m)
{
	*m = clockwise_m(track, from, rt__peg_point(peg));
	return peg->side != RT_CENTRE && *m > RT__EQUAL_M && *m < far - RT__EQUAL_M;
}

static struct between look_between(const struct rt__track *track, struct rt_vec from,
				   struct rt_vec to)
{
	double far = clockwise_m(track, from, to), corner_m = 0.0, before_m = 0.0, after_m = far, m;
	struct between b = {0};

	for (size_t i = 0; i < track->pegs.n; i++) {
		const struct rt_peg *peg = &track->pegs.at[i];

		if (!peg->corner || !is_between(track, from, far, peg, &m))
			continue;
		b.corners++;
		b.corner = peg;
		corner_m = m;
	}
	for (size_t i = 0; i < track->pegs.n; i++) {
		const struct rt_peg *peg = &track->pegs.at[i];

		if (peg->corner || !is_between(track, from, far, peg, &m))
			continue;
		b.letters++;
		if (m < corner_m && m > before_m) {
			b.before = peg;
			before_m = m;
		} else if (m > corner_m && m < after_m) {
			b.after = peg;
			after_m = m;
		}
	}
	return b;
}

static bool on_track(const struct rt__track *track, struct rt_vec p)
{
	return on_long_sides(track, p) || on_short_sides(track, p);
}

const struct rt_peg *rt__corner_between(const struct rt__track *track, struct rt_vec a,
					struct rt_vec b)
{
	if (!on_track(track, a) || !on_track(track, b))
		return NULL;
	for (int way = 0; way < 2; way++) {
		struct between there = way ? look_between(track, b, a) : look_between(track, a, b);

		if (there.corners == 1 && there.letters == 0)
			return there.corner;
	}
	return NULL;
}

const char *rt__track_way_words(const struct rt__track *track, const struct rt_peg *from,
				const struct rt_peg *to, struct rt_arena **text)
{
	struct rt_vec a = rt__peg_point(from), b = rt__peg_point(to);
	const struct rt_peg *second, *third;
	struct between there;
	bool turned;

	if (!on_track(track, a) || !on_track(track, b))
		return NULL;
	turned = clockwise_m(track, a, b) > clockwise_m(track, b, a);
	there = turned ? look_between(track, b, a) : look_between(track, a, b);
	if (there.corners != 1 || there.letters == 0)
		return NULL;
	second = turned ? there.after : there.before;
	third = turned ? there.before : there.after;
	return rt_arena_textf(text, "%s%s%s%s%s %s", from->name, second ? " " : "",
			      second ? second->name : "", third ? " " : "",
			      third ? third->name : "", to->name);
}
