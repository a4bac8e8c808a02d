-- Tanks that name the same tap have one water: who they are.

ALTER TABLE tank ADD COLUMN tap TEXT;         -- as the revision that holds now names it; NULL: a tap of its own
