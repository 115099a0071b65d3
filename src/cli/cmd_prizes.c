/* prize import, list, payee and money; sheet prizes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

static enum rt_err prize_import(struct cli *c, const struct cli_call *call)
{
	struct rt_prize_steps steps = {0};
	struct rt_import_count count = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, true));

	if (!e)
		e = rt_read_prize_steps(&steps, call->arg[0], &c->faults, &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	if (!e)
		e = rt_store_prize_steps_put(c->store, &steps, &count, &c->faults, &c->err);
	if (!e)
		cli_report_import(c, "prizes", &count);
	RT_LIST_FREE(&steps);
	return e;
}

const struct cli_command cmd_prize_import = {
	.group = "Results",
	.name = "prize import",
	.args = "FILE.csv",
	.summary = "Put a scale of prize money into the show.",
	.example = "--show spring.show prize import prizes.csv",
	.files = (const struct rt_record *const[]){&rt_prize_step_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = prize_import,
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
	.group = "Results",
	.name = "prize list",
	.summary = "List the scales of prize money.",
	.example = "--show spring.show prize list",
	.table = {&rt_prize_step_record},
	.run = prize_list,
};

static enum rt_err prize_payee(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"payee", "paid to", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	int64_t number;
	struct rt_table *t;
	enum rt_err e = cli_whole(c, "number", call->arg[0], 1, 99999, &number);

	if (!e)
		e = cli_text(c, "the payee", call->arg[1], RT_NAME_MOST, true);
	if (!e)
		e = cli_reasons(c, call);
	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = rt_store_payee_put(c->store, number, call->arg[1], cli_option(call, "by"),
				       c->when, &c->err);
	if (e)
		return e;
	t = rt_report_table(&c->report, "payees", "Payee kept", columns, 2);
	rt_put_int(t, number);
	rt_put_text(t, call->arg[1]);
	return RT_OK;
}

const struct cli_command cmd_prize_payee = {
	.group = "Results",
	.name = "prize payee",
	.args = "NUMBER NAME",
	.summary = "Say who is paid for a number: the driver or rider unless said.",
	.example = "--show spring.show prize payee 13 \"Larkfold Stables\"",
	.old_option = {{"by", "WHO", "who said so", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = prize_payee,
};

/* The prizes of a class and all they are made of. */
struct prizes {
	struct rt_prize_steps steps;
	struct rt_payees payees;
	struct rt_class_book book;
	struct rt_results results;
	struct rt_prizes prizes;
};

static void prizes_free(struct prizes *p)
{
	rt_prizes_free(&p->prizes);
	rt_results_free(&p->results);
	rt_class_book_free(&p->book);
	RT_LIST_FREE(&p->payees);
	RT_LIST_FREE(&p->steps);
}

static enum rt_err prizes_read(struct cli *c, const struct cli_call *call, struct prizes *p)
{
	double starters = RT_ROSETTE_STARTERS, least = RT_ROSETTES_LEAST;
	enum rt_err e = cli_real_option(c, call, "rosette-per", 1, 1000, &starters);

	if (!e)
		e = cli_real_option(c, call, "rosettes-least", 0, 1000, &least);
	if (!e)
		e = CLI_OLD(c, cli_store(c, false));
	if (!e)
		e = rt_store_prize_steps(c->store, &p->steps, &c->err);
	if (!e)
		e = rt_store_payees(c->store, &p->payees, &c->err);
	if (!e)
		e = rt_store_class_book(c->store, call->arg[0], &p->book, &c->err);
	if (!e)
		e = rt_results_make(&p->results, &p->book.marks, &c->err);
	if (!e)
		e = rt_prizes_make(&p->prizes, &p->results, &p->steps, cli_option(call, "scale"),
				   &p->payees, (int64_t)starters, (int64_t)least, &c->err);
	return e;
}

static enum rt_err prize_money(struct cli *c, const struct cli_call *call)
{
	struct prizes p = {0};
	enum rt_err e = prizes_read(c, call, &p);

	if (!e)
		rt_prizes_report(&c->report, &p.prizes);
	prizes_free(&p);
	return e;
}

#define PRIZE_OPTIONS                                                                              \
	{"scale", "NAME", "a scale that `prize list` lists", true},                                \
		{"rosette-per", "N", "one rosette for so many starters; 4", false},                \
	{                                                                                          \
		"rosettes-least", "N", "but at least so many; 5", false                            \
	}

const struct cli_command cmd_prize_money = {
	.group = "Results",
	.name = "prize money",
	.args = "CLASS --scale NAME",
	.summary = "The prize money and rosettes of a class, and who is paid.",
	.details =
		"Starters are those who neither withdrew nor did not start, and are not hors\n"
		"concours; each division for itself. Equal places add up the money of their places\n"
		"and share it; cents that do not divide are left over.",
	.example = "--show spring.show prize money 1 --scale larkfold",
	.old_option = {PRIZE_OPTIONS},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = prize_money,
};

static enum rt_err sheet_prizes(struct cli *c, const struct cli_call *call)
{
	struct cli_sheet o = cli_old_sheet(c, call);
	struct rt_sheet_options options = {0};
	struct rt_sheet sheet = {0};
	struct prizes p = {0};
	enum rt_err e = c->err.code;

	if (!e)
		e = prizes_read(c, call, &p);
	if (!e)
		options = cli_sheet_options(c, &o);
	if (!e)
		e = rt_sheet_prizes(&sheet, &p.prizes, &options, &c->err);
	if (!e)
		e = CLI_OLD(c, cli_write_sheet(c, &o, &sheet));
	rt_sheet_free(&sheet);
	prizes_free(&p);
	return e;
}

const struct cli_command cmd_sheet_prizes = {
	.group = "Papers",
	.name = "sheet prizes",
	.args = "CLASS --scale NAME --out FILE.pdf|.svg",
	.summary = "The prize money of a class, to pay out and sign for.",
	.details = CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet prizes 1 --scale larkfold --out prizes-1.pdf",
	.old_option = {PRIZE_OPTIONS,
		       CLI_OUT_OPTIONS,
		       {"paper", "SIZE", "a4 (unless given) or letter", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = sheet_prizes,
};
