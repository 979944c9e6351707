import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { afterEach, expect, test, vi } from 'vitest'
import { keepWindowState, readWindowState, windowStatePath } from '../../../electron/desktop/window-state.ts'
import { windowBounds, type WindowState } from '../../../domain/window-state.ts'
import { dataFolder, fakeDesktop } from '../../support/fake-desktop.ts'

afterEach(() => vi.useRealTimers())

const main = { x: 0, y: 25, width: 1920, height: 1015 }
const beside = { x: 1920, y: 0, width: 1280, height: 1024 }
const left: WindowState = { x: 2000, y: 40, width: 1100, height: 800, isMaximized: false }

function kept(text: string) {
  const path = windowStatePath(dataFolder())
  mkdirSync(dirname(path), { recursive: true })
  writeFileSync(path, text)
  const log: string[] = []
  return { state: readWindowState(path, (line) => log.push(line)), log }
}
type Screens = Parameters<typeof windowBounds>[1]
const boundsOn = (state: WindowState | null, ...screens: Screens) => windowBounds(state, screens)

test('the window opens where it was left, and as large', () => {
  vi.useFakeTimers()
  const path = windowStatePath(dataFolder())
  const log: string[] = []
  const { opened, windowState, emit } = fakeDesktop()
  keepWindowState(opened.window, path, (line) => log.push(line))
  windowState.bounds = { x: 2000, y: 40, width: 1100, height: 800 }
  emit.window('move')
  expect(readWindowState(path, (line) => log.push(line))).toBeNull()
  vi.advanceTimersByTime(1_000)
  expect(readWindowState(path, (line) => log.push(line))).toEqual(left)

  windowState.isMaximized = true
  emit.window('close')
  const state = readWindowState(path, (line) => log.push(line))
  expect(state).toEqual({ ...left, isMaximized: true })
  expect(boundsOn(state, main, beside)).toEqual({ x: 2000, y: 40, width: 1100, height: 800 })
  expect(log).toEqual([])
})

test('nothing is asked of a window that is gone', () => {
  vi.useFakeTimers()
  const path = windowStatePath(dataFolder())
  const { opened, windowState, emit } = fakeDesktop()
  keepWindowState(opened.window, path, () => {})
  emit.window('resize')
  windowState.isDestroyed = true
  emit.window('closed')
  vi.advanceTimersByTime(1_000)
  expect(readWindowState(path, () => {})).toBeNull()
})

test('a window of a screen that is no longer there comes back in the middle of the main one', () => {
  expect(boundsOn(left, main)).toEqual({ x: 410, y: 132, width: 1100, height: 800 })
})

test('a window whose upper edge is out of reach comes back, one that hangs over an edge stays', () => {
  expect(boundsOn({ ...left, x: 300, y: -400 }, main).y).toBeGreaterThanOrEqual(main.y)
  expect(boundsOn({ ...left, x: 300, y: 1035 }, main).y).toBeLessThan(1000)
  expect(boundsOn({ ...left, x: 1900, y: 100 }, main).x).toBe(410)
  expect(boundsOn({ ...left, x: 1500, y: 100 }, main).x).toBe(1500)
  expect(boundsOn({ ...left, x: -900, y: 100 }, main).x).toBe(-900)
})

test('a window is never larger than the screen that it comes back to', () => {
  const small = { x: 0, y: 0, width: 1024, height: 740 }
  expect(boundsOn({ ...left, width: 2000, height: 1200 }, small)).toEqual(small)
  expect(boundsOn(null, small)).toEqual(small)
  expect(boundsOn(null, main)).toEqual({ x: 240, y: 82, width: 1440, height: 900 })
})

test.each([
  '',
  '{"x":',
  'null',
  '[]',
  '{"x":1,"y":1,"width":0,"height":10,"isMaximized":false}',
  '{"x":1,"y":1,"width":1e9,"height":10,"isMaximized":false}',
  '{"x":1,"y":1,"width":900,"height":700,"isMaximized":false,"more":1}',
])('a broken file (%s) is ignored with a line in the log', (text) => {
  const { state, log } = kept(text)
  expect(state).toBeNull()
  expect(log).toEqual(['window: its place could not be read, so it opens in the middle'])
})

test('a disk that takes nothing is said in the log', () => {
  const folder = dataFolder()
  const path = windowStatePath(folder)
  mkdirSync(path, { recursive: true })
  const log: string[] = []
  const { opened, emit } = fakeDesktop()
  keepWindowState(opened.window, path, (line) => log.push(line))
  emit.window('close')
  expect(log).toEqual([expect.stringMatching(/^window: its place could not be kept/)])
})

test('the file holds the place and nothing else', () => {
  const path = windowStatePath(dataFolder())
  const { opened, emit, windowState } = fakeDesktop()
  keepWindowState(opened.window, path, () => {})
  windowState.bounds = { x: 1, y: 2, width: 800, height: 600 }
  emit.window('close')
  expect(readFileSync(path, 'utf8')).toBe('{"x":1,"y":2,"width":800,"height":600,"isMaximized":false}')
})
