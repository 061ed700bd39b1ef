/** Sound, light and video of the demo site. Times are common practice without a source. */

const long = ['section_long-north', 'section_long-south']
const upper = ['section_upper']

const step = (from: string, to: string, seconds: number, hands: number, skill: string | null = null) => ({
  from,
  to,
  seconds,
  hands,
  skill,
  needsFloorClear: false,
})

const soundDesk = (scenes: readonly string[]) => ({
  kind: 'states',
  states: ['off', ...scenes],
  homeState: 'off',
  transitions: scenes.flatMap((scene) => [
    step('off', scene, 300, 1, 'sound'),
    step(scene, 'off', 60, 1),
    ...scenes.filter((other) => other !== scene).map((other) => step(scene, other, 120, 1, 'sound')),
  ]),
})

const houseLights = {
  kind: 'level',
  lowestPercent: 10,
  highestPercent: 100,
  canBeOff: true,
  homeSetting: { kind: 'level', levelPercent: 100 },
  setSeconds: 60,
  hands: 1,
  skill: null,
}

export const equipment = [
  {
    id: 'equipment_long-projector',
    name: 'Long Room projector',
    sectionIds: long,
    kind: 'projection',
    readinessCheck: { what: 'look at the picture', seconds: 120, hands: 1 },
    control: {
      kind: 'states',
      states: ['off', 'game-input', 'slides', 'relay'],
      homeState: 'off',
      transitions: [
        // A lamp projector warms up, and cools down before it is cut off.
        step('off', 'slides', 120, 0),
        step('slides', 'off', 180, 0),
        step('slides', 'relay', 120, 1, 'sound'),
        step('relay', 'slides', 60, 1, 'sound'),
        step('slides', 'game-input', 60, 1),
        step('game-input', 'slides', 60, 1),
      ],
    },
  },
  {
    id: 'equipment_long-screen',
    name: 'Long Room screen',
    sectionIds: long,
    kind: 'screen',
    // A ball in the cloth would be the end of it.
    protections: [{ during: ['games'], setting: { kind: 'state', state: 'up' } }],
    control: {
      kind: 'states',
      states: ['up', 'down'],
      homeState: 'up',
      transitions: [
        { ...step('up', 'down', 60, 1), needsFloorClear: false },
        { ...step('down', 'up', 60, 1), needsFloorClear: false },
      ],
    },
  },
  {
    id: 'equipment_long-sound',
    name: 'Long Room sound desk',
    sectionIds: long,
    kind: 'sound',
    control: soundDesk(['speech', 'music', 'relay']),
    readinessCheck: { what: 'line check', seconds: 300, hands: 1, skill: 'sound', needsQuiet: true },
  },
  {
    id: 'equipment_long-lights',
    name: 'Long Room house lights',
    sectionIds: long,
    kind: 'lighting',
    control: houseLights,
  },
  {
    id: 'equipment_upper-sound',
    name: 'Upper Hall sound desk',
    sectionIds: upper,
    kind: 'sound',
    control: soundDesk(['service']),
    readinessCheck: { what: 'line check', seconds: 300, hands: 1, skill: 'sound', needsQuiet: true },
  },
  {
    id: 'equipment_upper-camera',
    name: 'Upper Hall relay camera',
    sectionIds: upper,
    kind: 'projection',
    control: {
      kind: 'states',
      states: ['off', 'relay'],
      homeState: 'off',
      transitions: [step('off', 'relay', 120, 1), step('relay', 'off', 30, 1)],
    },
    warmUpSeconds: 180,
  },
]
