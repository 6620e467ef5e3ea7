-- A setting may be a piece of a tune and no tune: too short, broken off, or titled as a part. What proposes tunes leaves it aside, so
-- the reason is kept. No reason: it is a tune, as far as one can see.
ALTER TABLE setting ADD COLUMN scrap TEXT CHECK (scrap IN ('few-bars', 'breaks-off', 'title'));

CREATE INDEX setting_scrap ON setting (id) WHERE scrap IS NOT NULL;
