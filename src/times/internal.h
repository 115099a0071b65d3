/* office: what the files of the draw and the times share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_TIMES_INTERNAL_H
#define RT_TIMES_INTERNAL_H

#include <ringtrue/times.h>

/* Up to the next multiple of step_s. */
int64_t rt__step_up(int64_t s, int64_t step_s);

/* ---- random numbers ---------------------------------------------------------------------- */

struct rt__random {
	uint64_t state;
};

struct rt__random rt__random(int64_t seed);
/* The next 64 bits of splitmix64. */
uint64_t rt__random_next(struct rt__random *r);
/* A number below n (n > 0), each as likely as the other. */
size_t rt__random_below(struct rt__random *r, size_t n);

/* ---- who and what is shared -------------------------------------------------------------- */

/* People, horses and carriages by number. */
struct rt__sharers {
	struct rt_map *map;
	struct rt_strings names; /* as first written */
	bool nomem;
};

struct rt__use {
	size_t sharer;
	enum rt_shared as;
};

struct rt__uses RT_LIST(struct rt__use);

/* The number of a name of that kind; RT_MAP_NONE when memory is out, which sharers notes. */
size_t rt__sharer(struct rt__sharers *sharers, enum rt_shared as, const char *name);
/* The number of a name that is there already, or RT_MAP_NONE. */
size_t rt__sharer_find(struct rt__sharers *sharers, enum rt_shared as, const char *name);
/* Append what an entry takes part with, each once: of carriages the one that it names. */
void rt__uses_of_entry(struct rt__uses *out, struct rt__sharers *sharers,
		       const struct rt_entry *entry);
/* Append the judges and scribes of a class. */
void rt__uses_of_class(struct rt__uses *out, struct rt__sharers *sharers,
		       const struct rt_class *class_);
void rt__sharers_free(struct rt__sharers *sharers);
/* The gap asked for between two uses of one sharer; negative: not looked at. */
int64_t rt__gap(const struct rt_time_settings *settings, enum rt_shared a, enum rt_shared b);
/* The table of rt_shares_report. */
extern const struct rt_record rt__shares_table;
/* What is told of the two: the one that is less usual to be. */
enum rt_shared rt__shared_of(enum rt_shared a, enum rt_shared b);

#endif
