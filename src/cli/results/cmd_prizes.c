/* prize import, list, payee and money; sheet prizes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

static void prize_import(struct cli *c, const void *typed)
{
	const struct cli_import *how = typed;
	const struct rt_source *source = cli_source(c, how, how->file);
	struct rt_prize_steps steps = {0};
	struct rt_import_count count = {0};

	cli_store(c, true);
	CLI_DO(c, rt_read_prize_steps(&steps, source, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	CLI_DO(c, rt_store_prize_steps_put(c->store, &steps, &count, &c->faults, &c->err));
	cli_report_import(c, "prizes", &count);
	RT_LIST_FREE(&steps);
}

const struct cli_command cmd_prize_import = {
	.name = "prize import",
	.summary = "Put a scale of prize money into the show.",
	.example = "--show spring.show prize import prizes.csv",
	.files = (const struct rt_record *const[]){&rt_prize_step_record, NULL},
	CLI_OPTIONS(struct cli_import, cli_import_options),
	.run = prize_import,
};

static void prize_list(struct cli *c, const void *typed)
{
	struct rt_prize_steps steps = {0};

	(void)typed;
	cli_store(c, false);
	CLI_DO(c, rt_store_prize_steps(c->store, &steps, &c->err));
	rt_report_list(&c->report, &rt_prize_step_record, steps.at, steps.n);
	RT_LIST_FREE(&steps);
}

const struct cli_command cmd_prize_list = {
	.name = "prize list",
	.summary = "List the scales of prize money.",
	.details = "In CSV it is a file that `prize import` reads.",
	.example = "--show spring.show prize list",
	.table = {&rt_prize_step_record},
	.run = prize_list,
};

struct prize_payee {
	int64_t number;
	const char *name, *by;
};

static const struct rt_field payee_options[] = {
	CLI_NUMBER(struct prize_payee, number),
	{"name", RT_AT(struct prize_payee, name), .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_BY(struct prize_payee, by, 0),
};

static const struct rt_field payee_fields[] = {
	{"number", .head = "no.", RT_AT(struct prize_payee, number), .type = RT_INT},
	{"payee", .head = "paid to", RT_AT(struct prize_payee, name)},
};

static const struct rt_record payee_table = RT_TABLE("payees", "Payee kept", payee_fields,
						     struct prize_payee);

static void prize_payee(struct cli *c, const void *typed)
{
	const struct prize_payee *o = typed;

	cli_store(c, true);
	CLI_DO(c, rt_store_payee_put(c->store, o->number, o->name, o->by, c->when, &c->err));
	rt_report_list(&c->report, &payee_table, o, 1);
}

const struct cli_command cmd_prize_payee = {
	.name = "prize payee",
	.summary = "Say who is paid for a number: the driver or rider unless said.",
	.example = "--show spring.show prize payee 13 \"Larkfold Stables\"",
	CLI_OPTIONS(struct prize_payee, payee_options),
	.run = prize_payee,
	.table = {&payee_table},
};

struct prize_money {
	const char *class_name;	   /* of prize money */
	struct rt_strings classes; /* of its paper */
	bool all;
	const char *scale;
	int64_t per, least; /* rosettes */
	bool now;
	struct cli_sheet sheet;
};

static const struct prize_money usual = {.per = RT_ROSETTE_STARTERS, .least = RT_ROSETTES_LEAST};

#define PRIZE_OPTIONS                                                                              \
	CLI_NOW(struct prize_money, now),                                                          \
		{"scale",	    RT_AT(struct prize_money, scale),                              \
		 .head = "NAME",    .type = RT_NAME,                                               \
		 .is = RT_REQUIRED, .help = "a scale that `prize list` lists"},                    \
		{"rosette-per",	 RT_AT(struct prize_money, per),                                   \
		 .head = "N",	 .type = RT_INT,                                                   \
		 .low = 1,	 .high = 1000,                                                     \
		 .is = RT_USUAL, .help = "one rosette for so many starters"},                      \
	{                                                                                          \
		"rosettes-least", RT_AT(struct prize_money, least),                                \
			.head = "N", .type = RT_INT, .low = 0, .high = 1000, .is = RT_USUAL,       \
			.help = "but at least so many"                                             \
	}

