import { scratch } from './columns.ts';

/** Numbers pairs of integers in the order in which they come, equal pairs alike. Lives no longer than the scratch it stands on. */
export class PairTable {
  readonly a: number[] = [];
  readonly b: number[] = [];
  /** Open addressing: the number of a pair, or −1. */
  private places: Int32Array;

  /** @param expected pairs to make room for; more may come */
  constructor(expected: number) {
    let size = 16;
    while (size < 2 * expected) size *= 2;
    this.places = scratch.int32(size).fill(-1);
  }

  /** The number of a pair; a new one for a pair that is new. */
  at(a: number, b: number): number {
    const place = this.placeOf(a, b);
    const known = this.places[place]!;
    if (known >= 0) return known;
    const n = this.a.push(a) - 1;
    this.b.push(b);
    this.places[place] = n;
    if (2 * n > this.places.length) this.grow();
    return n;
  }

  /** Where the pair stands, or would. */
  private placeOf(a: number, b: number): number {
    const { places } = this;
    const last = places.length - 1;
    const mixed = Math.imul(a, 0x9e3779b1) ^ Math.imul(b, 0x85ebca77);
    let place = (mixed ^ (mixed >>> 15)) & last;
    for (;;) {
      const n = places[place]!;
      if (n < 0 || (this.a[n] === a && this.b[n] === b)) return place;
      place = (place + 1) & last;
    }
  }

  private grow(): void {
    this.places = scratch.int32(2 * this.places.length).fill(-1);
    for (let n = 0; n < this.a.length; n++) this.places[this.placeOf(this.a[n]!, this.b[n]!)] = n;
  }
}
