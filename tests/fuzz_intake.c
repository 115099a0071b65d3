/* Fuzzing of intake: LLVMFuzzerTestOneInput for libFuzzer (compile with -fsanitize=fuzzer and
 * -DRT_LIBFUZZER), and a main for the normal run of tests: the files given as arguments, or,
 * without any, good files spoilt at random from a fixed seed.  Nothing may crash, leak or hang,
 * and what is read must keep its promises: UTF-8 without control characters, numbers in range,
 * every fault with its file and text.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <time.h>
#include <unistd.h>

#include <ringtrue/intake.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* ---- promises ---- */

static void promise(bool kept, const char *what)
{
	if (kept)
		return;
	fprintf(stderr, "fuzz_intake: broken promise: %s\n", what);
	abort();
}

static void look_at_text(const char *s)
{
	if (!s)
		return;
	promise(rt_is_utf8(s, strlen(s)), "text is UTF-8");
	for (; *s; s++)
		promise((unsigned char)*s >= 0x20 || *s == '\n' || *s == '\t',
			"text has no control characters");
}

static void look_at_faults(struct rt_faults *faults, const char *path)
{
	promise(faults->n <= faults->total && faults->n <= RT_FAULTS_KEPT, "faults are counted");
	for (size_t i = 0; i < faults->n; i++) {
		promise(strcmp(faults->at[i].file, path) == 0, "a fault has its file");
		promise(faults->at[i].line >= 0, "a fault has its line");
		promise(strstr(faults->at[i].text, ":") || strstr(faults->at[i].text, "judge"),
			"a fault says what is accepted");
		look_at_text(faults->at[i].column);
	}
	rt_faults_free(faults);
}

/* ---- readers ---- */

static void try_entries(const char *path)
{
	struct rt_entries entries = {0};
	struct rt_faults faults = {0};

	promise(rt_read_entries(&entries, RT_FILE(path), NULL, &faults, NULL) == RT_OK,
		"entries are read");
	for (size_t i = 0; i < entries.n; i++) {
		const struct rt_entry *e = &entries.at[i];

		promise(e->number >= 1 && e->number <= 99999, "a number is in range");
		promise(e->driver && *e->driver && *e->horses, "a driver and a horse are there");
		promise(!(e->height_cm < 40 || e->height_cm > 220), "a height is in range");
		look_at_text(e->driver);
		look_at_text(e->horses);
		look_at_text(e->club);
	}
	RT_LIST_FREE(&entries);
	look_at_faults(&faults, path);
}

static void try_rings(const char *path)
{
	struct rt_ring_kinds kinds = {0};
	struct rt_faults faults = {0};
	struct rt_error err;

	promise(rt_read_ring_kinds(&kinds, RT_FILE(path), &faults, NULL) == RT_OK,
		"rings are read");
	for (size_t k = 0; k < kinds.n && !faults.total; k++) {
		promise(rt_ring_size_check(&kinds.at[k], &err) == RT_OK, "a ring has a good size");
		for (size_t i = 0; i < kinds.at[k].letters.n; i++)
			promise(rt_ring_letter_check(&kinds.at[k], i, &err) == RT_OK,
				"a letter stands well");
	}
	rt_ring_kinds_free(&kinds);
	look_at_faults(&faults, path);
}

static void try_tests(const char *path)
{
	struct rt_tests tests = {0};
	struct rt_items items = {0};
	struct rt_faults faults = {0};

	promise(rt_read_tests(&tests, RT_FILE(path), NULL, &faults, NULL) == RT_OK,
		"tests are read");
	promise(rt_read_items(&items, RT_FILE(path), &tests, NULL, &faults, NULL) == RT_OK,
		"movements are read");
	for (size_t i = 0; i < items.n; i++) {
		promise(items.at[i].coefficient_x1000 > 0, "a coefficient is over 0");
		promise(100 % items.at[i].mark_step_x100 == 0, "a step leads to 1");
		look_at_text(items.at[i].movement);
	}
	RT_LIST_FREE(&tests);
	RT_LIST_FREE(&items);
	look_at_faults(&faults, path);
}

static void try_classes_and_rules(const char *path)
{
	struct rt_classes classes = {0};
	struct rt_rules rules = {0};
	struct rt_faults faults = {0};
	struct rt_error err;

	promise(rt_read_classes(&classes, RT_FILE(path), NULL, &faults, NULL) == RT_OK,
		"classes are read");
	for (size_t i = 0; i < classes.n; i++)
		promise(classes.at[i].judges.n > 0, "a class has a judge");
	promise(rt_read_rules(&rules, RT_FILE(path), &faults, NULL) == RT_OK, "rules are read");
	for (size_t i = 0; i < rules.n; i++)
		promise(rt_rule_check(&rules.at[i], &err) == RT_OK, "a rule can be scored");
	rt_classes_free(&classes);
	RT_LIST_FREE(&rules);
	look_at_faults(&faults, path);
}

