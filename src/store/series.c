/* Championships, teams, prize money.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* ---- championships --------------------------------------------------------------------------- */

static enum rt_err check_classes(struct rt__import *in, const struct rt__origin *from,
				 const char *classes, bool *missing)
{
	struct rt_strings names = {0};
	enum rt_err rc = rt_names_split(&names, classes, in->err);

	for (size_t i = 0; i < names.n && !rc; i++)
		rc = rt__import_name(in, RT__SQL_CLASS_KNOWN, from, "classes", names.at[i],
				     missing);
	RT_LIST_FREE(&names);
	return rc;
}

static enum rt_err put_championship(struct rt__import *in, const struct rt_championship *c,
				    struct rt_import_count *count)
{
	struct rt__origin from = rt__origin(c->file, c->line, "championship %s", c->name);
	enum rt__outcome outcome = RT__DIFFERS;
	bool missing = false;
	enum rt_err rc = check_classes(in, &from, c->classes, &missing);

	if (rc || missing)
		return rc;
	rc = rt__import_row(in, RT__SQL_CHAMPIONSHIP_INSERT, RT__SQL_CHAMPIONSHIP_THERE, &from, 1,
			    RT__CELLS(rt__text(c->name), rt__text(c->title), rt__text(c->classes),
				      rt__text(rt_tally_words(c->tally)),
				      rt__text(rt_tally_of_words(c->of)),
				      rt__text(rt_tally_by_words(c->by)),
				      rt__text(rt_tally_ties_words(c->ties)), rt__int(c->dropped)),
			    &outcome);
	count->added += !rc && outcome == RT__ADDED;
	count->same += !rc && outcome == RT__THERE;
	return rc;
}

enum rt_err rt_store_championships_put(struct rt_store *s, const struct rt_championships *list,
				       struct rt_import_count *count, struct rt_faults *faults,
				       struct rt_error *err)
{
	struct rt__import in = {s, faults, err, "the championship another name"};
	enum rt_err rc = rt__need_transaction(s, err);

	for (size_t i = 0; i < list->n && !rc; i++)
		rc = put_championship(&in, &list->at[i], count);
	return rc;
}

static void read_championship(struct rt__rows *rows, struct rt_championship *c)
{
	c->name = rt__name_at(rows, 0);
	c->title = rt__title_at(rows, 1);
	c->classes = rt__name_at(rows, 2);
	if (!rt_tally_read(rt__words_at(rows, 3), &c->tally) ||
	    !rt_tally_of_read(rt__words_at(rows, 4), &c->of) ||
	    !rt_tally_by_read(rt__words_at(rows, 5), &c->by) ||
	    !rt_tally_ties_read(rt__words_at(rows, 6), &c->ties))
		rt__rows_damaged(rows);
	c->dropped = rt__int_in(rows, 7, 0, 1000);
}

enum rt_err rt_store_championships(struct rt_store *s, struct rt_championships *out,
				   struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_CHAMPIONSHIP_LIST, RT__NO_CELLS, &out->text,
					     err);
	struct rt_championship *c;

	while ((c = RT__NEXT(&rows, out)))
		read_championship(&rows, c);
	return rows.rc;
}

/* ---- teams ----------------------------------------------------------------------------------- */

static enum rt_err put_member(struct rt__import *in, const struct rt_team_member *m,
			      struct rt_import_count *count)
{
	struct rt__origin from = rt__origin(m->file, m->line, "entry %lld of class %s in a team",
					    (long long)m->number, m->class_name);
	enum rt__outcome outcome = RT__DIFFERS;
	int64_t known = 0;
	enum rt_err rc = rt__get_int(in->s, RT__SQL_ENTRY_KNOWN,
				     RT__CELLS(rt__text(m->class_name), rt__int(m->number)), &known,
				     NULL, in->err);

	if (!rc && !known)
		rt__import_fault(in, &from, "number", "there is no entry %lld in class %s",
				 (long long)m->number, m->class_name);
	if (rc || !known)
		return rc;
	rc = rt__import_row(
		in, RT__SQL_TEAM_MEMBER_INSERT, RT__SQL_TEAM_MEMBER_THERE, &from, 2,
		RT__CELLS(rt__text(m->class_name), rt__int(m->number), rt__text(m->team)),
		&outcome);
	count->added += !rc && outcome == RT__ADDED;
	count->same += !rc && outcome == RT__THERE;
	return rc;
}

