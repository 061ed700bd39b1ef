/** Words for what a task of a chain waits for. */
import type { ChainLink } from '../../../domain/chain-link.ts'
import { ADULT, CREW } from './activities-of.ts'

type Binds = ChainLink['binds']

/** `1 waits`, `2 wait`. */
export function agreed(words: string, count: number): string {
  if (count !== 1) return words
  return words.replace(/^(wait|follow|keep)/, '$1s').replace(/^are/, 'is')
}

/** What minutes go by with in which somebody is at work until the task can start. */
export function working(binds: Binds): string {
  if (binds.kind === 'after') return 'follow one task after the other'
  return binds.kind === 'skill'
    ? `keep ${somebody(binds.skill)} at other work`
    : 'keep the same hands at other work'
}

/** What minutes go by with in which the hands for the task are idle. */
export function waiting(binds: Binds): string {
  switch (binds.kind) {
    case 'hands':
    case 'held-elsewhere':
      return 'wait for a free hand'
    case 'after':
      return 'follow one task after the other'
    case 'skill':
      return `wait for ${somebody(binds.skill)}`
    case 'resource':
      return `wait ${resourceWords(binds).waitingFor}`
    case 'duty-begins':
      return 'wait for hands to come on duty'
    case 'release':
      return 'wait for the room to be clear'
    case 'nothing':
      return 'wait for no reason'
    default:
      return binds satisfies never
  }
}

/** What the first task of a chain starts with. */
export function beginning(binds: Binds): string {
  switch (binds.kind) {
    case 'release':
      return 'begins when the room is clear'
    case 'duty-begins':
      return 'begins when a hand comes on duty'
    case 'held-elsewhere':
    case 'hands':
      return 'begins when a hand comes free'
    case 'skill':
      return `begins when ${somebody(binds.skill)} comes free`
    case 'resource':
      return `begins when ${resourceWords(binds).there}`
    case 'after':
      return 'follows another task'
    case 'nothing':
      return 'could begin earlier'
    default:
      return binds satisfies never
  }
}

const somebody = (skill: string): string => {
  if (skill === ADULT) return 'an adult'
  return skill === CREW ? 'one of the crew' : `somebody who has the skill ${skill}`
}

/** By the kind of key, as `TaskResource` lists them, and `open:` for a place that is closed for a time. */
function resourceWords({ key, label }: { key: string; label: string }): {
  waitingFor: string
  there: string
} {
  const inSentence = `${label.slice(0, 1).toLowerCase()}${label.slice(1)}`
  switch (key.slice(0, key.indexOf(':'))) {
    case 'trolley':
      return { waitingFor: `for a ${inSentence}`, there: `a ${inSentence} is free` }
    case 'tool':
      return { waitingFor: `for one of the ${label}`, there: `one of the ${label} is free` }
    case 'passage':
      return { waitingFor: `for the way through ${label}`, there: `the way through ${label} is free` }
    case 'quiet':
    case 'dark':
      return { waitingFor: `because of ${inSentence}`, there: `${inSentence} allows it` }
    case 'moved':
      return {
        waitingFor: `for the ${inSentence}, which another room shares`,
        there: `nobody in the room beside needs the ${inSentence}`,
      }
    case 'open':
      return { waitingFor: `for ${label} to open`, there: `${label} opens` }
    default:
      return { waitingFor: `for ${label}`, there: `${label} is free` }
  }
}
