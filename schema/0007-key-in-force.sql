-- A K: between the first one and the first note is the tune's, though key_stated stays what the first one says.

ALTER TABLE setting ADD COLUMN key_in_force TEXT;  -- as key_stated is written; NULL: the same
