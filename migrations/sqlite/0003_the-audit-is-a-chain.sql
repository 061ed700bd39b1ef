-- Written by drizzle-kit from src/store/tables.ts. Entries of before are linked by the program once this has run, for SQL
-- alone cannot hash; from then on a trigger refuses what is not linked.
ALTER TABLE `audit` ADD `previous_hash` text;--> statement-breakpoint
ALTER TABLE `audit` ADD `hash` text;