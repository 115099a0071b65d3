/* Rank correlation of two views of the same entries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <gsl/gsl_statistics_double.h>
#include <math.h>

/* The rank of each value, equal ones sharing the mean of their ranks. */
static void average_ranks(const double *value, size_t n, double *rank)
{
	for (size_t i = 0; i < n; i++) {
		size_t below = 0, equal = 0;

		for (size_t k = 0; k < n; k++) {
			below += value[k] < value[i];
			equal += value[k] <= value[i] && value[k] >= value[i];
		}
		rank[i] = (double)below + ((double)equal + 1) / 2;
	}
}

static bool all_equal(const double *value, size_t n)
{
	for (size_t i = 1; i < n; i++)
		if (value[i] < value[0] || value[i] > value[0])
			return false;
	return true;
}

static bool says_nothing(const double *x, const double *y, size_t n)
{
	return n < RT__RANKED_LEAST || all_equal(x, n) || all_equal(y, n);
}

double rt__spearman(const double *x, const double *y, size_t n, double *room)
{
	if (says_nothing(x, y, n))
		return NAN;
	average_ranks(x, n, room);
	average_ranks(y, n, room + n);
	return gsl_stats_correlation(room, 1, room + n, 1, n);
}

static int sign(double v)
{
	return (v > 0) - (v < 0);
}

double rt__kendall(const double *x, const double *y, size_t n)
{
	double agree = 0, apart_x = 0, apart_y = 0; /* pairs */

	if (says_nothing(x, y, n))
		return NAN;
	for (size_t i = 0; i < n; i++) {
		for (size_t k = 0; k < i; k++) {
			int a = sign(x[i] - x[k]), b = sign(y[i] - y[k]);

			agree += a * b;
			apart_x += a != 0;
			apart_y += b != 0;
		}
	}
	return agree / sqrt(apart_x * apart_y);
}
