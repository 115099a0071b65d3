-- From version 1 to version 2: readings of a ring check other than of a tape; championships,
-- teams and prize money; where sheets are.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: migrate_2_ring_reading
CREATE TABLE ring_reading_2 (
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

-- name: migrate_2_ring_reading_copy
INSERT INTO ring_reading_2 (ring_check, seq, kind, from_peg, to_peg, at_peg, frame, value, sigma, note)
SELECT ring_check, seq, 'distance', from_peg, to_peg, NULL, 0, distance_m, sigma_m, note
FROM ring_reading;

-- name: migrate_2_ring_reading_drop
DROP TABLE ring_reading;

-- name: migrate_2_ring_reading_rename
ALTER TABLE ring_reading_2 RENAME TO ring_reading;

-- name: migrate_2_ring_reading_no_update
CREATE TRIGGER ring_reading_no_update BEFORE UPDATE ON ring_reading
BEGIN
	SELECT RAISE(ABORT, 'ring_reading is a history: add a row, change none');
END;

-- name: migrate_2_ring_reading_no_delete
CREATE TRIGGER ring_reading_no_delete BEFORE DELETE ON ring_reading
BEGIN
	SELECT RAISE(ABORT, 'ring_reading is a history: add a row, change none');
END;

-- name: migrate_2_championship
CREATE TABLE championship (
	id INTEGER PRIMARY KEY, -- the order in which they were added
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- how commands call it
	title TEXT NOT NULL, -- as printed
	classes TEXT NOT NULL CHECK (classes <> ''), -- names, separated by "; "
	tally TEXT NOT NULL CHECK (tally IN ('sum', 'mean')), -- how results come together
	taken_of TEXT NOT NULL CHECK (taken_of IN ('score', 'percent')), -- what of a class counts
	competitor TEXT NOT NULL CHECK (competitor IN ('driver', 'turnout')), -- who competes
	ties TEXT NOT NULL CHECK (ties IN ('equal', 'best', 'last')), -- what parts equal totals
	dropped INTEGER NOT NULL CHECK (dropped BETWEEN 0 AND 1000) -- so many do not count
) STRICT;

-- name: migrate_2_team_member
CREATE TABLE team_member (
	id INTEGER PRIMARY KEY, -- the order in which they were added
	team TEXT NOT NULL CHECK (team <> ''), -- the team's name
	class TEXT NOT NULL REFERENCES class (name), -- where the member competes
	number INTEGER NOT NULL, -- the entry
	UNIQUE (class, number)
) STRICT;

-- name: migrate_2_prize_step
CREATE TABLE prize_step (
	scale TEXT NOT NULL CHECK (scale <> ''), -- the scale it belongs to
	starters INTEGER NOT NULL CHECK (starters >= 1), -- from so many starters on
	place INTEGER NOT NULL CHECK (place >= 1), -- what place
	amount_x100 INTEGER NOT NULL CHECK (amount_x100 >= 0), -- is worth
	PRIMARY KEY (scale, starters, place)
) STRICT, WITHOUT ROWID;

-- name: migrate_2_payee
CREATE TABLE payee (
	id INTEGER PRIMARY KEY, -- the latest of a number counts
	number INTEGER NOT NULL, -- of entries
	name TEXT NOT NULL CHECK (name <> ''), -- who is paid
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: migrate_2_payee_no_update
CREATE TRIGGER payee_no_update BEFORE UPDATE ON payee
BEGIN
	SELECT RAISE(ABORT, 'payee is a history: add a row, change none');
END;

-- name: migrate_2_payee_no_delete
CREATE TRIGGER payee_no_delete BEFORE DELETE ON payee
BEGIN
	SELECT RAISE(ABORT, 'payee is a history: add a row, change none');
END;

-- name: migrate_2_entry_entered
ALTER TABLE entry ADD COLUMN entered TEXT CHECK (entered <> ''); -- when it came in

-- name: migrate_2_entry_late
ALTER TABLE entry ADD COLUMN late INTEGER NOT NULL DEFAULT 0 CHECK (late IN (0, 1));

-- name: migrate_2_numbering
CREATE TABLE numbering (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- one row, or none: then 1 to 99999, by turnout
	first INTEGER NOT NULL CHECK (first >= 1), -- the lowest number that is given out
	last INTEGER NOT NULL CHECK (last >= first), -- the highest
	keep TEXT NOT NULL CHECK (keep IN ('turnout', 'driver', 'nothing')) -- has one number
) STRICT;

-- name: migrate_2_entry_change
CREATE TABLE entry_change (
	id INTEGER PRIMARY KEY, -- the order in which entries were changed
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose
	field TEXT NOT NULL CHECK (field IN ('number', 'driver', 'horses', 'height_cm', 'turnout',
		'groom', 'club', 'division', 'hors_concours', 'late')), -- the column of entry
	was TEXT CHECK (was <> ''), -- as in the data files; null: it was empty
	became TEXT CHECK (became <> ''), -- likewise
	why TEXT CHECK (why <> ''), -- the reason given
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> ''), -- when
	CHECK (was IS NOT became)
) STRICT;

-- name: migrate_2_entry_change_entry
CREATE INDEX entry_change_entry ON entry_change (entry);

-- name: migrate_2_entry_change_number
-- Numbers that were given up, which are not given out again.
CREATE INDEX entry_change_number ON entry_change (was) WHERE field = 'number';

-- name: migrate_2_class_change
CREATE TABLE class_change (
	id INTEGER PRIMARY KEY, -- the order in which classes were changed
	class TEXT NOT NULL REFERENCES class (name), -- which
	field TEXT NOT NULL CHECK (field IN ('title', 'test', 'level', 'ring', 'rule', 'judges',
		'division')), -- the column of the classes file
	was TEXT CHECK (was <> ''), -- as in the data files; null: it was empty
	became TEXT CHECK (became <> ''), -- likewise
	why TEXT CHECK (why <> ''), -- the reason given
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> ''), -- when
	CHECK (was IS NOT became)
) STRICT;

