import { redirect, useLocation, useNavigate } from '@tanstack/react-router'
import { useEffect, useEffectEvent } from 'react'
import { fragmentToPlace } from '../domain/screens.ts'
import { type HelpedPlace, helpFor } from './help/help-names.ts'

/**
 * Where a menu of the program's own window sends the page to. It can say no more than the name of a place, in the address's
 * fragment; any other fragment does nothing.
 *
 * @param shown what is shown there
 * @throws a redirect there, in the place of the address with the fragment
 */
export function followMenu(fragment: string, shown: HelpedPlace): void {
  const place = fragmentToPlace(fragment)
  switch (place) {
    case null:
    case 'keyboard':
      return
    case 'help':
      throw redirect({ to: '/help', search: { of: helpFor(shown) }, replace: true })
    case 'car-file':
      throw redirect({ to: '/cars', replace: true })
    case 'check':
      throw redirect({ to: '/workshop', search: { sheet: 'check' }, replace: true })
    default:
      throw redirect({ to: place, replace: true })
  }
}

/** Opens the keyboard map over the screen that is shown, when the menu asks for it. */
export function useMenuKeys(openKeys: () => void): void {
  const isAsked = fragmentToPlace(useLocation().hash) === 'keyboard'
  const navigate = useNavigate()
  const open = useEffectEvent(() => {
    openKeys()
    void navigate({ to: '.', search: true, hash: '', replace: true })
  })
  useEffect(() => {
    if (isAsked) open()
  }, [isAsked])
}
