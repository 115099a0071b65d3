-- The draw, what is asked of the times, and start times with all their versions.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: draw_insert
INSERT INTO draw (class, what, seed, apart, why, who, at)
VALUES (:class, :what, :seed, :apart, :why, :who, :at);

-- name: draw_place_insert
INSERT INTO draw_place (draw, place, entry, fixed) VALUES (?1, :place, :entry, :fixed);

-- name: draw_list
SELECT * FROM draw WHERE class = ?1 ORDER BY id;

-- name: draw_place_list
-- Of the latest draw of a class.
SELECT entry, place, fixed FROM draw_place
WHERE draw = (SELECT max(id) FROM draw WHERE class = ?1) ORDER BY place;

-- name: times_file_insert
INSERT INTO times_file (what, source, who, at) VALUES (?1, :words, :who, :at);

-- name: plan_row_insert
INSERT INTO plan_row (file, seq, class, ring, day, first, interval_s, break_every, break_after_s,
	break_s, harrow_every, harrow_s, start_order)
VALUES (?1, ?2, :class, :ring, :day, :first, :interval_s, :break_every, :break_after_s, :break_s,
	:harrow_every, :harrow_s, :start_order);

-- name: plan_row_list
SELECT * FROM plan_row WHERE file = (SELECT max(id) FROM times_file WHERE what = 'plan')
ORDER BY seq;

-- name: wish_insert
INSERT INTO wish (file, seq, about, name, class, day, not_before, over_by, after, weight)
VALUES (?1, ?2, :about, :name, :class, :day, :not_before, :over_by, :after, :weight);

-- name: wish_list
SELECT * FROM wish WHERE file = (SELECT max(id) FROM times_file WHERE what = 'wishes')
ORDER BY seq;

-- name: times_change_insert
INSERT INTO times_change (what, words, ring, why, who, at)
VALUES (:what, :words, :ring, :why, :who, :at);

-- name: times_change_list
SELECT * FROM times_change ORDER BY id;

-- name: times_setting_insert
INSERT INTO times_setting (version, days, open_s, close_s, gap_driver_s, gap_horse_s, gap_groom_s,
	gap_carriage_s, gap_judge_s, change_s, seed)
VALUES (?1, :days, :open_s, :close_s, :gap_driver_s, :gap_horse_s, :gap_groom_s, :gap_carriage_s,
	:gap_judge_s, :change_s, :seed);

-- name: times_setting_latest
-- As they were in a version of the times.
SELECT * FROM times_setting WHERE version <= ?1 ORDER BY version DESC LIMIT 1;

-- name: start_time_insert
INSERT INTO start_time (entry, version, ring, at_s, slot_s, pause_s, pause)
VALUES (?1, :version, :ring, :at_s, :slot_s, :pause_s, :pause);

-- name: start_time_gone
INSERT INTO start_time (entry, version) VALUES (?1, ?2);

-- name: start_time_list
-- The latest of every entry up to a version of the times, with its place in the latest draw of its class.
SELECT s.*, coalesce(p.place, 0) AS place
FROM start_time AS s JOIN entry ON entry.id = s.entry
LEFT JOIN draw_place AS p ON p.entry = s.entry
	AND p.draw = (SELECT max(id) FROM draw WHERE draw.class = entry.class)
WHERE s.ring IS NOT NULL
	AND s.version = (SELECT max(version) FROM start_time WHERE entry = s.entry
		AND version <= ?1)
ORDER BY s.entry;

-- name: times_of_class
-- Whether anybody of a class has a start time.
SELECT EXISTS (SELECT 1 FROM entry JOIN start_time AS s ON s.entry = entry.id
	WHERE entry.class = ?1 AND s.ring IS NOT NULL
	AND s.version = (SELECT max(version) FROM start_time WHERE entry = s.entry));

-- name: times_list_version
-- When the list of a ring and day last changed: a start that came, or one that left it.
SELECT ring, day, max(version) AS version FROM (
	SELECT ring, at_s / 86400 + 1 AS day, version FROM start_time WHERE ring IS NOT NULL
	UNION ALL
	SELECT ring, at_s / 86400 + 1, (SELECT min(version) FROM start_time
		WHERE entry = s.entry AND version > s.version)
	FROM start_time AS s WHERE ring IS NOT NULL)
WHERE version IS NOT NULL GROUP BY ring, day ORDER BY day, ring;

-- name: times_class_version
SELECT class, max(version) AS version FROM start_time JOIN entry ON entry.id = entry
GROUP BY class ORDER BY class;

-- name: printed_list_insert
INSERT INTO printed_list (list, ring, class, driver, day, version, at)
VALUES (:list, :ring, :class, :driver, :day, :version, :at);

-- name: printed_line_insert
INSERT INTO printed_line (printed, seq, entry, words) VALUES (?1, ?2, ?3, ?4);

-- name: printed_list_versions
-- The last two versions of a list, the latest first.
SELECT * FROM printed_list WHERE list = :list AND ring IS :ring AND class IS :class
	AND driver IS :driver AND day = :day
ORDER BY version DESC LIMIT 2;

-- name: printed_list_latest
SELECT p.* FROM printed_list AS p WHERE NOT EXISTS (
	SELECT 1 FROM printed_list AS later WHERE later.list = p.list AND later.day = p.day
	AND later.ring IS p.ring AND later.class IS p.class AND later.driver IS p.driver
	AND later.version > p.version)
ORDER BY list, day, ring, class, driver;

-- name: printed_line_list
SELECT coalesce(entry, 0) AS entry, words FROM printed_line WHERE printed = ?1 ORDER BY seq;
