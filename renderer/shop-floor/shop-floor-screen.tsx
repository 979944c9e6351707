import { ScreenHead } from '../parts/screen-head.tsx'

export function ShopFloorScreen() {
  return <ScreenHead title="Shop floor" />
}
