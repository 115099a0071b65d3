-- Championships, teams, prize money.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: championship_insert
INSERT INTO championship (name, title, classes, tally, taken_of, competitor, ties, dropped)
VALUES (:name, :title, :classes, :tally, :taken_of, :competitor, :ties, :dropped)
ON CONFLICT (name) DO NOTHING;

-- name: championship_there
SELECT * FROM championship WHERE name = :name;

-- name: championship_list
SELECT * FROM championship ORDER BY id;

-- name: team_member_insert
INSERT INTO team_member (class, number, team)
VALUES (:class, :number, :team) ON CONFLICT (class, number) DO NOTHING;

-- name: team_member_there
SELECT * FROM team_member WHERE class = :class AND number = :number;

-- name: team_member_list
SELECT * FROM team_member ORDER BY id;

-- name: entry_known
SELECT EXISTS (SELECT 1 FROM entry WHERE class = ?1 AND number = ?2);

-- name: prize_step_insert
INSERT INTO prize_step (scale, starters, place, amount_x100)
VALUES (:scale, :starters, :place, :amount_x100) ON CONFLICT (scale, starters, place) DO NOTHING;

-- name: prize_step_there
SELECT * FROM prize_step WHERE scale = :scale AND starters = :starters AND place = :place;

-- name: prize_step_list
SELECT * FROM prize_step ORDER BY scale, starters, place;

-- name: payee_insert
INSERT INTO payee (number, name, who, at) SELECT ?1, ?2, ?3, ?4
WHERE EXISTS (SELECT 1 FROM entry WHERE number = ?1);

-- name: payee_list
SELECT number, name FROM payee AS p WHERE id = (SELECT max(id) FROM payee WHERE number = p.number)
ORDER BY number;
