/* Numbers, units and dates read and written the same in every locale.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/base.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#define CM_PER_INCH	2.54
#define INCHES_PER_HAND 4
#define INCHES_PER_FOOT 12
#define FINE_FEET	10 /* a length under this is told to a tenth of an inch */

static bool is_digit(char c)
{
	return c >= '0' && c <= '9';
}

/* A plain decimal number taken apart: sign, digits as a whole number, decimals after the
 * point.  Decimals that would not fit any more are left out, and cut says so. */
struct plain {
	bool negative;
	bool cut;
	int64_t digits;
	int decimals;
};

/* Read digits with at most one point from s; the end of what was read, or NULL. */
static const char *read_plain(const char *s, struct plain *p)
{
	int seen = 0;
	bool point = false;

	memset(p, 0, sizeof *p);
	if (*s == '-' || *s == '+')
		p->negative = *s++ == '-';
	for (; is_digit(*s) || (*s == '.' && !point); s++) {
		if (*s == '.') {
			point = true;
			continue;
		}
		if (p->digits > (INT64_MAX - 9) / 10) {
			if (!point)
				return NULL;
			p->cut = true;
			continue;
		}
		p->digits = p->digits * 10 + (*s - '0');
		p->decimals += point;
		seen++;
	}
	return seen ? s : NULL;
}

int64_t rt_power_of_ten(int n)
{
	int64_t p = 1;

	while (n-- > 0)
		p *= 10;
	return p;
}

int rt_digits_needed(int64_t units, int digits, int least)
{
	for (; digits > least && units % 10 == 0; digits--)
		units /= 10;
	return digits;
}

static bool read_exponent(const char *s, int *out)
{
	bool negative = false;
	int e = 0;

	if (*s == '-' || *s == '+')
		negative = *s++ == '-';
	if (!is_digit(*s))
		return false;
	for (; is_digit(*s); s++)
		if (e < 1000)
			e = e * 10 + (*s - '0');
	*out = negative ? -e : e;
	return *s == '\0';
}

/* Digits up to 2^53 scaled by a power of ten up to 22 are correctly rounded by the one
 * division or multiplication; long double keeps longer inputs within a unit in the last
 * place. */
bool rt_parse_real(const char *s, double *out)
{
	struct plain p;
	const char *end = read_plain(s, &p);
	int exponent = 0;
	long double v;

	if (!end || (*end != '\0' && *end != 'e' && *end != 'E'))
		return false;
	if (*end != '\0' && !read_exponent(end + 1, &exponent))
		return false;
	exponent -= p.decimals;
	v = (long double)p.digits;
	if (p.digits <= (INT64_C(1) << 53) && exponent <= 0 && exponent >= -18)
		v = (double)p.digits / (double)rt_power_of_ten(-exponent);
	else if (p.digits)
		v *= powl(10.0L, (long double)exponent);
	if (!isfinite((double)v))
		return false;
	*out = p.negative ? -(double)v : (double)v;
	return true;
}

bool rt_parse_int(const char *s, int64_t *out)
{
	return rt_parse_decimal(s, 0, out) && !strchr(s, '.');
}

bool rt_parse_decimal(const char *s, int digits, int64_t *out)
{
	struct plain p;
	const char *end = read_plain(s, &p);
	int64_t scale;

	if (!end || *end != '\0' || p.cut)
		return false;
	for (; p.decimals > digits; p.decimals--) {
		if (p.digits % 10)
			return false;
		p.digits /= 10;
	}
	scale = rt_power_of_ten(digits - p.decimals);
	if (p.digits > INT64_MAX / scale)
		return false;
	*out = p.negative ? -p.digits * scale : p.digits * scale;
	return true;
}

/* Hands and inches: 13.2 is 13 hands 2 inches. */
static bool hands_to_cm(const struct plain *p, double *cm)
{
	int64_t hands = p->digits, inches = 0; /* as many as digits were typed */

	if (p->decimals > 1)
		return false;
	if (p->decimals == 1) {
		inches = hands % 10;
		hands /= 10;
	}
	if (inches >= INCHES_PER_HAND)
		return false;
	*cm = ((double)hands * INCHES_PER_HAND + (double)inches) * CM_PER_INCH;
	return true;
}

