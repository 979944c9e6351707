import { expect } from 'vitest'
import type { Page } from 'playwright-core'
import { personIdSchema } from '../../domain/ids.ts'
import { dialog, giveManagersCode, signIn } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { serve } from '../support/served.ts'
import { codes, manager, type Workshop } from '../support/workshop.ts'

const csv = (name: string, ...lines: readonly string[]) => ({
  name,
  mimeType: 'text/csv',
  // As a spreadsheet writes it: with a byte-order mark and line ends of two characters.
  buffer: Buffer.from(`\uFEFF${lines.join('\r\n')}\r\n`),
})

const header = 'shell number;name;body;owner;year;promised'

async function openImport(page: Page) {
  await page.getByRole('button', { name: 'Bring in a CSV file' }).click()
  return dialog(page, 'Bring in a CSV file')
}

browserTest('a CSV file with bad lines is shown line by line and brings in nothing', async () => {
  const served = await serve()
  const { page } = await served.open({ at: '/cars' })
  const form = await openImport(page)
  // An example of each kind is there to be saved.
  const example = form.getByRole('link', { name: 'Save an example of cars to start from' })
  const saved = await page.request.get(new URL((await example.getAttribute('href')) ?? '', served.url).href)
  expect(saved.headers()['content-type']).toBe('text/csv; charset=utf-8')
  expect(await saved.text()).toContain('shell number,name,body')
  await form
    .getByLabel('File')
    .setInputFiles(
      csv(
        'cars.csv',
        header,
        '31;Tarn 2;van;Ada Fell;1961;18.12.2026',
        '32;Ormond 8;hovercraft;Ada Fell;1959;',
        '33;Bracken;estate;;1972;12/11/2026',
      ),
    )
  await giveManagersCode(page)
  await form.getByText('2 lines of 3 must be mended in the file').waitFor()
  const line = (number: number, words: string) =>
    form
      .getByRole('listitem')
      .filter({ hasText: `line ${number}` })
      .filter({ hasText: words })
  await line(3, "'hovercraft' is not known here.").waitFor()
  await line(4, 'The owner is missing.').waitFor()
  await line(4, "'12/11/2026' is not a date").waitFor()
  await line(2, '31 Tarn 2, van, for Ada Fell').waitFor()
  await form.getByRole('button', { name: /^Bring in/, disabled: true }).waitFor()

  // Lines that can be read may still be refused by the workshop's rules.
  await form
    .getByLabel('File')
    .setInputFiles(csv('cars.csv', header, '31;Tarn 2;van;Ada Fell;1961;', '31;Second Tarn;van;Ada Fell;;'))
  await form.getByText('1 line of 2 must be mended in the file').waitFor()
  await line(3, 'Shell number 31 is taken by Tarn 2.').waitFor()
  await form.getByRole('button', { name: 'Cancel' }).click()
  await page.getByText('No car yet').waitFor()

  const again = await openImport(page)
  await again
    .getByLabel('File')
    .setInputFiles(
      csv(
        'cars.csv',
        header,
        '31;Tarn 2;van;Ada Fell;1961;18.12.2026',
        '32;Ormond 8;roadster;Ada Fell;1959;',
        '33;Bracken;estate;Ludo Marsh;1972;2026-11-12',
      ),
    )
  await again.getByText('All 3 lines can be brought in.').waitFor()
  await again.getByRole('button', { name: 'Bring in 3 lines' }).click()
  await again.getByText('3 lines brought in.').waitFor()
  await again.getByRole('button', { name: 'Close' }).last().click()
  for (const name of ['Tarn 2', 'Ormond 8', 'Bracken']) await page.getByRole('link', { name }).waitFor()
})

browserTest(
  'a CSV file with other columns, or in another encoding, is refused as a whole with what to do',
  async () => {
    const served = await serve()
    const { page } = await served.open({ at: '/cars' })
    const form = await openImport(page)
    await form.getByLabel('File').setInputFiles(csv('colours.csv', 'shell;colour', '31;green'))
    await giveManagersCode(page)
    await form
      .getByRole('alert')
      .getByText(/missing 'shell number'.*unknown 'shell', 'colour'/)
      .waitFor()
    await form.getByText(/Name the columns in the first line/).waitFor()

    const latin = Buffer.from(`${header}\n31;Mönch;van;Ada Fell;;\n`, 'latin1')
    await form.getByLabel('File').setInputFiles({ name: 'latin.csv', mimeType: 'text/csv', buffer: latin })
    await form.getByRole('alert').getByText('This file is not saved as UTF-8').waitFor()
    await form.getByRole('button', { name: /^Bring in \d/ }).waitFor({ state: 'detached' })
  },
)

/** What the examples rest on: the usual repair types, and two people who worked. */
function withExamplePeople(workshop: Workshop): void {
  const contact = (name: string) => ({ name, phone: '', email: '' as const, address: '' })
  const code = codes[manager] ?? ''
  workshop.run(
    'setUpWorkshop',
    {
      name: 'Alder Yard',
      zone: 'Europe/Berlin',
      currency: 'EUR',
      managerId: manager,
      manager: contact('Nora Feld'),
      code,
      skills: [],
      withCatalogue: true,
    },
    { by: null },
  )
  for (const [at, name] of ['Iris Vane', 'Noel Harrow'].entries())
    workshop.run('addPerson', {
      personId: personIdSchema.parse(`person-${at}`),
      roles: ['technician'],
      skills: [],
      week: null,
      absences: [],
      contact: contact(name),
      code: `818${at}`,
    })
}

browserTest('each example is saved from the sheet and comes in as it is, one after the other', async () => {
  const served = await serve({ setUp: false, before: withExamplePeople })
  const { page } = await served.open({ at: '/cars' })
  await signIn(page)
  const form = await openImport(page)
  for (const [kind, lines] of [
    ['cars', 3],
    ['repairs', 4],
    ['hours', 3],
  ] as const) {
    await form.getByRole('radio', { name: kind }).check()
    const [saved] = await Promise.all([
      page.waitForEvent('download'),
      form.getByRole('link', { name: `Save an example of ${kind} to start from` }).click(),
    ])
    await form.getByLabel('File').setInputFiles(await saved.path())
    await form.getByText(`All ${lines} lines can be brought in.`).waitFor()
    await form.getByRole('button', { name: `Bring in ${lines} lines` }).click()
    await form.getByText(`${lines} lines brought in.`).waitFor()
  }
  await form.getByRole('button', { name: 'Close' }).last().click()
  await page.getByRole('link', { name: 'Bracken' }).waitFor()
})
