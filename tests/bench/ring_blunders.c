/* What becomes of wrong readings: random rings that are true, fifty readings of sixteen pegs with
 * none to four of them wrong, and how ring check ends.
 *
 * usage: ring_blunders [RINGS [SEED]]; a row for each number of wrong readings, in parts of a
 * hundred: found (just those set aside), partly (some of those, nothing else), also (all of those
 * and good ones), amiss (good ones for wrong ones), in doubt (no peg is judged), called off (a good
 * peg is told to move: the promise is 0), and rings checked a second.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/check.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define PEGS	 16
#define READINGS 50
#define MOST	 4

static struct rt_letter letters[] = {
	{"A", RT_SIDE_A, 20}, {"K", RT_LEFT, 10},  {"V", RT_LEFT, 25},	{"E", RT_LEFT, 40},
	{"S", RT_LEFT, 55},   {"H", RT_LEFT, 70},  {"F", RT_RIGHT, 10}, {"P", RT_RIGHT, 25},
	{"B", RT_RIGHT, 40},  {"R", RT_RIGHT, 55}, {"M", RT_RIGHT, 70}, {"C", RT_SIDE_C, 20}};

static const struct rt_ring_kind kind = {
	.name = "driven-40x80",
	.discipline = RT_DRIVEN,
	.width_m = 40,
	.length_m = 80,
	.letters = {.at = letters, .n = sizeof letters / sizeof *letters}};

static const char *const pairs[READINGS][2] = {
	{"AK", "K"}, {"K", "V"},  {"V", "E"},  {"E", "S"},   {"S", "H"},   {"H", "HC"},
	{"FA", "F"}, {"F", "P"},  {"P", "B"},  {"B", "R"},   {"R", "M"},   {"M", "CM"},
	{"AK", "A"}, {"A", "FA"}, {"HC", "C"}, {"C", "CM"},  {"AK", "FA"}, {"K", "F"},
	{"V", "P"},  {"E", "B"},  {"S", "R"},  {"H", "M"},   {"HC", "CM"}, {"AK", "F"},
	{"FA", "K"}, {"K", "P"},  {"F", "V"},  {"V", "B"},   {"P", "E"},   {"E", "R"},
	{"B", "S"},  {"S", "M"},  {"R", "H"},  {"H", "CM"},  {"M", "HC"},  {"A", "K"},
	{"A", "F"},  {"C", "H"},  {"C", "M"},  {"AK", "CM"}, {"FA", "HC"}, {"K", "E"},
	{"E", "H"},  {"F", "B"},  {"B", "M"},  {"A", "V"},   {"A", "P"},   {"C", "S"},
	{"C", "R"},  {"E", "P"}};

struct tally {
	double found, partly, also, amiss, doubt, called_off, seconds, worst;
};

/* Lehmer's generator and twelve of it: the same numbers on every machine. */
static double uniform(uint64_t *seed)
{
	*seed = *seed * 48271 % 2147483647;
	return (double)*seed / 2147483647;
}

static double normal(uint64_t *seed)
{
	double sum = -6;

	for (int i = 0; i < 12; i++)
		sum += uniform(seed);
	return sum;
}

static double now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void make_readings(struct rt_reading *reading, const struct rt_pegs *pegs, int wrong,
			  bool *is_wrong, uint64_t *seed)
{
	memset(is_wrong, 0, READINGS * sizeof *is_wrong);
	for (int i = 0; i < READINGS; i++) {
		const struct rt_peg *p = rt_peg_find(pegs, pairs[i][0]);
		const struct rt_peg *q = rt_peg_find(pegs, pairs[i][1]);
		double d = hypot(q->x_m - p->x_m, q->y_m - p->y_m);

		reading[i] = (struct rt_reading){.from = p->name,
						 .to = q->name,
						 .value = d + normal(seed) * (0.010 + 0.0002 * d),
						 .sigma = NAN};
	}
	while (wrong) {
		int i = (int)(uniform(seed) * READINGS);
		double by = 0.15 + 1.85 * uniform(seed);

		if (i == READINGS || is_wrong[i])
			continue;
		reading[i].value += uniform(seed) < 0.5 ? -by : by;
		is_wrong[i] = true;
		wrong--;
	}
}

static void count(struct tally *t, const struct rt_ring_check *c, const bool *is_wrong, int wrong)
{
	int good = 0, bad = 0;

	for (int i = 0; i < READINGS; i++) {
		bool aside = c->adjustment.reading[i].verdict == RT_READING_BLUNDER;

		good += aside && !is_wrong[i];
		bad += aside && is_wrong[i];
	}
	t->found += !good && bad == wrong;
	t->partly += !good && bad < wrong;
	t->also += good && bad == wrong;
	t->amiss += good && bad < wrong;
	t->doubt += c->verdict == RT_RING_DOUBT;
	t->called_off += c->to_move > 0;
}

static bool run(struct tally *t, const struct rt_pegs *pegs, int rings, int wrong, uint64_t *seed)
{
	struct rt_reading reading[READINGS];
	const struct rt_readings readings = {.at = reading, .n = READINGS};
	bool is_wrong[READINGS];

	for (int i = 0; i < rings; i++) {
		struct rt_ring_check c = {0};
		struct rt_error err = {0};
		double start;
		enum rt_err e;

		make_readings(reading, pegs, wrong, is_wrong, seed);
		start = now();
		e = rt_ring_check(&c, &kind, &readings, 0.10, RT_FIT_FEWEST, &err);
		start = now() - start;
		t->seconds += start;
		t->worst = fmax(t->worst, start);
		if (e) {
			fprintf(stderr, "%s\n", err.text);
			return false;
		}
		count(t, &c, is_wrong, wrong);
		rt_ring_check_free(&c);
	}
	return true;
}

int main(int argc, char **argv)
{
	int rings = argc > 1 ? atoi(argv[1]) : 1000;
	uint64_t seed = argc > 2 ? (uint64_t)strtoull(argv[2], NULL, 10) : 7;
	struct rt_pegs pegs = {0};
	bool ok = rings > 0 && rt_ring_pegs(&pegs, &kind, NULL) == RT_OK;

	printf("wrong  found  partly  also  amiss  in doubt  called off  rings/s  slowest ms\n");
	for (int wrong = 0; ok && wrong <= MOST; wrong++) {
		struct tally t = {0};
		double part = 100.0 / rings;

		ok = run(&t, &pegs, rings, wrong, &seed);
		printf("%5d  %5.1f  %6.1f  %4.1f  %5.1f  %8.1f  %10.1f  %7.0f  %10.1f\n", wrong,
		       part * t.found, part * t.partly, part * t.also, part * t.amiss,
		       part * t.doubt, part * t.called_off, rings / t.seconds, 1000 * t.worst);
	}
	rt_pegs_free(&pegs);
	return ok ? 0 : 1;
}
