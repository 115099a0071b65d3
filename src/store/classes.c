/* Classes and their judges.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

#define OTHER_CLASS "the class another name, change it with `class change`"

/* ---- put ------------------------------------------------------------------------------------- */

static enum rt_err put_judges(struct rt__import *in, const struct rt_class *c)
{
	const struct rt_reason added = {.when = c->added};
	enum rt_err rc = rt__run_list(in->s, RT__SQL_JUDGE_INSERT, &rt_judge_record, c->judges.at,
				      c->judges.n, rt__text(c->name), in->err);

	for (size_t i = 0; i < c->judges.n && !rc; i++)
		if (c->judges.at[i].name)
			rc = rt_store_judge_name_put(in->s, c->name, &c->judges.at[i], 0, &added,
						     in->err);
	return rc;
}

bool rt__same_positions(const struct rt_judges *a, const struct rt_judges *b)
{
	for (size_t i = 0; i < a->n && i < b->n; i++)
		if (strcmp(a->at[i].position, b->at[i].position) != 0)
			return false;
	return a->n == b->n;
}

static bool same_judges(const struct rt_judges *a, const struct rt_judges *b)
{
	bool same = rt__same_positions(a, b);

	for (size_t i = 0; i < a->n && same; i++)
		same = a->at[i].president == b->at[i].president;
	return same;
}

/* The first judge whose name differs from the one there; NULL: none.  A file that names nobody
 * is no other than the show. */
static const struct rt_judge *other_name(const struct rt_judges *judges,
					 const struct rt_judges *there)
{
	bool named = false;

	for (size_t i = 0; i < judges->n; i++)
		named = named || judges->at[i].name;
	for (size_t i = 0; named && i < judges->n; i++) {
		const char *name = judges->at[i].name, *has = there->at[i].name;

		if (!name != !has || (name && strcmp(name, has) != 0))
			return &there->at[i];
	}
	return NULL;
}

static enum rt_err compare_judges(struct rt__import *in, const struct rt_class *c,
				  const struct rt__origin *from, bool *same)
{
	struct rt_judges there = {0};
	const struct rt_judge *other = NULL;
	char words[120];
	enum rt_err rc = rt__load_judges(in->s, c->name, &there, &there.text, in->err);

	*same = !rc && same_judges(&c->judges, &there);
	if (!rc && !*same) {
		rt_judges_words(&there, words, sizeof words);
		rt__import_differs(in, from, "judges", "judges there is \"%s\"", words);
	}
	if (*same)
		other = other_name(&c->judges, &there);
	if (other) {
		*same = false;
		rt__import_differs(in, from, "judge_names", "judge %s there is %s", other->position,
				   other->name ? other->name : "not named");
	}
	RT_LIST_FREE(&there);
	return rc;
}

static enum rt_err check_class_names(struct rt__import *in, const struct rt_class *c,
				     const struct rt__origin *from, bool *missing)
{
	const struct {
		enum rt__sql known;
		const char *column, *name;
	} name[] = {
		{RT__SQL_TEST_KNOWN, "test", c->test},
		{RT__SQL_LEVEL_KNOWN, "level", c->level},
		{RT__SQL_RING_KNOWN, "ring", c->ring},
		{RT__SQL_RULE_KNOWN, "rule", c->rule},
	};
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < sizeof name / sizeof *name && !rc; i++)
		rc = rt__import_name(in, name[i].known, from, name[i].column, name[i].name,
				     missing);
	return rc;
}

/* The history of a name goes on: nobody else has it. */
static enum rt_err check_removed(struct rt__import *in, const struct rt_class *c,
				 const struct rt__origin *from, bool *removed)
{
	bool was = false;
	enum rt_err rc = rt__ask(in->s, RT__SQL_CLASS_REMOVED, RT__CELLS(rt__text(c->name)), &was,
				 in->err);

	if (!rc && was)
		rt__import_fault(in, from, "class",
				 "%s was in the show and was removed: give the class another name",
				 from->what);
	*removed |= was;
	return rc;
}

static enum rt_err put_class(struct rt__import *in, const struct rt_class *c,
			     struct rt_import_count *count)
{
	struct rt__origin from = rt__origin(c->file, c->line, "class %s", c->name);
	enum rt__outcome outcome = RT__DIFFERS;
	bool missing = false, same = false;
	enum rt_err rc = check_class_names(in, c, &from, &missing);

	if (!rc)
		rc = check_removed(in, c, &from, &missing);
	if (rc || missing)
		return rc;
	rc = rt__import_row(in, RT__SQL_CLASS_INSERT, RT__SQL_CLASS_THERE, &from, &rt_class_record,
			    c, RT__NO_CELLS, &outcome);
	if (rc || outcome == RT__DIFFERS)
		return rc;
	if (outcome == RT__ADDED) {
		count->added++;
		return put_judges(in, c);
	}
	rc = compare_judges(in, c, &from, &same);
	count->same += same;
	return rc;
}

enum rt_err rt_store_classes_put(struct rt_store *s, const struct rt_classes *classes,
				 struct rt_import_count *count, struct rt_faults *faults,
				 struct rt_error *err)
{
	struct rt__import in = {s, faults, err, OTHER_CLASS};
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < classes->n && !rc; i++)
		rc = put_class(&in, &classes->at[i], count);
	return rc;
}

/* ---- load ------------------------------------------------------------------------------------ */

enum rt_err rt__load_judges(struct rt_store *s, const char *class_name, struct rt_judges *out,
			    struct rt_arena **text, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_JUDGE_LIST, RT__CELLS(rt__text(class_name)),
					     text, err);

	return rt__load_rows(rows, &rt_judge_record, &out->at, &out->n, &out->cap);
}

static enum rt_err load_all_judges(struct rt_store *s, struct rt_classes *out, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < out->n && !rc; i++) {
		struct rt_class *c = &out->at[i];

		rc = rt__load_judges(s, c->name, &c->judges, &out->text, err);
		if (!rc)
			rc = rt_class_tell_judges(c, &out->text, err);
	}
	return rc;
}

enum rt_err rt_store_classes(struct rt_store *s, struct rt_classes *out, struct rt_error *err)
{
	enum rt_err rc = RT__LOAD(s, RT__SQL_CLASS_LIST, RT__NO_CELLS, &rt_class_record, out, err);

	return rc ? rc : load_all_judges(s, out, err);
}

enum rt_err rt__load_class(struct rt_store *s, const char *name, struct rt_classes *out,
			   struct rt_error *err)
{
	enum rt_err rc = RT__LOAD(s, RT__SQL_CLASS_GET, RT__CELLS(rt__text(name)), &rt_class_record,
				  out, err);

	if (!rc && !out->n)
		rc = rt__need_class(s, name, err);
	if (!rc && !out->n) /* it is known and cannot be had */
		rc = rt__damaged(s, err);
	return rc ? rc : load_all_judges(s, out, err);
}

enum rt_err rt__need_class(struct rt_store *s, const char *class_name, struct rt_error *err)
{
	struct rt_strings names = {0};
	bool known;
	enum rt_err rc = rt__ask(s, RT__SQL_CLASS_KNOWN, RT__CELLS(rt__text(class_name)), &known,
				 err);

	if (!rc && !known)
		rc = rt__load_names(s, RT__SQL_CLASS_NAMES, RT__NO_CELLS, &names, err);
	if (!rc && !known)
		rc = rt_fail_unknown(err, class_name, names.at, names.n, NULL,
				     "there is no class %s in the show", class_name);
	RT_LIST_FREE(&names);
	return rc;
}
