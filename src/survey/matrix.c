/* The linear algebra of least squares: QR and triangular systems.
 *
 * Written out, as a library's would report a failure to a handler of the whole process, which is
 * no one call's to set.  Matrices are row by row.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

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
