/** The functions of the Cephes library that the tests use; the package's own types are not found by its module entry. */
declare module "cephes" {
  const cephes: {
    /** To be awaited before the first call. */
    readonly compiled: Promise<void>;
    j0(x: number): number;
    iv(order: number, x: number): number;
    expn(n: number, x: number): number;
    erfc(x: number): number;
    /** Share of a gamma distribution of shape `a` and scale 1 that lies above x. */
    igamc(a: number, x: number): number;
  };
  export default cephes;
}
