/* Random numbers that are the same on every machine: splitmix64.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

struct rt__random rt__random(int64_t seed)
{
	return (struct rt__random){(uint64_t)seed};
}

/* Constants and shifts: G. L. Steele, D. Lea, C. H. Flood, OOPSLA 2014, figure 16. */
uint64_t rt__random_next(struct rt__random *r)
{
	uint64_t z = r->state += UINT64_C(0x9e3779b97f4a7c15);

	z = (z ^ z >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
	z = (z ^ z >> 27) * UINT64_C(0x94d049bb133111eb);
	return z ^ z >> 31;
}

/* 2^64 modulo n numbers at the top are passed over: the others are a whole multiple of n. */
size_t rt__random_below(struct rt__random *r, size_t n)
{
	uint64_t beyond = (UINT64_MAX % n + 1) % n, number;

	do
		number = rt__random_next(r);
	while (number > UINT64_MAX - beyond);
	return (size_t)(number % n);
}
