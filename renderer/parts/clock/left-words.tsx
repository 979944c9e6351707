import { hours } from '../../../domain/text/words.ts'
import type { LeftView } from '../../../domain/views/shared-views.ts'
import { useWhen } from '../frame/when.tsx'

/** 'still to do 3.0 h, said Thu 26 Nov by Wren Cole' */
export function LeftWords({ left }: { readonly left: LeftView }) {
  const when = useWhen()
  const what = left.hours === 0 ? 'only the signature is left' : `still to do ${hours(left.hours)}`
  return (
    <>
      {what}, said {when.day(left.at)} by {left.by}
    </>
  )
}
