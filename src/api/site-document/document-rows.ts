/** The rows of a document, once their shape is right. */
import {
  type SetupKind,
  type SetupRows,
  type SetupWrite,
  SetupWriteSchema,
  setupKinds,
  setupSchemas,
} from '../../domain/setup.ts'
import type { Site } from '../../domain/site.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'

type RowsByKind = { readonly [Kind in SetupKind]: readonly SetupRows[Kind][] }

/** By kind, in the order of the document. */
export class DocumentRows {
  readonly #site: Site
  readonly #rows: RowsByKind

  /** @param rowsByKind  as the domain has them, only that the site is not named in each */
  constructor(site: Site, rowsByKind: ReadonlyMap<SetupKind, readonly object[]>) {
    const rows = <Kind extends SetupKind>(kind: Kind): SetupRows[Kind][] =>
      (rowsByKind.get(kind) ?? []).map((row) => setupSchemas[kind].parse({ ...row, siteId: site.id }))
    this.#site = site
    this.#rows = {
      section: rows('section'),
      exit: rows('exit'),
      passage: rows('passage'),
      room: rows('room'),
      storagePlace: rows('storagePlace'),
      furnishing: rows('furnishing'),
      tool: rows('tool'),
      equipment: rows('equipment'),
      layout: rows('layout'),
      person: rows('person'),
      shift: rows('shift'),
      closure: rows('closure'),
      stockChange: rows('stockChange'),
      observation: rows('observation'),
      rateSet: rows('rateSet'),
      policy: rows('policy'),
    }
  }

  of<Kind extends SetupKind>(kind: Kind): RowsByKind[Kind] {
    return this.#rows[kind]
  }

  writes(): SetupWrite[] {
    return setupKinds.flatMap((kind) =>
      this.#rows[kind].map((after) => SetupWriteSchema.parse({ kind, before: null, after, retire: false })),
    )
  }

  /** The site as the document would make it. */
  setup(): SiteSetup {
    const [policy] = this.of('policy')
    if (!policy) throw new Error('a document has a policy')
    return {
      site: this.#site,
      sections: this.of('section'),
      exits: this.of('exit'),
      passages: this.of('passage'),
      rooms: this.of('room'),
      storagePlaces: this.of('storagePlace'),
      furnishings: this.of('furnishing'),
      tools: this.of('tool'),
      equipment: this.of('equipment'),
      layouts: this.of('layout'),
      people: this.of('person'),
      shifts: this.of('shift'),
      stockChanges: this.of('stockChange'),
      rateSet: this.of('rateSet')[0] ?? null,
      policy,
      retired: {
        sections: [],
        rooms: [],
        storagePlaces: [],
        furnishings: [],
        equipment: [],
        layouts: [],
        shifts: [],
      },
    }
  }
}
