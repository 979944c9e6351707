import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, expect, test, vi } from 'vitest'
import { SCREENS } from '../../../domain/screens.ts'
import { versionWords } from '../../../domain/program-version.ts'
import { readBuiltFrom } from '../../../electron/built-from.ts'
import { createMenuActs } from '../../../electron/desktop/menu-acts.ts'
import { menuTemplate } from '../../../electron/desktop/menus.ts'
import { offerTextMenu } from '../../../electron/desktop/text-menu.ts'
import { dataFolder, fakeDesktop, type FakeDesktopOptions, itemsOf } from '../../support/fake-desktop.ts'

afterEach(() => vi.restoreAllMocks())

const origin = 'http://127.0.0.1:4600'

function opened(options: FakeDesktopOptions & { readonly platform?: NodeJS.Platform } = {}) {
  const fake = fakeDesktop(options)
  fake.page.url = `${origin}/cars/4?sheet=money#row`
  const log: string[] = []
  const acts = createMenuActs(fake.desktop, fake.opened, {
    origin,
    dataDir: '/data',
    log: (line) => log.push(line),
  })
  const menus = menuTemplate(options.platform ?? 'linux', acts)
  const press = (label: string) => {
    const item = itemsOf(menus).find((each) => each.label === label)
    if (item?.click === undefined) throw new Error(`There is no item ${label}.`)
    item.click(null as never, undefined, null as never)
  }
  return { ...fake, menus, log, press }
}

/** Shortcuts as they stand in a menu, by what they do. */
const shortcuts = (platform: NodeJS.Platform) =>
  Object.fromEntries(
    itemsOf(opened({ platform }).menus)
      .filter(({ accelerator, visible }) => accelerator !== undefined && visible !== false)
      .map(({ label, role, accelerator }) => [label ?? role, accelerator]),
  )
const rolesOf = (platform: NodeJS.Platform) =>
  itemsOf(opened({ platform }).menus).flatMap(({ role }) => (role === undefined ? [] : [role]))

test('every screen has its number, in the order of the navigation', () => {
  for (const platform of ['win32', 'darwin', 'linux'] as const)
    for (const [at, { words }] of SCREENS.entries())
      expect(shortcuts(platform)[words]).toBe(`CmdOrCtrl+${at + 1}`)
  expect(SCREENS).toHaveLength(8)
})

test('what every program has goes by its usual keys: saving, printing, help, and what Electron gives its roles', () => {
  for (const platform of ['win32', 'darwin', 'linux'] as const) {
    expect(shortcuts(platform)).toMatchObject({
      'Save page as PDF…': 'CmdOrCtrl+S',
      'Print…': 'CmdOrCtrl+P',
      'Help for this screen': 'F1',
    })
    const items = itemsOf(opened({ platform }).menus)
    for (const role of ['editMenu', 'reload', 'zoomIn', 'zoomOut', 'resetZoom', 'togglefullscreen'] as const)
      expect(items.find((item) => item.role === role)?.accelerator, role).toBeUndefined()
    expect(items.filter(({ role }) => role === 'zoomIn').at(-1)?.accelerator).toBe('CmdOrCtrl+=')
  }
  expect(rolesOf('darwin')).toEqual(expect.arrayContaining(['hide', 'minimize', 'zoom', 'front', 'quit']))
})

test('no shortcut stands twice', () => {
  for (const platform of ['win32', 'darwin', 'linux'] as const) {
    const key = platform === 'darwin' ? 'Cmd' : 'Ctrl'
    const all = itemsOf(opened({ platform }).menus).flatMap(
      ({ accelerator }) => accelerator?.replace('CmdOrCtrl', key) ?? [],
    )
    expect(all.length).toBeGreaterThan(SCREENS.length)
    expect(new Set(all).size).toBe(all.length)
  }
})

test('on macOS the program has a menu of its own, with quitting and what it is; elsewhere these stand under File and Help', () => {
  const [first] = opened({ platform: 'darwin' }).menus
  expect(first?.label).toBe('Panelwright')
  expect(itemsOf([first!]).map(({ label, role }) => label ?? role)).toContain('About Panelwright')
  expect(itemsOf([first!]).map(({ role }) => role)).toContain('quit')
  expect(rolesOf('darwin').filter((role) => role === 'quit')).toHaveLength(1)
  for (const platform of ['win32', 'linux'] as const) {
    expect(opened({ platform }).menus.map(({ label, role }) => label ?? role)).toEqual([
      '&File',
      'editMenu',
      '&View',
      '&Help',
    ])
    expect(shortcuts(platform).quit).toBe('Ctrl+Q')
  }
})

