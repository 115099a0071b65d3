/* One class, and one sheet of it, at a desk.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <inttypes.h>
#include <string.h>

enum rt_err cli_desk_class(struct cli *c, struct cli_desk *d, const char *class_name, bool writing)
{
	enum rt_err e = CLI_OLD(c, cli_store(c, writing));

	if (!e)
		e = rt_store_class_book(c->store, class_name, &d->book, &c->err);
	return e ? e : cli_desk_again(c, d);
}

enum rt_err cli_desk_again(struct cli *c, struct cli_desk *d)
{
	RT_LIST_FREE(&d->versions);
	return rt_store_mark_versions(c->store, d->book.classes.at->name,
				      d->entry ? d->entry->number : -1, &d->versions, &c->err);
}

enum rt_err cli_desk_entry(struct cli *c, struct cli_desk *d, const char *class_name,
			   const char *number, bool writing)
{
	int64_t which;
	enum rt_err e = cli_whole(c, "number", number, 0, 99999, &which);

	if (!e)
		e = CLI_OLD(c, cli_store(c, writing));
	if (!e)
		e = rt_store_class_book(c->store, class_name, &d->book, &c->err);
	if (e)
		return e;
	for (size_t i = 0; i < d->book.entries.n && !d->entry; i++)
		if (d->book.entries.at[i].number == which)
			d->entry = &d->book.entries.at[i];
	if (d->entry)
		d->entry_place = (size_t)(d->entry - d->book.entries.at);
	else
		return rt_fail(&c->err, RT_E_NOTFOUND, "there is no entry %" PRId64 " in class %s",
			       which, class_name);
	return cli_desk_again(c, d);
}

static enum rt_err find_judge(struct cli *c, struct cli_desk *d, const char *position)
{
	const struct rt_judges *judges = &d->book.classes.at->judges;
	struct cli_names names = {.n = 0};

	for (size_t i = 0; i < judges->n; i++) {
		if (strcmp(judges->at[i].position, position) == 0)
			d->judge = &judges->at[i];
		cli_name(&names, judges->at[i].position);
	}
	if (d->judge) {
		d->judge_place = (size_t)(d->judge - judges->at);
		return RT_OK;
	}
	return rt_fail(&c->err, RT_E_NOTFOUND, "--judge: class %s has no judge at \"%.40s\": %s",
		       d->book.classes.at->name, position, names.text);
}

enum rt_err cli_desk_sheet(struct cli *c, struct cli_desk *d, const struct cli_call *call,
			   bool writing)
{
	const char *by = cli_option(call, "by");
	enum rt_err e = cli_reasons(c, call);

	if (!e && by)
		e = cli_text(c, "--by", by, RT_NAME_MOST, true);
	if (!e)
		e = cli_desk_entry(c, d, call->arg[0], call->arg[1], writing);
	return e ? e : find_judge(c, d, cli_option(call, "judge"));
}

enum rt_err cli_desk_item(struct cli *c, const struct cli_desk *d, const char *name,
			  enum rt_mark_kind *kind, const struct rt_item **item)
{
	*item = NULL;
	if (rt_mark_kind_read(name, kind) && *kind != RT_MARK_ITEM)
		return RT_OK;
	*kind = RT_MARK_ITEM;
	for (size_t i = 0; i < d->book.items.n && !*item; i++)
		if (strcmp(d->book.items.at[i].name, name) == 0)
			*item = &d->book.items.at[i];
	if (*item)
		return RT_OK;
	return rt_fail(&c->err, RT_E_NOTFOUND,
		       "--item: \"%.40s\": an item of test %s, errors or total", name,
		       d->book.tests.at->name);
}

int64_t cli_desk_maximum(const struct cli_desk *d)
{
	int64_t most = 0;

	for (size_t i = 0; i < d->book.items.n; i++)
		most += RT_MARK_MOST_X10 * d->book.items.at[i].coefficient_x1000;
	return most;
}

void cli_put_points(struct rt_table *t, int64_t points_x10000)
{
	int digits = 4;

	for (; digits > 1 && points_x10000 % 10 == 0; digits--)
		points_x10000 /= 10;
	rt_put_decimal(t, points_x10000, digits);
}

void cli_desk_free(struct cli_desk *d)
{
	RT_LIST_FREE(&d->versions);
	rt_class_book_free(&d->book);
}
