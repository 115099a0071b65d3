/* A sheet written beside its target, as PDF or SVG.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <errno.h>
#include <string.h>
#include <strings.h>

#include <ringtrue/paper.h>

#include "internal.h"

static bool ends_in(const char *path, const char *ending)
{
	size_t n = strlen(path), e = strlen(ending);

	return n > e && strcasecmp(path + n - e, ending) == 0;
}

/* Write all of it to the file of that name, which is there already. */
static enum rt_err write_to(const struct rt_sheet *sheet, const char *name, const char *path,
			    bool pdf, struct rt_error *err)
{
	FILE *out = fopen(name, "wb");
	enum rt_err rc = RT_OK;
	bool lost;

	if (!out)
		return rt_fail(err, RT_E_IO, "%s cannot be written: %s", path, strerror(errno));
	errno = 0;
	if (pdf)
		rc = rt__pdf_write(sheet, out, err);
	else
		rt__svg_write(sheet, out);
	lost = ferror(out) != 0;
	if ((fclose(out) != 0 || lost) && rc != RT_E_NOMEM)
		return rt_fail(err, RT_E_IO, "%s could not be written: %s", path,
			       errno ? strerror(errno) : "an earlier write failed");
	return rc;
}

enum rt_err rt_sheet_write(const struct rt_sheet *sheet, const char *path, struct rt_error *err)
{
	bool pdf = ends_in(path, ".pdf");
	struct rt_outfile *file;
	enum rt_err rc = rt_sheet_result(sheet, err);

	if (rc)
		return rc;
	if (!pdf && !ends_in(path, ".svg"))
		return rt_fail(err, RT_E_USAGE, "%s: a sheet's name ends in .pdf or .svg", path);
	rc = rt_outfile_open(&file, path, err);
	if (rc)
		return rc;
	rc = write_to(sheet, rt_outfile_path(file), path, pdf, err);
	if (rc) {
		rt_outfile_discard(file);
		return rc;
	}
	return rt_outfile_commit(file, err);
}
