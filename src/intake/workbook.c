/* A workbook (.xlsx, .ods) as lines of CSV: a row of its sheet is the line of that number.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "sheet_xml.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void tell_sheet(struct rt__book *b, bool found, const char *names, size_t sheets)
{
	const char *path = b->from->path;

	if (b->trouble)
		rt_fault(b->faults, path, 0, NULL,
			 "this workbook is not read: %s. A workbook (.xlsx, .ods) as a spreadsheet "
			 "writes it, or CSV",
			 b->trouble);
	else if (!found && b->from->sheet)
		rt_fault(b->faults, path, 0, NULL, "there is no sheet %s: %s",
			 rt_show(b->from->sheet).text, names);
	else if (!found)
		rt_fault(b->faults, path, 0, NULL, "there is no sheet in this workbook: one");
	else if (sheets > 1 && !b->from->sheet && b->from->notes)
		rt_report_note(b->from->notes,
			       "Of %s the first sheet was read; --sheet reads another: %s.", path,
			       names);
}

/* The written lines, from their start, as a file that is read; -1: errno tells. */
static int lines_again(struct rt__book *b)
{
	if (b->failed || fflush(b->out) != 0 || fseek(b->out, 0, SEEK_SET) != 0)
		return -1;
	return dup(fileno(b->out));
}

enum rt_err rt__workbook_lines(int *fd, const struct rt_source *from, struct rt_faults *faults,
			       struct rt_error *err)
{
	struct rt__book b = {.from = from, .faults = faults, .out = tmpfile()};
	size_t told = faults->total, sheets = 0;
	char names[RT_LISTED_SIZE];
	enum rt_err rc = RT_OK;
	bool found = false;

	b.zip = unzOpen64(from->path);
	*fd = -1;
	b.failed = !b.out;
	if (!b.zip)
		b.trouble = "it is damaged";
	else if (b.out && unzLocateFile(b.zip, "content.xml", 1) == UNZ_OK)
		found = rt__ods_lines(&b, names, &sheets);
	else if (b.out)
		found = rt__xlsx_lines(&b, names, &sheets);
	if (!b.failed && !b.nomem)
		tell_sheet(&b, found, names, sheets);
	if (b.nomem)
		rc = rt_fail_nomem(err);
	else if (b.failed || (faults->total == told && (*fd = lines_again(&b)) < 0))
		rc = rt_fail(err, RT_E_IO, "the lines of %s could not be written: %s", from->path,
			     strerror(errno));
	if (b.zip)
		unzClose(b.zip);
	if (b.out)
		fclose(b.out);
	free(b.text.s);
	free(b.line.s);
	return rc;
}
