/** What the service says of itself when it starts: what it holds, and the turns of the coming days as a small table. */
import type { LayoutId } from './domain/ids.ts'
import type { Instant } from './domain/instant.ts'
import { instantPlusSeconds } from './domain/instant.ts'
import { layoutName, roomName } from './domain/setup-names.ts'
import type { SiteSetup } from './domain/snapshot.ts'
import type { Turn } from './domain/turn.ts'
import type { Verdict } from './domain/verdict.ts'
import { dayAndTimeOf } from './scheduler/timeline/wall-time.ts'
import { counted } from './scheduler/wording/counted.ts'
import type { Store } from './store/store.ts'

/** Nine days ahead: a week, and the weekend it ends in. */
const AHEAD_SECONDS = 9 * 86_400
const TURNS_MOST = 30
const SITES_MOST = 3

const verdictInWords: Record<Verdict, string> = {
  fits: 'fits',
  tight: 'tight',
  'does-not-fit': 'does not fit',
}

/** @returns one block of lines a site, for at most three sites; '' when there are none */
export async function startReport(store: Store, now: Instant): Promise<string> {
  const sites = await store.sites({ limit: SITES_MOST, after: null })
  const blocks: string[] = []
  for (const site of sites.items) {
    const setup = await store.setup(site.id)
    if (!setup) continue
    const window = { fromAt: now, toAt: instantPlusSeconds(now, AHEAD_SECONDS) }
    const turns = await store.turns(site.id, window, { limit: TURNS_MOST, after: null })
    blocks.push(
      siteReport(
        setup,
        turns.items.filter((turn) => turn.dueAt > now),
      ),
    )
  }
  return blocks.join('\n\n')
}

function siteReport(setup: SiteSetup, turns: readonly Turn[]): string {
  const holds = [
    counted(setup.rooms.length, 'room'),
    counted(setup.layouts.length, 'layout'),
    counted(
      setup.furnishings.reduce((sum, furnishing) => sum + furnishing.countOwned, 0),
      'piece',
    ),
    counted(setup.equipment.length, 'device'),
    counted(setup.shifts.length, 'shift'),
  ]
  const head = `${setup.site.name} (${setup.site.zone}): ${holds.join(', ')}`
  if (turns.length === 0) return `${head}\nNo turns in the coming nine days.`
  return `${head}\nTurns of the coming nine days:\n${table(turns.map((turn) => row(setup, turn)))}`
}

const headings = ['doors', 'room', 'from → to', 'needs', 'there is', 'to spare', 'hands', 'verdict']

function row(setup: SiteSetup, turn: Turn): string[] {
  const layout = (id: LayoutId) => layoutName(setup, id)
  const from = turn.fromLayoutIds.length > 0 ? turn.fromLayoutIds.map(layout).join(' + ') : 'bare floor'
  const { judgement } = turn
  return [
    dayAndTimeOf(turn.dueAt, setup.site.zone),
    roomName(setup, turn.roomId),
    `${from} → ${layout(turn.toLayoutId)}`,
    judgement.neededSeconds === null ? '–' : `${Math.ceil(judgement.neededSeconds / 60)} min`,
    `${Math.floor(judgement.staffedWindowSeconds / 60)} min`,
    judgement.slackSeconds === null ? '–' : spare(judgement.slackSeconds),
    `${judgement.hands.needed} of ${judgement.hands.onDuty}`,
    verdictInWords[judgement.verdict],
  ]
}

/** Time to spare is rounded down, time short is rounded up: the cautious side both times. */
const spare = (seconds: number): string => {
  const minutes = Math.floor(seconds / 60)
  if (minutes < 0) return `${-minutes} min short`
  return minutes < 120 ? `${minutes} min` : `${Math.floor(minutes / 60)} h`
}

function table(rows: readonly (readonly string[])[]): string {
  const all = [headings, ...rows]
  const widths = headings.map((_, column) => Math.max(...all.map((cells) => cells[column]?.length ?? 0)))
  const line = (cells: readonly string[]) =>
    `  ${cells.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd()
  return [line(headings), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)].join('\n')
}
