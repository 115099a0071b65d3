/* The rows that come with the program, as a show has them: put at its making or changed by an
 * import, and loaded.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

/* ---- put ------------------------------------------------------------------------------------- */

static enum rt_err put_kind(struct rt_store *s, const struct rt_ring_kind *k, struct rt_error *err)
{
	struct rt_ring_row row = {k->name, k->discipline, k->width_m, k->length_m, {0}};
	enum rt_err rc = rt__run_row(s, RT__SQL_RING_KIND_PUT, &rt_ring_row_record, &row,
				     RT__NO_CELLS, err);

	if (!rc)
		rc = rt__run(s, RT__SQL_RING_LETTER_CLEAR, RT__CELLS(rt__text(k->name)), err);
	for (size_t i = 0; i < k->letters.n && !rc; i++) {
		row.letter = k->letters.at[i];
		rc = rt__run_row(s, RT__SQL_RING_LETTER_INSERT, &rt_ring_row_record, &row,
				 RT__CELLS(rt__int((int64_t)i + 1)), err);
	}
	return rc;
}

static enum rt_err put_rows(struct rt_store *s, enum rt__sql sql, const struct rt_record *record,
			    const void *rows, size_t n, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < n && !rc; i++)
		rc = rt__run_row(s, sql, record, (const char *)rows + i * record->size,
				 RT__NO_CELLS, err);
	return rc;
}

enum rt_err rt_store_rows_put(struct rt_store *s, const struct rt_shipped *rows,
			      struct rt_error *err)
{
	const struct rt_turnout_parts *parts = &rows->turnouts;
	const struct {
		enum rt__sql sql;
		const struct rt_record *record;
		const void *at;
		size_t n;
	} lists[] = {
		{RT__SQL_GAIT_PUT, &rt_gait_record, rows->gaits.at, rows->gaits.n},
		{RT__SQL_LEVEL_PUT, &rt_level_record, rows->levels.at, rows->levels.n},
		{RT__SQL_RULE_PUT, &rt_rule_record, rows->rules.at, rows->rules.n},
		{RT__SQL_ARTICLE_PUT, &rt_article_record, rows->articles.at, rows->articles.n},
		{RT__SQL_TURNOUT_PART_INSERT, &rt_turnout_part_record, parts->at, parts->n},
	};
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < rows->kinds.n && !rc; i++)
		rc = put_kind(s, &rows->kinds.at[i], err);
	for (size_t i = 0; i < parts->n && !rc; i++)
		rc = rt__run(s, RT__SQL_TURNOUT_CLEAR, RT__CELLS(rt__text(parts->at[i].turnout)),
			     err);
	for (size_t i = 0; i < sizeof lists / sizeof *lists && !rc; i++)
		rc = put_rows(s, lists[i].sql, lists[i].record, lists[i].at, lists[i].n, err);
	return rc;
}

/* ---- load ------------------------------------------------------------------------------------ */

static enum rt_err load_kinds(struct rt_store *s, struct rt_ring_kinds *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_RING_LETTER_LIST, RT__NO_CELLS, &out->text,
					     err);
	struct rt_ring_kind *kind = NULL;
	struct rt_ring_row row;

	while (rt__next(&rows)) {
		struct rt_letter *letter;

		rt__read_row(&rows, &rt_ring_row_record, &row);
		if (rows.rc)
			continue;
		if (!kind || strcmp(kind->name, row.kind) != 0) {
			kind = rt__added(&rows, RT_LIST_ADD(out));
			if (!kind)
				continue;
			kind->name = row.kind;
			kind->discipline = row.discipline;
			kind->width_m = row.width_m;
			kind->length_m = row.length_m;
		}
		letter = rt__added(&rows, RT_LIST_ADD(&kind->letters));
		if (letter)
			*letter = row.letter;
	}
	return rows.rc;
}

enum rt_err rt__load_rules(struct rt_store *s, struct rt_rules *out, struct rt_error *err)
{
	enum rt_err rc = RT__LOAD(s, RT__SQL_RULE_LIST, RT__NO_CELLS, &rt_rule_record, out, err);

	for (size_t i = 0; i < out->n; i++)
		out->at[i].error_steps = rt_costs_given(out->at[i].error, RT_ERROR_STEPS);
	return rc;
}

enum rt_err rt_store_shipped(struct rt_store *s, struct rt_shipped *out, struct rt_error *err)
{
	enum rt_err rc = load_kinds(s, &out->kinds, err);

	if (!rc)
		rc = RT__LOAD(s, RT__SQL_LEVEL_LIST, RT__NO_CELLS, &rt_level_record, &out->levels,
			      err);
	if (!rc)
		rc = RT__LOAD(s, RT__SQL_GAIT_LIST, RT__NO_CELLS, &rt_gait_record, &out->gaits,
			      err);
	if (!rc)
		rc = rt__load_rules(s, &out->rules, err);
	if (!rc)
		rc = RT__LOAD(s, RT__SQL_ARTICLE_LIST, RT__NO_CELLS, &rt_article_record,
			      &out->articles, err);
	if (!rc)
		rc = RT__LOAD(s, RT__SQL_TURNOUT_PART_LIST, RT__NO_CELLS, &rt_turnout_part_record,
			      &out->turnouts, err);
	return rc;
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
