-- Rows that come with the program and that a show may change: kinds, levels, gaits, rules,
-- turnouts.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: ring_kind_put
INSERT INTO ring_kind (name, discipline, width_m, length_m) VALUES (?1, ?2, ?3, ?4)
ON CONFLICT (name) DO UPDATE SET
	discipline = excluded.discipline, width_m = excluded.width_m, length_m = excluded.length_m;

-- name: ring_letter_clear
DELETE FROM ring_letter WHERE kind = ?1;

-- name: ring_kind_list
SELECT name, discipline, width_m, length_m FROM ring_kind ORDER BY id;

-- name: ring_kind_known
SELECT EXISTS (SELECT 1 FROM ring_kind WHERE name = ?1);

-- name: ring_letter_insert
INSERT INTO ring_letter (kind, seq, name, side, offset_m) VALUES (?1, ?2, ?3, ?4, ?5);

-- name: ring_letter_list
SELECT name, side, offset_m FROM ring_letter WHERE kind = ?1 ORDER BY seq;

-- name: gait_put
INSERT INTO gait (name, speed_m_per_s, stride_m, source) VALUES (?1, ?2, ?3, ?4)
ON CONFLICT (name) DO UPDATE SET
	speed_m_per_s = excluded.speed_m_per_s, stride_m = excluded.stride_m,
	source = excluded.source;

-- name: gait_list
SELECT name, speed_m_per_s, stride_m, source FROM gait ORDER BY id;

-- name: gait_known
SELECT EXISTS (SELECT 1 FROM gait WHERE name = ?1);

-- name: level_put
INSERT INTO level (name, discipline, turn_diameter_m, reference_height_cm, gait)
VALUES (?1, ?2, ?3, ?4, ?5)
ON CONFLICT (name, discipline) DO UPDATE SET
	turn_diameter_m = excluded.turn_diameter_m,
	reference_height_cm = excluded.reference_height_cm, gait = excluded.gait;

-- name: level_list
SELECT name, discipline, turn_diameter_m, reference_height_cm, gait FROM level ORDER BY id;

-- name: level_known
SELECT EXISTS (SELECT 1 FROM level WHERE name = ?1);

-- name: rule_put
INSERT INTO rule (name, scale, wins, base, judge_decimals, percent_decimals, score_decimals,
	taken, ties, source, missing, apart_x100, apart_judges)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)
ON CONFLICT (name) DO UPDATE SET
	scale = excluded.scale, wins = excluded.wins, base = excluded.base,
	judge_decimals = excluded.judge_decimals, percent_decimals = excluded.percent_decimals,
	score_decimals = excluded.score_decimals, taken = excluded.taken, ties = excluded.ties,
	source = excluded.source, missing = excluded.missing, apart_x100 = excluded.apart_x100,
	apart_judges = excluded.apart_judges;

-- name: rule_error_clear
DELETE FROM rule_error WHERE rule = ?1;

-- name: rule_list
SELECT name, scale, wins, base, judge_decimals, percent_decimals, score_decimals, taken, ties,
	source, missing, apart_x100, apart_judges
FROM rule ORDER BY id;

-- name: rule_known
SELECT EXISTS (SELECT 1 FROM rule WHERE name = ?1);

-- name: rule_error_insert
INSERT INTO rule_error (rule, seq, amount_x100, eliminated) VALUES (?1, ?2, ?3, ?4);

-- name: rule_error_list
SELECT amount_x100, eliminated FROM rule_error WHERE rule = ?1 ORDER BY seq;

-- name: turnout_clear
DELETE FROM turnout_part WHERE turnout = ?1;

-- name: turnout_part_insert
INSERT INTO turnout_part (turnout, part, hitch_m, length_m, width_m, track_m, cog_m)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7);

-- name: turnout_part_list
SELECT turnout, part, hitch_m, length_m, width_m, track_m, cog_m FROM turnout_part ORDER BY id;

-- name: article_put
INSERT INTO article (applies_to, name, what, source) VALUES (?1, ?2, ?3, ?4)
ON CONFLICT (applies_to, name) DO UPDATE SET what = excluded.what, source = excluded.source;

-- name: article_step_clear
DELETE FROM article_step WHERE applies_to = ?1 AND article = ?2;

-- name: article_step_insert
INSERT INTO article_step (applies_to, article, seq, amount_x100, eliminated)
VALUES (?1, ?2, ?3, ?4, ?5);

-- name: article_list
SELECT applies_to, name, what, source FROM article ORDER BY id;

-- name: article_step_list
SELECT amount_x100, eliminated FROM article_step WHERE applies_to = ?1 AND article = ?2 ORDER BY seq;
