/* keying: what its files share, and scoring with them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RT_KEYING_INTERNAL_H
#define RT_KEYING_INTERNAL_H

#include "../office/internal.h"

#include <ringtrue/keying.h>

/* How many times a box or line was keyed, and whether it is settled. */
enum rt__keyed { RT__EMPTY, RT__SINGLE, RT__AGREED, RT__DIFFERING };

/* What counts of two keyings (negative: not keyed): the value, or RT_NO_MARK. */
enum rt__keyed rt__settle(const int64_t keyed[RT_KEYINGS], int64_t *value);
/* How many boxes the sheet of a judge has. */
size_t rt__boxes(const struct rt_class_marks *m, size_t judge);
const struct rt_sheet_lines *rt__lines(const struct rt_class_marks *m, size_t entry, size_t judge);
/* The rows of a sheet, all kinds and keyings; *n of them. */
const struct rt_mark_version *rt__sheet_rows(const struct rt_mark_versions *versions, int64_t entry,
					     int64_t judge, size_t *n);
/* Whether one keying fills every box of a sheet and the hand total of another person is their
 * sum: the second check that another keying would be. */
bool rt__total_checks(const struct rt_class_marks *m, size_t entry, size_t judge);
/* How many boxes of a sheet have one keying only. */
size_t rt__boxes_keyed_once(const struct rt_class_marks *m, size_t entry, size_t judge);
/* The sum of the settled boxes of a sheet; false when one of them is not. */
bool rt__sheet_sum(const struct rt_class_marks *m, size_t entry, size_t judge,
		   int64_t *points_x100000);
/* What a mark, a number of errors or a total says: 6.5, 6.25; 1; 112.5. */
struct rt_exact rt__mark_exact(enum rt_mark_kind kind, int64_t value);
/* Points without needless zeros, but one decimal: 182.5. */
void rt__format_points(int64_t points_x100000, char *out, size_t size);

/* For the list of tables. */
extern const struct rt_record rt__sheets_table;
extern const struct rt_record rt__marks_table;

#endif
