import type { Furnishing } from '../../domain/furnishing.ts'
import { counted } from './counted.ts'

/** `1 round table`, `18 round tables`. */
export const piecesText = (count: number, { name, namePlural }: Furnishing): string =>
  counted(count, name, namePlural)
