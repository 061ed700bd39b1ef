/** What is left of a capacity over time when some of it is taken, as steps; it never goes below zero. */
export function capacitySteps(
  capacity: number,
  taken: readonly { from: number; to: number; amount: number }[],
): { fromTick: number; amount: number }[] {
  const changeAt = new Map<number, number>([[0, 0]])
  for (const { from, to, amount } of taken) {
    if (from >= to) continue
    changeAt.set(from, (changeAt.get(from) ?? 0) + amount)
    changeAt.set(to, (changeAt.get(to) ?? 0) - amount)
  }
  const steps: { fromTick: number; amount: number }[] = []
  let held = 0
  for (const [fromTick, change] of [...changeAt].sort(([a], [b]) => a - b)) {
    held += change
    const amount = Math.max(0, capacity - held)
    if (steps.at(-1)?.amount !== amount) steps.push({ fromTick, amount })
  }
  return steps
}
