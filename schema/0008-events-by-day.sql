-- What a player said of a tune on one day is looked for each time something is said: with the day in the index, what is said of a tune
-- for the thousandth time costs no more than the first.

DROP INDEX player_event_by_player;
CREATE INDEX player_event_by_player ON player_event (player_id, tune_id, day);
