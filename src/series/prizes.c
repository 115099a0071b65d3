/* Prize money of a class by a scale, equal places sharing.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <string.h>

/* ---- starters and steps ---------------------------------------------------------------------- */

static int64_t starters_beside(const struct rt_posting *p, const struct rt_posted *posted)
{
	int64_t n = 0;

	for (size_t i = 0; i < p->places.n; i++)
		n += p->places.at[i].starter && rt_posted_together(&p->places.at[i], posted);
	return n;
}

/* How many starters the step is for that holds for so many; 0: none does. */
static int64_t step_for(const struct rt_prize_steps *steps, const char *scale, int64_t starters)
{
	int64_t best = 0;

	for (size_t i = 0; i < steps->n; i++) {
		const struct rt_prize_step *x = &steps->at[i];

		if (strcmp(x->scale, scale) == 0 && x->starters <= starters && x->starters > best)
			best = x->starters;
	}
	return best;
}

static int64_t amount_of(const struct rt_prize_steps *steps, const char *scale, int64_t step,
			 int64_t place)
{
	for (size_t i = 0; i < steps->n; i++) {
		const struct rt_prize_step *x = &steps->at[i];

		if (strcmp(x->scale, scale) == 0 && x->starters == step && x->place == place)
			return x->amount_x100;
	}
	return 0;
}

static const char *payee_of(const struct rt_payees *payees, const struct rt_posted *posted)
{
	const char *name = posted->driver;

	for (size_t i = 0; i < payees->n; i++)
		if (payees->at[i].number == posted->number)
			name = payees->at[i].name;
	return name;
}

/* ---- places ---------------------------------------------------------------------------------- */

static bool are_equal(const struct rt_posted *a, const struct rt_posted *b)
{
	return a->place == b->place && rt_posted_together(a, b);
}

static int64_t equal_places(const struct rt_posting *p, const struct rt_posted *posted)
{
	int64_t n = 0;

	for (size_t i = 0; i < p->places.n; i++)
		n += are_equal(&p->places.at[i], posted);
	return n;
}

/* The prize of the i-th that is posted: its share of the money of all equal places. */
static enum rt_err put_prize(struct rt_prizes *out, size_t i, const struct rt_prize_steps *steps,
			     const struct rt_payees *payees, int64_t starters, int64_t rosettes,
			     struct rt_error *err)
{
	const struct rt_posting *of = rt_shown_posting(out->of);
	const struct rt_posted *posted = &of->places.at[i];
	int64_t step = step_for(steps, out->scale, starters), sum = 0;
	int64_t sharing = equal_places(of, posted), place = (int64_t)posted->place;
	struct rt_prize *prize;

	for (int64_t k = 0; k < sharing; k++)
		sum += amount_of(steps, out->scale, step, place + k);
	if (i == 0 || !are_equal(&posted[-1], posted))
		out->left_x100 += sum % sharing; /* once a place */
	if (sum == 0 && place > rosettes)
		return RT_OK;
	prize = RT_LIST_ADD(&out->list);
	if (!prize)
		return rt_fail_nomem(err);
	prize->posted = posted;
	prize->payee = payee_of(payees, posted);
	prize->amount_x100 = sum / sharing;
	prize->rosette = place <= rosettes;
	out->paid_x100 += prize->amount_x100;
	return RT_OK;
}

/* One for so many starters, rounded up, and at least so many. */
static int64_t rosettes_for(int64_t starters, int64_t a_rosette, int64_t least)
{
	int64_t n = (starters + a_rosette - 1) / a_rosette;

	return n > least ? n : least;
}