-- name: migrate_2_class_change_class
CREATE INDEX class_change_class ON class_change (class);

-- name: migrate_2_judge_name
CREATE TABLE judge_name (
	id INTEGER PRIMARY KEY, -- the latest of a position is who judges there; none: not known
	class TEXT NOT NULL REFERENCES class (name), -- the class judged
	position TEXT NOT NULL CHECK (position <> ''), -- the letter of the table
	name TEXT CHECK (name <> ''), -- the judge; null: nobody is known any more
	scribe TEXT CHECK (scribe <> ''), -- who writes for the judge
	why TEXT CHECK (why <> ''), -- the reason of a change
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> '') -- when; null: with the class
) STRICT;

-- name: migrate_2_judge_name_position
CREATE INDEX judge_name_position ON judge_name (class, position);

-- name: migrate_2_entry_change_no_update
CREATE TRIGGER entry_change_no_update BEFORE UPDATE ON entry_change
BEGIN
	SELECT RAISE(ABORT, 'entry_change is a history: add a row, change none');
END;

-- name: migrate_2_entry_change_no_delete
CREATE TRIGGER entry_change_no_delete BEFORE DELETE ON entry_change
BEGIN
	SELECT RAISE(ABORT, 'entry_change is a history: add a row, change none');
END;

-- name: migrate_2_class_change_no_update
CREATE TRIGGER class_change_no_update BEFORE UPDATE ON class_change
BEGIN
	SELECT RAISE(ABORT, 'class_change is a history: add a row, change none');
END;

-- name: migrate_2_class_change_no_delete
CREATE TRIGGER class_change_no_delete BEFORE DELETE ON class_change
BEGIN
	SELECT RAISE(ABORT, 'class_change is a history: add a row, change none');
END;

