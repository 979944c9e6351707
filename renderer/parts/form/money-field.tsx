import { useWatch, type FieldValues } from 'react-hook-form'
import { minorDigits, moneyWords } from '../../../domain/text/money-words.ts'
import { type FieldProps, NumberField } from './fields.tsx'
import { typedMoneySchema } from './money-amount.ts'

/**
 * An amount in the currency's major unit; {@link typedMoneySchema} reads it. Below it the amount as it is understood: a
 * comma that was meant to set off thousands is seen at once.
 */
export function MoneyField<Values extends FieldValues>({
  currency,
  per,
  hint,
  ...props
}: FieldProps<Values> & { readonly currency: string; readonly per?: 'hour' }) {
  const { data } = typedMoneySchema(currency).safeParse(
    useWatch({ control: props.control, name: props.name }),
  )
  const unit = per === undefined ? '' : ' an hour'
  return (
    <NumberField
      {...props}
      unit={`${currency}${unit}`}
      decimals={minorDigits(currency)}
      hint={
        data === undefined ? (
          hint
        ) : (
          <>
            <span className="strong">
              {moneyWords(data, currency)}
              {unit}
            </span>
            {hint !== undefined && <>. {hint}</>}
          </>
        )
      }
    />
  )
}
