import { z } from 'zod'
import { plural } from '../../domain/text/words.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'

const schema = z.strictObject({ from: z.string().max(1_000) })

/** Mends what can be mended; damaged originals come from a folder of copies where one is named. */
export function MendForm({
  count,
  folder,
  onMend,
}: {
  readonly count: number
  /** Where copies are made; null while none are. */
  readonly folder: string | null
  readonly onMend: (from: string | null) => Promise<void>
}) {
  const { session } = useActor()
  const form = useZodForm(schema, { from: session.isHostsOwn ? (folder ?? '') : '' })
  const what = count === 1 ? 'One of these can' : `${count} of these can`
  return (
    <Form
      form={form}
      submit={`Mend ${plural('finding', count)}`}
      onSubmit={({ from }) => onMend(from.trim() === '' ? null : from.trim())}
    >
      <p>
        {what} be mended: tables and sizes of photos are made anew, leftovers are removed. The journal is
        never touched. While tables are made anew, every screen waits for some seconds.
      </p>
      {session.isHostsOwn && (
        <TextField
          control={form.control}
          name="from"
          label="Folder with copies of the workshop"
          hint="for damaged photos, reports and brought-in journals; empty: none are taken from copies"
        />
      )}
    </Form>
  )
}
