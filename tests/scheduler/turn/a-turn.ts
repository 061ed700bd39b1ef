/** Instances for tests: valid ones in which a test names only what matters to it. */
import fc from 'fast-check'
import type {
  Activity,
  HandsNeed,
  InstanceResource,
  InstanceTurn,
  Lane,
  Mode,
  TurnInstance,
} from '../../../src/scheduler/turn/instance.ts'

export const hands = (count: number, skillMask = 0): HandsNeed[] =>
  count === 0 ? [] : [{ count, skillMask }]

/** One mode, with so many hands of no particular skill. */
export const mode = (durationTicks: number, handsCount = 1, uses: Mode['uses'] = []): Mode => ({
  durationTicks,
  hands: hands(handsCount),
  uses,
})

/** One mode that runs by itself and takes so much of one consumable. */
export const consuming = (durationTicks: number, consumable: number, amount: number): Mode => ({
  ...mode(durationTicks, 0),
  consumes: [{ consumable, amount }],
})

/** Ten ticks for one pair of hands in place 0, unless said otherwise. */
export const task = (key: string, parts: Partial<Activity> = {}): Activity => ({
  key,
  turn: 0,
  place: 0,
  modes: [mode(10)],
  after: [],
  ...parts,
})

/** On duty from tick 0 to 1,000, able to do nothing special, held by nothing. */
export const lane = (key: string, parts: Partial<Lane> = {}): Lane => ({
  key,
  skillMask: 0,
  available: [{ from: 0, to: 1000 }],
  busy: [],
  ...parts,
})

export const turn = (parts: Partial<InstanceTurn> = {}): InstanceTurn => ({
  releaseTick: 0,
  dueTick: 1000,
  weight: 1,
  ...parts,
})

/** Pinned: the only activity of a turn of its own, for so many hands of no particular skill. */
export const duty = (key: string, turnIndex: number, parts: Partial<Activity> = {}): Activity =>
  task(key, { turn: turnIndex, pinned: true, ...parts })

/** The turn of a duty of ten ticks, unless said otherwise. */
export const dutyTurn = (releaseTick: number, durationTicks = 10): InstanceTurn =>
  turn({ releaseTick, dueTick: releaseTick + durationTicks })

export const resource = (key: string, amount: number): InstanceResource => ({
  key,
  capacity: [{ fromTick: 0, amount }],
})

/** One turn, no work, two pairs of hands, two places 3 ticks apart, a horizon of 1,000. */
export const aTurn = (parts: Partial<TurnInstance> = {}): TurnInstance => ({
  turns: [turn()],
  activities: [],
  resources: [],
  lanes: [lane('ada'), lane('ben')],
  walkTicks: [
    [0, 3],
    [3, 0],
  ],
  horizonTick: 1000,
  ...parts,
})

/** Spans in order, disjoint, within 0 and `to`. */
const spans = (to: number, most: number): fc.Arbitrary<{ from: number; to: number }[]> =>
  fc
    .uniqueArray(fc.integer({ min: 0, max: to }), { maxLength: 2 * most, minLength: 0 })
    .map((ticks) => ticks.sort((a, b) => a - b))
    .map((ticks) =>
      ticks.flatMap((from, index) =>
        index % 2 === 0 && index + 1 < ticks.length ? [{ from, to: ticks[index + 1]! }] : [],
      ),
    )

const someSkill = fc.constantFrom(0, 0, 0, 0, 0, 0, 1, 2)

const aMode = (resourceCount: number, laneCount: number): fc.Arbitrary<Mode> =>
  fc.record({
    durationTicks: fc.integer({ min: 1, max: 4 }),
    hands: fc.oneof(
      { weight: 1, arbitrary: fc.constant([]) },
      {
        weight: 4,
        arbitrary: fc.tuple(
          fc.record({ count: fc.integer({ min: 1, max: Math.max(1, laneCount - 1) }), skillMask: someSkill }),
        ),
      },
      {
        weight: laneCount > 1 ? 1 : 0,
        arbitrary: fc.tuple(
          fc.record({ count: fc.constant(1), skillMask: someSkill }),
          fc.record({ count: fc.integer({ min: 1, max: Math.max(1, laneCount - 1) }), skillMask: someSkill }),
        ),
      },
    ),
    uses:
      resourceCount === 0
        ? fc.constant([])
        : fc.oneof(
            fc.constant([]),
            fc.uniqueArray(
              fc.record({
                resource: fc.integer({ min: 0, max: resourceCount - 1 }),
                amount: fc.constantFrom(1, 1, 2),
              }),
              { maxLength: 2, selector: (use) => use.resource },
            ),
          ),
  })

