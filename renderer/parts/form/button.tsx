import type { ButtonHTMLAttributes, ReactNode } from 'react'

type Props = ButtonHTMLAttributes<HTMLButtonElement> & { readonly children: ReactNode }

/** An outlined button; `kind="main"` for the one thing a place is for. */
export function Button({
  kind = 'plain',
  className = '',
  ...rest
}: Props & { readonly kind?: 'plain' | 'main' | 'warn' }) {
  return <button type="button" {...rest} className={`button ${kind} ${className}`} />
}

/** A button that is set as underlined words, for lesser actions. */
export function WordButton({ className = '', ...rest }: Props) {
  return <button type="button" {...rest} className={`word-button ${className}`} />
}
