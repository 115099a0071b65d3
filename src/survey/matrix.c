/* The linear algebra of least squares: QR, triangular systems, singular values.
 *
 * Written out, as a library's would report a failure to a handler of the whole process, which is
 * no one call's to set.  Matrices are row by row.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define ORTHOGONAL  1e-14 /* cosine of two columns: rounding of their product is 1e-15 */
#define NOTHING	    1e-13 /* of a column against the whole: rounding of what should be 0 is 1e-15 */
#define SWEEPS_MOST 60	  /* six to ten are usual */

void rt__qr(double *a, size_t rows, size_t n, double *b, double *room)
{
	for (size_t k = 0; k < n && k < rows; k++) {
		double square = 0, head = a[k * n + k], length, part = 0;

		for (size_t i = k; i < rows; i++)
			square += a[i * n + k] * a[i * n + k];
		length = copysign(sqrt(square), head);
		if (!(square > 0))
			continue;
		/* reflect by 1 - v vᵀ / (length v0), with v the column less its image (-length) */
		a[k * n + k] = head + length;
		memset(room + k, 0, (n - k) * sizeof *room);
		for (size_t i = k; i < rows; i++) {
			for (size_t j = k + 1; j < n; j++)
				room[j] += a[i * n + k] * a[i * n + j];
			part += b ? a[i * n + k] * b[i] : 0;
		}
		for (size_t i = k; i < rows; i++) {
			double v = a[i * n + k] / (length * a[k * n + k]);

			for (size_t j = k + 1; j < n; j++)
				a[i * n + j] -= v * room[j];
			if (b)
				b[i] -= v * part;
		}
		a[k * n + k] = -length;
		for (size_t i = k + 1; i < rows; i++)
			a[i * n + k] = 0;
	}
}

void rt__solve_upper(const double *r, size_t n, double *x)
{
	for (size_t i = n; i-- > 0;) {
		for (size_t k = i + 1; k < n; k++)
			x[i] -= r[i * n + k] * x[k];
		x[i] /= r[i * n + i];
	}
}

void rt__solve_upper_transposed(const double *r, size_t n, double *x)
{
	for (size_t i = 0; i < n; i++) {
		x[i] /= r[i * n + i];
		for (size_t k = i + 1; k < n; k++)
			x[k] -= r[i * n + k] * x[i];
	}
}

/* Turn columns p and q of a matrix by (c, s). */
static void turn_columns(double *a, size_t rows, size_t n, size_t p, size_t q, double c, double s)
{
	for (size_t i = 0; i < rows; i++) {
		double u = a[i * n + p], v = a[i * n + q];

		a[i * n + p] = c * u - s * v;
		a[i * n + q] = s * u + c * v;
	}
}

/* Make columns p and q orthogonal, the longer one first; says whether they were.  One whose square
 * is up to `nothing` is rounding, and orthogonal to all. */
static bool part_columns(double *a, size_t rows, size_t n, double *v, size_t p, size_t q,
			 double nothing)
{
	double pp = 0, qq = 0, pq = 0, ratio, tangent, c;

	for (size_t i = 0; i < rows; i++) {
		pp += a[i * n + p] * a[i * n + p];
		qq += a[i * n + q] * a[i * n + q];
		pq += a[i * n + p] * a[i * n + q];
	}
	if (fabs(pq) <= ORTHOGONAL * sqrt(pp) * sqrt(qq) || fmin(pp, qq) <= nothing) {
		if (pp < qq) {
			turn_columns(a, rows, n, p, q, 0, -1);
			turn_columns(v, n, n, p, q, 0, -1);
		}
		return true;
	}
	ratio = (qq - pp) / (2 * pq);
	tangent = copysign(1, ratio) / (fabs(ratio) + hypot(1, ratio));
	c = 1 / hypot(1, tangent);
	turn_columns(a, rows, n, p, q, c, c * tangent);
	turn_columns(v, n, n, p, q, c, c * tangent);
	return false;
}

bool rt__svd(double *a, size_t rows, size_t n, double *v, double *s)
{
	bool settled = false;
	double whole = 0;

	for (size_t i = 0; i < rows * n; i++)
		whole += a[i] * a[i];
	if (!isfinite(whole))
		return false;
	memset(v, 0, n * n * sizeof *v);
	for (size_t k = 0; k < n; k++)
		v[k * n + k] = 1;
	for (int sweep = 0; !settled && sweep < SWEEPS_MOST; sweep++) {
		settled = true;
		for (size_t p = 0; p + 1 < n; p++)
			for (size_t q = p + 1; q < n; q++)
				settled &= part_columns(a, rows, n, v, p, q,
							NOTHING * NOTHING * whole);
	}
	for (size_t k = 0; k < n; k++) {
		double square = 0;

		for (size_t i = 0; i < rows; i++)
			square += a[i * n + k] * a[i * n + k];
		s[k] = sqrt(square);
		for (size_t i = 0; i < rows && s[k] > 0; i++)
			a[i * n + k] /= s[k];
	}
	return settled;
}
