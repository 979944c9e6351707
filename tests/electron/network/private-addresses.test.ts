import { describe, expect, test } from 'vitest'
import { authorityOf, privateAddresses } from '../../../electron/network/private-addresses.ts'

const addresses = (...found: readonly string[]) =>
  privateAddresses({ one: found.map((address) => ({ address, internal: false })), none: undefined })

describe('the addresses that the workshop network is opened at', () => {
  test.each(['10.0.0.1', '172.16.0.1', '172.31.9.9', '192.168.178.20', '169.254.3.4', 'fd00::2', 'fc00::1'])(
    'have %s among them',
    (address) => expect(addresses(address)).toEqual([address]),
  )

  test.each([
    '8.8.8.8',
    '172.15.0.1',
    '172.32.0.1',
    '192.0.2.2',
    '100.64.0.1',
    '2001:db8::1',
    'fe80::1',
    '::1',
  ])('never have %s', (address) => expect(addresses(address)).toEqual([]))

  test('leave out what only this computer reaches, and tell each address once, in order', () => {
    const found = {
      lo: [{ address: '10.9.9.9', internal: true }],
      wired: [{ address: '192.168.1.5', internal: false }],
      wireless: [
        { address: '10.1.1.1', internal: false },
        { address: '192.168.1.5', internal: false },
      ],
    }
    expect(privateAddresses(found)).toEqual(['10.1.1.1', '192.168.1.5'])
  })

  test('stand in brackets where they are long', () => {
    expect(authorityOf('fd00::2', 47832)).toBe('[fd00::2]:47832')
    expect(authorityOf('10.0.0.1', 47832)).toBe('10.0.0.1:47832')
  })
})
