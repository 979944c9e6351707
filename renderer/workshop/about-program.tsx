import { useQuery } from '@tanstack/react-query'
import { versionWords } from '../../domain/program-version.ts'
import { api } from '../client.ts'

/** Which program this is, and the licences of what it is made with; what to say when something is to be reported. */
export function AboutProgram() {
  const { data: session } = useQuery(api.session.queryOptions())
  if (session === undefined) return null
  const { program } = session
  return (
    <p>
      Panelwright {versionWords(program)}, made with packages {program.lock.slice(0, 12)}.{' '}
      <a className="reaching" href="/licences.txt" download="Panelwright licences.txt">
        Save the licences
      </a>
    </p>
  )
}
