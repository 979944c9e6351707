import { useMemo, type CSSProperties, type ReactNode } from 'react'
import type { ClosingMapDrawing, MapBox, MapUpright } from '../../domain/drawing/closing-map/map-shapes.ts'
import type { Point } from '../../domain/drawing/shapes.ts'
import { drawClosingMap } from '../../domain/drawing/closing-map-drawing.ts'
import { markWords } from '../../domain/drawing/gate-strip-drawing.ts'
import type { CoverView, FitGroupView, RepairCard } from '../../domain/views/shared-views.ts'
import { GateStrip, MarkSign } from '../parts/gates/gate-strip.tsx'
import { spentOf } from '../parts/hours/hours-bar.tsx'
import { useWidth } from '../parts/frame/use-width.ts'

export interface ClosingMapProps {
  readonly repairs: readonly RepairCard[]
  readonly covers: readonly CoverView[]
  readonly fitGroups: readonly FitGroupView[]
  readonly selected: string | null
  readonly onSelect: (repairId: RepairCard['id']) => void
}

/** What covers what on one car, from the outside down to the inside, with the gates of each repair. */
export function ClosingMap({ repairs, covers, fitGroups, selected, onSelect }: ClosingMapProps) {
  const { ref, width } = useWidth<HTMLDivElement>()
  const drawing = useMemo(
    () => (width === 0 ? null : draw({ repairs, covers, fitGroups }, width)),
    [repairs, covers, fitGroups, width],
  )
  return (
    <div ref={ref}>
      {drawing !== null && (
        <div className="map-page" style={{ height: drawing.height }}>
          <MapLines drawing={drawing} repairs={repairs} selected={selected} />
          {drawing.clusters.map((cluster) => (
            <h2
              key={cluster.title}
              className="map-title"
              style={{ left: cluster.x === 0 ? 0 : cluster.x + 36, top: cluster.y }}
            >
              {cluster.title}
            </h2>
          ))}
          {drawing.boxes.map((box) => {
            const repair = repairs.find((each) => each.id === box.id)
            return (
              repair && (
                <RepairBox
                  key={box.id}
                  box={box}
                  repair={repair}
                  isSelected={box.id === selected}
                  onSelect={onSelect}
                >
                  {lettersOf(box.id, fitGroups, drawing)}
                </RepairBox>
              )
            )
          })}
        </div>
      )}
      <MapLegend fitGroups={fitGroups} letters={drawing?.letters} />
    </div>
  )
}

const WIDE = { minBoxWidth: 236, maxBoxWidth: 330, boxHeight: 70, titleHeight: 42 }

/** The bar stands only where it bites: on what stands open and could be closed by mistake. */
function bitesIn(repairs: readonly RepairCard[]) {
  const open = new Set(repairs.filter((repair) => repair.standsOpen).map((repair) => repair.id))
  return (cover: CoverView): CoverView => ({ ...cover, barred: cover.barred && open.has(cover.over) })
}

function draw(
  { repairs, covers, fitGroups }: Pick<ClosingMapProps, 'repairs' | 'covers' | 'fitGroups'>,
  width: number,
) {
  const fits = fitGroups.map(({ id, members }) => ({ id, members: members.map((member) => member.id) }))
  return drawClosingMap(repairs, covers.map(bitesIn(repairs)), fits, { ...WIDE, width })
}

function RepairBox({
  box,
  repair,
  isSelected,
  onSelect,
  children,
}: {
  readonly box: MapBox
  readonly repair: RepairCard
  readonly isSelected: boolean
  readonly onSelect: (repairId: RepairCard['id']) => void
  readonly children: ReactNode
}) {
  return (
    <button
      type="button"
      className="map-box"
      aria-pressed={isSelected}
      style={placed(box)}
      onClick={() => onSelect(repair.id)}
    >
      <span className="map-name">{repair.name}</span>
      <span className="map-hours">{spentOf(repair.hours)}</span>
      <GateStrip marks={repair.marks} />
      {(repair.faults.length > 0 || repair.closedAsFound) && (
        <span className="map-flag">
          {repair.faults.length > 0 ? 'closed over unfinished work' : 'closed as found'}
        </span>
      )}
      {children}
    </button>
  )
}

const placed = (box: MapBox): CSSProperties => ({
  left: box.x,
  top: box.y,
  width: box.width,
  height: box.height,
})

function lettersOf(id: string, fitGroups: readonly FitGroupView[], drawing: ClosingMapDrawing): ReactNode {
  const groups = fitGroups.filter((group) => group.members.some((member) => member.id === id))
  if (groups.length === 0) return null
  return (
    <span className="map-balloons">
      {groups.map((group) => (
        <span key={group.id} className="balloon">
          <span className="hidden-word">fit group </span>
          {drawing.letters.get(group.id)}
        </span>
      ))}
    </span>
  )
}

