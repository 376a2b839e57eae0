/** The functions of the Cephes library that the tests use; the package's own types are not found by its module entry. */
declare module "cephes" {
  const cephes: {
    /** To be awaited before the first call. */
    readonly compiled: Promise<void>;
    j0(x: number): number;
    iv(order: number, x: number): number;
    expn(n: number, x: number): number;
    erfc(x: number): number;
  };
  export default cephes;
}
