import type { Context } from 'hono'
import { z } from 'zod'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import { doorOf, isSecure } from './door.ts'
import type { NetworkState } from './network-desk.ts'
import { savedAs } from './saved-as.ts'
import { procedure } from './trpc.ts'

const openSchema = z.strictObject({ scheme: z.enum(['https', 'http']) })

/** The workshop network: how it stands, and its one switch. */
export function createNetworkProcedures({ deps: { network } }: ApiServices) {
  return {
    network: procedure.query((): NetworkState => network.state()),

    openNetwork: procedure.input(openSchema).mutation(async ({ input, ctx }): Promise<Result<true>> => {
      return ctx.asker.isHostsOwn ? network.open(input.scheme) : notHere
    }),

    closeNetwork: procedure.mutation(async ({ ctx }): Promise<Result<true>> => {
      if (!ctx.asker.isHostsOwn) return notHere
      await network.close()
      return ok(true)
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
const notHere = refuse(
  'not-allowed',
  'The workshop network is opened and closed on the computer that Panelwright runs on.',
  'Open its own window there.',
)
