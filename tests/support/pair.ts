import { screenWith, type TestHost, type TestScreen } from './host.ts'

export interface PairedDevice extends TestScreen {
  /** The whole header that it was given. */
  readonly setCookie: string
}

/** Asks as a browser would that has only this cookie: a form when there is a body. */
export function askWith(
  host: TestHost,
  path: string,
  {
    body,
    headers = {},
    address,
  }: {
    readonly body?: Readonly<Record<string, string>>
    readonly headers?: Readonly<Record<string, string>>
    readonly address?: string
  },
): Promise<Response> {
  const sent = body === undefined ? {} : { method: 'POST', body: new URLSearchParams(body) }
  const origin: Record<string, string> = body === undefined ? {} : { origin: `http://${host.authority}` }
  const request = new Request(`http://${host.authority}${path}`, {
    ...sent,
    headers: { ...origin, ...headers },
  })
  return host.handler(request, address === undefined ? undefined : { address })
}

/** A new device that gives this code. @throws when it is not let in */
export async function pairWith(
  host: TestHost,
  form: { readonly code: string; readonly name: string },
): Promise<PairedDevice> {
  const answer = await askWith(host, '/pair', { body: form })
  const setCookie = answer.headers.get('set-cookie')
  if (answer.status !== 303 || setCookie === null) throw new Error(`Not let in (answer ${answer.status}).`)
  return { ...screenWith(host.handler, host.workshop, setCookie.split(';')[0] ?? ''), setCookie }
}

/** Shows a pairing code on a signed-in manager's screen. @throws when it is refused */
export async function showPairingCode({ client }: TestScreen) {
  const shown = await client.pairingCode.mutate()
  if (!shown.ok) throw new Error(shown.refusal.message)
  return shown
}
