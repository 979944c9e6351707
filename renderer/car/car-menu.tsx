import type { CarView } from '../../domain/views/view-shapes.ts'
export function CarMenu({ view }: { readonly view: CarView }) {
  return <span hidden>{view.header.name}</span>
}
