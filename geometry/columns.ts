/**
 * Columns of numbers carved out of one buffer. A plan has dozens of short ones, and a buffer for each of them would cost
 * many times what is then done with it.
 */
export class Columns {
  private buffer: ArrayBuffer;
  private used = 0;

  /** Holds this many bytes in one buffer; more columns go into a further one. */
  constructor(bytes: number) {
    this.buffer = new ArrayBuffer(bytes);
  }

  int32(length: number): Int32Array {
    const at = this.take(4 * length);
    return new Int32Array(this.buffer, at, length);
  }

  float64(length: number): Float64Array {
    const at = this.take(8 * length);
    return new Float64Array(this.buffer, at, length);
  }

  /** A column of the same whole numbers. */
  copied(numbers: ArrayLike<number>): Int32Array {
    const column = this.int32(numbers.length);
    column.set(numbers);
    return column;
  }

  private take(bytes: number): number {
    // Numbers of eight bytes must begin at a multiple of eight.
    const whole = Math.ceil(bytes / 8) * 8;
    if (this.used + whole > this.buffer.byteLength) {
      this.buffer = new ArrayBuffer(Math.max(whole, 2 * this.buffer.byteLength));
      this.used = 0;
    }
    const at = this.used;
    this.used += whole;
    return at;
  }

  /** Where the next column would begin. */
  mark(): number {
    return this.used;
  }

  /** Gives back what was taken since the mark: whoever still holds such a column will find other numbers in it. */
  release(mark: number): void {
    this.used = mark;
  }
}

/** For columns that nobody looks at once the function that took them has returned and given them back; not zero. */
export const scratch = new Columns(2 ** 16);