bool rt_parse_height(const char *s, double *cm)
{
	struct plain p;
	const char *unit = read_plain(s, &p);
	double v;

	if (!unit || p.negative || p.cut || p.decimals > 18)
		return false;
	v = (double)p.digits / (double)rt_power_of_ten(p.decimals);
	while (*unit == ' ')
		unit++;
	if (strcmp(unit, "hh") == 0) {
		if (!hands_to_cm(&p, &v))
			return false;
	} else if (strcmp(unit, "m") == 0) {
		v = (double)p.digits * 100.0 / (double)rt_power_of_ten(p.decimals);
	} else if (*unit != '\0' && strcmp(unit, "cm") != 0) {
		return false;
	}
	if (v < RT_ANIMAL_LEAST_CM || v > RT_ANIMAL_MOST_CM)
		return false;
	*cm = v;
	return true;
}

void rt_format_feet(double m, char *out, size_t size)
{
	long long tenths = llround(fabs(m) * 1000.0 / CM_PER_INCH), inches = tenths / 10;
	const char *sign = m < 0 && tenths ? "-" : "";

	if (inches < FINE_FEET * INCHES_PER_FOOT) {
		snprintf(out, size, "%s%lld ft %lld.%lld in", sign, inches / INCHES_PER_FOOT,
			 inches % INCHES_PER_FOOT, tenths % 10);
		return;
	}
	inches = llround(fabs(m) * 100.0 / CM_PER_INCH);
	snprintf(out, size, "%s%lld ft %lld in", sign, inches / INCHES_PER_FOOT,
		 inches % INCHES_PER_FOOT);
}

void rt_format_real(double v, int decimals, char *out, size_t size)
{
	bool zero = true;
	char *c;

	snprintf(out, size, "%.*f", decimals, v);
	for (c = out; *c; c++) {
		if (is_digit(*c))
			zero = zero && *c == '0';
		else if (*c != '-')
			*c = '.'; /* the locale's point */
	}
	if (zero && out[0] == '-')
		memmove(out, out + 1, strlen(out));
}

void rt_format_shortest(double v, char *out, size_t size)
{
	double back;

	/* 15 digits are never too many for a decimal that was typed, 17 always enough */
	for (int digits = 15; digits <= 17; digits++) {
		snprintf(out, size, "%.*g", digits, v);
		for (char *c = out; *c; c++)
			if (*c == ',')
				*c = '.'; /* the locale's point */
		if (rt_parse_real(out, &back) && !(back < v) && !(back > v))
			return;
	}
}

struct rt_shown_number rt_show_real(double v, int decimals)
{
	struct rt_shown_number out;

	rt_format_real(v, decimals, out.text, sizeof out.text);
	return out;
}

static struct rt_shown_number with_unit(double v, int decimals, const char *unit)
{
	struct rt_shown_number out = rt_show_real(v, decimals);
	size_t used = strlen(out.text);

	snprintf(out.text + used, sizeof out.text - used, " %s", unit);
	return out;
}

struct rt_shown_number rt_show_degrees(double deg)
{
	return with_unit(deg, 2, "deg");
}

struct rt_shown_number rt_show_length(double m, int least, int most, bool feet)
{
	double scale = pow(10.0, least);
	struct rt_shown_number out;

	if (feet) {
		rt_format_feet(m, out.text, sizeof out.text);
		return out;
	}
	while (least < most && fabs(m * scale - round(m * scale)) > 0.001 * scale) {
		least++;
		scale *= 10.0;
	}
	return with_unit(m, least, "m");
}

struct rt_shown_number rt_show_taped(double m, bool feet)
{
	long long halves = llround(fabs(m) * 200.0 / CM_PER_INCH);
	long long whole = halves / (2 * INCHES_PER_FOOT), inches = halves / 2 % INCHES_PER_FOOT;
	const char *sign = m < 0 && halves ? "-" : "";
	struct rt_shown_number out;

	if (!feet)
		return with_unit(m, 2, "m");
	if (halves % 2 == 0)
		snprintf(out.text, sizeof out.text, "%s%lld ft %lld in", sign, whole, inches);
	else if (inches)
		snprintf(out.text, sizeof out.text, "%s%lld ft %lld 1/2 in", sign, whole, inches);
	else
		snprintf(out.text, sizeof out.text, "%s%lld ft 1/2 in", sign, whole);
	return out;
}

