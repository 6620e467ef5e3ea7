INSERT INTO tag VALUES (1, 'wedding', 'Wedding');
INSERT INTO tune_tag VALUES (1, 1);
INSERT INTO tune_count VALUES (1, 3);
