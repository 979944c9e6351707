import type { ReactNode } from 'react'
import type { Refusal } from '../../../domain/refusal.ts'
import { Button } from '../form/button.tsx'
import { PlainForm } from '../form/form.tsx'
import { RefusalNote } from '../form/notice.tsx'

/** A form that ends in a code: what is to be known and chosen first, the code, why it was refused, and its one button. */
export function CodeForm({
  submit,
  isReady,
  isBusy = false,
  refusal,
  onSubmit,
  children,
}: {
  /** Words of the button. */
  readonly submit: string
  /** False while the code is too short, or nobody is chosen. */
  readonly isReady: boolean
  readonly isBusy?: boolean
  readonly refusal: Refusal | null
  readonly onSubmit: () => Promise<void>
  readonly children: ReactNode
}) {
  return (
    <PlainForm onSubmit={async () => (isReady && !isBusy ? onSubmit() : undefined)}>
      {children}
      <RefusalNote refusal={refusal} />
      <Button kind="main" type="submit" disabled={!isReady} aria-busy={isBusy}>
        {submit}
      </Button>
    </PlainForm>
  )
}
