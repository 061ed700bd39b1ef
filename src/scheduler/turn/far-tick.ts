/** Beyond any tick of any instance, yet far from where 32 bits end. */
export const FAR_TICK = 1 << 29

/** Stands for a tick that does not exist: no tick will do. */
export const NEVER = 1 << 29
