import { useEffect, useId, useRef } from 'react'
import { MOST_DIGITS } from '../../../domain/commands/code-digits.ts'

/** A code, on big keys or the keyboard. The digits are not shown and never leave this page but to be checked. */
export function CodePad({
  label,
  value,
  onChange,
}: {
  readonly label: string
  readonly value: string
  readonly onChange: (digits: string) => void
}) {
  const id = useId()
  const box = useRef<HTMLInputElement>(null)
  // A dialog over another dialog takes the focus itself first; the code is what it was opened for.
  useEffect(() => {
    const timer = window.setTimeout(() => box.current?.focus())
    return () => window.clearTimeout(timer)
  }, [])
  const set = (text: string) => onChange(text.replaceAll(/\D/g, '').slice(0, MOST_DIGITS))
  return (
    <div className="stack-tight">
      <div className="field">
        <label htmlFor={id}>{label}</label>
        <input
          id={id}
          ref={box}
          className="input code-input"
          type="password"
          // The keys below serve the finger; a keyboard types straight into the box.
          inputMode="none"
          autoComplete="off"
          value={value}
          onChange={(event) => set(event.target.value)}
        />
      </div>
      <div className="code-pad">
        {KEYS.map((key) => (
          <button key={key} type="button" tabIndex={-1} onClick={() => set(value + key)}>
            {key}
          </button>
        ))}
        <button type="button" tabIndex={-1} className="small" onClick={() => set('')}>
          clear
        </button>
        <button type="button" tabIndex={-1} onClick={() => set(`${value}0`)}>
          0
        </button>
        <button
          type="button"
          tabIndex={-1}
          aria-label="Take back the last digit"
          onClick={() => set(value.slice(0, -1))}
        >
          ←
        </button>
      </div>
    </div>
  )
}

const KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9']
