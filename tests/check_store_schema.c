/* Checks of the schema against the records: what a field accepts is what the CHECKs of its column
 * let in, no more and no less.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "store_show.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include <sqlite3.h>

/* Which columns of which table are the fields of which record, and how many of its fields that a
 * file has are kept elsewhere. */
static const struct kept {
	const char *table;
	const struct rt_record *record;
	size_t elsewhere;
} kept[] = {
	{"ring_kind", &rt_ring_row_record, 4}, /* its name is `name`; three are of the letter */
	{"ring_letter", &rt_ring_row_record, 3},
	{"gait", &rt_gait_record, 0},
	{"level", &rt_level_record, 0},
	{"rule", &rt_rule_record, 0},
	{"article", &rt_article_record, 0},
	{"turnout_part", &rt_turnout_part_record, 0},
	{"test", &rt_test_record, 0},
	{"item", &rt_item_record, 0},
	{"class", &rt_class_record, 2}, /* judges and their names */
	{"judge", &rt_judge_record, 2}, /* names, which change */
	{"entry", &rt_entry_record, 1}, /* its status, which is a history */
	{"championship", &rt_championship_record, 0},
	{"team_member", &rt_team_member_record, 0},
	{"prize_step", &rt_prize_step_record, 0},
	{"plan_row", &rt_plan_row_record, 0},
	{"wish", &rt_wish_record, 0},
	{"ring_height", &rt_height_record, 0},
};
#define KEPT (sizeof kept / sizeof *kept)

static sqlite3 *db;
static struct place place;

static void open_schema(void)
{
	place = place_make();
	make_show(&place);
	ck_assert_int_eq(sqlite3_open(place.path, &db), SQLITE_OK);
}

static void close_schema(void)
{
	sqlite3_close(db);
	place_remove(&place);
}

/* What the schema says of a column: whether it is NOT NULL, and its CHECK ("1" where there is
 * none). */
struct column {
	bool there, not_null, refers;
	char check[300];
};

static void read_check(const char *definition, char *out, size_t size)
{
	const char *end = strchr(definition, '\n'), *check;
	size_t depth = 0, n = 0;

	/* a definition goes on in a line that begins with two tabs */
	while (end && strncmp(end, "\n\t\t", 3) == 0)
		end = strchr(end + 1, '\n');
	check = strstr(definition, "CHECK (");
	snprintf(out, size, "1");
	if (!check || (end && check > end))
		return;
	check += strlen("CHECK ");
	do {
		depth += check[n] == '(';
		depth -= check[n] == ')';
		n++;
	} while (depth && check[n]);
	ck_assert_uint_lt(n, size);
	snprintf(out, size, "%.*s", (int)n, check);
}

static struct column column_of(const char *table, const char *name)
{
	struct column out = {0};
	sqlite3_stmt *q;
	char key[80];
	const char *definition;

	ck_assert_int_eq(sqlite3_prepare_v2(db,
					    "SELECT sql, c.\"notnull\" FROM sqlite_schema AS s, "
					    "pragma_table_info(?1) AS c WHERE s.type = 'table' AND "
					    "s.name = ?1 AND c.name = ?2",
					    -1, &q, NULL),
			 SQLITE_OK);
	sqlite3_bind_text(q, 1, table, -1, SQLITE_STATIC);
	sqlite3_bind_text(q, 2, name, -1, SQLITE_STATIC);
	if (sqlite3_step(q) == SQLITE_ROW) {
		snprintf(key, sizeof key, "\n\t%s ", name);
		definition = strstr((const char *)sqlite3_column_text(q, 0), key);
		ck_assert_msg(definition != NULL, "%s.%s", table, name);
		out.there = true;
		out.not_null = sqlite3_column_int(q, 1) != 0;
		read_check(definition + 1, out.check, sizeof out.check);
		out.refers = strstr(definition, "REFERENCES") != NULL &&
			     strstr(definition, "REFERENCES") < strchr(definition + 1, '\n');
	}
	sqlite3_finalize(q);
	return out;
}

/* Whether the CHECK of a column lets a value in. */
static bool lets_in(const struct column *c, const char *name, const struct rt_field *f,
		    const struct rt_value *v)
{
	char sql[400];
	sqlite3_stmt *q;
	bool in;

	if (v->null)
		return !c->not_null;
	snprintf(sql, sizeof sql, "SELECT %s IS NOT 0 FROM (SELECT ?1 AS %s)", c->check, name);
	ck_assert_msg(sqlite3_prepare_v2(db, sql, -1, &q, NULL) == SQLITE_OK, "%s: %s", sql,
		      sqlite3_errmsg(db));
	switch (rt_type_shown(f->type)) {
	case RT_REAL:
		sqlite3_bind_double(q, 1, v->as.real);
		break;
	case RT_INT:
	case RT_DECIMAL:
		sqlite3_bind_int64(q, 1, v->as.whole);
		break;
	case RT_BOOL:
		sqlite3_bind_int64(q, 1, v->as.truth);
		break;
	default:
		sqlite3_bind_text(q, 1, v->as.text, -1, SQLITE_STATIC);
	}
	ck_assert_int_eq(sqlite3_step(q), SQLITE_ROW);
	in = sqlite3_column_int(q, 0) != 0;
	sqlite3_finalize(q);
	return in;
}

