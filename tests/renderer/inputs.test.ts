import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test } from 'vitest'
import { ChoiceRow } from '../../renderer/parts/form/inputs.tsx'

const choices = [{ value: 'yes', words: 'yes' }] as const
const row = (says: { readonly hint?: string; readonly error?: string }) =>
  renderToStaticMarkup(
    createElement(ChoiceRow, {
      label: 'Is it good?',
      choices,
      value: null,
      onChange: () => undefined,
      ...says,
    }),
  )
/** What stands below the field that its group is described by. */
const describedBy = (html: string): string | undefined => {
  const id = /<fieldset[^>]* aria-describedby="([^"]+)"/.exec(html)?.[1]
  return new RegExp(`<div id="${id}"[^>]*>[^<]*</div>`).exec(html)?.[0]
}

describe('a few choices, all in sight', () => {
  test('are told with their hint', () => {
    expect(describedBy(row({ hint: 'Every edge counts.' }))).toMatch(/class="hint">Every edge counts\./)
    expect(row({})).not.toContain('aria-describedby')
  })

  test('have what is wrong read out at once, in place of the hint', () => {
    const said = describedBy(row({ hint: 'Every edge counts.', error: 'Choose one.' }))
    expect(said).toMatch(/class="error" role="alert">Choose one\./)
  })
})
