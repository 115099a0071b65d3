/* sheet turns: papers to print.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

/* ---- what all sheets have -------------------------------------------------------------------- */

enum rt_err cli_sheet_options(struct cli *c, const struct cli_call *call,
			      struct rt_sheet_options *out)
{
	const char *paper = cli_option(call, "paper"), *seat = cli_option(call, "seen-from");
	const char *up = cli_option(call, "up");

	*out = (struct rt_sheet_options){.when = c->when, .feet = c->feet};
	if (paper && !rt_paper_size_read(paper, &out->paper))
		return rt_fail(&c->err, RT_E_USAGE, "--paper: \"%s\": a4 or letter", paper);
	if (seat && up)
		return rt_fail(&c->err, RT_E_USAGE,
			       "--seen-from says which way up already: leave --up out");
	if (seat && !rt_seat_read(seat, &out->seat))
		return rt_fail(&c->err, RT_E_USAGE, "--seen-from: \"%s\": C, B, E or A", seat);
	if (!up)
		return RT_OK;
	if (strcmp(up, "A") != 0 && strcmp(up, "C") != 0)
		return rt_fail(&c->err, RT_E_USAGE, "--up: \"%s\": C or A", up);
	out->seat = *up == 'A' ? RT_SEAT_C : RT_SEAT_A;
	return RT_OK;
}

struct sheet_row {
	const char *file;
	int pages;
};

static const struct rt_field written_fields[] = {
	{"file", RT_AT(struct sheet_row, file)},
	{"pages", RT_AT(struct sheet_row, pages), .type = RT_SMALL},
};

const struct rt_record cli_sheet_table = RT_TABLE("sheet", "Sheet written", written_fields,
						  struct sheet_row);

enum rt_err cli_write_sheet(struct cli *c, const struct cli_call *call,
			    const struct rt_sheet *sheet)
{
	const char *path = cli_option(call, "out");
	struct rt_outfile *file = NULL;
	enum rt_file_kind kind;
	enum rt_err e = cli_sheet_kind(c, call, &kind);

	if (!e)
		e = cli_output_open(c, path, kind, &file);
	if (!e)
		e = rt_sheet_write(sheet, file, kind, &c->err);
	e = cli_output_end(c, path, file, e);
	if (e)
		return e;
	rt_report_list(&c->report, &cli_sheet_table, &(struct sheet_row){path, sheet->pages}, 1);
	return RT_OK;
}

/* ---- sheet turns ----------------------------------------------------------------------------- */

static enum rt_err sheet_turns(struct cli *c, const struct cli_call *call)
{
	struct rt_turn_options turn_options = {0};
	struct rt_sheet_options options;
	struct rt_shipped rows = {0};
	struct rt_turns result = {0};
	struct rt_sheet sheet = {0};
	struct rt_show show = {0};
	const struct rt_ring_kind *kind;
	const struct rt_level *level;
	enum rt_err e = cli_sheet_options(c, call, &options);

	if (!e)
		e = cli_turn_options(c, call, &turn_options);
	if (!e)
		e = CLI_OLD(c, cli_rows(c, &rows));
	if (!e)
		e = rt_ring_kind_named(&kind, &rows.kinds, cli_option(call, "kind"), &c->err);
	if (!e)
		e = cli_level_named(c, &rows.levels, cli_option(call, "level"), kind->discipline,
				    &level);
	if (!e)
		e = rt_turns_make(&result, kind, level, &rows.gaits, &turn_options, &c->err);
	if (!e && c->store)
		e = rt_store_show(c->store, &show, &c->err);
	options.show = show.title;
	if (!e)
		e = rt_sheet_turns(&sheet, &result, kind, &options, &c->err);
	if (!e)
		e = cli_write_sheet(c, call, &sheet);
	rt_sheet_free(&sheet);
	rt_show_free(&show);
	rt_turns_free(&result);
	rt_shipped_free(&rows);
	return e;
}

const struct cli_command cmd_sheet_turns = {
	.group = "Papers",
	.name = "sheet turns",
	.args = "--kind KIND --level LEVEL --out FILE.pdf|.svg",
	.summary = "A page with the true turns of a level, drawn and by the letters.",
	.details = "The ring to scale with every turn that fits as an arc, where it begins and "
		   "finishes\n"
		   "measured from the letters, and the table beside it. The same --date gives the "
		   "same file.\n" CLI_OUTPUT_STANDARD,
	.example = "sheet turns --kind driven-40x80 --level intermediate --seen-from C --out "
		   "turns.pdf",
	.old_option = {{"kind", "KIND", "a kind of ring", true},
		       {"level", "LEVEL", "a level; the ring kind says ridden or driven", true},
		       CLI_OUT_OPTIONS,
		       {"height", "H", "the animal's height: 132cm, 1.32m or 13.2hh", false},
		       {"diameter", "M", "a diameter instead of the level's", false},
		       {"track", "M", "how far the track lies inside the boards; 0 unless given",
			false},
		       {"paper", "SIZE", "a4 (unless given) or letter", false},
		       {"seen-from", "SEAT", "drawn as seen from C, B, E or A", false},
		       {"up", "LETTER", "C (unless given) or A at the top", false}},
	.old_run = sheet_turns,
};
