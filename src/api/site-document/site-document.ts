/** The one document that holds a whole site as it is set up, to be kept, compared, edited and read in again. */
import { z } from 'zod'
import { PersonDetails } from '../../domain/person.ts'
import { type SetupKind, setupKinds, setupSchemas } from '../../domain/setup.ts'
import { Site } from '../../domain/site.ts'
import { isZone } from '../../scheduler/timeline/wall-time.ts'
import { InstantText } from '../instant-text.ts'
import { documentForm } from './document-form.ts'
import { documentMembers, listedKinds } from './document-parts.ts'

export const DOCUMENT_FORMAT = 'turnwright-site'
/** Moves when a document of before could be misread. A new member with a default does not move it. */
export const FORMAT_VERSION = 1
/** The most rows of one kind. */
export const ROWS_MOST = 10_000
/** The most sentences about what an export left out. */
export const LEFT_OUT_MOST = 1_000

/** How a row of the kind looks in the document: the site is named once, at the top. */
export function rowForm(kind: SetupKind): z.ZodType {
  const form = rowForms.get(kind)
  if (!form) throw new Error(`there is no form for ${kind}`)
  return form
}

const rowForms = new Map(setupKinds.map((kind) => [kind, withoutSiteId(documentForm(setupSchemas[kind]))]))

function withoutSiteId(form: z.ZodType): z.ZodType {
  return form instanceof z.ZodObject ? form.omit({ siteId: true }) : form
}

export const PersonDetailsForm = documentForm(PersonDetails)

export const SiteForm = z.strictObject({
  ...Site.shape,
  zone: Site.shape.zone.refine(isZone, { error: 'expected an IANA time zone such as America/Chicago' }),
})

/** Everything, in the order in which a document is written. */
const shapeWith = (list: (form: z.ZodType) => z.ZodType, one: (form: z.ZodType) => z.ZodType) => ({
  format: z.literal(DOCUMENT_FORMAT),
  formatVersion: z.literal(FORMAT_VERSION).meta({ description: 'Of this form of the document' }),
  exportedAt: InstantText.optional().meta({ description: 'When it was written; not read' }),
  leftOut: z.array(z.string().max(1_000)).max(LEFT_OUT_MOST).default([]).meta({
    description: 'What the export had to leave out, as it names something out of use; not read',
  }),
  site: one(SiteForm),
  ...Object.fromEntries(listedKinds.map((kind) => [documentMembers[kind], list(rowForm(kind))])),
  personDetails: list(PersonDetailsForm).meta({
    description: 'Names and contacts of people, kept apart; somebody whose name was erased has none',
  }),
  rateSet: one(rowForm('rateSet')).nullable().meta({ description: 'The one in force; null: the defaults' }),
  policy: one(rowForm('policy')).meta({ description: 'The one in force' }),
})

/** The whole, as it is published. */
export const SiteDocument = z
  .strictObject(
    shapeWith(
      (form) => z.array(form).max(ROWS_MOST),
      (form) => form,
    ),
  )
  .meta({ id: 'SiteDocument', description: 'A whole site as it is set up. Bookings are not part of it' })

/** The document with its rows unread, so that they can be read one by one. */
export const SiteDocumentFrame = z.strictObject(
  shapeWith(
    () => z.array(z.unknown()),
    () => z.unknown(),
  ),
)
