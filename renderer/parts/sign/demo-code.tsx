import { demoCodeOf } from '../../../domain/demo-codes.ts'
import type { Person } from './sign-request.ts'

/** In the demo, whose people are invented: the code that it gave the one who signs. */
export function DemoCode({ isDemo, of }: { readonly isDemo: boolean; readonly of: Person | undefined }) {
  const code = isDemo && of !== undefined ? demoCodeOf(of.id) : null
  if (of === undefined || code === null) return null
  return (
    <p className="small quiet">
      In this demo the code of {of.name} is {code}.
    </p>
  )
}