enum rt_err rt_store_team_members_put(struct rt_store *s, const struct rt_team_members *members,
				      struct rt_import_count *count, struct rt_faults *faults,
				      struct rt_error *err)
{
	struct rt__import in = {s, faults, err, "it no other team"};
	enum rt_err rc = rt__need_transaction(s, err);

	for (size_t i = 0; i < members->n && !rc; i++)
		rc = put_member(&in, &members->at[i], count);
	return rc;
}

enum rt_err rt_store_team_members(struct rt_store *s, struct rt_team_members *out,
				  struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_TEAM_MEMBER_LIST, RT__NO_CELLS, &out->text,
					     err);
	struct rt_team_member *m;

	while ((m = RT__NEXT(&rows, out))) {
		m->team = rt__name_at(&rows, 0);
		m->class_name = rt__name_at(&rows, 1);
		m->number = rt__int_in(&rows, 2, 0, RT_NUMBER_MOST);
	}
	return rows.rc;
}

/* ---- prize money ----------------------------------------------------------------------------- */

static enum rt_err put_step(struct rt__import *in, const struct rt_prize_step *p,
			    struct rt_import_count *count)
{
	struct rt__origin from = rt__origin(p->file, p->line,
					    "place %lld from %lld starters of scale %s",
					    (long long)p->place, (long long)p->starters, p->scale);
	enum rt__outcome outcome = RT__DIFFERS;
	enum rt_err rc = rt__import_row(in, RT__SQL_PRIZE_STEP_INSERT, RT__SQL_PRIZE_STEP_THERE,
					&from, 3,
					RT__CELLS(rt__text(p->scale), rt__int(p->starters),
						  rt__int(p->place), rt__units(p->amount_x100, 2)),
					&outcome);

	count->added += !rc && outcome == RT__ADDED;
	count->same += !rc && outcome == RT__THERE;
	return rc;
}

enum rt_err rt_store_prize_steps_put(struct rt_store *s, const struct rt_prize_steps *steps,
				     struct rt_import_count *count, struct rt_faults *faults,
				     struct rt_error *err)
{
	struct rt__import in = {s, faults, err, "the scale another name"};
	enum rt_err rc = rt__need_transaction(s, err);

	for (size_t i = 0; i < steps->n && !rc; i++)
		rc = put_step(&in, &steps->at[i], count);
	return rc;
}

enum rt_err rt_store_prize_steps(struct rt_store *s, struct rt_prize_steps *out,
				 struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_PRIZE_STEP_LIST, RT__NO_CELLS, &out->text,
					     err);
	struct rt_prize_step *p;

	while ((p = RT__NEXT(&rows, out))) {
		p->scale = rt__name_at(&rows, 0);
		p->starters = rt__int_in(&rows, 1, 1, 9999);
		p->place = rt__int_in(&rows, 2, 1, 999);
		p->amount_x100 = rt__int_in(&rows, 3, 0, INT64_C(1000000000));
	}
	return rows.rc;
}

enum rt_err rt_store_payee_put(struct rt_store *s, int64_t number, const char *name,
			       const char *who, const char *when, struct rt_error *err)
{
	bool added = false;
	enum rt_err rc = rt__change(
		s, RT__SQL_PAYEE_INSERT,
		RT__CELLS(rt__int(number), rt__text(name), rt__given(who), rt__given(when)), &added,
		err);

	if (!rc && !added)
		rc = rt_fail(err, RT_E_NOTFOUND, "no entry of the show has number %lld",
			     (long long)number);
	return rc;
}

enum rt_err rt_store_payees(struct rt_store *s, struct rt_payees *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_PAYEE_LIST, RT__NO_CELLS, &out->text, err);
	struct rt_payee *p;

	while ((p = RT__NEXT(&rows, out))) {
		p->number = rt__int_in(&rows, 0, 0, RT_NUMBER_MOST);
		p->name = rt__name_at(&rows, 1);
	}
	return rows.rc;
}
