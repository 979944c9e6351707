import type { Box } from './shapes.ts'

/**
 * Where the plan of the workshop floor puts its walls, bays, cars and the words beside them. The manager places the bays
 * in tenths of a metre; the drawing scales them to the width there is. Lengths of the answer are pixels or points.
 */
export interface FloorBay {
  readonly id: string
  readonly kinds: readonly string[]
  readonly storage: boolean
  readonly floor: Box
  readonly cars: readonly { readonly carId: string }[]
}

export interface FloorPlanDrawing {
  readonly width: number
  readonly height: number
  /** Pixels for a tenth of a metre. */
  readonly scale: number
  /** Inner face of the walls. */
  readonly walls: Box
  /** Clear width of the doors, in the lower wall. */
  readonly doors: { readonly from: number; readonly to: number; readonly y: number }
  readonly bays: readonly DrawnBay[]
  /** False where the floor has so many bays that words do not fit beside the cars. */
  readonly hasRoomForWords: boolean
}

export interface DrawnBay extends Box {
  readonly id: string
  /** Booths have walls of their own; other bays are two lines on the floor. */
  readonly hasWalls: boolean
  readonly isUpright: boolean
  readonly cars: readonly DrawnCar[]
  /** Room for the words of an empty bay. */
  readonly words: Box
}

export interface DrawnCar {
  readonly carId: string
  /** The car's own box: nose up when upright, nose left when lying. */
  readonly x: number
  readonly y: number
  readonly length: number
  readonly width: number
  readonly isUpright: boolean
  readonly words: Box
}

/**
 * @param width pixels that the plan may take
 * @param bays none gives a floor without bays
 */
export function drawFloorPlan(bays: readonly FloorBay[], width: number): FloorPlanDrawing {
  const bounds = boundsOf(bays.map((bay) => bay.floor))
  const scale = (width - 2 * (WALL + EDGE)) / bounds.width
  const toPage = (rect: Box): Box => ({
    x: WALL + EDGE + (rect.x - bounds.x) * scale,
    y: WALL + EDGE + (rect.y - bounds.y) * scale,
    width: rect.width * scale,
    height: rect.height * scale,
  })
  const drawn = bays.map((bay) => drawBay(bay, toPage(bay.floor), scale))
  const height = bounds.height * scale + 2 * (WALL + EDGE) + DOOR_ROOM
  const walls = { x: WALL, y: WALL, width: width - 2 * WALL, height: height - 2 * WALL }
  const doors = placeDoors(drawn, walls, scale)
  return { width, height, scale, walls, doors, bays: drawn, hasRoomForWords: drawn.every(hasRoom) }
}

/** 'assessed next' and a car's name take so many pixels; the words of cars that stand in a row one below the other. */
const LEAST_WORDS = { width: 92, height: 60 }

function hasRoom({ words, cars }: DrawnBay): boolean {
  return [words, ...cars.map((car) => car.words)].every(
    ({ width, height }) => width >= LEAST_WORDS.width && height >= LEAST_WORDS.height,
  )
}

const WALL = 5
/** Between the walls and the nearest bay. */
const EDGE = 18
/** Along the lower wall, where the doors open. */
const DOOR_ROOM = 34
/** Head of a bay: its name and kinds. */
const HEAD = 30
/** Words below a car: name, what is next and when it is done in two lines each, who is on it, what is in danger. */
const WORDS = 124
/** Below a lying car: what may be done with it. */
const ACT = 26
/** A car of 4.3 m by 1.9 m with its mirrors, in tenths of a metre. */
const CAR_LENGTH = 43
const CAR_RATIO = 0.44
const GAP = 14
/** Words beside a lying car get so much before the car gets more than a third of its place: a car's name, in two lines. */
const WORDS_BESIDE = 124

