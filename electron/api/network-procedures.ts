import type { Context } from 'hono'
import { z } from 'zod'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import { doorOf, isSecure } from './door.ts'
import { requireManagerHere, signedInManager } from './manager-here.ts'
import type { NetworkState } from './network-desk.ts'
import type { Asker } from './pairing.ts'
import { savedAs } from './saved-as.ts'
import { procedure } from './trpc.ts'

const openSchema = z.strictObject({ scheme: z.enum(['https', 'http']) })

/** The workshop network: how it stands, and its one switch. */
export function createNetworkProcedures(services: ApiServices) {
  const { network } = services.deps
  return {
    network: procedure.query(({ ctx }): NetworkState => {
      requireManagerHere(services, ctx.asker, managersOnly)
      return network.state()
    }),

    openNetwork: procedure.input(openSchema).mutation(async ({ input, ctx }): Promise<Result<true>> => {
      const allowed = mayArrange(services, ctx.asker)
      return allowed.ok ? network.open(input.scheme) : allowed
    }),

    closeNetwork: procedure.mutation(async ({ ctx }): Promise<Result<true>> => {
      const allowed = mayArrange(services, ctx.asker)
      if (allowed.ok) await network.close()
      return allowed
    }),
  }
}

/**
 * `GET /workshop-certificate.crt`: the authority's certificate, which a device trusts; for devices that are not paired yet, too.
 * Null where it is not to be had: by plain HTTP anybody on the way could put their own in its place.
 */
export function serveCertificate(c: Context, { network }: ApiServices['deps']): Response | null {
  const der = doorOf(c).isNetwork && !isSecure(c) ? null : network.certificate()
  if (der === null) return null
  return c.body(der, 200, savedAs('workshop-certificate.crt', 'application/x-x509-ca-cert'))
}

/** A device of the network could otherwise shut out all others, or open what it came in by wider. */
function mayArrange(services: ApiServices, asker: Asker): Result<true> {
  if (!asker.isHostsOwn) return notHere
  const manager = signedInManager(services, asker)
  return manager.ok ? ok(true) : manager
}

const notHere = refuse(
  'not-allowed',
  'The workshop network is opened and closed on the computer that Panelwright runs on.',
  'Open its own window there.',
)
const { refusal: managersOnly } = refuse(
  'not-allowed',
  'Only managers see how tablets reach Panelwright.',
  'Sign in with a manager’s code on this device.',
)
