INSERT INTO tune_rhythm VALUES (1, 'hornpipe', 1);
INSERT INTO tune_key VALUES (1, 'E', 'minor', 2);
