import { z } from 'zod'
import { workFacts } from '../../domain/facts/work-facts.ts'
import type { ConditionLimits } from '../../domain/facts/shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import type { ReadingId } from '../../domain/ids.ts'
import { dewPointC, judgeConditions } from '../../domain/measure/dew-point.ts'
import { fixed, joinWords } from '../../domain/text/words.ts'
import { enteredBefore } from '../outbox/enter-again.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Measured } from '../parts/measure/measured.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'
import styles from './dialogs.module.css'

const { airC, humidityPercent, steelC } = workFacts.conditionsRead.shape
const schema = z.object({ airC, humidityPercent, steelC })
type Typed = z.input<typeof schema>

/** Steel at least 3 °C above the dew point, unless the gate says another margin. */
const USUAL_LIMITS: ConditionLimits = {
  minMarginC: 3,
  maxHumidityPercent: null,
  minAirC: null,
  maxAirC: null,
}

/** Air, humidity and steel; dew point and margin are reckoned while they are typed. */
export function ConditionsDialog({ gate, onClose }: { readonly gate: Gate; readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const form = useZodForm(schema, {
    airC: null as unknown as number,
    humidityPercent: null as unknown as number,
    steelC: null as unknown as number,
    ...enteredBefore('readConditions', ['airC', 'humidityPercent', 'steelC']),
  })
  const limits = view.plan.gates[gate].asks.conditions ?? USUAL_LIMITS
  return (
    <Dialog title={`Conditions for ${gate}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Record it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (reading) => {
          const payload = {
            readingId: newId<ReadingId>(),
            repairIds: [view.repair.id],
            gate,
            ...reading,
          }
          if (isSettled(await command.send({ kind: 'readConditions', carId: view.car.carId, payload })))
            onClose()
        }}
      >
        <div className={styles.figures}>
          <NumberField control={form.control} name="airC" label="Air" unit="°C" />
          <NumberField control={form.control} name="humidityPercent" label="Humidity" unit="%" />
          <NumberField control={form.control} name="steelC" label="Steel" unit="°C" />
        </div>
        <Reckoned typed={form.watch()} limits={limits} />
        <p className="small quiet">
          Hold the thermometer to the metal that is coated, in the shade. The product’s data sheet rules.
        </p>
      </Form>
    </Dialog>
  )
}

function Reckoned({ typed, limits }: { readonly typed: Typed; readonly limits: ConditionLimits }) {
  const dewPoint =
    isFigure(typed.airC) && isFigure(typed.humidityPercent)
      ? dewPointC(typed.airC, typed.humidityPercent)
      : null
  const dew = dewPoint?.ok === true ? dewPoint.value : null
  const margin = dew !== null && isFigure(typed.steelC) ? typed.steelC - dew : null
  return (
    <div className="stack-tight">
      <dl className="figures">
        <div>
          <dt>dew point</dt>
          <dd>{dew === null ? '–' : `${fixed(dew, 1)} °C`}</dd>
        </div>
        <div>
          <dt>steel above it</dt>
          <dd>{margin === null ? '–' : `${fixed(margin, 1)} °C`}</dd>
        </div>
      </dl>
      <Verdict typed={typed} limits={limits} isComplete={margin !== null} problem={dewProblem(dewPoint)} />
    </div>
  )
}

function Verdict({
  typed,
  limits,
  isComplete,
  problem,
}: {
  readonly typed: Typed
  readonly limits: ConditionLimits
  readonly isComplete: boolean
  readonly problem: string | null
}) {
  if (problem !== null) return <Measured isInside={false} words={problem} />
  if (!isComplete)
    return (
      <Measured isInside={null} words={`at least ${limits.minMarginC} °C above the dew point is needed`} />
    )
  const { inside, problems } = judgeConditions(typed, limits)
  return <Measured isInside={inside} words={inside ? 'inside the limits' : joinWords(problems)} />
}

const isFigure = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value)

const dewProblem = (dewPoint: ReturnType<typeof dewPointC> | null): string | null =>
  dewPoint !== null && !dewPoint.ok ? dewPoint.refusal.message : null
