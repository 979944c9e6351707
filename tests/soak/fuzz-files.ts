import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { findCopies } from '../../electron/copies/find-copies.ts'
import { COPY_FILES } from '../../electron/copies/copy-paths.ts'
import { NO_SECRETS } from '../support/copies.ts'
import { restoreCopy } from '../../electron/copies/restore-copy.ts'
import type { Result } from '../../domain/refusal.ts'
import { createTestHost, type TestHost, type TestScreen } from '../support/host.ts'
import { manager } from '../support/workshop.ts'
import type { Strange } from './fuzz-strange.ts'
import { mutateBytes, mutateLines } from './fuzz-bytes.ts'
import { post } from './fuzz-commands.ts'
import { fixtures, packed, type Bag } from './fuzz-fixtures.ts'
import { toJsonText, type Json } from './fuzz-values.ts'
import type { World } from './fuzz-world.ts'

type FileDoor = 'csv' | 'image' | 'bag' | 'whole' | 'copy'
export type FileDoors = Readonly<Record<FileDoor, () => Promise<Strange>>> & {
  readonly close: () => Promise<void>
}

/** Files as they come from outside. Cars come to a host without any, whole workshops to one that is empty. */
export async function createFileDoors(world: World): Promise<FileDoors> {
  const { random } = world
  const to: { here?: Receiver; empty?: Receiver } = {}
  let count = 0
  const place = (): string => join(world.folder, `files-${(count += 1)}`)
  return {
    csv: async () => strangeTable(world),
    image: async () => {
      const image = mutateBytes(random.pick((await fixtures()).images), random)
      return { say: `PUT /photos ${toHex(image)}`, ask: () => world.manager.upload(image) }
    },
    bag: async () => {
      to.here ??= await receive({})
      const here = to.here
      await here.screen.signIn(manager).catch(() => {})
      const bytes = await strangeBag(world, (await fixtures()).car)
      const ask = () => bringIn(here, bytes.bytes, random.next() < BROUGHT_IN)
      return { say: `PUT /came-files ${bytes.say}`, ask, on: here.host }
    },
    whole: async () => {
      to.empty = await emptied(to.empty)
      const { host, screen } = to.empty
      const { say, bytes } = await strangeBag(world, (await fixtures()).whole)
      const ask = () => screen.request('/whole-workshop', { method: 'PUT', body: bytes })
      return { say: `PUT /whole-workshop ${say}`, ask, on: host }
    },
    copy: async () => strangeCopy(world, place()),
    close: async () => {
      await to.here?.host.close()
      await to.empty?.host.close()
    },
  }
}

/** Of the cars' files that are taken in. */
const BROUGHT_IN = 0.2

interface Receiver {
  readonly host: TestHost
  readonly screen: TestScreen
}

async function receive(options: { readonly setUp?: boolean }): Promise<Receiver> {
  const host = await createTestHost(options)
  return { host, screen: await host.openScreen() }
}

/** An empty host takes one workshop in. */
async function emptied(old: Receiver | undefined): Promise<Receiver> {
  if (old !== undefined) {
    const count = old.host.workshop.db.reader.sqlite.prepare('SELECT count(*) FROM journal').pluck().get()
    if (count === 0) return old
    await old.host.close()
  }
  return receive({ setUp: false })
}

async function bringIn(
  { screen }: Receiver,
  bytes: Uint8Array<ArrayBuffer>,
  isMeant: boolean,
): Promise<Response> {
  const came = await screen.request('/came-files', { method: 'PUT', body: bytes })
  if (!came.ok) return came
  const { fileId } = (await came.json()) as { readonly fileId: string }
  const order = isMeant
    ? { name: 'bringInCar', input: { fileId, commandId: `came-${fileId}`, shellNumber: null } }
    : { name: 'dropCameFile', input: { fileId } }
  return screen.request(`/trpc/${order.name}`, post(JSON.stringify(order.input)))
}

