import { describe, expect } from 'vitest'
import { readCar, readWorkshop } from '../../db/reads.ts'
import { openDatabase } from '../../db/open-database.ts'
import { carIdSchema, variationIdSchema, visitIdSchema } from '../../domain/ids.ts'
import { choosePerson, dialog, giveManagersCode } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { onGate } from '../support/car-builder.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'
import { sure } from '../support/varied.ts'

const carId = carIdSchema.parse('car-s-101')

/** What another process reads in the data folder, beside the running host. */
function readBeside(dataDir: string) {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    return { workshop: readWorkshop(db), car: readCar(db, carId) }
  } finally {
    db.close()
  }
}

describe('the sheet of planning', () => {
  browserTest('sets what the plan goes by, counts fixtures, and adds and cancels overtime', async () => {
    const served = await serve()
    const { page } = await served.open({ at: '/workshop?sheet=planning' })
    await page.getByText('Today and the next 2 working days keep the plan').waitFor()

    await page.getByRole('button', { name: 'Change what the plan goes by' }).click()
    await page.getByLabel('Working days after today').fill('31')
    await page.getByRole('button', { name: 'Plan by it from now on' }).click()
    await page.getByText('At most 30 days can be kept.').waitFor()
    await page.getByLabel('Working days after today').fill('1')
    await page.getByLabel('Takes', { exact: true }).fill('45')
    await page.getByLabel('Take changes to later days without asking').check()
    await page.getByRole('button', { name: 'Plan by it from now on' }).click()
    await giveManagersCode(page)
    await page.getByText('Today and the next working day keep the plan').waitFor()
    await page.getByText('Changes to later days are taken by themselves.').waitFor()

    await page.getByRole('button', { name: 'Count the fixtures' }).click()
    const fixtures = dialog(page, 'Fixtures in the workshop')
    await fixtures.getByLabel('Jigs').fill('1')
    await fixtures.getByRole('button', { name: 'Plan by these' }).click()
    await fixtures.waitFor({ state: 'detached' })

    const addOvertime = async (person: string) => {
      await page.getByRole('button', { name: 'Add overtime' }).click()
      const overtime = dialog(page, 'Add overtime')
      await overtime.getByText(person).click()
      await overtime.getByRole('button', { name: 'Add it' }).click()
      await overtime.waitFor({ state: 'detached' })
    }
    await addOvertime('Ilse Brandt')
    await addOvertime('Tomasz Hale')
    await page.getByRole('button', { name: 'cancel overtime of Tomasz Hale' }).click()
    await page.getByText('Tomasz Hale', { exact: true }).waitFor({ state: 'detached' })

    const { workshop } = readBeside(served.dataDir)
    expect(workshop.planning).toEqual({
      moveMinutes: 45,
      movePeople: 2,
      decisionDays: 7,
      frozenDays: 1,
      takeByItself: true,
    })
    expect(workshop.fixtures).toEqual({ jig: 1, rotisserie: null, dolly: null })
    expect([...workshop.overtime.values()]).toMatchObject([
      { people: ['person-welder'], weekdays: [6], span: { from: '08:00', to: '12:00' } },
    ])
  })
})

describe('what the plan is told on a car', () => {
  browserTest('a technician says what is still to do on a gate that was begun', async () => {
    const served = await serve({
      before: (workshop) => {
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { passed: 'assessed' })
      },
    })
    const { page } = await served.open({ size: 'tablet', at: `/cars/${carId}/repairs/repair-boot-floor` })
    await choosePerson(page, 'Ilse Brandt')
    await page.getByRole('button', { name: 'clock in here' }).waitFor()
    await page.getByRole('button', { name: 'say what is still to do' }).waitFor({ state: 'detached' })
    await page.getByRole('button', { name: 'clock in here' }).click()
    await page.getByText('Ilse Brandt, on this since').waitFor()
    served.pass({ hours: 1 })
    await page.getByRole('button', { name: 'stop clock' }).click()

    await page.getByRole('button', { name: 'say what is still to do' }).click()
    const asked = dialog(page, 'fabricated: still to do')
    await asked.getByText('1.0 h spent so far.').waitFor()
    await asked.getByLabel('Hours still to do').fill('2,5')
    await asked.getByRole('button', { name: 'Say it' }).click()
    await page.getByText('still to do 2.5 h, said Mon 23 Nov by Ilse Brandt').first().waitFor()

    const { car } = readBeside(served.dataDir)
    expect([...(car?.left.values() ?? [])]).toMatchObject([
      { target: onGate('Boot floor', 'fabricated'), hours: 2.5 },
    ])
  })

  browserTest('the manager names the day of an answer, and the fixture', async () => {
    const served = await serve({
      before: (workshop) => {
        const id = bringInLarkspur(workshop)
        addRepair(workshop, id, 'Boot floor')
        workshop.run(
          'raiseVariation',
          {
            variationId: variationIdSchema.parse('variation-lid'),
            visitId: visitIdSchema.parse('visit-s-101'),
            payer: 'owner',
            title: 'A new lid',
            why: 'Bent beyond dressing.',
            ifNot: '',
            findings: [],
            attachments: [],
            lines: [sure(onGate('Boot floor', 'fabricated'), 6)],
            costs: [],
          },
          { carId: id },
        )
      },
    })
    const { page } = await served.open({ at: '/owner-decisions' })
    await page.getByRole('button', { name: 'answer expected on' }).click()
    const asked = dialog(page, 'Answer expected: A new lid')
    await asked.getByLabel('The owner answers on').fill('2026-12-04')
    await asked.getByRole('button', { name: 'Plan by it' }).click()
    await giveManagersCode(page)
    await page.getByText('answer expected Fri 4 Dec').waitFor()

    await page.goto(new URL(`/cars/${carId}`, served.url).href)
    await page.getByRole('group', { name: 'Load-bearing repairs planned' }).getByText('on the jig').click()
    await page.getByRole('radio', { name: 'on the jig', checked: true }).waitFor()
    const { car } = readBeside(served.dataDir)
    expect(car?.variations.get(variationIdSchema.parse('variation-lid'))?.expected).toBe('2026-12-04')
    expect(car?.fixturePlanned).toBe('jig')
  })
})
