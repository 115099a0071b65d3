/* cli: what the commands of the draw and the times share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_CLI_TIMES_H
#define RT_CLI_TIMES_H

#include "cli.h"

/* Everything of the show that start times are made from.  Start it zeroed. */
struct cli_times {
	struct cli_roster roster;
	struct rt_entries entries; /* of all classes */
	struct rt_plan_rows rows;
	struct rt_wishes wishes;
	struct rt_strings carriages; /* turnouts of which there is one */
	struct rt_time_settings settings;
	bool planned; /* settings are those of a plan */
	struct rt_starts starts;
};

/* Open the show and read it all. */
enum rt_err cli_times_read(struct cli *c, bool writing, struct cli_times *in);
void cli_times_free(struct cli_times *in);
/* The entry of a class and number as typed; RT_E_NOTFOUND. */
enum rt_err cli_entry_typed(struct cli *c, const struct rt_entries *entries,
			    const struct rt_classes *classes, const char *class_name,
			    const char *number, const struct rt_entry **out);
/* The ring of that name, but for case and accents, or RT_E_NOTFOUND with those there are. */
enum rt_err cli_ring_named(struct cli *c, const struct rt_rings *rings, const char *name,
			   const char **out);
/* Whether two names are the same but for case and accents; whether names with semicolons between
 * hold one. */

/* A time of day of an option or argument; left as it is when typed is NULL. */
enum rt_err cli_time_typed(struct cli *c, const char *what, const char *typed, int64_t *out);
/* The seed of --seed, or a random one. */
enum rt_err cli_seed(struct cli *c, const struct cli_call *call, int64_t *out);
/* The interval of a class in seconds, from the route of its test with the ways in and out; NAN
 * where the test does not tell. */
enum rt_err cli_class_seconds(struct cli *c, const struct cli_times *in,
			      const struct rt_class *class_, double *out);
/* The clashes of starts as they stand. */
enum rt_err cli_clashes(struct cli *c, const struct cli_times *in, const struct rt_starts *starts,
			struct rt_clashes *out);

/* When each entry of a class starts, as ranks: by the start times, else as drawn, else by number.
 * Who has no start yet comes behind all that have.  *by: the order that it is. */
enum rt_err cli_rank_starts(struct cli *c, const char *class_name, const struct rt_entries *entries,
			    int64_t *rank, const char **by);

/* What a list is narrowed to; NULL and 0: all. */
struct cli_narrowing {
	const char *ring, *class_name, *driver;
	int64_t day;
};

/* Read --ring, --class, --day and --driver, as far as the command has them. */
enum rt_err cli_read_narrowing(struct cli *c, const struct cli_call *call,
			       const struct cli_times *in, struct cli_narrowing *out);
/* The starts that are wanted, appended to out. */
enum rt_err cli_narrow(struct cli *c, const struct rt_starts *all, const struct cli_narrowing *only,
		       struct rt_starts *out);

extern const struct cli_command cmd_draw, cmd_draw_late, cmd_draw_history;
extern const struct cli_command cmd_times, cmd_times_list, cmd_times_import, cmd_times_plan,
	cmd_times_check, cmd_times_move, cmd_times_late, cmd_times_history;
extern const struct cli_command cmd_sheet_times;

#endif