function drawBay(bay: FloorBay, rect: Box, scale: number): DrawnBay {
  const isUpright = rect.height >= rect.width
  const inner = {
    x: rect.x + GAP,
    y: rect.y + HEAD,
    width: rect.width - 2 * GAP,
    height: rect.height - HEAD - 6,
  }
  const cars = placeCars(bay, inner, isUpright && !bay.storage, scale)
  return { ...rect, id: bay.id, hasWalls: bay.kinds.includes('booth'), isUpright, cars, words: inner }
}

function placeCars(bay: FloorBay, inner: Box, isColumn: boolean, scale: number): readonly DrawnCar[] {
  const cells = splitCells(inner, Math.max(1, bay.cars.length), isColumn)
  return bay.cars.flatMap(({ carId }, index) => {
    const cell = cells[index]
    return cell === undefined ? [] : [placeCar(carId, cell, scale)]
  })
}

/** One cell for each car: storage in a grid whose cells are as near to square as they come. */
function splitCells(inner: Box, count: number, isColumn: boolean): readonly Box[] {
  const columns = isColumn
    ? 1
    : Math.max(1, Math.min(count, Math.round(Math.sqrt((count * inner.width) / Math.max(1, inner.height)))))
  const rows = Math.ceil(count / columns)
  const width = inner.width / columns
  const height = inner.height / rows
  return Array.from({ length: count }, (_, index) => ({
    x: inner.x + (index % columns) * width,
    y: inner.y + Math.floor(index / columns) * height,
    width,
    height,
  }))
}

/** Upright cells hold the car above its words, lying ones beside them; the car gives way to the words. */
function placeCar(carId: string, cell: Box, scale: number): DrawnCar {
  const isUpright = cell.height >= cell.width * 0.9
  const real = CAR_LENGTH * scale
  const room = isUpright ? cell.height - WORDS : roomBeside(cell.width)
  const across = (isUpright ? cell.width : cell.height - ACT) / CAR_RATIO
  const length = Math.max(20, Math.min(real, room, across))
  const width = length * CAR_RATIO
  const words = isUpright
    ? { x: cell.x, y: cell.y + length + 8, width: cell.width, height: cell.height - length - 8 }
    : { x: cell.x + length + GAP, y: cell.y, width: cell.width - length - 2 * GAP, height: cell.height }
  return { carId, x: cell.x, y: cell.y, length, width, isUpright, words }
}

const roomBeside = (width: number): number =>
  Math.min(width * 0.55, Math.max(width / 3, width - WORDS_BESIDE - 2 * GAP))

/** In the widest stretch of the lower wall that no bay stands against; in its middle when bays take all of it. */
function placeDoors(bays: readonly DrawnBay[], walls: Box, scale: number): FloorPlanDrawing['doors'] {
  const y = walls.y + walls.height
  const opening = Math.min(32 * scale, walls.width / 3)
  const blocking = bays
    .filter((bay) => bay.y + bay.height > y - opening / 2)
    .map((bay) => ({ from: bay.x, to: bay.x + bay.width }))
    .toSorted((a, b) => a.from - b.from)
  const edges = [...blocking, { from: walls.x + walls.width, to: walls.x + walls.width }]
  let best = { from: walls.x, to: walls.x }
  let free = walls.x
  for (const { from, to } of edges) {
    if (from - free > best.to - best.from) best = { from: free, to: from }
    free = Math.max(free, to)
  }
  const centre = best.to - best.from < opening ? walls.x + walls.width / 2 : (best.from + best.to) / 2
  return { from: centre - opening / 2, to: centre + opening / 2, y }
}

function boundsOf(rects: readonly Box[]): Box {
  if (rects.length === 0) return { x: 0, y: 0, width: 200, height: 80 }
  const x = Math.min(...rects.map((rect) => rect.x))
  const y = Math.min(...rects.map((rect) => rect.y))
  return {
    x,
    y,
    width: Math.max(...rects.map((rect) => rect.x + rect.width)) - x,
    height: Math.max(...rects.map((rect) => rect.y + rect.height)) - y,
  }
}
