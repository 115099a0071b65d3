/* Checks of entries and people: found, sorted, numbered and changed, with their histories.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <check.h>
#include <math.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store_show.h"
#include "suite.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* ---- names, found and sorted ---------------------------------------------------------------- */

START_TEST(names_are_joined)
{
	static const char *const row[][2] = {
		{"Ferro ;Nelio;", "Ferro; Nelio"},
		{"Ferro", "Ferro"},
		{" ; ;", ""},
		{"", ""},
		{"A;B;C", "A; B; C"},
		{"; A  B ;", "A  B"},
	};
	char joined[64];

	for (size_t i = 0; i < COUNT(row); i++) {
		rt_names_join(row[i][0], joined);
		ck_assert_str_eq(joined, row[i][1]);
	}
}
END_TEST

#define ENTRY(id_, class_, number_, driver_, horses_, ...)                                         \
	{                                                                                          \
		.id = (id_), .class_name = (class_), .number = (number_), .driver = (driver_),     \
		.horses = (horses_), .height_cm = NAN, __VA_ARGS__                                 \
	}

/* Class by class, as a show gives them; ids are the order of arrival. */
static const struct rt_entry field[] = {
	ENTRY(3, "1", 7, "Åsa Björk", "Flinga; Frost", .turnout = "gig", .groom = "Bo Ek"),
	ENTRY(1, "1", 12, "Émile Noir", "Orage", .club = "Cercle de l'Étang"),
	ENTRY(5, "1", 47, "Søren Ask", "Dame 12", .turnout = "phaeton"),
	ENTRY(2, "2", 7, "ASA BJORK", "Frost;  flinga", .groom = "Cay Dahl"),
	ENTRY(4, "2", 112, "Bo Ek", "Kvast", .club = "Lövåsens RK"),
};

/* A list of its own to be found in and sorted. */
static struct rt_entries all_of_field(void)
{
	struct rt_entries list = {0};

	for (size_t i = 0; i < COUNT(field); i++) {
		struct rt_entry *e = RT_LIST_ADD(&list);

		ck_assert_ptr_nonnull(e);
		*e = field[i];
	}
	return list;
}

static void same_ids(const struct rt_entries *list, const char *ids)
{
	char said[64] = "";

	for (size_t i = 0; i < list->n; i++)
		snprintf(said + strlen(said), sizeof said - strlen(said), "%s%lld", i ? " " : "",
			 (long long)list->at[i].id);
	ck_assert_str_eq(said, ids);
}

static const struct {
	const char *word[3];
	const char *ids;
} finds[] = {
	{{"björk"}, "3 2"},
	{{"BJO"}, "3 2"},
	{{"asa", "flinga"}, "3 2"},
	{{"asa", "cay"}, "2"},
	{{"asa flinga cay"}, "2"},
	{{"bo ek"}, "3 4"},
	{{"lovasen"}, "4"},
	{{"etang"}, "1"},
	{{"phaet"}, "5"},
	{{"soren"}, "5"},
	{{"7"}, "3 2"},
	{{"12"}, "1 5"},
	{{"12", "emile"}, "1"},
	{{"007"}, "3 2"},
	{{"nobody"}, ""},
	{{"asa", "nobody"}, ""},
	{{"kfrost"}, ""},
	{{"frost", "7", "gig"}, "3"},
};

START_TEST(entries_are_found)
{
	struct rt_entries list = all_of_field();
	size_t n = 0;

	while (n < 3 && finds[_i].word[n])
		n++;
	DONE(rt_entries_find(&list, finds[_i].word, n, &why));
	same_ids(&list, finds[_i].ids);
	RT_LIST_FREE(&list);
}
END_TEST

START_TEST(it_is_told_where_an_entry_was_found)
{
	static const char *const word[] = {"7", "gig", "frost"};
	struct rt_entries list = all_of_field();

	DONE(rt_entries_find(&list, word, 3, &why));
	ck_assert_uint_eq(list.n, 1);
	ck_assert_str_eq(list.at[0].found, "number; horses: Flinga; Frost; turnout: gig");
	RT_LIST_FREE(&list);
}
END_TEST

