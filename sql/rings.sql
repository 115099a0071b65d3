-- Rings of the show, and how they were checked.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: ring_insert
INSERT INTO ring (name, kind) VALUES (?1, ?2) ON CONFLICT (name) DO NOTHING;

-- name: ring_list
SELECT name, kind FROM ring ORDER BY id;

-- name: ring_known
SELECT EXISTS (SELECT 1 FROM ring WHERE name = ?1);

-- name: ring_check_insert
INSERT INTO ring_check (ring, at, tolerance_m, fit) VALUES (?1, ?2, ?3, ?4);

-- name: ring_check_latest
SELECT id, ring, at, tolerance_m, fit FROM ring_check WHERE ring = ?1 ORDER BY id DESC LIMIT 1;

-- name: ring_reading_insert
INSERT INTO ring_reading (ring_check, seq, kind, from_peg, to_peg, at_peg, frame, value, sigma, note)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10);

-- name: ring_reading_list
SELECT kind, from_peg, to_peg, at_peg, frame, value, sigma, note FROM ring_reading
WHERE ring_check = ?1 ORDER BY seq;
