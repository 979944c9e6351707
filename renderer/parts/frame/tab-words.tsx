/** The words of a tab, as wide as they are when it is the chosen one, so that choosing one moves no other. */
export function TabWords({ children }: { readonly children: string }) {
  return (
    <span className="tab-words" data-words={children}>
      {children}
    </span>
  )
}
