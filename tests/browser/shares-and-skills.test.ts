import type { Page } from 'playwright-core'
import { describe, expect } from 'vitest'
import { typeIdSchema } from '../../domain/ids.ts'
import { choosePerson, dialog, sign, signIn } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { repairId } from '../support/car-builder.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { repairPlan } from '../support/plans.ts'
import { serve } from '../support/served.ts'
import { codes, manager, painter, type Workshop } from '../support/workshop.ts'

const ilse = 'Ilse Brandt'
const tomasz = { name: 'Tomasz Hale', code: codes[painter] ?? '' }
const mara = { name: 'Mara Lindqvist', code: codes[manager] ?? '' }

async function openRepair(page: Page, name: string): Promise<void> {
  await page.goto(new URL(`/cars/car-s-101/repairs/${repairId(name)}`, page.url()).href)
  await page.getByRole('heading', { level: 1, name }).waitFor()
}

describe('one clock on two repairs', () => {
  const twoRepairs = (workshop: Workshop) => {
    const carId = bringInLarkspur(workshop)
    addRepair(workshop, carId, 'Boot floor')
    addRepair(workshop, carId, 'Sill, right')
  }

  browserTest('shares its hours as the person says when it stops', async () => {
    const served = await serve({ before: twoRepairs })
    const { page } = await served.open({ size: 'tablet', at: '/day-sheet' })
    await page.getByRole('button', { name: ilse }).click()
    await page.getByRole('button', { name: 'several at once' }).click()
    const several = dialog(page, 'One clock on several')
    await several.getByRole('checkbox', { name: 'Boot floor: opened' }).check()
    await several.getByRole('button', { name: 'Clock in on them' }).click()
    await several.getByText('Choose two or more').first().waitFor()
    await several.getByRole('checkbox', { name: 'Sill, right: opened' }).check()
    await several.getByRole('button', { name: 'Clock in on them' }).click()
    const clock = page.getByRole('region', { name: 'Clock' })
    await clock.getByText('Boot floor: opened; Sill, right: opened').waitFor()

    served.pass({ hours: 2 })
    await clock.getByRole('button', { name: 'Stop clock' }).click()
    const sharing = dialog(page, 'How the time is shared')
    await sharing.getByRole('heading').waitFor()
    await expect.poll(() => sharing.getByText('50 %', { exact: true }).count()).toBe(2)
    await sharing.getByRole('radio', { name: 'in percent' }).check()
    await sharing.getByLabel('Percent for Boot floor: opened').fill('75')
    await sharing.getByRole('button', { name: 'Stop clock' }).click()
    await sharing.getByRole('alert').waitFor()
    await sharing.getByText('125 %', { exact: true }).waitFor()
    await sharing.getByLabel('Percent for Sill, right: opened').fill('25')
    await sharing.getByRole('button', { name: 'Stop clock' }).click()

    await clock.getByText('No clock runs.').waitFor()
    await page.getByText('1.5 of 2.0 h spent').waitFor()
    await page.getByText('0.5 of 2.0 h spent').waitFor()
  })

  browserTest(
    'is started from one of them, and shares by the estimates when the person switches',
    async () => {
      const served = await serve({ before: twoRepairs })
      const { page } = await served.open({ size: 'phone' })
      await choosePerson(page, ilse)
      await openRepair(page, 'Boot floor')
      await page.getByRole('button', { name: 'with other work' }).click()
      const several = dialog(page, 'One clock on several')
      await several.getByRole('checkbox', { name: 'Sill, right: opened' }).check()
      await several.getByRole('button', { name: 'Clock in on them' }).click()
      await page.getByText(`${ilse}, on this since 08:00`).waitFor()

      served.pass({ hours: 3 })
      await page.getByRole('link', { name: 'Day sheet' }).click()
      await page.getByRole('button', { name: 'workshop time' }).click()
      await dialog(page, 'Workshop time').getByRole('button', { name: 'moving cars' }).click()
      await dialog(page, 'How the time is shared').getByRole('button', { name: 'Stop clock' }).click()
      await page.getByRole('region', { name: 'Clock' }).getByText('moving cars').waitFor()
      await expect.poll(() => page.getByText('1.5 of 2.0 h spent').count()).toBe(2)
    },
  )
})

