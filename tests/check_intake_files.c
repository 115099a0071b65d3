/* Files as offices have them: their encodings, separators, headings, and workbooks.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "suite.h"

#include <ringtrue/intake.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <zip.h>

#define BYTES(s) (s), sizeof(s) - 1
#define HEAD	 "point,x_m,y_m,fixed\n"

static char path[] = "rt-files-XXXXXX";

/* What a file comes to: "Pég 1.5 2 yes; ..." or its faults, then its notes. */
static const char *read_as(const struct rt_source *source)
{
	static char told[2000];
	struct rt_points points = {0};
	struct rt_faults faults = {0};
	struct rt_report notes = {0};
	struct rt_source from = *source;

	*told = '\0';
	from.notes = &notes;
	ck_assert_int_eq(rt_read_points(&points, &from, &faults, NULL), RT_OK);
	for (size_t i = 0; i < points.n && !faults.total; i++)
		ck_assert(rt_append(told, sizeof told, "%s %g %g %s; ", points.at[i].name,
				    points.at[i].x_m, points.at[i].y_m,
				    points.at[i].fixed ? "yes" : "no"));
	for (size_t i = 0; i < faults.n; i++)
		ck_assert(rt_append(told, sizeof told, "%ld %s: %s; ", faults.at[i].line,
				    faults.at[i].column ? faults.at[i].column : "-",
				    faults.at[i].text));
	for (size_t i = 0; i < notes.notes; i++)
		ck_assert(rt_append(told, sizeof told, "[%s]",
				    strncmp(notes.note[i], path, strlen(path)) == 0
					    ? notes.note[i] + strlen(path)
					    : notes.note[i]));
	RT_LIST_FREE(&points);
	rt_faults_free(&faults);
	rt_report_free(&notes);
	return told;
}

static void made(void)
{
	int fd;

	memcpy(path + strlen(path) - 6, "XXXXXX", 6);
	fd = mkstemp(path);
	ck_assert_int_ge(fd, 0);
	close(fd);
}

static void put(const char *bytes, size_t n)
{
	FILE *file;

	made();
	file = fopen(path, "wb");
	ck_assert_ptr_nonnull(file);
	ck_assert_uint_eq(fwrite(bytes, 1, n, file), n);
	ck_assert_int_eq(fclose(file), 0);
}

static const struct {
	const char *bytes;
	size_t n;
	const char *told;
} texts[] = {
	{BYTES(HEAD "P\xC3\xA9g,1.5,2,yes\n"), "P\xC3\xA9g 1.5 2 yes; "},
	{BYTES("\xEF\xBB\xBF" HEAD "P\xC3\xA9g,1.5,2,yes\n"), "P\xC3\xA9g 1.5 2 yes; "},
	{BYTES("point;x_m;y_m;fixed\r\nP\xE9g;1,5;2;yes\r\n\x80;1;2;no\r\n"),
	 "P\xC3\xA9g 1.5 2 yes; \xE2\x82\xAC 1 2 no; "
	 "[ was read as Windows-1252 with semicolons between columns.]"},
	{BYTES("point\tx_m\ty_m\tfixed\n\"a\tb;c\"\t1,5\t2\tyes\n"),
	 "2 point: \"a\\tb;c\" holds a line break or a tab: text on one line; "
	 "[ was read with tabs between columns.]"},
	{BYTES("\xFF\xFEp\0o\0i\0n\0t\0;\0x\0_\0m\0;\0y\0_\0m\0;\0f\0i\0x\0e\0d\0\n\0"
	       "P\0\xE9\0;\0001\0;\0002\0;\0n\0o\0\n\0"),
	 "P\xC3\xA9 1 2 no; [ was read as UTF-16 with semicolons between columns.]"},
	{BYTES("p\0o\0i\0n\0t\0,\0x\0_\0m\0,\0y\0_\0m\0,\0f\0i\0x\0e\0d\0\n\0"
	       "\x3D\xD8\x34\xDC,\0001\0,\0002\0,\0n\0o\0"),
	 "\xF0\x9F\x90\xB4 1 2 no; [ was read as UTF-16.]"},
	{BYTES("\0p\0o\0i\0n\0t\0,\0x\0_\0m\0,\0y\0_\0m\0,\0f\0i\0x\0e\0d\0\n"
	       "\0P\0,\0001\0,\0002\0,\0n\0o\0\n"),
	 "P 1 2 no; [ was read as UTF-16.]"},
	{BYTES("\xFE\xFF\0p\0o\0i\0n\0t\0,\0x\0_\0m\0,\0y\0_\0m\0,\0f\0i\0x\0e\0d\0\n\xDC"),
	 "2 -: this begins as UTF-16 and is none: save the file as UTF-8; [ was read as UTF-16.]"},
	{BYTES("Point,X M,y-m,FIXED,Colour,,\nP,1,2,yes,red,,\n,,,,,,\n"),
	 "P 1 2 yes; [Left out of FILE: the columns \"Colour\".]"},
	{BYTES("point,x_m,y_m,fixed,,\nP,1,2,yes,,3\n"),
	 "2 -: 6 fields in this row: 4, as in the header; "},
	{BYTES("point,x_m,y_m,fixd\nP,1,2,yes\n"),
	 "1 fixd: unknown column \"fixd\": did you mean \"fixed\"? (the columns are point, x_m, "
	 "y_m, fixed); "},
	{BYTES("no table at all\nin \x96 this file\n"),
	 "1 -: no header row with the names of the columns: the columns are point, x_m, y_m, "
	 "fixed; "},
};

