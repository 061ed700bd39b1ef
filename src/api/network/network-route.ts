/** What would it take to turn a room from this into that: the list of tasks, without any booking. */
import { z } from 'zod'
import { EquipmentSetting } from '../../domain/equipment.ts'
import { EquipmentId, FurnishingId, LayoutId, RoomId } from '../../domain/ids.ts'
import { instantPlusSeconds } from '../../domain/instant.ts'
import { LayoutKind } from '../../domain/layout-kind.ts'
import { PieceMove } from '../../domain/piece-move.ts'
import { Reckoning } from '../../domain/reckoning.ts'
import type { Room } from '../../domain/room.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { NetworkMilestone, Task, TaskResource } from '../../domain/task.ts'
import { PieceCount } from '../../domain/units.ts'
import {
  homeSetting,
  type ReckonedNetwork,
  reckonedNetwork,
  StateUnreachable,
} from '../../scheduler/network/index.ts'
import { settingIn } from '../../scheduler/timeline/device-before.ts'
import { networkInputOf, type StartsFrom } from '../../scheduler/timeline/network-input-of.ts'
import { type World, worldOf } from '../../scheduler/timeline/world.ts'
import { jsonAnswer, send } from '../answer.ts'
import { CAUTION } from '../caution.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { settingProblem } from '../equipment/setting-problem.ts'
import { repeated, unknownIds } from '../known-ids.ts'
import { bodyFault, type Fault, refuseFaults } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const From = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('bare-floor') }),
  z.strictObject({ kind: z.literal('layout'), layoutId: LayoutId }),
  z.strictObject({
    kind: z.literal('pieces'),
    pieces: z.array(z.strictObject({ furnishingId: FurnishingId, count: PieceCount })).max(100),
    standsLike: LayoutKind.nullable().default(null),
    equipment: z
      .array(z.strictObject({ equipmentId: EquipmentId, setting: EquipmentSetting }))
      .max(100)
      .default([])
      .meta({ description: 'A device that is not named here is in its home state' }),
  }),
])

const NetworkBody = z.strictObject({
  roomId: RoomId,
  from: From.meta({ description: 'What stands now' }),
  toLayoutId: LayoutId,
  outgoing: z
    .strictObject({
      headcount: z.int().min(0).max(20_000).default(0),
      foodServed: z.boolean().default(false),
      floorWet: z.boolean().default(false),
    })
    .nullable()
    .default(null)
    .meta({ description: 'The use that just ended; null: nobody was there, so nothing is cleaned' }),
  hands: z
    .array(z.int().min(1).max(40))
    .min(1)
    .max(8)
    .default([1, 2, 4, 6, 8])
    .meta({ description: 'Numbers of hands to say the time for' }),
})
type NetworkBody = z.infer<typeof NetworkBody>

const NetworkAnswer = z.object({
  roomId: RoomId,
  toLayoutId: LayoutId,
  workPersonSeconds: z.number().min(0).meta({ description: 'Of all tasks together' }),
  byHands: z.array(z.object({ hands: z.int(), readyAfterSeconds: z.int().nullable() })).meta({
    description:
      'From the start of the work until ready, for hands who are there throughout and have every skill; null: so few cannot do it',
  }),
  tasks: z
    .array(Task.extend({ reckoning: Reckoning }))
    .meta({ description: 'Each after those it waits for' }),
  moves: z.array(PieceMove).meta({
    description:
      'Which piece goes where, the least way for all together; only of furnishings whose places are known before and after. By furnishing; from place to place first, then to the store, then from it',
  }),
  resources: z.array(TaskResource),
  milestones: z.array(NetworkMilestone),
  caution: z.string(),
})

/** Schedules tried for each number of hands. */
const WORK_MOST = 60