void rt_format_decimal(int64_t units, int digits, char *out, size_t size)
{
	uint64_t whole = units < 0 ? (uint64_t)0 - (uint64_t)units : (uint64_t)units;
	char text[24]; /* from the right: digits, a point, digits, a sign */
	size_t at = sizeof text;

	text[--at] = '\0';
	for (int i = 0; whole || i <= digits; i++) {
		if (i == digits && digits > 0)
			text[--at] = '.';
		text[--at] = (char)('0' + whole % 10);
		whole /= 10;
	}
	if (units < 0)
		text[--at] = '-';
	snprintf(out, size, "%s", text + at);
}

void rt_format_short(int64_t units, int digits, int least, char *out, size_t size)
{
	int shown = rt_digits_needed(units, digits, least);

	rt_format_decimal(units / rt_power_of_ten(digits - shown), shown, out, size);
}

int64_t rt_round_half_up(int64_t num, int64_t den)
{
	int64_t whole = num / den, rest = num % den;

	if (rest < 0) {
		rest += den;
		whole--;
	}
	return whole + (rest >= den - rest);
}

/* Two digits at s as a number, or -1. */
static int two_digits(const char *s)
{
	return is_digit(s[0]) && is_digit(s[1]) ? (s[0] - '0') * 10 + (s[1] - '0') : -1;
}

static int days_of(int year, int month)
{
	static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

	if (month == 2 && ((year % 4 == 0 && year % 100 != 0) || year % 400 == 0))
		return 29;
	return days[month - 1];
}

struct date {
	int year, month, day;
};

/* Read the day at the start of s; what follows it, or NULL. */
static const char *read_day(const char *s, struct date *out)
{
	for (int i = 0; i < 10; i++)
		if ((i == 4 || i == 7) ? s[i] != '-' : !is_digit(s[i]))
			return NULL;
	out->year = two_digits(s) * 100 + two_digits(s + 2);
	out->month = two_digits(s + 5);
	out->day = two_digits(s + 8);
	if (out->year < 1 || out->month < 1 || out->month > 12)
		return NULL;
	return out->day >= 1 && out->day <= days_of(out->year, out->month) ? s + 10 : NULL;
}

bool rt_parse_day(const char *s)
{
	struct date date;
	const char *end = read_day(s, &date);

	return end && *end == '\0';
}

void rt_day_after(const char *day, int64_t days, char out[RT_DAY_SIZE])
{
	struct date date;
	const char *end = read_day(day, &date);

	out[0] = '\0';
	if (!end || *end != '\0')
		return;
	for (; days > 0; days--) {
		if (date.day++ < days_of(date.year, date.month))
			continue;
		date.day = 1;
		date.year += date.month == 12;
		date.month = date.month % 12 + 1;
	}
	snprintf(out, RT_DAY_SIZE, "%04d-%02d-%02d", date.year, date.month, date.day);
}

/* Fliegel and Van Flandern, Communications of the ACM 11, 1968, for a year that begins in March. */
int64_t rt_day_number(const char *day)
{
	struct date date;
	int64_t early, y, m;

	if (!read_day(day, &date))
		return 0;
	early = date.month < 3 ? 1 : 0;
	y = date.year - early;
	m = date.month + 12 * early - 3;
	return 365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + date.day;
}

const char *rt_weekday(const char *day)
{
	static const char *const name[] = {"Tuesday", "Wednesday", "Thursday", "Friday",
					   "Saturday", "Sunday", "Monday"};
	int64_t number = rt_day_number(day);

	return number ? name[number % 7] : "";
}

bool rt_parse_when(const char *s)
{
	struct date date;
	const char *t = read_day(s, &date);
	size_t n;

	if (!t)
		return false;
	if (*t == '\0')
		return true;
	if (*t != ' ' && *t != 'T')
		return false;
	t++;
	n = strlen(t);
	if ((n != 5 && n != 8) || t[2] != ':' || (n == 8 && t[5] != ':'))
		return false;
	if (two_digits(t) < 0 || two_digits(t) > 23 || two_digits(t + 3) < 0 ||
	    two_digits(t + 3) > 59)
		return false;
	return n == 5 || (two_digits(t + 6) >= 0 && two_digits(t + 6) <= 59);
}
