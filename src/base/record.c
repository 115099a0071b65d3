/* Records: fields read from text and from a show file, written, compared, explained.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/record.h>

#include <inttypes.h>
#include <limits.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define AS_WORDS(number) #number
#define WORDS_OF(number) AS_WORDS(number)

#define LISTED_BYTES  200 /* of the names that a message lists; then it ends in "..." */
#define SHORTEST_SLIP 3	  /* a shorter word is near to too many others */

/* ---- words ------------------------------------------------------------------------------- */

/* A letter as words are compared: its case ignored, dash and underscore as a space. */
static int plain(char c)
{
	if (c >= 'A' && c <= 'Z')
		return c - 'A' + 'a';
	return c == '-' || c == '_' ? ' ' : c;
}

static bool same_word(const char *a, const char *b)
{
	while (*a && plain(*a) == plain(*b)) {
		a++;
		b++;
	}
	return !*a && !*b;
}

bool rt_word_read(const struct rt_words *words, const char *s, int *out)
{
	for (size_t i = 0; i < words->alsos; i++)
		if (same_word(s, words->also[i][0]))
			s = words->also[i][1];
	for (size_t i = 0; i < words->words; i++)
		if (same_word(s, words->word[i])) {
			*out = (int)i;
			return true;
		}
	return false;
}

const char *rt_word(const struct rt_words *words, int code)
{
	return code >= 0 && (size_t)code < words->words ? words->word[code] : "";
}

void rt_words_list(const struct rt_words *words, char *out, size_t size)
{
	*out = '\0';
	for (size_t i = 0; i < words->words; i++)
		rt_append(out, size, "%s%s",
			  !i			  ? ""
			  : i + 1 == words->words ? " or "
						  : ", ",
			  words->word[i]);
}

const char *rt_meant(const char *word, const char *const *words, size_t n)
{
	const char *meant = NULL;
	char *folded = rt_fold(word);

	for (size_t i = 0; folded && i < n && !meant; i++) {
		char *other = rt_fold(words[i]);

		if (other && strcmp(folded, other) == 0)
			meant = words[i];
		free(other);
	}
	free(folded);
	if (!meant && strlen(word) >= SHORTEST_SLIP)
		meant = rt_nearest(word, words, n);
	return meant;
}

void rt_list_names(const char *const *names, size_t n, char out[RT_LISTED_SIZE])
{
	bool whole = true;

	snprintf(out, RT_LISTED_SIZE, "%s", n ? "" : "there is none");
	for (size_t i = 0; i < n && whole; i++) {
		whole = strlen(out) + strlen(names[i]) <= LISTED_BYTES;
		rt_append(out, RT_LISTED_SIZE, "%s%s", i ? ", " : "", whole ? names[i] : "...");
	}
}

enum rt_err rt_fail_unknown(struct rt_error *err, const char *name, const char *const *names,
			    size_t n, const char *otherwise, const char *fmt, ...)
{
	const char *meant = rt_meant(name, names, n);
	char said[200], listed[RT_LISTED_SIZE];
	va_list args;

	va_start(args, fmt);
	vsnprintf(said, sizeof said, fmt, args);
	va_end(args);
	if (meant)
		return rt_fail(err, RT_E_NOTFOUND, "%s: did you mean \"%s\"?", said, meant);
	rt_list_names(names, n, listed);
	return rt_fail(err, RT_E_NOTFOUND, "%s: %s", said, otherwise ? otherwise : listed);
}

/* ---- what a field is --------------------------------------------------------------------- */

enum rt_type rt_type_shown(enum rt_type type)
{
	switch (type) {
	case RT_INT:
	case RT_SMALL:
	case RT_SIZE:
		return RT_INT;
	case RT_REAL:
	case RT_HEIGHT:
		return RT_REAL;
	case RT_DECIMAL:
	case RT_EXACT:
		return RT_DECIMAL;
	case RT_BOOL:
		return RT_BOOL;
	case RT_TEXT:
	case RT_NAME:
	case RT_NAMES:
	case RT_LETTERS:
	case RT_CHARS:
	case RT_WORD:
	case RT_OWN:
		break;
	}
	return RT_TEXT;
}

