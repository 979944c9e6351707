import { once } from 'node:events'
import type { IncomingMessage } from 'node:http'
import { Agent, request } from 'node:https'
import { networkInterfaces } from 'node:os'
import { createTRPCClient, httpLink } from '@trpc/client'
import { DEMO_CODES, demoPersonId } from '../../domain/demo-codes.ts'
import { personIdSchema } from '../../domain/ids.ts'
import type { AppRouter } from '../../electron/api/router.ts'
import { privateAddresses } from '../../electron/network/private-addresses.ts'
import type { MeasuredHost } from './measured-host.ts'

/** Sends a photo and waits until it is stored. @throws when it is refused */
export type SendPhoto = (photo: Uint8Array<ArrayBuffer>) => Promise<void>

/** Whether this computer has an address at which the network can be opened. */
export const isInNetwork = (): boolean => privateAddresses(networkInterfaces()).length > 0

/** Opens the network of a host on the demo workshop and lets so many tablets in, which trust its authority and nothing else. */
export async function pairTablets(
  { origin, cookie }: MeasuredHost,
  count: number,
): Promise<readonly SendPhoto[]> {
  const client = createTRPCClient<AppRouter>({
    links: [httpLink({ url: `${origin}/trpc`, headers: { cookie, origin } })],
  })
  await client.signIn.mutate({
    personId: personIdSchema.parse(demoPersonId('maren')),
    code: DEMO_CODES.maren,
  })
  const opened = await client.openNetwork.mutate({ scheme: 'https' })
  if (!opened.ok) throw new Error(opened.refusal.message)
  const der = await (await fetch(`${origin}/workshop-certificate.crt`, { headers: { cookie } })).bytes()
  const tablets: SendPhoto[] = []
  for (let at = 0; at < count; at += 1) {
    const code = await client.pairingCode.mutate()
    if (!code.ok) throw new Error(code.refusal.message)
    tablets.push(await pairTablet(new URL(code.links[0] ?? ''), der, `Tablet ${at + 1}`))
  }
  return tablets
}

async function pairTablet(link: URL, authority: Uint8Array, name: string): Promise<SendPhoto> {
  const ca = `-----BEGIN CERTIFICATE-----\n${Buffer.from(authority).toString('base64')}\n-----END CERTIFICATE-----\n`
  const agent = new Agent({ keepAlive: true, ca })
  const { origin } = link
  const ask = async (
    method: 'POST' | 'PUT',
    path: string,
    headers: Record<string, string>,
    body: string | Uint8Array,
  ): Promise<IncomingMessage> => {
    const length = String(Buffer.byteLength(body))
    const asked = request(new URL(path, origin), {
      method,
      agent,
      headers: { origin, 'content-length': length, ...headers },
    })
    asked.end(body)
    const [answer] = (await once(asked, 'response')) as [IncomingMessage]
    answer.resume()
    return answer
  }
  const form = new URLSearchParams({ code: link.searchParams.get('code') ?? '', name }).toString()
  const type = 'application/x-www-form-urlencoded'
  const paired = await ask('POST', '/pair', { 'content-type': type }, form)
  const cookie = paired.headers['set-cookie']?.[0]?.split(';')[0]
  if (cookie === undefined) throw new Error(`A tablet was not let in (${paired.statusCode}).`)
  return async (photo) => {
    const { statusCode } = await ask('PUT', '/photos', { cookie }, photo)
    if (statusCode !== 200) throw new Error(`A photo was refused (${statusCode}).`)
  }
}
