/* The kinds of file that commands read, and what help says of their columns.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#define TEXT_AT 20

const struct cli_file cli_files[] = {
	{"rings", &rt_ring_row_record, "ring kinds import"},
	{"gaits", &rt_gait_record, "gait import"},
	{"levels", &rt_level_record, "level import"},
	{"rules", &rt_rule_record, "rule import"},
	{"articles", &rt_article_record, "article import"},
	{"turnouts", &rt_turnout_part_record, "turnout import"},
	{"tests", &rt_test_record, "test import"},
	{"movements", &rt_item_record, "test import"},
	{"classes", &rt_class_record, "class import"},
	{"entries", &rt_entry_record, "entry import"},
	{"marks", &rt_mark_record, "mark import"},
	{"fixed", &rt_draw_fix_record, "draw --fixed"},
	{"plan", &rt_plan_row_record, "times import"},
	{"wishes", &rt_wish_record, "times import"},
	{"championships", &rt_championship_record, "championship import"},
	{"teams", &rt_team_member_record, "team import"},
	{"prizes", &rt_prize_step_record, "prize import"},
	{"distances", &rt_distance_record, "ring check"},
	{"offsets", &rt_offset_record, "ring check"},
	{"angles", &rt_angle_record, "ring check"},
	{"coordinates", &rt_metre_fix_record, "ring check"},
	{"latitudes", &rt_degree_fix_record, "ring check"},
	{"heights", &rt_height_record, "ring footing"},
	{"footing", &rt_footing_rule_record, "ring footing"},
	{"points", &rt_point_record, "adjust"},
};
const size_t cli_file_count = sizeof cli_files / sizeof *cli_files;

const struct rt_record *const cli_adjust_files[] = {
	&rt_point_record,     &rt_distance_record,   &rt_offset_record, &rt_angle_record,
	&rt_metre_fix_record, &rt_degree_fix_record, &rt_height_record, NULL};

/* The file of a record. */
static const char *file_name(const struct rt_record *r)
{
	for (size_t i = 0; i < cli_file_count; i++)
		if (cli_files[i].record == r)
			return cli_files[i].name;
	return r->name;
}

/* What is in the column, and what is accepted unless that is plain. */
static void tell_column(const struct rt_field *f, char *out, size_t size)
{
	char accepted[320];

	rt_field_accepts(f, accepted, sizeof accepted);
	snprintf(out, size, "%s%s%s%s%s", f->help ? f->help : "", *accepted ? " (" : "", accepted,
		 *accepted ? ")" : "", f->is & RT_EMPTY ? "; may be empty" : "");
}

void cli_print_columns(FILE *out, const struct rt_record *const *files)
{
	for (size_t k = 0; files[k]; k++) {
		const struct rt_record *r = files[k];

		fprintf(out, "\nColumns of %s%s:\n", file_name(r),
			k ? "" : ", in any order; those in brackets may be missing");
		for (size_t i = 0; i < r->fields; i++) {
			const struct rt_field *f = &r->field[i];
			bool optional = f->is & RT_OPTIONAL;
			char term[80], text[800];

			if (!rt_field_in_file(f))
				continue;
			snprintf(term, sizeof term, "  %s%s%s%s%s", optional ? "[" : "", f->name,
				 f->also ? " or " : "", f->also ? f->also : "",
				 optional ? "]" : "");
			tell_column(f, text, sizeof text);
			cli_put_term(out, term, TEXT_AT, text);
		}
	}
	fprintf(out, "\n`ringtrue template %s` prints an empty one.\n", file_name(files[0]));
}
