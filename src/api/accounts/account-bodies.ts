/** What is sent about accounts. */
import { z } from 'zod'
import { passwordFault } from '../../accounts/passwords.ts'
import { EmailAddress } from '../../domain/accounts/account.ts'
import { Name } from '../../domain/units.ts'
import { bodyFault, refuseFaults } from '../problems.ts'

/** Looked at as a whole only: what is wrong with it is said by `refuseWeakPassword`. */
export const Password = z
  .string()
  .min(1)
  .max(2_000)
  .meta({ description: '12 characters or more, none that many people have' })

export const Secret = z.string().min(1).max(200).meta({ description: 'What stands behind the # of the link' })

export const NewAccountBody = z.strictObject({
  link: Secret,
  email: EmailAddress,
  name: Name,
  password: Password,
})

/** @throws Problem invalid-input */
export function refuseWeakPassword(at: string, password: string, own: readonly string[]): void {
  const fault = passwordFault(password, own)
  refuseFaults(fault === null ? [] : [bodyFault(at, fault)])
}
