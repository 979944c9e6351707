import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import type { CommandKind, CommandPayload } from '../../../domain/commands/command-shapes.ts'
import { personIdSchema } from '../../../domain/ids.ts'
import { callerOf, calls, permissions } from '../../../domain/roles.ts'
import { proceduresOfRouter } from '../../support/every-view.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { choicesOf } from '../../support/owner-report.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
/** Nobody is signed in on it. */
let empty: TestScreen
let technicians: TestScreen
let managers: TestScreen
beforeAll(async () => {
  host = await createTestHost()
  empty = await host.openScreen()
  technicians = await host.openScreen()
  await technicians.signIn(welder)
  managers = await host.openScreen()
  await managers.signIn(manager)
})
afterAll(() => host.close())
afterEach(() => {
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

/** What is said is not looked at before it is known who says it: 'bad-input' is as far as the rules of the workshop. */
const nothing = {} as CommandPayload<CommandKind>
const LET_THROUGH = 'bad-input'
const stranger = personIdSchema.parse('person-stranger')
type Sent = Parameters<TestScreen['send']>[2]
const answerTo = async (screen: TestScreen, kind: CommandKind, sent: Sent) => {
  const answer = await screen.send(kind, nothing, sent)
  return answer.ok ? 'accepted' : answer.refusal.code
}

/** What comes from the host alone, or before there is a workshop, has its own tests. */
const lines = (Object.keys(permissions) as CommandKind[])
  .filter((kind) => kind !== 'issueReport' && permissions[kind].proof !== 'first')
  .map((kind) => {
    const { roles, proof } = permissions[kind]
    return { kind, proof, isForTechnicians: roles.includes('technician') }
  })

describe('each line of the table of permissions', () => {
  test.each(lines)('$kind is refused where nobody is named who works here', async ({ kind }) => {
    for (const screen of [empty, technicians, managers])
      for (const by of [null, stranger])
        expect(await answerTo(screen, kind, { by, code: null })).toBe('not-allowed')
  })

  test.each(lines)('$kind by a technician who is signed in', async ({ kind, proof, isForTechnicians }) => {
    const unsigned = isForTechnicians ? (proof === 'code' ? 'wrong-code' : LET_THROUGH) : 'not-allowed'
    expect(await answerTo(technicians, kind, { by: welder, code: null })).toBe(unsigned)
    if (proof !== 'code') return
    const signed = isForTechnicians ? LET_THROUGH : 'not-allowed'
    expect(await answerTo(technicians, kind, { by: welder, code: '2718' })).toBe(signed)
  })

  test.each(lines)('$kind by a technician who says to be the manager', async ({ kind, proof }) => {
    const claimed = { named: LET_THROUGH, session: 'not-allowed', code: 'wrong-code', first: '' }[proof]
    expect(await answerTo(technicians, kind, { by: manager, code: null })).toBe(claimed)
  })

  test.each(lines)(
    '$kind by a manager who is signed in, and by one who gives the code',
    async ({ kind, proof }) => {
      const here = proof === 'code' ? 'wrong-code' : LET_THROUGH
      expect(await answerTo(managers, kind, { by: manager, code: null })).toBe(here)
      if (proof === 'named') return
      // The code in the command is proof enough, also where the manager is not signed in.
      expect(await answerTo(empty, kind, { by: manager, code: '314159' })).toBe(LET_THROUGH)
    },
  )
})

const WORK_SEEN_HOURS =
  'setCode setSafety addDimension readDimension addNote passGate askRelease signTask attachPhoto ' +
  'setCaption setPhotoShows markPhoto gradeOutside gradeLayer markLayers addFinding readConditions checkDrains countWelds ' +
  'recordFitUp prepareSurface needPart movePart startClock stopClock confirmClock logTime ' +
  'correctTime completeWatch sayLeft'

/** Gates, releases and decisions, what takes something back, and what is gone for good. */
const SIGNED =
  'setCode eraseContact retireRepair splitRepair mergeRepairs unlinkCover passGate markNotNeeded reopenGate releaseHold ' +
  'liftSupport signTask markTaskNotNeeded reopenTask voidFact acceptEstimate decideVariation settleDeclined closeAsFound'

/** What is seen and done at the car, and hours: the paired device answers for it. */
const UNSIGNED =
  'setSafety addDimension readDimension addNote askRelease attachPhoto setCaption setPhotoShows markPhoto gradeOutside ' +
  'gradeLayer markLayers addFinding readConditions checkDrains countWelds recordFitUp prepareSurface needPart movePart ' +
  'startClock stopClock confirmClock logTime correctTime completeWatch sayLeft'

test('what is signed takes the person’s own code, work and hours a name, and all else a manager who is signed in', () => {
  const kindsBy = (proof: string) =>
    Object.entries(permissions).flatMap(([kind, permission]) => (permission.proof === proof ? [kind] : []))
  expect(kindsBy('code').join(' ')).toBe(SIGNED)
  expect(kindsBy('named').join(' ')).toBe(UNSIGNED)
  expect(kindsBy('first')).toEqual(['setUpWorkshop'])
  for (const { roles, proof } of Object.values(permissions))
    if (proof === 'session') expect(roles).toEqual(['manager'])
})

test('what a technician may do is the work itself, what is seen at it, and its hours', () => {
  const may = Object.entries(permissions).filter(([, { roles }]) => roles.includes('technician'))
  expect(may.map(([kind]) => kind).join(' ')).toBe(WORK_SEEN_HOURS)
})

const id = '00000000-0000-4000-8000-000000000000'
const ofReport = { week: '2026-W48', visitId: 'visit-unknown' }
const ofChoices = { ...ofReport, choices: choicesOf({}) }
const ofImport = { kind: 'cars', text: 'x', importId: id }

/** What each call that is for managers is asked with. */
const forManagers: Readonly<Record<string, unknown>> = {
  carMoney: { carId: 'car-unknown' },
  rates: undefined,
  wholeWorkshop: undefined,
  check: undefined,
  startCheck: undefined,
  stopCheck: undefined,
  mendChecked: { from: null },
  devices: undefined,
  network: undefined,
  copies: undefined,
  copiesThere: undefined,
  setCopies: { folder: 'here', schedule: null, warnAfterDays: 3, passphrase: null },
  makeCopy: undefined,
  verifyCopy: { stamp: '2026-11-28T18-00-05Z', passphrase: null },
  restoreRead: undefined,
  erased: undefined,
  erasing: { id: 'party-unknown' },
  stopCopy: undefined,
  openNetwork: { scheme: 'https' },
  closeNetwork: undefined,
  updates: undefined,
  setUpdates: { address: null },
  lookForUpdate: undefined,
  pairingCode: undefined,
  renameDevice: { deviceId: 'device-unknown', name: 'Mine' },
  shutOutDevice: { deviceId: 'device-unknown' },
  draftReport: ofChoices,
  prepareReport: ofReport,
  issueReport: { ...ofChoices, reportId: id, commandId: id },
  tryWhatIf: { whatIfs: [{ kind: 'person off', personId: welder, from: '2026-11-30', to: '2026-12-01' }] },
  importPreview: ofImport,
  importCommit: ofImport,
  bringInCar: { fileId: id, commandId: id, shellNumber: null },
}

/** The code of the refusal, whichever way it came; 'answered' when there was none. */
async function ask(screen: TestScreen, name: string, input: unknown): Promise<string> {
  const type = proceduresOfRouter().get(name)
  const call = screen.client as unknown as Record<
    string,
    Record<string, (input: unknown) => Promise<unknown>>
  >
  const asked = call[name]![type === 'query' ? 'query' : 'mutate']!(input)
  const answer = await asked.then(
    (value) => value as { readonly refusal?: { readonly code: string } } | null,
    async () => ({ refusal: await refusalOf(asked) }),
  )
  return answer?.refusal?.code ?? 'answered'
}

describe('each call of the api', () => {
  test('stands in the table of roles', () => {
    expect(Object.keys(calls).toSorted()).toEqual([...proceduresOfRouter().keys()].toSorted())
  })

  test('is for managers where it shows money, copies, devices or contacts, or does something to the program', () => {
    const only = Object.keys(calls).filter((name) => callerOf(name) !== 'everybody')
    expect(only.toSorted()).toEqual(Object.keys(forManagers).toSorted())
  })

  test('is for managers while nobody has put it in the table', () => {
    expect(callerOf('somethingNew')).toHaveProperty('managersOnly')
    expect(callerOf('toString')).toHaveProperty('managersOnly')
  })

  test.each(Object.entries(forManagers))(
    '%s is for managers who are signed in on the device alone',
    async (name, input) => {
      expect(await ask(technicians, name, input)).toBe('not-allowed')
      expect(await ask(empty, name, input)).toBe('not-allowed')
      expect(await ask(managers, name, input)).not.toBe('not-allowed')
    },
  )
})
