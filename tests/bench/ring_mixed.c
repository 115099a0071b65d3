/* Adjusting 30 pegs with 300 readings of every kind, through the library: milliseconds a call, the
 * best of many in time of the processor; as measured, and with two readings wrong.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/check.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define ACROSS	 5
#define ALONG	 6
#define PEGS	 (ACROSS * ALONG)
#define READINGS 300
#define ROUNDS	 40

static char names[PEGS][8];
static double at[PEGS][2];

/* An error that anybody can compute again, about as large as sigma. */
static double error(int i)
{
	return sin(7.3 * i + 1);
}

static double bearing(int from, int to)
{
	return atan2(at[to][0] - at[from][0], at[to][1] - at[from][1]) * 57.29577951308232;
}

static void make_distance(struct rt_reading *r, int i)
{
	int from = i % PEGS, to = (from + 1 + i / PEGS * 3) % PEGS;
	double d = hypot(at[to][0] - at[from][0], at[to][1] - at[from][1]);

	*r = (struct rt_reading){
		.from = names[from], .to = names[to], .value = d + 0.015 * error(i), .sigma = NAN};
}

static void make_of_line(struct rt_reading *r, int i)
{
	int from = i % PEGS, to = (from + 11) % PEGS, point = (from + 4) % PEGS;
	double x = at[point][0] - at[from][0], y = at[point][1] - at[from][1];
	double u = at[to][0] - at[from][0], v = at[to][1] - at[from][1];
	double turn = bearing(point, to) - bearing(point, from);

	*r = (struct rt_reading){.from = names[from],
				 .to = names[to],
				 .at = names[point],
				 .kind = i % 2 ? RT_READ_ANGLE : RT_READ_OFFSET,
				 .sigma = NAN};
	r->value = i % 2 ? turn - 360 * floor(turn / 360) + 0.05 * error(i)
			 : (x * v - y * u) / hypot(u, v) + 0.015 * error(i);
}

/* Two receivers, one of them turned by a radian. */
static void make_fix(struct rt_reading *r, int i)
{
	int point = i / 2 % PEGS, frame = 1 + i / (2 * PEGS);
	double turn = frame - 1, x = at[point][0], y = at[point][1];

	*r = (struct rt_reading){.at = names[point],
				 .kind = i % 2 ? RT_READ_Y : RT_READ_X,
				 .frame = frame,
				 .line = i / 2,
				 .sigma = NAN};
	r->value = (i % 2 ? sin(turn) * x + cos(turn) * y : cos(turn) * x - sin(turn) * y) +
		   0.02 * error(i);
}

static double now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static bool bench(const char *what, const struct rt_points *points,
		  const struct rt_readings *readings)
{
	double best = INFINITY;
	size_t aside = 0;

	for (int round = 0; round < ROUNDS; round++) {
		struct rt_adjustment a = {0};
		struct rt_error err = {0};
		double start = now();

		if (rt_adjust(&a, points, readings, &err) != RT_OK) {
			fprintf(stderr, "ring_mixed: %s\n", err.text);
			return false;
		}
		best = fmin(best, now() - start);
		aside = a.blunders;
		rt_adjustment_free(&a);
	}
	printf("adjust: 30 pegs, 300 readings of every kind, %s: %.2f ms, %zu set aside\n", what,
	       1000 * best, aside);
	return true;
}

int main(void)
{
	struct rt_point point[PEGS];
	struct rt_reading reading[READINGS];
	const struct rt_points points = {.at = point, .n = PEGS};
	const struct rt_readings readings = {.at = reading, .n = READINGS};
	bool ok;

	for (int i = 0; i < PEGS; i++) {
		snprintf(names[i], sizeof names[i], "P%d", i);
		at[i][0] = 10 * (i % ACROSS) + 0.3 * error(i);
		at[i][1] = 16 * (i / ACROSS) + 0.3 * error(i + 50);
		point[i] = (struct rt_point){names[i], 10 * (i % ACROSS), 16 * (i / ACROSS), false};
	}
	for (int i = 0; i < READINGS; i++) {
		if (i < 120)
			make_distance(&reading[i], i);
		else if (i < 180)
			make_of_line(&reading[i], i);
		else
			make_fix(&reading[i], i - 180);
	}
	ok = bench("none wrong", &points, &readings);
	reading[7].value += 0.5;
	reading[99].value -= 0.4;
	ok = ok && bench("two wrong", &points, &readings);
	return ok ? EXIT_SUCCESS : EXIT_FAILURE;
}
