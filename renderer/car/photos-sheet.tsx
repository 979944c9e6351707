import type { CarView } from '../../domain/views/view-shapes.ts'
export function PhotosSheet({ view }: { readonly view: CarView }) {
  return <p>{view.header.name}</p>
}