START_TEST(nothing_to_find_is_an_error)
{
	static const char *const word[] = {"  ", "\xff"};
	struct rt_entries list = all_of_field();
	struct rt_error err;

	ck_assert_int_eq(rt_entries_find(&list, word, 1, &err), RT_E_INPUT);
	ck_assert_int_eq(rt_entries_find(&list, word + 1, 1, &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "what is to be found is not UTF-8");
	ck_assert_int_eq(rt_entries_find(&list, word, 0, &err), RT_E_INPUT);
	ck_assert_uint_eq(list.n, COUNT(field));
	RT_LIST_FREE(&list);
}
END_TEST

START_TEST(entries_are_sorted)
{
	static const struct {
		const char *order, *ids;
	} row[] = {
		{"class", "3 1 5 2 4"},
		{"number", "3 2 1 5 4"},
		{"driver", "3 2 4 1 5"},
		{"arrival", "1 2 3 4 5"},
	};
	struct rt_entries none = {0};

	for (size_t i = 0; i < COUNT(row); i++) {
		enum rt_entry_order order = (enum rt_entry_order)i;
		struct rt_entries list = all_of_field();

		ck_assert_str_eq(rt_entry_order_words(order), row[i].order);
		DONE(rt_entries_sort(&list, order, &why));
		same_ids(&list, row[i].ids);
		DONE(rt_entries_sort(&none, order, &why));
		RT_LIST_FREE(&list);
	}
}
END_TEST

START_TEST(turnouts_are_alike)
{
	static const struct {
		const char *driver, *horses;
		bool same_driver, same_turnout;
	} row[] = {
		{"asa  björk", "FLINGA;Frost", true, true},
		{"Åsa Björk", "Frost; Flinga", true, true},
		{"Åsa Björk", "Flinga", true, false},
		{"Åsa Björk", "Flinga; Flinga", true, false},
		{"Åsa Björk", "Flinga; Frosk", true, false},
		{"Asa Bjork-Ek", "Flinga; Frost", false, false},
	};

	for (size_t i = 0; i < COUNT(row); i++) {
		const struct rt_entry other = ENTRY(0, "9", 1, row[i].driver, row[i].horses,
						    .late = false);
		bool driver, turnout;

		DONE(rt_entries_alike(&field[0], &other, &driver, &turnout, &why));
		ck_assert_int_eq(driver, row[i].same_driver);
		ck_assert_int_eq(turnout, row[i].same_turnout);
	}
}
END_TEST

/* ---- numbers -------------------------------------------------------------------------------- */

static const struct {
	struct rt_numbering rule;
	const char *class_name, *driver, *horses;
	int64_t number; /* 0: none is free */
	bool kept;
} numbers[] = {
	{{1, 99999, RT_HOLDER_TURNOUT}, "3", "Åsa Björk", "Frost; Flinga", 7, true},
	{{1, 99999, RT_HOLDER_TURNOUT}, "3", "Åsa Björk", "Frost", 113, false},
	{{1, 99999, RT_HOLDER_DRIVER}, "3", "Åsa Björk", "Frost", 7, true},
	{{1, 99999, RT_HOLDER_DRIVER}, "1", "Åsa Björk", "Frost", 113, false}, /* taken there */
	{{1, 99999, RT_HOLDER_DRIVER}, "1", "bo ek", "Frost", 112, true},
	{{1, 99999, RT_HOLDER_NONE}, "3", "Åsa Björk", "Frost; Flinga", 113, false},
	{{201, 300, RT_HOLDER_TURNOUT}, "1", "New", "Frost", 201, false},
	{{100, 300, RT_HOLDER_TURNOUT}, "1", "New", "Frost", 113, false},
	{{1, 60, RT_HOLDER_TURNOUT}, "1", "New", "Frost", 51, false}, /* 50 was given up */
	{{1, 50, RT_HOLDER_TURNOUT}, "1", "New", "Frost", 1, false},  /* the lowest that is free */
	{{7, 7, RT_HOLDER_TURNOUT}, "1", "New", "Frost", 0, false},
	{{7, 8, RT_HOLDER_TURNOUT}, "1", "New", "Frost", 8, false},
	{{50, 50, RT_HOLDER_TURNOUT}, "1", "New", "Frost", 0, false},
};

START_TEST(numbers_are_given_out)
{
	int64_t given_up_at[] = {50, 7};
	const struct rt_numbers given_up = {.at = given_up_at, .n = 2};
	const struct rt_entry entry = ENTRY(0, numbers[_i].class_name, 0, numbers[_i].driver,
					    numbers[_i].horses, .late = false);
	struct rt_entries list = all_of_field();
	struct rt_error err;
	int64_t number;
	bool kept;
	enum rt_err e = rt_number_give(&number, &numbers[_i].rule, &list, &given_up, &entry, &kept,
				       &err);

	ck_assert_int_eq(e, numbers[_i].number ? RT_OK : RT_E_INPUT);
	if (!e) {
		ck_assert_int_eq(number, numbers[_i].number);
		ck_assert_int_eq(kept, numbers[_i].kept);
	}
	RT_LIST_FREE(&list);
}
END_TEST

START_TEST(numbering_is_kept_in_the_show)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	const struct rt_numbering put = {101, 399, RT_HOLDER_DRIVER};
	struct rt_numbering got;

	DONE(rt_store_numbering(s, &got, &why));
	ck_assert(got.first == 1 && got.last == RT_NUMBER_MOST && got.holder == RT_HOLDER_TURNOUT);
	for (int i = 0; i < 2; i++) {
		KEEP(s, rt_store_numbering_put(s, &put, &why));
		DONE(rt_store_numbering(s, &got, &why));
		ck_assert(got.first == 101 && got.last == 399 && got.holder == RT_HOLDER_DRIVER);
	}
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* ---- changes of entries --------------------------------------------------------------------- */

static const struct rt_reason by_ann = {"Ann", "groom is ill", "2026-09-12 08:00:00"};
static const struct rt_reason by_per = {"Per", NULL, "2026-09-12 08:05:00"};

/* The entry of that number in a class; its strings live in list. */
static struct rt_entry load_entry(struct rt_store *s, struct rt_entries *list,
				  const char *class_name, int64_t number)
{
	const struct rt_entry *entry;

	DONE(rt_store_entries(s, class_name, list, &why));
	entry = rt_entry_numbered(list, class_name, number);
	ck_assert_ptr_nonnull(entry);
	return *entry;
}

/* Make entry `number` of class 1 what `became` says, in a transaction; what the show adds is
 * filled in. */
static void change(struct rt_store *s, int64_t number, struct rt_entry became,
		   const struct rt_reason *reason, size_t expected)
{
	struct rt_entries list = {0};
	struct rt_changes changes = {0};
	struct rt_entry was;

	DONE(rt_store_begin(s, &why));
	was = load_entry(s, &list, "1", number);
	became.id = was.id;
	became.changes = was.changes;
	DONE(rt_record_changes(&changes, &rt_entry_record, &was, &became, &why));
	ck_assert_uint_eq(changes.n, expected);
	DONE(rt_store_entry_change(s, &became, &changes, reason, &why));
	DONE(rt_store_commit(s, &why));
	RT_LIST_FREE(&changes);
	RT_LIST_FREE(&list);
}

/* "field was>became why/who; ..." of every row, empty ones as "-". */
static void same_changes(const struct rt_changes *changes, const char *expected)
{
	char said[1000] = "";

	for (size_t i = 0; i < changes->n; i++) {
		const struct rt_change *c = &changes->at[i];

		snprintf(said + strlen(said), sizeof said - strlen(said), "%s%s %s>%s %s/%s",
			 i ? "; " : "", c->field, c->was ? c->was : "-",
			 c->became ? c->became : "-", c->reason.why ? c->reason.why : "-",
			 c->reason.who ? c->reason.who : "-");
	}
	ck_assert_str_eq(said, expected);
}

START_TEST(every_field_of_an_entry_changes)
{
	const struct rt_entry was = ENTRY(1, "1", 7, "Åsa", "Frost", .groom = "Bo", .club = "");
	const struct rt_entry became = {.id = 1,
					.class_name = "1",
					.number = 8,
					.driver = "Bo",
					.horses = "Flinga",
					.height_cm = 132.08,
					.turnout = "gig",
					.club = "C",
					.division = "pony",
					.hors_concours = true,
					.late = true};
	struct rt_changes changes = {0};

	DONE(rt_record_changes(&changes, &rt_entry_record, &was, &became, &why));
	same_changes(&changes, "number 7>8 -/-; driver Åsa>Bo -/-; horses Frost>Flinga -/-; "
			       "height_cm ->132.08 -/-; turnout ->gig -/-; groom Bo>- -/-; "
			       "club ->C -/-; division ->pony -/-; hors_concours no>yes -/-; "
			       "late no>yes -/-");
	RT_LIST_FREE(&changes);
	DONE(rt_record_changes(&changes, &rt_entry_record, &was, &was, &why));
	ck_assert_uint_eq(changes.n, 0);
}
END_TEST

START_TEST(changes_are_kept_with_who_and_why)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entry became = invented_entries.at[0];
	struct rt_entries list = {0};
	struct rt_changes history = {0};
	struct rt_entry got;

	became.groom = "Per Ask";
	became.height_cm = 140;
	change(s, 7, became, &by_ann, 2);
	became.groom = NULL;
	change(s, 7, became, &by_per, 1);
	change(s, 7, became, &by_per, 0);
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_status_put(s, "1", 7, RT_RETIRED, "lame", "Kim", "2026-09-12 09:00:00",
				 &why));
	DONE(rt_store_status_put(s, "1", 7, RT_ELIMINATED, NULL, NULL, "2026-09-12 09:10:00",
				 &why));
	DONE(rt_store_commit(s, &why));
	got = load_entry(s, &list, "1", 7);
	ck_assert_ptr_null(got.groom);
	ck_assert(got.height_cm == 140);
	ck_assert_int_eq(got.changes, 3);
	ck_assert_int_eq(got.status, RT_ELIMINATED);
	ck_assert_str_eq(got.status_at, "2026-09-12 09:10:00");
	ck_assert_ptr_null(got.status_by);
	DONE(rt_store_entry_history(s, got.id, &history, &why));
	same_changes(&history, "entered ->in time -/-; height_cm 132.08>140 groom is ill/Ann; "
			       "groom Bo Ek>Per Ask groom is ill/Ann; groom Per Ask>- -/Per; "
			       "status entered>retired lame/Kim; status retired>eliminated -/-");
	RT_LIST_FREE(&list);
	got = load_entry(s, &list, "1", 12);
	ck_assert_int_eq(got.changes, 0);
	RT_LIST_FREE(&list);
	RT_LIST_FREE(&history);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(an_entry_tells_when_it_came_in)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entry late = ENTRY(0, "1", 80, "Ida Moss", "Fen",
				     .entered_at = "2026-09-12 07:00:00", .late = true);
	const struct rt_entries one = {.at = &late, .n = 1};
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};
	struct rt_changes history = {0};
	struct rt_entries list = {0};
	struct rt_entry got;

	DONE(rt_store_begin(s, &why));
	DONE(rt_store_entries_put(s, &one, &count, &faults, &why));
	late.entered_at = "2026-09-13 07:00:00"; /* a second import says nothing of it */
	late.late = false;
	DONE(rt_store_entries_put(s, &one, &count, &faults, &why));
	DONE(rt_store_commit(s, &why));
	ck_assert_uint_eq(faults.total, 0);
	ck_assert(count.added == 1 && count.same == 1);
	got = load_entry(s, &list, "1", 80);
	ck_assert_str_eq(got.entered_at, "2026-09-12 07:00:00");
	ck_assert(got.late);
	late.entered_at = got.entered_at;
	change(s, 80, late, &by_ann, 1); /* it was in time after all */
	DONE(rt_store_entry_history(s, got.id, &history, &why));
	same_changes(&history, "entered ->late -/-; late yes>no groom is ill/Ann");
	RT_LIST_FREE(&history);
	RT_LIST_FREE(&list);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* The one fault of an import of an entry of class 1 as the first file had it. */
