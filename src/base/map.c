/* From a name to a number: open addressing, at most half full, FNV-1a hash.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdlib.h>
#include <string.h>

struct slot {
	const char *key; /* NULL: free */
	size_t value;
};

struct rt_map {
	struct slot *slot;
	size_t slots; /* a power of two */
	size_t used;
	struct rt_arena *text;
};

static size_t hash(const char *key)
{
	uint64_t h = UINT64_C(14695981039346656037);

	for (; *key; key++)
		h = (h ^ (unsigned char)*key) * UINT64_C(1099511628211);
	return (size_t)(h ^ (h >> 32));
}

/* The slot that holds key, or the free one where it would go. */
static struct slot *find(const struct rt_map *m, const char *key)
{
	size_t i = hash(key) & (m->slots - 1);

	while (m->slot[i].key && strcmp(m->slot[i].key, key) != 0)
		i = (i + 1) & (m->slots - 1);
	return &m->slot[i];
}

static bool grow(struct rt_map *m)
{
	struct rt_map wide = {.slots = m->slots ? m->slots * 2 : 64};

	wide.slot = calloc(wide.slots, sizeof *wide.slot);
	if (!wide.slot)
		return false;
	for (size_t i = 0; i < m->slots; i++)
		if (m->slot[i].key)
			*find(&wide, m->slot[i].key) = m->slot[i];
	free(m->slot);
	m->slot = wide.slot;
	m->slots = wide.slots;
	return true;
}

size_t rt_map_put(struct rt_map **m, const char *key, size_t value, bool *nomem)
{
	struct slot *s;

	if (!*m && !(*m = calloc(1, sizeof **m)))
		goto nomem;
	if ((*m)->used * 2 >= (*m)->slots && !grow(*m))
		goto nomem;
	s = find(*m, key);
	if (s->key)
		return s->value;
	s->key = rt_arena_string(&(*m)->text, key);
	if (!s->key)
		goto nomem;
	s->value = value;
	(*m)->used++;
	return RT_MAP_NONE;
nomem:
	*nomem = true;
	return RT_MAP_NONE;
}

size_t rt_map_get(const struct rt_map *m, const char *key)
{
	const struct slot *s;

	if (!m || !m->slots)
		return RT_MAP_NONE;
	s = find(m, key);
	return s->key ? s->value : RT_MAP_NONE;
}

void rt_map_free(struct rt_map *m)
{
	if (!m)
		return;
	free(m->slot);
	rt_arena_free(m->text);
	free(m);
}
