import type { SectionId } from '../../domain/ids.ts'

interface OverSections {
  readonly sectionIds: readonly SectionId[]
}

/** Rooms over the same floor cannot be used at the same time; a device is in every room over its sections. */
export const sharesSection = (a: OverSections, b: OverSections): boolean =>
  a.sectionIds.some((id) => b.sectionIds.includes(id))