static void import_again(struct rt_store *s, size_t entry, const char *column, const char *text)
{
	const struct rt_entries one = {.at = &invented_entries.at[entry], .n = 1};
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};

	DONE(rt_store_begin(s, &why));
	DONE(rt_store_entries_put(s, &one, &count, &faults, &why));
	rt_store_rollback(s);
	ck_assert_uint_eq(faults.total, text ? 1 : 0);
	ck_assert_uint_eq(count.same, text ? 0 : 1);
	ck_assert_uint_eq(count.added, 0);
	if (text) {
		ck_assert_str_eq(faults.at[0].column, column);
		ck_assert_str_eq(faults.at[0].text, text);
	}
	rt_faults_free(&faults);
}

START_TEST(an_old_file_is_told_of_changes)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entry became = invented_entries.at[0];

	became.groom = "Per Ask";
	change(s, 7, became, &by_ann, 1);
	became = invented_entries.at[1];
	became.number = 13;
	change(s, 12, became, &by_per, 1);
	import_again(
		s, 0, "groom",
		"entry 7 of class 1 is in the show already and differs, groom there is "
		"\"Per Ask\": what is in the show stays; give the row the change that was made "
		"there (groom, 2026-09-12 08:00:00, by Ann), change the entry with `entry "
		"change`, or make the show file anew");
	import_again(s, 1, "number",
		     "entry 12 of class 1 was given another number in the show, 13: change the "
		     "row, or use `entry add` for somebody else");
	import_again(s, 2, NULL, NULL);
	import_again(s, 3, NULL, NULL);
	became.number = 12;
	change(s, 13, became, &by_per, 1);
	import_again(s, 1, NULL, NULL);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(numbers_that_were_given_up_are_known)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entry became = invented_entries.at[1];
	struct rt_numbers given_up = {0};
	int64_t now;

	for (became.number = 13; became.number < 15; became.number++)
		change(s, became.number - 1, became, &by_per, 1);
	DONE(rt_store_numbers_given_up(s, &given_up, &why));
	ck_assert(given_up.n == 2 && given_up.at[0] == 12 && given_up.at[1] == 13);
	DONE(rt_store_number_now(s, "1", 12, &now, &why));
	ck_assert_int_eq(now, 14);
	DONE(rt_store_number_now(s, "2", 12, &now, &why));
	ck_assert_int_eq(now, 0);
	DONE(rt_store_number_now(s, "1", 14, &now, &why));
	ck_assert_int_eq(now, 0);
	RT_LIST_FREE(&given_up);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* The team and the payee of class 1's entry with that number; "" where there is none. */
