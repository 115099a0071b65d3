/* One class, and one sheet of it, at a desk.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <inttypes.h>
#include <string.h>

void cli_desk_class(struct cli *c, struct cli_desk *d, const char *class_name, bool writing)
{
	cli_store(c, writing);
	CLI_DO(c, rt_store_class_book(c->store, class_name, &d->book, &c->err));
}

void cli_desk_entry(struct cli *c, struct cli_desk *d, int64_t number)
{
	d->entry = NULL;
	for (size_t i = 0; i < d->book.entries.n && !d->entry; i++) {
		d->entry_place = i;
		if (d->book.entries.at[i].number == number)
			d->entry = &d->book.entries.at[i];
	}
	if (!d->entry)
		CLI_FAIL(c, RT_E_NOTFOUND, "there is no entry %" PRId64 " in class %s", number,
			 d->book.classes.at->name);
}

void cli_desk_judge(struct cli *c, struct cli_desk *d, const char *position)
{
	const struct rt_judges *judges;
	char words[RT_JUDGES_WORDS];

	if (c->err.code)
		return;
	judges = &d->book.classes.at->judges;
	for (size_t i = 0; i < judges->n && !d->judge; i++) {
		d->judge_place = i;
		if (rt_same_name(judges->at[i].position, position))
			d->judge = &judges->at[i];
	}
	rt_judges_words(judges, words, sizeof words);
	if (!d->judge)
		CLI_FAIL(c, RT_E_NOTFOUND, "there is no judge at %s in class %s: %s", position,
			 d->book.classes.at->name, words);
}

void cli_desk_versions(struct cli *c, struct cli_desk *d)
{
	RT_LIST_FREE(&d->versions);
	CLI_DO(c, rt_store_mark_versions(c->store, d->book.classes.at->name,
					 d->entry ? d->entry->number : -1, &d->versions, &c->err));
}

void cli_desk_sheet(struct cli *c, struct cli_desk *d, const char *class_name, int64_t number,
		    const char *position, bool writing)
{
	cli_desk_class(c, d, class_name, writing);
	if (number)
		cli_desk_entry(c, d, number);
	if (position)
		cli_desk_judge(c, d, position);
	if (d->judge)
		CLI_DO(c, rt_items_marked_at(&d->asked, &d->book.items, d->judge->position,
					     &c->err));
	cli_desk_versions(c, d);
}

void cli_desk_item(struct cli *c, const struct cli_desk *d, const char *name,
		   enum rt_mark_kind *kind, const struct rt_item **item)
{
	*item = NULL;
	if (rt_mark_kind_read(name, kind) && *kind != RT_MARK_ITEM)
		return;
	*kind = RT_MARK_ITEM;
	for (size_t i = 0; i < d->book.items.n && !*item; i++)
		if (strcmp(d->book.items.at[i].name, name) == 0)
			*item = &d->book.items.at[i];
	if (!*item && !c->err.code)
		CLI_FAIL(c, RT_E_NOTFOUND, "--item: \"%.40s\": an item of test %s, errors or total",
			 name, d->book.tests.at->name);
	if (*item && d->judge)
		cli_desk_marks(c, d, *item);
}

void cli_desk_marks(struct cli *c, const struct cli_desk *d, const struct rt_item *item)
{
	if (!c->err.code && !rt_item_marked_at(item, d->judge->position))
		CLI_FAIL(c, RT_E_INPUT, "item %s is not marked by the judge at %s: those at %s do",
			 item->name, d->judge->position, item->judges);
}

int64_t cli_desk_maximum(const struct cli_desk *d)
{
	int64_t most = 0;

	for (size_t i = 0; i < d->asked.n; i++)
		most += RT_MARK_MOST_X100 * d->asked.at[i].coefficient_x1000;
	return most;
}

void cli_desk_fix(struct cli *c, const struct rt_mark_version *seen, int keying, int64_t value,
		  const char *by, const char *why)
{
	const struct rt_pass pass = {keying, by, c->when, RT_SOURCE_FIX, why};
	bool put = true;

	CLI_DO(c, rt_store_pass_begin(c->store, &pass, &c->err));
	CLI_DO(c, rt_store_mark_put_after(c->store, seen->entry, seen->judge, seen->item,
					  seen->kind, value, seen->remark, seen->version, &put,
					  &c->err));
	if (!put)
		CLI_FAIL(c, RT_E_INPUT,
			 "another desk changed this box since it was shown: look again");
}

void cli_desk_free(struct cli_desk *d)
{
	RT_LIST_FREE(&d->versions);
	RT_LIST_FREE(&d->asked);
	rt_class_book_free(&d->book);
}
