-- The show file: facts only; what can be computed from them again is not stored.
--
-- Names are the keys between the rows of an office (kinds, rules, tests, classes), so that the
-- file can be read without a program; entries, judges and items have numbers, because marks
-- refer to them a hundred thousand times.  Whole numbers of small units are exact: _x100
-- hundredths, _x1000 thousandths, _x100000 hundred thousandths.  Rows of a history (at the
-- end) are only ever added: triggers refuse anything else.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: schema_identity
-- The letters RTsh: how a show file is told from other databases.
PRAGMA application_id = 1381266280;

-- name: schema_version
PRAGMA user_version = 1;

-- name: schema_show
CREATE TABLE show (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- there is one row
	title TEXT NOT NULL CHECK (title <> ''), -- as printed over every paper
	day TEXT NOT NULL CHECK (day IS date(day, '+0 days')), -- its first day, YYYY-MM-DD
	created TEXT NOT NULL CHECK (created <> '') -- when the file was made, as the maker said
) STRICT;

-- name: schema_ring_kind
CREATE TABLE ring_kind (
	id INTEGER PRIMARY KEY, -- the order in which kinds are listed
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- "driven-40x80"
	discipline TEXT NOT NULL CHECK (discipline IN ('ridden', 'driven')), -- who uses it
	width_m REAL NOT NULL CHECK (width_m BETWEEN 5 AND 500), -- inside, short sides
	length_m REAL NOT NULL CHECK (length_m BETWEEN 5 AND 500) -- inside, long sides
) STRICT;

-- name: schema_ring_letter
CREATE TABLE ring_letter (
	kind TEXT NOT NULL REFERENCES ring_kind (name), -- the kind it stands in
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order in the rings file
	peg TEXT NOT NULL CHECK (peg <> ''), -- "M"
	side TEXT NOT NULL CHECK (side IN ('left', 'right', 'a', 'c', 'centre')), -- seen from A
	offset_m REAL NOT NULL CHECK (offset_m BETWEEN 0 AND 500), -- from A; on a, c from the left
	PRIMARY KEY (kind, seq),
	UNIQUE (kind, peg)
) STRICT, WITHOUT ROWID;

-- name: schema_gait
CREATE TABLE gait (
	id INTEGER PRIMARY KEY, -- the order in which gaits are listed
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- "trot"
	speed_m_per_s REAL NOT NULL CHECK (speed_m_per_s BETWEEN 0.1 AND 20), -- of a horse of 165 cm
	stride_m REAL NOT NULL CHECK (stride_m BETWEEN 0.1 AND 10), -- of the same
	source TEXT NOT NULL CHECK (source <> '') -- who measured it
) STRICT;

-- name: schema_level
CREATE TABLE level (
	id INTEGER PRIMARY KEY, -- the order in which levels are listed
	name TEXT NOT NULL CHECK (name <> ''), -- "intermediate"; may stand in both disciplines
	discipline TEXT NOT NULL CHECK (discipline IN ('ridden', 'driven')), -- which of the two
	turn_diameter_m REAL NOT NULL CHECK (turn_diameter_m BETWEEN 1 AND 100), -- corners, turns
	reference_height_cm REAL NOT NULL
		CHECK (reference_height_cm BETWEEN 40 AND 220), -- of that diameter
	gait TEXT NOT NULL REFERENCES gait (name), -- the gait that turns are timed at
	UNIQUE (name, discipline)
) STRICT;

-- name: schema_rule
CREATE TABLE rule (
	id INTEGER PRIMARY KEY, -- the order in which rules are listed
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- "driven-percent"
	scale TEXT NOT NULL
		CHECK (scale IN ('percent', 'penalties', 'points', 'tenths')), -- what a score is
	wins TEXT NOT NULL CHECK (wins IN ('highest', 'lowest')), -- which score is first
	base INTEGER NOT NULL CHECK (base BETWEEN 0 AND 1000), -- of penalties: taken from that
	judge_decimals INTEGER NOT NULL CHECK (judge_decimals BETWEEN -1 AND 9), -- -1: not rounded
	percent_decimals INTEGER NOT NULL CHECK (percent_decimals BETWEEN 0 AND 9), -- of the mean
	score_decimals INTEGER NOT NULL CHECK (score_decimals BETWEEN 0 AND 9), -- of what is ranked
	taken TEXT NOT NULL CHECK (taken IN ('points', 'percent', 'score')), -- errors come off there
	error_1 TEXT CHECK (error_1 <> ''), -- the first error of course: "5", "eliminated"
	error_2 TEXT CHECK (error_2 <> ''), -- the second, on top
	error_3 TEXT CHECK (error_3 <> ''), -- the third
	error_4 TEXT CHECK (error_4 <> ''), -- the fourth and every further one
	ties TEXT CHECK (ties <> ''), -- how equal scores are parted, in order: "general median:3"
	source TEXT NOT NULL CHECK (source <> ''), -- the rulebook
	rounding TEXT NOT NULL CHECK (rounding IN ('half-up', 'cut')), -- of decimals too many
	missing TEXT NOT NULL
		CHECK (missing IN ('refuse', 'mean', 'mean-whole')), -- what fills an empty box
	apart_x100 INTEGER NOT NULL
		CHECK (apart_x100 BETWEEN 0 AND 10000), -- a judge so far off is moved; 0: none is
	apart_judges INTEGER NOT NULL
		CHECK (apart_judges BETWEEN 3 AND 99) -- so many sheets at least, for that
) STRICT;

-- name: schema_article
CREATE TABLE article (
	id INTEGER PRIMARY KEY, -- the order in which articles are listed
	applies_to TEXT NOT NULL CHECK (applies_to <> ''), -- a discipline, or a rule
	name TEXT NOT NULL CHECK (name <> ''), -- what it is called at the ring: "groom dismounts"
	what TEXT CHECK (what <> ''), -- in more words
	amount_1 TEXT CHECK (amount_1 <> ''), -- points the first time, or "eliminated"
	amount_2 TEXT CHECK (amount_2 <> ''), -- the second time
	amount_3 TEXT CHECK (amount_3 <> ''), -- the third time and every further one
	source TEXT CHECK (source <> ''), -- the rulebook
	UNIQUE (applies_to, name)
) STRICT;

