-- Written by drizzle-kit from src/store/tables.ts and completed by hand with what drizzle-kit cannot say, or would say by
-- rebuilding a table: STRICT on every new table, versions count from 1, and which words units and code tables may be.
-- Rows of before are version 1; what their documents do not say yet is filled in by the schemas that read them.
CREATE TABLE `exit` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	`section_id` text NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`section_id`) REFERENCES `section`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "exit_version" CHECK("version" > 0)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `exit_of_site` ON `exit` (`site_id`,`id`);--> statement-breakpoint
CREATE TABLE `observation` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	`room_id` text NOT NULL,
	`seen_at` integer NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`room_id`) REFERENCES `room`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "observation_version" CHECK("version" > 0)
) STRICT;
--> statement-breakpoint
CREATE INDEX `observation_room_seen` ON `observation` (`room_id`,`seen_at`,`id`) WHERE "observation"."retired_at" is null;--> statement-breakpoint
CREATE UNIQUE INDEX `observation_of_site` ON `observation` (`site_id`,`id`);--> statement-breakpoint
CREATE TABLE `passage` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "passage_version" CHECK("version" > 0)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `passage_of_site` ON `passage` (`site_id`,`id`);--> statement-breakpoint
CREATE TABLE `rate_set` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "rate_set_version" CHECK("version" > 0)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `rate_set_in_force` ON `rate_set` (`site_id`) WHERE "rate_set"."retired_at" is null;--> statement-breakpoint
CREATE UNIQUE INDEX `rate_set_of_site` ON `rate_set` (`site_id`,`id`);--> statement-breakpoint
CREATE TABLE `stock_change` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	`furnishing_id` text,
	`equipment_id` text,
	`tool_id` text,
	`from_at` integer NOT NULL,
	`to_at` integer,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`furnishing_id`) REFERENCES `furnishing`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`equipment_id`) REFERENCES `equipment`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`tool_id`) REFERENCES `tool`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "stock_change_in_order" CHECK("stock_change"."to_at" is null or "stock_change"."from_at" < "stock_change"."to_at"),
	CONSTRAINT "stock_change_of_one" CHECK(case when "stock_change"."furnishing_id" is null then 0 else 1 end + case when "stock_change"."equipment_id" is null then 0 else 1 end + case when "stock_change"."tool_id" is null then 0 else 1 end = 1),
	CONSTRAINT "stock_change_version" CHECK("version" > 0)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `stock_change_of_site` ON `stock_change` (`site_id`,`id`);--> statement-breakpoint
CREATE TABLE `tool` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "tool_version" CHECK("version" > 0)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `tool_of_site` ON `tool` (`site_id`,`id`);--> statement-breakpoint
ALTER TABLE `closure` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "closure_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `equipment` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "equipment_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `furnishing` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "furnishing_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `layout` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "layout_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `person` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "person_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `policy` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "policy_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `room` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "room_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `section` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "section_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `shift` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "shift_version" CHECK("version" > 0);--> statement-breakpoint
ALTER TABLE `site` ADD `units` text DEFAULT 'metric' NOT NULL CONSTRAINT "site_units" CHECK("units" in ('metric', 'us'));--> statement-breakpoint
ALTER TABLE `site` ADD `code_tables` text DEFAULT 'us' NOT NULL CONSTRAINT "site_code_tables" CHECK("code_tables" in ('us', 'uk'));--> statement-breakpoint
ALTER TABLE `storage_place` ADD `version` integer DEFAULT 1 NOT NULL CONSTRAINT "storage_place_version" CHECK("version" > 0);