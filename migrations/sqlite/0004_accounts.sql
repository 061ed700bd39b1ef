-- Written by drizzle-kit from src/store/accounts/account-tables.ts and completed by hand: STRICT, and truth values are 0 or 1.
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
--> statement-breakpoint
CREATE UNIQUE INDEX `access_token_hash_unique` ON `access_token` (`hash`);--> statement-breakpoint
CREATE INDEX `access_token_site` ON `access_token` (`site_id`,`id`);--> statement-breakpoint
CREATE TABLE `account` (
	`id` text PRIMARY KEY NOT NULL,
	`password_hash` text,
	`keeps_all` integer NOT NULL CHECK (`keeps_all` IN (0, 1)),
	`created_at` integer NOT NULL,
	`removed_at` integer
) STRICT;
--> statement-breakpoint
CREATE TABLE `account_details` (
	`account_id` text PRIMARY KEY NOT NULL,
	`email` text NOT NULL,
	`name` text NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `account_details_email_unique` ON `account_details` (`email`);--> statement-breakpoint
CREATE TABLE `membership` (
	`account_id` text NOT NULL,
	`site_id` text NOT NULL,
	`role` text NOT NULL,
	`person_id` text,
	PRIMARY KEY(`account_id`, `site_id`),
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`site_id`) REFERENCES `site`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `membership_site` ON `membership` (`site_id`,`account_id`);--> statement-breakpoint
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
--> statement-breakpoint
CREATE UNIQUE INDEX `one_time_link_hash_unique` ON `one_time_link` (`hash`);--> statement-breakpoint
CREATE INDEX `one_time_link_site` ON `one_time_link` (`site_id`,`id`);--> statement-breakpoint
CREATE TABLE `session` (
	`hash` text PRIMARY KEY NOT NULL,
	`account_id` text NOT NULL,
	`created_at` integer NOT NULL,
	`seen_at` integer NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `session_account` ON `session` (`account_id`);--> statement-breakpoint
CREATE TABLE `sign_in_trouble` (
	`key` text PRIMARY KEY NOT NULL,
	`failures` integer NOT NULL,
	`last_at` integer NOT NULL
) STRICT;
