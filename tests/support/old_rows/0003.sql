UPDATE setting SET own_tune_id = tune_id, melody_class = 7;
INSERT INTO verdict VALUES (1, 2, 0, 1);
INSERT INTO oddity VALUES (1, 0, 'bar-length', 'warning', 1, 1, 'too long', 'shorten it');
