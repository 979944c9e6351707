import { isAbsolute, join } from 'node:path'
import { BANDS_WHEN } from '../../domain/facts/agreement-facts.ts'
import type { AppRouter } from '../../electron/api/router.ts'
import { everyInput, proceduresOfRouter, type Inputs, type QueryName } from '../support/every-view.ts'
import { choicesOf } from '../support/owner-report.ts'
import { manager, welder } from '../support/workshop.ts'
import type { Strange } from './fuzz-strange.ts'
import { post } from './fuzz-commands.ts'
import { toJsonText, type Json } from './fuzz-values.ts'
import type { World } from './fuzz-world.ts'

type ProcedureName = keyof AppRouter['_def']['procedures']
type Mutations = Exclude<ProcedureName, QueryName | 'revisions' | 'command'>

const id = '00000000-0000-4000-8000-000000000000'
const ofReport = { visitId: 'visit-s-101', week: '2026-W48' } as const
const csv = 'shell number;name;body;owner\nI-1;Corran 5;van;Ada Fell'

/** What each call that changes something is asked with when all is well; a new one stands here too. */
const usual: { readonly [M in Mutations]: unknown } = {
  signIn: { personId: manager, code: '314159' },
  signOut: null,
  importPreview: { kind: 'cars', text: csv, importId: id },
  importCommit: { kind: 'cars', text: csv, importId: id },
  bringInCar: { fileId: id, commandId: id, shellNumber: null },
  dropCameFile: { fileId: id },
  stopCarFile: { watch: id },
  cardProposal: { sha256s: ['a'.repeat(64)], carId: 'car-s-101', by: welder, reference: null },
  draftReport: { ...ofReport, choices: choicesOf() },
  prepareReport: ofReport,
  issueReport: { ...ofReport, choices: choicesOf(), reportId: id, commandId: id },
  tryWhatIf: { whatIfs: [{ kind: 'person off', personId: welder, from: '2026-11-30', to: '2026-12-01' }] },
  startDemo: null,
  startCheck: null,
  stopCheck: null,
  mendChecked: { from: null },
  setCopies: { folder: 'copies', schedule: null, warnAfterDays: 3, passphrase: null },
  makeCopy: null,
  verifyCopy: { stamp: '2026-11-28T18-00-05Z', passphrase: null },
  restoreRead: null,
  stopCopy: null,
  restoreCopy: { folder: 'copies', stamp: '2026-11-28T18-00-05Z', passphrase: null },
  stopRestoring: null,
  openNetwork: { scheme: 'https' },
  closeNetwork: null,
  setUpdates: { address: null },
  lookForUpdate: null,
  pairingCode: null,
  renameDevice: { deviceId: 'device-unknown', name: 'Mine' },
  shutOutDevice: { deviceId: 'device-unknown' },
}

/** They start work that goes on after their answer, and have tests of their own. */
const HEAVY: readonly string[] = [
  'issueReport',
  'prepareReport',
  'draftReport',
  'makeCopy',
  'startCheck',
  'mendChecked',
]

/** A call of the api, told apart from the others by the router, asked with what is not quite right. */
export function strangeCall(world: World): Strange {
  const { random, mutator } = world
  const names = [...proceduresOfRouter()].filter(([name]) => name !== 'command')
  let [name, type] = random.pick(names)
  if (HEAVY.includes(name) && random.next() < 0.8) [name, type] = random.pick(names)
  const plain = type === 'mutation' ? usual[name as Mutations] : inputOf(world, name)
  const strange = random.next() < 0.15 ? (plain as Json) : mutator.mutate(plain as Json)
  const body = toJsonText(withinFolder(world, strange))
  const screen = random.next() < 0.3 ? world.technician : world.manager
  const path = `/trpc/${name}`
  return type === 'mutation'
    ? { say: `POST ${path} ${body}`, ask: () => screen.request(path, post(body)) }
    : {
        say: `GET ${path}?input=${body}`,
        ask: () => screen.request(`${path}?input=${encodeURIComponent(toWellFormed(body))}`),
      }
}

function inputOf({ host: { workshop }, random }: World, name: string): unknown {
  if (name === 'revisions') return { lastEventId: '12' }
  const inputs = everyInput[name as QueryName](workshop.db) as readonly Inputs[QueryName][]
  if (inputs.length > 0) return inputs[random.between(0, inputs.length - 1)] ?? null
  return { carId: 'car-s-101', sha256: 'a'.repeat(64), grouping: 'gate', key: 'opened', when: BANDS_WHEN[0] }
}

const FOLDER_KEYS = ['folder', 'from']

/** No folder of the computer but the world's own is named: the host would write into it. */
function withinFolder({ folder }: World, value: Json): Json {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value
  const entries = Object.entries(value) as [string, Json][]
  if (!entries.some(([key, each]) => FOLDER_KEYS.includes(key) && typeof each === 'string')) return value
  return Object.fromEntries(
    entries.map(([key, each]) =>
      FOLDER_KEYS.includes(key) && typeof each === 'string' && !/^\d{4}-/.test(each)
        ? [key, isAbsolute(each) || each.includes('..') ? folder : join(folder, each)]
        : [key, each],
    ),
  ) as Json
}

/** An address holds no half of a character. */
const toWellFormed = (text: string): string => text.toWellFormed()
