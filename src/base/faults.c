/* The faults of an import: the first fifty kept, all counted.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void rt_fault(struct rt_faults *f, const char *file, long line, const char *column, const char *fmt,
	      ...)
{
	char text[480];
	struct rt_fault *fault;
	va_list args;

	f->total++;
	if (f->n >= RT_FAULTS_KEPT)
		return;
	va_start(args, fmt);
	vsnprintf(text, sizeof text, fmt, args);
	va_end(args);
	fault = RT_LIST_ADD(f);
	if (!fault) {
		f->nomem = true;
		return;
	}
	fault->line = line;
	fault->file = rt_arena_string(&f->text, file);
	fault->column = rt_arena_string(&f->text, column);
	fault->text = rt_arena_string(&f->text, text);
	if (!fault->file || (column && !fault->column) || !fault->text) {
		f->n--;
		f->nomem = true;
	}
}

void rt_faults_free(struct rt_faults *f)
{
	RT_LIST_FREE(f);
	f->total = 0;
	f->nomem = false;
}

enum rt_err rt_faults_result(const struct rt_faults *f, struct rt_error *err)
{
	const struct rt_fault *first = f->at;

	if (f->nomem)
		return rt_fail_nomem(err);
	if (!f->total)
		return RT_OK;
	(void)rt_fail(err, RT_E_INPUT, "%s", first->text);
	if (err) {
		snprintf(err->file, sizeof err->file, "%s", first->file);
		err->line = first->line;
		if (first->column)
			snprintf(err->column, sizeof err->column, "%s", first->column);
	}
	return RT_E_INPUT;
}
