/* Many small strings, freed at once: a chain of blocks, the newest first.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdalign.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define BLOCK_SIZE ((size_t)4000)

struct block {
	struct block *older;
	size_t used, size;
	alignas(max_align_t) unsigned char bytes[];
};

struct rt_arena {
	struct block *newest;
};

static struct block *block_add(struct rt_arena *a, size_t need)
{
	size_t size = need > BLOCK_SIZE ? need : BLOCK_SIZE;
	struct block *b = calloc(1, sizeof *b + size);

	if (!b)
		return NULL;
	b->size = size;
	b->older = a->newest;
	a->newest = b;
	return b;
}

void *rt_arena_take(struct rt_arena **a, size_t size)
{
	const size_t step = alignof(max_align_t);
	size_t need = (size + step - 1) / step * step;
	struct block *b;
	void *bytes;

	if (need < size || need > SIZE_MAX / 2)
		return NULL;
	if (!*a && !(*a = calloc(1, sizeof **a)))
		return NULL;
	b = (*a)->newest;
	if (!b || b->size - b->used < need)
		b = block_add(*a, need);
	if (!b)
		return NULL;
	bytes = b->bytes + b->used;
	b->used += need;
	return bytes;
}

const char *rt_arena_copy(struct rt_arena **a, const char *s, size_t n)
{
	char *copy = rt_arena_take(a, n + 1);

	if (copy && n)
		memcpy(copy, s, n);
	return copy;
}

const char *rt_arena_string(struct rt_arena **a, const char *s)
{
	return s ? rt_arena_copy(a, s, strlen(s)) : NULL;
}

const char *rt_arena_vtextf(struct rt_arena **a, const char *fmt, va_list args)
{
	va_list again;
	char *s = NULL;
	int n;

	va_copy(again, args);
	n = vsnprintf(NULL, 0, fmt, again);
	va_end(again);
	if (n >= 0)
		s = rt_arena_take(a, (size_t)n + 1);
	if (s)
		vsnprintf(s, (size_t)n + 1, fmt, args);
	return s;
}

const char *rt_arena_textf(struct rt_arena **a, const char *fmt, ...)
{
	const char *s;
	va_list args;

	va_start(args, fmt);
	s = rt_arena_vtextf(a, fmt, args);
	va_end(args);
	return s;
}

void rt_arena_free(struct rt_arena *a)
{
	if (!a)
		return;
	while (a->newest) {
		struct block *b = a->newest;

		a->newest = b->older;
		free(b);
	}
	free(a);
}
