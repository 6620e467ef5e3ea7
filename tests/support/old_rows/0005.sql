INSERT INTO syllabus VALUES (1, 'mon', 'Mon', 'planned again', 'planned'), (2, 'tue', 'Tue', 'once', NULL);
