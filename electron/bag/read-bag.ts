import { stat } from 'node:fs/promises'
import { Writable, type Readable } from 'node:stream'
import { buffer } from 'node:stream/consumers'
import { pipeline } from 'node:stream/promises'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { archiveSource } from './archive-source.ts'
import { BagProblem, refusalOf } from './bag-problem.ts'
import type { BagInfo, BagLimits, OpenBag } from './bag-shapes.ts'
import { refuseBag, type BagSource } from './bag-source.ts'
import {
  checkDeclaration,
  DECLARATION,
  INFO,
  MANIFEST,
  PAYLOAD,
  readInfo,
  readManifest,
  SEND_AGAIN,
  TAG_MANIFEST,
} from './bag-tags.ts'
import { checkedStream } from './checked-stream.ts'
import { folderSource } from './folder-source.ts'

/** A manifest of 300,000 files has 60 MB. */
const MOST_TAG_BYTES = 64 * 1024 ** 2

/**
 * Opens and verifies a bag: a folder, or a `.zip`, told apart by what lies at `path`. Refuses, in words that say what to do:
 * what is no bag, a version that is not known, a changed, missing or unlisted file, a path that climbs out, links, an archive that
 * unpacks to more than it may.
 */
export async function readBag(path: string, limits: BagLimits): Promise<Result<OpenBag>> {
  let source: BagSource | null = null
  try {
    source = (await stat(path)).isDirectory()
      ? await folderSource(path, limits)
      : await archiveSource(path, limits)
    return ok(await verified(source))
  } catch (error) {
    await source?.close()
    return { ok: false, refusal: refusalOf(error) }
  }
}

async function verified(source: BagSource): Promise<OpenBag> {
  if (!source.sizes.has(DECLARATION))
    refuseBag(
      `This is no bag: there is no ${DECLARATION} in it.`,
      'Choose the folder that holds bagit.txt, or the .zip as it was sent.',
    )
  if (source.sizes.has('fetch.txt'))
    refuseBag(
      'A part of this bag is to be fetched from the network, which is not done here.',
      'Ask the sender for a bag that holds all of its files.',
    )
  taken(checkDeclaration(await textOf(source, DECLARATION)))
  const tags = await listed(source, TAG_MANIFEST)
  const payload = await listed(source, MANIFEST)
  const info = source.sizes.has(INFO) ? taken(readInfo(await textOf(source, INFO))) : []
  checkLists(source, payload, tags)
  checkOxum(source, payload, info)
  for (const [path, sha256] of [...tags, ...payload]) await drain(await openChecked(source, path, sha256))
  return openBag(source, payload, info, tags.get(MANIFEST) ?? '')
}

async function listed(source: BagSource, name: string): Promise<ReadonlyMap<string, string>> {
  if (!source.sizes.has(name)) refuseBag(`${name} is missing, so that this bag cannot be verified.`)
  return taken(readManifest(await textOf(source, name), name))
}

/** Every file stands in a list, and every listed file is there. */
function checkLists({ sizes }: BagSource, payload: Digests, tags: Digests): void {
  for (const path of payload.keys())
    if (!path.startsWith(PAYLOAD)) refuseBag(`${MANIFEST} lists ${path}, which does not lie in ${PAYLOAD}.`)
  for (const path of [...payload.keys(), ...tags.keys()])
    if (!sizes.has(path)) refuseBag(`${path} is missing from the bag.`)
  for (const path of sizes.keys()) {
    const list = path.startsWith(PAYLOAD) ? payload : tags
    if (path !== TAG_MANIFEST && !list.has(path))
      refuseBag(
        `${path} is in the bag, but not in its lists.`,
        'Take that file out if you put it there yourself; otherwise ask the sender for the file again.',
      )
  }
}

type Digests = ReadonlyMap<string, string>

/** Bytes and files of the payload, where the bag says how many they are. */
function checkOxum({ sizes }: BagSource, payload: Digests, info: BagInfo): void {
  const said = info.find(([label]) => label.toLowerCase() === 'payload-oxum')?.[1]
  if (said === undefined) return
  const bytes = [...payload.keys()].reduce((sum, path) => sum + (sizes.get(path) ?? 0), 0)
  if (said !== `${bytes}.${payload.size}`)
    refuseBag(`The bag says it holds ${said} (bytes.files), but it holds ${bytes}.${payload.size}.`)
}

function openBag(source: BagSource, payload: Digests, info: BagInfo, manifest: string): OpenBag {
  const files = new Map(
    [...payload].map(([path, sha256]) => [
      path.slice(PAYLOAD.length),
      { bytes: source.sizes.get(PAYLOAD + path.slice(PAYLOAD.length)) ?? 0, sha256 },
    ]),
  )
  // What is read later is verified again on the way: a folder may be changed after it was verified.
  const read = async (path: string): Promise<Readable> => {
    const file = files.get(path)
    if (!file) throw new Error(`The bag holds no ${PAYLOAD}${path}.`)
    return openChecked(source, PAYLOAD + path, file.sha256)
  }
  return {
    info,
    manifest,
    files,
    read,
    readText: (path, most) => readText(files, read, path, most),
    close: source.close,
  }
}

async function readText(
  files: OpenBag['files'],
  read: OpenBag['read'],
  path: string,
  mostBytes: number,
): Promise<Result<string>> {
  const file = files.get(path)
  if (!file) return refuse('bad-input', `${PAYLOAD}${path} is missing from the bag.`, SEND_AGAIN)
  if (file.bytes > mostBytes)
    return refuse('bad-input', `${PAYLOAD}${path} is larger than may be.`, SEND_AGAIN)
  try {
    return ok(decode(await buffer(await read(path)), PAYLOAD + path))
  } catch (error) {
    return { ok: false, refusal: refusalOf(error) }
  }
}

async function textOf(source: BagSource, path: string): Promise<string> {
  if ((source.sizes.get(path) ?? 0) > MOST_TAG_BYTES) refuseBag(`${path} is larger than may be.`)
  try {
    return decode(await buffer(await source.open(path)), path)
  } catch (error) {
    throw asChanged(error, path)
  }
}

/** The file as it comes; its end is an error when it is not what the bag says. */
async function openChecked(source: BagSource, path: string, sha256: string): Promise<Readable> {
  const content = await source.open(path).catch((error: unknown) => {
    throw asChanged(error, path)
  })
  return checkedStream(content, sha256, (error) => asChanged(error, path))
}

/** Archives tell of a broken file by errors of their own, which carry no code of the system or one of the unpacker. */
function asChanged(error: unknown, path: string): Error {
  if (error instanceof BagProblem) return error
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const isOfDisk = code !== '' && !code.startsWith('Z_') && !code.startsWith('ERR_')
  return isOfDisk && error instanceof Error ? error : changed(path)
}

function changed(path: string): BagProblem {
  return new BagProblem({
    code: 'bad-input',
    message: `${path} is not what it was when the bag was made: it was changed or damaged.`,
    next: SEND_AGAIN,
  })
}

function decode(bytes: Uint8Array, path: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return refuseBag(`${path} is not written in UTF-8.`)
  }
}

async function drain(content: Readable): Promise<void> {
  const nowhere = new Writable({ write: (_chunk, _encoding, done) => done() })
  await pipeline(content, nowhere)
}

/** The value. @throws BagProblem with the refusal */
function taken<T>(result: Result<T>): T {
  if (!result.ok) throw new BagProblem(result.refusal)
  return result.value
}
