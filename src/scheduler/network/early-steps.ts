/** Which steps of a device come before the room is worked in, and which wait until everything in it is set. */
import type { Equipment, EquipmentSetting } from '../../domain/equipment.ts'
import { homeSetting, sameSetting } from './equipment-setting.ts'

/** What warms up for longer than this may start first, so that the turn does not end with waiting for it. */
const LONG_WARM_UP_SECONDS = 600

export const isOff = (setting: EquipmentSetting): boolean =>
  setting.kind === 'off' || (setting.kind === 'state' && setting.state === 'off')

/**
 * Work needs light and quiet, and nothing should glow or hum all night for the next day's guests. So what brightens,
 * switches off or goes home comes first, and so does what changes the floor (movable walls, lifts, whatever needs it
 * clear), what heats by itself, what airs the room, and what takes more than ten minutes to warm up. What dims, comes
 * on or leaves its home comes last. On a way through several states, the steps as far as the last state that is home
 * or off come first. The order is common practice, no source.
 * @param steps  of a level: one step, of states: the way from `from` to `to`; `to` of each is a state's name
 * @returns how many of them, from the first, do not wait for the room to be set; 0 to all
 */
export function earlyStepCount(
  equipment: Equipment,
  steps: readonly { readonly to: string; readonly hands: number; readonly needsFloorClear: boolean }[],
  from: EquipmentSetting,
  to: EquipmentSetting,
): number {
  if (isAlwaysEarly(equipment, steps)) return steps.length
  const { control } = equipment
  if (control.kind === 'level') return levelIsEarly(equipment, from, to) ? steps.length : 0
  const homeOrOff = steps.findLastIndex((step) => step.to === control.homeState || step.to === 'off')
  const last = steps.at(-1)
  // What gives light and is at home when it is on leaves people in the dark when it goes off.
  const goesDark = equipment.kind === 'lighting' && last?.to === 'off' && control.homeState !== 'off'
  return goesDark ? 0 : homeOrOff + 1
}

function isAlwaysEarly(
  { kind, warmUpSeconds }: Equipment,
  steps: readonly { readonly hands: number; readonly needsFloorClear: boolean }[],
): boolean {
  if (kind === 'movable-wall' || kind === 'lift') return true
  if (steps.some(({ needsFloorClear }) => needsFloorClear)) return true
  if (warmUpSeconds > LONG_WARM_UP_SECONDS) return true
  if (kind === 'ventilation') return warmUpSeconds > 0
  return kind === 'heating-or-cooling' && steps.every(({ hands }) => hands === 0)
}

/** A light that is at home when it is off is not the one people work by. */
function levelIsEarly(equipment: Equipment, from: EquipmentSetting, to: EquipmentSetting): boolean {
  const givesLight = equipment.kind === 'lighting' || equipment.kind === 'other'
  const home = homeSetting(equipment)
  if (sameSetting(to, home) && (isOff(home) || !givesLight)) return true
  if (!givesLight) return isOff(to)
  return percentOf(to) > percentOf(from)
}

const percentOf = (setting: EquipmentSetting): number => (setting.kind === 'level' ? setting.levelPercent : 0)