-- name: migrate_2_judge_name_no_update
CREATE TRIGGER judge_name_no_update BEFORE UPDATE ON judge_name
BEGIN
	SELECT RAISE(ABORT, 'judge_name is a history: add a row, change none');
END;

-- name: migrate_2_judge_name_no_delete
CREATE TRIGGER judge_name_no_delete BEFORE DELETE ON judge_name
BEGIN
	SELECT RAISE(ABORT, 'judge_name is a history: add a row, change none');
END;

-- name: migrate_2_rule_missing
ALTER TABLE rule ADD COLUMN missing TEXT NOT NULL DEFAULT 'refuse'
	CHECK (missing IN ('refuse', 'mean', 'mean-whole'));

-- name: migrate_2_rule_apart
ALTER TABLE rule ADD COLUMN apart_x100 INTEGER NOT NULL DEFAULT 0 CHECK (apart_x100 >= 0);

-- name: migrate_2_rule_apart_judges
ALTER TABLE rule ADD COLUMN apart_judges INTEGER NOT NULL DEFAULT 7 CHECK (apart_judges >= 3 OR apart_x100 = 0);

-- name: migrate_2_article
CREATE TABLE article (
	id INTEGER PRIMARY KEY, -- the order in which articles are listed
	applies_to TEXT NOT NULL CHECK (applies_to <> ''), -- a discipline, or a rule
	name TEXT NOT NULL CHECK (name <> ''), -- what it is called at the ring: "groom dismounts"
	what TEXT NOT NULL, -- in more words
	source TEXT CHECK (source <> ''), -- the rulebook
	UNIQUE (applies_to, name)
) STRICT;

-- name: migrate_2_article_step
CREATE TABLE article_step (
	applies_to TEXT NOT NULL, -- the article it belongs to
	article TEXT NOT NULL, -- its name
	seq INTEGER NOT NULL CHECK (seq BETWEEN 1 AND 3), -- the first time, the second...
	amount_x100 INTEGER NOT NULL CHECK (amount_x100 >= 0), -- points
	eliminated INTEGER NOT NULL CHECK (eliminated IN (0, 1)), -- 1: it ends the test
	PRIMARY KEY (applies_to, article, seq),
	FOREIGN KEY (applies_to, article) REFERENCES article (applies_to, name)
) STRICT, WITHOUT ROWID;

-- name: migrate_2_missing_mark
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

-- name: migrate_2_missing_mark_entry
CREATE INDEX missing_mark_entry ON missing_mark (entry);