enum rt_err rt_prizes_make(struct rt_prizes *out, const struct rt_results_shown *shown,
			   const struct rt_prize_steps *steps, const char *scale,
			   const struct rt_payees *payees, int64_t rosette_starters,
			   int64_t rosettes_least, struct rt_error *err)
{
	const struct rt_posting *of = rt_shown_posting(shown);
	enum rt_err e = RT_OK;
	bool known = false;

	memset(out, 0, sizeof *out);
	out->of = shown;
	out->class_name = shown->results->of->class_->name;
	out->scale = scale;
	for (size_t i = 0; i < steps->n; i++)
		known |= strcmp(steps->at[i].scale, scale) == 0;
	if (!known)
		return rt_fail(err, RT_E_NOTFOUND, "there is no scale of prizes %s", scale);
	for (size_t i = 0; i < of->places.n && !e; i++) {
		const struct rt_posted *posted = &of->places.at[i];
		int64_t starters = starters_beside(of, posted);

		out->starters += posted->starter;
		if (posted->place)
			e = put_prize(out, i, steps, payees, starters,
				      rosettes_for(starters, rosette_starters, rosettes_least),
				      err);
	}
	if (e)
		rt_prizes_free(out);
	return e;
}

void rt_prizes_free(struct rt_prizes *p)
{
	RT_LIST_FREE(&p->list);
	memset(p, 0, sizeof *p);
}

/* ---- report ---------------------------------------------------------------------------------- */

#define POSTED(member) RT_IN(struct rt_prize, posted, struct rt_posted, member)
#define MONEY	       .type = RT_DECIMAL, .decimals = 2

static const struct rt_field prize_fields[] = {
	{"division", .head = "Division", POSTED(division)},
	{"place", .head = "Place", POSTED(place), .type = RT_SIZE},
	{"number", .head = "No.", POSTED(number), .type = RT_INT},
	{"driver", .head = "Driver or rider", POSTED(driver)},
	{"payee", .head = "Paid to", RT_AT(struct rt_prize, payee)},
	{"amount", .head = "Amount", RT_AT(struct rt_prize, amount_x100), MONEY},
	{"rosette", .head = "Rosette", RT_AT(struct rt_prize, rosette), .type = RT_BOOL},
};

const struct rt_record rt__prizes_table = RT_TABLE("prizes", "Prize money", prize_fields,
						   struct rt_prize);

static const struct rt_field sum_fields[] = {
	{"class", .head = "Class", RT_AT(struct rt_prizes, class_name)},
	{"scale", .head = "Scale", RT_AT(struct rt_prizes, scale)},
	{"starters", .head = "Starters", RT_AT(struct rt_prizes, starters), .type = RT_INT},
	{"paid", .head = "Paid", RT_AT(struct rt_prizes, paid_x100), MONEY},
	{"left", .head = "Left over", RT_AT(struct rt_prizes, left_x100), MONEY},
};

const struct rt_record rt__prize_sum_table = RT_TABLE("prize_sum", "Sum", sum_fields,
						      struct rt_prizes);

/* What the places are that are paid for; money is paid for those that are posted and hold. */
static void tell_of(struct rt_report *report, const struct rt_results_shown *shown)
{
	const struct rt_posting *posted = shown->posted;

	if (posted && shown->as_now)
		rt_report_note(report, "By the places as they are now, not as they were posted.");
	else if (posted)
		rt_report_note(report, "By the places of version %" PRId64 ", posted at %s.",
			       posted->version, posted->at);
	report->needs_person |= !posted;
	rt_shown_note(report, shown);
}

void rt_prizes_report(struct rt_report *report, const struct rt_prizes *p)
{
	struct rt_table *t = rt_report_list(report, &rt__prizes_table, p->list.at, p->list.n);
	bool divided = false;

	for (size_t i = 0; i < p->list.n; i++)
		divided |= p->list.at[i].posted->division != NULL;
	rt_table_show(t, "division", divided);
	rt_report_list(report, &rt__prize_sum_table, p, 1);
	if (p->left_x100)
		rt_report_note(report, "Equal places share; cents that do not divide are left "
				       "over with the organiser.");
	tell_of(report, p->of);
}