static void same_team_and_payee(struct rt_store *s, int64_t number, const char *team,
				const char *payee)
{
	struct rt_team_members members = {0};
	struct rt_payees payees = {0};
	const char *got_team = "", *got_payee = "";

	DONE(rt_store_team_members(s, &members, &why));
	DONE(rt_store_payees(s, &payees, &why));
	for (size_t i = 0; i < members.n; i++)
		if (members.at[i].number == number)
			got_team = members.at[i].team;
	for (size_t i = 0; i < payees.n; i++)
		if (payees.at[i].number == number)
			got_payee = payees.at[i].name;
	ck_assert_str_eq(got_team, team);
	ck_assert_str_eq(got_payee, payee);
	RT_LIST_FREE(&members);
	RT_LIST_FREE(&payees);
}

START_TEST(team_and_payee_go_with_the_number)
{
	struct rt_team_member member = {.team = "North", .class_name = "1", .number = 12};
	const struct rt_team_members one = {.at = &member, .n = 1};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entry became = invented_entries.at[1];
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};

	DONE(rt_store_begin(s, &why));
	DONE(rt_store_team_members_put(s, &one, &count, &faults, &why));
	DONE(rt_store_payee_put(s, 12, "Noir et Fils", "Kim", NULL, &why));
	DONE(rt_store_commit(s, &why));
	became.number = 13;
	change(s, 12, became, &by_per, 1);
	same_team_and_payee(s, 13, "North", "Noir et Fils");
	same_team_and_payee(s, 12, "", "Noir et Fils");
	became.groom = "Cay Dahl";
	change(s, 13, became, &by_per, 1);
	same_team_and_payee(s, 13, "North", "Noir et Fils");
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(of_two_desks_the_second_sees_the_first)
{
	struct place p = place_make();
	struct rt_store *one = open_filled_show(&p), *two;
	struct rt_entry became = invented_entries.at[0];
	struct rt_entries list = {0};

	DONE(rt_store_open(&two, p.path, true, &why));
	ck_assert_int_eq(load_entry(two, &list, "1", 7).changes, 0);
	RT_LIST_FREE(&list);
	became.groom = "Per Ask";
	change(one, 7, became, &by_ann, 1);
	DONE(rt_store_begin(two, &why));
	ck_assert_int_eq(load_entry(two, &list, "1", 7).changes, 1);
	rt_store_rollback(two);
	RT_LIST_FREE(&list);
	rt_store_close(two);
	rt_store_close(one);
	place_remove(&p);
}
END_TEST

