import { FieldFrame } from './inputs.tsx'

/** One file from this device. */
export function FileField({
  label,
  accept,
  isDisabled = false,
  onPick,
}: {
  readonly label: string
  /** As the attribute of the input: '.zip,application/zip' */
  readonly accept: string
  readonly isDisabled?: boolean
  readonly onPick: (file: File) => void
}) {
  return (
    <FieldFrame label={label}>
      {(ids) => (
        <input
          {...ids}
          className="input"
          type="file"
          accept={accept}
          disabled={isDisabled}
          // A file that was mended is chosen again under the same name, which a browser takes for no change.
          onClick={(event) => (event.currentTarget.value = '')}
          onChange={(event) => {
            const chosen = event.target.files?.[0]
            if (chosen !== undefined) onPick(chosen)
          }}
        />
      )}
    </FieldFrame>
  )
}
