/* office: a plan of start times under way; what its files share.
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 *   planner.c        from the ask to a planner
 *   plan_schedule.c  classes put where they fit: from a choice to times
 *   plan_cost.c      what a plan misses, and so its cost
 *   plan_search.c    choices that cost less
 *   plan_bound.c     what no choice can better
 *   plan_cause.c     who stands in the way of what is missed
 *   plan.c           from the ask to the plan, and which wish to drop */
#ifndef RT_TIMES_PLANNER_H
#define RT_TIMES_PLANNER_H

#include "internal.h"

#define RT__NONE  SIZE_MAX
#define RT__NEVER INT64_MAX

/* An entry that starts. */
struct rt__runner {
	const struct rt_entry *entry;
	int64_t place;		/* drawn; 0: none */
	size_t run;		/* its class */
	size_t use_from, use_n; /* in uses */
	int64_t head_s,
		tail_s; /* from the class's begin to it, from its end to the class's, least */
};

/* A class, whose runners stand side by side. */
struct rt__run {
	const struct rt_time_class *ask;
	size_t from, n;		/* runners */
	size_t use_from, use_n; /* judges and scribes, in uses */
	int64_t least_s;	/* from its first start to its last end when nobody waits */
	int64_t alone_s;	/* the same when only those of the class wait for each other */
	uint32_t days;		/* bit d: it may be on day d + 1 */
};

/* When somebody or something is taken, and as what. */
struct rt__taken {
	int64_t begin, end;
	enum rt_shared as;
};

struct rt__block {
	int64_t begin, end; /* a class in a ring */
};

/* What the search varies. */
struct rt__choice {
	size_t *order;	  /* of runs: the order they are placed in */
	size_t *ring;	  /* of a run */
	int64_t *day;	  /* of a run, from 1 */
	size_t *sequence; /* of runners: who starts when, within each run's part */
	bool *loose;	  /* of a run: waits stay where they come */
	int64_t *hold;	  /* of a runner: not before, of the day, to let another go first */
};

/* What a choice comes to. */
struct rt__placed {
	int64_t *at;	      /* of a runner */
	int64_t *begin, *end; /* of a run */
	size_t *sequence;     /* as in the choice, as it came to be where order is free */
};

/* Less is better, from the first to the last. */
struct rt__cost {
	int64_t hard, soft, last, rest;
};

/* A class that stays where it is, in a ring on a day. */
struct rt__kept {
	const char *class_name;
	size_t ring; /* RT__NONE: one that is not planned in */
	int64_t day, begin, end;
};

struct rt__takens RT_LIST(struct rt__taken);
struct rt__kepts RT_LIST(struct rt__kept);
struct rt__targets RT_LIST(size_t);

/* What a wish looks at. */
struct rt__aim {
	size_t from, n; /* its targets: runners, or runs of a wish about classes or judges */
	bool runs;
	size_t after_run;  /* of a class; RT__NONE: none that is planned */
	int64_t after_end; /* of a class that is kept; -1: none */
	bool dropped;
};

/* Which settings of a class are dropped, to see what they cost. */
struct rt__drops {
	bool *first, *day, *ring; /* of a run */
};

struct rt__planner {
	const struct rt_times_ask *ask;
	int64_t days;
	size_t rings;
	struct rt__run *run;
	size_t runs;
	struct rt__runner *runner;
	size_t runners;
	struct rt__sharers sharers;
	struct rt__uses uses;
	struct rt__drops drops;
	/* Musts of entries and classes that are kept to while placing: by day, then runner or run.
	 */
	int64_t *release, *due; /* of runners, in show seconds */
	int64_t *run_release;	/* of runs */
	/* When sharers are taken: those of kept starts first. */
	struct rt__taken *taken;
	size_t *taken_from, *taken_n, *taken_kept;
	size_t *taken_of_use; /* where the use's own is, in taken */
	/* Classes in rings, by day, then ring. */
	struct rt__block *block;
	size_t block_room, *block_n, *block_kept;
	bool *is_placed; /* of a run */
	/* What stays. */
	struct rt__kepts kept;
	struct rt__uses kept_uses;
	struct rt__takens kept_times; /* of kept_uses, one each */
	int64_t kept_last;	      /* the latest end, of the day */
	/* Wishes. */
	struct rt__aim *aim; /* as many as the ask's wishes */
	struct rt__targets targets;
	struct rt_arena *room; /* of all arrays */
};

