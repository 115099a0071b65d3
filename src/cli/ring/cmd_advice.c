/* ring advice: what to measure next, what to move in which order.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

struct ring_advice {
	struct rt_strings words; /* the ring's name, unless --kind; files */
	const char *kind;
	double tolerance_m, tape_m;
	double diagonals[2]; /* NAN: not given */
};

/* ---- from two diagonals ---------------------------------------------------------------------- */

static enum rt_err read_diagonals(const struct rt_field *f, void *member, const char *s,
				  struct rt_arena **text, struct rt_error *err)
{
	const char *comma = strchr(s, ',');
	double *d = member;
	char first[32] = "";

	(void)text;
	if (comma && (size_t)(comma - s) < sizeof first)
		memcpy(first, s, (size_t)(comma - s));
	if (comma && rt_parse_real(first, &d[0]) && rt_parse_real(comma + 1, &d[1]))
		return RT_OK;
	return rt_refuse(err, s, "is not two lengths", f->accepted);
}

static void advise_diagonals(struct cli *c, const struct ring_advice *o)
{
	struct rt_diagonals result;
	struct cli_ring ring;

	if (o->words.n > 1)
		CLI_FAIL(c, RT_E_USAGE, "--diagonals wants no files of readings");
	ring = cli_ring_find(c, o->words.n ? o->words.at[0] : NULL, o->kind, false);
	CLI_DO(c, rt_diagonals(&result, ring.kind, o->diagonals[0], o->diagonals[1], &c->err));
	CLI_DO(c, rt_diagonals_report(&c->report, &result, cli_text_in_feet(c), &c->err));
}

/* ---- from readings --------------------------------------------------------------------------- */

static size_t corners_measured(const struct rt_ring_check *check)
{
	size_t n = 0;

	for (size_t i = 0; i < check->pegs; i++)
		n += check->peg[i].peg.corner;
	return n;
}

static void advise_letters(struct cli *c, const struct rt_ring_walk *walk,
			   const struct rt_readings *readings)
{
	struct rt_ring_check check = {0};
	struct rt_letters_only letters = {0};

	if (corners_measured(&walk->check) < 2)
		return;
	CLI_DO(c, rt_ring_check(&check, walk->check.kind, readings, walk->check.tolerance_m,
				RT_FIT_CORNERS, &c->err));
	CLI_DO(c, rt_letters_only(&letters, &check, &c->err));
	CLI_DO(c, rt_letters_only_report(&c->report, &letters, &c->err));
	rt_letters_only_free(&letters);
	rt_ring_check_free(&check);
}

static void advise(struct cli *c, const struct rt_ring_kind *kind,
		   const struct rt_readings *readings, double tolerance_m, double tape_m)
{
	struct rt_ring_walk walk = {0};
	struct rt_next_readings next;
	bool feet = cli_text_in_feet(c);

	CLI_DO(c, rt_ring_walk(&walk, kind, readings, tolerance_m, &c->err));
	CLI_DO(c, rt_ring_walk_report(&c->report, &walk, feet, &c->err));
	advise_letters(c, &walk, readings);
	CLI_DO(c, rt_ring_next(&next, &walk.check, tape_m, &c->err));
	CLI_DO(c, rt_ring_next_report(&c->report, &next, feet, &c->err));
	rt_ring_walk_free(&walk);
}

/* The readings of the files, or of the latest check of the ring. */
static void gather(struct cli *c, const struct ring_advice *o, const struct cli_ring *ring,
		   struct rt_stored_check *out)
{
	struct rt_heights heights = {0}; /* of a receiver: not asked for here */
	size_t first = ring->name != NULL;
	bool found = false;

	if (o->words.n > first) {
		cli_read_readings(c, &o->words, first, ring->kind, NULL, &out->readings, &heights);
		RT_LIST_FREE(&heights);
		if (!out->readings.n)
			CLI_FAIL(c, RT_E_INPUT, "heights only: `ring footing` judges those");
		return;
	}
	if (!ring->name)
		CLI_FAIL(c, RT_E_USAGE, "ring advice wants files of readings");
	CLI_DO(c, rt_store_check_latest(c->store, ring->name, out, &found, &c->err));
	if (!found)
		CLI_FAIL(c, RT_E_NOTFOUND, "%s was never checked: give files of readings",
			 ring->name);
	if (!c->err.code)
		rt_report_note(&c->report, "From the check of %s.", out->when);
}

static void ring_advice(struct cli *c, const void *typed)
{
	const struct ring_advice *o = typed;
	struct rt_stored_check of = {0};
	struct cli_ring ring;

	if (!isnan(o->diagonals[0])) {
		advise_diagonals(c, o);
		return;
	}
	ring = cli_ring_find(c, o->kind || !o->words.n ? NULL : o->words.at[0], o->kind, false);
	if (!c->err.code)
		gather(c, o, &ring, &of);
	if (!c->err.code)
		advise(c, ring.kind, &of.readings,
		       isnan(o->tolerance_m) ? rt_ring_tolerance(ring.kind->discipline)
					     : o->tolerance_m,
		       o->tape_m);
	rt_stored_check_free(&of);
}

static const struct rt_field options[] = {
	{"words", RT_AT(struct ring_advice, words), .head = "READINGS.csv", .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_MANY},
	CLI_KIND(struct ring_advice, kind, 0),
	CLI_TOLERANCE(struct ring_advice, tolerance_m),
	{"tape", RT_AT(struct ring_advice, tape_m), CLI_METRES(1, 500),
	 .help = "how long the tape is; usual: any length"},
	{"diagonals", RT_AT(struct ring_advice, diagonals), .head = "D,D", .type = RT_OWN,
	 .read = read_diagonals,
	 .accepted = "two lengths in metres, AK to CM and FA to HC, as in 89.39,89.49",
	 .help = "both diagonals instead of readings"},
};

const struct cli_command cmd_ring_advice = {
	.name = "ring advice",
	.args = "(NAME | --kind KIND) [READINGS.csv...]",
	.summary = "What to move in which order, and what to measure next.",
	.details =
		"Reads the same files as `ring check`; a ring of the show needs none: then its latest\n"
		"check is taken. Told are the moves with the fewest pegs and the least walking; what\n"
		"setting only the letters anew would do, the corners left as they stand; and the next\n"
		"readings that help most, each by itself and one after another.\n"
		"--diagonals tells how far to slide the far pegs.\n"
		"Exit status 1 when something is to move or unsure.",
	.example = "ring advice --kind driven-40x80 --diagonals 89.39,89.49",
	CLI_OPTIONS(struct ring_advice, options),
	.blank = &(const struct ring_advice){.tolerance_m = NAN,
					     .tape_m = INFINITY,
					     .diagonals = {NAN, NAN}},
	.run = ring_advice,
};
