/* How likely a peg is within tolerance: the normal distribution in two dimensions over a disc.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

#define FAR	   9.0	/* standard errors: beyond them are 2e-19 */
#define LINE	   1e-6 /* a second axis under this part of the first: all lies on a line */
#define PANEL	   4.0	/* standard errors a panel of the quadrature takes; true to 1e-12 */
#define PANELS	   200.0
#define ROOT_TWO   1.4142135623730951
#define ROOT_TWOPI 2.5066282746310002

/* A normal distribution along its axes, the longer one first. */
struct spread {
	double middle[2], error[2];
};

static struct spread along_axes(const double offset[2], const double c[3])
{
	double mean = (c[0] + c[2]) / 2, apart = (c[0] - c[2]) / 2, half = hypot(apart, c[1]);
	double turn = atan2(c[1], apart) / 2, x = cos(turn), y = sin(turn);

	return (struct spread){
		.middle = {x * offset[0] + y * offset[1], x * offset[1] - y * offset[0]},
		.error = {sqrt(fmax(mean + half, 0)), sqrt(fmax(mean - half, 0))},
	};
}

/* The part of the first axis between -half and half. */
static double between(const struct spread *s, double half)
{
	double low = (-half - s->middle[0]) / s->error[0],
	       high = (half - s->middle[0]) / s->error[0];

	/* from the nearer tail, so that a small part keeps its digits */
	if (low > 0)
		return (erfc(low / ROOT_TWO) - erfc(high / ROOT_TWO)) / 2;
	return (erfc(-high / ROOT_TWO) - erfc(-low / ROOT_TWO)) / 2;
}

/* The disc is cut across the second axis at `radius` sin(angle): so its edges do no harm. */
static double integrand(const struct spread *s, double radius, double angle)
{
	double half = radius * cos(angle);
	double z = (radius * sin(angle) - s->middle[1]) / s->error[1];

	return half * exp(-z * z / 2) / (ROOT_TWOPI * s->error[1]) * between(s, half);
}

/* Gauss and Legendre's quadrature of 16 points (M. Abramowitz and I. A. Stegun, 1964, table
 * 25.4). */
static double panel(const struct spread *s, double radius, double low, double high)
{
	static const double place[] = {0.0950125098376374, 0.2816035507792589, 0.4580167776572274,
				       0.6178762444026438, 0.7554044083550030, 0.8656312023878318,
				       0.9445750230732326, 0.9894009349916499};
	static const double weight[] = {0.1894506104550685, 0.1826034150449236, 0.1691565193950025,
					0.1495959888165767, 0.1246289712555339, 0.0951585116824928,
					0.0622535239386479, 0.0271524594117541};
	double middle = (low + high) / 2, half = (high - low) / 2, sum = 0;

	for (int i = 0; i < 8; i++)
		sum += weight[i] * (integrand(s, radius, middle - half * place[i]) +
				    integrand(s, radius, middle + half * place[i]));
	return half * sum;
}

static double over_disc(const struct spread *s, double radius)
{
	double from = fmax(-radius, s->middle[1] - FAR * s->error[1]);
	double to = fmin(radius, s->middle[1] + FAR * s->error[1]);
	double low = asin(from / radius), high = asin(to / radius), sum = 0;
	double widest = low < 0 && high > 0 ? 1 : fmax(cos(low), cos(high));
	double errors = (to - from) / s->error[1] +
			radius * (widest - fmin(cos(low), cos(high))) / s->error[0];
	int panels = 1 + (int)fmin(PANELS, errors / PANEL);

	if (!(from < to))
		return 0;
	for (int i = 0; i < panels; i++)
		sum += panel(s, radius, low + (high - low) * i / panels,
			     low + (high - low) * (i + 1) / panels);
	return sum;
}

double rt_within(const double offset_m[2], const double covariance_m2[3], double tolerance_m)
{
	struct spread s = along_axes(offset_m, covariance_m2);
	double off = hypot(offset_m[0], offset_m[1]), half;

	if (off <= tolerance_m - FAR * s.error[0])
		return 1;
	if (off > tolerance_m + FAR * s.error[0])
		return 0;
	if (s.error[1] > LINE * s.error[0])
		return fmin(1, over_disc(&s, tolerance_m));
	half = tolerance_m * tolerance_m - s.middle[1] * s.middle[1];
	return half > 0 ? between(&s, sqrt(half)) : 0;
}