function MapLines({
  drawing,
  repairs,
  selected,
}: {
  readonly drawing: ClosingMapDrawing
  readonly repairs: readonly RepairCard[]
  readonly selected: string | null
}) {
  return (
    <svg className="map-lines" width={drawing.width} height={drawing.height} aria-hidden="true">
      {drawing.clusters
        .filter((cluster) => cluster.rows > 1 && cluster.x === 0)
        .map((cluster) => (
          <DepthArrow
            key={cluster.title}
            x={cluster.x}
            y={cluster.y + WIDE.titleHeight}
            height={cluster.height - WIDE.titleHeight - 30}
          />
        ))}
      {drawing.links.map((link) => (
        <line
          key={`${link.groupId}${link.from.x}${link.from.y}`}
          x1={link.from.x}
          y1={link.from.y}
          x2={link.to.x}
          y2={link.to.y}
          className="map-link"
        />
      ))}
      {drawing.uprights.map((upright) => (
        <Upright
          key={`${upright.over} ${upright.under}`}
          upright={upright}
          isNear={[upright.over, upright.under].includes(selected ?? '')}
        />
      ))}
      {drawing.boxes.map((box) => (
        <path
          key={box.id}
          d={sheet(box)}
          className={boxClass(
            repairs.find((repair) => repair.id === box.id),
            box.id === selected,
          )}
        />
      ))}
    </svg>
  )
}

function Upright({ upright, isNear }: { readonly upright: MapUpright; readonly isNear: boolean }) {
  const { path, bar, barred } = upright
  const first = path[0]
  const last = path.at(-1)
  return (
    <g className={`upright${barred ? ' barred' : ''}${isNear ? ' near' : ''}`}>
      <path d={`M${path.map(pointWords).join('L')}`} />
      {first && <path d={`M${first.x - 5} ${first.y + 5}H${first.x + 5}`} />}
      {last && <path d={`M${last.x - 5} ${last.y - 5}H${last.x + 5}`} />}
      {barred && (
        <>
          <rect x={bar.x - 12} y={bar.y - 9} width={24} height={18} />
          <path d={`M${bar.x - 5.5} ${bar.y}H${bar.x + 5.5}`} />
        </>
      )}
    </g>
  )
}

function DepthArrow({ x, y, height }: { readonly x: number; readonly y: number; readonly height: number }) {
  return (
    <g className="depth-arrow">
      <path d={`M${x + 8} ${y + 4}v${height - 10}m-4 -7l4 7l4 -7`} />
      <text transform={`translate(${x + 17} ${y + 14}) rotate(90)`}>outside</text>
      <text transform={`translate(${x + 17} ${y + height - 6}) rotate(90)`} textAnchor="end">
        inside
      </text>
    </g>
  )
}

const pointWords = ({ x, y }: Point): string => `${x} ${y}`

/** A sheet with one corner cut, as blanks are marked. */
const sheet = ({ x, y, width, height }: MapBox): string =>
  `M${x} ${y}H${x + width - CUT}L${x + width} ${y + CUT}V${y + height}H${x}Z`
const CUT = 11

function boxClass(repair: RepairCard | undefined, isSelected: boolean): string {
  const state = repair?.finished === true ? ' finished' : repair?.standsOpen === true ? ' open' : ''
  return `map-sheet${state}${isSelected ? ' selected' : ''}`
}

function MapLegend({
  fitGroups,
  letters,
}: {
  readonly fitGroups: readonly FitGroupView[]
  readonly letters: ReadonlyMap<string, string> | undefined
}) {
  return (
    <div className="map-legend">
      <div className="row">
        {(['passed', 'next', 'held', 'not needed', 'as found'] as const).map((mark) => (
          <span key={mark} className="legend-mark">
            <MarkSign mark={mark} /> {markWords[mark]}
          </span>
        ))}
      </div>
      <p>An upright joins what covers to what it covers; a barred box on it: may not close yet.</p>
      {fitGroups.length > 0 && (
        <ul>
          {fitGroups.map((group) => (
            <li key={group.id}>
              <span className="balloon">{letters?.get(group.id)}</span> {group.name}, fitted together:{' '}
              {fitWords(group)}
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

function fitWords({ good, stale, fitUps }: FitGroupView): string {
  if (good) return 'last fit-up good'
  if (stale) return 'the last fit-up no longer counts'
  return fitUps.length === 0 ? 'not offered up yet' : 'last fit-up not good'
}
