/** What a course that is left between its pieces gives in the end, when nothing else waits. */
export function toEnd<T>(course: Iterator<void, T>): T {
  for (let next = course.next(); ; next = course.next()) if (next.done) return next.value;
}
