/** A layout asks for a state that a device cannot be brought to from where it is. */
import type { EquipmentId } from '../../domain/ids.ts'

export class StateUnreachable extends Error {
  override name = 'StateUnreachable'
  readonly equipmentId: EquipmentId
  readonly equipmentName: string
  readonly from: string
  readonly to: string

  constructor(equipmentId: EquipmentId, equipmentName: string, from: string, to: string) {
    super(`${equipmentName} cannot be brought from ${from} to ${to}`)
    this.equipmentId = equipmentId
    this.equipmentName = equipmentName
    this.from = from
    this.to = to
  }
}
