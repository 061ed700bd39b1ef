import type { LaneOnDuty } from '../timeline/lanes-on-duty.ts'

/** 0 without lanes. */
export function mostHandsAtOnce(lanes: readonly LaneOnDuty[]): number {
  const changes = lanes
    .flatMap(({ onDuty }) =>
      onDuty.flatMap(({ fromAt, toAt }) => [
        { at: fromAt, hands: 1 },
        { at: toAt, hands: -1 },
      ]),
    )
    // Those who leave at a moment are gone before those who come then.
    .sort((a, b) => a.at - b.at || a.hands - b.hands)
  let hands = 0
  let most = 0
  for (const change of changes) {
    hands += change.hands
    most = Math.max(most, hands)
  }
  return most
}