static void try_measures(const char *path)
{
	struct rt_readings readings = {0};
	struct rt_heights heights = {0};
	struct rt_points points = {0};
	struct rt_turnout_parts parts = {0};
	struct rt_footing_rules footings = {0};
	struct rt_levels levels = {0};
	struct rt_gaits gaits = {0};
	struct rt_faults faults = {0};
	struct rt_roster roster = {.gaits = &gaits};

	promise(rt_read_points(&points, RT_FILE(path), &faults, NULL) == RT_OK, "points are read");
	promise(rt_read_readings(&readings, &heights, RT_FILE(path), NULL, &points, &faults,
				 NULL) == RT_OK,
		"readings are read");
	for (size_t i = 0; i < readings.n; i++)
		promise((readings.at[i].value > 0 || readings.at[i].kind != RT_READ_DISTANCE) &&
				readings.at[i].value == readings.at[i].value &&
				!(readings.at[i].sigma <= 0),
			"a distance is over 0, and every reading a number");
	for (size_t i = 0; i < heights.n; i++)
		promise(heights.at[i].name && heights.at[i].height_m >= -500 &&
				!(heights.at[i].sigma_m <= 0),
			"a height is in range");
	promise(rt_read_turnouts(&parts, RT_FILE(path), &faults, NULL) == RT_OK,
		"turnouts are read");
	promise(rt_read_footing_rules(&footings, RT_FILE(path), &faults, NULL) == RT_OK,
		"footing rules are read");
	promise(rt_read_gaits(&gaits, RT_FILE(path), &faults, NULL) == RT_OK, "gaits are read");
	promise(rt_read_levels(&levels, RT_FILE(path), &roster, &faults, NULL) == RT_OK,
		"levels are read");
	RT_LIST_FREE(&readings);
	RT_LIST_FREE(&heights);
	RT_LIST_FREE(&points);
	RT_LIST_FREE(&parts);
	RT_LIST_FREE(&footings);
	RT_LIST_FREE(&levels);
	RT_LIST_FREE(&gaits);
	look_at_faults(&faults, path);
}

/* One class with one judge, item and entry. */
static void try_marks(const char *path)
{
	struct rt_judge judge = {.position = "C", .president = true};
	struct rt_item item = {.test = "T", .name = "1", .mark_step_x100 = 50};
	struct rt_entry entry = {.class_name = "one", .number = 7};
	struct rt_class one = {.name = "one", .test = "T", .judges = {.at = &judge, .n = 1}};
	struct rt_items items = {.at = &item, .n = 1};
	struct rt_entries entries = {.at = &entry, .n = 1};
	struct rt_roster_class sheet = {&one, &items, &entries};
	struct rt_roster_classes sheets = {.at = &sheet, .n = 1};
	struct rt_roster roster = {.sheets = &sheets};
	struct rt_mark_reader *reader;
	struct rt_mark_row row;
	struct rt_faults faults = {0};
	bool got, seen[RT_MARK_TOTAL + 1] = {false};

	promise(rt_mark_reader_open(&reader, RT_FILE(path), &roster, &faults, NULL) == RT_OK,
		"marks are opened");
	got = reader != NULL;
	while (got) {
		promise(rt_mark_reader_next(reader, &row, &got, &faults, NULL) == RT_OK,
			"marks are read");
		if (!got)
			break;
		promise(row.sheet_class + row.entry + row.judge + row.item == 0,
			"a row is of what there is");
		promise(!seen[row.kind], "a box stands once");
		seen[row.kind] = true;
		promise(row.value >= 0 && (row.kind != RT_MARK_ITEM ||
					   (row.value <= RT_MARK_MOST_X100 && row.value % 50 == 0)),
			"a mark is on its step");
		look_at_text(row.remark);
	}
	rt_mark_reader_close(reader);
	look_at_faults(&faults, path);
}

static void try_all(const char *path)
{
	try_entries(path);
	try_rings(path);
	try_tests(path);
	try_classes_and_rules(path);
	try_measures(path);
	try_marks(path);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	char path[64];
	int fd = memfd_create("fuzz_intake", MFD_CLOEXEC);

	promise(fd >= 0 && write(fd, data, size) == (ssize_t)size, "there is a file");
	snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
	try_all(path);
	close(fd);
	return 0;
}

/* ---- the normal run ---- */

#ifndef RT_LIBFUZZER

#define SECONDS 2
#define LONGEST 4096

