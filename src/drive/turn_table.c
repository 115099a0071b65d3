/* The turn table of a level in a ring: what it is made for, and its making.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

/* What an animal's height may be, as where a height is read. */
#define HEIGHT_LEAST_CM 40.0
#define HEIGHT_MOST_CM	220.0

/* Far more than any ring has room for. */
#define DIAMETER_MOST_M 1000.0

enum rt_err rt__turn_options_check(const struct rt_ring_kind *kind, const struct rt_level *level,
				   const struct rt_turn_options *o, struct rt_error *err)
{
	double most = fmin(kind->width_m, kind->length_m) / 2.0;
	char number[32];

	if (level->discipline != kind->discipline)
		return rt_fail(err, RT_E_USAGE, "level %s is %s, and %s is a %s ring", level->name,
			       rt_discipline_words(level->discipline), kind->name,
			       rt_discipline_words(kind->discipline));
	if (o->height_cm != 0.0 &&
	    !(o->height_cm >= HEIGHT_LEAST_CM && o->height_cm <= HEIGHT_MOST_CM))
		return rt_fail(err, RT_E_USAGE, "height out of range: accepted: %s",
			       RT_HEIGHT_ACCEPTED);
	if (o->diameter_m != 0.0 && !(o->diameter_m > 0.0 && o->diameter_m <= DIAMETER_MOST_M))
		return rt_fail(err, RT_E_USAGE,
			       "diameter out of range: accepted: over 0, up to 1000 m");
	rt_format_real(most, 1, number, sizeof number);
	if (!(o->track_m >= 0.0 && o->track_m < most))
		return rt_fail(err, RT_E_USAGE,
			       "track out of range: accepted: 0 up to less than half the ring's "
			       "width, %s m",
			       number);
	return RT_OK;
}

/* What the circle asks of the animal and of its pace. */
static void settle_circle(struct rt_turns *out)
{
	double r = out->diameter_m / 2.0;
	double b = RT__FEET_APART_PER_HEIGHT * out->height_cm / 100.0;
	double v = out->speed_m_per_s;

	out->bend_deg = b / r * RT__DEGREES;
	out->cut_in_m = b <= r ? r - sqrt(r * r - b * b) : NAN;
	out->lateral_m_per_s2 = v * v / r;
	out->lean_deg = atan(out->lateral_m_per_s2 / RT__GRAVITY_M_PER_S2) * RT__DEGREES;
}

static enum rt_err settle(struct rt_turns *out, const struct rt_level *level,
			  const struct rt_gaits *gaits, const struct rt_turn_options *o,
			  struct rt_error *err)
{
	const struct rt_gait *gait = rt_gait_find(gaits, level->gait);
	struct rt__pace pace;

	if (!gait)
		return rt_fail(err, RT_E_NOTFOUND, "level %s: no gait is named %s", level->name,
			       level->gait);
	pace = rt__pace(gait, o->height_cm);
	out->height_given = o->height_cm > 0.0;
	out->height_cm = out->height_given ? o->height_cm : level->reference_height_cm;
	out->diameter_m = o->diameter_m > 0.0 ? o->diameter_m
					      : rt_level_diameter(level, o->height_cm);
	out->track_m = o->track_m;
	out->speed_m_per_s = pace.speed_m_per_s;
	out->stride_m = pace.stride_m;
	settle_circle(out);
	return RT_OK;
}

/* Keep names of the caller's that the table or its rows use. */
static bool keep_names(struct rt_turns *out, const char *kind, const struct rt_level *level)
{
	struct rt_arena **text = &out->list.text;

	out->kind = rt_arena_string(text, kind);
	out->level = rt_arena_string(text, level->name);
	out->gait = rt_arena_string(text, level->gait);
	return out->kind && out->level && out->gait;
}

/* Rows name places by the kind's letters: copy those, so that the table stands alone. */
static bool keep_references(struct rt_turns *out)
{
	for (size_t i = 0; i < out->list.n; i++) {
		struct rt_turn *turn = &out->list.at[i];

		turn->begin.reference = rt_arena_string(&out->list.text, turn->begin.reference);
		turn->finish.reference = rt_arena_string(&out->list.text, turn->finish.reference);
		if (!turn->begin.reference || !turn->finish.reference)
			return false;
	}
	return true;
}

/* The letters whose places no rulebook confirms, in one string; NULL: none. */
static bool keep_unconfirmed(struct rt_turns *out, const struct rt_ring_kind *kind,
			     const struct rt_pegs *pegs)
{
	size_t room = 0;
	char *at;

	for (size_t i = 0; i < pegs->n; i++)
		if (rt_peg_unconfirmed(kind, &pegs->at[i]))
			room += strlen(pegs->at[i].name) + 1;
	if (room == 0)
		return true;
	at = rt_arena_take(&out->list.text, room);
	if (!at)
		return false;
	out->unconfirmed = at;
	for (size_t i = 0; i < pegs->n; i++) {
		size_t n = strlen(pegs->at[i].name);

		if (!rt_peg_unconfirmed(kind, &pegs->at[i]))
			continue;
		if (at != out->unconfirmed)
			*at++ = ' ';
		memcpy(at, pegs->at[i].name, n);
		at += n;
	}
	return true;
}

enum rt_err rt_turns_make(struct rt_turns *out, const struct rt_ring_kind *kind,
			  const struct rt_level *level, const struct rt_gaits *gaits,
			  const struct rt_turn_options *options, struct rt_error *err)
{
	struct rt__track track = {0};
	struct rt__making making = {.out = out, .track = &track};
	enum rt_err e;

	memset(out, 0, sizeof *out);
	e = rt__turn_options_check(kind, level, options, err);
	if (!e)
		e = settle(out, level, gaits, options, err);
	if (!e)
		e = rt__track_make(&track, kind, options->track_m, err);
	if (e)
		goto done;
	rt__figures(&making);
	if (making.nomem || !keep_names(out, kind->name, level) || !keep_references(out) ||
	    !keep_unconfirmed(out, kind, &track.pegs))
		e = rt_fail_nomem(err);
done:
	rt__track_free(&track);
	if (e)
		rt_turns_free(out);
	return e;
}

void rt_turns_free(struct rt_turns *turns)
{
	RT_LIST_FREE(&turns->list);
	memset(turns, 0, sizeof *turns);
}
