import { readAllCars } from '../../db/reads.ts'
import type { Strange } from './fuzz-strange.ts'
import type { World } from './fuzz-world.ts'

/** A request by a plain address, with a path, a query, a method or headers that no screen sends. */
export function strangeAddress(world: World): Strange {
  const { random, host } = world
  const path = strangePath(world)
  const method = random.next() < 0.75 ? 'GET' : random.pick(METHODS)
  const screen = random.pick([world.manager, world.manager, world.technician, null])
  const headers: Record<string, string> = {}
  for (let left = random.between(0, 3); left > 0; left--) {
    const [name, values] = random.pick(HEADERS)
    headers[name] = random.pick(values)
  }
  if (screen !== null && headers['cookie'] === undefined) headers['cookie'] = screen.cookie
  if (method !== 'GET' && headers['origin'] === undefined) headers['origin'] = `http://${host.authority}`
  const body = method === 'GET' || method === 'HEAD' ? null : random.pick(BODIES)
  return {
    say: `${method} ${path} ${JSON.stringify({ ...headers, cookie: undefined })} ${body ?? ''}`,
    ask: () => host.handler(new Request(`http://${host.authority}${path}`, { method, headers, body })),
  }
}

function strangePath(world: World): string {
  const { random, mutator } = world
  const places = placesOf(world)
  let path = random.pick(places)
  for (let left = random.between(0, 3); left > 0; left--) {
    const parts = path.split('/')
    const at = random.between(1, parts.length - 1)
    const part = parts[at] ?? ''
    const other = random.pick<() => string>([
      () => random.pick(TRICKS),
      () => encodeURIComponent(mutator.text(decodeURIComponent(part.replaceAll('%', ''))).toWellFormed()),
      () => part.replace(/[a-z0-9]/i, (letter) => `%${letter.charCodeAt(0).toString(16)}`),
      () => `${part}${random.pick(['.pdf', '.html', '.json', '%', '%2', '%zz', ';a=b', '~', '.'])}`,
      () => random.pick(random.pick(places).split('/')),
      () => '',
    ])()
    path = parts.with(at, other).join('/')
  }
  if (random.next() < 0.4) path += `${path.includes('?') ? '&' : '?'}${random.pick(QUERIES)}`
  return path
}

function placesOf({ host: { workshop } }: World): readonly string[] {
  const car = readAllCars(workshop.db)[0]
  const carId = car?.id ?? 'car-s-101'
  const sha256 = car?.attachments.values().next().value?.sha256 ?? 'a'.repeat(64)
  const watch = '00000000-0000-4000-8000-000000000000'
  return [
    '/',
    '/pair?code=ABCD2345',
    '/workshop-certificate.crt',
    '/service-worker.js',
    '/assets/index-Ab12.js',
    `/cars/${carId}`,
    ...['thumb', 'screen', 'original'].map((size) => `/photos/${sha256}/${size}`),
    ...['pdf', 'html', 'eml'].map((as) => `/reports/report-week-48.${as}`),
    ...['pdf', 'html', 'json'].map((as) => `/report-preview/visit-s-101/2026-W48.${as}`),
    ...['all.xlsx', 'entries.csv', 'gate.csv'].map((file) => `/variance/${file}`),
    ...['pdf', 'json'].map((as) => `/estimate/${carId}.${as}`),
    `/variations/${carId}/variation-one.json`,
    `/car-files/${carId}.zip?watch=${watch}`,
    '/whole-workshop.zip',
    ...['hours.csv', 'gates.csv', 'variations.xlsx'].map(
      (file) => `/take-out/${file}?from=2026-11-01&to=2026-12-31`,
    ),
    '/plan/person/person-welder.pdf',
    '/plan/bay/bay-metal-1.ics',
    '/photos',
    '/came-files',
    '/trpc/session',
    '/trpc/session,cars?batch=1&input=%7B%7D',
    '/trpc/signOut',
    '/trpc/command',
    '/trpc/revisions',
  ]
}

const METHODS = ['HEAD', 'POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'PROPFIND']
const BODIES = [
  '',
  '{}',
  '{',
  'null',
  '[[[[',
  '"x"',
  '{"0":{}}',
  'a=b&a=c',
  '\u0000',
  '1e400',
  'x'.repeat(70_000),
]
const TRICKS = [
  '..',
  '%2e%2e',
  '..%2f..%2fprivate%2fcode-key',
  '..%5c..%5cworkshop.db',
  '%00',
  '%c0%ae',
  '%ff',
  '%E2%80%AE',
  'workshop.db',
  'a'.repeat(64),
  'A'.repeat(3_000),
  '__proto__',
  'constructor',
  'toString.csv',
  'constructor.xlsx',
  '*',
  '{file}',
]
const QUERIES = [
  'input=',
  'input=%7B',
  'input=%7B%220%22%3Anull%7D',
  'batch=1',
  'batch=1&input=%5B%5D',
  'enter=wrong',
  'enter=&enter=a',
  'code=%00%ff',
  'from=2026-02-30',
  'to=9999-99-99',
  'from=a&from=b',
  '__proto__[x]=1',
  'watch=x',
  'contacts=2',
  'lastEventId=9999999999999999',
  'x='.repeat(500),
  '%',
]
const HEADERS: readonly (readonly [string, readonly string[]])[] = [
  ['range', ['bytes=0-0', 'bytes=-1', 'bytes=9999999-', 'bytes=5-2', 'bytes=0-1,3-4', 'x']],
  ['accept', ['text/event-stream', 'application/jsonl', '*/*', 'x', '']],
  [
    'content-type',
    [
      'application/json',
      'text/plain',
      'multipart/form-data',
      'multipart/form-data; boundary=x',
      'x',
      'application/x-www-form-urlencoded',
      'application/octet-stream',
    ],
  ],
  ['content-length', ['0', '-1', '99999999999', 'x']],
  ['host', ['evil.example', '127.0.0.1', '']],
  ['origin', ['null', 'http://evil.example', '', 'x']],
  ['sec-fetch-site', ['cross-site', 'same-site', 'none', 'x']],
  ['cookie', ['panelwright-test=x', '=', ';;;', 'panelwright-test=%', `a=${'b'.repeat(9_000)}`]],
  ['if-none-match', ['*', '"x"']],
  ['last-event-id', ['-1', 'x', '999999999999999999999']],
  ['trpc-accept', ['application/jsonl', 'x']],
  ['x-forwarded-host', ['evil.example']],
  ['transfer-encoding', ['chunked']],
]
