/* class import, and what is noted of classes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

/* A class may be held in another ring than its test was made for, but somebody should know. */
void cli_note_other_kind(struct cli *c, const struct rt_class *class_)
{
	const struct rt_test *test = cli_test(c, class_->test);
	const char *kind = rt_class_ring_kind(class_, cli_rings(c), NULL);

	if (kind && test && test->kind && strcmp(kind, test->kind) != 0)
		rt_report_note(&c->report, "Class %s: %s is a %s ring, and test %s is made for %s.",
			       class_->name, class_->ring, kind, test->name, test->kind);
}

void cli_note_positions(struct cli *c, const struct rt_class *class_)
{
	const struct rt_ring_kind *kind = cli_kind_of(c, class_);

	for (size_t i = 0; kind && i < class_->judges.n; i++)
		if (!rt_ring_has_letter(kind, class_->judges.at[i].position))
			rt_report_note(&c->report,
				       "Class %s: a judge sits at %s, which is no letter of a %s "
				       "ring.",
				       class_->name, class_->judges.at[i].position, kind->name);
}

static void class_import(struct cli *c, const void *typed)
{
	const struct cli_import *how = typed;
	const struct rt_roster *roster = cli_roster(c, true);
	const struct rt_source *source = cli_source(c, how, how->file);
	struct rt_classes classes = {0};
	struct rt_import_count count = {0};

	CLI_DO(c, rt_read_classes(&classes, source, roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	for (size_t i = 0; i < classes.n; i++)
		classes.at[i].added = c->when;
	CLI_DO(c, rt_store_classes_put(c->store, &classes, &count, &c->faults, &c->err));
	cli_report_import(c, "classes", &count);
	for (size_t i = 0; i < classes.n && !c->err.code; i++) {
		cli_note_other_kind(c, &classes.at[i]);
		cli_note_positions(c, &classes.at[i]);
	}
	rt_classes_free(&classes);
}

const struct cli_command cmd_class_import = {
	.name = "class import",
	.summary = "Put classes into the show.",
	.details = "level and rule win over the test's.",
	.example = "--show spring.show class import classes.csv",
	CLI_OPTIONS(struct cli_import, cli_import_options),
	.files = (const struct rt_record *const[]){&rt_class_record, NULL},
	.run = class_import,
};
