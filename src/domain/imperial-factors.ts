/**
 * Feet, inches and pounds in metric units, each exact by definition: the international yard and pound of 1 July 1959.
 * Length and area: 16 CFR 500.19, where they are marked as exact; read. Pound: en.wikipedia.org, International yard and
 * pound; second-hand.
 */
export const METRES_PER_INCH = 0.0254
export const METRES_PER_FOOT = 0.3048
export const SQUARE_METRES_PER_SQUARE_FOOT = 0.092_903_04
export const KILOGRAMS_PER_POUND = 0.453_592_37
