import { planningSchema, type Planning } from '../../domain/facts/plan-facts.ts'
import { CheckField, NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { KeptDaysFigure } from './kept-days-figure.tsx'
import styles from './limits.module.css'

/** What the plan goes by while it is set: the drawing follows what is typed. */
export function PlanningForm({
  planning,
  onDone,
}: {
  readonly planning: Planning
  readonly onDone: () => void
}) {
  const command = useCommand()
  const form = useZodForm(planningSchema, { ...planning })
  const { control } = form
  const typed = form.watch('frozenDays')
  return (
    <Form
      form={form}
      submit="Plan by it from now on"
      refusal={command.refusal}
      onCancel={onDone}
      onSubmit={async (payload) => {
        if (isSettled(await command.send({ kind: 'setPlanning', carId: null, payload }))) onDone()
      }}
    >
      <div className={styles.cells}>
        <section className="stack-tight">
          <h2 className={styles.heading}>Days that keep the plan</h2>
          <KeptDaysFigure
            days={planningSchema.shape.frozenDays.safeParse(typed).data ?? planning.frozenDays}
          />
          <NumberField
            control={control}
            name="frozenDays"
            label="Working days after today"
            unit="days"
            hint="0: no day keeps the plan, today neither."
          />
          <CheckField
            control={control}
            name="takeByItself"
            label="Take changes to later days without asking"
            hint="What changes on the days that keep the plan is always a proposal."
          />
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Moving a shell</h2>
          <div className="field-row">
            <NumberField control={control} name="moveMinutes" label="Takes" unit="min" />
            <NumberField
              control={control}
              name="movePeople"
              label="Needs"
              unit="people"
              hint="0 when nobody has to help."
            />
          </div>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>An owner’s answer</h2>
          <NumberField
            control={control}
            name="decisionDays"
            label="Expected after"
            unit="days"
            hint="Where no day is named on the variation."
          />
        </section>
      </div>
    </Form>
  )
}
