/* How a fault of a row is told: the value that is quoted, where it stands, what is accepted.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* What the file itself calls a column; column may be such a name already. */
static const char *heading_of(const struct rt__load *l, size_t which, const char *column)
{
	const char *heading = column;

	for (size_t i = l->fields; column && i-- > 0;) {
		const char *head = l->csv.head[i];

		if (head && strcmp(head, column) == 0)
			return column;
		if (head && which != RT__NO_COLUMN && l->of_field[i] == which)
			heading = head;
	}
	return heading;
}

void rt__row_fault(struct rt__load *l, const char *column, const char *fmt, ...)
{
	size_t which = column ? rt__find_column(l->file, column) : RT__NO_COLUMN;
	char text[480];
	va_list args;

	va_start(args, fmt);
	vsnprintf(text, sizeof text, fmt, args);
	va_end(args);
	rt_fault(l->faults, l->csv.path, l->line, heading_of(l, which, column), "%s", text);
	l->row_bad = true;
	if (which != RT__NO_COLUMN)
		l->faulty |= UINT64_C(1) << which;
}

bool rt__fields_sound(const struct rt__load *l, const char *columns)
{
	while (*columns) {
		size_t n = strcspn(columns, " "), which = 0;

		while (strncmp(l->file->record->field[which].name, columns, n) != 0 ||
		       l->file->record->field[which].name[n])
			which++;
		if (l->faulty >> which & 1)
			return false;
		columns += n + (columns[n] == ' ');
	}
	return true;
}
