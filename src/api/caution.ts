/** What the service always says beside its numbers. */
export const CAUTION =
  'Times and hands are estimates. Lifting, ladders, rigging, electrics and occupancy can hurt people: the numbers ' +
  'are planning aids; the posted occupant limit, the local fire and building code, the fire marshal, the ' +
  "manufacturer's instructions and qualified people decide."
