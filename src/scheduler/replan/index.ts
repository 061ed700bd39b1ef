/** A turn that is part done, planned from now. */
export { type ReplanAnswer, type ReplannedTurn, replannedTurn } from './replanned-turn.ts'
