/** Who is told, in this process, that a commit was written. */
import type { Store } from './store.ts'

export interface CommitListeners {
  readonly onCommit: Store['onCommit']
  /** Tells them all, in the order in which they came. */
  tell(): void
}

export function commitListeners(): CommitListeners {
  // Each in an object of its own: the same function may listen twice.
  const listening = new Set<{ readonly listener: () => void }>()
  return {
    onCommit(listener) {
      const place = { listener }
      listening.add(place)
      return () => {
        listening.delete(place)
      }
    },
    tell() {
      for (const { listener } of listening) listener()
    },
  }
}
