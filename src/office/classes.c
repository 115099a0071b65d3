/* Classes.
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

void rt_classes_free(struct rt_classes *classes)
{
	for (size_t i = 0; i < classes->n; i++)
		RT_LIST_FREE(&classes->at[i].judges);
	RT_LIST_FREE(classes);
}