START_TEST(texts_are_read_as_they_are_written)
{
	char told[2000];
	const char *found, *name;

	put(texts[_i].bytes, texts[_i].n);
	found = read_as(&(struct rt_source){.path = path});
	name = strstr(found, path);
	snprintf(told, sizeof told, "%.*s%s%s", name ? (int)(name - found) : (int)strlen(found),
		 found, name ? "FILE" : "", name ? name + strlen(path) : "");
	ck_assert_str_eq(told, texts[_i].told);
	unlink(path);
}
END_TEST

START_TEST(columns_may_be_called_otherwise)
{
	struct rt_source source = {.path = path, .columns = "Punkt = point;Rechts=x_m; Hoch=y_m"};

	put(BYTES("PUNKT,rechts,Hoch,fixed\nP,1,2,yes\n"));
	ck_assert_str_eq(read_as(&source), "P 1 2 yes; ");
	source.sheet = "one";
	ck_assert_str_eq(read_as(&source),
			 "0 -: a CSV file has no sheet \"one\": a workbook, or no "
			 "sheet named; ");
	unlink(path);
}
END_TEST

START_TEST(dates_are_days_of_the_show)
{
	static const char rows[] =
		"class;day;first\n1;2026-05-10;9.05\n2;10.5.2026;9:05 AM\n"
		"3;5/13/2026;12:30pm\n4;13/5/2026;09:00:00\n5;05/05/2026;0:10 am\n"
		"6;5/6/2026;12:15 am\n";
	struct rt_plan_rows plan = {0};
	struct rt_faults faults = {0};

	put(BYTES(rows));
	ck_assert_int_eq(
		rt_read_plan_rows(&plan,
				  &(struct rt_source){.path = path, .first_day = "2026-05-09"},
				  NULL, &faults, NULL),
		RT_OK);
	ck_assert_uint_eq(plan.n, 4);
	ck_assert_int_eq(plan.at[0].day, 2);
	ck_assert_int_eq(plan.at[1].day, 2);
	ck_assert_int_eq(plan.at[2].day, 5);
	ck_assert_int_eq(plan.at[3].day, 5);
	ck_assert_int_eq(plan.at[0].first_s, 9 * 3600 + 300);
	ck_assert_int_eq(plan.at[1].first_s, 9 * 3600 + 300);
	ck_assert_int_eq(plan.at[2].first_s, 12 * 3600 + 1800);
	ck_assert_uint_eq(faults.total, 3);
	ck_assert_ptr_nonnull(strstr(faults.at[0].text, "\"-3\" is out of range"));
	ck_assert_ptr_nonnull(strstr(faults.at[1].text, "\"0:10 am\" is no time of day"));
	ck_assert_ptr_nonnull(strstr(faults.at[2].text, "\"5/6/2026\" "));
	RT_LIST_FREE(&plan);
	rt_faults_free(&faults);
	unlink(path);
}
END_TEST

/* ---- workbooks ------------------------------------------------------------------------------- */

#define MAIN "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
#define RELS "http://schemas.openxmlformats.org/officeDocument/2006/relationships"

static void put_part(zipFile zip, const char *name, const char *text)
{
	ck_assert_int_eq(
		zipOpenNewFileInZip(zip, name, NULL, NULL, 0, NULL, 0, NULL, Z_DEFLATED, 9),
		ZIP_OK);
	ck_assert_int_eq(zipWriteInFileInZip(zip, text, (unsigned)strlen(text)), ZIP_OK);
	ck_assert_int_eq(zipCloseFileInZip(zip), ZIP_OK);
}

