/* Classes and tests.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/office.h>

#include <string.h>

const char *rt_class_ring_kind(const struct rt_class *class_, const struct rt_rings *rings,
			       const struct rt_tests *tests)
{
	for (size_t i = 0; class_->ring && rings && i < rings->n; i++)
		if (strcmp(rings->at[i].name, class_->ring) == 0)
			return rings->at[i].kind;
	for (size_t i = 0; class_->test && tests && i < tests->n; i++)
		if (strcmp(tests->at[i].name, class_->test) == 0)
			return tests->at[i].kind;
	return NULL;
}

void rt_tests_count(struct rt_tests *tests, const struct rt_items *items)
{
	for (size_t i = 0; i < tests->n; i++) {
		struct rt_test *test = &tests->at[i];
		int64_t coefficients_x1000 = 0;

		test->items = 0;
		for (size_t k = 0; k < items->n; k++) {
			if (strcmp(items->at[k].test, test->name) != 0)
				continue;
			test->items++;
			coefficients_x1000 += items->at[k].coefficient_x1000;
		}
		test->maximum_x100 = coefficients_x1000;
	}
}

void rt_classes_free(struct rt_classes *classes)
{
	for (size_t i = 0; i < classes->n; i++)
		RT_LIST_FREE(&classes->at[i].judges);
	RT_LIST_FREE(classes);
}
