import type { ReactNode } from 'react'
import styles from './network.module.css'

/** Drawings of a tablet that is nobody's: the words beside them say the same, so that they are hidden from readers. */

export function SavePicture() {
  return (
    <Tablet>
      <rect className={styles.field} x="26" y="24" width="108" height="14" />
      <path className={styles.thin} d="M32 31h60" />
      <Seal x={80} y={62} />
      <path className={styles.strong} d="M80 80v14m-7-6 7 7 7-7M62 100h36" />
    </Tablet>
  )
}

export function ComparePicture() {
  return (
    <Tablet>
      <Groups x={26} />
      <Groups x={92} />
      <path className={styles.strong} d="M73 57h14M73 65h14" />
    </Tablet>
  )
}

export function AgreePicture() {
  return (
    <Tablet>
      <path className={styles.thin} d="M26 34h52M26 90h52" />
      <rect className={styles.field} x="22" y="46" width="116" height="32" />
      <Seal x={38} y={60} />
      <path className={styles.thin} d="M58 62h34" />
      <rect className={styles.switched} x="104" y="54" width="28" height="16" rx="8" />
      <circle className={styles.knob} cx="124" cy="62" r="5.5" />
    </Tablet>
  )
}

export function OpenedPicture() {
  return (
    <Tablet>
      <rect className={styles.field} x="26" y="24" width="108" height="14" />
      <path className={styles.strong} d="M32 30.500h8v5h-8zM34 30v-2a2 2 0 0 1 4 0v2" />
      <path className={styles.thin} d="M46 31h60" />
      <path className={styles.done} d="m58 72 15 15 30-32" />
    </Tablet>
  )
}

function Tablet({ children }: { readonly children: ReactNode }) {
  return (
    <svg className={styles.picture} viewBox="7 5 146 110" aria-hidden="true">
      <rect className={styles.body} x="8" y="6" width="144" height="108" rx="9" />
      <rect className={styles.glass} x="17" y="15" width="126" height="90" />
      {children}
    </svg>
  )
}

/** A certificate: a disc with two ribbons. */
function Seal({ x, y }: { readonly x: number; readonly y: number }) {
  return (
    <g transform={`translate(${x} ${y})`}>
      <path className={styles.ribbon} d="M-5 4v12l5-4 5 4V4z" />
      <circle className={styles.seal} r="8.500" />
      <circle className={styles.sealRing} r="5" />
    </g>
  )
}

function Groups({ x }: { readonly x: number }) {
  const rows = [36, 50, 64, 78]
  return <path className={styles.groups} d={rows.map((y) => `M${x} ${y}h9m5 0h9m5 0h9`).join('')} />
}
