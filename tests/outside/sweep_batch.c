/* Cases on standard input, swept: what sweep_dop853.py compares.
 *
 * usage: sweep_batch [STEP_M]
 * A case: two_track (0 or 1), the number of parts, of each hitch, length and width; the number of
 * pieces, of each length and curvature.  Of each case one line: the cut-in of every part, the band
 * inside and outside, the last axle's x, y and heading at the end.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include <ringtrue/sweep.h>

static void must(bool ok, const char *what)
{
	if (ok)
		return;
	fprintf(stderr, "sweep_batch: %s\n", what);
	exit(EXIT_FAILURE);
}

static double number(void)
{
	double v;

	must(scanf("%lf", &v) == 1, "a number is missing");
	return v;
}

static void read_turnout(struct rt_turnout_parts *turnout)
{
	size_t n = (size_t)number();

	for (size_t i = 0; i < n; i++) {
		struct rt_turnout_part *part = RT_LIST_ADD(turnout);
		double hitch = number(), length = number();

		must(part != NULL, "memory");
		*part = (struct rt_turnout_part){"any", "part", hitch, length, number(), NAN, NAN};
	}
}

static void read_path(struct rt_path *path)
{
	const struct rt_pose start = {.toward.x = 1.0};
	size_t n = (size_t)number();

	for (size_t i = 0; i < n; i++) {
		double length = number(), curvature = number();
		struct rt_error err;

		must((curvature == 0.0 ? rt_path_straight(path, &start, length, &err)
				       : rt_path_arc(path, &start, fabs(1.0 / curvature),
						     length * curvature, &err)) == RT_OK,
		     err.text);
	}
}

static void sweep(bool two_track, double step)
{
	struct rt_sweep_options options = {.two_track = two_track, .step_m = step, .trace_m = 1e6};
	struct rt_turnout_parts turnout = {0};
	struct rt_path path = {0};
	struct rt_sweep result;
	const struct rt_pose *last = NULL;
	struct rt_error err;

	read_turnout(&turnout);
	read_path(&path);
	must(rt_sweep_make(&result, &path, &turnout, &options, &err) == RT_OK, err.text);
	for (size_t i = 0; i < result.parts.n; i++)
		printf("%.17g ", result.parts.at[i].cut_in_m);
	for (size_t i = 0; i < result.trace.n; i++)
		if (result.trace.at[i].part == turnout.n - 1 && !result.trace.at[i].stiff)
			last = &result.trace.at[i].axle;
	must(last != NULL, "no trace");
	printf("%.17g %.17g %.17g %.17g %.17g\n", result.inside_m, result.outside_m, last->at.x,
	       last->at.y, atan2(last->toward.y, last->toward.x));
	rt_sweep_free(&result);
	rt_path_free(&path);
	RT_LIST_FREE(&turnout);
}

int main(int argc, char **argv)
{
	double step = argc > 1 ? atof(argv[1]) : 0.0, two_track;

	while (scanf("%lf", &two_track) == 1)
		sweep(two_track != 0.0, step);
	return 0;
}
