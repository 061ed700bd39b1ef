/** The arrangements the rooms of the demo site are turned into. */
import { grid, posts, rows, stage } from './placements.ts'

const pieces = (count: Record<string, number>) =>
  Object.entries(count).map(([name, pieceCount]) => ({
    furnishingId: `furnishing_${name}`,
    count: pieceCount,
  }))
const state = (equipmentId: string, name: string) => ({
  equipmentId,
  setting: { kind: 'state', state: name },
})
const level = (equipmentId: string, levelPercent: number) => ({
  equipmentId,
  setting: { kind: 'level', levelPercent },
})

export const layouts = [
  {
    id: 'layout_long-games',
    roomId: 'room_long',
    name: 'games floor',
    kind: 'games',
    seats: null,
    furnishings: pieces({ 'post-pair': 2, chair: 20 }),
    placements: posts(6, [4.5, 13.3]),
    equipment: [],
  },
  {
    id: 'layout_long-banquet',
    roomId: 'room_long',
    name: 'banquet for 120',
    kind: 'banquet',
    seats: 120,
    furnishings: pieces({ 'round-table': 15, chair: 120, cloth: 15 }),
    placements: grid([2.2, 6, 9.8], [2, 5.2, 8.4, 11.6, 14.8]),
    equipment: [state('equipment_long-sound', 'speech'), level('equipment_long-lights', 60)],
    amplified: true,
  },
  {
    id: 'layout_long-worship',
    roomId: 'room_long',
    name: 'worship in rows',
    kind: 'worship',
    seats: 150,
    furnishings: pieces({ chair: 150, deck: 4, rail: 2 }),
    placements: [...rows(10, 6, 1.5, 1), ...stage(6, 14.6)],
    equipment: [
      state('equipment_long-sound', 'music'),
      state('equipment_long-projector', 'slides'),
      state('equipment_long-screen', 'down'),
    ],
    amplified: true,
  },
  {
    id: 'layout_long-overflow',
    roomId: 'room_long',
    name: 'overflow with relay',
    kind: 'overflow',
    seats: 180,
    furnishings: pieces({ chair: 180 }),
    placements: rows(12, 6, 1.5, 1),
    equipment: [
      state('equipment_long-sound', 'relay'),
      state('equipment_long-projector', 'relay'),
      state('equipment_long-screen', 'down'),
      level('equipment_long-lights', 40),
    ],
    amplified: true,
  },
  {
    id: 'layout_long-south-meeting',
    roomId: 'room_long-south',
    name: 'meeting in a circle',
    kind: 'meeting',
    seats: 40,
    furnishings: pieces({ chair: 40 }),
    equipment: [],
  },
  {
    id: 'layout_long-south-open',
    roomId: 'room_long-south',
    name: 'open floor, south half',
    kind: 'games',
    seats: null,
    furnishings: pieces({ 'post-pair': 1 }),
    equipment: [],
  },
  {
    id: 'layout_garden-meeting',
    roomId: 'room_garden',
    name: 'garden meeting',
    kind: 'meeting',
    seats: 30,
    furnishings: pieces({ chair: 30 }),
    equipment: [],
  },
  {
    id: 'layout_garden-banquet',
    roomId: 'room_garden',
    name: 'garden supper for 48',
    kind: 'banquet',
    seats: 48,
    furnishings: pieces({ 'round-table': 6, chair: 48, cloth: 6, 'place-setting': 48 }),
    placements: grid([2.2, 6, 9.8], [1.9, 5.1]),
    equipment: [],
  },
  {
    id: 'layout_upper-worship',
    roomId: 'room_upper',
    name: 'upper hall in rows',
    kind: 'worship',
    seats: 300,
    furnishings: pieces({ chair: 300 }),
    placements: rows(20, 8, 1.2, 0.92),
    equipment: [state('equipment_upper-sound', 'service'), state('equipment_upper-camera', 'relay')],
    amplified: true,
  },
]