#define TEXT_CELL(s) "<c t=\"inlineStr\"><is><t>" s "</t></is></c>"
#define HEAD_ROW                                                                                   \
	"<row r=\"1\">" TEXT_CELL("point") TEXT_CELL("x_m") TEXT_CELL("y_m")                       \
		TEXT_CELL("fixed") "</row>"

/* An .xlsx workbook with these rows in its second sheet, "pegs". */
static void put_xlsx(const char *rows, const char *book)
{
	static char sheet[1200000];
	zipFile zip;

	made();
	zip = zipOpen64(path, APPEND_STATUS_CREATE);
	ck_assert_ptr_nonnull(zip);
	snprintf(sheet, sizeof sheet,
		 "<worksheet xmlns=\"" MAIN "\"><sheetData>%s</sheetData></worksheet>", rows);
	put_part(zip, "xl/workbook.xml",
		 book ? book
		      : "<workbook xmlns=\"" MAIN "\" xmlns:r=\"" RELS "\"><sheets>"
			"<sheet name=\"other\" sheetId=\"1\" r:id=\"a\"/>"
			"<sheet name=\"Pegs\" sheetId=\"2\" r:id=\"b\"/></sheets></workbook>");
	put_part(zip, "xl/_rels/workbook.xml.rels",
		 "<Relationships><Relationship Id=\"a\" Type=\"" RELS
		 "/worksheet\" Target=\"/xl/a.xml\"/>"
		 "<Relationship Id=\"b\" Type=\"" RELS "/worksheet\" Target=\"sheets/b.xml\"/>"
		 "<Relationship Id=\"s\" Type=\"" RELS "/sharedStrings\" Target=\"s.xml\"/>"
		 "<Relationship Id=\"f\" Type=\"" RELS
		 "/styles\" Target=\"f.xml\"/></Relationships>");
	put_part(zip, "xl/a.xml", "<worksheet xmlns=\"" MAIN "\"><sheetData/></worksheet>");
	put_part(zip, "xl/sheets/b.xml", sheet);
	put_part(
		zip, "xl/s.xml",
		"<sst xmlns=\"" MAIN "\"><si><t>plain</t></si>"
		"<si><r><t>ri</t></r><rPh><t>no</t></rPh><r><t>ch_x000D_&quot;</t></r></si></sst>");
	put_part(zip, "xl/f.xml",
		 "<styleSheet xmlns=\"" MAIN "\"><numFmts>"
		 "<numFmt numFmtId=\"170\" formatCode=\"[Red]0.00\"/>"
		 "<numFmt numFmtId=\"171\" formatCode=\"0.0&quot;day&quot;\"/>"
		 "<numFmt numFmtId=\"172\" formatCode=\"[h]:mm\"/>"
		 "<numFmt numFmtId=\"173\" formatCode=\"dd/mm/yyyy\"/></numFmts>"
		 "<cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs>"
		 "<cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"170\"/><xf numFmtId=\"171\"/>"
		 "<xf numFmtId=\"172\"/><xf numFmtId=\"173\"/><xf numFmtId=\"9\"/>"
		 "<xf numFmtId=\"22\"/></cellXfs></styleSheet>");
	ck_assert_int_eq(zipClose(zip, NULL), ZIP_OK);
}

