import { aboutRow, type Found } from '../found.ts'
import type { SetupReading } from '../setup-reading.ts'

export function methodWithoutTrolley({ setup }: SetupReading): Found[] {
  return setup.furnishings
    .filter(({ method, trolley }) => method === 'trolley' && trolley === null)
    .map((furnishing) => ({
      code: 'method-without-trolley',
      about: aboutRow('furnishing', furnishing),
      message: `${furnishing.namePlural} go by trolley, and the site has no trolley for them`,
      fix: 'enter the trolleys and how many pieces one takes, or say that they are carried',
      field: '/trolley',
    }))
}
