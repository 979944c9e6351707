import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { choosePerson, signIn } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { show } from '../support/every-screen.ts'
import { hardToHear } from '../support/reader.ts'
import { serve, type Served } from '../support/served.ts'
import { codes, manager, type Workshop } from '../support/workshop.ts'
import { CAR_SHEETS, type CarSheet } from '../../renderer/parts/sheets/car-sheets.ts'
import { WORKSHOP_SHEETS, type WorkshopSheet } from '../../renderer/parts/sheets/workshop-sheets.ts'

/** What a screen without anything on it says of what will stand there and how it comes there, and what is pressed for it. */
interface Lesson {
  readonly says: RegExp
  /** Null where nothing on this screen begins it. */
  readonly first: string | null
}

const lesson = (says: RegExp, first: string | null): Lesson => ({ says, first })

const noCarInWork = lesson(/^Add a car with its repairs and set its visit to ‘in work’/, 'To the cars')

const screens: Readonly<Record<string, Lesson>> = {
  '/shop-floor': lesson(/^Each car is drawn in its bay, with what is next on it/, 'Add the first one'),
  '/plan?sheet=drawing': noCarInWork,
  '/plan?sheet=list': noCarInWork,
  '/plan?sheet=what-if': noCarInWork,
  '/day-sheet': lesson(
    /^What you can do stands here in the order of the plan/,
    'What stands in the workshop',
  ),
  '/cars': lesson(/^Each car of the workshop stands here with where it is/, 'Add a car'),
  '/card': lesson(/^Put the camera’s card in, then choose its photos/, 'Choose a card or folder'),
  '/owner-decisions': lesson(
    /^When more turns up than the estimate holds, raise a variation/,
    'Choose a car',
  ),
  '/owner-reports': lesson(
    /^Every car whose visit is agreed and not yet delivered gets one letter/,
    'The cars',
  ),
  '/variance': lesson(/^This page shows where the hours went/, 'Choose a car to begin with'),
  '/variance/were-we-right': lesson(
    /^What is said of a repair’s hours is kept/,
    'Estimates that wait for their owner',
  ),
}

const bays = lesson(/^Say which bays there are and what can be done in each/, 'Arrange the bays')
const withoutBays: Readonly<Record<string, Lesson>> = {
  '/shop-floor': lesson(/^Put the bays where they are in the workshop/, 'Arrange the bays'),
  '/plan?sheet=drawing': bays,
  '/plan?sheet=list': bays,
  '/plan?sheet=what-if': bays,
}
const withOneCar: Readonly<Record<string, Lesson>> = {
  '/shop-floor': lesson(/^In no bay/, 'It is here'),
  '/owner-reports': lesson(/./, 'Issue it'),
}

const workshopSheets: Readonly<Record<WorkshopSheet, Lesson>> = {
  people: lesson(/^Add everyone who clocks time or signs gates/, 'Add a person'),
  bays: lesson(/^Give each place for a car a name and what can be done in it/, 'Add the first bay'),
  week: lesson(/^Work pauses outside these hours and goes on/, 'Set the week and holidays'),
  planning: lesson(/^Every change is a proposal until a manager takes it/, 'Change what the plan goes by'),
  types: lesson(/^A repair type says which layers a repair goes through/, 'New repair type'),
  limits: lesson(/^New edges start from these/, 'Change the limits'),
  rates: lesson(/^Say what a person-hour costs, and from which day on/, 'Set rates'),
  contacts: lesson(/^Owners are added with their car, or here/, 'add an owner'),
  network: lesson(/^Only this computer reaches Panelwright/, 'Open the workshop network'),
  devices: lesson(/^A device that was let in belongs to the workshop/, 'Let a device in'),
  check: lesson(/^The check follows the journal line by line/, 'Check now'),
  copies: lesson(/^Choose a folder on a disk that is not this computer’s own/, 'Choose a folder for copies'),
  'take-out': lesson(/^Every time entry: day, car, visit/, null),
  updates: lesson(
    /^You can have it look once a week at an address that you give/,
    'Have newer versions looked for',
  ),
}