describe('a gate that needs a skill', () => {
  browserTest('is held before the code is asked, until the manager lets the person pass', async () => {
    const served = await serve({
      before: (workshop) => {
        const plan = { gates: { opened: { skill: 'welding' } } }
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan })
      },
    })
    const { page: tablet } = await served.open({ size: 'tablet' })
    const { page: office } = await served.open({ at: '/shop-floor' })
    await choosePerson(tablet, tomasz.name)
    await openRepair(tablet, 'Boot floor')
    await tablet.getByRole('button', { name: 'Sign off gate opened' }).click()
    const signing = dialog(tablet, 'Sign off opened')
    await signing.getByText("Tomasz Hale does not have the skill 'welding', which opened needs.").waitFor()
    await signing.getByRole('button', { name: 'Go on to sign' }).click()
    await signing.getByText('Name only people with the skill').first().waitFor()
    await tablet.getByLabel('Own code').waitFor({ state: 'detached' })

    await signing.getByRole('button', { name: 'Ask for a release' }).click()
    const ask = dialog(tablet, 'Ask for a release')
    await ask.getByLabel('Why it should be released').fill('Ilse stood by all the time.')
    await ask.getByRole('button', { name: 'Ask the manager' }).click()
    await ask.waitFor({ state: 'detached' })

    await signIn(office)
    await office.getByText("Tomasz Hale asks to release 'skill' of Tomasz Hale").waitFor()
    await office.getByRole('link', { name: 'look at it' }).click()
    await office.getByRole('button', { name: 'Release', exact: true }).click()
    const release = dialog(office, 'Release a hold')
    await release.getByLabel('Why it is released').fill('She looked at every cut.')
    await release.getByRole('button', { name: 'Go on to sign' }).click()
    await sign(office, 'Release a hold', mara, 'Release it')

    await tablet.getByText('She looked at every cut.').waitFor()
    await tablet.getByRole('button', { name: 'Sign off gate opened' }).click()
    await signing.getByRole('button', { name: 'Go on to sign' }).click()
    await sign(tablet, 'Sign off opened', tomasz, 'Sign opened')
    await tablet.getByRole('heading', { name: 'assessed is next' }).waitFor()
  })
})

describe('a newer version of a repair type', () => {
  browserTest('reaches the repairs that the manager picks, and no other', async () => {
    const typeId = typeIdSchema.parse('type-sill')
    const served = await serve({
      before: (workshop) => {
        workshop.run('saveType', { typeId, plan: repairPlan('Sill') })
        const carId = bringInLarkspur(workshop)
        for (const name of ['Sill, left', 'Sill, right'])
          workshop.run(
            'addRepair',
            {
              repairId: repairId(name),
              type: { typeId, version: 1 },
              plan: repairPlan(name),
              payer: 'workshop',
              covers: [],
              coveredBy: [],
            },
            { carId },
          )
        const newer = repairPlan('Sill', { gates: { opened: { skill: 'plasma cutting' } } })
        workshop.run('saveType', { typeId, plan: newer })
      },
    })
    const { page } = await served.open({ at: `/workshop?sheet=types&type=${typeId}` })
    await signIn(page)
    const use = page.getByRole('region', { name: 'Repairs of this type' })
    await use.getByText('2 of 2 repairs still with an older version.').waitFor()
    await expect.poll(() => use.getByText('version 1; changes opened').count()).toBe(2)
    await use.getByRole('checkbox', { name: 'Sill, right' }).check()
    await use.getByRole('button', { name: 'Bring version 2 to 1 repair' }).click()
    await use.getByText('1 of 2 repairs still with an older version.').waitFor()
    await use.getByRole('checkbox', { name: 'Sill, left' }).waitFor()

    await openRepair(page, 'Sill, right')
    await page.getByText('plasma cutting, one person').first().waitFor()
    await openRepair(page, 'Sill, left')
    await page.getByRole('heading', { name: 'opened is next' }).waitFor()
    await page.getByText('plasma cutting').waitFor({ state: 'detached' })
  })
})
