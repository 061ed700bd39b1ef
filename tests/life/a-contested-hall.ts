/**
 * A small hall that everybody wants on the same two days: a room of two halves, the south half as a room of its own, and
 * layouts of few pieces, so that a turn has few tasks and deciding is quick.
 */
import { z } from 'zod'
import type { Client } from './a-client.ts'

export interface ContestedHall {
  readonly siteId: string
  /** Of the site, to put the rest of a path behind. */
  readonly path: string
  readonly southSectionId: string
  readonly shiftId: string
  /** Each layout with its room. */
  readonly layouts: readonly { readonly roomId: string; readonly layoutId: string }[]
}

const everyDay = [1, 2, 3, 4, 5, 6, 7]

export async function aContestedHall(client: Client): Promise<ContestedHall> {
  const add = async (path: string, body: object): Promise<string> => {
    const { status, headers, text } = await client.ask({ method: 'POST', path, body })
    if (status !== 201) throw new Error(`${path}: ${status} ${text}`)
    return z.string().parse(headers.location).split('/').at(-1) ?? ''
  }
  const siteId = await add('/v1/sites', { name: 'Rowan Yard', zone: 'America/Chicago' })
  const path = `/v1/sites/${siteId}`
  const to = (segment: string, body: object) => add(`${path}/${segment}`, body)
  const short = { doorsBeforeStartSeconds: 300, clearAfterEndSeconds: 300 }
  const kinds = ['worship', 'overflow', 'banquet', 'games', 'meeting', 'other']
  const ofEachKind = (value: unknown) => Object.fromEntries(kinds.map((kind) => [kind, value]))
  await to('policies', {
    boundaries: ofEachKind(short),
    cleaning: ofEachKind([]),
    briefingSeconds: 60,
    binsPerHundredGuests: 0,
    workMost: 6,
  })
  const section = (name: string) => to('sections', { name, areaSquareMetres: 60, floorKind: 'sealed-wood' })
  const northId = await section('North')
  const southId = await section('South')
  const wholeId = await to('rooms', {
    name: 'Whole Hall',
    sectionIds: [northId, southId],
    occupantLimitPosted: 100,
  })
  const halfId = await to('rooms', { name: 'South Half', sectionIds: [southId], occupantLimitPosted: 50 })
  const routes = [wholeId, halfId].map((roomId) => ({ roomId, distanceMetres: 10 }))
  const storagePlaceId = await to('storage-places', { name: 'Cupboard', routes })
  const furnishingId = await to('furnishings', {
    name: 'bench',
    namePlural: 'benches',
    kind: 'other',
    countOwned: 12,
    massKilograms: 8,
    storagePlaceId,
    method: 'carry',
    handsPerPiece: 1,
  })
  const layout = async (roomId: string, name: string, kind: string, count: number) => ({
    roomId,
    layoutId: await to('layouts', {
      roomId,
      name,
      kind,
      seats: 4 * count,
      furnishings: [{ furnishingId, count }],
    }),
  })
  const layouts = [
    await layout(wholeId, 'benches all round', 'games', 8),
    await layout(wholeId, 'benches in rows', 'meeting', 12),
    await layout(halfId, 'a circle', 'meeting', 5),
    await layout(halfId, 'two rows', 'worship', 4),
  ]
  const shiftId = await to('shifts', {
    name: 'Crew',
    crew: { kind: 'hands', hands: 3, adults: true },
    times: {
      kind: 'weekly',
      weekdays: everyDay,
      startsLocal: '07:00',
      endsLocal: '22:00',
      firstDate: '2026-01-01',
    },
  })
  return { siteId, path, southSectionId: southId, shiftId, layouts }
}