const carSheets: Readonly<Record<CarSheet, Lesson>> = {
  map: lesson(/^A repair is one cavity or joint that is opened, put right and closed again/, 'Add a repair'),
  estimate: lesson(/^Add the first repair from a repair type: it brings its hours/, 'Add a repair'),
  photos: lesson(/^Every photo of this car stands here, week by week/, 'Add photos of the whole car'),
  hours: lesson(/^Here the hours that were agreed stand against those that were spent/, 'To the closing map'),
  money: lesson(/^Repairs and tasks bring their hours; add below/, 'Add a cost'),
  decisions: lesson(/^Extra or less work is put to its payer as a variation/, 'Raise a variation'),
  dimensions: lesson(/^Measure before the first cut/, 'Add a dimension'),
  // The car itself is on record already.
  record: lesson(/^Visit opened for/, 'Add a note'),
}

/** What a screen does not teach that it should, and what reads badly aloud on it. */
async function untaught(page: Page, served: Served, lessons: Readonly<Record<string, Lesson>>) {
  const missing: string[] = []
  const isThere = async (what: string, wanted: ReturnType<Page['locator']>) =>
    wanted
      .first()
      .waitFor({ timeout: 5_000 })
      .catch(() => missing.push(what))
  for (const [at, { says, first }] of Object.entries(lessons)) {
    await show(page, new URL(at, served.url).href)
    const main = page.getByRole('main')
    await isThere(`${at} does not say ${says.source}`, main.getByText(says))
    if (first !== null) {
      const named = { name: new RegExp(`^${first}`) }
      const begun = main.getByRole('button', named).or(main.getByRole('link', named))
      await isThere(`${at} has no ‘${first}’`, begun)
    }
    missing.push(...(await hardToHear(page)).map((words) => `${at} reads badly: ${words}`))
  }
  return missing
}

const sheetsOf = <S extends string>(at: string, sheets: readonly S[], lessons: Readonly<Record<S, Lesson>>) =>
  Object.fromEntries(sheets.map((sheet) => [`${at}?sheet=${sheet}`, lessons[sheet]]))

/** A workshop of one manager, with no bay, no repair type and no car. */
function foundWorkshop(workshop: Workshop): void {
  workshop.run(
    'setUpWorkshop',
    {
      name: 'Alder Yard',
      zone: 'Europe/Berlin',
      currency: 'EUR',
      managerId: manager,
      manager: { name: 'Nora Feld', phone: '', email: '', address: '' },
      code: codes[manager] ?? '',
      skills: ['sheet metal'],
      withCatalogue: false,
    },
    { by: null },
  )
}

browserTest(
  'every screen and sheet of a workshop with nothing in it says what comes there and how',
  async () => {
    const served = await serve({ setUp: false, before: foundWorkshop })
    const { page } = await served.open({ at: '/day-sheet' })
    await choosePerson(page, 'Nora Feld')
    await signIn(page)
    const lessons = { ...screens, ...withoutBays, ...sheetsOf('/workshop', WORKSHOP_SHEETS, workshopSheets) }
    expect(await untaught(page, served, lessons)).toEqual([])

    await show(page, new URL('/shop-floor', served.url).href)
    await page.getByRole('link', { name: 'Arrange the bays' }).click()
    await page.getByRole('heading', { name: 'The floor is empty' }).waitFor()
  },
)

browserTest('every screen and sheet says it with one car too, on which nothing is to be done', async () => {
  const served = await serve({ before: (workshop) => void workshop.addCar() })
  const { page } = await served.open({ at: '/day-sheet' })
  await choosePerson(page, 'Ilse Brandt')
  await signIn(page)
  const { '/cars': _cars, ...rest } = screens
  const lessons = { ...rest, ...withOneCar, ...sheetsOf('/cars/car-s-101', CAR_SHEETS, carSheets) }
  expect(await untaught(page, served, lessons)).toEqual([])
})
