/* Invented rings and readings of them, for the tests of the ring room.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_RING_FIELD_H
#define TESTS_RING_FIELD_H

#include "check/internal.h"
#include "footing/internal.h"
#include "setout/internal.h"

#define COUNT(a)  (sizeof(a) / sizeof *(a))
#define AROUND	  16 /* pegs round a ring of 40 x 80 m; the centreline's come after */
#define RECTANGLE "AK-HC HC-CM CM-FA FA-AK AK-CM FA-HC "

extern const struct rt_ring_kind kind_40x80;

/* A ring as it stands, and readings of it. */
struct field {
	struct rt_pegs pegs;
	double at[64][2];
	struct rt_reading reading[256];
	struct rt_readings readings;
	uint64_t seed;
	double noise; /* of the readings, times their sigma */
};

void ck_near(const char *what, double got, double expected, double within);
void ck_has(const char *text, const char *part);

/* The same numbers on every machine. */
double uniform(uint64_t *seed);
double normal(uint64_t *seed);

/* A true ring of 40 x 80 m without readings. */
void field_open(struct field *f, double noise);
void field_close(struct field *f);
size_t peg_index(const struct field *f, const char *name);
void move_peg(struct field *f, const char *name, double dx, double dy);
/* One reading; the pairs of a list "K-F F-AK"; 52 readings round the ring; all up to 50 m; the
 * three dozen that a crew makes of the twelve main pegs; the fifty it makes of all sixteen. */
struct rt_reading *tape(struct field *f, size_t from, size_t to);
struct rt_reading *tape_names(struct field *f, const char *from, const char *to);
void tape_list(struct field *f, const char *pairs);
void tape_around(struct field *f);
void tape_all(struct field *f);
void tape_crew(struct field *f);
void tape_fifty(struct field *f);
/* The reading between two pegs is wrong by so much. */
void misread(struct field *f, const char *from, const char *to, double by);

/* Check the ring with a tolerance of 0.10 m; the test fails where that fails. */
void check_field(struct rt_ring_check *c, const struct field *f, enum rt_fit fit);
const struct rt_checked_peg *checked(const struct rt_ring_check *c, const char *name);
/* Adjust the pegs round the ring from their places turned and shifted, the first one fixed or
 * none. */
void adjust_pegs(struct rt_adjustment *out, const struct field *f, double turn, double shift,
		 bool one_fixed);

#endif