/* ---- planner.c ---- */

enum rt_err rt__planner_make(struct rt__planner *p, const struct rt_times_ask *ask,
			     struct rt_error *err);
void rt__planner_free(struct rt__planner *p);
/* The most of the gaps that two starts keep; -1: they have nothing in common that is looked at. */
int64_t rt__gap_of_pair(const struct rt__planner *p, size_t a, size_t b);
/* Set what may be while placing from the wishes and settings that are not dropped. */
void rt__planner_musts(struct rt__planner *p);
/* Arrays from the arena *room; false when memory is out. */
bool rt__choice_make(struct rt__choice *c, const struct rt__planner *p, struct rt_arena **room);
bool rt__placed_make(struct rt__placed *placed, const struct rt__planner *p,
		     struct rt_arena **room);
void rt__choice_copy(struct rt__choice *to, const struct rt__choice *from,
		     const struct rt__planner *p);

/* ---- plan_schedule.c ---- */

/* The pause behind the i-th of n starts (from 0), and what it is. */
int64_t rt__pause_behind(const struct rt_time_class *k, size_t i, size_t n, enum rt_pause *what);
/* The first start asked for, -1 where none is or it is dropped. */
int64_t rt__first_of(const struct rt__planner *p, size_t run);
bool rt__may_be(const struct rt__planner *p, size_t run, int64_t day, size_t ring);
/* Forget all that was placed, but for what is kept. */
void rt__place_none(struct rt__planner *p);
/* Put one class on a day in a ring, behind what was placed before. */
void rt__place_run(struct rt__planner *p, const struct rt__choice *c, size_t run,
		   struct rt__placed *out);
/* Take the class that was placed last away again. */
void rt__unplace_run(struct rt__planner *p, const struct rt__choice *c, size_t run);
void rt__place_all(struct rt__planner *p, const struct rt__choice *c, struct rt__placed *out);

/* ---- plan_cost.c ---- */

/* Whether uses[from..from + n) hold the sharer as that. */
bool rt__uses_hold(const struct rt__planner *p, size_t from, size_t n, size_t sharer,
		   enum rt_shared as);
/* Find whom the wishes are about; false when memory is out. */
bool rt__aims_make(struct rt__planner *p);
/* By how much a wish is missed; 0: met. */
int64_t rt__missed(const struct rt__planner *p, const struct rt__choice *c,
		   const struct rt__placed *placed, size_t wish);
/* By how much the first start of a class is not when it was asked for. */
int64_t rt__first_missed(const struct rt__planner *p, const struct rt__choice *c,
			 const struct rt__placed *placed, size_t run);
/* How far a class runs past the end of the day. */
int64_t rt__over(const struct rt__planner *p, const struct rt__choice *c,
		 const struct rt__placed *placed, size_t run);
struct rt__cost rt__cost(const struct rt__planner *p, const struct rt__choice *c,
			 const struct rt__placed *placed);
int rt__cost_compare(const struct rt__cost *a, const struct rt__cost *b);

/* ---- plan_search.c ---- */

/* The best choice found in so many tries, and what it comes to. */
enum rt_err rt__search(struct rt__planner *p, size_t tries, struct rt__choice *best,
		       struct rt__placed *placed, struct rt__cost *cost, struct rt_error *err);

/* ---- plan_cause.c ---- */

/* Who or what keeps a class from being so much earlier, as far as its starts up to `last`: a
 * judge, driver, horse ... who is elsewhere then, the class before it in its ring, or one for whom
 * it has to wait.  In a sentence, into out; false where none is found.  All is placed as chosen. */
bool rt__cause(const struct rt__planner *p, const struct rt__choice *c,
	       const struct rt__placed *placed, size_t run, int64_t by_s, int64_t last, char *out,
	       size_t size);

/* ---- plan_bound.c ---- */

/* A time of day that the longest day of no plan ends before. */
enum rt_err rt__bound(const struct rt__planner *p, int64_t *out, struct rt_error *err);

#endif
