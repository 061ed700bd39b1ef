/** Reads a set-up and says what is missing or odd. */
export { checkSetup } from './check-setup.ts'
export type { SetupToCheck } from './setup-to-check.ts'
