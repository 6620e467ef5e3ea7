INSERT INTO player VALUES (1, 'ina', 'Ina', 'whistle-d', 4611686018427387904, 1);
INSERT INTO player_change VALUES (1, 1), (2, 1), (3, 1);
INSERT INTO player_event VALUES (1, 1, 1, '2026-01-10', 'learning', NULL, 1), (2, 1, 1, '2026-02-10', 'known', NULL, 1);
INSERT INTO player_wish VALUES (1, 1);
INSERT INTO player_before VALUES (1, 2, 1, 'wish', NULL);
INSERT INTO player_exclusion VALUES (1, 2, 'too high');
INSERT INTO player_before VALUES (2, 3, 2, 'exclusion', NULL);
