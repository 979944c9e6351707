// Over 300 lines because the trees of seven screens stand in it as they are read.
import { describe, expect } from 'vitest'
import {
  choosePerson,
  codeDialog,
  comeBackWith,
  dialog,
  sign,
  signIn,
  testPhotoFile,
} from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur, photosOnly, withOwnerAsked } from '../support/larkspur.ts'
import { listen, treeOf } from '../support/reader.ts'
import { cutNetwork, serve } from '../support/served.ts'
import { codes, welder } from '../support/workshop.ts'

const ilse = { name: 'Ilse Brandt', code: codes[welder] ?? '' }
const repair = '/cars/car-s-101/repairs/repair-boot-floor'

const serveBootFloor = () =>
  serve({
    before: (workshop) => {
      const plan = { gates: { opened: photosOnly(1) } }
      addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan })
    },
  })

describe('a screen reader', () => {
  browserTest('reads a repair, its next gate and what is signed for, each with its state', async () => {
    const served = await serveBootFloor()
    const { page } = await served.open({ at: '/day-sheet' })
    await choosePerson(page, ilse.name)
    await page.getByRole('heading', { name: 'You can do now' }).waitFor()
    expect(await treeOf(page.getByRole('main'))).toMatchInlineSnapshot(`
      "- main:
        - heading "Ilse Brandt" [level=1]
        - paragraph:
          - text: Mon 23 Nov, until hh:mm; metalwork, welding.
          - button "not you?"
        - term: today
        - definition: 0.0 h
        - term: this week
        - definition: 0.0 h
        - region "First steps":
          - text: First steps, 5 of 7
          - link "The first gate, signed":
          - button "put away the first steps"
          - paragraph: Take the photos that it asks for, then sign it off with your code.
          - list:
            - listitem:
              - link "Who works here":
              - text: ", done"
            - listitem:
              - link "Where shells stand":
              - text: ", done"
            - listitem:
              - link "The first shell and its owner":
              - text: ", done"
            - listitem:
              - link "Its first repair":
              - text: ", done"
            - listitem:
              - link "What the owner agrees to":
              - text: ", done"
            - listitem:
              - link "The first gate, signed":
            - listitem:
              - link "A clock on it":
        - region "Clock":
          - paragraph: "No clock runs. Next: Boot floor Larkspur 4"
          - 'button "Photo of Boot floor: after cutting"'
          - button "Start work opened"
        - button "workshop time"
        - button "log time by hand"
        - heading "You can do now" [level=2]
        - list:
          - listitem:
            - 'img "Cut through 2 layers, from the inside out: inner panel, 1.6 mm, not seen yet; closing plate, 1.2 mm, not seen yet."': "? ?"
            - text: Larkspur 4, Metal 1; promised Wed 31 Mar 2027
            - link "Boot floor":
            - text: opened, 0.0 of 2.0 h spent
            - img "opened next; assessed, fabricated, sealed, primed, trial-fitted, welded and painted later"
            - text: "A photo: 0 of 1"
            - 'button "Photo of Boot floor: after cutting"'
            - 'button "Clock in : Boot floor"'
        - heading "My week" [level=2]
        - paragraph: No time this week yet. It fills as you clock in and out."
    `)

    await page.getByRole('link', { name: 'Boot floor' }).click()
    const next = page.getByRole('region', { name: 'opened is next' })
    await next.waitFor()
    expect(await treeOf(next)).toMatchInlineSnapshot(`
      "- region "opened is next":
        - heading "opened is next" [level=2]
        - text: 1 to bring
        - paragraph: metalwork, one person, metalwork; 1 to 3.0 h
        - list:
          - listitem:
            - button "A photo 0 of 1 take it"
        - 'button "something cannot be brought: ask for a release"'
        - paragraph: "Mind, at opened:"
        - paragraph: "Support the shell before cutting. A stripped shell balances differently: check lift and rotisserie before turning."
        - paragraph: "Disconnect the battery. Remove or purge fuel tank and lines: a drained tank is not safe. Keep heat from brake lines, wiring and trim."
        - paragraph: "Old underseal, foam, wax and sealer burn unseen in cavities and give off toxic gas: strip them back first."
        - paragraph: "Old paint and body solder hold lead; old pads and underseal may hold asbestos: no dry or power sanding, follow local rules."
        - paragraph: "Keep a fire watch after hot work: follow the insurer and the local rules.""
    `)

    await page.getByRole('button', { name: /^Sign off gate/ }).click()
    const signing = dialog(page, 'opened cannot be signed yet')
    expect(await treeOf(signing)).toMatchInlineSnapshot(`
      "- dialog "opened cannot be signed yet":
        - heading "opened cannot be signed yet" [level=2]
        - button "Close"
        - paragraph: Boot floor, Larkspur 4
        - list:
          - listitem: A photo 0 of 1
        - paragraph: "Not yet: 1 thing to bring.""
    `)
    await page.keyboard.press('Escape')

    await comeBackWith(page, page.getByRole('button', { name: /^Take photos/ }), await testPhotoFile('a.jpg'))
    await next.getByText('1 of 1').waitFor()
    await page.getByRole('button', { name: /^Sign off gate/ }).click()
    const ready = dialog(page, 'Sign off opened')
    await ready.waitFor()
    expect(await treeOf(ready)).toMatchInlineSnapshot(`
      "- dialog "Sign off opened":
        - heading "Sign off opened" [level=2]
        - button "Close"
        - paragraph: Boot floor, Larkspur 4
        - list:
          - listitem: A photo 1 of 1
        - text: Done by Ilse Brandt, now
        - button "change, add a note"
        - button "Cancel"
        - button "Go on to sign""
    `)
  })

  browserTest('reads the plan, the floor and what an owner is asked to the manager', async () => {
    const served = await serve({ before: withOwnerAsked })
    const { page } = await served.open({ at: '/plan' })
    await signIn(page)
    const main = page.getByRole('main')
    const go = (name: string) => page.getByRole('link', { name, exact: true }).click()
    const proposal = page.getByRole('region', { name: 'A newer plan' })
    await proposal.getByRole('button', { name: 'Take it', disabled: false }).waitFor(PLANNED)
    await go('List')
    await page.getByRole('heading', { level: 2, name: 'Ilse Brandt' }).waitFor()
    expect(await treeOf(main)).toMatchInlineSnapshot(`
      "- main:
        - heading "Plan" [level=1]
        - paragraph: made Mon 23 Nov, hh:mm; no shell is moved; not taken yet
        - term: late at 80 %
        - definition: none
        - region "A newer plan":
          - paragraph: "The first plan is ready: once it is taken, people are given it."
          - button "Take it"
        - navigation "The plan as":
          - link "Drawing":
          - link "List":
          - link "What if":
        - group "In order":
          - text: In order
          - radio "by person" [checked]
          - text: by person
          - radio "by bay"
          - text: by bay
          - radio "by car"
          - text: by car
        - heading "Mara Lindqvist" [level=2]
        - link "print the plan of Mara Lindqvist":
        - link "calendar file of Mara Lindqvist":
        - paragraph: metalwork
        - list:
          - listitem:
            - text: Larkspur 4
            - 'link "Boot floor: fabricated, 2.0 h by Mara Lindqvist"':
              - text: "Boot floor: fabricated"
            - text: "Mon 30 Nov, hh:mm to hh:mm, Metal 1 waits: 'A longer section' waits for the owner's answer; expected Mon 30 Nov"
            - 'button "pin it Boot floor: fabricated"'
          - listitem:
            - text: Larkspur 4
            - 'link "Boot floor: sealed, 2.0 h by Mara Lindqvist"':
              - text: "Boot floor: sealed"
            - text: "Mon 30 Nov, hh:mm to hh:mm, Metal 1 waits for Boot floor: fabricated until Mon 30 Nov hh:mm"
            - 'button "pin it Boot floor: sealed"'
          - listitem:
            - text: Larkspur 4
            - 'link "Boot floor: primed, 2.0 h by Mara Lindqvist"':
              - text: "Boot floor: primed"
            - text: "Mon 30 Nov, hh:mm to hh:mm, Metal 1 waits for Boot floor: sealed until Mon 30 Nov hh:mm; work goes on Mon 30 Nov hh:mm"
            - 'button "pin it Boot floor: primed"'
          - listitem:
            - text: Larkspur 4
            - 'link "Boot floor: trial-fitted, 2.0 h by Mara Lindqvist"':
              - text: "Boot floor: trial-fitted"
            - text: "Mon 30 Nov, hh:mm to hh:mm, Metal 1 waits for Boot floor: primed until Mon 30 Nov hh:mm"
            - 'button "pin it Boot floor: trial-fitted"'
          - listitem:
            - text: Larkspur 4
            - 'link "Boot floor: welded, 2.0 h by Mara Lindqvist"':
              - text: "Boot floor: welded"
            - text: "Tue 1 Dec, hh:mm to hh:mm, Metal 1 waits for Boot floor: trial-fitted until Mon 30 Nov hh:mm; work goes on Tue 1 Dec hh:mm"
            - 'button "pin it Boot floor: welded"'
          - listitem:
            - text: Larkspur 4
            - 'link "Boot floor: painted, 2.0 h by Mara Lindqvist"':
              - text: "Boot floor: painted"
            - text: "Tue 1 Dec, hh:mm to hh:mm, Metal 1 waits for Boot floor: welded until Tue 1 Dec hh:mm"
            - 'button "pin it Boot floor: painted"'
        - heading "Ilse Brandt" [level=2]
        - link "print the plan of Ilse Brandt":
        - link "calendar file of Ilse Brandt":
        - paragraph: metalwork, welding
        - paragraph: Nothing planned.
        - heading "Tomasz Hale" [level=2]
        - link "print the plan of Tomasz Hale":
        - link "calendar file of Tomasz Hale":
        - paragraph: paint, metalwork
        - paragraph: Nothing planned."
    `)

    await go('Shop floor')
    await page.getByText(/^done by /).waitFor()
    expect(await treeOf(main)).toMatchInlineSnapshot(`
      "- main:
        - heading "Shop floor" [level=1]
        - paragraph: Mon 23 Nov, hh:mm; 3 people in, 0 clocked on
        - term: waiting for you
        - definition: nothing
        - term: waiting for owners
        - definition: 1 decision
        - term: fire watches
        - definition: none
        - region "First steps":
          - text: First steps, 5 of 7
          - link "The first gate, signed":
          - button "put away the first steps"
          - paragraph: Take the photos that it asks for, then sign it off with your code.
          - list:
            - listitem:
              - link "Who works here":
              - text: ", done"
            - listitem:
              - link "Where shells stand":
              - text: ", done"
            - listitem:
              - link "The first shell and its owner":
              - text: ", done"
            - listitem:
              - link "Its first repair":
              - text: ", done"
            - listitem:
              - link "What the owner agrees to":
              - text: ", done"
            - listitem:
              - link "The first gate, signed":
            - listitem:
              - link "A clock on it":
        - paragraph: There is no copy of this workshop yet. If this computer fails, everything in it is lost.
        - paragraph:
          - text: Choose a folder for copies on the Workshop screen, under Copies.
          - link "Go to Copies":
        - region "On the clock":
          - heading "On the clock" [level=2]
          - paragraph: Nobody is clocked on.
          - paragraph: "In, without a clock: Mara Lindqvist, Ilse Brandt and Tomasz Hale."
        - region "Photos of today":
          - heading "Photos of today" [level=2]
          - paragraph: None yet. They stand here as soon as they are taken.
        - region "Metal 1":
          - heading "Metal 1 metalwork, preparation" [level=2]
          - button "book Metal 1"
          - text: 0 days on stands
          - button "move or book the Larkspur 4"
          - link "Larkspur 4":
          - text: "fabricated next, boot floor held: Boot floor: 'A longer section' waits for the owner's answer. done by Tue 1 Dec (80 %)"
        - region "Jig":
          - heading "Jig metalwork" [level=2]
          - button "book Jig"
          - text: empty
        - region "Yard":
          - heading "Yard storage" [level=2]
          - button "book Yard"
          - text: empty
        - region "Needs you today":
          - heading "Needs you today" [level=2]
          - paragraph: "All is as agreed: clocks stopped, hours authorised, no gate past its 80 % mark. What goes another way will stand here."
        - heading "Waiting for you" [level=2]
        - list:
          - listitem:
            - text: "owner Larkspur 4: A longer section since hh:mm"
            - link "the decision":
        - heading "Bookings" [level=2]
        - button "Book a car into a bay"
        - paragraph: No car is booked into a bay.
        - heading "Today" [level=2]
        - paragraph: "Larkspur 4: boot floor cannot be fabricated yet: 'A longer section' waits for the owner's answer.""
    `)

    await go('Owner decisions')
    await page.getByRole('heading', { name: 'A longer section' }).waitFor()
    expect(await treeOf(main)).toMatchInlineSnapshot(`
      "- main:
        - heading "Owner decisions" [level=1]
        - paragraph: Work beyond what is authorised waits until its payer has answered.
        - term: waiting for an answer
        - definition: 1 decision, 2.0 h
        - term: the oldest
        - definition: 0 days
        - term: estimates not accepted
        - definition: 0.0 h
        - region "Waiting for an answer":
          - heading "Waiting for an answer" [level=2]
          - paragraph: 0 days open
          - article:
            - heading "A longer section" [level=3]
            - paragraph: 2.0 h more 1.0 to 4.0 h
            - paragraph:
              - link "Larkspur 4":
              - text: ", R. Okafor; waits for the owner; raised Mon 23 Nov by Mara Lindqvist"
            - paragraph: The flange is gone.
            - list:
              - listitem: "Boot floor: fabricated 1.0 to 4.0 h 2.0 h more"
            - button "Accepted"
            - button "With changes"
            - button "Declined"
            - button "answer expected on …"
            - paragraph:
              - 'link "print it for the owner : A longer section"':
              - 'link "save it as data : A longer section"':
        - complementary "Estimates and earlier answers":
          - heading "Estimates not accepted yet" [level=3]
          - paragraph: No estimate waits for its payer.
          - heading "Answered before" [level=3]
          - paragraph: Answers are kept here, with how they came."
    `)
    const current = page.getByRole('navigation', { name: 'Screens' }).locator('[aria-current="page"]')
    await expect.poll(() => current.allInnerTexts()).toEqual(['Owner decisions'])
  })

  browserTest('says by itself what was stored, done, refused, kept, sent and changed by others', async () => {
    const served = await serveBootFloor()
    const { page, context } = await served.open({ at: repair, tolerates: cutNetwork })
    const { page: office } = await served.open({ at: '/cars/car-s-101', tolerates: cutNetwork })
    await choosePerson(page, ilse.name)
    const [heard, heardInOffice] = await Promise.all([listen(page), listen(office)])

    await comeBackWith(page, page.getByRole('button', { name: /^Take photos/ }), await testPhotoFile('a.jpg'))
    await expect.poll(heard, HEARD).toEqual(['1 photo stored.'])

    await page.getByText('1 of 1').waitFor()
    await page.getByRole('button', { name: /^Sign off gate/ }).click()
    await dialog(page, 'Sign off opened').getByRole('button', { name: 'Go on to sign' }).click()
    await sign(page, 'Sign off opened', { ...ilse, code: '9999' }, 'Sign opened')
    await codeDialog(page, 'Sign off opened').getByRole('alert').waitFor()
    await sign(page, 'Sign off opened', ilse, 'Sign opened')
    await expect.poll(heard, HEARD).toContainEqual(expect.stringMatching(/^Done: .*opened.*Larkspur 4/))
    await expect
      .poll(heardInOffice, HEARD)
      .toContain('This car was changed on another screen. You see it as it is now.')

    await context.setOffline(true)
    served.breakConnections()
    await page.getByText('No connection to the host.').first().waitFor()
    await page.getByRole('button', { name: 'clock in here' }).click()
    await expect.poll(heard, HEARD).toContain('1 entry kept on this device, to be sent later.')
    await context.setOffline(false)
    await expect.poll(heard, HEARD).toContain('What waited on this device is sent.')
    await expect.poll(heard, HEARD).toContain('The host is reached again.')
    expect(await heard()).not.toContainEqual(expect.stringMatching(/^This car was changed/))

    await page.keyboard.press('Control+k')
    await page.getByRole('combobox', { name: 'Find in the workshop' }).fill('boot')
    await dialog(page, 'Find')
      .getByRole('status')
      .getByText(/^\d+ places? found/)
      .waitFor()
  })
})

/** What is sent again waits for its turn. */
const HEARD = { timeout: 20_000 }

/** A first plan, begun after two quiet seconds; most of it is for a busy machine. */
const PLANNED = { timeout: 60_000 }
