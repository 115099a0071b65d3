/* The marks of a keying as a marks file has them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* Marks are numbers here, texts in the file that is read. */
struct row {
	struct rt_mark_cells cells;
	struct rt_exact mark;
};

static const struct rt_field fields[] = {
	{"class", RT_AT(struct row, cells.class_name)},
	{"number", .head = "no.", RT_AT(struct row, cells.number), .type = RT_INT},
	{"judge", RT_AT(struct row, cells.judge)},
	{"item", RT_AT(struct row, cells.item)},
	{"mark", RT_AT(struct row, mark), .type = RT_EXACT},
	{"remark", RT_AT(struct row, cells.remark)},
};

const struct rt_record rt__marks_table = RT_TABLE("marks", "Marks", fields, struct row);

/* The names behind the ids of a version. */
static struct rt_mark_cells cells_of(const struct rt_class_marks *m,
				     const struct rt_mark_version *v)
{
	struct rt_mark_cells cells = {.class_name = m->class_->name,
				      .item = rt_mark_kind_words(v->kind),
				      .remark = v->remark};

	for (size_t i = 0; i < m->entries->n && !cells.number; i++)
		if (m->entries->at[i].id == v->entry)
			cells.number = m->entries->at[i].number;
	for (size_t i = 0; i < m->class_->judges.n && !cells.judge; i++)
		if (m->class_->judges.at[i].id == v->judge)
			cells.judge = m->class_->judges.at[i].position;
	for (size_t i = 0; v->kind == RT_MARK_ITEM && i < m->items->n; i++)
		if (m->items->at[i].id == v->item)
			cells.item = m->items->at[i].name;
	return cells;
}

static bool same_box(const struct rt_mark_version *a, const struct rt_mark_version *b)
{
	return a->entry == b->entry && a->judge == b->judge && a->kind == b->kind &&
	       a->item == b->item && a->keying == b->keying;
}

void rt_marks_report(struct rt_report *report, const struct rt_class_marks *m,
		     const struct rt_mark_versions *versions, int keying)
{
	struct rt_table *t = rt_report_rows(report, &rt__marks_table);

	for (size_t i = 0; i < versions->n; i++) {
		const struct rt_mark_version *v = &versions->at[i];
		if (v->keying != keying || v->value == RT_NO_MARK || (i + 1 < versions->n && same_box(v, v + 1)))
			continue;
		rt_put_row(t, &(struct row){cells_of(m, v), rt__mark_exact(v->kind, v->value)});
	}
}
