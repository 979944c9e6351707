import type { Locator, Page } from 'playwright-core'
import { expect } from 'vitest'
import { screenSizes } from './browser.ts'
import { createTestPhoto } from './images.ts'
import { codes, manager } from './workshop.ts'

/** What people do at a screen, found as they find it: by words and roles. */

export const dialog = (page: Page, title: string | RegExp): Locator =>
  page.getByRole('dialog', { name: title })

/** 'Ilse Brandt is here'. */
export async function choosePerson(page: Page, name: string): Promise<void> {
  if (isPhone(page)) {
    await page.getByRole('button', { name: 'More', exact: true }).click()
    await page.getByRole('menuitem', { name: 'Who is here?' }).click()
    await dialog(page, 'Who is at this device?').getByRole('button', { name }).click()
  } else {
    await page.getByRole('button', { name: 'who is here?' }).click()
    await page.getByRole('menuitem', { name }).click()
    await page.getByText(`${name} is here`).waitFor()
  }
}

const isPhone = (page: Page): boolean => page.viewportSize()?.width === screenSizes.phone.width

/** Signs the manager of the small workshop in on this screen. */
export async function signIn(page: Page, code = codes[manager] ?? ''): Promise<void> {
  if (isPhone(page)) {
    await page.getByRole('button', { name: 'More', exact: true }).click()
    await page.getByRole('menuitem', { name: 'Manager: sign in' }).click()
    await giveManagersCode(page, code)
  } else {
    await page.getByRole('button', { name: 'manager: sign in', exact: true }).click()
    await giveManagersCode(page, code)
    await page.getByText('Signed in:').waitFor()
  }
}

/** Answers the dialog that asks for the manager's code. */
export async function giveManagersCode(page: Page, code = codes[manager] ?? ''): Promise<void> {
  const asked = dialog(page, "The manager's code")
  await asked.getByLabel('Code').fill(code)
  await asked.getByRole('button', { name: 'Sign in' }).click()
  await asked.waitFor({ state: 'detached' })
}

/** The dialog over a dialog that asks for the signer's own code; both have the same title. */
export const codeDialog = (page: Page, title: string | RegExp): Locator =>
  dialog(page, title).filter({ has: page.getByLabel('Own code') })

export interface SignedBy {
  readonly name: string
  readonly code: string
}

/** Signs what the code dialog of this title shows. */
export async function sign(page: Page, title: string | RegExp, by: SignedBy, words = 'Sign'): Promise<void> {
  const asked = codeDialog(page, title)
  await asked.getByLabel('Signed by').selectOption({ label: by.name })
  await asked.getByLabel('Own code').fill(by.code)
  await asked.getByRole('button', { name: words, exact: true }).click()
}

export interface PhotoFile {
  readonly name: string
  readonly mimeType: string
  readonly buffer: Buffer
}

/** Taps something that opens the camera or the file list, and comes back with these files. */
export async function comeBackWith(
  page: Page,
  opener: Locator,
  files: PhotoFile | readonly PhotoFile[],
): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), opener.click()])
  await chooser.setFiles(Array.isArray(files) ? [...files] : (files as PhotoFile))
}

/** What 'opened' asks for at the repair that is shown, the second one when the first is counted: nobody takes both at once. */
export async function photographOpening(page: Page): Promise<void> {
  const take = page.getByRole('button', { name: 'Take photos' })
  await comeBackWith(page, take, await testPhotoFile('before.jpg'))
  await page.getByRole('button', { name: /^A photo before cutting\s*1 of 1/ }).waitFor()
  await comeBackWith(page, take, await testPhotoFile('after.jpg'))
  await page.getByText('all there').waitFor()
}

/** A small real photo without a camera date. */
export async function testPhotoFile(name: string, color = '#7a5c40'): Promise<PhotoFile> {
  return { name, mimeType: 'image/jpeg', buffer: await createTestPhoto({ width: 640, height: 480, color }) }
}

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** Where something lies on the page once it lies still, in CSS pixels. */
export async function placeAtRest(target: Locator): Promise<Box> {
  let last: Box | null = null
  const liesStill = async () => {
    const before = last
    last = await target.boundingBox()
    return last !== null && JSON.stringify(before) === JSON.stringify(last)
  }
  await expect.poll(liesStill).toBe(true)
  return last!
}

/** To be waited for where something is printed: a second or two when the machine is idle, and most of it for a busy one. */
export const PRINTED = { timeout: 60_000 }

/** What stands above everything about the connection and what waits; screen readers are told the same in another place. */
export const strips = (page: Page): Locator => page.locator('.strips')
