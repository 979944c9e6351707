import type { CarView } from '../../domain/views/view-shapes.ts'
export function HoursSheet({ view }: { readonly view: CarView }) {
  return <p>{view.header.name}</p>
}