export function networkRoute(api: Api, context: ApiContext): void {
  api.post(
    '/v1/sites/:site/network',
    {
      schema: {
        tags: ['turns'],
        summary: 'What it would take to turn a room: the tasks with their minutes explained. Writes nothing',
        params: SiteParams,
        body: NetworkBody,
        response: { 200: NetworkAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const { roomId, toLayoutId, hands } = request.body
      const setup = await setupFor(context, request.actor, request.params.site)
      const { network, reckonings, moves } = asked(request.body, setup, context)
      const inOrder = [...new Set(hands)].sort((a, b) => a - b)
      const byHands = await context.decider.estimate({ network, hands: inOrder, workMost: WORK_MOST })
      const answer = {
        roomId,
        toLayoutId,
        workPersonSeconds: network.tasks.reduce((sum, task) => sum + task.workPersonSeconds, 0),
        byHands: byHands.map((one) => ({ hands: one.hands, readyAfterSeconds: one.seconds })),
        tasks: network.tasks.map((task) => ({ ...task, reckoning: reckonings.get(task.key) })),
        moves,
        resources: network.resources,
        milestones: network.milestones,
        caution: CAUTION,
      }
      return send(reply, jsonAnswer(200, answer, setup.site.zone))
    },
  )
}

/** @throws Problem invalid-input */
function asked(body: NetworkBody, setup: SiteSetup, context: ApiContext): ReckonedNetwork {
  refuseFaults(bodyFaults(body, setup))
  const room = setup.rooms.find(({ id }) => id === body.roomId)!
  const toLayout = setup.layouts.find(({ id }) => id === body.toLayoutId)!
  const now = context.clock()
  const span = { fromAt: now, toAt: instantPlusSeconds(now, 3600) }
  const world = worldOf({
    ...setup,
    now,
    planningVersion: 0,
    window: span,
    closures: [],
    observations: [],
    bookings: [],
    turns: [],
    judgedThroughAt: null,
  })
  try {
    return reckonedNetwork(networkInputOf(world, room, toLayout, span, startsFrom(body, world)))
  } catch (error) {
    if (!(error instanceof StateUnreachable)) throw error
    refuseFaults([bodyFault('/toLayoutId', `${error.message}; add the transitions that lead there`)])
    throw error
  }
}

function startsFrom({ from, toLayoutId, outgoing }: NetworkBody, { setup }: World): StartsFrom {
  switch (from.kind) {
    case 'layout': {
      const layout = setup.layouts.find(({ id }) => id === from.layoutId)!
      return {
        pieces: layout.furnishings,
        kind: layout.kind,
        placements: layout.placements.length > 0 ? layout.placements : null,
        isWanted: layout.id === toLayoutId,
        settingOf: (equipment) => settingIn(layout, equipment),
        outgoing: outgoing && { ...outgoing, kind: layout.kind },
      }
    }
    case 'pieces':
      return {
        pieces: from.pieces,
        kind: from.standsLike,
        placements: null,
        isWanted: false,
        settingOf: (equipment) =>
          from.equipment.find(({ equipmentId }) => equipmentId === equipment.id)?.setting ??
          homeSetting(equipment),
        outgoing: outgoing && { ...outgoing, kind: from.standsLike ?? 'other' },
      }
    case 'bare-floor':
      return {
        pieces: [],
        kind: null,
        placements: null,
        isWanted: false,
        settingOf: homeSetting,
        outgoing: outgoing && { ...outgoing, kind: 'other' },
      }
    default:
      return from satisfies never
  }
}

function bodyFaults({ roomId, from, toLayoutId }: NetworkBody, setup: SiteSetup): Fault[] {
  const room = setup.rooms.find(({ id }) => id === roomId)
  if (!room) return unknownIds(() => '/roomId', [roomId], setup.rooms, 'room')
  return [
    ...layoutFaults('/toLayoutId', toLayoutId, room, setup),
    ...(from.kind === 'layout' ? layoutFaults('/from/layoutId', from.layoutId, room, setup) : []),
    ...(from.kind === 'pieces' ? piecesFaults(from, setup) : []),
  ]
}

function layoutFaults(at: string, layoutId: LayoutId, room: Room, setup: SiteSetup): Fault[] {
  const layout = setup.layouts.find(({ id }) => id === layoutId)
  if (!layout) return unknownIds(() => at, [layoutId], setup.layouts, 'layout')
  return layout.roomId === room.id ? [] : [bodyFault(at, `${layout.name} is not a layout of ${room.name}`)]
}

function piecesFaults(from: Extract<z.infer<typeof From>, { kind: 'pieces' }>, setup: SiteSetup): Fault[] {
  const pieceAt = (index: number) => `/from/pieces/${index}/furnishingId`
  const deviceAt = (index: number) => `/from/equipment/${index}/equipmentId`
  const pieceIds = from.pieces.map(({ furnishingId }) => furnishingId)
  const deviceIds = from.equipment.map(({ equipmentId }) => equipmentId)
  return [
    ...unknownIds(pieceAt, pieceIds, setup.furnishings, 'furnishing'),
    ...repeated(pieceAt, pieceIds, 'furnishing'),
    ...unknownIds(deviceAt, deviceIds, setup.equipment, 'equipment'),
    ...repeated(deviceAt, deviceIds, 'equipment'),
    ...from.equipment.flatMap(({ equipmentId, setting }, index) => {
      const device = setup.equipment.find(({ id }) => id === equipmentId)
      const problem = device && settingProblem(device, setting)
      return problem ? [bodyFault(`/from/equipment/${index}/setting`, `${device.name}: ${problem}`)] : []
    }),
  ]
}
