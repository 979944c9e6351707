import { useState } from 'react'
import type { WhatIf } from '../../domain/plan/plan.ts'
import { SelectInput } from '../parts/form/inputs.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import type { Assumption } from './assumption.ts'
import { useShownPlan } from './plan-context.ts'
import { BayForm, NewCarForm, OffForm, OvertimeForm } from './what-if-forms.tsx'
import { PartForm } from './what-if-part-form.tsx'
import { whatIfWords } from './what-if-words.ts'

const KINDS = [
  { value: 'person off', words: 'somebody is off' },
  { value: 'part late', words: 'a part comes late' },
  { value: 'new car', words: 'a new car comes in' },
  { value: 'overtime', words: 'people work longer' },
  { value: 'one more bay', words: 'there is one more bay' },
] as const
type Kind = (typeof KINDS)[number]['value']

export function WhatIfForm({ onAssume }: { readonly onAssume: (assumption: Assumption) => void }) {
  const { names } = useShownPlan()
  const when = useWhen()
  const [kind, setKind] = useState<Kind>('person off')
  const [turn, setTurn] = useState(0)
  const assume = (whatIf: WhatIf, part?: string) => {
    onAssume({ whatIf, words: whatIfWords(whatIf, names, when, part) })
    setTurn(turn + 1)
  }
  const Fields = FORMS[kind]
  return (
    <section className="stack">
      <SelectInput
        label="What if"
        choices={KINDS}
        value={kind}
        onChange={(next) => setKind(next ?? 'person off')}
      />
      <Fields key={`${kind} ${turn}`} onAssume={assume} />
    </section>
  )
}

const FORMS = {
  'person off': OffForm,
  'part late': PartForm,
  'new car': NewCarForm,
  overtime: OvertimeForm,
  'one more bay': BayForm,
}
