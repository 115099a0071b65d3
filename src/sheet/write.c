/* A sheet as a file.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <errno.h>
#include <string.h>

#include <ringtrue/paper.h>

#include "internal.h"

enum rt_err rt_sheet_write(const struct rt_sheet *sheet, const struct rt_outfile *to,
			   enum rt_file_kind kind, struct rt_error *err)
{
	enum rt_err rc = rt_sheet_result(sheet, err);
	FILE *out;
	bool lost;

	if (rc)
		return rc;
	out = fopen(rt_outfile_path(to), "wb");
	if (!out)
		return rt_fail(err, RT_E_IO, "%s cannot be written: %s", rt_outfile_name(to),
			       strerror(errno));
	errno = 0;
	if (kind == RT_FILE_PDF)
		rc = rt__pdf_write(sheet, out, err);
	else
		rt__svg_write(sheet, out);
	lost = ferror(out) != 0;
	if ((fclose(out) != 0 || lost) && rc != RT_E_NOMEM)
		return rt_fail(err, RT_E_IO, "%s could not be written: %s", rt_outfile_name(to),
			       errno ? strerror(errno) : "an earlier write failed");
	return rc;
}