static const struct rt_field money_options[] = {CLI_CLASS(struct prize_money, class_name),
						PRIZE_OPTIONS};
static const struct rt_field sheet_options[] = {CLI_CLASSES(struct prize_money, classes, all),
						PRIZE_OPTIONS, CLI_OUT(struct prize_money, sheet)};

/* The prizes of a class and all they are made of. */
struct prizes {
	struct rt_prize_steps steps;
	struct rt_payees payees;
	struct cli_shown of;
	struct rt_prizes prizes;
};

static void prizes_free(struct prizes *p)
{
	rt_prizes_free(&p->prizes);
	cli_shown_free(&p->of);
	RT_LIST_FREE(&p->payees);
	RT_LIST_FREE(&p->steps);
}

static void prizes_read(struct cli *c, const struct prize_money *o, const char *class_name,
			struct prizes *p)
{
	CLI_DO(c, rt_store_prize_steps(c->store, &p->steps, &c->err));
	CLI_DO(c, rt_store_payees(c->store, &p->payees, &c->err));
	cli_shown_read(c, class_name, o->now, &p->of);
	CLI_DO(c, rt_prizes_make(&p->prizes, &p->of.shown, &p->steps, o->scale, &p->payees, o->per,
				 o->least, &c->err));
}

static void prize_money(struct cli *c, const void *typed)
{
	const struct prize_money *o = typed;
	struct prizes p = {0};

	cli_store(c, false);
	prizes_read(c, o, o->class_name, &p);
	if (!c->err.code)
		rt_prizes_report(&c->report, &p.prizes);
	prizes_free(&p);
}

const struct cli_command cmd_prize_money = {
	.name = "prize money",
	.summary = "The prize money and rosettes of a class, and who is paid.",
	.details =
		"Starters are those who neither withdrew nor did not start, and are not hors\n"
		"concours; each division for itself. Equal places add up the money of their places\n"
		"and share it; cents that do not divide are left over. The places are those that are\n"
		"posted; exit status 1 where nothing is, or where the results have changed since.",
	.example = "--show spring.show prize money 1 --scale larkfold",
	CLI_OPTIONS(struct prize_money, money_options),
	.blank = &usual,
	.run = prize_money,
};

static void print_prizes(struct cli *c, const struct prize_money *o, struct cli_pile *pile,
			 const char *class_name)
{
	struct prizes p = {0};

	prizes_read(c, o, class_name, &p);
	if (!cli_pile_leaves_out(c, pile, class_name, p.prizes.list.n == 0)) {
		cli_pile_class(pile, p.of.results.of->class_);
		CLI_DO(c, rt_sheet_prizes(&pile->sheet, &p.prizes, &pile->options, &c->err));
		cli_shown_note(c, &p.of);
		c->report.needs_person |= !p.of.shown.posted;
	}
	prizes_free(&p);
}

static void sheet_prizes(struct cli *c, const void *typed)
{
	const struct prize_money *o = typed;
	struct cli_pile pile = {.many = false};

	cli_pile_begin(c, &o->sheet, &o->classes, o->all, "Prize money", &pile);
	for (size_t i = 0; i < pile.classes.n; i++)
		print_prizes(c, o, &pile, pile.classes.at[i]);
	cli_pile_end(c, &pile);
}

const struct cli_command cmd_sheet_prizes = {
	.name = "sheet prizes",
	.summary = "The prize money of a class, to pay out and sign for.",
	.details =
		"For the places that are posted. Where nothing is, or where the results have changed\n"
		"since, a band says so: exit status 1. " CLI_PILE CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet prizes 1 --scale larkfold --out prizes-1.pdf",
	CLI_OPTIONS(struct prize_money, sheet_options),
	.blank = &usual,
	.run = sheet_prizes,
};
