/* Invented rings and readings of them, for the tests of the ring room.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "ring_field.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

void ck_near(const char *what, double got, double expected, double within)
{
	ck_assert_msg(fabs(got - expected) <= within, "%s: %.13g, not %.13g +- %g", what, got,
		      expected, within);
}

void ck_has(const char *text, const char *part)
{
	ck_assert_msg(strstr(text, part) != NULL, "\"%s\" does not say \"%s\"", text, part);
}

static struct rt_letter letters_40x80[] = {
	{"A", RT_SIDE_A, 20}, {"K", RT_LEFT, 10},   {"V", RT_LEFT, 25},	  {"E", RT_LEFT, 40},
	{"S", RT_LEFT, 55},   {"H", RT_LEFT, 70},   {"F", RT_RIGHT, 10},  {"P", RT_RIGHT, 25},
	{"B", RT_RIGHT, 40},  {"R", RT_RIGHT, 55},  {"M", RT_RIGHT, 70},  {"C", RT_SIDE_C, 20},
	{"D", RT_CENTRE, 10}, {"L", RT_CENTRE, 25}, {"X", RT_CENTRE, 40}, {"I", RT_CENTRE, 55},
	{"G", RT_CENTRE, 70}};

const struct rt_ring_kind kind_40x80 = {
	.name = "driven-40x80",
	.discipline = RT_DRIVEN,
	.width_m = 40,
	.length_m = 80,
	.letters = {.at = letters_40x80, .n = COUNT(letters_40x80)},
};

/* The same numbers on every machine: a multiplicative generator (Lehmer, 1951). */
double uniform(uint64_t *seed)
{
	*seed = *seed * 48271 % 2147483647;
	return (double)*seed / 2147483647;
}

double normal(uint64_t *seed)
{
	double sum = -6;

	for (int i = 0; i < 12; i++)
		sum += uniform(seed);
	return sum;
}

void field_open(struct field *f, double noise)
{
	memset(f, 0, sizeof *f);
	f->seed = 7;
	f->noise = noise;
	f->readings.at = f->reading;
	ck_assert_int_eq(rt_ring_pegs(&f->pegs, &kind_40x80, NULL), RT_OK);
	for (size_t i = 0; i < f->pegs.n; i++) {
		f->at[i][0] = f->pegs.at[i].x_m;
		f->at[i][1] = f->pegs.at[i].y_m;
	}
}

void field_close(struct field *f)
{
	rt_pegs_free(&f->pegs);
}

size_t peg_index(const struct field *f, const char *name)
{
	const struct rt_peg *peg = rt_peg_find(&f->pegs, name);

	ck_assert_msg(peg != NULL, "no peg %s", name);
	return (size_t)(peg - f->pegs.at);
}

void move_peg(struct field *f, const char *name, double dx, double dy)
{
	size_t i = peg_index(f, name);

	f->at[i][0] += dx;
	f->at[i][1] += dy;
}

struct rt_reading *tape(struct field *f, size_t from, size_t to)
{
	struct rt_reading *r = &f->reading[f->readings.n++];
	double d = hypot(f->at[to][0] - f->at[from][0], f->at[to][1] - f->at[from][1]);

	ck_assert_uint_le(f->readings.n, COUNT(f->reading));
	*r = (struct rt_reading){
		.from = f->pegs.at[from].name, .to = f->pegs.at[to].name, .value = d, .sigma = NAN};
	r->value += f->noise * normal(&f->seed) * rt_reading_sigma(r);
	return r;
}

struct rt_reading *tape_names(struct field *f, const char *from, const char *to)
{
	return tape(f, peg_index(f, from), peg_index(f, to));
}

/* 52 readings between the 16 pegs round the ring. */
void tape_around(struct field *f)
{
	static const size_t ahead[] = {1, 2, 5, 8};

	for (size_t k = 0; k < COUNT(ahead); k++) {
		for (size_t i = 0; i < (k == 3 ? 4 : AROUND); i++)
			tape(f, i, (i + ahead[k]) % AROUND);
	}
}

