/* The rows that come with the program, as a show has them: put at its making or changed by an
 * import, and loaded.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* What a file of rules or articles may say. */
#define DECIMALS_MOST	 3
#define AMOUNT_MOST_X100 100000

/* ---- put ------------------------------------------------------------------------------------- */

static enum rt_err put_letters(struct rt_store *s, const struct rt_ring_kind *kind,
			       struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_RING_LETTER_CLEAR, RT__CELLS(rt__text(kind->name)),
				 err);

	for (size_t i = 0; i < kind->letters.n && !rc; i++) {
		const struct rt_letter *l = &kind->letters.at[i];

		rc = rt__run(s, RT__SQL_RING_LETTER_INSERT,
			     RT__CELLS(rt__text(kind->name), rt__int((int64_t)i + 1),
				       rt__text(l->name), rt__text(rt_side_words(l->side)),
				       rt__real(l->offset_m)),
			     err);
	}
	return rc;
}

static enum rt_err put_kinds(struct rt_store *s, const struct rt_ring_kinds *kinds,
			     struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < kinds->n && !rc; i++) {
		const struct rt_ring_kind *k = &kinds->at[i];

		rc = rt__run(s, RT__SQL_RING_KIND_PUT,
			     RT__CELLS(rt__text(k->name),
				       rt__text(rt_discipline_words(k->discipline)),
				       rt__real(k->width_m), rt__real(k->length_m)),
			     err);
		if (!rc)
			rc = put_letters(s, k, err);
	}
	return rc;
}

static enum rt_err put_gaits(struct rt_store *s, const struct rt_gaits *gaits, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < gaits->n && !rc; i++) {
		const struct rt_gait *g = &gaits->at[i];

		rc = rt__run(s, RT__SQL_GAIT_PUT,
			     RT__CELLS(rt__text(g->name), rt__real(g->speed_m_per_s),
				       rt__real(g->stride_m), rt__given(g->source)),
			     err);
	}
	return rc;
}

static enum rt_err put_levels(struct rt_store *s, const struct rt_levels *levels,
			      struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < levels->n && !rc; i++) {
		const struct rt_level *l = &levels->at[i];

		rc = rt__run(s, RT__SQL_LEVEL_PUT,
			     RT__CELLS(rt__text(l->name),
				       rt__text(rt_discipline_words(l->discipline)),
				       rt__real(l->turn_diameter_m),
				       rt__real(l->reference_height_cm), rt__given(l->gait)),
			     err);
	}
	return rc;
}

static enum rt_err put_rule(struct rt_store *s, const struct rt_rule *r, struct rt_error *err)
{
	char ties[160];
	enum rt_err rc;

	rt_tie_steps_words(r, ties, sizeof ties);
	rc = rt__run(s, RT__SQL_RULE_PUT,
		     RT__CELLS(rt__text(r->name), rt__text(rt_scale_words(r->scale)),
			       rt__text(rt_wins_words(r->wins)), rt__int(r->base),
			       rt__int(r->judge_decimals), rt__int(r->percent_decimals),
			       rt__int(r->score_decimals), rt__text(rt_taken_words(r->taken)),
			       rt__text(ties), rt__given(r->source),
			       rt__text(rt_missing_words(r->missing)), rt__int(r->apart_x100),
			       rt__int(r->apart_judges)),
		     err);
	if (!rc)
		rc = rt__run(s, RT__SQL_RULE_ERROR_CLEAR, RT__CELLS(rt__text(r->name)), err);
	for (size_t i = 0; i < r->error_steps && !rc; i++)
		rc = rt__run(s, RT__SQL_RULE_ERROR_INSERT,
			     RT__CELLS(rt__text(r->name), rt__int((int64_t)i + 1),
				       rt__int(r->error[i].amount_x100),
				       rt__bool(r->error[i].eliminated)),
			     err);
	return rc;
}

static enum rt_err put_turnouts(struct rt_store *s, const struct rt_turnout_parts *parts,
				struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < parts->n && !rc; i++)
		rc = rt__run(s, RT__SQL_TURNOUT_CLEAR, RT__CELLS(rt__text(parts->at[i].turnout)),
			     err);
	for (size_t i = 0; i < parts->n && !rc; i++) {
		const struct rt_turnout_part *p = &parts->at[i];

		rc = rt__run(s, RT__SQL_TURNOUT_PART_INSERT,
			     RT__CELLS(rt__text(p->turnout), rt__text(p->part),
				       rt__real(p->hitch_m), rt__real(p->length_m),
				       rt__real(p->width_m), rt__real(p->track_m),
				       rt__real(p->cog_m)),
			     err);
	}
	return rc;
}

