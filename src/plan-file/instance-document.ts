/**
 * One planning problem as a file, for `npm run plan`: activities with modes, what must have ended before, resources over
 * time, lanes, and what can be used up. Things are named by key, time is counted in ticks from 0.
 * docs/instance.md tells it in words, docs/instance.schema.json is written from it.
 */
import { z } from 'zod'

const Key = z.string().min(1).max(200).meta({ description: 'A name, unique among its kind' })
/** As much as the solver counts up to; of half minutes about 95 years. */
const Count = z.int().min(0).max(100_000_000)

const Span = z
  .strictObject({ fromTick: Count, toTick: Count })
  .meta({ description: 'From a tick until before another one' })

const ModeDocument = z.strictObject({
  durationTicks: Count.meta({
    description: 'From start to end; nothing interrupts it. 0 only without hands and uses',
  }),
  hands: z
    .array(z.strictObject({ count: z.int().min(1).max(10_000), skills: z.array(Key).max(31).default([]) }))
    .max(100)
    .default([])
    .meta({ description: 'Lanes held from start to end, by the skills that each of them must have' }),
  uses: z
    .array(z.strictObject({ resource: Key, amount: Count }))
    .max(1_000)
    .default([])
    .meta({ description: 'Of resources, held from start to end' }),
  consumes: z
    .array(z.strictObject({ consumable: Key, amount: Count }))
    .max(100)
    .default([])
    .meta({ description: 'Of consumables, used up once, however long it takes' }),
})

const ActivityDocument = z.strictObject({
  key: Key,
  turn: Key.optional().meta({ description: 'Left out: the only turn there is' }),
  place: Key.optional().meta({ description: 'Where it is done; left out: the first place' }),
  after: z.array(Key).max(10_000).default([]).meta({ description: 'Activities that must have ended' }),
  modes: z.array(ModeDocument).min(1).max(1_000).meta({ description: 'Ways to do it; one is chosen' }),
})

const TurnDocument = z.strictObject({
  key: Key,
  releaseTick: Count.default(0).meta({ description: 'Nothing of it starts earlier' }),
  dueTick: Count.nullable().default(null).meta({ description: 'Ready by; null: whenever' }),
  weight: z.int().min(1).max(1_000_000).default(1).meta({ description: 'What a tick of it counts' }),
})

const ResourceDocument = z.strictObject({
  key: Key,
  capacity: z
    .union([Count, z.array(z.strictObject({ fromTick: Count, amount: Count })).max(10_000)])
    .meta({ description: 'One number for all time, or steps in order; before the first there is none' }),
})

const LaneDocument = z.strictObject({
  key: Key,
  skills: z.array(Key).max(31).default([]),
  available: z.array(Span).max(10_000).meta({ description: 'On duty; disjoint, in order' }),
  busy: z
    .array(z.strictObject({ fromTick: Count, toTick: Count, place: Key.optional() }))
    .max(10_000)
    .default([])
    .meta({
      description: 'Held by something else, and where; left out: the first place; disjoint, in order',
    }),
  budget: Key.optional().meta({ description: 'What its working time is taken from; left out: it is free' }),
})

export const InstanceDocument = z
  .strictObject({
    $schema: z.string().optional().meta({ description: 'For editors; not read' }),
    format: z.literal('turnwright-instance'),
    version: z.literal(1),
    horizonTick: Count.meta({ description: 'Nothing ends later' }),
    turns: z.array(TurnDocument).min(1).max(1_000),
    activities: z.array(ActivityDocument).max(10_000),
    resources: z.array(ResourceDocument).max(1_000).default([]),
    consumables: z
      .array(z.strictObject({ key: Key, amountMost: Count }))
      .max(100)
      .default([])
      .meta({ description: 'What the chosen modes use up, all together' }),
    budgets: z
      .array(z.strictObject({ key: Key, laneTicksMost: Count }))
      .max(100)
      .default([])
      .meta({ description: 'How long all lanes that name it work, all together' }),
    lanes: z.array(LaneDocument).max(1_000).default([]),
    places: z
      .strictObject({ keys: z.array(Key).min(1).max(200), walkTicks: z.array(z.array(Count)).max(200) })
      .optional()
      .meta({ description: 'Ticks to walk from place to place, row by row; left out: one place' }),
  })
  .meta({ title: 'turnwright-instance 1', description: 'What `npm run plan` plans' })
export type InstanceDocument = z.infer<typeof InstanceDocument>

/** As JSON Schema 2020-12; what has a default may be left out. */
export const instanceSchema = () => z.toJSONSchema(InstanceDocument, { io: 'input' })
