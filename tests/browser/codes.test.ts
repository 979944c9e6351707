import { expect } from 'vitest'
import { choosePerson, codeDialog, dialog } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'
import { codes, welder } from '../support/workshop.ts'

const repair = '/cars/car-s-101/repairs/repair-boot-floor'

browserTest('five wrong codes lock that person on that device for a minute, and nobody else', async () => {
  const served = await serve({
    before: (workshop) => {
      addRepair(workshop, bringInLarkspur(workshop), 'Boot floor')
    },
  })
  const { page: tablet } = await served.open({ size: 'tablet', at: repair })
  const { page: phone } = await served.open({ size: 'phone', at: repair })
  await choosePerson(tablet, 'Ilse Brandt')
  await tablet.getByRole('button', { name: 'Sign off gate' }).click()
  await dialog(tablet, 'Sign off opened').getByRole('button', { name: 'Go on to sign' }).click()
  const asked = codeDialog(tablet, 'Sign off opened')
  const give = async (code: string) => {
    await asked.getByLabel('Own code').fill(code)
    await asked.getByRole('button', { name: 'Sign opened' }).click()
    await expect.poll(() => asked.getByLabel('Own code').inputValue()).toBe('')
    return (await asked.getByRole('alert').textContent()) ?? ''
  }

  for (const code of ['0000', '1111', '2222', '3333']) expect(await give(code)).toMatch(/code/i)
  expect(await give('4444')).toMatch(/minute/)
  // The right one does not help before the minute is over.
  expect(await give(codes[welder] ?? '')).toMatch(/minute/)

  // Somebody else on this device, and the same person on another.
  await asked.getByLabel('Signed by').selectOption({ label: 'Tomasz Hale' })
  const told = await give('5555')
  expect(told).toMatch(/code/i)
  expect(told).not.toMatch(/minute/)

  await choosePerson(phone, 'Ilse Brandt')
  await phone.getByRole('button', { name: 'Sign off gate' }).click()
  await dialog(phone, 'Sign off opened').getByRole('button', { name: 'Go on to sign' }).click()
  const onPhone = codeDialog(phone, 'Sign off opened')
  await onPhone.getByLabel('Own code').fill(codes[welder] ?? '')
  await onPhone.getByRole('button', { name: 'Sign opened' }).click()
  await tablet.getByRole('heading', { name: 'assessed is next' }).waitFor()
})
