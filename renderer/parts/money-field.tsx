import type { FieldValues } from 'react-hook-form'
import { type FieldProps, NumberField } from './fields.tsx'

/** An amount in the currency's major unit; {@link typedMoneySchema} reads it. */
export function MoneyField<Values extends FieldValues>({
  currency,
  per,
  ...props
}: FieldProps<Values> & { readonly currency: string; readonly per?: 'hour' }) {
  return <NumberField {...props} unit={per === undefined ? currency : `${currency} an hour`} />
}
