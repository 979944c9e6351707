import type { Locator, Page } from 'playwright-core'
import { expect } from 'vitest'
import { codeDialog, dialog, PRINTED, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { press, tabTo, typeInto } from '../support/by-keys.ts'
import { serve } from '../support/served.ts'

const nora = { name: 'Nora Feld', code: '271828' }

async function fill(page: Page, field: Locator, words: string): Promise<void> {
  await tabTo(page, field)
  await page.keyboard.type(words)
}

/** Goes on by arrows inside a row of choices, as its radio buttons are one stop. */
async function choose(page: Page, row: Locator, words: string): Promise<void> {
  const wanted = row.getByRole('radio', { name: words, exact: true })
  await wanted.waitFor()
  const first = row.getByRole('radio').first()
  const checked = row.getByRole('radio', { checked: true })
  await tabTo(page, (await checked.count()) > 0 ? checked : first)
  const most = await row.getByRole('radio').count()
  for (let step = 0; step < most && !(await wanted.isChecked()); step++)
    await page.keyboard.press('ArrowRight')
  if (!(await wanted.isChecked())) await page.keyboard.press('Space')
  expect(await wanted.isChecked()).toBe(true)
}

const nextStep = (page: Page, words: string) =>
  page.getByRole('region', { name: 'First steps' }).getByRole('link', { name: words }).first()

async function setUp(page: Page): Promise<void> {
  await press(page, page.getByRole('button', { name: 'Set up your workshop' }))
  await fill(page, page.getByLabel('Name of the workshop'), 'Alder Yard')
  await fill(page, page.getByLabel('Name of the first manager'), nora.name)
  await fill(page, page.getByLabel('The manager’s own code'), nora.code)
  await fill(page, page.getByLabel('The code once more'), nora.code)
  await press(page, page.getByRole('button', { name: 'Set up the workshop' }))
  await page.getByRole('heading', { level: 1, name: 'Alder Yard' }).waitFor()
}

async function takeIn(page: Page): Promise<void> {
  await press(page, nextStep(page, 'The first shell and its owner'))
  const car = dialog(page, 'Add a car')
  await fill(page, car.getByLabel('Name').first(), 'Corran 5')
  await fill(page, car.getByLabel('Shell number'), '21/A')
  await fill(page, car.getByLabel('Name').nth(1), 'Ada Fell')
  await choose(page, car.getByRole('group', { name: 'How far it is agreed' }), 'in work')
  await press(page, car.getByRole('button', { name: 'Add the car' }))
  await car.waitFor({ state: 'detached' })
}

async function addRepair(page: Page): Promise<void> {
  await press(page, nextStep(page, 'Its first repair'))
  await press(page, page.getByRole('button', { name: 'Add a repair' }).first())
  const repair = dialog(page, 'Add a repair')
  await fill(page, repair.getByLabel('Repair type'), 'Boot floor')
  await press(page, repair.getByRole('button', { name: 'Add the repair' }))
  await repair.waitFor({ state: 'detached' })
}

async function acceptEstimate(page: Page): Promise<void> {
  await press(page, nextStep(page, 'What the owner agrees to'))
  await press(page, page.getByRole('button', { name: /^The owner accepts/ }))
  const accept = dialog(page, 'Corran 5: the owner accepts')
  await press(page, accept.first().getByRole('button', { name: 'Go on to sign' }))
  await typeInto(page, codeDialog(page, 'Corran 5: the owner accepts').getByLabel('Own code'), nora.code)
  await page.getByText('all accepted ✓').waitFor()
}

async function photograph(page: Page, file: string): Promise<void> {
  // Listened for well before the key: Chromium hands choosers over only once it has been told to.
  const chooser = page.waitForEvent('filechooser')
  await press(page, page.getByRole('button', { name: /^Take photos/ }))
  await (await chooser).setFiles(await testPhotoFile(file))
}

async function passFirstGate(page: Page): Promise<void> {
  await press(page, nextStep(page, 'The first gate, signed'))
  await page.getByRole('heading', { name: 'opened is next' }).waitFor()
  await photograph(page, 'before.jpg')
  await page.getByRole('button', { name: /^A photo before cutting\s*1 of 1/ }).waitFor()
  await photograph(page, 'after.jpg')
  await page.getByText('all there').waitFor()
  await press(page, page.getByRole('button', { name: /^Sign off gate/ }))
  await press(page, dialog(page, 'Sign off opened').getByRole('button', { name: 'Go on to sign' }))
  await typeInto(page, codeDialog(page, 'Sign off opened').getByLabel('Own code'), nora.code)
  await page.getByRole('heading', { name: 'assessed is next' }).waitFor()
}

async function addFinding(page: Page): Promise<void> {
  await press(page, page.getByRole('button', { name: 'add a finding', exact: true }))
  const finding = dialog(page, 'Add a finding')
  await choose(page, finding.getByRole('group', { name: 'Grade' }), 'holed')
  await fill(page, finding.getByLabel('How far it goes'), '120 mm along the lower flange')
  await fill(page, finding.getByLabel('What it needs'), 'A longer section')
  await press(page, finding.getByRole('button', { name: 'Add it' }))
  await finding.waitFor({ state: 'detached' })
  await page.getByText('120 mm along the lower flange').first().waitFor()
}

/** A first plan, begun after two quiet seconds; most of it is for a busy machine. */
const PLANNED_MS = 60_000
/** Planning and printing are in it. */
const WHOLE_JOB_MS = 240_000

browserTest(
  'the whole main job is done by keyboard alone, from an empty folder to the owner’s report',
  { timeout: WHOLE_JOB_MS },
  async () => {
    const served = await serve({ setUp: false })
    const { page } = await served.open()
    // A pointer that comes in all the same ends the test.
    await page.addInitScript(() =>
      addEventListener('pointerdown', () => console.error('Not by keyboard alone.'), { capture: true }),
    )
    await page.reload()
    await setUp(page)
    await takeIn(page)
    await addRepair(page)
    await acceptEstimate(page)
    await passFirstGate(page)
    await addFinding(page)

    await press(page, page.getByRole('button', { name: 'clock in here' }))
    await page.getByText('Nora Feld, on this since').waitFor()
    served.pass({ hours: 1, minutes: 30 })
    await press(page, page.getByRole('button', { name: 'stop clock' }))
    await page.keyboard.press('Alt+3')
    // So long after her last key, the manager is no longer signed in.
    await press(page, page.getByRole('button', { name: nora.name }))
    await page.getByText('No clock runs.').waitFor()
    await page.getByText('1.5 h').first().waitFor()

    await press(page, page.getByRole('button', { name: 'manager: sign in', exact: true }))
    await typeInto(page, dialog(page, "The manager's code").getByLabel('Code'), nora.code)
    await page.getByText('Signed in:').waitFor()
    await page.keyboard.press('Alt+2')
    const proposal = page.getByRole('region', { name: 'A newer plan' })
    await proposal.getByRole('button', { name: 'Take it', disabled: false }).waitFor({ timeout: PLANNED_MS })
    await press(page, proposal.getByRole('button', { name: 'Take it' }))
    await proposal.waitFor({ state: 'detached' })

    await page.keyboard.press('Alt+7')
    await press(page, page.getByRole('button', { name: 'Issue it' }))
    await press(page, dialog(page, /^Issue report 1/).getByRole('button', { name: 'Issue it' }))
    await page.getByRole('link', { name: 'Open the PDF' }).waitFor(PRINTED)
  },
)
