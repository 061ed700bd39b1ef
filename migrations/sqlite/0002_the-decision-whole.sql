-- Written by drizzle-kit from src/store/tables.ts and completed by hand with what drizzle-kit would say by rebuilding a
-- table: STRICT, truth values are 0 or 1, a hold has an end, how long a room may be kept as it is set, how far priority
-- goes, and what a turn is for. Until now every booking was firm, so that none of before lacks the end of its hold.
CREATE TABLE `judging` (
	`site_id` text PRIMARY KEY NOT NULL,
	`judged_through_at` integer,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
ALTER TABLE `booking` ADD `hold_expires_at` integer CONSTRAINT "booking_hold_expires" CHECK("status" <> 'TENTATIVE' or "hold_expires_at" is not null);--> statement-breakpoint
ALTER TABLE `booking` ADD `link_id` text;--> statement-breakpoint
ALTER TABLE `booking` ADD `keep_as_set` integer DEFAULT false NOT NULL CONSTRAINT "booking_keep_as_set" CHECK("keep_as_set" in (0, 1));--> statement-breakpoint
ALTER TABLE `booking` ADD `kept_until_at` integer CONSTRAINT "booking_kept" CHECK("kept_until_at" is null or ("kept_until_at" >= "clear_at" and "kept_until_at" - "doors_at" <= 2678400000));--> statement-breakpoint
ALTER TABLE `booking` ADD `overruns_until_at` integer CONSTRAINT "booking_overruns" CHECK("overruns_until_at" is null or "overruns_until_at" > "clear_at");--> statement-breakpoint
ALTER TABLE `booking` ADD `priority` integer DEFAULT 0 NOT NULL CONSTRAINT "booking_priority" CHECK("priority" between 0 and 9);--> statement-breakpoint
ALTER TABLE `booking` ADD `quiet_needed` integer DEFAULT false NOT NULL CONSTRAINT "booking_quiet_needed" CHECK("quiet_needed" in (0, 1));--> statement-breakpoint
ALTER TABLE `booking` ADD `crew_demands` text DEFAULT '[]' NOT NULL;--> statement-breakpoint
ALTER TABLE `booking` ADD `milestones` text DEFAULT '[]' NOT NULL;--> statement-breakpoint
ALTER TABLE `booking` ADD `own_help` text;--> statement-breakpoint
ALTER TABLE `booking` ADD `risk_accepted` text;--> statement-breakpoint
CREATE INDEX `booking_link` ON `booking` (`site_id`,`link_id`,`doors_at`,`id`) WHERE "booking"."link_id" is not null;--> statement-breakpoint
CREATE INDEX `booking_hold` ON `booking` (`hold_expires_at`,`id`) WHERE "booking"."status" = 'TENTATIVE';--> statement-breakpoint
CREATE INDEX `booking_at_risk` ON `booking` (`site_id`,`doors_at`,`id`) WHERE "booking"."risk_accepted" is not null and "booking"."status" <> 'CANCELLED';--> statement-breakpoint
ALTER TABLE `turn` ADD `purpose` text DEFAULT 'prepare' NOT NULL CONSTRAINT "turn_purpose" CHECK("purpose" in ('prepare', 'return-home'));--> statement-breakpoint
ALTER TABLE `turn` ADD `held_until_at` integer;--> statement-breakpoint
ALTER TABLE `turn` ADD `warned_since` integer;--> statement-breakpoint
ALTER TABLE `turn` ADD `polished_at` integer;--> statement-breakpoint
CREATE INDEX `turn_warned` ON `turn` (`site_id`,`due_at`,`id`) WHERE "turn"."warned_since" is not null and "turn"."status" <> 'dropped';--> statement-breakpoint
CREATE INDEX `turn_unpolished` ON `turn` (`site_id`,`due_at`,`id`,`plan_starts_at`) WHERE "turn"."status" = 'ready' and "turn"."polished_at" is null;--> statement-breakpoint
CREATE INDEX `turn_held` ON `turn` (`site_id`,`held_until_at`,`due_at`) WHERE "turn"."held_until_at" is not null and "turn"."status" <> 'dropped';