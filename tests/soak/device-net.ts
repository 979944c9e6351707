import { AsyncLocalStorage } from 'node:async_hooks'
import { Agent, request, type IncomingMessage } from 'node:http'

/**
 * The network as the screens' own client finds it in a browser, for many devices in one process: addresses without a host go
 * out by the line of the device that asks, with its cookie and the origin of its page.
 */
export interface DeviceNet {
  /** 'http://127.0.0.1:47831', as in the address bar. */
  readonly origin: string
  /** Where the device finds it: the port of its line. */
  readonly port: number
  readonly agent: Agent
  cookie: string
}

const asking = new AsyncLocalStorage<DeviceNet>()

/** Everything that `work` asks for goes out by this device's line. */
export const onDevice = <T>(net: DeviceNet, work: () => T): T => asking.run(net, work)

export function createDeviceNet(origin: string, port: number): DeviceNet {
  return { origin, port, agent: new Agent({ keepAlive: true, maxSockets: 6 }), cookie: '' }
}

/** Puts `window`, `fetch` and `XMLHttpRequest` where the client expects them; to be called before it is loaded. */
export function installDeviceNet(): void {
  globalThis.window ??= globalThis as typeof window
  globalThis.fetch = ask as typeof fetch
  globalThis.XMLHttpRequest = DeviceRequest as unknown as typeof XMLHttpRequest
}

const plainFetch = globalThis.fetch

async function ask(path: string, init: RequestInit = {}): Promise<Response> {
  const net = asking.getStore()
  if (net === undefined) return plainFetch(path, init)
  const { origin, port, agent, cookie } = net
  const body = init.body === undefined || init.body === null ? null : await new Response(init.body).bytes()
  const { promise, resolve, reject } = Promise.withResolvers<Response>()
  const headers = {
    ...Object.fromEntries(new Headers(init.headers)),
    host: new URL(origin).host,
    cookie,
    ...(init.method !== undefined && init.method !== 'GET' && { origin }),
    ...(body !== null && { 'content-length': String(body.byteLength) }),
  }
  const sent = request(
    { port, path, agent, headers, method: init.method ?? 'GET', setHost: false },
    (answer) => {
      readAll(answer).then(resolve, reject)
    },
  )
  init.signal?.addEventListener('abort', () => sent.destroy(new Error('stopped')))
  sent.once('error', reject)
  if (body === null) sent.end()
  else sent.end(body)
  return promise
}

/** @throws when the answer breaks off */
async function readAll(answer: IncomingMessage): Promise<Response> {
  const chunks = (await answer.toArray()) as Buffer[]
  if (!answer.complete) throw new Error('The answer broke off.')
  const headers = new Headers()
  for (let at = 0; at < answer.rawHeaders.length; at += 2)
    headers.append(answer.rawHeaders[at] ?? '', answer.rawHeaders[at + 1] ?? '')
  const status = answer.statusCode ?? 0
  return new Response(status === 204 || status === 303 ? null : Buffer.concat(chunks), { status, headers })
}

/** As much of it as the client uses. */
class DeviceRequest {
  readonly upload: { onprogress: ((event: object) => void) | null } = { onprogress: null }
  onload: (() => void) | null = null
  onerror: (() => void) | null = null
  onabort: (() => void) | null = null
  responseType = 'text'
  status = 0
  responseText = ''
  #method = ''
  #path = ''
  readonly #stopped = new AbortController()

  open(method: string, path: string): void {
    this.#method = method
    this.#path = path
  }

  send(body: Blob): void {
    this.upload.onprogress?.({ lengthComputable: true, loaded: 0, total: body.size })
    ask(this.#path, { method: this.#method, body, signal: this.#stopped.signal })
      .then(async (answer) => {
        this.status = answer.status
        this.responseText = await answer.text()
      })
      .then(
        () => this.onload?.(),
        () => this.onerror?.(),
      )
  }

  abort(): void {
    this.#stopped.abort()
    this.onabort?.()
  }
}
