-- Rings of the show, and how they were checked.
--
-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: ring_insert
INSERT INTO ring (name, kind) VALUES (:name, :kind);

-- name: ring_list
SELECT * FROM ring ORDER BY id;

-- name: ring_known
SELECT EXISTS (SELECT 1 FROM ring WHERE name = ?1);

-- name: ring_check_insert
INSERT INTO ring_check (ring, at, tolerance_m, fit, who, fall_along_m, fall_across_m, fall_source)
VALUES (:ring, :at, :tolerance_m, :fit, :who, :fall_along_m, :fall_across_m, :fall_source);

-- name: ring_check_list
SELECT * FROM ring_check WHERE ring = ?1 ORDER BY id;

-- name: ring_check_latest
SELECT * FROM ring_check
WHERE ring = ?1 AND EXISTS (SELECT 1 FROM ring_reading WHERE ring_check = id)
ORDER BY id DESC LIMIT 1;

-- name: ring_height_insert
INSERT INTO ring_height (ring_check, seq, point, height_m, sigma_m)
VALUES (?1, ?2, :point, :height_m, :sigma_m);

-- name: ring_height_list
SELECT * FROM ring_height WHERE ring_check = ?1 ORDER BY seq;

-- name: ring_reading_insert
INSERT INTO ring_reading (ring_check, seq, kind, from_peg, to_peg, at_peg, frame, value, sigma, note)
VALUES (?1, ?2, :kind, :from_peg, :to_peg, :at_peg, :frame, :value, :sigma, :note);

-- name: ring_reading_list
SELECT * FROM ring_reading WHERE ring_check = ?1 ORDER BY seq;
