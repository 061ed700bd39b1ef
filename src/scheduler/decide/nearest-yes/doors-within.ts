/** How far from what was asked for other doors are looked for, earlier and later: 48 h. What is loaded leans on it. */
export const NEAREST_DOORS_WITHIN_SECONDS = 48 * 3600
