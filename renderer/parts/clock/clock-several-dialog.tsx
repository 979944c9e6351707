import { useState } from 'react'
import { z } from 'zod'
import { carsOfSeveral, type ClockChoice } from './clock-choices.ts'
import { Dialog } from '../form/dialog.tsx'
import { ManyField } from '../form/fields.tsx'
import { SelectInput } from '../form/inputs.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import type { Clock } from './use-clock.tsx'

/** One clock on several repairs or tasks of one car. */
export function ClockSeveralDialog({
  choices,
  chosen = [],
  clock,
  onClose,
}: {
  readonly choices: readonly ClockChoice[]
  /** Keys of what is ticked from the start. */
  readonly chosen?: readonly string[]
  readonly clock: Clock
  readonly onClose: () => void
}) {
  const cars = carsOfSeveral(choices)
  const [carId, setCarId] = useState(choices.find((each) => cars.has(each.carId))?.carId ?? null)
  const ofCar = carId === null ? [] : (cars.get(carId) ?? [])
  return (
    <Dialog title="One clock on several" isOpen onClose={onClose}>
      {cars.size === 1 ? (
        <p>{ofCar[0]?.carName}</p>
      ) : (
        <SelectInput
          label="Car"
          choices={[...cars].map(([id, [first]]) => ({ value: id, words: first?.carName ?? '' }))}
          value={carId}
          onChange={setCarId}
        />
      )}
      <Several key={carId} choices={ofCar} chosen={chosen} clock={clock} onClose={onClose} />
    </Dialog>
  )
}

const schema = z.object({
  keys: z.array(z.string()).min(2, 'Choose two or more; one alone has its own button.').max(40),
})

function Several({
  choices,
  chosen,
  clock,
  onClose,
}: {
  readonly choices: readonly ClockChoice[]
  readonly chosen: readonly string[]
  readonly clock: Clock
  readonly onClose: () => void
}) {
  const form = useZodForm(schema, { keys: [...chosen] })
  const ticked = form.watch('keys')
  const isHot = choices.some(({ key, hotWork }) => hotWork && ticked.includes(key))
  return (
    <Form
      form={form}
      submit={clock.mine === null ? 'Clock in on them' : 'Switch to them'}
      onCancel={onClose}
      onSubmit={({ keys }) => {
        const picked = choices.filter(({ key }) => keys.includes(key))
        const [first] = picked
        if (first === undefined) return
        clock.start({
          carId: first.carId,
          targets: picked.map(({ target }) => target),
          hotWork: picked.some(({ hotWork }) => hotWork),
          isRework: picked.some(({ isRework }) => isRework),
        })
        onClose()
      }}
    >
      <ManyField
        control={form.control}
        name="keys"
        label="Repairs and tasks"
        hint={`The hours are shared by the estimates, or as you say when you stop.${isHot ? ' Hot work is among them: a fire watch follows.' : ''}`}
        choices={choices.map(({ key, words }) => ({ value: key, words }))}
      />
    </Form>
  )
}