/** Bytes that were damaged on the way, or what a forger made: other content with all digests right. */
async function strangeBag({ random, mutator }: World, bag: Bag) {
  if (random.next() < 0.4) {
    const bytes = mutateBytes(bag.archive, random)
    return { bytes, say: `of ${bytes.length} bytes` }
  }
  const files = new Map<string, Uint8Array>(bag.files)
  const name = random.pick([...files.keys()])
  const text = bag.files.get(name)!.toString('utf8')
  const changed = name.endsWith('json') ? mutateDocument(text, random, mutator) : null
  const content = changed === null ? mutateBytes(bag.files.get(name)!, random) : Buffer.from(changed)
  if (random.next() < 0.1) files.delete(name)
  else files.set(name, content)
  return { bytes: await packed(bag, files), say: `${name}: ${(changed ?? '').slice(0, 2_000)}` }
}

/** One value, or one of the lines that each hold one. */
function mutateDocument(text: string, random: World['random'], { mutate }: World['mutator']): string {
  const lines = text.split('\n')
  try {
    return toJsonText(mutate(JSON.parse(text) as Json))
  } catch {
    const at = random.between(0, Math.max(0, lines.length - 2))
    const line = lines[at] ?? ''
    return lines.with(at, line === '' ? 'x' : toJsonText(mutate(JSON.parse(line) as Json))).join('\n')
  }
}

function strangeTable(world: World): Strange {
  const { random, mutator, manager: screen } = world
  const kind = random.pick(['cars', 'repairs', 'hours'] as const)
  const number = world.told() % 2 === 0 ? 'S-101' : `F-${random.between(1, 50)}`
  const text = mutateLines(TABLES[kind](number), random, mutator.text)
  const body = JSON.stringify({ kind, text, importId: crypto.randomUUID() })
  const path = random.next() < 0.5 ? '/trpc/importPreview' : '/trpc/importCommit'
  return { say: `POST ${path} ${body}`, ask: () => screen.request(path, post(body)) }
}

const TABLES = {
  cars: (number: string) =>
    `shell number;name;body;year;owner;phone;email;address;priority\r\n${number};Corran 5;van;1962;Ada Fell;1;a@b.example;Lane 1;2\n${number}b;Corran 2;tourer;;Ada Fell;;;;\n`,
  repairs: (number: string) =>
    `shell number,repair type,name,side,payer,covers\n${number},Boot floor,Outer,left,owner,Inner\n${number},Boot floor,Inner,,,\n`,
  hours: (number: string) =>
    `person;date;from;to;shell number;repair;gate;note\nIlse Brandt;24.11.2026;8:00;9,5;${number};Boot floor;metal;"a ""note"""\nIlse Brandt;2026-11-25;13:00;14:30;${number};Hanger;fitted;\n`,
}

/** The files of a copy, of which one is not what it was: listed, and then restored into a folder beside. */
async function strangeCopy({ random, mutator }: World, folder: string): Promise<Strange> {
  const { copy, stamp } = await fixtures()
  const paths = [...copy.keys()]
  const head = paths.find((path) => path.endsWith(COPY_FILES.head))!
  const changed = random.next() < 0.6 ? head : random.pick(paths)
  const old = copy.get(changed)!
  const bytes =
    changed === head && random.next() < 0.8
      ? Buffer.from(toJsonText(mutator.mutate(JSON.parse(old.toString('utf8')) as Json)))
      : mutateBytes(old, random)
  for (const [path, content] of copy) {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), path === changed ? bytes : content)
  }
  return {
    say: `a copy with another ${changed}: ${bytes.toString('latin1').slice(0, 2_000)}`,
    ask: async () => {
      try {
        return Response.json(await restored(folder, stamp))
      } finally {
        rmSync(folder, { recursive: true, force: true })
      }
    },
  }
}

async function restored(folder: string, stamp: string): Promise<Result<unknown>> {
  const [found] = await findCopies(folder)
  if (found === undefined) return { ok: false, refusal: NOT_LISTED }
  return restoreCopy({ store: found.store, stamp, secrets: NO_SECRETS }, join(folder, 'restored'))
}

const NOT_LISTED = { code: 'unknown', message: 'It is not listed.', next: 'Choose another one.' } as const

const toHex = (bytes: Uint8Array): string => Buffer.from(bytes.subarray(0, 1_500)).toString('hex')