const char *rt_field_head(const struct rt_field *f, char out[64])
{
	if (f->head)
		return f->head;
	snprintf(out, 64, "%s", f->name);
	for (char *c = out; *c; c++)
		if (*c == '_')
			*c = ' ';
	return out;
}

/* A letter of a heading: in lower case, an underscore for a space or a dash. */
static char of_heading(char c)
{
	if (c == ' ' || c == '-')
		return '_';
	return (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
}

/* Whether n bytes of a name are the other one, loosely: as headings are written. */
static bool is_name(const char *name, size_t n, const char *other, bool loosely)
{
	if (strlen(other) != n)
		return false;
	for (size_t i = 0; i < n; i++)
		if (loosely ? of_heading(name[i]) != of_heading(other[i]) : name[i] != other[i])
			return false;
	return true;
}

static bool is_called(const struct rt_field *f, const char *name, bool loosely)
{
	if (is_name(f->name, strlen(f->name), name, loosely))
		return true;
	for (const char *also = f->also; *name && also && *also;) {
		size_t length = strcspn(also, ",");

		if (is_name(also, length, name, loosely))
			return true;
		also += length + (also[length] == ',');
	}
	return false;
}

bool rt_field_called(const struct rt_field *f, const char *name)
{
	return is_called(f, name, false);
}

bool rt_field_headed(const struct rt_field *f, const char *heading)
{
	return is_called(f, heading, true);
}

/* v with as many decimals as it needs, six at the most. */
static void format_short(double v, char *out, size_t size)
{
	size_t n;

	rt_format_real(v, 6, out, size);
	for (n = strlen(out); n && out[n - 1] == '0'; n--)
		;
	if (n && out[n - 1] == '.')
		n--;
	out[n] = '\0';
}

static bool is_bounded(const struct rt_field *f)
{
	return f->low < 0 || f->low > 0 || f->high < 0 || f->high > 0;
}

static bool in_bounds(const struct rt_field *f, double v)
{
	return !is_bounded(f) || (v >= f->low && v <= f->high);
}

static void number_accepts(const struct rt_field *f, char *out, size_t size)
{
	bool whole = rt_type_shown(f->type) == RT_INT;
	char low[32], high[32], bounds[80] = "", decimals[40] = "";

	format_short(f->low, low, sizeof low);
	format_short(f->high, high, sizeof high);
	if (is_bounded(f))
		snprintf(bounds, sizeof bounds, " from %s to %s", low, high);
	if (f->type == RT_DECIMAL && f->decimals)
		snprintf(decimals, sizeof decimals, " with at most %d decimals", f->decimals);
	snprintf(out, size, "%s%s%s%s%s", whole ? "a whole number" : "a number", bounds,
		 f->measure ? " " : "", f->measure ? f->measure : "", decimals);
}

void rt_field_accepts(const struct rt_field *f, char *out, size_t size)
{
	if (f->accepted)
		snprintf(out, size, "%s", f->accepted);
	else if (f->type == RT_BOOL)
		snprintf(out, size, "yes or no");
	else if (f->type == RT_HEIGHT)
		snprintf(out, size, "%s", RT_HEIGHT_ACCEPTED);
	else if (f->type == RT_WORD)
		rt_words_list(f->words, out, size);
	else if (f->type != RT_EXACT && rt_type_shown(f->type) != RT_TEXT)
		number_accepts(f, out, size);
	else
		*out = '\0';
}

/* ---- reading a text ---------------------------------------------------------------------- */

enum rt_err rt_refuse(struct rt_error *err, const char *s, const char *wrong, const char *accepted)
{
	return rt_fail(err, RT_E_INPUT, "%s %s: %s", rt_show(s).text, wrong, accepted);
}

static enum rt_err refuse(const struct rt_field *f, struct rt_error *err, const char *s,
			  const char *wrong)
{
	char accepted[320];

	rt_field_accepts(f, accepted, sizeof accepted);
	return rt_refuse(err, s, wrong, accepted);
}

bool rt_has_comma(const char *s)
{
	char copy[32];
	char *comma;
	double v;

	if (strlen(s) >= sizeof copy)
		return false;
	memcpy(copy, s, strlen(s) + 1);
	comma = strchr(copy, ',');
	if (!comma)
		return false;
	*comma = '.';
	return rt_parse_real(copy, &v);
}

/* What is wrong with text that is no number, or no exact one; decimals says what is then wrong
 * with those it has. */
static const char *number_trouble(const char *s, const char *decimals)
{
	double v;

	if (!rt_parse_real(s, &v))
		return rt_has_comma(s) ? "has a decimal comma, not a decimal point"
				       : "is not a number";
	if (strpbrk(s, "eE"))
		return "has an exponent";
	return strchr(s, '.') ? decimals : "is out of range";
}

static enum rt_err keep_text(const char *s, const char **member, struct rt_arena **text,
			     struct rt_error *err)
{
	const char *kept = text ? rt_arena_string(text, s) : s;

	if (!kept)
		return rt_fail_nomem(err);
	*member = kept;
	return RT_OK;
}

static enum rt_err read_name(const char *s, const char **member, struct rt_arena **text,
			     struct rt_error *err)
{
	if (strpbrk(s, "\n\t"))
		return rt_refuse(err, s, "holds a line break or a tab", "text on one line");
	if (rt_characters(s) > RT_NAME_MOST)
		return rt_refuse(err, s, "is too long",
				 "at most " WORDS_OF(RT_NAME_MOST) " characters");
	return keep_text(s, member, text, err);
}

static enum rt_err read_names(const struct rt_field *f, const char *s, const char **member,
			      struct rt_arena **text, struct rt_error *err)
{
	char *joined = malloc(2 * strlen(s) + 1); /* a space may follow each semicolon */
	enum rt_err rc;

	if (!joined)
		return rt_fail_nomem(err);
	rt_names_join(s, joined);
	if (!*joined)
		rc = rt_fail(err, RT_E_INPUT, "no %s: %s", f->measure ? f->measure : "name",
			     "at least one name, semicolons between");
	else
		rc = read_name(joined, member, text, err);
	free(joined);
	return rc;
}

static enum rt_err read_whole(const struct rt_field *f, const char *s, int64_t *out,
			      struct rt_error *err)
{
	if (!rt_parse_int(s, out))
		return refuse(f, err, s, number_trouble(s, "is not a whole number"));
	return in_bounds(f, (double)*out) && (*out >= 0 || f->type != RT_SIZE)
		       ? RT_OK
		       : refuse(f, err, s, "is out of range");
}

static void put_whole(const struct rt_field *f, void *member, int64_t whole)
{
	if (f->type == RT_SMALL)
		*(int *)member = (int)whole;
	else if (f->type == RT_SIZE)
		*(size_t *)member = (size_t)whole;
	else
		*(int64_t *)member = whole;
}

static enum rt_err read_real(const struct rt_field *f, const char *s, double *out,
			     struct rt_error *err)
{
	double v;

	if (!rt_parse_real(s, &v))
		return refuse(f, err, s, number_trouble(s, NULL));
	if (!in_bounds(f, v))
		return refuse(f, err, s, "is out of range");
	*out = v;
	return RT_OK;
}

static enum rt_err read_decimal(const struct rt_field *f, const char *s, int64_t *out,
				struct rt_error *err)
{
	int64_t v;
	double real;

	if (!rt_parse_decimal(s, f->decimals, &v))
		return refuse(f, err, s, number_trouble(s, "has too many decimals"));
	if (!rt_parse_real(s, &real) || !in_bounds(f, real))
		return refuse(f, err, s, "is out of range");
	*out = v;
	return RT_OK;
}

static enum rt_err read_word(const struct rt_field *f, const char *s, int *out,
			     struct rt_error *err)
{
	const struct rt_words *w = f->words;
	const char *meant;
	char listed[RT_LISTED_SIZE];

	if (rt_word_read(w, s, out))
		return RT_OK;
	meant = rt_meant(s, w->word, w->words);
	rt_list_names(w->word, w->words, listed);
	return rt_fail(err, RT_E_INPUT, "unknown %s %s: %s%s%s%s%s", w->what, rt_show(s).text,
		       meant ? "did you mean " : "", meant ? rt_show(meant).text : "",
		       meant ? "? (" : "", listed, meant ? ")" : "");
}

/* What people and spreadsheets write for yes and for no. */
static const char *const yes[] = {"yes", "x", "true", "1", "ja", NULL};
static const char *const no[] = {"no", "false", "0", "nein", NULL};

static bool is_one_of(const char *s, const char *const *words)
{
	while (*words && !same_word(s, *words))
		words++;
	return *words;
}

enum rt_err rt_member_read(const struct rt_field *f, void *member, const char *s,
			   struct rt_arena **text, struct rt_error *err)
{
	int64_t whole = 0;
	enum rt_err rc = RT_OK;
	int code;

	switch (f->type) {
	case RT_TEXT:
		return keep_text(s, member, text, err);
	case RT_NAME:
	case RT_LETTERS:
		return read_name(s, member, text, err);
	case RT_NAMES:
		return read_names(f, s, member, text, err);
	case RT_INT:
	case RT_SMALL:
	case RT_SIZE:
		rc = read_whole(f, s, &whole, err);
		if (!rc)
			put_whole(f, member, whole);
		return rc;
	case RT_REAL:
		return read_real(f, s, member, err);
	case RT_DECIMAL:
		return read_decimal(f, s, member, err);
	case RT_HEIGHT:
		return rt_parse_height(s, member) ? RT_OK : refuse(f, err, s, "is not a height");
	case RT_BOOL:
		if (!is_one_of(s, yes) && !is_one_of(s, no))
			return refuse(f, err, s, "is neither");
		*(bool *)member = is_one_of(s, yes);
		return RT_OK;
	case RT_WORD:
		rc = read_word(f, s, &code, err);
		if (!rc)
			memcpy(member, &code, sizeof code);
		return rc;
	case RT_CHARS:
	case RT_EXACT:
	case RT_OWN:
		break;
	}
	return rt_fail(err, RT_E_USAGE, "%s: a field of no type", f->name);
}

enum rt_err rt_text_read(const struct rt_field *f, void *member, const char *s,
			 struct rt_arena **text, struct rt_error *err)
{
	(void)f;
	return keep_text(s, member, text, err);
}

enum rt_err rt_sigma_read(const struct rt_field *f, void *member, const char *s,
			  struct rt_arena **text, struct rt_error *err)
{
	double v;

	if (rt_parse_real(s, &v) && v <= 0)
		return rt_refuse(err, s,
				 v < 0 ? "is less than nothing"
				       : "would mean that this reading cannot be wrong",
				 "a standard error over 0, or an empty field for the usual one");
	return rt_member_read(f, member, s, text, err);
}

enum rt_err rt_field_read(const struct rt_field *f, void *row, const char *s,
			  struct rt_arena **text, struct rt_error *err)
{
	void *member = (char *)row + f->offset;

	return f->read ? f->read(f, member, s, text, err) : rt_member_read(f, member, s, text, err);
}

/* ---- values ------------------------------------------------------------------------------ */

struct rt_exact rt_exact(int64_t units, int digits)
{
	return (struct rt_exact){true, units, digits};
}

struct rt_exact rt_exact_short(int64_t units, int digits, int least)
{
	int shown = rt_digits_needed(units, digits, least);

	return rt_exact(units / rt_power_of_ten(digits - shown), shown);
}

/* The bytes of a member; those of one that no file has are not asked for. */
static size_t member_size(const struct rt_field *f)
{
	static const size_t size[RT_OWN + 1] = {
		[RT_TEXT] = sizeof(char *),  [RT_NAME] = sizeof(char *),
		[RT_NAMES] = sizeof(char *), [RT_LETTERS] = sizeof(char *),
		[RT_INT] = sizeof(int64_t),  [RT_DECIMAL] = sizeof(int64_t),
		[RT_REAL] = sizeof(double),  [RT_HEIGHT] = sizeof(double),
		[RT_BOOL] = sizeof(bool),    [RT_SMALL] = sizeof(int),
		[RT_SIZE] = sizeof(size_t),  [RT_WORD] = sizeof(int),
	};

	return size[f->type];
}

/* Whether a number says that nothing was given: it is as in the blank row, and that is not the
 * usual value. */
static bool is_not_given(const struct rt_record *r, const struct rt_field *f, const void *member)
{
	static const char zero[sizeof(int64_t)];
	bool own = r->blank && !f->through;
	const void *blank = own ? (const char *)r->blank + f->offset : zero;

	return (f->is & (RT_EMPTY | RT_OPTIONAL)) && !(f->is & RT_USUAL) &&
	       memcmp(member, blank, member_size(f)) == 0;
}

static int64_t whole_of(const struct rt_field *f, const void *member)
{
	if (f->type == RT_SMALL)
		return *(const int *)member;
	return f->type == RT_SIZE ? (int64_t) * (const size_t *)member : *(const int64_t *)member;
}

struct rt_value rt_field_value(const struct rt_record *r, const struct rt_field *f, const void *row,
			       char out[RT_OWN_SIZE])
{
	const struct rt_exact *exact;
	struct rt_value v = {.null = true};
	const void *member;
	int code;

	if (f->through)
		row = *(const void *const *)((const char *)row + f->through - 1);
	if (!row)
		return v;
	member = (const char *)row + f->offset;
	switch (f->type) {
	case RT_TEXT:
	case RT_NAME:
	case RT_NAMES:
	case RT_LETTERS:
		v.as.text = *(const char *const *)member;
		v.null = !v.as.text;
		break;
	case RT_INT:
	case RT_SMALL:
	case RT_SIZE:
	case RT_DECIMAL:
		v.as.whole = whole_of(f, member);
		v.digits = f->decimals;
		v.null = is_not_given(r, f, member);
		break;
	case RT_CHARS:
		v.as.text = member;
		v.null = !*v.as.text;
		break;
	case RT_EXACT:
		exact = member;
		v.as.whole = exact->units;
		v.digits = exact->digits;
		v.null = !exact->there;
		break;
	case RT_REAL:
	case RT_HEIGHT:
		v.as.real = *(const double *)member * (f->unit == RT_PART ? 100 : 1);
		v.null = !isfinite(v.as.real);
		break;
	case RT_BOOL:
		v.as.truth = *(const bool *)member;
		v.null = false;
		break;
	case RT_WORD:
		memcpy(&code, member, sizeof code);
		v.as.text = rt_word(f->words, code);
		v.null = !*v.as.text;
		break;
	case RT_OWN:
		v.as.text = f->write(f, member, out, RT_OWN_SIZE);
		v.null = !v.as.text;
		break;
	}
	return v;
}

/* A whole number, or the units of a decimal one, into its member. */
static bool set_whole(const struct rt_field *f, void *member, int64_t v)
{
	double real = (double)v;

	if (f->type == RT_DECIMAL)
		real /= (double)rt_power_of_ten(f->decimals);
	put_whole(f, member, v);
	return in_bounds(f, real) && (f->type != RT_SIZE || v >= 0) &&
	       (f->type != RT_SMALL || (v >= INT_MIN && v <= INT_MAX));
}

bool rt_field_set(const struct rt_field *f, void *row, const struct rt_value *value,
		  struct rt_arena **text, bool *nomem)
{
	void *member = (char *)row + f->offset;
	char words[64];
	enum rt_err rc;

	if (value->null)
		return f->is & (RT_EMPTY | RT_OPTIONAL | RT_OF_SHOW);
	switch (f->type) {
	case RT_TEXT:
	case RT_NAME:
	case RT_NAMES:
	case RT_LETTERS:
	case RT_WORD:
	case RT_OWN:
		if (!*value->as.text)
			return false;
		rc = rt_field_read(f, row, value->as.text, text, NULL);
		*nomem |= rc == RT_E_NOMEM;
		return !rc;
	case RT_INT:
	case RT_SMALL:
	case RT_SIZE:
	case RT_DECIMAL:
		if (!f->read)
			return set_whole(f, member, value->as.whole);
		rt_format_decimal(value->as.whole, f->decimals, words, sizeof words);
		return !rt_field_read(f, row, words, NULL, NULL);
	case RT_REAL:
		*(double *)member = value->as.real;
		return isfinite(value->as.real) && in_bounds(f, value->as.real);
	case RT_HEIGHT:
		*(double *)member = value->as.real;
		return value->as.real >= RT_ANIMAL_LEAST_CM && value->as.real <= RT_ANIMAL_MOST_CM;
	case RT_BOOL:
		*(bool *)member = value->as.truth;
		return true;
	case RT_CHARS:
	case RT_EXACT:
		break;
	}
	return false;
}

void rt_field_clear(const struct rt_record *r, const struct rt_field *f, void *row)
{
	void *member = (char *)row + f->offset;

	if (r->blank)
		memcpy(member, (const char *)r->blank + f->offset, member_size(f));
	else
		memset(member, 0, member_size(f));
}

void rt_field_copy(const struct rt_field *f, void *row, const void *from)
{
	memcpy((char *)row + f->offset, (const char *)from + f->offset, member_size(f));
}

const char *rt_value_text(const struct rt_field *f, const struct rt_value *value, char *out,
			  size_t size)
{
	if (value->null)
		return "";
	switch (rt_type_shown(f->type)) {
	case RT_INT:
		snprintf(out, size, "%" PRId64, value->as.whole);
		return out;
	case RT_REAL:
		rt_format_shortest(value->as.real, out, size);
		return out;
	case RT_DECIMAL:
		rt_format_decimal(value->as.whole, value->digits, out, size);
		return out;
	case RT_BOOL:
		return value->as.truth ? "yes" : "no";
	default:
		return value->as.text;
	}
}

bool rt_field_same(const struct rt_record *r, const struct rt_field *f, const void *a,
		   const void *b)
{
	char words_a[RT_OWN_SIZE], words_b[RT_OWN_SIZE];
	struct rt_value va = rt_field_value(r, f, a, words_a);
	struct rt_value vb = rt_field_value(r, f, b, words_b);

	if (va.null || vb.null)
		return va.null && vb.null;
	switch (rt_type_shown(f->type)) {
	case RT_INT:
	case RT_DECIMAL:
		return va.as.whole == vb.as.whole;
	case RT_REAL:
		return !(va.as.real < vb.as.real) && !(va.as.real > vb.as.real);
	case RT_BOOL:
		return va.as.truth == vb.as.truth;
	default:
		return strcmp(va.as.text, vb.as.text) == 0;
	}
}

/* ---- records ----------------------------------------------------------------------------- */

void rt_record_start(const struct rt_record *r, void *row)
{
	if (r->blank)
		memcpy(row, r->blank, r->size);
	else
		memset(row, 0, r->size);
}

const struct rt_field *rt_record_field(const struct rt_record *r, const char *name)
{
	for (size_t i = 0; i < r->fields; i++)
		if (rt_field_called(&r->field[i], name))
			return &r->field[i];
	return NULL;
}

bool rt_field_in_file(const struct rt_field *f)
{
	return !(f->is & RT_OF_SHOW);
}

void rt_record_columns(const struct rt_record *r, char *out, size_t size)
{
	bool room = true;

	*out = '\0';
	for (size_t i = 0; i < r->fields && room; i++) {
		const struct rt_field *f = &r->field[i];
		bool optional = f->is & RT_OPTIONAL;

		if (rt_field_in_file(f))
			room = rt_append(out, size, "%s%s%s%s%s%s", *out ? ", " : "",
					 optional ? "[" : "", f->name, f->also ? " or " : "",
					 f->also ? f->also : "", optional ? "]" : "");
	}
}