static void compare(const struct kept *k, const struct rt_field *f, const struct rt_value *v)
{
	const char *name = f->kept ? f->kept : f->name;
	struct column c = column_of(k->table, name);
	union {
		max_align_t align;
		char row[1024];
	} room;
	struct rt_arena *text = NULL;
	char words[64];
	bool nomem = false, accepted, in = lets_in(&c, name, f, v);

	ck_assert_uint_le(k->record->size, sizeof room);
	rt_record_start(k->record, &room);
	accepted = rt_field_set(f, &room, v, &text, &nomem);
	rt_arena_free(text);
	ck_assert(!nomem);
	ck_assert_msg(accepted == in, "%s.%s, %s: the field %s it, the schema %s", k->table, name,
		      v->null ? "null" : rt_value_text(f, v, words, sizeof words),
		      accepted ? "accepts" : "refuses", in ? "lets it in" : "does not");
}

static void compare_wholes(const struct kept *k, const struct rt_field *f)
{
	double unit = f->type == RT_DECIMAL ? pow(10, f->decimals) : 1;
	const int64_t low = (int64_t)llround(f->low * unit),
		      high = (int64_t)llround(f->high * unit);
	const int64_t tried[] = {low - 1, low, low + 1, high - 1, high, high + 1,
				 -1,	  0,   1,	2,	  3,	4,
				 5,	  7,   10,	11,	  100,	INT64_C(1) << 40};

	for (size_t i = 0; i < sizeof tried / sizeof *tried; i++)
		compare(k, f,
			&(struct rt_value){.as.whole = tried[i],
					   .digits = f->type == RT_DECIMAL ? f->decimals : 0});
}

static void compare_reals(const struct kept *k, const struct rt_field *f)
{
	const double low = f->type == RT_HEIGHT ? RT_ANIMAL_LEAST_CM : f->low;
	const double high = f->type == RT_HEIGHT ? RT_ANIMAL_MOST_CM : f->high;
	const double tried[] = {nextafter(low, -INFINITY), low, (low + high) / 2, high,
				nextafter(high, INFINITY)};

	for (size_t i = 0; i < sizeof tried / sizeof *tried; i++)
		compare(k, f, &(struct rt_value){.as.real = tried[i]});
}

static void compare_texts(const struct kept *k, const struct rt_field *f)
{
	struct column c = column_of(k->table, f->kept ? f->kept : f->name);

	if (!c.refers) /* what is referred to is not empty */
		compare(k, f, &(struct rt_value){.as.text = ""});
	for (size_t i = 0; f->words && i < f->words->words; i++)
		compare(k, f, &(struct rt_value){.as.text = f->words->word[i]});
	if (f->type != RT_OWN || f->words)
		compare(k, f, &(struct rt_value){.as.text = f->words ? "no such word" : "Ash"});
	for (size_t i = 0; i < 2; i++) /* of a field's own text, those that are accepted */
		if (f->example[i] && *f->example[i] && f->type == RT_OWN)
			compare(k, f, &(struct rt_value){.as.text = f->example[i]});
}

static void compare_field(const struct kept *k, const struct rt_field *f)
{
	bool never_null = f->is & RT_USUAL || f->type == RT_WORD || f->type == RT_BOOL;

	switch (rt_type_shown(f->type)) {
	case RT_INT:
	case RT_DECIMAL:
		compare_wholes(k, f);
		break;
	case RT_REAL:
		compare_reals(k, f);
		break;
	case RT_BOOL:
		compare(k, f, &(struct rt_value){.as.truth = false});
		compare(k, f, &(struct rt_value){.as.truth = true});
		break;
	default:
		compare_texts(k, f);
	}
	if (!never_null)
		compare(k, f, &(struct rt_value){.null = true});
	else
		ck_assert_msg(column_of(k->table, f->kept ? f->kept : f->name).not_null,
			      "%s.%s has a value in each row", k->table, f->name);
}

START_TEST(checks_of_the_schema_are_the_records)
{
	const struct kept *k = &kept[_i];
	size_t elsewhere = 0;

	open_schema();
	for (size_t i = 0; i < k->record->fields; i++) {
		const struct rt_field *f = &k->record->field[i];
		bool there = column_of(k->table, f->kept ? f->kept : f->name).there;

		if (there && strcmp(f->name, "id") != 0)
			compare_field(k, f);
		elsewhere += !there && rt_field_in_file(f);
	}
	ck_assert_uint_eq(elsewhere, k->elsewhere);
	close_schema();
}
END_TEST

int check_store_schema(void)
{
	Suite *suite = suite_create("store: schema");
	TCase *tcase = tcase_create("records");

	tcase_add_loop_test(tcase, checks_of_the_schema_are_the_records, 0, (int)KEPT);
	suite_add_tcase(suite, tcase);
	return suite_run(suite);
}
