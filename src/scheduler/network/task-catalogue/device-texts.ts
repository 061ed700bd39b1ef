/** What is done to devices: switched, left to warm up, tried out. */
import type { Equipment, ReadinessCheck } from '../../../domain/equipment.ts'
import type { SwitchStep } from '../device-switches.ts'
import { durationText, peopleText, taskText } from './words.ts'

const spoken = (state: string): string => state.replaceAll('-', ' ')
const skillText = (hands: number, skill: string | null): string[] =>
  skill === null ? [] : [`${hands === 1 ? 'It takes' : 'One of them must have'} the skill ${skill}.`]

export function switchText({ name }: Equipment, step: SwitchStep): string {
  const modes = [{ hands: step.hands, seconds: step.seconds }]
  return taskText([
    `Change ${name} from ${spoken(step.from)} to ${spoken(step.to)}, about ${durationText(step.seconds)}.`,
    ...(step.needsFloorClear ? ['The floor must be clear until it is done.'] : []),
    ...(step.needsQuiet ? ['It must be quiet, here and in rooms that hear this one.'] : []),
    ...(step.needsDark ? ['It must be dark.'] : []),
    ...(step.needsWallOpen ? ['The movable wall comes first.'] : []),
    step.hands === 0 ? 'It runs by itself; nobody has to stay.' : peopleText(modes),
    ...skillText(step.hands, step.skill),
  ])
}

export const warmUpText = ({ kind, name, warmUpSeconds }: Equipment): string =>
  taskText([
    kind === 'ventilation'
      ? `Air the room: leave ${name} on, about ${durationText(warmUpSeconds)}.`
      : `Leave ${name} alone until it is ready for use, about ${durationText(warmUpSeconds)}.`,
    'Nobody has to stay.',
  ])

export const readinessText = ({ name }: Equipment, check: ReadinessCheck, roomName: string): string =>
  taskText([
    `Try out ${name} in ${roomName}: ${check.what}, about ${durationText(check.seconds)}.`,
    ...(check.needsQuiet ? ['It must be quiet, here and in rooms that hear this one.'] : []),
    ...(check.needsDark ? ['It must be dark.'] : []),
    peopleText([{ hands: check.hands, seconds: check.seconds }]),
    ...skillText(check.hands, check.skill),
  ])
