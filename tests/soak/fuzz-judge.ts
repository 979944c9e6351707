import { REFUSAL_CODES } from '../../domain/refusal.ts'

/** What a request was answered with, read to its end. */
export interface Answered {
  readonly status: number
  readonly type: string
  readonly bytes: number
  readonly text: string
}

/** Statuses that the host answers with. A defect's 500 is none of them. */
const STATED = [200, 204, 207, 303, 304, 400, 401, 403, 404, 405, 409, 412, 413, 415, 421, 422, 429, 507]
/** More of an answer is counted and not looked at. */
const MOST_READ = 2_000_000

export async function readAnswer(response: Response): Promise<Answered> {
  const type = response.headers.get('content-type') ?? ''
  const { status } = response
  if (type.startsWith('text/event-stream')) {
    await response.body?.cancel()
    return { status, type, bytes: 0, text: '' }
  }
  const isText = /json|text|html/.test(type)
  const decoder = new TextDecoder()
  let bytes = 0
  let text = ''
  for await (const chunk of response.body ?? []) {
    bytes += chunk.byteLength
    if (isText && text.length < MOST_READ) text += decoder.decode(chunk, { stream: true })
  }
  return { status, type, bytes, text }
}

/** Whether anything may have been recorded: an answer without any refusal. */
export function isGranted({ status, text }: Answered): boolean {
  return status < 300 && !text.includes('"refusal":{')
}

/**
 * What is wrong with an answer; null when it is as every answer should be.
 *
 * @param isHead an answer to HEAD has its status and no words
 */
export function faultOf(answer: Answered, isHead: boolean): string | null {
  const { status, type, text } = answer
  if (!STATED.includes(status)) return `status ${status}: ${text.slice(0, 300)}`
  if (isHead) return null
  if (/^application.json(;|$)/.test(type) && text.length < MOST_READ) return faultOfJson(answer)
  if (status < 400 || status === 412) return null
  return text.length > 10 || type === '' ? null : `status ${status} without words`
}

function faultOfJson({ status, text }: Answered): string | null {
  const said = parsed(text)
  // Answers to several calls may come line by line, where the request asks for it.
  if (said === undefined)
    return text.split('\n').every((line) => line === '' || parsed(line) !== undefined)
      ? null
      : `JSON that cannot be read: ${text.slice(0, 200)}`
  const each = Array.isArray(said) ? said : [said]
  for (const one of each as readonly unknown[]) {
    const fault = faultOfOne(one, status)
    if (fault !== null) return `${fault}: ${text.slice(0, 300)}`
  }
  return null
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

interface Said {
  readonly error?: { readonly data?: { readonly refusal?: unknown } }
  readonly result?: { readonly data?: unknown }
  readonly refusal?: unknown
}

function faultOfOne(one: unknown, status: number): string | null {
  const { error, result, refusal } = (one ?? {}) as Said
  if (error !== undefined) return faultOfRefusal(error.data?.refusal)
  if (refusal !== undefined) return faultOfRefusal(refusal)
  const data = result?.data
  if (isRefused(data)) return faultOfRefusal(data.refusal)
  return status >= 400 && result === undefined ? `status ${status} without a refusal` : null
}

const isRefused = (data: unknown): data is { readonly refusal: unknown } =>
  typeof data === 'object' && data !== null && 'ok' in data && data.ok === false && 'refusal' in data

function faultOfRefusal(refusal: unknown): string | null {
  const { code, message, next } = (refusal ?? {}) as Readonly<Record<string, unknown>>
  if (!REFUSAL_CODES.some((each) => each === code)) return `a refusal with the code '${String(code)}'`
  const hasWords = [message, next].every((words) => typeof words === 'string' && words.length > 5)
  return hasWords ? null : 'a refusal without words'
}
