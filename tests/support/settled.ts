/** More turns than cells, asks and their results ever take one after another. */
const TURNS = 20;

/** Until cells have nothing left to compute: their runtime works turn by turn, by no clock, so that no machine is too slow. */
export async function settled(): Promise<void> {
  for (let turn = 0; turn < TURNS; turn++) await new Promise((done) => setImmediate(done));
}
