import type { PersonId } from './ids.ts'

/** Codes of the demo's invented people, who sign in a workshop of their own: no secrets. */
export const DEMO_CODES = {
  maren: '100001',
  wren: '100002',
  joss: '1003',
  tam: '1004',
  ines: '1005',
  bram: '1006',
  pia: '1007',
} as const

export type DemoName = keyof typeof DEMO_CODES

export const demoPersonId = (name: DemoName): string => `demo-person-${name}`

/** The code that the demo gave a person; null for everybody else. */
export const demoCodeOf = (id: PersonId): string | null =>
  Object.entries(DEMO_CODES).find(([name]) => demoPersonId(name as DemoName) === id)?.[1] ?? null
