/* Adjusting 16 pegs with 52 readings, through the library: seconds a call, the best of many.
 *
 * ring_bench.py times the same network in numpy; both print "adjust SECONDS SIGMA0", so that it
 * shows when they do not do the same.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/check.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define PEGS	 16
#define READINGS 52
#define ROUNDS	 300

static const char *const names[PEGS] = {"A", "AK", "K", "V", "E", "S", "H", "HC",
					"C", "CM", "M", "R", "B", "P", "F", "FA"};
static const double pegs[PEGS][2] = {
	{0, -40}, {-20, -40}, {-20, -30}, {-20, -15}, {-20, 0}, {-20, 15}, {-20, 30}, {-20, 40},
	{0, 40},  {20, 40},   {20, 30},	  {20, 15},   {20, 0},	{20, -15}, {20, -30}, {20, -40}};

/* Readings between pegs 1, 2, 5 and 8 apart round the ring, with an error that anybody can
 * compute again. */
static void make_readings(struct rt_reading *reading)
{
	static const int ahead[] = {1, 2, 5, 8};

	for (int i = 0; i < READINGS; i++) {
		int from = i % PEGS, to = (from + ahead[i / PEGS]) % PEGS;
		double d = hypot(pegs[to][0] - pegs[from][0], pegs[to][1] - pegs[from][1]);

		reading[i] = (struct rt_reading){.from = names[from],
						 .to = names[to],
						 .value = d + 0.012 * sin(7.3 * i + 1),
						 .sigma = NAN};
	}
}

static double now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

int main(void)
{
	struct rt_point point[PEGS];
	struct rt_reading reading[READINGS];
	struct rt_points points = {.at = point, .n = PEGS};
	struct rt_readings readings = {.at = reading, .n = READINGS};
	double best = INFINITY, sigma0 = NAN;

	for (size_t i = 0; i < PEGS; i++)
		point[i] = (struct rt_point){names[i], pegs[i][0], pegs[i][1], false};
	make_readings(reading);
	for (int round = 0; round < ROUNDS; round++) {
		struct rt_adjustment a = {0};
		struct rt_error err = {0};
		double start = now();

		if (rt_adjust(&a, &points, &readings, &err) != RT_OK) {
			fprintf(stderr, "ring_bench: %s\n", err.text);
			return EXIT_FAILURE;
		}
		best = fmin(best, now() - start);
		sigma0 = a.sigma0;
		rt_adjustment_free(&a);
	}
	printf("adjust %.9f %.9f\n", best, sigma0);
	return EXIT_SUCCESS;
}
