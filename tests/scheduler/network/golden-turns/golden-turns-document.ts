/** The worked sheets as a page that a hall manager can argue with. */
import { banquetToBanquet } from './banquet-to-banquet.ts'
import { banquetToWorship } from './banquet-to-worship.ts'
import { gamesToBanquet } from './games-to-banquet.ts'
import { gamesToGames } from './games-to-games.ts'
import type { GoldenTurn } from './golden-turn.ts'
import { worshipToOverflow } from './worship-to-overflow.ts'

const INTRODUCTION = `# Five turns worked by hand

A turn is the changeover before a booking. These five were worked out on paper, line by line, before anybody asked the
program; the tests hold its task network against them: every line within 5 %, nothing besides, and ready within the range
below each table. If a line looks wrong to you, say which: every figure is a setting of the site.

The hall is invented: 214 m² of vinyl, one store 25 m away through one doorway, trolleys for chairs (4 of 25) and for round
tables (2 of 9, pushed by two). Volunteers: pace 1.5, and an allowance of 0.15 for rest and delays, together × 1.725. Each
of 40 to 110 guests leaves rubbish: 4 bins for every hundred.

What the figures are made of, for a practised crew:

| what | figure | where it comes from |
| --- | --- | --- |
| the way beyond the short carry of 6 m | 25 − 6 = 19 m | handling figures were taken with a carry of 6 m |
| one trolley load | 60 s handling + 19 m at 10 m in 15 s + 19 m back at 1.6 m/s = 60 + 28.5 + 11.9 = 100.4 s | common practice, no source; walking by MTM-1, from memory |
| how many loads | counted zone by zone: what is set in another zone goes on a load of its own | common practice, no source |
| one carry | 19 m at 1.41 m/s + 19 m back at 1.6 m/s = 13.5 + 11.9 = 25.4 s for each who carries | MTM-1, from memory |
| chair off a trolley, set / stacked | 9 s / 7.5 s | common practice, no source: 6 to 12, 5 to 10 |
| round table of 60 in, set / struck | 90 s / 67.5 s | common practice, no source: 60 to 120, 45 to 90 |
| cloth on / off | 45 s / 15 s | common practice, no source: 30 to 60, 10 to 20 |
| pair of posts struck | 180 s | common practice, no source: 120 to 240 |
| stage deck set | 270 s | 180 to 360: from a staging firm's crew rate, exhibitions.co.uk, 2010 |
| stage rail set | 180 s | common practice, no source: 120 to 240 |
| dust mop of 24 in | 6.5 min per 1,000 ft² | common practice, no source: 5 to 8 |
| spot mop | 4.5 min per 1,000 ft² | common practice, no source: 3 to 6 |
| vinyl dries | 20 min | flooringclarity.com: 10 to 30 |
| marking a place, lining up a chair | 15 s, 1.5 s | common practice, no source |
| wiping a table, a bin | 45 s, 90 s | common practice, no source: 30 to 60, 60 to 120 |

Hands on one task add up to less than their number (4 are worth 3.7, 6 are worth 5.2), and people wait for each other, for
the floor to be clean and for tables to stand before cloths: so a turn takes longer than its work divided by its hands. All
work is in person-seconds: 600 are five minutes of a pair.
`

export const goldenTurns: readonly GoldenTurn[] = [
  gamesToBanquet,
  banquetToWorship,
  worshipToOverflow,
  gamesToGames,
  banquetToBanquet,
]

/** Markdown, ending with a line break. */
export const goldenTurnsDocument = (turns: readonly GoldenTurn[]): string =>
  [INTRODUCTION, ...turns.map(sheetText)].join('\n')

function sheetText(turn: GoldenTurn): string {
  const lines = turn.lines.map(
    ({ work, handling, way, practisedPersonSeconds, crewPersonSeconds }) =>
      `| ${work} | ${handling} | ${way} | ${grouped(practisedPersonSeconds)} | ${grouped(crewPersonSeconds)} |`,
  )
  const fixed = turn.fixed.map(({ work, time }) => `| ${work} | ${time} |`)
  const ready = turn.ready.map(
    ({ hands, minutesLeast, minutesMost }) => `| ${hands} | ${minutesLeast} to ${minutesMost} min |`,
  )
  return [
    `## ${turn.name}`,
    '',
    turn.story,
    '',
    '| work | handling | way to or from the store | practised | this crew |',
    '| --- | --- | --- | ---: | ---: |',
    ...lines,
    `| **all** | | | **${grouped(turn.practisedPersonSeconds)}** | **${grouped(turn.crewPersonSeconds)}** |`,
    '',
    '| fixed | time |',
    '| --- | --- |',
    ...fixed,
    '',
    ...turn.remarks.map((remark) => `${remark}\n`),
    '| hands | ready after |',
    '| ---: | --- |',
    ...ready,
    '',
  ].join('\n')
}

/** `10,135`; independent of the machine's language. */
const grouped = (value: number): string => `${value}`.replace(/\B(?=(\d{3})+$)/g, ',')
