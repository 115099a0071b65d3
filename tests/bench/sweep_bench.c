/* A turnout of five parts swept along a route of 700 m: looked at every centimetre, and as the
 * sweep chooses.  Prints the best time of each; asserts nothing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>

#include <ringtrue/sweep.h>

#define RUNS	    20
#define RIGHT_ANGLE 1.5707963267948966

static struct rt_turnout_part parts[] = {
	{"four", "leaders", 0, 1.35, 1.6, NAN, NAN, 0},
	{"four", "wheelers", 1.2, 1.35, 1.6, NAN, NAN, 0},
	{"four", "pole and front axle", -1.40, 3.10, 1.65, NAN, NAN, 0},
	{"four", "rear axle", 0, 1.30, 1.65, 1.5, 1.0, 0},
	{"four", "trailer", 0.5, 1.60, 1.5, NAN, NAN, 0},
};

static const struct rt_turnout_parts five = {.at = parts, .n = 5};

static struct rt_letter letters[] = {
	{"A", RT_SIDE_A, 20}, {"C", RT_SIDE_C, 20}, {"K", RT_LEFT, 10},	 {"V", RT_LEFT, 25},
	{"E", RT_LEFT, 40},   {"S", RT_LEFT, 55},   {"H", RT_LEFT, 70},	 {"F", RT_RIGHT, 10},
	{"P", RT_RIGHT, 25},  {"B", RT_RIGHT, 40},  {"R", RT_RIGHT, 55}, {"M", RT_RIGHT, 70},
};

static const struct rt_ring_kind ring = {
	.name = "driven-40x80",
	.discipline = RT_DRIVEN,
	.width_m = 40,
	.length_m = 80,
	.letters = {.at = letters, .n = 12},
};

static double now_ms(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static void must(enum rt_err e, const struct rt_error *err)
{
	if (!e)
		return;
	fprintf(stderr, "sweep_bench: %s\n", err->text);
	exit(EXIT_FAILURE);
}

/* In at A, up the centreline, round the track of corners of 20 m, with two circles and a
 * change of rein: until it is 700 m long. */
static void make_route(struct rt_path *path, double length)
{
	const struct rt_pose start = {{0, -40}, {0, 1}};
	struct rt_error err;

	must(rt_path_straight(path, &start, 69, &err), &err);
	must(rt_path_arc(path, NULL, 10, -RIGHT_ANGLE, &err), &err);
	must(rt_path_straight(path, NULL, 1e-3, &err), &err);
	must(rt_path_arc(path, NULL, 9, -RIGHT_ANGLE, &err), &err);
	must(rt_path_arc(path, NULL, 10, -4 * RIGHT_ANGLE, &err), &err);
	for (int i = 0; rt_path_length(path) < length; i++) {
		double left = length - rt_path_length(path);

		must(rt_path_straight(path, NULL, fmin(left, i % 2 ? 18 : 58), &err), &err);
		left = length - rt_path_length(path);
		must(rt_path_arc(path, NULL, 10, -fmin(RIGHT_ANGLE, left / 10), &err), &err);
	}
}

static void time_it(const struct rt_path *route, const struct rt_ring_kind *kind, double step,
		    const char *what)
{
	const struct rt_sweep_options options = {.kind = kind, .step_m = step};
	double best = INFINITY;
	struct rt_error err;

	for (int i = 0; i < RUNS; i++) {
		double begin = now_ms();
		struct rt_sweep sweep;

		must(rt_sweep_make(&sweep, route, &five, &options, &err), &err);
		best = fmin(best, now_ms() - begin);
		rt_sweep_free(&sweep);
	}
	printf("%-36s %7.2f ms\n", what, best);
}

int main(void)
{
	struct rt_path route = {0};
	struct rusage use;

	make_route(&route, 700.0);
	printf("%.1f m in %zu pieces, five parts\n", rt_path_length(&route), route.n);
	time_it(&route, NULL, 0.01, "at 1 cm, no ring");
	time_it(&route, &ring, 0.01, "at 1 cm, with boards and letters");
	time_it(&route, &ring, 0.0, "as it chooses its steps");
	getrusage(RUSAGE_SELF, &use);
	printf("largest memory %ld KiB\n", use.ru_maxrss);
	rt_path_free(&route);
	return 0;
}
