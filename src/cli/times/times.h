/* cli: what the commands of the draw and the times share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_CLI_TIMES_H
#define RT_CLI_TIMES_H

#include "../cli.h"

/* What start times are made from, beside the classes and entries of the show.  Start it zeroed. */
struct cli_times {
	struct rt_plan_rows rows;
	struct rt_wishes wishes;
	struct rt_time_settings settings;
	bool planned; /* settings are those of a plan */
	struct rt_starts starts;
};

/* Open the show and read it all. */
void cli_times_read(struct cli *c, bool writing, struct cli_times *in);
void cli_times_free(struct cli_times *in);
/* The ring of that name, but for case and accents, or RT_E_NOTFOUND with those there are. */
void cli_ring_named(struct cli *c, const char *name, const char **out);
/* The reader of an option that is a time of day: int64_t, seconds of the day. */
enum rt_err cli_read_time(const struct rt_field *f, void *member, const char *s,
			  struct rt_arena **text, struct rt_error *err);
#define CLI_TIME .head = "TIME", .type = RT_OWN, .read = cli_read_time
/* When it is by --date. */
struct cli_now {
	int64_t day;		     /* of the show; 0: no day of it */
	int64_t at_s;		     /* since its first midnight */
	int64_t days;		     /* of its plan, or to its last start */
	char first_day[RT_DAY_SIZE]; /* YYYY-MM-DD */
};
struct cli_now cli_show_now(struct cli *c, const struct cli_times *in);
/* Append who gives the sheets of positions whose judge was replaced, of all those classes. */
void cli_judged(struct cli *c, const struct rt_classes *classes, struct rt_judge_sheets *out);
/* Note who of classes that have times has none. */
void cli_note_untimed(struct cli *c, const struct rt_starts *starts, const char *class_name);
/* A random seed where none is given. */
void cli_seed(struct cli *c, int64_t *seed);
/* The start of an entry; NULL: it has none. */
const struct rt_start *cli_start_of(const struct rt_starts *starts, const struct rt_entry *entry);
/* The clashes of starts as they stand. */
void cli_clashes(struct cli *c, const struct cli_times *in, const struct rt_starts *starts,
		 struct rt_clashes *out);

/* When each entry of a class starts, as ranks: by the start times, else as drawn, else by number.
 * Who has no start yet comes behind all that have.  *by: the order that it is. */
enum rt_err cli_rank_starts(struct cli *c, const char *class_name, const struct rt_entries *entries,
			    int64_t *rank, const char **by);

/* cmd_times_day.c: give an entry a start time, and tell all that changes; ring NULL and day 0: as
 * it is, or as those of its class have it. */
struct cli_times_move {
	const char *class_name, *ring, *why, *by;
	int64_t number, at_s, day; /* at_s: of the day */
};
void cli_times_move(struct cli *c, const struct cli_times_move *asked);

/* What is typed for times plan. */
struct cli_times_plan {
	const char *only, *hours, *why, *by;
	int64_t days, change_min, margin_s, seed;
	int64_t gap_s[RT_SHARED_COUNT];
	bool again, seconds, trying;
};
extern const struct rt_field cli_times_plan_options[16];

/* plan_settings.c: what a plan keeps to: what is typed, else as in the plan before. */
void cli_plan_settings(struct cli *c, const struct cli_times_plan *o, const struct cli_times *in,
		       struct rt_time_settings *s);
/* A class whose start times a plan leaves as they are. */
struct cli_stay {
	const char *class_name, *why;
	bool begun; /* else its delay was said */
};

/* Start it zeroed. */
struct cli_stays {
	struct cli_stay *at;
	size_t n, cap;
	struct rt_arena *text;
	int64_t under_way_s; /* now, where any has begun; 0: none has */
};

/* plan_stays.c: the classes of which anybody has started by --date or has marks, or stands where a
 * delay put it. */
void cli_plan_stays(struct cli *c, const struct cli_times *in, struct cli_stays *stays);
/* Why a class stays; NULL: it can be planned. */
const struct cli_stay *cli_stay_of(const struct cli_stays *stays, const char *class_name);

/* plan_classes.c: the classes that have starters and do not stay (the one asked for, else all),
 * each with the rings that it could be in and its interval, which is the plan row's or that of its
 * test with the margin beside it. */
void cli_plan_classes(struct cli *c, const struct cli_times *in, const struct cli_stays *stays,
		      const struct cli_times_plan *asked, struct rt_time_classes *out);

/* What a list is narrowed to; NULL and 0: all. */
struct cli_narrowing {
	const char *ring, *class_name, *driver;
	int64_t day;
};
extern const struct rt_field cli_narrowing_options[4];
/* Its options in a struct that holds it: `CLI_NARROWING(struct paper, only.)`. */
#define CLI_NARROWING(of_, path)                                                                   \
	{"ring", RT_AT(of_, path ring), .type = RT_NAME, .help = "only of this ring"},             \
		{"class", RT_AT(of_, path class_name), .type = RT_NAME,                            \
		 .help = "only of this class"},                                                    \
		{"day",                                                                            \
		 RT_AT(of_, path day),                                                             \
		 .head = "N",                                                                      \
		 .type = RT_INT,                                                                   \
		 .low = 1,                                                                         \
		 .high = RT_DAYS_MOST,                                                             \
		 .help = "only of this day of the show"},                                          \
	{                                                                                          \
		"driver", RT_AT(of_, path driver),                                                 \
			.head = "NAME", .type = RT_NAME,                                           \
			.help = "only of a driver or groom, by any part of the name"               \
	}

/* What was typed, by the names that the show has. */
void cli_narrowing_find(struct cli *c, struct cli_narrowing *only);
/* The starts that are wanted, appended to out. */
void cli_narrow(struct cli *c, const struct rt_starts *all, const struct cli_narrowing *only,
		struct rt_starts *out);
/* The lists that are wanted with the version of the times that each last changed in; version not
 * 0: only those that changed in it. */
extern const struct rt_record cli_lists_table;
void cli_report_lists(struct cli *c, const char *title, const struct cli_narrowing *only,
		      int64_t version);

/* lists.c: the lists of a paper as they would be printed now, from those of all starts that are
 * wanted, which it appends to wanted; of tells for whom, and has the classes and tests. */
void cli_list_made(struct cli *c, const struct rt_starts *all, const struct cli_narrowing *only,
		   struct rt_starts *wanted, struct rt_times_paper *of, struct rt_times_lists *out);

#endif
