/** What the columns beside a document must hold: derived from the document once more, by code that did not write them. */
import type { SetupKind, SetupRows } from '../domain/setup.ts'

type Beside<Row> = (row: Row) => Readonly<Record<string, string | number | null>>
const none = () => ({})

export const columnsBeside: { readonly [Kind in SetupKind]: Beside<SetupRows[Kind]> } = {
  section: none,
  exit: ({ sectionId }) => ({ sectionId }),
  passage: none,
  room: ({ homeLayoutId }) => ({ homeLayoutId }),
  storagePlace: none,
  furnishing: ({ storagePlaceId }) => ({ storagePlaceId }),
  tool: none,
  equipment: none,
  layout: ({ roomId }) => ({ roomId }),
  person: none,
  shift: ({ crew }) => ({ personId: crew.kind === 'person' ? crew.personId : null }),
  closure: ({ fromAt, toAt }) => ({ fromAt, toAt }),
  stockChange: ({ of, fromAt, toAt }) => ({
    furnishingId: of.kind === 'furnishing' ? of.furnishingId : null,
    equipmentId: of.kind === 'equipment' ? of.equipmentId : null,
    toolId: of.kind === 'tool' ? of.toolId : null,
    fromAt,
    toAt,
  }),
  observation: ({ roomId, seenAt }) => ({ roomId, seenAt }),
  rateSet: none,
  policy: none,
}
