/* Papers written to a file of that name, for tests.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef WRITTEN_H
#define WRITTEN_H

#include <string.h>

#include <ringtrue/paper.h>
#include <ringtrue/sheet.h>

static inline enum rt_err end_written(struct rt_outfile *file, enum rt_err rc, struct rt_error *err)
{
	if (!rc)
		return rt_outfile_commit(file, err);
	rt_outfile_discard(file);
	return rc;
}

static inline enum rt_err write_workbook(const char *path, const struct rt_workbook *w,
					 struct rt_error *err)
{
	struct rt_outfile *file;
	enum rt_err rc = rt_outfile_open(&file, path, RT_FILE_WORKBOOK, NULL, err);

	return end_written(file, rc ? rc : rt_workbook_write(file, w, err), err);
}

/* As SVG when the name ends so, else as PDF. */
static inline enum rt_err write_sheet(const struct rt_sheet *sheet, const char *path,
				      struct rt_error *err)
{
	enum rt_file_kind kind = strcasestr(path, ".svg") ? RT_FILE_SVG : RT_FILE_PDF;
	struct rt_outfile *file;
	enum rt_err rc = rt_outfile_open(&file, path, kind, NULL, err);

	return end_written(file, rc ? rc : rt_sheet_write(sheet, file, kind, err), err);
}

#endif