-- name: schema_turnout_part
CREATE TABLE turnout_part (
	id INTEGER PRIMARY KEY, -- parts stand from front to back
	turnout TEXT NOT NULL CHECK (turnout <> ''), -- the turnout's name
	part TEXT NOT NULL CHECK (part <> ''), -- "horse", "gig"
	hitch_m REAL NOT NULL
		CHECK (hitch_m BETWEEN -20 AND 20), -- behind the axle in front; negative: in front
	length_m REAL NOT NULL
		CHECK (length_m BETWEEN 0.1 AND 20), -- from the hitch to its own axle
	width_m REAL NOT NULL CHECK (width_m BETWEEN 0.1 AND 5), -- overall
	track_m REAL CHECK (track_m BETWEEN 0.1 AND 5), -- between the wheels; for overturning
	cog_m REAL CHECK (cog_m BETWEEN 0.1 AND 5), -- height of the centre of gravity; for the same
	animals INTEGER CHECK (animals BETWEEN 1 AND 20), -- that go there; null: not told, or none
	UNIQUE (turnout, part)
) STRICT;

-- name: schema_ring
CREATE TABLE ring (
	id INTEGER PRIMARY KEY, -- the order in which rings were added
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- what the show calls it
	kind TEXT NOT NULL REFERENCES ring_kind (name) -- its size and letters
) STRICT;

-- name: schema_test
CREATE TABLE test (
	id INTEGER PRIMARY KEY, -- the order of import
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- how classes name it
	title TEXT NOT NULL CHECK (title <> ''), -- as printed
	kind TEXT REFERENCES ring_kind (name), -- the ring it is made for
	level TEXT CHECK (level <> ''), -- its level, in the discipline of its ring
	rule TEXT REFERENCES rule (name), -- how it is scored, unless the class says otherwise
	multiplier_x1000000 INTEGER
		CHECK (multiplier_x1000000 BETWEEN 1 AND 999999999) -- printed on the sheet (0.64)
) STRICT;

-- name: schema_item
CREATE TABLE item (
	id INTEGER PRIMARY KEY, -- marks refer to it
	test TEXT NOT NULL REFERENCES test (name), -- the test it belongs to
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order on the sheet
	name TEXT NOT NULL CHECK (name <> ''), -- "12", "general-1"
	letters TEXT CHECK (letters <> ''), -- where, as printed
	movement TEXT NOT NULL CHECK (movement <> ''), -- what, as printed
	figure TEXT CHECK (figure <> ''), -- the steps of its route
	gait TEXT REFERENCES gait (name), -- the gait it is driven in
	coefficient_x1000 INTEGER NOT NULL
		CHECK (coefficient_x1000 BETWEEN 1 AND 99999), -- weight of the mark
	item_group TEXT NOT NULL
		CHECK (item_group IN ('movement', 'general', 'artistic')), -- which part it is of
	mark_step_x100 INTEGER NOT NULL
		CHECK (mark_step_x100 IN (5, 10, 20, 25, 50, 100)), -- 50: half marks
	judges TEXT CHECK (judges <> ''), -- the positions of those who mark it; empty: all
	UNIQUE (test, seq),
	UNIQUE (test, name)
) STRICT;

-- name: schema_class
CREATE TABLE class (
	id INTEGER PRIMARY KEY, -- the order of import
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- "1", "2a"
	title TEXT NOT NULL CHECK (title <> ''), -- as printed
	test TEXT NOT NULL REFERENCES test (name), -- the test that is driven or ridden
	level TEXT CHECK (level <> ''), -- empty: the test's
	ring TEXT REFERENCES ring (name), -- where it is held, once that is known
	rule TEXT REFERENCES rule (name), -- empty: the test's
	division TEXT CHECK (division <> ''), -- of entries that name none
	removed_at TEXT CHECK (removed_at <> '') -- when it was taken out; null: it is in the show
) STRICT;

-- name: schema_judge
CREATE TABLE judge (
	id INTEGER PRIMARY KEY, -- marks refer to it
	class TEXT NOT NULL REFERENCES class (name), -- the class it judges
	seq INTEGER NOT NULL CHECK (seq >= 1), -- the order in which sheets are read
	position TEXT NOT NULL CHECK (position <> ''), -- the letter it sits at
	president INTEGER NOT NULL CHECK (president IN (0, 1)), -- 1: presides; one a class
	UNIQUE (class, seq),
	UNIQUE (class, position)
) STRICT;

-- name: schema_judge_president
CREATE UNIQUE INDEX judge_president ON judge (class) WHERE president = 1;

-- name: schema_entry
CREATE TABLE entry (
	id INTEGER PRIMARY KEY, -- marks refer to it
	class TEXT NOT NULL REFERENCES class (name), -- the class entered
	number INTEGER NOT NULL CHECK (number BETWEEN 1 AND 99999), -- worn on the arm or the carriage
	driver TEXT NOT NULL CHECK (driver <> ''), -- driver or rider
	horses TEXT NOT NULL CHECK (horses <> ''), -- separated by "; "
	height_cm REAL CHECK (height_cm BETWEEN 40 AND 220), -- of the animals, where known
	turnout TEXT CHECK (turnout <> ''), -- what is driven
	carriage TEXT CHECK (carriage <> ''), -- the one carriage that those who name it share
	groom TEXT CHECK (groom <> ''), -- who is on the carriage too
	club TEXT CHECK (club <> ''), -- whom they drive or ride for
	division TEXT CHECK (division <> ''), -- empty: the class's
	hors_concours INTEGER NOT NULL CHECK (hors_concours IN (0, 1)), -- 1: scored, never placed
	entered_at TEXT CHECK (entered_at <> ''), -- when it came in, where that is known
	late INTEGER NOT NULL DEFAULT 0 CHECK (late IN (0, 1)), -- 1: after entries had closed
	UNIQUE (class, number)
) STRICT;

-- name: schema_championship
CREATE TABLE championship (
	id INTEGER PRIMARY KEY, -- the order in which they were added
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- how commands call it
	title TEXT NOT NULL CHECK (title <> ''), -- as printed
	classes TEXT NOT NULL CHECK (classes <> ''), -- names, separated by "; "
	tally TEXT NOT NULL CHECK (tally IN ('sum', 'mean')), -- how results come together
	taken_of TEXT NOT NULL CHECK (taken_of IN ('score', 'percent')), -- what of a class counts
	competitor TEXT NOT NULL CHECK (competitor IN ('driver', 'turnout')), -- who competes
	ties TEXT NOT NULL CHECK (ties IN ('equal', 'best', 'last')), -- what parts equal totals
	dropped INTEGER NOT NULL CHECK (dropped BETWEEN 0 AND 1000) -- so many do not count
) STRICT;