static const struct {
	const char *rows, *told;
} sheets[] = {
	{HEAD_ROW
	 "<row r=\"3\"><c r=\"A3\" t=\"s\"><v>0</v></c><c r=\"B3\"><v>0.62000000000000011</v></c>"
	 "<c r=\"C3\" s=\"1\"><v>2</v></c><c r=\"D3\" t=\"b\"><v>1</v></c></row>"
	 "<row><c t=\"s\"><v>1</v></c><c s=\"5\"><f>A1</f><v>0.62</v></c><c s=\"2\"><v>7</v></c>"
	 "<c t=\"str\"><f>B1</f><v>no</v></c></row>",
	 "plain 0.62 2 yes; rich \" 62 7 no; "},
	{HEAD_ROW
	 "<row r=\"4\"><c s=\"3\"><v>1.3958333333333333</v></c><c><v>1</v></c><c><v>1</v></c>"
	 "<c t=\"b\"><v>0</v></c></row>"
	 "<row><c s=\"4\"><v>46151</v></c><c><v>1</v></c><c><v>1</v></c><c t=\"b\"><v>0</v></c></row>"
	 "<row><c s=\"6\"><v>46151.375</v></c><c><v>1</v></c><c><v>1</v></c>"
	 "<c t=\"b\"><v>0</v></c></row>",
	 "33:30 1 1 no; 2026-05-09 1 1 no; 2026-05-09 09:00 1 1 no; "},
	{HEAD_ROW "<row r=\"7\"><c r=\"A7\" t=\"s\"><v>0</v></c><c r=\"B7\"><f>A1+1</f></c>"
		  "<c r=\"C7\" t=\"e\"><v>#N/A</v></c><c r=\"D7\" t=\"s\"><v>9</v></c></row>",
	 "7 B7: a formula whose value was not kept: open and save it in a spreadsheet, or type the "
	 "value; 7 C7: its formula ends in an error: a value; 7 D7: its text is not in the "
	 "workbook; "},
	{HEAD_ROW "<row r=\"9\">" TEXT_CELL("P") TEXT_CELL("six") TEXT_CELL("2") "</row>",
	 "9 x_m: \"six\" is not a number: a number from -100000000 to 100000000 m; "
	 "9 fixed: empty: this column is filled in each row; "},
	{HEAD_ROW "<row r=\"2\">" TEXT_CELL("P") "</row><row r=\"2\">" TEXT_CELL("P") "</row>",
	 "0 -: this workbook is not read: its rows are not in order. A workbook (.xlsx, .ods) as a "
	 "spreadsheet writes it, or CSV; "},
	{HEAD_ROW "<row",
	 "0 -: this workbook is not read: a part of it is no XML. A workbook (.xlsx, "
	 ".ods) as a spreadsheet writes it, or CSV; "},
};

START_TEST(xlsx_sheets_are_read)
{
	put_xlsx(sheets[_i].rows, NULL);
	ck_assert_str_eq(read_as(&(struct rt_source){.path = path, .sheet = "pegs"}),
			 sheets[_i].told);
	unlink(path);
}
END_TEST

START_TEST(sheets_are_chosen_by_name)
{
	put_xlsx(HEAD_ROW, NULL);
	ck_assert_str_eq(read_as(&(struct rt_source){.path = path, .sheet = "none"}),
			 "0 -: there is no sheet \"none\": other, Pegs; ");
	ck_assert_ptr_nonnull(
		strstr(read_as(&(struct rt_source){.path = path}), "the file is empty"));
	unlink(path);
}
END_TEST

START_TEST(books_of_1904_count_days_from_there)
{
	put_xlsx(HEAD_ROW "<row><c s=\"4\"><v>44689</v></c><c><v>1</v></c><c><v>1</v></c>"
			  "<c t=\"b\"><v>0</v></c></row>",
		 "<workbook xmlns=\"" MAIN "\" xmlns:r=\"" RELS
		 "\"><workbookPr date1904=\"1\"/><sheets>"
		 "<sheet name=\"pegs\" sheetId=\"2\" r:id=\"b\"/></sheets></workbook>");
	ck_assert_str_eq(read_as(&(struct rt_source){.path = path}), "2026-05-09 1 1 no; ");
	unlink(path);
}
END_TEST

static void is_refused(const char *rows, const char *book, const char *why)
{
	const char *told;

	put_xlsx(rows, book);
	told = read_as(&(struct rt_source){.path = path, .sheet = "pegs"});
	ck_assert_msg(strstr(told, why), "%s", told);
	unlink(path);
}

START_TEST(bombs_are_refused)
{
	static char many[1200000];

	is_refused(HEAD_ROW, "<!DOCTYPE a [<!ENTITY b \"c\">]><a>&b;</a>",
		   "it declares a type of document of its own");
	for (int i = 0; i < 70; i++)
		strcat(many, "<a>");
	is_refused(many, NULL, "its elements lie too deep in each other");
	memset(many, ' ', sizeof many - 200);
	is_refused(many, NULL, "a part of it was packed more than 200 to 1");
}
END_TEST

#define SPACE "urn:oasis:names:tc:opendocument:xmlns:"
static void put_ods(const char *rows)
{
	static char content[4000];
	zipFile zip;

	made();
	zip = zipOpen64(path, APPEND_STATUS_CREATE);
	ck_assert_ptr_nonnull(zip);
	snprintf(
		content, sizeof content,
		"<o:document-content xmlns:o=\"" SPACE "office:1.0\" xmlns:t=\"" SPACE
		"table:1.0\" xmlns:x=\"" SPACE "text:1.0\" xmlns:calcext=\"urn:calcext:1.0\">"
		"<t:table t:name=\"pegs\"><t:table-row>"
		"<t:table-cell><x:p>point</x:p></t:table-cell><t:table-cell><x:p>x_m</x:p></t:table-cell>"
		"<t:table-cell><x:p>y_m</x:p></t:table-cell><t:table-cell><x:p>fixed</x:p></t:table-cell>"
		"<t:table-cell t:number-columns-repeated=\"16380\"/></t:table-row>%s"
		"<t:table-row t:number-rows-repeated=\"1048570\"><t:table-cell "
		"t:number-columns-repeated=\"16384\"/></t:table-row></t:table></o:document-content>",
		rows);
	put_part(zip, "content.xml", content);
	ck_assert_int_eq(zipClose(zip, NULL), ZIP_OK);
}

