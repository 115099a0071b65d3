-- Rows that come with the program and that a show may change: kinds, levels, gaits, rules,
-- articles, turnouts.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: ring_kind_put
INSERT INTO ring_kind (name, discipline, width_m, length_m)
VALUES (:kind, :discipline, :width_m, :length_m)
ON CONFLICT (name) DO UPDATE SET
	discipline = excluded.discipline, width_m = excluded.width_m, length_m = excluded.length_m;

-- name: ring_kind_known
SELECT EXISTS (SELECT 1 FROM ring_kind WHERE name = ?1);

-- name: ring_letter_clear
DELETE FROM ring_letter WHERE kind = ?1;

-- name: ring_letter_insert
INSERT INTO ring_letter (seq, kind, peg, side, offset_m)
VALUES (?1, :kind, :peg, :side, :offset_m);

-- name: ring_letter_list
-- Every letter with its kind.
SELECT * FROM ring_kind JOIN ring_letter ON kind = name ORDER BY id, seq;

-- name: gait_put
INSERT INTO gait (name, speed_m_per_s, stride_m, source)
VALUES (:name, :speed_m_per_s, :stride_m, :source)
ON CONFLICT (name) DO UPDATE SET
	speed_m_per_s = excluded.speed_m_per_s, stride_m = excluded.stride_m,
	source = excluded.source;

-- name: gait_list
SELECT * FROM gait ORDER BY id;

-- name: gait_known
SELECT EXISTS (SELECT 1 FROM gait WHERE name = ?1);

-- name: level_put
INSERT INTO level (name, discipline, turn_diameter_m, reference_height_cm, gait)
VALUES (:name, :discipline, :turn_diameter_m, :reference_height_cm, :gait)
ON CONFLICT (name, discipline) DO UPDATE SET
	turn_diameter_m = excluded.turn_diameter_m,
	reference_height_cm = excluded.reference_height_cm, gait = excluded.gait;

-- name: level_list
SELECT * FROM level ORDER BY id;

-- name: level_known
SELECT EXISTS (SELECT 1 FROM level WHERE name = ?1);

-- name: rule_put
INSERT INTO rule (name, scale, wins, base, judge_decimals, percent_decimals, score_decimals,
	taken, error_1, error_2, error_3, error_4, ties, source, rounding, missing, apart_x100,
	apart_judges)
VALUES (:name, :scale, :wins, :base, :judge_decimals, :percent_decimals, :score_decimals, :taken,
	:error_1, :error_2, :error_3, :error_4, :ties, :source, :rounding, :missing, :apart_x100,
	:apart_judges)
ON CONFLICT (name) DO UPDATE SET
	scale = excluded.scale, wins = excluded.wins, base = excluded.base,
	judge_decimals = excluded.judge_decimals, percent_decimals = excluded.percent_decimals,
	score_decimals = excluded.score_decimals, taken = excluded.taken,
	error_1 = excluded.error_1, error_2 = excluded.error_2, error_3 = excluded.error_3,
	error_4 = excluded.error_4,
	ties = excluded.ties, source = excluded.source, rounding = excluded.rounding, missing = excluded.missing,
	apart_x100 = excluded.apart_x100, apart_judges = excluded.apart_judges;

-- name: rule_list
SELECT * FROM rule ORDER BY id;

-- name: rule_known
SELECT EXISTS (SELECT 1 FROM rule WHERE name = ?1);

-- name: turnout_clear
DELETE FROM turnout_part WHERE turnout = ?1;

-- name: turnout_part_insert
INSERT INTO turnout_part (turnout, part, hitch_m, length_m, width_m, track_m, cog_m,
	animals)
VALUES (:turnout, :part, :hitch_m, :length_m, :width_m, :track_m, :cog_m, :animals);

-- name: turnout_part_list
SELECT * FROM turnout_part ORDER BY id;

-- name: article_put
INSERT INTO article (applies_to, name, what, amount_1, amount_2, amount_3, source)
VALUES (:applies_to, :name, :what, :amount_1, :amount_2, :amount_3, :source)
ON CONFLICT (applies_to, name) DO UPDATE SET
	what = excluded.what, amount_1 = excluded.amount_1, amount_2 = excluded.amount_2,
	amount_3 = excluded.amount_3, source = excluded.source;

-- name: article_list
SELECT * FROM article ORDER BY id;
