-- From version 1 to version 2: readings of a ring check other than of a tape.
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

-- name: migrate_2_version
PRAGMA user_version = 2;
