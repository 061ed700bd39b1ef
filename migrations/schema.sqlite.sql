-- What migrations and triggers add up to. Written by tests/store/schema.test.ts: npx vitest run tests/store/schema.test.ts -u
CREATE TABLE `access_token` (
	`id` text PRIMARY KEY NOT NULL,
	`hash` text NOT NULL,
	`site_id` text,
	`role` text NOT NULL,
	`name` text NOT NULL,
	`created_by` text NOT NULL,
	`created_at` integer NOT NULL,
	`expires_at` integer,
	`last_used_at` integer,
	`revoked_at` integer,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `access_token_hash_unique` ON `access_token` (`hash`);
CREATE INDEX `access_token_site` ON `access_token` (`site_id`,`id`);
CREATE TABLE `account` (
	`id` text PRIMARY KEY NOT NULL,
	`password_hash` text,
	`keeps_all` integer NOT NULL CHECK (`keeps_all` IN (0, 1)),
	`created_at` integer NOT NULL,
	`removed_at` integer
) STRICT;
CREATE TABLE `account_details` (
	`account_id` text PRIMARY KEY NOT NULL,
	`email` text NOT NULL,
	`name` text NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `account_details_email_unique` ON `account_details` (`email`);
CREATE TABLE `audit` (
	`sequence` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`site_id` text NOT NULL,
	`at` integer NOT NULL,
	`actor_id` text NOT NULL,
	`action` text NOT NULL,
	`reason` text,
	`planning_version` integer NOT NULL,
	`effects` text NOT NULL, `previous_hash` text, `hash` text,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE INDEX `audit_site` ON `audit` (`site_id`,`sequence`);
CREATE TRIGGER audit_is_chained BEFORE INSERT ON audit
     WHEN NEW.hash IS NULL OR NEW.previous_hash IS NOT (SELECT hash FROM audit ORDER BY sequence DESC LIMIT 1)
     BEGIN SELECT RAISE(ABORT, 'audit_is_chained'); END;
CREATE TRIGGER audit_keeps_rows BEFORE DELETE ON audit BEGIN SELECT RAISE(ABORT, 'audit_is_append_only'); END;
CREATE TRIGGER audit_keeps_values BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'audit_is_append_only'); END;
CREATE TABLE `booking` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`title` text NOT NULL,
	`room_id` text NOT NULL,
	`layout_id` text NOT NULL,
	`headcount` integer NOT NULL,
	`doors_at` integer NOT NULL,
	`starts_at` integer NOT NULL,
	`ends_at` integer NOT NULL,
	`clear_at` integer NOT NULL,
	`food_served` integer NOT NULL,
	`floor_wet` integer NOT NULL,
	`status` text NOT NULL,
	`version` integer NOT NULL,
	`turn_id` text NOT NULL, `hold_expires_at` integer CONSTRAINT "booking_hold_expires" CHECK("status" <> 'TENTATIVE' or "hold_expires_at" is not null), `link_id` text, `keep_as_set` integer DEFAULT false NOT NULL CONSTRAINT "booking_keep_as_set" CHECK("keep_as_set" in (0, 1)), `kept_until_at` integer CONSTRAINT "booking_kept" CHECK("kept_until_at" is null or ("kept_until_at" >= "clear_at" and "kept_until_at" - "doors_at" <= 2678400000)), `overruns_until_at` integer CONSTRAINT "booking_overruns" CHECK("overruns_until_at" is null or "overruns_until_at" > "clear_at"), `priority` integer DEFAULT 0 NOT NULL CONSTRAINT "booking_priority" CHECK("priority" between 0 and 9), `quiet_needed` integer DEFAULT false NOT NULL CONSTRAINT "booking_quiet_needed" CHECK("quiet_needed" in (0, 1)), `crew_demands` text DEFAULT '[]' NOT NULL, `milestones` text DEFAULT '[]' NOT NULL, `own_help` text, `risk_accepted` text,
	FOREIGN KEY (`site_id`,`room_id`) REFERENCES `room`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`room_id`,`layout_id`) REFERENCES `layout`(`room_id`,`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "booking_in_order" CHECK("booking"."doors_at" <= "booking"."starts_at" and "booking"."starts_at" < "booking"."ends_at" and "booking"."ends_at" <= "booking"."clear_at"),
	CONSTRAINT "booking_length" CHECK("booking"."clear_at" - "booking"."doors_at" <= 2678400000),
	CONSTRAINT "booking_headcount" CHECK("booking"."headcount" > 0),
	CONSTRAINT "booking_status" CHECK("booking"."status" in ('TENTATIVE', 'CONFIRMED', 'CANCELLED')),
	CONSTRAINT "booking_version" CHECK("booking"."version" > 0),
	CONSTRAINT "booking_truths" CHECK("food_served" in (0, 1) and "floor_wet" in (0, 1))
) STRICT;
CREATE INDEX `booking_at_risk` ON `booking` (`site_id`,`doors_at`,`id`) WHERE "booking"."risk_accepted" is not null and "booking"."status" <> 'CANCELLED';
CREATE INDEX `booking_hold` ON `booking` (`hold_expires_at`,`id`) WHERE "booking"."status" = 'TENTATIVE';
CREATE INDEX `booking_link` ON `booking` (`site_id`,`link_id`,`doors_at`,`id`) WHERE "booking"."link_id" is not null;
CREATE UNIQUE INDEX `booking_of_site` ON `booking` (`site_id`,`id`);
CREATE INDEX `booking_room_doors` ON `booking` (`room_id`,`doors_at`,`id`,`clear_at`);
CREATE INDEX `booking_site_doors` ON `booking` (`site_id`,`doors_at`,`id`,`clear_at`);
CREATE UNIQUE INDEX `booking_turn` ON `booking` (`turn_id`);
CREATE TABLE `change_log` (
	`sequence` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`site_id` text NOT NULL,
	`audit_sequence` integer NOT NULL,
	`at` integer NOT NULL,
	`resource_kind` text NOT NULL,
	`resource_id` text NOT NULL,
	`what` text NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`audit_sequence`) REFERENCES `audit`(`sequence`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE INDEX `change_log_site` ON `change_log` (`site_id`,`sequence`);
CREATE TRIGGER change_log_keeps_rows BEFORE DELETE ON change_log BEGIN SELECT RAISE(ABORT, 'change_log_is_append_only'); END;
CREATE TRIGGER change_log_keeps_values BEFORE UPDATE ON change_log BEGIN SELECT RAISE(ABORT, 'change_log_is_append_only'); END;
CREATE TABLE `closure` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`from_at` integer NOT NULL,
	`to_at` integer NOT NULL, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "closure_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "closure_in_order" CHECK("closure"."from_at" < "closure"."to_at")
) STRICT;
CREATE UNIQUE INDEX `closure_of_site` ON `closure` (`site_id`,`id`);
CREATE INDEX `closure_site_to` ON `closure` (`site_id`,`to_at`,`from_at`);
CREATE TABLE `equipment` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "equipment_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `equipment_of_site` ON `equipment` (`site_id`,`id`);
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
CREATE UNIQUE INDEX `exit_of_site` ON `exit` (`site_id`,`id`);
CREATE TABLE `furnishing` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`storage_place_id` text NOT NULL, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "furnishing_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`storage_place_id`) REFERENCES `storage_place`(`site_id`,`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `furnishing_of_site` ON `furnishing` (`site_id`,`id`);
CREATE TABLE `idempotency` (
	`actor_id` text NOT NULL,
	`route` text NOT NULL,
	`key` text NOT NULL,
	`body_hash` text NOT NULL,
	`status` integer NOT NULL,
	`headers` text NOT NULL,
	`body` text NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`actor_id`, `route`, `key`)
) STRICT;
CREATE TABLE `judging` (
	`site_id` text PRIMARY KEY NOT NULL,
	`judged_through_at` integer,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE TABLE `layout` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`room_id` text NOT NULL, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "layout_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`room_id`) REFERENCES `room`(`site_id`,`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `layout_of_room` ON `layout` (`room_id`,`id`);
CREATE UNIQUE INDEX `layout_of_site` ON `layout` (`site_id`,`id`);
CREATE TRIGGER layout_keeps_room BEFORE UPDATE OF room_id ON layout WHEN NEW.room_id <> OLD.room_id
     BEGIN SELECT RAISE(ABORT, 'layout_keeps_room'); END;
CREATE TABLE `membership` (
	`account_id` text NOT NULL,
	`site_id` text NOT NULL,
	`role` text NOT NULL,
	`person_id` text,
	PRIMARY KEY(`account_id`, `site_id`),
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE INDEX `membership_site` ON `membership` (`site_id`,`account_id`);
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
CREATE UNIQUE INDEX `observation_of_site` ON `observation` (`site_id`,`id`);
CREATE INDEX `observation_room_seen` ON `observation` (`room_id`,`seen_at`,`id`) WHERE "observation"."retired_at" is null;
CREATE TABLE `one_time_link` (
	`id` text PRIMARY KEY NOT NULL,
	`hash` text NOT NULL,
	`purpose` text NOT NULL,
	`account_id` text,
	`site_id` text,
	`role` text,
	`person_id` text,
	`created_by` text,
	`created_at` integer NOT NULL,
	`expires_at` integer NOT NULL,
	`used_at` integer,
	`revoked_at` integer,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `one_time_link_hash_unique` ON `one_time_link` (`hash`);
CREATE INDEX `one_time_link_site` ON `one_time_link` (`site_id`,`id`);
CREATE TABLE `passage` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "passage_version" CHECK("version" > 0)
) STRICT;
CREATE UNIQUE INDEX `passage_of_site` ON `passage` (`site_id`,`id`);
CREATE TABLE `person` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "person_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `person_of_site` ON `person` (`site_id`,`id`);
CREATE TABLE `person_details` (
	`person_id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`name` text NOT NULL,
	`email` text,
	`phone` text,
	FOREIGN KEY (`site_id`,`person_id`) REFERENCES `person`(`site_id`,`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE INDEX `person_details_site` ON `person_details` (`site_id`,`person_id`);
CREATE TABLE `plan` (
	`turn_id` text PRIMARY KEY NOT NULL,
	`hash` text NOT NULL,
	`document` text NOT NULL,
	FOREIGN KEY (`turn_id`) REFERENCES `turn`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE TABLE `policy` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "policy_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `policy_in_force` ON `policy` (`site_id`) WHERE "policy"."retired_at" is null;
CREATE UNIQUE INDEX `policy_of_site` ON `policy` (`site_id`,`id`);
CREATE TABLE `rate_set` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "rate_set_version" CHECK("version" > 0)
) STRICT;
CREATE UNIQUE INDEX `rate_set_in_force` ON `rate_set` (`site_id`) WHERE "rate_set"."retired_at" is null;
CREATE UNIQUE INDEX `rate_set_of_site` ON `rate_set` (`site_id`,`id`);
CREATE TABLE `room` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`home_layout_id` text, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "room_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`id`,`home_layout_id`) REFERENCES `layout`(`room_id`,`id`) ON UPDATE no action ON DELETE no action DEFERRABLE INITIALLY DEFERRED
) STRICT;
CREATE UNIQUE INDEX `room_of_site` ON `room` (`site_id`,`id`);
CREATE TABLE `room_section` (
	`site_id` text NOT NULL,
	`room_id` text NOT NULL,
	`section_id` text NOT NULL,
	PRIMARY KEY(`room_id`, `section_id`),
	FOREIGN KEY (`site_id`,`room_id`) REFERENCES `room`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`section_id`) REFERENCES `section`(`site_id`,`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE TABLE `section` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "section_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `section_of_site` ON `section` (`site_id`,`id`);
CREATE TABLE `section_occupancy` (
	`booking_id` text NOT NULL,
	`section_id` text NOT NULL,
	`from_at` integer NOT NULL,
	`to_at` integer NOT NULL,
	`blocking` integer NOT NULL,
	PRIMARY KEY(`booking_id`, `section_id`),
	FOREIGN KEY (`booking_id`) REFERENCES `booking`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`section_id`) REFERENCES `section`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "section_occupancy_in_order" CHECK("section_occupancy"."from_at" < "section_occupancy"."to_at"),
	CONSTRAINT "section_occupancy_length" CHECK("section_occupancy"."to_at" - "section_occupancy"."from_at" <= 2678400000),
	CONSTRAINT "section_occupancy_truths" CHECK("blocking" in (0, 1))
) STRICT;
CREATE INDEX `section_occupancy_blocking` ON `section_occupancy` (`section_id`,`from_at`,`to_at`,`booking_id`) WHERE "section_occupancy"."blocking";
CREATE TRIGGER section_overlap_insert BEFORE INSERT ON section_occupancy WHEN NEW.blocking BEGIN 
  SELECT RAISE(ABORT, 'section_overlap') WHERE EXISTS (
    SELECT 1 FROM section_occupancy o
    WHERE o.section_id = NEW.section_id AND o.blocking AND o.booking_id <> NEW.booking_id
      AND o.from_at > NEW.from_at - 2678400000 AND o.from_at < NEW.to_at AND o.to_at > NEW.from_at); END;
CREATE TRIGGER section_overlap_update BEFORE UPDATE OF booking_id, section_id, from_at, to_at, blocking ON section_occupancy
     WHEN NEW.blocking BEGIN 
  SELECT RAISE(ABORT, 'section_overlap') WHERE EXISTS (
    SELECT 1 FROM section_occupancy o
    WHERE o.section_id = NEW.section_id AND o.blocking AND o.booking_id <> NEW.booking_id
      AND o.from_at > NEW.from_at - 2678400000 AND o.from_at < NEW.to_at AND o.to_at > NEW.from_at); END;
CREATE TABLE `session` (
	`hash` text PRIMARY KEY NOT NULL,
	`account_id` text NOT NULL,
	`created_at` integer NOT NULL,
	`seen_at` integer NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE INDEX `session_account` ON `session` (`account_id`);
CREATE TABLE `shift` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`person_id` text, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "shift_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`person_id`) REFERENCES `person`(`site_id`,`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `shift_of_site` ON `shift` (`site_id`,`id`);
CREATE TABLE `sign_in_trouble` (
	`key` text PRIMARY KEY NOT NULL,
	`failures` integer NOT NULL,
	`last_at` integer NOT NULL
) STRICT;
CREATE TABLE `site` (
	`id` text PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`zone` text NOT NULL,
	`planning_version` integer NOT NULL,
	`setup_version` integer NOT NULL
, `units` text DEFAULT 'metric' NOT NULL CONSTRAINT "site_units" CHECK("units" in ('metric', 'us')), `code_tables` text DEFAULT 'us' NOT NULL CONSTRAINT "site_code_tables" CHECK("code_tables" in ('us', 'uk'))) STRICT;
CREATE INDEX `site_name` ON `site` (`name`,`id`);
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
CREATE UNIQUE INDEX `stock_change_of_site` ON `stock_change` (`site_id`,`id`);
CREATE TABLE `storage_place` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL, `version` integer DEFAULT 1 NOT NULL CONSTRAINT "storage_place_version" CHECK("version" > 0),
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
CREATE UNIQUE INDEX `storage_place_of_site` ON `storage_place` (`site_id`,`id`);
CREATE TABLE `tool` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`retired_at` integer,
	`document` text NOT NULL,
	`version` integer DEFAULT 1 NOT NULL,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "tool_version" CHECK("version" > 0)
) STRICT;
CREATE UNIQUE INDEX `tool_of_site` ON `tool` (`site_id`,`id`);
CREATE TABLE `turn` (
	`id` text PRIMARY KEY NOT NULL,
	`site_id` text NOT NULL,
	`booking_id` text NOT NULL,
	`room_id` text NOT NULL,
	`predecessor_booking_ids` text NOT NULL,
	`from_layout_ids` text NOT NULL,
	`to_layout_id` text NOT NULL,
	`release_at` integer NOT NULL,
	`due_at` integer NOT NULL,
	`input_hash` text NOT NULL,
	`status` text NOT NULL,
	`judgement` text NOT NULL,
	`plan_starts_at` integer,
	`plan_ready_at` integer, `purpose` text DEFAULT 'prepare' NOT NULL CONSTRAINT "turn_purpose" CHECK("purpose" in ('prepare', 'return-home')), `held_until_at` integer, `warned_since` integer, `polished_at` integer,
	FOREIGN KEY (`site_id`,`booking_id`) REFERENCES `booking`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`,`room_id`) REFERENCES `room`(`site_id`,`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`room_id`,`to_layout_id`) REFERENCES `layout`(`room_id`,`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "turn_in_order" CHECK("turn"."release_at" <= "turn"."due_at" and "turn"."due_at" - "turn"."release_at" <= 172800000),
	CONSTRAINT "turn_status" CHECK("turn"."status" in ('ready', 'failing', 'dropped')),
	CONSTRAINT "turn_ready_has_plan" CHECK("turn"."status" <> 'ready' or "turn"."plan_ready_at" is not null)
) STRICT;
CREATE INDEX `turn_booking` ON `turn` (`site_id`,`booking_id`);
CREATE INDEX `turn_failing` ON `turn` (`site_id`,`due_at`,`id`) WHERE "turn"."status" = 'failing';
CREATE INDEX `turn_held` ON `turn` (`site_id`,`held_until_at`,`due_at`) WHERE "turn"."held_until_at" is not null and "turn"."status" <> 'dropped';
CREATE INDEX `turn_site_due` ON `turn` (`site_id`,`due_at`,`id`,`release_at`) WHERE "turn"."status" <> 'dropped';
CREATE INDEX `turn_unpolished` ON `turn` (`site_id`,`due_at`,`id`,`plan_starts_at`) WHERE "turn"."status" = 'ready' and "turn"."polished_at" is null;
CREATE INDEX `turn_warned` ON `turn` (`site_id`,`due_at`,`id`) WHERE "turn"."warned_since" is not null and "turn"."status" <> 'dropped';