-- name: migrate_2_judge_away
CREATE TABLE judge_away (
	id INTEGER PRIMARY KEY, -- the latest of a sheet is what holds
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- which judge's
	away INTEGER NOT NULL CHECK (away IN (0, 1)), -- 1: not expected, and counts for nothing
	why TEXT NOT NULL CHECK (why <> ''), -- the reason given
	who TEXT NOT NULL CHECK (who <> ''), -- who said so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: migrate_2_judge_away_entry
CREATE INDEX judge_away_entry ON judge_away (entry);

-- name: migrate_2_decision
CREATE TABLE decision (
	id INTEGER PRIMARY KEY, -- of several between the same entries the latest holds
	class TEXT NOT NULL REFERENCES class (name), -- where entries were equal
	why TEXT NOT NULL CHECK (why <> ''), -- the reason given
	who TEXT NOT NULL CHECK (who <> ''), -- the official who decided
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: migrate_2_decision_place
CREATE TABLE decision_place (
	decision INTEGER NOT NULL REFERENCES decision (id), -- the decision it belongs to
	rank INTEGER NOT NULL CHECK (rank >= 1), -- 1: the best of them
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose rank
	PRIMARY KEY (decision, rank),
	UNIQUE (decision, entry)
) STRICT, WITHOUT ROWID;

-- name: migrate_2_posting
CREATE TABLE posting (
	id INTEGER PRIMARY KEY, -- the order in which classes were posted
	class TEXT NOT NULL REFERENCES class (name), -- whose results
	version INTEGER NOT NULL CHECK (version >= 1), -- 1 at first; more: corrected
	who TEXT NOT NULL CHECK (who <> ''), -- who posted them
	at TEXT NOT NULL CHECK (at IS datetime(at)), -- when; objections run from then
	until TEXT NOT NULL CHECK (until IS datetime(until)), -- when the time for them is over
	UNIQUE (class, version)
) STRICT;

-- name: migrate_2_posted_place
CREATE TABLE posted_place (
	posting INTEGER NOT NULL REFERENCES posting (id), -- the posting it belongs to
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose result
	place INTEGER CHECK (place >= 1), -- none: not placed
	status TEXT NOT NULL CHECK (status <> ''), -- as posted: "finished", "eliminated"
	score TEXT CHECK (score <> ''), -- as posted, with its decimals
	percent TEXT CHECK (percent <> ''), -- as posted, with its decimals
	PRIMARY KEY (posting, entry)
) STRICT, WITHOUT ROWID;

-- name: migrate_2_missing_mark_no_update
CREATE TRIGGER missing_mark_no_update BEFORE UPDATE ON missing_mark
BEGIN
	SELECT RAISE(ABORT, 'missing_mark is a history: add a row, change none');
END;

-- name: migrate_2_missing_mark_no_delete
CREATE TRIGGER missing_mark_no_delete BEFORE DELETE ON missing_mark
BEGIN
	SELECT RAISE(ABORT, 'missing_mark is a history: add a row, change none');
END;

-- name: migrate_2_judge_away_no_update
CREATE TRIGGER judge_away_no_update BEFORE UPDATE ON judge_away
BEGIN
	SELECT RAISE(ABORT, 'judge_away is a history: add a row, change none');
END;

-- name: migrate_2_judge_away_no_delete
CREATE TRIGGER judge_away_no_delete BEFORE DELETE ON judge_away
BEGIN
	SELECT RAISE(ABORT, 'judge_away is a history: add a row, change none');
END;

-- name: migrate_2_decision_no_update
CREATE TRIGGER decision_no_update BEFORE UPDATE ON decision
BEGIN
	SELECT RAISE(ABORT, 'decision is a history: add a row, change none');
END;

-- name: migrate_2_decision_no_delete
CREATE TRIGGER decision_no_delete BEFORE DELETE ON decision
BEGIN
	SELECT RAISE(ABORT, 'decision is a history: add a row, change none');
END;

-- name: migrate_2_decision_place_no_update
CREATE TRIGGER decision_place_no_update BEFORE UPDATE ON decision_place
BEGIN
	SELECT RAISE(ABORT, 'decision_place is a history: add a row, change none');
END;

-- name: migrate_2_decision_place_no_delete
CREATE TRIGGER decision_place_no_delete BEFORE DELETE ON decision_place
BEGIN
	SELECT RAISE(ABORT, 'decision_place is a history: add a row, change none');
END;

-- name: migrate_2_posting_no_update
CREATE TRIGGER posting_no_update BEFORE UPDATE ON posting
BEGIN
	SELECT RAISE(ABORT, 'posting is a history: add a row, change none');
END;

-- name: migrate_2_posting_no_delete
CREATE TRIGGER posting_no_delete BEFORE DELETE ON posting
BEGIN
	SELECT RAISE(ABORT, 'posting is a history: add a row, change none');
END;

-- name: migrate_2_posted_place_no_update
CREATE TRIGGER posted_place_no_update BEFORE UPDATE ON posted_place
BEGIN
	SELECT RAISE(ABORT, 'posted_place is a history: add a row, change none');
END;

-- name: migrate_2_posted_place_no_delete
CREATE TRIGGER posted_place_no_delete BEFORE DELETE ON posted_place
BEGIN
	SELECT RAISE(ABORT, 'posted_place is a history: add a row, change none');
END;

-- name: migrate_2_ring_check_who
ALTER TABLE ring_check ADD COLUMN who TEXT CHECK (who <> '');

-- name: migrate_2_ring_check_fall_along
ALTER TABLE ring_check ADD COLUMN fall_along_m REAL CHECK (fall_along_m > 0);

-- name: migrate_2_ring_check_fall_across
ALTER TABLE ring_check ADD COLUMN fall_across_m REAL CHECK (fall_across_m > 0);

-- name: migrate_2_ring_check_fall_source
ALTER TABLE ring_check ADD COLUMN fall_source TEXT CHECK (fall_source <> '');

-- name: migrate_2_ring_height
CREATE TABLE ring_height (
	ring_check INTEGER NOT NULL REFERENCES ring_check (id), -- the check it belongs to
	seq INTEGER NOT NULL CHECK (seq >= 1), -- the order it was taken in
	peg TEXT NOT NULL CHECK (peg <> ''), -- a letter or a corner
	height_m REAL NOT NULL, -- over any level that all heights of the check share
	sigma_m REAL CHECK (sigma_m > 0), -- its standard error, where given
	PRIMARY KEY (ring_check, seq)
) STRICT, WITHOUT ROWID;

-- name: migrate_2_ring_height_no_update
CREATE TRIGGER ring_height_no_update BEFORE UPDATE ON ring_height
BEGIN
	SELECT RAISE(ABORT, 'ring_height is a history: add a row, change none');
END;

-- name: migrate_2_ring_height_no_delete
CREATE TRIGGER ring_height_no_delete BEFORE DELETE ON ring_height
BEGIN
	SELECT RAISE(ABORT, 'ring_height is a history: add a row, change none');
END;

-- name: migrate_2_sheet_event
CREATE TABLE sheet_event (
	id INTEGER PRIMARY KEY, -- the latest of a sheet counts; none: expected
	entry INTEGER NOT NULL REFERENCES entry (id), -- whose sheet
	judge INTEGER NOT NULL REFERENCES judge (id), -- which judge's
	state TEXT NOT NULL CHECK (state IN ('in', 'queried', 'returned')), -- where it is from now on
	why TEXT CHECK (why <> ''), -- what the judge is asked
	who TEXT CHECK (who <> ''), -- who said so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: migrate_2_sheet_event_sheet
CREATE INDEX sheet_event_sheet ON sheet_event (entry, judge);

-- name: migrate_2_sheet_event_no_update
CREATE TRIGGER sheet_event_no_update BEFORE UPDATE ON sheet_event
BEGIN
	SELECT RAISE(ABORT, 'sheet_event is a history: add a row, change none');
END;

-- name: migrate_2_sheet_event_no_delete
CREATE TRIGGER sheet_event_no_delete BEFORE DELETE ON sheet_event
BEGIN
	SELECT RAISE(ABORT, 'sheet_event is a history: add a row, change none');
END;

-- name: migrate_2_draw
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

-- name: migrate_2_draw_class
CREATE INDEX draw_class ON draw (class);

-- name: migrate_2_draw_place
CREATE TABLE draw_place (
	draw INTEGER NOT NULL REFERENCES draw (id), -- the draw it belongs to
	place INTEGER NOT NULL CHECK (place >= 1), -- the order of starting
	entry INTEGER NOT NULL REFERENCES entry (id), -- who starts there
	fixed INTEGER NOT NULL CHECK (fixed IN (0, 1)), -- 1: the place was given, not drawn
	PRIMARY KEY (draw, place),
	UNIQUE (draw, entry)
) STRICT, WITHOUT ROWID;

-- name: migrate_2_times_file
CREATE TABLE times_file (
	id INTEGER PRIMARY KEY, -- the latest of its kind counts, whole
	what TEXT NOT NULL CHECK (what IN ('plan', 'wishes')), -- its rows are plan_row or wish
	source TEXT CHECK (source <> ''), -- the file
	who TEXT CHECK (who <> ''), -- who put it in
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: migrate_2_plan_row
CREATE TABLE plan_row (
	file INTEGER NOT NULL REFERENCES times_file (id), -- the file it stands in
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order there
	class TEXT NOT NULL REFERENCES class (name), -- what is asked of which class
	ring TEXT REFERENCES ring (name), -- null: the class's own, else any
	day INTEGER CHECK (day >= 1), -- of the show; null: any
	first_s INTEGER CHECK (first_s BETWEEN 0 AND 86400), -- its first start, of the day
	interval_s INTEGER CHECK (interval_s > 0), -- null: from the test's route
	break_every INTEGER CHECK (break_every > 0), -- the judges' break after so many starts
	break_after_s INTEGER CHECK (break_after_s > 0), -- or after so much judging
	break_s INTEGER CHECK (break_s > 0), -- how long it is
	harrow_every INTEGER CHECK (harrow_every > 0), -- the ring is harrowed after so many starts
	harrow_s INTEGER CHECK (harrow_s > 0), -- how long that takes
	start_order TEXT NOT NULL CHECK (start_order IN ('drawn', 'free')), -- free: whatever suits
	PRIMARY KEY (file, seq),
	UNIQUE (file, class)
) STRICT, WITHOUT ROWID;

-- name: migrate_2_wish
CREATE TABLE wish (
	file INTEGER NOT NULL REFERENCES times_file (id), -- the file it stands in
	seq INTEGER NOT NULL CHECK (seq >= 1), -- its order there
	about TEXT NOT NULL CHECK (about IN ('class', 'entry', 'driver', 'horse', 'groom',
		'carriage', 'judge')), -- whom it is about
	name TEXT NOT NULL CHECK (name <> ''), -- the class, the person ...; of an entry its number
	class TEXT REFERENCES class (name), -- only there; null: everywhere
	day INTEGER CHECK (day >= 1), -- of the show; null: any
	not_before_s INTEGER CHECK (not_before_s BETWEEN 0 AND 86400), -- of the day
	not_after_s INTEGER CHECK (not_after_s BETWEEN 0 AND 86400), -- of the day
	after TEXT REFERENCES class (name), -- the class that is over first
	weight INTEGER NOT NULL CHECK (weight BETWEEN 0 AND 9), -- 0: it must be met
	PRIMARY KEY (file, seq)
) STRICT, WITHOUT ROWID;

-- name: migrate_2_times_change
CREATE TABLE times_change (
	id INTEGER PRIMARY KEY, -- the version of the start times from then on
	what TEXT NOT NULL CHECK (what IN ('plan', 'move', 'late')), -- planned, or changed on the day
	words TEXT NOT NULL CHECK (words <> ''), -- what was done, in a sentence
	why TEXT CHECK (why <> ''), -- the reason given
	who TEXT CHECK (who <> ''), -- who said or typed so
	at TEXT CHECK (at <> '') -- when
) STRICT;

-- name: migrate_2_times_setting
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

-- name: migrate_2_start_time
CREATE TABLE start_time (
	entry INTEGER NOT NULL REFERENCES entry (id), -- who starts
	version INTEGER NOT NULL REFERENCES times_change (id), -- the latest counts
	ring TEXT REFERENCES ring (name), -- where; null with all behind it: no start any more
	at_s INTEGER CHECK (at_s >= 0), -- since the midnight that the show's first day begins with
	slot_s INTEGER CHECK (slot_s > 0), -- so long the ring is theirs
	pause_s INTEGER CHECK (pause_s >= 0), -- behind it, before the class goes on
	pause TEXT CHECK (pause IN ('', 'break', 'harrow', 'break and harrow')), -- what that is
	PRIMARY KEY (entry, version),
	CHECK ((ring IS NULL) = (at_s IS NULL) AND (ring IS NULL) = (slot_s IS NULL)),
	CHECK ((ring IS NULL) = (pause_s IS NULL) AND (ring IS NULL) = (pause IS NULL))
) STRICT, WITHOUT ROWID;

-- name: migrate_2_draw_no_update
CREATE TRIGGER draw_no_update BEFORE UPDATE ON draw
BEGIN
	SELECT RAISE(ABORT, 'draw is a history: add a row, change none');
END;

-- name: migrate_2_draw_no_delete
CREATE TRIGGER draw_no_delete BEFORE DELETE ON draw
BEGIN
	SELECT RAISE(ABORT, 'draw is a history: add a row, change none');
END;

-- name: migrate_2_draw_place_no_update
CREATE TRIGGER draw_place_no_update BEFORE UPDATE ON draw_place
BEGIN
	SELECT RAISE(ABORT, 'draw_place is a history: add a row, change none');
END;

-- name: migrate_2_draw_place_no_delete
CREATE TRIGGER draw_place_no_delete BEFORE DELETE ON draw_place
BEGIN
	SELECT RAISE(ABORT, 'draw_place is a history: add a row, change none');
END;

-- name: migrate_2_times_file_no_update
CREATE TRIGGER times_file_no_update BEFORE UPDATE ON times_file
BEGIN
	SELECT RAISE(ABORT, 'times_file is a history: add a row, change none');
END;

-- name: migrate_2_times_file_no_delete
CREATE TRIGGER times_file_no_delete BEFORE DELETE ON times_file
BEGIN
	SELECT RAISE(ABORT, 'times_file is a history: add a row, change none');
END;

-- name: migrate_2_plan_row_no_update
CREATE TRIGGER plan_row_no_update BEFORE UPDATE ON plan_row
BEGIN
	SELECT RAISE(ABORT, 'plan_row is a history: add a row, change none');
END;

-- name: migrate_2_plan_row_no_delete
CREATE TRIGGER plan_row_no_delete BEFORE DELETE ON plan_row
BEGIN
	SELECT RAISE(ABORT, 'plan_row is a history: add a row, change none');
END;

-- name: migrate_2_wish_no_update
CREATE TRIGGER wish_no_update BEFORE UPDATE ON wish
BEGIN
	SELECT RAISE(ABORT, 'wish is a history: add a row, change none');
END;

-- name: migrate_2_wish_no_delete
CREATE TRIGGER wish_no_delete BEFORE DELETE ON wish
BEGIN
	SELECT RAISE(ABORT, 'wish is a history: add a row, change none');
END;

-- name: migrate_2_times_change_no_update
CREATE TRIGGER times_change_no_update BEFORE UPDATE ON times_change
BEGIN
	SELECT RAISE(ABORT, 'times_change is a history: add a row, change none');
END;

-- name: migrate_2_times_change_no_delete
CREATE TRIGGER times_change_no_delete BEFORE DELETE ON times_change
BEGIN
	SELECT RAISE(ABORT, 'times_change is a history: add a row, change none');
END;

-- name: migrate_2_times_setting_no_update
CREATE TRIGGER times_setting_no_update BEFORE UPDATE ON times_setting
BEGIN
	SELECT RAISE(ABORT, 'times_setting is a history: add a row, change none');
END;

-- name: migrate_2_times_setting_no_delete
CREATE TRIGGER times_setting_no_delete BEFORE DELETE ON times_setting
BEGIN
	SELECT RAISE(ABORT, 'times_setting is a history: add a row, change none');
END;

-- name: migrate_2_start_time_no_update
CREATE TRIGGER start_time_no_update BEFORE UPDATE ON start_time
BEGIN
	SELECT RAISE(ABORT, 'start_time is a history: add a row, change none');
END;

-- name: migrate_2_start_time_no_delete
CREATE TRIGGER start_time_no_delete BEFORE DELETE ON start_time
BEGIN
	SELECT RAISE(ABORT, 'start_time is a history: add a row, change none');
END;

-- name: migrate_2_version
PRAGMA user_version = 2;