/* ---- classes and judges --------------------------------------------------------------------- */

/* Key one mark of entry 7 in class 1. */
static void key_a_mark(struct rt_store *s)
{
	const struct rt_pass pass = {.keying = 1, .who = "Kim"};
	struct rt_classes classes = {0};
	struct rt_entries list = {0};
	struct rt_items items = {0};
	enum rt_mark_put what;
	struct rt_entry entry = load_entry(s, &list, "1", 7);

	DONE(rt_store_classes(s, &classes, &why));
	DONE(rt_store_items(s, "T1", &items, &why));
	DONE(rt_store_begin(s, &why));
	DONE(rt_store_pass_begin(s, &pass, &why));
	DONE(rt_store_mark_put(s, entry.id, classes.at[0].judges.at[0].id, items.at[0].id,
			       RT_MARK_ITEM, 65, NULL, &what, &why));
	DONE(rt_store_commit(s, &why));
	rt_classes_free(&classes);
	RT_LIST_FREE(&items);
	RT_LIST_FREE(&list);
}

START_TEST(marks_are_seen)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entries list = {0};
	const struct rt_entry seven = load_entry(s, &list, "1", 7);
	const struct rt_entry *nine = rt_entry_numbered(&list, "1", 9);
	bool marked;

	DONE(rt_store_class_marked(s, "1", &marked, &why));
	ck_assert(!marked);
	key_a_mark(s);
	DONE(rt_store_class_marked(s, "1", &marked, &why));
	ck_assert(marked);
	DONE(rt_store_class_marked(s, "2", &marked, &why));
	ck_assert(!marked);
	DONE(rt_store_entry_marked(s, seven.id, &marked, &why));
	ck_assert(marked);
	DONE(rt_store_entry_marked(s, nine->id, &marked, &why));
	ck_assert(!marked);
	RT_LIST_FREE(&list);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* Give class 1 other judges and another test (NULL: as they are). */