static enum rt_err put_article(struct rt_store *s, const struct rt_article *a, struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_ARTICLE_PUT,
				 RT__CELLS(rt__text(a->applies_to), rt__text(a->name),
					   rt__text(a->what), rt__given(a->source)),
				 err);

	if (!rc)
		rc = rt__run(s, RT__SQL_ARTICLE_STEP_CLEAR,
			     RT__CELLS(rt__text(a->applies_to), rt__text(a->name)), err);
	for (size_t i = 0; i < a->steps && !rc; i++)
		rc = rt__run(s, RT__SQL_ARTICLE_STEP_INSERT,
			     RT__CELLS(rt__text(a->applies_to), rt__text(a->name),
				       rt__int((int64_t)i + 1), rt__int(a->step[i].amount_x100),
				       rt__bool(a->step[i].eliminated)),
			     err);
	return rc;
}

enum rt_err rt_store_rows_put(struct rt_store *s, const struct rt_shipped *shipped,
			      struct rt_error *err)
{
	enum rt_err rc = put_kinds(s, &shipped->kinds, err);

	if (!rc)
		rc = put_gaits(s, &shipped->gaits, err);
	if (!rc)
		rc = put_levels(s, &shipped->levels, err);
	for (size_t i = 0; i < shipped->rules.n && !rc; i++)
		rc = put_rule(s, &shipped->rules.at[i], err);
	for (size_t i = 0; i < shipped->articles.n && !rc; i++)
		rc = put_article(s, &shipped->articles.at[i], err);
	return rc ? rc : put_turnouts(s, &shipped->turnouts, err);
}

/* ---- load ------------------------------------------------------------------------------------ */

static enum rt_err load_letters(struct rt_store *s, struct rt_ring_kind *kind,
				struct rt_arena **text, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_LETTER_LIST,
					     RT__CELLS(rt__text(kind->name)), text, err);
	struct rt_letter *l;

	while ((l = RT__NEXT(&rows, &kind->letters))) {
		l->name = rt__name_at(&rows, 0);
		if (!rt_side_read(rt__words_at(&rows, 1), &l->side))
			rt__rows_damaged(&rows);
		l->offset_m = rt__real_in(&rows, 2, 0, RT_RING_MOST_M);
	}
	return rows.rc;
}

static enum rt_err load_kinds(struct rt_store *s, struct rt_ring_kinds *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_KIND_LIST, RT__NO_CELLS, &out->text,
					     err);
	struct rt_ring_kind *k;

	while ((k = RT__NEXT(&rows, out))) {
		k->name = rt__name_at(&rows, 0);
		if (!rt_discipline_read(rt__words_at(&rows, 1), &k->discipline))
			rt__rows_damaged(&rows);
		k->width_m = rt__real_in(&rows, 2, RT_RING_LEAST_M, RT_RING_MOST_M);
		k->length_m = rt__real_in(&rows, 3, RT_RING_LEAST_M, RT_RING_MOST_M);
	}
	for (size_t i = 0; i < out->n && !rows.rc; i++)
		rows.rc = load_letters(s, &out->at[i], &out->text, err);
	return rows.rc;
}

static enum rt_err load_gaits(struct rt_store *s, struct rt_gaits *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_GAIT_LIST, RT__NO_CELLS, &out->text, err);
	struct rt_gait *g;

	while ((g = RT__NEXT(&rows, out))) {
		g->name = rt__name_at(&rows, 0);
		g->speed_m_per_s = rt__real_in(&rows, 1, 0.1, 20);
		g->stride_m = rt__real_in(&rows, 2, 0.1, 10);
		g->source = rt__text_at(&rows, 3);
	}
	return rows.rc;
}

static enum rt_err load_levels(struct rt_store *s, struct rt_levels *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_LEVEL_LIST, RT__NO_CELLS, &out->text, err);
	struct rt_level *l;

	while ((l = RT__NEXT(&rows, out))) {
		l->name = rt__name_at(&rows, 0);
		if (!rt_discipline_read(rt__words_at(&rows, 1), &l->discipline))
			rt__rows_damaged(&rows);
		l->turn_diameter_m = rt__real_in(&rows, 2, 1, 100);
		l->reference_height_cm = rt__real_in(&rows, 3, 40, 220);
		l->gait = rt__text_at(&rows, 4);
	}
	return rows.rc;
}

static enum rt_err load_rule_errors(struct rt_store *s, struct rt_rule *rule, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RULE_ERROR_LIST,
					     RT__CELLS(rt__text(rule->name)), NULL, err);

	while (rt__next(&rows)) {
		if (rule->error_steps == RT_ERROR_STEPS) {
			rt__rows_damaged(&rows);
			continue;
		}
		rule->error[rule->error_steps].given = true;
		rule->error[rule->error_steps].amount_x100 = rt__int_in(&rows, 0, 0,
									AMOUNT_MOST_X100);
		rule->error[rule->error_steps].eliminated = rt__bool_at(&rows, 1);
		rule->error_steps++;
	}
	return rows.rc;
}

