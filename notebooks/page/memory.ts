/** What the notebooks share and keep between visits. A browser may refuse it (private window, file://): then nothing is kept. */
export function recall(key: string): unknown {
  try {
    const text = localStorage.getItem(key);
    return text === null ? undefined : JSON.parse(text);
  } catch {
    return undefined;
  }
}

export function keep(key: string, value: unknown) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // The page works without memory.
  }
}
