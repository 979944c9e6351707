import { useEffect, useState } from 'react'
import { ANSWERED_BY } from '../../../domain/facts/agreement-facts.ts'
import { moneyWords } from '../../../domain/text/money-words.ts'
import { localToInstant } from '../../../domain/time/zone.ts'
import type { VariationView } from '../../../domain/views/view-shapes.ts'
import { useActor } from '../sign/actor.tsx'
import { ANSWERS, type Answer, answerSchema, answerWords, askedValues, changedOf } from './answer-values.ts'
import { rangeWords } from '../hours/band-words.ts'
import { asChoices } from '../form/as-choices.ts'
import { Button, WordButton } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { ChoiceField, DateField, NoteField, NumberField, TimeField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { MoneyField } from '../form/money-field.tsx'
import { Notice } from '../form/notice.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import styles from './variation-form.module.css'
import { useWhen } from '../frame/when.tsx'
import { GO_ON_TO_SIGN } from '../sign/sign-request.ts'

/** What the payer answered, to what extent, when and how the answer came. */
export function DecideVariationDialog({
  variation,
  answer,
  onClose,
}: {
  readonly variation: VariationView
  readonly answer: Answer
  readonly onClose: () => void
}) {
  return (
    <Dialog title={`The ${variation.payer} answers: ${variation.title}`} isOpen onClose={onClose}>
      <AnswerForm variation={variation} answer={answer} onClose={onClose} />
    </Dialog>
  )
}

function AnswerForm({
  variation,
  answer,
  onClose,
}: {
  readonly variation: VariationView
  readonly answer: Answer
  readonly onClose: () => void
}) {
  const { session, hostNow } = useActor()
  const when = useWhen()
  const command = useCommand()
  const [isNow, setIsNow] = useState(true)
  const { currency } = session
  const { id, carId, payer, costs } = variation
  const form = useZodForm(answerSchema(currency), {
    answer,
    ...askedValues(variation, currency),
    how: 'call',
    date: when.today,
    time: when.time(hostNow()),
    note: '',
  })
  const chosen = form.watch('answer')
  // Amounts that only a manager is shown join the form once one has signed in.
  useEffect(() => {
    if (form.getValues('amounts').length > 0 || costs === null) return
    form.setValue('amounts', askedValues(variation, currency).amounts)
  }, [costs, currency, form, variation])
  return (
    <Form
      form={form}
      submit={GO_ON_TO_SIGN}
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async (values) => {
        if (values.answer === 'changed' && costs === null)
          return form.setError('answer', { message: 'Sign in as a manager first: its costs are not shown.' })
        const changed = values.answer === 'changed' ? changedOf(variation, values) : null
        const decision = values.answer === 'declined' ? 'declined' : 'accepted'
        const { how, note } = values
        const outcome = await command.send({
          kind: 'decideVariation',
          carId,
          payload: { variationId: id, decision, changed, how, note },
          ...(!isNow && { happened: when.iso(localToInstant(values.date, values.time, when.zone)) }),
          sign: {
            title: `The ${payer} ${decision}${changed === null ? '' : ' with changes'}`,
            says: answerWords(variation, values, changed, currency),
          },
        })
        if (isSettled(outcome)) onClose()
      }}
    >
      <ChoiceField
        control={form.control}
        name="answer"
        label={`The ${payer}’s answer`}
        choices={ANSWERS.map((value) => ({ value, words: ANSWER_WORDS[value] }))}
      />
      {chosen === 'changed' && <Changes variation={variation} form={form} currency={currency} />}
      {chosen === 'declined' && (
        <p className="small quiet">
          It stays on record as the {payer}’s decision; what happens with the work then is yours to choose.
        </p>
      )}
      <ChoiceField
        control={form.control}
        name="how"
        label="How the answer came"
        choices={asChoices(ANSWERED_BY)}
      />
      {isNow ? (
        <p>
          It came now. <WordButton onClick={() => setIsNow(false)}>it came earlier</WordButton>
        </p>
      ) : (
        <div className="field-row">
          <DateField control={form.control} name="date" label="It came on" />
          <TimeField control={form.control} name="time" label="at" />
        </div>
      )}
      <NoteField control={form.control} name="note" label="What was said (may stay empty)" />
    </Form>
  )
}

const ANSWER_WORDS: Readonly<Record<Answer, string>> = {
  accepted: 'accepted as asked',
  changed: 'accepted with changes',
  declined: 'declined',
}

/** Hours and amounts as they were asked, to be written over with what was accepted. */
function Changes({
  variation,
  form,
  currency,
}: {
  readonly variation: VariationView
  readonly form: ReturnType<typeof useZodForm<ReturnType<typeof answerSchema>>>
  readonly currency: string
}) {
  const { askManager } = useActor()
  const { lines, costs } = variation
  return (
    <fieldset className="field">
      <legend>What is accepted; 0 for what is not</legend>
      <div className={styles.changes}>
        {lines.map(({ what, asked }, index) => (
          <NumberField
            key={what}
            control={form.control}
            name={`hours.${index}`}
            label={what}
            unit="h"
            hint={`asked ${asked.likely} h${asked.low === asked.high ? '' : `, ${rangeWords(asked)}`}`}
          />
        ))}
        {costs?.map(({ costId, name, asked }, index) => (
          <MoneyField
            key={costId}
            control={form.control}
            name={`amounts.${index}`}
            label={name}
            currency={currency}
            hint={`Asked ${moneyWords(asked, currency)}, without tax.`}
          />
        ))}
      </div>
      {costs === null && (
        <Notice>
          <div className="spread">
            <p>
              Amounts of money are shown to managers only, and what they are changed to is asked here too.
            </p>
            <Button onClick={() => void askManager()}>Manager: sign in</Button>
          </div>
        </Notice>
      )}
    </fieldset>
  )
}