#define FLOAT(v)                                                                                   \
	"<t:table-cell o:value-type=\"float\" o:value=\"" v "\"><x:p>shown</x:p></t:table-cell>"
#define TRUE_CELL                                                                                  \
	"<t:table-cell o:value-type=\"boolean\" o:boolean-value=\"true\"><x:p>WAHR</x:p></t:table-cell>"

START_TEST(ods_sheets_are_read)
{
	put_ods("<t:table-row t:number-rows-repeated=\"2\"><t:table-cell/></t:table-row>"
		"<t:table-row><t:table-cell o:value-type=\"string\" calcext:value-type=\"string\">"
		"<o:annotation><x:p>a note</x:p></o:annotation><x:p>two<x:s x:c=\"2\"/>words</x:p>"
		"<x:p>more</x:p></t:table-cell>" FLOAT(
			"0.62000000000000011") "<t:table-cell o:value-type=\"percentage\" o:value=\"0.62\"/>" TRUE_CELL
					       "</t:table-row>"
					       "<t:table-row>"
					       "<t:table-cell o:value-type=\"time\" o:time-value=\"PT33H30M00S\"/>"
					       "<t:table-cell o:value-type=\"float\" o:value=\"3\" t:number-columns-repeated=\"2\"/>" TRUE_CELL
					       "</t:table-row><t:table-row>"
					       "<t:table-cell o:value-type=\"date\" o:date-value=\"2026-05-09T09:30:00\"/>" FLOAT(
						       "1") FLOAT("2") TRUE_CELL
		"</t:table-row><t:table-row>"
		"<t:table-cell o:value-type=\"date\" o:date-value=\"2026-05-09T00:00:00\"/>" FLOAT(
			"1") FLOAT("2") TRUE_CELL "</t:table-row>");
	ck_assert_str_eq(read_as(&(struct rt_source){.path = path}),
			 "two words more 0.62 62 yes; 33:30 3 3 yes; "
			 "2026-05-09 09:30 1 2 yes; 2026-05-09 1 2 yes; ");
	unlink(path);
	put_ods("<t:table-row t:number-rows-repeated=\"5\"><t:table-cell/></t:table-row>"
		"<t:table-row><t:table-cell/><t:table-cell t:formula=\"of:=A1\"/>"
		"<t:table-cell o:value-type=\"string\" calcext:value-type=\"error\"><x:p>#N/A</x:p>"
		"</t:table-cell></t:table-row>");
	ck_assert_str_eq(read_as(&(struct rt_source){.path = path}),
			 "7 B7: a formula whose value was not kept: open and save it in a "
			 "spreadsheet, or type the value; 7 C7: its formula ends in an error: a "
			 "value; ");
	unlink(path);
	put_ods("<t:table-row t:number-rows-repeated=\"2\"><t:table-cell t:number-columns-repeated=\"3\" "
		"o:value-type=\"float\" o:value=\"3\"/>" TRUE_CELL "</t:table-row>");
	ck_assert_str_eq(read_as(&(struct rt_source){.path = path}),
			 "3 point: \"3\" is there already, in line 2: each point once; ");
	unlink(path);
}
END_TEST

int check_intake_files(void)
{
	Suite *s = suite_create("intake_files");
	TCase *t = tcase_create("all");

	tcase_add_loop_test(t, texts_are_read_as_they_are_written, 0,
			    (int)(sizeof texts / sizeof *texts));
	tcase_add_test(t, dates_are_days_of_the_show);
	tcase_add_test(t, columns_may_be_called_otherwise);
	tcase_add_loop_test(t, xlsx_sheets_are_read, 0, (int)(sizeof sheets / sizeof *sheets));
	tcase_add_test(t, sheets_are_chosen_by_name);
	tcase_add_test(t, books_of_1904_count_days_from_there);
	tcase_add_test(t, bombs_are_refused);
	tcase_add_test(t, ods_sheets_are_read);
	suite_add_tcase(s, t);
	return suite_run(s);
}
