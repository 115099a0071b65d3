/* The growable array behind RT_LIST.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdlib.h>
#include <string.h>

/* at_field points to a `T *` of any T; object pointers share one representation here, so it is
 * read and written by memcpy, which needs no cast between pointer types. */
void *rt_list_add(void *at_field, size_t *n, size_t *cap, size_t size)
{
	unsigned char *at;

	memcpy(&at, at_field, sizeof at);
	if (*n == *cap) {
		size_t room = *cap ? *cap * 2 : 8;

		if (room > SIZE_MAX / size)
			return NULL;
		at = realloc(at, room * size);
		if (!at)
			return NULL;
		memcpy(at_field, &at, sizeof at);
		*cap = room;
	}
	at += *n * size;
	memset(at, 0, size);
	*n += 1;
	return at;
}

void rt_list_clear(void *at_field, size_t *n, size_t *cap, struct rt_arena **text)
{
	void *at;

	memcpy(&at, at_field, sizeof at);
	free(at);
	at = NULL;
	memcpy(at_field, &at, sizeof at);
	*n = *cap = 0;
	rt_arena_free(*text);
	*text = NULL;
}
