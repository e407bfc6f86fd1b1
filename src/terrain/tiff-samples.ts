/** How the numbers of a block lie in its bytes. */
export interface SampleLayout {
  readonly bits: 8 | 16 | 32 | 64;
  readonly kind: 'unsigned' | 'signed' | 'float';
  readonly littleEndian: boolean;
  /** TIFF predictor: 1 none, 2 differences along the row, 3 differences of the bytes of floats. */
  readonly predictor: number;
  /** Samples that lie side by side in one block (bands, when chunky). */
  readonly perPixel: number;
  readonly width: number;
}

type Samples =
  | Uint8Array
  | Int8Array
  | Uint16Array
  | Int16Array
  | Uint32Array
  | Int32Array
  | Float32Array
  | Float64Array;

/** The numbers of an unpacked block; changes its bytes. A block that is cut short gives fewer rows. */
export function samplesOf(block: Uint8Array, layout: SampleLayout): Samples {
  const { bits, predictor, perPixel, width } = layout;
  const size = bits / 8;
  const rowBytes = width * perPixel * size;
  const rows = Math.floor(block.byteLength / rowBytes);
  // typed arrays want their own alignment
  const bytes =
    block.byteOffset % 8 === 0 ? block.subarray(0, rows * rowBytes) : block.slice(0, rows * rowBytes);
  const count = rows * width * perPixel;
  if (predictor === 3) {
    undoFloatPredictor(bytes, rows, rowBytes, size, perPixel);
  } else {
    if (!layout.littleEndian) swap(bytes, size);
    if (predictor === 2) undoDifferences(bytes, rows, width * perPixel, size, perPixel);
  }
  return typed(bytes, count, layout);
}

function typed(bytes: Uint8Array, count: number, { bits, kind }: SampleLayout): Samples {
  const { buffer, byteOffset } = bytes;
  if (kind === 'float')
    return bits === 64
      ? new Float64Array(buffer, byteOffset, count)
      : new Float32Array(buffer, byteOffset, count);
  const signed = kind === 'signed';
  if (bits === 8) return signed ? new Int8Array(buffer, byteOffset, count) : bytes;
  if (bits === 16)
    return signed ? new Int16Array(buffer, byteOffset, count) : new Uint16Array(buffer, byteOffset, count);
  return signed ? new Int32Array(buffer, byteOffset, count) : new Uint32Array(buffer, byteOffset, count);
}

function swap(bytes: Uint8Array, size: number): void {
  if (size === 1) return;
  for (let i = 0; i + size <= bytes.length; i += size) {
    for (let a = i, b = i + size - 1; a < b; a++, b--) {
      const kept = bytes[a]!;
      bytes[a] = bytes[b]!;
      bytes[b] = kept;
    }
  }
}

/** Predictor 2 works on the bits as integers, floats too. */
function undoDifferences(
  bytes: Uint8Array,
  rows: number,
  perRow: number,
  size: number,
  stride: number,
): void {
  if (size === 8) {
    undoWideDifferences(bytes, rows, perRow, stride);
    return;
  }
  const { buffer, byteOffset } = bytes;
  const count = rows * perRow;
  const values =
    size === 1
      ? bytes
      : size === 2
        ? new Uint16Array(buffer, byteOffset, count)
        : new Uint32Array(buffer, byteOffset, count);
  for (let r = 0; r < rows; r++) {
    const end = (r + 1) * perRow;
    for (let i = r * perRow + stride; i < end; i++) values[i] = values[i]! + values[i - stride]!;
  }
}

/** 64-bit sums in two words. */
function undoWideDifferences(bytes: Uint8Array, rows: number, perRow: number, stride: number): void {
  const words = new Uint32Array(bytes.buffer, bytes.byteOffset, rows * perRow * 2);
  for (let r = 0; r < rows; r++) {
    const end = (r + 1) * perRow;
    for (let i = r * perRow + stride; i < end; i++) {
      const low = words[2 * i]! + words[2 * (i - stride)]!;
      words[2 * i + 1] = words[2 * i + 1]! + words[2 * (i - stride) + 1]! + (low > 0xffffffff ? 1 : 0);
      words[2 * i] = low;
    }
  }
}

/**
 * Predictor 3 (Adobe Photoshop TIFF technical note 3): the bytes of a row stand sorted by significance, then as differences.
 * Little-endian floats come out.
 */
function undoFloatPredictor(
  bytes: Uint8Array,
  rows: number,
  rowBytes: number,
  size: number,
  stride: number,
): void {
  const sorted = new Uint8Array(rowBytes);
  const perRow = rowBytes / size;
  const words = size === 4 ? new Uint32Array(bytes.buffer, bytes.byteOffset, rows * perRow) : null;
  for (let r = 0; r < rows; r++) {
    const from = r * rowBytes;
    if (stride === 1 && words !== null) {
      sorted.set(bytes.subarray(from, from + rowBytes));
      undoFloatRow(sorted, words, r * perRow, perRow);
      continue;
    }
    for (let i = 0; i < stride; i++) sorted[i] = bytes[from + i]!;
    for (let i = stride; i < rowBytes; i++) sorted[i] = bytes[from + i]! + sorted[i - stride]!;
    for (let i = 0; i < perRow; i++) {
      for (let b = 0; b < size; b++) bytes[from + i * size + b] = sorted[(size - 1 - b) * perRow + i]!;
    }
  }
}

/** A row of one band of 32-bit floats: the four runs of bytes are summed side by side, each from where the one before ends. */
function undoFloatRow(sorted: Uint8Array, words: Uint32Array, start: number, perRow: number): void {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  for (let i = 0; i < perRow; i++) {
    b += sorted[i]!;
    c += sorted[perRow + i]!;
    d += sorted[2 * perRow + i]!;
  }
  c += b;
  d += c;
  for (let i = 0; i < perRow; i++) {
    a += sorted[i]!;
    b += sorted[perRow + i]!;
    c += sorted[2 * perRow + i]!;
    d += sorted[3 * perRow + i]!;
    words[start + i] = (a << 24) | ((b & 255) << 16) | ((c & 255) << 8) | (d & 255);
  }
}