test('there is one window, and nothing that looks into the page', () => {
  for (const platform of ['win32', 'darwin', 'linux'] as const) {
    const roles = rolesOf(platform)
    expect(roles).not.toContain('toggleDevTools')
    expect(roles).not.toContain('close')
    expect(roles).not.toContain('recentDocuments')
    const labels = itemsOf(opened({ platform }).menus).map(({ label }) => label ?? '')
    expect(labels.filter((label) => /new|window/i.test(label))).toEqual([])
    expect(roles).toEqual(
      expect.arrayContaining(['editMenu', 'reload', 'zoomIn', 'zoomOut', 'resetZoom', 'togglefullscreen']),
    )
  }
})

test('a screen, the help and the keyboard map are opened within the page that is shown', () => {
  const { press, page } = opened()
  press('Plan')
  expect(page.url).toBe(`${origin}/cars/4?sheet=money#open=/plan`)
  press('Help for this screen')
  expect(page.url).toBe(`${origin}/cars/4?sheet=money#open=help`)
  press('Keyboard map')
  expect(page.url).toBe(`${origin}/cars/4?sheet=money#open=keyboard`)
})

test('a window that shows nothing of the host is sent to it', () => {
  const { press, page } = opened()
  page.url = 'chrome-error://chromewebdata/'
  press('Plan')
  expect(page.url).toBe(`${origin}/#open=/plan`)
})

test('the page is printed, and saved as a PDF where the person says', async () => {
  const path = join(dataFolder(), 'plan.pdf')
  const { press, steps, boxes } = opened({ saveTo: path })
  press('Print…')
  expect(steps).toEqual(['print'])
  press('Save page as PDF…')
  await vi.waitFor(() => expect(readFileSync(path, 'utf8')).toBe('%PDF-1.7'))
  expect(boxes).toEqual([])
})

test('a page that cannot be saved there says why', async () => {
  const { press, boxes } = opened({ saveTo: join(dataFolder(), 'nowhere', 'plan.pdf') })
  press('Save page as PDF…')
  await vi.waitFor(() => expect(boxes).toMatchObject([{ message: 'The page could not be saved.' }]))
  expect(boxes[0]?.detail).toMatch(/ENOENT[^]*Choose another folder/)
})

test('folders are shown in the file manager: the data and the logs', () => {
  const { press, steps, log } = opened()
  press('Show the data folder')
  expect(log).toEqual([])
  press('Show the logs')
  // So that there is one to show.
  expect(log).toEqual(['the logs are shown'])
  expect(steps.map((step) => step.replaceAll('\\', '/'))).toEqual([
    'showItemInFolder /data/workshop.db',
    'showItemInFolder /data/private/logs/panelwright.log',
  ])
})

test('About names the version and what it runs on, and saves the licences', async () => {
  const { press, boxes, steps } = opened({ answer: () => 1 })
  press('About Panelwright')
  await vi.waitFor(() => expect(steps).toEqual([`downloadURL ${origin}/licences.txt`]))
  expect(boxes).toMatchObject([{ message: `Panelwright ${versionWords(readBuiltFrom())}` }])
  expect(boxes[0]?.detail).toContain(`Node ${process.versions.node}`)
  press('Save the licences…')
  expect(steps).toHaveLength(2)
})

const can = { canUndo: false, canCut: true, canCopy: true, canPaste: false, canSelectAll: true }
const textMenu = (params: object) => {
  const { opened: shown, emit, popUps } = fakeDesktop()
  offerTextMenu(shown)
  emit.contents('context-menu', { isEditable: false, editFlags: can, selectionText: '', ...params })
  return popUps.map((items) => items.flatMap(({ role, enabled }) => (role ? [[role, enabled]] : [])))
}

test('the right mouse button offers cut, copy and paste in what can be typed into, as far as they do something', () => {
  expect(textMenu({ isEditable: true })).toEqual([
    [
      ['undo', false],
      ['cut', true],
      ['copy', true],
      ['paste', false],
      ['selectAll', true],
    ],
  ])
})

test('marked text can be copied, and nothing is offered elsewhere', () => {
  expect(textMenu({ selectionText: 'S-101' })).toEqual([[['copy', undefined]]])
  expect(textMenu({ selectionText: ' \n' })).toEqual([])
  expect(textMenu({})).toEqual([])
})
