/** What a course that yields nothing gives in the end. */
export function toEnd<T>(course: Generator<void, T>): T {
  for (let next = course.next(); ; next = course.next()) if (next.done) return next.value;
}
