/* level, gait, turnout and article list: in CSV files that their imports read.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#define LIST(which, record)                                                                        \
	static void list_##which(struct cli *c, const void *typed)                                 \
	{                                                                                          \
		const struct rt_shipped *rows = cli_rows(c);                                       \
                                                                                                   \
		(void)typed;                                                                       \
		rt_report_list(&c->report, &record, rows->which.at, rows->which.n);                \
	}

LIST(levels, rt_level_record)
LIST(gaits, rt_gait_record)
LIST(turnouts, rt_turnout_part_record)
LIST(articles, rt_article_record)

#define WHOSE                                                                                      \
	"Of the show where one is given, else those that come with the program. In CSV it is a "   \
	"file that its import reads."

const struct cli_command cmd_level_list = {
	.name = "level list",
	.summary = "List the levels, and how wide their turns are.",
	.details = WHOSE,
	.example = "level list",
	.table = {&rt_level_record},
	.run = list_levels,
};

const struct cli_command cmd_gait_list = {
	.name = "gait list",
	.summary = "List the gaits, and how fast they are.",
	.details = WHOSE,
	.example = "gait list",
	.table = {&rt_gait_record},
	.run = list_gaits,
};

const struct cli_command cmd_turnout_list = {
	.name = "turnout list",
	.summary = "List the turnouts, part by part.",
	.details = WHOSE,
	.example = "turnout list",
	.table = {&rt_turnout_part_record},
	.run = list_turnouts,
};

const struct cli_command cmd_article_list = {
	.name = "article list",
	.summary = "List the articles: what the rulebook takes for what happens.",
	.details = WHOSE,
	.example = "article list",
	.table = {&rt_article_record},
	.run = list_articles,
};
