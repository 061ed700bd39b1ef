/** Who has which role in a site, and who is invited. */
import { z } from 'zod'
import { makeLink } from '../../accounts/one-time-links.ts'
import { EmailAddress } from '../../domain/accounts/account.ts'
import { OneTimeLink } from '../../domain/accounts/one-time-link.ts'
import { Role, RoleGiven } from '../../domain/accounts/role.ts'
import { ActorId, PersonId } from '../../domain/ids.ts'
import { Instant, instantPlusSeconds } from '../../domain/instant.ts'
import { jsonAnswer, send } from '../answer.ts'
import { type ApiContext, setupFor } from '../context.ts'
import { bodyFault, invalidInput, unknownResource } from '../problems.ts'
import { problemResponses, SiteParams } from '../route-schemas.ts'
import type { Api } from '../zod-requests.ts'

const DAY_SECONDS = 86_400

const MemberAnswer = z.object({
  accountId: ActorId,
  name: z.string().nullable(),
  email: z.string().nullable(),
  role: Role,
  personId: PersonId.nullable(),
})
const MemberPatch = z.strictObject({ role: RoleGiven.optional(), personId: PersonId.nullable().optional() })
const Invitation = OneTimeLink.omit({ purpose: true, accountId: true })
const InvitationBody = z.strictObject({
  role: RoleGiven,
  personId: PersonId.nullable().default(null).meta({ description: 'Who of the crew list they are' }),
  email: EmailAddress.nullable().default(null).meta({ description: 'Where the link is sent; null: nowhere' }),
  days: z.int().min(1).max(30).default(7).meta({ description: 'So long it holds' }),
})
const ItemParams = SiteParams.extend({ id: z.string() })

export function memberRoutes(api: Api, context: ApiContext): void {
  const { accounts } = context
  const { store } = accounts
  const SITE = '/v1/sites/:site'

  api.get(
    `${SITE}/members`,
    {
      schema: {
        tags: ['accounts'],
        summary: 'Who has which role in the site, by name',
        params: SiteParams,
        response: { 200: z.object({ items: z.array(MemberAnswer) }), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { site } = await setupFor(context, request.actor, request.params.site)
      const items = (await store.members(site.id)).flatMap(({ id, details, memberships }) =>
        memberships
          .filter(({ siteId }) => siteId === site.id)
          .map(({ role, personId }) => ({
            accountId: id,
            name: details?.name ?? null,
            email: details?.email ?? null,
            role,
            personId,
          })),
      )
      return send(reply, jsonAnswer(200, { items }, site.zone))
    },
  )

  /** @throws Problem unknown-resource */
  async function memberOf(siteId: string, id: string) {
    const accountId = ActorId.safeParse(id)
    const account = accountId.success ? await store.account(accountId.data) : null
    const membership = account?.memberships.find((one) => one.siteId === siteId)
    if (!account || !membership) throw unknownResource('member', id)
    return { account, membership }
  }

  api.patch(
    `${SITE}/members/:id`,
    {
      schema: {
        tags: ['accounts'],
        summary: 'Give somebody another role, or say who of the crew list they are',
        params: ItemParams,
        body: MemberPatch,
        response: { 200: MemberAnswer, ...problemResponses },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const { account, membership } = await memberOf(setup.site.id, request.params.id)
      const { role = membership.role, personId = membership.personId } = request.body
      refuseUnknownPerson(setup.people, personId)
      const after = { siteId: setup.site.id, role, personId }
      await store.setMembership(account.id, after, {
        siteId: setup.site.id,
        at: context.clock(),
        actorId: request.actor.id,
        action: 'change-member',
        effects: [{ table: 'membership', id: account.id, before: membership, after }],
      })
      const { name = null, email = null } = account.details ?? {}
      return send(
        reply,
        jsonAnswer(200, { accountId: account.id, name, email, role, personId }, setup.site.zone),
      )
    },
  )

  api.delete(
    `${SITE}/members/:id`,
    {
      schema: {
        tags: ['accounts'],
        summary: 'Take somebody’s role in the site away; the account stays',
        params: ItemParams,
        response: { 204: z.undefined(), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { site } = await setupFor(context, request.actor, request.params.site)
      const { account, membership } = await memberOf(site.id, request.params.id)
      await store.endMembership(account.id, site.id, {
        siteId: site.id,
        at: context.clock(),
        actorId: request.actor.id,
        action: 'remove-member',
        effects: [{ table: 'membership', id: account.id, before: membership, after: null }],
      })
      return reply.code(204).send()
    },
  )

  api.get(
    `${SITE}/invitations`,
    {
      schema: {
        tags: ['accounts'],
        summary: 'Invitations, oldest first, those used, revoked or over too',
        params: SiteParams,
        response: { 200: z.object({ items: z.array(Invitation) }), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { site } = await setupFor(context, request.actor, request.params.site)
      const items = (await store.invitations(site.id)).map(invitationAnswer)
      return send(reply, jsonAnswer(200, { items }, site.zone))
    },
  )

  api.post(
    `${SITE}/invitations`,
    {
      schema: {
        tags: ['accounts'],
        summary: 'Invite somebody: the link is shown once, and sent where an address is given',
        params: SiteParams,
        body: InvitationBody,
        response: {
          201: Invitation.extend({ url: z.string(), expiresAt: Instant }),
          ...problemResponses,
        },
      },
    },
    async (request, reply) => {
      const setup = await setupFor(context, request.actor, request.params.site)
      const { site } = setup
      const { role, personId, email, days } = request.body
      refuseUnknownPerson(setup.people, personId)
      const at = context.clock()
      const { link, url } = await makeLink(
        accounts,
        {
          purpose: 'invitation',
          siteId: site.id,
          role,
          personId,
          createdBy: request.actor.id,
          expiresAt: instantPlusSeconds(at, days * DAY_SECONDS),
        },
        (made) => ({
          siteId: site.id,
          at,
          actorId: request.actor.id,
          action: 'invite',
          effects: [{ table: 'invitation', id: made.id, before: null, after: invitationAnswer(made) }],
        }),
      )
      if (email !== null)
        await accounts.mail.send({
          to: email,
          subject: `You are invited to ${site.name}`,
          text: `With this link you take part in ${site.name} as ${role}:\n\n${url}\n\nIt counts once, for ${days} days.\n`,
        })
      return send(reply, jsonAnswer(201, { ...invitationAnswer(link), url }, site.zone))
    },
  )

  api.delete(
    `${SITE}/invitations/:id`,
    {
      schema: {
        tags: ['accounts'],
        summary: 'Revoke an invitation',
        params: ItemParams,
        response: { 204: z.undefined(), ...problemResponses },
      },
    },
    async (request, reply) => {
      const { site } = await setupFor(context, request.actor, request.params.site)
      const { id } = request.params
      const at = context.clock()
      const isRevoked = await store.revokeInvitation(site.id, id, at, {
        siteId: site.id,
        at,
        actorId: request.actor.id,
        action: 'revoke-invitation',
        effects: [{ table: 'invitation', id, before: { revokedAt: null }, after: { revokedAt: at } }],
      })
      if (!isRevoked) throw unknownResource('invitation in force', id)
      return reply.code(204).send()
    },
  )
}

const invitationAnswer = ({ purpose: _, accountId: __, ...link }: OneTimeLink) => link

function refuseUnknownPerson(people: readonly { readonly id: string }[], personId: string | null): void {
  if (personId !== null && !people.some(({ id }) => id === personId))
    throw invalidInput([bodyFault('/personId', `there is no person ${personId} in this site`)])
}
