/** Whether two values hold the same plain data; what is one and the same object is not looked into. */
export function isSameData(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) return false;
  const [keys, others] = [Object.keys(one), Object.keys(other)];
  const isSame = (key: string) =>
    Object.hasOwn(other, key) && isSameData(Reflect.get(one, key), Reflect.get(other, key));
  return keys.length === others.length && keys.every(isSame);
}
