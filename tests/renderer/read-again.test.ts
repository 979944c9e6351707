import { QueryObserver } from '@tanstack/react-query'
import { afterEach, expect, test } from 'vitest'
import { queryClient } from '../../renderer/client.ts'
import { readAgain } from '../../renderer/live.ts'

afterEach(() => queryClient.clear())

/** A view of a car whose answers come when the test lets them; each is what the host knew when it was asked. */
function viewOf(carId: string) {
  const queryKey = [['repair'], { input: { carId } }]
  const asked: (() => void)[] = []
  const host = { knows: 1 }
  const queryFn = () => {
    const answer = host.knows
    return new Promise<number>((resolve) => asked.push(() => resolve(answer)))
  }
  const options = { queryKey, queryFn }
  return {
    host,
    asked,
    show: () => new QueryObserver(queryClient, options).subscribe(() => undefined),
    askAhead: () => queryClient.prefetchQuery(options),
    data: () => queryClient.getQueryData(queryKey),
  }
}

test('a first answer from before a change is read once more, though it comes after the change is told', async () => {
  const view = viewOf('car-1')
  const hide = view.show()
  view.host.knows = 2
  const shown = readAgain(['car-1'])
  view.asked[0]?.()
  await expect.poll(() => view.asked.length).toBe(2)
  view.asked[1]?.()
  await shown
  expect(view.data()).toBe(2)
  hide()
})

test('what was asked for before its screen came is read again by the screen', async () => {
  const view = viewOf('car-1')
  const ahead = view.askAhead()
  view.host.knows = 2
  const told = readAgain(['car-1'])
  view.asked[0]?.()
  await Promise.all([ahead, told])
  const hide = view.show()
  await expect.poll(() => view.asked.length).toBe(2)
  view.asked[1]?.()
  await expect.poll(view.data).toBe(2)
  hide()
})

test('an answer in place of an earlier one is given up for a new one', async () => {
  const view = viewOf('car-1')
  const hide = view.show()
  view.asked[0]?.()
  await expect.poll(view.data).toBe(1)
  void readAgain(['car-1'])
  await expect.poll(() => view.asked.length).toBe(2)
  view.host.knows = 3
  const shown = readAgain(['car-1'])
  await expect.poll(() => view.asked.length).toBe(3)
  view.asked[2]?.()
  await shown
  expect(view.data()).toBe(3)
  hide()
})

test('the view of another car is left alone', async () => {
  const view = viewOf('car-2')
  const hide = view.show()
  const told = readAgain(['car-1'])
  view.asked[0]?.()
  await told
  expect(view.asked).toHaveLength(1)
  hide()
})
