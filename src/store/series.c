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
	rc = rt__import_row(in, RT__SQL_CHAMPIONSHIP_INSERT, RT__SQL_CHAMPIONSHIP_THERE, &from,
			    &rt_championship_record, c, RT__NO_CELLS, &outcome);
	count->added += !rc && outcome == RT__ADDED;
	count->same += !rc && outcome == RT__THERE;
	return rc;
}

enum rt_err rt_store_championships_put(struct rt_store *s, const struct rt_championships *list,
				       struct rt_import_count *count, struct rt_faults *faults,
				       struct rt_error *err)
{
	struct rt__import in = {s, faults, err, "the championship another name"};
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < list->n && !rc; i++)
		rc = put_championship(&in, &list->at[i], count);
	return rc;
}

enum rt_err rt_store_championships(struct rt_store *s, struct rt_championships *out,
				   struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_CHAMPIONSHIP_LIST, RT__NO_CELLS, &rt_championship_record, out,
			err);
}

/* ---- teams ----------------------------------------------------------------------------------- */

static enum rt_err put_member(struct rt__import *in, const struct rt_team_member *m,
			      struct rt_import_count *count)
{
	struct rt__origin from = rt__origin(m->file, m->line, "entry %lld of class %s in a team",
					    (long long)m->number, m->class_name);
	enum rt__outcome outcome = RT__DIFFERS;
	bool known;
	enum rt_err rc = rt__ask(in->s, RT__SQL_ENTRY_KNOWN,
				 RT__CELLS(rt__text(m->class_name), rt__int(m->number)), &known,
				 in->err);

	if (!rc && !known)
		rt__import_fault(in, &from, "number", "there is no entry %lld in class %s",
				 (long long)m->number, m->class_name);
	if (rc || !known)
		return rc;
	rc = rt__import_row(in, RT__SQL_TEAM_MEMBER_INSERT, RT__SQL_TEAM_MEMBER_THERE, &from,
			    &rt_team_member_record, m, RT__NO_CELLS, &outcome);
	count->added += !rc && outcome == RT__ADDED;
	count->same += !rc && outcome == RT__THERE;
	return rc;
}

enum rt_err rt_store_team_members_put(struct rt_store *s, const struct rt_team_members *members,
				      struct rt_import_count *count, struct rt_faults *faults,
				      struct rt_error *err)
{
	struct rt__import in = {s, faults, err, "it no other team"};
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < members->n && !rc; i++)
		rc = put_member(&in, &members->at[i], count);
	return rc;
}

enum rt_err rt_store_team_members(struct rt_store *s, struct rt_team_members *out,
				  struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_TEAM_MEMBER_LIST, RT__NO_CELLS, &rt_team_member_record, out,
			err);
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
					&from, &rt_prize_step_record, p, RT__NO_CELLS, &outcome);

	count->added += !rc && outcome == RT__ADDED;
	count->same += !rc && outcome == RT__THERE;
	return rc;
}

enum rt_err rt_store_prize_steps_put(struct rt_store *s, const struct rt_prize_steps *steps,
				     struct rt_import_count *count, struct rt_faults *faults,
				     struct rt_error *err)
{
	struct rt__import in = {s, faults, err, "the scale another name"};
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < steps->n && !rc; i++)
		rc = put_step(&in, &steps->at[i], count);
	return rc;
}

enum rt_err rt_store_prize_steps(struct rt_store *s, struct rt_prize_steps *out,
				 struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_PRIZE_STEP_LIST, RT__NO_CELLS, &rt_prize_step_record, out, err);
}

enum rt_err rt_store_payee_put(struct rt_store *s, int64_t number, const char *name,
			       const char *who, const char *when, struct rt_error *err)
{
	enum rt_err rc = rt__run(
		s, RT__SQL_PAYEE_INSERT,
		RT__CELLS(rt__int(number), rt__text(name), rt__given(who), rt__given(when)), err);

	if (!rc && !sqlite3_changes(s->db))
		rc = rt_fail(err, RT_E_NOTFOUND, "no entry of the show has number %lld",
			     (long long)number);
	return rc;
}

static const struct rt_field payee_fields[] = {
	{"number", RT_AT(struct rt_payee, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST},
	{"name", RT_AT(struct rt_payee, name), .type = RT_TEXT},
};

static const struct rt_record payee_record = {RT_FIELDS(payee_fields),
					      .size = sizeof(struct rt_payee)};

enum rt_err rt_store_payees(struct rt_store *s, struct rt_payees *out, struct rt_error *err)
{
	return RT__LOAD(s, RT__SQL_PAYEE_LIST, RT__NO_CELLS, &payee_record, out, err);
}
