import type { ReactNode } from 'react'
import { Dialog as AriaDialog } from 'react-aria-components/Dialog'
import { Heading } from 'react-aria-components/Heading'
import { Modal, ModalOverlay } from 'react-aria-components/Modal'
import { WordButton } from './button.tsx'

export interface DialogProps {
  readonly title: string
  readonly isOpen: boolean
  readonly onClose: () => void
  readonly size?: 'narrow' | 'usual' | 'wide'
  readonly children: ReactNode
}

export function DialogSheet({ title, isOpen, onClose, size = 'usual', children }: DialogProps) {
  return (
    <ModalOverlay className="overlay" isOpen={isOpen} onOpenChange={(open) => !open && onClose()}>
      <Modal className={`dialog ${size}`}>
        <AriaDialog>
          <div className="dialog-head">
            <Heading slot="title" level={2}>
              {title}
            </Heading>
            <WordButton onClick={onClose}>Close</WordButton>
          </div>
          {children}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  )
}
