/** What the chosen modes overdraw of the budgets for the whole project, and random mending of it. */
import type { Work } from './work.ts'

/** How much the budgets are overdrawn together. */
export function overdrawn(work: Work): number {
  let excess = 0
  for (let budget = 0; budget < work.problem.budgetCount; budget++) {
    if (work.budgetLeft[budget]! < 0) excess -= work.budgetLeft[budget]!
  }
  return excess
}

/** What would be overdrawn if one task went from mode `from` to mode `to`. */
export function overdrawnAfter(work: Work, from: number, to: number): number {
  const { budgetCount, modeConsumes } = work.problem
  let excess = 0
  for (let budget = 0; budget < budgetCount; budget++) {
    const left =
      work.budgetLeft[budget]! +
      modeConsumes[from * budgetCount + budget]! -
      modeConsumes[to * budgetCount + budget]!
    if (left < 0) excess -= left
  }
  return excess
}

export function changeMode(work: Work, task: number, to: number): void {
  const { budgetCount, modeConsumes } = work.problem
  const from = work.modes[task]!
  for (let budget = 0; budget < budgetCount; budget++) {
    work.budgetLeft[budget]! +=
      modeConsumes[from * budgetCount + budget]! - modeConsumes[to * budgetCount + budget]!
  }
  work.modes[task] = to
}

/** Random tasks go to random modes that overdraw no more, eight tries a task. Gives what stays overdrawn. */
export function mendBudgets(work: Work): number {
  const { problem, random, modes, budgetLeft } = work
  const { taskCount, budgetCount, modesFrom, modeConsumes } = problem
  if (budgetCount === 0) return 0
  budgetLeft.set(problem.budgets)
  for (let task = 0; task < taskCount; task++) {
    const from = modes[task]! * budgetCount
    for (let budget = 0; budget < budgetCount; budget++) budgetLeft[budget]! -= modeConsumes[from + budget]!
  }
  let excess = overdrawn(work)
  for (let tries = 8 * taskCount; excess > 0 && tries > 0; tries--) {
    const task = random.below(taskCount)
    const count = modesFrom[task + 1]! - modesFrom[task]!
    if (count < 2) continue
    const mode = modesFrom[task]! + random.below(count)
    const after = overdrawnAfter(work, modes[task]!, mode)
    if (after > excess) continue
    changeMode(work, task, mode)
    excess = after
  }
  return excess
}
