import { join, resolve } from 'node:path'
import { describe, expect, test } from 'vitest'
import { defaultDataFolder } from '../../electron/data-folder.ts'
import { parseStartOptions } from '../../electron/start-options.ts'

const usual = resolve('/usual')
const cwd = resolve('/work')
const parse = (...argv: readonly string[]) => parseStartOptions(argv, usual, cwd)
const messageOf = (...argv: readonly string[]) => {
  const parsed = parse(...argv)
  return parsed.ok ? undefined : parsed.message
}

describe('the flags of npm start', () => {
  test('without flags everything is kept in the usual place and a window opens', () => {
    expect(parse()).toEqual({
      ok: true,
      options: { dataDir: usual, demo: false, today: undefined, port: undefined, window: true },
      isWithCarFile: false,
    })
  })

  test('every flag is read', () => {
    expect(
      parse('--data', 'here', '--demo', '--today', '2026-11-27', '--port', '4600', '--no-window'),
    ).toEqual({
      ok: true,
      options: { dataDir: join(cwd, 'here'), demo: true, today: '2026-11-27', port: 4600, window: false },
      isWithCarFile: false,
    })
  })

  test('a flag that is not known is named, with those there are', () => {
    expect(messageOf('--dta', 'x')).toMatch(/--dta[^]*--data DIR/)
    expect(messageOf('here')).toMatch(/here[^]*--data DIR/)
  })

  test('the file of a car is known by its name, and its path goes nowhere', () => {
    for (const path of [
      'car-S-101.zip',
      'car-S-101.panelcar',
      '/media/stick/CAR.ZIP',
      'D:\\files\\car.zip',
      'file:///home/somebody/S%20101.panelcar',
    ])
      expect(parse(path)).toEqual({
        ok: true,
        options: { dataDir: usual, demo: false, today: undefined, port: undefined, window: true },
        isWithCarFile: true,
      })
    expect(messageOf('car.zip', 'other.zip')).toMatch(/^'other.zip' is not known/)
    expect(messageOf('letter.pdf')).toMatch(/^'letter.pdf' is not known/)
  })

  test('an address is refused, whatever it ends in', () => {
    for (const address of [
      'panelwright://cars',
      'https://elsewhere.invalid/car.zip',
      'file://elsewhere.invalid/car.zip',
      'mailto:a@b',
    ])
      expect(messageOf(address)).toBe('Panelwright opens no addresses.')
  })

  test('a flag without its value is refused', () => {
    expect(messageOf('--data')).toMatch(/--data/)
    expect(messageOf('--data', '')).toBe('--data needs a folder.')
  })

  test.each(['-1', '65536', '1e3', '4600x', '', '99999999999'])("'%s' is not a port", (port) => {
    expect(messageOf(`--port=${port}`)).toContain('from 0 to 65535')
  })

  test.each(['2026-02-30', '2026-13-01', '27.11.2026', '2026-11-27T00:00', ''])(
    "'%s' is not a day",
    (day) => {
      expect(messageOf('--demo', `--today=${day}`)).toContain('write it as 2026-11-27')
    },
  )

  test('a day without the demo is refused, as the real workshop lives in real days', () => {
    expect(messageOf('--today', '2026-11-27')).toBe('--today only goes with --demo.')
  })
})

describe('the usual data folder', () => {
  test('lies where each platform keeps what belongs to a person', () => {
    const folder = (platform: NodeJS.Platform, home: string, env = {}) =>
      defaultDataFolder({ platform, home, env })
    expect(folder('linux', '/home/a')).toBe('/home/a/.local/share/panelwright')
    expect(folder('linux', '/home/a', { XDG_DATA_HOME: '/big/data' })).toBe('/big/data/panelwright')
    expect(folder('linux', '/home/a', { XDG_DATA_HOME: 'not/absolute' })).toBe(
      '/home/a/.local/share/panelwright',
    )
    expect(folder('darwin', '/Users/a')).toBe('/Users/a/Library/Application Support/Panelwright')
    expect(folder('win32', 'C:\\Users\\a')).toBe('C:\\Users\\a\\AppData\\Local\\Panelwright')
    expect(folder('win32', 'C:\\Users\\a', { LOCALAPPDATA: 'D:\\L' })).toBe('D:\\L\\Panelwright')
  })
})