static const char *const seeds[] = {
	"class,number,driver,horses,height_cm,turnout,carriage,groom,club,division,hors_concours\n"
	"one,7,Åsa Öberg,Ferro; Nelio,13.2hh,gig,the old gig,,,pony,yes\n",
	"kind,discipline,width_m,length_m,peg,side,offset_m\r\nf,driven,40,80,A,a,20\r\n"
	"f,driven,40,80,B,right,40\r\n",
	"test,title,kind,level,rule,multiplier\nT1,\"One, \"\"two\"\"\",f,l,r,0.64\n",
	"test,item,letters,movement,figure,gait,coefficient,group,mark_step\n"
	"T1,1,A X,\"Enter,\nhalt\",X halt,walk,1.5,general,0.1\n",
	"class,title,test,level,ring,rule,judges,division\na,A,T1,,,,C* B E,\n",
	"rule,scale,wins,base,judge_decimals,percent_decimals,score_decimals,taken,error_1,"
	"error_2,error_3,ties,source\n"
	"r,penalties,lowest,160,-1,2,2,score,5,10,eliminated,general median:3,own\n",
	"point,x_m,y_m,fixed\np1,0,-2.5e1,yes\n",
	"from,to,distance_m,sigma_m,note\np1,p2,44.72,0.01,\n",
	"point,from,to,offset_m,sigma_m,note\np1,p2,p3,-0.02,,string\n",
	"point,from,to,angle_deg,sigma_deg,note\np1,p2,p3,270,0.1,\n",
	"point,x_m,y_m,sigma_m\np1,1,2,0.02\np2,3,4,\n",
	"point,lat_deg,lon_deg,height_m,sigma_m\np1,59.1,17.6,500,\np2,59.2,17.6,,0.01\n",
	"point,height_m,sigma_m\np1,12.5,0.003\n",
	"turnout,part,hitch_m,length_m,width_m,track_m,cog_m\ngig,horse,0,1.35,0.6,,\n",
	"gait,speed_m_per_s,stride_m,source\ntrot,3.6,2.7,own\n",
	"level,discipline,turn_diameter_m,reference_height_cm,gait\nt,driven,20,14hh,trot\n",
	"\xEF\xBB\xBF"
	"class,number,judge,item,mark,remark\none,7,C,1,6.5,\n"
	"one,7,C,total,1.25,x\n",
};

static const char *const pieces[] = {
	"\"",	 "\"\"",   ",",		"\n",	    "\r",
	"\r\n",	 ";",	   "\t",	"-1",	    "1e99",
	"0.5",	 "nan",	   "hh",	"\xFF",	    " ",
	"total", "errors", "999999999", "\xC2\x9B", "\xF0\x9F\x90\xB4",
};

/* xorshift64 (G. Marsaglia, Journal of Statistical Software 8, 2003). */
static uint64_t state = UINT64_C(0x9E3779B97F4A7C15);

static size_t pick(size_t n)
{
	state ^= state << 13;
	state ^= state >> 7;
	state ^= state << 17;
	return (size_t)(state % n);
}

/* Put n bytes of s at a place of the text, over what stands there or between. */
static size_t spoil_with(uint8_t *text, size_t size, const void *s, size_t n)
{
	size_t at = pick(size + 1), cut = pick(3) ? 0 : pick(size - at + 1);

	if (size - cut + n > LONGEST)
		return size;
	memmove(text + at + n, text + at + cut, size - at - cut);
	memcpy(text + at, s, n);
	return size - cut + n;
}

static size_t spoil(uint8_t *text, size_t size)
{
	uint8_t copy[LONGEST], byte = (uint8_t)pick(256);
	const char *piece = pieces[pick(sizeof pieces / sizeof *pieces)];
	size_t from, n;

	switch (pick(4)) {
	case 0:
		return spoil_with(text, size, &byte, 1);
	case 1:
		from = pick(size + 1);
		n = pick(size - from + 1);
		memcpy(copy, text + from, n);
		return spoil_with(text, size, copy, n);
	default:
		return spoil_with(text, size, piece, strlen(piece));
	}
}

static int run_files(char **path, int n)
{
	for (int i = 0; i < n; i++)
		try_all(path[i]);
	return 0;
}

static double seconds_now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

int main(int argc, char **argv)
{
	double end = seconds_now() + SECONDS;
	uint8_t text[LONGEST];
	size_t runs = 0;

	if (argc > 1)
		return run_files(argv + 1, argc - 1);
	for (; seconds_now() < end; runs++) {
		const char *seed = seeds[runs % (sizeof seeds / sizeof *seeds)];
		size_t size = strlen(seed);

		memcpy(text, seed, size);
		for (size_t n = pick(6); n > 0; n--)
			size = spoil(text, size);
		LLVMFuzzerTestOneInput(text, size);
	}
	printf("fuzz_intake: %zu files\n", runs);
	return 0;
}

#endif