static enum rt_err change_class(struct rt_store *s, const char *judges, const char *test,
				struct rt_error *err)
{
	struct rt_classes classes = {0};
	struct rt_changes changes = {0};
	struct rt_arena *text = NULL;
	struct rt_class became;
	enum rt_err e;

	DONE(rt_store_begin(s, &why));
	DONE(rt_store_classes(s, &classes, &why));
	became = classes.at[0];
	if (judges) {
		became.positions = judges;
		became.judge_names = NULL;
		DONE(rt_class_read_judges(&became, &text, &why));
		became.judge_names = classes.at[0].judge_names;
	}
	became.test = test ? test : became.test;
	DONE(rt_record_changes(&changes, &rt_class_record, &classes.at[0], &became, &why));
	e = rt_store_class_change(s, &classes.at[0], &became, &changes, &by_ann, err);
	if (e)
		rt_store_rollback(s);
	else
		DONE(rt_store_commit(s, &why));
	if (judges)
		RT_LIST_FREE(&became.judges);
	rt_arena_free(text);
	RT_LIST_FREE(&changes);
	rt_classes_free(&classes);
	return e;
}

static void same_positions(struct rt_store *s, const char *expected)
{
	struct rt_classes classes = {0};
	char words[RT_JUDGES_WORDS];

	DONE(rt_store_classes(s, &classes, &why));
	rt_judges_words(&classes.at[0].judges, words, sizeof words);
	ck_assert_str_eq(words, expected);
	rt_classes_free(&classes);
}