/** Small instances of every kind: calendars, what stands, skills, tools that come and go, walking, one or two turns. */
export const smallInstance = (activitiesMost: number, horizonTick = 18): fc.Arbitrary<TurnInstance> =>
  fc
    .record({
      activityCount: fc.integer({ min: 1, max: activitiesMost }),
      turnCount: fc.integer({ min: 1, max: 2 }),
      laneCount: fc.integer({ min: 1, max: 3 }),
      resourceCount: fc.integer({ min: 0, max: 2 }),
    })
    .chain(({ activityCount, turnCount, laneCount, resourceCount }) =>
      fc.record({
        horizonTick: fc.constant(horizonTick),
        turns: fc.array(
          fc.record({
            releaseTick: fc.integer({ min: 0, max: 4 }),
            dueTick: fc.integer({ min: 2, max: horizonTick }),
            weight: fc.integer({ min: 1, max: 3 }),
          }),
          { minLength: turnCount, maxLength: turnCount },
        ),
        resources: fc
          .array(
            fc.uniqueArray(
              fc.record({
                fromTick: fc.integer({ min: 0, max: 8 }),
                amount: fc.constantFrom(0, 1, 2, 2, 3),
              }),
              { minLength: 1, maxLength: 3, selector: (step) => step.fromTick },
            ),
            { minLength: resourceCount, maxLength: resourceCount },
          )
          .map((capacities) =>
            capacities.map((capacity, index) => ({
              key: `tool-${index}`,
              capacity: capacity.sort((a, b) => a.fromTick - b.fromTick),
            })),
          ),
        lanes: fc
          .array(
            fc.record({
              skillMask: fc.constantFrom(0, 1, 2, 3, 3),
              available: fc.oneof(
                { weight: 3, arbitrary: fc.constant([{ from: 0, to: horizonTick }]) },
                { weight: 1, arbitrary: spans(horizonTick, 2) },
              ),
              busy: spans(horizonTick, 2).chain((list) =>
                fc.tuple(
                  ...list.map((span) => fc.integer({ min: 0, max: 2 }).map((place) => ({ ...span, place }))),
                ),
              ),
            }),
            { minLength: laneCount, maxLength: laneCount },
          )
          .chain((lanes) =>
            fc.array(fc.boolean(), { minLength: lanes.length, maxLength: lanes.length }).map((isHeld) =>
              lanes.map((of, index) => ({
                ...of,
                key: `lane-${index}`,
                busy: isHeld[index] ? of.busy : [],
              })),
            ),
          ),
        // Any three lengths, also such that a detour is the shorter way.
        walkTicks: fc
          .tuple(
            fc.integer({ min: 0, max: 3 }),
            fc.integer({ min: 0, max: 2 }),
            fc.integer({ min: 0, max: 2 }),
          )
          .map(([a, b, c]) => [
            [0, a, b],
            [a, 0, c],
            [b, c, 0],
          ]),
        activities: fc.tuple(
          ...Array.from({ length: activityCount }, (_, index) =>
            fc.record({
              key: fc.constant(`task-${index}`),
              turn: fc.integer({ min: 0, max: turnCount - 1 }),
              place: fc.constantFrom(0, 0, 1, 1, 2),
              modes: fc.array(aMode(resourceCount, laneCount), { minLength: 1, maxLength: 2 }),
              after:
                index === 0
                  ? fc.constant([])
                  : fc.subarray(
                      Array.from({ length: index }, (_, at) => at),
                      { maxLength: Math.min(2, index) },
                    ),
            }),
          ),
        ),
      }),
    )
    .chain((instance) => fc.boolean().map((isReversed) => (isReversed ? reversedList(instance) : instance)))

/** The same with walks of which none is shorter by a detour. */
export const withShortWalks = (instances: fc.Arbitrary<TurnInstance>): fc.Arbitrary<TurnInstance> =>
  instances.map((instance) => {
    const walkTicks = instance.walkTicks.map((row) => [...row])
    for (const via of walkTicks.keys()) {
      for (const row of walkTicks) {
        for (const to of row.keys()) row[to] = Math.min(row[to]!, row[via]! + walkTicks[via]![to]!)
      }
    }
    return { ...instance, walkTicks }
  })