-- name: schema_team_member
CREATE TABLE team_member (
	id INTEGER PRIMARY KEY, -- the order in which they were added
	team TEXT NOT NULL CHECK (team <> ''), -- the team's name
	class TEXT NOT NULL REFERENCES class (name), -- where the member competes
	number INTEGER NOT NULL CHECK (number BETWEEN 1 AND 99999), -- the entry
	UNIQUE (class, number)
) STRICT;

-- name: schema_prize_step
CREATE TABLE prize_step (
	scale TEXT NOT NULL CHECK (scale <> ''), -- the scale it belongs to
	starters INTEGER NOT NULL CHECK (starters BETWEEN 1 AND 9999), -- from so many starters on
	place INTEGER NOT NULL CHECK (place BETWEEN 1 AND 999), -- what place
	amount_x100 INTEGER NOT NULL CHECK (amount_x100 BETWEEN 0 AND 1000000000), -- is worth
	PRIMARY KEY (scale, starters, place)
) STRICT, WITHOUT ROWID;

-- name: schema_numbering
CREATE TABLE numbering (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- one row, or none: then 1 to 99999, by turnout
	first INTEGER NOT NULL CHECK (first >= 1), -- the lowest number that is given out
	last INTEGER NOT NULL CHECK (last >= first), -- the highest
	keep TEXT NOT NULL CHECK (keep IN ('turnout', 'driver', 'nothing')) -- has one number
) STRICT;

-- name: schema_heading
CREATE TABLE heading (
	file TEXT PRIMARY KEY CHECK (file <> ''), -- the kind of file: "entries"
	columns TEXT NOT NULL -- what its columns were called last: "Reiter=driver; Pferd=horses"
) STRICT, WITHOUT ROWID;

-- ---- histories: rows are only ever added ------------------------------------------------

-- name: schema_status_change
CREATE TABLE status_change (
	id INTEGER PRIMARY KEY, -- the latest of an entry is how it stands; none: entered
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose
	status TEXT NOT NULL CHECK (status IN ('entered', 'retired', 'eliminated', 'disqualified',
		'withdrawn', 'did not start')), -- what from now on
	why TEXT CHECK (why <> ''), -- the reason given
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_status_change_entry
CREATE INDEX status_change_entry ON status_change (entry);

-- name: schema_entry_change
CREATE TABLE entry_change (
	id INTEGER PRIMARY KEY, -- the order in which entries were changed
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose
	field TEXT NOT NULL CHECK (field <> ''), -- the column of the entries file
	was TEXT CHECK (was <> ''), -- as in the data files; null: it was empty
	became TEXT CHECK (became <> ''), -- likewise
	why TEXT CHECK (why <> ''), -- the reason given
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> ''), -- when
	CHECK (was IS NOT became)
) STRICT;

-- name: schema_entry_change_entry
CREATE INDEX entry_change_entry ON entry_change (entry);

-- name: schema_entry_change_number
-- Numbers that were given up, which are not given out again.
CREATE INDEX entry_change_number ON entry_change (was) WHERE field = 'number';

-- name: schema_class_change
CREATE TABLE class_change (
	id INTEGER PRIMARY KEY, -- the order in which classes were changed
	class TEXT NOT NULL REFERENCES class (name), -- which
	field TEXT NOT NULL CHECK (field <> ''), -- the column of the classes file
	was TEXT CHECK (was <> ''), -- as in the data files; null: it was empty
	became TEXT CHECK (became <> ''), -- likewise
	why TEXT CHECK (why <> ''), -- the reason given
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> ''), -- when
	CHECK (was IS NOT became)
) STRICT;

-- name: schema_class_change_class
CREATE INDEX class_change_class ON class_change (class);

-- name: schema_judge_name
CREATE TABLE judge_name (
	id INTEGER PRIMARY KEY, -- the latest of a sheet is who gives it; none: not known
	class TEXT NOT NULL REFERENCES class (name), -- the class judged
	position TEXT NOT NULL CHECK (position <> ''), -- the letter of the table
	name TEXT CHECK (name <> ''), -- the judge; null: nobody is known any more
	from_entry INTEGER REFERENCES entry (id), -- from it on in the order of starting; null: all
	scribe TEXT CHECK (scribe <> ''), -- who writes for the judge
	why TEXT CHECK (why <> ''), -- the reason of a change
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> '') -- when; null: with the class
) STRICT;

-- name: schema_judge_name_position
CREATE INDEX judge_name_position ON judge_name (class, position);

