import { readFileSync } from 'node:fs'
import { load } from 'js-yaml'
import { expect, test } from 'vitest'

interface Step {
  readonly uses?: string
  readonly run?: string
  readonly with?: Readonly<Record<string, unknown>>
}
interface Job {
  readonly needs?: string
  readonly permissions?: unknown
  readonly strategy: {
    readonly matrix: {
      readonly os?: readonly string[]
      readonly include?: readonly { readonly os: string; readonly targets: string }[]
    }
  }
  readonly steps: readonly Step[]
}
interface Workflow {
  readonly permissions: unknown
  readonly jobs: Readonly<Record<'test' | 'installers', Job>>
}

const read = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')
const text = read('.github/workflows/build.yml')
const { permissions, jobs } = load(text) as Workflow
const steps = Object.values(jobs).flatMap((job) => job.steps)
const systems = (runners: readonly string[]) => new Set(runners.map((runner) => runner.split('-')[0]))

test('the workflow may read the tree and nothing else, and knows no secret', () => {
  expect(permissions).toEqual({ contents: 'read' })
  expect(Object.values(jobs).map((job) => job.permissions)).toEqual([undefined, undefined])
  expect(text).not.toMatch(/secrets\.|pull_request_target|github\.token/)
  const checkouts = steps.filter(({ uses }) => uses?.startsWith('actions/checkout@'))
  expect(checkouts.map((step) => step.with)).toEqual([
    { 'persist-credentials': false },
    { 'persist-credentials': false },
  ])
})

test('what others wrote is named by a commit, with the release that it is of', () => {
  const used = [...text.matchAll(/uses: (.*)$/gm)].map(([, action]) => action)
  expect(used.length).toBe(steps.filter(({ uses }) => uses !== undefined).length)
  expect(
    used.filter((action) => !/^actions\/[a-z-]+@[0-9a-f]{40} # v\d+\.\d+\.\d+$/.test(action ?? '')),
  ).toEqual([])
})

test('installers are made on each system, and only where the tests of all have passed', () => {
  const { test: tested, installers } = jobs
  expect(systems(tested.strategy.matrix.os ?? [])).toEqual(new Set(['macos', 'ubuntu', 'windows']))
  expect(installers.needs).toBe('test')
  expect(installers.strategy.matrix.include?.map(({ targets }) => targets).sort()).toEqual([
    '--linux AppImage deb --x64',
    '--mac dmg --arm64',
    '--mac dmg --x64',
    '--win nsis --x64',
  ])
  expect(installers.steps.at(-1)?.with).toMatchObject({
    path: expect.stringContaining('SHA256SUMS'),
    'if-no-files-found': 'error',
  })
})

test('every command of it is one that package.json has', () => {
  const { scripts } = JSON.parse(read('package.json'))
  const run = steps.flatMap((step) =>
    [...(step.run ?? '').matchAll(/npm run (\S+)/g)].map(([, name]) => name),
  )
  expect(run).toEqual(['verify', 'package'])
  expect(Object.keys(scripts)).toEqual(expect.arrayContaining(run))
})