static void read_rule(struct rt__rows *rows, struct rt_rule *r)
{
	r->name = rt__name_at(rows, 0);
	if (!rt_scale_read(rt__words_at(rows, 1), &r->scale) ||
	    !rt_wins_read(rt__words_at(rows, 2), &r->wins) ||
	    !rt_taken_read(rt__words_at(rows, 7), &r->taken) ||
	    !rt_tie_steps_read(rt__words_at(rows, 8), r))
		rt__rows_damaged(rows);
	r->base = rt__int_in(rows, 3, 0, 1000);
	r->judge_decimals = (int)rt__int_in(rows, 4, -1, DECIMALS_MOST);
	r->percent_decimals = (int)rt__int_in(rows, 5, 0, DECIMALS_MOST);
	r->score_decimals = (int)rt__int_in(rows, 6, 0, DECIMALS_MOST);
	r->source = rt__text_at(rows, 9);
	if (!rt_missing_read(rt__words_at(rows, 10), &r->missing))
		rt__rows_damaged(rows);
	r->apart_x100 = rt__int_in(rows, 11, 0, RT_APART_MOST_X100);
	r->apart_judges = rt__int_in(rows, 12, 0, 99);
}

enum rt_err rt__load_rules(struct rt_store *s, struct rt_rules *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RULE_LIST, RT__NO_CELLS, &out->text, err);
	struct rt_rule *r;

	while ((r = RT__NEXT(&rows, out)))
		read_rule(&rows, r);
	for (size_t i = 0; i < out->n && !rows.rc; i++)
		rows.rc = load_rule_errors(s, &out->at[i], err);
	return rows.rc;
}

static enum rt_err load_turnouts(struct rt_store *s, struct rt_turnout_parts *out,
				 struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_TURNOUT_PART_LIST, RT__NO_CELLS, &out->text,
					     err);
	struct rt_turnout_part *p;

	while ((p = RT__NEXT(&rows, out))) {
		p->turnout = rt__name_at(&rows, 0);
		p->part = rt__name_at(&rows, 1);
		p->hitch_m = rt__real_in(&rows, 2, -20, 20);
		p->length_m = rt__real_in(&rows, 3, 0.1, 20);
		p->width_m = rt__real_in(&rows, 4, 0.1, 5);
		p->track_m = rt__real_in_or_none(&rows, 5, 0.1, 5);
		p->cog_m = rt__real_in_or_none(&rows, 6, 0.1, 5);
	}
	return rows.rc;
}

static enum rt_err load_article_steps(struct rt_store *s, struct rt_article *a,
				      struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_ARTICLE_STEP_LIST,
					     RT__CELLS(rt__text(a->applies_to), rt__text(a->name)),
					     NULL, err);

	while (rt__next(&rows)) {
		if (a->steps == RT_ARTICLE_STEPS) {
			rt__rows_damaged(&rows);
			continue;
		}
		a->step[a->steps].given = true;
		a->step[a->steps].amount_x100 = rt__int_in(&rows, 0, 0, AMOUNT_MOST_X100);
		a->step[a->steps].eliminated = rt__bool_at(&rows, 1);
		a->steps++;
	}
	return rows.rc;
}

static enum rt_err load_articles(struct rt_store *s, struct rt_articles *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_ARTICLE_LIST, RT__NO_CELLS, &out->text,
					     err);
	struct rt_article *a;

	while ((a = RT__NEXT(&rows, out))) {
		a->applies_to = rt__name_at(&rows, 0);
		a->name = rt__name_at(&rows, 1);
		a->what = rt__title_at(&rows, 2);
		a->source = rt__text_at(&rows, 3);
	}
	for (size_t i = 0; i < out->n && !rows.rc; i++)
		rows.rc = load_article_steps(s, &out->at[i], err);
	return rows.rc;
}

enum rt_err rt_store_shipped(struct rt_store *s, struct rt_shipped *out, struct rt_error *err)
{
	enum rt_err rc = load_kinds(s, &out->kinds, err);

	if (!rc)
		rc = load_levels(s, &out->levels, err);
	if (!rc)
		rc = load_gaits(s, &out->gaits, err);
	if (!rc)
		rc = rt__load_rules(s, &out->rules, err);
	if (!rc)
		rc = load_articles(s, &out->articles, err);
	return rc ? rc : load_turnouts(s, &out->turnouts, err);
}

void rt_shipped_free(struct rt_shipped *shipped)
{
	rt_ring_kinds_free(&shipped->kinds);
	RT_LIST_FREE(&shipped->levels);
	RT_LIST_FREE(&shipped->gaits);
	RT_LIST_FREE(&shipped->rules);
	RT_LIST_FREE(&shipped->turnouts);
	RT_LIST_FREE(&shipped->articles);
}