-- name: schema_draw
CREATE TABLE draw (
	id INTEGER PRIMARY KEY, -- the latest of a class is the order that counts
	class TEXT NOT NULL REFERENCES class (name), -- whose order
	what TEXT NOT NULL CHECK (what IN ('drawn', 'late at the front', 'late at random')), -- how
	seed INTEGER NOT NULL CHECK (seed BETWEEN 1 AND 999999999), -- the same seed, the same draw
	apart INTEGER NOT NULL CHECK (apart >= 0), -- places between a driver's starts; 0: the most
	why TEXT CHECK (why <> ''), -- the reason of a new draw
	who TEXT CHECK (who <> ''), -- who drew
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_draw_class
CREATE INDEX draw_class ON draw (class);

-- name: schema_draw_place
CREATE TABLE draw_place (
	draw INTEGER NOT NULL REFERENCES draw (id), -- the draw it belongs to
	place INTEGER NOT NULL CHECK (place >= 1), -- the order of starting
	entry INTEGER NOT NULL REFERENCES entry (id), -- who starts there
	fixed INTEGER NOT NULL CHECK (fixed IN (0, 1)), -- 1: the place was given, not drawn
	PRIMARY KEY (draw, place),
	UNIQUE (draw, entry)
) STRICT, WITHOUT ROWID;

-- name: schema_times_file
CREATE TABLE times_file (
	id INTEGER PRIMARY KEY, -- the latest of its kind counts, whole
	what TEXT NOT NULL CHECK (what IN ('plan', 'wishes')), -- its rows are plan_row or wish
	source TEXT CHECK (source <> ''), -- the file
	who TEXT CHECK (who <> ''), -- who put it in
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_plan_row
CREATE TABLE plan_row (
	file INTEGER NOT NULL REFERENCES times_file (id), -- the file it stands in
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order there
	class TEXT NOT NULL REFERENCES class (name), -- what is asked of which class
	ring TEXT REFERENCES ring (name), -- null: the class's own, else any
	day INTEGER CHECK (day BETWEEN 1 AND 30), -- of the show; null: any
	first TEXT CHECK (first <> ''), -- its first start: "09:05"
	interval_s INTEGER CHECK (interval_s BETWEEN 1 AND 7200), -- null: from the test's route
	break_every INTEGER CHECK (break_every BETWEEN 1 AND 999), -- the judges' break after so many
	break_after_s INTEGER CHECK (break_after_s BETWEEN 1 AND 86400), -- or after so much judging
	break_s INTEGER CHECK (break_s BETWEEN 1 AND 14400), -- how long it is
	harrow_every INTEGER CHECK (harrow_every BETWEEN 1 AND 999), -- the ring is harrowed then
	harrow_s INTEGER CHECK (harrow_s BETWEEN 1 AND 14400), -- how long that takes
	start_order TEXT NOT NULL CHECK (start_order IN ('drawn', 'free')), -- free: whatever suits
	PRIMARY KEY (file, seq),
	UNIQUE (file, class)
) STRICT, WITHOUT ROWID;

-- name: schema_wish
CREATE TABLE wish (
	file INTEGER NOT NULL REFERENCES times_file (id), -- the file it stands in
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order there
	about TEXT NOT NULL CHECK (about IN ('class', 'entry', 'driver', 'horse', 'groom',
		'carriage', 'judge')), -- whom it is about
	name TEXT NOT NULL CHECK (name <> ''), -- the class, the person ...; of an entry its number
	class TEXT REFERENCES class (name), -- only there; null: everywhere
	day INTEGER CHECK (day BETWEEN 1 AND 30), -- of the show; null: any
	not_before TEXT CHECK (not_before <> ''), -- the time of day
	over_by TEXT CHECK (over_by <> ''), -- the time of day
	after TEXT REFERENCES class (name), -- the class that is over first
	weight TEXT NOT NULL CHECK (weight <> ''), -- "must", or 1 to 9
	PRIMARY KEY (file, seq)
) STRICT, WITHOUT ROWID;

-- name: schema_times_change
CREATE TABLE times_change (
	id INTEGER PRIMARY KEY, -- the version of the start times from then on
	what TEXT NOT NULL
		CHECK (what IN ('plan', 'move', 'late', 'back')), -- planned, or changed on the day
	words TEXT NOT NULL CHECK (words <> ''), -- what was done, in a sentence
	ring TEXT REFERENCES ring (name), -- that was said to be late; null: something else was done
	why TEXT CHECK (why <> ''), -- the reason given
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_times_setting
CREATE TABLE times_setting (
	version INTEGER PRIMARY KEY REFERENCES times_change (id), -- the plan; the latest counts
	days INTEGER NOT NULL CHECK (days >= 1), -- of the show
	open_s INTEGER NOT NULL CHECK (open_s >= 0), -- the first start of every day
	close_s INTEGER NOT NULL CHECK (close_s BETWEEN open_s AND 86400), -- the last end
	gap_driver_s INTEGER CHECK (gap_driver_s >= 0), -- between two starts; null: not looked at
	gap_horse_s INTEGER CHECK (gap_horse_s >= 0), -- likewise
	gap_groom_s INTEGER CHECK (gap_groom_s >= 0), -- likewise
	gap_carriage_s INTEGER CHECK (gap_carriage_s >= 0), -- likewise
	gap_judge_s INTEGER CHECK (gap_judge_s >= 0), -- likewise, between rings
	change_s INTEGER NOT NULL CHECK (change_s >= 0), -- between classes in a ring
	seed INTEGER NOT NULL CHECK (seed BETWEEN 1 AND 999999999) -- of the search
) STRICT;

-- name: schema_start_time
CREATE TABLE start_time (
	entry INTEGER NOT NULL REFERENCES entry (id), -- who starts
	version INTEGER NOT NULL REFERENCES times_change (id), -- the latest counts
	ring TEXT REFERENCES ring (name), -- where; null with all behind it: no start any more
	at_s INTEGER CHECK (at_s >= 0), -- since the midnight that the show's first day begins with
	slot_s INTEGER CHECK (slot_s > 0), -- so long the ring is theirs
	pause_s INTEGER CHECK (pause_s >= 0), -- behind it, before the class goes on
	pause TEXT CHECK (pause IN ('break', 'harrow', 'break and harrow')), -- what that is
	PRIMARY KEY (entry, version),
	CHECK ((ring IS NULL) = (at_s IS NULL) AND (ring IS NULL) = (slot_s IS NULL)),
	CHECK ((ring IS NULL) = (pause_s IS NULL) AND (ring IS NOT NULL OR pause IS NULL))
) STRICT, WITHOUT ROWID;

-- name: schema_printed_list
CREATE TABLE printed_list (
	id INTEGER PRIMARY KEY, -- the order in which they were printed
	list TEXT NOT NULL
		CHECK (list IN ('ring', 'driver', 'gate', 'announcer', 'steward')), -- whom for
	ring TEXT REFERENCES ring (name), -- null: all rings
	class TEXT REFERENCES class (name), -- only of this class; null: of all
	driver TEXT CHECK (driver <> ''), -- only of a driver, as it was typed; null: of all
	day INTEGER NOT NULL CHECK (day >= 1), -- of the show
	version INTEGER NOT NULL CHECK (version >= 1), -- another one when any line is another
	at TEXT CHECK (at <> '') -- when it was first printed
) STRICT;

-- name: schema_printed_list_version
CREATE UNIQUE INDEX printed_list_version ON printed_list
	(list, day, ifnull(ring, ''), ifnull(class, ''), ifnull(driver, ''), version);

-- name: schema_printed_line
CREATE TABLE printed_line (
	printed INTEGER NOT NULL REFERENCES printed_list (id), -- the list it stands in
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order there
	entry INTEGER REFERENCES entry (id), -- whose start; null: a break, a class that begins
	words TEXT NOT NULL, -- all that it says
	PRIMARY KEY (printed, seq)
) STRICT, WITHOUT ROWID;

-- name: schema_penalty
CREATE TABLE penalty (
	id INTEGER PRIMARY KEY, -- the order in which they were announced
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose
	points_x100 INTEGER NOT NULL, -- penalty points; negative takes some off again
	errors INTEGER CHECK (errors BETWEEN 0 AND 9), -- errors of course so far; the latest counts
	eliminated INTEGER NOT NULL CHECK (eliminated IN (0, 1)), -- 1: its status was changed to that
	undoes INTEGER UNIQUE REFERENCES penalty (id), -- the row that is taken back, whole
	article TEXT CHECK (article <> ''), -- of the rulebook
	why TEXT CHECK (why <> ''), -- what happened
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> ''), -- when
	CHECK ((points_x100 <> 0) + (errors IS NOT NULL) + eliminated + (undoes IS NOT NULL) <= 1)
) STRICT;

-- name: schema_penalty_entry
CREATE INDEX penalty_entry ON penalty (entry);

-- name: schema_pass
CREATE TABLE pass (
	id INTEGER PRIMARY KEY, -- rows that were keyed in one go refer to it
	keying INTEGER NOT NULL CHECK (keying IN (1, 2)), -- marks are typed twice
	who TEXT CHECK (who <> ''), -- who typed
	at TEXT CHECK (at <> ''), -- when
	source TEXT CHECK (source <> ''), -- the file, or how else
	why TEXT CHECK (why <> '') -- the reason of a correction
) STRICT;

-- name: schema_mark
CREATE TABLE mark (
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- whose mark
	item INTEGER NOT NULL REFERENCES item (id), -- for what
	keying INTEGER NOT NULL CHECK (keying IN (1, 2)), -- as typed the first or the second time
	version INTEGER NOT NULL CHECK (version >= 1), -- the latest counts
	mark_x100 INTEGER NOT NULL
		CHECK (mark_x100 BETWEEN -1 AND 1000), -- 0 to 10 in hundredths; -1: emptied
	pass INTEGER NOT NULL REFERENCES pass (id), -- who typed it, when and why
	remark TEXT CHECK (remark <> ''), -- what the judge wrote beside it
	PRIMARY KEY (entry, judge, item, keying, version)
) STRICT, WITHOUT ROWID;

-- name: schema_sheet_line
CREATE TABLE sheet_line (
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- which judge's
	kind TEXT NOT NULL CHECK (kind IN ('errors', 'total')), -- which line below the boxes
	keying INTEGER NOT NULL CHECK (keying IN (1, 2)), -- as of a mark
	version INTEGER NOT NULL CHECK (version >= 1), -- as of a mark
	value INTEGER NOT NULL, -- errors of course shown; the sum in hundred thousandths; -1: emptied
	pass INTEGER NOT NULL REFERENCES pass (id), -- who typed it, when and why
	remark TEXT CHECK (remark <> ''), -- what is written beside it
	PRIMARY KEY (entry, judge, kind, keying, version),
	CHECK (CASE kind WHEN 'errors' THEN value BETWEEN -1 AND 9 ELSE value >= -1 END)
) STRICT, WITHOUT ROWID;

-- name: schema_sheet_event
CREATE TABLE sheet_event (
	id INTEGER PRIMARY KEY, -- the latest of a sheet counts; none: expected
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- which judge's
	state TEXT NOT NULL CHECK (state IN ('in', 'queried', 'returned')), -- where it is from now on
	why TEXT CHECK (why <> ''), -- what the judge is asked
	who TEXT CHECK (who <> ''), -- who said so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_sheet_event_sheet
CREATE INDEX sheet_event_sheet ON sheet_event (entry, judge);

-- name: schema_ring_check
CREATE TABLE ring_check (
	id INTEGER PRIMARY KEY, -- the latest of a ring is the one that counts
	ring TEXT NOT NULL REFERENCES ring (name), -- the ring that was measured
	at TEXT CHECK (at <> ''), -- when
	tolerance_m REAL NOT NULL CHECK (tolerance_m > 0), -- how far off a peg may stand
	fit TEXT NOT NULL CHECK (fit IN ('fewest', 'all', 'corners')), -- how the layout was placed
	who TEXT CHECK (who <> ''), -- who measured
	fall_along_m REAL CHECK (fall_along_m > 0), -- how far it may fall along or on a diagonal
	fall_across_m REAL CHECK (fall_across_m > 0), -- and across; both where heights are kept
	fall_source TEXT CHECK (fall_source <> '') -- whose limits they are
) STRICT;

-- name: schema_ring_check_ring
CREATE INDEX ring_check_ring ON ring_check (ring);

-- name: schema_ring_reading
CREATE TABLE ring_reading (
	ring_check INTEGER NOT NULL REFERENCES ring_check (id), -- the check it belongs to
	seq INTEGER NOT NULL CHECK (seq >= 1), -- the order it was taken in
	kind TEXT NOT NULL CHECK (kind IN ('distance', 'offset', 'angle', 'x', 'y')), -- of what
	from_peg TEXT CHECK (from_peg <> ''), -- a letter or a corner; none of a coordinate
	to_peg TEXT CHECK (to_peg <> ''), -- the other end of the tape, line or angle
	at_peg TEXT CHECK (at_peg <> ''), -- the peg off the line, under the angle, at the coordinate
	frame INTEGER NOT NULL CHECK (frame >= 0), -- coordinates of one receiver's set-up share it
	value REAL NOT NULL, -- as read: metres; degrees of an angle
	sigma REAL CHECK (sigma > 0), -- its standard error, where given
	note TEXT CHECK (note <> ''), -- what was written beside it
	PRIMARY KEY (ring_check, seq),
	CHECK (kind <> 'distance' OR value > 0),
	CHECK ((from_peg IS NULL) = (kind IN ('x', 'y')) AND (to_peg IS NULL) = (from_peg IS NULL)),
	CHECK ((at_peg IS NULL) = (kind = 'distance'))
) STRICT, WITHOUT ROWID;

-- name: schema_payee
CREATE TABLE payee (
	id INTEGER PRIMARY KEY, -- the latest of a number counts
	number INTEGER NOT NULL, -- of entries
	name TEXT NOT NULL CHECK (name <> ''), -- who is paid
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_ring_height
CREATE TABLE ring_height (
	ring_check INTEGER NOT NULL REFERENCES ring_check (id), -- the check it belongs to
	seq INTEGER NOT NULL CHECK (seq >= 1), -- the order it was taken in
	point TEXT NOT NULL CHECK (point <> ''), -- a letter or a corner
	height_m REAL NOT NULL CHECK (height_m BETWEEN -500 AND 9000), -- over any level that all heights of the check share
	sigma_m REAL CHECK (sigma_m BETWEEN 0.0001 AND 10), -- its standard error, where given
	PRIMARY KEY (ring_check, seq)
) STRICT, WITHOUT ROWID;

-- name: schema_status_change_no_update
CREATE TRIGGER status_change_no_update BEFORE UPDATE ON status_change
BEGIN
	SELECT RAISE(ABORT, 'status_change is a history: add a row, change none');
END;

-- name: schema_status_change_no_delete
CREATE TRIGGER status_change_no_delete BEFORE DELETE ON status_change
BEGIN
	SELECT RAISE(ABORT, 'status_change is a history: add a row, change none');
END;

-- name: schema_entry_change_no_update
CREATE TRIGGER entry_change_no_update BEFORE UPDATE ON entry_change
BEGIN
	SELECT RAISE(ABORT, 'entry_change is a history: add a row, change none');
END;

-- name: schema_entry_change_no_delete
CREATE TRIGGER entry_change_no_delete BEFORE DELETE ON entry_change
BEGIN
	SELECT RAISE(ABORT, 'entry_change is a history: add a row, change none');
END;

-- name: schema_class_change_no_update
CREATE TRIGGER class_change_no_update BEFORE UPDATE ON class_change
BEGIN
	SELECT RAISE(ABORT, 'class_change is a history: add a row, change none');
END;

-- name: schema_class_change_no_delete
CREATE TRIGGER class_change_no_delete BEFORE DELETE ON class_change
BEGIN
	SELECT RAISE(ABORT, 'class_change is a history: add a row, change none');
END;

-- name: schema_judge_name_no_update
CREATE TRIGGER judge_name_no_update BEFORE UPDATE ON judge_name
BEGIN
	SELECT RAISE(ABORT, 'judge_name is a history: add a row, change none');
END;

-- name: schema_judge_name_no_delete
CREATE TRIGGER judge_name_no_delete BEFORE DELETE ON judge_name
BEGIN
	SELECT RAISE(ABORT, 'judge_name is a history: add a row, change none');
END;

-- name: schema_draw_no_update
CREATE TRIGGER draw_no_update BEFORE UPDATE ON draw
BEGIN
	SELECT RAISE(ABORT, 'draw is a history: add a row, change none');
END;

-- name: schema_draw_no_delete
CREATE TRIGGER draw_no_delete BEFORE DELETE ON draw
BEGIN
	SELECT RAISE(ABORT, 'draw is a history: add a row, change none');
END;

-- name: schema_draw_place_no_update
CREATE TRIGGER draw_place_no_update BEFORE UPDATE ON draw_place
BEGIN
	SELECT RAISE(ABORT, 'draw_place is a history: add a row, change none');
END;

-- name: schema_draw_place_no_delete
CREATE TRIGGER draw_place_no_delete BEFORE DELETE ON draw_place
BEGIN
	SELECT RAISE(ABORT, 'draw_place is a history: add a row, change none');
END;

-- name: schema_times_file_no_update
CREATE TRIGGER times_file_no_update BEFORE UPDATE ON times_file
BEGIN
	SELECT RAISE(ABORT, 'times_file is a history: add a row, change none');
END;

-- name: schema_times_file_no_delete
CREATE TRIGGER times_file_no_delete BEFORE DELETE ON times_file
BEGIN
	SELECT RAISE(ABORT, 'times_file is a history: add a row, change none');
END;

-- name: schema_plan_row_no_update
CREATE TRIGGER plan_row_no_update BEFORE UPDATE ON plan_row
BEGIN
	SELECT RAISE(ABORT, 'plan_row is a history: add a row, change none');
END;

-- name: schema_plan_row_no_delete
CREATE TRIGGER plan_row_no_delete BEFORE DELETE ON plan_row
BEGIN
	SELECT RAISE(ABORT, 'plan_row is a history: add a row, change none');
END;

-- name: schema_wish_no_update
CREATE TRIGGER wish_no_update BEFORE UPDATE ON wish
BEGIN
	SELECT RAISE(ABORT, 'wish is a history: add a row, change none');
END;

-- name: schema_wish_no_delete
CREATE TRIGGER wish_no_delete BEFORE DELETE ON wish
BEGIN
	SELECT RAISE(ABORT, 'wish is a history: add a row, change none');
END;

-- name: schema_times_change_no_update
CREATE TRIGGER times_change_no_update BEFORE UPDATE ON times_change
BEGIN
	SELECT RAISE(ABORT, 'times_change is a history: add a row, change none');
END;

-- name: schema_times_change_no_delete
CREATE TRIGGER times_change_no_delete BEFORE DELETE ON times_change
BEGIN
	SELECT RAISE(ABORT, 'times_change is a history: add a row, change none');
END;

-- name: schema_times_setting_no_update
CREATE TRIGGER times_setting_no_update BEFORE UPDATE ON times_setting
BEGIN
	SELECT RAISE(ABORT, 'times_setting is a history: add a row, change none');
END;

-- name: schema_times_setting_no_delete
CREATE TRIGGER times_setting_no_delete BEFORE DELETE ON times_setting
BEGIN
	SELECT RAISE(ABORT, 'times_setting is a history: add a row, change none');
END;

-- name: schema_start_time_no_update
CREATE TRIGGER start_time_no_update BEFORE UPDATE ON start_time
BEGIN
	SELECT RAISE(ABORT, 'start_time is a history: add a row, change none');
END;

-- name: schema_start_time_no_delete
CREATE TRIGGER start_time_no_delete BEFORE DELETE ON start_time
BEGIN
	SELECT RAISE(ABORT, 'start_time is a history: add a row, change none');
END;

-- name: schema_printed_list_no_update
CREATE TRIGGER printed_list_no_update BEFORE UPDATE ON printed_list
BEGIN
	SELECT RAISE(ABORT, 'printed_list is a history: add a row, change none');
END;

-- name: schema_printed_list_no_delete
CREATE TRIGGER printed_list_no_delete BEFORE DELETE ON printed_list
BEGIN
	SELECT RAISE(ABORT, 'printed_list is a history: add a row, change none');
END;

-- name: schema_printed_line_no_update
CREATE TRIGGER printed_line_no_update BEFORE UPDATE ON printed_line
BEGIN
	SELECT RAISE(ABORT, 'printed_line is a history: add a row, change none');
END;

-- name: schema_printed_line_no_delete
CREATE TRIGGER printed_line_no_delete BEFORE DELETE ON printed_line
BEGIN
	SELECT RAISE(ABORT, 'printed_line is a history: add a row, change none');
END;

-- name: schema_penalty_no_update
CREATE TRIGGER penalty_no_update BEFORE UPDATE ON penalty
BEGIN
	SELECT RAISE(ABORT, 'penalty is a history: add a row, change none');
END;

-- name: schema_penalty_no_delete
CREATE TRIGGER penalty_no_delete BEFORE DELETE ON penalty
BEGIN
	SELECT RAISE(ABORT, 'penalty is a history: add a row, change none');
END;

-- name: schema_pass_no_update
CREATE TRIGGER pass_no_update BEFORE UPDATE ON pass
BEGIN
	SELECT RAISE(ABORT, 'pass is a history: add a row, change none');
END;

-- name: schema_pass_no_delete
CREATE TRIGGER pass_no_delete BEFORE DELETE ON pass
BEGIN
	SELECT RAISE(ABORT, 'pass is a history: add a row, change none');
END;

-- name: schema_mark_no_update
CREATE TRIGGER mark_no_update BEFORE UPDATE ON mark
BEGIN
	SELECT RAISE(ABORT, 'mark is a history: add a row, change none');
END;

-- name: schema_mark_no_delete
CREATE TRIGGER mark_no_delete BEFORE DELETE ON mark
BEGIN
	SELECT RAISE(ABORT, 'mark is a history: add a row, change none');
END;

-- name: schema_sheet_line_no_update
CREATE TRIGGER sheet_line_no_update BEFORE UPDATE ON sheet_line
BEGIN
	SELECT RAISE(ABORT, 'sheet_line is a history: add a row, change none');
END;

-- name: schema_sheet_line_no_delete
CREATE TRIGGER sheet_line_no_delete BEFORE DELETE ON sheet_line
BEGIN
	SELECT RAISE(ABORT, 'sheet_line is a history: add a row, change none');
END;

-- name: schema_sheet_event_no_update
CREATE TRIGGER sheet_event_no_update BEFORE UPDATE ON sheet_event
BEGIN
	SELECT RAISE(ABORT, 'sheet_event is a history: add a row, change none');
END;

-- name: schema_sheet_event_no_delete
CREATE TRIGGER sheet_event_no_delete BEFORE DELETE ON sheet_event
BEGIN
	SELECT RAISE(ABORT, 'sheet_event is a history: add a row, change none');
END;

-- name: schema_ring_check_no_update
CREATE TRIGGER ring_check_no_update BEFORE UPDATE ON ring_check
BEGIN
	SELECT RAISE(ABORT, 'ring_check is a history: add a row, change none');
END;

-- name: schema_ring_check_no_delete
CREATE TRIGGER ring_check_no_delete BEFORE DELETE ON ring_check
BEGIN
	SELECT RAISE(ABORT, 'ring_check is a history: add a row, change none');
END;

-- name: schema_ring_reading_no_update
CREATE TRIGGER ring_reading_no_update BEFORE UPDATE ON ring_reading
BEGIN
	SELECT RAISE(ABORT, 'ring_reading is a history: add a row, change none');
END;

-- name: schema_ring_reading_no_delete
CREATE TRIGGER ring_reading_no_delete BEFORE DELETE ON ring_reading
BEGIN
	SELECT RAISE(ABORT, 'ring_reading is a history: add a row, change none');
END;

-- name: schema_payee_no_update
CREATE TRIGGER payee_no_update BEFORE UPDATE ON payee
BEGIN
	SELECT RAISE(ABORT, 'payee is a history: add a row, change none');
END;

-- name: schema_payee_no_delete
CREATE TRIGGER payee_no_delete BEFORE DELETE ON payee
BEGIN
	SELECT RAISE(ABORT, 'payee is a history: add a row, change none');
END;

-- name: schema_missing_mark
CREATE TABLE missing_mark (
	id INTEGER PRIMARY KEY, -- the latest of a box is what holds
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- which judge's
	item INTEGER NOT NULL REFERENCES item (id), -- which box
	missing INTEGER NOT NULL CHECK (missing IN (0, 1)), -- 1: empty, and nobody can be asked
	why TEXT NOT NULL CHECK (why <> ''), -- the reason given
	who TEXT NOT NULL CHECK (who <> ''), -- who said so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_missing_mark_entry
CREATE INDEX missing_mark_entry ON missing_mark (entry);

-- name: schema_judge_away
CREATE TABLE judge_away (
	id INTEGER PRIMARY KEY, -- the latest of a sheet is what holds
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- which judge's
	away INTEGER NOT NULL CHECK (away IN (0, 1)), -- 1: not expected, and counts for nothing
	why TEXT NOT NULL CHECK (why <> ''), -- the reason given
	who TEXT NOT NULL CHECK (who <> ''), -- who said so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_judge_away_entry
CREATE INDEX judge_away_entry ON judge_away (entry);

-- name: schema_decision
CREATE TABLE decision (
	id INTEGER PRIMARY KEY, -- of several between the same entries the latest holds
	class TEXT NOT NULL REFERENCES class (name), -- where entries were equal
	why TEXT NOT NULL CHECK (why <> ''), -- the reason given
	who TEXT NOT NULL CHECK (who <> ''), -- the official who decided
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: schema_decision_place
CREATE TABLE decision_place (
	decision INTEGER NOT NULL REFERENCES decision (id), -- the decision it belongs to
	rank INTEGER NOT NULL CHECK (rank >= 1), -- 1: the best of them
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose rank
	PRIMARY KEY (decision, rank),
	UNIQUE (decision, entry)
) STRICT, WITHOUT ROWID;

-- name: schema_posting
CREATE TABLE posting (
	id INTEGER PRIMARY KEY, -- the order in which classes were posted
	class TEXT NOT NULL REFERENCES class (name), -- whose results
	version INTEGER NOT NULL CHECK (version >= 1), -- 1 at first; more: corrected
	who TEXT NOT NULL CHECK (who <> ''), -- who posted them
	at TEXT NOT NULL CHECK (at IS datetime(at)), -- when; objections run from then
	until TEXT NOT NULL CHECK (until IS datetime(until)), -- when the time for them is over
	unit TEXT NOT NULL CHECK (unit <> ''), -- of the scores: "%", "penalties"
	UNIQUE (class, version)
) STRICT;

-- name: schema_posted_place
CREATE TABLE posted_place (
	posting INTEGER NOT NULL REFERENCES posting (id), -- the posting it belongs to
	line INTEGER NOT NULL CHECK (line >= 1), -- in the order in which they are read out
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose result
	division TEXT CHECK (division <> ''), -- that it was placed in
	place INTEGER CHECK (place >= 1), -- none: not placed
	status TEXT NOT NULL CHECK (status <> ''), -- as posted: "finished", "eliminated"
	why TEXT CHECK (why <> ''), -- it stands so
	starter INTEGER NOT NULL CHECK (starter IN (0, 1)), -- counted among the starters
	score TEXT CHECK (score <> ''), -- as posted, with its decimals
	percent TEXT CHECK (percent <> ''), -- as posted, with its decimals
	technical TEXT CHECK (technical <> ''), -- the half of a freestyle, in per cent, as posted
	artistic TEXT CHECK (artistic <> ''), -- the other half
	added TEXT CHECK (added <> ''), -- what errors and penalties cost, as posted
	off TEXT CHECK (off <> ''), -- points off every total beside them, as posted
	parted_by TEXT CHECK (parted_by <> ''), -- the tie-break that gave the place
	PRIMARY KEY (posting, line),
	UNIQUE (posting, entry)
) STRICT, WITHOUT ROWID;

-- name: schema_posted_judge
CREATE TABLE posted_judge (
	posting INTEGER NOT NULL REFERENCES posting (id), -- the posting it belongs to
	line INTEGER NOT NULL CHECK (line >= 1), -- by entry, then in the order of the judges
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	position TEXT NOT NULL CHECK (position <> ''), -- where the judge sat
	points TEXT NOT NULL CHECK (points <> ''), -- as posted
	percent TEXT NOT NULL CHECK (percent <> ''), -- as posted, with its decimals
	place INTEGER CHECK (place >= 1), -- by this judge; none: not placed
	PRIMARY KEY (posting, line)
) STRICT, WITHOUT ROWID;

-- name: schema_posted_note
CREATE TABLE posted_note (
	posting INTEGER NOT NULL REFERENCES posting (id), -- the posting it belongs to
	line INTEGER NOT NULL CHECK (line >= 1), -- in their order
	note TEXT NOT NULL CHECK (note <> ''), -- what was told under the results
	PRIMARY KEY (posting, line)
) STRICT, WITHOUT ROWID;

-- name: schema_missing_mark_no_update
CREATE TRIGGER missing_mark_no_update BEFORE UPDATE ON missing_mark
BEGIN
	SELECT RAISE(ABORT, 'missing_mark is a history: add a row, change none');
END;

-- name: schema_missing_mark_no_delete
CREATE TRIGGER missing_mark_no_delete BEFORE DELETE ON missing_mark
BEGIN
	SELECT RAISE(ABORT, 'missing_mark is a history: add a row, change none');
END;

-- name: schema_judge_away_no_update
CREATE TRIGGER judge_away_no_update BEFORE UPDATE ON judge_away
BEGIN
	SELECT RAISE(ABORT, 'judge_away is a history: add a row, change none');
END;

-- name: schema_judge_away_no_delete
CREATE TRIGGER judge_away_no_delete BEFORE DELETE ON judge_away
BEGIN
	SELECT RAISE(ABORT, 'judge_away is a history: add a row, change none');
END;

-- name: schema_decision_no_update
CREATE TRIGGER decision_no_update BEFORE UPDATE ON decision
BEGIN
	SELECT RAISE(ABORT, 'decision is a history: add a row, change none');
END;

-- name: schema_decision_no_delete
CREATE TRIGGER decision_no_delete BEFORE DELETE ON decision
BEGIN
	SELECT RAISE(ABORT, 'decision is a history: add a row, change none');
END;

-- name: schema_decision_place_no_update
CREATE TRIGGER decision_place_no_update BEFORE UPDATE ON decision_place
BEGIN
	SELECT RAISE(ABORT, 'decision_place is a history: add a row, change none');
END;

-- name: schema_decision_place_no_delete
CREATE TRIGGER decision_place_no_delete BEFORE DELETE ON decision_place
BEGIN
	SELECT RAISE(ABORT, 'decision_place is a history: add a row, change none');
END;

-- name: schema_posting_no_update
CREATE TRIGGER posting_no_update BEFORE UPDATE ON posting
BEGIN
	SELECT RAISE(ABORT, 'posting is a history: add a row, change none');
END;

-- name: schema_posting_no_delete
CREATE TRIGGER posting_no_delete BEFORE DELETE ON posting
BEGIN
	SELECT RAISE(ABORT, 'posting is a history: add a row, change none');
END;

-- name: schema_posted_place_no_update
CREATE TRIGGER posted_place_no_update BEFORE UPDATE ON posted_place
BEGIN
	SELECT RAISE(ABORT, 'posted_place is a history: add a row, change none');
END;

-- name: schema_posted_place_no_delete
CREATE TRIGGER posted_place_no_delete BEFORE DELETE ON posted_place
BEGIN
	SELECT RAISE(ABORT, 'posted_place is a history: add a row, change none');
END;

-- name: schema_posted_judge_no_update
CREATE TRIGGER posted_judge_no_update BEFORE UPDATE ON posted_judge
BEGIN
	SELECT RAISE(ABORT, 'posted_judge is a history: add a row, change none');
END;

-- name: schema_posted_judge_no_delete
CREATE TRIGGER posted_judge_no_delete BEFORE DELETE ON posted_judge
BEGIN
	SELECT RAISE(ABORT, 'posted_judge is a history: add a row, change none');
END;

-- name: schema_posted_note_no_update
CREATE TRIGGER posted_note_no_update BEFORE UPDATE ON posted_note
BEGIN
	SELECT RAISE(ABORT, 'posted_note is a history: add a row, change none');
END;

-- name: schema_posted_note_no_delete
CREATE TRIGGER posted_note_no_delete BEFORE DELETE ON posted_note
BEGIN
	SELECT RAISE(ABORT, 'posted_note is a history: add a row, change none');
END;

-- name: schema_ring_height_no_update
CREATE TRIGGER ring_height_no_update BEFORE UPDATE ON ring_height
BEGIN
	SELECT RAISE(ABORT, 'ring_height is a history: add a row, change none');
END;

-- name: schema_ring_height_no_delete
CREATE TRIGGER ring_height_no_delete BEFORE DELETE ON ring_height
BEGIN
	SELECT RAISE(ABORT, 'ring_height is a history: add a row, change none');
END;
