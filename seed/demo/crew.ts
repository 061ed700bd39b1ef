/** Who works at the demo site, and when. Everybody is invented. */

export const people = [
  { id: 'person_rae', adult: true, skills: ['sound', 'lift-operator'] },
  { id: 'person_ivo', adult: true, skills: ['lift-operator'] },
  { id: 'person_pip', adult: false, skills: [] },
]

export const personDetails = [
  { personId: 'person_rae', name: 'Rae Quillfeather', email: 'rae@harrow-lane.example', phone: null },
  { personId: 'person_ivo', name: 'Ivo Tanglewick', email: null, phone: null },
  { personId: 'person_pip', name: 'Pip Larkwhistle', email: null, phone: null },
]

const weekly = (weekdays: readonly number[], startsLocal: string, endsLocal: string) => ({
  kind: 'weekly',
  weekdays,
  startsLocal,
  endsLocal,
  firstDate: '2020-01-06',
  lastDate: null,
})
const person = (id: string) => ({ kind: 'person', personId: `person_${id}` })
const hands = (count: number) => ({ kind: 'hands', hands: count, skills: [], adults: true })

export const shifts = [
  { id: 'shift_rae', name: 'Rae', crew: person('rae'), times: weekly([2, 3, 4, 5, 6], '08:00', '23:00') },
  { id: 'shift_rae-sunday', name: 'Rae, Sunday', crew: person('rae'), times: weekly([7], '07:00', '16:00') },
  { id: 'shift_ivo', name: 'Ivo', crew: person('ivo'), times: weekly([1, 2, 3, 4, 5], '08:00', '18:00') },
  { id: 'shift_pip', name: 'Pip', crew: person('pip'), times: weekly([5], '20:30', '22:00') },
  { id: 'shift_friday', name: 'Friday crew', crew: hands(3), times: weekly([5], '20:30', '23:30') },
  { id: 'shift_saturday', name: 'Saturday crew', crew: hands(5), times: weekly([6], '10:00', '23:00') },
  { id: 'shift_sunday', name: 'Sunday crew', crew: hands(4), times: weekly([7], '07:00', '15:00') },
]

/** Days count from the Friday the demo is built around: 0 is that Friday, 1 the Saturday after it. */
export const closures = [
  {
    id: 'closure_garden-floor',
    sectionIds: ['section_garden'],
    from: { day: 5, local: '07:00' },
    to: { day: 61, local: '07:00' },
    reason: 'floor repair, eight weeks',
  },
]