START_TEST(a_class_changes_until_it_has_marks)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_changes history = {0};
	struct rt_error err;

	DONE(change_class(s, "B H E*", "T2", &why));
	same_positions(s, "B H E*");
	DONE(change_class(s, "C B", "T1", &why));
	key_a_mark(s);
	ck_assert_int_eq(change_class(s, "C B E", NULL, &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "class 1 has marks: its judges' positions stay, only the "
				   "president may be another");
	ck_assert_int_eq(change_class(s, NULL, "T2", &err), RT_E_INPUT);
	ck_assert_str_eq(err.text, "class 1 has marks of test T1: its test stays");
	same_positions(s, "C B");
	DONE(change_class(s, "C B*", NULL, &why));
	same_positions(s, "C B*");
	DONE(rt_store_class_history(s, "1", &history, &why));
	same_changes(&history, "test T1>T2 groom is ill/Ann; judges C B>B H E* groom is ill/Ann; "
			       "test T2>T1 groom is ill/Ann; judges B H E*>C B groom is ill/Ann; "
			       "judges C B>C B* groom is ill/Ann");
	RT_LIST_FREE(&history);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(every_field_of_a_class_changes)
{
	const struct rt_class was = {.name = "1", .title = "Open", .test = "T1", .ring = "Oak"};
	const struct rt_class became = {.name = "1",
					.title = "Closed",
					.test = "T2",
					.level = "advanced",
					.rule = "plain",
					.division = "pairs"};
	struct rt_changes changes = {0};

	DONE(rt_record_changes(&changes, &rt_class_record, &was, &became, &why));
	same_changes(&changes, "title Open>Closed -/-; test T1>T2 -/-; level ->advanced -/-; "
			       "ring Oak>- -/-; rule ->plain -/-; division ->pairs -/-");
	RT_LIST_FREE(&changes);
}
END_TEST

START_TEST(the_latest_name_of_a_judge_holds)
{
	static const struct rt_judge put[] = {
		{.position = "C", .name = "Per Ask", .scribe = "Ida Moss"},
		{.position = "B", .name = "Una Älv"},
		{.position = "C", .scribe = "Ida Moss"},
	};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_classes classes = {0};
	struct rt_judge_names names = {0};
	const struct rt_judge *judge;

	for (size_t i = 0; i < COUNT(put); i++)
		KEEP(s, rt_store_judge_name_put(s, "1", &put[i], 0, &by_per, &why));
	DONE(change_class(s, "B C", NULL, &why)); /* names go with the position */
	DONE(rt_store_classes(s, &classes, &why));
	judge = classes.at[0].judges.at;
	ck_assert_str_eq(judge[0].name, "Una Älv");
	ck_assert_ptr_null(judge[0].scribe);
	ck_assert_ptr_null(judge[1].name);
	ck_assert_str_eq(judge[1].scribe, "Ida Moss");
	ck_assert_ptr_null(classes.at[1].judges.at[0].name);
	DONE(rt_store_judge_history(s, "1", &names, &why));
	ck_assert_uint_eq(names.n, 4);
	ck_assert_str_eq(names.at[0].name, "Una Älv"); /* as the class came in */
	ck_assert_ptr_null(names.at[0].reason.when);
	ck_assert_str_eq(names.at[1].name, "Per Ask");
	ck_assert_str_eq(names.at[1].position, "C");
	ck_assert_str_eq(names.at[1].reason.who, "Per");
	ck_assert_ptr_null(names.at[3].name);
	RT_LIST_FREE(&names);
	rt_classes_free(&classes);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

/* What rt_judge_spells says of the judge at C, by its bytes. */
static void spells_of(struct rt_store *s, char *out, size_t size)
{
	struct rt_class_book book = {0};

	DONE(book_of_class(s, "1", &book, &why));
	rt_judge_spells(book.marks.judged, &book.classes.at->judges.at[0], out, size);
	rt_class_book_free(&book);
}

START_TEST(a_judge_is_replaced_on_the_day)
{
	static const struct rt_judge una = {.position = "C", .name = "Una Älv"};
	static const struct rt_judge bo = {.position = "C", .name = "Bo Birk"};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_class_book book = {0};
	struct rt_draw_places places = {0};
	struct rt_stored_draw draw = {.class_name = "1", .what = "drawn", .seed = 1};
	char words[200];
	int64_t nine, seven;

	DONE(book_of_class(s, "1", &book, &why)); /* 7, 9, 12 */
	seven = book.entries.at[0].id;
	nine = book.entries.at[1].id;
	KEEP(s, rt_store_judge_name_put(s, "1", &una, 0, &by_per, &why));
	spells_of(s, words, sizeof words);
	ck_assert_str_eq(words, "Una Älv");
	KEEP(s, rt_store_judge_name_put(s, "1", &bo, nine, &by_per, &why));
	spells_of(s, words, sizeof words);
	ck_assert_str_eq(words, "Una Älv to no. 7, then Bo Birk");
	/* The order of starting counts, not the numbers: 12, 9, 7. */
	for (int64_t i = 0; i < 3 && RT_LIST_ADD(&places); i++)
		places.at[i] = (struct rt_draw_place){book.entries.at[2 - i].id, i + 1, false};
	KEEP(s, rt_store_draw_put(s, &draw, &places, &why));
	spells_of(s, words, sizeof words);
	ck_assert_str_eq(words, "Una Älv to no. 12, then Bo Birk");
	rt_class_book_free(&book);
	DONE(book_of_class(s, "1", &book, &why));
	ck_assert_str_eq(rt_sheet_judge(book.marks.judged, seven, &book.classes.at->judges.at[0]),
			 "Bo Birk");
	ck_assert_str_eq(rt_sheet_judge(book.marks.judged, book.entries.at[2].id,
					&book.classes.at->judges.at[0]),
			 "Una Älv");
	ck_assert_ptr_null(rt_sheet_judge(book.marks.judged, seven,
					  &book.classes.at->judges.at[1]));
	/* Without an entry all sheets are of one judge again. */
	KEEP(s, rt_store_judge_name_put(s, "1", &una, 0, &by_per, &why));
	spells_of(s, words, sizeof words);
	ck_assert_str_eq(words, "Una Älv");
	rt_class_book_free(&book);
	RT_LIST_FREE(&places);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(what_was_changed_stays)
{
	static const char *const table[] = {"entry_change", "class_change", "judge_name"};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entry became = invented_entries.at[0];
	char sql[80];

	became.groom = NULL;
	change(s, 7, became, &by_ann, 1);
	DONE(change_class(s, "B C", NULL, &why));
	rt_store_close(s);
	for (size_t i = 0; i < COUNT(table); i++) {
		snprintf(sql, sizeof sql, "DELETE FROM %s", table[i]);
		ck_assert_int_eq(run_outside(p.path, sql), SQLITE_CONSTRAINT);
		snprintf(sql, sizeof sql, "UPDATE %s SET who = 'x'", table[i]);
		ck_assert_int_eq(run_outside(p.path, sql), SQLITE_CONSTRAINT);
	}
	place_remove(&p);
}
END_TEST

START_TEST(an_entry_moves_to_another_class)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_entries list = {0}, there = {0}, here = {0};
	struct rt_entry was;
	bool left = true;

	DONE(rt_store_begin(s, &why));
	was = load_entry(s, &list, "1", 12);
	DONE(rt_store_entry_move(s, &was, "2", 13, false, &by_ann, &left, &why));
	ck_assert(!left); /* nothing hung on it */
	ck_assert_int_eq(load_entry(s, &there, "2", 13).id, was.id);
	DONE(rt_store_entries(s, "1", &here, &why));
	ck_assert_uint_eq(here.n, list.n - 1);
	ck_assert_ptr_null(rt_entry_numbered(&here, "1", 12));
	RT_LIST_FREE(&here);
	RT_LIST_FREE(&there);
	RT_LIST_FREE(&list);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(a_class_that_is_removed_is_gone)
{
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_classes before = {0}, after = {0};
	struct rt_changes history = {0};
	struct rt_import_count count = {0};
	struct rt_faults faults = {0};

	DONE(rt_store_begin(s, &why));
	DONE(rt_store_classes(s, &before, &why));
	DONE(rt_store_class_remove(s, before.at[0].name, "removed", &by_ann, &why));
	DONE(rt_store_classes(s, &after, &why));
	ck_assert_uint_eq(after.n, before.n - 1);
	ck_assert_str_eq(after.at[0].name, before.at[1].name);
	DONE(rt_store_class_history(s, before.at[0].name, &history, &why));
	ck_assert_str_eq(history.at[history.n - 1].became, "removed");
	DONE(rt_store_classes_put(s, &(struct rt_classes){.at = before.at, .n = 1}, &count, &faults,
				  &why));
	ck_assert_uint_eq(faults.total, 1);
	ck_assert_uint_eq(count.added + count.same, 0);
	rt_faults_free(&faults);
	RT_LIST_FREE(&history);
	rt_classes_free(&after);
	rt_classes_free(&before);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

START_TEST(changes_want_a_transaction)
{
	struct rt_change club = {.field = "club", .was = "A", .became = "B"};
	const struct rt_changes one = {.at = &club, .n = 1};
	struct place p = place_make();
	struct rt_store *s = open_filled_show(&p);
	struct rt_classes classes = {0};
	struct rt_error err;

	DONE(rt_store_classes(s, &classes, &why));
	ck_assert_int_eq(rt_store_entry_change(s, &invented_entries.at[0], &one, &by_ann, &err),
			 RT_E_USAGE);
	ck_assert_int_eq(rt_store_class_change(s, classes.at, classes.at, &one, &by_ann, &err),
			 RT_E_USAGE);
	rt_classes_free(&classes);
	rt_store_close(s);
	place_remove(&p);
}
END_TEST

int check_entries(void)
{
	Suite *suite = suite_create("entries");
	TCase *all = tcase_create("all");

	tcase_add_test(all, names_are_joined);
	tcase_add_loop_test(all, entries_are_found, 0, (int)COUNT(finds));
	tcase_add_test(all, it_is_told_where_an_entry_was_found);
	tcase_add_test(all, nothing_to_find_is_an_error);
	tcase_add_test(all, entries_are_sorted);
	tcase_add_test(all, turnouts_are_alike);
	tcase_add_loop_test(all, numbers_are_given_out, 0, (int)COUNT(numbers));
	tcase_add_test(all, numbering_is_kept_in_the_show);
	tcase_add_test(all, every_field_of_an_entry_changes);
	tcase_add_test(all, changes_are_kept_with_who_and_why);
	tcase_add_test(all, an_entry_tells_when_it_came_in);
	tcase_add_test(all, an_old_file_is_told_of_changes);
	tcase_add_test(all, numbers_that_were_given_up_are_known);
	tcase_add_test(all, team_and_payee_go_with_the_number);
	tcase_add_test(all, of_two_desks_the_second_sees_the_first);
	tcase_add_test(all, marks_are_seen);
	tcase_add_test(all, every_field_of_a_class_changes);
	tcase_add_test(all, a_class_changes_until_it_has_marks);
	tcase_add_test(all, the_latest_name_of_a_judge_holds);
	tcase_add_test(all, a_judge_is_replaced_on_the_day);
	tcase_add_test(all, what_was_changed_stays);
	tcase_add_test(all, an_entry_moves_to_another_class);
	tcase_add_test(all, a_class_that_is_removed_is_gone);
	tcase_add_test(all, changes_want_a_transaction);
	suite_add_tcase(suite, all);
	return suite_run(suite);
}
