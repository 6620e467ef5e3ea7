-- What a library of this version held: two tunes of one file. Rows of each later version stand beside the schema they are the first of.
INSERT INTO file VALUES (1, '/tunes/a.abc', 'a.abc', 100, 1, 9, 'hash', 0);
INSERT INTO tune (id) VALUES (1), (2);
INSERT INTO note_set VALUES (1, 0, 0);
INSERT INTO setting (tune_id, file_id, needed_id, ornaments_id, key_decided, key_candidates, meter, line, number, occurrence, folded_title,
                     key_stated, note_count, bars, different_bars, errors, melody_hash, text_hash, analysis_version) VALUES
    (1, 1, 1, 1, 1, '', '4/4', 1, '1', 0, 'lamp', 'G major', 24, 8, 4, 0, 11, 11, 1),
    (2, 1, 1, 1, 1, '', '4/4', 9, '2', 0, 'rope', 'G major', 24, 8, 4, 0, 22, 22, 1);
INSERT INTO title VALUES (1, 0, 'Lamp', 'lamp'), (2, 0, 'Rope', 'rope');
INSERT INTO title_search (rowid, folded) VALUES (1, 'lamp'), (2, 'rope');
INSERT INTO abc VALUES (1, NULL, 'X:1'), (2, NULL, 'X:2');
