/** docs/access.md as it must be: the table that is enforced, for people. */
import { type Access, accessTable } from '../../src/api/access/access-table.ts'
import { Role } from '../../src/domain/accounts/role.ts'

const cells = (access: Access): string[] => {
  if (access === 'anyone') return ['yes', ...Role.options.map(() => 'yes')]
  if (access === 'signed-in') return ['', ...Role.options.map(() => 'yes')]
  if (access === 'keepers') return ['', ...Role.options.map(() => '')]
  return ['', ...Role.options.map((role) => (access.includes(role) ? 'yes' : ''))]
}

export function accessPage(): string {
  const rows = Object.entries(accessTable).map(([route, access]) => {
    const note = access === 'keepers' ? ' (keepers)' : ''
    return `| \`${route}\`${note} | ${cells(access).join(' | ')} |`
  })
  return `# Who may use which route

This is the table that the service enforces (\`src/api/access/access-table.ts\`); a route without a line does not start. HEAD is
allowed where GET is. Roles are those in the site that the path names: whoever has none there is answered 404, as if there
were no such site; whoever has another is answered 403, and whoever has not signed in 401. Where no site is named, \`yes\`
stands for everybody who has signed in.

Whoever keeps the whole installation (the first account, and tokens of every site) is administrator of every site and may do
what is marked (keepers). The visitor of the demo is coordinator of its site.

The role of requester is not given out yet: it will see its own bookings, and of all others only when a room is taken.
Contacts of people are for coordinators and administrators.

| route | without an account | ${Role.options.join(' | ')} |
| --- | ${['', ...Role.options].map(() => '---').join(' | ')} |
${rows.join('\n')}
`
}
