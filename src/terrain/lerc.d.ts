/* The part of lerc 3.0 that this room uses; the package carries no types. */
declare module 'lerc' {
  interface Decoded {
    readonly pixels: readonly (
      | Float32Array
      | Float64Array
      | Int32Array
      | Uint32Array
      | Int16Array
      | Uint16Array
      | Int8Array
      | Uint8Array
    )[];
    readonly mask?: Uint8Array | null;
  }
  const lerc: { decode(input: ArrayBuffer, options?: { returnPixelInterleavedDims?: boolean }): Decoded };
  export default lerc;
}