/** The same with up to two pinned activities, each a turn of its own, and up to two budgets that some lanes are paid from. */
export const withPinnedAndPaid = (
  instances: fc.Arbitrary<TurnInstance>,
  { pinnedMost = 2, budgetsMost = 2 } = {},
): fc.Arbitrary<TurnInstance> =>
  instances.chain((instance) =>
    fc
      .record({
        duties: fc.array(
          fc.record({
            releaseTick: fc.integer({ min: 0, max: 8 }),
            place: fc.constantFrom(0, 1, 2),
            of: aMode(instance.resources.length, instance.lanes.length),
            isFirst: fc.boolean(),
          }),
          { maxLength: pinnedMost },
        ),
        budgets: fc.array(
          fc.record({ key: fc.constant(''), laneTicksMost: fc.integer({ min: 0, max: 14 }) }),
          { maxLength: budgetsMost },
        ),
        paidFrom: fc.array(fc.integer({ min: -1, max: 1 }), {
          minLength: instance.lanes.length,
          maxLength: instance.lanes.length,
        }),
      })
      .map(({ duties, budgets, paidFrom }) => ({
        ...duties.reduce(withDuty, instance),
        budgets: budgets.map((budget, index) => ({ ...budget, key: `budget-${index}` })),
        lanes: instance.lanes.map((of, index) => {
          const budget = paidFrom[index]!
          return budget >= 0 && budget < budgets.length ? { ...of, budget } : of
        }),
      })),
  )

/** The same as one turn that runs by itself, with resources that are the same all the time, and time enough for everything. */
export const withoutPeople = (instances: fc.Arbitrary<TurnInstance>): fc.Arbitrary<TurnInstance> =>
  instances.map((instance) => ({
    ...instance,
    turns: instance.turns.slice(0, 1),
    activities: instance.activities.map((activity) => ({
      ...activity,
      turn: 0,
      modes: activity.modes.map((of) => ({ ...of, hands: [] })),
    })),
    resources: instance.resources.map(({ key, capacity }) => ({
      key,
      capacity: [{ fromTick: 0, amount: Math.max(...capacity.map(({ amount }) => amount)) }],
    })),
    lanes: [],
    horizonTick: 60,
  }))

/**
 * The same with one or two consumables of which most modes take something, and with one more, longer or shorter mode for
 * some activities: what is scarce decides which.
 */
export const withConsumables = (instances: fc.Arbitrary<TurnInstance>): fc.Arbitrary<TurnInstance> =>
  instances.chain((instance) =>
    fc.integer({ min: 1, max: 2 }).chain((count) => {
      const some = fc.uniqueArray(
        fc.record({
          consumable: fc.integer({ min: 0, max: count - 1 }),
          amount: fc.constantFrom(0, 1, 1, 2, 3),
        }),
        { maxLength: 2, selector: ({ consumable }) => consumable },
      )
      return fc
        .record({
          amounts: fc.array(fc.integer({ min: 0, max: 5 }), { minLength: count, maxLength: count }),
          more: fc.tuple(
            ...instance.activities.map(() => fc.option(fc.integer({ min: 1, max: 4 }), { nil: null })),
          ),
          consumes: fc.tuple(...instance.activities.map(() => fc.tuple(some, some, some))),
        })
        .map(({ amounts, more, consumes }) => ({
          ...instance,
          consumables: amounts.map((amountMost, index) => ({ key: `consumable-${index}`, amountMost })),
          activities: instance.activities.map((activity, index) => {
            const [first] = activity.modes
            const durationTicks = activity.pinned ? null : more[index]!
            const modes =
              first && durationTicks !== null
                ? [...activity.modes, { ...first, durationTicks }]
                : activity.modes
            return {
              ...activity,
              modes: modes.map((of, at) => ({ ...of, consumes: consumes[index]![at]! })),
            }
          }),
        }))
    }),
  )

/** With one more turn, of one pinned activity; before or behind all others in the list. */
function withDuty(
  instance: TurnInstance,
  duty: { releaseTick: number; place: number; of: Mode; isFirst: boolean },
): TurnInstance {
  const { releaseTick, place, of, isFirst } = duty
  const turnIndex = instance.turns.length
  const pinned: Activity = {
    key: `duty-${turnIndex}`,
    turn: turnIndex,
    place,
    modes: [of],
    after: [],
    pinned: true,
  }
  const later = instance.activities.map((activity) => ({
    ...activity,
    after: activity.after.map((before) => before + 1),
  }))
  return {
    ...instance,
    turns: [...instance.turns, { releaseTick, dueTick: releaseTick + of.durationTicks, weight: 1 }],
    activities: isFirst ? [pinned, ...later] : [...instance.activities, pinned],
  }
}

/** The same work with its list turned round: what must be done first stands last. */
function reversedList(instance: TurnInstance): TurnInstance {
  const last = instance.activities.length - 1
  return {
    ...instance,
    activities: instance.activities
      .map((activity) => ({ ...activity, after: activity.after.map((before) => last - before) }))
      .reverse(),
  }
}