/* All readings up to 50 m between all pegs, the centreline's too. */
void tape_all(struct field *f)
{
	for (size_t i = 0; i < f->pegs.n; i++) {
		for (size_t k = 0; k < i; k++) {
			if (hypot(f->at[i][0] - f->at[k][0], f->at[i][1] - f->at[k][1]) < 50)
				tape(f, i, k);
		}
	}
}

const struct rt_checked_peg *checked(const struct rt_ring_check *c, const char *name)
{
	for (size_t i = 0; i < c->pegs; i++) {
		if (strcmp(c->peg[i].peg.name, name) == 0)
			return &c->peg[i];
	}
	ck_abort_msg("peg %s was not checked", name);
	return NULL;
}

void check_field(struct rt_ring_check *c, const struct field *f, enum rt_fit fit)
{
	struct rt_error err = {0};
	enum rt_err e = rt_ring_check(c, &kind_40x80, &f->readings, 0.10, fit, &err);

	ck_assert_msg(e == RT_OK, "%s", err.text);
}

void tape_list(struct field *f, const char *pairs)
{
	char list[256], *save = NULL;

	snprintf(list, sizeof list, "%s", pairs);
	for (char *pair = strtok_r(list, " ", &save); pair; pair = strtok_r(NULL, " ", &save)) {
		char *dash = strchr(pair, '-');

		ck_assert_ptr_nonnull(dash);
		*dash = '\0';
		tape_names(f, pair, dash + 1);
	}
}

/* A thirty-odd reading check of the twelve main pegs of a ring. */
void tape_crew(struct field *f)
{
	tape_list(f, "AK-K AK-E AK-H AK-HC FA-F FA-B FA-M FA-CM AK-A AK-FA HC-C HC-CM ");
	tape_list(f, "AK-CM FA-HC A-E A-B C-E C-B K-F H-M E-B K-B F-E H-B M-E K-M F-H A-K A-F ");
	tape_list(f, "C-H C-M A-C");
}

void tape_fifty(struct field *f)
{
	tape_list(f, "AK-K K-V V-E E-S S-H H-HC FA-F F-P P-B B-R R-M M-CM AK-A A-FA HC-C C-CM ");
	tape_list(f, "AK-FA K-F V-P E-B S-R H-M HC-CM AK-F FA-K K-P F-V V-B P-E E-R B-S S-M R-H ");
	tape_list(f, "H-CM M-HC A-K A-F C-H C-M AK-CM FA-HC K-E E-H F-B B-M A-V A-P C-S C-R E-P");
}

void misread(struct field *f, const char *from, const char *to, double by)
{
	for (size_t i = 0; i < f->readings.n; i++) {
		struct rt_reading *r = &f->reading[i];

		if (strcmp(r->from, from) == 0 && strcmp(r->to, to) == 0) {
			r->value += by;
			return;
		}
	}
	ck_abort_msg("no reading %s-%s", from, to);
}

void adjust_pegs(struct rt_adjustment *out, const struct field *f, double turn, double shift,
		 bool one_fixed)
{
	struct rt_point point[AROUND];
	struct rt_points points = {.at = point, .n = AROUND};
	struct rt_error err = {0};
	enum rt_err e;

	for (size_t i = 0; i < AROUND; i++) {
		double x = f->pegs.at[i].x_m, y = f->pegs.at[i].y_m;

		point[i].name = f->pegs.at[i].name;
		point[i].x_m = shift + cos(turn) * x - sin(turn) * y;
		point[i].y_m = shift + sin(turn) * x + cos(turn) * y;
		point[i].fixed = false;
	}
	point[0].fixed = one_fixed;
	e = rt_adjust(out, &points, &f->readings, &err);
	ck_assert_msg(e == RT_OK, "%s", err.text);
}
